/* test-fault-page.c - stitch faults in the real window: choose, answer, re-rank, remedy, undo
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <gtk/gtk.h>
#include <math.h>
#include <string.h>

#include "desk.h"
#include "plan/faults.h"
#include "walk.h"
#include "window/faults-page.h"

#define MACHINE "lockstitch"

static void
open_faults (Desk *self)
{
  desk_open (self);
  desk_open_page (self, "faults");
  g_assert_true (HW_IS_FAULTS_PAGE (self->page));
}

static void
act (Desk       *desk,
     const char *action,
     const char *target)
{
  if (target != NULL)
    g_assert_true (gtk_widget_activate_action (desk->page, action, "s", target));
  else
    g_assert_true (gtk_widget_activate_action (desk->page, action, NULL));
  scene_settle ();
}

/* As a person reaches it: the step selected, the button in its set-up. */
static void
ask_for_step (Desk       *desk,
              const char *number)
{
  hw_workspace_select (desk->scene.workspace, number);
  g_assert_true (gtk_widget_activate_action (desk->root, "win.stitch-fault", NULL));
  scene_settle ();
  g_assert_cmpstr (hw_window_get_page (desk->window), ==, "faults");
}

static const HwRoom *
room (Desk *desk)
{
  return hw_workspace_get_room (desk->scene.workspace);
}

static const HwMachine *
machine (Desk *desk)
{
  return hw_room_find_machine (room (desk), MACHINE);
}

static const HwSetup *
setup (Desk       *desk,
       const char *number)
{
  const HwPlan *plan = hw_workspace_peek_plan (desk->scene.workspace);

  return plan->setups[hw_project_find_step (plan->project, number)];
}

/* The targets of the buttons “That is it”, in the order they stand: "dial-high not-under-spring …". */
static void
list_causes (GtkWidget *widget,
             GString   *causes)
{
  if (GTK_IS_BUTTON (widget)
      && g_strcmp0 (gtk_actionable_get_action_name (GTK_ACTIONABLE (widget)), "faults.found") == 0)
    g_string_append_printf (causes, "%s%s", causes->len > 0 ? " " : "",
                            g_variant_get_string (gtk_actionable_get_action_target_value (GTK_ACTIONABLE (widget)),
                                                  NULL));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    list_causes (child, causes);
}

static void
assert_causes (Desk       *desk,
               const char *expected)
{
  g_autoptr (GString) causes = g_string_new (NULL);

  list_causes (desk->page, causes);
  g_assert_cmpstr (causes->str, ==, expected);
}

/* Where the journal's clock stands still within a second, the order of the file decides; nothing to wait for. */
static guint
count_live (Desk        *desk,
            HwEntryKind  kind)
{
  guint n = 0;

  for (guint i = 0; i < room (desk)->entries->len; i++)
    {
      const HwJournalEntry *entry = g_ptr_array_index (room (desk)->entries, i);

      if (entry->kind == kind && !g_hash_table_contains (room (desk)->cancelled, entry->id))
        n++;
    }
  return n;
}

/* A card for each fault that this kind of machine can have. */
static guint
count_cards (GtkWidget *widget)
{
  guint n = GTK_IS_BUTTON (widget)
            && g_strcmp0 (gtk_actionable_get_action_name (GTK_ACTIONABLE (widget)), "faults.choose") == 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += count_cards (child);
  return n;
}

static void
test_gallery (void)
{
  Desk              desk = { 0 };
  const HwHandbook *handbook;
  guint             n = 0;

  open_faults (&desk);
  ask_for_step (&desk, "3");
  handbook = hw_workspace_get_handbook (desk.scene.workspace);
  for (gsize i = 0; i < handbook->n_faults; i++)
    n += (handbook->faults[i].machines & (1u << HW_MACHINE_LOCKSTITCH)) != 0;
  g_assert_cmpuint (count_cards (desk.page), ==, n);
  g_assert_cmpuint (n, <, handbook->n_faults);
  desk_close (&desk);
}

static void
test_dial (void)
{
  Desk   desk = { 0 };
  double start;

  open_faults (&desk);
  ask_for_step (&desk, "3");
  start = setup (&desk, "3")->values[HW_FIELD_DIAL].value;
  act (&desk, "faults.choose", "bobbin-on-top");
  /* a machine that has not sewn yet has no lint: that check goes to the end */
  assert_causes (&desk, "dial-high not-under-spring spring-loose lint-under-spring");
  g_assert_nonnull (walk_text (desk.page, "Beside each cause: how likely it is among these"));
  act (&desk, "faults.not", "not-under-spring");
  assert_causes (&desk, "dial-high spring-loose lint-under-spring");
  act (&desk, "faults.found", "dial-high");
  assert_causes (&desk, "");
  act (&desk, "faults.fix", NULL);
  g_assert_cmpuint (count_live (&desk, HW_ENTRY_FAULT), ==, 1);
  /* the plan, and so the card, has it */
  g_assert_cmpfloat (setup (&desk, "3")->values[HW_FIELD_DIAL].value, ==, start - 0.5);
  g_assert_cmpfloat (hw_fault_dial_now (room (&desk), machine (&desk), setup (&desk, "3")), ==, start - 0.5);
  act (&desk, "faults.undo", NULL);
  g_assert_cmpuint (count_live (&desk, HW_ENTRY_FAULT), ==, 0);
  g_assert_cmpfloat (setup (&desk, "3")->values[HW_FIELD_DIAL].value, ==, start);
  g_assert_cmpint (setup (&desk, "3")->values[HW_FIELD_DIAL].origin, !=, HW_ORIGIN_OVERRIDDEN);
  desk_close (&desk);
}

static void
test_needle (void)
{
  Desk            desk = { 0 };
  const HwNeedle *needle;

  open_faults (&desk);
  ask_for_step (&desk, "1");
  act (&desk, "faults.choose", "needle-cutting");
  act (&desk, "faults.found", "blunt");
  act (&desk, "faults.fix", NULL);
  needle = hw_room_get_state (room (&desk), machine (&desk))->needle;
  g_assert_nonnull (needle);
  g_assert_cmpint (needle->nm, ==, (int) setup (&desk, "1")->values[HW_FIELD_SIZE].value);
  g_assert_cmpfloat (needle->at_machine_hours, ==, 0);
  g_assert_cmpuint (count_live (&desk, HW_ENTRY_LOAD), ==, 1);
  g_assert_cmpuint (count_live (&desk, HW_ENTRY_FAULT), ==, 1);
  act (&desk, "faults.undo", NULL);
  g_assert_null (hw_room_get_state (room (&desk), machine (&desk))->needle);
  g_assert_cmpuint (count_live (&desk, HW_ENTRY_LOAD), ==, 0);
  g_assert_cmpuint (count_live (&desk, HW_ENTRY_FAULT), ==, 0);
  desk_close (&desk);
}

static void
test_care (void)
{
  Desk desk = { 0 };

  open_faults (&desk);
  ask_for_step (&desk, "1");
  act (&desk, "faults.choose", "uneven-feed");
  act (&desk, "faults.found", "feed");
  act (&desk, "faults.fix", NULL);
  g_assert_cmpuint (count_live (&desk, HW_ENTRY_CARE), ==, 1);
  g_assert_cmpuint (count_live (&desk, HW_ENTRY_FAULT), ==, 1);
  desk_close (&desk);
}

/* What a person does by the sentence is noted alone; the next time it ranks higher. */
static void
test_note (void)
{
  Desk desk = { 0 };

  open_faults (&desk);
  ask_for_step (&desk, "1");
  for (int i = 0; i < 8; i++)
    {
      act (&desk, "faults.choose", "nest");
      act (&desk, "faults.found", "drawn-in");
      act (&desk, "faults.note", NULL);
    }
  g_assert_cmpuint (count_live (&desk, HW_ENTRY_FAULT), ==, 8);
  act (&desk, "faults.choose", "nest");
  assert_causes (&desk, "drawn-in tails foot-or-lever bobbin");
  desk_close (&desk);
}

static void
test_all_ruled_out (void)
{
  Desk desk = { 0 };

  open_faults (&desk);
  ask_for_step (&desk, "1");
  act (&desk, "faults.choose", "creep");
  act (&desk, "faults.not", "feed-ratio");
  act (&desk, "faults.not", "pile");
  act (&desk, "faults.not", "unpinned");
  assert_causes (&desk, "");
  act (&desk, "faults.not-found", NULL);
  g_assert_cmpuint (count_live (&desk, HW_ENTRY_FAULT), ==, 1);
  act (&desk, "faults.back", NULL);
  act (&desk, "faults.choose", "creep");
  assert_causes (&desk, "unpinned feed-ratio pile");
  act (&desk, "faults.not", "unpinned");
  act (&desk, "faults.again", NULL);
  assert_causes (&desk, "unpinned feed-ratio pile");
  desk_close (&desk);
}

/* Without a step the machine is chosen, and its own faults are shown. */
static void
test_machine (void)
{
  Desk         desk = { 0 };
  GtkDropDown *steps, *machines;
  guint        lockstitch;

  open_faults (&desk);
  ask_for_step (&desk, "1");
  lockstitch = count_cards (desk.page);
  steps = GTK_DROP_DOWN (walk_need (desk.page, GTK_TYPE_DROP_DOWN, "Step that was sewn"));
  machines = GTK_DROP_DOWN (walk_need (desk.page, GTK_TYPE_DROP_DOWN, "Machine on which it shows"));
  g_assert_false (gtk_widget_get_sensitive (GTK_WIDGET (machines)));
  gtk_drop_down_set_selected (steps, 0);
  scene_settle ();
  g_assert_true (gtk_widget_get_sensitive (GTK_WIDGET (machines)));
  gtk_drop_down_set_selected (machines, 1);
  scene_settle ();
  g_assert_cmpuint (count_cards (desk.page), !=, lockstitch);
  act (&desk, "faults.choose", "overlock-loops");
  assert_causes (&desk, "looper-loose width threading");
  desk_close (&desk);
}

/* ---- after sewing ---- */

static void
test_finish (void)
{
  Desk       desk = { 0 };
  GtkWidget *page, *button;

  open_faults (&desk);
  g_assert_true (gtk_widget_activate_action (desk.root, "win.page", "s", "finish"));
  scene_settle ();
  page = gtk_stack_get_child_by_name (walk_stack (desk.root, "making-up"), "finish");
  g_assert_null (walk_find (page, GTK_TYPE_BUTTON, "All done at Lockstitch machine: note it"));
  g_assert_true (hw_workspace_mark_done (desk.scene.workspace, "1", TRUE));
  scene_settle ();
  g_assert_true (walk_shows (page, "1  Switch off and unplug"));
  button = walk_need (page, GTK_TYPE_BUTTON, "All done at Lockstitch machine: note it");
  g_signal_emit_by_name (button, "clicked");
  scene_settle ();
  g_assert_cmpuint (count_live (&desk, HW_ENTRY_CARE), ==, 1);
  g_assert_true (walk_shows (page, "No machine has sewn since it was last closed."));
  g_assert_true (hw_workspace_undo_entry (desk.scene.workspace));
  scene_settle ();
  g_assert_cmpuint (count_live (&desk, HW_ENTRY_CARE), ==, 0);
  g_assert_false (walk_shows (page, "No machine has sewn since it was last closed."));
  desk_close (&desk);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fault-page/gallery", test_gallery);
  g_test_add_func ("/fault-page/dial", test_dial);
  g_test_add_func ("/fault-page/needle", test_needle);
  g_test_add_func ("/fault-page/care", test_care);
  g_test_add_func ("/fault-page/note", test_note);
  g_test_add_func ("/fault-page/all-ruled-out", test_all_ruled_out);
  g_test_add_func ("/fault-page/machine", test_machine);
  g_test_add_func ("/fault-page/finish", test_finish);
  return g_test_run ();
}
