/* test-timer-bar.c - the timer of a step: started, paused, noted in the journal, outliving the window
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <string.h>

#include "desk.h"
#include "temp-folder.h"
#include "walk.h"
#include "window/form.h"
#include "window/furnish.h"
#include "window/gauge.h"
#include "words/words.h"

static HwStopwatch *
stopwatch (Desk *desk)
{
  return hw_workspace_get_stopwatch (desk->scene.workspace);
}

static void
test_start_and_pause (void)
{
  Desk desk = { 0 };
  GtkWidget *gauge;

  desk_open (&desk);
  desk_open_page (&desk, "order");
  hw_workspace_select (desk.scene.workspace, "4");
  g_assert_nonnull (walk_need (desk.root, GTK_TYPE_BUTTON, "Start timer, step 4"));
  desk_act (desk_page (&desk), "order.timer");
  g_assert_true (hw_stopwatch_is_running (stopwatch (&desk), "apron", "4"));
  g_assert_nonnull (walk_need (desk.root, GTK_TYPE_BUTTON, "Pause, step 4"));
  g_assert_true (gtk_widget_get_visible (walk_need (desk.root, GTK_TYPE_BUTTON, "The timer of step 4 runs: go to it")));
  gauge = walk_need (desk.root, HW_TYPE_GAUGE, "Time at the step");
  gtk_test_accessible_assert_role (GTK_ACCESSIBLE (gauge), GTK_ACCESSIBLE_ROLE_METER);
  /* What is chosen meanwhile does not take the running clock away. */
  hw_workspace_select (desk.scene.workspace, "1");
  g_assert_nonnull (walk_need (desk.root, GTK_TYPE_BUTTON, "Pause, step 4"));
  desk_act (desk_page (&desk), "order.timer");
  g_assert_false (hw_stopwatch_get_running (stopwatch (&desk), NULL, NULL));
  g_assert_nonnull (walk_need (desk.root, GTK_TYPE_BUTTON, "Start timer, step 1"));
  desk_close (&desk);
}

static const char *
next_number (Desk *desk)
{
  const HwPlan *plan = hw_workspace_peek_plan (desk->scene.workspace);

  return hw_project_get_step (plan->project, g_array_index (plan->order, HwPlanStep, plan->next).step)->number;
}

static void
assert_says (GtkWidget  *button,
             const char *label)
{
  g_assert_cmpstr (gtk_button_get_label (GTK_BUTTON (button)), ==, label);
}

/* The panel shows how the next is set up; a step marked beside the chosen one leaves it there. */
static void
test_goes_on (void)
{
  Desk desk = { 0 };
  HwWorkspace *workspace;

  desk_open (&desk);
  workspace = desk.scene.workspace;
  desk_open_page (&desk, "order");
  hw_workspace_select (workspace, "1");
  desk_act (desk_page (&desk), "order.timer");
  assert_says (walk_need (desk.root, GTK_TYPE_BUTTON, "Sewn: note it with the timer's minutes"), "Sewn");
  desk_act (desk_page (&desk), "order.timed-done");
  g_assert_cmpstr (next_number (&desk), ==, "2");
  g_assert_cmpstr (hw_workspace_peek_selected (workspace), ==, "2");
  /* It is pressed, and not sewn. */
  desk_act (desk_page (&desk), "order.timer");
  assert_says (walk_need (desk.root, GTK_TYPE_BUTTON, "Done: note it with the timer's minutes"), "Done");
  g_assert_true (gtk_widget_activate_action (desk_page (&desk), "order.mark", "(sb)", "4", TRUE));
  g_assert_cmpstr (hw_workspace_peek_selected (workspace), ==, "2");
  desk_act (desk_page (&desk), "order.mark-selected");
  g_assert_cmpstr (hw_workspace_peek_selected (workspace), ==, "3");
  hw_workspace_mark_done (workspace, "2", FALSE);
  g_assert_cmpstr (hw_workspace_peek_selected (workspace), ==, "3");
  desk_close (&desk);
}

static void
note_needle (Desk  *desk,
             guint  machine,
             int    nm)
{
  const HwRoom   *room = hw_workspace_get_room (desk->scene.workspace);
  HwJournalEntry *load = hw_journal_entry_new (HW_ENTRY_LOAD, ((HwMachine *) room->machines->pdata[machine])->id);

  load->nm = nm;
  g_assert_true (hw_workspace_append (desk->scene.workspace, load, NULL));
  hw_journal_entry_free (load);
  scene_settle ();
}

/* Its head tells what to alter before it is begun, then what stands in the machine, and in the end what was in it. */
static void
test_head_of_begun (void)
{
  Desk desk = { 0 };
  const HwProject *project;

  desk_open (&desk);
  desk_open_page (&desk, "order");
  g_assert_false (walk_shows (desk_page (&desk), "In the machine now: "));
  hw_workspace_mark_done (desk.scene.workspace, "1", TRUE);
  scene_settle ();
  g_assert_nonnull (walk_text (desk_page (&desk), "In the machine now: "));
  g_assert_null (walk_text (desk_page (&desk), "Sewn with "));
  project = hw_workspace_peek_project (desk.scene.workspace);
  for (guint i = 0; i < project->steps->len; i++)
    if (!g_str_equal (hw_project_get_step (project, i)->number, "1"))
      hw_workspace_mark_done (desk.scene.workspace, hw_project_get_step (project, i)->number, TRUE);
  scene_settle ();
  g_assert_nonnull (walk_text (desk_page (&desk), "Sewn with "));
  g_assert_null (walk_text (desk_page (&desk), "Load "));
  desk_close (&desk);
}

/* Two seams, then an edge that the second machine of the room neatens. */
static const char two_machines[] =
  "<project xmlns=\"urn:handwheel:project:1\" id=\"two\" title=\"Two machines\">"
  "<fabrics><fabric id=\"c\" name=\"Cotton\" handbook=\"poplin\"/></fabrics>"
  "<threads><thread id=\"t\" handbook=\"polyester-30\" colour=\"navy\"/></threads><steps>"
  "<operation number=\"1\" name=\"Join\" purpose=\"seam\" length-cm=\"50\" needle-thread=\"t\" bobbin-thread=\"t\">"
  "<ply fabric=\"c\" count=\"2\"/></operation>"
  "<operation number=\"2\" name=\"Join on\" after=\"1\" purpose=\"seam\" length-cm=\"50\" needle-thread=\"t\" "
  "bobbin-thread=\"t\"><ply fabric=\"c\" count=\"2\"/></operation>"
  "<operation number=\"3\" name=\"Neaten\" after=\"2\" purpose=\"neaten\" stitch=\"504\" length-cm=\"50\" "
  "needle-thread=\"t\" bobbin-thread=\"t\"><ply fabric=\"c\"/></operation></steps></project>";

/* Seeing to another machine meanwhile takes nothing out of the one that the block is sewn on. */
static void
test_head_beside_another (void)
{
  Desk desk = { 0 };
  g_autofree char   *folder = NULL;
  g_autofree char   *path = NULL;
  g_autoptr (GError) error = NULL;

  desk_open (&desk);
  folder = g_path_get_dirname (desk.scene.path);
  path = g_build_filename (folder, "two.handwheel", NULL);
  g_assert_true (g_file_set_contents (path, two_machines, -1, &error));
  hw_workspace_open (desk.scene.workspace, path, &error);
  g_assert_no_error (error);
  desk_open_page (&desk, "order");
  hw_workspace_mark_done (desk.scene.workspace, "1", TRUE);
  note_needle (&desk, 1, 75);
  g_assert_cmpuint (hw_plan_find_step (hw_workspace_peek_plan (desk.scene.workspace), "2")->changes
                    & HW_CHANGE_MACHINE, !=, 0);
  g_assert_nonnull (walk_text (desk_page (&desk), "Lockstitch machine, now in it: "));
  desk_close (&desk);
}

/* A step that was sewn was sewn with its needle, whether or not anybody noted that it was put in; that is told, and
 * can be taken back with the step. */
static void
test_not_noted (void)
{
  Desk desk = { 0 };
  HwNow now;
  g_autofree char *needle = NULL;
  const HwPlan *plan;

  desk_open (&desk);
  note_needle (&desk, 0, 110);
  g_assert_nonnull (walk_text (desk.root, "110/18"));
  hw_workspace_mark_done (desk.scene.workspace, "1", TRUE);
  scene_settle ();
  g_assert_null (walk_text (desk.root, "110/18"));
  plan = hw_workspace_peek_plan (desk.scene.workspace);
  now = hw_plan_now (plan, NULL);
  g_assert_cmpint (now.needle->nm, ==, plan->setups[hw_plan_find_step (plan, "1")->step]->machine == now.machine
                   ? hw_plan_get_group (plan, hw_plan_find_step (plan, "1")->group)->size_nm : 0);
  needle = hw_words_needle_now (plan, &now);
  g_assert_null (strstr (needle, "not noted as loaded"));
  g_assert_true (walk_shows (desk.root, needle));
  g_assert_nonnull (strstr (hw_window_peek_message (desk.window), "Its needle is noted as loaded: "));
  g_assert_true (hw_workspace_undo_entry (desk.scene.workspace));
  scene_settle ();
  g_assert_nonnull (walk_text (desk.root, "110/18"));
  g_assert_false (hw_plan_find_step (hw_workspace_peek_plan (desk.scene.workspace), "1")->done);
  desk_close (&desk);
}

/* A journal of an earlier version has the step alone: head and strip agree on its needle. */
static void
test_not_noted_before (void)
{
  Desk desk = { 0 };
  g_autoptr (HwJournalEntry) entry = NULL;
  g_autofree char *needle = NULL;
  HwNow now;

  desk_open (&desk);
  note_needle (&desk, 0, 110);
  entry = hw_plan_entry_for_step (hw_workspace_peek_plan (desk.scene.workspace), "1", 0);
  hw_workspace_append (desk.scene.workspace, entry, NULL);
  scene_settle ();
  g_assert_null (walk_text (desk.root, "110/18"));
  now = hw_plan_now (hw_workspace_peek_plan (desk.scene.workspace), NULL);
  needle = hw_words_needle_now (hw_workspace_peek_plan (desk.scene.workspace), &now);
  g_assert_nonnull (strstr (needle, "not noted as loaded"));
  g_assert_true (walk_shows (desk.root, needle));
  desk_close (&desk);
}

/* A clock that has run for nine minutes when the window opens; it was looked at a minute ago. */
static void
write_file_of_timer (const char *room,
                     const char *xml)
{
  g_autofree char *path = hw_timer_path (room);
  g_autofree char *folder = g_path_get_dirname (path);

  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  g_assert_true (g_file_set_contents (path, xml, -1, NULL));
}

static void
write_timer (const char *room)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  g_autoptr (GDateTime) since = g_date_time_add_minutes (now, -9);
  g_autoptr (GDateTime) seen = g_date_time_add_minutes (now, -1);
  g_autofree char      *since_text = g_date_time_format (since, "%Y-%m-%dT%H:%M:%SZ");
  g_autofree char      *seen_text = g_date_time_format (seen, "%Y-%m-%dT%H:%M:%SZ");
  g_autofree char      *xml = g_strdup_printf ("<timer xmlns=\"urn:handwheel:timer:1\" running=\"yes\" since=\"%s\" "
                                               "seen=\"%s\"><step project=\"apron\" number=\"1\" seconds=\"60\"/>"
                                               "</timer>", since_text, seen_text);

  write_file_of_timer (room, xml);
}

/* A slip of the finger. */
static void
write_short_timer (const char *room)
{
  write_file_of_timer (room, "<timer xmlns=\"urn:handwheel:timer:1\"><step project=\"apron\" number=\"1\" "
                             "seconds=\"5\"/></timer>");
}

/* Another start of the program in the same room. */
static void
reopen (Desk  *desk,
        void (*write) (const char *room))
{
  g_autofree char   *path = g_strdup (desk->scene.path);
  g_autoptr (GError) error = NULL;

  gtk_window_destroy (GTK_WINDOW (desk->window));
  scene_settle ();
  g_assert_finalize_object (desk->window);
  g_assert_finalize_object (desk->scene.workspace);
  write (desk->scene.room);
  desk->scene.workspace = hw_workspace_new (desk->scene.data, desk->scene.room, &error);
  g_assert_no_error (error);
  g_assert_true (hw_workspace_open (desk->scene.workspace, path, &error));
  desk->window = HW_WINDOW (g_object_ref_sink (hw_window_new (NULL, desk->scene.workspace)));
  desk->root = GTK_WIDGET (desk->window);
  gtk_window_present (GTK_WINDOW (desk->window));
  gtk_test_widget_wait_for_draw (desk->root);
}

static void
test_noted (void)
{
  Desk desk = { 0 };
  const HwJournalEntry *entry;

  desk_open (&desk);
  reopen (&desk, write_timer);
  desk_open_page (&desk, "order");
  g_assert_cmpfloat_with_epsilon (hw_stopwatch_minutes (stopwatch (&desk), "apron", "1"), 10, 0.5);
  desk_act (desk_page (&desk), "order.timed-done");
  entry = hw_room_step_done (hw_workspace_get_room (desk.scene.workspace), "apron", "1");
  g_assert_nonnull (entry);
  g_assert_cmpfloat_with_epsilon (entry->minutes, 10, 0.5);
  g_assert_cmpfloat (entry->planned, >, 0);      /* so that the person's pace is learned from it */
  g_assert_nonnull (strstr (hw_window_peek_message (desk.window), "10 min by the timer"));
  g_assert_false (hw_stopwatch_get_running (stopwatch (&desk), NULL, NULL));
  g_assert_cmpfloat (hw_stopwatch_minutes (stopwatch (&desk), "apron", "1"), ==, 0);
  desk_act (desk.root, "win.undo-entry");
  g_assert_null (hw_room_step_done (hw_workspace_get_room (desk.scene.workspace), "apron", "1"));
  desk_close (&desk);
}

static void
test_too_short (void)
{
  Desk desk = { 0 };
  const HwJournalEntry *entry;
  const char *message;

  desk_open (&desk);
  reopen (&desk, write_short_timer);
  desk_open_page (&desk, "order");
  desk_act (desk_page (&desk), "order.timed-done");
  entry = hw_room_step_done (hw_workspace_get_room (desk.scene.workspace), "apron", "1");
  g_assert_nonnull (entry);
  g_assert_cmpfloat (entry->minutes, >, 1);      /* the plan's */
  message = hw_window_peek_message (desk.window);
  g_assert_true (g_str_has_prefix (message, "Step 1 is noted with "));
  g_assert_nonnull (strstr (message, ", as planned; the timer ran only 5 s."));
  desk_close (&desk);
}

/* Which step would be timed, and why that one. */
static void
test_why_that_one (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  desk_open_page (&desk, "order");
  hw_workspace_select (desk.scene.workspace, next_number (&desk));
  g_assert_true (walk_shows (desk_page (&desk), "Timer for the next step"));
  hw_workspace_select (desk.scene.workspace, "4");
  g_assert_cmpstr (next_number (&desk), !=, "4");
  g_assert_true (walk_shows (desk_page (&desk), "Timer for the step you chose"));
  desk_act (desk_page (&desk), "order.timer");
  g_assert_true (walk_shows (desk_page (&desk), "The timer runs for this step"));
  hw_workspace_select (desk.scene.workspace, "1");
  g_assert_true (walk_shows (desk_page (&desk), "The timer runs for this step"));
  desk_close (&desk);
}

/* By hand or at a machine, with a needle noted or not: what is noted is told, and can be taken back or corrected. */
static void
test_told (void)
{
  Desk desk = { 0 };
  HwWorkspace *workspace;
  const char *message;

  desk_open (&desk);
  workspace = desk.scene.workspace;
  desk_open_page (&desk, "order");
  hw_workspace_mark_done (workspace, "1", TRUE);
  hw_workspace_mark_done (workspace, "2", TRUE);
  message = hw_window_peek_message (desk.window);
  g_assert_true (g_str_has_prefix (message, "Step 2 is done: noted with "));
  g_assert_nonnull (strstr (message, ", as planned."));
  g_assert_true (walk_visible (walk_need (desk.root, GTK_TYPE_BUTTON, "Take back what the message tells of"),
                               desk.root));
  desk_act (desk.root, "win.undo-entry");
  g_assert_false (hw_plan_find_step (hw_workspace_peek_plan (workspace), "2")->done);
  hw_workspace_mark_done (workspace, "1", FALSE);
  g_assert_true (g_str_has_prefix (hw_window_peek_message (desk.window), "Step 1 is open again; its "));
  desk_close (&desk);
}

static void
test_out_of_turn (void)
{
  Desk desk = { 0 };
  HwWorkspace *workspace;

  desk_open (&desk);
  workspace = desk.scene.workspace;
  desk_open_page (&desk, "order");
  g_assert_true (g_strv_contains ((const char * const *) scene_step (&desk.scene, "2")->after, "1"));
  hw_workspace_mark_done (workspace, "2", TRUE);
  g_assert_true (hw_plan_find_step (hw_workspace_peek_plan (workspace), "2")->done);
  g_assert_true (g_str_has_prefix (hw_window_peek_message (desk.window),
                                   "Step 2 comes after step 1, which is not done yet. Step 2 is done: noted with "));
  desk_act (desk.root, "win.undo-entry");
  g_assert_false (hw_plan_find_step (hw_workspace_peek_plan (workspace), "2")->done);
  hw_workspace_mark_done (workspace, "1", TRUE);
  hw_workspace_mark_done (workspace, "2", TRUE);
  g_assert_null (strstr (hw_window_peek_message (desk.window), "comes after"));
  desk_close (&desk);
}

/* “Correct…” opens the entry, as the journal does. */
static void
test_correct (void)
{
  Desk desk = { 0 };
  GtkWidget *correct;

  desk_open (&desk);
  desk_open_page (&desk, "order");
  hw_workspace_mark_done (desk.scene.workspace, "1", TRUE);
  correct = walk_need (desk.root, GTK_TYPE_BUTTON, "Correct the minutes that the message tells of");
  g_assert_true (walk_visible (correct, desk.root));
  g_signal_emit_by_name (correct, "clicked");
  scene_settle ();
  g_assert_cmpstr (hw_window_get_page (desk.window), ==, "journal");
  g_assert_nonnull (walk_find (gtk_stack_get_visible_child (walk_stack (desk.root, "journal")), HW_TYPE_FORM, NULL));
  hw_workspace_tell (desk.scene.workspace, "Something else", FALSE);
  g_assert_false (walk_visible (correct, desk.root));
  desk_close (&desk);
}

/* A damaged file is told, never written over, and nothing else is harmed. */
static void
test_damaged (void)
{
  g_autofree char *folder = temp_folder_new ();
  g_autofree char *path = g_build_filename (folder, "timer.xml", NULL);
  g_autofree char *news = NULL;
  g_autofree char *after = NULL;
  HwStopwatch     *watch;

  g_assert_true (g_file_set_contents (path, "<timer", -1, NULL));
  watch = hw_stopwatch_new (path);
  news = hw_stopwatch_steal_news (watch);
  g_assert_nonnull (strstr (news, "timer.xml:1:"));
  hw_stopwatch_start (watch, "apron", "1");
  g_assert_false (hw_stopwatch_get_running (watch, NULL, NULL));
  g_assert_finalize_object (watch);
  g_assert_true (g_file_get_contents (path, &after, NULL, NULL));
  g_assert_cmpstr (after, ==, "<timer");
  temp_folder_remove (g_steal_pointer (&folder));
}

int
main (int    argc,
      char **argv)
{
  g_autofree char *state = NULL;
  char            *folder;
  int              status;

  gtk_test_init (&argc, &argv, NULL);
  folder = temp_folder_new ();
  state = g_build_filename (folder, "state", NULL);
  g_setenv ("XDG_STATE_HOME", state, TRUE);
  g_test_add_func ("/timer-bar/start-and-pause", test_start_and_pause);
  g_test_add_func ("/timer-bar/goes-on", test_goes_on);
  g_test_add_func ("/timer-bar/head-of-begun", test_head_of_begun);
  g_test_add_func ("/timer-bar/head-beside-another", test_head_beside_another);
  g_test_add_func ("/timer-bar/not-noted", test_not_noted);
  g_test_add_func ("/timer-bar/not-noted-before", test_not_noted_before);
  g_test_add_func ("/timer-bar/noted", test_noted);
  g_test_add_func ("/timer-bar/too-short", test_too_short);
  g_test_add_func ("/timer-bar/why-that-one", test_why_that_one);
  g_test_add_func ("/timer-bar/told", test_told);
  g_test_add_func ("/timer-bar/out-of-turn", test_out_of_turn);
  g_test_add_func ("/timer-bar/correct", test_correct);
  g_test_add_func ("/timer-bar/damaged", test_damaged);
  status = g_test_run ();
  temp_folder_remove (folder);
  return status;
}
