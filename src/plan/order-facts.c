/* order-facts.c - an ordering problem closed, and what follows from its arrows alone
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/order-private.h"

#include <string.h>

/* Shortest ways between all nodes, by Floyd's method. Sums of two stay within an int. */
static void
close_matrix (int *matrix, gsize n)
{
  for (gsize via = 0; via < n; via++)
    for (gsize from = 0; from < n; from++)
      {
        int there = matrix[from * n + via];
        int *row = matrix + from * n;
        const int *onward = matrix + via * n;

        if (there >= HW_ORDER_FAR || from == via)
          continue;
        for (gsize to = 0; to < n; to++)
          row[to] = MIN (row[to], there + onward[to]);
      }
}

static void
fill_change (HwOrderFacts *self)
{
  const HwOrderProblem *problem = self->problem;
  gsize n = self->n_nodes;

  for (gsize i = 0; i < n * n; i++)
    self->change[i] = HW_ORDER_FAR;
  for (gsize from = 0; from < self->n_setups; from++)
    for (gsize to = 0; to < self->n_setups; to++)
      if (problem->machine[from] == problem->machine[to])
        self->change[from * n + to] = from == to ? 0 : problem->change[from * problem->n_setups + to];
  for (gsize to = 0; to < self->n_setups; to++)
    self->change[(self->n_setups + (gsize) problem->machine[to]) * n + to] = problem->entry[to];
  if (!problem->closed)
    close_matrix (self->change, n);
}

static void
fill_walk (HwOrderFacts *self)
{
  gsize n = self->n_machines + 1;

  for (gsize from = 0; from < n; from++)
    for (gsize to = 0; to < n; to++)
      if (from == to || from == self->n_machines)
        self->walk[from * n + to] = 0;
      else if (to == self->n_machines)
        self->walk[from * n + to] = HW_ORDER_FAR;
      else
        self->walk[from * n + to] = self->problem->walk[from * self->n_machines + to];
  close_matrix (self->walk, n);
}

/* Where the arrows of each operation begin in the list of what they lead to. */
static int *
list_led_to (gsize n_operations, const HwOrderArrow *arrows, gsize n_arrows, int *led_to)
{
  int *first = g_new0 (int, n_operations + 2);

  for (gsize a = 0; a < n_arrows; a++)
    first[arrows[a].before + 2]++;
  for (gsize i = 2; i < n_operations + 2; i++)
    first[i] += first[i - 1];
  for (gsize a = 0; a < n_arrows; a++)
    led_to[first[arrows[a].before + 1]++] = arrows[a].after;
  return first;
}

int *
hw_order_as_listed (gsize n_operations, const HwOrderArrow *arrows, gsize n_arrows)
{
  g_autofree int *waiting = g_new0 (int, n_operations + 1);
  g_autofree int *listed = g_new0 (int, n_operations + 1);
  g_autofree int *led_to = g_new (int, n_arrows + 1);
  g_autofree int *first = list_led_to (n_operations, arrows, n_arrows, led_to);
  gsize done = 0;
  gsize from = 0;            /* nothing before it is free */

  for (gsize a = 0; a < n_arrows; a++)
    waiting[arrows[a].after]++;

  while (done < n_operations)
    {
      gsize next = from;

      while (next < n_operations && waiting[next] != 0)
        next++;
      if (next == n_operations)
        return NULL;
      waiting[next] = -1;
      listed[done++] = (int) next;
      from = next + 1;
      for (int a = first[next]; a < first[next + 1]; a++)
        if (--waiting[led_to[a]] == 0)
          from = MIN (from, (gsize) led_to[a]);
    }
  return g_steal_pointer (&listed);
}

static void
widen (HwOrderSpan *self, HwOrderSpan by)
{
  *self = self->first < self->end ? (HwOrderSpan) { MIN (self->first, by.first), MAX (self->end, by.end) } : by;
}

static HwOrderSpan
word_of (gsize index)
{
  return (HwOrderSpan) { index / 64, index / 64 + 1 };
}

/* The first of @row from @from on, which has nothing outside @span; G_MAXSIZE none. */
static gsize
next_in_span (const guint64 *row, HwOrderSpan span, gsize from)
{
  gsize next = hw_order_set_next (row, MAX (from, span.first * 64), span.end * 64);

  return next < span.end * 64 ? next : G_MAXSIZE;
}

/* Before @later comes @earlier, and what comes before that. */
static void
put_before (HwOrderFacts *self, gsize earlier, gsize later)
{
  const guint64 *from = self->before + earlier * self->n_words;
  guint64 *row = self->before + later * self->n_words;
  HwOrderSpan span = self->span[earlier];

  for (gsize w = span.first; w < span.end; w++)
    row[w] |= from[w];
  hw_order_set_add (row, earlier);
  widen (&span, word_of (earlier));
  widen (&self->span[later], span);
}

static void
fill_before (HwOrderFacts *self)
{
  const HwOrderProblem *problem = self->problem;
  g_autofree int *led_to = g_new (int, problem->n_arrows + 1);
  g_autofree int *first = list_led_to (self->n, problem->arrows, problem->n_arrows, led_to);

  for (gsize s = 0; s < self->n; s++)
    {
      gsize earlier = (gsize) self->sequence[s];

      for (int a = first[earlier]; a < first[earlier + 1]; a++)
        put_before (self, earlier, (gsize) led_to[a]);
    }
}

/* ---- classes ---- */

static void
read_accept (const HwOrderFacts *self, gsize operation, guint64 *row)
{
  const HwOrderProblem *problem = self->problem;
  gsize words = HW_ORDER_SETUP_WORDS (problem->n_setups);

  memset (row, 0, self->n_setup_words * sizeof *row);
  if (problem->accept == NULL)
    hw_order_set_add (row, (gsize) problem->setup[operation]);
  else
    for (gsize u = 0; u < self->n_setups; u++)
      if (hw_order_set_has (problem->accept + operation * words, u))
        hw_order_set_add (row, u);
}

static int
find_class (HwOrderFacts *self, const guint64 *row)
{
  gsize size = self->n_setup_words * sizeof *row;

  for (gsize c = 0; c < self->n_classes; c++)
    if (memcmp (self->accept + c * self->n_setup_words, row, size) == 0)
      return (int) c;
  memcpy (self->accept + self->n_classes * self->n_setup_words, row, size);
  return (int) self->n_classes++;
}

static void
fill_classes (HwOrderFacts *self)
{
  g_autofree guint64 *row = g_new0 (guint64, self->n_setup_words);

  for (gsize i = 0; i < self->n; i++)
    {
      gsize class;

      read_accept (self, i, row);
      class = (gsize) (self->class_of[i] = find_class (self, row));
      self->machine_of[class] = self->problem->machine[self->problem->setup[i]];
      hw_order_set_add (self->sewn_on + (gsize) self->machine_of[class] * self->n_words, i);
    }
}

static void
sort_by_size (HwOrderFacts *self)
{
  for (gsize c = 0; c < self->n_classes; c++)
    {
      gsize place = c;

      for (gsize u = 0; u < self->n_setups; u++)
        self->class_size[c] += hw_order_set_has (self->accept + c * self->n_setup_words, u) ? 1 : 0;
      for (; place > 0 && self->class_size[self->by_size[place - 1]] > self->class_size[c]; place--)
        self->by_size[place] = self->by_size[place - 1];
      self->by_size[place] = (int) c;
    }
}

static void
fill_members (HwOrderFacts *self)
{
  gsize n_filled = 0, n_members = 0;

  for (gsize i = 0; i < self->n; i++)
    n_members += (gsize) self->class_size[self->class_of[i]];
  self->members = g_new0 (int, n_members + 1);
  for (gsize u = 0; u < self->n_setups; u++)
    {
      self->first_member[u] = n_filled;
      for (gsize s = 0; s < self->n; s++)
        if (hw_order_takes (self, (gsize) self->sequence[s], u))
          self->members[n_filled++] = self->sequence[s];
    }
  self->first_member[self->n_setups] = n_filled;
}

static void
fill_reach (HwOrderFacts *self)
{
  for (gsize node = 0; node < self->n_nodes; node++)
    for (gsize c = 0; c < self->n_classes; c++)
      {
        int *reach = &self->reach[node * self->n_classes + c];

        *reach = HW_ORDER_FAR;
        for (gsize u = 0; u < self->n_setups; u++)
          if (hw_order_set_has (self->accept + c * self->n_setup_words, u))
            *reach = MIN (*reach, hw_order_change (self, node, u));
      }
}

static void
fill_pair (HwOrderFacts *self, gsize a, gsize b)
{
  const guint64 *from = self->accept + a * self->n_setup_words, *to = self->accept + b * self->n_setup_words;
  gsize pair = a * self->n_classes + b;

  self->between[pair] = self->enter[pair] = HW_ORDER_FAR;
  self->apart[pair] = self->machine_of[a] == self->machine_of[b];
  for (gsize u = 0; u < self->n_setups; u++)
    {
      int reach = self->reach[u * self->n_classes + b];

      if (!hw_order_set_has (from, u))
        continue;
      self->between[pair] = MIN (self->between[pair], reach);
      if (hw_order_set_has (to, u))
        self->apart[pair] = FALSE;
      else
        self->enter[pair] = MIN (self->enter[pair], reach);
    }
}

static void
fill_pairs (HwOrderFacts *self)
{
  for (gsize a = 0; a < self->n_classes; a++)
    for (gsize b = 0; b < self->n_classes; b++)
      fill_pair (self, a, b);
  for (gsize c = 0; c < self->n_classes; c++)
    for (gsize i = 0; i < self->n; i++)
      if (self->apart[c * self->n_classes + (gsize) self->class_of[i]])
        hw_order_set_add (self->others + c * self->n_words, i);
}

/* ---- chains ---- */

/* The set of what comes after each operation, transitive: the arrows the other way round. */
static guint64 *
list_later (const HwOrderFacts *self, HwOrderSpan *spans)
{
  guint64 *later = g_new0 (guint64, self->n * self->n_words + 1);

  for (gsize k = 0; k < self->n; k++)
    {
      const guint64 *before = self->before + k * self->n_words;

      for (gsize i = next_in_span (before, self->span[k], 0); i != G_MAXSIZE;
           i = next_in_span (before, self->span[k], i + 1))
        {
          hw_order_set_add (later + i * self->n_words, k);
          widen (&spans[i], word_of (k));
        }
    }
  return later;
}

static gboolean
share_any (const guint64 *a, const guint64 *b, const guint64 *c, HwOrderSpan span)
{
  for (gsize w = span.first; w < span.end; w++)
    if (a[w] & b[w] & c[w])
      return TRUE;
  return FALSE;
}

/* Lengthens the chains that start with @i by those that start with @k, which comes after it. */
static void
chain_on (HwOrderFacts *self, const guint64 *later_than, gsize i, gsize k)
{
  gsize from = (gsize) self->class_of[i], to = (gsize) self->class_of[k], words = self->n_words;
  gsize machine = (gsize) self->machine_of[from], place = (gsize) self->machine_of[to];

  self->walk_tail[i] = MAX (self->walk_tail[i], hw_order_walk (self, machine, place) + self->walk_tail[k]);
  if (place == machine)
    self->tail[i] = MAX (self->tail[i], self->between[from * self->n_classes + to] + self->tail[k]);
  if (from == to)
    {
      gboolean left = share_any (later_than + i * words, self->before + k * words, self->others + from * words,
                                 self->span[k]);

      self->runs[i] = MAX (self->runs[i], self->runs[k] + (left ? 1 : 0));
    }
}

/* Chains are followed from the last operation back, so that what comes after each is known. */
static void
fill_chains (HwOrderFacts *self)
{
  g_autofree HwOrderSpan *spans = g_new0 (HwOrderSpan, self->n + 1);
  g_autofree guint64 *later_than = list_later (self, spans);

  for (gsize s = self->n; s-- > 0;)
    {
      gsize i = (gsize) self->sequence[s];
      const guint64 *later = later_than + i * self->n_words;

      self->runs[i] = 1;
      for (gsize k = next_in_span (later, spans[i], 0); k != G_MAXSIZE; k = next_in_span (later, spans[i], k + 1))
        chain_on (self, later_than, i, k);
    }
}

static void
allocate_classes (HwOrderFacts *self)
{
  gsize n = self->n_classes;

  self->class_size = g_new0 (int, n + 1);
  self->by_size = g_new0 (int, n + 1);
  self->reach = g_new0 (int, self->n_nodes * n + 1);
  self->between = g_new0 (int, n * n + 1);
  self->enter = g_new0 (int, n * n + 1);
  self->apart = g_new0 (guint8, n * n + 1);
  self->others = g_new0 (guint64, n * self->n_words + 1);
}

HwOrderFacts *
hw_order_facts_new (const HwOrderProblem *problem, gsize n_setups)
{
  g_autoptr (HwOrderFacts) self = g_new0 (HwOrderFacts, 1);

  self->problem = problem;
  self->n = problem->n_operations;
  self->n_setups = n_setups;
  self->n_machines = problem->n_machines;
  self->n_nodes = self->n_setups + self->n_machines;
  self->n_words = self->n / 64 + 1;
  self->n_setup_words = HW_ORDER_SETUP_WORDS (n_setups);
  self->sequence = hw_order_as_listed (self->n, problem->arrows, problem->n_arrows);
  if (self->sequence == NULL)
    return NULL;

  self->change = g_new0 (int, self->n_nodes * self->n_nodes + 1);
  self->walk = g_new0 (int, (self->n_machines + 1) * (self->n_machines + 1));
  self->before = g_new0 (guint64, self->n * self->n_words + 1);
  self->span = g_new0 (HwOrderSpan, self->n + 1);
  self->first_member = g_new0 (gsize, self->n_setups + 1);
  self->class_of = g_new0 (int, self->n + 1);
  self->machine_of = g_new0 (int, self->n + 1);
  self->sewn_on = g_new0 (guint64, self->n_machines * self->n_words + 1);
  self->accept = g_new0 (guint64, self->n * self->n_setup_words + 1);
  self->tail = g_new0 (int, self->n + 1);
  self->walk_tail = g_new0 (int, self->n + 1);
  self->runs = g_new0 (int, self->n + 1);
  fill_change (self);
  fill_walk (self);
  fill_before (self);
  fill_classes (self);
  allocate_classes (self);
  sort_by_size (self);
  fill_members (self);
  fill_reach (self);
  fill_pairs (self);
  fill_chains (self);
  return g_steal_pointer (&self);
}

void
hw_order_facts_free (HwOrderFacts *self)
{
  if (self == NULL)
    return;
  g_free (self->change);
  g_free (self->walk);
  g_free (self->sequence);
  g_free (self->before);
  g_free (self->span);
  g_free (self->members);
  g_free (self->first_member);
  g_free (self->class_of);
  g_free (self->machine_of);
  g_free (self->class_size);
  g_free (self->by_size);
  g_free (self->sewn_on);
  g_free (self->accept);
  g_free (self->reach);
  g_free (self->between);
  g_free (self->enter);
  g_free (self->apart);
  g_free (self->others);
  g_free (self->tail);
  g_free (self->walk_tail);
  g_free (self->runs);
  g_free (self);
}

int
hw_order_facts_cost (const HwOrderFacts *self, const int *order, const int *setup)
{
  const HwOrderProblem *problem = self->problem;
  gsize few[16];
  g_autofree gsize *many = self->n_machines > G_N_ELEMENTS (few) ? g_new (gsize, self->n_machines) : NULL;
  gsize *mounted = many != NULL ? many : few;
  gsize at = problem->at < 0 ? self->n_machines : (gsize) problem->at;
  int cost = 0;

  for (gsize m = 0; m < self->n_machines; m++)
    mounted[m] = self->n_setups + m;
  for (gsize i = 0; i < self->n; i++)
    {
      gsize taken = (gsize) setup[order[i]];
      gsize machine = (gsize) problem->machine[taken];

      cost += hw_order_walk (self, at, machine) + hw_order_change (self, mounted[machine], taken);
      mounted[machine] = taken;
      at = machine;
    }
  return cost;
}
