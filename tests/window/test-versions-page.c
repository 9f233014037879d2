/* test-versions-page.c - earlier versions of the open project in the real window: kept, told, gone back to, undone
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "desk.h"
#include "model/versions.h"
#include "temp-folder.h"
#include "walk.h"

#include <glib/gstdio.h>
#include <string.h>

static void
set_title (Desk       *desk,
           const char *title)
{
  g_autoptr (GError) error = NULL;
  HwProject *next = hw_edit_set_title (hw_workspace_peek_project (desk->scene.workspace), title, &error);

  hw_workspace_edit (desk->scene.workspace, next, "title", NULL, error);
  g_assert_no_error (error);
}

static void
remove_step (Desk       *desk,
             const char *number)
{
  g_autoptr (GError) error = NULL;
  HwProject *next = hw_edit_remove_step (hw_workspace_peek_project (desk->scene.workspace), number, &error);

  hw_workspace_edit (desk->scene.workspace, next, "remove", NULL, error);
  g_assert_no_error (error);
}

static GPtrArray *
list (Desk *desk)
{
  return hw_versions_list (desk->scene.room, hw_workspace_peek_project (desk->scene.workspace)->id);
}

static const char *
title_now (Desk *desk)
{
  return hw_workspace_peek_project (desk->scene.workspace)->title;
}

static gboolean
shows_difference (gpointer data)
{
  const char *text = walk_text (((Desk *) data)->page, "Since then: ");

  return text != NULL && strstr (text, "title") != NULL;
}

static gboolean
shows_none (gpointer data)
{
  return walk_text (((Desk *) data)->page, "There are none yet") != NULL;
}

/* One when editing begins, not one an edit; the next time that the project is opened, one more. */
static void
test_kept (void)
{
  Desk desk = { 0 };
  g_autoptr (GPtrArray) none = NULL;
  g_autoptr (GPtrArray) one = NULL;
  g_autoptr (GPtrArray) two = NULL;
  g_autoptr (HwProject) first = NULL;
  g_autoptr (GError) error = NULL;

  desk_open (&desk);
  none = list (&desk);
  g_assert_cmpuint (none->len, ==, 0);
  set_title (&desk, "Garden apron");
  set_title (&desk, "Kitchen apron");
  one = list (&desk);
  g_assert_cmpuint (one->len, ==, 1);
  first = hw_version_read (one->pdata[0], hw_workspace_peek_project (desk.scene.workspace), &error);
  g_assert_no_error (error);
  g_assert_cmpstr (first->title, ==, "Workshop apron");
  g_assert_true (hw_workspace_open (desk.scene.workspace, desk.scene.path, &error));
  set_title (&desk, "Apron");
  two = list (&desk);
  g_assert_cmpuint (two->len, ==, 2);
  desk_close (&desk);
}

static void
test_go_back (void)
{
  Desk desk = { 0 };
  GtkWidget *button;
  guint n_steps;

  desk_open (&desk);
  n_steps = hw_workspace_peek_project (desk.scene.workspace)->steps->len;
  desk_open_page (&desk, "versions");
  scene_wait (shows_none, &desk);
  remove_step (&desk, "1");
  set_title (&desk, "Garden apron");
  scene_wait (shows_difference, &desk);
  g_assert_nonnull (strstr (walk_text (desk.page, "Since then: "), "1 step removed, "));
  g_assert_nonnull (strstr (walk_text (desk.page, "Since then: "), "\nRemoved: 1 "));
  button = walk_need (desk.page, GTK_TYPE_BUTTON, NULL);
  g_signal_emit_by_name (button, "clicked");
  scene_settle ();
  g_assert_cmpstr (title_now (&desk), ==, "Workshop apron");
  g_assert_cmpuint (hw_workspace_peek_project (desk.scene.workspace)->steps->len, ==, n_steps);
  g_assert_true (g_str_has_prefix (hw_window_peek_message (desk.window), "The project is as it was on "));
  {
    g_autoptr (HwProject) on_disk = scene_read_file (&desk.scene);
    g_autoptr (GPtrArray) versions = list (&desk);

    g_assert_true (hw_project_is_equal (on_disk, hw_workspace_peek_project (desk.scene.workspace)));
    g_assert_cmpuint (versions->len, ==, 2);             /* what was left is one now */
  }
  hw_workspace_undo (desk.scene.workspace);
  g_assert_cmpstr (title_now (&desk), ==, "Garden apron");
  desk_close (&desk);
}

/* What the project was cannot be kept: the edit stands, and the person is told, once. */
static void
test_cannot_keep (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  temp_folder_write (desk.scene.room, "versions", "a file in the way", -1);
  set_title (&desk, "Garden apron");
  g_assert_cmpstr (title_now (&desk), ==, "Garden apron");
  g_assert_true (hw_workspace_is_saved (desk.scene.workspace));
  g_assert_nonnull (strstr (hw_window_peek_message (desk.window), "could not be kept"));
  set_title (&desk, "Kitchen apron");
  g_assert_null (hw_window_peek_message (desk.window));
  desk_close (&desk);
}

/* One that is gone, and one that is damaged, are told; the project stays. */
static void
test_gone (void)
{
  Desk desk = { 0 };
  g_autoptr (GPtrArray) versions = NULL;
  const HwVersion *version;

  desk_open (&desk);
  set_title (&desk, "Garden apron");
  versions = list (&desk);
  version = versions->pdata[0];
  g_assert_true (g_file_set_contents (version->path, "<project", -1, NULL));
  g_assert_false (hw_workspace_go_back (desk.scene.workspace, version->path));
  g_assert_nonnull (strstr (hw_window_peek_message (desk.window), ".handwheel"));
  g_unlink (version->path);
  g_assert_false (hw_workspace_go_back (desk.scene.workspace, version->path));
  g_assert_nonnull (strstr (hw_window_peek_message (desk.window), "choose another"));
  g_assert_false (hw_workspace_go_back (desk.scene.workspace, desk.scene.path));
  g_assert_cmpstr (title_now (&desk), ==, "Garden apron");
  desk_close (&desk);
}

/* ---- another program writes the open project's file ---- */

static void
write_other_title (Desk       *desk,
                   const char *title)
{
  g_autoptr (HwProject) on_disk = scene_read_file (&desk->scene);
  g_autoptr (HwProject) other = hw_edit_set_title (on_disk, title, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_true (hw_project_write (other, desk->scene.path, &error));
}

static gboolean
has_taken_over (gpointer data)
{
  return g_str_equal (title_now (data), "Apron from elsewhere");
}

static gboolean
tells_damage (gpointer data)
{
  const char *told = hw_window_peek_message (((Desk *) data)->window);

  return told != NULL && strstr (told, "apron.handwheel") != NULL;
}

static void
test_taken_over (void)
{
  Desk desk = { 0 };
  g_autoptr (GPtrArray) versions = NULL;

  desk_open (&desk);
  set_title (&desk, "Garden apron");
  write_other_title (&desk, "Apron from elsewhere");
  scene_wait (has_taken_over, &desk);
  g_assert_true (hw_workspace_is_saved (desk.scene.workspace));
  g_assert_true (g_str_has_prefix (hw_window_peek_message (desk.window), "Another program changed this project"));
  versions = list (&desk);
  g_assert_cmpuint (versions->len, ==, 2);
  hw_workspace_undo (desk.scene.workspace);
  g_assert_cmpstr (title_now (&desk), ==, "Garden apron");
  g_assert_true (hw_workspace_is_saved (desk.scene.workspace));
  desk_close (&desk);
}

/* What it wrote is no project: told, and what is open stays. */
static void
test_taken_over_damaged (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  g_assert_true (g_file_set_contents (desk.scene.path, "<project", -1, NULL));
  scene_wait (tells_damage, &desk);
  g_assert_cmpstr (title_now (&desk), ==, "Workshop apron");
  desk_close (&desk);
}

/* What was not saved here is not written over: it goes into a copy, which the bar offers to merge. */
static void
test_not_taken_over (void)
{
  Desk desk = { 0 };

  desk_open (&desk);
  write_other_title (&desk, "Apron from elsewhere");
  set_title (&desk, "Garden apron");
  g_assert_false (hw_workspace_is_saved (desk.scene.workspace));
  for (int i = 0; i < 50; i++)
    {
      g_usleep (10 * 1000);
      scene_settle ();
    }
  g_assert_cmpstr (title_now (&desk), ==, "Garden apron");
  desk_close (&desk);
}

/* That a new project was empty is worth no version. */
static void
test_new (void)
{
  Desk desk = { 0 };
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) versions = NULL;

  desk_open (&desk);
  g_assert_true (hw_workspace_create (desk.scene.workspace, "Pot holder", &error));
  set_title (&desk, "Pot holders");
  versions = list (&desk);
  g_assert_cmpuint (versions->len, ==, 0);
  desk_close (&desk);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/versions-page/kept", test_kept);
  g_test_add_func ("/versions-page/go-back", test_go_back);
  g_test_add_func ("/versions-page/cannot-keep", test_cannot_keep);
  g_test_add_func ("/versions-page/gone", test_gone);
  g_test_add_func ("/versions-page/new", test_new);
  g_test_add_func ("/versions-page/taken-over", test_taken_over);
  g_test_add_func ("/versions-page/taken-over-damaged", test_taken_over_damaged);
  g_test_add_func ("/versions-page/not-taken-over", test_not_taken_over);
  return g_test_run ();
}
