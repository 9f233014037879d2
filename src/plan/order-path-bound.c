/* order-path-bound.c - what an order must cost at least, place by place
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An order is a walk through places 0, 1, … in which every operation stands once. Walks that may repeat
 * operations are easily made as cheap as can be, place by place from the end: the relaxation of N. Christofides,
 * A. Mingozzi and P. Toth (Networks 11, 1981) and of J.-C. Picard and M. Queyranne (Operations Research 26, 1978). An
 * operation can stand only where as many places lie before and after it as it has operations before and
 * after it. Each operation gets a price, paid on going to it and refunded once; prices rise where a walk
 * comes too often and fall where it does not come (subgradient ascent, M. Held, R. M. Karp, Mathematical
 * Programming 1, 1971). Whatever the prices, no order costs less than the cheapest walk. They start from the
 * assignment's, so that the bound is never below that.
 *
 * Where that is not enough, walks are made to know of some operations whether they are done: of those that the cheapest
 * walks missed most, more and more while the number of states allows it (order-path-track.c). Walks then cannot come
 * to them twice, nor to what must come before or after them at the wrong time.
 *
 * The table of cheapest rests then guides and prunes the search of order-path-proof.c.
 */

#include "config.h"

#include "plan/order-path-private.h"

#include <math.h>
#include <string.h>

#define MAX_ARCS 40000000               /* place to place; beyond this a round takes too long */
#define PATIENCE 6                      /* rounds without gain before steps get shorter */
#define FIRST_GROUP 4                   /* operations tracked at once */

/* Reduced costs of the assignment are never negative, so nothing is a bound on the rest. */
static void
price_flat (HwPathBound *self, const gint64 *row, const gint64 *column)
{
  gsize stride = self->facts->stride;

  for (gsize a = 0; a < stride; a++)
    for (gsize b = 0; b < stride; b++)
      {
        int cost = hw_path_cost (self->facts, a, b);

        self->step[a * stride + b] = cost >= self->facts->far ? HW_PATH_ABSENT
                                                              : HW_PATH_SCALE * (cost - row[a] - column[b]);
      }
  for (gsize a = 0; a < stride; a++)
    self->price_sum -= HW_PATH_SCALE * (row[a] + column[a]);
  self->value = -self->price_sum;
}

static void
list_alive (HwPathBound *self)
{
  const HwPathFacts *facts = self->facts;
  gsize n_alive = 0;

  for (gsize k = 0; k < facts->n; k++)
    {
      self->first_alive[k] = (int) n_alive;
      for (gsize i = 0; i < facts->n; i++)
        if ((gsize) facts->n_before[i] <= k && k + (gsize) facts->n_after[i] < facts->n)
          {
            if (self->alive != NULL)
              self->alive[n_alive] = (guint16) i;
            n_alive++;
          }
    }
  self->first_alive[facts->n] = (int) n_alive;
  self->n_alive = n_alive;
  if (self->alive != NULL)
    return;
  self->alive = g_new0 (guint16, n_alive + 1);
  list_alive (self);
}

static void
count_arcs (HwPathBound *self)
{
  self->n_arcs = 0;
  for (gsize k = 0; k + 1 < self->facts->n; k++)
    self->n_arcs += (gsize) (self->first_alive[k + 1] - self->first_alive[k])
                    * (gsize) (self->first_alive[k + 2] - self->first_alive[k + 1]);
}

/* Steps and their sum from the prices. */
static void
apply_prices (HwPathBound *self, const gint64 *price)
{
  gsize stride = self->facts->stride;

  self->price_sum = 0;
  for (gsize b = 0; b < self->facts->n; b++)
    self->price_sum += price[b];
  for (gsize a = 0; a < stride; a++)
    for (gsize b = 0; b < stride; b++)
      {
        int cost = hw_path_cost (self->facts, a, b);

        self->step[a * stride + b] = cost >= self->facts->far ? HW_PATH_ABSENT
                                                              : HW_PATH_SCALE * (gint64) cost + price[b];
      }
}

/* The cheapest way on from @from over the operations alive at place @k; their rests stand in @onward. */
static gint64
cheapest_way (const HwPathBound *self, gsize from, gsize k, const gint64 *onward, guint16 *choice)
{
  const gint64 *step = self->step + from * self->facts->stride;
  const guint16 *alive = self->alive + self->first_alive[k];
  gsize n_alive = (gsize) (self->first_alive[k + 1] - self->first_alive[k]);
  gint64 best = HW_PATH_ABSENT;
  gsize best_index = 0;

  for (gsize a = 0; a < n_alive; a++)
    {
      gint64 way = step[alive[a]] + onward[a];

      if (way < best)
        {
          best = way;
          best_index = a;
        }
    }
  *choice = n_alive > 0 ? alive[best_index] : 0;
  return best;
}

static void
gather_rests (const HwPathBound *self, gsize k, gint64 *onward)
{
  for (int a = self->first_alive[k]; a < self->first_alive[k + 1]; a++)
    onward[a - self->first_alive[k]] = self->rest[k * self->facts->n + self->alive[a]];
}

/* Fills the table from the end; returns the cheapest walk. @next: [(n + 1) x n] choices, the last row the first's. */
static gint64
walk_back (HwPathBound *self, gint64 *onward, guint16 *next)
{
  gsize n = self->facts->n;

  for (int a = self->first_alive[n - 1]; a < self->first_alive[n]; a++)
    self->rest[(n - 1) * n + self->alive[a]] = self->step[self->alive[a] * self->facts->stride + n];
  for (gsize k = n - 1; k-- > 0;)
    {
      gather_rests (self, k + 1, onward);
      for (int a = self->first_alive[k]; a < self->first_alive[k + 1]; a++)
        {
          gsize i = self->alive[a];

          self->rest[k * n + i] = cheapest_way (self, i, k + 1, onward, &next[k * n + i]);
        }
    }
  gather_rests (self, 0, onward);
  return cheapest_way (self, n, 0, onward, &next[n * n]);
}

static void
count_visits (const HwPathBound *self, const guint16 *next, int *visits)
{
  gsize n = self->facts->n;
  gsize i = next[n * n];

  memset (visits, 0, n * sizeof (int));
  for (gsize k = 0; k < n; k++)
    {
      visits[i]++;
      i = next[k * n + i];
    }
}

/* ---- places that only dear orders use ---- */

/* Cheapest way from the start to each operation at place @k, given those at the place before. */
static void
walk_on (const HwPathBound *self, gsize k, const gint64 *reached, gint64 *here)
{
  gsize stride = self->facts->stride;

  for (int a = self->first_alive[k]; a < self->first_alive[k + 1]; a++)
    {
      gsize j = self->alive[a];
      gint64 best = HW_PATH_ABSENT;

      if (k == 0)
        best = self->step[self->facts->n * stride + j];
      for (int b = k == 0 ? 0 : self->first_alive[k - 1]; k > 0 && b < self->first_alive[k]; b++)
        best = MIN (best, reached[self->alive[b]] + self->step[self->alive[b] * stride + j]);
      here[j] = best;
    }
}

/* Needs the table at the prices in force. */
static void
drop_dear_places (HwPathBound *self, gint64 known)
{
  gsize n = self->facts->n;
  gint64 most = HW_PATH_SCALE * (known - 1) + self->price_sum;
  g_autofree gint64 *reached = g_new (gint64, n);
  g_autofree gint64 *here = g_new (gint64, n);
  g_autofree gboolean *stays = g_new0 (gboolean, self->n_alive + 1);
  int n_kept = 0;
  int start = 0;

  for (gsize k = 0; k < n; k++)
    {
      gint64 *swap = reached;

      walk_on (self, k, reached, here);
      for (int a = self->first_alive[k]; a < self->first_alive[k + 1]; a++)
        stays[a] = here[self->alive[a]] + self->rest[k * n + self->alive[a]] <= most;
      reached = here;
      here = swap;
    }
  for (gsize k = 0; k < n; k++)
    {
      int end = self->first_alive[k + 1];

      self->first_alive[k] = n_kept;
      for (int a = start; a < end; a++)
        if (stays[a])
          self->alive[n_kept++] = self->alive[a];
      start = end;
    }
  self->first_alive[n] = n_kept;
  self->n_alive = (gsize) n_kept;
  count_arcs (self);
}

static void
drop_dear (HwPathBound *self, gint64 known)
{
  if (self->track == NULL)
    {
      drop_dear_places (self, known);
      return;
    }
  hw_path_track_drop (self->track, self, HW_PATH_SCALE * (known - 1) + self->price_sum);
  self->n_arcs = self->track->first_arc[self->track->n_states];
}

/* ---- ascent ---- */

typedef struct
{
  gint64  *price;            /* tried */
  double  *direction;
  gint64  *onward;
  guint16 *next;
  int     *visits;
  double   length;
  guint    n_vain;
} Ascent;

static void
ascent_clear (Ascent *self)
{
  g_free (self->price);
  g_free (self->direction);
  g_free (self->onward);
  g_free (self->next);
  g_free (self->visits);
}

/* The next prices to try, along the visits too many or too few, and a part of the way gone before. FALSE: nothing to
 * gain. */
static gboolean
move_prices (Ascent *self, gsize n, double missing)
{
  double norm = 0;

  for (gsize i = 0; i < n; i++)
    {
      self->direction[i] = self->visits[i] - 1 + 0.7 * self->direction[i];
      norm += self->direction[i] * self->direction[i];
    }
  if (norm < 1e-9)
    return FALSE;
  for (gsize i = 0; i < n; i++)
    self->price[i] += (gint64) llround (self->length * missing / norm * self->direction[i]);
  return TRUE;
}

/* Table and steps at the prices @price, and how often the cheapest walk comes to each operation. */
static gint64
walk_at (HwPathBound *self, Ascent *ascent, const HwOrderLimits *limits, const gint64 *price)
{
  gint64 walk;

  apply_prices (self, price);
  self->n_walked += (gint64) self->n_arcs;
  if (self->track != NULL)
    walk = hw_path_track_walk (self->track, self, limits, ascent->visits);
  else
    {
      walk = walk_back (self, ascent->onward, ascent->next);
      count_visits (self, ascent->next, ascent->visits);
    }
  return walk >= HW_PATH_ABSENT / 2 ? HW_PATH_ABSENT : walk - self->price_sum;
}

/* One round at the prices tried; keeps them if they are better than any before. */
static void
try_prices (HwPathBound *self, Ascent *ascent, const HwOrderLimits *limits)
{
  gint64 value = walk_at (self, ascent, limits, ascent->price);

  for (gsize i = 0; i < self->facts->n; i++)
    self->missed[i] += ascent->visits[i] != 1 ? 1 : 0;
  if (value > self->value)
    {
      self->value = value;
      memcpy (self->price, ascent->price, self->facts->n * sizeof (gint64));
      ascent->n_vain = 0;
    }
  else if (++ascent->n_vain >= PATIENCE)
    {
      ascent->length *= 0.7;
      ascent->n_vain = 0;
    }
}

void
hw_path_bound_improve (HwPathBound *self, const HwOrderLimits *limits, gint64 known, guint n_rounds)
{
  gsize n = self->facts->n;
  Ascent ascent = { .length = 1.0 };

  if (!self->layered)
    return;

  ascent.price = g_memdup2 (self->price, self->facts->stride * sizeof (gint64));
  ascent.direction = g_new0 (double, n);
  ascent.onward = g_new0 (gint64, n);
  ascent.next = g_new0 (guint16, n * n + 1);
  ascent.visits = g_new0 (int, n);
  for (guint round = 0; round < n_rounds && self->value <= HW_PATH_SCALE * (known - 1); round++)
    {
      if (hw_order_is_cancelled (limits))
        break;
      try_prices (self, &ascent, limits);
      if (ascent.length < 0.002 || !move_prices (&ascent, n, (double) (HW_PATH_SCALE * known - self->value)))
        break;
    }
  walk_at (self, &ascent, limits, self->price);
  ascent_clear (&ascent);
  if (self->value < HW_PATH_ABSENT && !hw_order_is_cancelled (limits))
    drop_dear (self, known);
}

/* ---- tracking ---- */

typedef struct { double worth; guint operation; } Miss;

static int
compare_misses_cb (gconstpointer a, gconstpointer b)
{
  const Miss *x = a;
  const Miss *y = b;

  return x->worth > y->worth ? -1 : x->worth < y->worth ? 1 : x->operation < y->operation ? -1 : 1;
}

/* States at every place. */
static guint32 *
count_states (const HwPathBound *self)
{
  guint32 *n_states = g_new0 (guint32, self->facts->n);

  if (self->track != NULL)
    hw_path_track_count (self->track, n_states);
  else
    for (gsize k = 0; k < self->facts->n; k++)
      n_states[k] = (guint32) (self->first_alive[k + 1] - self->first_alive[k]);
  return n_states;
}

/* To track an operation may double the states at the places where it can stand. */
static double *
work_out_prices_of_tracking (const HwPathBound *self)
{
  g_autofree guint32 *n_states = count_states (self);
  double *cost = g_new0 (double, self->facts->n);

  for (gsize k = 0; k < self->facts->n; k++)
    for (int a = self->first_alive[k]; a < self->first_alive[k + 1]; a++)
      cost[self->alive[a]] += n_states[k];
  return cost;
}

/* What is tracked, and the @n_more missed most often for what it costs. FALSE: everything is tracked already. */
static gboolean
add_most_missed (const HwPathBound *self, guint64 *tracked, guint n_more)
{
  g_autoptr (GArray) misses = g_array_new (FALSE, FALSE, sizeof (Miss));
  g_autofree double *cost = work_out_prices_of_tracking (self);

  for (guint i = 0; i < self->facts->n; i++)
    if (!hw_order_set_has (tracked, i))
      {
        Miss miss = { self->missed[i] / (cost[i] + 1), i };

        g_array_append_val (misses, miss);
      }
  g_array_sort (misses, compare_misses_cb);
  for (guint m = 0; m < misses->len && m < n_more; m++)
    hw_order_set_add (tracked, g_array_index (misses, Miss, m).operation);
  return misses->len > 0;
}

gboolean
hw_path_bound_track (HwPathBound *self, const HwOrderLimits *limits, gint64 known, gsize max_states)
{
  gsize set_size = self->facts->n_words * sizeof (guint64);
  g_autofree guint64 *tracked = g_malloc0 (set_size);
  HwPathTrack *track;

  if (!self->layered)
    return FALSE;
  if (self->track != NULL)
    memcpy (tracked, self->track->tracked, set_size);
  if (!add_most_missed (self, tracked, self->group))
    return FALSE;
  track = hw_path_track_new (self, limits, tracked, known, max_states, &self->n_made);
  if (track == NULL)
    {
      self->group = MAX (1, self->group / 2);
      return FALSE;
    }
  hw_path_track_free (self->track);
  self->track = track;
  self->n_arcs = track->first_arc[track->n_states];
  self->group *= 2;
  for (gsize i = 0; i < self->facts->n; i++)
    self->missed[i] /= 2;
  return TRUE;
}

HwPathBound *
hw_path_bound_new (const HwPathFacts *facts, const HwOrderLimits *limits)
{
  HwPathBound *self = g_new0 (HwPathBound, 1);
  gsize n = facts->n;
  g_autofree gint64 *row = g_new0 (gint64, facts->stride);
  g_autofree gint64 *column = g_new0 (gint64, facts->stride);

  self->facts = facts;
  self->first_alive = g_new0 (int, n + 1);
  self->price = g_new0 (gint64, facts->stride);
  self->step = g_new0 (gint64, facts->stride * facts->stride);
  self->rest = g_new0 (gint64, n * n + 1);
  self->missed = g_new0 (guint32, n + 1);
  self->group = FIRST_GROUP;
  hw_path_assign (facts, limits, row, column);
  price_flat (self, row, column);
  list_alive (self);
  count_arcs (self);
  if (self->n_arcs > MAX_ARCS)
    return self;
  self->layered = TRUE;
  for (gsize i = 0; i < n; i++)
    self->price[i] = -HW_PATH_SCALE * (row[i] + column[i]);
  return self;
}

void
hw_path_bound_free (HwPathBound *self)
{
  if (self == NULL)
    return;
  g_free (self->first_alive);
  g_free (self->alive);
  g_free (self->price);
  g_free (self->step);
  g_free (self->rest);
  g_free (self->missed);
  hw_path_track_free (self->track);
  g_free (self);
}
