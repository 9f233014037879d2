/* test-order-together.c - runs kept whole: against every order there is, and what must hold of any
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "order-cases.h"

#include "plan/order-together.h"

#include <string.h>

#define MAX_RUNS 3
#define MAX_SMALL 8
#define NONE 100000000
#define STATES 200000

/* Runs over some of the operations, and their members. */
typedef struct
{
  HwOrderRun runs[MAX_RUNS];
  gsize      n_runs;
  int        members[64];
} Runs;

static void
draw_runs (Runs *self, GRand *random, gsize n, gsize n_runs, gboolean listed)
{
  int names[64];
  gsize used = 0;

  g_assert_cmpuint (n, <=, G_N_ELEMENTS (names));
  for (gsize i = 0; i < n; i++)
    names[i] = (int) i;
  for (gsize i = n; i-- > 1;)
    {
      gsize k = (gsize) g_rand_int_range (random, 0, (int) i + 1);
      int name = names[i];

      names[i] = names[k];
      names[k] = name;
    }
  self->n_runs = 0;
  while (self->n_runs < n_runs && used + 2 <= n)
    {
      gsize size = (gsize) g_rand_int_range (random, 2, 4);

      size = MIN (size, n - used);
      memcpy (self->members + used, names + used, size * sizeof (int));
      /* Most drawn at random run against some arrow: listed ones seldom do. */
      for (gsize a = 0; listed && a < size; a++)
        for (gsize b = a + 1; b < size; b++)
          if (self->members[used + a] > self->members[used + b])
            {
              int member = self->members[used + a];

              self->members[used + a] = self->members[used + b];
              self->members[used + b] = member;
            }
      self->runs[self->n_runs++] = (HwOrderRun) { size, self->members + used };
      used += size;
    }
}

static gboolean
is_whole (const Runs *self, const int *order, gsize n)
{
  for (gsize r = 0; r < self->n_runs; r++)
    {
      gsize begin = 0;

      while (order[begin] != self->runs[r].members[0])
        begin++;
      if (begin + self->runs[r].n_members > n
          || memcmp (order + begin, self->runs[r].members, self->runs[r].n_members * sizeof (int)) != 0)
        return FALSE;
    }
  return TRUE;
}

/* Every order there is; at most MAX_SMALL deep. */
static int
try_all (const OrderCase *sewing, const Runs *runs, int *order, gsize filled)
{
  gsize n = sewing->problem.n_operations;
  int best = NONE;

  if (filled == n)
    {
      int cost = is_whole (runs, order, n) ? order_case_cost (sewing, order) : -1;

      return cost < 0 ? NONE : cost;
    }
  for (gsize i = filled; i < n; i++)
    {
      int taken = order[i];

      order[i] = order[filled];
      order[filled] = taken;
      best = MIN (best, try_all (sewing, runs, order, filled + 1));
      order[filled] = order[i];
      order[i] = taken;
    }
  return best;
}

static void
check_result (const OrderCase *sewing, const Runs *runs, const HwOrderResult *result)
{
  g_assert_true (is_whole (runs, result->order, result->n_operations));
  g_assert_cmpint (order_case_cost (sewing, result->order), ==, result->cost);
  g_assert_cmpint (result->bound, <=, result->cost);
  g_assert_true (result->proved == (result->bound == result->cost));
}

static HwOrderResult *
solve (const OrderCase *sewing, const Runs *runs, guint max_states)
{
  return hw_order_solve_together (&sewing->problem, runs->runs, runs->n_runs,
                                  &(HwOrderLimits) { .max_states = max_states });
}

static void
test_every_order (gconstpointer data)
{
  gsize n_machines = GPOINTER_TO_SIZE (data);
  g_autoptr (GRand) random = g_rand_new_with_seed (4711 + (guint32) n_machines);
  int n_possible = 0;
  int n_dearer = 0;

  for (int i = 0; i < 150; i++)
    {
      gsize n = (gsize) g_rand_int_range (random, 3, i % 10 == 0 ? MAX_SMALL + 1 : MAX_SMALL);
      g_autoptr (OrderCase) sewing = order_case_new_garment (random, n, 2 + n / 2 + n_machines, n_machines);
      g_autoptr (HwOrderResult) result = NULL;
      g_autoptr (HwOrderResult) without = hw_order_solve (&sewing->problem, STATES);
      int order[MAX_SMALL] = { 0, 1, 2, 3, 4, 5, 6, 7 };
      Runs runs;
      int best;

      draw_runs (&runs, random, n, 1 + (gsize) i % MAX_RUNS, i % 4 != 0);
      best = try_all (sewing, &runs, order, 0);
      result = solve (sewing, &runs, STATES);
      g_assert_true ((result == NULL) == (best == NONE));
      if (result == NULL)
        continue;
      check_result (sewing, &runs, result);
      g_assert_true (result->proved);
      g_assert_cmpint (result->cost, ==, best);
      n_possible++;
      n_dearer += result->cost > without->cost ? 1 : 0;
    }
  g_test_message ("%d possible, %d of them dearer for it", n_possible, n_dearer);
  g_assert_cmpint (n_possible, >, 50);
  g_assert_cmpint (n_dearer, >, 10);
}

/* Larger ones: never broken, never below the bound, the same twice, more effort never dearer. */
static void
test_large (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (815);
  int n_possible = 0;
  int n_proved = 0;

  for (int i = 0; i < 400; i++)
    {
      gsize n = (gsize) g_rand_int_range (random, 12, 40);
      g_autoptr (OrderCase) sewing = order_case_new_garment (random, n, 4 + (gsize) i % 4, 1 + (gsize) i % 3);
      g_autoptr (HwOrderResult) none = NULL;
      g_autoptr (HwOrderResult) quick = NULL;
      g_autoptr (HwOrderResult) again = NULL;
      g_autoptr (HwOrderResult) proof = NULL;
      Runs runs;

      draw_runs (&runs, random, n, 1 + (gsize) i % MAX_RUNS, TRUE);
      quick = solve (sewing, &runs, 2000);
      if (quick == NULL)
        continue;
      none = solve (sewing, &runs, 0);
      again = solve (sewing, &runs, 2000);
      proof = solve (sewing, &runs, STATES);
      check_result (sewing, &runs, none);
      check_result (sewing, &runs, quick);
      check_result (sewing, &runs, proof);
      g_assert_true (memcmp (quick->order, again->order, n * sizeof (int)) == 0);
      g_assert_cmpint (quick->bound, ==, again->bound);
      g_assert_cmpint (proof->cost, <=, quick->cost);
      g_assert_cmpint (none->bound, <=, proof->cost);
      g_assert_cmpint (quick->bound, <=, proof->cost);
      n_possible++;
      n_proved += proof->proved ? 1 : 0;
    }
  g_test_message ("%d possible, %d proved", n_possible, n_proved);
  g_assert_cmpint (n_possible, >, 20);
  g_assert_cmpint (n_proved * 10, >=, n_possible * 9);
}

/* A run over two machines with much that would rather be sewn in between. */
static void
test_two_machines (void)
{
  static const int setup[] = { 0, 1, 2, 0, 1, 2, 2 };
  static const int machine[] = { 0, 0, 1 };
  static const int change[] = { 0, 1000, 0, 1000, 0, 0, 0, 0, 0 };
  static const int entry[] = { 0, 1000, 0 };
  static const int walk[] = { 0, 300, 300, 0 };
  static const int members[] = { 0, 2, 1 };
  const HwOrderProblem problem = { .n_operations = 7, .setup = setup, .n_setups = 3, .machine = machine,
                                   .change = change, .entry = entry, .n_machines = 2, .walk = walk };
  const HwOrderRun run = { 3, members };
  g_autoptr (HwOrderResult) free_result = hw_order_solve (&problem, STATES);
  g_autoptr (HwOrderResult) result = hw_order_solve_together (&problem, &run, 1,
                                                              &(HwOrderLimits) { .max_states = STATES });

  /* Without: 0 and 3, change, 1 and 4, over to the other machine. With: all but 1 and 4 before or on the way. */
  g_assert_cmpint (free_result->cost, ==, 1300);
  g_assert_cmpint (result->cost, ==, 1900);
  g_assert_true (result->proved);
}

static void
test_cancelled (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (99);
  int cancelled = 1;
  Runs runs;

  for (int i = 0; i < 20; i++)
    {
      g_autoptr (OrderCase) sewing = order_case_new_garment (random, 30, 8, 2);
      g_autoptr (HwOrderResult) result = NULL;

      draw_runs (&runs, random, 30, 2, TRUE);
      result = hw_order_solve_together (&sewing->problem, runs.runs, runs.n_runs,
                                        &(HwOrderLimits) { .max_states = STATES, .cancelled = &cancelled });
      if (result != NULL)
        check_result (sewing, &runs, result);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_data_func ("/order-together/every-order/1-machine", GSIZE_TO_POINTER (1), test_every_order);
  g_test_add_data_func ("/order-together/every-order/2-machines", GSIZE_TO_POINTER (2), test_every_order);
  g_test_add_data_func ("/order-together/every-order/3-machines", GSIZE_TO_POINTER (3), test_every_order);
  g_test_add_func ("/order-together/large", test_large);
  g_test_add_func ("/order-together/two-machines", test_two_machines);
  g_test_add_func ("/order-together/cancelled", test_cancelled);
  return g_test_run ();
}
