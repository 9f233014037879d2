/* test-machines.c - the machines' page and the preferences in the real window
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <math.h>
#include <string.h>

#include "desk.h"
#include "fits.h"
#include "hold.h"
#include "model/journal.h"
#include "plan/queue.h"
#include "walk.h"
#include "window/controls.h"
#include "window/form.h"
#include "window/gauge.h"
#include "window/room-forms.h"
#include "words/words.h"

static const HwRoom *
room (Desk *desk)
{
  return hw_workspace_get_room (desk->scene.workspace);
}

static void
sew_with (Desk       *desk,
          double      minutes,
          const char *thread)
{
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_SEWING, "lockstitch");

  entry->minutes = minutes;
  entry->project = g_strdup ("apron");
  entry->needle_thread = g_strdup (thread);
  g_assert_true (hw_workspace_append (desk->scene.workspace, entry, NULL));
  scene_settle ();
}

static void
sew (Desk   *desk,
     double  minutes)
{
  sew_with (desk, minutes, NULL);
}

static double
dust_clock (Desk *desk)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (desk->scene.workspace);
  const HwMachine  *machine = hw_room_find_machine (room (desk), "lockstitch");

  return hw_room_care_clock (room (desk), machine, &handbook->care[hw_handbook_find_care (handbook, "dust")],
                             "2031-05-09T10:00:00Z");
}

static GtkWidget *
form (Desk *desk)
{
  return walk_need (desk_page (desk), HW_TYPE_FORM, NULL);
}

static void
assert_no_form (Desk *desk)
{
  scene_settle ();
  g_assert_null (walk_find (desk_page (desk), HW_TYPE_FORM, NULL));
}

/* The dust clock stands at 16 of 15 h; the checklist is gone through and noted; the clock stands at nought; taking it
 * back brings the hours again. */
static void
test_care (void)
{
  Desk desk = { 0 };
  GtkWidget *gauge;

  desk_open (&desk);
  sew (&desk, 16 * 60);
  desk_open_page (&desk, "machines");
  gauge = walk_need (desk_page (&desk), HW_TYPE_GAUGE, "Dust under the needle plate");
  g_assert_cmpfloat (gtk_range_get_value (GTK_RANGE (gauge)), ==, 15);          /* never past its end */
  g_assert_true (walk_shows (desk_page (&desk), "16 of 15 h: due"));

  g_assert_true (gtk_widget_activate_action (desk_page (&desk), "machines.care", "(ss)", "lockstitch", "dust"));
  scene_settle ();
  g_assert_true (walk_shows (form (&desk), "Unplug before you reach into the machine."));
  g_assert_true (desk_act (form (&desk), "form.save"));
  assert_no_form (&desk);
  g_assert_cmpfloat (dust_clock (&desk), ==, 0);
  g_assert_cmpstr (hw_window_peek_message (desk.window), ==, "Noted: Dust under the needle plate, Lockstitch machine");

  g_assert_true (desk_act (desk.root, "win.undo-entry"));
  g_assert_cmpfloat_with_epsilon (dust_clock (&desk), 16, 1e-9);
  desk_close (&desk);
}

static gboolean
has_place (gpointer shown)
{
  return gtk_adjustment_get_page_size (shown) > 0;
}

/* All of a checklist is in sight, or it takes all the height that there is. */
static void
test_checklist_height (void)
{
  Desk           desk = { 0 };
  GtkWidget     *rows;
  GtkWidget     *cancel;
  GtkAdjustment *shown;
  graphene_rect_t bounds;

  desk_open (&desk);
  desk_open_page (&desk, "machines");
  g_assert_true (gtk_widget_activate_action (desk_page (&desk), "machines.care", "(ss)", "lockstitch", "dust"));
  scene_settle ();
  rows = walk_need (form (&desk), GTK_TYPE_SCROLLED_WINDOW, NULL);
  shown = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (rows));
  scene_wait (has_place, shown);
  cancel = walk_need (form (&desk), GTK_TYPE_BUTTON, "Cancel");
  g_assert_true (gtk_widget_compute_bounds (cancel, form (&desk), &bounds));
  if (gtk_adjustment_get_upper (shown) > gtk_adjustment_get_page_size (shown))
    g_assert_cmpfloat (gtk_widget_get_height (form (&desk)) - (double) (bounds.origin.y + bounds.size.height), <, 40);
  desk_close (&desk);
}

static const HwPacket *
some_packet (Desk *desk)
{
  return g_ptr_array_index (room (desk)->packets, 0);
}

static const HwNeedle *
needle_in (Desk *desk)
{
  return hw_room_get_state (room (desk), hw_room_find_machine (room (desk), "lockstitch"))->needle;
}

static void
load (Desk           *desk,
      const HwPacket *packet)
{
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_LOAD, "lockstitch");

  entry->needle = g_strdup ("old");
  entry->packet = g_strdup (packet->id);
  entry->system = g_strdup (packet->system);
  entry->point = g_strdup (packet->point);
  entry->nm = packet->nm;
  g_assert_true (hw_workspace_append (desk->scene.workspace, entry, NULL));
}

/* Who changes the needle is asked which is in now: a new one of the same kind, of which the case has one fewer then.
 * The old one has hours left and goes back into the case. Thread and foot stay. One undo takes all of it back. */
static void
test_change_needle (void)
{
  Desk desk = { 0 };
  int  before;

  desk_open (&desk);
  load (&desk, some_packet (&desk));
  sew_with (&desk, 60, "red tex 27");
  before = hw_room_new_needles (room (&desk), some_packet (&desk));
  desk_open_page (&desk, "machines");
  g_assert_true (gtk_widget_activate_action (desk_page (&desk), "machines.care", "(ss)", "lockstitch", "needle"));
  scene_settle ();
  walk_need (form (&desk), GTK_TYPE_DROP_DOWN, "Which one is in now?");
  g_assert_true (desk_act (form (&desk), "form.save"));
  assert_no_form (&desk);
  g_assert_nonnull (needle_in (&desk));
  g_assert_cmpstr (needle_in (&desk)->id, !=, "old");
  g_assert_cmpstr (needle_in (&desk)->packet, ==, some_packet (&desk)->id);
  g_assert_cmpint (hw_room_new_needles (room (&desk), some_packet (&desk)), ==, before - 1);
  g_assert_false (hw_room_find_needle (room (&desk), "old")->discarded);
  g_assert_true (g_str_has_suffix (hw_window_peek_message (desk.window), "back in the case."));
  g_assert_cmpstr (hw_room_get_state (room (&desk), hw_room_find_machine (room (&desk), "lockstitch"))->needle_thread,
                   ==, "red tex 27");

  g_assert_true (desk_act (desk.root, "win.undo-entry"));
  g_assert_cmpstr (needle_in (&desk)->id, ==, "old");
  g_assert_cmpint (hw_room_new_needles (room (&desk), some_packet (&desk)), ==, before);
  desk_close (&desk);
}

/* One that has done its hours is thrown away. */
static void
test_change_worn_needle (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  load (&desk, some_packet (&desk));
  sew (&desk, 20 * 60);
  desk_open_page (&desk, "machines");
  g_assert_true (gtk_widget_activate_action (desk_page (&desk), "machines.care", "(ss)", "lockstitch", "needle"));
  scene_settle ();
  g_assert_true (desk_act (form (&desk), "form.save"));
  g_assert_true (hw_room_find_needle (room (&desk), "old")->discarded);
  g_assert_true (g_str_has_suffix (hw_window_peek_message (desk.window), "thrown away."));
  desk_close (&desk);
}

/* Minutes that were the plan's stay beside those that correct them. */
static void
test_corrected_minutes (void)
{
  Desk       desk = { 0 };
  GtkWidget *corrects;
  const HwJournalEntry *last;
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_SEWING, "lockstitch");

  desk_open (&desk);
  entry->project = g_strdup ("apron");
  entry->step = g_strdup ("1");
  entry->purpose = g_strdup ("seam");
  entry->minutes = 10;
  g_assert_true (hw_workspace_append (desk.scene.workspace, entry, NULL));
  corrects = g_object_ref_sink (hw_entry_form_new (desk.scene.workspace, entry->id));
  gtk_editable_set_text (GTK_EDITABLE (walk_need (corrects, GTK_TYPE_ENTRY, "Minutes it took")), "12");
  g_assert_true (desk_act (corrects, "form.save"));
  last = g_ptr_array_index (room (&desk)->entries, room (&desk)->entries->len - 1);
  g_assert_cmpfloat (last->minutes, ==, 12);
  g_assert_cmpfloat (last->planned, ==, 10);
  g_object_unref (corrects);
  desk_close (&desk);
}

/* One that is not in the case: its kind is asked for. */
static void
test_needle_from_elsewhere (void)
{
  Desk       desk = { 0 };
  GtkWidget *which;

  desk_open (&desk);
  load (&desk, some_packet (&desk));
  desk_open_page (&desk, "machines");
  g_assert_true (gtk_widget_activate_action (desk_page (&desk), "machines.care", "(ss)", "lockstitch", "needle"));
  scene_settle ();
  which = walk_need (form (&desk), GTK_TYPE_DROP_DOWN, "Which one is in now?");
  g_assert_false (walk_shows (form (&desk), "Point"));
  g_assert_true (hw_choice_select (GTK_DROP_DOWN (which), "elsewhere"));
  scene_settle ();
  g_assert_true (walk_shows (form (&desk), "Point"));
  gtk_editable_set_text (GTK_EDITABLE (walk_need (form (&desk), GTK_TYPE_ENTRY,
                                                  "Size, the first number on the packet")), "110");
  g_assert_true (desk_act (form (&desk), "form.save"));
  g_assert_cmpint (needle_in (&desk)->nm, ==, 110);
  g_assert_null (needle_in (&desk)->packet);
  desk_close (&desk);
}

/* What the page says of the lockstitch machine's dusting, by the queue as the command line and the calendar have it. */
static char *
say_dusting (Desk *desk)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  g_autofree char      *iso = g_date_time_format_iso8601 (now);
  g_autoptr (GPtrArray) projects = hw_workspace_read_projects (desk->scene.workspace);
  const HwHandbook     *handbook = hw_workspace_get_handbook (desk->scene.workspace);
  g_autoptr (HwQueue)   queue = hw_queue_new (handbook, projects, room (desk), iso, HW_QUEUE_AS_PREFERRED);

  for (guint i = 0; i < queue->care->len; i++)
    {
      const HwCareDue *due = g_ptr_array_index (queue->care, i);
      g_autofree char *when = NULL;
      g_autofree char *day = NULL;

      if (due->care < 0 || !g_str_equal (due->machine->id, "lockstitch")
          || !g_str_equal (handbook->care[due->care].entry.id, "dust"))
        continue;
      when = hw_words_care_when (queue, due);
      day = hw_words_date (due->about != NULL ? due->about : due->date);
      return g_strdup_printf ("%s, %s", when, day);
    }
  g_assert_not_reached ();
}

static gboolean
is_dated (gpointer data)
{
  g_autofree char *dusting = say_dusting (data);

  return walk_shows (desk_page (data), dusting);
}

/* The work of the queue, by hand too, comes before the hours that are all at the one machine. */
static void
test_care_dates (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  sew (&desk, 4 * 60);
  desk_open_page (&desk, "machines");
  scene_wait (is_dated, &desk);
  sew (&desk, 655);                      /* less is left than the apron takes: a step tells it */
  scene_wait (is_dated, &desk);
  g_assert_nonnull (walk_text (desk_page (&desk), "before step "));
  desk_close (&desk);
}

static gboolean
tells_change (gpointer data)
{
  return walk_text (desk_page (data), "no date: changed before, for step ") != NULL;
}

/* When each care was last done; a needle that comes out with hours left has no date, and that is told. */
static void
test_care_last (void)
{
  Desk desk = { 0 };
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_CARE, "lockstitch");
  g_autoptr (HwJournalEntry) load = hw_journal_entry_new (HW_ENTRY_LOAD, "lockstitch");
  g_autofree char *day = hw_words_date (entry->time);
  g_autofree char *told = g_strdup_printf ("last done on %s", day);

  desk_open (&desk);
  desk_open_page (&desk, "machines");
  g_assert_false (walk_shows (desk_page (&desk), told));
  g_assert_true (walk_shows (desk_page (&desk), "not noted yet"));
  entry->task = g_strdup ("oil");
  g_assert_true (hw_workspace_append (desk.scene.workspace, entry, NULL));
  load->system = g_strdup ("130-705-h");
  load->point = g_strdup ("jeans");
  load->nm = 110;
  g_assert_true (hw_workspace_append (desk.scene.workspace, load, NULL));
  scene_settle ();
  g_assert_true (walk_shows (desk_page (&desk), told));
  scene_wait (tells_change, &desk);
  desk_close (&desk);
}

/* A machine without an oiling interval is told so where its care stands; the button leads to where it is written. */
static void
test_no_interval (void)
{
  Desk desk = { 0 };
  GtkWidget *field;

  desk_open (&desk);
  sew (&desk, 4 * 60);
  desk_open_page (&desk, "machines");
  g_assert_true (walk_shows (desk_page (&desk), "only as its manual says; no interval set"));
  g_signal_emit_by_name (walk_need (desk_page (&desk), GTK_TYPE_BUTTON, "Set the interval: Oil on Lockstitch machine"),
                         "clicked");
  scene_settle ();
  field = walk_need (form (&desk), GTK_TYPE_ENTRY, "Oil: hours at the machine");
  g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (desk.root)), field));
  gtk_editable_set_text (GTK_EDITABLE (field), "0");
  g_assert_true (desk_act (form (&desk), "form.save"));
  scene_settle ();
  g_assert_true (walk_shows (desk_page (&desk), "never, as set for this machine"));
  desk_close (&desk);
}

static void
turn_to (GtkWidget  *root,
         const char *name,
         double      value)
{
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (walk_need (root, GTK_TYPE_SPIN_BUTTON, name)), value);
}

static void
type_into (GtkWidget  *root,
           const char *name,
           const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (walk_need (root, GTK_TYPE_ENTRY, name)), text);
}

static void
open_form (Desk       *desk,
           const char *action,
           const char *target)
{
  g_assert_true (gtk_widget_activate_action (desk_page (desk), action, "s", target));
  scene_settle ();
}

static void
test_new_machine (void)
{
  Desk desk = { 0 };
  const HwMachine *machine;

  desk_open (&desk);
  desk_open_page (&desk, "machines");
  open_form (&desk, "machines.add", "lockstitch");
  g_assert_true (desk_act (form (&desk), "form.save"));
  g_assert_true (walk_shows (form (&desk), "Give the machine a name, such as “The blue one”"));
  g_assert_cmpuint (room (&desk)->machines->len, ==, 2);

  type_into (form (&desk), "Name", "Table 4");
  turn_to (form (&desk), "Neutral number", 4.5);
  turn_to (form (&desk), "Widest stitch, mm", 5);
  type_into (form (&desk), "Oil: hours at the machine", "6");
  g_assert_true (desk_act (form (&desk), "form.save"));
  assert_no_form (&desk);
  machine = hw_room_find_machine (room (&desk), "table-4");
  g_assert_nonnull (machine);
  g_assert_cmpstr (machine->name, ==, "Table 4");
  g_assert_cmpfloat (machine->dial.neutral, ==, 4.5);
  g_assert_cmpfloat (machine->width_max_mm, ==, 5);
  g_assert_cmpuint (machine->n_care, ==, 1);
  g_assert_cmpstr (machine->care[0].care, ==, "oil");
  g_assert_cmpfloat (machine->care[0].limit, ==, 6);
  g_assert_true (walk_shows (desk_page (&desk), "Oil"));
  desk_close (&desk);
}

/* Changing one value leaves all others as they were. */
static void
test_change_machine (void)
{
  Desk desk = { 0 };
  g_autoptr (HwMachine) before = NULL;
  const HwMachine *after;
  HwRoom *given;

  desk_open (&desk);
  before = hw_machine_copy (hw_room_find_machine (room (&desk), "lockstitch"));
  before->start_hours = 61.75;           /* finer than the field shows */
  before->start_running = 21.4;
  given = hw_room_with_machine (room (&desk), before, NULL);
  g_assert_nonnull (given);
  g_assert_true (hw_workspace_take_room (desk.scene.workspace, given, NULL));
  desk_open_page (&desk, "machines");
  open_form (&desk, "machines.edit", "lockstitch");
  turn_to (form (&desk), "Foot lift, mm", 8);
  g_assert_true (desk_act (form (&desk), "form.save"));
  assert_no_form (&desk);
  after = hw_room_find_machine (room (&desk), "lockstitch");
  g_assert_cmpfloat (after->foot_lift_mm, ==, 8);
  g_assert_cmpfloat (after->start_hours, ==, 61.75);
  g_assert_cmpfloat (after->start_running, ==, 21.4);
  g_assert_cmpfloat (after->bobbin_cm3, ==, before->bobbin_cm3);
  g_assert_cmpfloat (after->dial.neutral, ==, before->dial.neutral);
  g_assert_cmpstr (after->system, ==, before->system);
  g_assert_cmpuint (after->n_stitches, ==, before->n_stitches);
  g_assert_cmpuint (g_strv_length (after->feet), ==, g_strv_length (before->feet));
  g_assert_cmpuint (g_strv_length (after->plates), ==, g_strv_length (before->plates));
  desk_close (&desk);
}

/* A machine begins with what another of its kind has learned, until it is told not to; a change of something else does
 * not make it forget. */
static void
test_teach (void)
{
  Desk       desk = { 0 };
  GtkWidget *teacher;

  desk_open (&desk);
  desk_open_page (&desk, "machines");
  open_form (&desk, "machines.edit", "lockstitch");
  g_assert_null (walk_find (form (&desk), GTK_TYPE_DROP_DOWN, "Its starting numbers begin with"));
  g_assert_true (desk_act (form (&desk), "form.cancel"));

  open_form (&desk, "machines.add", "lockstitch");
  type_into (form (&desk), "Name", "Table 4");
  teacher = walk_need (form (&desk), GTK_TYPE_DROP_DOWN, "Its starting numbers begin with");
  g_assert_null (hw_choice_peek (GTK_DROP_DOWN (teacher)));
  g_assert_false (hw_choice_select (GTK_DROP_DOWN (teacher), "overlocker"));     /* of another kind */
  g_assert_true (hw_choice_select (GTK_DROP_DOWN (teacher), "lockstitch"));
  g_assert_true (desk_act (form (&desk), "form.save"));
  assert_no_form (&desk);
  g_assert_cmpstr (hw_room_find_machine (room (&desk), "table-4")->learned_from, ==, "lockstitch");

  open_form (&desk, "machines.edit", "table-4");
  turn_to (form (&desk), "Foot lift, mm", 8);
  g_assert_true (desk_act (form (&desk), "form.save"));
  assert_no_form (&desk);
  g_assert_cmpstr (hw_room_find_machine (room (&desk), "table-4")->learned_from, ==, "lockstitch");

  open_form (&desk, "machines.edit", "table-4");
  teacher = walk_need (form (&desk), GTK_TYPE_DROP_DOWN, "Its starting numbers begin with");
  g_assert_true (hw_choice_select (GTK_DROP_DOWN (teacher), NULL));
  g_assert_true (desk_act (form (&desk), "form.save"));
  assert_no_form (&desk);
  g_assert_null (hw_room_find_machine (room (&desk), "table-4")->learned_from);
  desk_close (&desk);
}

/* What the journal names stays; what it never named can go. */
static void
test_remove_machine (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  sew (&desk, 10);
  desk_open_page (&desk, "machines");
  open_form (&desk, "machines.edit", "lockstitch");
  open_form (&desk, "machines.remove", "lockstitch");
  g_assert_nonnull (hw_room_find_machine (room (&desk), "lockstitch"));
  g_assert_nonnull (hw_window_peek_message (desk.window));
  open_form (&desk, "machines.edit", "overlocker");
  open_form (&desk, "machines.remove", "overlocker");
  g_assert_null (hw_room_find_machine (room (&desk), "overlocker"));
  assert_no_form (&desk);
  desk_close (&desk);
}

static void
test_chart (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  desk_open_page (&desk, "machines");
  g_assert_false (walk_shows (desk_page (&desk), "Hours by week"));
  sew (&desk, 90);
  g_assert_true (walk_shows (desk_page (&desk), "Hours by week"));
  g_assert_true (walk_shows (desk_page (&desk), "Workshop apron, Lockstitch machine: 1.5 h sewn"));
  desk_close (&desk);
}

static void
test_preferences (void)
{
  Desk desk = { 0 };
  double minutes;

  desk_open (&desk);
  minutes = hw_workspace_peek_plan (desk.scene.workspace)->as_listed.change_minutes;
  g_assert_true (desk_act (desk.root, "win.preferences"));
  turn_to (form (&desk), "Hours you sew in a week", 9);
  type_into (form (&desk), "To change the needle", "much");
  g_assert_true (desk_act (form (&desk), "form.save"));
  g_assert_true (isnan (room (&desk)->preferences->change_minutes[HW_CHANGE_PART_NEEDLE]));
  type_into (form (&desk), "To change the needle", "30");
  g_assert_true (desk_act (form (&desk), "form.save"));
  scene_settle ();
  g_assert_cmpfloat (room (&desk)->preferences->hours_a_week, ==, 9);
  g_assert_cmpfloat (room (&desk)->preferences->change_minutes[HW_CHANGE_PART_NEEDLE], ==, 30);
  g_assert_cmpfloat (hw_workspace_peek_plan (desk.scene.workspace)->as_listed.change_minutes, >, minutes);
  desk_close (&desk);
}

/* Inches are shown, and entered, wherever a length is; a length that is only looked at does not change. */
static void
test_inches (void)
{
  Desk desk = { 0 };
  GtkWidget *length;
  double     before;

  desk_open (&desk);
  desk_open_page (&desk, "order");
  g_assert_nonnull (walk_text (desk_page (&desk), "180 cm"));
  g_assert_true (desk_act (desk.root, "win.preferences"));
  g_assert_true (hw_choice_select (GTK_DROP_DOWN (walk_need (form (&desk), GTK_TYPE_DROP_DOWN, "Lengths in")),
                                   "inch"));
  g_assert_nonnull (walk_text (form (&desk), "A seam of 18¾ in, 7 yd of thread, an allowance of ⅝ in (15 mm)."));
  g_assert_true (hw_choice_select (GTK_DROP_DOWN (walk_need (form (&desk), GTK_TYPE_DROP_DOWN, "Numbers")), "comma"));
  g_assert_true (desk_act (form (&desk), "form.save"));
  scene_settle ();
  g_assert_cmpstr (room (&desk)->preferences->units, ==, "inch");
  g_assert_cmpstr (room (&desk)->preferences->numbers, ==, "comma");
  desk_open_page (&desk, "order");
  g_assert_nonnull (walk_text (desk_page (&desk), "71 in"));
  g_assert_null (walk_text (desk_page (&desk), "180 cm"));

  desk_open_page (&desk, "making-up");
  hw_workspace_select (desk.scene.workspace, "1");
  before = scene_step (&desk.scene, "1")->length_cm;
  g_assert_true (desk_act (desk_page (&desk), "making-up.edit-step"));
  length = walk_need (desk_page (&desk), GTK_TYPE_SPIN_BUTTON, "Length of all pieces together, inches");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (length)), ==, "9,4");
  g_assert_true (desk_act (form (&desk), "form.save"));
  g_assert_cmpfloat (scene_step (&desk.scene, "1")->length_cm, ==, before);
  g_assert_true (desk_act (desk_page (&desk), "making-up.edit-step"));
  turn_to (form (&desk), "Length of all pieces together, inches", 10);
  g_assert_true (desk_act (form (&desk), "form.save"));
  g_assert_cmpfloat_with_epsilon (scene_step (&desk.scene, "1")->length_cm, 25.4, 1e-9);
  desk_close (&desk);
  hw_words_set_style (FALSE, HW_NUMBER_LOCALE);
}

/* ---- what to sew next ---- */

static gboolean
is_counted (gpointer data)
{
  return walk_shows (desk_page (data), "Scarf");
}

static gboolean
is_mixed (gpointer data)
{
  return walk_text (desk_page (data), "Mixed, the changes take") != NULL;
}

static gboolean
is_apron_counted (gpointer data)
{
  return walk_shows (desk_page (data), "Workshop apron");
}

/* One project cannot be moved or mixed. */
static void
test_queue_of_one (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  desk_open_page (&desk, "queue");
  scene_wait (is_apron_counted, &desk);
  g_assert_null (walk_find (desk_page (&desk), GTK_TYPE_BUTTON, "Sew Workshop apron later"));
  g_assert_false (gtk_widget_get_visible (walk_need (desk_page (&desk), GTK_TYPE_CHECK_BUTTON, NULL)));
  desk_close (&desk);
}

/* A second project in the room: the apron's steps under another name. */
static void
add_scarf (Desk *desk)
{
  g_autofree char *path = g_build_filename (desk->scene.room, "projects", "scarf.handwheel", NULL);
  g_autoptr (HwProject) apron = scene_read_file (&desk->scene);
  g_autofree char *xml = hw_project_to_xml (apron, NULL);
  g_autoptr (GString) scarf = g_string_new (xml);

  g_assert_cmpuint (g_string_replace (scarf, "id=\"apron\"", "id=\"scarf\"", 1), ==, 1);
  g_assert_cmpuint (g_string_replace (scarf, "Workshop apron", "Scarf", 1), ==, 1);
  g_assert_true (g_file_set_contents (path, scarf->str, -1, NULL));
}

static void
test_queue (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  add_scarf (&desk);
  desk_open_page (&desk, "queue");
  scene_wait (is_counted, &desk);
  g_assert_false (gtk_widget_get_sensitive (walk_need (desk_page (&desk), GTK_TYPE_BUTTON, "Sew Scarf earlier")));
  g_assert_true (gtk_widget_get_sensitive (walk_need (desk_page (&desk), GTK_TYPE_BUTTON, "Sew Scarf later")));
  g_assert_true (gtk_widget_activate_action (desk_page (&desk), "queue.move", "(ui)", 0, 1));
  scene_settle ();
  g_assert_cmpstr (room (&desk)->preferences->queue[0], ==, "apron");           /* by title the scarf came first */
  g_assert_cmpstr (room (&desk)->preferences->queue[1], ==, "scarf");
  gtk_check_button_set_active (GTK_CHECK_BUTTON (walk_need (desk_page (&desk), GTK_TYPE_CHECK_BUTTON, NULL)), TRUE);
  scene_wait (is_mixed, &desk);
  g_assert_true (room (&desk)->preferences->mixed);
  desk_close (&desk);
}

static gboolean
is_queue_counted (gpointer data)
{
  GtkStack *stack = walk_stack (((Desk *) data)->root, "queue");

  return walk_shows (gtk_stack_get_child_by_name (stack, "queue"), "Workshop apron");
}

/* The count comes when the page has been left: the rows have their height all the same. */
static void
test_queue_counted_out_of_sight (void)
{
  Desk desk = { 0 };
  Hold hold;
  g_autoptr (GString) faults = g_string_new (NULL);

  desk_open (&desk);
  hold_threads (&hold);
  desk_open_page (&desk, "queue");
  desk_open_page (&desk, "machines");
  g_assert_false (is_queue_counted (&desk));
  release_threads (&hold);
  scene_wait (is_queue_counted, &desk);
  gtk_test_widget_wait_for_draw (desk.root);
  desk_open_page (&desk, "queue");
  g_assert_cmpuint (fits_look (desk.page, "queue", faults), >, 6);
  g_assert_cmpstr (faults->str, ==, "");
  desk_close (&desk);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/machines/care", test_care);
  g_test_add_func ("/machines/checklist-height", test_checklist_height);
  g_test_add_func ("/machines/change-needle", test_change_needle);
  g_test_add_func ("/machines/change-worn-needle", test_change_worn_needle);
  g_test_add_func ("/machines/needle-from-elsewhere", test_needle_from_elsewhere);
  g_test_add_func ("/machines/care-last", test_care_last);
  g_test_add_func ("/machines/corrected-minutes", test_corrected_minutes);
  g_test_add_func ("/machines/care-dates", test_care_dates);
  g_test_add_func ("/machines/no-interval", test_no_interval);
  g_test_add_func ("/machines/new", test_new_machine);
  g_test_add_func ("/machines/change", test_change_machine);
  g_test_add_func ("/machines/teach", test_teach);
  g_test_add_func ("/machines/remove", test_remove_machine);
  g_test_add_func ("/machines/chart", test_chart);
  g_test_add_func ("/queue/order", test_queue);
  g_test_add_func ("/queue/one", test_queue_of_one);
  g_test_add_func ("/queue/counted-out-of-sight", test_queue_counted_out_of_sight);
  g_test_add_func ("/preferences/keep", test_preferences);
  g_test_add_func ("/preferences/inches", test_inches);
  return g_test_run ();
}
