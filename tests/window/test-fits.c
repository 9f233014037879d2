/* test-fits.c - every page has room for what it says: small window, large text, either direction, each palette
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * In the real window over the demo's sewing room, whose names are as long as people's.
 */

#include "config.h"

#include "demo.h"
#include "fits.h"
#include "scene.h"
#include "walk.h"
#include "window/form.h"
#include "window/split.h"
#include "window/theme.h"

#define PERCENT_100 (96 * PANGO_SCALE)

typedef struct
{
  const char       *path;
  HwPalette         palette;
  int               percent;             /* size of text */
  GtkTextDirection  direction;
} Look;

static const Look looks[] = {
  { "/fits/light", HW_PALETTE_LIGHT, 100, GTK_TEXT_DIR_LTR },
  { "/fits/dark", HW_PALETTE_DARK, 100, GTK_TEXT_DIR_LTR },
  { "/fits/contrast", HW_PALETTE_CONTRAST, 100, GTK_TEXT_DIR_LTR },
  { "/fits/right-to-left", HW_PALETTE_LIGHT, 100, GTK_TEXT_DIR_RTL },
  { "/fits/large-text", HW_PALETTE_LIGHT, 200, GTK_TEXT_DIR_LTR },
  { "/fits/large-text-contrast-right-to-left", HW_PALETTE_CONTRAST_DARK, 200, GTK_TEXT_DIR_RTL },
};

static void
open_room (Demo       *self,
           const Look *look)
{
  gtk_widget_set_default_direction (look->direction);
  demo_open (self);
  hw_theme_set_palette (gtk_widget_get_display (self->window), look->palette);
  g_object_set (gtk_widget_get_settings (self->window), "gtk-xft-dpi", PERCENT_100 * look->percent / 100, NULL);
}

static void
close_room (Demo *self)
{
  g_object_set (gtk_widget_get_settings (self->window), "gtk-xft-dpi", PERCENT_100, NULL);
  hw_theme_set_palette (gtk_widget_get_display (self->window), HW_PALETTE_LIGHT);
  gtk_widget_set_default_direction (GTK_TEXT_DIR_LTR);
  demo_close (self);
}

/* @where is told; the page is shown. */
static void
look_around (Demo       *room,
             const char *where,
             int         width,
             int         height,
             GString    *faults)
{
  guint n;

  scene_settle ();
  gtk_test_widget_wait_for_draw (room->window);
  scene_settle ();
  gtk_test_widget_wait_for_draw (room->window);  /* what comes or goes by the new width has its place a frame later */
  if (gtk_widget_get_width (room->window) > width)
    g_string_append_printf (faults, "%s: the window wants to be %d wide\n", where, gtk_widget_get_width (room->window));
  if (gtk_widget_get_height (room->window) > height)
    g_string_append_printf (faults, "%s: the window wants to be %d high\n", where,
                            gtk_widget_get_height (room->window));
  n = fits_look (room->window, where, faults);
  g_test_message ("%s: %u labels", where, n);
  g_assert_cmpuint (n, >=, 12);          /* the page was there */
}

static void
look_at_page (Demo       *room,
              const char *page,
              int         width,
              int         height,
              GString    *faults)
{
  g_autofree char *where = g_strdup_printf ("%s, %d wide", page, width);

  g_assert_true (gtk_widget_activate_action (room->window, "win.page", "s", page));
  look_around (room, where, width, height, faults);
}

/* In the side panel of the making up. */
static void
look_at_form (Demo       *room,
              const char *action,
              int         width,
              int         height,
              GString    *faults)
{
  GtkWidget       *page = gtk_stack_get_visible_child (walk_stack (room->window, "making-up"));
  g_autofree char *where = g_strdup_printf ("%s, %d wide", action, width);

  g_assert_true (gtk_widget_activate_action (page, action, NULL));
  scene_settle ();
  g_assert_nonnull (walk_find (page, HW_TYPE_FORM, NULL));
  look_around (room, where, width, height, faults);
}

static void
look_at_size (Demo    *room,
              int      width,
              int      height,
              GString *faults)
{
  static const char * const pages[] = {
    "making-up", "order", "cards", "notions", "queue", "machines", "faults", "finish", "preferences", "needles",
    "thread", "fabrics", "journal", "handbook", "garment", "guide", "versions", "making-up",
  };
  static const char * const forms[] = {
    "making-up.choose-all", "making-up.add-operation", "making-up.add-hand-step", "making-up.add-fabric",
    "making-up.add-thread", "making-up.edit-project",
  };

  gtk_window_set_default_size (GTK_WINDOW (room->window), width, height);
  gtk_window_present (GTK_WINDOW (room->window));
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    look_at_page (room, pages[i], width, height, faults);
  for (gsize i = 0; i < G_N_ELEMENTS (forms); i++)
    look_at_form (room, forms[i], width, height, faults);
}

static void
test_fits (gconstpointer data)
{
  const Look *look = data;
  Demo        room = { 0 };
  g_autoptr (GString) faults = g_string_new (NULL);

  open_room (&room, look);
  look_at_size (&room, 1280, 800, faults);
  look_at_size (&room, 900, 600, faults);
  close_room (&room);
  if (faults->len > 0)
    g_test_message ("%s", faults->str);
  g_assert_cmpuint (faults->len, ==, 0);
}

/* ---- the buttons of a form ---- */

/* Wholly inside everything that holds it, so that nothing need be scrolled to see it. */
static gboolean
is_in_sight (GtkWidget *widget)
{
  for (GtkWidget *outer = gtk_widget_get_parent (widget); outer != NULL; outer = gtk_widget_get_parent (outer))
    {
      graphene_rect_t bounds;

      if (!gtk_widget_get_mapped (widget) || !gtk_widget_compute_bounds (widget, outer, &bounds)
          || bounds.origin.y < -1 || bounds.origin.y + bounds.size.height > (float) gtk_widget_get_height (outer) + 1)
        return FALSE;
    }
  return TRUE;
}

static void
look_for_buttons (Demo       *room,
                  const char *page_name,
                  const char *action,
                  const char *target,
                  GString    *faults)
{
  GtkWidget *page;
  GtkWidget *form;

  g_assert_true (gtk_widget_activate_action (room->window, "win.page", "s", page_name));
  page = gtk_stack_get_visible_child (walk_stack (room->window, page_name));
  if (action != NULL)
    g_assert_true (gtk_widget_activate_action (walk_need (page, GTK_TYPE_BUTTON, NULL), action,
                                               target != NULL ? "s" : NULL, target));
  scene_settle ();
  gtk_test_widget_wait_for_draw (room->window);
  scene_settle ();
  gtk_test_widget_wait_for_draw (room->window);
  form = walk_need (page, HW_TYPE_FORM, NULL);
  if (!is_in_sight (walk_need (form, GTK_TYPE_BUTTON, "Cancel")))
    g_string_append_printf (faults, "%s, %s: the buttons are out of sight\n", page_name,
                            action != NULL ? action : "its form");
}

static void
test_buttons_of_forms (void)
{
  static const struct { const char *page, *action, *target; } forms[] = {
    { "making-up", "making-up.add-operation", NULL }, { "making-up", "making-up.edit-step", NULL },
    { "making-up", "making-up.add-fabric", NULL }, { "making-up", "making-up.add-thread", NULL },
    { "machines", "machines.edit", "lockstitch" }, { "needles", "needles.add", NULL },
    { "thread", "thread.add", NULL }, { "fabrics", "fabrics.add", NULL }, { "garment", NULL, NULL },
    { "preferences", NULL, NULL },
  };
  static const struct { int width, height; } sizes[] = { { 1280, 800 }, { 900, 600 } };
  Demo room = { 0 };
  g_autoptr (GString) faults = g_string_new (NULL);

  demo_open (&room);
  gtk_window_present (GTK_WINDOW (room.window));
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      gtk_window_set_default_size (GTK_WINDOW (room.window), sizes[i].width, sizes[i].height);
      for (gsize j = 0; j < G_N_ELEMENTS (forms); j++)
        look_for_buttons (&room, forms[j].page, forms[j].action, forms[j].target, faults);
    }
  demo_close (&room);
  if (faults->len > 0)
    g_test_message ("%s", faults->str);
  g_assert_cmpuint (faults->len, ==, 0);
}

/* ---- a form where there is little room ---- */

static int
rows_height (GtkWidget *form)
{
  return gtk_widget_get_height (walk_need (form, GTK_TYPE_SCROLLED_WINDOW, NULL));
}

static void
let_settle (Demo *room)
{
  for (int i = 0; i < 4; i++)
    {
      gtk_test_widget_wait_for_draw (room->window);
      scene_settle ();
    }
}

/* With large text in a small window it has the whole place of list and panel; the list is back when it is closed. */
static void
test_form_has_room (void)
{
  static const struct { const char *page, *action, *target; } forms[] = {
    { "machines", "machines.care", "lockstitch" }, { "needles", "needles.add", NULL },
  };
  Demo room = { 0 };

  demo_open (&room);
  gtk_window_set_default_size (GTK_WINDOW (room.window), 900, 600);
  gtk_window_present (GTK_WINDOW (room.window));
  g_object_set (gtk_widget_get_settings (room.window), "gtk-xft-dpi", PERCENT_100 * 2, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      GtkWidget *page, *form, *split, *list;

      g_assert_true (gtk_widget_activate_action (room.window, "win.page", "s", forms[i].page));
      let_settle (&room);
      page = gtk_stack_get_visible_child (walk_stack (room.window, forms[i].page));
      split = walk_need (page, HW_TYPE_SPLIT, NULL);
      list = gtk_widget_get_first_child (split);
      g_assert_true (gtk_widget_get_mapped (list));
      if (forms[i].target != NULL)
        gtk_widget_activate_action (walk_need (page, GTK_TYPE_BUTTON, NULL), forms[i].action, "(ss)", forms[i].target,
                                    "dust");
      else
        gtk_widget_activate_action (walk_need (page, GTK_TYPE_BUTTON, NULL), forms[i].action, NULL);
      let_settle (&room);
      form = walk_need (page, HW_TYPE_FORM, NULL);
      g_test_message ("%s: rows %d of %d", forms[i].page, rows_height (form), gtk_widget_get_height (split));
      g_assert_false (gtk_widget_get_mapped (list));
      g_assert_cmpint (rows_height (form), >=, gtk_widget_get_height (split) / 2 - 30);
      g_signal_emit_by_name (walk_need (form, GTK_TYPE_BUTTON, "Cancel"), "clicked");
      let_settle (&room);
      g_assert_true (gtk_widget_get_mapped (list));
      g_assert_nonnull (gtk_root_get_focus (GTK_ROOT (room.window)));
      g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (room.window)), page));
    }
  g_object_set (gtk_widget_get_settings (room.window), "gtk-xft-dpi", PERCENT_100, NULL);
  demo_close (&room);
}

/* What a form refuses is said below its fields; whoever is in one of them sees it. */
static void
test_refusal_in_sight (void)
{
  Demo room = { 0 };
  GtkWidget *page, *form, *minutes;
  const HwRoom *sewing;
  const HwJournalEntry *sewn = NULL;

  demo_open (&room);
  gtk_window_set_default_size (GTK_WINDOW (room.window), 900, 600);
  gtk_window_present (GTK_WINDOW (room.window));
  g_object_set (gtk_widget_get_settings (room.window), "gtk-xft-dpi", PERCENT_100 * 2, NULL);
  sewing = hw_workspace_get_room (room.workspace);
  for (guint i = 0; i < sewing->entries->len && sewn == NULL; i++)
    if (((const HwJournalEntry *) g_ptr_array_index (sewing->entries, i))->kind == HW_ENTRY_SEWING)
      sewn = g_ptr_array_index (sewing->entries, i);
  g_assert_nonnull (sewn);
  g_assert_true (gtk_widget_activate_action (room.window, "win.page", "s", "journal"));
  page = gtk_stack_get_visible_child (walk_stack (room.window, "journal"));
  g_assert_true (gtk_widget_activate_action (walk_need (page, GTK_TYPE_BUTTON, NULL), "journal.correct", "s",
                                             sewn->id));
  let_settle (&room);
  form = walk_need (page, HW_TYPE_FORM, NULL);
  minutes = walk_need (form, GTK_TYPE_ENTRY, "Minutes it took");
  gtk_editable_set_text (GTK_EDITABLE (minutes), "abc");
  gtk_widget_activate_action (minutes, "form.save", NULL);
  let_settle (&room);
  g_assert_true (is_in_sight (walk_need (form, GTK_TYPE_LABEL, "The minutes must be a number; it is “abc”")));
  g_object_set (gtk_widget_get_settings (room.window), "gtk-xft-dpi", PERCENT_100, NULL);
  demo_close (&room);
}

/* ---- the preview of a card ---- */

/* Whoever needs large text needs the card as large: it is scrolled to, not shrunk to what room is left. */
static void
test_card_stays_legible (void)
{
  static const int percents[] = { 100, 200 };
  Demo       room = { 0 };
  GtkWidget *page;
  GtkWidget *preview;

  demo_open (&room);
  gtk_window_set_default_size (GTK_WINDOW (room.window), 900, 600);
  gtk_window_present (GTK_WINDOW (room.window));
  g_assert_true (gtk_widget_activate_action (room.window, "win.page", "s", "cards"));
  page = gtk_stack_get_visible_child (walk_stack (room.window, "cards"));
  preview = walk_need (page, GTK_TYPE_DRAWING_AREA, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (percents); i++)
    {
      g_object_set (gtk_widget_get_settings (room.window), "gtk-xft-dpi", PERCENT_100 * percents[i] / 100, NULL);
      scene_settle ();
      gtk_test_widget_wait_for_draw (room.window);
      scene_settle ();
      g_assert_cmpint (gtk_widget_get_height (preview), >=, 300 * percents[i] / 100);
    }
  g_object_set (gtk_widget_get_settings (room.window), "gtk-xft-dpi", PERCENT_100, NULL);
  demo_close (&room);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (looks); i++)
    g_test_add_data_func (looks[i].path, &looks[i], test_fits);
  g_test_add_func ("/fits/buttons-of-forms", test_buttons_of_forms);
  g_test_add_func ("/fits/form-has-room", test_form_has_room);
  g_test_add_func ("/fits/refusal-in-sight", test_refusal_in_sight);
  g_test_add_func ("/fits/card-stays-legible", test_card_stays_legible);
  return g_test_run ();
}
