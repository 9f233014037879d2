/* order-cases.c - ordering problems like those of real projects, and our own reckoning of what an order costs
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Minutes of changes and shares of operations are common practice, no source.
 */

#include "config.h"

#include "order-cases.h"

#include <string.h>

#define FAR 100000000
#define MAX_BRUTE 10

/* ---- drawing ---- */

static OrderCase *
make_empty (gsize n_operations, gsize n_setups, gsize n_machines, gsize max_arrows)
{
  OrderCase *self = g_new0 (OrderCase, 1);

  self->setup = g_new0 (int, n_operations + 1);
  self->arrows = g_new0 (HwOrderArrow, max_arrows + 1);
  self->machine = g_new0 (int, n_setups + 1);
  self->change = g_new0 (int, n_setups * n_setups + 1);
  self->entry = g_new0 (int, n_setups + 1);
  self->walk = g_new0 (int, n_machines * n_machines + 1);
  self->problem = (HwOrderProblem) { n_operations, self->setup, 0, self->arrows, n_setups, self->machine, self->change,
                                     self->entry, n_machines, self->walk, 0, NULL, NULL, 0, FALSE, NULL };
  return self;
}

static void
add_arrow (OrderCase *self, int before, int after)
{
  self->arrows[self->problem.n_arrows++] = (HwOrderArrow) { before, after };
}

/* Joins up to three of the @open pieces by @operation; returns how many pieces there are then. */
static gsize
join_pieces (OrderCase *self, GRand *random, GArray *open, int operation)
{
  gsize n_joined = MIN ((gsize) g_rand_int_range (random, 2, 4), open->len);

  for (gsize i = 0; i < n_joined; i++)
    {
      guint piece = (guint) g_rand_int_range (random, 0, (int) open->len);

      add_arrow (self, g_array_index (open, int, piece), operation);
      g_array_remove_index (open, piece);
    }
  g_array_append_val (open, operation);
  return open->len;
}

static void
draw_garment (OrderCase *self, GRand *random)
{
  g_autoptr (GArray) open = g_array_new (FALSE, FALSE, sizeof (int));
  int n = (int) self->problem.n_operations;

  for (int operation = 0; operation < n; operation++)
    {
      double dice = g_rand_double (random);
      /* New parts at first, joins at last. */
      double fresh = 0.45 * (1.0 - (double) operation / n);

      if (open->len == 0 || dice < fresh)
        g_array_append_val (open, operation);
      else if (dice < fresh + 0.35 && open->len > 1)
        join_pieces (self, random, open, operation);
      else
        {
          guint piece = (guint) g_rand_int_range (random, 0, (int) open->len);

          add_arrow (self, g_array_index (open, int, piece), operation);
          g_array_index (open, int, piece) = operation;
        }
    }
}

/* A number below @n: 0 twice as often as 1, three times as often as 2, … */
static int
draw_zipf (GRand *random, gsize n)
{
  double sum = 0;
  double dice;

  for (gsize i = 1; i <= n; i++)
    sum += 1.0 / (double) i;
  dice = g_rand_double (random) * sum;
  for (gsize i = 1; i < n; i++)
    {
      dice -= 1.0 / (double) i;
      if (dice < 0)
        return (int) i - 1;
    }
  return (int) n - 1;
}

static void
draw_setups (OrderCase *self, GRand *random)
{
  for (gsize i = 0; i < self->problem.n_operations; i++)
    self->setup[i] = draw_zipf (random, self->problem.n_setups);
  /* The first set-up is on the first machine; every machine has one as far as they go. */
  for (gsize u = 0; u < self->problem.n_setups; u++)
    self->machine[u] = u < self->problem.n_machines ? (int) u : draw_zipf (random, self->problem.n_machines);
}

/* Thousandths of a minute: needle, needle thread, bobbin, foot, stitch type, soft parts. */
static const int part_minutes[] = { 1500, 1800, 1000, 600, 200, 100 };
static const int part_kinds[] = { 3, 4, 3, 4, 3, 3 };

#define N_PARTS G_N_ELEMENTS (part_minutes)

static int
compare_parts (const int *a, const int *b)
{
  int cost = 0;

  for (gsize p = 0; p < N_PARTS; p++)
    cost += a[p] != b[p] ? part_minutes[p] : 0;
  return cost;
}

static void
draw_part_costs (OrderCase *self, GRand *random)
{
  gsize n = self->problem.n_setups;
  gsize n_standing = self->problem.n_machines;
  g_autofree int *parts = g_new0 (int, (n + n_standing) * N_PARTS);

  for (gsize u = 0; u < n + n_standing; u++)
    for (gsize p = 0; p < N_PARTS; p++)
      parts[u * N_PARTS + p] = g_rand_int_range (random, 0, part_kinds[p]);
  for (gsize to = 0; to < n; to++)
    {
      self->entry[to] = compare_parts (parts + (n + (gsize) self->machine[to]) * N_PARTS, parts + to * N_PARTS);
      for (gsize from = 0; from < n; from++)
        self->change[from * n + to] = compare_parts (parts + from * N_PARTS, parts + to * N_PARTS);
    }
}

static void
draw_any_costs (OrderCase *self, GRand *random)
{
  gsize n = self->problem.n_setups;

  for (gsize to = 0; to < n; to++)
    {
      self->entry[to] = g_rand_int_range (random, 0, 4000);
      for (gsize from = 0; from < n; from++)
        self->change[from * n + to] = g_rand_int_range (random, 200, 4000);
    }
}

static void
draw_walks (OrderCase *self, GRand *random)
{
  gsize n = self->problem.n_machines;
  int walk = g_rand_int_range (random, 100, 600);

  for (gsize i = 0; i < n * n; i++)
    self->walk[i] = walk;
  self->problem.at = g_rand_int_range (random, -1, (int) n);
}

/* ---- our own reckoning ---- */

/* Cheapest ways, by relaxing until nothing changes. The last of @n_rows is only ever left. */
static int *
relax (const int *table, gsize n_rows, gsize n)
{
  int *ways = g_memdup2 (table, n_rows * n * sizeof (int));
  gboolean changed = TRUE;

  while (changed)
    {
      changed = FALSE;
      for (gsize a = 0; a < n_rows; a++)
        for (gsize b = 0; b < n; b++)
          for (gsize c = 0; c < n; c++)
            if (ways[a * n + b] + ways[b * n + c] < ways[a * n + c])
              {
                ways[a * n + c] = ways[a * n + b] + ways[b * n + c];
                changed = TRUE;
              }
    }
  return ways;
}

/* A set-up is never reached from another machine's; what is mounted stands in the last row, machine by machine. */
static void
work_out_ways (OrderCase *self)
{
  gsize n = self->problem.n_setups;
  gsize m = self->problem.n_machines;
  g_autofree int *table = g_new0 (int, (n + 1) * n + 1);
  g_autofree int *walks = g_new0 (int, (m + 1) * m + 1);

  for (gsize to = 0; to < n; to++)
    {
      table[n * n + to] = self->entry[to];
      for (gsize from = 0; from < n; from++)
        if (from != to)
          table[from * n + to] = self->machine[from] == self->machine[to] ? self->change[from * n + to] : FAR;
    }
  for (gsize to = 0; to < m; to++)
    for (gsize from = 0; from < m; from++)
      walks[from * m + to] = from == to ? 0 : self->walk[from * m + to];
  self->ways = relax (table, n + 1, n);
  self->walks = relax (walks, m + 1, m);
}

static int
cost_of_step (const OrderCase *self, gsize *mounted, gsize *at, int operation)
{
  gsize setup = (gsize) self->setup[operation];
  gsize machine = (gsize) self->machine[setup];
  int cost = self->walks[*at * self->problem.n_machines + machine]
             + self->ways[mounted[machine] * self->problem.n_setups + setup];

  mounted[machine] = setup;
  *at = machine;
  return cost;
}

int
order_case_cost (const OrderCase *self, const int *order)
{
  gsize n = self->problem.n_operations;
  g_autofree int *place = g_new0 (int, n + 1);
  g_autofree gsize *mounted = g_new (gsize, self->problem.n_machines + 1);
  gsize at = self->problem.at < 0 ? self->problem.n_machines : (gsize) self->problem.at;
  int cost = 0;

  for (gsize p = 0; p < n; p++)
    {
      if (order[p] < 0 || (gsize) order[p] >= n || place[order[p]] != 0)
        return -1;
      place[order[p]] = (int) p + 1;
    }
  for (gsize a = 0; a < self->problem.n_arrows; a++)
    if (place[self->arrows[a].before] > place[self->arrows[a].after])
      return -1;
  for (gsize m = 0; m < self->problem.n_machines; m++)
    mounted[m] = self->problem.n_setups;
  for (gsize p = 0; p < n; p++)
    cost += cost_of_step (self, mounted, &at, order[p]);
  return cost;
}

typedef struct
{
  const OrderCase *c;
  guint before[MAX_BRUTE];       /* operations that must come earlier, one bit each */
  int   best;
} Trial;

/* Goes on with every operation that may be done; at most MAX_BRUTE deep. */
static void
try_all (Trial *self, guint done, const gsize *mounted, gsize at, int cost)
{
  gsize n = self->c->problem.n_operations;
  gsize next[MAX_BRUTE];

  if (done == (1u << n) - 1)
    self->best = MIN (self->best, cost);
  for (int i = 0; i < (int) n; i++)
    {
      gsize place = at;
      int step;

      if ((done >> i & 1) || (self->before[i] & ~done))
        continue;
      memcpy (next, mounted, self->c->problem.n_machines * sizeof *next);
      step = cost_of_step (self->c, next, &place, i);
      try_all (self, done | 1u << i, next, place, cost + step);
    }
}

int
order_case_cheapest (const OrderCase *self)
{
  const HwOrderProblem *p = &self->problem;
  Trial trial = { .c = self, .best = FAR };
  gsize mounted[MAX_BRUTE];

  g_assert_cmpuint (p->n_operations, <=, MAX_BRUTE);
  g_assert_cmpuint (p->n_machines, <=, MAX_BRUTE);
  for (gsize m = 0; m < p->n_machines; m++)
    mounted[m] = p->n_setups;
  for (gsize a = 0; a < p->n_arrows; a++)
    trial.before[self->arrows[a].after] |= 1u << self->arrows[a].before;
  try_all (&trial, 0, mounted, p->at < 0 ? p->n_machines : (gsize) p->at, 0);
  return trial.best;
}

/* ---- making and renaming ---- */

OrderCase *
order_case_new_garment (GRand *random, gsize n_operations, gsize n_setups, gsize n_machines)
{
  OrderCase *self = make_empty (n_operations, n_setups, n_machines, 3 * n_operations);

  draw_garment (self, random);
  draw_setups (self, random);
  draw_part_costs (self, random);
  draw_walks (self, random);
  work_out_ways (self);
  return self;
}

OrderCase *
order_case_new_graph (GRand *random, gsize n_operations, const HwOrderArrow *arrows, gsize n_arrows, gsize n_setups,
                      gsize n_machines, OrderCosts costs)
{
  OrderCase *self = make_empty (n_operations, n_setups, n_machines, n_arrows);

  for (gsize a = 0; a < n_arrows; a++)
    add_arrow (self, arrows[a].before, arrows[a].after);
  draw_setups (self, random);
  if (costs == ORDER_COSTS_PARTS)
    draw_part_costs (self, random);
  else
    draw_any_costs (self, random);
  draw_walks (self, random);
  work_out_ways (self);
  return self;
}

static int *
draw_names (GRand *random, gsize n)
{
  int *names = g_new0 (int, n + 1);

  for (gsize i = 0; i < n; i++)
    names[i] = (int) i;
  for (gsize i = n; i-- > 1;)
    {
      gsize k = (gsize) g_rand_int_range (random, 0, (int) i + 1);
      int name = names[i];

      names[i] = names[k];
      names[k] = name;
    }
  return names;
}

static void
rename_table (const int *from, int *to, gsize n, const int *names)
{
  for (gsize a = 0; a < n; a++)
    for (gsize b = 0; b < n; b++)
      to[(gsize) names[a] * n + (gsize) names[b]] = from[a * n + b];
}

OrderCase *
order_case_relabel (const OrderCase *self, GRand *random, int *names)
{
  const HwOrderProblem *p = &self->problem;
  OrderCase *other = make_empty (p->n_operations, p->n_setups, p->n_machines, p->n_arrows);
  g_autofree int *operations = draw_names (random, p->n_operations);
  g_autofree int *setups = draw_names (random, p->n_setups);
  g_autofree int *machines = draw_names (random, p->n_machines);

  for (gsize i = 0; i < p->n_operations; i++)
    other->setup[operations[i]] = setups[self->setup[i]];
  for (gsize a = 0; a < p->n_arrows; a++)
    add_arrow (other, operations[self->arrows[a].before], operations[self->arrows[a].after]);
  for (gsize u = 0; u < p->n_setups; u++)
    {
      other->machine[setups[u]] = machines[self->machine[u]];
      other->entry[setups[u]] = self->entry[u];
    }
  rename_table (self->change, other->change, p->n_setups, setups);
  rename_table (self->walk, other->walk, p->n_machines, machines);
  other->problem.at = p->at < 0 ? -1 : machines[p->at];
  work_out_ways (other);
  memcpy (names, operations, p->n_operations * sizeof (int));
  return other;
}

void
order_case_free (OrderCase *self)
{
  if (self == NULL)
    return;
  g_free (self->setup);
  g_free (self->arrows);
  g_free (self->machine);
  g_free (self->change);
  g_free (self->entry);
  g_free (self->walk);
  g_free (self->ways);
  g_free (self->walks);
  g_free (self);
}
