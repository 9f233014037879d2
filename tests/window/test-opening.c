/* test-opening.c - a large project opens while the window stays awake, and can be cancelled
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <string.h>

#include "desk.h"
#include "hold.h"
#include "walk.h"
#include "window/sidebar.h"
#include "window/work-bar.h"

#define N_STEPS 60
#define LARGE (300 * 1024)               /* bytes */

static GtkWidget *
bar (Desk *desk)
{
  return walk_need (desk->root, HW_TYPE_WORK_BAR, NULL);
}

static gboolean
bar_is_shown (gpointer data)
{
  return gtk_widget_get_visible (bar (data));
}

static gboolean
is_over (gpointer data)
{
  return !hw_window_is_opening (((Desk *) data)->window);
}

static const char *
open_title (Desk *desk)
{
  return hw_workspace_peek_project (desk->scene.workspace)->title;
}

/* Makes the file of a project a large one, by a remark behind it, so that it is read no slower. */
static void
lengthen (const char *path)
{
  g_autofree char *contents = NULL;
  g_autofree char *remark = g_strnfill (LARGE, 'h');
  g_autofree char *both = NULL;

  g_assert_true (g_file_get_contents (path, &contents, NULL, NULL));
  both = g_strdup_printf ("%s<!-- %s -->\n", contents, remark);
  g_assert_true (g_file_set_contents (path, both, -1, NULL));
}

/* (transfer full): a file with the apron's steps, over and over. */
static char *
write_project (Desk     *desk,
               gboolean  large)
{
  g_autoptr (HwProject) project = scene_read_file (&desk->scene);
  g_autoptr (GError)    error = NULL;
  char                 *path = g_build_filename (desk->scene.room, "projects", "hangings.handwheel", NULL);
  guint                 n_own = project->steps->len;

  g_free (project->id);
  g_free (project->title);
  project->id = g_strdup ("hangings");
  project->title = g_strdup ("Hangings");
  for (guint i = n_own; i < N_STEPS; i++)
    {
      HwStep *step = hw_step_copy (hw_project_get_step (project, i % n_own));

      g_free (step->number);
      g_clear_pointer (&step->after, g_strfreev);
      step->number = g_strdup_printf ("%u", i + 1);
      g_ptr_array_add (project->steps, step);
    }
  hw_project_write (project, path, &error);
  g_assert_no_error (error);
  if (large)
    lengthen (path);
  return path;
}

static gboolean
open_path (Desk       *desk,
           const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);

  return hw_window_open_file (desk->window, file);
}

/* The thread that opens @path waits for its release. */
static void
begin (Desk       *desk,
       Hold       *hold,
       const char *path)
{
  hold_threads (hold);
  g_assert_true (open_path (desk, path));
  g_assert_true (hw_window_is_opening (desk->window));
}

static void
test_large (void)
{
  Desk desk = { 0 };
  Hold hold;
  g_autofree char *path = NULL;

  desk_open (&desk);
  desk_open_page (&desk, "machines");
  path = write_project (&desk, TRUE);
  begin (&desk, &hold, path);
  g_assert_false (bar_is_shown (&desk));                /* not for what is there in a moment */
  scene_wait (bar_is_shown, &desk);
  g_assert_nonnull (walk_text (bar (&desk), "Opening “hangings.handwheel”"));
  g_assert_cmpstr (open_title (&desk), ==, "Workshop apron");
  release_threads (&hold);
  scene_wait (is_over, &desk);
  g_assert_cmpstr (open_title (&desk), ==, "Hangings");
  g_assert_cmpuint (hw_workspace_peek_plan (desk.scene.workspace)->n_steps, ==, N_STEPS);
  g_assert_cmpstr (hw_window_get_page (desk.window), ==, "making-up");
  g_assert_false (bar_is_shown (&desk));
  desk_close (&desk);
}

/* What was open stays as it was, with what can be undone in it. */
static void
test_cancelled (void)
{
  Desk desk = { 0 };
  Hold hold;
  g_autofree char *path = NULL;
  g_autoptr (HwProject) before = NULL;

  desk_open (&desk);
  path = write_project (&desk, TRUE);
  hw_workspace_edit (desk.scene.workspace,
                     hw_edit_remove_steps (hw_workspace_peek_project (desk.scene.workspace),
                                           (const char * const[]) { "1", NULL }, NULL), "Remove", NULL, NULL);
  before = hw_project_ref ((HwProject *) hw_workspace_peek_project (desk.scene.workspace));
  begin (&desk, &hold, path);
  scene_wait (bar_is_shown, &desk);
  g_assert_true (gtk_widget_activate_action (bar (&desk), "work.cancel", NULL));
  g_assert_false (bar_is_shown (&desk));
  g_assert_true (is_over (&desk));
  release_threads (&hold);
  scene_settle ();
  g_assert_true (hw_workspace_peek_project (desk.scene.workspace) == before);
  g_assert_cmpstr (hw_history_undo_label (hw_workspace_get_history (desk.scene.workspace)), ==, "Remove");
  g_assert_null (hw_window_peek_message (desk.window));
  desk_close (&desk);
}

/* The person went on with another one. */
static void
test_past (void)
{
  Desk desk = { 0 };
  Hold hold;
  g_autofree char   *path = NULL;
  g_autoptr (GError) error = NULL;

  desk_open (&desk);
  path = write_project (&desk, TRUE);
  begin (&desk, &hold, path);
  g_assert_true (hw_workspace_create (desk.scene.workspace, "Scarf", &error));
  scene_wait (is_over, &desk);
  release_threads (&hold);
  scene_settle ();
  g_assert_cmpstr (open_title (&desk), ==, "Scarf");
  begin (&desk, &hold, path);
  g_assert_true (open_path (&desk, desk.scene.path));
  g_assert_true (is_over (&desk));
  release_threads (&hold);
  scene_settle ();
  g_assert_cmpstr (open_title (&desk), ==, "Workshop apron");
  desk_close (&desk);
}

/* What is noted while it is read counts in its plan. */
static void
test_noted (void)
{
  Desk desk = { 0 };
  Hold hold;
  g_autofree char *path = NULL;

  desk_open (&desk);
  path = write_project (&desk, TRUE);
  begin (&desk, &hold, path);
  g_assert_true (hw_workspace_mark_done (desk.scene.workspace, "1", TRUE));
  release_threads (&hold);
  scene_wait (is_over, &desk);
  g_assert_cmpstr (open_title (&desk), ==, "Hangings");
  g_assert_true (hw_workspace_peek_plan (desk.scene.workspace)->room
                 == hw_workspace_get_room (desk.scene.workspace));
  desk_close (&desk);
}

static void
test_step (void)
{
  Desk desk = { 0 };
  g_autofree char *path = NULL;

  desk_open (&desk);
  path = write_project (&desk, TRUE);
  g_assert_true (gtk_widget_activate_action (desk.root, "win.show-step", "(ss)", path, "50"));
  scene_wait (is_over, &desk);
  g_assert_cmpstr (open_title (&desk), ==, "Hangings");
  g_assert_cmpstr (hw_workspace_peek_selected (desk.scene.workspace), ==, "50");
  desk_close (&desk);
}

static void
test_damaged (void)
{
  Desk desk = { 0 };
  g_autofree char *path = NULL;
  g_autofree char *contents = NULL;
  gsize            length = 0;

  desk_open (&desk);
  path = write_project (&desk, TRUE);
  g_assert_true (g_file_get_contents (path, &contents, &length, NULL));
  g_assert_true (g_file_set_contents (path, contents, (gssize) length - 20, NULL));
  g_assert_true (open_path (&desk, path));
  scene_wait (is_over, &desk);
  g_assert_cmpstr (open_title (&desk), ==, "Workshop apron");
  g_assert_nonnull (strstr (hw_window_peek_message (desk.window), "hangings.handwheel"));
  desk_close (&desk);
}

/* No thread is needed, and no bar seen. */
static void
test_small (void)
{
  Desk desk = { 0 };
  Hold hold;
  g_autofree char *path = NULL;

  desk_open (&desk);
  path = write_project (&desk, FALSE);
  hold_threads (&hold);
  g_assert_true (open_path (&desk, path));
  g_assert_cmpstr (open_title (&desk), ==, "Hangings");
  g_assert_false (hw_window_is_opening (desk.window));
  release_threads (&hold);
  desk_close (&desk);
}

/* The window goes while the thread is at work. */
static void
test_closed (void)
{
  Desk desk = { 0 };
  Hold hold;
  g_autofree char *path = NULL;

  desk_open (&desk);
  path = write_project (&desk, TRUE);
  begin (&desk, &hold, path);
  release_threads (&hold);
  desk_close (&desk);
}

static const char *
find_row (Desk       *desk,
          const char *name)
{
  return walk_text (walk_need (desk->root, HW_TYPE_SIDEBAR, NULL), name);
}

static gboolean
is_told (gpointer data)
{
  return find_row (data, "Hangings") != NULL;
}

/* A large project that is not open: the sidebar does not wait for it, and follows when it has been read. */
static void
test_beside (void)
{
  Desk desk = { 0 };
  Hold hold;
  g_autofree char *path = NULL;

  desk_open (&desk);
  hold_threads (&hold);
  path = write_project (&desk, TRUE);
  desk_open_page (&desk, "machines");
  g_assert_nonnull (find_row (&desk, "hangings"));
  g_assert_nonnull (find_row (&desk, "being read"));
  g_assert_false (is_told (&desk));
  desk_open_page (&desk, "needles");                    /* asked for once, however often it is told */
  release_threads (&hold);
  scene_wait (is_told, &desk);
  g_assert_null (find_row (&desk, "being read"));
  g_assert_nonnull (find_row (&desk, "60 steps"));
  desk_close (&desk);
}

/* It is closed while the thread reads. */
static void
test_beside_closed (void)
{
  Desk desk = { 0 };
  Hold hold;
  g_autofree char *path = NULL;

  desk_open (&desk);
  hold_threads (&hold);
  path = write_project (&desk, TRUE);
  desk_open_page (&desk, "machines");
  release_threads (&hold);
  desk_close (&desk);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/opening/large", test_large);
  g_test_add_func ("/opening/cancelled", test_cancelled);
  g_test_add_func ("/opening/past", test_past);
  g_test_add_func ("/opening/noted", test_noted);
  g_test_add_func ("/opening/step", test_step);
  g_test_add_func ("/opening/damaged", test_damaged);
  g_test_add_func ("/opening/small", test_small);
  g_test_add_func ("/opening/closed", test_closed);
  g_test_add_func ("/opening/beside", test_beside);
  g_test_add_func ("/opening/beside-closed", test_beside_closed);
  return g_test_run ();
}
