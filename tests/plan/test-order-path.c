/* test-order-path.c - the general order solver against every order there is
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Costs as odd as may be: not closed under shortest ways, many arcs forbidden, some problems without any order.
 */

#include "config.h"

#include "plan/order-path.h"

#include <string.h>

#define MAX_N 120
#define FAR 100000000

typedef struct
{
  HwPathProblem problem;
  int           cost[MAX_N * MAX_N];
  int           entry[MAX_N];
  HwOrderArrow  arrows[MAX_N * MAX_N];
} Case;

static const HwOrderLimits plenty = { .max_states = 2000000, .max_bytes = 200000000, .max_kicks = 300 };

static int
draw_arc (GRand *random, double forbidden, int dearest)
{
  return g_rand_double (random) < forbidden ? HW_PATH_NEVER : g_rand_int_range (random, 0, dearest + 1);
}

static Case *
draw_case (GRand *random, gsize n, double density, double forbidden, int dearest)
{
  Case *c = g_new0 (Case, 1);

  c->problem = (HwPathProblem) { n, c->cost, c->entry, 0, c->arrows };
  for (gsize a = 0; a < n; a++)
    {
      c->entry[a] = draw_arc (random, forbidden, dearest);
      for (gsize b = 0; b < n; b++)
        {
          c->cost[a * n + b] = draw_arc (random, forbidden, dearest);
          if (a < b && g_rand_double (random) < density)
            c->arrows[c->problem.n_arrows++] = (HwOrderArrow) { (int) a, (int) b };
        }
    }
  return c;
}

/* ---- our own reckoning ---- */

/* -1 when @order is none, breaks an arrow or uses what is forbidden. */
static int
cost_of (const HwPathProblem *p, const int *order)
{
  int place[MAX_N];
  int cost = 0;

  for (gsize i = 0; i < p->n_operations; i++)
    place[i] = -1;
  for (gsize i = 0; i < p->n_operations; i++)
    {
      int arc;

      if (order[i] < 0 || (gsize) order[i] >= p->n_operations || place[order[i]] >= 0)
        return -1;
      place[order[i]] = (int) i;
      arc = i > 0 ? p->cost[(gsize) order[i - 1] * p->n_operations + (gsize) order[i]]
                  : p->entry != NULL ? p->entry[order[i]] : 0;
      if (arc < 0)
        return -1;
      cost += arc;
    }
  for (gsize a = 0; a < p->n_arrows; a++)
    if (place[p->arrows[a].before] > place[p->arrows[a].after])
      return -1;
  return cost;
}

/* Dynamic programming over all sets and last operations, without bound or dominance but by cost; FAR: none. */
static int
cheapest_of_all (const HwPathProblem *p)
{
  gsize n = p->n_operations;
  g_autofree int *best = g_new (int, n << n);
  int answer = FAR;

  for (gsize i = 0; i < n << n; i++)
    best[i] = FAR;
  for (gsize set = 0; set < (gsize) 1 << n; set++)
    for (gsize next = 0; next < n; next++)
      {
        gsize with = set | (gsize) 1 << next;
        gboolean may = with != set;

        for (gsize a = 0; a < p->n_arrows && may; a++)
          may = p->arrows[a].after != (int) next || (set >> p->arrows[a].before & 1);
        if (may && set == 0 && (p->entry == NULL || p->entry[next] >= 0))
          best[with * n + next] = p->entry == NULL ? 0 : p->entry[next];
        for (gsize last = 0; last < n && may; last++)
          if (best[set * n + last] < FAR && p->cost[last * n + next] >= 0)
            best[with * n + next] = MIN (best[with * n + next], best[set * n + last] + p->cost[last * n + next]);
      }
  for (gsize last = 0; last < n; last++)
    answer = MIN (answer, best[(((gsize) 1 << n) - 1) * n + last]);
  return answer;
}

static void
check_result (const HwPathProblem *p, const HwOrderResult *result, int cheapest)
{
  if (result->order == NULL)
    {
      g_assert_cmpint (result->cost, ==, HW_PATH_NEVER);
      if (result->proved)
        g_assert_cmpint (cheapest, ==, FAR);
      return;
    }
  g_assert_cmpint (cost_of (p, result->order), ==, result->cost);
  g_assert_cmpint (result->cost, >=, cheapest);
  g_assert_cmpint (result->bound, <=, cheapest);
  g_assert_cmpint (result->proved, ==, result->bound == result->cost);
}

/* ---- tests ---- */

static void
test_every_order (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (1988);
  int n_without = 0;

  for (int round = 0; round < 400; round++)
    {
      gsize n = (gsize) g_rand_int_range (random, 1, 10);
      double density = g_rand_double_range (random, 0, 0.5);
      double forbidden = g_rand_double_range (random, 0, 0.5);
      g_autofree Case *c = draw_case (random, n, density, forbidden, round % 3 == 0 ? 4 : 3000);
      g_autoptr (HwOrderResult) result = hw_order_path_solve (&c->problem, &plenty);
      int cheapest = cheapest_of_all (&c->problem);

      check_result (&c->problem, result, cheapest);
      g_assert_true (result->proved);
      g_assert_cmpint (result->order == NULL, ==, cheapest == FAR);
      n_without += cheapest == FAR ? 1 : 0;
    }
  g_assert_cmpint (n_without, >, 20);
  g_assert_cmpint (n_without, <, 300);
}

/* Short of states, kicks or memory the bound must hold all the same. */
/* Two chains of @half operations, the even and the odd ones: the cheapest way to go through both, by a table of how far
 * each has come and which of them was last. */
static int
cheapest_of_two_chains (const HwPathProblem *p, gsize half)
{
  g_autofree int *best = g_new (int, (half + 1) * (half + 1) * 2);
  gsize row = (half + 1) * 2;

  for (gsize i = 0; i < (half + 1) * row; i++)
    best[i] = FAR;
  for (gsize even = 0; even <= half; even++)
    for (gsize odd = even == 0 ? 1 : 0; odd <= half; odd++)
      for (gsize last = 0; last < 2; last++)
        {
          gsize done[2] = { even, odd };
          int *this = &best[even * row + odd * 2 + last];
          gsize step, from;

          if (done[last] == 0)
            continue;
          done[last]--;
          step = done[last] * 2 + last;
          from = done[0] * row + done[1] * 2;
          if (done[0] + done[1] == 0)
            *this = p->entry[step];
          for (gsize before = 0; before < 2; before++)
            if (best[from + before] < FAR)
              *this = MIN (*this, best[from + before]
                                  + p->cost[((done[before] - 1) * 2 + before) * p->n_operations + step]);
        }
  return MIN (best[half * row + half * 2], best[half * row + half * 2 + 1]);
}

/* More operations than a word of a set has bits. */
static void
test_two_long_chains (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (64);

  for (int round = 0; round < 12; round++)
    {
      gsize half = (gsize) g_rand_int_range (random, 34, MAX_N / 2 + 1);
      g_autofree Case *c = draw_case (random, 2 * half, 0, 0, 40);
      g_autoptr (HwOrderResult) result = NULL;
      int cheapest = cheapest_of_two_chains (&c->problem, half);

      for (gsize i = 0; i + 2 < 2 * half; i++)
        c->arrows[c->problem.n_arrows++] = (HwOrderArrow) { (int) i, (int) i + 2 };
      result = hw_order_path_solve (&c->problem, &plenty);
      check_result (&c->problem, result, cheapest);
      g_assert_true (result->proved);
    }
}

static void
test_short_of_everything (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (25);
  int n_open = 0;

  for (int round = 0; round < 60; round++)
    {
      g_autofree Case *c = draw_case (random, 13, g_rand_double_range (random, 0, 0.2), 0.1, round % 2 == 0 ? 9 : 3000);
      guint max_states = (guint) g_rand_int_range (random, 0, 300);
      guint max_kicks = (guint) g_rand_int_range (random, 0, 30);
      HwOrderLimits limits = { max_states, 20000, max_kicks, NULL };
      g_autoptr (HwOrderResult) hurried = hw_order_path_solve (&c->problem, &limits);
      g_autoptr (HwOrderResult) result = hw_order_path_solve (&c->problem, &plenty);
      int cheapest = cheapest_of_all (&c->problem);

      check_result (&c->problem, hurried, cheapest);
      check_result (&c->problem, result, cheapest);
      g_assert_true (result->proved);
      n_open += hurried->proved ? 0 : 1;
    }
  g_assert_cmpint (n_open, >, 5);
}

/* From the end to the start, everything turned round and numbered backwards, the cost is the same. */
static void
test_turned_and_relabelled (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (77);
  int n_found = 0;

  for (int round = 0; round < 25; round++)
    {
      gsize n = (gsize) g_rand_int_range (random, 18, 26);
      g_autofree Case *c = draw_case (random, n, 0.2, 0.05, 500);
      g_autofree Case *turned = g_new0 (Case, 1);
      g_autoptr (HwOrderResult) result = NULL;
      g_autoptr (HwOrderResult) other = NULL;

      c->problem.entry = NULL;
      turned->problem = (HwPathProblem) { n, turned->cost, NULL, c->problem.n_arrows, turned->arrows };
      for (gsize a = 0; a < n; a++)
        for (gsize b = 0; b < n; b++)
          turned->cost[(n - 1 - b) * n + n - 1 - a] = c->cost[a * n + b];
      for (gsize a = 0; a < c->problem.n_arrows; a++)
        turned->arrows[a] = (HwOrderArrow) { (int) n - 1 - c->arrows[a].after, (int) n - 1 - c->arrows[a].before };
      result = hw_order_path_solve (&c->problem, &plenty);
      other = hw_order_path_solve (&turned->problem, &plenty);
      g_assert_true (result->proved && other->proved);
      g_assert_cmpint (result->cost, ==, other->cost);
      if (other->order != NULL)
        g_assert_cmpint (cost_of (&turned->problem, other->order), ==, other->cost);
      n_found += other->order != NULL ? 1 : 0;
    }
  g_assert_cmpint (n_found, >, 15);
}

static void
test_same_twice (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (3);
  HwOrderLimits limits = { 30000, 0, 500, NULL };

  for (int round = 0; round < 6; round++)
    {
      g_autofree Case *c = draw_case (random, 60, 0.03, 0.1, 1000);
      g_autoptr (HwOrderResult) first = hw_order_path_solve (&c->problem, &limits);
      g_autoptr (HwOrderResult) second = hw_order_path_solve (&c->problem, &limits);

      for (int p = 0; p < 60; p++)
        g_assert_cmpint (first->order[p], ==, second->order[p]);
      g_assert_cmpint (first->bound, ==, second->bound);
      g_assert_cmpuint (first->n_states, ==, second->n_states);
      check_result (&c->problem, first, first->cost);
    }
}

/* What lies between must be done and paid for: 0 to 2 is dear though the way through 1 is cheap. */
static void
test_not_closed (void)
{
  static const int cost[] = { 0, 1, 100,   1, 0, 100,   100, 100, 0 };
  static const HwOrderArrow arrows[] = { { 0, 1 } };
  static const int way_round[] = { 0, 1, 1, 1, 0, 1, 50, 9, 0 };
  HwPathProblem problem = { 3, cost, NULL, 1, arrows };
  g_autoptr (HwOrderResult) result = hw_order_path_solve (&problem, &plenty);
  g_autoptr (HwOrderResult) other = NULL;

  g_assert_true (result->proved);
  g_assert_cmpint (result->cost, ==, 101);
  problem.cost = way_round;
  other = hw_order_path_solve (&problem, &plenty);
  g_assert_true (other->proved);
  g_assert_cmpint (other->cost, ==, 2);
}

/* Exchanges the neighbouring segments [i, j) and [j, k). */
static void
exchange (const int *order, int *other, gsize n, gsize i, gsize j, gsize k)
{
  memcpy (other, order, n * sizeof (int));
  memcpy (other + i, order + j, (k - j) * sizeof (int));
  memcpy (other + i + (k - j), order + i, (j - i) * sizeof (int));
}

/* Without kicks or proof there is the descent alone; where it ends, no exchange of neighbouring segments gains,
 * whatever arrows lie inside the segments and wherever others are blocked. */
static void
test_descent_leaves_no_exchange (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (2000);
  static const HwOrderLimits nothing = { 0, 0, 0, NULL };
  const gsize n = 13;
  int n_blocked = 0;

  for (int round = 0; round < 300; round++)
    {
      g_autofree Case *c = draw_case (random, n, g_rand_double_range (random, 0, 0.3), 0, round % 2 == 0 ? 5 : 1000);
      g_autoptr (HwOrderResult) result = hw_order_path_solve (&c->problem, &nothing);
      int other[MAX_N];

      check_result (&c->problem, result, result->cost);
      for (gsize i = 0; i < n; i++)
        for (gsize j = i + 1; j < n; j++)
          for (gsize k = j + 1; k <= n; k++)
            {
              int cost;

              exchange (result->order, other, n, i, j, k);
              cost = cost_of (&c->problem, other);
              n_blocked += cost < 0 ? 1 : 0;
              g_assert_true (cost < 0 || cost >= result->cost);
            }
    }
  g_assert_cmpint (n_blocked, >, 1000);
}

/* Kicks alone, for many turns: the way from the end is never begun. */
static void
test_no_states_at_all (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (53);
  static const HwOrderLimits limits = { 0, 0, 40000, NULL };
  g_autofree Case *c = draw_case (random, 30, 0.02, 0, 1000);
  g_autoptr (HwOrderResult) result = hw_order_path_solve (&c->problem, &limits);

  check_result (&c->problem, result, result->cost);
  g_assert_cmpuint (result->n_states, ==, 0);
}

/* Kicks and proof take turns: what is soon proved is not kept waiting by the kicks that are allowed. */
static void
test_kicks_end_with_proof (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (54);
  static const HwOrderLimits limits = { 2000000, 0, G_MAXUINT, NULL };
  int n_searched = 0;

  for (int round = 0; round < 10; round++)
    {
      g_autofree Case *c = draw_case (random, 30, 0.3, 0, 1000);
      g_autoptr (HwOrderResult) result = hw_order_path_solve (&c->problem, &limits);

      check_result (&c->problem, result, result->cost);
      g_assert_true (result->proved);
      n_searched += result->n_states > 0 ? 1 : 0;
    }
  g_assert_cmpint (n_searched, >, 5);
}

/* Rounds of prices bring what no order can cost less than nearer to what the best one costs, before any proof. The
 * first of them alone leaves 30 in a hundred between the two. */
static void
test_prices_raise_bound (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (55);
  static const HwOrderLimits limits = { 0, 0, 300, NULL };
  int gap = 0, cost = 0;

  for (int round = 0; round < 20; round++)
    {
      g_autofree Case *c = draw_case (random, 40, 0.2, 0, 1000);
      g_autoptr (HwOrderResult) result = hw_order_path_solve (&c->problem, &limits);

      check_result (&c->problem, result, result->cost);
      cost += result->cost;
      gap += result->cost - result->bound;
    }
  g_assert_cmpint (gap, <, cost / 100 * 28);
}

static void
test_cancelled_before (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (8);
  g_autofree Case *c = draw_case (random, MAX_N, 0.02, 0, 1000);
  int cancelled = 1;
  HwOrderLimits limits = { 100000000, 0, 100000000, &cancelled };
  g_autoptr (HwOrderResult) result = hw_order_path_solve (&c->problem, &limits);

  g_assert_false (result->proved);
  g_assert_cmpuint (result->n_states, ==, 0);
  g_assert_cmpint (cost_of (&c->problem, result->order), ==, result->cost);
  g_assert_cmpint (result->bound, <=, result->cost);
}

typedef struct { int cancelled; gint64 when; } Stop;

static gpointer
stop_later (gpointer data)
{
  Stop *stop = data;

  g_usleep (200000);
  stop->when = g_get_monotonic_time ();
  g_atomic_int_set (&stop->cancelled, 1);
  return NULL;
}

static void
test_cancelled_meanwhile (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (9);
  g_autofree Case *c = draw_case (random, MAX_N, 0.005, 0, 100000);
  Stop stop = { 0, 0 };
  HwOrderLimits limits = { 2000000000, 100000000, 2000000000, &stop.cancelled };
  GThread *thread = g_thread_new ("stop", stop_later, &stop);
  g_autoptr (HwOrderResult) result = hw_order_path_solve (&c->problem, &limits);
  gint64 now = g_get_monotonic_time ();

  g_thread_join (thread);
  g_assert_false (result->proved);
  g_assert_cmpint (cost_of (&c->problem, result->order), ==, result->cost);
  /* Hardly any time, were it not for sanitizers and busy machines. */
  g_assert_cmpint (now - stop.when, <, 2 * G_USEC_PER_SEC);
}

static void
test_ends (void)
{
  static const int cost[] = { 0, 3, 4, 0 };
  static const int entry[] = { HW_PATH_NEVER, 7 };
  static const HwOrderArrow circle[] = { { 0, 1 }, { 1, 0 } };
  HwPathProblem none = { 0, NULL, NULL, 0, NULL };
  HwPathProblem one = { 1, cost, NULL, 0, NULL };
  HwPathProblem two = { 2, cost, entry, 0, NULL };
  HwPathProblem round = { 2, cost, NULL, 2, circle };
  g_autoptr (HwOrderResult) empty = hw_order_path_solve (&none, &plenty);
  g_autoptr (HwOrderResult) single = hw_order_path_solve (&one, &plenty);
  g_autoptr (HwOrderResult) pair = hw_order_path_solve (&two, &plenty);

  g_assert_true (empty->proved && single->proved && pair->proved);
  g_assert_cmpint (empty->cost, ==, 0);
  g_assert_cmpint (single->cost, ==, 0);
  g_assert_cmpint (pair->cost, ==, 7 + 4);
  g_assert_cmpint (pair->order[0], ==, 1);
  g_assert_null (hw_order_path_solve (&round, &plenty));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/order-path/every-order", test_every_order);
  g_test_add_func ("/order-path/two-long-chains", test_two_long_chains);
  g_test_add_func ("/order-path/short-of-everything", test_short_of_everything);
  g_test_add_func ("/order-path/turned-and-relabelled", test_turned_and_relabelled);
  g_test_add_func ("/order-path/same-twice", test_same_twice);
  g_test_add_func ("/order-path/not-closed", test_not_closed);
  g_test_add_func ("/order-path/descent-leaves-no-exchange", test_descent_leaves_no_exchange);
  g_test_add_func ("/order-path/no-states-at-all", test_no_states_at_all);
  g_test_add_func ("/order-path/kicks-end-with-proof", test_kicks_end_with_proof);
  g_test_add_func ("/order-path/prices-raise-bound", test_prices_raise_bound);
  g_test_add_func ("/order-path/cancelled-before", test_cancelled_before);
  g_test_add_func ("/order-path/cancelled-meanwhile", test_cancelled_meanwhile);
  g_test_add_func ("/order-path/ends", test_ends);
  return g_test_run ();
}
