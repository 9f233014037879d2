/* test-looks.c - colours that can be read, rows that wrap, drawings that grow
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <gtk/gtk.h>
#include <math.h>

#include "window/motif.h"
#include "window/sign.h"
#include "window/split.h"
#include "window/stitch-mark.h"
#include "window/theme.h"
#include "window/wrap.h"

/* ---- contrast ---- */

/* WCAG 2.1, "relative luminance" and "contrast ratio". */
static double
linear (double channel)
{
  return channel <= 0.04045 ? channel / 12.92 : pow ((channel + 0.055) / 1.055, 2.4);
}

static double
luminance (const GdkRGBA *colour)
{
  return 0.2126 * linear ((double) colour->red) + 0.7152 * linear ((double) colour->green)
         + 0.0722 * linear ((double) colour->blue);
}

static double
contrast (GtkWidget  *widget,
          const char *text,
          const char *ground)
{
  GdkRGBA front = hw_theme_colour (widget, text);
  GdkRGBA back = hw_theme_colour (widget, ground);
  double  a = luminance (&front);
  double  b = luminance (&back);

  return (MAX (a, b) + 0.05) / (MIN (a, b) + 0.05);
}

static void
test_contrast (void)
{
  static const char * const texts[] = { "hw_ink", "hw_mute", "hw_chalk", "hw_plum", "hw_rust", "hw_sage", "hw_brass" };
  static const char * const grounds[] = { "hw_paper", "hw_paper_deep", "hw_sheet" };
  GtkWidget  *window = g_object_ref_sink (gtk_window_new ());
  GdkDisplay *display = gtk_widget_get_display (window);

  hw_theme_attach (display);
  for (int palette = 0; palette < HW_N_PALETTES; palette++)
    {
      gboolean high = palette == HW_PALETTE_CONTRAST || palette == HW_PALETTE_CONTRAST_DARK;

      hw_theme_set_palette (display, (HwPalette) palette);
      g_assert_cmpint (hw_theme_get_palette (display), ==, palette);
      for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
        for (gsize j = 0; j < G_N_ELEMENTS (grounds); j++)
          {
            double ratio = contrast (window, texts[i], grounds[j]);

            g_test_message ("palette %d, %s on %s: %.2f", palette, texts[i], grounds[j], ratio);
            /* WCAG 2.1: 1.4.3 (AA) 4.5 to 1; 1.4.6 (AAA) 7 to 1 */
            g_assert_cmpfloat (ratio, >=, high ? 7 : 4.5);
          }
    }
  hw_theme_set_palette (display, HW_PALETTE_LIGHT);
  gtk_window_destroy (GTK_WINDOW (window));
  g_object_unref (window);
}

static void
test_palettes_differ (void)
{
  GtkWidget  *window = g_object_ref_sink (gtk_window_new ());
  GdkDisplay *display = gtk_widget_get_display (window);
  gboolean    dark = FALSE;
  GdkRGBA     light_paper, dark_paper;

  hw_theme_attach (display);
  hw_theme_set_palette (display, HW_PALETTE_LIGHT);
  light_paper = hw_theme_colour (window, "hw_paper");
  hw_theme_set_palette (display, HW_PALETTE_DARK);
  dark_paper = hw_theme_colour (window, "hw_paper");
  g_object_get (gtk_settings_get_for_display (display), "gtk-application-prefer-dark-theme", &dark, NULL);
  g_assert_true (dark);
  g_assert_cmpfloat (luminance (&dark_paper), <, luminance (&light_paper));
  g_assert_cmpfloat_with_epsilon (hw_theme_inks (window).ink.r, (double) hw_theme_colour (window, "hw_ink").red, 1e-6);
  hw_theme_set_palette (display, HW_PALETTE_LIGHT);
  gtk_window_destroy (GTK_WINDOW (window));
  g_object_unref (window);
}

/* ---- rows that wrap ---- */

static GtkWidget *
make_box (int width,
          int height)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_widget_set_size_request (box, width, height);
  return box;
}

static int
height_for (GtkWidget *widget,
            int        width)
{
  int natural = 0;

  gtk_widget_measure (widget, GTK_ORIENTATION_VERTICAL, width, NULL, &natural, NULL, NULL);
  return natural;
}

static void
test_wrap (void)
{
  GtkWidget *wrap = g_object_ref_sink (hw_wrap_new (10, 5));
  int        minimum = 0;
  int        natural = 0;

  g_assert_cmpint (height_for (wrap, 100), ==, 0);
  for (int i = 0; i < 3; i++)
    hw_wrap_append (HW_WRAP (wrap), make_box (100, 20));
  gtk_widget_measure (wrap, GTK_ORIENTATION_HORIZONTAL, -1, &minimum, &natural, NULL, NULL);
  g_assert_cmpint (minimum, ==, 100);
  g_assert_cmpint (natural, ==, 320);
  g_assert_cmpint (height_for (wrap, 320), ==, 20);
  g_assert_cmpint (height_for (wrap, 319), ==, 45);
  g_assert_cmpint (height_for (wrap, 210), ==, 45);
  g_assert_cmpint (height_for (wrap, 209), ==, 70);
  gtk_widget_set_visible (gtk_widget_get_first_child (wrap), FALSE);
  g_assert_cmpint (height_for (wrap, 210), ==, 20);
  hw_wrap_remove_all (HW_WRAP (wrap));
  g_assert_cmpint (height_for (wrap, 210), ==, 0);
  g_assert_finalize_object (wrap);
}

static void
place (GtkWidget *wrap,
       int        width)
{
  gtk_widget_size_allocate (wrap, &(GtkAllocation) { 0, 0, width, height_for (wrap, width) }, -1);
}

static void
assert_place (GtkWidget *child,
              int        x,
              int        y,
              int        width)
{
  GtkAllocation place_of_it;

  gtk_widget_get_allocation (child, &place_of_it);
  g_assert_cmpint (place_of_it.x, ==, x);
  g_assert_cmpint (place_of_it.y, ==, y);
  g_assert_cmpint (place_of_it.width, ==, width);
}

static void
test_wrap_places (void)
{
  GtkWidget *window = g_object_ref_sink (gtk_window_new ());
  GtkWidget *wrap = hw_wrap_new (10, 5);
  GtkWidget *first = make_box (100, 20);
  GtkWidget *second = make_box (50, 20);

  gtk_window_set_child (GTK_WINDOW (window), wrap);
  hw_wrap_append (HW_WRAP (wrap), first);
  hw_wrap_append (HW_WRAP (wrap), second);
  place (wrap, 400);
  assert_place (first, 0, 0, 100);
  assert_place (second, 110, 0, 50);
  gtk_widget_set_hexpand (first, TRUE);
  place (wrap, 400);
  assert_place (first, 0, 0, 340);
  assert_place (second, 350, 0, 50);
  place (wrap, 120);
  assert_place (first, 0, 0, 120);
  assert_place (second, 0, 25, 50);
  g_object_set (wrap, "stretch-percent", 50, NULL);
  place (wrap, 400);
  assert_place (first, 0, 0, 150);
  gtk_widget_set_direction (wrap, GTK_TEXT_DIR_RTL);
  g_object_set (wrap, "stretch-percent", 0, NULL);
  place (wrap, 400);
  assert_place (first, 60, 0, 340);
  assert_place (second, 0, 0, 50);
  gtk_window_destroy (GTK_WINDOW (window));
  g_object_unref (window);
}

/* With "shrink" a label gives up letters before the row gives up being one. */
static void
test_wrap_shrinks (void)
{
  GtkWidget *wrap = g_object_ref_sink (hw_wrap_new (10, 5));
  GtkWidget *label = gtk_label_new ("A title that is a good deal longer than the rest of the row");
  int        one_row;

  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  hw_wrap_append (HW_WRAP (wrap), label);
  hw_wrap_append (HW_WRAP (wrap), make_box (100, 10));
  one_row = height_for (wrap, 2000);
  g_assert_cmpint (height_for (wrap, 200), >, one_row);
  g_object_set (wrap, "shrink", TRUE, NULL);
  g_assert_cmpint (height_for (wrap, 200), ==, one_row);
  g_assert_finalize_object (wrap);
}

static void
test_split (void)
{
  GtkWidget *window = g_object_ref_sink (gtk_window_new ());
  GtkWidget *split = hw_split_new ();
  GtkWidget *list = make_box (100, 100);
  GtkWidget *panel = make_box (100, 100);
  int        em;
  GtkAllocation of_list, of_panel;

  gtk_window_set_child (GTK_WINDOW (window), split);
  hw_split_append (HW_SPLIT (split), list);
  hw_split_append (HW_SPLIT (split), panel);
  em = (int) hw_theme_em (split);
  gtk_widget_size_allocate (split, &(GtkAllocation) { 0, 0, 90 * em, 40 * em }, -1);
  gtk_widget_get_allocation (list, &of_list);
  gtk_widget_get_allocation (panel, &of_panel);
  g_assert_cmpint (of_panel.y, ==, of_list.y);
  g_assert_cmpint (of_panel.x, >, of_list.x + of_list.width);
  g_assert_cmpint (of_list.width, >, of_panel.width);
  gtk_widget_size_allocate (split, &(GtkAllocation) { 0, 0, 40 * em, 60 * em }, -1);
  gtk_widget_get_allocation (list, &of_list);
  gtk_widget_get_allocation (panel, &of_panel);
  g_assert_cmpint (of_panel.x, ==, of_list.x);
  g_assert_cmpint (of_panel.y, >, of_list.y + of_list.height);
  g_assert_cmpint (of_list.width, ==, 40 * em);
  gtk_window_destroy (GTK_WINDOW (window));
  g_object_unref (window);
}

/* ---- drawings ---- */

static int
natural_width (GtkWidget *widget)
{
  int natural = 0;

  gtk_widget_measure (widget, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &natural, NULL, NULL);
  return natural;
}

static void
set_font (GtkWidget  *widget,
          const char *font)
{
  g_object_set (gtk_widget_get_settings (widget), "gtk-font-name", font, NULL);
}

/* @drawing, a new one, is as large as the text is now, not as when it was made. */
static void
assert_grows (GtkWidget *drawing)
{
  GtkWidget       *window = g_object_ref_sink (gtk_window_new ());
  g_autofree char *font = NULL;
  int              before;

  gtk_window_set_child (GTK_WINDOW (window), drawing);
  gtk_window_present (GTK_WINDOW (window));
  g_object_get (gtk_widget_get_settings (window), "gtk-font-name", &font, NULL);
  set_font (window, "Sans 10");
  gtk_test_widget_wait_for_draw (window);
  before = natural_width (drawing);
  set_font (window, "Sans 20");
  gtk_test_widget_wait_for_draw (window);
  g_assert_cmpint (natural_width (drawing), >=, 2 * before - 4);
  set_font (window, font);
  gtk_window_destroy (GTK_WINDOW (window));
  g_object_unref (window);
}

static void
test_motif_grows (void)
{
  assert_grows (hw_motif_new (4, 2));
}

static void
test_sign_grows (void)
{
  assert_grows (hw_sign_new ("plus"));
}

static void
assert_paints (GtkWidget *motif)
{
  g_autoptr (GdkPaintable) picture = NULL;
  GtkSnapshot   *snapshot = gtk_snapshot_new ();
  GskRenderNode *node;

  gtk_test_widget_wait_for_draw (GTK_WIDGET (gtk_widget_get_root (motif)));
  picture = gtk_widget_paintable_new (motif);
  gdk_paintable_snapshot (picture, snapshot, 60, 40);
  node = gtk_snapshot_free_to_node (snapshot);
  g_assert_nonnull (node);
  gsk_render_node_unref (node);
}

static void
test_motifs_paint (void)
{
  GtkWidget *window = g_object_ref_sink (gtk_window_new ());
  GtkWidget *motif = hw_motif_new (8, 4);

  hw_theme_attach (gtk_widget_get_display (window));
  gtk_window_set_child (GTK_WINDOW (window), motif);
  gtk_window_present (GTK_WINDOW (window));
  hw_motif_show_along (HW_MOTIF (motif), 2, 0);
  assert_paints (motif);
  hw_motif_show_edge (HW_MOTIF (motif), 2, 0.3);
  assert_paints (motif);
  hw_motif_show_row (HW_MOTIF (motif), "zigzag");
  assert_paints (motif);
  hw_motif_show_cloth (HW_MOTIF (motif), HW_FAMILY_WOVEN, "twill");
  assert_paints (motif);
  hw_motif_show_needle (HW_MOTIF (motif), FALSE);
  assert_paints (motif);
  hw_motif_show_letter (HW_MOTIF (motif), "AB");
  assert_paints (motif);
  hw_motif_show_cross_stitch (HW_MOTIF (motif), TRUE);
  assert_paints (motif);
  hw_motif_show_spool (HW_MOTIF (motif));
  assert_paints (motif);
  gtk_widget_set_direction (motif, GTK_TEXT_DIR_RTL);
  hw_motif_show_arrow (HW_MOTIF (motif));
  assert_paints (motif);
  hw_motif_set_name (HW_MOTIF (motif), "then");
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (motif), GTK_ACCESSIBLE_PROPERTY_LABEL, "then");
  gtk_test_accessible_assert_role (GTK_ACCESSIBLE (motif), GTK_ACCESSIBLE_ROLE_IMG);
  gtk_window_destroy (GTK_WINDOW (window));
  g_object_unref (window);
}

static void
test_stitch_mark (void)
{
  GtkWidget *mark = g_object_ref_sink (hw_stitch_mark_new (GTK_ORIENTATION_VERTICAL));
  int        wide = 0;
  int        tall = 0;

  gtk_widget_measure (mark, GTK_ORIENTATION_HORIZONTAL, -1, &wide, NULL, NULL, NULL);
  gtk_widget_measure (mark, GTK_ORIENTATION_VERTICAL, -1, &tall, NULL, NULL, NULL);
  g_assert_cmpint (tall, >, wide);
  gtk_test_accessible_assert_role (GTK_ACCESSIBLE (mark), GTK_ACCESSIBLE_ROLE_PRESENTATION);
  g_assert_finalize_object (mark);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/looks/contrast", test_contrast);
  g_test_add_func ("/looks/palettes-differ", test_palettes_differ);
  g_test_add_func ("/looks/wrap", test_wrap);
  g_test_add_func ("/looks/wrap-places", test_wrap_places);
  g_test_add_func ("/looks/wrap-shrinks", test_wrap_shrinks);
  g_test_add_func ("/looks/split", test_split);
  g_test_add_func ("/looks/motif-grows", test_motif_grows);
  g_test_add_func ("/looks/sign-grows", test_sign_grows);
  g_test_add_func ("/looks/motifs-paint", test_motifs_paint);
  g_test_add_func ("/looks/stitch-mark", test_stitch_mark);
  return g_test_run ();
}
