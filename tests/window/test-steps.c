/* test-steps.c - several steps of the making up at once: chosen, changed, moved, copied and pasted; or typed one by one
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <string.h>

#include "desk.h"
#include "temp-folder.h"
#include "walk.h"
#include "window/forms.h"
#include "window/controls.h"
#include "window/form.h"
#include "window/quick-row.h"
#include "window/step-columns.h"
#include "window/steps.h"
#include "words/quick.h"

static const HwProject *
project (Desk *desk)
{
  return hw_workspace_peek_project (desk->scene.workspace);
}

static void
assert_numbers (Desk       *desk,
                const char *expected)
{
  g_autoptr (GString) numbers = g_string_new (NULL);

  for (guint i = 0; i < project (desk)->steps->len; i++)
    g_string_append_printf (numbers, "%s%s", i > 0 ? " " : "", hw_project_get_step (project (desk), i)->number);
  g_assert_cmpstr (numbers->str, ==, expected);
}

static GtkSelectionModel *
selection (Desk *desk)
{
  GtkWidget *view = walk_need (desk_page (desk), GTK_TYPE_COLUMN_VIEW, "Steps of the making up");

  return gtk_column_view_get_model (GTK_COLUMN_VIEW (view));
}

static void
choose (Desk       *desk,
        const char *numbers)
{
  g_auto (GStrv) words = g_strsplit (numbers, " ", -1);

  hw_steps_choose (selection (desk), (const char * const *) words);
  scene_settle ();
}

static void
assert_chosen (Desk       *desk,
               const char *expected)
{
  g_auto (GStrv) chosen = hw_steps_get_chosen (selection (desk));
  g_autofree char *joined = g_strjoinv (" ", chosen);

  g_assert_cmpstr (joined, ==, expected);
}

static GtkWidget *
find_form (Desk *desk)
{
  return walk_find (desk_page (desk), HW_TYPE_FORM, NULL);
}

static gboolean
has_no_form (gpointer data)
{
  return find_form (data) == NULL;
}

static void
test_choose (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  choose (&desk, "1 3");
  g_assert_true (walk_shows (desk.root, "2 steps chosen"));
  g_assert_true (walk_shows (desk.root, "1 3"));
  g_assert_cmpstr (hw_workspace_peek_selected (desk.scene.workspace), ==, "1");
  choose (&desk, "4");
  g_assert_null (find_form (&desk));
  g_assert_cmpstr (hw_workspace_peek_selected (desk.scene.workspace), ==, "4");
  choose (&desk, "1 2 3");
  g_assert_true (desk_act (find_form (&desk), "form.cancel"));
  scene_wait (has_no_form, &desk);
  assert_chosen (&desk, "1");
  desk_act (desk_page (&desk), "making-up.choose-all");
  assert_chosen (&desk, "1 2 3 4");
  hw_workspace_select (desk.scene.workspace, "2");      /* one of them: they stay chosen */
  assert_chosen (&desk, "1 2 3 4");
  desk_close (&desk);
}

static void
take (GtkWidget  *form,
      const char *name,
      const char *id)
{
  g_assert_true (hw_choice_select (GTK_DROP_DOWN (walk_need (form, GTK_TYPE_DROP_DOWN, name)), id));
}

static void
type_into (GtkWidget  *form,
           const char *name,
           const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (walk_need (form, GTK_TYPE_ENTRY, name)), text);
}

static void
test_change (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  choose (&desk, "1 2 4");
  take (find_form (&desk), "Fabric", "fusible");
  take (find_form (&desk), "In the place of", "twill");
  take (find_form (&desk), "Seam", "");
  take (find_form (&desk), "Needle thread", "ochre");
  type_into (find_form (&desk), "Length of each step, cm", "55");
  type_into (find_form (&desk), "Stitch length, mm", "3");
  g_assert_true (desk_act (find_form (&desk), "form.save"));
  scene_wait (has_no_form, &desk);
  for (guint i = 0; i < 4; i += 3)
    {
      const HwStep *step = hw_project_get_step (project (&desk), i);

      g_assert_cmpstr (step->plies[0].fabric, ==, "fusible");
      g_assert_null (step->seam);
      g_assert_cmpstr (step->needle_thread, ==, "ochre");
      g_assert_cmpfloat (step->length_cm, ==, 55);
      g_assert_cmpint (step->overrides[0].field, ==, HW_FIELD_LENGTH);
    }
  g_assert_cmpstr (scene_step (&desk.scene, "3")->plies[0].fabric, ==, "twill");
  g_assert_true (desk_act (desk.root, "win.undo"));     /* one undo for all */
  g_assert_cmpstr (scene_step (&desk.scene, "4")->plies[0].fabric, ==, "twill");
  g_assert_null (hw_history_undo_label (hw_workspace_get_history (desk.scene.workspace)));
  desk_close (&desk);
}

static void
test_change_refused (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  choose (&desk, "1 4");
  type_into (find_form (&desk), "Stitch length, mm", "40");
  g_assert_true (desk_act (find_form (&desk), "form.save"));
  g_assert_nonnull (walk_text (find_form (&desk), "a stitch is 0.2 to 12 mm long"));
  assert_chosen (&desk, "1 4");
  g_assert_null (hw_history_undo_label (hw_workspace_get_history (desk.scene.workspace)));
  desk_close (&desk);
}

static void
test_move (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  choose (&desk, "2 4");
  g_assert_true (desk_act (desk_page (&desk), "making-up.move-up"));
  assert_numbers (&desk, "2 4 1 3");
  assert_chosen (&desk, "2 4");
  g_assert_true (desk_act (desk_page (&desk), "making-up.move-down"));
  assert_numbers (&desk, "1 2 4 3");
  /* what a drop does: on the lower half of step 3 */
  gtk_widget_activate_action (desk_page (&desk), "making-up.place", "(ssb)", "1 2", "3", TRUE);
  assert_numbers (&desk, "4 3 1 2");
  gtk_widget_activate_action (desk_page (&desk), "making-up.place", "(ssb)", "2", "4", FALSE);
  assert_numbers (&desk, "2 4 3 1");
  desk_close (&desk);
}

static void
test_remove (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  choose (&desk, "1 2 4");
  g_assert_true (desk_act (desk_page (&desk), "making-up.remove-step"));
  assert_numbers (&desk, "3");
  assert_chosen (&desk, "3");
  g_assert_true (desk_act (desk.root, "win.undo"));
  assert_numbers (&desk, "1 2 3 4");
  desk_close (&desk);
}

static gboolean
has_more_steps (gpointer data)
{
  return project (data)->steps->len > 4;
}

static void
test_copy_and_paste (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  choose (&desk, "1 2");
  g_assert_true (desk_act (desk_page (&desk), "making-up.copy"));
  choose (&desk, "3");
  g_assert_true (desk_act (desk_page (&desk), "making-up.paste"));
  scene_wait (has_more_steps, &desk);
  assert_numbers (&desk, "1 2 3 5 6 4");
  assert_chosen (&desk, "5 6");
  g_assert_cmpstr (scene_step (&desk.scene, "6")->after[0], ==, "5");
  g_assert_true (desk_act (desk.root, "win.undo"));
  assert_numbers (&desk, "1 2 3 4");
  desk_close (&desk);
}

static gboolean
has_three_steps (gpointer data)
{
  return project (data)->steps->len == 3;
}

/* Between projects: cut here, pasted there, with the cloth and thread it needs. */
static void
test_cut_and_paste_elsewhere (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  choose (&desk, "2 3 4");
  g_assert_true (desk_act (desk_page (&desk), "making-up.cut"));
  assert_numbers (&desk, "1");
  g_assert_true (hw_workspace_create (desk.scene.workspace, "Another", NULL));
  scene_settle ();
  g_assert_true (desk_act (desk_page (&desk), "making-up.paste"));
  scene_wait (has_three_steps, &desk);
  assert_numbers (&desk, "1 2 3");
  g_assert_cmpstr (hw_project_get_step (project (&desk), 1)->name, ==, "Set the pocket");
  g_assert_cmpuint (project (&desk)->fabrics->len, ==, 1);
  g_assert_true (walk_shows (desk.root, "3 steps chosen"));
  desk_close (&desk);
}

static gboolean
has_told (gpointer data)
{
  return strstr (((Desk *) data)->scene.log->str, "error: ") != NULL;
}

/* Somebody's text is no step; it is said, and nothing changes. */
static void
test_paste_text (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (desk.root), "Buy thread");
  g_assert_true (desk_act (desk_page (&desk), "making-up.paste"));
  scene_wait (has_told, &desk);
  g_assert_nonnull (strstr (desk.scene.log->str, "no steps on the clipboard"));
  assert_numbers (&desk, "1 2 3 4");
  desk_close (&desk);
}

/* ---- columns ---- */

static char *
list_columns (GtkColumnView *view)
{
  GListModel         *columns = gtk_column_view_get_columns (view);
  g_autoptr (GString) titles = g_string_new (NULL);

  for (guint i = 0; i < g_list_model_get_n_items (columns); i++)
    {
      g_autoptr (GtkColumnViewColumn) column = g_list_model_get_item (columns, i);

      if (gtk_column_view_column_get_visible (column) && gtk_column_view_column_get_title (column)[0] != '\0')
        g_string_append_printf (titles, "%s%s", titles->len > 0 ? " " : "",
                                gtk_column_view_column_get_title (column));
    }
  return g_string_free (g_steal_pointer (&titles), FALSE);
}

static const struct { double width_em; const char *titles; } widths[] = {
  { 70, "Step Fabrics Seam Layers Length Stitch After" },
  { 50, "Step Seam Layers Length Stitch After" },
  { 44, "Step Seam Layers Length Stitch" },
  { 30, "Step Seam Layers Length" },
};

static void
test_columns (void)
{
  Desk           desk = { 0 };
  GtkColumnView *view;

  desk_open (&desk);
  view = GTK_COLUMN_VIEW (walk_need (desk_page (&desk), GTK_TYPE_COLUMN_VIEW, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (widths); i++)
    {
      g_autofree char *titles = NULL;

      hw_step_columns_fit (view, widths[i].width_em);
      titles = list_columns (view);
      g_assert_cmpstr (titles, ==, widths[i].titles);
    }
  desk_close (&desk);
}

/* Who hears the list hears of which fabric the layers are, by the name that it has now. */
static void
test_layers_named (void)
{
  Desk                 desk = { 0 };
  GtkWidget           *list;
  HwProjectFabric     *fabric;
  g_autoptr (GError)   error = NULL;

  desk_open (&desk);
  list = walk_need (desk_page (&desk), GTK_TYPE_COLUMN_VIEW, NULL);
  g_assert_nonnull (walk_find (list, GTK_TYPE_WIDGET,
                               "Step 4: Side hems, Hem, turned twice, layers 3 Twill, Straight stitch, 180 cm"));
  g_assert_nonnull (walk_find (list, GTK_TYPE_WIDGET, "3 Twill"));
  fabric = hw_project_fabric_copy (project (&desk)->fabrics->pdata[0]);
  g_free (fabric->name);
  fabric->name = g_strdup ("Drill");
  hw_workspace_edit (desk.scene.workspace, hw_edit_put_fabric (project (&desk), fabric, &error), "rename", NULL, NULL);
  g_assert_no_error (error);
  hw_project_fabric_unref (fabric);
  scene_settle ();
  g_assert_nonnull (walk_find (list, GTK_TYPE_WIDGET,
                               "Step 4: Side hems, Hem, turned twice, layers 3 Drill, Straight stitch, 180 cm"));
  g_assert_null (walk_find (list, GTK_TYPE_WIDGET, "3 Twill"));
  desk_close (&desk);
}

/* No step names a thread, and none is listed. (transfer full) */
static HwProject *
make_threadless (const HwProject *from)
{
  HwProject         *made = hw_project_ref ((HwProject *) from);
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < from->steps->len; i++)
    {
      g_autoptr (HwProject) before = made;
      HwStep               *step = hw_step_copy (hw_project_get_step (from, i));

      g_clear_pointer (&step->needle_thread, g_free);
      g_clear_pointer (&step->bobbin_thread, g_free);
      made = hw_edit_put_step (before, step, &error);
      g_assert_no_error (error);
      hw_step_unref (step);
    }
  while (made->threads->len > 0)
    {
      g_autoptr (HwProject) before = made;

      made = hw_edit_remove_thread (before, ((HwProjectThread *) before->threads->pdata[0])->id, &error);
      g_assert_no_error (error);
    }
  return made;
}

/* The strip of threads tells of those that the plan takes though the project does not list them. */
static void
test_threads_taken (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  g_assert_null (walk_text (desk_page (&desk), "The plan takes these too: "));
  hw_workspace_edit (desk.scene.workspace, make_threadless (project (&desk)), "remove", NULL, NULL);
  scene_settle ();
  g_assert_nonnull (walk_text (desk_page (&desk), "The plan takes these too: "));
  hw_workspace_undo (desk.scene.workspace);
  scene_settle ();
  g_assert_null (walk_text (desk_page (&desk), "The plan takes these too: "));
  desk_close (&desk);
}

/* A cloth the handbook does not know: what is nearest is offered, nothing is taken for it, and the message goes. */
static void
test_unknown_cloth (void)
{
  Desk       desk = { 0 };
  GtkWidget *form;
  GtkWidget *search;
  GtkWidget *list;

  desk_open (&desk);
  g_assert_true (desk_act (desk_page (&desk), "making-up.add-fabric"));
  form = find_form (&desk);
  search = walk_need (form, GTK_TYPE_SEARCH_ENTRY, "Cloth: search the handbook");
  gtk_editable_set_text (GTK_EDITABLE (search), "needlecord");
  g_signal_emit_by_name (search, "search-changed");
  scene_settle ();
  g_assert_true (walk_shows (form, "Nothing by the name “needlecord”. The nearest stand below."));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (walk_need (form, GTK_TYPE_ENTRY, "Name"))), ==, "");
  g_assert_true (walk_shows (form, "Corduroy, fine wale"));
  desk_act (form, "form.save");
  g_assert_nonnull (walk_text (form, "No cloth is chosen"));
  list = walk_need (form, GTK_TYPE_LIST_VIEW, "Cloths of the handbook");
  gtk_selection_model_select_item (gtk_list_view_get_model (GTK_LIST_VIEW (list)), 0, TRUE);
  scene_settle ();
  g_assert_null (walk_text (form, "No cloth is chosen"));
  g_assert_true (g_str_has_prefix (gtk_editable_get_text (GTK_EDITABLE (walk_need (form, GTK_TYPE_ENTRY, "Name"))),
                                   "Corduroy"));
  desk_act (form, "form.cancel");
  desk_close (&desk);
}

/* ---- typed in a row ---- */

/* One undo a step; the row stays, empty, for the next; what is wrong is said and nothing is added. */
static void
test_typed (void)
{
  Desk             desk = { 0 };
  GtkWidget       *row;
  g_autoptr (HwProject) written = NULL;
  const HwStep    *step;
  guint            n;

  desk_open (&desk);
  n = hw_workspace_peek_project (desk.scene.workspace)->steps->len;
  g_assert_true (desk_act (desk_page (&desk), "making-up.add-step"));
  row = walk_need (desk_page (&desk), HW_TYPE_QUICK_ROW, NULL);
  type_into (row, "Step", "lower hem");
  desk_act (row, "quick-row.add");
  g_assert_cmpuint (hw_workspace_peek_project (desk.scene.workspace)->steps->len, ==, n);
  g_assert_nonnull (walk_text (row, "How long is the stitching"));
  type_into (row, "Length, cm", "1.2 m");
  type_into (row, "After", "99");
  desk_act (row, "quick-row.add");
  g_assert_cmpuint (hw_workspace_peek_project (desk.scene.workspace)->steps->len, ==, n);
  type_into (row, "After", "1");
  desk_act (row, "quick-row.add");
  written = scene_read_file (&desk.scene);
  g_assert_cmpuint (written->steps->len, ==, n + 1);
  step = hw_project_get_step (written, n);
  g_assert_cmpstr (step->name, ==, "lower hem");
  g_assert_cmpstr (step->purpose, ==, "hem");
  g_assert_cmpfloat (step->length_cm, ==, 120);
  g_assert_cmpstr (hw_workspace_peek_selected (desk.scene.workspace), ==, step->number);
  g_assert_true (gtk_widget_get_visible (row));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (walk_need (row, GTK_TYPE_ENTRY, "Step"))), ==, "");
  hw_workspace_undo (desk.scene.workspace);
  g_assert_cmpuint (hw_workspace_peek_project (desk.scene.workspace)->steps->len, ==, n);
  desk_act (row, "quick-row.close");
  g_assert_false (gtk_widget_get_visible (row));
  desk_close (&desk);
}

/* A step that is sewn says so in its row, until the mark is taken back. */
static void
test_sewn_row (void)
{
  static const char open[] = "Step 4: Side hems, Hem, turned twice, layers 3 Twill, Straight stitch, 180 cm";
  static const char sewn[] = "Step 4: Side hems, Hem, turned twice, layers 3 Twill, Straight stitch, 180 cm, sewn";
  Desk              desk = { 0 };

  desk_open (&desk);
  g_assert_nonnull (walk_find (desk_page (&desk), GTK_TYPE_WIDGET, open));
  g_assert_true (hw_workspace_mark_done (desk.scene.workspace, "4", TRUE));
  scene_settle ();
  g_assert_nonnull (walk_find (desk_page (&desk), GTK_TYPE_WIDGET, sewn));
  g_assert_true (hw_workspace_mark_done (desk.scene.workspace, "4", FALSE));
  scene_settle ();
  g_assert_null (walk_find (desk_page (&desk), GTK_TYPE_WIDGET, sewn));
  desk_close (&desk);
}

/* What the pale guesses cut short stands whole below. */
static void
test_typed_guess (void)
{
  Desk       desk = { 0 };
  GtkWidget *row;

  desk_open (&desk);
  g_assert_true (desk_act (desk_page (&desk), "making-up.add-step"));
  row = walk_need (desk_page (&desk), HW_TYPE_QUICK_ROW, NULL);
  type_into (row, "Step", "hem");
  g_assert_nonnull (walk_text (row, "Taken as: Hem, turned twice; 3 "));
  type_into (row, "Seam", "superimposed");
  g_assert_nonnull (walk_text (row, "Taken as: "));
  g_assert_null (walk_text (row, "Taken as: Hem"));
  type_into (row, "Step", "");
  type_into (row, "Seam", "");
  g_assert_null (walk_text (row, "Taken as: "));
  desk_act (row, "quick-row.close");
  desk_close (&desk);
}

/* All that an empty field may be: what is likely for such a step first, each once. */
static void
test_typed_all (void)
{
  static const struct { HwQuickField field; const char *first; guint least; } asked[] = {
    { HW_QUICK_SEAM, "Hem, turned twice", 20 }, { HW_QUICK_LAYERS, "3 ", 1 }, { HW_QUICK_STITCH, "Straight stitch", 5 },
  };
  Desk         desk = { 0 };
  HwQuickGuess guess;

  desk_open (&desk);
  {
    const HwHandbook *handbook = hw_workspace_get_handbook (desk.scene.workspace);
    g_autoptr (HwQuick) quick = hw_quick_new (handbook);

    hw_quick_guess (quick, NULL, "hem", "", &guess);
    for (gsize i = 0; i < G_N_ELEMENTS (asked); i++)
      {
        g_autoptr (GPtrArray) all = hw_quick_all (handbook, project (&desk), &guess, asked[i].field);
        g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

        g_assert_cmpuint (all->len, >=, asked[i].least);
        g_assert_true (g_str_has_prefix (((const HwQuickOffer *) all->pdata[0])->text, asked[i].first));
        for (guint n = 0; n < all->len; n++)
          g_assert_true (g_hash_table_add (seen, ((HwQuickOffer *) all->pdata[n])->text));
      }
  }
  desk_close (&desk);
}

/* A step by hand that goes to a machine: its name says what is sewn; what the handbook knows by hand only is said. */
static void
test_to_a_machine (void)
{
  Desk       desk = { 0 };
  GtkWidget *form;
  GtkWidget *kind;
  const char *only = "The handbook knows a step of this name by hand only, so it has no set-up of its own: choose the "
                     "purpose that comes nearest.";

  desk_open (&desk);
  form = g_object_ref_sink (hw_step_form_new (desk.scene.workspace, NULL, HW_STEP_HAND));
  gtk_editable_set_text (GTK_EDITABLE (walk_need (form, GTK_TYPE_ENTRY, "Name")), "Hem the lower edge");
  kind = walk_need (form, GTK_TYPE_DROP_DOWN, "Done");
  g_assert_true (hw_choice_select (GTK_DROP_DOWN (kind), "operation"));
  g_assert_cmpstr (hw_choice_peek (GTK_DROP_DOWN (walk_need (form, GTK_TYPE_DROP_DOWN, "Purpose"))), ==, "hem");
  g_assert_false (walk_shows (form, only));
  g_object_unref (form);

  form = g_object_ref_sink (hw_step_form_new (desk.scene.workspace, NULL, HW_STEP_HAND));
  gtk_editable_set_text (GTK_EDITABLE (walk_need (form, GTK_TYPE_ENTRY, "Name")), "Sew the buttons on");
  kind = walk_need (form, GTK_TYPE_DROP_DOWN, "Done");
  g_assert_true (hw_choice_select (GTK_DROP_DOWN (kind), "operation"));
  g_assert_true (walk_shows (form, only));
  g_object_unref (form);
  desk_close (&desk);
}

/* A name may only sound like work by hand: nothing is added before that was seen, and a seam corrects it. */
static void
test_typed_by_hand (void)
{
  Desk          desk = { 0 };
  GtkWidget    *row;
  GtkWidget    *name;
  const HwStep *step;
  guint         n;

  desk_open (&desk);
  n = hw_workspace_peek_project (desk.scene.workspace)->steps->len;
  desk_act (desk_page (&desk), "making-up.add-step");
  row = walk_need (desk_page (&desk), HW_TYPE_QUICK_ROW, NULL);
  name = walk_need (row, GTK_TYPE_ENTRY, "Step");
  type_into (row, "Step", "Hanger loop");
  g_assert_nonnull (walk_text (row, "Taken as work by hand"));
  g_signal_emit_by_name (name, "activate");
  g_assert_cmpuint (hw_workspace_peek_project (desk.scene.workspace)->steps->len, ==, n);
  g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (desk.window)),
                                         walk_need (row, GTK_TYPE_ENTRY, "Minutes")));
  type_into (row, "Seam", "plain seam");
  g_assert_null (walk_text (row, "Taken as work by hand"));
  type_into (row, "Length, cm", "8");
  g_signal_emit_by_name (name, "activate");
  g_assert_cmpuint (hw_workspace_peek_project (desk.scene.workspace)->steps->len, ==, n + 1);
  step = hw_project_get_step (hw_workspace_peek_project (desk.scene.workspace), n);
  g_assert_cmpint (step->kind, ==, HW_STEP_OPERATION);
  type_into (row, "Step", "press the loop");
  g_signal_emit_by_name (name, "activate");
  g_signal_emit_by_name (walk_need (row, GTK_TYPE_ENTRY, "Minutes"), "activate");
  g_assert_cmpuint (hw_workspace_peek_project (desk.scene.workspace)->steps->len, ==, n + 2);
  desk_close (&desk);
}

/* All of it lies within the window. */
static gboolean
is_in_sight (gpointer row)
{
  GtkWidget       *root = GTK_WIDGET (gtk_widget_get_root (row));
  graphene_rect_t  bounds;

  return gtk_widget_compute_bounds (row, root, &bounds) && bounds.size.height > 0 && bounds.origin.y >= 0
         && bounds.origin.y + bounds.size.height <= (float) gtk_widget_get_height (root);
}

#define LOW 600            /* lower than the page at large text, higher than the row with its two lines */

static gboolean
is_low (gpointer window)
{
  return gtk_widget_get_height (window) <= LOW;
}

/* Longer than the scrolling that the focus begins. */
static void
wait_frames (Desk *desk)
{
  for (int i = 0; i < 30; i++)
    {
      gtk_test_widget_wait_for_draw (desk->root);
      scene_settle ();
    }
}

/* At large text the page is longer than the window: the row is brought into sight, and so is a form. */
static void
test_typed_in_sight (void)
{
  const int  usual_dpi = 96 * 1024;
  Desk       desk = { 0 };
  GtkWidget *row, *name;

  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", 2 * usual_dpi, NULL);
  desk_open (&desk);
  gtk_window_set_default_size (GTK_WINDOW (desk.window), 800, LOW);
  scene_wait (is_low, desk.window);
  desk_act (desk_page (&desk), "making-up.add-step");
  row = walk_need (desk_page (&desk), HW_TYPE_QUICK_ROW, NULL);
  scene_wait (is_in_sight, row);
  wait_frames (&desk);
  g_assert_true (is_in_sight (row));     /* nothing moved it away since */
  desk_act (row, "quick-row.close");
  desk_act (desk_page (&desk), "making-up.edit-step");
  name = walk_need (walk_need (desk_page (&desk), HW_TYPE_FORM, NULL), GTK_TYPE_ENTRY, "Name");
  scene_wait (is_in_sight, name);
  wait_frames (&desk);
  g_assert_true (is_in_sight (name));
  desk_close (&desk);
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", usual_dpi, NULL);
}

/* Where a widget stands on the screen, downwards: of a popover too. */
static void
find_span (GtkWidget *widget,
           double    *top,
           double    *bottom)
{
  GtkNative       *native = gtk_widget_get_native (widget);
  GdkSurface      *surface = gtk_native_get_surface (native);
  graphene_rect_t  bounds;
  double           x = 0;
  double           y = 0;

  gtk_native_get_surface_transform (native, &x, &y);
  g_assert_true (gtk_widget_compute_bounds (widget, GTK_WIDGET (native), &bounds));
  if (GDK_IS_POPUP (surface))
    y += gdk_popup_get_position_y (GDK_POPUP (surface));
  *top = y + (double) bounds.origin.y;
  *bottom = *top + (double) bounds.size.height;
}

static gboolean
is_mapped (gpointer widget)
{
  return gtk_widget_get_mapped (widget);
}

/* Neither the fields nor the line that tells of them lie under the list. */
static void
check_list_beside (Desk *desk)
{
  GtkWidget *row = walk_need (desk_page (desk), HW_TYPE_QUICK_ROW, NULL);
  GtkWidget *list = walk_need (row, GTK_TYPE_POPOVER, "What it may be");
  GtkWidget *rows = walk_need (list, GTK_TYPE_LIST_BOX, NULL);
  double     list_top, list_bottom, row_top, row_bottom, top, bottom;

  type_into (row, "Step", "side");
  scene_wait (is_mapped, rows);
  gtk_test_widget_wait_for_draw (desk->root);
  find_span (list, &list_top, &list_bottom);
  find_span (walk_need (row, GTK_TYPE_BUTTON, "Add the step"), &top, &row_bottom);
  find_span (walk_need (row, GTK_TYPE_ENTRY, "Step"), &row_top, &bottom);
  g_test_message ("list from %.0f to %.0f, row from %.0f to %.0f", list_top, list_bottom, row_top, row_bottom);
  g_assert_true (list_top >= row_bottom || list_bottom <= row_top);
  type_into (row, "Step", "");
}

static void
test_list_beside (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  desk_act (desk_page (&desk), "making-up.add-step");
  check_list_beside (&desk);
  desk_act (desk_page (&desk), "making-up.choose-all");
  desk_act (desk_page (&desk), "making-up.remove-step");
  desk_act (desk_page (&desk), "making-up.add-step");
  check_list_beside (&desk);
  desk_close (&desk);
}

static const HwStep *
find_step (const Desk *desk,
           const char *number)
{
  const HwProject *project = hw_workspace_peek_project (desk->scene.workspace);

  return hw_project_get_step (project, (gsize) hw_project_find_step (project, number));
}

/* What was taken for the one kind of step becomes the other in its form, under its number and with what follows it. */
static void
test_other_kind (void)
{
  Desk       desk = { 0 };
  GtkWidget *form;

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "2");
  desk_act (desk_page (&desk), "making-up.edit-step");
  form = walk_need (desk_page (&desk), HW_TYPE_FORM, NULL);
  g_assert_false (gtk_widget_is_visible (walk_need (form, GTK_TYPE_SPIN_BUTTON, "Pieces, each started anew")));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (walk_need (form, GTK_TYPE_DROP_DOWN, "Done")), HW_STEP_OPERATION);
  g_assert_false (gtk_widget_is_visible (walk_need (form, GTK_TYPE_SPIN_BUTTON, "Minutes")));
  g_assert_true (gtk_widget_is_visible (walk_need (form, GTK_TYPE_SPIN_BUTTON, "Pieces, each started anew")));
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (walk_need (form, GTK_TYPE_SPIN_BUTTON, "Layers of Twill")), 0);
  desk_act (form, "form.save");
  g_assert_nonnull (walk_text (form, "An operation joins layers"));
  g_assert_cmpint (find_step (&desk, "2")->kind, ==, HW_STEP_HAND);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (walk_need (form, GTK_TYPE_SPIN_BUTTON, "Layers of Twill")), 2);
  desk_act (form, "form.save");
  g_assert_cmpint (find_step (&desk, "2")->kind, ==, HW_STEP_OPERATION);
  g_assert_cmpstr (find_step (&desk, "2")->name, ==, "Press the pocket");
  g_assert_cmpstr (find_step (&desk, "2")->after[0], ==, "1");
  g_assert_cmpint (find_step (&desk, "2")->plies[0].count, ==, 2);
  hw_workspace_undo (desk.scene.workspace);
  g_assert_cmpint (find_step (&desk, "2")->kind, ==, HW_STEP_HAND);
  g_assert_cmpfloat (find_step (&desk, "2")->minutes, ==, 3);
  desk_close (&desk);
}

static const char *
text_of (GtkWidget  *row,
         const char *name)
{
  return gtk_editable_get_text (GTK_EDITABLE (walk_need (row, GTK_TYPE_ENTRY, name)));
}

/* Leaving the row with something in it is told, and the way back brings every field of it. */
static void
test_left_half_typed (void)
{
  Desk desk = { 0 };
  GtkWidget *row, *undo;

  desk_open (&desk);
  g_assert_true (desk_act (desk_page (&desk), "making-up.add-step"));
  row = walk_need (desk_page (&desk), HW_TYPE_QUICK_ROW, NULL);
  type_into (row, "Step", "lower hem");
  type_into (row, "Length, cm", "120");
  desk_act (row, "quick-row.close");
  g_assert_false (walk_visible (row, desk.root));
  g_assert_cmpstr (text_of (row, "Step"), ==, "");
  g_assert_cmpstr (hw_window_peek_message (desk.window), ==, "The step “lower hem” was not added yet.");
  undo = walk_need (desk.root, GTK_TYPE_BUTTON, "Undo what the message tells of");
  g_assert_true (walk_visible (undo, desk.root));
  g_signal_emit_by_name (undo, "clicked");
  scene_settle ();
  g_assert_true (walk_visible (row, desk.root));
  g_assert_cmpstr (text_of (row, "Step"), ==, "lower hem");
  g_assert_cmpstr (text_of (row, "Length, cm"), ==, "120");
  g_assert_null (hw_window_peek_message (desk.window));

  type_into (row, "Step", "");
  type_into (row, "Length, cm", "");
  desk_act (row, "quick-row.close");
  g_assert_null (hw_window_peek_message (desk.window));
  desk_close (&desk);
}

/* A name that says nothing is taken as a seam, and that stands there before it is added. */
static void
test_unknown_name (void)
{
  const char *told = "Not a name the handbook knows: taken as a plain seam. Else choose the seam.";
  Desk desk = { 0 };
  GtkWidget *row;

  desk_open (&desk);
  g_assert_true (desk_act (desk_page (&desk), "making-up.add-step"));
  row = walk_need (desk_page (&desk), HW_TYPE_QUICK_ROW, NULL);
  type_into (row, "Step", "lower hem");
  g_assert_false (walk_shows (row, told));
  type_into (row, "Step", "quux");
  g_assert_true (walk_shows (row, told));
  desk_act (row, "quick-row.add");
  g_assert_nonnull (walk_text (row, told));      /* and how long it is, is asked */
  type_into (row, "Seam", "plain seam");
  g_assert_false (walk_shows (row, told));
  desk_close (&desk);
}

static GtkWidget *
begin_thread (Desk       *desk,
              const char *colour)
{
  GtkWidget *form;

  desk_act (desk_page (desk), "making-up.add-thread");
  form = walk_need (desk_page (desk), HW_TYPE_FORM, NULL);
  type_into (form, "Colour", colour);
  return form;
}

/* The first thread that is chosen takes the place of the one that nobody chose; the next one stands beside it, and so
 * does a first one that is said to. */
static void
test_first_thread (void)
{
  Desk        desk = { 0 };
  GtkWidget  *form;
  const char *instead = "In place of the thread that the project began with: Polyester, all-purpose, ticket 100";

  desk_open (&desk);
  for (int keep = 0; keep < 2; keep++)
    {
      const HwProject *project;

      g_assert_true (hw_workspace_create (desk.scene.workspace, keep ? "Bag" : "Skirt", NULL));
      scene_settle ();
      form = begin_thread (&desk, "navy");
      gtk_check_button_set_active (GTK_CHECK_BUTTON (walk_need (form, GTK_TYPE_CHECK_BUTTON, instead)), keep == 0);
      desk_act (form, "form.save");
      project = hw_workspace_peek_project (desk.scene.workspace);
      g_assert_cmpuint (project->threads->len, ==, keep ? 2 : 1);
      g_assert_cmpstr (((HwProjectThread *) project->threads->pdata[keep])->colour, ==, "navy");
      form = begin_thread (&desk, "red");
      g_assert_null (walk_find (form, GTK_TYPE_CHECK_BUTTON, instead));
      desk_act (form, "form.save");
      g_assert_cmpuint (hw_workspace_peek_project (desk.scene.workspace)->threads->len, ==, keep ? 3 : 2);
    }
  desk_close (&desk);
}

/* Layers of two cloths are read whole in the field that they are typed into. */
static void
test_typed_layers_fit (void)
{
  static const char typed[] = "1 corduroy, 1 lawn";
  Desk       desk = { 0 };
  GtkWidget *text;
  int        width;
  g_autoptr (PangoLayout) layout = NULL;

  desk_open (&desk);
  desk_act (desk_page (&desk), "making-up.add-step");
  gtk_test_widget_wait_for_draw (desk.root);
  text = GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (walk_need (walk_need (desk_page (&desk),
                                                                                    HW_TYPE_QUICK_ROW, NULL),
                                                                         GTK_TYPE_ENTRY, "Layers"))));
  layout = gtk_widget_create_pango_layout (text, typed);
  pango_layout_get_pixel_size (layout, &width, NULL);
  g_assert_cmpint (width, <=, gtk_widget_get_width (text));
  desk_close (&desk);
}

static void
type_number (GtkWidget  *spin,
             const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (spin), text);
  gtk_spin_button_update (GTK_SPIN_BUTTON (spin));       /* as when the focus leaves it */
}

/* What is no number is never taken for one: neither its first figures, nor the least that the field takes. */
static void
test_no_number (void)
{
  static const char *const wrong[] = { "abc", "5 min", "", "0", "2000" };
  Desk       desk = { 0 };
  GtkWidget *form, *spin;

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "2");
  desk_act (desk_page (&desk), "making-up.edit-step");
  form = walk_need (desk_page (&desk), HW_TYPE_FORM, NULL);
  spin = walk_need (form, GTK_TYPE_SPIN_BUTTON, "Minutes");
  type_into (form, "Name", "Press it flat");
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_autofree char *told = g_strdup_printf ("Minutes must be a number from 0.5 to 1440; it is “%s”", wrong[i]);

      type_number (spin, wrong[i]);
      desk_act (form, "form.save");
      g_assert_true (walk_shows (form, told));
      g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (spin)), ==, wrong[i]);
      g_assert_true (gtk_widget_has_css_class (spin, "error"));
      g_assert_cmpstr (find_step (&desk, "2")->name, ==, "Press the pocket");
      g_assert_cmpfloat (find_step (&desk, "2")->minutes, ==, 3);
    }
  type_number (spin, "7.5");
  g_assert_false (gtk_widget_has_css_class (spin, "error"));
  desk_act (form, "form.save");
  g_assert_cmpstr (find_step (&desk, "2")->name, ==, "Press it flat");
  g_assert_cmpfloat (find_step (&desk, "2")->minutes, ==, 7.5);
  desk_close (&desk);
}

/* In the panel nothing is saved: the wrong number is told, and the right one stands there again. */
static void
test_no_number_in_panel (void)
{
  Desk       desk = { 0 };
  GtkWidget *spin;

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "2");
  scene_settle ();
  spin = walk_need (desk_page (&desk), GTK_TYPE_SPIN_BUTTON, "Minutes by hand");
  type_number (spin, "4x");
  g_assert_cmpstr (hw_window_peek_message (desk.window), ==,
                   "Minutes by hand must be a number from 0.5 to 1440; it is “4x”");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (spin)), ==, "3.0");
  g_assert_cmpfloat (find_step (&desk, "2")->minutes, ==, 3);
  desk_close (&desk);
}

/* Looked at only, a number keeps what the field does not show of it. */
static void
test_number_untouched (void)
{
  Desk   desk = { 0 };
  HwStep step;

  desk_open (&desk);
  step = *find_step (&desk, "2");
  step.minutes = 7.04;
  hw_workspace_edit (desk.scene.workspace, hw_edit_put_step (hw_workspace_peek_project (desk.scene.workspace), &step,
                                                             NULL), "minutes", NULL, NULL);
  hw_workspace_select (desk.scene.workspace, "2");
  scene_settle ();
  gtk_spin_button_update (GTK_SPIN_BUTTON (walk_need (desk_page (&desk), GTK_TYPE_SPIN_BUTTON, "Minutes by hand")));
  g_assert_cmpfloat (find_step (&desk, "2")->minutes, ==, 7.04);
  desk_close (&desk);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/window/steps/choose", test_choose);
  g_test_add_func ("/window/steps/change", test_change);
  g_test_add_func ("/window/steps/change-refused", test_change_refused);
  g_test_add_func ("/window/steps/move", test_move);
  g_test_add_func ("/window/steps/remove", test_remove);
  g_test_add_func ("/window/steps/copy-and-paste", test_copy_and_paste);
  g_test_add_func ("/window/steps/cut-and-paste-elsewhere", test_cut_and_paste_elsewhere);
  g_test_add_func ("/window/steps/paste-text", test_paste_text);
  g_test_add_func ("/window/steps/columns", test_columns);
  g_test_add_func ("/window/steps/layers-named", test_layers_named);
  g_test_add_func ("/window/steps/threads-taken", test_threads_taken);
  g_test_add_func ("/window/steps/typed", test_typed);
  g_test_add_func ("/window/steps/sewn-row", test_sewn_row);
  g_test_add_func ("/window/steps/unknown-cloth", test_unknown_cloth);
  g_test_add_func ("/window/steps/typed-guess", test_typed_guess);
  g_test_add_func ("/window/steps/typed-all", test_typed_all);
  g_test_add_func ("/window/steps/typed-by-hand", test_typed_by_hand);
  g_test_add_func ("/window/steps/to-a-machine", test_to_a_machine);
  g_test_add_func ("/window/steps/typed-in-sight", test_typed_in_sight);
  g_test_add_func ("/window/steps/list-beside", test_list_beside);
  g_test_add_func ("/window/steps/other-kind", test_other_kind);
  g_test_add_func ("/window/steps/first-thread", test_first_thread);
  g_test_add_func ("/window/steps/typed-layers-fit", test_typed_layers_fit);
  g_test_add_func ("/window/steps/no-number", test_no_number);
  g_test_add_func ("/window/steps/no-number-in-panel", test_no_number_in_panel);
  g_test_add_func ("/window/steps/number-untouched", test_number_untouched);
  g_test_add_func ("/steps/left-half-typed", test_left_half_typed);
  g_test_add_func ("/steps/unknown-name", test_unknown_name);
  return g_test_run ();
}
