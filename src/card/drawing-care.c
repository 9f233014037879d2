/* drawing-care.c - a picture of each care task, and of the plug that is pulled before most of them
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Drawn in a box of 100 by 60 that is fitted into what is given.
 */

#include "config.h"

#include "card/drawing-private.h"

#include <math.h>
#include <string.h>

#define BOX_WIDTH 100.0
#define BOX_HEIGHT 60.0

typedef struct
{
  cairo_t      *cr;
  const HwInks *inks;
} Pen;

static void
stroke (const Pen *pen,
        double     width)
{
  hw_use_ink (pen->cr, &pen->inks->ink);
  cairo_set_line_width (pen->cr, width);
  cairo_stroke (pen->cr);
}

static void
fill_paper (const Pen *pen)
{
  hw_use_ink (pen->cr, &pen->inks->paper);
  cairo_fill_preserve (pen->cr);
}

static void
circle (const Pen *pen,
        double     x,
        double     y,
        double     radius)
{
  cairo_new_sub_path (pen->cr);
  cairo_arc (pen->cr, x, y, radius, 0, 2 * G_PI);
}

/* A brush whose bristles touch (x, y), its handle rising to the right. */
static void
draw_brush (const Pen *pen,
            double     x,
            double     y)
{
  cairo_save (pen->cr);
  cairo_translate (pen->cr, x, y);
  cairo_rotate (pen->cr, G_PI / 5);
  for (int i = -3; i <= 3; i++)
    hw_line (pen->cr, i * 1.1, -12, i * 1.7, 0);
  stroke (pen, 0.8);
  hw_round_rectangle (pen->cr, -4, -18, 8, 6.5, 1.2);
  hw_use_ink (pen->cr, &pen->inks->ink);
  cairo_fill (pen->cr);
  hw_round_rectangle (pen->cr, -2, -42, 4, 25, 2);
  fill_paper (pen);
  stroke (pen, 1.2);
  cairo_restore (pen->cr);
}

/* The hook seen from the front, its point at the top left, the bobbin in the middle. */
static void
draw_hook (const Pen *pen,
           double     x,
           double     y,
           double     radius)
{
  circle (pen, x, y, radius);
  fill_paper (pen);
  stroke (pen, 1.6);
  cairo_arc (pen->cr, x, y, radius * 0.76, -G_PI * 0.82, G_PI * 0.62);
  stroke (pen, 1.6);
  circle (pen, x, y, radius * 0.42);
  stroke (pen, 1.2);
  circle (pen, x, y, radius * 0.1);
  stroke (pen, 1.2);
}

static void
draw_fluff (const Pen *pen,
            double     x,
            double     y)
{
  cairo_move_to (pen->cr, x - 4, y + 1);
  cairo_curve_to (pen->cr, x - 3, y - 4, x + 1, y + 3, x + 2, y - 2);
  cairo_curve_to (pen->cr, x + 4, y - 4, x + 5, y + 3, x + 1, y + 2);
  stroke (pen, 0.8);
}

static void
draw_dust (const Pen *pen)
{
  draw_hook (pen, 38, 31, 23);
  draw_brush (pen, 57, 36);
  draw_fluff (pen, 68, 47);
  draw_fluff (pen, 80, 52);
  draw_fluff (pen, 62, 54);
}

/* A machine from the side: bed, pillar, arm and head. */
static void
trace_machine (const Pen *pen)
{
  cairo_t *cr = pen->cr;

  cairo_move_to (cr, 12, 52);
  cairo_line_to (cr, 88, 52);
  cairo_line_to (cr, 88, 14);
  cairo_curve_to (cr, 88, 9, 86, 8, 82, 8);
  cairo_line_to (cr, 22, 8);
  cairo_curve_to (cr, 17, 8, 16, 10, 16, 14);
  cairo_line_to (cr, 16, 32);
  cairo_line_to (cr, 28, 32);
  cairo_line_to (cr, 28, 22);
  cairo_line_to (cr, 68, 22);
  cairo_line_to (cr, 68, 43);
  cairo_line_to (cr, 12, 43);
  cairo_close_path (cr);
}

static void
draw_machine (const Pen *pen)
{
  trace_machine (pen);
  fill_paper (pen);
  stroke (pen, 1.6);
  hw_line (pen->cr, 22, 32, 22, 43);
  stroke (pen, 1.2);
}

static void
draw_deep_clean (const Pen *pen)
{
  draw_machine (pen);
  /* the cover of the head, open, and the cloth on the bed */
  cairo_move_to (pen->cr, 16, 12);
  cairo_line_to (pen->cr, 4, 17);
  cairo_line_to (pen->cr, 4, 36);
  cairo_line_to (pen->cr, 16, 31);
  stroke (pen, 1.2);
  cairo_move_to (pen->cr, 36, 43);
  cairo_curve_to (pen->cr, 38, 35, 44, 40, 47, 37);
  cairo_curve_to (pen->cr, 51, 33, 56, 38, 58, 43);
  cairo_close_path (pen->cr);
  fill_paper (pen);
  stroke (pen, 1.2);
  draw_brush (pen, 30, 20);
}

static void
draw_oil (const Pen *pen)
{
  cairo_t *cr = pen->cr;

  hw_round_rectangle (cr, 10, 42, 80, 9, 3);
  fill_paper (pen);
  stroke (pen, 1.6);
  circle (pen, 50, 42, 4);
  fill_paper (pen);
  stroke (pen, 1.2);
  cairo_move_to (cr, 50, 22);
  cairo_curve_to (cr, 52, 27, 54, 29, 54, 32);
  cairo_arc (cr, 50, 32, 4, 0, G_PI);
  cairo_curve_to (cr, 46, 29, 48, 27, 50, 22);
  cairo_close_path (cr);
  hw_use_ink (cr, &pen->inks->ink);
  cairo_fill (cr);
  /* the spout */
  cairo_move_to (cr, 50, 18);
  cairo_line_to (cr, 64, 7);
  cairo_line_to (cr, 84, 5);
  cairo_line_to (cr, 86, 17);
  cairo_line_to (cr, 66, 13);
  cairo_close_path (cr);
  fill_paper (pen);
  stroke (pen, 1.2);
}

static void
draw_new_needle (const Pen *pen)
{
  cairo_t *cr = pen->cr;

  /* the clamp, the needle in it, the arrow that says fully up */
  hw_round_rectangle (cr, 38, 4, 24, 13, 2);
  fill_paper (pen);
  stroke (pen, 1.6);
  hw_round_rectangle (cr, 62, 8, 12, 5, 2);
  stroke (pen, 1.2);
  hw_draw_needle (cr, TRUE, 44, 14, 12, 44, pen->inks);
  hw_line (cr, 28, 44, 28, 22);
  hw_line (cr, 23, 28, 28, 22);
  hw_line (cr, 33, 28, 28, 22);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  stroke (pen, 1.8);
}

static void
draw_discs (const Pen *pen)
{
  cairo_t *cr = pen->cr;

  for (int side = -1; side <= 1; side += 2)
    {
      cairo_move_to (cr, 50 + side * 3, 8);
      cairo_curve_to (cr, 50 + side * 15, 14, 50 + side * 15, 46, 50 + side * 3, 52);
      cairo_curve_to (cr, 50 + side * 7, 44, 50 + side * 7, 16, 50 + side * 3, 8);
      fill_paper (pen);
      stroke (pen, 1.6);
    }
  /* the strip of cloth drawn through */
  cairo_move_to (cr, 47, 2);
  cairo_line_to (cr, 53, 2);
  cairo_line_to (cr, 53, 58);
  cairo_line_to (cr, 47, 58);
  cairo_close_path (cr);
  fill_paper (pen);
  stroke (pen, 0.9);
  for (int y = 6; y < 58; y += 5)
    hw_line (cr, 47, y, 53, y);
  stroke (pen, 0.5);
  hw_line (cr, 50, 30, 50, 48);
  hw_line (cr, 47.5, 44, 50, 48);
  hw_line (cr, 52.5, 44, 50, 48);
  stroke (pen, 1.4);
}

static void
draw_knives (const Pen *pen)
{
  cairo_t *cr = pen->cr;

  cairo_move_to (cr, 22, 6);
  cairo_line_to (cr, 44, 6);
  cairo_line_to (cr, 44, 28);
  cairo_line_to (cr, 22, 34);
  cairo_close_path (cr);
  fill_paper (pen);
  stroke (pen, 1.6);
  cairo_move_to (cr, 40, 54);
  cairo_line_to (cr, 18, 54);
  cairo_line_to (cr, 18, 40);
  cairo_line_to (cr, 40, 34);
  cairo_close_path (cr);
  fill_paper (pen);
  stroke (pen, 1.6);
  draw_brush (pen, 56, 34);
  draw_fluff (pen, 66, 46);
  draw_fluff (pen, 78, 51);
}

static void
draw_service (const Pen *pen)
{
  cairo_t *cr = pen->cr;

  draw_machine (pen);
  /* a screwdriver across it, in other hands than the owner's */
  cairo_save (cr);
  cairo_translate (cr, 48, 31);
  cairo_rotate (cr, G_PI / 4);
  hw_round_rectangle (cr, -3.4, -26, 6.8, 20, 2.4);
  fill_paper (pen);
  stroke (pen, 1.4);
  hw_round_rectangle (cr, -1, -6, 2, 22, 0.4);
  hw_use_ink (cr, &pen->inks->ink);
  cairo_fill (cr);
  cairo_restore (cr);
}

/* A plug drawn out of its socket. */
static void
draw_plug (const Pen *pen)
{
  cairo_t *cr = pen->cr;

  hw_round_rectangle (cr, 8, 12, 18, 36, 4);
  fill_paper (pen);
  stroke (pen, 1.6);
  circle (pen, 17, 24, 2.2);
  circle (pen, 17, 36, 2.2);
  hw_use_ink (cr, &pen->inks->ink);
  cairo_fill (cr);
  hw_line (cr, 40, 24, 52, 24);
  hw_line (cr, 40, 36, 52, 36);
  stroke (pen, 2.4);
  cairo_move_to (cr, 52, 16);
  cairo_line_to (cr, 66, 20);
  cairo_line_to (cr, 66, 40);
  cairo_line_to (cr, 52, 44);
  cairo_close_path (cr);
  fill_paper (pen);
  stroke (pen, 1.6);
  cairo_move_to (cr, 66, 30);
  cairo_curve_to (cr, 80, 30, 78, 46, 94, 44);
  stroke (pen, 2);
}

static const struct
{
  const char *care;
  void     (* draw) (const Pen *pen);
} pictures[] = {
  { "dust", draw_dust },
  { "deep-clean", draw_deep_clean },
  { "oil", draw_oil },
  { "needle", draw_new_needle },
  { "discs", draw_discs },
  { "knives", draw_knives },
  { "service", draw_service },
  { "plug", draw_plug },
};

void
hw_draw_care (cairo_t      *cr,
              const char   *care,
              double        x,
              double        y,
              double        width,
              double        height,
              const HwInks *inks)
{
  double scale = MIN (width / BOX_WIDTH, height / BOX_HEIGHT);
  const Pen pen = { cr, inks };
  void (* draw) (const Pen *) = draw_machine;

  for (gsize i = 0; i < G_N_ELEMENTS (pictures); i++)
    if (g_strcmp0 (pictures[i].care, care) == 0)
      draw = pictures[i].draw;
  cairo_save (cr);
  cairo_translate (cr, x + (width - BOX_WIDTH * scale) / 2, y + (height - BOX_HEIGHT * scale) / 2);
  cairo_scale (cr, scale, scale);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_new_path (cr);
  draw (&pen);
  cairo_restore (cr);
}
