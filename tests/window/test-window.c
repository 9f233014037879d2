/* test-window.c - the real window: pages, edits through its controls, messages
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <gtk/gtk.h>
#include <string.h>

#include "desk.h"
#include "temp-folder.h"
#include "walk.h"
#include "window/find-drawer.h"
#include "window/find-index.h"
#include "window/form.h"
#include "window/setup-panel.h"
#include "window/step-list.h"

static const HwProject *
project (Desk *desk)
{
  return hw_workspace_peek_project (desk->scene.workspace);
}

/* "1 2 3 4" */
static void
assert_numbers (Desk       *desk,
                const char *expected)
{
  GString *numbers = g_string_new (NULL);

  for (guint i = 0; i < project (desk)->steps->len; i++)
    g_string_append_printf (numbers, "%s%s", i > 0 ? " " : "", hw_project_get_step (project (desk), i)->number);
  g_assert_cmpstr (numbers->str, ==, expected);
  g_string_free (numbers, TRUE);
}

static GtkWidget *
form (Desk *desk)
{
  return walk_need (desk_page (desk), HW_TYPE_FORM, NULL);
}

static void
type_into (Desk       *desk,
           const char *name,
           const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (walk_need (form (desk), GTK_TYPE_ENTRY, name)), text);
}

static void
turn_to (GtkWidget  *root,
         const char *name,
         double      value)
{
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (walk_need (root, GTK_TYPE_SPIN_BUTTON, name)), value);
  scene_settle ();
}

static gboolean
has_no_form (gpointer data)
{
  return walk_find (desk_page (data), HW_TYPE_FORM, NULL) == NULL;
}

static void
save_form (Desk *desk)
{
  g_assert_true (desk_act (form (desk), "form.save"));
  scene_wait (has_no_form, desk);
}

/* ---- pages ---- */

static void
test_pages (void)
{
  static const struct { const char *name; const char *shows; } pages[] = {
    { "making-up", "Fabrics and thread" },
    { "order", "Hem the pocket" },
    { "cards", "Paper" },
    { "notions", "To buy, as far as the room knows" },
    { "machines", "Machines" },
    { "faults", "Stitch faults" },
    { "finish", "Finish for today" },
    { "handbook", "Handbook" },
  };
  Desk desk = { 0 };

  desk_open (&desk);
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      desk_open_page (&desk, pages[i].name);
      g_assert_cmpstr (hw_window_get_page (desk.window), ==, pages[i].name);
      gtk_test_widget_wait_for_draw (desk.root);
      g_assert_true (gtk_widget_get_mapped (desk_page (&desk)));
      g_assert_true (walk_shows (desk_page (&desk), pages[i].shows));
    }
  g_assert_true (gtk_widget_activate_action (desk.root, "win.page", "s", "no-such-page"));
  g_assert_cmpstr (hw_window_get_page (desk.window), ==, "handbook");
  desk_close (&desk);
}

static void
test_page_buttons (void)
{
  Desk desk = { 0 };
  GtkWidget *order;
  GtkWidget *making_up;

  desk_open (&desk);
  order = walk_need (desk.root, GTK_TYPE_TOGGLE_BUTTON, "Order of work");
  making_up = walk_need (desk.root, GTK_TYPE_TOGGLE_BUTTON, "Making up");
  g_assert_true (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (making_up)));
  g_signal_emit_by_name (order, "clicked");
  scene_settle ();
  g_assert_cmpstr (hw_window_get_page (desk.window), ==, "order");
  g_assert_true (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (order)));
  g_assert_false (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (making_up)));
  desk_close (&desk);
}

/* ---- history ---- */

static void
test_undo (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "4");
  scene_settle ();
  g_assert_true (desk_act (desk_page (&desk), "making-up.remove-step"));
  assert_numbers (&desk, "1 2 3");
  g_assert_true (desk_act (desk.root, "win.undo"));
  assert_numbers (&desk, "1 2 3 4");
  g_assert_true (desk_act (desk.root, "win.redo"));
  assert_numbers (&desk, "1 2 3");
  g_assert_true (desk_act (desk.root, "win.undo"));
  desk_act (desk.root, "win.undo");                  /* nothing left; disabled */
  assert_numbers (&desk, "1 2 3 4");
  desk_close (&desk);
}

/* ---- the making up ---- */

static void
test_move (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "4");
  scene_settle ();
  g_assert_true (desk_act (desk_page (&desk), "making-up.move-up"));
  assert_numbers (&desk, "1 2 4 3");
  g_assert_true (desk_act (desk_page (&desk), "making-up.move-up"));
  assert_numbers (&desk, "1 4 2 3");
  g_assert_cmpstr (hw_workspace_peek_selected (desk.scene.workspace), ==, "4");
  g_assert_true (desk_act (desk_page (&desk), "making-up.move-down"));
  assert_numbers (&desk, "1 2 4 3");
  g_assert_true (desk_act (desk.root, "win.undo"));  /* one gesture, one undo */
  assert_numbers (&desk, "1 2 3 4");
  desk_close (&desk);
}

static void
test_add_operation (void)
{
  Desk desk = { 0 };
  const HwStep *step;

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "2");
  scene_settle ();
  g_assert_true (desk_act (desk_page (&desk), "making-up.add-operation"));
  type_into (&desk, "Name", "Straps");
  type_into (&desk, "Comes after steps", "1, 2");
  turn_to (form (&desk), "Layers of Twill", 2);
  turn_to (form (&desk), "Length of all pieces together, cm", 144);
  turn_to (form (&desk), "Pieces, each started anew", 2);
  save_form (&desk);

  assert_numbers (&desk, "1 2 5 3 4");
  step = scene_step (&desk.scene, "5");
  g_assert_cmpint (step->kind, ==, HW_STEP_OPERATION);
  g_assert_cmpstr (step->name, ==, "Straps");
  g_assert_cmpstr (step->purpose, ==, "seam");
  g_assert_cmpfloat (step->length_cm, ==, 144);
  g_assert_cmpint (step->pieces, ==, 2);
  g_assert_cmpuint (g_strv_length (step->after), ==, 2);
  g_assert_cmpstr (step->after[1], ==, "2");
  g_assert_cmpuint (step->n_plies, ==, 1);
  g_assert_cmpstr (step->plies[0].fabric, ==, "twill");
  g_assert_cmpint (step->plies[0].count, ==, 2);
  g_assert_cmpstr (hw_workspace_peek_selected (desk.scene.workspace), ==, "5");
  g_assert_nonnull (walk_text (desk_page (&desk), "5  Straps"));
  g_assert_true (desk_act (desk.root, "win.undo"));
  assert_numbers (&desk, "1 2 3 4");
  desk_close (&desk);
}

static void
test_add_hand_step (void)
{
  Desk desk = { 0 };
  const HwStep *step;

  desk_open (&desk);
  g_assert_true (desk_act (desk_page (&desk), "making-up.add-hand-step"));
  type_into (&desk, "Name", "Turn the straps");
  turn_to (form (&desk), "Minutes", 7);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (walk_need (form (&desk), GTK_TYPE_DROP_DOWN, "What is done")),
                              HW_HAND_TURN);
  save_form (&desk);
  step = scene_step (&desk.scene, "5");
  g_assert_cmpint (step->kind, ==, HW_STEP_HAND);
  g_assert_cmpint (step->hand, ==, HW_HAND_TURN);
  g_assert_cmpfloat (step->minutes, ==, 7);
  desk_close (&desk);
}

/* What is wrong is said in the form; the form and what was typed stay. */
static void
test_form_refuses (void)
{
  static const struct { const char *after; const char *says; } cases[] = {
    { "9", "9" },                       /* no such step */
    { "5", "5" },                       /* itself */
  };
  Desk desk = { 0 };

  desk_open (&desk);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GtkWidget *entry;

      g_assert_true (desk_act (desk_page (&desk), "making-up.add-operation"));
      type_into (&desk, "Name", "Straps");
      type_into (&desk, "Comes after steps", cases[i].after);
      turn_to (form (&desk), "Layers of Twill", 2);
      g_assert_true (desk_act (form (&desk), "form.save"));
      assert_numbers (&desk, "1 2 3 4");
      entry = walk_need (form (&desk), GTK_TYPE_ENTRY, "Name");
      g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "Straps");
      g_assert_true (desk_act (form (&desk), "form.cancel"));
      scene_wait (has_no_form, &desk);
    }
  g_assert_null (hw_history_undo_label (hw_workspace_get_history (desk.scene.workspace)));
  desk_close (&desk);
}

static void
test_no_layers (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  g_assert_true (desk_act (desk_page (&desk), "making-up.add-operation"));
  type_into (&desk, "Name", "Straps");
  g_assert_true (desk_act (form (&desk), "form.save"));
  assert_numbers (&desk, "1 2 3 4");
  g_assert_false (has_no_form (&desk));
  desk_close (&desk);
}

/* What cannot be planned is told on every page that shows the plan, not that there is nothing yet. */
static void
test_no_plan (void)
{
  static const char * const pages[] = { "order", "cards", "notions" };
  const char               *reason = "Step 1: Thread “blue”: the handbook does not know “polyster”";
  Desk                      desk = { 0 };
  HwProjectThread          *thread;
  const HwProject          *project;
  g_autoptr (GError)        error = NULL;

  desk_open (&desk);
  project = hw_workspace_peek_project (desk.scene.workspace);
  thread = hw_project_thread_copy (project->threads->pdata[0]);
  g_free (thread->handbook);
  thread->handbook = g_strdup ("polyster");
  hw_workspace_edit (desk.scene.workspace, hw_edit_put_thread (project, thread, &error), "thread", NULL, NULL);
  g_assert_no_error (error);
  hw_project_thread_unref (thread);
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      desk_open_page (&desk, pages[i]);
      g_assert_nonnull (walk_text (desk.page, reason));
    }
  desk_close (&desk);
}

static void
test_edit_step (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "1");
  scene_settle ();
  g_assert_true (desk_act (desk.root, "win.edit-step"));
  type_into (&desk, "Number", "1a");
  type_into (&desk, "Name", "Hem of the pocket");
  save_form (&desk);
  assert_numbers (&desk, "1a 2 3 4");
  g_assert_cmpstr (scene_step (&desk.scene, "2")->after[0], ==, "1a");
  g_assert_cmpstr (scene_step (&desk.scene, "1a")->name, ==, "Hem of the pocket");
  g_assert_cmpstr (scene_step (&desk.scene, "1a")->purpose, ==, "hem");
  g_assert_cmpint (scene_step (&desk.scene, "1a")->plies[0].count, ==, 3);
  g_assert_cmpstr (hw_workspace_peek_selected (desk.scene.workspace), ==, "1a");
  desk_close (&desk);
}

/* Saving a form without a change is no step of history. */
static void
test_edit_nothing (void)
{
  static const char * const numbers[] = { "1", "2", "3", "4" };
  Desk desk = { 0 };

  desk_open (&desk);
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      hw_workspace_select (desk.scene.workspace, numbers[i]);
      scene_settle ();
      g_assert_true (desk_act (desk.root, "win.edit-step"));
      save_form (&desk);
      g_assert_null (hw_history_undo_label (hw_workspace_get_history (desk.scene.workspace)));
    }
  g_assert_true (gtk_widget_activate_action (desk_page (&desk), "making-up.edit-fabric", "s", "twill"));
  save_form (&desk);
  g_assert_true (gtk_widget_activate_action (desk_page (&desk), "making-up.edit-thread", "s", "ochre"));
  save_form (&desk);
  g_assert_null (hw_history_undo_label (hw_workspace_get_history (desk.scene.workspace)));
  desk_close (&desk);
}

static void
choose_cloth (Desk       *desk,
              const char *name)
{
  GtkWidget         *view = walk_need (form (desk), GTK_TYPE_LIST_VIEW, "Cloths of the handbook");
  GtkSingleSelection *selection = GTK_SINGLE_SELECTION (gtk_list_view_get_model (GTK_LIST_VIEW (view)));
  guint              n = g_list_model_get_n_items (G_LIST_MODEL (selection));

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (GtkStringObject) item = g_list_model_get_item (G_LIST_MODEL (selection), i);

      if (g_str_equal (gtk_string_object_get_string (item), name))
        {
          gtk_single_selection_set_selected (selection, i);
          return;
        }
    }
  g_error ("no cloth called “%s”", name);
}

/* Both needles of the strip lead to where their hours are told. */
static void
test_strip_needles (void)
{
  static const char * const names[] = { "Needle in the machine", "Needle to load next" };
  Desk desk = { 0 };

  desk_open (&desk);
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      GtkWidget *needle = walk_need (desk.root, GTK_TYPE_BUTTON, names[i]);

      g_assert_nonnull (strstr (gtk_widget_get_tooltip_text (needle), "Opens the page “Needles”"));
      desk_open_page (&desk, "making-up");
      g_signal_emit_by_name (needle, "clicked");
      scene_settle ();
      g_assert_cmpstr (gtk_stack_get_visible_child_name (walk_stack (desk.root, "making-up")), ==, "needles");
    }
  desk_close (&desk);
}

static void
test_add_fabric (void)
{
  Desk desk = { 0 };
  const HwProjectFabric *fabric;
  g_autofree char *spoken = NULL;

  desk_open (&desk);
  g_assert_true (desk_act (desk_page (&desk), "making-up.add-fabric"));
  choose_cloth (&desk, "Cotton poplin");
  type_into (&desk, "Colour", "white");
  type_into (&desk, "Mass as weighed, g/m²", "117.5");
  save_form (&desk);
  fabric = hw_project_find_fabric (project (&desk), "cotton-poplin");
  g_assert_nonnull (fabric);
  g_assert_cmpstr (fabric->name, ==, "Cotton poplin");
  g_assert_cmpstr (fabric->handbook, ==, "poplin");
  g_assert_cmpstr (fabric->colour, ==, "white");
  g_assert_cmpfloat (fabric->mass_g_m2, ==, 117.5);
  g_assert_cmpfloat (fabric->thickness_mm, ==, 0);
  g_assert_cmpfloat (fabric->stretch_percent, ==, -1);
  g_assert_nonnull (walk_text (desk_page (&desk), "118 g/m²"));
  g_assert_true (walk_shows (desk_page (&desk), "white"));
  spoken = g_strdup_printf ("Fabric Cotton poplin, white, %s", walk_text (desk_page (&desk), "118 g/m²"));
  walk_need (desk_page (&desk), GTK_TYPE_BUTTON, spoken);
  gtk_widget_activate_action (desk_page (&desk), "making-up.edit-fabric", "s", "cotton-poplin");
  type_into (&desk, "Colour", "red check");
  save_form (&desk);
  g_assert_true (walk_shows (desk_page (&desk), "red check"));
  desk_close (&desk);
}

static void
test_add_own_fabric (void)
{
  Desk desk = { 0 };
  const HwProjectFabric *fabric;

  desk_open (&desk);
  g_assert_true (desk_act (desk_page (&desk), "making-up.add-fabric"));
  choose_cloth (&desk, "An own cloth");
  type_into (&desk, "Name", "Grandmother’s linen");
  type_into (&desk, "Mass as weighed, g/m²", "heavy");
  g_assert_true (desk_act (form (&desk), "form.save"));
  g_assert_nonnull (walk_text (form (&desk), "The mass must be a number"));
  type_into (&desk, "Mass as weighed, g/m²", "210");
  gtk_check_button_set_active (GTK_CHECK_BUTTON (walk_need (form (&desk), GTK_TYPE_CHECK_BUTTON, "Ravels")), TRUE);
  save_form (&desk);
  fabric = hw_project_find_fabric (project (&desk), "grandmother-s-linen");
  g_assert_nonnull (fabric);
  g_assert_null (fabric->handbook);
  g_assert_cmpstr (fabric->construction, ==, "plain");
  g_assert_cmpfloat (fabric->mass_g_m2, ==, 210);
  g_assert_true (g_strv_contains ((const char * const *) fabric->traits, "ravels"));
  g_assert_no_error (hw_workspace_peek_plan_error (desk.scene.workspace));
  desk_close (&desk);
}

static void
test_search_fabric (void)
{
  Desk desk = { 0 };
  GtkWidget *view;
  guint      n;

  desk_open (&desk);
  g_assert_true (desk_act (desk_page (&desk), "making-up.add-fabric"));
  view = walk_need (form (&desk), GTK_TYPE_LIST_VIEW, "Cloths of the handbook");
  n = g_list_model_get_n_items (G_LIST_MODEL (gtk_list_view_get_model (GTK_LIST_VIEW (view))));
  g_assert_cmpuint (n, ==, hw_workspace_get_handbook (desk.scene.workspace)->n_fabrics + 1);
  gtk_editable_set_text (GTK_EDITABLE (walk_need (form (&desk), GTK_TYPE_SEARCH_ENTRY, NULL)), "poplin");
  g_signal_emit_by_name (walk_need (form (&desk), GTK_TYPE_SEARCH_ENTRY, NULL), "search-changed");
  n = g_list_model_get_n_items (G_LIST_MODEL (gtk_list_view_get_model (GTK_LIST_VIEW (view))));
  g_assert_cmpuint (n, >=, 1);
  g_assert_cmpuint (n, <, 6);
  desk_close (&desk);
}

static void
test_remove_fabric (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  gtk_widget_activate_action (desk_page (&desk), "making-up.remove-fabric", "s", "twill");   /* sewn in step 1 */
  g_assert_nonnull (hw_project_find_fabric (project (&desk), "twill"));
  g_assert_nonnull (strstr (hw_window_peek_message (desk.window), "1"));
  gtk_widget_activate_action (desk_page (&desk), "making-up.remove-fabric", "s", "fusible");
  g_assert_null (hw_project_find_fabric (project (&desk), "fusible"));
  g_assert_null (hw_window_peek_message (desk.window));
  desk_close (&desk);
}

static void
test_thread (void)
{
  Desk desk = { 0 };
  const HwProjectThread *thread;

  desk_open (&desk);
  g_assert_true (desk_act (desk_page (&desk), "making-up.add-thread"));
  type_into (&desk, "Colour", "Dark red");
  save_form (&desk);
  thread = hw_project_find_thread (project (&desk), "dark-red");
  g_assert_nonnull (thread);
  g_assert_cmpstr (thread->handbook, ==, "polyester-30");
  gtk_widget_activate_action (desk_page (&desk), "making-up.edit-thread", "s", "dark-red");
  type_into (&desk, "Tex, when the label says another", "35");
  save_form (&desk);
  g_assert_cmpfloat (hw_project_find_thread (project (&desk), "dark-red")->tex, ==, 35);
  gtk_widget_activate_action (desk_page (&desk), "making-up.remove-thread", "s", "dark-red");
  g_assert_null (hw_project_find_thread (project (&desk), "dark-red"));
  desk_close (&desk);
}

static void
test_title_and_due (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  desk_open_page (&desk, "notions");
  g_assert_true (desk_act (desk.root, "win.edit-project"));
  g_assert_cmpstr (hw_window_get_page (desk.window), ==, "making-up");
  type_into (&desk, "Title", "Garden apron");
  type_into (&desk, "Due, as year-month-day", "next week");
  g_assert_true (desk_act (form (&desk), "form.save"));
  g_assert_cmpstr (project (&desk)->title, ==, "Workshop apron");
  type_into (&desk, "Due, as year-month-day", "2027-06-12");
  save_form (&desk);
  g_assert_cmpstr (project (&desk)->title, ==, "Garden apron");
  g_assert_cmpstr (project (&desk)->due, ==, "2027-06-12");
  g_assert_true (walk_shows (desk.root, "4 steps, due 12 June"));
  g_assert_true (g_str_has_prefix (gtk_window_get_title (GTK_WINDOW (desk.window)), "Garden apron"));
  g_assert_false (walk_shows (desk.root, "Example project: its entries are examples, to look around in"));
  desk_open_page (&desk, "machines");            /* what is on show */
  g_assert_true (g_str_has_prefix (gtk_window_get_title (GTK_WINDOW (desk.window)), "Machines – Sewing room"));
  desk_open_page (&desk, "order");
  g_assert_true (g_str_has_prefix (gtk_window_get_title (GTK_WINDOW (desk.window)), "Garden apron"));
  desk_close (&desk);
}

/* ---- the set-up ---- */

static GtkWidget *
panel (Desk *desk)
{
  return walk_need (desk_page (desk), HW_TYPE_SETUP_PANEL, NULL);
}

static void
test_override (void)
{
  Desk desk = { 0 };
  const HwStep *step;
  GtkWidget    *reset;

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "4");
  scene_settle ();
  hw_setup_panel_open (HW_SETUP_PANEL (panel (&desk)), HW_FIELD_LENGTH);
  turn_to (panel (&desk), "Your own: Stitch length", 3.4);
  step = scene_step (&desk.scene, "4");
  g_assert_cmpuint (step->n_overrides, ==, 1);
  g_assert_cmpint (step->overrides[0].field, ==, HW_FIELD_LENGTH);
  g_assert_cmpfloat_with_epsilon (step->overrides[0].value, 3.4, 1e-9);
  g_assert_nonnull (walk_text (panel (&desk), "yours; "));

  reset = walk_need (panel (&desk), GTK_TYPE_BUTTON, "The handbook’s value again: Stitch length");
  g_assert_true (walk_visible (reset, panel (&desk)));
  g_signal_emit_by_name (reset, "clicked");
  scene_settle ();
  g_assert_cmpuint (scene_step (&desk.scene, "4")->n_overrides, ==, 0);
  g_assert_null (walk_text (panel (&desk), "yours; "));
  g_assert_false (walk_visible (reset, panel (&desk)));
  desk_close (&desk);
}

static gboolean
is_in_sight (gpointer widget)
{
  GtkWidget *scrolled = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);
  double     x = 0;
  double     y = 0;

  return gtk_widget_translate_coordinates (widget, scrolled, 0, gtk_widget_get_height (widget), &x, &y)
         && gtk_widget_get_height (widget) > 0 && y > 0 && y <= gtk_widget_get_height (scrolled);
}

/* The reasons of a value at the lower edge open below it: what was asked for is brought up. */
static void
test_why_in_sight (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "4");
  scene_settle ();
  gtk_test_widget_wait_for_draw (desk.root);
  g_assert_false (is_in_sight (walk_need (panel (&desk), GTK_TYPE_WIDGET, "Your own: From the fold")));
  hw_setup_panel_open (HW_SETUP_PANEL (panel (&desk)), HW_FIELD_ALLOWANCE);
  scene_wait (is_in_sight, walk_need (panel (&desk), GTK_TYPE_WIDGET, "Your own: From the fold"));
  desk_close (&desk);
}

/* Where @control's upper edge is in the window. */
static double
top_of (GtkWidget *control,
        GtkWidget *root)
{
  double x = 0;
  double y = 0;

  g_assert_true (gtk_widget_translate_coordinates (control, root, 0, 0, &x, &y));
  return y;
}

/* A value of one's own is said above its control, which stays under the pointer for the next press. Rows are called
 * what this machine has. */
static void
test_editor_stays (void)
{
  Desk       desk = { 0 };
  GtkWidget *spin;
  double     before;

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "4");
  scene_settle ();
  gtk_test_widget_wait_for_draw (desk.root);
  g_assert_true (walk_shows (panel (&desk), "Bobbin"));
  g_assert_true (walk_shows (panel (&desk), "Needle thread tension"));
  spin = walk_need (panel (&desk), GTK_TYPE_SPIN_BUTTON, "Your own: Stitch length");
  hw_setup_panel_open (HW_SETUP_PANEL (panel (&desk)), HW_FIELD_LENGTH);
  scene_wait (is_in_sight, spin);
  before = top_of (spin, desk.root);
  turn_to (panel (&desk), "Your own: Stitch length", 3.4);
  for (int i = 0; i < 4; i++)
    gtk_test_widget_wait_for_draw (desk.root);
  g_assert_cmpfloat_with_epsilon (top_of (spin, desk.root), before, 1.5);
  desk_close (&desk);
}

static double
left_of_pages (Desk       *desk,
               const char *page)
{
  double x = 0;
  double y = 0;

  desk_open_page (desk, page);
  gtk_test_widget_wait_for_draw (desk->root);
  g_assert_true (gtk_widget_translate_coordinates (walk_need (desk->root, GTK_TYPE_TOGGLE_BUTTON, "Order of work"),
                                                   desk->root, 0, 0, &x, &y));
  return x;
}

/* However long the title beside them is. */
static void
test_pages_stay (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  g_assert_cmpfloat_with_epsilon (left_of_pages (&desk, "needles"), left_of_pages (&desk, "preferences"), 0.5);
  desk_close (&desk);
}

/* Outside the band is allowed, and said. */
static void
test_override_outside (void)
{
  Desk desk = { 0 };
  const HwPlan  *plan;
  const HwSetup *setup;
  gboolean       warned = FALSE;

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "4");
  scene_settle ();
  hw_setup_panel_open (HW_SETUP_PANEL (panel (&desk)), HW_FIELD_LENGTH);
  turn_to (panel (&desk), "Your own: Stitch length", 0.6);
  plan = hw_workspace_peek_plan (desk.scene.workspace);
  setup = plan->setups[3];
  for (guint i = 0; i < setup->warnings->len; i++)
    warned = warned || g_array_index (setup->warnings, HwWarning, i).code == HW_WARN_OVERRIDE_OUTSIDE;
  g_assert_true (warned);
  g_assert_nonnull (walk_find (panel (&desk), GTK_TYPE_LABEL, NULL));
  g_assert_true (walk_text (panel (&desk), "Your ") != NULL || walk_text (panel (&desk), "Stitch length") != NULL);
  desk_close (&desk);
}

static void
test_override_choice (void)
{
  Desk desk = { 0 };
  const HwStep *step;
  GtkWidget    *choice;
  guint         before;

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "4");
  scene_settle ();
  choice = walk_need (panel (&desk), GTK_TYPE_DROP_DOWN, "Your own: Needle size");
  before = gtk_drop_down_get_selected (GTK_DROP_DOWN (choice));
  g_assert_cmpuint (before, !=, GTK_INVALID_LIST_POSITION);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), before + 1);
  scene_settle ();
  step = scene_step (&desk.scene, "4");
  g_assert_cmpuint (step->n_overrides, ==, 1);
  g_assert_cmpint (step->overrides[0].field, ==, HW_FIELD_SIZE);
  g_assert_cmpuint (gtk_drop_down_get_selected (GTK_DROP_DOWN (choice)), ==, before + 1);
  g_assert_true (desk_act (desk.root, "win.undo"));
  g_assert_cmpuint (gtk_drop_down_get_selected (GTK_DROP_DOWN (choice)), ==, before);
  desk_close (&desk);
}

/* Looking at a set-up is not changing it. */
static void
test_looking_changes_nothing (void)
{
  static const char * const numbers[] = { "1", "2", "3", "4", "1" };
  Desk desk = { 0 };

  desk_open (&desk);
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      hw_workspace_select (desk.scene.workspace, numbers[i]);
      scene_settle ();
    }
  for (int field = 0; field < HW_N_FIELDS; field++)
    hw_setup_panel_open (HW_SETUP_PANEL (panel (&desk)), (HwField) field);
  scene_settle ();
  g_assert_null (hw_history_undo_label (hw_workspace_get_history (desk.scene.workspace)));
  g_assert_null (strstr (desk.scene.log->str, "changed"));
  desk_close (&desk);
}

/* Every value that is set gives its reasons and their source. */
static void
test_reasons (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "3");
  scene_settle ();
  g_assert_null (walk_text (panel (&desk), "Source: "));        /* until it is asked */
  g_signal_emit_by_name (walk_need (panel (&desk), GTK_TYPE_TOGGLE_BUTTON, "Why this: Needle"), "clicked");
  scene_settle ();
  g_assert_nonnull (walk_text (panel (&desk), "Source: "));
  desk_close (&desk);
}

static void
test_share (void)
{
  Desk desk = { 0 };
  GtkWidget *share;

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "1");
  scene_settle ();
  share = walk_need (panel (&desk), GTK_TYPE_CHECK_BUTTON, "Share a set-up with other steps");
  g_assert_true (gtk_check_button_get_active (GTK_CHECK_BUTTON (share)));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (share), FALSE);
  g_assert_false (scene_step (&desk.scene, "1")->share);
  hw_workspace_undo (desk.scene.workspace);
  g_assert_true (gtk_check_button_get_active (GTK_CHECK_BUTTON (share)));
  desk_close (&desk);
}

static void
test_hand_minutes (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "2");
  scene_settle ();
  turn_to (panel (&desk), "Minutes by hand", 8);
  turn_to (panel (&desk), "Minutes by hand", 9);
  g_assert_cmpfloat (scene_step (&desk.scene, "2")->minutes, ==, 9);
  g_assert_true (desk_act (desk.root, "win.undo"));
  g_assert_cmpfloat (scene_step (&desk.scene, "2")->minutes, ==, 3);
  desk_close (&desk);
}

/* ---- list and selection ---- */

static GtkSelectionModel *
get_selection (Desk *desk)
{
  GtkWidget *view = walk_need (desk_page (desk), GTK_TYPE_COLUMN_VIEW, "Steps of the making up");

  return gtk_column_view_get_model (GTK_COLUMN_VIEW (view));
}

/* That row, and no other. */
static void
assert_selected (Desk  *desk,
                 guint  place)
{
  g_autoptr (GtkBitset) rows = gtk_selection_model_get_selection (get_selection (desk));

  g_assert_cmpuint (gtk_bitset_get_size (rows), ==, 1);
  g_assert_true (gtk_bitset_contains (rows, place));
}

static void
test_select (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  gtk_selection_model_select_item (get_selection (&desk), 2, TRUE);
  scene_settle ();
  g_assert_cmpstr (hw_workspace_peek_selected (desk.scene.workspace), ==, "3");
  g_assert_nonnull (walk_text (desk_page (&desk), "3  Set the pocket"));
  hw_workspace_select (desk.scene.workspace, "4");
  assert_selected (&desk, 3);
  /* An edit above it moves the row; it stays the selected one. */
  desk_act (desk_page (&desk), "making-up.move-up");
  assert_selected (&desk, 2);
  g_assert_cmpstr (hw_workspace_peek_selected (desk.scene.workspace), ==, "4");
  desk_close (&desk);
}

static void
test_rows_are_named (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  g_assert_nonnull (walk_find (desk_page (&desk), GTK_TYPE_WIDGET, "Step 2: Press the pocket, by hand, 3 min"));
  g_assert_nonnull (walk_find (desk.root, GTK_TYPE_LIST_BOX_ROW, "Workshop apron, 4 steps"));
  desk_close (&desk);
}

/* ---- files and messages ---- */

static void
test_bad_file (void)
{
  Desk desk = { 0 };
  g_autofree char  *path = NULL;
  g_autoptr (GFile) file = NULL;
  const HwProject  *before;

  desk_open (&desk);
  before = project (&desk);
  temp_folder_write (desk.scene.folder, "bad.handwheel", "<project xmlns=\"urn:handwheel:project:1\"\n<", -1);
  path = g_build_filename (desk.scene.folder, "bad.handwheel", NULL);
  file = g_file_new_for_path (path);
  g_assert_false (hw_window_open_file (desk.window, file));
  g_assert_true (project (&desk) == before);
  g_assert_nonnull (hw_window_peek_message (desk.window));
  g_assert_nonnull (strstr (hw_window_peek_message (desk.window), "bad.handwheel"));
  g_assert_true (walk_shows (desk.root, hw_window_peek_message (desk.window)));
  g_assert_true (walk_shows (desk_page (&desk), "Press the pocket"));
  g_assert_true (desk_act (desk.root, "win.hide-message"));
  g_assert_null (hw_window_peek_message (desk.window));
  desk_close (&desk);
}

/* A plan that is proved later, off the main thread, is nothing that the person did: what was told stays. */
static void
test_message_stays (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  hw_workspace_tell (desk.scene.workspace, "No such file", TRUE);
  g_signal_emit_by_name (desk.scene.workspace, "changed");
  g_assert_cmpstr (hw_window_peek_message (desk.window), ==, "No such file");
  g_assert_true (hw_workspace_mark_done (desk.scene.workspace, "2", TRUE));
  g_assert_true (g_str_has_prefix (hw_window_peek_message (desk.window), "Step 2 "));
  desk_close (&desk);
}

static gboolean
has_no_message (gpointer data)
{
  return hw_window_peek_message (((Desk *) data)->window) == NULL;
}

static gboolean
is_time_over (gpointer data)
{
  return g_get_monotonic_time () > *(gint64 *) data;
}

/* What is only told goes by itself; an error stays, and so does what can be undone. */
static void
test_message_goes (void)
{
  Desk   desk = { 0 };
  gint64 end;

  desk_open (&desk);
  hw_window_pass_messages_after (desk.window, 1);
  hw_workspace_tell (desk.scene.workspace, "The list is on the clipboard.", FALSE);
  scene_settle ();
  g_assert_cmpstr (hw_window_peek_message (desk.window), ==, "The list is on the clipboard.");
  scene_wait (has_no_message, &desk);

  hw_workspace_tell (desk.scene.workspace, "A list", FALSE);
  hw_workspace_tell (desk.scene.workspace, "No such file", TRUE);
  end = g_get_monotonic_time () + 2 * G_USEC_PER_SEC;
  scene_wait (is_time_over, &end);
  g_assert_cmpstr (hw_window_peek_message (desk.window), ==, "No such file");
  g_assert_true (hw_workspace_mark_done (desk.scene.workspace, "2", TRUE));
  end = g_get_monotonic_time () + 2 * G_USEC_PER_SEC;
  scene_wait (is_time_over, &end);
  g_assert_true (g_str_has_prefix (hw_window_peek_message (desk.window), "Step 2 "));
  desk_close (&desk);
}

/* What was told of one page is gone on the next; what came together with it, an error and what can be undone stay. */
static void
test_message_passes (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  hw_workspace_tell (desk.scene.workspace, "The entry is corrected", FALSE);
  hw_window_show_page (desk.window, "journal");
  g_assert_cmpstr (hw_window_peek_message (desk.window), ==, "The entry is corrected");
  scene_settle ();
  desk_open_page (&desk, "machines");
  g_assert_null (hw_window_peek_message (desk.window));

  hw_workspace_tell (desk.scene.workspace, "No such file", TRUE);
  scene_settle ();
  desk_open_page (&desk, "order");
  g_assert_cmpstr (hw_window_peek_message (desk.window), ==, "No such file");

  g_assert_true (hw_workspace_mark_done (desk.scene.workspace, "2", TRUE));
  scene_settle ();
  desk_open_page (&desk, "machines");
  g_assert_true (g_str_has_prefix (hw_window_peek_message (desk.window), "Step 2 "));
  desk_close (&desk);
}

/* Every kind of refused file: a message with file and line, the open project as it was, the file untouched. */
static void
test_refused_files (void)
{
  static const char * const names[] = {
    "not-xml", "other-schema", "unknown-fabric", "circle", "negative-length", "long-stitch", "duplicate-number",
    "newer-version",
  };
  Desk desk = { 0 };

  desk_open (&desk);
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char  *name = g_strconcat (names[i], ".handwheel", NULL);
      g_autofree char  *path = g_test_build_filename (G_TEST_DIST, "model", "bad", name, NULL);
      g_autofree char  *start = g_strconcat (name, ":", NULL);
      g_autofree char  *bytes = NULL;
      g_autofree char  *after = NULL;
      g_autoptr (GFile) file = g_file_new_for_path (path);
      const HwProject  *before = project (&desk);
      const char       *place;

      g_assert_true (g_file_get_contents (path, &bytes, NULL, NULL));
      g_assert_false (hw_window_open_file (desk.window, file));
      g_assert_true (project (&desk) == before);
      place = strstr (hw_window_peek_message (desk.window), start);
      g_assert_nonnull (place);
      g_assert_cmpint (g_ascii_strtoll (place + strlen (start), NULL, 10), >, 0);
      g_assert_true (walk_shows (desk.root, hw_window_peek_message (desk.window)));
      g_assert_true (g_file_get_contents (path, &after, NULL, NULL));
      g_assert_cmpstr (bytes, ==, after);
    }
  desk_close (&desk);
}

static void
test_missing_file (void)
{
  Desk desk = { 0 };
  g_autoptr (GFile) file = g_file_new_for_path ("/no/such/place/x.handwheel");
  g_autoptr (GFile) far = g_file_new_for_uri ("https://example.org/x.handwheel");

  desk_open (&desk);
  g_assert_false (hw_window_open_file (desk.window, file));
  g_assert_nonnull (strstr (hw_window_peek_message (desk.window), "x.handwheel"));
  g_assert_false (hw_window_open_file (desk.window, far));
  g_assert_cmpstr (project (&desk)->title, ==, "Workshop apron");
  desk_close (&desk);
}

static void
test_new_project (void)
{
  Desk desk = { 0 };
  GtkWidget *entry;

  desk_open (&desk);
  desk_open_page (&desk, "order");
  g_assert_true (desk_act (desk.root, "win.new-project"));
  entry = walk_need (desk.root, GTK_TYPE_ENTRY, "Title of the new project");
  g_assert_true (walk_visible (entry, desk.root));
  gtk_editable_set_text (GTK_EDITABLE (entry), "Tent bag");
  g_signal_emit_by_name (entry, "activate");
  scene_settle ();
  g_assert_cmpstr (project (&desk)->title, ==, "Tent bag");
  g_assert_cmpuint (project (&desk)->steps->len, ==, 0);
  g_assert_cmpstr (hw_window_get_page (desk.window), ==, "making-up");
  g_assert_false (walk_visible (entry, desk.root));
  g_assert_nonnull (walk_text (desk_page (&desk), "The set-up of the chosen step will stand here"));

  gtk_widget_activate_action (desk.root, "win.open-path", "s", desk.scene.path);
  g_assert_cmpstr (project (&desk)->title, ==, "Workshop apron");
  desk_close (&desk);
}

/* From a page of the sewing room the project's row leads to its page that was left. */
static void
test_back_to_page (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  desk_open_page (&desk, "order");
  desk_open_page (&desk, "machines");
  gtk_widget_activate_action (desk.root, "win.open-path", "s", desk.scene.path);
  scene_settle ();
  g_assert_cmpstr (hw_window_get_page (desk.window), ==, "order");
  gtk_widget_activate_action (desk.root, "win.open-path", "s", desk.scene.path);
  g_assert_cmpstr (hw_window_get_page (desk.window), ==, "order");
  desk_close (&desk);
}

/* The order opens at what comes next, chosen; later it leaves the person's choice alone. */
static void
test_order_opens_at_next (void)
{
  Desk          desk = { 0 };
  const HwPlan *plan;
  const HwStep *next;

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "5");
  desk_open_page (&desk, "order");
  plan = hw_workspace_peek_plan (desk.scene.workspace);
  next = hw_project_get_step (plan->project, g_array_index (plan->order, HwPlanStep, plan->next).step);
  g_assert_cmpstr (hw_workspace_peek_selected (desk.scene.workspace), ==, next->number);
  desk_open_page (&desk, "making-up");
  hw_workspace_select (desk.scene.workspace, "5");
  desk_open_page (&desk, "order");
  g_assert_cmpstr (hw_workspace_peek_selected (desk.scene.workspace), ==, "5");
  desk_close (&desk);
}

static guint
count_loads (Desk *desk)
{
  const HwRoom *room = hw_workspace_get_room (desk->scene.workspace);
  guint         n = 0;

  for (guint i = 0; i < room->entries->len; i++)
    n += ((const HwJournalEntry *) g_ptr_array_index (room->entries, i))->kind == HW_ENTRY_LOAD;
  return n;
}

/* After it the button stands for the next needle, which a double press must not load too. */
static void
test_loaded_twice (void)
{
  Desk  desk = { 0 };
  guint before;

  desk_open (&desk);
  before = count_loads (&desk);
  g_assert_true (desk_act (desk.root, "win.loaded"));
  gtk_widget_activate_action (desk.root, "win.loaded", NULL);
  scene_settle ();
  g_assert_cmpuint (count_loads (&desk), ==, before + 1);
  desk_close (&desk);
}

/* Reasons that were asked for one step do not stand open at another. */
static void
test_panel_begins_anew (void)
{
  Desk       desk = { 0 };
  GtkWidget *own;

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "4");
  scene_settle ();
  hw_setup_panel_open (HW_SETUP_PANEL (panel (&desk)), HW_FIELD_LENGTH);
  scene_settle ();
  own = walk_need (panel (&desk), GTK_TYPE_SPIN_BUTTON, "Your own: Stitch length");
  g_assert_true (walk_visible (own, desk.root));
  hw_workspace_select (desk.scene.workspace, "3");
  scene_settle ();
  g_assert_false (walk_visible (own, desk.root));
  desk_close (&desk);
}

/* A form of one project does not stay open over another. */
static void
test_form_closes_with_project (void)
{
  Desk desk = { 0 };
  g_autoptr (GError) error = NULL;

  desk_open (&desk);
  g_assert_true (desk_act (desk_page (&desk), "making-up.add-operation"));
  gtk_test_widget_wait_for_draw (desk.root);
  hw_workspace_create (desk.scene.workspace, "Tent bag", &error);
  g_assert_no_error (error);
  scene_settle ();
  g_assert_true (has_no_form (&desk));
  gtk_test_widget_wait_for_draw (desk.root);
  desk_close (&desk);
}

static void
test_loaded (void)
{
  Desk desk = { 0 };
  const HwRoom *room;
  guint before;

  desk_open (&desk);
  before = hw_workspace_get_room (desk.scene.workspace)->entries->len;
  g_signal_emit_by_name (walk_need (desk.root, GTK_TYPE_BUTTON, "I loaded it"), "clicked");
  scene_settle ();
  g_assert_cmpuint (hw_workspace_get_room (desk.scene.workspace)->entries->len, ==, before + 1);
  g_assert_true (g_str_has_prefix (hw_window_peek_message (desk.window), "Noted: "));
  g_assert_true (desk_act (desk.root, "win.undo-entry"));
  room = hw_workspace_get_room (desk.scene.workspace);
  g_assert_null (hw_room_get_state (room, g_ptr_array_index (room->machines, 0))->needle);
  desk_close (&desk);
}

/* One loaded ahead of its step has to come out again: the button stands out only while the needle is wanted at once. */
static void
test_load_when_wanted (void)
{
  Desk       desk = { 0 };
  GtkWidget *button;

  desk_open (&desk);
  button = walk_need (desk.root, GTK_TYPE_BUTTON, "I loaded it");
  g_assert_true (walk_shows (desk.root, "Load now, before step 1"));
  g_assert_true (gtk_widget_has_css_class (button, "suggested"));
  g_signal_emit_by_name (button, "clicked");
  scene_settle ();
  g_assert_false (gtk_widget_get_visible (button) && gtk_widget_has_css_class (button, "suggested"));
  desk_close (&desk);
}

static const char *
next_step (Desk *desk)
{
  const HwPlan *plan = hw_workspace_peek_plan (desk->scene.workspace);

  if (plan->next < 0)
    return NULL;
  return hw_project_get_step (plan->project, g_array_index (plan->order, HwPlanStep, plan->next).step)->number;
}

/* As “handwheel next” says it, once the needle that is in serves to the end. */
static void
test_nothing_more_to_load (void)
{
  Desk       desk = { 0 };
  GtkWidget *button;
  guint      left = 0;                   /* steps to sew when that came true */

  desk_open (&desk);
  button = walk_need (desk.root, GTK_TYPE_BUTTON, "I loaded it");
  while (next_step (&desk) != NULL)
    {
      const HwPlan *plan = hw_workspace_peek_plan (desk.scene.workspace);
      HwNow         now = hw_plan_now (plan, NULL);

      if (now.next != NULL && now.next_step == plan->next)
        {
          g_assert_true (hw_workspace_load_next (desk.scene.workspace));
          now = hw_plan_now (hw_workspace_peek_plan (desk.scene.workspace), NULL);
        }
      g_assert_cmpint (gtk_widget_get_visible (button), ==, now.next != NULL);
      g_assert_cmpint (walk_shows (desk.root, "nothing more to load"), ==, now.next == NULL);
      left += now.next == NULL ? 1 : 0;
      g_assert_true (hw_workspace_mark_done (desk.scene.workspace, next_step (&desk), TRUE));
      scene_settle ();
    }
  g_assert_cmpuint (left, >, 0);
  desk_close (&desk);
}

static void
test_no_project (void)
{
  Desk desk = { 0 };
  g_autoptr (GError) error = NULL;
  HwWorkspace *empty;
  GtkWidget   *window;

  scene_open (&desk.scene);
  empty = hw_workspace_new (desk.scene.data, desk.scene.room, &error);
  g_assert_no_error (error);
  window = g_object_ref_sink (hw_window_new (NULL, empty));
  gtk_window_present (GTK_WINDOW (window));
  gtk_test_widget_wait_for_draw (window);
  g_assert_true (walk_shows (window, "No project is open"));
  g_assert_nonnull (walk_text (window, "In the machine: "));   /* whether or not there is anything to sew */
  g_assert_nonnull (walk_text (window, "no needle noted yet"));
  gtk_widget_activate_action (window, "win.undo", NULL);
  gtk_widget_activate_action (window, "win.loaded", NULL);
  gtk_widget_activate_action (window, "win.page", "s", "machines");
  g_assert_true (walk_shows (window, "Machines"));
  gtk_window_destroy (GTK_WINDOW (window));
  scene_settle ();
  g_assert_finalize_object (window);
  g_assert_finalize_object (empty);
  scene_close (&desk.scene);
}

/* The last change could not be written: closing tells it once, then lets go. */
static void
test_close_unsaved (void)
{
  Desk desk = { 0 };
  g_autofree char *projects = NULL;
  gboolean         stays = FALSE;

  desk_open (&desk);
  projects = g_path_get_dirname (desk.scene.path);
  temp_folder_remove (g_strdup (projects));
  g_assert_true (g_file_set_contents (projects, "in the way", -1, NULL));
  hw_workspace_select (desk.scene.workspace, "4");
  desk_act (desk_page (&desk), "making-up.remove-step");
  g_assert_nonnull (hw_window_peek_message (desk.window));
  g_signal_emit_by_name (desk.window, "close-request", &stays);
  g_assert_true (stays);
  g_signal_emit_by_name (desk.window, "close-request", &stays);
  g_assert_false (stays);
  desk_close (&desk);
}

/* Size, page and chosen step are there again at the next start. */
static void
test_comes_back (void)
{
  Desk desk = { 0 };
  gboolean stays = FALSE;
  int      width = 0;
  int      height = 0;
  int      left_width = 0;
  int      left_height = 0;

  desk_open (&desk);
  gtk_window_set_default_size (GTK_WINDOW (desk.window), 1140, 790);
  gtk_test_widget_wait_for_draw (desk.root);
  desk_open_page (&desk, "order");
  hw_workspace_select (desk.scene.workspace, "3");
  gtk_window_get_default_size (GTK_WINDOW (desk.window), &left_width, &left_height);
  g_signal_emit_by_name (desk.window, "close-request", &stays);
  g_assert_false (stays);
  gtk_window_destroy (GTK_WINDOW (desk.window));
  scene_settle ();
  g_assert_finalize_object (desk.window);

  hw_workspace_select (desk.scene.workspace, "1");
  desk.window = HW_WINDOW (g_object_ref_sink (hw_window_new (NULL, desk.scene.workspace)));
  desk.root = GTK_WIDGET (desk.window);
  g_assert_cmpstr (hw_window_get_page (desk.window), ==, "making-up");
  hw_window_restore (desk.window);
  hw_window_restore_step (desk.window);
  gtk_window_get_default_size (GTK_WINDOW (desk.window), &width, &height);
  g_assert_cmpint (width, ==, left_width);
  g_assert_cmpint (height, ==, left_height);
  g_assert_cmpint (width, <, 1280);      /* what a window without a past has */
  g_assert_cmpstr (hw_window_get_page (desk.window), ==, "order");
  g_assert_cmpstr (hw_workspace_peek_selected (desk.scene.workspace), ==, "3");
  gtk_window_present (GTK_WINDOW (desk.window));
  gtk_test_widget_wait_for_draw (desk.root);
  desk_close (&desk);
}

/* The controller's signal is what a drop from a file manager ends in. */
static void
test_drop_file (void)
{
  Desk desk = { 0 };
  g_autofree char         *path = NULL;
  g_autoptr (GFile)        file = NULL;
  g_autoptr (GListModel)   controllers = NULL;
  g_auto (GValue)          files = G_VALUE_INIT;
  g_autoptr (GSList)       list = NULL;
  gboolean                 taken = FALSE;

  desk_open (&desk);
  path = g_build_filename (desk.scene.folder, "sent.handwheel", NULL);
  temp_folder_copy (desk.scene.folder, "sent.handwheel", desk.scene.path);
  file = g_file_new_for_path (path);
  list = g_slist_append (NULL, file);
  g_value_init (&files, GDK_TYPE_FILE_LIST);
  g_value_set_boxed (&files, list);
  controllers = gtk_widget_observe_controllers (desk.root);
  for (guint i = 0; i < g_list_model_get_n_items (controllers) && !taken; i++)
    {
      g_autoptr (GObject) controller = g_list_model_get_item (controllers, i);

      if (GTK_IS_DROP_TARGET (controller))
        g_signal_emit_by_name (controller, "drop", &files, 0.0, 0.0, &taken);
    }
  g_assert_true (taken);
  g_assert_cmpstr (hw_workspace_peek_path (desk.scene.workspace), ==, path);
  desk_close (&desk);
}

/* What a message says can be copied with the mouse, but it never takes the keyboard from what one works at. */
static void
test_message_takes_no_focus (void)
{
  Desk desk = { 0 };
  GtkWidget *focus;

  desk_open (&desk);
  hw_workspace_tell (desk.scene.workspace, "Something is so", FALSE);
  desk_open_page (&desk, "order");
  gtk_test_widget_wait_for_draw (desk.root);
  desk_open_page (&desk, "machines");
  gtk_test_widget_wait_for_draw (desk.root);
  focus = gtk_root_get_focus (GTK_ROOT (desk.root));
  g_assert_true (focus == NULL || !GTK_IS_LABEL (focus));
  desk_close (&desk);
}

/* Where there are many projects, those opened last stand first. */
static void
test_recent (void)
{
  Desk desk = { 0 };
  g_autofree char *projects = NULL;
  GtkWidget       *rows;

  desk_open (&desk);
  projects = g_path_get_dirname (desk.scene.path);
  rows = walk_need (desk.root, GTK_TYPE_LIST_BOX, "Projects");
  g_assert_false (walk_shows (rows, "Opened last"));
  for (int i = 0; i < 9; i++)
    {
      g_autofree char   *title = g_strdup_printf ("Bag %d", i);
      g_autoptr (GError) error = NULL;

      g_assert_true (hw_workspace_create (desk.scene.workspace, title, &error));
    }
  scene_settle ();
  g_assert_true (walk_shows (rows, "Opened last"));
  g_assert_true (walk_has_name (GTK_WIDGET (gtk_list_box_get_row_at_index (GTK_LIST_BOX (rows), 0)),
                                "Bag 8, no steps yet"));
  g_assert_true (walk_has_name (GTK_WIDGET (gtk_list_box_get_row_at_index (GTK_LIST_BOX (rows), 5)),
                                "Bag 0, no steps yet"));
  desk_close (&desk);
}

/* "win.page::versions" of an item that says win.go to versions. */
static char *
read_target (GMenuModel *menu,
             int         item)
{
  g_autofree char *action = NULL;
  g_autofree char *target = NULL;

  g_menu_model_get_item_attribute (menu, item, G_MENU_ATTRIBUTE_ACTION, "s", &action);
  if (g_menu_model_get_item_attribute (menu, item, G_MENU_ATTRIBUTE_TARGET, "s", &target))
    return g_strdup_printf ("win.page::%s", target);
  return g_steal_pointer (&action);
}

static gboolean
is_found (const HwFind *find,
          const char   *target)
{
  g_autoptr (GPtrArray) offered = hw_find_offer (find, HW_FIND_ACTIONS, 200);

  for (guint i = 0; i < offered->len; i++)
    if (g_str_equal (((const HwFindThing *) g_ptr_array_index (offered, i))->target, target))
      return TRUE;
  return FALSE;
}

/* As a person asks, not as the handbook has it. */
static void
test_question_is_found (void)
{
  static const char * const questions[] = { "when to change a needle", "how do I change the needle?", "needle change" };
  Desk desk = { 0 };
  g_autoptr (HwFind) find = NULL;

  desk_open (&desk);
  find = hw_find_index_new (desk.scene.workspace);
  for (gsize i = 0; i < G_N_ELEMENTS (questions); i++)
    {
      g_autoptr (GPtrArray) found = hw_find_ask (find, questions[i], 5, NULL);

      g_test_message ("“%s”", questions[i]);
      g_assert_cmpuint (found->len, >, 0);
      g_assert_cmpstr (((HwFindThing *) g_ptr_array_index (found, 0))->name, ==, "Change the needle");
    }
  desk_close (&desk);
}

/* What the menu can do is found by its name too, but for what is seen beside it or tells of the program. */
static void
test_menu_is_found (void)
{
  static const char * const beside[] = { "win.find", "win.sidebar", "win.about", NULL };
  Desk desk = { 0 };
  g_autoptr (HwFind) find = NULL;
  GMenuModel *menu;
  int n_found = 0;

  desk_open (&desk);
  find = hw_find_index_new (desk.scene.workspace);
  menu = G_MENU_MODEL (gtk_widget_get_template_child (GTK_WIDGET (desk.window), HW_TYPE_WINDOW, "main_menu"));
  for (int s = 0; s < g_menu_model_get_n_items (menu); s++)
    {
      g_autoptr (GMenuModel) section = g_menu_model_get_item_link (menu, s, G_MENU_LINK_SECTION);

      for (int i = 0; i < g_menu_model_get_n_items (section); i++)
        {
          g_autofree char *target = read_target (section, i);

          if (g_strv_contains (beside, target))
            continue;
          g_test_message ("%s", target);
          g_assert_true (is_found (find, target));
          n_found++;
        }
    }
  g_assert_cmpint (n_found, >, 10);
  desk_close (&desk);
}

/* Where there are more than can be looked through, those opened last stay, and the finder has the rest. */
static void
test_hundreds (void)
{
  Desk desk = { 0 };
  g_autofree char   *folder = NULL;
  GtkWidget         *rows;
  int                last = 0;
  g_autoptr (GError) error = NULL;

  desk_open (&desk);
  folder = g_path_get_dirname (desk.scene.path);
  for (int i = 0; i < 200; i++)
    {
      g_autofree char      *id = g_strdup_printf ("bag-%d", i);
      g_autofree char      *path = g_strdup_printf ("%s/%s.handwheel", folder, id);
      g_autoptr (HwProject) bag = hw_project_new (id, id);

      g_assert_true (hw_project_write (bag, path, &error));
    }
  g_assert_true (hw_workspace_create (desk.scene.workspace, "Apron", &error));
  scene_settle ();
  rows = walk_need (desk.root, GTK_TYPE_LIST_BOX, "Projects");
  g_assert_true (walk_shows (rows, "Apron"));
  g_assert_false (walk_shows (rows, "bag-7"));
  g_assert_true (walk_shows (rows, "Find one of 202 projects…"));
  while (gtk_list_box_get_row_at_index (GTK_LIST_BOX (rows), last + 1) != NULL)
    last++;
  g_signal_emit_by_name (gtk_list_box_get_row_at_index (GTK_LIST_BOX (rows), last), "activate");
  scene_settle ();
  g_assert_nonnull (walk_find (desk.root, HW_TYPE_FIND_DRAWER, NULL));
  desk_close (&desk);
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
  g_test_add_func ("/window/pages", test_pages);
  g_test_add_func ("/window/menu-is-found", test_menu_is_found);
  g_test_add_func ("/window/question-is-found", test_question_is_found);
  g_test_add_func ("/window/page-buttons", test_page_buttons);
  g_test_add_func ("/window/undo", test_undo);
  g_test_add_func ("/window/move", test_move);
  g_test_add_func ("/window/add-operation", test_add_operation);
  g_test_add_func ("/window/add-hand-step", test_add_hand_step);
  g_test_add_func ("/window/form-refuses", test_form_refuses);
  g_test_add_func ("/window/no-layers", test_no_layers);
  g_test_add_func ("/window/no-plan", test_no_plan);
  g_test_add_func ("/window/edit-step", test_edit_step);
  g_test_add_func ("/window/edit-nothing", test_edit_nothing);
  g_test_add_func ("/window/add-fabric", test_add_fabric);
  g_test_add_func ("/window/add-own-fabric", test_add_own_fabric);
  g_test_add_func ("/window/search-fabric", test_search_fabric);
  g_test_add_func ("/window/remove-fabric", test_remove_fabric);
  g_test_add_func ("/window/thread", test_thread);
  g_test_add_func ("/window/title-and-due", test_title_and_due);
  g_test_add_func ("/window/override", test_override);
  g_test_add_func ("/window/override-outside", test_override_outside);
  g_test_add_func ("/window/strip-needles", test_strip_needles);
  g_test_add_func ("/window/why-in-sight", test_why_in_sight);
  g_test_add_func ("/window/editor-stays", test_editor_stays);
  g_test_add_func ("/window/pages-stay", test_pages_stay);
  g_test_add_func ("/window/override-choice", test_override_choice);
  g_test_add_func ("/window/looking-changes-nothing", test_looking_changes_nothing);
  g_test_add_func ("/window/reasons", test_reasons);
  g_test_add_func ("/window/share", test_share);
  g_test_add_func ("/window/hand-minutes", test_hand_minutes);
  g_test_add_func ("/window/select", test_select);
  g_test_add_func ("/window/rows-are-named", test_rows_are_named);
  g_test_add_func ("/window/bad-file", test_bad_file);
  g_test_add_func ("/window/message-stays", test_message_stays);
  g_test_add_func ("/window/message-goes", test_message_goes);
  g_test_add_func ("/window/message-passes", test_message_passes);
  g_test_add_func ("/window/refused-files", test_refused_files);
  g_test_add_func ("/window/missing-file", test_missing_file);
  g_test_add_func ("/window/new-project", test_new_project);
  g_test_add_func ("/window/order-opens-at-next", test_order_opens_at_next);
  g_test_add_func ("/window/back-to-page", test_back_to_page);
  g_test_add_func ("/window/loaded-twice", test_loaded_twice);
  g_test_add_func ("/window/panel-begins-anew", test_panel_begins_anew);
  g_test_add_func ("/window/form-closes-with-project", test_form_closes_with_project);
  g_test_add_func ("/window/loaded", test_loaded);
  g_test_add_func ("/window/load-when-wanted", test_load_when_wanted);
  g_test_add_func ("/window/nothing-more-to-load", test_nothing_more_to_load);
  g_test_add_func ("/window/no-project", test_no_project);
  g_test_add_func ("/window/close-unsaved", test_close_unsaved);
  g_test_add_func ("/window/comes-back", test_comes_back);
  g_test_add_func ("/window/drop-file", test_drop_file);
  g_test_add_func ("/window/message-takes-no-focus", test_message_takes_no_focus);
  g_test_add_func ("/window/recent", test_recent);
  g_test_add_func ("/window/hundreds", test_hundreds);
  status = g_test_run ();
  temp_folder_remove (folder);
  return status;
}
