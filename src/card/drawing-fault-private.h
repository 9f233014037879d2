/* drawing-fault-private.h - what the views of a faulty stitch share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "card/drawing-fault.h"
#include "card/drawing-private.h"

G_BEGIN_DECLS

typedef struct
{
  cairo_t       *cr;
  const HwLooks *looks;
  const char    *row;                /* the letters of this view */
  int            n;
  double         width, height;
  double         pitch, thread;      /* from hole to hole; thickness of a thread */
  gboolean       underneath;
  const HwInks  *inks;
} HwFaultPane;

static inline double
hw_fault_hole (const HwFaultPane *self,
               int                index)
{
  return (index + 0.5) * self->pitch;
}

/* The cloth's own height at @x: waves of a pucker or of a stretched knit, the step of a crossing; 0 flat. */
double hw_fault_wave    (const HwFaultPane *self, double x);
void   hw_fault_thread  (const HwFaultPane *self, gboolean open);       /* strokes the path */
void   hw_fault_use_cloth (const HwFaultPane *self);
void   hw_fault_fur     (const HwFaultPane *self, double x1, double x2, double y);
void   hw_fault_tangle  (const HwFaultPane *self, double x, double y, double radius);
void   hw_fault_spot    (const HwFaultPane *self, double x, double y, double radius);

void   hw_fault_draw_seen    (const HwFaultPane *self);
void   hw_fault_draw_section (const HwFaultPane *self);

G_END_DECLS
