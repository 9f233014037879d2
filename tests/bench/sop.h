/* sop.h - published instances of the sequential ordering problem, read and checked
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/order-path.h"

/* A square table: an entry of -1 in row i, column j says that j comes before i, and that i -> j is forbidden. */
typedef struct
{
  gsize   n;
  int    *table;          /* [n squared] */
  GArray *arrows;         /* HwOrderArrow */
  int    *cost;           /* [n squared] for the solver */
} Sop;

Sop     *sop_read  (const char *path, GError **error);
void     sop_free  (Sop *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Sop, sop_free)

HwPathProblem sop_problem (const Sop *self);

/* The cost of @order by the table alone; -1 when it is none, breaks an arrow or uses a forbidden arc. */
gint64   sop_check (const Sop *self, const int *order);
