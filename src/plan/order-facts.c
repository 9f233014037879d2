/* order-facts.c - an ordering problem closed, and what follows from its arrows alone
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/order-private.h"

/* Shortest ways between all nodes, by Floyd's method. */
static void
close_matrix (int *matrix, gsize n)
{
  for (gsize via = 0; via < n; via++)
    for (gsize from = 0; from < n; from++)
      for (gsize to = 0; to < n; to++)
        {
          int there = matrix[from * n + via];
          int onward = matrix[via * n + to];

          if (there < HW_ORDER_FAR && onward < HW_ORDER_FAR)
            matrix[from * n + to] = MIN (matrix[from * n + to], there + onward);
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
        self->change[from * n + to] = from == to ? 0 : problem->change[from * self->n_setups + to];
  for (gsize to = 0; to < self->n_setups; to++)
    self->change[(self->n_setups + (gsize) problem->machine[to]) * n + to] = problem->entry[to];
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

  for (gsize a = 0; a < n_arrows; a++)
    waiting[arrows[a].after]++;

  while (done < n_operations)
    {
      gsize next = 0;

      while (next < n_operations && waiting[next] != 0)
        next++;
      if (next == n_operations)
        return NULL;
      waiting[next] = -1;
      listed[done++] = (int) next;
      for (int a = first[next]; a < first[next + 1]; a++)
        waiting[led_to[a]]--;
    }
  return g_steal_pointer (&listed);
}

static void
fill_before (HwOrderFacts *self)
{
  const HwOrderProblem *problem = self->problem;
  gsize words = self->n_words;

  for (gsize s = 0; s < self->n; s++)
    for (gsize a = 0; a < problem->n_arrows; a++)
      if (problem->arrows[a].after == self->sequence[s])
        {
          guint64 *row = self->before + (gsize) self->sequence[s] * words;
          gsize earlier = (gsize) problem->arrows[a].before;

          for (gsize w = 0; w < words; w++)
            row[w] |= self->before[earlier * words + w];
          hw_order_set_add (row, earlier);
        }
}

static void
fill_members (HwOrderFacts *self)
{
  gsize n_filled = 0;

  for (gsize u = 0; u < self->n_setups; u++)
    {
      self->first_member[u] = n_filled;
      for (gsize s = 0; s < self->n; s++)
        if (self->problem->setup[self->sequence[s]] == (int) u)
          self->members[n_filled++] = self->sequence[s];
    }
  self->first_member[self->n_setups] = n_filled;
}

/* The set of what comes after each operation, transitive: the arrows the other way round. */
static guint64 *
list_later (const HwOrderFacts *self)
{
  guint64 *later = g_new0 (guint64, self->n * self->n_words + 1);

  for (gsize k = 0; k < self->n; k++)
    for (gsize i = 0; i < self->n; i++)
      if (hw_order_set_has (self->before + k * self->n_words, i))
        hw_order_set_add (later + i * self->n_words, k);
  return later;
}

/* For each set-up, the operations of its machine that are of another. */
static guint64 *
list_others (const HwOrderFacts *self)
{
  const HwOrderProblem *problem = self->problem;
  guint64 *others = g_new0 (guint64, self->n_setups * self->n_words + 1);

  for (gsize u = 0; u < self->n_setups; u++)
    for (gsize i = 0; i < self->n; i++)
      if (problem->setup[i] != (int) u && problem->machine[problem->setup[i]] == problem->machine[u])
        hw_order_set_add (others + u * self->n_words, i);
  return others;
}

static gboolean
share_any (const guint64 *a, const guint64 *b, const guint64 *c, gsize n_words)
{
  for (gsize w = 0; w < n_words; w++)
    if (a[w] & b[w] & c[w])
      return TRUE;
  return FALSE;
}

/* Chains are followed from the last operation back, so that what comes after each is known. */
static void
fill_chains (HwOrderFacts *self)
{
  const HwOrderProblem *problem = self->problem;
  g_autofree guint64 *later_than = list_later (self);
  g_autofree guint64 *others = list_others (self);
  gsize words = self->n_words;

  for (gsize s = self->n; s-- > 0;)
    {
      gsize i = (gsize) self->sequence[s];
      gsize setup = (gsize) problem->setup[i];
      gsize machine = (gsize) problem->machine[setup];

      self->runs[i] = 1;
      for (gsize later = s + 1; later < self->n; later++)
        {
          gsize k = (gsize) self->sequence[later];
          gsize next = (gsize) problem->setup[k];
          gsize place = (gsize) problem->machine[next];

          if (!hw_order_set_has (self->before + k * self->n_words, i))
            continue;
          self->walk_tail[i] = MAX (self->walk_tail[i], hw_order_walk (self, machine, place) + self->walk_tail[k]);
          if (place == machine)
            self->tail[i] = MAX (self->tail[i], hw_order_change (self, setup, next) + self->tail[k]);
          if (next == setup)
            {
              gboolean left = share_any (later_than + i * words, self->before + k * words, others + setup * words,
                                         words);

              self->runs[i] = MAX (self->runs[i], self->runs[k] + (left ? 1 : 0));
            }
        }
    }
}

HwOrderFacts *
hw_order_facts_new (const HwOrderProblem *problem)
{
  g_autoptr (HwOrderFacts) self = g_new0 (HwOrderFacts, 1);

  self->problem = problem;
  self->n = problem->n_operations;
  self->n_setups = problem->n_setups;
  self->n_machines = problem->n_machines;
  self->n_nodes = self->n_setups + self->n_machines;
  self->n_words = self->n / 64 + 1;
  self->sequence = hw_order_as_listed (self->n, problem->arrows, problem->n_arrows);
  if (self->sequence == NULL)
    return NULL;

  self->change = g_new0 (int, self->n_nodes * self->n_nodes + 1);
  self->walk = g_new0 (int, (self->n_machines + 1) * (self->n_machines + 1));
  self->before = g_new0 (guint64, self->n * self->n_words + 1);
  self->members = g_new0 (int, self->n + 1);
  self->first_member = g_new0 (gsize, self->n_setups + 1);
  self->tail = g_new0 (int, self->n + 1);
  self->walk_tail = g_new0 (int, self->n + 1);
  self->runs = g_new0 (int, self->n + 1);
  fill_change (self);
  fill_walk (self);
  fill_before (self);
  fill_members (self);
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
  g_free (self->members);
  g_free (self->first_member);
  g_free (self->tail);
  g_free (self->walk_tail);
  g_free (self->runs);
  g_free (self);
}

int
hw_order_facts_cost (const HwOrderFacts *self, const int *order)
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
      gsize setup = (gsize) problem->setup[order[i]];
      gsize machine = (gsize) problem->machine[setup];

      cost += hw_order_walk (self, at, machine) + hw_order_change (self, mounted[machine], setup);
      mounted[machine] = setup;
      at = machine;
    }
  return cost;
}
