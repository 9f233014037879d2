/* test-window-language.c - the window in a made-up language: every word translated, no page too wide for its window
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The made-up language (pseudo.py) has an accent on each letter and is four tenths longer. A word without an accent is
 * one that no translator can reach; a page that wants more than the window has is one that would be cut off. The other
 * one runs from right to left.
 */

#include "config.h"

#include <glib/gi18n.h>
#include <gtk/gtk.h>
#include <locale.h>

#include "fits.h"
#include "plain-words.h"
#include "temp-folder.h"
#include "window/dial.h"
#include "window/furnish.h"
#include "window/motif.h"
#include "window/window.h"

/* A small laptop's screen. */
#define WIDTH 1280
#define HEIGHT 800

static const char * const pages[] = { "making-up", "order", "cards", "notions", "queue", "machines", "faults", "finish",
                                      "preferences", "needles", "thread", "fabrics", "journal", "handbook", "garment",
                                      "guide" };

typedef struct
{
  char        *folder;
  HwWorkspace *workspace;
  HwWindow    *window;
} Room;

static void
settle (void)
{
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

static void
room_open (Room *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) paths = NULL;
  g_autofree char *room = NULL;

  self->folder = temp_folder_new ();
  room = g_build_filename (self->folder, "room", NULL);
  hw_furnish_room (g_getenv ("HANDWHEEL_DATA_DIR"), room, &error);
  g_assert_no_error (error);
  self->workspace = hw_workspace_new (g_getenv ("HANDWHEEL_DATA_DIR"), room, &error);
  g_assert_no_error (error);
  paths = hw_workspace_list_projects (self->workspace);
  g_assert_cmpuint (paths->len, ==, 1);
  hw_workspace_open (self->workspace, paths->pdata[0], &error);
  g_assert_no_error (error);
  self->window = HW_WINDOW (g_object_ref_sink (hw_window_new (NULL, self->workspace)));
  gtk_window_set_default_size (GTK_WINDOW (self->window), WIDTH, HEIGHT);
  gtk_window_present (GTK_WINDOW (self->window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (self->window));
}

static void
room_close (Room *self)
{
  gtk_window_destroy (GTK_WINDOW (self->window));
  settle ();
  g_object_unref (self->window);
  g_object_unref (self->workspace);
  temp_folder_remove (self->folder);
}

static void
look_at_text (const char *text,
              const char *what,
              GHashTable *found)
{
  g_autofree char *word = text != NULL ? plain_words_find (text) : NULL;

  if (word != NULL)
    g_hash_table_add (found, g_strdup_printf ("%s “%s”: %s", what, text, word));
}

/* Notes each text of @widget and all below it that holds a word without accents. */
static void
look (GtkWidget  *widget,
      GHashTable *found,
      guint      *n_texts)
{
  if (GTK_IS_SHORTCUT_LABEL (widget))
    return;                              /* names of keys are the desktop's */
  if (GTK_IS_LABEL (widget))
    {
      look_at_text (gtk_label_get_text (GTK_LABEL (widget)), "label", found);
      *n_texts += *gtk_label_get_text (GTK_LABEL (widget)) != '\0' ? 1 : 0;
    }
  if (GTK_IS_ENTRY (widget))
    look_at_text (gtk_entry_get_placeholder_text (GTK_ENTRY (widget)), "entry", found);
  look_at_text (gtk_widget_get_tooltip_text (widget), "tip", found);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    look (child, found, n_texts);
}

static void
judge (GHashTable *found)
{
  g_autoptr (GList) keys = g_hash_table_get_keys (found);
  g_autoptr (GList) texts = g_list_sort (g_steal_pointer (&keys), (GCompareFunc) g_strcmp0);

  for (GList *text = texts; text != NULL; text = text->next)
    g_test_message ("%s", (char *) text->data);
  if (texts != NULL)
    g_test_fail ();
}

/* ---- which way it runs ---- */

/* What @motif draws, as bytes. (transfer full) */
static GBytes *
draw (GtkWidget *motif)
{
  GtkSnapshot              *snapshot = gtk_snapshot_new ();
  g_autoptr (GskRenderNode) node = NULL;

  GTK_WIDGET_GET_CLASS (motif)->snapshot (motif, snapshot);
  node = gtk_snapshot_free_to_node (snapshot);
  g_assert_nonnull (node);
  return gsk_render_node_serialize (node);
}

static gboolean
is_mirrored (GtkWidget *motif)
{
  g_autoptr (GBytes) one = NULL;
  g_autoptr (GBytes) other = NULL;

  gtk_widget_set_direction (motif, GTK_TEXT_DIR_LTR);
  one = draw (motif);
  gtk_widget_set_direction (motif, GTK_TEXT_DIR_RTL);
  other = draw (motif);
  return !g_bytes_equal (one, other);
}

/* The catalogue says which way the window runs, whether GTK has one of that language or not; an arrow points the other
 * way then, and a dial is turned the same way as everywhere. */
static void
test_direction (void)
{
  gboolean   from_right = g_getenv ("RIGHT_TO_LEFT") != NULL;
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *dial = hw_dial_new (8, 8);
  GtkWidget *arrow = hw_motif_new (8, 2);
  GtkWidget *window;
  Room       room;

  room_open (&room);
  g_assert_cmpint (gtk_widget_get_direction (GTK_WIDGET (room.window)), ==,
                   from_right ? GTK_TEXT_DIR_RTL : GTK_TEXT_DIR_LTR);
  hw_dial_show (HW_DIAL (dial), hw_workspace_get_room (room.workspace)->machines->pdata[0], 3, 2, 5, "3");
  hw_motif_show_arrow (HW_MOTIF (arrow));
  gtk_box_append (GTK_BOX (box), dial);
  gtk_box_append (GTK_BOX (box), arrow);
  window = gtk_window_new ();
  gtk_window_set_child (GTK_WINDOW (window), box);
  gtk_window_present (GTK_WINDOW (window));
  gtk_test_widget_wait_for_draw (window);
  g_assert_true (is_mirrored (arrow));
  g_assert_false (is_mirrored (dial));
  gtk_window_destroy (GTK_WINDOW (window));
  room_close (&room);
}

static void
open_page (Room       *self,
           const char *name)
{
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (self->window), "win.page", "s", name));
  settle ();
}

static void
test_words (gconstpointer name)
{
  g_autoptr (GHashTable) found = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  Room  room;
  guint n_texts = 0;

  room_open (&room);
  open_page (&room, name);
  look (GTK_WIDGET (room.window), found, &n_texts);
  g_assert_cmpuint (n_texts, >, 20);
  judge (found);
  room_close (&room);
}

static void
test_width (gconstpointer name)
{
  Room room;
  int  least = 0;

  room_open (&room);
  open_page (&room, name);
  gtk_widget_measure (GTK_WIDGET (room.window), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  if (least > WIDTH)
    g_test_fail_printf ("%s wants a width of %d", (const char *) name, least);
  gtk_widget_measure (GTK_WIDGET (room.window), GTK_ORIENTATION_VERTICAL, WIDTH, &least, NULL, NULL, NULL);
  if (least > HEIGHT)
    g_test_fail_printf ("%s wants a height of %d", (const char *) name, least);
  room_close (&room);
}

/* What a machine is set to for a step, beside the list of steps. */
static void
test_panel (void)
{
  g_autoptr (GString) faults = g_string_new (NULL);
  Room room;

  room_open (&room);
  hw_workspace_select (room.workspace, "2");
  open_page (&room, "making-up");
  gtk_test_widget_wait_for_draw (GTK_WIDGET (room.window));
  settle ();
  g_assert_cmpuint (fits_look (GTK_WIDGET (room.window), "step 2", faults), >, 40);
  g_assert_cmpstr (faults->str, ==, "");
  room_close (&room);
}

int
main (int    argc,
      char **argv)
{
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  bindtextdomain (GETTEXT_PACKAGE, g_getenv ("HANDWHEEL_LOCALE_DIR"));
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  gtk_init ();

  g_test_add_func ("/language/direction", test_direction);
  g_test_add_func ("/language/panel", test_panel);
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      g_autofree char *words = g_strconcat ("/language/words/", pages[i], NULL);
      g_autofree char *width = g_strconcat ("/language/width/", pages[i], NULL);

      g_test_add_data_func (words, pages[i], test_words);
      g_test_add_data_func (width, pages[i], test_width);
    }
  return g_test_run ();
}
