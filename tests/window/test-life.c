/* test-life.c - the whole life of a set-up in the real window: planned, loaded, sewn, worn, cared for, mended, learned
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * After each stage the window, the journal's files and the command line say the same.
 */

#include <string.h>

#include <gdk/gdkkeysyms.h>

#include "record.h"

#define LOADED_TWICE (G_USEC_PER_SEC + G_USEC_PER_SEC / 5)       /* a press at once would be taken for a double one */
#define MACHINE "lockstitch"
#define MACHINE_NAME "Lockstitch machine"
#define PROJECT "Straight skirt"
#define DUST "Dust under the needle plate"
#define NEEDLE "Change the needle"

static void
press (Node       *root,
       AtspiRole   role,
       const char *name)
{
  g_autoptr (Node) node = bus_find (root, role, name);

  bus_press (node);
}

typedef struct
{
  Node       *root;
  const char *name;
  Node       *found;
} Inner;

static gboolean
find_inner (gpointer data)
{
  Inner *inner = data;
  g_autoptr (GPtrArray) pages = bus_pages (inner->root, NULL);

  for (guint i = 0; i < pages->len && inner->found == NULL; i++)
    inner->found = bus_peek (pages->pdata[i], ATSPI_ROLE_PUSH_BUTTON, inner->name);
  return inner->found != NULL;
}

/* On one of the pages of a stack within @root. */
static void
press_inner (Node       *root,
             const char *name)
{
  Inner inner = { root, name, NULL };

  bus_wait (root, find_inner, &inner, name);
  bus_press (inner.found);
  g_object_unref (inner.found);
}

/* ---- what the command line tells, as a table ---- */

/* The line that begins so, its fields without quotes: no field of these tables has a comma but within quotes. */
static GStrv
read_row (Program            *program,
          const char * const *arguments,
          const char         *start)
{
  g_autofree char *printed = program_run_with (program, 0, arguments);
  g_auto (GStrv)   lines = g_strsplit (printed, "\n", -1);
  GPtrArray       *fields = g_ptr_array_new ();
  char           **line = lines;

  while (*line != NULL && !g_str_has_prefix (*line, start))
    line++;
  if (*line == NULL)
    g_error ("no line begins with “%s”: %s", start, printed);
  for (const char *at = *line; at != NULL;)
    {
      gboolean    quoted = *at == '"';
      const char *end = strstr (at, quoted ? "\"," : ",");

      at += quoted ? 1 : 0;
      g_ptr_array_add (fields, end != NULL ? g_strndup (at, (gsize) (end - at)) : g_strdup (at));
      at = end != NULL ? end + (quoted ? 2 : 1) : NULL;
    }
  g_ptr_array_add (fields, NULL);
  return (GStrv) g_ptr_array_free (fields, FALSE);
}

/* Of “handwheel next”: what is in the machine. (transfer full) */
static char *
needle_now (Program    *program,
            const char *file)
{
  const char *arguments[] = { "next", "--format=csv", file, NULL };
  g_auto (GStrv) row = read_row (program, arguments, MACHINE_NAME ",");

  g_assert_cmpuint (g_strv_length (row), >, 3);
  return g_strdup (row[1]);
}

/* Of “handwheel care”: hours on the clock. */
static double
clock_hours (Program    *program,
             const char *task,
             gboolean   *overdue)
{
  const char *arguments[] = { "care", "--format=csv", NULL };
  g_autofree char *start = g_strdup_printf ("%s,%s,", MACHINE, task);
  g_auto (GStrv) row = read_row (program, arguments, start);

  g_assert_cmpuint (g_strv_length (row), >, 5);
  *overdue = g_str_equal (row[5], "yes");
  return g_ascii_strtod (row[2], NULL);
}

/* Of “handwheel test-seam”: where the step's dial is believed to end. */
static double
planned_dial (Program    *program,
              const char *file,
              const char *step)
{
  const char *arguments[] = { "test-seam", "--format=csv", file, NULL };
  g_autofree char *start = g_strconcat (step, ",", NULL);
  g_auto (GStrv) row = read_row (program, arguments, start);

  g_assert_cmpuint (g_strv_length (row), >, 4);
  g_assert_cmpstr (row[2], ==, MACHINE_NAME);
  return g_ascii_strtod (row[3], NULL);
}

/* ---- what the window tells ---- */

typedef struct
{
  Node       *page;
  const char *task;
  const char *expected;
} Clock;

/* The clock stands after the task's name; the first machine's card comes first. */
static gboolean
clock_says (gpointer data)
{
  const Clock *clock = data;
  g_autoptr (GPtrArray) all = bus_look (clock->page);
  gboolean is_next = FALSE;

  for (guint i = 0; i < all->len; i++)
    {
      const Seen *seen = all->pdata[i];

      if (is_next && seen->role == ATSPI_ROLE_LABEL && strstr (seen->name, " of ") != NULL)
        return g_str_equal (seen->name, clock->expected);
      is_next = is_next || (seen->role == ATSPI_ROLE_LABEL && g_str_equal (seen->name, clock->task));
    }
  return FALSE;
}

static void
wait_clock (Node       *page,
            const char *task,
            const char *expected)
{
  Clock clock = { page, task, expected };

  bus_wait (page, clock_says, &clock, expected);
}

static double
shown_dial (Program *program)
{
  g_autoptr (Node) panel = program_find_panel (program);
  g_autoptr (Node) dial = bus_find_start (panel, ATSPI_ROLE_INVALID, "Dial, start at ");
  g_autofree char *name = atspi_accessible_get_name (dial, NULL);
  const char      *number = name + strlen ("Dial, start at ");

  return g_ascii_strtod (number, NULL) + (strstr (number, "½") != NULL ? 0.5 : 0);
}

static void
select_step (Program    *program,
             const char *row_start)
{
  g_autoptr (Node) page = program_show_page (program, "Making up");
  g_autoptr (Node) row = bus_find_start (page, ATSPI_ROLE_TABLE_ROW, row_start);

  bus_click (row);
}

/* ---- the stages ---- */

static char *
begin_skirt (Program *program)
{
  g_autoptr (Node) page = NULL;
  char            *file = g_build_filename (program->room, "projects", "straight-skirt.handwheel", NULL);
  g_autofree char *planned = NULL;

  press (program->app, ATSPI_ROLE_PUSH_BUTTON, "Menu");
  press (program->app, ATSPI_ROLE_MENU_ITEM, "New project from a garment");
  page = program_find_room_page (program, "New project from a garment");
  g_object_unref (bus_find (page, ATSPI_ROLE_FORM, PROJECT));
  press (page, ATSPI_ROLE_PUSH_BUTTON, "Begin");
  g_object_unref (bus_find (program->app, ATSPI_ROLE_FRAME, PROJECT " – Handwheel"));
  planned = program_run (program, 0, "plan", file);
  g_assert_nonnull (strstr (planned, "Darts"));
  return file;
}

/* The strip has a button for the machine that is worked at now, the menu an item for whichever is next. */
static void
note_loaded (Program *program,
             Node    *strip)
{
  g_autoptr (GPtrArray) labels = strip_read (strip);

  if (strip_after (labels, "Then at ") == NULL)
    {
      strip_press_loaded (strip);
      return;
    }
  press (program->app, ATSPI_ROLE_PUSH_BUTTON, "Menu");
  press (program->app, ATSPI_ROLE_MENU_ITEM, "Next needle is loaded");
}

/* One machine after the other, in the order of work. */
static void
load (Program    *program,
      const char *file)
{
  g_autoptr (Node) strip = strip_find (program);
  g_autofree char *before = record_last (program, MACHINE, "load", "id");
  g_autofree char *now = NULL;

  for (int presses = 0; presses < 2; presses++)
    {
      g_autofree char *last = record_last (program, MACHINE, "load", "id");
      guint            entries = record_count (program, NULL);

      if (g_strcmp0 (last, before) != 0)
        break;
      if (presses > 0)
        g_usleep (LOADED_TWICE);
      note_loaded (program, strip);
      record_wait (program, entries, 1);
    }
  {
    g_autofree char *last = record_last (program, MACHINE, "load", "id");

    g_assert_cmpstr (last, !=, before);
  }
  strip_check (program, strip, file);
  now = needle_now (program, file);
  g_assert_true (g_str_has_suffix (now, ", 0 of 15 h"));
}

static void
sew_two (Program    *program,
         const char *file)
{
  g_autoptr (Node) list = order_show (program);
  g_autofree char *planned = NULL;
  g_autofree char *step = NULL;

  order_mark (program, list, "Step 1, Fuse the interfacing to the waistband: sewn", TRUE);
  order_mark (program, list, "Step 2, Staystitch the waist edges: sewn", TRUE);
  step = record_last (program, MACHINE, "sewing", "step");
  g_assert_cmpstr (step, ==, "2");
  planned = program_run (program, 0, "plan", file);
  g_assert_nonnull (strstr (planned, "[x] 2 "));
  g_assert_null (strstr (planned, "[x] 4 "));
}

/* 15.5 hours on a needle and a dusting that are good for 15, noted by another process: the open window shows them. */
static void
wear_out (Program    *program,
          const char *file)
{
  const char *arguments[] = { "log", "--machine", MACHINE, "--minutes", "930", NULL };
  g_autoptr (Node) page = program_show_page (program, "Machines");
  g_autofree char *logged = program_run_with (program, 0, arguments);
  gboolean         overdue = FALSE;
  g_autofree char *now = NULL;

  wait_clock (page, DUST, "15.5 of 15 h: due");
  wait_clock (page, NEEDLE, "15.5 of 15 h: due");
  g_assert_cmpfloat (clock_hours (program, "dust", &overdue), >, 15);
  g_assert_true (overdue);
  g_assert_cmpfloat (clock_hours (program, "needle", &overdue), >, 15);
  g_assert_true (overdue);
  now = needle_now (program, file);
  g_assert_nonnull (strstr (now, ", 15.5 of 15 h"));
}

static void
dust (Program *program)
{
  g_autoptr (Node) page = program_show_page (program, "Machines");
  guint            before = record_count (program, NULL);
  gboolean         overdue = TRUE;
  g_autoptr (Node) form = NULL;
  g_autofree char *cautioned = NULL;
  g_autofree char *task = NULL;

  press (page, ATSPI_ROLE_PUSH_BUTTON, DUST " on " MACHINE_NAME);
  form = bus_find (page, ATSPI_ROLE_FORM, DUST);
  cautioned = bus_wait_text (form, "Unplug before you reach into the machine.");
  press (form, ATSPI_ROLE_PUSH_BUTTON, "Done: note it");
  record_wait (program, before, 1);
  task = record_last (program, MACHINE, "care", "task");
  g_assert_cmpstr (task, ==, "dust");
  wait_clock (page, DUST, "0 of 15 h");
  wait_clock (page, NEEDLE, "15.5 of 15 h: due");
  g_assert_cmpfloat (clock_hours (program, "dust", &overdue), ==, 0);
  g_assert_false (overdue);
}

static void
load_new (Program    *program,
          const char *file)
{
  g_autofree char *worn = record_last (program, MACHINE, "load", "needle");
  g_autofree char *fresh = NULL;
  g_autoptr (Node) page = NULL;
  gboolean         overdue = TRUE;

  load (program, file);
  fresh = record_last (program, MACHINE, "load", "needle");
  g_assert_cmpstr (fresh, !=, worn);
  page = program_show_page (program, "Machines");
  wait_clock (page, NEEDLE, "0 of 15 h");
  g_assert_cmpfloat (clock_hours (program, "needle", &overdue), ==, 0);
  g_assert_false (overdue);
}

/* The remedy loads a needle: what was done and what was found are an entry each. */
static void
trace_fault (Program    *program,
             const char *file)
{
  g_autofree char *before = record_last (program, MACHINE, "load", "needle");
  guint            entries = record_count (program, NULL);
  g_autoptr (Node) panel = NULL;
  g_autoptr (Node) page = NULL;
  g_autofree char *fault = NULL;
  g_autofree char *cause = NULL;
  g_autofree char *step = NULL;
  g_autofree char *after = NULL;

  select_step (program, "Step 4: Darts");
  panel = program_find_panel (program);
  press (panel, ATSPI_ROLE_PUSH_BUTTON, "Something is wrong with the stitch");
  page = program_find_room_page (program, "Stitch faults");
  press_inner (page, "Holes and runs along the seam");
  press_inner (page, "That is it: Needle blunt or burred");
  press_inner (page, "Load a new needle, 80/12 round point");
  record_wait (program, entries, 2);

  fault = record_last (program, MACHINE, "fault", "fault");
  cause = record_last (program, MACHINE, "fault", "cause");
  step = record_last (program, MACHINE, "fault", "step");
  after = record_last (program, MACHINE, "load", "needle");
  g_assert_cmpstr (fault, ==, "needle-cutting");
  g_assert_cmpstr (cause, ==, "blunt");
  g_assert_cmpstr (step, ==, "4");
  g_assert_nonnull (after);
  g_assert_cmpstr (after, !=, before);
  {
    g_autoptr (Node) strip = strip_find (program);

    strip_check (program, strip, file);
  }
}

/* Three presses; the dial of the step, and of a project that is begun after it, has moved up. */
static void
test_seam (Program    *program,
           const char *file)
{
  g_autofree char *later = g_build_filename (program->folder, "later.handwheel", NULL);
  const char *arguments[] = { "new", "--garment", "skirt", "-o", later, NULL };
  g_autofree char *made = program_run_with (program, 0, arguments);
  double           start = planned_dial (program, file, "4");
  double           later_start = planned_dial (program, later, "4");
  guint            entries = record_count (program, NULL);
  g_autoptr (Node) panel = NULL;
  g_autofree char *verdict = NULL;

  select_step (program, "Step 4: Darts");
  panel = program_find_panel (program);
  g_assert_cmpfloat (shown_dial (program), ==, start);
  press (panel, ATSPI_ROLE_PUSH_BUTTON, "Test seam");
  press_inner (panel, "Needle thread loops underneath");
  press_inner (panel, "Still there: note it");
  record_wait (program, entries, 1);
  verdict = record_last (program, MACHINE, "test-seam", "verdict");
  g_assert_cmpstr (verdict, ==, "loops-below");
  g_assert_cmpfloat (planned_dial (program, file, "4"), >=, start + 0.5);
  g_assert_cmpfloat (planned_dial (program, later, "4"), >=, later_start + 0.5);
  g_assert_cmpfloat (shown_dial (program), ==, planned_dial (program, file, "4"));
  bus_key (GDK_KEY_Escape, 0);
}

/* The closing list is care like any other: noted once, and nothing is left to close. */
static void
finish (Program *program)
{
  guint            entries = record_count (program, NULL);
  g_autoptr (Node) page = NULL;
  g_autofree char *told = NULL;

  press (program->app, ATSPI_ROLE_PUSH_BUTTON, "Finish for today");
  page = program_find_room_page (program, "Finish for today");
  press (page, ATSPI_ROLE_PUSH_BUTTON, "All done at " MACHINE_NAME ": note it");
  record_wait (program, entries, 1);
  told = bus_wait_text (page, "No machine has sewn since it was last closed.");
}

static void
test_life (Program      *program,
           gconstpointer data)
{
  g_autofree char *projects = g_build_filename (program->room, "projects", NULL);
  g_autofree char *file = NULL;
  g_autofree char *told = NULL;

  g_assert_cmpint (g_mkdir_with_parents (projects, 0700), ==, 0);
  program_start (program, NULL);
  told = bus_wait_text (program->app, "No project is open");
  file = begin_skirt (program);
  load (program, file);
  sew_two (program, file);
  wear_out (program, file);
  dust (program);
  load_new (program, file);
  trace_fault (program, file);
  test_seam (program, file);
  finish (program);
  program_quit (program);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/window/life/from-plan-to-plan", Program, NULL, program_set_up, test_life, program_tear_down);
  return g_test_run ();
}
