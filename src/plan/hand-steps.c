/* hand-steps.c - puts the hand steps in among the operations
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A hand step is done as soon as what it comes after is done (a seam is pressed when it is sewn), or, when it comes
 * after nothing, before the first operation that stands below it in the person's list; in any case before what waits
 * for it. Steps kept together are placed all at once.
 */

#include "config.h"

#include "plan/sequence-private.h"

typedef struct
{
  const HwSequence *sequence;
  gboolean *placed;          /* [n_steps] */
  GArray   *steps;           /* gsize: in order */
} Merge;

static gboolean
may_follow (const Merge *self, gsize step)
{
  const GArray *after = self->sequence->after[step];

  for (guint i = 0; i < after->len; i++)
    {
      int before = g_array_index (after, int, i);

      if (!self->placed[before] && !self->sequence->done[before])
        return FALSE;
    }
  return TRUE;
}

static const GArray *
get_unit (const Merge *self, gsize step)
{
  int unit = self->sequence->unit[step];

  return unit >= 0 ? g_ptr_array_index (self->sequence->units, (guint) unit) : NULL;
}

/* The first of the steps that @step is kept together with; itself if it stands alone. */
static gsize
first_of_unit (const Merge *self, gsize step)
{
  const GArray *unit = get_unit (self, step);

  return unit != NULL ? g_array_index (unit, gsize, 0) : step;
}

static void
place_unit (Merge *self, gsize step)
{
  const GArray *unit = get_unit (self, step);

  for (guint i = 0; i < (unit != NULL ? unit->len : 1); i++)
    {
      gsize member = unit != NULL ? g_array_index (unit, gsize, i) : step;

      self->placed[member] = TRUE;
      g_array_append_val (self->steps, member);
    }
}

/* Does @step begin something that the solver did not order? */
static gboolean
begins_by_hand (const Merge *self, gsize step)
{
  const GArray *unit = get_unit (self, step);

  if (self->sequence->done[step] || first_of_unit (self, step) != step)
    return FALSE;
  for (guint i = 0; i < (unit != NULL ? unit->len : 1); i++)
    if (self->sequence->numbers[unit != NULL ? g_array_index (unit, gsize, i) : step] >= 0)
      return FALSE;
  return TRUE;
}

/* Hand steps that may be done now: those that come after something, and of the others those listed
 * before @next. One may let another follow, so the list is gone through until nothing is added. */
static void
place_hand_steps (Merge *self, gsize next)
{
  gboolean added = TRUE;

  while (added)
    {
      added = FALSE;
      for (gsize i = 0; i < self->sequence->plan->n_steps; i++)
        if (!self->placed[i] && begins_by_hand (self, i) && may_follow (self, i)
            && (self->sequence->waits[i] || i < next))
          {
            place_unit (self, i);
            added = TRUE;
          }
    }
}

/* The earliest listed of what @step waits for. */
static gsize
find_wanted (const Merge *self, gsize step)
{
  const GArray *after = self->sequence->after[step];
  gsize wanted = G_MAXSIZE;

  for (guint i = 0; i < after->len; i++)
    {
      gsize before = (gsize) g_array_index (after, int, i);

      if (!self->placed[before] && !self->sequence->done[before])
        wanted = MIN (wanted, before);
    }
  return wanted;
}

/* What @next still waits for, hand steps all, earliest first. */
static void
place_needed (Merge *self, gsize next)
{
  while (!may_follow (self, next))
    {
      gsize current = next;

      /* Down the arrows to a step that can be done at once. */
      do
        current = first_of_unit (self, find_wanted (self, current));
      while (!may_follow (self, current));
      place_unit (self, current);
    }
}

GArray *
hw_sequence_merge (const HwSequence *self, const int *order)
{
  g_autofree gboolean *placed = g_new0 (gboolean, self->plan->n_steps + 1);
  Merge merge = { self, placed, g_array_new (FALSE, FALSE, sizeof (gsize)) };

  for (guint i = 0; i < self->operations->len; i++)
    {
      gsize step = g_array_index (self->operations, gsize, order[i]);
      gsize next = first_of_unit (&merge, step);

      if (placed[step])
        continue;
      place_hand_steps (&merge, next);
      place_needed (&merge, next);
      place_unit (&merge, next);
    }
  place_hand_steps (&merge, self->plan->n_steps);
  return merge.steps;
}
