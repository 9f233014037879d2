/* test-copies.c - what another program leaves in the room, in the real window: copies, changes, markup in names
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "desk.h"
#include "temp-folder.h"
#include "walk.h"
#include "window/copies-bar.h"

#include <glib/gstdio.h>
#include <string.h>

#define MARKUP "<b>Bold</b> & <i>more</i>"

static GtkWidget *
bar (Desk *desk)
{
  return walk_need (desk->root, HW_TYPE_COPIES_BAR, NULL);
}

static gboolean
bar_is_shown (gpointer data)
{
  return gtk_widget_get_visible (bar (data));
}

static gboolean
bar_is_hidden (gpointer data)
{
  return !gtk_widget_get_visible (bar (data));
}

/* The apron's file again under another name, with another title. */
static char *
leave_copy (Desk *desk)
{
  g_autofree char *text = NULL;
  g_autofree char *folder = g_path_get_dirname (desk->scene.path);
  char *copy = g_build_filename (folder, "apron (conflicted copy 2031-05-09).handwheel", NULL);
  g_auto (GStrv) parts = NULL;
  g_autofree char *other = NULL;

  g_assert_true (g_file_get_contents (desk->scene.path, &text, NULL, NULL));
  parts = g_strsplit (text, "title=\"", 2);
  other = g_strjoinv ("title=\"Long ", parts);
  g_assert_true (g_file_set_contents (copy, other, -1, NULL));
  return copy;
}

static void
look_again (Desk *desk)
{
  hw_copies_bar_set_workspace (HW_COPIES_BAR (bar (desk)), desk->scene.workspace);
}

static void
test_merge (void)
{
  Desk desk = { 0 };
  g_autofree char *copy = NULL;
  g_autofree char *aside = NULL;
  g_autofree char *title = NULL;

  desk_open (&desk);
  title = g_strdup (hw_workspace_peek_project (desk.scene.workspace)->title);
  scene_settle ();
  g_assert_false (gtk_widget_get_visible (bar (&desk)));
  copy = leave_copy (&desk);
  aside = g_strconcat (copy, "~", NULL);
  scene_wait (bar_is_shown, &desk);
  g_assert_nonnull (walk_text (bar (&desk), "“apron (conflicted copy 2031-05-09).handwheel” is a second copy of"));
  g_assert_true (desk_act (bar (&desk), "copies.merge"));
  scene_wait (bar_is_hidden, &desk);
  g_assert_false (g_file_test (copy, G_FILE_TEST_EXISTS));
  g_assert_true (g_file_test (aside, G_FILE_TEST_EXISTS));
  g_assert_cmpstr (hw_workspace_peek_project (desk.scene.workspace)->title, ==, title);
  g_assert_nonnull (strstr (hw_window_peek_message (desk.window), "Merged"));
  desk_close (&desk);
}

static void
test_prefer_copy_and_hide (void)
{
  Desk desk = { 0 };
  g_autofree char *copy = NULL;

  desk_open (&desk);
  copy = leave_copy (&desk);
  look_again (&desk);
  scene_wait (bar_is_shown, &desk);
  g_assert_true (desk_act (bar (&desk), "copies.hide"));
  look_again (&desk);
  scene_settle ();
  g_assert_false (gtk_widget_get_visible (bar (&desk)));
  g_assert_true (desk_act (bar (&desk), "copies.merge-prefer-copy"));
  g_assert_true (g_str_has_prefix (hw_workspace_peek_project (desk.scene.workspace)->title, "Long "));
  desk_close (&desk);
}

/* Another program wrote the open project's file: an edit goes over nothing, and is merged with it. */
static void
test_changed_underneath (void)
{
  Desk desk = { 0 };
  g_autoptr (GError) error = NULL;
  g_autofree char *copy = NULL;
  g_autofree char *theirs = NULL;
  g_autofree char *after = NULL;
  g_autoptr (HwProject) theirs_read = NULL;

  desk_open (&desk);
  copy = leave_copy (&desk);
  g_assert_cmpint (g_rename (copy, desk.scene.path), ==, 0);
  g_assert_true (g_file_get_contents (desk.scene.path, &theirs, NULL, NULL));
  hw_workspace_edit (desk.scene.workspace,
                     hw_edit_set_due (hw_workspace_peek_project (desk.scene.workspace), "2031-08-01", &error), "Due",
                     NULL, error);
  g_assert_no_error (error);
  g_assert_false (hw_workspace_is_saved (desk.scene.workspace));
  g_assert_nonnull (strstr (hw_window_peek_message (desk.window), "changed by another program"));
  g_assert_nonnull (strstr (hw_window_peek_message (desk.window), "kept in"));
  g_assert_true (g_file_get_contents (desk.scene.path, &after, NULL, NULL));
  g_assert_cmpstr (after, ==, theirs);
  scene_wait (bar_is_shown, &desk);
  g_assert_true (desk_act (bar (&desk), "copies.merge-prefer-copy"));
  g_assert_cmpstr (hw_workspace_peek_project (desk.scene.workspace)->due, ==, "2031-08-01");
  g_assert_true (hw_workspace_is_saved (desk.scene.workspace));
  theirs_read = scene_read_file (&desk.scene);
  g_assert_cmpstr (theirs_read->due, ==, "2031-08-01");
  scene_wait (bar_is_hidden, &desk);
  desk_close (&desk);
}

static void
test_clock_set_back (void)
{
  Desk desk = { 0 };
  g_autoptr (HwJournalEntry) tomorrow = hw_journal_entry_new (HW_ENTRY_CARE, "lockstitch");
  g_autoptr (HwJournalEntry) now = hw_journal_entry_new (HW_ENTRY_CARE, "lockstitch");
  const HwRoom *room;
  const HwJournalEntry *last;

  desk_open (&desk);
  tomorrow->task = g_strdup ("dust");
  g_free (tomorrow->time);
  tomorrow->time = g_strdup ("2099-05-09T10:00:00Z");
  g_assert_true (hw_workspace_append (desk.scene.workspace, tomorrow, NULL));
  now->task = g_strdup ("oil");
  g_assert_true (hw_workspace_append (desk.scene.workspace, now, "Noted."));
  g_assert_cmpstr (hw_window_peek_message (desk.window), ==,
                   "Noted. The computer’s clock stands before the journal’s last entry, of 9 May 2099: set it right. "
                   "This was noted after that entry.");
  room = hw_workspace_get_room (desk.scene.workspace);
  last = g_ptr_array_index (room->entries, room->entries->len - 1);
  g_assert_cmpstr (last->task, ==, "oil");
  g_assert_cmpstr (last->time, ==, "2099-05-09T10:00:01Z");
  desk_close (&desk);
}

/* Shown as it is written, on every page. */
static void
test_markup (void)
{
  static const char * const pages[] = { "making-up", "order", "cards", "notions" };
  Desk desk = { 0 };
  g_autoptr (GError) error = NULL;

  desk_open (&desk);
  hw_workspace_edit (desk.scene.workspace,
                     hw_edit_set_title (hw_workspace_peek_project (desk.scene.workspace), MARKUP, &error), "Title",
                     NULL, error);
  g_assert_no_error (error);
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      desk_open_page (&desk, pages[i]);
      scene_settle ();
      g_assert_true (walk_shows (desk.root, MARKUP));
    }
  desk_close (&desk);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/copies/merge", test_merge);
  g_test_add_func ("/copies/prefer-copy-and-hide", test_prefer_copy_and_hide);
  g_test_add_func ("/copies/changed-underneath", test_changed_underneath);
  g_test_add_func ("/copies/clock-set-back", test_clock_set_back);
  g_test_add_func ("/copies/markup", test_markup);
  return g_test_run ();
}
