/* drawing-fault-section.c - a faulty row of stitches cut along the row, or an open seam cut across
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/drawing-fault-private.h"

#include <math.h>
#include <string.h>

#define TOP 0.34                         /* upper and lower side of the cloth, of the height */
#define BOTTOM 0.66
#define STEP_TOP 0.12                    /* upper side of a crossing */

/* ---- the cloth along the row ---- */

static double
get_top (const HwFaultPane *self,
         double             x)
{
  double top = self->height * TOP;

  if (self->looks->cloth == HW_LOOKS_STEP)
    top = self->height * (x > self->pitch * 4.1 ? STEP_TOP + 0.16 : TOP + 0.06);
  return top + hw_fault_wave (self, x) * 1.2;
}

static double
get_bottom (const HwFaultPane *self,
            double             x)
{
  return self->height * (self->looks->cloth == HW_LOOKS_STEP ? 0.76 : BOTTOM) + hw_fault_wave (self, x) * 1.2;
}

typedef double (* SideFunc) (const HwFaultPane *self, double x);

static double
get_between (const HwFaultPane *self,
             double             x)
{
  return self->looks->cloth == HW_LOOKS_STEP ? self->height * 0.58
                                             : (get_top (self, x) + get_bottom (self, x)) / 2;
}

static void
trace_side (const HwFaultPane *self,
            SideFunc           side,
            double             end,
            gboolean           back)
{
  int n = self->n * 8;

  for (int i = 0; i <= n; i++)
    {
      double x = end * (back ? n - i : i) / n;

      cairo_line_to (self->cr, x, side (self, x));
    }
}

static void
draw_ply (const HwFaultPane *self,
          SideFunc           upper,
          SideFunc           lower,
          double             end)
{
  cairo_new_path (self->cr);
  trace_side (self, upper, end, FALSE);
  trace_side (self, lower, end, TRUE);
  cairo_close_path (self->cr);
  hw_fault_use_cloth (self);
  cairo_fill_preserve (self->cr);
  cairo_set_line_width (self->cr, MAX (0.6, self->thread * 0.28));
  hw_use_ink (self->cr, &self->inks->mute);
  cairo_stroke (self->cr);
}

static void
draw_plies (const HwFaultPane *self)
{
  gboolean crept = self->looks->cloth == HW_LOOKS_CREPT;

  draw_ply (self, get_top, get_between, crept ? self->width - self->pitch * 1.8 : self->width);
  draw_ply (self, get_between, get_bottom, crept ? self->width - self->pitch * 0.5 : self->width);
}

/* ---- the threads along the row ---- */

typedef struct { gboolean needle; } Path;          /* the needle thread, above; else the other, below */

static double
get_rest (const HwFaultPane *self,
          const Path        *path,
          double             x)
{
  return path->needle ? get_top (self, x) - self->thread * 0.5 : get_bottom (self, x) + self->thread * 0.5;
}

/* How deep the thread goes at @letter, as a share of the way to the cloth's other side; below 0 it does not go in. */
static double
get_depth (const Path *path,
           char        letter)
{
  switch (letter)
    {
    case 'v':
      return path->needle ? 1.45 : -1;
    case '^':
      return path->needle ? -1 : 1.35;
    case '@':
      return path->needle ? 1.1 : -1;
    case '.':
    case '_':
    case ',':
    case ';':
    case '/':
    case 'F':
      return -1;
    default:
      return 0.58;
    }
}

static gboolean
is_there (const Path *path,
          char        letter)
{
  return strchr (path->needle ? "_,/F" : "_;/F", letter) == NULL;
}

static void
trace_dip (const HwFaultPane *self,
           const Path        *path,
           double             x,
           double             depth,
           double             half)
{
  double rest = get_rest (self, path, x);
  double other = path->needle ? get_bottom (self, x) : get_top (self, x);
  double turn = rest + (other - rest) * depth;
  double bulge = depth > 1 ? half * 1.5 : half;

  cairo_line_to (self->cr, x - half * 2.1, get_rest (self, path, x - half * 2.1));
  cairo_curve_to (self->cr, x - half, rest, x - half, rest, x - half, rest + (turn - rest) * 0.3);
  cairo_curve_to (self->cr, x - half, rest + (turn - rest) * 0.7, x - bulge, turn, x, turn);
  cairo_curve_to (self->cr, x + bulge, turn, x + half, rest + (turn - rest) * 0.7, x + half,
                  rest + (turn - rest) * 0.3);
  cairo_curve_to (self->cr, x + half, rest, x + half, rest, x + half * 2.1,
                  get_rest (self, path, x + half * 2.1));
}

static void
trace_letter (const HwFaultPane *self,
              const Path        *path,
              int                index)
{
  double x = hw_fault_hole (self, index);
  char   letter = self->row[index];
  double depth = get_depth (path, letter);

  if (letter == 'w')
    for (int i = -1; i <= 1; i++)
      trace_dip (self, path, x + i * self->pitch * 0.34, depth, self->pitch * 0.06);
  else if (depth >= 0)
    trace_dip (self, path, x, depth, self->pitch * 0.11);
  for (int i = 1; i <= 4; i++)           /* along the waves to the next hole */
    if (x + self->pitch * (0.24 + i * 0.13) <= self->width)
      cairo_line_to (self->cr, x + self->pitch * (0.24 + i * 0.13),
                     get_rest (self, path, x + self->pitch * (0.24 + i * 0.13)));
}

/* A tail stands up (or hangs down) where the thread ends. */
static void
trace_tail (const HwFaultPane *self,
            const Path        *path,
            double             x)
{
  double rest = get_rest (self, path, x);
  double away = path->needle ? -self->height * 0.2 : self->height * 0.2;

  cairo_line_to (self->cr, x - self->pitch * 0.3, rest);
  cairo_curve_to (self->cr, x + self->pitch * 0.2, rest, x, rest + away, x + self->pitch * 0.5, rest + away * 0.9);
}

static void
draw_path (const HwFaultPane *self,
           const Path        *path)
{
  gboolean down = FALSE;
  char     end = path->needle ? 'n' : 'b';

  cairo_new_path (self->cr);
  for (int i = 0; i < self->n; i++)
    {
      double x = hw_fault_hole (self, i);

      if (!is_there (path, self->row[i]))
        {
          down = FALSE;
          continue;
        }
      if (!down)
        cairo_move_to (self->cr, i == 0 ? 0 : x - self->pitch * 0.3, get_rest (self, path, i == 0 ? 0 : x));
      down = TRUE;
      if (self->row[i] == end)
        trace_tail (self, path, x);
      else
        trace_letter (self, path, i);
    }
  hw_fault_thread (self, !path->needle);
}

/* ---- what stands in the picture besides ---- */

static void
draw_blade (const HwFaultPane *self,
            double             x,
            double             from,
            double             to,
            gboolean           point)
{
  double half = MAX (1.4, self->pitch * 0.09);

  cairo_new_path (self->cr);
  cairo_move_to (self->cr, x - half, from);
  cairo_line_to (self->cr, x + half, from + (point ? 0 : half * 1.2));
  cairo_line_to (self->cr, x + half, to - (point ? half * 4 : 0));
  cairo_line_to (self->cr, point ? x : x + half * 0.2, to);
  cairo_line_to (self->cr, x - half, to - (point ? half * 4 : half * 1.4));
  cairo_close_path (self->cr);
  hw_use_ink (self->cr, &self->inks->paper);
  cairo_fill_preserve (self->cr);
  cairo_set_line_width (self->cr, MAX (0.8, self->thread * 0.45));
  hw_use_ink (self->cr, &self->inks->ink);
  cairo_stroke (self->cr);
}

/* The point sticks in the cloth; the shank has come up crooked. */
static void
draw_broken_needle (const HwFaultPane *self,
                    double             x)
{
  draw_blade (self, x, self->height * 0.26, self->height * 0.88, TRUE);
  cairo_save (self->cr);
  cairo_translate (self->cr, x + self->pitch * 0.45, self->height * 0.22);
  cairo_rotate (self->cr, 0.3);
  draw_blade (self, 0, -self->height * 0.5, 0, FALSE);
  cairo_restore (self->cr);
}

static void
draw_sounding_needle (const HwFaultPane *self,
                      double             x)
{
  draw_blade (self, x, -self->height * 0.1, self->height * 0.86, TRUE);
  cairo_new_path (self->cr);
  for (int side = 0; side <= 1; side++)
    for (int i = 1; i <= 3; i++)
      {
        double middle = side == 0 ? 0 : G_PI;

        cairo_new_sub_path (self->cr);
        cairo_arc (self->cr, x, self->height * 0.2, self->pitch * (0.18 + i * 0.3), middle - 0.5, middle + 0.5);
      }
  cairo_set_line_width (self->cr, MAX (0.9, self->thread * 0.5));
  hw_use_ink (self->cr, &self->inks->ink);
  cairo_stroke (self->cr);
}

/* Toes up on the step, heel still below. */
static void
draw_foot (const HwFaultPane *self,
           double             x)
{
  double long_mm = self->pitch * 2.6;
  double thick = self->height * 0.07;

  cairo_save (self->cr);
  cairo_translate (self->cr, x - self->pitch * 1.4, get_top (self, x) - self->height * 0.05);
  cairo_rotate (self->cr, -0.2);
  cairo_new_path (self->cr);
  cairo_move_to (self->cr, -long_mm * 0.5, 0);
  cairo_line_to (self->cr, long_mm * 0.42, 0);
  cairo_curve_to (self->cr, long_mm * 0.5, 0, long_mm * 0.55, -thick, long_mm * 0.6, -thick * 2);
  cairo_line_to (self->cr, long_mm * 0.5, -thick * 1.9);
  cairo_line_to (self->cr, long_mm * 0.4, -thick);
  cairo_line_to (self->cr, long_mm * 0.06, -thick);
  cairo_line_to (self->cr, long_mm * 0.06, -self->height * 0.4);
  cairo_line_to (self->cr, -long_mm * 0.06, -self->height * 0.4);
  cairo_line_to (self->cr, -long_mm * 0.06, -thick);
  cairo_line_to (self->cr, -long_mm * 0.5, -thick);
  cairo_close_path (self->cr);
  hw_use_ink (self->cr, &self->inks->paper);
  cairo_fill_preserve (self->cr);
  cairo_set_line_width (self->cr, MAX (0.8, self->thread * 0.45));
  hw_use_ink (self->cr, &self->inks->ink);
  cairo_stroke (self->cr);
  cairo_restore (self->cr);
}

static void
draw_cut_yarns (const HwFaultPane *self,
                double             x)
{
  double half = self->pitch * 0.24;

  cairo_rectangle (self->cr, x - half, get_top (self, x) - 1, half * 2, get_bottom (self, x) - get_top (self, x) + 2);
  hw_use_ink (self->cr, &self->inks->paper);
  cairo_fill (self->cr);
  cairo_new_path (self->cr);
  for (int side = -1; side <= 1; side += 2)
    for (int i = 0; i < 4; i++)
      {
        double y = get_top (self, x) + (get_bottom (self, x) - get_top (self, x)) * (i + 0.5) / 4;

        hw_line (self->cr, x + side * half, y, x + side * half * (0.55 + 0.2 * (i % 2)), y - self->height * 0.02);
      }
  cairo_set_line_width (self->cr, MAX (0.6, self->thread * 0.28));
  hw_use_ink (self->cr, &self->inks->mute);
  cairo_stroke (self->cr);
}

static void
draw_under_threads (const HwFaultPane *self)
{
  for (int i = 0; i < self->n; i++)
    {
      double x = hw_fault_hole (self, i);

      if (self->row[i] == 'x')
        draw_cut_yarns (self, x);
      else if (self->row[i] == '*')
        hw_fault_spot (self, x, (get_top (self, x) + get_bottom (self, x)) / 2, self->height * 0.14);
    }
}

static void
draw_over_threads (const HwFaultPane *self)
{
  for (int i = 0; i < self->n; i++)
    {
      double x = hw_fault_hole (self, i);

      if (self->row[i] == '%')
        hw_fault_fur (self, x - self->pitch * 0.4, x + self->pitch * 0.5, get_top (self, x) - self->thread);
      else if (self->row[i] == '@')
        hw_fault_tangle (self, x, get_bottom (self, x) + self->height * 0.14, self->height * 0.2);
      else if (self->row[i] == '/')
        draw_broken_needle (self, x);
      else if (self->row[i] == '(')
        draw_sounding_needle (self, x);
      else if (self->row[i] == 'F')
        draw_foot (self, x);
    }
}

/* ---- across: a seam pulled open, a slipped one, a cut edge ---- */

/* The ply of one side: flat to the seam, then turned down as its allowance. */
static void
trace_side_ply (const HwFaultPane *self,
                double             side,
                double             gap)
{
  double middle = self->width / 2;
  double x = middle + side * gap;
  double y = self->height * 0.38;

  cairo_new_path (self->cr);
  cairo_move_to (self->cr, middle + side * self->width * 0.42, y);
  cairo_line_to (self->cr, x + side * self->height * 0.12, y);
  cairo_curve_to (self->cr, x, y, x, y, x, y + self->height * 0.14);
  cairo_line_to (self->cr, x + side * self->height * 0.02, self->height * 0.92);
}

static void
draw_open_across (const HwFaultPane *self)
{
  double gap = self->height * 0.22;
  double middle = self->width / 2;

  for (int side = -1; side <= 1; side += 2)
    {
      trace_side_ply (self, side, gap);
      cairo_set_line_width (self->cr, self->height * 0.13);
      cairo_set_line_cap (self->cr, CAIRO_LINE_CAP_BUTT);
      hw_use_ink (self->cr, &self->inks->mute);
      cairo_stroke_preserve (self->cr);
      cairo_set_line_width (self->cr, self->height * 0.13 - MAX (1.2, self->thread * 0.56));
      hw_fault_use_cloth (self);
      cairo_stroke (self->cr);
    }
  cairo_set_line_cap (self->cr, CAIRO_LINE_CAP_ROUND);
  cairo_new_path (self->cr);
  hw_line (self->cr, middle - gap - self->height * 0.1, self->height * 0.6, middle + gap + self->height * 0.1,
           self->height * 0.6);
  hw_fault_thread (self, FALSE);
  cairo_new_path (self->cr);
  cairo_move_to (self->cr, middle - gap - self->height * 0.1, self->height * 0.72);
  cairo_line_to (self->cr, middle + gap + self->height * 0.1, self->height * 0.72);
  hw_fault_thread (self, TRUE);
}

/* Each yarn along the seam a dot: they stand close, then a gap, then the few that the stitch holds. */
static void
draw_slipped_across (const HwFaultPane *self)
{
  double middle = self->width / 2;
  double radius = self->height * 0.055;
  double y = self->height * 0.5;

  cairo_new_path (self->cr);
  for (int side = -1; side <= 1; side += 2)
    {
      hw_line (self->cr, middle, y, middle + side * self->width * 0.44, y);
      for (int i = 0; i < 12; i++)
        {
          double x = middle + side * (i < 2 ? radius * (1.6 + i * 2.6)
                                            : self->width * 0.2 + (i - 2) * radius * 2.5);

          if (x < radius || x > self->width - radius)
            continue;
          cairo_new_sub_path (self->cr);
          cairo_arc (self->cr, x, y + (i % 2 == 0 ? -1 : 1) * radius * 1.1, radius, 0, 2 * G_PI);
        }
    }
  cairo_set_line_width (self->cr, MAX (0.7, self->thread * 0.35));
  hw_use_ink (self->cr, &self->inks->mute);
  cairo_stroke (self->cr);
  cairo_new_path (self->cr);
  hw_line (self->cr, middle, self->height * 0.14, middle, self->height * 0.86);
  hw_fault_thread (self, FALSE);
}

static void
draw_edge_across (const HwFaultPane *self)
{
  double edge = self->width * 0.6;
  double needle = self->width * 0.36;
  double top = self->height * TOP;
  double bottom = self->height * BOTTOM;

  cairo_rectangle (self->cr, 0, top, edge, bottom - top);
  hw_fault_use_cloth (self);
  cairo_fill_preserve (self->cr);
  cairo_set_line_width (self->cr, MAX (0.6, self->thread * 0.28));
  hw_use_ink (self->cr, &self->inks->mute);
  hw_line (self->cr, 0, (top + bottom) / 2, edge, (top + bottom) / 2);
  cairo_stroke (self->cr);
  cairo_new_path (self->cr);
  cairo_move_to (self->cr, needle, top - self->thread * 0.5);
  cairo_line_to (self->cr, edge, top - self->thread * 0.5);
  cairo_curve_to (self->cr, edge + self->width * 0.26, top - self->height * 0.16, edge + self->width * 0.3,
                  bottom + self->height * 0.3, edge + self->width * 0.1, (top + bottom) / 2);
  hw_fault_thread (self, TRUE);
  cairo_new_path (self->cr);
  cairo_move_to (self->cr, needle, bottom + self->thread * 0.5);
  cairo_line_to (self->cr, edge, bottom + self->thread * 0.5);
  cairo_curve_to (self->cr, edge + self->width * 0.2, bottom + self->height * 0.2, edge + self->width * 0.26,
                  top - self->height * 0.2, edge + self->width * 0.1, (top + bottom) / 2);
  hw_fault_thread (self, TRUE);
  cairo_new_path (self->cr);
  hw_line (self->cr, needle, top - self->thread, needle, bottom + self->thread);
  hw_fault_thread (self, FALSE);
}

void
hw_fault_draw_section (const HwFaultPane *self)
{
  if (self->looks->cloth == HW_LOOKS_OPEN)
    {
      draw_open_across (self);
      return;
    }
  if (self->looks->cloth == HW_LOOKS_SLIPPED)
    {
      draw_slipped_across (self);
      return;
    }
  if (self->looks->row == HW_LOOKS_OVERLOCK)
    {
      draw_edge_across (self);
      return;
    }
  draw_plies (self);
  draw_under_threads (self);
  draw_path (self, &(Path) { .needle = FALSE });
  draw_path (self, &(Path) { .needle = TRUE });
  draw_over_threads (self);
}
