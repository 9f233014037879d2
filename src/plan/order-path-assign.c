/* order-path-assign.c - prices from the cheapest assignment of a next node to every node
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Shortest augmenting paths with prices on rows and columns (the Hungarian method; J. Munkres, J. SIAM 5,
 * 1957; R. Jonker, A. Volgenant, Computing 38, 1987). An order is an assignment, so the sum of the prices is a
 * bound, at every stage of the method.
 */

#include "config.h"

#include "plan/order-path-private.h"

#include <string.h>

typedef struct
{
  const HwPathFacts *facts;
  gint64   *row;             /* prices */
  gint64   *column;
  int      *row_of;          /* [stride] row assigned to a column; -1 */
  int      *column_of;       /* [stride] column assigned to a row; -1 */
  gint64   *distance;        /* [stride] to a column along the tree */
  int      *from;            /* [stride] row from which it is reached */
  gboolean *in_tree;
} Assignment;

static gint64
reduced (const Assignment *self, gsize row, gsize column)
{
  return hw_path_cost (self->facts, row, column) - self->row[row] - self->column[column];
}

/* Least entries as prices, and whatever can be assigned at no cost. */
static void
start_greedily (Assignment *self)
{
  gsize size = self->facts->stride;

  for (gsize c = 0; c < size; c++)
    {
      self->column[c] = G_MAXINT;
      for (gsize r = 0; r < size; r++)
        self->column[c] = MIN (self->column[c], hw_path_cost (self->facts, r, c));
      self->row_of[c] = -1;
    }
  for (gsize r = 0; r < size; r++)
    {
      self->row[r] = G_MAXINT;
      for (gsize c = 0; c < size; c++)
        self->row[r] = MIN (self->row[r], hw_path_cost (self->facts, r, c) - self->column[c]);
      self->column_of[r] = -1;
      for (gsize c = 0; c < size && self->column_of[r] < 0; c++)
        if (self->row_of[c] < 0 && reduced (self, r, c) == 0)
          {
            self->row_of[c] = (int) r;
            self->column_of[r] = (int) c;
          }
    }
}

static gsize
nearest_outside (const Assignment *self)
{
  gsize nearest = G_MAXSIZE;

  for (gsize c = 0; c < self->facts->stride; c++)
    if (!self->in_tree[c] && (nearest == G_MAXSIZE || self->distance[c] < self->distance[nearest]))
      nearest = c;
  return nearest;
}

/* Distances grow from @row along a shortest path tree until a free column is reached; prices follow. */
static gsize
reach_free_column (Assignment *self, gsize row)
{
  gsize size = self->facts->stride;
  gsize column;

  memset (self->in_tree, 0, size * sizeof (gboolean));
  for (gsize c = 0; c < size; c++)
    {
      self->distance[c] = reduced (self, row, c);
      self->from[c] = (int) row;
    }
  while (self->row_of[column = nearest_outside (self)] >= 0)
    {
      gsize next = (gsize) self->row_of[column];

      self->in_tree[column] = TRUE;
      for (gsize c = 0; c < size; c++)
        if (!self->in_tree[c] && self->distance[column] + reduced (self, next, c) < self->distance[c])
          {
            self->distance[c] = self->distance[column] + reduced (self, next, c);
            self->from[c] = (int) next;
          }
    }
  self->row[row] += self->distance[column];
  for (gsize c = 0; c < size; c++)
    if (self->in_tree[c])
      {
        self->row[self->row_of[c]] += self->distance[column] - self->distance[c];
        self->column[c] -= self->distance[column] - self->distance[c];
      }
  return column;
}

static void
augment (Assignment *self, gsize row, gsize column)
{
  gsize taken_from;

  do
    {
      int next = self->column_of[taken_from = (gsize) self->from[column]];

      self->row_of[column] = (int) taken_from;
      self->column_of[taken_from] = (int) column;
      column = (gsize) next;
    }
  while (taken_from != row);
}

void
hw_path_assign (const HwPathFacts *facts, const HwOrderLimits *limits, gint64 *row, gint64 *column)
{
  gsize size = facts->stride;
  g_autofree int *row_of = g_new (int, size);
  g_autofree int *column_of = g_new (int, size);
  g_autofree gint64 *distance = g_new (gint64, size);
  g_autofree int *from = g_new (int, size);
  g_autofree gboolean *in_tree = g_new (gboolean, size);
  Assignment self = { facts, row, column, row_of, column_of, distance, from, in_tree };

  start_greedily (&self);
  for (gsize r = 0; r < size && !hw_order_is_cancelled (limits); r++)
    if (self.column_of[r] < 0)
      augment (&self, r, reach_free_column (&self, r));
}
