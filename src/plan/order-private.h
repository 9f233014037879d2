/* order-private.h - what the parts of the order solver share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/order.h"

G_BEGIN_DECLS

#define HW_ORDER_FAR (G_MAXINT / 4)      /* no way from here to there */

/* The problem, closed and with everything that does not depend on the state worked out beforehand.
 * A node is a set-up, or (n_setups + m) what is mounted on machine m before the first change. The place
 * n_machines stands for "not sitting anywhere yet". Sets of operations are rows of 64-bit words. */
typedef struct
{
  const HwOrderProblem *problem;
  gsize    n, n_setups, n_machines, n_nodes, n_words;
  int     *change;          /* [n_nodes x n_nodes] closed */
  int     *walk;            /* [(n_machines + 1) squared] closed */
  int     *sequence;        /* all operations in the person's order, mended */
  guint64 *before;          /* [n x n_words] all that must come before, transitive */
  int     *members;         /* operations by set-up, each set-up's in sequence */
  gsize   *first_member;    /* [n_setups + 1] */
  int     *tail;            /* [n] dearest chain of changes after it, among its own machine's operations */
  int     *walk_tail;       /* [n] dearest chain of walks after it */
  int     *runs;            /* [n] most separate runs of its own set-up on a chain of its machine that starts with it */
} HwOrderFacts;

HwOrderFacts *hw_order_facts_new  (const HwOrderProblem *problem);    /* NULL: circle */
void          hw_order_facts_free (HwOrderFacts *self);
int           hw_order_facts_cost (const HwOrderFacts *self, const int *order);
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

/* Beam search, then best-first: writes the best order found. */
void hw_order_search (const HwOrderFacts *facts, const HwOrderLimits *limits, HwOrderResult *result);

/* Moves @order nearer to the person's own wherever that costs nothing. */
void hw_order_settle_ties (const HwOrderFacts *facts, int *order);

G_END_DECLS
