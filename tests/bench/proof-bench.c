/* proof-bench.c - how long the proof of an order takes that the window has made off its main thread
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Over the demo, the tests' garments, the handbook's, and a hundred projects drawn from their steps. There is no limit:
 * the proof is anytime, and what is shown until it comes is told as not yet proved.
 */

#include "config.h"

#include "floor.h"
#include "model/garment-project.h"
#include "plan/plan.h"

#include <stdlib.h>

#define N_DRAWN 100
#define SEED 20310

typedef struct { GArray *ms; guint n_proved; double longest_ms; char *longest; } Times;

/* ---- projects ---- */

static void
add_folder (GPtrArray  *projects,
            const char *folder)
{
  g_autofree char    *path = g_build_filename (SOURCE_FOLDER, folder, NULL);
  g_autoptr (GDir)    dir = g_dir_open (path, 0, NULL);
  g_autoptr (GError)  error = NULL;
  const char         *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *file = g_build_filename (path, name, NULL);
      HwProject       *project = g_str_has_suffix (name, ".handwheel") ? hw_project_read (file, &error) : NULL;

      if (error != NULL)
        g_error ("%s", error->message);
      if (project != NULL)
        g_ptr_array_add (projects, project);
    }
}

static void
add_garments (GPtrArray        *projects,
              const HwHandbook *handbook)
{
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < handbook->n_garments; i++)
    {
      HwProject *project = hw_garment_make (handbook, &handbook->garments[i], NULL, NULL, NULL, "garment", &error);

      if (project == NULL)
        g_error ("%s", error->message);
      g_ptr_array_add (projects, project);
    }
}

/* 8 to 60 of @from's steps, any of them again, each after none, one or two that stand before it. */
static HwProject *
draw_project (const HwProject *from,
              GRand           *rand)
{
  HwProject *project = hw_project_new ("drawn", from->title);
  int        n = g_rand_int_range (rand, 8, 61);

  g_ptr_array_set_size (project->threads, 0);
  for (guint i = 0; i < from->fabrics->len; i++)
    g_ptr_array_add (project->fabrics, hw_project_fabric_ref (from->fabrics->pdata[i]));
  for (guint i = 0; i < from->threads->len; i++)
    g_ptr_array_add (project->threads, hw_project_thread_ref (from->threads->pdata[i]));
  for (int i = 0; i < n; i++)
    {
      HwStep *step = hw_step_copy (hw_project_get_step (from, (gsize) g_rand_int_range (rand, 0,
                                                                                        (int) from->steps->len)));
      int     n_after = MIN (g_rand_int_range (rand, 0, 3), i);

      g_free (step->number);
      step->number = g_strdup_printf ("%d", i + 1);
      g_strfreev (step->after);
      step->after = g_new0 (char *, (gsize) n_after + 1);
      for (int j = 0; j < n_after; j++)
        step->after[j] = g_strdup_printf ("%d", j == 0 ? g_rand_int_range (rand, 1, i + 1) : i);
      if (n_after == 2 && g_str_equal (step->after[0], step->after[1]))
        g_clear_pointer (&step->after[1], g_free);
      g_ptr_array_add (project->steps, step);
    }
  return project;
}

/* ---- the measure ---- */

static void
prove (Times            *times,
       const HwHandbook *handbook,
       const HwProject  *project,
       const HwRoom     *room)
{
  g_autoptr (GError) error = NULL;
  double             begun = floor_now_ms (CLOCK_PROCESS_CPUTIME_ID);
  g_autoptr (HwPlan) plan = hw_plan_new_within (handbook, project, room, HW_PLAN_PROOF_STATES, &error);
  double             ms = floor_now_ms (CLOCK_PROCESS_CPUTIME_ID) - begun;

  if (plan == NULL)
    g_error ("%s: %s", project->title, error->message);
  g_array_append_val (times->ms, ms);
  times->n_proved += plan->proved ? 1 : 0;
  if (ms <= times->longest_ms)
    return;
  times->longest_ms = ms;
  g_free (times->longest);
  times->longest = g_strdup_printf ("%s, %u steps", project->title, project->steps->len);
}

static int
compare (gconstpointer a,
         gconstpointer b)
{
  double first = *(const double *) a;
  double second = *(const double *) b;

  return (first > second) - (first < second);
}

static void
report (Times      *times,
        const char *what)
{
  const double *ms = (const double *) (const void *) times->ms->data;
  guint         n = times->ms->len;

  g_array_sort (times->ms, compare);
  g_print ("%s: %u of %u proved, median %.2f ms, 95 %% %.2f ms, worst %.2f ms (%s)\n", what, times->n_proved, n,
           ms[n / 2], ms[n * 95 / 100], ms[n - 1], times->longest);
  g_array_unref (times->ms);
  g_free (times->longest);
}

int
main (void)
{
  g_autofree char       *folder = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "handbook", NULL);
  g_autoptr (GError)     error = NULL;
  g_autoptr (HwHandbook) handbook = hw_handbook_load (folder, &error);
  g_autoptr (HwRoom)     room = hw_room_new_default ("/nowhere");
  g_autoptr (GPtrArray)  projects = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_project_unref);
  g_autoptr (GRand)      rand = g_rand_new_with_seed (SEED);
  Times                  garments = { g_array_new (FALSE, FALSE, sizeof (double)), 0, 0, NULL };
  Times                  drawn = { g_array_new (FALSE, FALSE, sizeof (double)), 0, 0, NULL };

  if (handbook == NULL)
    g_error ("%s", error->message);
  add_folder (projects, "data/demo/projects");
  add_folder (projects, "tests/plan/garments");
  add_folder (projects, "tests/plan/garments/far");
  add_garments (projects, handbook);
  for (guint i = 0; i < projects->len; i++)
    prove (&garments, handbook, projects->pdata[i], room);
  report (&garments, "proof of the order, garments");
  for (int i = 0; i < N_DRAWN; i++)
    {
      guint                 from = (guint) g_rand_int_range (rand, 0, (int) projects->len);
      g_autoptr (HwProject) project = draw_project (projects->pdata[from], rand);

      prove (&drawn, handbook, project, room);
    }
  report (&drawn, "proof of the order, drawn");
  return 0;
}
