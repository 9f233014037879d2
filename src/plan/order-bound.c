/* order-bound.c - what the rest of an order must cost at least
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See order.c for why it is valid.
 */

#include "config.h"

#include "plan/order-bound.h"

struct _HwOrderBound
{
  const HwOrderFacts *facts;
  int   *near;           /* [n_setups squared] the cheaper way between two set-ups of one machine */
  int   *runs;           /* [n_setups] runs left; 0 none */
  int   *tail;           /* [n_setups] dearest chain after an operation of it that is left */
  int   *distance;       /* spanning tree: to the tree built so far */
  gsize *left;           /* set-ups left on one machine */
  gsize *outside;        /* those not yet in the tree */
};

HwOrderBound *
hw_order_bound_new (const HwOrderFacts *facts)
{
  HwOrderBound *self = g_new0 (HwOrderBound, 1);
  gsize n = facts->n_setups;

  self->facts = facts;
  self->near = g_new0 (int, n * n + 1);
  self->runs = g_new0 (int, n + 1);
  self->tail = g_new0 (int, n + 1);
  self->distance = g_new0 (int, n + 1);
  self->left = g_new0 (gsize, n + 1);
  self->outside = g_new0 (gsize, n + 1);
  for (gsize a = 0; a < n; a++)
    for (gsize b = 0; b < n; b++)
      self->near[a * n + b] = MIN (hw_order_change (facts, a, b), hw_order_change (facts, b, a));
  return self;
}

void
hw_order_bound_free (HwOrderBound *self)
{
  if (self == NULL)
    return;
  g_free (self->near);
  g_free (self->runs);
  g_free (self->tail);
  g_free (self->distance);
  g_free (self->left);
  g_free (self->outside);
  g_free (self);
}

/* Gathers runs and tails of what is left; returns the dearest chain of walks from @at. */
static int
gather_left (HwOrderBound *self, const guint64 *done, gsize at)
{
  const HwOrderFacts *facts = self->facts;
  const HwOrderProblem *problem = facts->problem;
  int walks = 0;

  memset (self->runs, 0, facts->n_setups * sizeof (int));
  memset (self->tail, 0, facts->n_setups * sizeof (int));
  for (gsize i = 0; i < facts->n; i++)
    {
      gsize setup = (gsize) problem->setup[i];

      if (hw_order_set_has (done, i))
        continue;
      self->runs[setup] = MAX (self->runs[setup], facts->runs[i]);
      self->tail[setup] = MAX (self->tail[setup], facts->tail[i]);
      walks = MAX (walks, hw_order_walk (facts, at, (gsize) problem->machine[setup]) + facts->walk_tail[i]);
    }
  return walks;
}

/* Prim's method from what is mounted. */
static int
span_tree (HwOrderBound *self, gsize mounted, gsize n_left)
{
  gsize n_outside = 0;
  int total = 0;

  for (gsize i = 0; i < n_left; i++)
    if (self->left[i] != mounted)
      {
        self->outside[n_outside] = self->left[i];
        self->distance[n_outside++] = hw_order_change (self->facts, mounted, self->left[i]);
      }
  while (n_outside > 0)
    {
      gsize nearest = 0;
      gsize joined;

      for (gsize i = 1; i < n_outside; i++)
        if (self->distance[i] < self->distance[nearest])
          nearest = i;
      total += self->distance[nearest];
      joined = self->outside[nearest];
      self->outside[nearest] = self->outside[--n_outside];
      self->distance[nearest] = self->distance[n_outside];
      for (gsize i = 0; i < n_outside; i++)
        self->distance[i] = MIN (self->distance[i], self->near[joined * self->facts->n_setups + self->outside[i]]);
    }
  return total;
}

/* The cheapest way into @setup from another that is left, or that is mounted. */
static int
cheapest_entry (const HwOrderBound *self, gsize setup, gsize mounted, gsize n_left)
{
  int cheapest = HW_ORDER_FAR;

  if (mounted != setup && mounted < self->facts->n_setups)
    cheapest = hw_order_change (self->facts, mounted, setup);
  for (gsize i = 0; i < n_left; i++)
    if (self->left[i] != setup)
      cheapest = MIN (cheapest, hw_order_change (self->facts, self->left[i], setup));
  return cheapest < HW_ORDER_FAR ? cheapest : 0;
}

/* Changes still due on one machine. @closed: one sits at it and nothing is left elsewhere, so that
 * the set-up mounted, if it is wanted again, must be entered again. */
static int
bound_machine (HwOrderBound *self, gsize mounted, gsize n_left, gboolean closed)
{
  int tree = span_tree (self, mounted, n_left);
  int chain = 0;

  for (gsize i = 0; i < n_left; i++)
    {
      gsize setup = self->left[i];
      int again = self->runs[setup] - 1 + (setup == mounted && closed ? 1 : 0);

      if (again > 0)
        tree += again * cheapest_entry (self, setup, mounted, n_left);
      chain = MAX (chain, hw_order_change (self->facts, mounted, setup) + self->tail[setup]);
    }
  return MAX (tree, chain);
}

static gsize
list_left (HwOrderBound *self, gsize machine)
{
  gsize n_left = 0;

  for (gsize u = 0; u < self->facts->n_setups; u++)
    if (self->runs[u] > 0 && (gsize) self->facts->problem->machine[u] == machine)
      self->left[n_left++] = u;
  return n_left;
}

static gsize
count_busy (const HwOrderBound *self, gsize at)
{
  gsize n_busy = 0;

  for (gsize m = 0; m < self->facts->n_machines; m++)
    {
      gboolean busy = FALSE;

      for (gsize u = 0; u < self->facts->n_setups && !busy; u++)
        busy = self->runs[u] > 0 && (gsize) self->facts->problem->machine[u] == m;
      n_busy += busy && m != at ? 1 : 0;
    }
  return n_busy;
}

static int
walk_to (const HwOrderFacts *facts, gsize machine)
{
  int cheapest = HW_ORDER_FAR;

  for (gsize m = 0; m < facts->n_machines; m++)
    if (m != machine)
      cheapest = MIN (cheapest, hw_order_walk (facts, m, machine));
  return cheapest < HW_ORDER_FAR ? cheapest : 0;
}

int
hw_order_bound_get (HwOrderBound *self, const guint64 *done, guint16 *mounted, gsize at)
{
  const HwOrderFacts *facts = self->facts;
  int walk_chain = gather_left (self, done, at);
  gsize n_elsewhere = count_busy (self, at);
  int walks = 0;
  int dearest_walk = 0;
  int total = 0;

  for (gsize m = 0; m < facts->n_machines; m++)
    {
      gsize n_left = list_left (self, m);

      if (n_left == 0)
        {
          mounted[m] = G_MAXUINT16;
          continue;
        }
      total += bound_machine (self, mounted[m], n_left, m == at && n_elsewhere == 0);
      if (m != at)
        {
          walks += walk_to (facts, m);
          dearest_walk = MAX (dearest_walk, walk_to (facts, m));
        }
    }
  /* Not sitting anywhere yet: the first machine is free to sit down at. */
  if (at == facts->n_machines)
    walks -= dearest_walk;
  return total + MAX (walks, walk_chain);
}
