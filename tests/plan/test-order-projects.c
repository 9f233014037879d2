/* test-order-projects.c - orders of random but realistic projects are all proved
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Eight to sixty operations, two to eight set-ups, one to three machines. tests/bench/ does the same with many
 * more, and measures the time.
 */

#include "config.h"

#include "order-cases.h"

#include "plan/order-path.h"
#include "plan/plan.h"

static OrderCase *
draw_project (GRand *random, int least, int most)
{
  gsize n_machines = (gsize) g_rand_int_range (random, 1, 4);
  gsize n_setups = (gsize) MAX ((int) n_machines, g_rand_int_range (random, 2, 9));

  return order_case_new_garment (random, (gsize) g_rand_int_range (random, least, most + 1), n_setups, n_machines);
}

static void
check_result (const OrderCase *c, const HwOrderResult *result)
{
  g_assert_cmpint (order_case_cost (c, result->order), ==, result->cost);
  g_assert_cmpint (result->bound, <=, result->cost);
  g_assert_cmpint (result->proved, ==, result->bound == result->cost);
}

static void
test_all_proved (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (1906);

  for (int round = 0; round < 150; round++)
    {
      g_autoptr (OrderCase) c = draw_project (random, 8, 60);
      g_autoptr (HwOrderResult) result = hw_order_solve (&c->problem, HW_PLAN_PROOF_STATES);

      g_assert_true (result->proved);
      check_result (c, result);
    }
}

static void
test_every_order (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (89);
  int n_better = 0;

  for (int round = 0; round < 120; round++)
    {
      g_autoptr (OrderCase) c = draw_project (random, 4, 10);
      g_autoptr (HwOrderResult) result = hw_order_solve (&c->problem, HW_PLAN_PROOF_STATES);
      g_autofree int *listed = hw_order_as_listed (c->problem.n_operations, c->arrows, c->problem.n_arrows);

      check_result (c, result);
      g_assert_true (result->proved);
      g_assert_cmpint (result->cost, ==, order_case_cheapest (c));
      n_better += result->cost < order_case_cost (c, listed) ? 1 : 0;
    }
  /* Else the cases would show nothing. */
  g_assert_cmpint (n_better, >, 30);
}

/* Numbers of operations, set-ups and machines mean nothing to the cost. */
static void
test_relabelled (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (404);

  for (int round = 0; round < 60; round++)
    {
      g_autoptr (OrderCase) c = draw_project (random, 8, 40);
      g_autofree int *names = g_new0 (int, c->problem.n_operations);
      g_autoptr (OrderCase) other = order_case_relabel (c, random, names);
      g_autoptr (HwOrderResult) result = hw_order_solve (&c->problem, HW_PLAN_PROOF_STATES);
      g_autoptr (HwOrderResult) renamed = hw_order_solve (&other->problem, HW_PLAN_PROOF_STATES);

      check_result (other, renamed);
      g_assert_cmpint (renamed->cost, ==, result->cost);
      /* The order of the first, in the names of the second. */
      for (gsize p = 0; p < c->problem.n_operations; p++)
        result->order[p] = names[result->order[p]];
      g_assert_cmpint (order_case_cost (other, result->order), ==, result->cost);
    }
}

/* On one machine, with every operation as its own set-up, the general solver must come to the same cost. */
static void
test_general_solver_agrees (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (12);
  static const HwOrderLimits limits = { .max_states = HW_PLAN_PROOF_STATES, .max_kicks = 1000 };

  for (int round = 0; round < 40; round++)
    {
      gsize n = (gsize) g_rand_int_range (random, 8, 25);
      gsize n_setups = (gsize) g_rand_int_range (random, 2, 7);
      g_autoptr (OrderCase) c = order_case_new_garment (random, n, n_setups, 1);
      g_autofree int *cost = g_new0 (int, n * n);
      g_autofree int *entry = g_new0 (int, n);
      HwPathProblem problem = { n, cost, entry, c->problem.n_arrows, c->arrows };
      g_autoptr (HwOrderResult) result = hw_order_solve (&c->problem, HW_PLAN_PROOF_STATES);
      g_autoptr (HwOrderResult) general = NULL;

      for (gsize i = 0; i < n; i++)
        {
          entry[i] = c->ways[n_setups * n_setups + (gsize) c->setup[i]];
          for (gsize k = 0; k < n; k++)
            cost[i * n + k] = c->ways[(gsize) c->setup[i] * n_setups + (gsize) c->setup[k]];
        }
      general = hw_order_path_solve (&problem, &limits);
      g_assert_true (result->proved && general->proved);
      g_assert_cmpint (general->cost, ==, result->cost);
      g_assert_cmpint (order_case_cost (c, general->order), ==, result->cost);
    }
}

static void
test_same_twice (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (5);

  for (int round = 0; round < 20; round++)
    {
      g_autoptr (OrderCase) c = draw_project (random, 30, 60);
      g_autoptr (HwOrderResult) first = hw_order_solve (&c->problem, 3000);
      g_autoptr (HwOrderResult) second = hw_order_solve (&c->problem, 3000);

      for (gsize p = 0; p < c->problem.n_operations; p++)
        g_assert_cmpint (first->order[p], ==, second->order[p]);
      g_assert_cmpint (first->bound, ==, second->bound);
      g_assert_cmpuint (first->n_states, ==, second->n_states);
    }
}

/* Nothing was looked for, so nothing may be claimed; but the order is one, and the bound holds. */
static void
test_cancelled (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (6);
  int cancelled = 1;
  int n_open = 0;

  for (int round = 0; round < 20; round++)
    {
      g_autoptr (OrderCase) c = draw_project (random, 20, 60);
      HwOrderLimits limits = { .max_states = HW_PLAN_PROOF_STATES, .cancelled = &cancelled };
      g_autoptr (HwOrderResult) stopped = hw_order_solve_within (&c->problem, &limits);
      g_autoptr (HwOrderResult) proved = hw_order_solve (&c->problem, HW_PLAN_PROOF_STATES);

      check_result (c, stopped);
      g_assert_cmpint (stopped->bound, <=, proved->cost);
      g_assert_cmpint (stopped->cost, >=, proved->cost);
      g_assert_cmpuint (stopped->n_states, <=, 1);
      n_open += stopped->proved ? 0 : 1;
    }
  g_assert_cmpint (n_open, >, 10);
}

/* Memory for a few hundred states only. */
static void
test_little_memory (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (7);

  for (int round = 0; round < 20; round++)
    {
      g_autoptr (OrderCase) c = draw_project (random, 40, 60);
      HwOrderLimits limits = { .max_states = HW_PLAN_PROOF_STATES, .max_bytes = 40000 };
      g_autoptr (HwOrderResult) result = hw_order_solve_within (&c->problem, &limits);

      check_result (c, result);
      g_assert_cmpuint (result->n_states, <, 1000);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/order-projects/all-proved", test_all_proved);
  g_test_add_func ("/order-projects/every-order", test_every_order);
  g_test_add_func ("/order-projects/relabelled", test_relabelled);
  g_test_add_func ("/order-projects/general-solver-agrees", test_general_solver_agrees);
  g_test_add_func ("/order-projects/same-twice", test_same_twice);
  g_test_add_func ("/order-projects/cancelled", test_cancelled);
  g_test_add_func ("/order-projects/little-memory", test_little_memory);
  return g_test_run ();
}
