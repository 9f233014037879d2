/* speed-bench.c - what must be quick, each as a ratio to a floor measured in the same run
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Medians of nine runs, ours and the floor's in turns; processor time but where the disk is waited for. What is not
 * within its limit makes the benchmark fail, never a test: a computer may be busy.
 */

#include "config.h"

#include "files/save.h"
#include "floor.h"
#include "model/room.h"
#include "plan/plan.h"

#include <fcntl.h>
#include <glib/gstdio.h>
#include <libxml/parser.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

#define N_MACHINES 20
#define N_ENTRIES 100000

typedef double (* Measure) (gconstpointer data);        /* milliseconds of one run */

static double
take_median (Measure       measure,
             gconstpointer data)
{
  double runs[FLOOR_RUNS];

  for (int i = 0; i < FLOOR_RUNS; i++)
    runs[i] = measure (data);
  return floor_median (runs);
}

/* In turns, so that what else the computer and its disk do meets both. */
static void
take_medians (Measure       measure,
              gconstpointer data,
              Measure       measure_floor,
              gconstpointer floor_data,
              double       *ours,
              double       *floor)
{
  double runs[FLOOR_RUNS];
  double floor_runs[FLOOR_RUNS];

  for (int i = 0; i < FLOOR_RUNS; i++)
    {
      runs[i] = measure (data);
      floor_runs[i] = measure_floor (floor_data);
    }
  *ours = floor_median (runs);
  *floor = floor_median (floor_runs);
}

/* ---- processes ---- */

static double
children_ms (void)
{
  struct rusage usage;

  getrusage (RUSAGE_CHILDREN, &usage);
  return (double) (usage.ru_utime.tv_sec + usage.ru_stime.tv_sec) * 1e3
         + (double) (usage.ru_utime.tv_usec + usage.ru_stime.tv_usec) / 1e3;
}

static double
run_process (gconstpointer argv)
{
  double start = children_ms ();
  g_autoptr (GError) error = NULL;
  int status = 0;

  if (!g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL
                     | G_SPAWN_STDERR_TO_DEV_NULL, NULL, NULL, NULL, NULL, &status, &error)
      || !g_spawn_check_wait_status (status, &error))
    g_error ("%s: %s", ((char **) argv)[0], error->message);
  return children_ms () - start;
}

/* (transfer full): xmllint --noout --relaxng RNG FILE… */
static char **
make_xmllint (const char *folder)
{
  g_autoptr (GStrvBuilder) argv = g_strv_builder_new ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autofree char *schema = g_build_filename (folder, "handbook.rng", NULL);
  const char *name;

  g_strv_builder_add_many (argv, "xmllint", "--noout", "--relaxng", schema, NULL);
  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".xml"))
      {
        g_autofree char *path = g_build_filename (folder, name, NULL);
        g_strv_builder_add (argv, path);
      }
  return g_strv_builder_end (argv);
}

static void
bench_handbook (const char *self,
                const char *folder)
{
  const char *load[] = { self, "--load", NULL };
  g_auto (GStrv) xmllint = make_xmllint (folder);
  double ours, floor;

  take_medians (run_process, load, run_process, xmllint, &ours, &floor);
  floor_report ("handbook: load and validate, a process", ours, "xmllint --relaxng of the same", floor, "ms", 1.5);
}

/* ---- the sewing room ---- */

static char *
make_journal (const char *machine,
              int         n)
{
  g_autoptr (GString) xml = g_string_new (NULL);

  g_string_append_printf (xml, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<journal xmlns=\"" HW_ROOM_NS
                          "\" machine=\"%s\">\n", machine);
  for (int i = 0; i < n; i++)
    g_string_append_printf (xml, "  <sewing id=\"%s-%d\" time=\"2031-%02d-%02dT%02d:%02d:00Z\" project=\"p%d\" "
                            "step=\"%d\" purpose=\"seam\" planned=\"5\" minutes=\"6\" running=\"2\"/>\n", machine, i,
                            i / 28 % 12 + 1, i % 28 + 1, i / 336 % 24, i % 60, i % 300, i % 40);
  g_string_append (xml, "</journal>\n");
  return g_string_free (g_steal_pointer (&xml), FALSE);
}

/* (transfer full): a folder with many machines and a long journal */
static char *
make_room (void)
{
  char *folder = g_dir_make_tmp ("speed-room-XXXXXX", NULL);
  g_autoptr (GError) error = NULL;

  if (!hw_room_create (folder, &error))
    g_error ("%s", error->message);
  for (int i = 0; i < N_MACHINES; i++)
    {
      g_autoptr (HwRoom) room = hw_room_open (folder, &error);
      g_autofree char *id = g_strdup_printf ("m%02d", i);
      g_autoptr (HwMachine) machine = hw_machine_copy (hw_room_find_machine (room, "lockstitch"));
      g_autoptr (HwRoom) next = NULL;
      g_autofree char *xml = make_journal (id, N_ENTRIES / N_MACHINES);
      g_autofree char *name = g_strdup_printf ("%s-2031.xml", id);
      g_autofree char *path = g_build_filename (folder, "journal", name, NULL);

      g_free (machine->id);
      machine->id = g_strdup (id);
      next = hw_room_with_machine (room, machine, &error);
      if (next == NULL || !g_file_set_contents (path, xml, -1, &error))
        g_error ("%s", error->message);
    }
  return folder;
}

static double
open_room (gconstpointer folder)
{
  double start = floor_now_ms (CLOCK_PROCESS_CPUTIME_ID);
  g_autoptr (GError) error = NULL;
  HwRoom *room = hw_room_open (folder, &error);

  if (room == NULL)
    g_error ("%s", error->message);
  hw_room_unref (room);
  return floor_now_ms (CLOCK_PROCESS_CPUTIME_ID) - start;
}

static void
parse_tree (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        parse_tree (path);
      else if (g_str_has_suffix (name, ".xml"))
        xmlFreeDoc (xmlReadFile (path, NULL, XML_PARSE_NONET));
    }
}

static double
parse_room (gconstpointer folder)
{
  double start = floor_now_ms (CLOCK_PROCESS_CPUTIME_ID);

  parse_tree (folder);
  return floor_now_ms (CLOCK_PROCESS_CPUTIME_ID) - start;
}

static double
append_entry (gconstpointer room)
{
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_SEWING, "m07");
  g_autoptr (GError) error = NULL;
  double start;
  HwRoom *next;

  entry->minutes = 12;
  g_free (entry->time);
  entry->time = g_strdup ("2031-12-30T10:00:00Z");
  start = floor_now_ms (CLOCK_MONOTONIC);
  next = hw_room_append (room, entry, &error);
  start = floor_now_ms (CLOCK_MONOTONIC) - start;
  if (next == NULL)
    g_error ("%s", error->message);
  hw_room_unref (next);
  return start;
}

static void
write_durably (const char *path,
               const char *data,
               gsize       size)
{
  g_autofree char *temporary = g_strconcat (path, ".new", NULL);
  g_autofree char *folder = g_path_get_dirname (path);
  int fd = g_open (temporary, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);

  if (fd < 0 || write (fd, data, size) != (gssize) size || fsync (fd) != 0)
    g_error ("%s could not be written", temporary);
  close (fd);
  if (g_rename (temporary, path) != 0)
    g_error ("%s could not be renamed", temporary);
  fd = g_open (folder, O_RDONLY | O_CLOEXEC, 0);
  if (fd < 0 || fsync (fd) != 0)
    g_error ("%s could not be brought to the disk", folder);
  close (fd);
}

/* Parse the file that is touched and write it as durably. */
static double
parse_and_write (gconstpointer folder)
{
  g_autofree char *path = g_build_filename (folder, "journal", "m07-2031.xml", NULL);
  g_autofree char *data = NULL;
  gsize size = 0;
  double start = floor_now_ms (CLOCK_MONOTONIC);

  if (!g_file_get_contents (path, &data, &size, NULL))
    g_error ("%s could not be read", path);
  xmlFreeDoc (xmlReadMemory (data, (int) size, path, NULL, XML_PARSE_NONET));
  write_durably (path, data, size);
  return floor_now_ms (CLOCK_MONOTONIC) - start;
}

static void
remove_tree (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        remove_tree (path);
      else
        g_unlink (path);
    }
  g_rmdir (folder);
}

static void
bench_room (void)
{
  g_autofree char *folder = make_room ();
  g_autoptr (HwRoom) room = NULL;
  double ours, floor;

  take_medians (open_room, folder, parse_room, folder, &ours, &floor);
  floor_report ("room: open, 20 machines, 100,000 entries", ours, "DOM parse of the same bytes", floor, "ms", 1);
  room = hw_room_open (folder, NULL);
  take_medians (append_entry, room, parse_and_write, folder, &ours, &floor);
  floor_report ("room: one more session logged", ours, "parse, write, sync of that file", floor, "ms", 1.5);
  remove_tree (folder);
}

/* ---- the plan ---- */

typedef struct
{
  HwHandbook *handbook;
  HwProject  *project;
  HwRoom     *room;
} Work;

/* Copies of the garment's steps until there are @n_operations, each copy after itself alone. */
static HwProject *
make_project (const char *garment,
              guint       n_operations)
{
  g_autoptr (GError) error = NULL;
  HwProject *project = hw_project_read (garment, &error);
  guint n_steps;
  guint n = 0;

  if (project == NULL)
    g_error ("%s", error->message);
  n_steps = project->steps->len;
  for (guint i = 0; i < n_steps; i++)
    n += hw_project_get_step (project, i)->kind == HW_STEP_OPERATION;
  for (guint i = 0; n < n_operations; i++)
    {
      HwStep *copy = hw_step_copy (hw_project_get_step (project, i % n_steps));

      g_free (copy->number);
      copy->number = g_strdup_printf ("%s.%u", hw_project_get_step (project, i % n_steps)->number, i / n_steps);
      for (char **after = copy->after; *after != NULL; after++)
        {
          char *other = g_strdup_printf ("%s.%u", *after, i / n_steps);

          g_free (*after);
          *after = other;
        }
      n += copy->kind == HW_STEP_OPERATION;
      g_ptr_array_add (project->steps, copy);
    }
  return project;
}

static double
plan_once (gconstpointer data)
{
  const Work *work = data;
  double start = floor_now_ms (CLOCK_PROCESS_CPUTIME_ID);
  g_autoptr (GError) error = NULL;
  HwPlan *plan = hw_plan_new (work->handbook, work->project, work->room, &error);

  if (plan == NULL)
    g_error ("%s", error->message);
  hw_plan_unref (plan);
  return floor_now_ms (CLOCK_PROCESS_CPUTIME_ID) - start;
}

static void
bench_plan (const char *garment,
            const char *handbook)
{
  static const guint sizes[] = { 10, 100, 1000, 10000 };
  g_autoptr (GError) error = NULL;
  Work work = { hw_handbook_load (handbook, &error), NULL, hw_room_new_default ("/nowhere") };

  if (work.handbook == NULL)
    g_error ("%s", error->message);
  work.project = make_project (garment, 60);
  floor_report ("plan: an edit of a 60-operation project", take_median (plan_once, &work), "a 60 Hz frame", FRAME_MS,
                "ms", 0.25);
  hw_project_unref (work.project);
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      work.project = make_project (garment, sizes[i]);
      g_print ("plan: %5u operations %12.2f ms\n", sizes[i], plan_once (&work));
      hw_project_unref (work.project);
    }
  hw_room_unref (work.room);
  hw_handbook_unref (work.handbook);
}

static void
bench_pairing (const char *garment,
               const char *handbook)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwHandbook) book = hw_handbook_load (handbook, &error);
  g_autoptr (HwRoom) room = hw_room_new_default ("/nowhere");
  g_autoptr (HwProject) project = make_project (garment, 1);
  g_autoptr (GArray) cloths = hw_cloths_resolve (book, project, &error);
  double start = floor_now_ms (CLOCK_PROCESS_CPUTIME_ID);
  int n = 0;

  for (int round = 0; round < 2000; round++)
    for (guint i = 0; i < project->steps->len; i++)
      {
        const HwStep *step = hw_project_get_step (project, i);

        if (step->kind != HW_STEP_OPERATION)
          continue;
        hw_setup_free (hw_pair (book, project, cloths, room, step, &error));
        n++;
      }
  floor_report_rate ("pairing: operations a second", n / (floor_now_ms (CLOCK_PROCESS_CPUTIME_ID) - start) * 1000,
                     200000);
}

/* All parts, or those that are named. */
static gboolean
is_wanted (char       **argv,
           const char  *part)
{
  return argv[1] == NULL || g_strv_contains ((const char * const *) argv + 1, part);
}

int
main (int    argc,
      char **argv)
{
  g_autofree char *handbook = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "handbook", NULL);
  g_autofree char *garment = g_build_filename (SOURCE_FOLDER, "tests", "plan", "garments", "jeans.handwheel", NULL);

  if (argc == 2 && strcmp (argv[1], "--load") == 0)
    {
      hw_handbook_unref (hw_handbook_load (handbook, NULL));
      return 0;
    }
  if (is_wanted (argv, "handbook"))
    bench_handbook (argv[0], handbook);
  if (is_wanted (argv, "room"))
    bench_room ();
  if (is_wanted (argv, "pairing"))
    bench_pairing (garment, handbook);
  if (is_wanted (argv, "plan"))
    bench_plan (garment, handbook);
  return floor_status ();
}
