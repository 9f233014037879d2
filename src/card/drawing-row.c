/* drawing-row.c - a row of stitches as it lies on the cloth, seen from above
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/drawing-private.h"

#include <math.h>

/* A row drawn in a box of @width by @height, centred on y = 0, with a thread @thread thick. */
typedef struct
{
  cairo_t *cr;
  double   width, height, thread;
} Row;

typedef void (* RowFunc) (const Row *row);

static void
trace_dashes (const Row *row,
              double     y,
              double     dash,
              double     space)
{
  int n = (int) MAX (1, round ((row->width + space) / (dash + space)));
  double pitch = (row->width + space) / n;

  for (int i = 0; i < n; i++)
    hw_line (row->cr, i * pitch, y, i * pitch + pitch - space, y);
}

static void
draw_straight (const Row *row)
{
  trace_dashes (row, 0, row->thread * 4.4, row->thread * 2.4);
  cairo_stroke (row->cr);
}

static void
draw_twin (const Row *row)
{
  double apart = row->height * 0.22;

  trace_dashes (row, -apart, row->thread * 4.4, row->thread * 2.4);
  trace_dashes (row, apart, row->thread * 4.4, row->thread * 2.4);
  cairo_stroke (row->cr);
}

static void
trace_zigzag (const Row *row,
              double     x1,
              double     x2,
              double     half,
              double     leg)
{
  int n = (int) MAX (1, round ((x2 - x1) / leg));

  for (int i = 0; i <= n; i++)
    cairo_line_to (row->cr, x1 + (x2 - x1) * i / n, i % 2 == 0 ? half : -half);
}

static void
draw_zigzag (const Row *row)
{
  trace_zigzag (row, 0, row->width, row->height * 0.34, row->height * 0.42);
  cairo_stroke (row->cr);
}

/* Each leg of the zigzag is three stitches. */
static void
draw_multi_step (const Row *row)
{
  double half = row->height * 0.34;
  int n = (int) MAX (1, round (row->width / (row->height * 0.7)));
  double leg = row->width / n;

  for (int i = 0; i < n; i++)
    for (int part = 0; part < 3; part++)
      {
        double sign = i % 2 == 0 ? -1 : 1;
        double from = part / 3.0 + 0.05;
        double to = (part + 1) / 3.0 - 0.05;

        hw_line (row->cr, (i + from) * leg, -sign * half + sign * 2 * half * from,
                 (i + to) * leg, -sign * half + sign * 2 * half * to);
      }
  cairo_stroke (row->cr);
}

/* Straight on the hem, then one swing over to catch the fold. */
static void
draw_blind (const Row *row)
{
  double y = row->height * 0.24;
  int n = (int) MAX (1, round (row->width / (row->height * 1.7)));
  double pitch = row->width / n;

  for (int i = 0; i < n; i++)
    {
      double x = i * pitch;

      for (int part = 0; part < 4; part++)
        hw_line (row->cr, x + pitch * (part * 0.18), y, x + pitch * (part * 0.18 + 0.12), y);
      cairo_move_to (row->cr, x + pitch * 0.72, y);
      cairo_line_to (row->cr, x + pitch * 0.85, -y * 1.4);
      cairo_line_to (row->cr, x + pitch * 0.97, y);
    }
  cairo_stroke (row->cr);
}

/* Two forward, one back: three threads side by side in every stitch. */
static void
draw_stretch (const Row *row)
{
  double space = row->thread * 1.8;
  int n = (int) MAX (1, round (row->width / (row->thread * 8)));
  double pitch = row->width / n;

  cairo_set_line_width (row->cr, row->thread * 0.6);
  for (int i = 0; i < n; i++)
    for (int thread = -1; thread <= 1; thread++)
      {
        cairo_move_to (row->cr, i * pitch, 0);
        cairo_curve_to (row->cr, i * pitch + space, thread * row->thread * 1.5, (i + 1) * pitch - space,
                        thread * row->thread * 1.5, (i + 1) * pitch, 0);
      }
  cairo_stroke (row->cr);
}

static void
draw_satin (const Row *row)
{
  trace_zigzag (row, 0, row->width, row->height * 0.3, row->thread * 1.1);
  cairo_stroke (row->cr);
}

static void
draw_buttonhole (const Row *row)
{
  double length = MIN (row->width, row->height * 2.6);
  double left = (row->width - length) / 2;
  double bead = row->height * 0.15;
  double leg = row->thread * 1.1;

  cairo_set_line_width (row->cr, row->thread * 0.7);
  for (int side = -1; side <= 1; side += 2)
    {
      cairo_save (row->cr);
      cairo_translate (row->cr, 0, side * row->height * 0.22);
      cairo_new_sub_path (row->cr);
      trace_zigzag (row, left, left + length, bead, leg);
      cairo_restore (row->cr);
    }
  for (int end = 0; end <= 1; end++)
    {
      double at = end == 0 ? left : left + length - leg * 4;

      cairo_new_sub_path (row->cr);
      trace_zigzag (row, at, at + leg * 4, row->height * 0.37, leg);
    }
  hw_line (row->cr, left + leg * 6, 0, left + length - leg * 6, 0);
  cairo_stroke (row->cr);
}

static void
draw_bar_tack (const Row *row)
{
  double length = MIN (row->width * 0.8, row->height * 2);
  double left = (row->width - length) / 2;

  cairo_new_sub_path (row->cr);
  trace_zigzag (row, left, left + length, row->height * 0.2, row->thread * 1.1);
  cairo_stroke (row->cr);
}

/* A needle row, and loopers from it to the cut edge and back. */
static void
draw_overlock (const Row *row)
{
  double needle = -row->height * 0.28;
  double edge = row->height * 0.3;
  int n = (int) MAX (2, round (row->width / (row->height * 0.5)));
  double pitch = row->width / n;

  trace_dashes (row, needle, pitch * 0.72, pitch * 0.28);
  cairo_stroke (row->cr);
  cairo_set_line_width (row->cr, row->thread * 0.55);
  hw_line (row->cr, 0, edge, row->width, edge);
  cairo_stroke (row->cr);
  cairo_set_line_width (row->cr, row->thread * 0.75);
  for (int i = 0; i < n; i++)
    {
      double x = i * pitch;

      cairo_move_to (row->cr, x, needle);
      cairo_line_to (row->cr, x + pitch * 0.3, edge);
      cairo_curve_to (row->cr, x + pitch * 0.4, edge + row->height * 0.12, x + pitch * 0.6, edge + row->height * 0.12,
                      x + pitch * 0.7, edge);
      cairo_line_to (row->cr, x + pitch, needle);
    }
  cairo_stroke (row->cr);
}

static void
draw_cover (const Row *row)
{
  double apart = row->height * 0.26;
  double dash = row->thread * 4.4;
  double space = row->thread * 2.4;

  trace_dashes (row, -apart, dash, space);
  trace_dashes (row, apart, dash, space);
  cairo_stroke (row->cr);
  /* The looper thread lies underneath: thinner. */
  cairo_set_line_width (row->cr, row->thread * 0.45);
  cairo_new_sub_path (row->cr);
  trace_zigzag (row, 0, row->width, apart, dash + space);
  cairo_stroke (row->cr);
}

static void
draw_chain (const Row *row)
{
  double link = row->height * 0.7;
  int n = (int) MAX (1, round (row->width / link));
  double pitch = row->width / n;

  cairo_set_line_width (row->cr, row->thread * 0.8);
  for (int i = 0; i < n; i++)
    {
      cairo_move_to (row->cr, i * pitch, 0);
      cairo_curve_to (row->cr, (i + 0.5) * pitch, -row->height * 0.34, (i + 1.2) * pitch, -row->height * 0.24,
                      (i + 1) * pitch + row->thread, 0);
      cairo_curve_to (row->cr, (i + 1.2) * pitch, row->height * 0.24, (i + 0.5) * pitch, row->height * 0.34, i * pitch,
                      0);
    }
  cairo_stroke (row->cr);
}

static const struct { const char *mark; RowFunc draw; } rows[] = {
  { "straight", draw_straight },
  { "twin", draw_twin },
  { "zigzag", draw_zigzag },
  { "multi-step", draw_multi_step },
  { "blind", draw_blind },
  { "stretch", draw_stretch },
  { "satin", draw_satin },
  { "buttonhole", draw_buttonhole },
  { "bar-tack", draw_bar_tack },
  { "overlock", draw_overlock },
  { "cover", draw_cover },
  { "chain", draw_chain },
};

void
hw_draw_stitch_row (cairo_t      *cr,
                    const char   *mark,
                    double        x,
                    double        y,
                    double        width,
                    double        height,
                    const HwInks *inks)
{
  Row row = { cr, width, height, CLAMP (height * 0.08, 0.7, 2.4) };
  RowFunc draw = draw_straight;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    if (g_strcmp0 (rows[i].mark, mark) == 0)
      draw = rows[i].draw;

  cairo_save (cr);
  cairo_rectangle (cr, x, y, width, height);
  cairo_clip (cr);
  cairo_translate (cr, x, y + height / 2);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_width (cr, row.thread);
  hw_use_ink (cr, &inks->ink);
  cairo_new_path (cr);
  draw (&row);
  cairo_restore (cr);
}
