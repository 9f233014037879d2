/* test-small-drawings.c - drawings of care and columns of hours: each shows something, in its place, and differs
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/drawing.h"
#include "handbook/handbook.h"

#include <pango/pangocairo.h>
#include <string.h>

#define SIZE 200
#define MARGIN 20

typedef struct
{
  cairo_surface_t *surface;
  cairo_t         *cr;
} Paper;

static Paper
begin (void)
{
  Paper self = { cairo_image_surface_create (CAIRO_FORMAT_RGB24, SIZE, SIZE), NULL };

  self.cr = cairo_create (self.surface);
  cairo_set_source_rgb (self.cr, 1, 1, 1);
  cairo_paint (self.cr);
  return self;
}

static gboolean
is_inked (const Paper *self,
          int          x,
          int          y)
{
  guint32 pixel;

  memcpy (&pixel, cairo_image_surface_get_data (self->surface) + y * cairo_image_surface_get_stride (self->surface)
                  + x * 4, sizeof pixel);
  return (pixel & 0xffffff) != 0xffffff;
}

static guint
count_ink (const Paper *self,
           int          left,
           int          top,
           int          right,
           int          bottom)
{
  guint n = 0;

  for (int y = top; y < bottom; y++)
    for (int x = left; x < right; x++)
      n += is_inked (self, x, y) ? 1 : 0;
  return n;
}

static void
finish (Paper *self)
{
  g_assert_cmpint (cairo_status (self->cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_surface_flush (self->surface);
}

static void
clear (Paper *self)
{
  cairo_destroy (self->cr);
  cairo_surface_destroy (self->surface);
}

/* ---- care ---- */

static Paper
draw_care (const char *care)
{
  Paper paper = begin ();

  hw_draw_care (paper.cr, care, MARGIN, MARGIN, SIZE - 2 * MARGIN, SIZE - 2 * MARGIN, &hw_inks_print);
  finish (&paper);
  return paper;
}

static guint
count_different (const Paper *a,
                 const Paper *b)
{
  guint n = 0;

  for (int y = 0; y < SIZE; y++)
    for (int x = 0; x < SIZE; x++)
      n += is_inked (a, x, y) != is_inked (b, x, y) ? 1 : 0;
  return n;
}

/* What is done in one task is told from every other; a task of a person's own has the machine. */
static void
test_care (void)
{
  static const char * const tasks[] = {
    "dust", "deep-clean", "oil", "needle", "discs", "knives", "service", "plug", "a-task-of-ones-own",
  };
  Paper papers[G_N_ELEMENTS (tasks)];

  for (gsize i = 0; i < G_N_ELEMENTS (tasks); i++)
    {
      guint all;

      papers[i] = draw_care (tasks[i]);
      all = count_ink (&papers[i], 0, 0, SIZE, SIZE);
      g_test_message ("%s: %u", tasks[i], all);
      g_assert_cmpuint (all, >, 300);
      g_assert_cmpuint (all, ==, count_ink (&papers[i], MARGIN, MARGIN, SIZE - MARGIN, SIZE - MARGIN));
      for (gsize j = 0; j < i; j++)
        g_assert_cmpuint (count_different (&papers[i], &papers[j]), >, 300);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (tasks); i++)
    clear (&papers[i]);
}

/* Each task of the handbook is drawn as itself, not as any machine. */
static void
test_every_task (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "handbook", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwHandbook) handbook = hw_handbook_load (folder, &error);
  Paper other = draw_care ("a-task-of-ones-own");

  g_assert_no_error (error);
  for (gsize i = 0; i < handbook->n_care; i++)
    {
      Paper paper = draw_care (handbook->care[i].entry.id);

      g_test_message ("%s", handbook->care[i].entry.id);
      g_assert_cmpuint (count_different (&paper, &other), >, 300);
      clear (&paper);
    }
  clear (&other);
}

/* ---- columns ---- */

static Paper
draw_chart (const HwChart *chart)
{
  Paper paper = begin ();
  PangoLayout *layout = pango_cairo_create_layout (paper.cr);

  hw_draw_chart (paper.cr, layout, chart, 0, 0, SIZE, SIZE, &hw_inks_print);
  g_object_unref (layout);
  finish (&paper);
  return paper;
}

/* The longest run of ink from top to bottom at @x. */
static int
measure_run (const Paper *self,
             int          x)
{
  int longest = 0;
  int run = 0;

  for (int y = 0; y < SIZE; y++)
    {
      run = is_inked (self, x, y) ? run + 1 : 0;
      longest = MAX (longest, run);
    }
  return longest;
}

/* Heights of the columns from left to right: what is wider than a letter and filled. */
static guint
measure_columns (const Paper *self,
                 int         *heights,
                 guint        most)
{
  guint n = 0;
  int width = 0;

  for (int x = 0; x <= SIZE; x++)
    {
      int run = x < SIZE ? measure_run (self, x) : 0;

      if (run >= 15)
        width++;
      else
        width = 0;
      if (width == 12 && n < most)
        heights[n++] = measure_run (self, x - 4);
    }
  return n;
}

/* Columns as high as their hours, whatever the scale is; where there are none, no column. */
static void
test_chart (void)
{
  static const char * const labels[] = { "W1", "W2", "W3", "W4" };
  static const double scales[] = { 0.25, 1, 2.2, 30, 400 };

  for (gsize s = 0; s < G_N_ELEMENTS (scales); s++)
    {
      const double hours[] = { 4 * scales[s], 2 * scales[s], 0, scales[s] };
      const HwChart chart = { 4, 1, hours, labels };
      Paper paper = draw_chart (&chart);
      int heights[8] = { 0 };
      guint n = measure_columns (&paper, heights, G_N_ELEMENTS (heights));

      g_test_message ("%u columns: %d %d %d", n, heights[0], heights[1], heights[2]);
      g_assert_cmpuint (n, ==, 3);
      g_assert_cmpint (heights[0], <=, SIZE);
      g_assert_cmpint (ABS (heights[0] - 2 * heights[1]), <=, 4);
      g_assert_cmpint (ABS (heights[1] - 2 * heights[2]), <=, 4);
      clear (&paper);
    }
}

/* No hours at all: the axis stands, and nothing above it. */
static void
test_empty_chart (void)
{
  const HwChart none = { 0, 0, NULL, NULL };
  Paper paper = draw_chart (&none);

  g_assert_cmpuint (count_ink (&paper, 0, 0, SIZE, SIZE), >, 50);
  clear (&paper);
}

/* Six parts that are told from each other without any colour. */
static void
test_hatching (void)
{
  Paper papers[6];

  for (gsize part = 0; part < G_N_ELEMENTS (papers); part++)
    {
      papers[part] = begin ();
      hw_draw_hatching (papers[part].cr, part, MARGIN, MARGIN, 100, 60, &hw_inks_print);
      finish (&papers[part]);
      g_assert_cmpuint (count_ink (&papers[part], 0, 0, SIZE, SIZE), ==,
                        count_ink (&papers[part], MARGIN, MARGIN, MARGIN + 100, MARGIN + 60));
      for (gsize i = 0; i < part; i++)
        g_assert_cmpuint (count_different (&papers[i], &papers[part]), >, 300);
    }
  for (gsize part = 0; part < G_N_ELEMENTS (papers); part++)
    clear (&papers[part]);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/small-drawings/care", test_care);
  g_test_add_func ("/small-drawings/care/every-task", test_every_task);
  g_test_add_func ("/small-drawings/chart", test_chart);
  g_test_add_func ("/small-drawings/chart/empty", test_empty_chart);
  g_test_add_func ("/small-drawings/hatching", test_hatching);
  return g_test_run ();
}
