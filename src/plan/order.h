/* order.h - the order of work with the least change time, on plain arrays
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Costs are whole thousandths of a minute, so that sums are exact and "proved" means proved.
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

#define HW_ORDER_MAX_COST 1000000        /* of one change or walk: sums stay within an int */

typedef struct { int before, after; } HwOrderArrow;

/* Operations are numbered in the person's own order. Arrays are borrowed for the length of the call. */
typedef struct
{
  gsize               n_operations;
  const int          *setup;       /* [n_operations] */
  gsize               n_arrows;
  const HwOrderArrow *arrows;      /* need not be transitive; must not run in a circle */
  gsize               n_setups;
  const int          *machine;     /* [n_setups] */
  const int          *change;      /* [n_setups x n_setups] from row to column; read only within a machine */
  const int          *entry;       /* [n_setups] from what is mounted on its machine now */
  gsize               n_machines;
  const int          *walk;        /* [n_machines x n_machines], the diagonal is not read */
  int                 at;          /* the machine one sits at; -1 none yet: the first costs no walk */

  /* Where an operation may take one of several set-ups of its machine, and how far each lies from the one it prefers,
   * which is @setup with distance 0. NULL: it takes @setup. */
  const guint64      *accept;      /* [n_operations x HW_ORDER_SETUP_WORDS (n_setups)] 1 << set-up */
  const int          *distance;    /* [n_operations x n_setups], >= 0, read where accepted; NULL: all 0 */
  gsize               n_core;      /* the first set-ups suffice for the least cost, one for each operation; 0: all */
  gboolean            closed;      /* no way over a third set-up is cheaper than the direct one: @change, @entry */
  const int          *first;       /* [n_operations] an order to start from, besides the person's own; NULL none */
} HwOrderProblem;

#define HW_ORDER_SETUP_WORDS(n_setups) ((n_setups) / 64 + 1)

typedef struct
{
  gsize    n_operations;
  int     *order;
  int     *setup;                  /* [n_operations] what each takes */
  int      cost;                   /* of the order, on matrices closed under shortest paths */
  int      bound;                  /* no order costs less; equals cost when proved */
  gboolean proved;
  int      distance;               /* from what is preferred, over all operations */
  gboolean nearest;                /* proved, and nothing of that cost has less distance */
  guint    n_states;               /* states kept by the proof */
} HwOrderResult;

/* How far a search may go. */
typedef struct
{
  guint      max_states;           /* kept by the proof */
  gsize      max_bytes;            /* of memory for them; 0: no limit but max_states */
  guint      max_kicks;            /* of the local search, which only order-path.h has */
  const int *cancelled;            /* read atomically; non-zero: return the best so far at once. NULL: never */
} HwOrderLimits;

/* The best order found, proved if the search closed within @max_states. The same input gives the same
 * result. NULL when the arrows run in a circle. */
HwOrderResult *hw_order_solve       (const HwOrderProblem *problem, guint max_states);
HwOrderResult *hw_order_solve_within (const HwOrderProblem *problem, const HwOrderLimits *limits);
void           hw_order_result_free (HwOrderResult *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwOrderResult, hw_order_result_free)

/* What @order costs, on closed matrices, with the set-ups that suit it best. It must hold every operation once. */
int            hw_order_cost        (const HwOrderProblem *problem, const int *order);

/* Puts @order in place of that of @result, with the set-ups that suit it, where it keeps to the arrows and costs no
 * more: TRUE. The bound and what is proved stay. */
gboolean       hw_order_keep        (const HwOrderProblem *problem, const int *order, HwOrderResult *result);

/* The person's own order, mended where the arrows forbid it: each time the first operation that may be
 * done. (transfer full), NULL when the arrows run in a circle. */
int           *hw_order_as_listed   (gsize n_operations, const HwOrderArrow *arrows, gsize n_arrows);

G_END_DECLS
