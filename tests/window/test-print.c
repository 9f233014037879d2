/* test-print.c - setup cards through GtkPrintOperation and into files, from the page that shows them
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was printed is read back by poppler's tools, which had no part in making it.
 */

#include "config.h"

#include <gtk/gtk.h>
#include <string.h>

#include "card/card.h"
#include "desk.h"
#include "temp-folder.h"
#include "walk.h"
#include "window/cards-page.h"
#include "window/choosers.h"
#include "window/notions-list.h"
#include "window/notions-page.h"
#include "window/test-seam-panel.h"

static void
open_cards (Desk *desk)
{
  desk_open (desk);
  desk_open_page (desk, "cards");
}

/* What @tool (pdfinfo, pdftotext) says of the file. (transfer full) */
static char *
ask (const char *tool,
     const char *path)
{
  const char *info[] = { tool, path, NULL };
  const char *text[] = { tool, "-layout", path, "-", NULL };
  char       *out = NULL;
  int         status = 0;
  g_autoptr (GError) error = NULL;

  g_spawn_sync (NULL, (char **) (g_str_equal (tool, "pdftotext") ? text : info), NULL, G_SPAWN_SEARCH_PATH, NULL,
                NULL, &out, NULL, &status, &error);
  g_assert_no_error (error);
  g_assert_true (g_spawn_check_wait_status (status, NULL));
  return out;
}

/* One page a set-up, and on it the needle's size as text. */
static void
check_pdf (Desk       *desk,
           const char *path)
{
  const HwPlan    *plan = hw_workspace_peek_plan (desk->scene.workspace);
  g_autofree char *info = ask ("pdfinfo", path);
  g_autofree char *text = ask ("pdftotext", path);
  const char      *pages = strstr (info, "Pages:");

  g_assert_nonnull (pages);
  g_assert_cmpint (g_ascii_strtoll (pages + strlen ("Pages:"), NULL, 10), ==, (gint64) plan->groups->len);
  for (guint i = 0; i < plan->groups->len; i++)
    {
      g_autofree char *size = g_strdup_printf ("%d/", hw_plan_get_group (plan, (int) i)->size_nm);

      g_assert_nonnull (strstr (text, size));
    }
  g_assert_nonnull (strstr (text, plan->project->title));
}

static void
test_print (void)
{
  Desk desk = { 0 };
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;

  open_cards (&desk);
  path = g_build_filename (desk.scene.folder, "printed.pdf", NULL);
  g_assert_true (hw_cards_page_print (HW_CARDS_PAGE (desk.page), path, &error));
  g_assert_no_error (error);
  check_pdf (&desk, path);
  desk_close (&desk);
}

/* Printed at its own size: a page of the print is the card's paper, so that the gauge stays true. */
static void
test_print_size (void)
{
  Desk desk = { 0 };
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;
  g_autofree char *info = NULL;
  const char *size;
  char *end = NULL;
  double width = 0;
  double height = 0;
  double paper_width;
  double paper_height;

  open_cards (&desk);
  path = g_build_filename (desk.scene.folder, "printed.pdf", NULL);
  g_assert_true (hw_cards_page_print (HW_CARDS_PAGE (desk.page), path, &error));
  g_assert_no_error (error);
  info = ask ("pdfinfo", path);
  size = strstr (info, "Page size:");
  g_assert_nonnull (size);
  width = g_ascii_strtod (size + strlen ("Page size:"), &end);
  height = g_ascii_strtod (strchr (end, 'x') + 1, NULL);
  hw_paper_size (HW_PAPER_A5, &paper_width, &paper_height);
  /* 0.1 mm is 0.28 pt. */
  g_assert_cmpfloat_with_epsilon (MAX (width, height), MAX (paper_width, paper_height), 0.28);
  g_assert_cmpfloat_with_epsilon (MIN (width, height), MIN (paper_width, paper_height), 0.28);
  desk_close (&desk);
}

static void
test_save (void)
{
  Desk desk = { 0 };
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;

  open_cards (&desk);
  path = g_build_filename (desk.scene.folder, "saved.pdf", NULL);
  g_assert_true (hw_cards_page_save (HW_CARDS_PAGE (desk.page), path, &error));
  g_assert_no_error (error);
  check_pdf (&desk, path);
  desk_close (&desk);
}

static gboolean
is_counted (gpointer data)
{
  return walk_text (desk_page (data), "1 of ") != NULL;
}

/* The first card stands there at once, the number of pages when all are laid out; who turns the page before that has it
 * counted. */
static void
test_pages_are_counted (void)
{
  Desk desk = { 0 };
  const HwSheetOptions options = { HW_PAPER_A5, 1, NULL, 0 };
  g_autoptr (HwSheets) sheets = NULL;
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;
  int n;

  open_cards (&desk);
  sheets = hw_sheets_new (hw_workspace_peek_plan (desk.scene.workspace), &options);
  n = hw_sheets_get_n_pages (sheets);
  g_assert_cmpint (n, >=, 2);
  first = g_strdup_printf ("1 of %d", n);
  second = g_strdup_printf ("2 of %d", n);
  scene_wait (is_counted, &desk);
  g_assert_true (walk_shows (desk.page, first));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (walk_need (desk.page, GTK_TYPE_DROP_DOWN, "Paper")), 1);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (walk_need (desk.page, GTK_TYPE_DROP_DOWN, "Paper")), 0);
  g_assert_true (gtk_widget_activate_action (desk.page, "cards.next", NULL));
  g_assert_true (walk_shows (desk.page, second));
  desk_close (&desk);
}

static gboolean
is_turned (gpointer data)
{
  return walk_text (desk_page (data), "2 of ") != NULL;
}

static const char *
peek_seam_title (Desk *desk)
{
  return walk_text (walk_need (desk->page, HW_TYPE_TEST_SEAM_PANEL, NULL), "Test seam for step ");
}

/* Cards are looked at without choosing another step to sew: it is the scrap that is noted for the card in sight. */
static void
test_turning_chooses_nothing (void)
{
  Desk desk = { 0 };
  g_autofree char *title = NULL;

  desk_open (&desk);
  hw_workspace_select (desk.scene.workspace, "1");
  desk_open_page (&desk, "cards");
  scene_wait (is_counted, &desk);
  g_assert_nonnull (strstr (peek_seam_title (&desk), "step 1,"));
  g_assert_true (gtk_widget_activate_action (desk.page, "cards.next", NULL));
  g_assert_cmpstr (hw_workspace_peek_selected (desk.scene.workspace), ==, "1");
  title = g_strdup (peek_seam_title (&desk));
  g_assert_null (strstr (title, "step 1,"));
  /* It stays in sight when something is noted; another step chosen brings that one's. */
  g_assert_true (hw_workspace_mark_done (desk.scene.workspace, "1", TRUE));
  scene_wait (is_turned, &desk);
  g_assert_cmpstr (peek_seam_title (&desk), ==, title);
  hw_workspace_select (desk.scene.workspace, "2");
  hw_workspace_select (desk.scene.workspace, "1");
  scene_wait (is_counted, &desk);
  g_assert_nonnull (strstr (peek_seam_title (&desk), "step 1,"));
  desk_close (&desk);
}

/* The chooser marks the name without its ending, and a person types both. */
static void
test_name_once (void)
{
  static const struct { const char *typed, *once; } names[] = {
    { "cards.pdf", "cards.pdf" }, { "cards.pdf.pdf", "cards.pdf" }, { "cards", "cards" },
    { "cards.tar.gz", "cards.tar.gz" }, { "there.pdf.pdf", "there.pdf.pdf" }, { "a.pdf.PDF", "a.pdf.PDF" },
    { "cards.png.pdf", "cards.png" }, { "v1.2.pdf", "v1.2.pdf" },
  };
  g_autofree char *folder = temp_folder_new ();
  g_autofree char *there = g_build_filename (folder, "there.pdf", NULL);

  g_assert_true (g_file_set_contents (there, "kept", -1, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *typed = g_build_filename (folder, names[i].typed, NULL);
      g_autofree char *once = g_build_filename (folder, names[i].once, NULL);
      g_autofree char *path = hw_path_once (typed);

      g_assert_cmpstr (path, ==, once);
    }
  temp_folder_remove (g_steal_pointer (&folder));
}

/* Inside a plain file no folder can be: refused whoever runs it. */
static void
test_save_nowhere (void)
{
  Desk desk = { 0 };
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;

  open_cards (&desk);
  path = g_build_filename (desk.scene.path, "saved.pdf", NULL);
  g_assert_false (hw_cards_page_save (HW_CARDS_PAGE (desk.page), path, &error));
  g_assert_error (error, HW_CARD_ERROR, HW_CARD_ERROR_WRITE);
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  desk_close (&desk);
}

static void
choose_cards (Desk  *desk,
              guint  which)
{
  GtkWidget *choice = walk_need (desk->page, GTK_TYPE_DROP_DOWN, "Cards");

  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), which);
  scene_settle ();
}

/* (transfer full): how many pages and what they say. */
static char *
save_and_read (Desk *desk)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_build_filename (desk->scene.folder, "chosen.pdf", NULL);
  g_autofree char *info = NULL;
  g_autofree char *text = NULL;

  g_assert_true (hw_cards_page_save (HW_CARDS_PAGE (desk->page), path, &error));
  g_assert_no_error (error);
  info = ask ("pdfinfo", path);
  text = ask ("pdftotext", path);
  return g_strconcat (info, text, NULL);
}

static void
test_which (void)
{
  Desk desk = { 0 };
  GtkWidget *machines;
  g_autofree char *selected = NULL;
  g_autofree char *handout = NULL;
  g_autoptr (GError) error = NULL;

  open_cards (&desk);
  machines = walk_need (desk.page, GTK_TYPE_MENU_BUTTON, "Machines of the handout");
  hw_workspace_select (desk.scene.workspace, "3");
  choose_cards (&desk, 2);
  selected = save_and_read (&desk);
  g_assert_nonnull (strstr (selected, "Pages:           1\n"));
  g_assert_nonnull (strstr (selected, "Set the pocket"));
  hw_workspace_select (desk.scene.workspace, "2");      /* by hand: it has no card */
  g_assert_false (hw_cards_page_save (HW_CARDS_PAGE (desk.page), desk.scene.path, &error));
  g_assert_error (error, HW_CARD_ERROR, HW_CARD_ERROR_NOTHING);
  g_assert_nonnull (walk_text (desk.page, "No card among these"));
  g_assert_false (gtk_widget_get_visible (machines));
  choose_cards (&desk, 3);
  g_assert_true (gtk_widget_get_visible (machines));
  handout = save_and_read (&desk);
  g_assert_nonnull (strstr (handout, "Set the pocket"));
  g_assert_nonnull (strstr (handout, "Side hems"));
  desk_close (&desk);
}

/* The same through the desktop's printing: an error that can be told, and no file. */
static void
test_print_nowhere (void)
{
  Desk desk = { 0 };
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;

  open_cards (&desk);
  path = g_build_filename (desk.scene.path, "printed.pdf", NULL);
  g_assert_false (hw_cards_page_print (HW_CARDS_PAGE (desk.page), path, &error));
  g_assert_nonnull (error);
  g_test_message ("%s", error->message);
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  desk_close (&desk);
}

/* The list of notions says the same on paper and on the clipboard. */
static void
test_notions (void)
{
  Desk desk = { 0 };
  g_autofree char *path = NULL;
  g_autofree char *text = NULL;
  g_autofree char *info = NULL;
  g_autofree char *copied = NULL;
  g_autoptr (GPtrArray) lines = NULL;
  g_autoptr (GError) error = NULL;

  desk_open (&desk);
  desk_open_page (&desk, "notions");
  path = g_build_filename (desk.scene.folder, "notions.pdf", NULL);
  g_assert_true (hw_notions_page_print (HW_NOTIONS_PAGE (desk.page), path, &error));
  g_assert_no_error (error);
  text = ask ("pdftotext", path);
  info = ask ("pdfinfo", path);
  lines = hw_notions_list (hw_workspace_peek_plan (desk.scene.workspace));
  copied = hw_notions_text (lines, "Workshop apron");
  g_assert_nonnull (strstr (info, "Pages:           1\n"));
  g_assert_nonnull (strstr (text, "Workshop apron"));
  for (guint i = 0; i < lines->len; i++)
    {
      const HwNotionsLine *line = g_ptr_array_index (lines, i);

      g_assert_nonnull (strstr (copied, line->what));
      g_assert_true (line->kind == HW_NOTIONS_NOTE || strstr (text, line->what) != NULL);
      g_assert_true (line->amount == NULL || strstr (text, line->amount) != NULL);
    }
  g_assert_nonnull (strstr (copied, "1 spool of 100 m; 1 bobbin"));
  g_assert_nonnull (strstr (copied, "not among the thread on hand"));
  /* What is to be bought comes first, and by itself. */
  g_assert_cmpstr (((const HwNotionsLine *) lines->pdata[0])->what, ==, "To buy, as far as the room knows");
  for (guint i = 1; ((const HwNotionsLine *) lines->pdata[i])->kind != HW_NOTIONS_HEADING; i++)
    g_assert_true (((const HwNotionsLine *) lines->pdata[i])->amount != NULL
                   || ((const HwNotionsLine *) lines->pdata[i])->kind == HW_NOTIONS_NOTE);
  desk_close (&desk);
}

static const HwNotionsLine *
find_line (const GPtrArray *lines,
           const char      *what)
{
  for (guint i = 0; i < lines->len; i++)
    if (g_str_equal (((const HwNotionsLine *) lines->pdata[i])->what, what))
      return lines->pdata[i];
  return NULL;
}

static gboolean
ends_with_digit (const char *amount)
{
  return g_ascii_isdigit (amount[strlen (amount) - 1]);
}

static void
check_needle_lines (const GPtrArray *lines)
{
  for (guint i = 0; i < lines->len; i++)
    for (guint j = 0; j < i; j++)
      {
        const HwNotionsLine *a = lines->pdata[i];
        const HwNotionsLine *b = lines->pdata[j];

        /* What is to be bought stands at the head as well, with nothing but a number. */
        if (a->kind == b->kind && (a->kind == HW_NOTIONS_NEEDLE || a->kind == HW_NOTIONS_NEEDLE_TO_BUY)
            && ends_with_digit (a->amount) == ends_with_digit (b->amount)
            && g_str_equal (strrchr (a->remark, ' '), strrchr (b->remark, ' ')))
          g_assert_cmpstr (a->what, !=, b->what);
      }
}

/* A needle that comes back, or one more like it, is no other line; a zip is not cloth as well. */
static void
test_notions_once (void)
{
  static const char *const garments[] = { "jeans", "t-shirt", "velvet-jacket", "wrap-skirt" };
  Desk     desk = { 0 };
  gboolean comes_back = FALSE;

  desk_open (&desk);
  for (gsize i = 0; i < G_N_ELEMENTS (garments); i++)
    {
      g_autofree char *name = g_strconcat (garments[i], ".handwheel", NULL);
      g_autofree char *path = g_test_build_filename (G_TEST_DIST, "plan", "garments", name, NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) lines = NULL;

      g_assert_true (hw_workspace_open (desk.scene.workspace, path, &error));
      g_assert_no_error (error);
      for (guint n = 0; n < hw_workspace_peek_plan (desk.scene.workspace)->needles->len; n++)
        comes_back = comes_back
                     || ((HwNeedlePick *) hw_workspace_peek_plan (desk.scene.workspace)->needles->pdata[n])->again >= 0;
      lines = hw_notions_list (hw_workspace_peek_plan (desk.scene.workspace));
      check_needle_lines (lines);
      if (g_str_equal (garments[i], "jeans"))
        {
          g_assert_nonnull (find_line (lines, "Zip"));
          g_assert_null (find_line (lines, "Zip tape"));
        }
    }
  g_assert_true (comes_back);
  desk_close (&desk);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);

  g_test_add_func ("/print/pages-are-counted", test_pages_are_counted);
  g_test_add_func ("/print/turning-chooses-nothing", test_turning_chooses_nothing);
  g_test_add_func ("/print/operation", test_print);
  g_test_add_func ("/print/size", test_print_size);
  g_test_add_func ("/print/operation-nowhere", test_print_nowhere);
  g_test_add_func ("/print/save", test_save);
  g_test_add_func ("/print/which", test_which);
  g_test_add_func ("/print/notions", test_notions);
  g_test_add_func ("/print/notions-once", test_notions_once);
  g_test_add_func ("/print/name-once", test_name_once);
  g_test_add_func ("/print/save-nowhere", test_save_nowhere);
  return g_test_run ();
}
