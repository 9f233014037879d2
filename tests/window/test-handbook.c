/* test-handbook.c - the page “Handbook”: search, links, sources, a person's own entries
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <gtk/gtk.h>
#include <string.h>

#include "desk.h"
#include "temp-folder.h"
#include "walk.h"

static char *overlay;                  /* of the test that runs */

static void
open_handbook (Desk       *self,
               const char *own_or_null)
{
  overlay = temp_folder_new ();
  if (own_or_null != NULL)
    {
      g_autofree char *text = g_strconcat ("<handbook xmlns=\"urn:handwheel:handbook:1\">\n", own_or_null,
                                           "</handbook>\n", NULL);

      temp_folder_write (overlay, "mine.xml", text, -1);
    }
  g_setenv ("HANDWHEEL_OVERLAY", overlay, TRUE);
  desk_open (self);
  desk_open_page (self, "handbook");
}

static void
close_handbook (Desk *self)
{
  desk_close (self);
  temp_folder_remove (overlay);
}

static GListModel *
listed (Desk *desk)
{
  GtkWidget *view = walk_need (desk->page, GTK_TYPE_LIST_VIEW, "Entries of the handbook");

  return G_LIST_MODEL (gtk_list_view_get_model (GTK_LIST_VIEW (view)));
}

static char *
name_listed (Desk  *desk,
             guint  index)
{
  g_autoptr (GObject) item = g_list_model_get_item (listed (desk), index);

  return g_strdup (gtk_string_object_get_string (GTK_STRING_OBJECT (item)));
}

static gboolean
is_filtered (gpointer data)
{
  return g_list_model_get_n_items (listed (data)) < 100;
}

static void
search (Desk       *desk,
        const char *words)
{
  gtk_editable_set_text (GTK_EDITABLE (walk_need (desk->page, GTK_TYPE_SEARCH_ENTRY, "Search the handbook")), words);
  scene_wait (is_filtered, desk);
}

static void
press (Desk       *desk,
       const char *link)
{
  GtkWidget *button = walk_need (desk->page, GTK_TYPE_BUTTON, link);

  g_assert_true (walk_visible (button, desk->root));
  g_signal_emit_by_name (button, "clicked");
  scene_settle ();
}

/* Words may stand anywhere in what an entry says, not only in its name. */
static void
test_search (void)
{
  Desk desk = { 0 };
  g_autofree char *first = NULL;

  open_handbook (&desk, NULL);
  g_assert_cmpuint (g_list_model_get_n_items (listed (&desk)), >, 700);
  search (&desk, "twice HEM turned");
  first = name_listed (&desk, 0);
  g_assert_cmpstr (first, ==, "Hem, turned twice – Seam");
  g_assert_true (walk_shows (desk.page, "ISO 4916"));
  search (&desk, "no such word");
  g_assert_cmpuint (g_list_model_get_n_items (listed (&desk)), ==, 0);
  g_assert_true (walk_shows (desk.page, "Nothing has all these words; take one away."));
  search (&desk, "ticket 100 polyester");
  g_assert_cmpuint (g_list_model_get_n_items (listed (&desk)), >, 0);
  close_handbook (&desk);
}

/* From a purpose to its seam, from the seam to its source, and back. */
static void
test_links (void)
{
  Desk desk = { 0 };

  open_handbook (&desk, NULL);
  g_assert_true (gtk_widget_activate_action (desk.root, "win.handbook-entry", "s", "purpose/hem"));
  scene_settle ();
  g_assert_true (walk_shows (desk.page, "Seam offered first"));
  press (&desk, "Hem, turned twice");
  g_assert_true (walk_shows (desk.page, "ISO 4916"));
  g_assert_nonnull (walk_find (desk.page, GTK_TYPE_BUTTON, "Hem"));          /* the way it came: “Named by” */
  g_assert_true (gtk_widget_activate_action (desk.page, "handbook.back", NULL));
  scene_settle ();
  g_assert_true (walk_shows (desk.page, "Seam offered first"));
  press (&desk, "common practice");
  g_assert_true (walk_shows (desk.page, "Kind of source"));
  close_handbook (&desk);
}

/* Each kind of entry can be shown, and each says where it has it from. */
static void
test_kinds (void)
{
  static const struct { const char *path; const char *shows; } topics[] = {
    { "fabric/denim", "Construction" },
    { "construction/twill", "Bulk density" },
    { "trait/pile", "Dusting hours count" },
    { "system/household", "Also called" },
    { "point/stretch", "Letters" },
    { "thread/polyester-30", "Tex" },
    { "stitch/301", "ISO 4915" },
    { "seam/french", "ISO 4916" },
    { "purpose/hem", "Handling" },
    { "foot/straight", "Widest swing" },
    { "plate/zigzag", "Widest swing" },
    { "care/dust", "Due after" },
    { "sizes/women", "Waist" },
    { "garment/skirt", "Sewn in all" },
    { "fault/pucker", "38 %  Threads too tight (2 min)" },
    { "term/dial", "See also" },
    { "row/ends-1", "Decides" },
    { "tension/thicker", "Moves the dial by" },
    { "figures/changes", "Each cone" },
  };
  Desk desk = { 0 };

  open_handbook (&desk, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (topics); i++)
    {
      g_test_message ("%s", topics[i].path);
      g_assert_true (gtk_widget_activate_action (desk.root, "win.handbook-entry", "s", topics[i].path));
      scene_settle ();
      g_assert_true (walk_shows (desk.page, topics[i].shows));
      g_assert_true (walk_shows (desk.page, "Source"));
    }
  close_handbook (&desk);
}

#define OWN(mass) "<fabric id=\"denim\" name=\"My denim\" construction=\"twill\" mass=\"" mass "\" thickness=\"1\"" \
                  " source=\"common-practice\"/>\n"

static void
test_overlay (void)
{
  Desk desk = { 0 };

  open_handbook (&desk, OWN ("415"));
  g_assert_null (hw_workspace_peek_overlay_error (desk.scene.workspace));
  g_assert_true (gtk_widget_activate_action (desk.root, "win.handbook-entry", "s", "fabric/denim"));
  scene_settle ();
  g_assert_true (walk_shows (desk.page, "My denim"));
  close_handbook (&desk);
}

/* The handbook as it came is in use, and where the own one is wrong is said. */
static void
test_overlay_refused (void)
{
  Desk desk = { 0 };
  const GError *error;
  const char *notice;

  open_handbook (&desk, OWN ("heavy"));
  error = hw_workspace_peek_overlay_error (desk.scene.workspace);
  g_assert_nonnull (error);
  g_assert_nonnull (strstr (error->message, "mine.xml:2: fabric “denim”: “mass” must be a number"));
  notice = walk_text (desk.page, "Your own entries are left out until this is mended: ");
  g_assert_nonnull (notice);
  g_assert_nonnull (strstr (notice, "mine.xml:2: "));
  g_assert_true (gtk_widget_activate_action (desk.root, "win.handbook-entry", "s", "fabric/denim"));
  scene_settle ();
  g_assert_true (walk_shows (desk.page, "Denim, heavy"));
  close_handbook (&desk);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/window/handbook/search", test_search);
  g_test_add_func ("/window/handbook/links", test_links);
  g_test_add_func ("/window/handbook/kinds", test_kinds);
  g_test_add_func ("/window/handbook/overlay", test_overlay);
  g_test_add_func ("/window/handbook/overlay-refused", test_overlay_refused);
  return g_test_run ();
}
