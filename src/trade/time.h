/* time.h - stitches and minutes
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

double hw_stitch_count         (double seam_mm, double length_mm);

/* Minutes the needle moves: stitches / (top speed x share of it that the purpose allows). */
double hw_running_minutes      (double stitches, double top_speed_spm, double speed_share);

/* Minutes at the machine: running, plus @start_stop for each of @pieces starts, plus
 * handling x skill (2 beginner, 1 practised, 0.6 expert). Model; common practice. */
double hw_at_machine_minutes   (double running, int pieces, double start_stop, double handling, double skill);

double hw_minutes_from_tmu     (double tmu);         /* 1 TMU = 0.0006 min */
/* observed x rating x (1 + allowance) */
double hw_standard_minutes     (double observed, double rating, double allowance);

G_END_DECLS
