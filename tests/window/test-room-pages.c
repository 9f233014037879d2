/* test-room-pages.c - needles, thread, fabrics and the journal in the window
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <gtk/gtk.h>
#include <string.h>

#include "scene.h"
#include "temp-folder.h"
#include "walk.h"
#include "window/form.h"
#include "window/journal-list.h"
#include "window/window.h"

typedef struct
{
  Scene      scene;
  HwWindow  *window;
  GtkWidget *root, *page;
} Desk;

static void
turn_to (Desk       *self,
         const char *page)
{
  g_assert_true (gtk_widget_activate_action (self->root, "win.page", "s", page));
  gtk_test_widget_wait_for_draw (self->root);
  self->page = gtk_stack_get_visible_child (walk_stack (self->root, page));
}

static void
desk_open (Desk       *self,
           const char *page)
{
  scene_open (&self->scene);
  self->window = HW_WINDOW (g_object_ref_sink (hw_window_new (NULL, self->scene.workspace)));
  self->root = GTK_WIDGET (self->window);
  gtk_window_present (GTK_WINDOW (self->window));
  turn_to (self, page);
}

static void
desk_close (Desk *self)
{
  gtk_window_destroy (GTK_WINDOW (self->window));
  scene_settle ();
  g_assert_finalize_object (self->window);
  scene_close (&self->scene);
}

static const HwRoom *
room_of (Desk *desk)
{
  return hw_workspace_get_room (desk->scene.workspace);
}

static void
type (Desk       *desk,
      const char *control,
      const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (walk_need (desk->page, GTK_TYPE_EDITABLE, control)), text);
}

static gboolean
has_no_form (gpointer data)
{
  return walk_find (((Desk *) data)->page, HW_TYPE_FORM, NULL) == NULL;
}

static void
save (Desk *desk)
{
  g_assert_true (gtk_widget_activate_action (walk_need (desk->page, HW_TYPE_FORM, NULL), "form.save", NULL));
  scene_wait (has_no_form, desk);
}

static void
act (Desk       *desk,
     const char *action,
     const char *target)
{
  g_assert_true (gtk_widget_activate_action (desk->page, action, target != NULL ? "s" : NULL, target));
  scene_settle ();
}

static void
test_needles (void)
{
  Desk desk = { 0 };
  const HwPacket *packet;
  g_autofree char *id = NULL;
  g_autofree char *needle = NULL;
  int before;

  desk_open (&desk, "needles");
  packet = room_of (&desk)->packets->pdata[0];
  id = g_strdup (packet->id);
  before = hw_room_new_needles (room_of (&desk), packet);
  act (&desk, "needles.more", id);
  packet = room_of (&desk)->packets->pdata[0];
  g_assert_cmpint (hw_room_new_needles (room_of (&desk), packet), ==, before + 1);
  act (&desk, "needles.fewer", id);

  act (&desk, "needles.load-new", id);
  save (&desk);
  g_assert_cmpuint (room_of (&desk)->needles->len, ==, 1);
  packet = room_of (&desk)->packets->pdata[0];
  g_assert_cmpint (hw_room_new_needles (room_of (&desk), packet), ==, before - 1);
  needle = g_strdup (((HwNeedle *) room_of (&desk)->needles->pdata[0])->id);
  g_assert_nonnull (((HwNeedle *) room_of (&desk)->needles->pdata[0])->machine);

  act (&desk, "needles.place", needle);
  type (&desk, "What stands on its place in the case", "row 2, third");
  save (&desk);
  g_assert_null (((HwNeedle *) room_of (&desk)->needles->pdata[0])->machine);
  g_assert_cmpstr (((HwNeedle *) room_of (&desk)->needles->pdata[0])->place, ==, "row 2, third");

  act (&desk, "needles.discard", needle);
  g_assert_true (((HwNeedle *) room_of (&desk)->needles->pdata[0])->discarded);
  g_assert_true (hw_workspace_offers_undo (desk.scene.workspace));
  g_assert_true (gtk_widget_activate_action (desk.root, "win.undo-entry", NULL));
  g_assert_false (((HwNeedle *) room_of (&desk)->needles->pdata[0])->discarded);

  act (&desk, "needles.add", NULL);
  type (&desk, "Size, the first number on the packet", "110");
  save (&desk);
  packet = room_of (&desk)->packets->pdata[room_of (&desk)->packets->len - 1];
  g_assert_cmpint (packet->nm, ==, 110);
  g_assert_cmpint (packet->count, ==, 5);
  desk_close (&desk);
}

static void
test_thread (void)
{
  Desk desk = { 0 };
  const HwSpool *spool;
  g_autofree char *id = NULL;

  desk_open (&desk, "thread");
  g_assert_nonnull (walk_text (desk.page, "No thread is on the shelf yet."));
  g_assert_true (walk_shows (desk.page, "The snap test"));
  act (&desk, "thread.add", NULL);
  g_assert_true (gtk_widget_activate_action (walk_need (desk.page, HW_TYPE_FORM, NULL), "form.save", NULL));
  g_assert_nonnull (walk_text (desk.page, "Give the thread’s colour a name"));
  type (&desk, "Colour", "navy");
  type (&desk, "Metres left, all spools of it together", "200");
  save (&desk);
  g_assert_cmpuint (room_of (&desk)->spools->len, ==, 1);
  spool = room_of (&desk)->spools->pdata[0];
  g_assert_cmpstr (spool->colour, ==, "navy");
  g_assert_cmpfloat (spool->metres, ==, 200);
  id = g_strdup (spool->id);
  act (&desk, "thread.edit", id);
  type (&desk, "Metres left, all spools of it together", "180");
  save (&desk);
  spool = room_of (&desk)->spools->pdata[0];
  g_assert_cmpfloat (spool->metres, ==, 180);
  act (&desk, "thread.remove", id);
  g_assert_cmpuint (room_of (&desk)->spools->len, ==, 0);
  desk_close (&desk);
}

static void
test_fabrics (void)
{
  Desk desk = { 0 };
  const HwShelfCloth *cloth;
  const HwProject *project;
  const HwProjectFabric *fabric;
  guint n;

  desk_open (&desk, "fabrics");
  g_assert_nonnull (walk_text (desk.page, "No fabric is on hand yet."));
  act (&desk, "fabrics.add", NULL);
  type (&desk, "Name", "Blue shirting");
  type (&desk, "Width of the cut, cm", "20");
  type (&desk, "Length of the cut, cm", "25");
  type (&desk, "What the cut weighs, grams", "6");
  type (&desk, "Number of layers in the pile", "10");
  type (&desk, "Height of the pile, mm", "2.5");
  save (&desk);
  cloth = room_of (&desk)->cloths->pdata[0];
  g_assert_cmpfloat_with_epsilon (cloth->mass_g_m2, 120, 1e-9);
  g_assert_cmpfloat_with_epsilon (cloth->thickness_mm, 0.25, 1e-9);
  n = hw_workspace_peek_project (desk.scene.workspace)->fabrics->len;
  act (&desk, "fabrics.use", cloth->id);
  project = hw_workspace_peek_project (desk.scene.workspace);
  g_assert_cmpuint (project->fabrics->len, ==, n + 1);
  fabric = project->fabrics->pdata[n];
  g_assert_cmpstr (fabric->name, ==, "Blue shirting");
  g_assert_cmpfloat (fabric->mass_g_m2, ==, cloth->mass_g_m2);
  desk_close (&desk);
}

static GListModel *
listed (Desk *desk)
{
  GtkWidget *view = walk_need (desk->page, GTK_TYPE_LIST_VIEW, "Journal entries, the last one first");

  return G_LIST_MODEL (gtk_list_view_get_model (GTK_LIST_VIEW (view)));
}

static const HwJournalEntry *
entry_at (Desk *desk,
          guint place)
{
  g_autoptr (HwJournalItem) item = g_list_model_get_item (listed (desk), place);

  return hw_journal_item_entry (item);
}

static double
hours (Desk *desk)
{
  const HwRoom *room = room_of (desk);

  return hw_room_get_state (room, room->machines->pdata[0])->at_machine_hours;
}

static void
test_journal (void)
{
  Desk desk = { 0 };
  g_autoptr (HwJournalEntry) sewing = NULL;
  g_autoptr (HwJournalEntry) care = NULL;
  g_autofree char *path = NULL;
  g_autofree char *csv = NULL;
  g_autofree char *id = NULL;
  const HwMachine *machine;
  double before;

  desk_open (&desk, "journal");
  g_assert_nonnull (walk_text (desk.page, "Nothing is in the journal yet"));
  machine = room_of (&desk)->machines->pdata[0];
  before = hours (&desk);
  sewing = hw_journal_entry_new (HW_ENTRY_SEWING, machine->id);
  sewing->minutes = 300;
  sewing->note = g_strdup ("lining first");
  care = hw_journal_entry_new (HW_ENTRY_CARE, machine->id);
  care->task = g_strdup ("dust");
  g_assert_true (hw_workspace_append (desk.scene.workspace, sewing, NULL));
  g_assert_true (hw_workspace_append (desk.scene.workspace, care, NULL));
  scene_settle ();
  g_assert_cmpuint (g_list_model_get_n_items (listed (&desk)), ==, 2);
  g_assert_cmpint (entry_at (&desk, 0)->kind, ==, HW_ENTRY_CARE);

  act (&desk, "journal.correct", sewing->id);
  type (&desk, "Minutes it took", "30");
  save (&desk);
  g_assert_cmpfloat_with_epsilon (hours (&desk), before + 0.5, 1e-9);
  g_assert_cmpuint (g_list_model_get_n_items (listed (&desk)), ==, 2);

  path = g_build_filename (desk.scene.folder, "out.csv", NULL);
  act (&desk, "journal.export-to", path);
  g_assert_true (g_file_get_contents (path, &csv, NULL, NULL));
  g_assert_nonnull (strstr (csv, ",30,"));
  g_assert_nonnull (strstr (csv, "lining first"));

  id = g_strdup (entry_at (&desk, 0)->kind == HW_ENTRY_SEWING ? entry_at (&desk, 0)->id : entry_at (&desk, 1)->id);
  act (&desk, "journal.cancel", id);
  g_assert_cmpfloat_with_epsilon (hours (&desk), before, 1e-9);
  g_assert_cmpuint (g_list_model_get_n_items (listed (&desk)), ==, 1);
  g_assert_true (gtk_widget_activate_action (desk.root, "win.undo-entry", NULL));
  scene_settle ();
  g_assert_cmpfloat_with_epsilon (hours (&desk), before + 0.5, 1e-9);
  g_assert_cmpuint (g_list_model_get_n_items (listed (&desk)), ==, 2);
  desk_close (&desk);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);

  g_test_add_func ("/room-pages/needles", test_needles);
  g_test_add_func ("/room-pages/thread", test_thread);
  g_test_add_func ("/room-pages/fabrics", test_fabrics);
  g_test_add_func ("/room-pages/journal", test_journal);
  return g_test_run ();
}
