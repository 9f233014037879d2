/* test-work-bar.c - long work: done piece by piece, shown, cancelled without a trace
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <string.h>

#include "desk.h"
#include "temp-folder.h"
#include "walk.h"
#include "window/cards-page.h"
#include "window/work-bar.h"

#define MANY 1000

typedef struct
{
  guint    n_done;
  guint    fails_at;             /* 0: never */
  guint    n_ended;
  gboolean cancelled;
  char    *error;
} Chore;

static gboolean
piece (gpointer data,
       guint    index,
       GError **error)
{
  Chore *chore = data;

  g_assert_cmpuint (index, ==, chore->n_done);
  if (chore->fails_at > 0 && index == chore->fails_at)
    {
      g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_NOSPC, "The disk is full");
      return FALSE;
    }
  g_usleep (2000);
  chore->n_done++;
  return TRUE;
}

static void
end (gpointer      data,
     gboolean      cancelled,
     const GError *error)
{
  Chore *chore = data;

  chore->n_ended++;
  chore->cancelled = cancelled;
  chore->error = error != NULL ? g_strdup (error->message) : NULL;
}

static HwWorkBar *
bar (Desk *desk)
{
  return HW_WORK_BAR (walk_need (desk->root, HW_TYPE_WORK_BAR, NULL));
}

static gboolean
has_ended (gpointer data)
{
  return ((Chore *) data)->n_ended > 0;
}

static gboolean
bar_is_shown (gpointer data)
{
  return gtk_widget_get_visible (GTK_WIDGET (bar (data)));
}

static void
begin (Desk  *desk,
       Chore *chore,
       guint  n)
{
  g_assert_true (hw_work_bar_begin (bar (desk), &(HwWork) { "Counting stitches", n, piece, end, NULL }, chore));
}

static void
test_done (void)
{
  Desk  desk = { 0 };
  Chore chore = { 0 };
  Chore second = { 0 };

  desk_open (&desk);
  begin (&desk, &chore, 20);
  g_assert_false (hw_work_bar_begin (bar (&desk), &(HwWork) { "Another", 1, piece, end, NULL }, &second));
  scene_wait (has_ended, &chore);
  g_assert_cmpuint (chore.n_done, ==, 20);
  g_assert_cmpuint (chore.n_ended, ==, 1);
  g_assert_false (chore.cancelled);
  g_assert_null (chore.error);
  g_assert_cmpuint (second.n_ended, ==, 0);
  g_assert_false (hw_work_bar_is_busy (bar (&desk)));
  g_assert_false (bar_is_shown (&desk));
  desk_close (&desk);
}

static void
test_cancelled (void)
{
  Desk  desk = { 0 };
  Chore chore = { 0 };
  GtkWidget *progress;

  desk_open (&desk);
  begin (&desk, &chore, MANY);
  scene_wait (bar_is_shown, &desk);
  progress = walk_need (desk.root, GTK_TYPE_PROGRESS_BAR, NULL);
  g_assert_cmpfloat (gtk_progress_bar_get_fraction (GTK_PROGRESS_BAR (progress)), >, 0);
  g_assert_nonnull (strstr (walk_text (GTK_WIDGET (bar (&desk)), "Counting stitches: "), " of 1000, about "));
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (bar (&desk)), "work.cancel", NULL));
  g_assert_cmpuint (chore.n_ended, ==, 1);
  g_assert_true (chore.cancelled);
  g_assert_cmpuint (chore.n_done, <, MANY);
  g_assert_false (bar_is_shown (&desk));
  scene_settle ();
  g_assert_cmpuint (chore.n_ended, ==, 1);
  desk_close (&desk);
}

static void
test_failed (void)
{
  Desk  desk = { 0 };
  Chore chore = { .fails_at = 3 };

  desk_open (&desk);
  begin (&desk, &chore, 20);
  scene_wait (has_ended, &chore);
  g_assert_cmpuint (chore.n_done, ==, 3);
  g_assert_false (chore.cancelled);
  g_assert_cmpstr (chore.error, ==, "The disk is full");
  g_free (chore.error);
  desk_close (&desk);
}

/* A window that is closed takes its work with it. */
static void
test_closed (void)
{
  Desk  desk = { 0 };
  Chore chore = { 0 };

  desk_open (&desk);
  begin (&desk, &chore, MANY);
  desk_close (&desk);
  g_assert_cmpuint (chore.n_ended, ==, 1);
  g_assert_true (chore.cancelled);
}

/* ---- the cards ---- */

static gboolean
tells_saved (gpointer data)
{
  const char *told = hw_window_peek_message (((Desk *) data)->window);

  return told != NULL && g_str_has_prefix (told, "Cards saved: ");
}

static gboolean
tells_failure (gpointer data)
{
  const char *told = hw_window_peek_message (((Desk *) data)->window);

  return told != NULL && strstr (told, "saved.pdf") != NULL;
}

static void
test_cards (void)
{
  Desk desk = { 0 };
  g_autofree char *path = NULL;
  g_autofree char *nowhere = NULL;
  g_autofree char *text = NULL;

  desk_open (&desk);
  desk_open_page (&desk, "cards");
  path = g_build_filename (desk.scene.folder, "saved.pdf", NULL);
  g_assert_true (desk_act (desk.root, "win.loaded"));
  g_assert_true (hw_workspace_offers_undo (desk.scene.workspace));
  hw_cards_page_begin_save (HW_CARDS_PAGE (desk.page), path);
  scene_wait (tells_saved, &desk);
  g_assert_false (hw_workspace_offers_undo (desk.scene.workspace));   /* of what was done before it */
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_assert_true (g_str_has_prefix (text, "%PDF"));
  nowhere = g_build_filename (desk.scene.path, "saved.pdf", NULL);
  hw_cards_page_begin_save (HW_CARDS_PAGE (desk.page), nowhere);
  scene_wait (tells_failure, &desk);
  desk_close (&desk);
}

/* Neither a file nor a part of one, and an edit meanwhile does no harm. */
static void
test_cards_cancelled (void)
{
  Desk desk = { 0 };
  g_autoptr (GError) error = NULL;

  desk_open (&desk);
  desk_open_page (&desk, "cards");
  for (int i = 0; i < 2; i++)
    {
      const char      *name = i == 0 ? "saved.pdf" : "saved.png";
      g_autofree char *path = g_build_filename (desk.scene.folder, name, NULL);

      hw_cards_page_begin_save (HW_CARDS_PAGE (desk.page), path);
      g_assert_true (hw_work_bar_is_busy (bar (&desk)));
      hw_workspace_edit (desk.scene.workspace,
                         hw_edit_set_title (hw_workspace_peek_project (desk.scene.workspace), name, &error), "title",
                         NULL, error);
      g_assert_true (gtk_widget_activate_action (GTK_WIDGET (bar (&desk)), "work.cancel", NULL));
      scene_settle ();
      g_assert_cmpint (temp_folder_count (desk.scene.folder, "saved"), ==, 0);
      g_assert_cmpstr (hw_window_peek_message (desk.window), ==, "Cancelled; no card was saved.");
    }
  desk_close (&desk);
}

/* Saved while the project is edited: what is saved are the cards as they were. */
static void
test_cards_edited (void)
{
  Desk desk = { 0 };
  g_autofree char *path = NULL;
  g_autoptr (GError) error = NULL;

  desk_open (&desk);
  desk_open_page (&desk, "cards");
  path = g_build_filename (desk.scene.folder, "saved.pdf", NULL);
  hw_cards_page_begin_save (HW_CARDS_PAGE (desk.page), path);
  hw_workspace_edit (desk.scene.workspace,
                     hw_edit_set_title (hw_workspace_peek_project (desk.scene.workspace), "Other", &error), "title",
                     NULL, error);
  scene_wait (tells_saved, &desk);
  g_assert_true (g_file_test (path, G_FILE_TEST_EXISTS));
  desk_close (&desk);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/work-bar/done", test_done);
  g_test_add_func ("/work-bar/cancelled", test_cancelled);
  g_test_add_func ("/work-bar/failed", test_failed);
  g_test_add_func ("/work-bar/closed", test_closed);
  g_test_add_func ("/work-bar/cards", test_cards);
  g_test_add_func ("/work-bar/cards-cancelled", test_cards_cancelled);
  g_test_add_func ("/work-bar/cards-edited", test_cards_edited);
  return g_test_run ();
}
