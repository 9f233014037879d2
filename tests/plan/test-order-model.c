/* test-order-model.c - orders against an independent integer programme
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The same problems written as flows through the places of an order and solved by the GNU Linear Programming
 * Kit's glpsol, which knows nothing of sets of operations, closure or bounds:
 *
 *   x_i_p    operation i stands at place p (binary);
 *   w_a_b_p  at place p the mounted set-up a gives way to b on its machine, or stays (a = b): what flows into a set-up
 *            flows out of it at the next place; an operation at p needs its set-up, or one of those that it accepts,
 *            to be one just flowed into;
 *   s_a_b_p  at place p one walks from machine a to b, or stays.
 *
 * For steps of arbitrary cost: y_i_k_p, operation i at place p - 1 is followed by k.
 *
 * Each programme is asked twice. With the places held as our order has them its optimum must be what we say that the
 * order costs; with all places free and the total held below that, it must have no solution. Together that is a proof
 * that our order is best, and much quicker than to let glpsol look for an order of its own.
 */

#include "config.h"

#include "order-cases.h"
#include "temp-folder.h"

#include "plan/order-path.h"
#include "plan/plan.h"

#include <stdio.h>
#include <string.h>

#define MAX_PATH 14

typedef struct
{
  GString *goal;
  GString *rows;
  GString *binaries;
} Model;

static Model
model_new (void)
{
  return (Model) { g_string_new ("Minimize\n total:"), g_string_new ("Subject To\n"), g_string_new ("Binary\n") };
}

static char *
write_model (const Model *self, const char *held)
{
  return g_strconcat (self->goal->str, "\n", self->rows->str, held, self->binaries->str, "End\n", NULL);
}

static void
model_clear (Model *self)
{
  g_string_free (self->goal, TRUE);
  g_string_free (self->rows, TRUE);
  g_string_free (self->binaries, TRUE);
}

/* What glpsol has written: the objective of the optimum that it proves; -1 when it says that there is none. */
static int
read_answer (const char *path)
{
  g_autofree char *solution = NULL;
  double total = -1;
  char state = 0;
  const char *line;

  if (!g_file_get_contents (path, &solution, NULL, NULL))
    return -1;                           /* none even where places may be shared: then nothing is written */
  line = strstr (solution, "\ns mip ");
  g_assert_nonnull (line);
  g_assert_cmpint (sscanf (line, "\ns mip %*d %*d %c %lf", &state, &total), ==, 2);
  g_assert_true (state == 'o' || state == 'n');
  return state == 'o' ? (int) (total + 0.5) : -1;
}

static int
solve (const char *text)
{
  g_autofree char *folder = temp_folder_new ();
  g_autofree char *model = g_build_filename (folder, "model.lp", NULL);
  g_autofree char *answer = g_build_filename (folder, "answer.txt", NULL);
  const char *argv[] = { "glpsol", "--lp", model, "-w", answer, NULL };
  g_autofree char *output = NULL;
  g_autoptr (GError) error = NULL;
  int status = -1, total;

  g_file_set_contents (model, text, -1, &error);
  g_assert_no_error (error);
  g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &output, NULL, &status, &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
  total = read_answer (answer);
  temp_folder_remove (g_steal_pointer (&folder));
  return total;
}

static int
solve_in_order (const Model *self, const int *order, gsize n)
{
  g_autoptr (GString) held = g_string_new (NULL);
  g_autofree char *text = NULL;

  for (gsize p = 0; p < n; p++)
    g_string_append_printf (held, " x_%d_%zu = 1\n", order[p], p);
  text = write_model (self, held->str);
  return solve (text);
}

static int
solve_below (const Model *self, int total)
{
  const char *terms = strchr (self->goal->str, ':') + 1;
  g_autofree char *held = g_strdup_printf (" %s <= %d\n", terms, total - 1);
  g_autofree char *text = write_model (self, held);

  return solve (text);
}

static void
assert_best (Model *self, const HwOrderResult *result, gsize n)
{
  g_assert_true (result->proved);
  g_assert_cmpint (solve_in_order (self, result->order, n), ==, result->cost);
  g_assert_cmpint (solve_below (self, result->cost), ==, -1);
  model_clear (self);
}

/* Every operation at one place, every place for one operation; and arrows: what comes after is at a later place. */
static void
write_places (Model *self, gsize n, const HwOrderArrow *arrows, gsize n_arrows)
{
  for (gsize i = 0; i < n; i++)
    for (gsize p = 0; p < n; p++)
      {
        g_string_append_printf (self->rows, " %s x_%zu_%zu%s", p == 0 ? "" : "+", i, p, p + 1 == n ? " = 1\n" : "");
        g_string_append_printf (self->binaries, " x_%zu_%zu\n", i, p);
      }
  for (gsize p = 0; p < n; p++)
    for (gsize i = 0; i < n; i++)
      g_string_append_printf (self->rows, " %s x_%zu_%zu%s", i == 0 ? "" : "+", i, p, i + 1 == n ? " = 1\n" : "");
  for (gsize a = 0; a < n_arrows; a++)
    for (gsize p = 0; p < n; p++)
      {
        for (gsize q = 0; q <= p; q++)
          g_string_append_printf (self->rows, " + x_%d_%zu", arrows[a].after, q);
        for (gsize q = 0; q < p; q++)
          g_string_append_printf (self->rows, " - x_%d_%zu", arrows[a].before, q);
        g_string_append (self->rows, " <= 0\n");
      }
}

/* ---- set-ups on machines ---- */

/* Nodes among which one unit flows: the last is where it starts, may stay, and never comes back to. */
typedef struct
{
  const char *name;
  int         nodes[16];
  gsize       n_nodes;
  const int  *costs;
  gsize       stride;
  gsize       start_row;     /* of costs */
} Flow;

static gboolean
is_open (const Flow *flow, gsize a, gsize b)
{
  return b + 1 < flow->n_nodes || a == b;
}

static int
cost_between (const Flow *flow, gsize a, gsize b)
{
  gsize row = a + 1 == flow->n_nodes ? flow->start_row : (gsize) flow->nodes[a];

  return b + 1 == flow->n_nodes ? 0 : flow->costs[row * flow->stride + (gsize) flow->nodes[b]];
}

/* What flows into node @b at place @p, each term after @sign. */
static void
write_inflow (Model *self, const Flow *flow, const char *sign, gsize b, gsize p)
{
  for (gsize a = 0; a < flow->n_nodes; a++)
    if (is_open (flow, a, b))
      g_string_append_printf (self->rows, " %s %s_%d_%d_%zu", sign, flow->name, flow->nodes[a], flow->nodes[b], p);
}

static void
write_outflow (Model *self, const Flow *flow, const char *sign, gsize a, gsize p)
{
  for (gsize b = 0; b < flow->n_nodes; b++)
    if (is_open (flow, a, b))
      g_string_append_printf (self->rows, " %s %s_%d_%d_%zu", sign, flow->name, flow->nodes[a], flow->nodes[b], p);
}

static void
write_flow (Model *self, const Flow *flow, gsize n_places)
{
  for (gsize p = 0; p < n_places; p++)
    for (gsize a = 0; a < flow->n_nodes; a++)
      {
        for (gsize b = 0; b < flow->n_nodes; b++)
          if (is_open (flow, a, b))
            g_string_append_printf (self->goal, "\n + %d %s_%d_%d_%zu", cost_between (flow, a, b), flow->name,
                                    flow->nodes[a], flow->nodes[b], p);
        if (p > 0)
          write_inflow (self, flow, "+", a, p - 1);
        write_outflow (self, flow, "-", a, p);
        g_string_append (self->rows, p == 0 && a + 1 == flow->n_nodes ? " = -1\n" : " = 0\n");
      }
}

/* Operations of the kind of node @b are done only where there is flow into it. */
static void
write_need (Model *self, const Flow *flow, gsize b, gsize n_places, const int *kind_of, const char *relation)
{
  for (gsize p = 0; p < n_places; p++)
    {
      for (gsize i = 0; i < n_places; i++)
        if (kind_of[i] == flow->nodes[b])
          g_string_append_printf (self->rows, " + x_%zu_%zu", i, p);
      write_inflow (self, flow, "-", b, p);
      g_string_append_printf (self->rows, " %s 0\n", relation);
    }
}

/* An operation that accepts several set-ups is done where there is flow into one of them. */
static void
write_choice (Model *self, const Flow *flow, gsize operation, gsize n_places, guint64 accept)
{
  for (gsize p = 0; p < n_places; p++)
    {
      g_string_append_printf (self->rows, " + x_%zu_%zu", operation, p);
      for (gsize b = 0; b + 1 < flow->n_nodes; b++)
        if (accept >> flow->nodes[b] & 1)
          write_inflow (self, flow, "-", b, p);
      g_string_append (self->rows, " <= 0\n");
    }
}

static void
write_machine (Model *self, const OrderCase *c, int machine)
{
  gsize n_setups = c->problem.n_setups;
  Flow flow = { .name = "w", .costs = c->ways, .stride = n_setups, .start_row = n_setups };

  for (gsize u = 0; u < n_setups; u++)
    if (c->machine[u] == machine)
      flow.nodes[flow.n_nodes++] = (int) u;
  flow.nodes[flow.n_nodes++] = (int) n_setups + machine;
  write_flow (self, &flow, c->problem.n_operations);
  for (gsize b = 0; b + 1 < flow.n_nodes && c->problem.accept == NULL; b++)
    write_need (self, &flow, b, c->problem.n_operations, c->setup, "<=");
  for (gsize i = 0; i < c->problem.n_operations && c->problem.accept != NULL; i++)
    if (c->machine[c->setup[i]] == machine)
      write_choice (self, &flow, i, c->problem.n_operations, c->problem.accept[i]);
}

static void
write_walks (Model *self, const OrderCase *c)
{
  gsize n_machines = c->problem.n_machines;
  g_autofree int *machine_of = g_new (int, c->problem.n_operations);
  Flow flow = { .name = "s", .costs = c->walks, .stride = n_machines };

  flow.start_row = c->problem.at < 0 ? n_machines : (gsize) c->problem.at;
  for (gsize m = 0; m <= n_machines; m++)
    flow.nodes[flow.n_nodes++] = (int) m;
  for (gsize i = 0; i < c->problem.n_operations; i++)
    machine_of[i] = c->machine[c->setup[i]];
  write_flow (self, &flow, c->problem.n_operations);
  for (gsize b = 0; b < n_machines; b++)
    write_need (self, &flow, b, c->problem.n_operations, machine_of, "=");
}

static void
assert_case_best (const OrderCase *c, const HwOrderResult *result)
{
  Model model = model_new ();

  write_places (&model, c->problem.n_operations, c->arrows, c->problem.n_arrows);
  for (gsize m = 0; m < c->problem.n_machines; m++)
    write_machine (&model, c, (int) m);
  write_walks (&model, c);
  assert_best (&model, result, c->problem.n_operations);
}

static void
test_setups (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (1947);

  for (int round = 0; round < 36; round++)
    {
      gsize n_machines = 1 + (gsize) round % 3;
      gsize n_setups = n_machines + (gsize) g_rand_int_range (random, 1, 4);
      g_autoptr (OrderCase) c = order_case_new_garment (random, 10 + (gsize) (round / 3) % 3, n_setups, n_machines);
      g_autoptr (HwOrderResult) result = hw_order_solve (&c->problem, HW_PLAN_PROOF_STATES);

      assert_case_best (c, result);
    }
}

/* Operations that accept several set-ups of their machine. */
static void
test_choices (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (1833);
  int n_cheaper = 0;

  for (int round = 0; round < 15; round++)
    {
      gsize n_machines = 1 + (gsize) round % 3, n = 9 + (gsize) round % 4;
      g_autoptr (OrderCase) c = order_case_new_garment (random, n, n_machines + 3, n_machines);
      g_autoptr (HwOrderResult) alone = hw_order_solve (&c->problem, HW_PLAN_PROOF_STATES);
      g_autoptr (HwOrderResult) result = NULL;
      guint64 accept[MAX_PATH];

      for (gsize i = 0; i < n; i++)
        {
          accept[i] = (guint64) 1 << c->setup[i];
          for (gsize u = 0; u < c->problem.n_setups; u++)
            if (c->machine[u] == c->machine[c->setup[i]] && g_rand_double (random) < 0.3)
              accept[i] |= (guint64) 1 << u;
        }
      c->problem.accept = accept;
      result = hw_order_solve (&c->problem, HW_PLAN_PROOF_STATES);
      assert_case_best (c, result);
      n_cheaper += result->cost < alone->cost ? 1 : 0;
    }
  /* Else the cases would show nothing of choice. */
  g_assert_cmpint (n_cheaper, >, 5);
}

/* ---- steps of arbitrary cost ---- */

/* Operation at place p - 1 to operation at place p. */
static void
write_followers (Model *self, const HwPathProblem *problem)
{
  gsize n = problem->n_operations;

  for (gsize p = 1; p < n; p++)
    for (gsize i = 0; i < n; i++)
      {
        for (gsize k = 0; k < n; k++)
          if (i != k && problem->cost[i * n + k] >= 0)
            {
              g_string_append_printf (self->goal, "\n + %d y_%zu_%zu_%zu", problem->cost[i * n + k], i, k, p);
              g_string_append_printf (self->rows, " + y_%zu_%zu_%zu", i, k, p);
            }
        g_string_append_printf (self->rows, " - x_%zu_%zu = 0\n", i, p - 1);
        for (gsize k = 0; k < n; k++)
          if (i != k && problem->cost[k * n + i] >= 0)
            g_string_append_printf (self->rows, " + y_%zu_%zu_%zu", k, i, p);
        g_string_append_printf (self->rows, " - x_%zu_%zu = 0\n", i, p);
      }
  for (gsize i = 0; i < n; i++)
    g_string_append_printf (self->goal, "\n + %d x_%zu_0", problem->entry[i], i);
}

static void
draw_path (GRand *random, HwPathProblem *problem, int *cost, int *entry, HwOrderArrow *arrows)
{
  gsize n = problem->n_operations;

  for (gsize i = 0; i < n; i++)
    {
      entry[i] = g_rand_int_range (random, 0, 500);
      for (gsize k = 0; k < n; k++)
        {
          cost[i * n + k] = g_rand_double (random) < 0.15 ? HW_PATH_NEVER : g_rand_int_range (random, 0, 1000);
          if (i < k && g_rand_double (random) < 0.15)
            arrows[problem->n_arrows++] = (HwOrderArrow) { (int) i, (int) k };
        }
    }
}

static void
test_path (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (1954);
  static const HwOrderLimits limits = { .max_states = 2000000, .max_kicks = 200 };

  for (int round = 0; round < 12; round++)
    {
      int cost[MAX_PATH * MAX_PATH], entry[MAX_PATH];
      HwOrderArrow arrows[MAX_PATH * MAX_PATH];
      HwPathProblem problem = { 10 + (gsize) round % 3, cost, entry, 0, arrows };
      g_autoptr (HwOrderResult) result = NULL;
      Model model = model_new ();

      draw_path (random, &problem, cost, entry, arrows);
      write_places (&model, problem.n_operations, arrows, problem.n_arrows);
      write_followers (&model, &problem);
      result = hw_order_path_solve (&problem, &limits);
      assert_best (&model, result, problem.n_operations);
    }
}

static void
test_no_program (void)
{
  g_test_skip ("glpsol is not installed (Debian package glpk-utils)");
}

int
main (int argc, char *argv[])
{
  g_autofree char *program = g_find_program_in_path ("glpsol");

  g_test_init (&argc, &argv, NULL);
  if (program == NULL)
    {
      g_test_add_func ("/order-model/glpsol", test_no_program);
      return g_test_run ();
    }
  g_test_add_func ("/order-model/set-ups", test_setups);
  g_test_add_func ("/order-model/choices", test_choices);
  g_test_add_func ("/order-model/path", test_path);
  return g_test_run ();
}
