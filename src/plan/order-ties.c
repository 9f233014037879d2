/* order-ties.c - among orders of equal cost, one nearer to the person's own
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A step, or a whole run of one set-up, moves ahead of steps that the person listed later, when the
 * arrows allow it and the cost does not rise. Each move removes pairs that stand the wrong way round, or
 * leaves as many and brings an earlier step to the front, so it ends; passes and effort are
 * limited besides, by count, so that a huge project takes no longer.
 */

#include "config.h"

#include "plan/order-private.h"

#define MAX_PASSES 6
#define MAX_EFFORT 20000000              /* operations looked at */

static gsize
run_end (const HwOrderFacts *facts, const int *order, const int *setup, gsize start)
{
  gsize end = start + 1;

  while (end < facts->n && setup[order[end]] == setup[order[start]])
    end++;
  return end;
}

/* Pairs the wrong way round that moving [start, end) to @to would add; G_MAXINT when an arrow forbids it. */
static int
count_pairs (const HwOrderFacts *facts, const int *order, gsize to, gsize start, gsize end)
{
  int pairs = 0;

  for (gsize i = to; i < start; i++)
    for (gsize k = start; k < end; k++)
      {
        if (hw_order_set_has (facts->before + (gsize) order[k] * facts->n_words, (gsize) order[i]))
          return G_MAXINT;
        pairs += order[i] > order[k] ? -1 : 1;
      }
  return pairs;
}

static void
move_run (int *order, int *moved, gsize n, gsize to, gsize start, gsize end)
{
  memcpy (moved, order, to * sizeof (int));
  memcpy (moved + to, order + start, (end - start) * sizeof (int));
  memcpy (moved + to + (end - start), order + to, (start - to) * sizeof (int));
  memcpy (moved + end, order + end, (n - end) * sizeof (int));
}

/* The best place for [start, end) further ahead; TRUE when it moved. */
static gboolean
improve_run (const HwOrderFacts *facts, int *order, const int *setup, int *moved, int cost, gsize start, gsize end,
             gsize *effort)
{
  gsize best_to = start;
  int best_pairs = 0;

  for (gsize to = 0; to < start; to++)
    {
      int pairs = count_pairs (facts, order, to, start, end);

      *effort += (start - to) * (end - start);
      if (pairs > best_pairs || (pairs == best_pairs && (best_to < start || order[to] < order[start])))
        continue;
      *effort += 2 * facts->n;
      move_run (order, moved, facts->n, to, start, end);
      if (hw_order_facts_cost (facts, moved, setup) > cost)
        continue;
      best_to = to;
      best_pairs = pairs;
    }
  if (best_to == start)
    return FALSE;
  move_run (order, moved, facts->n, best_to, start, end);
  memcpy (order, moved, facts->n * sizeof (int));
  return TRUE;
}

void
hw_order_settle_ties (const HwOrderFacts *facts, int *order, const int *setup)
{
  g_autofree int *moved = g_new0 (int, facts->n + 1);
  int cost = hw_order_facts_cost (facts, order, setup);
  gboolean changed = TRUE;
  gsize effort = 0;

  for (int pass = 0; pass < MAX_PASSES && changed; pass++)
    {
      changed = FALSE;
      for (gsize start = 0; start < facts->n && effort < MAX_EFFORT; start++)
        {
          changed |= improve_run (facts, order, setup, moved, cost, start, run_end (facts, order, setup, start),
                                  &effort);
          changed |= improve_run (facts, order, setup, moved, cost, start, start + 1, &effort);
        }
    }
}
