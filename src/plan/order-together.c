/* order-together.c - an order of work in which some operations stay together
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Arrows say that the members of a run follow each other, that what comes before one of them comes before the first,
 * and what comes after one comes after the last. That is all but one condition: nothing may stand between. It is left
 * out at first, so that the least cost of what is left is a bound; when the best order puts an operation in between,
 * two cases remain, that it comes before the whole run or after it, and each is an arrow more (branch and bound; A. H.
 * Land, A. G. Doig, Econometrica 28, 1960). The case of the least bound is looked at first, until an order that keeps
 * every run whole costs no more than any bound still open. Which set-up an operation takes, and how many machines a
 * run goes over, need no thought here.
 *
 * Each case also gives an order to keep: what stands between is put partly before, partly after the run, wherever that
 * costs least.
 */

#include "config.h"

#include "plan/order-together.h"

#include <string.h>

#define FIRST_TRY_STATES 2000            /* so that a search that may go further never ends with a dearer order */

typedef struct
{
  GArray        *arrows;                 /* HwOrderArrow */
  HwOrderResult *result;
} Case;

typedef struct
{
  const HwOrderProblem *problem;
  const HwOrderRun     *runs;
  gsize      n_runs;
  int       *run_of;                     /* [n_operations] -1 none */
  GPtrArray *open;                       /* (element-type Case) */
  int       *best;                       /* [n_operations] the best order found that keeps every run whole */
  int        best_cost;
  gboolean   nearest;                    /* the best is what the solver said, with nothing in between */
  guint      n_states;                   /* used */
  const HwOrderLimits *limits;
  guint      max_states;
} Together;

static void
free_case (gpointer data)
{
  Case *self = data;

  g_array_unref (self->arrows);
  hw_order_result_free (self->result);
  g_free (self);
}

/* ---- runs and arrows ---- */

static int
first_of (const Together *self, int operation)
{
  int run = self->run_of[operation];

  return run < 0 ? operation : self->runs[run].members[0];
}

static int
last_of (const Together *self, int operation)
{
  int run = self->run_of[operation];

  return run < 0 ? operation : self->runs[run].members[self->runs[run].n_members - 1];
}

static void
add_arrow (GArray *arrows, int before, int after)
{
  HwOrderArrow arrow = { before, after };

  g_array_append_val (arrows, arrow);
}

/* All arrows but those inside a run, from its last and to its first, and the runs' own. */
static GArray *
list_arrows (const Together *self)
{
  GArray *arrows = g_array_new (FALSE, FALSE, sizeof (HwOrderArrow));

  for (gsize r = 0; r < self->n_runs; r++)
    for (gsize i = 1; i < self->runs[r].n_members; i++)
      add_arrow (arrows, self->runs[r].members[i - 1], self->runs[r].members[i]);
  for (gsize a = 0; a < self->problem->n_arrows; a++)
    {
      HwOrderArrow arrow = self->problem->arrows[a];

      if (self->run_of[arrow.before] >= 0 && self->run_of[arrow.before] == self->run_of[arrow.after])
        add_arrow (arrows, arrow.before, arrow.after);
      else
        add_arrow (arrows, last_of (self, arrow.before), first_of (self, arrow.after));
    }
  return arrows;
}

/* The person's order with each run where its earliest listed member stands. (transfer full), NULL: a circle. */
static int *
list_whole (const Together *self, const GArray *arrows)
{
  gsize n = self->problem->n_operations;
  g_autofree int *listed = hw_order_as_listed (n, (const HwOrderArrow *) (const void *) arrows->data, arrows->len);
  g_autoptr (GArray) between = g_array_new (FALSE, FALSE, sizeof (HwOrderArrow));
  g_autofree int *firsts = NULL;
  int *order;
  gsize filled = 0;

  if (listed == NULL)
    return NULL;
  for (guint a = 0; a < arrows->len; a++)
    {
      HwOrderArrow arrow = g_array_index (arrows, HwOrderArrow, a);

      if (first_of (self, arrow.before) != first_of (self, arrow.after))
        add_arrow (between, first_of (self, arrow.before), first_of (self, arrow.after));
    }
  firsts = hw_order_as_listed (n, (const HwOrderArrow *) (const void *) between->data, between->len);
  if (firsts == NULL)
    return NULL;
  order = g_new0 (int, n + 1);
  for (gsize i = 0; i < n; i++)
    {
      int run = self->run_of[firsts[i]];

      if (run < 0)
        order[filled++] = firsts[i];
      else if (first_of (self, firsts[i]) == firsts[i])
        for (gsize m = 0; m < self->runs[run].n_members; m++)
          order[filled++] = self->runs[run].members[m];
    }
  return order;
}

/* ---- orders ---- */

static HwOrderProblem
with_arrows (const Together *self, const GArray *arrows)
{
  HwOrderProblem problem = *self->problem;

  problem.n_arrows = arrows->len;
  problem.arrows = (const HwOrderArrow *) (const void *) arrows->data;
  problem.first = NULL;                  /* it may break the arrows added */
  return problem;
}

static gboolean
keeps_arrows (const Together *self, const GArray *arrows, const int *order)
{
  g_autofree gsize *place = g_new0 (gsize, self->problem->n_operations + 1);

  for (gsize i = 0; i < self->problem->n_operations; i++)
    place[order[i]] = i;
  for (guint a = 0; a < arrows->len; a++)
    if (place[g_array_index (arrows, HwOrderArrow, a).before] > place[g_array_index (arrows, HwOrderArrow, a).after])
      return FALSE;
  return TRUE;
}

/* Where the run @r begins and ends in @order. */
static void
find_span (const Together *self, gsize r, const int *order, gsize *begin, gsize *end)
{
  *begin = 0;
  while (order[*begin] != self->runs[r].members[0])
    (*begin)++;
  *end = *begin;
  while (order[*end] != self->runs[r].members[self->runs[r].n_members - 1])
    (*end)++;
}

/* The first operation that stands inside a run and is not of it; -1 every run is whole. Writes the run. */
static int
find_intruder (const Together *self, const int *order, gsize *run)
{
  for (gsize r = 0; r < self->n_runs; r++)
    {
      gsize begin;
      gsize end;

      find_span (self, r, order, &begin, &end);
      for (gsize i = begin; i <= end; i++)
        if (self->run_of[order[i]] != (int) r)
          {
            *run = r;
            return order[i];
          }
    }
  return -1;
}

/* @order with the run @r whole, and @n_before of what stood inside it put before it. */
static void
move_intruders (const Together *self, gsize r, const int *order, gsize n_before, int *moved)
{
  gsize begin;
  gsize end;
  gsize filled;
  gsize n_seen = 0;
  gsize n_inside;

  find_span (self, r, order, &begin, &end);
  n_inside = end - begin + 1 - self->runs[r].n_members;
  memcpy (moved, order, self->problem->n_operations * sizeof (int));
  filled = begin + n_before + self->runs[r].n_members;
  for (gsize i = begin; i <= end; i++)
    if (self->run_of[order[i]] != (int) r)
      {
        if (n_seen < n_before)
          moved[begin + n_seen] = order[i];
        else
          moved[filled++] = order[i];
        n_seen++;
      }
  g_assert (n_seen == n_inside);
  memcpy (moved + begin + n_before, self->runs[r].members, self->runs[r].n_members * sizeof (int));
}

static void
keep_best (Together *self, const int *order, int cost)
{
  if (cost >= self->best_cost)
    return;
  self->best_cost = cost;
  self->nearest = FALSE;
  memcpy (self->best, order, self->problem->n_operations * sizeof (int));
}

/* What is whole although nobody asked for it is best in every respect, as far as the solver went. */
static void
keep_root (Together *self, const HwOrderResult *result)
{
  if (result->cost > self->best_cost)
    return;
  self->best_cost = result->cost;
  self->nearest = result->nearest;
  memcpy (self->best, result->order, self->problem->n_operations * sizeof (int));
}

/* Makes each run of @order whole in turn, as cheaply as that goes, and keeps what comes out if it is the best. */
static void
mend_order (Together *self, const GArray *arrows, int *order)
{
  HwOrderProblem problem = with_arrows (self, arrows);
  gsize n = problem.n_operations;
  g_autofree int *moved = g_new0 (int, n + 1);
  g_autofree int *cheapest = g_new0 (int, n + 1);
  int cost = hw_order_cost (&problem, order);
  gsize ignored;

  for (gsize r = 0; r < self->n_runs; r++)
    {
      gsize begin;
      gsize end;
      int least = G_MAXINT;

      find_span (self, r, order, &begin, &end);
      if (end - begin + 1 == self->runs[r].n_members)
        continue;
      for (gsize n_before = 0; n_before <= end - begin + 1 - self->runs[r].n_members; n_before++)
        {
          move_intruders (self, r, order, n_before, moved);
          if (!keeps_arrows (self, arrows, moved))
            continue;
          cost = hw_order_cost (&problem, moved);
          if (cost >= least)
            continue;
          least = cost;
          memcpy (cheapest, moved, n * sizeof (int));
        }
      if (least == G_MAXINT)
        return;
      cost = least;
      memcpy (order, cheapest, n * sizeof (int));
    }
  if (find_intruder (self, order, &ignored) < 0)
    keep_best (self, order, cost);
}

/* ---- cases ---- */

static gboolean
is_over (const Together *self)
{
  return self->n_states >= self->max_states
         || (self->limits->cancelled != NULL && g_atomic_int_get (self->limits->cancelled) != 0);
}

/* Solves with @arrows, which it takes over, and keeps the case open when it may lead to something better. */
static void
open_case (Together *self, GArray *arrows, gboolean root)
{
  HwOrderProblem problem = with_arrows (self, arrows);
  HwOrderLimits limits = *self->limits;
  g_autofree int *order = NULL;
  gsize ignored;
  Case *added;
  HwOrderResult *result;

  limits.max_states = self->max_states - MIN (self->n_states, self->max_states);
  result = hw_order_solve_within (&problem, &limits);
  if (result == NULL)
    {
      g_array_unref (arrows);
      return;
    }
  self->n_states += result->n_states + 1;
  order = g_memdup2 (result->order, problem.n_operations * sizeof (int));
  if (find_intruder (self, order, &ignored) >= 0)
    mend_order (self, arrows, order);
  else if (root)
    keep_root (self, result);
  else
    keep_best (self, order, result->cost);
  added = g_new0 (Case, 1);
  *added = (Case) { arrows, result };
  g_ptr_array_add (self->open, added);
}

/* The open case of the least bound, the newest of them. */
static guint
find_least (const Together *self)
{
  guint least = self->open->len - 1;

  for (guint i = least; i-- > 0;)
    if (((const Case *) g_ptr_array_index (self->open, i))->result->bound
        < ((const Case *) g_ptr_array_index (self->open, least))->result->bound)
      least = i;
  return least;
}

/* The two cases for what stands inside a run. TRUE: there was something. */
static gboolean
split_case (Together *self, const Case *parent)
{
  gsize run = 0;
  int intruder = find_intruder (self, parent->result->order, &run);
  int first;
  int last;

  if (intruder < 0)
    return FALSE;
  first = self->runs[run].members[0];
  last = last_of (self, first);
  for (int before = 0; before < 2; before++)
    {
      GArray *arrows = g_array_copy (parent->arrows);

      if (before)
        add_arrow (arrows, last_of (self, intruder), first);
      else
        add_arrow (arrows, last, first_of (self, intruder));
      open_case (self, arrows, FALSE);
    }
  return TRUE;
}

/* Returns the bound. */
static int
search (Together *self)
{
  int unproved = G_MAXINT;               /* least bound of cases that are whole and still not proved */

  open_case (self, list_arrows (self), TRUE);
  while (self->open->len > 0)
    {
      guint least = find_least (self);
      Case *taken = g_ptr_array_index (self->open, least);

      if (taken->result->bound >= self->best_cost)
        return MIN (unproved, self->best_cost);
      if (is_over (self))
        return MIN (unproved, taken->result->bound);
      g_ptr_array_steal_index (self->open, least);
      if (!split_case (self, taken))
        unproved = MIN (unproved, taken->result->bound);
      free_case (taken);
    }
  return MIN (unproved, self->best_cost);
}

/* The best order again, for what the solver says of each operation. */
static HwOrderResult *
make_result (const Together *self, int bound)
{
  g_autoptr (GArray) arrows = g_array_new (FALSE, FALSE, sizeof (HwOrderArrow));
  HwOrderProblem problem;
  HwOrderResult *result;

  for (gsize i = 1; i < self->problem->n_operations; i++)
    add_arrow (arrows, self->best[i - 1], self->best[i]);
  problem = with_arrows (self, arrows);
  result = hw_order_solve (&problem, FIRST_TRY_STATES);
  g_return_val_if_fail (result != NULL, NULL);
  result->bound = MIN (bound, result->cost);
  result->proved = result->bound >= result->cost;
  result->nearest = self->nearest && result->proved;
  result->n_states = self->n_states;
  return result;
}

static void
number_runs (Together *self)
{
  self->run_of = g_new (int, self->problem->n_operations + 1);
  for (gsize i = 0; i < self->problem->n_operations; i++)
    self->run_of[i] = -1;
  for (gsize r = 0; r < self->n_runs; r++)
    for (gsize m = 0; m < self->runs[r].n_members; m++)
      self->run_of[self->runs[r].members[m]] = (int) r;
}

HwOrderResult *
hw_order_solve_together (const HwOrderProblem *problem, const HwOrderRun *runs, gsize n_runs,
                         const HwOrderLimits *limits)
{
  Together self = { .problem = problem, .runs = runs, .n_runs = n_runs, .limits = limits };
  g_autoptr (GArray) arrows = NULL;
  HwOrderResult *result = NULL;
  int bound = 0;

  if (n_runs == 0)
    return hw_order_solve_within (problem, limits);
  number_runs (&self);
  arrows = list_arrows (&self);
  self.best = list_whole (&self, arrows);
  if (self.best != NULL)
    {
      HwOrderProblem whole = with_arrows (&self, arrows);

      self.best_cost = hw_order_cost (&whole, self.best);
      self.open = g_ptr_array_new_with_free_func (free_case);
      self.max_states = MIN (limits->max_states, FIRST_TRY_STATES);
      bound = search (&self);
      if (bound < self.best_cost && self.max_states < limits->max_states)
        {
          g_ptr_array_set_size (self.open, 0);
          self.max_states = limits->max_states;
          bound = MAX (bound, search (&self));
        }
      result = make_result (&self, bound);
      g_ptr_array_unref (self.open);
    }
  g_free (self.best);
  g_free (self.run_of);
  return result;
}
