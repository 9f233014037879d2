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
  /* Operations of each class, those that come up in most runs first; those with the dearest chain first; and those of
   * each machine with the dearest chain of walks first: the first one left of each tells the most. */
  int   *by_runs, *by_tail, *by_walks;
  gsize *first_of_class;       /* [n_classes + 1] into by_runs and by_tail */
  gsize *first_of_machine;     /* [n_machines + 1] into by_walks */
  int   *near;           /* [n_classes squared] the cheaper way between two classes of one machine */
  int   *again;          /* [n_classes] times that it must be entered after the first; -1 nothing of it is left */
  int   *tail;           /* [n_classes] dearest chain after an operation of it that is left */
  int   *distance;       /* spanning tree: to the tree built so far */
  gsize *left;           /* classes left on one machine */
  gsize *kept;           /* those of them that have no set-up in common */
  gsize *outside;        /* those not yet in the tree */
  int   *cheapest;       /* [n_classes] the cheapest way into it from anything it does not take */
  gboolean *is_apart;    /* [n_classes] has no set-up in common with any other that is so */
};

/* The tree takes the square of the classes left. Of more than so many it is left out, for what each must cost to be
 * entered: less, but soon known, and a search over so many looks at few orders anyway. */
#define MOST_IN_TREE 48

typedef struct
{
  const HwOrderFacts *facts;
  gboolean            by_machine;
  const int          *value;
} Sorting;

static gsize
part_of (const Sorting *self, int operation)
{
  int class = self->facts->class_of[operation];

  return (gsize) (self->by_machine ? self->facts->machine_of[class] : class);
}

static int
compare_in_parts_cb (gconstpointer a, gconstpointer b, gpointer data)
{
  const Sorting *self = data;
  int x = *(const int *) a, y = *(const int *) b;
  gsize part_x = part_of (self, x), part_y = part_of (self, y);

  if (part_x != part_y)
    return part_x < part_y ? -1 : 1;
  if (self->value[x] != self->value[y])
    return self->value[x] > self->value[y] ? -1 : 1;
  return x < y ? -1 : x > y;
}

/* (transfer full): all operations, part by part, in each part those of the greatest @value first. */
static int *
sort_parts (const HwOrderFacts *facts, gboolean by_machine, const int *value)
{
  Sorting sorting = { facts, by_machine, value };
  int *list = g_new0 (int, facts->n + 1);

  for (gsize i = 0; i < facts->n; i++)
    list[i] = (int) i;
  g_qsort_with_data (list, (int) facts->n, sizeof *list, compare_in_parts_cb, &sorting);
  return list;
}

/* (transfer full): where each part begins in such a list. */
static gsize *
count_parts (const HwOrderFacts *facts, gboolean by_machine, gsize n_parts)
{
  Sorting sorting = { facts, by_machine, NULL };
  gsize *first = g_new0 (gsize, n_parts + 1);

  for (gsize i = 0; i < facts->n; i++)
    first[part_of (&sorting, (int) i) + 1]++;
  for (gsize part = 0; part < n_parts; part++)
    first[part + 1] += first[part];
  return first;
}

static gboolean
takes_node (const HwOrderFacts *facts, gsize class, gsize node)
{
  return node < facts->n_setups && hw_order_set_has (facts->accept + class * facts->n_setup_words, node);
}

static int
find_cheapest (const HwOrderFacts *facts, gsize class)
{
  int cheapest = HW_ORDER_FAR;

  for (gsize node = 0; node <= facts->n_setups; node++)
    if (!takes_node (facts, class, node))
      cheapest = MIN (cheapest, facts->reach[node * facts->n_classes + class]);
  return cheapest < HW_ORDER_FAR ? cheapest : 0;
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

/* Of all classes, while none counts as done. */
static void
set_apart (HwOrderBound *self)
{
  for (gsize m = 0; m < self->facts->n_machines; m++)
    {
      gsize n_kept = keep_apart (self, list_left (self, m));

      for (gsize i = 0; i < n_kept; i++)
        self->is_apart[self->kept[i]] = TRUE;
    }
}

HwOrderBound *
hw_order_bound_new (const HwOrderFacts *facts)
{
  HwOrderBound *self = g_new0 (HwOrderBound, 1);
  gsize n = facts->n_classes;

  self->facts = facts;
  self->by_runs = sort_parts (facts, FALSE, facts->runs);
  self->by_tail = sort_parts (facts, FALSE, facts->tail);
  self->by_walks = sort_parts (facts, TRUE, facts->walk_tail);
  self->first_of_class = count_parts (facts, FALSE, n);
  self->first_of_machine = count_parts (facts, TRUE, facts->n_machines);
  self->near = g_new0 (int, n * n + 1);
  self->again = g_new0 (int, n + 1);
  self->tail = g_new0 (int, n + 1);
  self->distance = g_new0 (int, n + 1);
  self->left = g_new0 (gsize, n + 1);
  self->kept = g_new0 (gsize, n + 1);
  self->outside = g_new0 (gsize, n + 1);
  self->cheapest = g_new0 (int, n + 1);
  self->is_apart = g_new0 (gboolean, n + 1);
  set_apart (self);
  for (gsize a = 0; a < n; a++)
    {
      self->cheapest[a] = find_cheapest (facts, a);
      for (gsize b = 0; b < n; b++)
        self->near[a * n + b] = MIN (facts->between[a * n + b], facts->between[b * n + a]);
    }
  return self;
}

void
hw_order_bound_free (HwOrderBound *self)
{
  if (self == NULL)
    return;
  g_free (self->by_runs);
  g_free (self->by_tail);
  g_free (self->by_walks);
  g_free (self->first_of_class);
  g_free (self->first_of_machine);
  g_free (self->near);
  g_free (self->again);
  g_free (self->tail);
  g_free (self->distance);
  g_free (self->left);
  g_free (self->kept);
  g_free (self->outside);
  g_free (self->cheapest);
  g_free (self->is_apart);
  g_free (self);
}

/* Must what is mounted be left before @operation, which takes it? Something before it cannot take it. */
static gboolean
is_cut_off (const HwOrderFacts *facts, const guint64 *done, gsize operation)
{
  const guint64 *before = facts->before + operation * facts->n_words;
  const guint64 *others = facts->others + (gsize) facts->class_of[operation] * facts->n_words;

  for (gsize w = facts->span[operation].first; w < facts->span[operation].end; w++)
    if (before[w] & ~done[w] & others[w])
      return TRUE;
  return FALSE;
}

/* The place of the first of list[from..to) that is not done; @to when all are. */
static gsize
first_left (const int *list, gsize from, gsize to, const guint64 *done)
{
  while (from < to && hw_order_set_has (done, (gsize) list[from]))
    from++;
  return from;
}

/* How often @class must be entered after the first time; -1: nothing of it is left. */
static int
count_again (const HwOrderBound *self, const guint64 *done, const guint16 *mounted, gsize class)
{
  const HwOrderFacts *facts = self->facts;
  gsize end = self->first_of_class[class + 1];
  gsize place = first_left (self->by_runs, self->first_of_class[class], end, done);
  int most;

  if (place == end)
    return -1;
  most = facts->runs[self->by_runs[place]];
  if (!takes_node (facts, class, mounted[facts->machine_of[class]]))
    return most - 1;
  /* It must be left first, and so entered once more, when that holds for one of those with most runs. */
  while (place < end && facts->runs[self->by_runs[place]] == most)
    {
      if (is_cut_off (facts, done, (gsize) self->by_runs[place]))
        return most;
      place = first_left (self->by_runs, place + 1, end, done);
    }
  return most - 1;
}

/* Gathers entries and tails of what is left; returns the dearest chain of walks from @at. */
static int
gather_left (HwOrderBound *self, const guint64 *done, const guint16 *mounted, gsize at)
{
  const HwOrderFacts *facts = self->facts;
  int walks = 0;

  for (gsize c = 0; c < facts->n_classes; c++)
    {
      gsize end = self->first_of_class[c + 1];
      gsize dearest = first_left (self->by_tail, self->first_of_class[c], end, done);

      self->again[c] = count_again (self, done, mounted, c);
      self->tail[c] = dearest < end ? facts->tail[self->by_tail[dearest]] : 0;
    }
  for (gsize m = 0; m < facts->n_machines && facts->n_machines > 1; m++)
    {
      gsize end = self->first_of_machine[m + 1];
      gsize dearest = first_left (self->by_walks, self->first_of_machine[m], end, done);

      if (dearest < end)
        walks = MAX (walks, hw_order_walk (facts, at, m) + facts->walk_tail[self->by_walks[dearest]]);
    }
  return walks;
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

/* The spanning tree over what is left, and what must be entered again. */
static int
bound_tree (HwOrderBound *self, gsize mounted, gsize n_left)
{
  gsize n_kept = keep_apart (self, n_left);
  int tree = span_tree (self, mounted, n_kept);

  for (gsize i = 0; i < n_kept; i++)
    if (self->again[self->kept[i]] > 0)
      tree += self->again[self->kept[i]] * cheapest_entry (self, self->kept[i], mounted, n_left);
  return tree;
}

/* Each class that has no set-up in common with another must be entered as often as it must. */
static int
bound_entries (const HwOrderBound *self, gsize mounted, gsize n_left)
{
  int total = 0;

  for (gsize i = 0; i < n_left; i++)
    {
      gsize class = self->left[i];
      int entries = self->again[class] + (takes_node (self->facts, class, mounted) ? 0 : 1);

      if (self->is_apart[class])
        total += entries * self->cheapest[class];
    }
  return total;
}

/* Changes still due on one machine. */
static int
bound_machine (HwOrderBound *self, gsize mounted, gsize n_left)
{
  const HwOrderFacts *facts = self->facts;
  int tree = n_left <= MOST_IN_TREE ? bound_tree (self, mounted, n_left) : bound_entries (self, mounted, n_left);
  int chain = 0;

  for (gsize i = 0; i < n_left; i++)
    chain = MAX (chain, facts->reach[mounted * facts->n_classes + self->left[i]] + self->tail[self->left[i]]);
  return MAX (tree, chain);
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
