/* window-bench.c - how soon the window is there, what it takes, how soon it follows an edit, how its lists scroll
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The parent starts itself again and again, in turns as the real application with a project of 60 operations and as
 * the floor, a program with an empty GtkApplicationWindow. Both are drawn by GSK's cairo renderer, and both begin as a
 * person begins them: GTK opens its GL driver in the floor, as it does unless it is told not to, Handwheel has told it
 * (window/renderer.h), files are in the system's cache, and Handwheel has been started before. What the floor takes
 * without the driver is told as well.
 *
 * The first frame is the end of the first painting of the window. On it stand the header, the needle in the machine and
 * the next one, fabrics and threads, and the steps in their order as far as the window reaches, with seams, layers and
 * lengths, beside the projects of the room. What follows it, within the time that is told as “all in its place”: the
 * set-up of the chosen step and the steps below the window's edge.
 */

#include "config.h"

#include "files/folder.h"
#include "floor.h"
#include "window/application.h"
#include "window/window.h"

#include <glib/gstdio.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define SETTLE_MS 700
#define FRAME_LIMIT_MS 10000

/* ---- the child: one start ---- */

static double
get_resident_mb (void)
{
  g_autofree char *text = NULL;
  unsigned long resident = 0;

  if (!g_file_get_contents ("/proc/self/statm", &text, NULL, NULL) || sscanf (text, "%*u %lu", &resident) != 1)
    g_error ("the memory in use could not be read");
  return (double) resident * (double) sysconf (_SC_PAGESIZE) / 1e6;
}

static gboolean
settled_cb (gpointer data)
{
  g_print ("%.3f\n", get_resident_mb ());
  exit (0);
}

/* The main loop has nothing left to do. */
static gboolean
complete_cb (gpointer data)
{
  g_print ("%.3f ", floor_now_ms (CLOCK_MONOTONIC));
  g_timeout_add (SETTLE_MS, settled_cb, NULL);
  return G_SOURCE_REMOVE;
}

/* Says when it happened, on the clock that the parent reads, and what processor time it took. */
static void
painted_cb (GdkFrameClock *clock,
            gpointer       data)
{
  g_signal_handlers_disconnect_by_func (clock, painted_cb, data);
  g_print ("%.3f %.3f ", floor_now_ms (CLOCK_MONOTONIC), floor_now_ms (CLOCK_PROCESS_CPUTIME_ID));
  g_idle_add_full (G_PRIORITY_LOW, complete_cb, NULL, NULL);
}

static void
realized_cb (GtkWidget *window,
             gpointer   data)
{
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (painted_cb), NULL);
}

static void
window_added_cb (GtkApplication *application,
                 GtkWindow      *window,
                 gpointer        data)
{
  g_signal_connect_after (window, "realize", G_CALLBACK (realized_cb), NULL);
}

static void
activate_cb (GtkApplication *application,
             gpointer        data)
{
  GtkWidget *window = gtk_application_window_new (application);

  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 800);
  gtk_window_present (GTK_WINDOW (window));
}

static int
run_child (const char *project)
{
  char *arguments[] = { (char *) "window-bench", (char *) project, NULL };
  GApplication *application;

  setlocale (LC_ALL, "");
  if (project != NULL)
    {
      application = G_APPLICATION (hw_application_new ());
      hw_application_begin (HW_APPLICATION (application), 2, arguments);
    }
  else
    {
      application = G_APPLICATION (gtk_application_new ("org.example.Empty", G_APPLICATION_NON_UNIQUE));
      g_signal_connect (application, "activate", G_CALLBACK (activate_cb), NULL);
    }
  g_signal_connect (application, "window-added", G_CALLBACK (window_added_cb), NULL);
  return g_application_run (application, project != NULL ? 2 : 1, arguments);
}

/* ---- the parent: many starts ---- */

typedef struct
{
  double wall[FLOOR_RUNS], processor[FLOOR_RUNS], complete[FLOOR_RUNS], memory[FLOOR_RUNS];
} Starts;

static void
start_once (const char *self,
            const char *project,
            Starts     *starts,
            int         run)
{
  const char *argv[] = { self, project != NULL ? "--child" : "--empty", project, NULL };
  g_autoptr (GError) error = NULL;
  g_autofree char *out = NULL;
  double begun = floor_now_ms (CLOCK_MONOTONIC);
  double painted = 0;
  double complete = 0;

  if (!g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_STDERR_TO_DEV_NULL, NULL, NULL, &out, NULL, NULL, &error))
    g_error ("%s", error->message);
  if (sscanf (out, "%lf %lf %lf %lf", &painted, &starts->processor[run], &complete, &starts->memory[run]) != 4)
    g_error ("a start told nothing of itself: %s", out);
  starts->wall[run] = painted - begun;
  starts->complete[run] = complete - begun;
}

static void
bench_start (const char *self,
             const char *project)
{
  Starts ours;
  Starts empty;
  Starts bare;                           /* empty, and no GL driver */

  start_once (self, project, &ours, 0);                  /* files into the cache */
  for (int run = 0; run < FLOOR_RUNS; run++)
    {
      start_once (self, project, &ours, run);
      start_once (self, NULL, &empty, run);
      g_setenv ("GDK_DEBUG", "gl-disable", TRUE);
      start_once (self, NULL, &bare, run);
      g_setenv ("GDK_DEBUG", "", TRUE);
    }
  floor_report ("start to first frame", floor_median (ours.wall), "an empty GtkApplicationWindow",
                floor_median (empty.wall), "ms", 1.5);
  floor_report ("the same, processor time", floor_median (ours.processor), "the same", floor_median (empty.processor),
                "ms", 1.5);
  g_print ("%-44s %9.2f ms   %-38s %9.2f ms\n", "start to all in its place", floor_median (ours.complete), "the same",
           floor_median (empty.complete));
  floor_report ("memory after start", floor_median (ours.memory), "the same", floor_median (empty.memory), "MB", 1.3);
  g_print ("%-44s %9.2f ms   %-38s %9.2f ms   %5.2f\n", "start to first frame", floor_median (ours.wall),
           "the empty window without a GL driver", floor_median (bare.wall),
           floor_median (ours.wall) / floor_median (bare.wall));
  g_print ("%-44s %9.2f MB   %-38s %9.2f MB   %5.2f\n", "memory after start", floor_median (ours.memory), "the same",
           floor_median (bare.memory), floor_median (ours.memory) / floor_median (bare.memory));
}

#define N_PROJECTS 300

/* The same start in a room of one project and in one of many, in turns. */
static void
bench_many (const char *self,
            const char *room,
            const char *project)
{
  g_autofree char *many = g_dir_make_tmp ("window-bench-many-XXXXXX", NULL);
  g_autofree char *name = g_path_get_basename (project);
  g_autofree char *same = g_build_filename (many, "projects", name, NULL);
  g_autoptr (GError) error = NULL;
  Starts ours;
  Starts floor;

  if (!hw_room_create (many, &error))
    g_error ("%s", error->message);
  for (int i = 0; i < N_PROJECTS; i++)
    {
      g_autoptr (HwProject) copy = hw_project_read (project, &error);
      g_autofree char *path = i > 0 ? g_strdup_printf ("%s/projects/p%d.handwheel", many, i) : g_strdup (same);

      g_free (copy->id);
      copy->id = g_strdup_printf ("p%d", i);
      if (!hw_project_write (copy, path, &error))
        g_error ("%s", error->message);
    }
  for (int run = 0; run < FLOOR_RUNS; run++)
    {
      g_setenv ("HANDWHEEL_ROOM", many, TRUE);
      start_once (self, same, &ours, run);
      g_setenv ("HANDWHEEL_ROOM", room, TRUE);
      start_once (self, project, &floor, run);
    }
  floor_report ("start in a room of 300 projects", floor_median (ours.wall), "in one of a single project",
                floor_median (floor.wall), "ms", 1.2);
  hw_folder_remove (many);
}

/* ---- frames ---- */

static gboolean painted;

static void
frame_cb (GdkFrameClock *clock,
          gpointer       data)
{
  painted = TRUE;
}

static gboolean
give_up_cb (gpointer data)
{
  g_error ("nothing was painted within %d ms", FRAME_LIMIT_MS);
  return G_SOURCE_REMOVE;
}

static void
wait_for_frame (void)
{
  guint limit = g_timeout_add (FRAME_LIMIT_MS, give_up_cb, NULL);

  for (painted = FALSE; !painted;)
    g_main_context_iteration (NULL, TRUE);
  g_source_remove (limit);
}

/* Whatever is still being brought up to date. */
static void
rest (double ms)
{
  double end = floor_now_ms (CLOCK_MONOTONIC) + ms;

  while (floor_now_ms (CLOCK_MONOTONIC) < end)
    g_main_context_iteration (NULL, FALSE);
}

static GtkWidget *
show_window (HwWorkspace *workspace,
             const char  *page)
{
  GtkWidget *window = hw_window_new (NULL, workspace);

  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 800);
  gtk_window_present (GTK_WINDOW (window));
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (frame_cb), NULL);
  wait_for_frame ();
  hw_window_show_page (HW_WINDOW (window), page);
  rest (SETTLE_MS);
  return window;
}

/* ---- one edit ---- */

static const HwStep *
find_operation (const HwProject *project,
                int              n)
{
  gsize at = 0;

  while (hw_project_get_step (project, at)->kind != HW_STEP_OPERATION || n-- > 0)
    at++;
  return hw_project_get_step (project, at);
}

typedef struct { double processor, wall; } Times;

/* From the edit to the end of the frame that shows it. Processor time is the main thread's: what else the computer does
 * makes it no longer. The clock on the wall counts the disk as well, on which the project stands before it is shown. */
static Times
edit_once (HwWorkspace *workspace,
           HwWindow    *window,
           int          run)
{
  const HwProject *project = hw_workspace_peek_project (workspace);
  HwStep *step = hw_step_copy (find_operation (project, run));
  GError *error = NULL;
  HwProject *next;
  Times begun;

  step->length_cm += 1;
  begun = (Times) { floor_now_ms (CLOCK_THREAD_CPUTIME_ID), floor_now_ms (CLOCK_MONOTONIC) };
  next = hw_edit_put_step (project, step, &error);
  hw_step_unref (step);
  if (!hw_workspace_edit (workspace, next, "Length", NULL, error))
    g_error ("the edit was refused: %s", hw_window_peek_message (window));
  wait_for_frame ();
  return (Times) { floor_now_ms (CLOCK_THREAD_CPUTIME_ID) - begun.processor,
                   floor_now_ms (CLOCK_MONOTONIC) - begun.wall };
}

static void
bench_edit (const char *data,
            const char *room,
            const char *project)
{
  static const char * const pages[] = { "making-up", "order" };
  g_autoptr (GError) error = NULL;
  g_autoptr (HwWorkspace) workspace = hw_workspace_new (data, room, &error);

  if (workspace == NULL || !hw_workspace_open (workspace, project, &error))
    g_error ("%s", error->message);
  for (gsize page = 0; page < G_N_ELEMENTS (pages); page++)
    {
      GtkWidget *window = show_window (workspace, pages[page]);
      g_autofree char *what = g_strdup_printf ("edit to repainted window, 200 operations: %s", pages[page]);
      double runs[FLOOR_RUNS];
      double wall[FLOOR_RUNS];

      for (int run = 0; run < FLOOR_RUNS; run++)
        {
          Times times = edit_once (workspace, HW_WINDOW (window), run);

          runs[run] = times.processor;
          wall[run] = times.wall;
          rest (SETTLE_MS);
        }
      floor_report (what, floor_median (runs), "a 60 Hz frame", FRAME_MS, "ms", 1);
      g_print ("%-44s %9.2f ms\n", "the same by the clock, the disk and the wait for a frame in it",
               floor_median (wall));
      gtk_window_destroy (GTK_WINDOW (window));
    }
}

/* ---- scrolling ---- */

/* (transfer none): the adjustment of the list that is longest */
static GtkAdjustment *
find_scroll (GtkWidget *widget)
{
  GtkAdjustment *best = NULL;

  if (GTK_IS_SCROLLED_WINDOW (widget) && gtk_widget_get_mapped (widget))
    best = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (widget));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkAdjustment *found = find_scroll (child);

      if (found != NULL && (best == NULL || gtk_adjustment_get_upper (found) > gtk_adjustment_get_upper (best)))
        best = found;
    }
  return best;
}

/* Processor time of one frame while the list moves by half a page a frame. */
static double
scroll (GtkWidget *window)
{
  GtkAdjustment *adjustment = find_scroll (window);
  double runs[FLOOR_RUNS];

  for (int run = 0; run < FLOOR_RUNS; run++)
    {
      double begun = floor_now_ms (CLOCK_THREAD_CPUTIME_ID);

      gtk_adjustment_set_value (adjustment, gtk_adjustment_get_value (adjustment)
                                            + gtk_adjustment_get_page_size (adjustment) / 2);
      wait_for_frame ();
      runs[run] = floor_now_ms (CLOCK_THREAD_CPUTIME_ID) - begun;
    }
  return floor_median (runs);
}

static void
write_journal (const char *room,
               int         n)
{
  g_autoptr (GString) xml = g_string_new ("<journal xmlns=\"" HW_ROOM_NS "\" machine=\"lockstitch\">\n");
  g_autofree char *path = g_build_filename (room, "journal", "lockstitch-2031.xml", NULL);

  for (int i = 0; i < n; i++)
    g_string_append_printf (xml, "  <sewing id=\"e%d\" time=\"2031-%02d-%02dT%02d:%02d:00Z\" minutes=\"6\"/>\n", i,
                            1 + i / 840 % 12, 1 + i / 30 % 28, i % 30 / 2 + 6, i % 2 * 30);
  g_string_append (xml, "</journal>\n");
  if (!g_file_set_contents (path, xml->str, (gssize) xml->len, NULL))
    g_error ("%s could not be written", path);
}

static double
scroll_journal (const char *data,
                const char *room,
                int         n)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwWorkspace) workspace = NULL;
  GtkWidget *window;
  double ms;

  write_journal (room, n);
  workspace = hw_workspace_new (data, room, &error);
  if (workspace == NULL)
    g_error ("%s", error->message);
  window = show_window (workspace, "journal");
  ms = scroll (window);
  gtk_window_destroy (GTK_WINDOW (window));
  return ms;
}

/* GTK keeps the rows of 200 items: a list of 100 never fills a row again while it scrolls, one of 1,000 does as one of
 * 10,000 must, and is the floor. What the short list takes is told as well. By turns, each time in a new window; the
 * first one fills caches. */
static void
bench_scroll (const char *data,
              const char *room)
{
  double many[FLOOR_RUNS];
  double floor[FLOOR_RUNS];
  double few[FLOOR_RUNS];

  scroll_journal (data, room, 1000);
  for (int run = 0; run < FLOOR_RUNS; run++)
    {
      many[run] = scroll_journal (data, room, 10000);
      floor[run] = scroll_journal (data, room, 1000);
      few[run] = scroll_journal (data, room, 100);
    }
  floor_report ("scrolling 10,000 journal entries, a frame", floor_median (many), "1,000 entries",
                floor_median (floor), "ms", 1.2);
  g_print ("%-44s %9.2f ms   %-38s %9.2f ms   %5.2f\n", "the same", floor_median (many),
           "100 entries, no row filled again", floor_median (few), floor_median (many) / floor_median (few));
}

/* ---- what they work on ---- */

/* Copies of the garment's steps until there are @n_operations, each copy after itself alone. */
static char *
write_project (const char *room,
               guint       n_operations)
{
  g_autofree char *garment = g_build_filename (SOURCE_FOLDER, "tests", "plan", "garments", "jeans.handwheel", NULL);
  g_autofree char *name = g_strdup_printf ("long-%u.handwheel", n_operations);
  char *path = g_build_filename (room, "projects", name, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = hw_project_read (garment, &error);
  guint n_steps = project != NULL ? project->steps->len : 0;
  guint n = 0;

  for (guint i = 0; i < n_steps; i++)
    n += hw_project_get_step (project, i)->kind == HW_STEP_OPERATION ? 1 : 0;
  for (guint i = 0; n_steps > 0 && n < n_operations; i++)
    {
      HwStep *copy = hw_step_copy (hw_project_get_step (project, i % n_steps));

      g_free (copy->number);
      copy->number = g_strdup_printf ("%u", 1000 + i);
      g_strfreev (copy->after);
      copy->after = g_new0 (char *, 1);
      n += copy->kind == HW_STEP_OPERATION ? 1 : 0;
      g_ptr_array_add (project->steps, copy);
    }
  if (project == NULL || !hw_project_write (project, path, &error))
    g_error ("%s", error->message);
  return path;
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
  const char *data = g_getenv ("HANDWHEEL_DATA_DIR");
  g_autofree char *room = NULL;
  g_autofree char *sixty = NULL;
  g_autofree char *two_hundred = NULL;
  g_autoptr (GError) error = NULL;

  if (argc >= 2 && g_str_has_prefix (argv[1], "--"))
    return run_child (argc == 3 ? argv[2] : NULL);
  room = g_dir_make_tmp ("window-bench-XXXXXX", NULL);
  g_setenv ("HANDWHEEL_ROOM", room, TRUE);
  if (!hw_room_create (room, &error))
    g_error ("%s", error->message);
  sixty = write_project (room, 60);
  if (is_wanted (argv, "start"))
    {
      bench_start (argv[0], sixty);
      bench_many (argv[0], room, sixty);
    }
  two_hundred = write_project (room, 200);
  gtk_init ();
  if (is_wanted (argv, "edit"))
    bench_edit (data, room, two_hundred);
  if (is_wanted (argv, "scroll"))
    bench_scroll (data, room);
  hw_folder_remove (room);
  return floor_status ();
}
