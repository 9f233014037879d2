/* drawing.c - the small motifs: needle, gauge, cross-stitch, letter
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/drawing-private.h"

#include <math.h>

#define PT_PER_MM (72 / 25.4)

const HwInks hw_inks_print = {
  .ink    = { 0, 0, 0 },
  .mute   = { 0.34, 0.34, 0.34 },
  .paper  = { 1, 1, 1 },
  .line   = { 0.62, 0.62, 0.62 },
  .stitch = { 0, 0, 0 },
};

void
hw_round_rectangle (cairo_t *cr,
                    double   x,
                    double   y,
                    double   width,
                    double   height,
                    double   radius)
{
  double r = MIN (radius, MIN (width, height) / 2);

  cairo_new_sub_path (cr);
  cairo_arc (cr, x + width - r, y + r, r, -G_PI / 2, 0);
  cairo_arc (cr, x + width - r, y + height - r, r, 0, G_PI / 2);
  cairo_arc (cr, x + r, y + height - r, r, G_PI / 2, G_PI);
  cairo_arc (cr, x + r, y + r, r, G_PI, 3 * G_PI / 2);
  cairo_close_path (cr);
}

double
hw_draw_gauge (cairo_t      *cr,
               double        length_mm,
               int           n_ticks,
               gboolean      bold,
               double        x,
               double        y,
               double        tick_pt,
               const HwInks *inks)
{
  double pitch = length_mm * PT_PER_MM;
  double width = pitch * MAX (n_ticks - 1, 0);

  g_return_val_if_fail (length_mm > 0, 0);

  cairo_save (cr);
  hw_use_ink (cr, &inks->ink);
  /* Never so bold that close ticks run together. */
  cairo_set_line_width (cr, MIN (bold ? 1.1 : 0.55, pitch * 0.4));
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  for (int i = 0; i < n_ticks; i++)
    hw_line (cr, x + i * pitch, y, x + i * pitch, y + tick_pt);
  cairo_stroke (cr);
  cairo_set_line_width (cr, bold ? 1.1 : 0.55);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_SQUARE);
  hw_line (cr, x, y, x + width, y);
  cairo_stroke (cr);
  cairo_restore (cr);
  return width;
}

/* The outline of a needle standing on its point: shank with its flat, shoulder, blade, scarf and point. */
static void
trace_needle (cairo_t *cr,
              double   middle,
              double   y,
              double   shank,
              double   height)
{
  double blade = shank * 0.42;
  double shoulder = y + height * 0.36;

  cairo_new_path (cr);
  cairo_move_to (cr, middle - shank / 2, y + shank * 0.2);
  cairo_line_to (cr, middle - shank * 0.3, y);
  cairo_line_to (cr, middle + shank / 2, y);           /* the flat side has a square corner */
  cairo_line_to (cr, middle + shank / 2, shoulder);
  cairo_line_to (cr, middle + blade / 2, shoulder + shank * 0.6);
  cairo_line_to (cr, middle + blade / 2, y + height * 0.86);
  cairo_curve_to (cr, middle + blade / 2, y + height * 0.95, middle + blade * 0.1, y + height * 0.99, middle,
                  y + height);
  cairo_curve_to (cr, middle - blade * 0.1, y + height * 0.99, middle - blade / 2, y + height * 0.95,
                  middle - blade / 2, y + height * 0.86);
  cairo_line_to (cr, middle - blade / 2, shoulder + shank * 0.6);
  cairo_line_to (cr, middle - shank / 2, shoulder);
  cairo_close_path (cr);
}

void
hw_draw_needle (cairo_t      *cr,
                gboolean      solid,
                double        x,
                double        y,
                double        width,
                double        height,
                const HwInks *inks)
{
  double stroke = MAX (0.8, height / 40);
  double shank = MIN (width, height * 0.2) - stroke;
  double middle = x + width / 2;
  double eye = shank * 0.42;

  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_width (cr, stroke);
  trace_needle (cr, middle, y + stroke / 2, shank, height - stroke);
  hw_use_ink (cr, solid ? &inks->ink : &inks->paper);
  cairo_fill_preserve (cr);
  hw_use_ink (cr, &inks->ink);
  cairo_stroke (cr);

  hw_round_rectangle (cr, middle - eye * 0.24, y + height * 0.79, eye * 0.48, height * 0.085, eye);
  hw_use_ink (cr, solid ? &inks->paper : &inks->ink);
  cairo_fill (cr);
  cairo_restore (cr);
}

void
hw_draw_cross_stitch (cairo_t      *cr,
                      gboolean      sewn,
                      double        x,
                      double        y,
                      double        size,
                      const HwInks *inks)
{
  HwInk cloth = hw_mix_ink (&inks->paper, &inks->line, 0.18);
  double stroke = MAX (0.6, size / 16);
  double in = size * 0.24;

  cairo_save (cr);
  hw_round_rectangle (cr, x + stroke / 2, y + stroke / 2, size - stroke, size - stroke, size * 0.16);
  hw_use_ink (cr, &cloth);
  cairo_fill_preserve (cr);
  hw_use_ink (cr, sewn ? &inks->line : &inks->mute);
  cairo_set_line_width (cr, stroke);
  cairo_stroke (cr);

  if (sewn)
    {
      double thread = size * 0.17;

      cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
      hw_use_ink (cr, &inks->ink);
      cairo_set_line_width (cr, thread);
      hw_line (cr, x + in, y + size - in, x + size - in, y + in);
      cairo_stroke (cr);
      /* The second leg lies over the first, parted from it by a sliver of cloth. */
      hw_use_ink (cr, &cloth);
      cairo_set_line_width (cr, thread * 1.5);
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
      hw_line (cr, x + size * 0.38, y + size * 0.38, x + size * 0.62, y + size * 0.62);
      cairo_stroke (cr);
      hw_use_ink (cr, &inks->ink);
      cairo_set_line_width (cr, thread);
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
      hw_line (cr, x + in, y + in, x + size - in, y + size - in);
      cairo_stroke (cr);
    }
  cairo_restore (cr);
}

void
hw_draw_letter (cairo_t      *cr,
                PangoLayout  *layout,
                const char   *letter,
                double        x,
                double        y,
                double        diameter,
                const HwInks *inks)
{
  gboolean several = g_utf8_strlen (letter, -1) > 1;

  cairo_save (cr);
  cairo_new_path (cr);
  cairo_arc (cr, x + diameter / 2, y + diameter / 2, diameter / 2, 0, 2 * G_PI);
  hw_use_ink (cr, &inks->ink);
  cairo_fill (cr);
  hw_use_ink (cr, &inks->paper);
  hw_show_centred (cr, layout, letter, diameter * (several ? 0.46 : 0.62), PANGO_WEIGHT_BOLD,
                   x + diameter / 2, y + diameter / 2);
  cairo_restore (cr);
}

double
hw_stitch_balance (const HwSetup *setup,
                   double         dial)
{
  double middle = (setup->window_low + setup->window_high) / 2;
  double width = setup->window_high - setup->window_low;

  return width > 0 ? CLAMP ((dial - middle) / width, -1, 1) : 0;
}
