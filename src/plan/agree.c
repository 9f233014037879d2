/* agree.c - few set-ups for many operations
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Machine by machine. Operations of one stitch and thread (a kind) can share a whole set-up; those of
 * different kinds can still share a needle, a foot or a plate. So for each kind all the covers of least
 * size are listed (agree-kind.c), and of each kind one is picked such that the spanning tree over all the
 * set-ups picked is least, then the distance from what was preferred. The picking is a depth-first
 * search over kinds. What it has picked so far bounds the tree from below: each part changes at least as often as
 * it has further values, and stitch and thread cost at least their own tree.
 */

#include "config.h"

#include "plan/agree-private.h"

#include <string.h>

#define MAX_PICKS 20000

static int
node_change (const HwAgreeProblem *problem, const HwAgreeNode *a, const HwAgreeNode *b)
{
  int change = a->kind == b->kind ? 0 : MIN (problem->kind_cost[(gsize) a->kind * problem->n_kinds + (gsize) b->kind],
                                             problem->kind_cost[(gsize) b->kind * problem->n_kinds + (gsize) a->kind]);

  for (int p = 0; p < HW_AGREE_N_PARTS; p++)
    change += a->choice.value[p] != b->choice.value[p] ? problem->cost[p] : 0;
  return change;
}

/* Prim's method. */
int
hw_agree_span (const HwAgreeProblem *problem, const HwAgreeNode *nodes, gsize n)
{
  g_autofree int *distance = g_new (int, n + 1);
  int total = 0;

  for (gsize i = 0; i < n; i++)
    distance[i] = i == 0 ? -1 : node_change (problem, &nodes[0], &nodes[i]);
  for (gsize joined = 1; joined < n; joined++)
    {
      gsize nearest = 0;

      for (gsize i = 1; i < n; i++)
        if (distance[i] >= 0 && (nearest == 0 || distance[i] < distance[nearest]))
          nearest = i;
      total += distance[nearest];
      distance[nearest] = -1;
      for (gsize i = 1; i < n; i++)
        if (distance[i] >= 0)
          distance[i] = MIN (distance[i], node_change (problem, &nodes[nearest], &nodes[i]));
    }
  return total;
}

/* ---- the score of a choice ---- */

static void
add_node (GArray *nodes, int kind, const HwAgreeChoice *choice)
{
  HwAgreeNode node = { kind, *choice };

  for (guint i = 0; i < nodes->len; i++)
    if (memcmp (&g_array_index (nodes, HwAgreeNode, i), &node, sizeof node) == 0)
      return;
  g_array_append_val (nodes, node);
}

static gboolean
is_first_of_machine (const HwAgreeProblem *problem, gsize operation)
{
  for (gsize i = 0; i < operation; i++)
    if (problem->operations[i].machine == problem->operations[operation].machine)
      return FALSE;
  return TRUE;
}

HwAgreeScore
hw_agree_score (const HwAgreeProblem *problem, const HwAgreeChoice *choices)
{
  g_autoptr (GArray) nodes = g_array_new (FALSE, FALSE, sizeof (HwAgreeNode));
  HwAgreeScore score = { 0, 0, 0 };

  for (gsize i = 0; i < problem->n_operations; i++)
    {
      score.distance += hw_agree_distance (&problem->operations[i], &choices[i]);
      if (!is_first_of_machine (problem, i))
        continue;
      g_array_set_size (nodes, 0);
      for (gsize k = i; k < problem->n_operations; k++)
        if (problem->operations[k].machine == problem->operations[i].machine)
          add_node (nodes, problem->operations[k].kind, &choices[k]);
      score.groups += (int) nodes->len;
      score.change += hw_agree_span (problem, (const HwAgreeNode *) (const void *) nodes->data, nodes->len);
    }
  return score;
}

int
hw_agree_score_compare (const HwAgreeScore *a, const HwAgreeScore *b)
{
  if (a->groups != b->groups)
    return a->groups < b->groups ? -1 : 1;
  if (a->change != b->change)
    return a->change < b->change ? -1 : 1;
  return a->distance < b->distance ? -1 : a->distance > b->distance;
}

/* ---- picking a cover of each kind ---- */

typedef struct
{
  const HwAgreeProblem *problem;
  GPtrArray   *kinds;              /* (element-type HwAgreeKind) */
  int          kinds_span;         /* tree over the kinds alone */
  int         *picked;             /* [kinds] cover of each, while searching */
  int         *best;
  int          best_change, best_distance;
  HwAgreeNode *nodes;              /* [all groups] */
} Picking;

static const HwAgreeKind *
kind_at (const Picking *self, gsize index)
{
  return g_ptr_array_index (self->kinds, index);
}

static gsize
gather_nodes (Picking *self, gsize n_kinds)
{
  gsize n = 0;

  for (gsize k = 0; k < n_kinds; k++)
    {
      const HwAgreeKind *kind = kind_at (self, k);
      const int *cover = &g_array_index (kind->covers, int, (gsize) self->picked[k] * kind->cover_size);

      for (gsize i = 0; i < kind->cover_size; i++)
        self->nodes[n++] = (HwAgreeNode) { kind->kind, kind->candidates[cover[i]] };
    }
  return n;
}

static int
count_values (const HwAgreeNode *nodes, gsize n, HwAgreePart part)
{
  guint64 seen = 0;
  int n_values = 0;

  for (gsize i = 0; i < n; i++)
    if (!((seen >> nodes[i].choice.value[part]) & 1))
      {
        seen |= (guint64) 1 << nodes[i].choice.value[part];
        n_values++;
      }
  return n_values;
}

/* Least change that the kinds picked so far allow. */
static int
bound_change (const Picking *self, gsize n_nodes)
{
  int bound = self->kinds_span;

  for (int p = 0; p < HW_AGREE_N_PARTS; p++)
    bound += (count_values (self->nodes, n_nodes, (HwAgreePart) p) - 1) * self->problem->cost[p];
  return bound;
}

static int
sum_distance (const Picking *self, gsize n_kinds)
{
  int distance = 0;

  for (gsize k = 0; k < n_kinds; k++)
    distance += g_array_index (kind_at (self, k)->distances, int, self->picked[k]);
  return distance;
}

static gboolean
is_better (const Picking *self, int change, int distance)
{
  return change < self->best_change || (change == self->best_change && distance < self->best_distance);
}

static void
keep_picked (Picking *self)
{
  int change = hw_agree_span (self->problem, self->nodes, gather_nodes (self, self->kinds->len));
  int distance = sum_distance (self, self->kinds->len);

  if (!is_better (self, change, distance))
    return;
  self->best_change = change;
  self->best_distance = distance;
  memcpy (self->best, self->picked, self->kinds->len * sizeof (int));
}

/* FALSE when cut short. */
static gboolean
pick_covers (Picking *self)
{
  gsize depth = 0;
  guint n_picks = 0;

  self->picked[0] = -1;
  for (;;)
    {
      if (++self->picked[depth] >= (int) kind_at (self, depth)->distances->len)
        {
          if (depth == 0)
            return TRUE;
          depth--;
          continue;
        }
      if (++n_picks > MAX_PICKS)
        return FALSE;
      if (!is_better (self, bound_change (self, gather_nodes (self, depth + 1)), sum_distance (self, depth + 1)))
        continue;
      if (depth + 1 == self->kinds->len)
        keep_picked (self);
      else
        self->picked[++depth] = -1;
    }
}

/* Kind by kind, the others standing: mends what a search cut short left. */
static void
improve_picked (Picking *self)
{
  int change = G_MAXINT;

  while (change != self->best_change)
    {
      change = self->best_change;
      for (gsize k = 0; k < self->kinds->len; k++)
        {
          memcpy (self->picked, self->best, self->kinds->len * sizeof (int));
          for (self->picked[k] = 0; self->picked[k] < (int) kind_at (self, k)->distances->len; self->picked[k]++)
            keep_picked (self);
        }
    }
}

static void
measure_kinds (Picking *self)
{
  gsize n_groups = 0;

  for (gsize k = 0; k < self->kinds->len; k++)
    n_groups += kind_at (self, k)->cover_size;
  self->nodes = g_new0 (HwAgreeNode, MAX (n_groups, self->kinds->len) + 1);
  for (gsize k = 0; k < self->kinds->len; k++)
    self->nodes[k] = (HwAgreeNode) { kind_at (self, k)->kind, { { 0 } } };
  self->kinds_span = hw_agree_span (self->problem, self->nodes, self->kinds->len);
}

static gboolean
settle_machine (const HwAgreeProblem *problem, GPtrArray *kinds, HwAgreeChoice *choices)
{
  g_autofree int *picked = g_new0 (int, kinds->len + 1);
  g_autofree int *best = g_new0 (int, kinds->len + 1);
  Picking self = { .problem = problem, .kinds = kinds, .picked = picked, .best = best,
                   .best_change = G_MAXINT, .best_distance = G_MAXINT };
  gboolean complete;

  if (kinds->len == 0)
    return TRUE;
  measure_kinds (&self);
  complete = pick_covers (&self);
  if (!complete)
    improve_picked (&self);
  for (gsize k = 0; k < kinds->len; k++)
    {
      hw_agree_kind_take (kind_at (&self, k), problem, (gsize) best[k], choices);
      complete &= kind_at (&self, k)->complete;
    }
  g_free (self.nodes);
  return complete;
}

static gboolean
agree_machine (const HwAgreeProblem *problem, int machine, HwAgreeChoice *choices)
{
  g_autoptr (GPtrArray) kinds = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_agree_kind_free);
  gboolean complete = TRUE;

  for (gsize k = 0; k < problem->n_kinds; k++)
    {
      HwAgreeKind *kind = hw_agree_kind_new (problem, machine, (int) k);

      complete &= kind->complete;
      if (kind->covers->len > 0)
        g_ptr_array_add (kinds, kind);
      else
        hw_agree_kind_free (kind);
    }
  return settle_machine (problem, kinds, choices) && complete;
}

gboolean
hw_agree (const HwAgreeProblem *problem, HwAgreeChoice *choices)
{
  gboolean complete = TRUE;

  for (gsize i = 0; i < problem->n_operations; i++)
    memcpy (choices[i].value, problem->operations[i].prefer, sizeof choices[i].value);
  for (gsize i = 0; i < problem->n_operations; i++)
    if (is_first_of_machine (problem, i))
      complete &= agree_machine (problem, problem->operations[i].machine, choices);
  return complete;
}
