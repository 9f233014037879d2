/* test-order.c - the order solver against every order there is
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Random small problems are solved a second time here, by trying all orders or by plain dynamic
 * programming without closure rule or bound, with costs worked out afresh from the problem.
 */

#include "config.h"

#include "../rounds.h"
#include "plan/order.h"

#include <string.h>

#define MAX_N 40
#define MAX_SETUPS 12
#define MAX_MACHINES 3
#define FAR 100000000

typedef struct
{
  HwOrderProblem problem;
  int            setup[MAX_N];
  HwOrderArrow   arrows[MAX_N * MAX_N];
  int            machine[MAX_SETUPS];
  int            change[MAX_SETUPS * MAX_SETUPS];
  int            entry[MAX_SETUPS];
  int            walk[MAX_MACHINES * MAX_MACHINES];
} Case;

static void
point_at_arrays (Case *c)
{
  c->problem.setup = c->setup;
  c->problem.arrows = c->arrows;
  c->problem.machine = c->machine;
  c->problem.change = c->change;
  c->problem.entry = c->entry;
  c->problem.walk = c->walk;
}

static void
draw_costs (Case *c, GRand *random)
{
  int kind = g_rand_int_range (random, 0, 3);      /* sums of parts, anything, or so small that one more would show */
  int parts[MAX_SETUPS][4];
  gsize n = c->problem.n_setups;

  for (gsize u = 0; u < n; u++)
    for (int p = 0; p < 4; p++)
      parts[u][p] = g_rand_int_range (random, 0, 2);
  for (gsize a = 0; a < n; a++)
    {
      c->entry[a] = g_rand_int_range (random, 0, kind == 2 ? 4 : 3000);
      for (gsize b = 0; b < n; b++)
        {
          int cost = 100;

          for (int p = 0; p < 4; p++)
            cost += parts[a][p] != parts[b][p] ? 500 * (p + 1) : 0;
          c->change[a * n + b] = kind == 0 ? cost : g_rand_int_range (random, 1, kind == 1 ? 4000 : 5);
        }
    }
  for (gsize i = 0; i < MAX_MACHINES * MAX_MACHINES; i++)
    c->walk[i] = g_rand_int_range (random, 0, kind == 2 ? 3 : 1000);
}

static void
draw_case (Case *c, GRand *random, gsize n, gsize n_setups, gsize n_machines, double density)
{
  memset (c, 0, sizeof *c);
  c->problem.n_operations = n;
  c->problem.n_setups = n_setups;
  c->problem.n_machines = n_machines;
  c->problem.at = g_rand_int_range (random, -1, (int) n_machines);
  for (gsize u = 0; u < n_setups; u++)
    c->machine[u] = g_rand_int_range (random, 0, (int) n_machines);
  for (gsize i = 0; i < n; i++)
    c->setup[i] = g_rand_int_range (random, 0, (int) n_setups);
  for (gsize i = 0; i < n; i++)
    for (gsize k = i + 1; k < n; k++)
      if (g_rand_double (random) < density)
        c->arrows[c->problem.n_arrows++] = (HwOrderArrow) { (int) i, (int) k };
  draw_costs (c, random);
  point_at_arrays (c);
}

/* The same case with operations, set-ups and machines renamed. */
static void
relabel (const Case *from, Case *to, GRand *random, const int *operation_names)
{
  gsize n_setups = from->problem.n_setups;
  gsize n_machines = from->problem.n_machines;
  int setup_names[MAX_SETUPS], machine_names[MAX_MACHINES];

  *to = *from;
  point_at_arrays (to);
  for (gsize i = 0; i < n_setups; i++)
    setup_names[i] = (int) i;
  for (gsize i = 0; i < n_machines; i++)
    machine_names[i] = (int) i;
  for (gsize i = n_setups; i-- > 1;)
    {
      gsize k = (gsize) g_rand_int_range (random, 0, (int) i + 1);
      int name = setup_names[i];

      setup_names[i] = setup_names[k];
      setup_names[k] = name;
    }
  for (gsize i = 0; i < n_machines; i++)
    machine_names[i] = (int) (n_machines - 1 - i);
  for (gsize i = 0; i < from->problem.n_operations; i++)
    to->setup[operation_names[i]] = setup_names[from->setup[i]];
  for (gsize i = 0; i < from->problem.n_arrows; i++)
    {
      to->arrows[i].before = operation_names[from->arrows[i].before];
      to->arrows[i].after = operation_names[from->arrows[i].after];
    }
  for (gsize a = 0; a < n_setups; a++)
    {
      gsize x = (gsize) setup_names[a];

      to->machine[x] = machine_names[from->machine[a]];
      to->entry[x] = from->entry[a];
      for (gsize b = 0; b < n_setups; b++)
        to->change[x * n_setups + (gsize) setup_names[b]] = from->change[a * n_setups + b];
    }
  for (gsize a = 0; a < n_machines; a++)
    for (gsize b = 0; b < n_machines; b++)
      to->walk[(gsize) machine_names[a] * n_machines + (gsize) machine_names[b]] = from->walk[a * n_machines + b];
  if (from->problem.at >= 0)
    to->problem.at = machine_names[from->problem.at];
}

/* ---- our own reckoning ---- */

/* Cheapest ways, by relaxing until nothing changes. */
static void
relax (int *m, gsize n)
{
  gboolean changed = TRUE;

  while (changed)
    {
      changed = FALSE;
      for (gsize a = 0; a < n; a++)
        for (gsize b = 0; b < n; b++)
          for (gsize c = 0; c < n; c++)
            if (m[a * n + b] + m[b * n + c] < m[a * n + c])
              {
                m[a * n + c] = m[a * n + b] + m[b * n + c];
                changed = TRUE;
              }
    }
}

typedef struct
{
  int change[MAX_SETUPS + 1][MAX_SETUPS];   /* row n_setups: from what is mounted now */
  int walk[MAX_MACHINES + 1][MAX_MACHINES];
} Costs;

static void
work_out_costs (const HwOrderProblem *p, Costs *costs)
{
  int m[MAX_SETUPS * MAX_SETUPS];
  int w[MAX_MACHINES * MAX_MACHINES];
  gsize n = p->n_setups;

  for (gsize a = 0; a < n; a++)
    for (gsize b = 0; b < n; b++)
      m[a * n + b] = a == b ? 0 : p->machine[a] == p->machine[b] ? p->change[a * n + b] : FAR;
  relax (m, n);
  for (gsize b = 0; b < n; b++)
    {
      costs->change[n][b] = p->entry[b];
      for (gsize a = 0; a < n; a++)
        costs->change[a][b] = m[a * n + b];
    }
  for (gsize b = 0; b < n; b++)
    for (gsize a = 0; a < n; a++)
      if (p->machine[a] == p->machine[b])
        costs->change[n][b] = MIN (costs->change[n][b], p->entry[a] + m[a * n + b]);
  for (gsize a = 0; a < p->n_machines; a++)
    for (gsize b = 0; b < p->n_machines; b++)
      w[a * p->n_machines + b] = a == b ? 0 : p->walk[a * p->n_machines + b];
  relax (w, p->n_machines);
  for (gsize b = 0; b < p->n_machines; b++)
    {
      costs->walk[p->n_machines][b] = 0;
      for (gsize a = 0; a < p->n_machines; a++)
        costs->walk[a][b] = w[a * p->n_machines + b];
    }
}

static int
cost_of (const HwOrderProblem *p, const Costs *costs, const int *order)
{
  gsize mounted[MAX_MACHINES];
  gsize at = p->at < 0 ? p->n_machines : (gsize) p->at;
  int cost = 0;

  for (gsize m = 0; m < p->n_machines; m++)
    mounted[m] = p->n_setups;
  for (gsize i = 0; i < p->n_operations; i++)
    {
      gsize setup = (gsize) p->setup[order[i]];
      gsize machine = (gsize) p->machine[setup];

      cost += costs->walk[at][machine] + costs->change[mounted[machine]][setup];
      at = machine;
      mounted[machine] = setup;
    }
  return cost;
}

static gboolean
keeps_arrows (const HwOrderProblem *p, const int *order)
{
  int place[MAX_N];

  for (gsize i = 0; i < p->n_operations; i++)
    place[i] = -1;
  for (gsize i = 0; i < p->n_operations; i++)
    {
      if (order[i] < 0 || (gsize) order[i] >= p->n_operations || place[order[i]] >= 0)
        return FALSE;
      place[order[i]] = (int) i;
    }
  for (gsize a = 0; a < p->n_arrows; a++)
    if (place[p->arrows[a].before] > place[p->arrows[a].after])
      return FALSE;
  return TRUE;
}

typedef struct
{
  const HwOrderProblem *problem;
  const Costs *costs;
  guint before[MAX_N];       /* operations that must come earlier, one bit each */
  int   best;
} Trial;

/* Goes on with every operation that may be done: all orders there are, none left out for what it costs. */
static void
try_orders (Trial *self, guint done, const gsize *mounted, gsize at, int cost)
{
  const HwOrderProblem *p = self->problem;
  gsize next[MAX_MACHINES];

  if (done == (1u << p->n_operations) - 1)
    self->best = MIN (self->best, cost);
  for (gsize i = 0; i < p->n_operations; i++)
    {
      gsize setup = (gsize) p->setup[i];
      gsize machine = (gsize) p->machine[setup];

      if ((done >> i & 1) || (self->before[i] & ~done))
        continue;
      memcpy (next, mounted, p->n_machines * sizeof *next);
      next[machine] = setup;
      try_orders (self, done | 1u << i, next, machine,
                  cost + self->costs->walk[at][machine] + self->costs->change[mounted[machine]][setup]);
    }
}

static int
cheapest_of_all (const HwOrderProblem *p, const Costs *costs)
{
  Trial self = { .problem = p, .costs = costs, .best = FAR };
  gsize mounted[MAX_MACHINES];

  for (gsize m = 0; m < MAX_MACHINES; m++)
    mounted[m] = p->n_setups;
  for (gsize a = 0; a < p->n_arrows; a++)
    self.before[p->arrows[a].after] |= 1u << p->arrows[a].before;
  try_orders (&self, 0, mounted, p->at < 0 ? p->n_machines : (gsize) p->at, 0);
  return self.best;
}

/* Dynamic programming over (done, mounted on each machine, place), operation by operation. */
static int
cheapest_by_stages (const HwOrderProblem *p, const Costs *costs)
{
  gsize n = p->n_operations, radix = p->n_setups + 1, combinations = 1;
  g_autofree int *best = NULL;
  int answer = FAR;
  gsize n_states;

  for (gsize m = 0; m < p->n_machines; m++)
    combinations *= radix;
  n_states = ((gsize) 1 << n) * combinations * (p->n_machines + 1);
  best = g_new (int, n_states);
  for (gsize i = 0; i < n_states; i++)
    best[i] = FAR;
  best[(combinations - 1) * (p->n_machines + 1) + (p->at < 0 ? p->n_machines : (gsize) p->at)] = 0;
  for (gsize state = 0; state < n_states; state++)
    {
      gsize at = state % (p->n_machines + 1);
      gsize mounted = state / (p->n_machines + 1) % combinations;
      gsize done = state / (p->n_machines + 1) / combinations;

      if (best[state] >= FAR)
        continue;
      if (done == ((gsize) 1 << n) - 1)
        answer = MIN (answer, best[state]);
      for (gsize i = 0; i < n; i++)
        {
          gsize setup = (gsize) p->setup[i], machine = (gsize) p->machine[setup], power = 1, digit, next;
          gboolean may = !(done >> i & 1);
          int cost;

          for (gsize a = 0; a < p->n_arrows && may; a++)
            may = p->arrows[a].after != (int) i || (done >> p->arrows[a].before & 1);
          if (!may)
            continue;
          for (gsize m = 0; m < machine; m++)
            power *= radix;
          digit = mounted / power % radix;
          cost = best[state] + costs->walk[at][machine] + costs->change[digit][setup];
          next = (((done | (gsize) 1 << i) * combinations + mounted - digit * power + setup * power)
                  * (p->n_machines + 1)) + machine;
          best[next] = MIN (best[next], cost);
        }
    }
  return answer;
}

static void
check_result (const Case *c, const HwOrderResult *result, int cheapest)
{
  Costs costs;

  work_out_costs (&c->problem, &costs);
  g_assert_true (keeps_arrows (&c->problem, result->order));
  g_assert_cmpint (cost_of (&c->problem, &costs, result->order), ==, result->cost);
  g_assert_cmpint (hw_order_cost (&c->problem, result->order), ==, result->cost);
  g_assert_cmpint (result->bound, <=, result->cost);
  g_assert_cmpint (result->bound, <=, cheapest);
  g_assert_cmpint (result->cost, >=, cheapest);
  if (result->proved)
    g_assert_cmpint (result->cost, ==, cheapest);
}

static void
assert_same_order (const int *found, const int *wanted, gsize n)
{
  for (gsize i = 0; i < n; i++)
    g_assert_cmpint (found[i], ==, wanted[i]);
}

/* One to ten operations; ten of them without arrows have 3.6 million orders. */
static void
test_every_order (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (20260);

  for (int round = 0; round < (int) rounds_of (440); round++)
    {
      gsize n = round < 400 ? (gsize) g_rand_int_range (random, 1, 9) : 9 + (gsize) round % 2;

      Case c;
      Costs costs;
      g_autoptr (HwOrderResult) result = NULL;
      int cheapest;

      draw_case (&c, random, n, (gsize) g_rand_int_range (random, 1, 6), (gsize) g_rand_int_range (random, 1, 4),
                 round == 439 ? 0 : g_rand_double_range (random, 0, 0.5));
      work_out_costs (&c.problem, &costs);
      cheapest = cheapest_of_all (&c.problem, &costs);
      result = hw_order_solve (&c.problem, 100000);
      g_assert_true (result->proved);
      check_result (&c, result, cheapest);
    }
}

static void
test_by_stages (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (411);

  for (int round = 0; round < (int) rounds_of (150); round++)
    {
      Case c;
      Costs costs;
      g_autoptr (HwOrderResult) result = NULL;
      g_autoptr (HwOrderResult) hurried = NULL;
      int cheapest;

      draw_case (&c, random, 11, (gsize) g_rand_int_range (random, 2, 6),
                 (gsize) g_rand_int_range (random, 1, 3), g_rand_double_range (random, 0, 0.4));
      work_out_costs (&c.problem, &costs);
      cheapest = cheapest_by_stages (&c.problem, &costs);
      result = hw_order_solve (&c.problem, 200000);
      g_assert_true (result->proved);
      check_result (&c, result, cheapest);
      /* With next to no states allowed the bound must still be true. */
      hurried = hw_order_solve (&c.problem, (guint) g_rand_int_range (random, 0, 20));
      check_result (&c, hurried, cheapest);
    }
}

/* Cut short, the order may be dearer than need be; then it is not called proved, and the bound stays below the best. */
static void
test_honest_when_cut_short (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (1201);
  int n_dearer = 0;

  for (int round = 0; round < 60; round++)
    {
      Case c;
      g_autoptr (HwOrderResult) hurried = NULL;
      g_autoptr (HwOrderResult) proved = NULL;

      draw_case (&c, random, 34, 12, (gsize) g_rand_int_range (random, 1, 3), 0.08);
      hurried = hw_order_solve (&c.problem, 100);
      proved = hw_order_solve (&c.problem, 200000);
      g_assert_cmpint (proved->cost, <=, hurried->cost);
      g_assert_cmpint (proved->bound, >=, hurried->bound);
      if (!proved->proved)
        continue;
      g_assert_cmpint (hurried->bound, <=, proved->cost);
      if (hurried->cost == proved->cost)
        continue;
      g_assert_false (hurried->proved);
      n_dearer++;
    }
  g_assert_cmpint (n_dearer, >, 0);
}

/* Not sitting anywhere yet, the first machine costs no walk; the bound must know that too. */
static void
test_first_seat_is_free (void)
{
  static const int setup[] = { 0, 1 };
  static const int machine[] = { 0, 1 };
  static const int change[] = { 0, 0, 0, 0 };
  static const int entry[] = { 0, 0 };
  static const int walk[] = { 0, 500, 500, 0 };
  HwOrderProblem problem = { 2, setup, 0, NULL, 2, machine, change, entry, 2, walk, -1, NULL, NULL, 0, FALSE, NULL };
  g_autoptr (HwOrderResult) standing = hw_order_solve (&problem, 0);
  g_autoptr (HwOrderResult) sitting = NULL;

  g_assert_cmpint (standing->cost, ==, 500);
  g_assert_cmpint (standing->bound, <=, 500);
  problem.at = 1;
  sitting = hw_order_solve (&problem, 1000);
  g_assert_cmpint (sitting->cost, ==, 500);
  g_assert_cmpint (sitting->order[0], ==, 1);
}

/* Three set-ups of one machine, each of which costs the same to change to, whatever is mounted: nothing can be saved,
 * and the bound says so before any search. */
static void
test_bound_of_separate_setups (void)
{
  static const int setup[] = { 0, 1, 2, 0, 1, 2 };
  static const int machine[] = { 0, 0, 0 };
  static const int change[] = { 0, 700, 700, 700, 0, 700, 700, 700, 0 };
  static const int entry[] = { 700, 700, 700 };
  static const int walk[] = { 0 };
  HwOrderProblem problem = { 6, setup, 0, NULL, 3, machine, change, entry, 1, walk, 0, NULL, NULL, 0, FALSE, NULL };
  g_autoptr (HwOrderResult) result = hw_order_solve (&problem, 0);

  g_assert_cmpint (result->cost, ==, 2100);
  g_assert_cmpint (result->bound, ==, 2100);
  g_assert_cmpuint (result->n_states, <=, 1);
}

/* To every machine but the one that one sits at a walk is needed. */
/* More set-ups than the bound makes a tree of. Each costs 1 to enter from the one before it, in a ring, and 7 from any
 * other: free to choose, the cheapest order goes round once; twice round one behind the other, it goes round twice. */
static void
test_many_setups (void)
{
  enum { N = 70, LAPS = 2 };
  g_autofree int *change = g_new (int, N * N);
  g_autofree HwOrderArrow *arrows = g_new (HwOrderArrow, N * LAPS);
  int setup[N * LAPS], machine[N] = { 0 }, entry[N], walk[1] = { 0 };
  HwOrderProblem problem = { .n_operations = N * LAPS, .setup = setup, .arrows = arrows, .n_setups = N,
                             .machine = machine, .change = change, .entry = entry, .n_machines = 1, .walk = walk,
                             .at = -1 };

  for (int i = 0; i < N; i++)
    {
      entry[i] = 7;
      for (int j = 0; j < N; j++)
        change[i * N + j] = j == i ? 0 : j == (i + 1) % N ? 1 : 7;
    }
  for (int i = 0; i < N * LAPS; i++)
    {
      setup[i] = i * 3 % N;
      arrows[i] = (HwOrderArrow) { i, i + 1 };
    }
  for (int chained = 0; chained <= 1; chained++)
    {
      g_autoptr (HwOrderResult) result = NULL;

      if (chained)
        for (int i = 0; i < N * LAPS; i++)
          setup[i] = i % N;
      problem.n_arrows = chained ? N * LAPS - 1 : 0;
      result = hw_order_solve (&problem, 100000);
      g_assert_cmpint (result->cost, ==, 7 + (chained ? N * LAPS - 1 : N - 1));
      g_assert_cmpint (result->bound, <=, result->cost);
    }
}

static void
test_bound_of_walks (void)
{
  static const int setup[] = { 0, 1, 2 };
  static const int machine[] = { 0, 1, 2 };
  static const int change[] = { 0, 0, 0, 0, 0, 0, 0, 0, 0 };
  static const int entry[] = { 0, 0, 0 };
  static const int walk[] = { 0, 500, 500, 500, 0, 500, 500, 500, 0 };
  HwOrderProblem problem = { 3, setup, 0, NULL, 3, machine, change, entry, 3, walk, 0, NULL, NULL, 0, FALSE, NULL };
  g_autoptr (HwOrderResult) sitting = hw_order_solve (&problem, 0);

  g_assert_cmpint (sitting->cost, ==, 1000);
  g_assert_cmpint (sitting->bound, ==, 1000);
  g_assert_cmpuint (sitting->n_states, <=, 1);
}

static void
test_same_twice (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (3);

  for (int round = 0; round < 60; round++)
    {
      Case c;
      g_autoptr (HwOrderResult) first = NULL;
      g_autoptr (HwOrderResult) second = NULL;

      draw_case (&c, random, 20, 6, 2, 0.1);
      first = hw_order_solve (&c.problem, 20000);
      second = hw_order_solve (&c.problem, 20000);
      assert_same_order (first->order, second->order, 20);
      g_assert_cmpint (first->bound, ==, second->bound);
      g_assert_cmpuint (first->n_states, ==, second->n_states);
    }
}

/* Names of set-ups, machines and operations do not matter to the cost. */
static void
test_relabelled (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (77);

  for (int round = 0; round < (int) rounds_of (100); round++)
    {
      Case c, other;
      int backwards[MAX_N];
      g_autoptr (HwOrderResult) first = NULL;
      g_autoptr (HwOrderResult) second = NULL;

      draw_case (&c, random, 12, 5, (gsize) g_rand_int_range (random, 1, 4), 0.15);
      for (int i = 0; i < 12; i++)
        backwards[i] = 11 - i;
      relabel (&c, &other, random, backwards);
      first = hw_order_solve (&c.problem, 200000);
      second = hw_order_solve (&other.problem, 200000);
      g_assert_true (first->proved && second->proved);
      g_assert_cmpint (first->cost, ==, second->cost);
      g_assert_true (keeps_arrows (&other.problem, second->order));
    }
}

/* Two set-ups, no arrows: what is mounted now is sewn first. */
static void
test_start_is_used (void)
{
  static const int setup[] = { 0, 1, 0, 1 };
  static const int machine[] = { 0, 0 };
  static const int change[] = { 0, 1000, 1000, 0 };
  static const int mounted_first[] = { 0, 1000 }, mounted_second[] = { 1000, 0 };
  static const int walk[] = { 0 };
  static const int first_order[] = { 0, 2, 1, 3 }, second_order[] = { 1, 3, 0, 2 };
  HwOrderProblem problem = { 4, setup, 0, NULL, 2, machine, change, mounted_first, 1, walk, 0, NULL, NULL, 0, FALSE,
                             NULL };
  g_autoptr (HwOrderResult) first = hw_order_solve (&problem, 1000);
  g_autoptr (HwOrderResult) second = NULL;

  assert_same_order (first->order, first_order, G_N_ELEMENTS (first_order));
  g_assert_cmpint (first->cost, ==, 1000);
  problem.entry = mounted_second;
  second = hw_order_solve (&problem, 1000);
  assert_same_order (second->order, second_order, G_N_ELEMENTS (second_order));
}

/* When the person's own order is as good as any, it stays; ties are settled its way. */
static void
test_own_order_wins_ties (void)
{
  static const int setup[] = { 2, 1, 0, 2, 0 };
  static const int machine[] = { 0, 0, 0 };
  static const int change[] = { 0, 1000, 1000, 1000, 0, 1000, 1000, 1000, 0 };
  static const int entry[] = { 1000, 1000, 1000 };
  static const int walk[] = { 0 };
  static const int wanted[] = { 0, 3, 1, 2, 4 };
  HwOrderProblem problem = { 5, setup, 0, NULL, 3, machine, change, entry, 1, walk, -1, NULL, NULL, 0, FALSE, NULL };
  g_autoptr (HwOrderResult) result = hw_order_solve (&problem, 1000);

  g_assert_cmpint (result->cost, ==, 3000);
  assert_same_order (result->order, wanted, G_N_ELEMENTS (wanted));
}

/* Several machines stand ready: going back to one costs the walk alone. */
static void
test_machines_stay_ready (void)
{
  static const int setup[] = { 0, 1, 0, 1 };
  static const HwOrderArrow arrows[] = { { 0, 1 }, { 1, 2 }, { 2, 3 } };
  static const int machine[] = { 0, 1 };
  static const int change[] = { 0, 9000, 9000, 0 };
  static const int entry[] = { 2000, 3000 };
  static const int walk[] = { 0, 300, 300, 0 };
  HwOrderProblem problem = { 4, setup, 3, arrows, 2, machine, change, entry, 2, walk, -1, NULL, NULL, 0, FALSE, NULL };
  g_autoptr (HwOrderResult) result = hw_order_solve (&problem, 1000);

  g_assert_cmpint (result->cost, ==, 2000 + 3000 + 3 * 300);
  g_assert_true (result->proved);
}

static void
test_circle_is_refused (void)
{
  static const int setup[] = { 0, 0 };
  static const HwOrderArrow arrows[] = { { 0, 1 }, { 1, 0 } };
  static const int machine[] = { 0 }, change[] = { 0 }, entry[] = { 0 }, walk[] = { 0 };
  HwOrderProblem problem = { 2, setup, 2, arrows, 1, machine, change, entry, 1, walk, -1, NULL, NULL, 0, FALSE, NULL };

  g_assert_null (hw_order_solve (&problem, 1000));
  g_assert_null (hw_order_as_listed (2, arrows, 2));
}

static void
test_empty (void)
{
  HwOrderProblem problem = { 0, NULL, 0, NULL, 0, NULL, NULL, NULL, 0, NULL, -1, NULL, NULL, 0, FALSE, NULL };
  g_autoptr (HwOrderResult) result = hw_order_solve (&problem, 1000);

  g_assert_cmpint (result->cost, ==, 0);
  g_assert_true (result->proved);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/order/every-order", test_every_order);
  g_test_add_func ("/order/by-stages", test_by_stages);
  g_test_add_func ("/order/honest-when-cut-short", test_honest_when_cut_short);
  g_test_add_func ("/order/first-seat-is-free", test_first_seat_is_free);
  g_test_add_func ("/order/bound-of-separate-setups", test_bound_of_separate_setups);
  g_test_add_func ("/order/many-setups", test_many_setups);
  g_test_add_func ("/order/bound-of-walks", test_bound_of_walks);
  g_test_add_func ("/order/same-twice", test_same_twice);
  g_test_add_func ("/order/relabelled", test_relabelled);
  g_test_add_func ("/order/start-is-used", test_start_is_used);
  g_test_add_func ("/order/own-order-wins-ties", test_own_order_wins_ties);
  g_test_add_func ("/order/machines-stay-ready", test_machines_stay_ready);
  g_test_add_func ("/order/circle-is-refused", test_circle_is_refused);
  g_test_add_func ("/order/empty", test_empty);
  return g_test_run ();
}
