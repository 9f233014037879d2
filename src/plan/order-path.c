/* order-path.c - the cheapest order when what a step costs may depend on any pair
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sequential ordering problem (L. F. Escudero, European Journal of Operational Research 37, 1988, from
 * memory): a shortest asymmetric path through all operations that keeps the arrows. Nothing is closed under
 * shortest paths, for what lies between must be done and paid for, and there is no rule that does
 * anything at once. Three parts work together:
 *
 *   order-path-local.c   finds good orders by exchanging segments, with kicks;
 *   order-path-bound.c   finds what no order can cost less than, and a bound on every rest;
 *   order-path-proof.c   goes through what may be done place by place, within a width that grows until a
 *                        pass leaves nothing out: a proof, quick where the arrows leave little choice.
 *
 * They take turns, each with the best of the others, until the proof closes or the limits are reached. The turns
 * are counted in states and exchanges, not by the clock, so that the answer does not depend on the computer.
 */

#include "config.h"

#include "plan/order-path-private.h"

#include <string.h>

#define FIRST_WIDTH 50
#define WIDTH_GROWTH 4
#define TURNS_BOTH_WAYS 4                /* then only the way that promises more */

/* What the parts of a turn take: about as many nanoseconds, but counted, never measured. */
#define FIRST_WORK 3000000
#define MOST_WORK 2000000000
#define WORK_OF_AN_EXCHANGE 7            /* looked at */
#define WORK_OF_A_STATE 500
#define WORK_OF_AN_ARC 2
#define MOST_IDLE 7                      /* turns */
#define NEAR_BOUND 100                   /* part of the cost: a gap so narrow is for the proof to close */
#define MIN_ROUNDS 20                    /* of ascent */
#define MAX_ROUNDS 60
#define BYTES_OF_A_TRACKED_STATE 512     /* and two sets; mostly its arcs, and those of the track before */

/* The problem from its start, or from its end: one way the choice may be much narrower than the other. */
typedef struct
{
  HwPathFacts *facts;
  HwPathBound *bound;
  gint64       work;                /* of the next turn */
  gsize        width;               /* of the next pass */
  guint        n_passed;            /* states of all passes */
} Way;

typedef struct
{
  const HwPathFacts   *facts;
  const HwOrderLimits *limits;
  HwPathLocal   *local;
  Way            ways[2];           /* from the start, from the end */
  HwOrderResult *result;
  int           *order;             /* working memory */
  gint64         cost;              /* of the best; far or more: none found */
  gint64         least;             /* no order costs less */
  guint          n_kicks;
  gint64         n_idle;            /* turns since the exchanges found something better */
} Solve;

static gboolean
is_closed (const Solve *self)
{
  return self->least >= self->cost || hw_order_is_cancelled (self->limits);
}

static void
raise_least (Solve *self, gint64 scaled)
{
  gint64 whole = scaled >= HW_PATH_ABSENT ? self->cost : (scaled + HW_PATH_SCALE - 1) / HW_PATH_SCALE;

  self->least = MAX (self->least, MIN (whole, self->cost));
}

static void
take_best (Solve *self)
{
  if (hw_path_local_cost (self->local) >= self->cost)
    return;
  self->cost = hw_path_local_cost (self->local);
  hw_path_local_best (self->local, self->result->order);
}

static void
search_locally (Solve *self, gint64 work)
{
  gint64 cost = self->cost;

  if (is_closed (self) || self->n_kicks >= self->limits->max_kicks)
    return;
  self->n_kicks += hw_path_local_kick (self->local, self->limits, (guint64) (work / WORK_OF_AN_EXCHANGE),
                                       self->limits->max_kicks - self->n_kicks);
  take_best (self);
  self->n_idle = self->cost == cost ? MIN (self->n_idle + 1, MOST_IDLE) : 0;
}

static void
ascend (Solve *self, Way *way)
{
  gint64 n_rounds;

  if (way->bound == NULL)
    way->bound = hw_path_bound_new (way->facts, self->limits);
  n_rounds = CLAMP (way->work / 2 / (gint64) (way->bound->n_arcs + 1), MIN_ROUNDS, MAX_ROUNDS);

  hw_path_bound_improve (way->bound, self->limits, MIN (self->cost, self->facts->far), (guint) n_rounds);
  raise_least (self, way->bound->value);
}

/* Prices, then more and more operations tracked while a turn's work allows it. */
static void
raise_bound (Solve *self, Way *way)
{
  gsize max_states = (gsize) way->work / WORK_OF_A_STATE;
  guint n_made = way->bound == NULL ? 0 : way->bound->n_made;

  if (self->limits->max_bytes > 0)
    max_states = MIN (max_states, self->limits->max_bytes / (BYTES_OF_A_TRACKED_STATE + 16 * self->facts->n_words));
  ascend (self, way);
  while (!is_closed (self)
         && hw_path_bound_track (way->bound, self->limits, MIN (self->cost, self->facts->far), max_states))
    ascend (self, way);
  self->result->n_states += way->bound->n_made - n_made;
}

/* The most states for which there is room: those of two layers, and a footstep for each state of every layer. */
static gsize
widest (const Solve *self)
{
  gsize a_state = 2 * (2 * (32 + 8 * self->facts->n_words) + 48) + 8 * self->facts->n;

  return self->limits->max_bytes == 0 ? G_MAXINT32 : MAX (1, self->limits->max_bytes / a_state);
}

static void
turn_order (int *order, gsize n)
{
  for (gsize p = 0; p < n / 2; p++)
    {
      int swap = order[p];

      order[p] = order[n - 1 - p];
      order[n - 1 - p] = swap;
    }
}

static guint
run_pass (Solve *self, Way *way)
{
  HwPathPass pass = { .known = MIN (self->cost, self->facts->far), .order = self->order };

  pass.width = MIN (way->width, widest (self));
  hw_path_pass_run (way->bound, self->limits, &pass);
  if (pass.found)
    {
      if (way == &self->ways[1])
        turn_order (pass.order, self->facts->n);
      hw_path_local_take (self->local, pass.order, self->limits);
      take_best (self);
    }
  way->n_passed += pass.n_states;
  raise_least (self, pass.complete ? HW_PATH_ABSENT : pass.least);
  self->result->n_states += pass.n_states;
  return pass.n_states;
}

/* Both ways in turn, then the one with the higher bound. Short of states, the second way may never have begun. */
static Way *
choose_way (Solve *self, guint turn)
{
  const HwPathBound *other = self->ways[1].bound;

  if (turn < TURNS_BOTH_WAYS)
    return &self->ways[turn % 2];
  return &self->ways[other != NULL && other->value > self->ways[0].bound->value ? 1 : 0];
}

/* What a way has taken so far. */
static gint64
work_done (const Way *way)
{
  if (way->bound == NULL)
    return 0;
  return WORK_OF_AN_ARC * way->bound->n_walked + WORK_OF_A_STATE * ((gint64) way->bound->n_made + way->n_passed);
}

/* A better bound, then a pass. */
static void
prove (Solve *self, Way *way)
{
  guint n_states;

  raise_bound (self, way);
  if (is_closed (self))
    return;
  n_states = run_pass (self, way);
  way->work = MIN (2 * way->work, MOST_WORK);
  if ((gint64) n_states * WORK_OF_A_STATE < way->work / 2)
    way->width *= WIDTH_GROWTH;
}

/* Exchanges take as much work as the proof before them; half of it when they have found nothing better of late, and
 * less and less where the bound leaves them hardly anything to find. */
static gint64
share_work (const Solve *self, gint64 work)
{
  gboolean is_near = self->cost - self->least <= self->cost / NEAR_BOUND;

  return work / (1 + (is_near ? self->n_idle * self->n_idle : MIN (self->n_idle, 1)));
}

static void
take_turns (Solve *self)
{
  gint64 work = FIRST_WORK;

  for (guint turn = 0; !is_closed (self); turn++)
    {
      Way *way = choose_way (self, turn);
      gint64 done = work_done (way);

      if (self->result->n_states < self->limits->max_states)
        prove (self, way);
      else if (self->n_kicks >= self->limits->max_kicks)
        break;
      work = MAX (work, work_done (way) - done);
      search_locally (self, share_work (self, work));
    }
}

static void
finish (Solve *self)
{
  HwOrderResult *result = self->result;

  result->proved = self->least >= self->cost;
  result->bound = (int) MIN (self->least, self->facts->far);
  result->cost = (int) self->cost;
  if (self->cost < self->facts->far)
    return;
  g_clear_pointer (&result->order, g_free);
  result->cost = HW_PATH_NEVER;
  result->proved = self->least >= self->facts->far;
}

static void
solve_clear (Solve *self)
{
  hw_path_local_free (self->local);
  for (guint w = 0; w < 2; w++)
    {
      hw_path_bound_free (self->ways[w].bound);
      hw_path_facts_free (self->ways[w].facts);
    }
  g_free (self->order);
}

HwOrderResult *
hw_order_path_solve (const HwPathProblem *problem, const HwOrderLimits *limits)
{
  HwPathFacts *facts = hw_path_facts_new (problem);
  Solve self = { .facts = facts, .limits = limits, .cost = G_MAXINT64 };

  if (facts == NULL)
    return NULL;

  self.ways[0].facts = facts;
  self.ways[1].facts = hw_path_facts_turn (facts);
  self.ways[0].width = self.ways[1].width = FIRST_WIDTH;
  self.ways[0].work = self.ways[1].work = FIRST_WORK;
  self.order = g_new0 (int, facts->n + 1);
  self.result = g_new0 (HwOrderResult, 1);
  self.result->n_operations = facts->n;
  self.result->order = g_memdup2 (facts->listed, (facts->n + 1) * sizeof (int));
  self.local = hw_path_local_new (facts);
  hw_path_local_take (self.local, facts->listed, limits);
  take_best (&self);
  search_locally (&self, FIRST_WORK);
  if (!is_closed (&self) && facts->n > 0)
    ascend (&self, &self.ways[0]);
  take_turns (&self);
  finish (&self);
  solve_clear (&self);
  return self.result;
}
