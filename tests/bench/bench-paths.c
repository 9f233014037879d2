/* bench-paths.c - the general order solver on published instances of the sequential ordering problem
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Values: "best known solutions as of 13.01.2016" in src/sop_instance.cpp of
 * github.com/RSkinderowicz/AntColonySystemSA, commit 7662189e, which cites L. M. Gambardella, R. Montemanni and
 * D. Weyland, EJOR 220 (2012) and L. Gouveia and M. Ruthmair, Computers & Operations Research 53 (2015); but ESC78, a
 * typing error there, by a second public table and our own order. Files: TSPLIB95 (G. Reinelt, ORSA Journal on
 * Computing 3, 1991) from github.com/rhgrant10/tsplib95, archives/problems/sop; SOPLIB2006 from
 * github.com/jacobnormington/PSOP_Solver, soplib. They are not kept here.
 */

#include "config.h"

#include "deadline.h"
#include "reports.h"
#include "sop.h"

#define MAX_BYTES ((gsize) 1 << 30)

typedef struct
{
  const char *name;
  int         value;        /* best known */
  gboolean    optimal;      /* listed as a single number, or proved: nothing less can be */
  gboolean    prove;        /* to be proved within a second */
} Instance;

static const Instance instances[] = {
  { "br17.10", 55, TRUE, TRUE },        { "ESC07", 2125, TRUE, TRUE },
  { "ESC12", 1675, TRUE, TRUE },        { "ESC25", 1681, TRUE, TRUE },
  { "ESC78", 18230, TRUE, FALSE },      { "ft53.1", 7531, TRUE, FALSE },
  { "ft53.3", 10262, TRUE, FALSE },     { "ft70.1", 39313, TRUE, FALSE },
  { "ft70.3", 42535, TRUE, FALSE },     { "kro124p.1", 39420, FALSE, FALSE },
  { "kro124p.3", 49499, FALSE, FALSE }, { "p43.1", 28140, TRUE, FALSE },
  { "p43.4", 83005, TRUE, TRUE },       { "prob.42", 243, TRUE, FALSE },
  { "rbg048a", 351, TRUE, FALSE },      { "rbg109a", 1038, TRUE, TRUE },
  { "rbg174a", 2033, TRUE, TRUE },      { "rbg253a", 2950, FALSE, FALSE },
  { "rbg358a", 2545, FALSE, FALSE },    { "ry48p.1", 15805, TRUE, FALSE },
  { "ry48p.4", 31446, TRUE, TRUE },     { "R.200.100.1", 61, FALSE, FALSE },
  { "R.200.100.30", 4216, TRUE, TRUE }, { "R.200.1000.15", 20481, TRUE, FALSE },
  { "R.200.1000.60", 71556, TRUE, TRUE }, { "R.300.100.30", 6120, TRUE, TRUE },
  { "R.300.1000.60", 109471, TRUE, TRUE }, { "R.500.100.60", 18240, TRUE, TRUE },
};

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
check_result (const Instance *instance, const Sop *sop, const HwOrderResult *result)
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
run_instance (const Instance *instance, const Sop *sop)
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
gap_of (const Instance *instance, int value)
{
  return 100.0 * (value - instance->value) / instance->value;
}

static void
print_row (const Instance *instance, const Sop *sop, const Row *row)
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
add_row (Totals *totals, const Instance *instance, const Row *row)
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
  for (gsize i = 0; i < G_N_ELEMENTS (instances); i++)
    {
      g_autofree char *name = g_strconcat (instances[i].name, ".sop", NULL);
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (Sop) sop = sop_read (path, &error);
      Row row;

      if (sop == NULL)
        {
          g_print ("%-14s left out: %s\n", instances[i].name, error->message);
          continue;
        }
      row = run_instance (&instances[i], sop);
      print_row (&instances[i], sop, &row);
      add_row (&totals, &instances[i], &row);
    }
  print_totals (&totals);
  return totals.n_wrong;
}
