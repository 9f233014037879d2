/* bench-graphs.c - how long the order solver takes for plans like real ones
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Graphs: A. Scholl's collection (Data of assembly line balancing problems, Schriften zur Quantitativen BWL 16/93, TU
 * Darmstadt, 1993) from github.com/cmdalbem/rittgub, data. They are not kept here. What garments look like is
 * common practice, no source.
 */

#include "config.h"

#include "deadline.h"
#include "graph.h"
#include "order-cases.h"
#include "reports.h"

#include "plan/plan.h"

#define N_PLANS 200
#define N_PROJECTS 1000
#define LATE_SECONDS 0.002

static const char *const graphs[] = {
  "MITCHELL", "ROSZIEG", "HESKIA", "BUXEY", "SAWYER30", "GUNTHER", "KILBRID", "WARNECKE", "TONGE70", "LUTZ2",
};

typedef struct
{
  GArray *times;            /* double, milliseconds */
  guint   n_proved, n_wrong;
  guint   most_states;
} Sample;

static void
sample_init (Sample *self)
{
  *self = (Sample) { .times = g_array_new (FALSE, FALSE, sizeof (double)) };
}

static void
sample_add (Sample *self, const OrderCase *c)
{
  gint64 start = processor_time ();
  g_autoptr (HwOrderResult) result = hw_order_solve (&c->problem, HW_PLAN_PROOF_STATES);
  double milliseconds = (double) (processor_time () - start) / 1000;

  g_array_append_val (self->times, milliseconds);
  self->n_proved += result->proved ? 1 : 0;
  self->most_states = MAX (self->most_states, result->n_states);
  if (order_case_cost (c, result->order) != result->cost || result->bound > result->cost)
    {
      g_print ("WRONG: cost %d is %d, bound %d\n", result->cost, order_case_cost (c, result->order), result->bound);
      self->n_wrong++;
    }
}

static int
compare_times_cb (gconstpointer a, gconstpointer b)
{
  double x = *(const double *) a;
  double y = *(const double *) b;

  return x < y ? -1 : x > y;
}

static double
quantile (const Sample *self, double part)
{
  guint index = (guint) (part * (self->times->len - 1) + 0.5);

  return g_array_index (self->times, double, index);
}

static guint
sample_print (Sample *self, const char *name)
{
  g_array_sort (self->times, compare_times_cb);
  g_print ("%-34s %5u %5u %8.2f %8.2f %8.2f %8.2f %9u\n", name, self->times->len, self->n_proved, quantile (self, 0.5),
           quantile (self, 0.95), quantile (self, 0.99), quantile (self, 1.0), self->most_states);
  g_array_unref (self->times);
  return self->n_wrong;
}

static void
print_heading (const char *title)
{
  g_print ("%s, processor milliseconds on one core.\n%-34s %5s %5s %8s %8s %8s %8s %9s\n", title, "", "plans", "prov'd",
           "median", "95 %", "99 %", "worst", "states");
}

/* ---- graphs ---- */

static void
add_plans (Sample *sample, const Graph *graph, GRand *random, gsize n_setups, gsize n_machines, OrderCosts costs)
{
  const HwOrderArrow *arrows = (const HwOrderArrow *) (const void *) graph->arrows->data;

  for (int plan = 0; plan < N_PLANS; plan++)
    {
      g_autoptr (OrderCase) c = order_case_new_graph (random, graph->n, arrows, graph->arrows->len, n_setups,
                                                      n_machines, costs);

      sample_add (sample, c);
    }
}

/* N_PLANS of every graph, with each number of set-ups in @n_setups. */
static guint
report_setups (GPtrArray *list, const gsize *n_setups, gsize n_counts, gsize n_machines, OrderCosts costs)
{
  guint n_wrong = 0;

  for (gsize s = 0; s < n_counts; s++)
    {
      g_autoptr (GRand) random = g_rand_new_with_seed ((guint32) (1000 * n_machines + n_setups[s]));
      g_autofree char *name = g_strdup_printf ("%zu set-ups, %zu machine%s, %s", n_setups[s], n_machines,
                                               n_machines == 1 ? "" : "s",
                                               costs == ORDER_COSTS_PARTS ? "parts" : "any costs");
      Sample sample;

      sample_init (&sample);
      for (guint g = 0; g < list->len; g++)
        add_plans (&sample, g_ptr_array_index (list, g), random, n_setups[s], n_machines, costs);
      n_wrong += sample_print (&sample, name);
    }
  return n_wrong;
}

guint
report_graphs (const char *folder)
{
  static const gsize one_machine[] = { 4, 6, 8, 12 };
  static const gsize two_machines[] = { 6, 7, 8, 9, 10 };
  g_autoptr (GPtrArray) list = g_ptr_array_new_with_free_func ((GDestroyNotify) graph_free);
  guint n_wrong = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (graphs); i++)
    {
      g_autofree char *name = g_strconcat (graphs[i], ".IN2", NULL);
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autoptr (GError) error = NULL;
      Graph *graph = graph_read (path, &error);

      if (graph != NULL)
        g_ptr_array_add (list, graph);
      else
        g_print ("%-14s left out: %s\n", graphs[i], error->message);
    }
  if (list->len == 0)
    return 0;
  print_heading ("Published graphs of 21 to 89 operations, set-ups drawn by Zipf's law");
  for (int costs = ORDER_COSTS_PARTS; costs <= ORDER_COSTS_ANY; costs++)
    {
      n_wrong += report_setups (list, one_machine, G_N_ELEMENTS (one_machine), 1, (OrderCosts) costs);
      n_wrong += report_setups (list, two_machines, G_N_ELEMENTS (two_machines), 2, (OrderCosts) costs);
    }
  g_print ("Asked for: all proved; one machine up to 8 set-ups 95 %% within 10 ms, none above 50;"
           " two machines 95 %% within 100 ms.\n");
  return n_wrong;
}

/* ---- projects ---- */

/* How soon a solver comes back that is cancelled in the middle of large wide plans; the worst. */
static double
measure_cancelling (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (11);
  double worst = 0;

  for (int round = 0; round < 20; round++)
    {
      g_autoptr (OrderCase) c = order_case_new_graph (random, 120, NULL, 0, 14, 2, ORDER_COSTS_ANY);
      Deadline deadline;
      HwOrderLimits limits = { .max_states = HW_PLAN_PROOF_STATES, .cancelled = &deadline.cancelled };
      double late;

      deadline_start (&deadline, LATE_SECONDS * (1 + round));
      hw_order_result_free (hw_order_solve_within (&c->problem, &limits));
      deadline_stop (&deadline, &late);
      worst = MAX (worst, late);
    }
  return worst;
}

guint
report_projects (void)
{
  guint n_wrong = 0;

  print_heading ("Projects drawn, 8 to 60 operations, 2 to 8 set-ups");
  for (gsize n_machines = 1; n_machines <= 4; n_machines++)
    {
      g_autoptr (GRand) random = g_rand_new_with_seed (2026);
      g_autofree char *name = n_machines < 4 ? g_strdup_printf ("of them %zu machines", n_machines) : g_strdup ("all");
      Sample sample;

      sample_init (&sample);
      for (int project = 0; project < N_PROJECTS; project++)
        {
          gsize n_here = 1 + (gsize) g_rand_int_range (random, 0, 3);
          gsize n = (gsize) g_rand_int_range (random, 8, 61);
          gsize n_setups = (gsize) g_rand_int_range (random, 2, 9);
          g_autoptr (OrderCase) c = order_case_new_garment (random, n, MAX (n_here, n_setups), n_here);

          if (n_machines == 4 || n_machines == n_here)
            sample_add (&sample, c);
        }
      n_wrong += sample_print (&sample, name);
    }
  g_print ("Came back at most %.1f ms after being cancelled.\n", measure_cancelling ());
  return n_wrong;
}
