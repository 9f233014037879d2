/* hand-steps.c - puts the hand steps in among the operations
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A hand step is done as soon as what it comes after is done (a seam is pressed when it is sewn), or, when it comes
 * after nothing, before the first operation that stands below it in the person's list; in any case before what waits
 * for it. Steps kept together are placed all at once.
 */

#include "config.h"

#include "plan/order-private.h"
#include "plan/sequence-private.h"

typedef struct
{
  const HwSequence *sequence;
  gboolean *placed;          /* [n_steps] */
  int      *unmet;           /* [n_steps] how many it still waits for */
  int      *led_to;          /* steps that wait for each, */
  int      *first;           /* [n_steps + 1] from here on in that list */
  guint64  *ready;           /* set of those not sewn, and not placed, that wait for nothing any more */
  GArray   *steps;           /* gsize: in order */
} Merge;

static gboolean
may_follow (const Merge *self, gsize step)
{
  return self->unmet[step] == 0;
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

static void
place_unit (Merge *self, gsize step)
{
  const GArray *unit = get_unit (self, step);

  for (guint i = 0; i < (unit != NULL ? unit->len : 1); i++)
    {
      gsize member = unit != NULL ? g_array_index (unit, gsize, i) : step;

      self->placed[member] = TRUE;
      hw_order_set_remove (self->ready, member);
      g_array_append_val (self->steps, member);
      for (int a = self->first[member]; a < self->first[member + 1]; a++)
        if (--self->unmet[self->led_to[a]] == 0 && !self->placed[self->led_to[a]]
            && begins_by_hand (self, (gsize) self->led_to[a]))
          hw_order_set_add (self->ready, (gsize) self->led_to[a]);
    }
}

/* Hand steps that may be done now: those that come after something, and of the others those listed before @next. One
 * may let another follow: one further down at once, one further up when the list is gone through again. */
static void
place_hand_steps (Merge *self, gsize next)
{
  gsize n = self->sequence->plan->n_steps;
  gboolean added = TRUE;

  while (added)
    {
      added = FALSE;
      for (gsize i = hw_order_set_next (self->ready, 0, n); i < n; i = hw_order_set_next (self->ready, i + 1, n))
        if (self->sequence->waits[i] || i < next)
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

static void
merge_init (Merge *self, const HwSequence *sequence)
{
  gsize n = sequence->plan->n_steps;
  g_autofree int *filled = NULL;

  self->sequence = sequence;
  self->placed = g_new0 (gboolean, n + 1);
  self->unmet = g_new0 (int, n + 1);
  self->first = g_new0 (int, n + 2);
  self->ready = g_new0 (guint64, n / 64 + 1);
  self->steps = g_array_new (FALSE, FALSE, sizeof (gsize));
  for (gsize i = 0; i < n; i++)
    for (guint a = 0; a < sequence->after[i]->len; a++)
      self->first[g_array_index (sequence->after[i], int, a) + 1]++;
  for (gsize i = 0; i < n; i++)
    self->first[i + 1] += self->first[i];
  self->led_to = g_new0 (int, (gsize) self->first[n] + 1);
  filled = g_memdup2 (self->first, (n + 1) * sizeof *filled);
  for (gsize i = 0; i < n; i++)
    for (guint a = 0; a < sequence->after[i]->len; a++)
      {
        int before = g_array_index (sequence->after[i], int, a);

        self->led_to[filled[before]++] = (int) i;
        self->unmet[i] += sequence->done[before] ? 0 : 1;
      }
  for (gsize i = 0; i < n; i++)
    if (self->unmet[i] == 0 && begins_by_hand (self, i))
      hw_order_set_add (self->ready, i);
}

static void
merge_clear (Merge *self)
{
  g_free (self->placed);
  g_free (self->unmet);
  g_free (self->first);
  g_free (self->led_to);
  g_free (self->ready);
}

GArray *
hw_sequence_merge (const HwSequence *self, const int *order)
{
  Merge merge;

  merge_init (&merge, self);
  for (guint i = 0; i < self->operations->len; i++)
    {
      gsize step = g_array_index (self->operations, gsize, order[i]);
      gsize next = first_of_unit (&merge, step);

      if (merge.placed[step])
        continue;
      place_hand_steps (&merge, next);
      place_needed (&merge, next);
      place_unit (&merge, next);
    }
  place_hand_steps (&merge, self->plan->n_steps);
  merge_clear (&merge);
  return merge.steps;
}
