/* order-choose.c - which of the set-ups that it accepts each operation of an order takes
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * With the order given, machines no longer meet: on each one the operations are gone through with, for every set-up
 * that the last of them could have taken, the least cost and then the least distance so far (dynamic programming by
 * stages; R. Bellman 1957).
 */

#include "config.h"

#include "plan/order-private.h"

#include <string.h>

#define MAX_EFFORT 400000                /* pairs of set-ups looked at while drawing nearer */

typedef struct
{
  int          last;                     /* place in the order of the machine's operation before; -1 none */
  gsize        n;
  int         *setups;                   /* [n] what the operation takes */
  HwOrderScore *least;                   /* [n] of the machine so far, when it takes that */
  int         *from;                     /* [n] index among those of the operation before */
} Stage;

typedef struct
{
  const HwOrderFacts *facts;
  Stage        *stages;                  /* [n] by place in the order */
  int          *last;                    /* [n_machines] place of the machine's last operation so far; -1 */
  int          *numbers;                 /* what the stages' arrays lie in */
  HwOrderScore *scores;
  gsize         effort;
} Choosing;

static void
list_stage (Choosing *self, Stage *stage, gsize operation, gsize *n_used, gsize total)
{
  const HwOrderFacts *facts = self->facts;

  stage->setups = self->numbers + *n_used;
  stage->from = self->numbers + total + *n_used;
  stage->least = self->scores + *n_used;
  stage->n = 0;
  for (gsize u = 0; u < facts->n_setups; u++)
    if (hw_order_takes (facts, operation, u))
      stage->setups[stage->n++] = (int) u;
  *n_used += stage->n;
}

/* The best way to have @setup mounted after the stage @last. */
static HwOrderScore
reach_setup (const Choosing *self, const Stage *last, int machine, gsize setup, int *from)
{
  const HwOrderFacts *facts = self->facts;
  HwOrderScore best = { G_MAXINT, G_MAXINT };

  *from = -1;
  if (last == NULL)
    return (HwOrderScore) { hw_order_change (facts, facts->n_setups + (gsize) machine, setup), 0 };
  for (gsize i = 0; i < last->n; i++)
    {
      HwOrderScore way = { last->least[i].cost + hw_order_change (facts, (gsize) last->setups[i], setup),
                           last->least[i].distance };

      if (!hw_order_score_less (way, best))
        continue;
      best = way;
      *from = (int) i;
    }
  return best;
}

static void
fill_stage (Choosing *self, gsize place, gsize operation)
{
  const HwOrderFacts *facts = self->facts;
  Stage *stage = &self->stages[place];
  int machine = facts->machine_of[facts->class_of[operation]];
  const Stage *last;

  stage->last = self->last[machine];
  last = stage->last >= 0 ? &self->stages[stage->last] : NULL;
  self->last[machine] = (int) place;
  self->effort += stage->n * (last != NULL ? last->n : 1);
  for (gsize i = 0; i < stage->n; i++)
    {
      stage->least[i] = reach_setup (self, last, machine, (gsize) stage->setups[i], &stage->from[i]);
      stage->least[i].distance += hw_order_distance (facts, operation, (gsize) stage->setups[i]);
    }
}

/* Back along the machine's operations; returns what they came to. */
static HwOrderScore
read_machine (const Choosing *self, gsize machine, const int *order, int *setup)
{
  int place = self->last[machine];
  int best = 0;
  HwOrderScore score;

  if (place < 0)
    return (HwOrderScore) { 0, 0 };
  for (gsize i = 1; i < self->stages[place].n; i++)
    if (hw_order_score_less (self->stages[place].least[i], self->stages[place].least[best]))
      best = (int) i;
  score = self->stages[place].least[best];
  for (; place >= 0; place = self->stages[place].last)
    {
      setup[order[place]] = self->stages[place].setups[best];
      best = self->stages[place].from[best];
    }
  return score;
}

static int
sum_walks (const HwOrderFacts *facts, const int *order)
{
  gsize at = facts->problem->at < 0 ? facts->n_machines : (gsize) facts->problem->at;
  int walks = 0;

  for (gsize i = 0; i < facts->n; i++)
    {
      gsize machine = (gsize) facts->machine_of[facts->class_of[order[i]]];

      walks += hw_order_walk (facts, at, machine);
      at = machine;
    }
  return walks;
}

static gsize
count_choices (const HwOrderFacts *facts)
{
  gsize total = 0;

  for (gsize i = 0; i < facts->n; i++)
    total += (gsize) facts->class_size[facts->class_of[i]];
  return total;
}

static HwOrderScore
choose (const HwOrderFacts *facts, const int *order, int *setup, gsize *effort)
{
  gsize total = count_choices (facts), n_used = 0;
  g_autofree Stage *stages = g_new0 (Stage, facts->n + 1);
  g_autofree int *last = g_new (int, facts->n_machines + 1);
  g_autofree int *numbers = g_new (int, 2 * total + 1);
  g_autofree HwOrderScore *scores = g_new (HwOrderScore, total + 1);
  Choosing self = { facts, stages, last, numbers, scores, 0 };
  HwOrderScore score = { sum_walks (facts, order), 0 };

  for (gsize m = 0; m < facts->n_machines; m++)
    last[m] = -1;
  for (gsize place = 0; place < facts->n; place++)
    {
      list_stage (&self, &stages[place], (gsize) order[place], &n_used, total);
      fill_stage (&self, place, (gsize) order[place]);
    }
  for (gsize m = 0; m < facts->n_machines; m++)
    {
      HwOrderScore part = read_machine (&self, m, order, setup);

      score.cost += part.cost;
      score.distance += part.distance;
    }
  *effort += self.effort + total;
  return score;
}

HwOrderScore
hw_order_choose (const HwOrderFacts *facts, const int *order, int *setup)
{
  gsize effort = 0;

  return choose (facts, order, setup, &effort);
}

/* ---- drawing nearer ---- */

typedef struct
{
  const HwOrderFacts *facts;
  HwOrderResult *result;
  int           *order, *setup;          /* being tried */
  gboolean      *in_use;                 /* [n_setups] some operation takes it */
  gsize          effort;
} Drawing;

/* Takes the operation at @from out and puts it in again behind what stood at @to. */
static void
move_behind (const int *order, int *moved, gsize n, gsize from, gsize to)
{
  memcpy (moved, order, n * sizeof *moved);
  if (to > from)
    {
      memmove (moved + from, order + from + 1, (to - from) * sizeof *moved);
      moved[to] = order[from];
      return;
    }
  memmove (moved + to + 2, order + to + 1, (from - to - 1) * sizeof *moved);
  moved[to + 1] = order[from];
}

/* The places behind which the operation at @from may be put: those from the last that it needs on, up to the first that
 * needs it. */
static HwOrderSpan
list_places (const HwOrderFacts *facts, const int *order, gsize from)
{
  const guint64 *before = facts->before + (gsize) order[from] * facts->n_words;
  HwOrderSpan places = { from, from + 1 };

  while (places.first > 0 && (places.first == from || !hw_order_set_has (before, (gsize) order[places.first])))
    places.first--;
  while (places.end < facts->n
         && !hw_order_set_has (facts->before + (gsize) order[places.end] * facts->n_words, (gsize) order[from]))
    places.end++;
  return places;
}

/* Would @operation lie nearer to what it prefers with @setup? */
static gboolean
is_nearer (const Drawing *self, gsize operation, gsize setup)
{
  const HwOrderFacts *facts = self->facts;

  return hw_order_takes (facts, operation, setup)
         && hw_order_distance (facts, operation, setup)
              < hw_order_distance (facts, operation, (gsize) self->result->setup[operation]);
}

/* Whether any that is in use is nearer: most take what they prefer, and need no look at all the places. */
static gboolean
can_be_nearer (const Drawing *self, gsize operation)
{
  for (gsize u = 0; u < self->facts->n_setups; u++)
    if (self->in_use[u] && is_nearer (self, operation, u))
      return TRUE;
  return FALSE;
}

static void
note_use (Drawing *self)
{
  memset (self->in_use, 0, self->facts->n_setups * sizeof *self->in_use);
  for (gsize i = 0; i < self->facts->n; i++)
    self->in_use[self->result->setup[i]] = TRUE;
}

static gboolean
try_move (Drawing *self, gsize from, gsize to)
{
  HwOrderResult *result = self->result;
  HwOrderScore score;

  move_behind (result->order, self->order, self->facts->n, from, to);
  score = choose (self->facts, self->order, self->setup, &self->effort);
  if (!hw_order_score_less (score, (HwOrderScore) { result->cost, result->distance }))
    return FALSE;
  memcpy (result->order, self->order, self->facts->n * sizeof (int));
  memcpy (result->setup, self->setup, self->facts->n * sizeof (int));
  result->cost = score.cost;
  result->distance = score.distance;
  note_use (self);
  return TRUE;
}

static gboolean
improve_place (Drawing *self, gsize from)
{
  const HwOrderResult *result = self->result;
  gsize operation = (gsize) result->order[from];
  HwOrderSpan places;

  if (!can_be_nearer (self, operation))
    return FALSE;
  places = list_places (self->facts, result->order, from);
  for (gsize to = places.first; to < places.end && self->effort < MAX_EFFORT; to++)
    if (to != from && is_nearer (self, operation, (gsize) result->setup[result->order[to]])
        && try_move (self, from, to))
      return TRUE;
  return FALSE;
}

void
hw_order_draw_nearer (const HwOrderFacts *facts, HwOrderResult *result)
{
  g_autofree int *order = g_new (int, facts->n + 1);
  g_autofree int *setup = g_new (int, facts->n + 1);
  g_autofree gboolean *in_use = g_new (gboolean, facts->n_setups + 1);
  Drawing self = { facts, result, order, setup, in_use, 0 };
  gboolean improved = TRUE;

  note_use (&self);
  while (improved && self.effort < MAX_EFFORT)
    {
      improved = FALSE;
      for (gsize from = 0; from < facts->n; from++)
        improved |= improve_place (&self, from);
    }
}
