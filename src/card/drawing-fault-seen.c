/* drawing-fault-seen.c - a faulty row of stitches seen on the cloth, from above or from underneath
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/drawing-fault-private.h"

#include <math.h>
#include <string.h>

#define GAP 0.16                         /* half of an open seam, of the height */
#define EDGE 0.70                        /* where an overlocked edge was cut */
#define NEEDLE_ROW 0.26                  /* of an overlock stitch */
#define CREPT 1.1                        /* stitches by which one layer came out shorter */

static double
get_middle (const HwFaultPane *self)
{
  return self->looks->row == HW_LOOKS_OVERLOCK ? self->height * NEEDLE_ROW : self->height / 2;
}

/* ---- the cloth ---- */

static void
trace_edge (const HwFaultPane *self,
            double             y,
            gboolean           back)
{
  int n = self->n * 8;

  for (int i = 0; i <= n; i++)
    {
      double x = self->width * (back ? n - i : i) / n;

      cairo_line_to (self->cr, x, y + hw_fault_wave (self, x));
    }
}

static void
fill_cloth (const HwFaultPane *self,
            double             top,
            double             bottom)
{
  cairo_new_path (self->cr);
  trace_edge (self, top, FALSE);
  trace_edge (self, bottom, TRUE);
  cairo_close_path (self->cr);
  hw_fault_use_cloth (self);
  cairo_fill (self->cr);
}

static void
use_hairline (const HwFaultPane *self)
{
  cairo_set_line_width (self->cr, MAX (0.6, self->thread * 0.28));
  hw_use_ink (self->cr, &self->inks->mute);
}

/* A wrinkle runs from the row out, on both sides, at each trough of the pucker. */
static void
draw_wrinkles (const HwFaultPane *self)
{
  double y = self->height / 2;

  cairo_new_path (self->cr);
  for (int i = 0; i < self->n; i++)
    for (int side = -1; side <= 1; side += 2)
      {
        double x = hw_fault_hole (self, i) + (i % 2) * self->pitch * 0.2;

        cairo_move_to (self->cr, x, y + side * self->height * 0.08);
        cairo_curve_to (self->cr, x + self->pitch * 0.16, y + side * self->height * 0.16, x - self->pitch * 0.14,
                        y + side * self->height * 0.2, x + self->pitch * 0.1 * side,
                        y + side * self->height * (0.27 + 0.05 * (i % 2)));
      }
  use_hairline (self);
  cairo_stroke (self->cr);
}

/* Yarns along the seam have slid away from it: beside the stitches only those across are left. */
static void
draw_slid_yarns (const HwFaultPane *self)
{
  double y = self->height / 2;

  cairo_new_path (self->cr);
  for (int side = -1; side <= 1; side += 2)
    {
      for (int i = 0; i < self->n * 3; i++)
        {
          double x = (i + 0.5) * self->pitch / 3;

          hw_line (self->cr, x, y + side * self->height * 0.07, x, y + side * self->height * 0.24);
        }
      for (int i = 0; i < 3; i++)
        hw_line (self->cr, 0, y + side * self->height * (0.25 + i * 0.07), self->width,
                 y + side * self->height * (0.25 + i * 0.07));
    }
  use_hairline (self);
  cairo_stroke (self->cr);
}

static void
fill_slipped (const HwFaultPane *self)
{
  double y = self->height / 2;

  fill_cloth (self, y - self->height * 0.42, y - self->height * 0.23);
  fill_cloth (self, y + self->height * 0.23, y + self->height * 0.42);
  fill_cloth (self, y - self->height * 0.06, y + self->height * 0.06);
  draw_slid_yarns (self);
}

static void
draw_notch (const HwFaultPane *self,
            double             x,
            double             y,
            double             side)
{
  double size = self->height * 0.08;

  cairo_new_path (self->cr);
  cairo_move_to (self->cr, x - size * 0.6, y);
  cairo_line_to (self->cr, x, y + side * size);
  cairo_line_to (self->cr, x + size * 0.6, y);
  use_hairline (self);
  cairo_stroke (self->cr);
}

/* The layer that was fed less ends later; its notch lies beyond the other's. */
static void
fill_crept (const HwFaultPane *self)
{
  double top = self->height * 0.12;
  double bottom = self->height * 0.88;
  double near = self->width - (self->underneath ? CREPT + 0.7 : 0.5) * self->pitch;
  double far = self->width - (self->underneath ? 0.5 : CREPT + 0.7) * self->pitch;
  HwInk  deep = hw_mix_ink (&self->inks->paper, &self->inks->line, 0.85);

  cairo_rectangle (self->cr, 0, top + self->height * 0.05, MAX (near, far), bottom - top - self->height * 0.05);
  hw_use_ink (self->cr, &deep);
  cairo_fill (self->cr);
  cairo_rectangle (self->cr, 0, top, near, bottom - top);
  hw_fault_use_cloth (self);
  cairo_fill (self->cr);
  cairo_new_path (self->cr);
  hw_line (self->cr, near, top, near, bottom);
  hw_line (self->cr, MAX (near, far), top + self->height * 0.05, MAX (near, far), bottom);
  use_hairline (self);
  cairo_stroke (self->cr);
  draw_notch (self, near - self->pitch * 0.7, top, 1);
  draw_notch (self, far - self->pitch * 0.7, bottom, -1);
}

/* More layers from the middle on: an edge, and a second one where the fold is. */
static void
fill_step (const HwFaultPane *self)
{
  HwInk  deep = hw_mix_ink (&self->inks->paper, &self->inks->line, 0.75);
  double x = self->pitch * 4.1;

  fill_cloth (self, self->height * 0.1, self->height * 0.9);
  cairo_rectangle (self->cr, x, self->height * 0.04, self->width - x, self->height * 0.92);
  hw_use_ink (self->cr, &deep);
  cairo_fill (self->cr);
  cairo_new_path (self->cr);
  hw_line (self->cr, x, self->height * 0.04, x, self->height * 0.96);
  hw_line (self->cr, x + self->pitch * 0.18, self->height * 0.04, x + self->pitch * 0.18, self->height * 0.96);
  use_hairline (self);
  cairo_stroke (self->cr);
}

static void
draw_cloth (const HwFaultPane *self)
{
  double middle = self->height / 2;

  switch (self->looks->cloth)
    {
    case HW_LOOKS_OPEN:
      if (self->underneath && self->looks->row == HW_LOOKS_OVERLOCK)
        {
          fill_cloth (self, 0, self->height * EDGE);
          break;
        }
      fill_cloth (self, self->height * 0.06, middle - self->height * GAP);
      fill_cloth (self, middle + self->height * GAP, self->height * 0.94);
      cairo_new_path (self->cr);
      hw_line (self->cr, 0, middle - self->height * GAP, self->width, middle - self->height * GAP);
      hw_line (self->cr, 0, middle + self->height * GAP, self->width, middle + self->height * GAP);
      use_hairline (self);
      cairo_stroke (self->cr);
      break;
    case HW_LOOKS_SLIPPED:
      fill_slipped (self);
      break;
    case HW_LOOKS_CREPT:
      fill_crept (self);
      break;
    case HW_LOOKS_STEP:
      fill_step (self);
      break;
    case HW_LOOKS_FLAT:
    case HW_LOOKS_PUCKERED:
    case HW_LOOKS_WAVY:
    case HW_N_LOOKS_CLOTHS:
    default:
      if (self->looks->row == HW_LOOKS_OVERLOCK)
        fill_cloth (self, 0, self->height * EDGE);
      else
        fill_cloth (self, self->height * 0.12, self->height * 0.88);
      if (self->looks->cloth == HW_LOOKS_PUCKERED)
        draw_wrinkles (self);
      break;
    }
}

/* ---- one stitch ---- */

/* Where the row lies at @x; from underneath the waves of one cloth are the same waves. */
static double
get_row (const HwFaultPane *self,
         double             x)
{
  return get_middle (self) + hw_fault_wave (self, x);
}

static void
draw_stitch (const HwFaultPane *self,
             double             from,
             double             to)
{
  cairo_new_path (self->cr);
  hw_line (self->cr, from, get_row (self, from), to, get_row (self, to));
  hw_fault_thread (self, self->underneath);
}

static void
draw_hole (const HwFaultPane *self,
           double             x,
           double             radius)
{
  cairo_new_path (self->cr);
  cairo_arc (self->cr, x, get_row (self, x), radius, 0, 2 * G_PI);
  use_hairline (self);
  cairo_stroke (self->cr);
}

/* The other thread comes through the hole and lies there as a loop, beside the row. */
static void
draw_slack_loop (const HwFaultPane *self,
                 double             x)
{
  double y = get_row (self, x);
  double reach = self->height * 0.26;

  cairo_new_path (self->cr);
  cairo_move_to (self->cr, x, y);
  cairo_curve_to (self->cr, x + self->pitch * 0.75, y + reach * 0.5, x + self->pitch * 0.3, y + reach * 1.25,
                  x + self->pitch * 0.1, y + reach);
  cairo_curve_to (self->cr, x - self->pitch * 0.12, y + reach * 0.72, x + self->pitch * 0.1, y + reach * 0.2,
                  x + self->pitch * 0.06, y);
  hw_fault_thread (self, !self->underneath);
}

/* A small loop of the other thread over the hole. */
static void
draw_dot (const HwFaultPane *self,
          double             x)
{
  double radius = self->thread * 1.15;

  cairo_new_path (self->cr);
  cairo_arc (self->cr, x, get_row (self, x), radius, 0, 2 * G_PI);
  hw_use_ink (self->cr, self->underneath ? &self->inks->ink : &self->inks->paper);
  cairo_fill_preserve (self->cr);
  cairo_set_line_width (self->cr, self->thread * 0.5);
  hw_use_ink (self->cr, &self->inks->ink);
  cairo_stroke (self->cr);
}

/* From the hole at @x a tail rises, to the right (@way 1) or the left. */
static void
draw_tail (const HwFaultPane *self,
           double             x,
           double             way)
{
  double y = get_row (self, x);

  cairo_new_path (self->cr);
  cairo_move_to (self->cr, x, y);
  cairo_curve_to (self->cr, x + way * self->pitch * 0.5, y, x + way * self->pitch * 0.5, y - self->height * 0.24,
                  x + way * self->pitch * 0.95, y - self->height * 0.2);
  cairo_curve_to (self->cr, x + way * self->pitch * 1.2, y - self->height * 0.18, x + way * self->pitch * 1.25,
                  y - self->height * 0.32, x + way * self->pitch * 1.1, y - self->height * 0.36);
  hw_fault_thread (self, self->underneath);
}

/* Cut yarns and a run below them. */
static void
draw_cut (const HwFaultPane *self,
          double             x)
{
  double y = get_row (self, x) + self->height * 0.12;
  double size = self->height * 0.07;

  cairo_save (self->cr);
  cairo_translate (self->cr, x, y);
  cairo_scale (self->cr, 1, 1.5);
  cairo_arc (self->cr, 0, 0, size, 0, 2 * G_PI);
  cairo_restore (self->cr);
  hw_use_ink (self->cr, &self->inks->paper);
  cairo_fill_preserve (self->cr);
  use_hairline (self);
  cairo_stroke (self->cr);
  for (int i = 0; i < 3; i++)
    hw_line (self->cr, x - size * 0.7, y + size * (2.1 + i * 0.8), x + size * 0.7, y + size * (2.1 + i * 0.8));
  cairo_stroke (self->cr);
}

static void
draw_torn (const HwFaultPane *self,
           double             x)
{
  double y = get_row (self, x);
  double size = self->height * 0.15;

  cairo_new_path (self->cr);
  for (int i = 0; i < 12; i++)
    {
      double reach = size * (i % 2 == 0 ? 1 : 0.55);

      cairo_line_to (self->cr, x + reach * cos (G_PI * i / 6), y + reach * sin (G_PI * i / 6));
    }
  cairo_close_path (self->cr);
  hw_use_ink (self->cr, &self->inks->paper);
  cairo_fill_preserve (self->cr);
  use_hairline (self);
  cairo_stroke (self->cr);
}

/* A thread that bridges the open seam: one leg each way, as it was sewn. */
static void
draw_rung (const HwFaultPane *self,
           double             x)
{
  double y = self->height / 2;
  double half = self->height * (GAP + 0.03);

  cairo_new_path (self->cr);
  hw_line (self->cr, x - self->pitch * 0.2, y - half, x + self->pitch * 0.2, y + half);
  hw_fault_thread (self, FALSE);
}

static void
draw_link (const HwFaultPane *self,
           double             x)
{
  double y = get_row (self, x);
  double wide = self->height * 0.15;
  double to = x + self->pitch;

  cairo_new_path (self->cr);
  cairo_move_to (self->cr, x, y);
  cairo_curve_to (self->cr, x + self->pitch * 0.3, y - wide * 1.4, to, y - wide, to + self->pitch * 0.08, y);
  cairo_curve_to (self->cr, to, y + wide, x + self->pitch * 0.3, y + wide * 1.4, x, y);
  hw_fault_thread (self, TRUE);
}

static void
draw_run_out (const HwFaultPane *self,
              double             x)
{
  double y = get_row (self, x) + self->height * 0.06;

  cairo_new_path (self->cr);
  cairo_move_to (self->cr, x, y);
  cairo_curve_to (self->cr, x + self->pitch * 0.3, y - self->height * 0.2, x + self->pitch * 0.7,
                  y + self->height * 0.2, x + self->pitch, y);
  hw_fault_thread (self, TRUE);
}

/* From the needle's row to the edge and back; slack ones reach beyond it. */
static void
draw_edge_loop (const HwFaultPane *self,
                double             x,
                gboolean           slack)
{
  double row = self->height * NEEDLE_ROW;
  double edge = self->height * EDGE;
  double reach = edge + self->height * (slack ? 0.26 : 0.04);
  double wide = self->pitch * (slack ? 0.3 : 0.16);
  double to = x + self->pitch * 0.9;
  double middle = (x + to) / 2;

  cairo_new_path (self->cr);
  cairo_move_to (self->cr, x, row);
  cairo_line_to (self->cr, middle - wide, edge);
  cairo_curve_to (self->cr, middle - wide * 1.5, reach, middle + wide * 1.5, reach, middle + wide, edge);
  cairo_line_to (self->cr, to, row);
  hw_fault_thread (self, TRUE);
  cairo_new_path (self->cr);
  hw_line (self->cr, x + self->pitch * 0.1, row, to, row);
  hw_fault_thread (self, FALSE);
}

/* ---- the row ---- */

static void
draw_crowded (const HwFaultPane *self,
              double             x)
{
  for (int i = 0; i < 3; i++)
    draw_stitch (self, x + self->pitch * (0.06 + i * 0.33), x + self->pitch * (0.24 + i * 0.33));
}

static void
draw_letter (const HwFaultPane *self,
             int                index)
{
  double x = hw_fault_hole (self, index);
  double from = x + self->pitch * 0.18;
  double to = x + self->pitch * 0.82;
  char   letter = self->row[index];

  if (strchr ("-o:%x*", letter) != NULL)
    draw_stitch (self, from, to);
  switch (letter)
    {
    case '=':
      draw_stitch (self, from, x + self->pitch * 1.25);
      break;
    case '.':
      draw_hole (self, x, self->thread * 0.5);
      break;
    case 'o':
      draw_slack_loop (self, x);
      break;
    case ':':
      draw_dot (self, x);
      break;
    case '>':
      draw_tail (self, x, 1);
      break;
    case '<':
      draw_tail (self, x + self->pitch, -1);
      break;
    case '%':
      hw_fault_fur (self, from, to, get_row (self, x));
      break;
    case '@':
      hw_fault_tangle (self, x, get_row (self, x), MIN (self->pitch * 0.75, self->height * 0.3));
      break;
    case 'x':
      draw_cut (self, x);
      break;
    case 'w':
      draw_crowded (self, x);
      break;
    case '*':
      hw_fault_spot (self, x, get_row (self, x) + self->height * (index % 2 == 0 ? 0.18 : -0.16), self->height * 0.11);
      break;
    case '!':
      draw_torn (self, x);
      break;
    case '|':
      draw_rung (self, x);
      break;
    case 'c':
      draw_link (self, x);
      break;
    case '~':
      draw_run_out (self, x);
      break;
    case 'e':
    case 'E':
      draw_edge_loop (self, x, letter == 'E');
      break;
    default:                             /* '-' is drawn, '_' is nothing */
      break;
    }
}

void
hw_fault_draw_seen (const HwFaultPane *self)
{
  draw_cloth (self);
  /* The stitch that comes in from the left, so that the row does not begin in the picture. */
  if (strchr ("-=o:xw*%", self->row[0]) != NULL)
    draw_stitch (self, -self->pitch * 0.4, self->pitch * 0.32);
  for (int i = 0; i < self->n; i++)
    draw_letter (self, i);
}
