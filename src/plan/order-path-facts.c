/* order-path-facts.c - what follows from the arrows of a general ordering problem
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/order-path-private.h"

#include <string.h>

static void
fill_before (HwPathFacts *self, const HwPathProblem *problem)
{
  g_autofree int *first = g_new0 (int, self->n + 2);
  g_autofree int *sources = g_new0 (int, problem->n_arrows + 1);

  for (gsize a = 0; a < problem->n_arrows; a++)
    first[problem->arrows[a].after + 1]++;
  for (gsize i = 0; i < self->n; i++)
    first[i + 1] += first[i];
  for (gsize a = 0; a < problem->n_arrows; a++)
    sources[first[problem->arrows[a].after]++] = problem->arrows[a].before;
  for (gsize s = 0; s < self->n; s++)
    {
      gsize operation = (gsize) self->listed[s];
      guint64 *row = self->before + operation * self->n_words;

      for (int a = operation == 0 ? 0 : first[operation - 1]; a < first[operation]; a++)
        {
          for (gsize w = 0; w < self->n_words; w++)
            row[w] |= self->before[(gsize) sources[a] * self->n_words + w];
          hw_order_set_add (row, (gsize) sources[a]);
        }
    }
}

/* The same sets the other way round. */
static void
fill_after (HwPathFacts *self)
{
  for (gsize k = 0; k < self->n; k++)
    for (gsize i = 0; i < self->n; i++)
      if (hw_order_set_has (self->before + k * self->n_words, i))
        {
          hw_order_set_add (self->after + i * self->n_words, k);
          self->n_before[k]++;
          self->n_after[i]++;
        }
}

static gboolean
share_any (const guint64 *a, const guint64 *b, gsize n_words)
{
  for (gsize w = 0; w < n_words; w++)
    if (a[w] & b[w])
      return TRUE;
  return FALSE;
}

/* @a comes before @b and nothing must come between. */
static gboolean
is_immediate (const HwPathFacts *self, gsize a, gsize b)
{
  return hw_order_set_has (self->before + b * self->n_words, a)
         && !share_any (self->after + a * self->n_words, self->before + b * self->n_words, self->n_words);
}

static void
fill_immediate (HwPathFacts *self)
{
  g_autoptr (GArray) earlier = g_array_new (FALSE, FALSE, sizeof (int));
  g_autoptr (GArray) later = g_array_new (FALSE, FALSE, sizeof (int));

  for (int i = 0; i < (int) self->n; i++)
    {
      for (int k = 0; k < (int) self->n; k++)
        {
          if (is_immediate (self, (gsize) k, (gsize) i))
            g_array_append_val (earlier, k);
          if (is_immediate (self, (gsize) i, (gsize) k))
            g_array_append_val (later, k);
        }
      self->first_earlier[i + 1] = (int) earlier->len;
      self->first_later[i + 1] = (int) later->len;
    }
  self->earlier = (int *) (void *) g_array_free (g_steal_pointer (&earlier), FALSE);
  self->later = (int *) (void *) g_array_free (g_steal_pointer (&later), FALSE);
}

/* The dearest arc out of each operation, all together, and one more. */
static int
work_out_far (const HwPathProblem *problem)
{
  gint64 sum = 1;
  int dearest = 0;

  for (gsize a = 0; a < problem->n_operations; a++, dearest = 0)
    {
      for (gsize b = 0; b < problem->n_operations; b++)
        if (a != b)
          dearest = MAX (dearest, problem->cost[a * problem->n_operations + b]);
      sum += dearest;
    }
  for (gsize b = 0; problem->entry != NULL && b < problem->n_operations; b++)
    dearest = MAX (dearest, problem->entry[b]);
  sum += dearest;
  g_return_val_if_fail (sum < G_MAXINT, G_MAXINT);
  return (int) sum;
}

static void
fill_cost (HwPathFacts *self, const HwPathProblem *problem)
{
  for (gsize a = 0; a < self->n; a++)
    for (gsize b = 0; b < self->n; b++)
      {
        int cost = problem->cost[a * self->n + b];
        gboolean can_follow = a != b && cost >= 0 && !hw_order_set_has (self->before + a * self->n_words, b)
                              && !share_any (self->after + a * self->n_words, self->before + b * self->n_words,
                                             self->n_words);

        self->cost[a * self->stride + b] = can_follow ? cost : self->far;
      }
  for (gsize b = 0; b < self->n; b++)
    {
      int cost = problem->entry == NULL ? 0 : problem->entry[b];

      self->cost[self->n * self->stride + b] = cost >= 0 && self->n_before[b] == 0 ? cost : self->far;
      self->cost[b * self->stride + self->n] = self->n_after[b] == 0 ? 0 : self->far;
    }
  /* From the start to the end only when there is nothing to do. */
  self->cost[self->n * self->stride + self->n] = self->n == 0 ? 0 : self->far;
}

HwPathFacts *
hw_path_facts_new (const HwPathProblem *problem)
{
  g_autoptr (HwPathFacts) self = g_new0 (HwPathFacts, 1);
  gsize n = problem->n_operations;

  self->n = n;
  self->stride = n + 1;
  self->n_words = n / 64 + 1;
  self->listed = hw_order_as_listed (n, problem->arrows, problem->n_arrows);
  if (self->listed == NULL)
    return NULL;

  self->cost = g_new0 (int, self->stride * self->stride);
  self->before = g_new0 (guint64, n * self->n_words + 1);
  self->after = g_new0 (guint64, n * self->n_words + 1);
  self->n_before = g_new0 (int, n + 1);
  self->n_after = g_new0 (int, n + 1);
  self->first_earlier = g_new0 (int, n + 1);
  self->first_later = g_new0 (int, n + 1);
  self->far = work_out_far (problem);
  fill_before (self, problem);
  fill_after (self);
  fill_immediate (self);
  fill_cost (self, problem);
  return g_steal_pointer (&self);
}

HwPathFacts *
hw_path_facts_turn (const HwPathFacts *self)
{
  HwPathFacts *turned = g_new0 (HwPathFacts, 1);
  gsize n = self->n;
  gsize set_size = (n * self->n_words + 1) * sizeof (guint64);

  turned->n = n;
  turned->n_words = self->n_words;
  turned->stride = self->stride;
  turned->far = self->far;
  turned->cost = g_new (int, self->stride * self->stride);
  for (gsize a = 0; a < self->stride; a++)
    for (gsize b = 0; b < self->stride; b++)
      turned->cost[a * self->stride + b] = self->cost[b * self->stride + a];
  turned->before = g_memdup2 (self->after, set_size);
  turned->after = g_memdup2 (self->before, set_size);
  turned->n_before = g_memdup2 (self->n_after, (n + 1) * sizeof (int));
  turned->n_after = g_memdup2 (self->n_before, (n + 1) * sizeof (int));
  turned->first_earlier = g_memdup2 (self->first_later, (n + 1) * sizeof (int));
  turned->first_later = g_memdup2 (self->first_earlier, (n + 1) * sizeof (int));
  turned->earlier = g_memdup2 (self->later, (gsize) self->first_later[n] * sizeof (int));
  turned->later = g_memdup2 (self->earlier, (gsize) self->first_earlier[n] * sizeof (int));
  turned->listed = g_new (int, n + 1);
  for (gsize p = 0; p < n; p++)
    turned->listed[p] = self->listed[n - 1 - p];
  return turned;
}

void
hw_path_facts_free (HwPathFacts *self)
{
  if (self == NULL)
    return;
  g_free (self->cost);
  g_free (self->before);
  g_free (self->after);
  g_free (self->n_before);
  g_free (self->n_after);
  g_free (self->first_earlier);
  g_free (self->earlier);
  g_free (self->first_later);
  g_free (self->later);
  g_free (self->listed);
  g_free (self);
}

gint64
hw_path_facts_cost (const HwPathFacts *self, const int *order)
{
  gsize last = self->n;
  gint64 cost = 0;

  for (gsize i = 0; i < self->n; i++)
    {
      cost += hw_path_cost (self, last, (gsize) order[i]);
      last = (gsize) order[i];
    }
  return cost + hw_path_cost (self, last, self->n);
}
