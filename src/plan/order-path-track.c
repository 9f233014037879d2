/* order-path-track.c - walks that know of some operations whether they are done
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Made by order-path-proof.c; see there and in order-path-bound.c.
 */

#include "config.h"

#include "plan/order-path-private.h"

#include <string.h>

#define CANCEL_EVERY 4096

void
hw_path_track_free (HwPathTrack *self)
{
  if (self == NULL)
    return;
  g_free (self->tracked);
  g_free (self->first_arc);
  g_free (self->target);
  g_free (self->last);
  g_free (self->rest);
  g_free (self);
}

static gint64
step_along (const HwPathTrack *self, const HwPathBound *bound, gsize from, guint32 arc)
{
  return bound->step[self->last[from] * bound->facts->stride + self->last[self->target[arc]]];
}

static gint64
work_out_rest (const HwPathTrack *self, const HwPathBound *bound, gsize state)
{
  gint64 best = HW_PATH_ABSENT;

  if (state >= self->first_final)
    return bound->step[self->last[state] * bound->facts->stride + self->n];
  for (guint32 a = self->first_arc[state]; a < self->first_arc[state + 1]; a++)
    best = MIN (best, step_along (self, bound, state, a) + self->rest[self->target[a]]);
  return best;
}

gint64
hw_path_track_walk (HwPathTrack *self, const HwPathBound *bound, const HwOrderLimits *limits, int *visits)
{
  gsize state = 0;

  memset (visits, 0, self->n * sizeof (int));
  for (gsize s = self->n_states; s-- > 0;)
    {
      if (s % CANCEL_EVERY == 0 && hw_order_is_cancelled (limits))
        return -HW_PATH_ABSENT;
      self->rest[s] = work_out_rest (self, bound, s);
    }
  if (self->rest[0] >= HW_PATH_ABSENT / 2)
    return HW_PATH_ABSENT;
  while (state < self->first_final)
    {
      guint32 a = self->first_arc[state];

      while (step_along (self, bound, state, a) + self->rest[self->target[a]] != self->rest[state])
        a++;
      state = self->target[a];
      visits[self->last[state]]++;
    }
  return self->rest[0];
}

void
hw_path_track_count (const HwPathTrack *self, guint32 *n_states)
{
  g_autofree guint16 *place = g_new0 (guint16, self->n_states);     /* one more; 0 the start */

  for (gsize s = 0; s < self->n_states; s++)
    {
      for (guint32 a = self->first_arc[s]; a < self->first_arc[s + 1]; a++)
        place[self->target[a]] = (guint16) (place[s] + 1);
      if (place[s] > 0)
        n_states[place[s] - 1]++;
    }
}

/* Cheapest way from the start to every state. */
static gint64 *
work_out_ways (const HwPathTrack *self, const HwPathBound *bound)
{
  gint64 *ways = g_new (gint64, self->n_states);

  for (gsize s = 0; s < self->n_states; s++)
    ways[s] = s == 0 ? 0 : HW_PATH_ABSENT;
  for (gsize s = 0; s < self->n_states; s++)
    for (guint32 a = self->first_arc[s]; a < self->first_arc[s + 1]; a++)
      ways[self->target[a]] = MIN (ways[self->target[a]], ways[s] + step_along (self, bound, s, a));
  return ways;
}

/* Keeps the arcs of walks not dearer than @most, under the old numbers; returns what becomes of every state: its new
 * number, or 0 (the start apart) when no such walk comes there. */
static guint32 *
keep_cheap_arcs (HwPathTrack *self, const HwPathBound *bound, gint64 most)
{
  g_autofree gint64 *ways = work_out_ways (self, bound);
  guint32 *number = g_new0 (guint32, self->n_states + 1);
  guint32 n_arcs = 0;
  guint32 n_states = 0;
  guint32 start = 0;

  for (gsize s = 0; s < self->n_states; s++)
    {
      guint32 end = self->first_arc[s + 1];

      if (s > 0 && number[s] == 0)
        {
          start = end;
          continue;
        }
      self->first_arc[n_states] = n_arcs;
      self->last[n_states] = self->last[s];
      self->rest[n_states] = self->rest[s];
      number[s] = n_states++;
      for (guint32 a = start; a < end; a++)
        if (ways[s] + bound->step[self->last[n_states - 1] * bound->facts->stride + self->last[self->target[a]]]
            + self->rest[self->target[a]] <= most)
          {
            number[self->target[a]] = 1;
            self->target[n_arcs++] = self->target[a];
          }
      start = end;
    }
  number[self->n_states] = n_states;
  self->first_arc[n_states] = n_arcs;
  return number;
}

void
hw_path_track_drop (HwPathTrack *self, const HwPathBound *bound, gint64 most)
{
  g_autofree guint32 *number = keep_cheap_arcs (self, bound, most);
  guint32 n_states = number[self->n_states];
  guint32 first_final = n_states;

  for (gsize s = self->n_states; s-- > self->first_final;)
    if (number[s] != 0)
      first_final = number[s];
  for (guint32 a = 0; a < self->first_arc[n_states]; a++)
    self->target[a] = number[self->target[a]];
  self->n_states = n_states;
  self->first_final = first_final;
}
