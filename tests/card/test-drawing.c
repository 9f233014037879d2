/* test-drawing.c - the motifs: each stays in its rectangle and shows what it stands for
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <math.h>
#include <pango/pangocairo.h>
#include <string.h>

#include "card/drawing.h"

#define SIZE 120
#define BACKGROUND 0x808080

typedef struct { cairo_surface_t *surface; cairo_t *cr; PangoLayout *layout; } Sheet;

static Sheet
sheet_new (void)
{
  Sheet sheet = { .surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, SIZE, SIZE) };
  PangoFontDescription *font = pango_font_description_from_string ("Sans 10");

  sheet.cr = cairo_create (sheet.surface);
  cairo_set_source_rgb (sheet.cr, 128 / 255.0, 128 / 255.0, 128 / 255.0);
  cairo_paint (sheet.cr);
  sheet.layout = pango_cairo_create_layout (sheet.cr);
  pango_layout_set_font_description (sheet.layout, font);
  pango_font_description_free (font);
  return sheet;
}

static void
sheet_clear (Sheet *sheet)
{
  g_object_unref (sheet->layout);
  cairo_destroy (sheet->cr);
  cairo_surface_destroy (sheet->surface);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Sheet, sheet_clear)

static guint32
get_pixel (const Sheet *sheet,
           int          x,
           int          y)
{
  const unsigned char *row;

  cairo_surface_flush (sheet->surface);
  row = cairo_image_surface_get_data (sheet->surface) + y * cairo_image_surface_get_stride (sheet->surface);
  return ((const guint32 *) (const void *) row)[x] & 0xffffff;
}

/* Pixels that are not background, in a part of the sheet. */
static int
count_marks (const Sheet *sheet,
             int          x,
             int          y,
             int          width,
             int          height)
{
  int n = 0;

  for (int row = y; row < y + height; row++)
    for (int column = x; column < x + width; column++)
      n += get_pixel (sheet, column, row) != BACKGROUND ? 1 : 0;
  return n;
}

static int
count_dark (const Sheet *sheet,
            int          x,
            int          y,
            int          width,
            int          height)
{
  int n = 0;

  for (int row = y; row < y + height; row++)
    for (int column = x; column < x + width; column++)
      n += (get_pixel (sheet, column, row) & 0xff) < 0x40 ? 1 : 0;
  return n;
}

static guint
hash_sheet (const Sheet *sheet)
{
  guint hash = 5381;

  for (int row = 0; row < SIZE; row++)
    for (int column = 0; column < SIZE; column++)
      hash = hash * 33 + get_pixel (sheet, column, row);
  return hash;
}

/* Something was drawn, and all of it within 20..100 by 30..90 (a pixel of smoothing allowed). */
static void
assert_within (const Sheet *sheet)
{
  g_assert_cmpint (count_marks (sheet, 20, 30, 80, 60), >, 20);
  g_assert_cmpint (count_marks (sheet, 0, 0, SIZE, 29), ==, 0);
  g_assert_cmpint (count_marks (sheet, 0, 91, SIZE, SIZE - 91), ==, 0);
  g_assert_cmpint (count_marks (sheet, 0, 0, 19, SIZE), ==, 0);
  g_assert_cmpint (count_marks (sheet, 101, 0, SIZE - 101, SIZE), ==, 0);
}

/* ---- seams ---- */

static void
test_seam_across_fills_its_place (void)
{
  double wide[] = { 0, 27, 100, 27 };
  double high[] = { 40, 0, 40, 60 };
  HwPolyline plies[2][1] = { { { wide, 2 } }, { { high, 2 } } };
  HwSeamStitch stitch = { 50, 10, 50, 50, 1 };

  for (int i = 0; i < 2; i++)
    {
      g_auto (Sheet) sheet = sheet_new ();
      const HwSeam seam = { .plies = plies[i], .n_plies = 1, .stitches = &stitch, .n_stitches = 1 };

      hw_draw_seam_across (sheet.cr, &seam, 1, 20, 30, 80, 60, &hw_inks_print);
      assert_within (&sheet);
    }
}

static void
test_seam_without_drawing (void)
{
  g_auto (Sheet) sheet = sheet_new ();
  const HwSeam seam = { 0 };

  hw_draw_seam_across (sheet.cr, &seam, 1, 20, 30, 80, 60, &hw_inks_print);
  g_assert_cmpint (count_marks (&sheet, 0, 0, SIZE, SIZE), ==, 0);
  g_assert_cmpint (cairo_status (sheet.cr), ==, CAIRO_STATUS_SUCCESS);
}

/* The cloth of a drawing 60 high lies from 27 to 71 % of it: from 46 to 73. */
#define CLOTH_TOP 46
#define CLOTH_BOTTOM 73

static void
test_loops_hang_on_the_slack_side (void)
{
  int above[3];
  int below[3];

  for (int i = 0; i < 3; i++)
    {
      g_auto (Sheet) sheet = sheet_new ();

      hw_draw_seam_along (sheet.cr, 2, i - 1, 20, 30, 80, 60, &hw_inks_print);
      assert_within (&sheet);
      above[i] = count_dark (&sheet, 20, 30, 80, CLOTH_TOP - 30 - 4);
      below[i] = count_dark (&sheet, 20, CLOTH_BOTTOM + 7, 80, 90 - CLOTH_BOTTOM - 7);
    }
  /* -1 needle thread loops underneath, 0 neither, 1 bobbin thread on top. */
  g_assert_cmpint (below[0], >, 20);
  g_assert_cmpint (above[0], ==, 0);
  g_assert_cmpint (below[1], ==, 0);
  g_assert_cmpint (above[1], ==, 0);
  g_assert_cmpint (below[2], ==, 0);
  g_assert_cmpint (above[2], >, 20);
}

static void
test_balance_out_of_range (void)
{
  g_auto (Sheet) at_end = sheet_new ();
  g_auto (Sheet) beyond = sheet_new ();

  hw_draw_seam_along (at_end.cr, 2, 1, 20, 30, 80, 60, &hw_inks_print);
  hw_draw_seam_along (beyond.cr, 2, 40, 20, 30, 80, 60, &hw_inks_print);
  g_assert_cmpuint (hash_sheet (&at_end), ==, hash_sheet (&beyond));
}

static void
test_edge_balance (void)
{
  int above[3];
  int below[3];

  for (int i = 0; i < 3; i++)
    {
      g_auto (Sheet) sheet = sheet_new ();

      hw_draw_edge_balance (sheet.cr, 2, i - 1, 20, 30, 80, 60, &hw_inks_print);
      assert_within (&sheet);
      /* The open thread has two dark edges, the solid one is dark throughout: who lies where shows in the ink. */
      above[i] = count_dark (&sheet, 60, 38, 20, 8);
      below[i] = count_dark (&sheet, 60, 74, 20, 8);
    }
  g_assert_cmpint (above[0], ==, above[1]);
  g_assert_cmpint (above[2], !=, above[1]);
  g_assert_cmpint (below[2], ==, below[1]);
  g_assert_cmpint (below[0], !=, below[1]);
}

static void
test_stitch_balance (void)
{
  const HwSetup setup = { .window_low = 3, .window_high = 5 };
  const HwSetup closed = { .window_low = 3, .window_high = 3 };

  g_assert_cmpfloat (hw_stitch_balance (&setup, 4), ==, 0);
  g_assert_cmpfloat (hw_stitch_balance (&setup, 3), ==, -0.5);
  g_assert_cmpfloat (hw_stitch_balance (&setup, 5), ==, 0.5);
  g_assert_cmpfloat (hw_stitch_balance (&setup, 9), ==, 1);
  g_assert_cmpfloat (hw_stitch_balance (&closed, 5), ==, 0);
}

static void
test_every_row_is_its_own (void)
{
  static const char * const marks[] = { "straight", "twin", "zigzag", "multi-step", "blind", "stretch", "satin",
                                        "buttonhole",
                                        "bar-tack", "overlock", "cover", "chain" };
  guint hashes[G_N_ELEMENTS (marks)];

  for (gsize i = 0; i < G_N_ELEMENTS (marks); i++)
    {
      g_auto (Sheet) sheet = sheet_new ();

      hw_draw_stitch_row (sheet.cr, marks[i], 20, 30, 80, 60, &hw_inks_print);
      assert_within (&sheet);
      hashes[i] = hash_sheet (&sheet);
      for (gsize j = 0; j < i; j++)
        g_assert_cmpuint (hashes[i], !=, hashes[j]);
    }
}

/* ---- dials ---- */

static void
test_dials_stay_in_their_place (void)
{
  static const HwDialScale scales[] = { { 0, 9, 4 }, { -3, 3, 0 }, { 1, 5, 3 }, { 0, 90, 40 } };

  for (int form = HW_DIAL_EDGE_WHEEL; form <= HW_DIAL_NUMBER; form++)
    for (gsize i = 0; i < G_N_ELEMENTS (scales); i++)
      for (int end = 0; end <= 1; end++)
        {
          g_auto (Sheet) sheet = sheet_new ();
          const HwMachine machine = { .dial_form = (HwDialForm) form, .dial = scales[i] };
          double start = end ? scales[i].high : scales[i].low;

          hw_draw_dial (sheet.cr, sheet.layout, &machine, start, start - 1, start + 1, 20, 30, 80,
                        form == HW_DIAL_KNOB ? 60 : 40,
                        &hw_inks_print);
          assert_within (&sheet);
        }
}

/* The pointer of a wheel lying flat is the only ink above its housing; it stands over its number. */
static double
find_pointer (double start)
{
  g_auto (Sheet) sheet = sheet_new ();
  const HwMachine machine = { .dial_form = HW_DIAL_EDGE_WHEEL, .dial = { 0, 9, 4 } };
  double sum = 0;
  int n = 0;

  hw_draw_dial (sheet.cr, sheet.layout, &machine, start, start, start, 20, 30, 80, 36, &hw_inks_print);
  for (int y = 30; y < 35; y++)
    for (int x = 20; x < 100; x++)
      if (get_pixel (&sheet, x, y) != BACKGROUND)
        {
          sum += x;
          n++;
        }
  g_assert_cmpint (n, >, 0);
  return sum / n;
}

static void
test_pointer_moves_with_the_start (void)
{
  double at_0 = find_pointer (0);
  double at_4 = find_pointer (4);
  double at_4_5 = find_pointer (4.5);
  double at_9 = find_pointer (9);

  g_assert_cmpfloat (at_0, <, at_4);
  g_assert_cmpfloat_with_epsilon ((at_9 - at_0) * 4.0 / 9, at_4 - at_0, 1.0);
  g_assert_cmpfloat_with_epsilon ((at_9 - at_0) * 0.5 / 9, at_4_5 - at_4, 1.0);
}

/* Columns of a wheel lying flat, or rows of one that stands upright, that are tinted just inside its edge. */
static void
find_band (double low,
           double high,
           gboolean upright,
           int *first,
           int *last)
{
  g_auto (Sheet) sheet = sheet_new ();
  const HwMachine machine = { .dial_form = HW_DIAL_EDGE_WHEEL, .dial = { 0, 9, 4 } };

  *first = *last = -1;
  hw_draw_dial (sheet.cr, sheet.layout, &machine, 4, low, high, 10, 10, upright ? 30 : 100, upright ? 100 : 30,
                &hw_inks_print);
  for (int i = 22; i < 98; i++)
    {
      guint32 pixel = upright ? get_pixel (&sheet, 36, i) : get_pixel (&sheet, i, 19);

      if (pixel == BACKGROUND || pixel == 0xffffff)
        continue;
      *first = *first < 0 ? i : *first;
      *last = i;
    }
}

/* A person reads the numbers off the tint: it is as wide as the words say, and where they say nothing there is none. */
static void
test_band_is_as_printed (gconstpointer data)
{
  gboolean upright = GPOINTER_TO_INT (data);
  int from_2, to_4, from_3, to_6, none, same;

  find_band (2, 4, upright, &from_2, &to_4);
  find_band (3, 6, upright, &from_3, &to_6);
  find_band (4, 4, upright, &none, &same);
  g_assert_cmpint (none, ==, -1);
  g_assert_cmpint (same, ==, -1);
  /* Three numbers are half as wide again as two; a line is a pixel or so at either end. */
  g_assert_cmpfloat_with_epsilon ((to_6 - from_3 - 1) * 2 / 3.0, to_4 - from_2 - 1, 1.0);
  g_assert_cmpfloat_with_epsilon (upright ? to_4 - to_6 : from_3 - from_2, (to_4 - from_2 - 1) / 2.0, 1.0);
}

/* ---- small motifs ---- */

static void
test_gauge_width (void)
{
  g_auto (Sheet) sheet = sheet_new ();

  /* Ten stitches of 2.5 mm are 25 mm; an inch has 72 points and 25.4 mm. */
  g_assert_cmpfloat_with_epsilon (hw_draw_gauge (sheet.cr, 2.5, 11, TRUE, 20, 40, 12, &hw_inks_print), 25 * 72 / 25.4,
                                  1e-9);
  g_assert_cmpint (count_marks (&sheet, 0, 0, 19, SIZE), ==, 0);
  g_assert_cmpint (count_marks (&sheet, 0, 53, SIZE, SIZE - 53), ==, 0);
}

static void
test_needle_solid_and_outline (void)
{
  g_auto (Sheet) solid = sheet_new ();
  g_auto (Sheet) outline = sheet_new ();

  hw_draw_needle (solid.cr, TRUE, 50, 30, 20, 60, &hw_inks_print);
  hw_draw_needle (outline.cr, FALSE, 50, 30, 20, 60, &hw_inks_print);
  assert_within (&solid);
  assert_within (&outline);
  g_assert_cmpint (count_dark (&solid, 20, 30, 80, 60), >, count_dark (&outline, 20, 30, 80, 60) * 3 / 2);
}

static void
test_cross_stitch (void)
{
  g_auto (Sheet) sewn = sheet_new ();
  g_auto (Sheet) open = sheet_new ();

  hw_draw_cross_stitch (sewn.cr, TRUE, 40, 40, 40, &hw_inks_print);
  hw_draw_cross_stitch (open.cr, FALSE, 40, 40, 40, &hw_inks_print);
  assert_within (&sewn);
  assert_within (&open);
  g_assert_cmpint (count_dark (&open, 46, 46, 28, 28), ==, 0);
  g_assert_cmpint (count_dark (&sewn, 46, 46, 28, 28), >, 100);
}

static void
test_letter (void)
{
  g_auto (Sheet) one = sheet_new ();
  g_auto (Sheet) two = sheet_new ();

  hw_draw_letter (one.cr, one.layout, "A", 30, 35, 50, &hw_inks_print);
  hw_draw_letter (two.cr, two.layout, "AB", 30, 35, 50, &hw_inks_print);
  assert_within (&one);
  assert_within (&two);
  g_assert_cmphex (get_pixel (&one, 55, 37), ==, 0);     /* the disc's rim is ink */
  g_assert_cmpuint (hash_sheet (&one), !=, hash_sheet (&two));
}

static void
test_cloth_by_construction (void)
{
  /* These have to differ at sight; the others may share a drawing. */
  static const char * const constructions[] = { "plain", "basket", "twill", "satin", "gauze", "velvet", "corduroy",
                                                "terry",
                                                "woollen", "single-jersey", "rib", "warp-knit", "net", "lace",
                                                "leather",
                                                "coated-woven", "tape", "elastic", "wadding" };
  guint hashes[G_N_ELEMENTS (constructions)];

  for (gsize i = 0; i < G_N_ELEMENTS (constructions); i++)
    {
      g_auto (Sheet) sheet = sheet_new ();
      g_auto (Sheet) again = sheet_new ();

      hw_draw_cloth (sheet.cr, HW_FAMILY_WOVEN, constructions[i], 30, 35, 50, &hw_inks_print);
      hw_draw_cloth (again.cr, HW_FAMILY_WOVEN, constructions[i], 30, 35, 50, &hw_inks_print);
      assert_within (&sheet);
      hashes[i] = hash_sheet (&sheet);
      g_assert_cmpuint (hashes[i], ==, hash_sheet (&again));
      for (gsize j = 0; j < i; j++)
        g_assert_cmpuint (hashes[i], !=, hashes[j]);
    }
}

static void
test_unknown_cloth_falls_back_on_its_family (void)
{
  g_auto (Sheet) unknown = sheet_new ();
  g_auto (Sheet) jersey = sheet_new ();

  hw_draw_cloth (unknown.cr, HW_FAMILY_KNIT, "own-knit", 30, 35, 50, &hw_inks_print);
  hw_draw_cloth (jersey.cr, HW_FAMILY_KNIT, "single-jersey", 30, 35, 50, &hw_inks_print);
  g_assert_cmpuint (hash_sheet (&unknown), ==, hash_sheet (&jersey));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/seam/across", test_seam_across_fills_its_place);
  g_test_add_func ("/drawing/seam/without-drawing", test_seam_without_drawing);
  g_test_add_func ("/drawing/seam/loops", test_loops_hang_on_the_slack_side);
  g_test_add_func ("/drawing/seam/out-of-range", test_balance_out_of_range);
  g_test_add_func ("/drawing/seam/edge", test_edge_balance);
  g_test_add_func ("/drawing/stitch-balance", test_stitch_balance);
  g_test_add_func ("/drawing/rows", test_every_row_is_its_own);
  g_test_add_func ("/drawing/dial/place", test_dials_stay_in_their_place);
  g_test_add_func ("/drawing/dial/pointer", test_pointer_moves_with_the_start);
  g_test_add_data_func ("/drawing/dial/band/flat", GINT_TO_POINTER (0), test_band_is_as_printed);
  g_test_add_data_func ("/drawing/dial/band/upright", GINT_TO_POINTER (1), test_band_is_as_printed);
  g_test_add_func ("/drawing/gauge", test_gauge_width);
  g_test_add_func ("/drawing/needle", test_needle_solid_and_outline);
  g_test_add_func ("/drawing/cross-stitch", test_cross_stitch);
  g_test_add_func ("/drawing/letter", test_letter);
  g_test_add_func ("/drawing/cloth/constructions", test_cloth_by_construction);
  g_test_add_func ("/drawing/cloth/family", test_unknown_cloth_falls_back_on_its_family);
  return g_test_run ();
}
