/* drawing-fault.c - how a faulty stitch looks: the three views, and the pieces they share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/drawing-fault-private.h"

#include <math.h>
#include <string.h>

#define PUCKER_HOLES 1.6                 /* length of a wave, in stitches */
#define WAVY_HOLES 3.6
#define STACK_TOP 0.32                   /* shares of the height when all three stand one above the other */
#define STACK_SECTION 0.39
#define STACK_GAP 0.03

double
hw_fault_wave (const HwFaultPane *self,
               double             x)
{
  switch (self->looks->cloth)
    {
    case HW_LOOKS_PUCKERED:
      return 0.055 * self->height * sin (2 * G_PI * x / (PUCKER_HOLES * self->pitch));
    case HW_LOOKS_WAVY:
      return 0.11 * self->height * sin (2 * G_PI * x / (WAVY_HOLES * self->pitch));
    case HW_LOOKS_FLAT:
    case HW_LOOKS_OPEN:
    case HW_LOOKS_SLIPPED:
    case HW_LOOKS_CREPT:
    case HW_LOOKS_STEP:
    case HW_N_LOOKS_CLOTHS:
    default:
      return 0;
    }
}

void
hw_fault_thread (const HwFaultPane *self,
                 gboolean           open)
{
  cairo_set_line_width (self->cr, self->thread);
  hw_use_ink (self->cr, &self->inks->ink);
  if (!open)
    {
      cairo_stroke (self->cr);
      return;
    }
  cairo_stroke_preserve (self->cr);
  cairo_set_line_width (self->cr, self->thread * 0.45);
  hw_use_ink (self->cr, &self->inks->paper);
  cairo_stroke (self->cr);
}

void
hw_fault_use_cloth (const HwFaultPane *self)
{
  HwInk cloth = hw_mix_ink (&self->inks->paper, &self->inks->line, 0.38);

  cloth = hw_mix_ink (&cloth, &self->inks->mute, 0.09);         /* a dark theme's lines are nearly its paper */
  hw_use_ink (self->cr, &cloth);
}

/* Short hairs, crossed at angles that do not repeat. */
void
hw_fault_fur (const HwFaultPane *self,
              double             x1,
              double             x2,
              double             y)
{
  int    n = 5;
  double hair = self->thread * 2.2;

  cairo_new_path (self->cr);
  for (int i = 0; i < n; i++)
    {
      double x = x1 + (x2 - x1) * (i + 0.5) / n;
      double lean = (i % 3 - 1) * 0.6 * hair;

      hw_line (self->cr, x - lean * 0.2, y, x + lean + hair * 0.25, y - hair);
      hw_line (self->cr, x, y, x - lean + hair * 0.1, y + hair * (0.7 + 0.2 * (i % 2)));
    }
  cairo_set_line_width (self->cr, MAX (0.6, self->thread * 0.3));
  hw_use_ink (self->cr, &self->inks->ink);
  cairo_stroke (self->cr);
}

/* A nest: loops wound round each other, always the same ones. */
void
hw_fault_tangle (const HwFaultPane *self,
                 double             x,
                 double             y,
                 double             radius)
{
  cairo_new_path (self->cr);
  for (int i = 0; i <= 240; i++)
    {
      double turn = i * 0.13;
      double reach = radius * (0.72 + 0.28 * sin (turn * 2.37));

      cairo_line_to (self->cr, x + 1.2 * reach * cos (turn), y + 0.8 * reach * sin (turn * 1.19 + 0.4));
    }
  cairo_set_line_width (self->cr, MAX (0.7, self->thread * 0.5));
  hw_use_ink (self->cr, &self->inks->ink);
  cairo_stroke (self->cr);
}

void
hw_fault_spot (const HwFaultPane *self,
               double             x,
               double             y,
               double             radius)
{
  HwInk spot = hw_mix_ink (&self->inks->paper, &self->inks->ink, 0.42);

  cairo_new_path (self->cr);
  for (int i = 0; i < 24; i++)
    {
      double turn = 2 * G_PI * i / 24;
      double reach = radius * (1 + 0.16 * sin (3 * turn) + 0.08 * cos (5 * turn));

      cairo_line_to (self->cr, x + 1.2 * reach * cos (turn), y + 0.8 * reach * sin (turn));
    }
  cairo_close_path (self->cr);
  hw_use_ink (self->cr, &spot);
  cairo_fill (self->cr);
}

void
hw_draw_fault_view (cairo_t       *cr,
                    const HwLooks *looks,
                    HwFaultView    view,
                    double         x,
                    double         y,
                    double         width,
                    double         height,
                    const HwInks  *inks)
{
  const char *rows[HW_N_FAULT_VIEWS] = { looks->top, looks->section, looks->underneath };
  HwFaultPane pane = { .cr = cr, .looks = looks, .row = rows[view], .width = width, .height = height,
                       .underneath = view == HW_FAULT_UNDERNEATH, .inks = inks };

  if (pane.row == NULL || width <= 0 || height <= 0)
    return;
  pane.n = (int) strlen (pane.row);
  pane.pitch = width / pane.n;
  pane.thread = CLAMP (MIN (height * 0.065, pane.pitch * 0.14), 0.9, 3.2);
  cairo_save (cr);
  cairo_rectangle (cr, x, y, width, height);
  cairo_clip (cr);
  cairo_translate (cr, x, y);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_new_path (cr);
  if (view == HW_FAULT_SECTION)
    hw_fault_draw_section (&pane);
  else
    hw_fault_draw_seen (&pane);
  cairo_restore (cr);
}

void
hw_draw_fault (cairo_t       *cr,
               const HwLooks *looks,
               double         x,
               double         y,
               double         width,
               double         height,
               const HwInks  *inks)
{
  double top = height * (STACK_TOP - STACK_GAP);
  double section = height * (STACK_SECTION - STACK_GAP);
  double underneath = height - height * (STACK_TOP + STACK_SECTION);

  hw_draw_fault_view (cr, looks, HW_FAULT_TOP, x, y, width, top, inks);
  hw_draw_fault_view (cr, looks, HW_FAULT_SECTION, x, y + height * STACK_TOP, width, section, inks);
  hw_draw_fault_view (cr, looks, HW_FAULT_UNDERNEATH, x, y + height - underneath, width, underneath, inks);
}
