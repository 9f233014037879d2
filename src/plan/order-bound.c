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
  int   *near;           /* [n_classes squared] the cheaper way between two classes of one machine */
  int   *again;          /* [n_classes] times that it must be entered after the first; -1 nothing of it is left */
  int   *tail;           /* [n_classes] dearest chain after an operation of it that is left */
  int   *distance;       /* spanning tree: to the tree built so far */
  gsize *left;           /* classes left on one machine */
  gsize *kept;           /* those of them that have no set-up in common */
  gsize *outside;        /* those not yet in the tree */
};

HwOrderBound *
hw_order_bound_new (const HwOrderFacts *facts)
{
  HwOrderBound *self = g_new0 (HwOrderBound, 1);
  gsize n = facts->n_classes;

  self->facts = facts;
  self->near = g_new0 (int, n * n + 1);
  self->again = g_new0 (int, n + 1);
  self->tail = g_new0 (int, n + 1);
  self->distance = g_new0 (int, n + 1);
  self->left = g_new0 (gsize, n + 1);
  self->kept = g_new0 (gsize, n + 1);
  self->outside = g_new0 (gsize, n + 1);
  for (gsize a = 0; a < n; a++)
    for (gsize b = 0; b < n; b++)
      self->near[a * n + b] = MIN (facts->between[a * n + b], facts->between[b * n + a]);
  return self;
}

void
hw_order_bound_free (HwOrderBound *self)
{
  if (self == NULL)
    return;
  g_free (self->near);
  g_free (self->again);
  g_free (self->tail);
  g_free (self->distance);
  g_free (self->left);
  g_free (self->kept);
  g_free (self->outside);
  g_free (self);
}

static gboolean
takes_node (const HwOrderFacts *facts, gsize class, gsize node)
{
  return node < facts->n_setups && hw_order_set_has (facts->accept + class * facts->n_setup_words, node);
}

/* Must what is mounted be left before @operation, which takes it? Something before it cannot take it. */
static gboolean
is_cut_off (const HwOrderFacts *facts, const guint64 *done, gsize operation)
{
  const guint64 *before = facts->before + operation * facts->n_words;
  const guint64 *others = facts->others + (gsize) facts->class_of[operation] * facts->n_words;

  for (gsize w = 0; w < facts->n_words; w++)
    if (before[w] & ~done[w] & others[w])
      return TRUE;
  return FALSE;
}

/* Gathers entries and tails of what is left; returns the dearest chain of walks from @at. */
static int
gather_left (HwOrderBound *self, const guint64 *done, const guint16 *mounted, gsize at)
{
  const HwOrderFacts *facts = self->facts;
  int walks = 0;

  for (gsize c = 0; c < facts->n_classes; c++)
    {
      self->again[c] = -1;
      self->tail[c] = 0;
    }
  for (gsize i = 0; i < facts->n; i++)
    {
      gsize class = (gsize) facts->class_of[i];
      gsize machine = (gsize) facts->machine_of[class];
      int again = facts->runs[i] - 1;

      if (hw_order_set_has (done, i))
        continue;
      if (takes_node (facts, class, mounted[machine]) && is_cut_off (facts, done, i))
        again++;
      self->again[class] = MAX (self->again[class], again);
      self->tail[class] = MAX (self->tail[class], facts->tail[i]);
      walks = MAX (walks, hw_order_walk (facts, at, machine) + facts->walk_tail[i]);
    }
  return walks;
}

/* Classes of those left that have no set-up in common, the choosiest first. */
static gsize
keep_apart (HwOrderBound *self, gsize n_left)
{
  const HwOrderFacts *facts = self->facts;
  gsize n_kept = 0;

  for (gsize i = 0; i < n_left; i++)
    {
      gsize class = self->left[i];
      gsize k = 0;

      while (k < n_kept && facts->apart[class * facts->n_classes + self->kept[k]])
        k++;
      if (k == n_kept)
        self->kept[n_kept++] = class;
    }
  return n_kept;
}

/* The classes outside the tree that has nothing but what is mounted, and the kept class that takes it. */
static gsize
start_tree (HwOrderBound *self, gsize mounted, gsize n_kept)
{
  const HwOrderFacts *facts = self->facts;
  const int *from = facts->reach + mounted * facts->n_classes;
  gsize n_outside = 0;

  for (gsize i = 0; i < n_kept; i++)
    if (takes_node (facts, self->kept[i], mounted))
      from = facts->between + self->kept[i] * facts->n_classes;
  for (gsize i = 0; i < n_kept; i++)
    if (!takes_node (facts, self->kept[i], mounted))
      {
        self->outside[n_outside] = self->kept[i];
        self->distance[n_outside++] = from[self->kept[i]];
      }
  return n_outside;
}

/* Prim's method from what is mounted. */
static int
span_tree (HwOrderBound *self, gsize mounted, gsize n_kept)
{
  gsize n_outside = start_tree (self, mounted, n_kept);
  int total = 0;

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
        self->distance[i] = MIN (self->distance[i], self->near[joined * self->facts->n_classes + self->outside[i]]);
    }
  return total;
}

/* The cheapest way into @class from what it does not take: what others that are left take, or what is mounted. */
static int
cheapest_entry (const HwOrderBound *self, gsize class, gsize mounted, gsize n_left)
{
  const HwOrderFacts *facts = self->facts;
  int cheapest = HW_ORDER_FAR;

  if (mounted < facts->n_setups && !takes_node (facts, class, mounted))
    cheapest = facts->reach[mounted * facts->n_classes + class];
  for (gsize i = 0; i < n_left; i++)
    cheapest = MIN (cheapest, facts->enter[self->left[i] * facts->n_classes + class]);
  return cheapest < HW_ORDER_FAR ? cheapest : 0;
}

/* Changes still due on one machine. */
static int
bound_machine (HwOrderBound *self, gsize mounted, gsize n_left)
{
  const HwOrderFacts *facts = self->facts;
  gsize n_kept = keep_apart (self, n_left);
  int tree = span_tree (self, mounted, n_kept);
  int chain = 0;

  for (gsize i = 0; i < n_kept; i++)
    if (self->again[self->kept[i]] > 0)
      tree += self->again[self->kept[i]] * cheapest_entry (self, self->kept[i], mounted, n_left);
  for (gsize i = 0; i < n_left; i++)
    chain = MAX (chain, facts->reach[mounted * facts->n_classes + self->left[i]] + self->tail[self->left[i]]);
  return MAX (tree, chain);
}

static gsize
list_left (HwOrderBound *self, gsize machine)
{
  const HwOrderFacts *facts = self->facts;
  gsize n_left = 0;

  for (gsize i = 0; i < facts->n_classes; i++)
    {
      gsize class = (gsize) facts->by_size[i];

      if (self->again[class] >= 0 && (gsize) facts->machine_of[class] == machine)
        self->left[n_left++] = class;
    }
  return n_left;
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

void
hw_order_bound_settle (const HwOrderBound *self, const guint64 *done, guint16 *mounted)
{
  const HwOrderFacts *facts = self->facts;

  for (gsize m = 0; m < facts->n_machines; m++)
    if (hw_order_set_holds (done, facts->sewn_on + m * facts->n_words, facts->n_words))
      mounted[m] = G_MAXUINT16;
}

int
hw_order_bound_get (HwOrderBound *self, const guint64 *done, const guint16 *mounted, gsize at)
{
  const HwOrderFacts *facts = self->facts;
  int walk_chain = gather_left (self, done, mounted, at);
  int walks = 0;
  int dearest_walk = 0;
  int total = 0;

  for (gsize m = 0; m < facts->n_machines; m++)
    {
      gsize n_left = list_left (self, m);

      if (n_left == 0)
        continue;
      total += bound_machine (self, mounted[m], n_left);
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
