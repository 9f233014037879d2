/* order-private.h - what the parts of the order solver share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/order.h"

G_BEGIN_DECLS

#define HW_ORDER_FAR (G_MAXINT / 4)      /* no way from here to there */

typedef struct { gsize first, end; } HwOrderSpan;

/* The problem, closed and with everything that does not depend on the state worked out beforehand.
 * A node is a set-up, or (n_setups + m) what is mounted on machine m before the first change. The place
 * n_machines stands for "not sitting anywhere yet". Operations that take the same set-ups are of one class; where each
 * takes one alone, a class is a set-up. Sets of operations and of set-ups are rows of 64-bit words. */
typedef struct
{
  const HwOrderProblem *problem;
  gsize    n, n_setups, n_machines, n_nodes, n_words, n_setup_words, n_classes;
  int     *change;          /* [n_nodes x n_nodes] closed */
  int     *walk;            /* [(n_machines + 1) squared] closed */
  int     *sequence;        /* all operations in the person's order, mended */
  guint64 *before;          /* [n x n_words] all that must come before, transitive */
  HwOrderSpan *span;        /* [n] the words of that row that are not empty */
  int     *members;         /* operations by set-up they take, each set-up's in sequence */
  gsize   *first_member;    /* [n_setups + 1] */
  int     *class_of;        /* [n] */
  int     *machine_of;      /* [n_classes] */
  int     *class_size;      /* [n_classes] set-ups that it takes */
  int     *by_size;         /* [n_classes] classes, those that take the fewest first */
  guint64 *accept;          /* [n_classes x n_setup_words] */
  int     *reach;           /* [n_nodes x n_classes] cheapest change into a set-up that the class takes */
  int     *between;         /* [n_classes squared] the same from the nearest that the first class takes */
  int     *enter;           /* [n_classes squared] the same from one that the second does not take; HW_ORDER_FAR none */
  guint8  *apart;           /* [n_classes squared] of one machine and no set-up in common */
  guint64 *others;          /* [n_classes x n_words] operations of the classes apart from it */
  guint64 *sewn_on;         /* [n_machines x n_words] operations of each machine */
  int     *tail;            /* [n] dearest chain of changes after it, among its own machine's operations */
  int     *walk_tail;       /* [n] dearest chain of walks after it */
  int     *runs;            /* [n] most separate runs of its class on a chain of its machine that starts with it */
} HwOrderFacts;

/* The first @n_setups of the problem's set-ups. NULL: circle. */
HwOrderFacts *hw_order_facts_new  (const HwOrderProblem *problem, gsize n_setups);
void          hw_order_facts_free (HwOrderFacts *self);
/* Of an order with the set-ups given. */
int           hw_order_facts_cost (const HwOrderFacts *self, const int *order, const int *setup);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwOrderFacts, hw_order_facts_free)

static inline int
hw_order_change (const HwOrderFacts *self, gsize from, gsize to)
{
  return self->change[from * self->n_nodes + to];
}

static inline int
hw_order_walk (const HwOrderFacts *self, gsize from, gsize to)
{
  return self->walk[from * (self->n_machines + 1) + to];
}

static inline gboolean
hw_order_set_has (const guint64 *set, gsize index)
{
  return (set[index / 64] >> (index % 64)) & 1;
}

static inline void
hw_order_set_add (guint64 *set, gsize index)
{
  set[index / 64] |= (guint64) 1 << (index % 64);
}

static inline void
hw_order_set_remove (guint64 *set, gsize index)
{
  set[index / 64] &= ~((guint64) 1 << (index % 64));
}

/* The first of the set from @from on; @n when there is none below @n. */
static inline gsize
hw_order_set_next (const guint64 *set, gsize from, gsize n)
{
  for (gsize w = from / 64; from < n; w++, from = w * 64)
    {
      guint64 rest = set[w] >> (from % 64);

      if (rest != 0)
        return from + (gsize) __builtin_ctzll (rest);
    }
  return n;
}

static inline gboolean
hw_order_set_holds (const guint64 *set, const guint64 *part, gsize n_words)
{
  for (gsize w = 0; w < n_words; w++)
    if (part[w] & ~set[w])
      return FALSE;
  return TRUE;
}

static inline gboolean
hw_order_is_cancelled (const HwOrderLimits *limits)
{
  return limits->cancelled != NULL && g_atomic_int_get (limits->cancelled) != 0;
}

static inline gboolean
hw_order_takes (const HwOrderFacts *self, gsize operation, gsize setup)
{
  return hw_order_set_has (self->accept + (gsize) self->class_of[operation] * self->n_setup_words, setup);
}

static inline int
hw_order_distance (const HwOrderFacts *self, gsize operation, gsize setup)
{
  const int *distance = self->problem->distance;

  return self->problem->accept == NULL || distance == NULL ? 0
                                                           : distance[operation * self->problem->n_setups + setup];
}

typedef struct { int cost, distance; } HwOrderScore;

static inline gboolean
hw_order_score_less (HwOrderScore a, HwOrderScore b)
{
  return a.cost != b.cost ? a.cost < b.cost : a.distance < b.distance;
}

/* Beam search, then best-first: writes the best order found, and the bound. */
void hw_order_search         (const HwOrderFacts *facts, const HwOrderLimits *limits, HwOrderResult *result);
/* Of the orders of least cost one of least distance: TRUE when it is proved that @result is, FALSE when @max_states did
 * not suffice. Writes better ones on the way. */
gboolean hw_order_search_nearest (const HwOrderFacts *facts, guint max_states, const HwOrderLimits *limits,
                                  HwOrderResult *result);

/* The set-ups that suit @order best: least cost, then least distance. */
HwOrderScore hw_order_choose (const HwOrderFacts *facts, const int *order, int *setup);
/* Moves operations to where what they prefer is mounted, when that costs nothing. Limited by count. */
void hw_order_draw_nearer    (const HwOrderFacts *facts, HwOrderResult *result);

/* Moves @order nearer to the person's own wherever that costs nothing. */
void hw_order_settle_ties    (const HwOrderFacts *facts, int *order, const int *setup);

G_END_DECLS
