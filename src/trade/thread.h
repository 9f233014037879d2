/* thread.h - what a thread's size implies: diameter, strength of thread and seam
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

/* Diameter in mm of a thread of @tex, fibre density @density in g/cm3 and
 * packing share @packing (0 < packing <= 1): a cylinder of that bulk density,
 * d = sqrt(4 tex 1e-3 / (pi packing density)). Geometry, exact. */
double hw_thread_diameter_mm (double tex,
                              double density_g_cm3,
                              double packing);

/* Seam strength estimate in N per cm, woven, superimposed, thread-limited:
 * stitches per cm x strength x loop factor (1.5 for 301, 1.7 for 401; thread
 * maker's bulletin on stitches per inch). The weaker thread governs; not for knits. */
double hw_seam_strength_n_cm (double length_mm,
                              double thread_strength_cn,
                              double loop_factor);

/* Tenacity in cN/tex. */
double hw_tenacity_cn_tex    (double strength_cn,
                              double tex);

G_END_DECLS
