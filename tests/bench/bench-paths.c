/* bench-paths.c - the general order solver on published instances of the sequential ordering problem
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The files and where the values come from: published.h.
 */

#include "config.h"

#include "deadline.h"
#include "published.h"
#include "reports.h"
#include "sop.h"

#define MAX_BYTES ((gsize) 1 << 30)

static const double times[] = { 0.05, 1, 10 };

#define N_TIMES G_N_ELEMENTS (times)
#define ONE_SECOND 1                    /* in times */

typedef struct
{
  int      value[N_TIMES];
  int      bound[N_TIMES];
  gboolean proved[N_TIMES];
  double   seconds[N_TIMES];
  double   late;            /* worst */
  guint    n_wrong;
} Row;

typedef struct
{
  guint  n_run, n_wrong;
  guint  n_best;            /* TSPLIB files whose best known value was reached within a second */
  guint  n_tsplib;
  double gap_sum;           /* of those */
  guint  n_to_prove, n_proved;
  guint  n_proved_late;
  double late;
} Totals;

static guint
check_result (const Published *instance, const Sop *sop, const HwOrderResult *result)
{
  guint n_wrong = 0;

  if (result->order == NULL || sop_check (sop, result->order) != result->cost)
    n_wrong++;
  if (instance->optimal && result->cost < instance->value)
    n_wrong++;
  if (result->bound > result->cost || result->bound > instance->value)
    n_wrong++;
  if (result->proved && (result->bound != result->cost || result->cost != instance->value))
    n_wrong++;
  if (n_wrong > 0)
    g_print ("WRONG: %s: cost %d, bound %d, %s\n", instance->name, result->cost, result->bound,
             result->proved ? "called proved" : "open");
  return n_wrong;
}

static Row
run_instance (const Published *instance, const Sop *sop)
{
  HwPathProblem problem = sop_problem (sop);
  Row row = { 0 };

  for (gsize t = 0; t < N_TIMES; t++)
    {
      Deadline deadline;
      HwOrderLimits limits = { G_MAXUINT32 / 2, MAX_BYTES, G_MAXUINT, &deadline.cancelled };
      g_autoptr (HwOrderResult) result = NULL;
      double late;

      deadline_start (&deadline, times[t]);
      result = hw_order_path_solve (&problem, &limits);
      row.seconds[t] = deadline_stop (&deadline, &late);
      row.late = MAX (row.late, late);
      row.value[t] = result->cost;
      row.bound[t] = result->bound;
      row.proved[t] = result->proved;
      row.n_wrong += check_result (instance, sop, result);
    }
  return row;
}

static double
gap_of (const Published *instance, int value)
{
  return 100.0 * (value - instance->value) / instance->value;
}

static void
print_row (const Published *instance, const Sop *sop, const Row *row)
{
  g_print ("%-14s %5zu %7d%s", instance->name, sop->n, instance->value, instance->optimal ? "*" : " ");
  for (gsize t = 0; t < N_TIMES; t++)
    g_print (" %7d", row->value[t]);
  g_print (" %7d", row->bound[N_TIMES - 1]);
  for (gsize t = 0; t < N_TIMES; t++)
    if (row->proved[t])
      {
        g_print (" %8.2f", row->seconds[t]);
        break;
      }
    else if (t == N_TIMES - 1)
      g_print ("        -");
  for (gsize t = 0; t < N_TIMES; t++)
    g_print (" %6.2f", gap_of (instance, row->value[t]));
  g_print (" %6.1f\n", row->late);
}

static void
add_row (Totals *totals, const Published *instance, const Row *row)
{
  gboolean tsplib = !g_str_has_prefix (instance->name, "R.");

  totals->n_run++;
  totals->n_wrong += row->n_wrong;
  totals->late = MAX (totals->late, row->late);
  totals->n_to_prove += instance->prove ? 1 : 0;
  totals->n_proved += instance->prove && row->proved[ONE_SECOND] ? 1 : 0;
  totals->n_proved_late += row->proved[N_TIMES - 1] ? 1 : 0;
  if (!tsplib)
    return;
  totals->n_tsplib++;
  totals->n_best += row->value[ONE_SECOND] <= instance->value ? 1 : 0;
  totals->gap_sum += gap_of (instance, row->value[ONE_SECOND]);
}

static void
print_totals (const Totals *totals)
{
  g_print ("\n%u instances, %u wrong.\n", totals->n_run, totals->n_wrong);
  g_print ("Proved within 1 s: %u of the %u asked for; within 10 s: %u of all.\n", totals->n_proved, totals->n_to_prove,
           totals->n_proved_late);
  if (totals->n_tsplib > 0)
    g_print ("TSPLIB: best known value within 1 s on %u of %u (17 of 21 asked for), mean gap %.2f %%"
             " (0.5 asked for).\n", totals->n_best, totals->n_tsplib, totals->gap_sum / totals->n_tsplib);
  g_print ("Came back at most %.1f ms after being cancelled.\n", totals->late);
}

guint
report_paths (const char *folder)
{
  Totals totals = { 0 };

  g_print ("Sequential ordering problem, processor seconds on one core. * known to be optimal.\n"
           "instance       nodes    best   value at                          proved    gap %% at              back\n"
           "                               0.05 s     1 s    10 s   bound        at s  0.05 s    1 s   10 s     ms\n");
  for (gsize i = 0; i < n_published; i++)
    {
      g_autofree char *name = g_strconcat (published[i].name, ".sop", NULL);
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (Sop) sop = sop_read (path, &error);
      Row row;

      if (sop == NULL)
        {
          g_print ("%-14s left out: %s\n", published[i].name, error->message);
          continue;
        }
      row = run_instance (&published[i], sop);
      print_row (&published[i], sop, &row);
      add_row (&totals, &published[i], &row);
    }
  print_totals (&totals);
  return totals.n_wrong;
}
