/* wish-arrows.c - what a person wishes of the order, as arrows between steps
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * "Before" is an arrow. Steps kept together are a unit: arrows lead into its first step and out of its last. "First"
 * and "last" are read after all that: arrows to everything that need not come earlier, from everything that need not
 * come later. So no wish can contradict the making up, which the project has seen to, and an older "first" goes before
 * a newer one. A unit that is partly done is finished first.
 */

#include "config.h"

#include "plan/sequence-private.h"

static int
find_open (const HwSequence *self, const char *number)
{
  int step = hw_project_find_step (self->plan->project, number);

  return step >= 0 && !self->done[step] ? step : -1;
}

static gsize
unit_end (const HwSequence *self, gsize step, gboolean last)
{
  const GArray *unit = self->unit[step] >= 0 ? g_ptr_array_index (self->units, (guint) self->unit[step]) : NULL;

  return unit == NULL ? step : g_array_index (unit, gsize, last ? unit->len - 1 : 0);
}

static void
draw_arrow (HwSequence *self, gsize before, gsize after)
{
  int step = (int) before;

  if (before != after)
    g_array_append_val (self->after[after], step);
}

static void
add_unit (HwSequence *self, const HwWish *wish)
{
  GArray *unit = g_array_new (FALSE, FALSE, sizeof (gsize));

  for (char **number = wish->steps; *number != NULL; number++)
    {
      int step = find_open (self, *number);

      if (step < 0)
        continue;
      self->unit[step] = (int) self->units->len;
      g_array_append_val (unit, ((gsize) { (gsize) step }));
    }
  g_ptr_array_add (self->units, unit);
}

/* Arrows between steps of different units, from the end of one to the beginning of the other. */
static void
lift_arrows (HwSequence *self)
{
  for (gsize i = 0; i < self->plan->n_steps; i++)
    for (guint a = self->after[i]->len; a-- > 0 && !self->done[i];)
      {
        gsize before = (gsize) g_array_index (self->after[i], int, a);

        if (self->done[before] || (self->unit[i] >= 0 && self->unit[i] == self->unit[before])
            || (self->unit[i] < 0 && self->unit[before] < 0))
          continue;
        draw_arrow (self, unit_end (self, before, TRUE), unit_end (self, i, FALSE));
      }
  for (guint u = 0; u < self->units->len; u++)
    {
      const GArray *unit = g_ptr_array_index (self->units, u);

      for (guint i = 1; i < unit->len; i++)
        draw_arrow (self, g_array_index (unit, gsize, i - 1), g_array_index (unit, gsize, i));
    }
}

/* All steps that @lists lead to from @step, itself among them. (transfer full) [n_steps] */
static gboolean *
mark_reached (const HwSequence *self, GArray **lists, gsize step)
{
  gboolean *reached = g_new0 (gboolean, self->plan->n_steps + 1);
  g_autoptr (GArray) open = g_array_new (FALSE, FALSE, sizeof (gsize));

  reached[step] = TRUE;
  g_array_append_val (open, step);
  while (open->len > 0)
    {
      gsize current = g_array_index (open, gsize, open->len - 1);

      g_array_set_size (open, open->len - 1);
      for (guint i = 0; i < lists[current]->len; i++)
        {
          gsize next = (gsize) g_array_index (lists[current], int, i);

          if (reached[next])
            continue;
          reached[next] = TRUE;
          g_array_append_val (open, next);
        }
    }
  return reached;
}

/* Everything that need not come before the unit of @step comes after it. */
static void
put_first (HwSequence *self, gsize step)
{
  gsize last = unit_end (self, step, TRUE);
  g_autofree gboolean *earlier = mark_reached (self, self->after, last);

  for (gsize i = 0; i < self->plan->n_steps; i++)
    if (!earlier[i] && !self->done[i])
      draw_arrow (self, last, i);
}

/* For each step those that come after it, the arrows the other way round. */
static GArray **
turn_arrows (const HwSequence *self)
{
  GArray **leads = g_new0 (GArray *, self->plan->n_steps + 1);

  for (gsize i = 0; i < self->plan->n_steps; i++)
    leads[i] = g_array_new (FALSE, FALSE, sizeof (int));
  for (gsize i = 0; i < self->plan->n_steps; i++)
    for (guint a = 0; a < self->after[i]->len; a++)
      g_array_append_val (leads[g_array_index (self->after[i], int, a)], ((int) { (int) i }));
  return leads;
}

/* Everything that need not come after the unit of @step comes before it. */
static void
put_last (HwSequence *self, gsize step)
{
  gsize first = unit_end (self, step, FALSE);
  GArray **leads = turn_arrows (self);
  g_autofree gboolean *later = mark_reached (self, leads, first);

  for (gsize i = 0; i < self->plan->n_steps; i++)
    {
      if (!later[i] && !self->done[i])
        draw_arrow (self, i, first);
      g_array_unref (leads[i]);
    }
  g_free (leads);
}

static gboolean
is_partly_done (const HwSequence *self, const HwWish *wish)
{
  gboolean any_done = FALSE;

  for (char **number = wish->steps; *number != NULL; number++)
    any_done |= find_open (self, *number) < 0;
  return any_done;
}

static void
put_ends (HwSequence *self)
{
  const GPtrArray *wishes = self->plan->project->wishes;
  guint u = 0;

  for (guint w = 0; w < wishes->len; w++)
    {
      const HwWish *wish = g_ptr_array_index (wishes, w);
      const GArray *unit;

      if (wish->kind != HW_WISH_TOGETHER)
        continue;
      unit = g_ptr_array_index (self->units, u++);
      if (unit->len > 0 && is_partly_done (self, wish))
        put_first (self, g_array_index (unit, gsize, 0));
    }
  for (guint w = 0; w < wishes->len; w++)
    {
      const HwWish *wish = g_ptr_array_index (wishes, w);
      int step = find_open (self, wish->steps[0]);

      if (step >= 0 && wish->kind == HW_WISH_FIRST)
        put_first (self, (gsize) step);
      else if (step >= 0 && wish->kind == HW_WISH_LAST)
        put_last (self, (gsize) step);
    }
}

void
hw_sequence_add_wishes (HwSequence *self)
{
  const GPtrArray *wishes = self->plan->project->wishes;

  if (wishes->len == 0)
    return;
  for (guint w = 0; w < wishes->len; w++)
    {
      const HwWish *wish = g_ptr_array_index (wishes, w);

      if (wish->kind == HW_WISH_TOGETHER)
        add_unit (self, wish);
      else if (wish->kind == HW_WISH_BEFORE && find_open (self, wish->steps[0]) >= 0
               && find_open (self, wish->steps[1]) >= 0)
        draw_arrow (self, (gsize) find_open (self, wish->steps[0]), (gsize) find_open (self, wish->steps[1]));
    }
  lift_arrows (self);
  put_ends (self);
}
