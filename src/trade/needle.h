/* needle.h - needle sizes and what fits their eye and groove
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Nm is the blade's diameter in 1/100 mm (DIN 5325).
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

/* Thread diameter / blade: the rule for choosing (eye 1.4 x thread, groove 0.4 x blade), and what is refused beyond
 * (the long groove is 40 % of the blade). */
#define HW_NEEDLE_THREAD_SHARE       0.28
#define HW_NEEDLE_THREAD_SHARE_LIMIT 0.40
/* A needle taken only to save a change: no further from the rule than half-way to the limit. Own judgement. */
#define HW_NEEDLE_THREAD_SHARE_SHARED 0.34

int    hw_us_from_nm                (int nm);        /* 80 -> 12; 0 when no US number goes with it */
int    hw_nm_from_us                (int us);        /* 12 -> 80; 0 when unknown */
double hw_needle_blade_mm           (int nm);

/* Thread diameter / 0.28 (suggested) or / 0.40 (smallest: the refusal limit), in 1/100 mm, / @eye_factor (1 ordinary,
 * more for a large eye). */
double hw_needle_suggested_nm       (double thread_diameter_mm, double eye_factor);
double hw_needle_smallest_nm        (double thread_diameter_mm, double eye_factor);

/* Zigzag width in mm still allowed with a twin needle of @spacing_mm on a
 * machine of @max_width_mm: max - spacing - 1 (0.5 mm clear each side), never
 * below 0; -1 when the twin itself does not fit (spacing > max - 1).
 * Conservative model; the machine's manual decides. */
double hw_twin_allowed_width_mm     (double spacing_mm, double max_width_mm);

G_END_DECLS
