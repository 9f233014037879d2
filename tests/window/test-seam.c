/* test-seam.c - a test seam through the real window: three presses, the dial moves, Undo restores it
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <gtk/gtk.h>
#include <string.h>

#include "desk.h"
#include "model/edit.h"
#include "model/test-seams.h"
#include "plan/test-seam.h"
#include "walk.h"
#include "window/test-seam-panel.h"

static void
set_up (Desk *desk, gconstpointer data)
{
  desk_open (desk);
  hw_workspace_select (desk->scene.workspace, "1");
  scene_settle ();
}

static void
tear_down (Desk *desk, gconstpointer data)
{
  gtk_menu_button_popdown (GTK_MENU_BUTTON (walk_need (desk_page (desk), GTK_TYPE_MENU_BUTTON, "Test seam")));
  scene_settle ();
  desk_close (desk);
}

static const HwSetup *
setup (Desk *desk)
{
  return hw_plan_find_test_setup (hw_workspace_peek_plan (desk->scene.workspace), "1");
}

static double
dial (Desk *desk)
{
  return setup (desk)->values[HW_FIELD_DIAL].value;
}

static guint
count_seams (Desk *desk)
{
  g_autoptr (GPtrArray) seams = hw_room_list_test_seams (hw_workspace_get_room (desk->scene.workspace),
                                                         setup (desk)->machine->id);

  return seams->len;
}

/* The panel's own page that is shown. */
static GtkWidget *
shown (Desk *desk)
{
  GtkWidget *panel = walk_need (desk_page (desk), HW_TYPE_TEST_SEAM_PANEL, NULL);

  return gtk_stack_get_visible_child (walk_stack (panel, "looks"));
}

static void
press (Desk *desk, const char *name)
{
  g_signal_emit_by_name (walk_need (shown (desk), GTK_TYPE_BUTTON, name), "clicked");
  scene_settle ();
}

static void
open_panel (Desk *desk)
{
  gtk_menu_button_popup (GTK_MENU_BUTTON (walk_need (desk_page (desk), GTK_TYPE_MENU_BUTTON, "Test seam")));
  scene_settle ();
}

/* Three presses, from the page “Making up” and from the order of work. */
static void
test_three_presses (Desk *desk, gconstpointer data)
{
  double before = dial (desk);

  g_assert_true (gtk_widget_activate_action (desk->root, "win.page", "s", data));
  scene_settle ();
  open_panel (desk);
  press (desk, "Needle thread loops underneath");
  g_assert_nonnull (walk_text (shown (desk), "Re-thread with the foot up"));
  g_assert_cmpuint (count_seams (desk), ==, 0);
  press (desk, "Still there: note it");

  g_assert_cmpuint (count_seams (desk), ==, 1);
  g_assert_cmpfloat (dial (desk), >, before);
  g_assert_nonnull (walk_text (shown (desk), "Noted, at "));

  press (desk, "Undo");
  g_assert_cmpuint (count_seams (desk), ==, 0);
  g_assert_cmpfloat (dial (desk), ==, before);
}

static void
test_pucker (Desk *desk, gconstpointer data)
{
  double before = dial (desk);

  open_panel (desk);
  press (desk, "Puckered");
  g_assert_nonnull (walk_text (shown (desk), "Cut both threads"));
  press (desk, "It stays puckered");
  g_assert_cmpfloat (dial (desk), ==, before);
  g_assert_nonnull (walk_text (shown (desk), "Leave the dial."));
  press (desk, "Sew another");
  press (desk, "Puckered");
  press (desk, "It lies flat");
  g_assert_cmpfloat (dial (desk), <=, before);
  g_assert_cmpuint (count_seams (desk), ==, 2);
}

/* The dial that the next scrap is sewn at is the one just told; what was set by hand is what is noted. */
static void
test_next_scrap (Desk *desk, gconstpointer data)
{
  double before = dial (desk);
  GtkWidget *spin;
  g_autoptr (GPtrArray) seams = NULL;

  open_panel (desk);
  press (desk, "Bobbin thread shows on top");
  press (desk, "Note it");
  press (desk, "Sew another");
  spin = walk_need (shown (desk), GTK_TYPE_SPIN_BUTTON, "Dial the scrap was sewn at");
  g_assert_cmpfloat (gtk_spin_button_get_value (GTK_SPIN_BUTTON (spin)), <=, before - 0.5);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (spin), 2.5);
  press (desk, "Same on both sides, flat when pulled");
  g_assert_nonnull (walk_text (shown (desk), "Sew at 2½."));
  press (desk, "Note it");
  seams = hw_room_list_test_seams (hw_workspace_get_room (desk->scene.workspace), setup (desk)->machine->id);
  g_assert_cmpfloat (((HwJournalEntry *) g_ptr_array_index (seams, 1))->dial, ==, 2.5);
}

/* What is good of a buttonhole is no seam that is the same on both sides. */
static void
test_buttonhole (Desk *desk, gconstpointer data)
{
  const HwProject *project = hw_workspace_peek_project (desk->scene.workspace);
  HwStep step = *hw_project_get_step (project, (gsize) hw_project_find_step (project, "1"));

  step.purpose = (char *) "buttonhole";
  step.seam = step.stitch = NULL;
  hw_workspace_edit (desk->scene.workspace, hw_edit_put_step (project, &step, NULL), "buttonhole", NULL, NULL);
  scene_settle ();
  open_panel (desk);
  press (desk, "Smooth on top, a little needle thread underneath");
  g_assert_nonnull (walk_text (shown (desk), "Sew at "));
}

/* Looking at the cards, a step of the first one is meant, though a hand step is selected and stays so. */
static void
test_cards_beside_selected (Desk *desk, gconstpointer data)
{
  hw_workspace_select (desk->scene.workspace, "2");
  g_assert_true (gtk_widget_activate_action (desk->root, "win.page", "s", "cards"));
  scene_settle ();
  g_assert_cmpstr (hw_workspace_peek_selected (desk->scene.workspace), ==, "2");
  g_assert_true (gtk_widget_get_sensitive (walk_need (desk_page (desk), GTK_TYPE_MENU_BUTTON, "Test seam")));
}

/* Only where there is a needle thread dial to learn. */
static void
test_offered (Desk *desk, gconstpointer data)
{
  GtkWidget *button = walk_need (desk_page (desk), GTK_TYPE_MENU_BUTTON, "Test seam");

  g_assert_true (gtk_widget_get_visible (button));
  hw_workspace_select (desk->scene.workspace, "2");      /* a hand step */
  scene_settle ();
  g_assert_false (gtk_widget_get_visible (button));
}

/* The believed dial on each machine, what was sewn, and the bobbin's drop test with its caution. */
static void
test_more (Desk *desk, gconstpointer data)
{
  GtkWidget *panel = walk_need (desk_page (desk), HW_TYPE_TEST_SEAM_PANEL, NULL);

  open_panel (desk);
  press (desk, "Needle thread loops underneath");
  press (desk, "Still there: note it");
  press (desk, "Sew another");
  g_assert_nonnull (walk_find (panel, GTK_TYPE_EXPANDER, NULL));
  for (GtkWidget *expander = walk_find (panel, GTK_TYPE_EXPANDER, NULL); expander != NULL;
       expander = gtk_widget_get_next_sibling (expander))
    gtk_expander_set_expanded (GTK_EXPANDER (expander), TRUE);
  scene_settle ();
  g_assert_nonnull (walk_text (panel, "Only for a metal case"));
  g_assert_nonnull (walk_text (panel, "The machine’s manual first"));
  g_assert_nonnull (walk_text (panel, setup (desk)->machine->name));
}

/* A scrap is not noted at a dial that nobody typed. */
static void
test_no_number (Desk *desk, gconstpointer data)
{
  GtkWidget *spin;

  open_panel (desk);
  spin = walk_need (shown (desk), GTK_TYPE_SPIN_BUTTON, "Dial the scrap was sewn at");
  gtk_editable_set_text (GTK_EDITABLE (spin), "3 or 4");
  press (desk, "Needle thread loops underneath");
  g_assert_cmpstr (walk_text (shown (desk), "Dial the scrap was sewn at must"), ==,
                   "Dial the scrap was sewn at must be a number from 0 to 9; it is “3 or 4”");
  gtk_editable_set_text (GTK_EDITABLE (spin), "3");
  press (desk, "Needle thread loops underneath");
  press (desk, "Still there: note it");
  g_assert_nonnull (walk_text (shown (desk), "Noted, at 3: "));
}

static void
name_step (Desk *desk, const char *name)
{
  const HwProject *project = hw_workspace_peek_project (desk->scene.workspace);
  HwStep step = *scene_step (&desk->scene, "1");

  step.name = (char *) name;
  hw_workspace_edit (desk->scene.workspace, hw_edit_put_step (project, &step, NULL), "name", NULL, NULL);
  scene_settle ();
}

static void
name_machine (Desk *desk, const char *name)
{
  HwMachine *machine = hw_machine_copy (setup (desk)->machine);

  g_free (machine->name);
  machine->name = g_strdup (name);
  g_assert_true (hw_workspace_take_room (desk->scene.workspace,
                                         hw_room_with_machine (hw_workspace_get_room (desk->scene.workspace), machine,
                                                               NULL), NULL));
  hw_machine_free (machine);
  scene_settle ();
}

static int
width (Desk *desk)
{
  int natural = 0;

  gtk_widget_measure (walk_need (desk_page (desk), HW_TYPE_TEST_SEAM_PANEL, NULL), GTK_ORIENTATION_HORIZONTAL, -1, NULL,
                      &natural, NULL, NULL);
  return natural;
}

/* Whatever is pressed, the next button stands where the eye is: the panel grows and shrinks downwards only. */
static void
test_width (Desk *desk, gconstpointer data)
{
  GtkWidget *panel = walk_need (desk_page (desk), HW_TYPE_TEST_SEAM_PANEL, NULL);
  int before;

  open_panel (desk);
  before = width (desk);
  name_step (desk, "Join the shoulder seams and the yoke, with the tape in the seam");
  g_assert_cmpint (width (desk), ==, before);
  name_machine (desk, "The old machine by the window that was grandmother’s");
  g_assert_cmpint (width (desk), ==, before);
  press (desk, "Needle thread loops underneath");
  g_assert_cmpint (width (desk), ==, before);
  press (desk, "Still there: note it");
  g_assert_cmpint (width (desk), ==, before);
  press (desk, "Sew another");
  press (desk, "Puckered");
  g_assert_cmpint (width (desk), ==, before);
  press (desk, "It stays puckered");
  press (desk, "Sew another");
  g_assert_cmpint (width (desk), ==, before);
  for (GtkWidget *expander = walk_find (panel, GTK_TYPE_EXPANDER, NULL); expander != NULL;
       expander = gtk_widget_get_next_sibling (expander))
    {
      gtk_expander_set_expanded (GTK_EXPANDER (expander), TRUE);
      scene_settle ();
      g_assert_cmpint (width (desk), ==, before);
    }
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add ("/test-seam/three-presses/making-up", Desk, "making-up", set_up, test_three_presses, tear_down);
  g_test_add ("/test-seam/three-presses/cards", Desk, "cards", set_up, test_three_presses, tear_down);
  g_test_add ("/test-seam/three-presses/order", Desk, "order", set_up, test_three_presses, tear_down);
  g_test_add ("/test-seam/buttonhole", Desk, NULL, set_up, test_buttonhole, tear_down);
  g_test_add ("/test-seam/cards-beside-selected", Desk, NULL, set_up, test_cards_beside_selected, tear_down);
  g_test_add ("/test-seam/pucker", Desk, NULL, set_up, test_pucker, tear_down);
  g_test_add ("/test-seam/next-scrap", Desk, NULL, set_up, test_next_scrap, tear_down);
  g_test_add ("/test-seam/offered", Desk, NULL, set_up, test_offered, tear_down);
  g_test_add ("/test-seam/no-number", Desk, NULL, set_up, test_no_number, tear_down);
  g_test_add ("/test-seam/width", Desk, NULL, set_up, test_width, tear_down);
  g_test_add ("/test-seam/more", Desk, NULL, set_up, test_more, tear_down);
  return g_test_run ();
}
