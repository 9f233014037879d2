/* graph.h - published precedence graphs of assembly work
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/order.h"

typedef struct
{
  gsize   n;
  GArray *arrows;       /* HwOrderArrow, from 0 */
} Graph;

/* .IN2: the number of tasks, a time for each, pairs until -1,-1 (A. Scholl, Data of assembly line balancing problems,
 * TU Darmstadt, 1993); .alb: sections (A. Otto, C. Otto, A. Scholl, European Journal of Operational Research 228,
 * 2013). */
Graph *graph_read (const char *path, GError **error);
void   graph_free (Graph *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Graph, graph_free)
