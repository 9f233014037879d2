/* order-path.h - the cheapest order when what a step costs may depend on any pair, on plain arrays
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The general case behind order.h: every operation is its own set-up, going from one to the next costs what
 * the table says, however odd, and some may not follow each other at all.
 */

#pragma once
#include "plan/order.h"

G_BEGIN_DECLS

#define HW_PATH_NEVER (-1)               /* in the table: may not follow directly */

/* Arrays are borrowed for the length of the call. */
typedef struct
{
  gsize               n_operations;      /* at most G_MAXUINT16 */
  /* [n_operations squared] from row to column, or HW_PATH_NEVER; the diagonal is not read */
  const int          *cost;
  const int          *entry;             /* [n_operations] to begin with it, or HW_PATH_NEVER; NULL: nothing */
  gsize               n_arrows;
  const HwOrderArrow *arrows;            /* need not be transitive; must not run in a circle */
} HwPathProblem;

/* The best order found; the same input and limits give the same result. The dearest arcs out of every
 * operation must sum to an int. NULL when the arrows run in a circle. When no order was found, the result's
 * order is NULL and its cost HW_PATH_NEVER; "proved" then says that there is none. */
HwOrderResult *hw_order_path_solve (const HwPathProblem *problem, const HwOrderLimits *limits);

G_END_DECLS
