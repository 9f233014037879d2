/* test-room-pages.c - needles, thread, fabrics and the journal in the window
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <gtk/gtk.h>
#include <string.h>

#include "desk.h"
#include "model/versions.h"
#include "plan/test-seam.h"
#include "temp-folder.h"
#include "walk.h"
#include "window/form.h"
#include "window/controls.h"
#include "window/journal-list.h"
#include "words/words-room.h"
#include "words/words.h"

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

  desk_open (&desk);
  desk_open_page (&desk, "needles");
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
  before = (int) room_of (&desk)->packets->len;
  act (&desk, "needles.add", NULL);
  type (&desk, "Size, the first number on the packet", "110");
  save (&desk);
  g_assert_cmpint (room_of (&desk)->packets->len, ==, before);  /* the same kind again */
  packet = room_of (&desk)->packets->pdata[room_of (&desk)->packets->len - 1];
  g_assert_cmpint (packet->count, ==, 10);
  desk_close (&desk);
}

static void
choose (Desk       *desk,
        const char *control,
        guint       place)
{
  gtk_drop_down_set_selected (GTK_DROP_DOWN (walk_need (desk->page, GTK_TYPE_DROP_DOWN, control)), place);
}

/* One in the case, one in the machine; their hours count from what the person remembers. */
static gboolean
is_focus_at (Desk       *desk,
             const char *name)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (desk->root));

  return focus != NULL && walk_has_name (focus, name);
}

/* Only keys: the list is one stop, the buttons of one row stand in it, and the list made anew keeps the place. */
static void
test_needles_by_keys (void)
{
  Desk desk = { 0 };
  g_autofree char *first = NULL;
  g_autofree char *more = NULL;
  GtkWidget *list;
  int stops = 0;

  desk_open (&desk);
  desk_open_page (&desk, "needles");
  first = hw_words_packet (hw_workspace_get_handbook (desk.scene.workspace), room_of (&desk)->packets->pdata[0]);
  more = g_strdup_printf ("One more: %s", first);
  for (int i = 0; i < 2; i++)
    {
      GtkWidget *button = walk_need (desk.page, GTK_TYPE_BUTTON, more);

      g_assert_true (gtk_widget_grab_focus (button));
      g_assert_true (gtk_widget_activate (button));
      scene_settle ();
      g_assert_true (is_focus_at (&desk, more));
    }

  list = walk_need (desk.page, GTK_TYPE_LIST_BOX, "Needles");
  while (gtk_widget_get_focus_child (list) != NULL && stops < 20)
    {
      gtk_widget_child_focus (desk.root, GTK_DIR_TAB_FORWARD);
      stops++;
    }
  g_assert_cmpint (stops, <=, 4);

  g_assert_true (gtk_widget_grab_focus (walk_need (desk.page, GTK_TYPE_BUTTON, "Add needles")));
  act (&desk, "needles.add", NULL);
  g_assert_false (is_focus_at (&desk, "Add needles"));
  type (&desk, "Size, the first number on the packet", "110");
  save (&desk);
  g_assert_true (is_focus_at (&desk, "Add needles"));
  desk_close (&desk);
}

/* What has much to show takes the room there is: a list once was two rows high on an empty page. */
static void
test_lists_are_tall (void)
{
  static const struct { const char *page, *list; gboolean is_box; } lists[] = {
    { "journal", "Journal entries, the last one first", FALSE }, { "handbook", "Entries of the handbook", FALSE },
    { "needles", "Needles", TRUE },
  };
  Desk desk = { 0 };

  desk_open (&desk);
  for (gsize i = 0; i < G_N_ELEMENTS (lists); i++)
    {
      GtkWidget *list;
      GtkWidget *scrolled;

      desk_open_page (&desk, lists[i].page);
      list = walk_need (desk.page, lists[i].is_box ? GTK_TYPE_LIST_BOX : GTK_TYPE_LIST_VIEW, lists[i].list);
      scrolled = gtk_widget_get_ancestor (list, GTK_TYPE_SCROLLED_WINDOW);
      g_test_message ("%s: %d of %d", lists[i].page, gtk_widget_get_height (scrolled),
                      gtk_widget_get_height (desk.page));
      g_assert_cmpint (gtk_widget_get_height (scrolled), >, gtk_widget_get_height (desk.page) / 2);
    }
  desk_close (&desk);
}

static void
test_used_before (void)
{
  Desk desk = { 0 };
  const HwNeedle *needle;
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) read = NULL;

  desk_open (&desk);
  desk_open_page (&desk, "needles");
  act (&desk, "needles.add-worn", NULL);
  type (&desk, "Size, the first number on the packet", "90");
  type (&desk, "Hours it has been sewn with", "4.5");
  type (&desk, "What stands on its place in the case", "row 1");
  save (&desk);
  needle = room_of (&desk)->needles->pdata[0];
  g_assert_cmpint (needle->nm, ==, 90);
  g_assert_cmpfloat (needle->at_machine_hours, ==, 4.5);
  g_assert_null (needle->machine);
  g_assert_cmpstr (needle->place, ==, "row 1");
  g_assert_nonnull (walk_text (desk.page, "4.5 of 15 h, in the case, “row 1”"));

  act (&desk, "needles.add-worn", NULL);
  type (&desk, "Hours it has been sewn with", "2");
  choose (&desk, "Where it is now", 1);
  g_assert_false (walk_visible (walk_need (desk.page, GTK_TYPE_EDITABLE, "What stands on its place in the case"),
                                desk.page));
  save (&desk);
  needle = hw_room_get_state (room_of (&desk), room_of (&desk)->machines->pdata[0])->needle;
  g_assert_nonnull (needle);
  g_assert_cmpfloat (needle->at_machine_hours, ==, 2);

  read = hw_room_open (desk.scene.room, &error);
  g_assert_no_error (error);
  g_assert_true (hw_room_is_equal (read, room_of (&desk)));
  g_assert_cmpuint (read->needles->len, ==, 2);
  desk_close (&desk);
}

/* What is left to sew is planned on a thread; the page tells then what it wants. */
static gboolean
tells_wants (gpointer desk)
{
  return walk_text (((Desk *) desk)->page, "1 wanted, ") != NULL;
}

static void
test_wants (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  desk_open_page (&desk, "needles");
  scene_wait (tells_wants, &desk);
  g_assert_nonnull (walk_text (desk.page, "Workshop apron"));
  g_assert_null (walk_text (desk.page, "Planning your projects…"));
  desk_close (&desk);
}

/* A new needle is given its place when it goes back to the case. */
static void
test_finish (void)
{
  Desk desk = { 0 };
  const HwNeedle *needle;
  g_autofree char *id = NULL;

  desk_open (&desk);
  desk_open_page (&desk, "needles");
  id = g_strdup (((HwPacket *) room_of (&desk)->packets->pdata[0])->id);
  act (&desk, "needles.load-new", id);
  save (&desk);
  needle = room_of (&desk)->needles->pdata[0];
  g_assert_cmpstr (needle->machine, ==, "lockstitch");
  g_assert_true (hw_workspace_mark_done (desk.scene.workspace, "1", TRUE));
  desk_open_page (&desk, "finish");
  g_assert_false (gtk_widget_is_sensitive (walk_need (desk.page, GTK_TYPE_EDITABLE,
                                                      "What stands on its place in the case")));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (walk_need (desk.page, GTK_TYPE_CHECK_BUTTON, NULL)), TRUE);
  type (&desk, "What stands on its place in the case", "row 3");
  g_signal_emit_by_name (walk_need (desk.page, GTK_TYPE_BUTTON, "All done at Lockstitch machine: note it"), "clicked");
  scene_settle ();
  g_assert_cmpuint (room_of (&desk)->needles->len, ==, 1);      /* it passes for the step: no other was wanted */
  needle = room_of (&desk)->needles->pdata[0];
  g_assert_null (needle->machine);
  g_assert_cmpstr (needle->place, ==, "row 3");
  desk_close (&desk);
}

/* A machine that sewed on another day is not today's. */
static void
test_finish_earlier (void)
{
  Desk desk = { 0 };
  g_autoptr (HwJournalEntry) entry = NULL;

  desk_open (&desk);
  entry = hw_journal_entry_new (HW_ENTRY_SEWING, "lockstitch");
  entry->minutes = 20;
  g_free (entry->time);
  entry->time = g_strdup ("2021-05-09T12:00:00Z");
  g_assert_true (hw_workspace_append (desk.scene.workspace, entry, NULL));
  desk_open_page (&desk, "finish");
  g_assert_true (walk_shows (desk.page, "No machine has sewn today."));
  g_assert_true (walk_shows (desk.page, "From an earlier day"));
  g_assert_nonnull (walk_text (desk.page, "Sewed last on 9 May 2021"));
  g_assert_true (hw_workspace_mark_done (desk.scene.workspace, "1", TRUE));
  scene_settle ();
  g_assert_false (walk_shows (desk.page, "From an earlier day"));
  g_assert_null (walk_text (desk.page, "Sewed last on"));
  walk_need (desk.page, GTK_TYPE_BUTTON, "All done at Lockstitch machine: note it");
  desk_close (&desk);
}

static void
test_thread (void)
{
  Desk desk = { 0 };
  const HwSpool *spool;
  g_autofree char *id = NULL;

  desk_open (&desk);
  desk_open_page (&desk, "thread");
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

/* In inches and yards; a length that is only looked at stays to the last digit. */
static void
test_inches (void)
{
  Desk desk = { 0 };
  const HwShelfCloth *cloth;
  const HwSpool *spool;
  g_autofree char *id = NULL;

  hw_words_set_style (TRUE, HW_NUMBER_LOCALE);
  desk_open (&desk);
  hw_words_set_style (TRUE, HW_NUMBER_LOCALE);          /* the room's preferences came in between */
  desk_open_page (&desk, "fabrics");
  act (&desk, "fabrics.add", NULL);
  type (&desk, "Name", "Blue shirting");
  type (&desk, "Width of the cut, inches", "10");
  type (&desk, "Length of the cut, inches", "10");
  type (&desk, "What the cut weighs, grams", "6.4516");
  type (&desk, "Yards on hand", "2.5");
  type (&desk, "Width, inches", "55");
  save (&desk);
  hw_words_set_style (TRUE, HW_NUMBER_LOCALE);
  cloth = room_of (&desk)->cloths->pdata[0];
  g_assert_cmpfloat_with_epsilon (cloth->mass_g_m2, 100, 0.05);
  g_assert_cmpfloat_with_epsilon (cloth->metres, 2.286, 1e-9);
  g_assert_cmpfloat_with_epsilon (cloth->width_cm, 139.7, 1e-9);
  id = g_strdup (cloth->id);
  act (&desk, "fabrics.edit", id);
  type (&desk, "Name", "Blue poplin");
  save (&desk);
  cloth = room_of (&desk)->cloths->pdata[0];
  g_assert_cmpstr (cloth->name, ==, "Blue poplin");
  g_assert_cmpfloat_with_epsilon (cloth->metres, 2.286, 1e-9);
  g_assert_cmpfloat_with_epsilon (cloth->width_cm, 139.7, 1e-9);
  hw_words_set_style (TRUE, HW_NUMBER_LOCALE);
  desk_open_page (&desk, "thread");
  act (&desk, "thread.add", NULL);
  type (&desk, "Colour", "navy");
  type (&desk, "Yards left, all spools of it together", "100");
  save (&desk);
  spool = room_of (&desk)->spools->pdata[0];
  g_assert_cmpfloat_with_epsilon (spool->metres, 91.44, 1e-9);
  hw_words_set_style (FALSE, HW_NUMBER_LOCALE);
  desk_close (&desk);
}

static GtkWidget *
trait_box (Desk       *desk,
           const char *id)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (desk->scene.workspace);
  int               index = hw_handbook_find_trait (handbook, id);

  g_assert_cmpint (index, >=, 0);
  return walk_need (desk->page, GTK_TYPE_CHECK_BUTTON, handbook->traits[index].entry.name);
}

static void
test_fabrics (void)
{
  Desk desk = { 0 };
  const HwShelfCloth *cloth;
  const HwProject *project;
  const HwProjectFabric *fabric;
  g_autofree char *id = NULL;
  guint n;

  desk_open (&desk);
  desk_open_page (&desk, "fabrics");
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
  g_assert_null (cloth->traits != NULL ? cloth->traits[0] : NULL);
  act (&desk, "fabrics.edit", cloth->id);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (trait_box (&desk, "slippery")), TRUE);
  save (&desk);
  cloth = room_of (&desk)->cloths->pdata[0];
  g_assert_cmpuint (g_strv_length (cloth->traits), ==, 1);
  g_assert_cmpstr (cloth->traits[0], ==, "slippery");

  n = hw_workspace_peek_project (desk.scene.workspace)->fabrics->len;
  act (&desk, "fabrics.use", cloth->id);
  choose (&desk, "In “Workshop apron”, in the place of", n);
  save (&desk);
  project = hw_workspace_peek_project (desk.scene.workspace);
  g_assert_cmpuint (project->fabrics->len, ==, n + 1);
  fabric = project->fabrics->pdata[n];
  g_assert_cmpstr (fabric->name, ==, "Blue shirting");
  g_assert_cmpfloat (fabric->mass_g_m2, ==, cloth->mass_g_m2);
  g_assert_cmpstr (fabric->traits[0], ==, "slippery");

  /* In the place of one that steps name: they keep its id. */
  id = g_strdup (((HwProjectFabric *) project->fabrics->pdata[0])->id);
  act (&desk, "fabrics.use", cloth->id);
  choose (&desk, "In “Workshop apron”, in the place of", 0);
  save (&desk);
  project = hw_workspace_peek_project (desk.scene.workspace);
  g_assert_cmpuint (project->fabrics->len, ==, n + 1);
  fabric = hw_project_find_fabric (project, id);
  g_assert_cmpstr (fabric->name, ==, "Blue shirting");
  g_assert_nonnull (hw_workspace_peek_plan (desk.scene.workspace));
  hw_workspace_undo (desk.scene.workspace);
  fabric = hw_project_find_fabric (hw_workspace_peek_project (desk.scene.workspace), id);
  g_assert_cmpstr (fabric->name, !=, "Blue shirting");
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

  desk_open (&desk);
  desk_open_page (&desk, "journal");
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

/* A timer's minutes are shown by the half minute, and stay what they were as long as nobody types others. */
static void
test_journal_minutes (void)
{
  Desk desk = { 0 };
  g_autoptr (HwJournalEntry) sewing = NULL;
  double before;

  desk_open (&desk);
  sewing = hw_journal_entry_new (HW_ENTRY_SEWING, ((HwMachine *) room_of (&desk)->machines->pdata[0])->id);
  sewing->minutes = 7.04;
  g_assert_true (hw_workspace_append (desk.scene.workspace, sewing, NULL));
  before = hours (&desk);
  desk_open_page (&desk, "journal");
  act (&desk, "journal.correct", sewing->id);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (walk_need (desk.page, GTK_TYPE_ENTRY, "Minutes it took"))), ==,
                   "7");
  save (&desk);
  g_assert_cmpfloat (entry_at (&desk, 0)->minutes, ==, 7.04);
  g_assert_cmpfloat (hours (&desk), ==, before);
  desk_close (&desk);
}

static int
check_whole (GtkWidget *widget)
{
  int n = 0;

  if (GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), ", dial ") != NULL)
    {
      g_assert_false (pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (widget))));
      n++;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += check_whole (child);
  return n;
}

/* How a scrap looked is read whole, in a narrow window too. */
static void
test_journal_verdict (void)
{
  Desk desk = { 0 };
  const HwSetup *setup;
  g_autoptr (HwJournalEntry) seam = NULL;

  desk_open (&desk);
  gtk_window_set_default_size (GTK_WINDOW (desk.window), 640, 600);
  setup = hw_plan_find_test_setup (hw_workspace_peek_plan (desk.scene.workspace), "1");
  seam = hw_plan_entry_for_test_seam (hw_workspace_peek_plan (desk.scene.workspace), setup, 4, HW_VERDICT_BALANCED);
  g_assert_true (hw_workspace_append (desk.scene.workspace, seam, NULL));
  desk_open_page (&desk, "journal");
  g_assert_cmpint (check_whole (desk.page), >, 0);
  desk_close (&desk);
}

/* A row tells what was done by its name, and with what; what is known no more, by its number. */
static void
test_journal_rows (void)
{
  Desk desk = { 0 };
  g_autoptr (HwJournalEntry) gone = NULL;

  desk_open (&desk);
  hw_workspace_mark_done (desk.scene.workspace, "1", TRUE);
  hw_workspace_mark_done (desk.scene.workspace, "2", TRUE);
  g_assert_cmpint (scene_step (&desk.scene, "2")->hand, ==, HW_HAND_PRESS);
  gone = hw_journal_entry_new (HW_ENTRY_SEWING, ((HwMachine *) room_of (&desk)->machines->pdata[0])->id);
  gone->minutes = 12;
  gone->project = g_strdup ("seat-cushions");
  gone->step = g_strdup ("7");
  g_assert_true (hw_workspace_append (desk.scene.workspace, gone, NULL));
  desk_open_page (&desk, "journal");
  g_assert_true (walk_shows (desk.page, "step 7, 12 min"));
  for (int i = 1; i <= 2; i++)
    {
      const HwStep    *step = scene_step (&desk.scene, i == 1 ? "1" : "2");
      g_autofree char *begins = g_strdup_printf ("step %d %s, ", i, step->name);

      g_assert_nonnull (walk_text (desk.page, begins));
    }
  g_assert_true (walk_shows (desk.page, "Pressing"));
  g_assert_true (walk_shows (desk.page, "Workshop apron"));              /* by hand: no machine */
  g_assert_nonnull (walk_text (desk.page, "Workshop apron, Lockstitch machine, "));
  g_assert_true (walk_shows (desk.page, "Seat cushions, Lockstitch machine"));
  desk_close (&desk);
}

static const HwJournalEntry *
chosen_entry (Desk *desk)
{
  GtkSingleSelection *selection = GTK_SINGLE_SELECTION (listed (desk));

  return hw_journal_item_entry (gtk_single_selection_get_selected_item (selection));
}

static gboolean
is_row_in_sight (gpointer data)
{
  Desk      *desk = data;
  GtkWidget *view = walk_need (desk->page, GTK_TYPE_LIST_VIEW, "Journal entries, the last one first");
  double     height = gtk_widget_get_height (view);

  for (GtkWidget *row = gtk_widget_get_first_child (view); row != NULL; row = gtk_widget_get_next_sibling (row))
    {
      graphene_rect_t bounds;

      if (gtk_widget_get_mapped (row) && walk_text (row, "step 1 ") != NULL
          && gtk_widget_compute_bounds (row, view, &bounds))
        return bounds.origin.y >= -0.5 && bounds.origin.y + bounds.size.height <= height + 0.5;
    }
  return FALSE;
}

/* The form speaks of the row that is chosen and in sight, however far down it stood and whatever was listed. */
static void
test_journal_correct_row (void)
{
  Desk desk = { 0 };
  g_autofree char *first = NULL;

  desk_open (&desk);
  hw_workspace_mark_done (desk.scene.workspace, "1", TRUE);
  first = g_strdup (hw_workspace_peek_sewing_told (desk.scene.workspace));
  for (int i = 0; i < 40; i++)
    {
      g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_CARE, "lockstitch");

      entry->task = g_strdup ("dust");
      g_assert_true (hw_workspace_append (desk.scene.workspace, entry, NULL));
    }
  desk_open_page (&desk, "journal");
  hw_choice_select (GTK_DROP_DOWN (walk_need (desk.page, GTK_TYPE_DROP_DOWN, "Kind of entry")), "care");
  scene_settle ();
  g_assert_cmpuint (g_list_model_get_n_items (listed (&desk)), ==, 40);
  act (&desk, "journal.correct", first);
  g_assert_cmpstr (chosen_entry (&desk)->id, ==, first);
  scene_wait (is_row_in_sight, &desk);
  type (&desk, "Minutes it took", "3");
  save (&desk);
  g_assert_cmpstr (chosen_entry (&desk)->step, ==, "1");        /* the one that took its place */
  scene_wait (is_row_in_sight, &desk);

  desk_open_page (&desk, "order");
  hw_workspace_mark_done (desk.scene.workspace, "2", TRUE);
  g_assert_true (gtk_widget_activate_action (desk.root, "win.correct-entry", NULL));
  scene_settle ();
  desk.page = desk_page (&desk);
  g_assert_cmpstr (chosen_entry (&desk)->step, ==, "2");
  desk_close (&desk);
}

/* Long after the message has gone, the panel of a step that is done leads to what is noted of it, on either page. */
static void
test_correct_from_panel (void)
{
  static const char *const pages[] = { "making-up", "order" };
  Desk desk = { 0 };

  desk_open (&desk);
  hw_workspace_mark_done (desk.scene.workspace, "1", TRUE);
  hw_workspace_mark_done (desk.scene.workspace, "2", TRUE);
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      GtkWidget *button;

      desk_open_page (&desk, pages[i]);
      hw_workspace_select (desk.scene.workspace, "1");
      scene_settle ();
      button = walk_need (desk.page, GTK_TYPE_BUTTON, "Correct what is noted of the step");
      g_assert_true (walk_visible (button, desk.page));
      g_signal_emit_by_name (button, "clicked");
      scene_settle ();
      desk.page = desk_page (&desk);
      g_assert_cmpstr (chosen_entry (&desk)->step, ==, "1");
      g_assert_true (walk_shows (desk.page, "Correct the entry"));
      desk_open_page (&desk, pages[i]);
      hw_workspace_select (desk.scene.workspace, "3");
      scene_settle ();
      g_assert_false (walk_visible (walk_need (desk.page, GTK_TYPE_BUTTON, "Correct what is noted of the step"),
                                    desk.page));
    }
  desk_close (&desk);
}

/* What lies under the cloth is named as the machine has it. */
static void
test_journal_loopers (void)
{
  static const char * const names[][2] = { { "lockstitch", "Bobbin thread" }, { "overlocker", "Looper thread" } };
  Desk desk = { 0 };

  desk_open (&desk);
  desk_open_page (&desk, "journal");
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_SEWING, names[i][0]);

      g_assert_nonnull (hw_room_find_machine (room_of (&desk), names[i][0]));
      entry->minutes = 5;
      entry->bobbin_thread = g_strdup ("white tex 27");
      g_assert_true (hw_workspace_append (desk.scene.workspace, entry, NULL));
      scene_settle ();
      gtk_selection_model_select_item (GTK_SELECTION_MODEL (listed (&desk)), 0, TRUE);
      scene_settle ();
      g_assert_true (walk_shows (desk.page, names[i][1]));
      g_assert_false (walk_shows (desk.page, names[1 - i][1]));
    }
  desk_close (&desk);
}

static const char *
peek_only_step (Desk *desk)
{
  return g_list_model_get_n_items (listed (desk)) == 1 ? entry_at (desk, 0)->step : NULL;
}

static gboolean
has_found_one (gpointer desk)
{
  return peek_only_step (desk) != NULL;
}

static void
search (Desk       *desk,
        const char *text,
        const char *step)
{
  GtkWidget *entry = walk_need (desk->page, GTK_TYPE_SEARCH_ENTRY, "Search the journal");

  gtk_editable_set_text (GTK_EDITABLE (entry), "");
  g_signal_emit_by_name (entry, "search-changed");
  g_assert_cmpuint (g_list_model_get_n_items (listed (desk)), >, 1);
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  scene_wait (has_found_one, desk);
  g_assert_cmpstr (peek_only_step (desk), ==, step);
}

/* What a row says is found: the name of its step, its machine, its project, one whose file is gone too. */
static void
test_journal_search (void)
{
  Desk desk = { 0 };
  g_autoptr (HwProject) gone = NULL;
  g_autoptr (HwJournalEntry) entry = NULL;
  g_autoptr (GError) error = NULL;

  desk_open (&desk);
  gone = hw_project_new ("c17", "Crane costume");
  hw_versions_keep (desk.scene.room, gone, 1900000000, &error);
  g_assert_no_error (error);
  hw_workspace_mark_done (desk.scene.workspace, "1", TRUE);
  hw_workspace_mark_done (desk.scene.workspace, "2", TRUE);
  entry = hw_journal_entry_new (HW_ENTRY_SEWING, HW_HAND);
  entry->minutes = 12;
  entry->project = g_strdup ("c17");
  entry->step = g_strdup ("7");
  g_assert_true (hw_workspace_append (desk.scene.workspace, entry, NULL));
  desk_open_page (&desk, "journal");
  g_assert_true (walk_shows (desk.page, "Crane costume"));
  search (&desk, "HEM THE POCKET", "1");
  search (&desk, "crane", "7");
  search (&desk, "apron, lockstitch", "1");
  search (&desk, "pressing", "2");
  desk_close (&desk);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);

  g_test_add_func ("/room-pages/needles", test_needles);
  g_test_add_func ("/room-pages/needles-by-keys", test_needles_by_keys);
  g_test_add_func ("/room-pages/lists-are-tall", test_lists_are_tall);
  g_test_add_func ("/room-pages/used-before", test_used_before);
  g_test_add_func ("/room-pages/wants", test_wants);
  g_test_add_func ("/room-pages/finish", test_finish);
  g_test_add_func ("/room-pages/finish-earlier", test_finish_earlier);
  g_test_add_func ("/room-pages/thread", test_thread);
  g_test_add_func ("/room-pages/fabrics", test_fabrics);
  g_test_add_func ("/room-pages/inches", test_inches);
  g_test_add_func ("/room-pages/journal", test_journal);
  g_test_add_func ("/room-pages/journal-minutes", test_journal_minutes);
  g_test_add_func ("/room-pages/journal-verdict", test_journal_verdict);
  g_test_add_func ("/room-pages/journal-rows", test_journal_rows);
  g_test_add_func ("/room-pages/journal-correct-row", test_journal_correct_row);
  g_test_add_func ("/room-pages/correct-from-panel", test_correct_from_panel);
  g_test_add_func ("/room-pages/journal-loopers", test_journal_loopers);
  g_test_add_func ("/room-pages/journal-search", test_journal_search);
  return g_test_run ();
}
