/* drawing-seam.c - a seam cut across, and a seam along the row
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Across: the handbook's polylines, plies as lines and each row of stitches as a dashed mark. Along: the plies
 * from the side, the needle thread a solid line and the bobbin thread an open one, locked where the balance
 * puts them. An overlocked edge has its own picture, for its threads lock at the edge of the cloth.
 */

#include "config.h"

#include "card/drawing-private.h"

#include <math.h>

#define PLY_UNITS 3.2             /* of a drawing 100 wide: a line a little thinner than the ply it stands for */
#define STITCH_UNITS 2.0
#define APART_UNITS 6.0           /* one ply from the next */
#define MIDDLE 30.0               /* of the drawing's height, about which plies are stacked */
#define MOST_STACKED 7            /* what its height has room for */

typedef struct { double x1, y1, x2, y2; } Extent;

static void
extend (Extent *extent,
        double  x,
        double  y)
{
  extent->x1 = MIN (extent->x1, x);
  extent->y1 = MIN (extent->y1, y);
  extent->x2 = MAX (extent->x2, x);
  extent->y2 = MAX (extent->y2, y);
}

static int
count_stacked (const HwSeam *seam,
               guint         layers)
{
  return seam->stacked ? (int) CLAMP (layers, 1, MOST_STACKED) : 1;
}

/* A row passes through the whole stack: its ends move apart as the stack grows. */
static double
move_end (double y,
          int    n_stacked)
{
  double half = (n_stacked - 1) * APART_UNITS / 2;

  return y < MIDDLE ? y - half : y > MIDDLE ? y + half : y;
}

static Extent
measure_seam (const HwSeam *seam,
              int           n_stacked)
{
  Extent extent = { INFINITY, INFINITY, -INFINITY, -INFINITY };

  for (gsize i = 0; i < seam->n_plies; i++)
    for (gsize j = 0; j < seam->plies[i].n_points; j++)
      extend (&extent, seam->plies[i].xy[2 * j], seam->plies[i].xy[2 * j + 1]);
  for (gsize i = 0; i < seam->n_stitches; i++)
    {
      extend (&extent, seam->stitches[i].x1, move_end (seam->stitches[i].y1, n_stacked));
      extend (&extent, seam->stitches[i].x2, move_end (seam->stitches[i].y2, n_stacked));
    }
  return extent;
}

static void
draw_polyline (cairo_t          *cr,
               const HwPolyline *line,
               double            down)
{
  cairo_new_path (cr);
  for (gsize i = 0; i < line->n_points; i++)
    cairo_line_to (cr, line->xy[2 * i], line->xy[2 * i + 1] + down);
  cairo_stroke (cr);
}

/* A white edge under the dashes keeps them apart from the plies, in print as well. */
static void
draw_row_mark (cairo_t            *cr,
               const HwSeamStitch *stitch,
               int                 n_stacked,
               double              width,
               const HwInks       *inks)
{
  double y1 = move_end (stitch->y1, n_stacked);
  double y2 = move_end (stitch->y2, n_stacked);
  double dashes[2] = { width * 2.1, width * 1.3 };
  double length = hypot (stitch->x2 - stitch->x1, y2 - y1);

  cairo_new_path (cr);
  hw_line (cr, stitch->x1, y1, stitch->x2, y2);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_width (cr, width * 2.4);
  hw_use_ink (cr, &inks->paper);
  cairo_stroke_preserve (cr);
  /* Starts and ends on a dash. */
  if (length > dashes[0] * 2)
    {
      double n = MAX (1, round ((length - dashes[0]) / (dashes[0] + dashes[1])));

      dashes[1] = (length - dashes[0]) / n - dashes[0];
      cairo_set_dash (cr, dashes, 2, 0);
    }
  cairo_set_line_width (cr, width);
  hw_use_ink (cr, &inks->stitch);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

void
hw_draw_seam_across (cairo_t      *cr,
                     const HwSeam *seam,
                     guint         layers,
                     double        x,
                     double        y,
                     double        width,
                     double        height,
                     const HwInks *inks)
{
  int    n_stacked = count_stacked (seam, layers);
  Extent extent = measure_seam (seam, n_stacked);
  double room_x = extent.x2 - extent.x1 + PLY_UNITS * 2;
  double room_y = extent.y2 - extent.y1 + PLY_UNITS * 2;
  /* One scale for most drawings, so that a ply is as thick in one as in the next. */
  double scale = MIN (MIN (width / room_x, height / room_y), 1.35 * MIN (width / 100, height / 60));
  double ply;
  double stitch;

  if (seam->n_plies == 0 || !isfinite (scale) || scale <= 0)
    return;

  ply = MAX (PLY_UNITS, 0.9 / scale);
  stitch = MAX (STITCH_UNITS, 0.9 / scale);
  cairo_save (cr);
  cairo_translate (cr, x + width / 2, y + height / 2);
  cairo_scale (cr, scale, scale);
  cairo_translate (cr, -(extent.x1 + extent.x2) / 2, -(extent.y1 + extent.y2) / 2);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_width (cr, ply);
  hw_use_ink (cr, &inks->ink);
  for (int k = 0; k < n_stacked; k++)
    for (gsize i = 0; i < seam->n_plies; i++)
      draw_polyline (cr, &seam->plies[i], (k - (n_stacked - 1) / 2.0) * APART_UNITS);
  for (gsize i = 0; i < seam->n_stitches; i++)
    draw_row_mark (cr, &seam->stitches[i], n_stacked, stitch, inks);
  cairo_restore (cr);
}

/* ---- along ---- */

typedef struct
{
  double x, pitch, half;          /* first stitch, distance, half the width of the loop */
  int    n;
  double rest, turn;              /* where the thread lies, and where its loop turns */
  double bulge;                   /* a slack loop is wider at its turn */
} Thread;

/* One thread from end to end: along its side of the cloth, at every stitch into the hole, round and back. */
static void
trace_thread (cairo_t      *cr,
              const Thread *thread)
{
  double depth = thread->turn - thread->rest;
  double sign = depth < 0 ? -1 : 1;
  double corner = MIN (thread->half * 1.6, fabs (depth) * 0.4) * sign;
  double round = MIN (thread->half * 1.8, fabs (depth) * 0.5) * sign;
  double wide = thread->half + thread->bulge;

  cairo_new_path (cr);
  cairo_move_to (cr, thread->x - thread->pitch / 2, thread->rest);
  for (int i = 0; i < thread->n; i++)
    {
      double at = thread->x + i * thread->pitch;

      cairo_line_to (cr, at - thread->half * 2.2, thread->rest);
      cairo_curve_to (cr, at - thread->half, thread->rest, at - thread->half, thread->rest, at - thread->half,
                      thread->rest + corner);
      cairo_line_to (cr, at - thread->half, thread->turn - round);
      cairo_curve_to (cr, at - wide, thread->turn - round * 0.2, at - wide * 0.55, thread->turn, at, thread->turn);
      cairo_curve_to (cr, at + wide * 0.55, thread->turn, at + wide, thread->turn - round * 0.2, at + thread->half,
                      thread->turn - round);
      cairo_line_to (cr, at + thread->half, thread->rest + corner);
      cairo_curve_to (cr, at + thread->half, thread->rest, at + thread->half, thread->rest, at + thread->half * 2.2,
                      thread->rest);
    }
  cairo_line_to (cr, thread->x + (thread->n - 0.5) * thread->pitch, thread->rest);
}

static void
stroke_open (cairo_t      *cr,
             double        width,
             const HwInks *inks)
{
  cairo_set_line_width (cr, width);
  hw_use_ink (cr, &inks->ink);
  cairo_stroke_preserve (cr);
  cairo_set_line_width (cr, width * 0.5);
  hw_use_ink (cr, &inks->paper);
  cairo_stroke (cr);
}

static void
draw_plies (cairo_t      *cr,
            int           plies,
            double        x,
            double        top,
            double        width,
            double        bottom,
            const HwInks *inks)
{
  HwInk cloth = hw_mix_ink (&inks->paper, &inks->line, 0.22);
  double thickness = (bottom - top) / plies;

  cairo_rectangle (cr, x, top, width, bottom - top);
  hw_use_ink (cr, &cloth);
  cairo_fill (cr);
  hw_use_ink (cr, &inks->mute);
  cairo_set_line_width (cr, MIN (0.7, thickness * 0.15));
  for (int i = 0; i <= plies; i++)
    hw_line (cr, x, top + i * thickness, x + width, top + i * thickness);
  cairo_stroke (cr);
}

/* From @middle at balance 0 to @at_low at -1 and @at_high at 1. */
static double
shift (double balance,
       double at_low,
       double middle,
       double at_high)
{
  return balance < 0 ? middle + (at_low - middle) * -balance : middle + (at_high - middle) * balance;
}

void
hw_draw_seam_along (cairo_t      *cr,
                    int           plies,
                    double        balance,
                    double        x,
                    double        y,
                    double        width,
                    double        height,
                    const HwInks *inks)
{
  double b = CLAMP (balance, -1, 1);
  double needle = CLAMP (height * 0.06, 0.8, 3);
  double bobbin = needle * 1.9;
  double top = y + height * 0.27;
  double bottom = y + height * 0.71;
  double middle = (top + bottom) / 2;
  double gap = needle * 1.7;
  int n = (int) MAX (2, round (width / (height * 0.85)));
  double pitch = width / n;
  double half = MIN (needle * 1.35, pitch * 0.16);
  double above = top - needle * 0.6;
  double below = bottom + bobbin * 0.5;
  Thread over = { x + pitch / 2, pitch, half, n, above,
                  shift (b, below + gap * 2, middle + gap / 2, above), needle * 1.2 * MAX (0, -b) };
  Thread under = { x + pitch / 2, pitch, half, n, below,
                   shift (b, below, middle - gap / 2, above - gap * 1.5), needle * MAX (0, b) };

  cairo_save (cr);
  cairo_rectangle (cr, x, y, width, height);
  cairo_clip (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  draw_plies (cr, MAX (plies, 1), x, top, width, bottom, inks);

  trace_thread (cr, &under);
  stroke_open (cr, bobbin, inks);
  trace_thread (cr, &over);
  cairo_set_line_width (cr, needle);
  hw_use_ink (cr, &inks->ink);
  cairo_stroke (cr);

  /* Locked: on the right of each hole the bobbin thread lies over the needle thread. */
  for (int i = 0; i < n; i++)
    cairo_rectangle (cr, over.x + i * pitch, y, pitch * 0.25, height);
  cairo_clip (cr);
  trace_thread (cr, &under);
  stroke_open (cr, bobbin, inks);
  cairo_restore (cr);
}

/* ---- an overlocked edge ---- */

#define TRACK_POINTS 64

/* The way round the edge: along the top, round it, back underneath; @at 0 to 1. */
static void
follow_edge (double  hole,
             double  edge,
             double  above,
             double  below,
             double  at,
             double *x,
             double *y)
{
  double radius = (below - above) / 2;
  double straight = edge - hole;
  double turn = G_PI * radius * 0.75;           /* flattened: the loop hugs the edge */
  double way = at * (2 * straight + turn);

  if (way <= straight)
    {
      *x = hole + way;
      *y = above;
    }
  else if (way >= straight + turn)
    {
      *x = edge - (way - straight - turn);
      *y = below;
    }
  else
    {
      double angle = -G_PI / 2 + (way - straight) / turn * G_PI;

      *x = edge + radius * 0.5 * cos (angle);
      *y = (above + below) / 2 + radius * sin (angle);
    }
}

static void
trace_edge (cairo_t *cr,
            double   hole,
            double   edge,
            double   above,
            double   below,
            double   from,
            double   to)
{
  cairo_new_path (cr);
  for (int i = 0; i <= TRACK_POINTS; i++)
    {
      double x;
      double y;

      follow_edge (hole, edge, above, below, from + (to - from) * i / TRACK_POINTS, &x, &y);
      cairo_line_to (cr, x, y);
    }
}

/* The cut edge of overlocked plies, looked at along the row. */
void
hw_draw_edge_balance (cairo_t      *cr,
                      int           plies,
                      double        balance,
                      double        x,
                      double        y,
                      double        width,
                      double        height,
                      const HwInks *inks)
{
  double b = CLAMP (balance, -1, 1);
  double solid = CLAMP (height * 0.06, 0.8, 3);
  double open = solid * 1.9;
  double top = y + height * 0.26;
  double bottom = y + height * 0.74;
  double edge = x + width * 0.78;
  double hole = x + width * 0.3;
  double above = top - open * 0.6;
  double below = bottom + open * 0.6;
  /* Where the two looper threads meet: half way, or dragged round to one side. */
  double meet = 0.5 - b * 0.3;
  double meet_x;
  double meet_y;

  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  draw_plies (cr, MAX (plies, 1), x, top, edge - x, bottom, inks);

  trace_edge (cr, hole, edge, above, below, meet, 1);
  stroke_open (cr, open, inks);
  trace_edge (cr, hole, edge, above, below, 0, meet);
  cairo_set_line_width (cr, solid);
  hw_use_ink (cr, &inks->ink);
  cairo_stroke (cr);

  follow_edge (hole, edge, above, below, meet, &meet_x, &meet_y);
  cairo_arc (cr, meet_x, meet_y, solid * 1.25, 0, 2 * G_PI);
  cairo_fill (cr);
  /* The needle thread goes straight through. */
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  hw_line (cr, hole, above - solid, hole, below + solid);
  cairo_stroke (cr);
  cairo_restore (cr);
}
