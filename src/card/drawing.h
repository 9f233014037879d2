/* drawing.h - the motifs: needle, dial, seam across and along, gauge, cloth, cross-stitch
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One drawing module for cards and window. Each draws within a given rectangle in the given colours.
 */

#pragma once
#include <cairo.h>
#include <pango/pango.h>
#include "plan/pairing.h"

G_BEGIN_DECLS

typedef struct { double r, g, b; } HwInk;
typedef struct { HwInk ink, mute, paper, line, stitch; } HwInks;      /* print: black on white */
extern const HwInks hw_inks_print;

/* @layers that the step sews through: a stacked seam shows each, any other is drawn as the handbook has it. */
void hw_draw_seam_across (cairo_t *cr, const HwSeam *seam, guint layers, double x, double y, double width,
                          double height, const HwInks *inks);
/* @balance -1 loops underneath … 0 balanced … +1 bobbin thread on top; @plies layers shown. */
void hw_draw_seam_along  (cairo_t *cr, int plies, double balance, double x, double y, double width, double height,
                          const HwInks *inks);
/* An overlocked edge cut across: -1 upper looper thread dragged underneath … 0 at the edge … +1 lower one on top. */
void hw_draw_edge_balance (cairo_t *cr, int plies, double balance, double x, double y, double width, double height,
                           const HwInks *inks);
/* Where the stitch locks at @dial by the balance model, for the two above: the set-up's window is -0.5 to 0.5. */
double hw_stitch_balance (const HwSetup *setup, double dial);
/* The row as seen from above for marks other than straight: zigzag, overlock, … */
void hw_draw_stitch_row  (cairo_t *cr, const char *mark, double x, double y, double width, double height,
                          const HwInks *inks);
/* Edge wheel, knob or number by @machine; start and likely band. Text through @layout (owned by the caller). */
void hw_draw_dial        (cairo_t *cr, PangoLayout *layout, const HwMachine *machine, double start, double low,
                          double high,
                          double x, double y, double width, double height, const HwInks *inks);
/* Ticks every @length_mm, true size at 1 unit = 1 pt; returns the width used in pt. */
double hw_draw_gauge     (cairo_t *cr, double length_mm, int n_ticks, gboolean bold, double x, double y, double tick_pt,
                          const HwInks *inks);
void hw_draw_needle      (cairo_t *cr, gboolean solid, double x, double y, double width, double height,
                          const HwInks *inks);
/* A square of the cloth's construction: twill, plain, knit, pile, … */
void hw_draw_cloth       (cairo_t *cr, HwFamily family, const char *construction, double x, double y, double size,
                          const HwInks *inks);
/* What is done in the care task of that id ("dust", "oil", …); "plug": a plug pulled out; another id: a machine. */
void hw_draw_care        (cairo_t *cr, const char *care, double x, double y, double width, double height,
                          const HwInks *inks);

/* Hours as columns, each of parts one on the other. Borrowed. */
typedef struct
{
  gsize               n_columns, n_parts;
  const double       *hours;         /* [n_columns x n_parts] */
  const char * const *labels;        /* [n_columns] below the columns */
} HwChart;
void hw_draw_chart       (cairo_t *cr, PangoLayout *layout, const HwChart *chart, double x, double y, double width,
                          double height, const HwInks *inks);
/* The hatching of a part of the columns, for its key. */
void hw_draw_hatching    (cairo_t *cr, gsize part, double x, double y, double width, double height,
                          const HwInks *inks);
void hw_draw_cross_stitch (cairo_t *cr, gboolean sewn, double x, double y, double size, const HwInks *inks);
void hw_draw_letter      (cairo_t *cr, PangoLayout *layout, const char *letter, double x, double y, double diameter,
                          const HwInks *inks);

G_END_DECLS
