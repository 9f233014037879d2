/* drawing-private.h - what the parts of the drawing module share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "card/drawing.h"

G_BEGIN_DECLS

static inline void
hw_use_ink (cairo_t     *cr,
            const HwInk *ink)
{
  cairo_set_source_rgb (cr, ink->r, ink->g, ink->b);
}

/* @share of @over laid on @under. */
static inline HwInk
hw_mix_ink (const HwInk *under,
            const HwInk *over,
            double       share)
{
  return (HwInk) { under->r + (over->r - under->r) * share,
                   under->g + (over->g - under->g) * share,
                   under->b + (over->b - under->b) * share };
}

static inline void
hw_line (cairo_t *cr,
         double   x1,
         double   y1,
         double   x2,
         double   y2)
{
  cairo_move_to (cr, x1, y1);
  cairo_line_to (cr, x2, y2);
}

/* Adds a rectangle with rounded corners to the path. */
void hw_round_rectangle (cairo_t *cr, double x, double y, double width, double height, double radius);

/* Writes @text centred on (x, y) at @size, in the source already set. */
void hw_show_centred    (cairo_t *cr, PangoLayout *layout, const char *text, double size, int weight, double x,
                         double y);
/* From now on each text that is written by means of @layout is laid out once; its font and attributes stay. */
void hw_keep_centred    (PangoLayout *layout);

G_END_DECLS
