/* order-together.h - an order of work in which some operations stay together
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/order.h"

G_BEGIN_DECLS

/* Operations to do in this order with no other between them. An operation is in one run at most. */
typedef struct
{
  gsize      n_members;            /* >= 1 */
  const int *members;
} HwOrderRun;

/* As hw_order_solve_within(), with @runs kept whole. NULL also when an arrow leads from one member of a run through
 * others to a member before it, or through an operation that is not in it. */
HwOrderResult *hw_order_solve_together (const HwOrderProblem *problem, const HwOrderRun *runs, gsize n_runs,
                                        const HwOrderLimits *limits);

G_END_DECLS
