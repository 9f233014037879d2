/* test-garment.c - a new project from a garment, in the real window
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <gtk/gtk.h>

#include "desk.h"
#include "walk.h"
#include "window/controls.h"
#include "window/form.h"

static void
open_garment (Desk *self)
{
  desk_open (self);
  g_assert_true (gtk_widget_activate_action (self->root, "win.new-garment", NULL));
  desk_open_page (self, "garment");
  g_assert_cmpstr (hw_window_get_page (self->window), ==, "garment");
}

static void
type_into (Desk       *desk,
           const char *name,
           const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (walk_need (desk->page, GTK_TYPE_ENTRY, name)), text);
}

static const char *
typed (Desk       *desk,
       const char *name)
{
  return gtk_editable_get_text (GTK_EDITABLE (walk_need (desk->page, GTK_TYPE_ENTRY, name)));
}

static void
choose (Desk       *desk,
        const char *name,
        guint       index)
{
  gtk_drop_down_set_selected (GTK_DROP_DOWN (walk_need (desk->page, GTK_TYPE_DROP_DOWN, name)), index);
  scene_settle ();
}

static void
begin (Desk *desk)
{
  g_assert_true (gtk_widget_activate_action (walk_need (desk->page, HW_TYPE_FORM, NULL), "form.save", NULL));
  scene_settle ();
}

/* How much there is to sew stands beside the buttons, not among the rows that scroll under them. */
static gboolean
has_sum_in_sight (Desk *desk)
{
  for (GtkWidget *part = gtk_widget_get_first_child (walk_need (desk->page, HW_TYPE_FORM, NULL)); part != NULL;
       part = gtk_widget_get_next_sibling (part))
    if (GTK_IS_LABEL (part) && strstr (gtk_label_get_text (GTK_LABEL (part)), " steps, ") != NULL)
      return TRUE;
  return FALSE;
}

/* The straight skirt in size 96 (waist 80): 80 + 4 cm of band, steps with their lengths, the fabric chosen. */
static void
test_begin (void)
{
  Desk desk = { 0 };
  const HwProject *project;
  const HwStep *band;

  open_garment (&desk);
  choose (&desk, "Size", 4);
  g_assert_cmpstr (typed (&desk, "Waist"), ==, "80");
  choose (&desk, "Skirt", (guint) hw_handbook_find_fabric (hw_workspace_get_handbook (desk.scene.workspace), "denim"));
  g_assert_true (walk_shows (desk.page, "440 g/m², 0.95 mm"));
  g_assert_true (has_sum_in_sight (&desk));
  type_into (&desk, "Title", "  A skirt of denim ");
  begin (&desk);
  g_assert_cmpstr (hw_window_get_page (desk.window), ==, "making-up");
  project = hw_workspace_peek_project (desk.scene.workspace);
  g_assert_cmpstr (project->title, ==, "A skirt of denim");
  g_assert_cmpuint (project->steps->len, ==, 18);
  band = hw_project_get_step (project, (gsize) hw_project_find_step (project, "11"));
  g_assert_cmpfloat_with_epsilon (band->length_cm, 84, 0.01);
  g_assert_cmpstr (((HwProjectFabric *) project->fabrics->pdata[0])->handbook, ==, "denim");
  g_assert_nonnull (hw_workspace_peek_plan (desk.scene.workspace));
  g_assert_true (g_file_test (hw_workspace_peek_path (desk.scene.workspace), G_FILE_TEST_EXISTS));
  desk_close (&desk);
}

/* 28 in are 71.12 cm; typing them makes the measurements the person's own. */
static void
test_inches (void)
{
  Desk desk = { 0 };
  const HwProject *project;

  open_garment (&desk);
  choose (&desk, "Measured in", 1);
  g_assert_cmpstr (typed (&desk, "Waist"), ==, "29.92");
  type_into (&desk, "Waist", "28");
  choose (&desk, "Measured in", 0);
  g_assert_cmpstr (typed (&desk, "Waist"), ==, "71.1");
  begin (&desk);
  project = hw_workspace_peek_project (desk.scene.workspace);
  g_assert_cmpfloat_with_epsilon (hw_project_get_step (project, 10)->length_cm, 75.1, 0.06);
  desk_close (&desk);
}

/* Said beside the field, in its unit; nothing is begun. */
static void
test_impossible (void)
{
  static const char * const wrong[] = { "999", "-3", "", "wide", "1e400" };
  Desk desk = { 0 };

  open_garment (&desk);
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_test_message ("“%s”", wrong[i]);
      type_into (&desk, "Waist", wrong[i]);
      g_assert_true (walk_shows (desk.page, i < 2 ? "45 to 150 cm" : "a number, written as 92.5"));
      begin (&desk);
      g_assert_cmpstr (hw_window_get_page (desk.window), ==, "garment");
      g_assert_true (walk_shows (desk.page, "Mend the measurements that are marked, then begin."));
    }
  g_assert_nonnull (walk_text (desk.page, "1  Fuse the interfacing to the waistband: by hand, 5 min\n"
                                          "2  Staystitch the waist edges: 80 cm\n"));    /* as they were */
  type_into (&desk, "Waist", "72,500");                  /* may be thousands */
  g_assert_true (walk_shows (desk.page, "write 72.500"));
  type_into (&desk, "Waist", "72,5");
  g_assert_false (walk_shows (desk.page, "write 72.5"));
  type_into (&desk, "Waist", "72");
  g_assert_false (walk_shows (desk.page, "a number, written as 92.5"));
  type_into (&desk, "Title", " ");
  begin (&desk);
  g_assert_true (walk_shows (desk.page, "A project needs a title; type one"));
  g_assert_cmpstr (hw_workspace_peek_path (desk.scene.workspace), ==, desk.scene.path);
  desk_close (&desk);
}

typedef struct
{
  GListModel *found;
  const char *typed;
} Typed;

static gboolean
holds_typed (gpointer data)
{
  const Typed *typed = data;
  guint        n = g_list_model_get_n_items (typed->found);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (GtkStringObject) item = g_list_model_get_item (typed->found, i);
      g_autofree char *text = g_utf8_casefold (gtk_string_object_get_string (item), -1);

      if (strstr (text, typed->typed) == NULL)
        return FALSE;
    }
  return n > 0;
}

/* A few letters, of whichever word, and Return take a cloth; one that begins so before one that has them further on. */
static void
test_cloth_by_typing (void)
{
  static const struct { const char *letters, *cloth; guint least; } typed[] = {
    { "cham", "chambray", 1 }, { "flannel", "flannel", 2 }, { "suede", "suede-split", 2 },
  };
  Desk       desk = { 0 };
  GtkWidget *cloth;
  GtkWidget *search;

  open_garment (&desk);
  cloth = walk_need (desk.page, GTK_TYPE_DROP_DOWN, "Skirt");
  search = walk_need (cloth, GTK_TYPE_SEARCH_ENTRY, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (typed); i++)
    {
      GtkListView *list = GTK_LIST_VIEW (walk_need (cloth, GTK_TYPE_LIST_VIEW, NULL));
      Typed        sought = { G_LIST_MODEL (gtk_list_view_get_model (list)), typed[i].letters };

      gtk_editable_set_text (GTK_EDITABLE (search), typed[i].letters);
      scene_wait (holds_typed, &sought);
      g_assert_cmpuint (g_list_model_get_n_items (sought.found), >=, typed[i].least);
      g_signal_emit_by_name (search, "activate");
      scene_settle ();
      g_assert_cmpstr (hw_choice_peek (GTK_DROP_DOWN (cloth)), ==, typed[i].cloth);
    }
  desk_close (&desk);
}

/* Every garment of the handbook in every size can be begun as it is offered. */
static void
test_all (void)
{
  Desk desk = { 0 };
  const HwHandbook *handbook;

  open_garment (&desk);
  handbook = hw_workspace_get_handbook (desk.scene.workspace);
  for (gsize i = 0; i < handbook->n_garments; i++)
    {
      GtkListBox *list = GTK_LIST_BOX (walk_need (desk.page, GTK_TYPE_LIST_BOX, "Garments"));

      g_assert_true (gtk_widget_activate_action (desk.root, "win.new-garment", NULL));
      gtk_list_box_select_row (list, gtk_list_box_get_row_at_index (list, (int) i));
      scene_settle ();
      begin (&desk);
      g_test_message ("%s", handbook->garments[i].entry.id);
      g_assert_cmpuint (hw_workspace_peek_project (desk.scene.workspace)->steps->len, ==,
                        handbook->garments[i].n_steps);
      g_assert_nonnull (hw_workspace_peek_plan (desk.scene.workspace));
    }
  desk_close (&desk);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/window/garment/begin", test_begin);
  g_test_add_func ("/window/garment/inches", test_inches);
  g_test_add_func ("/window/garment/impossible", test_impossible);
  g_test_add_func ("/window/garment/cloth-by-typing", test_cloth_by_typing);
  g_test_add_func ("/window/garment/all", test_all);
  return g_test_run ();
}
