/* order-bench.c - how good and how quick the order solvers are
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 *   order-bench FILE [--seconds=S] [--states=N] [--kicks=N]   one instance of the sequential ordering problem,
 *                                                             TSPLIB .sop or the bare table of SOPLIB
 *   order-bench --paths | --graphs | --projects               a report, as `meson test --benchmark` runs it
 */

#include "config.h"

#include "deadline.h"
#include "published.h"
#include "reports.h"
#include "sop.h"

#include <stdlib.h>

static char *
find_data (const char *name)
{
  char *path = published_folder (name);

  if (path == NULL)
    g_print ("Skipped: %s\n", PUBLISHED_NONE);
  return path;
}

static int
run_file (const char *path, double seconds, guint max_states, guint max_kicks)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Sop) sop = sop_read (path, &error);
  HwPathProblem problem;
  Deadline deadline;
  HwOrderLimits limits = { max_states, (gsize) 1 << 30, max_kicks, &deadline.cancelled };
  g_autoptr (HwOrderResult) result = NULL;
  double late;

  if (sop == NULL)
    {
      g_printerr ("%s\n", error->message);
      return EXIT_FAILURE;
    }
  problem = sop_problem (sop);
  deadline_start (&deadline, seconds);
  result = hw_order_path_solve (&problem, &limits);
  seconds = deadline_stop (&deadline, &late);
  if (result == NULL)
    {
      g_printerr ("%s: its arrows run in a circle\n", path);
      return EXIT_FAILURE;
    }
  g_print ("value %d\nbound %d\n%s\nstates %u\nseconds %.3f\n", result->cost, result->bound,
           result->proved ? "proved" : "open", result->n_states, seconds);
  if (result->order == NULL)
    return EXIT_SUCCESS;
  g_print ("order");
  for (gsize i = 0; i < result->n_operations; i++)
    g_print (" %d", result->order[i]);
  g_print ("\n");
  return sop_check (sop, result->order) == result->cost ? EXIT_SUCCESS : EXIT_FAILURE;
}

static guint
run_reports (gboolean paths, gboolean graphs, gboolean projects)
{
  guint n_wrong = 0;

  if (paths)
    {
      g_autofree char *folder = find_data ("sop");

      n_wrong += folder != NULL ? report_paths (folder) : 0;
    }
  if (graphs)
    {
      g_autofree char *folder = find_data ("precedence");

      n_wrong += folder != NULL ? report_graphs (folder) : 0;
    }
  if (projects)
    n_wrong += report_projects ();
  return n_wrong;
}

int
main (int argc, char *argv[])
{
  gboolean paths = FALSE, graphs = FALSE, projects = FALSE;
  double seconds = 1;
  gint64 max_states = G_MAXUINT32 / 2, max_kicks = G_MAXUINT32;
  GOptionEntry entries[] = {
    { "seconds", 0, 0, G_OPTION_ARG_DOUBLE, &seconds, "Processor time for FILE", "S" },
    { "states", 0, 0, G_OPTION_ARG_INT64, &max_states, "States of the proof", "N" },
    { "kicks", 0, 0, G_OPTION_ARG_INT64, &max_kicks, "Kicks of the local search", "N" },
    { "paths", 0, 0, G_OPTION_ARG_NONE, &paths, "All published instances", NULL },
    { "graphs", 0, 0, G_OPTION_ARG_NONE, &graphs, "Published precedence graphs", NULL },
    { "projects", 0, 0, G_OPTION_ARG_NONE, &projects, "Projects drawn", NULL },
    { NULL }
  };
  g_autoptr (GOptionContext) context = g_option_context_new ("[FILE]");
  g_autoptr (GError) error = NULL;

  g_option_context_add_main_entries (context, entries, NULL);
  if (!g_option_context_parse (context, &argc, &argv, &error))
    {
      g_printerr ("%s\n", error->message);
      return EXIT_FAILURE;
    }
  if (argc == 2)
    return run_file (argv[1], seconds, (guint) CLAMP (max_states, 0, G_MAXUINT32),
                     (guint) CLAMP (max_kicks, 0, G_MAXUINT32));
  return run_reports (paths, graphs, projects) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
