/* stitch-mark.h - a running stitch: marks the current page or row, shows how far a step has got
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_STITCH_MARK (hw_stitch_mark_get_type ())
G_DECLARE_FINAL_TYPE (HwStitchMark, hw_stitch_mark, HW, STITCH_MARK, GtkWidget)

GtkWidget *hw_stitch_mark_new          (GtkOrientation orientation);
/* How much of the row is sewn, 0 to 1; the rest is drawn pale. 1 at first. */
void       hw_stitch_mark_set_fraction (HwStitchMark *self, double fraction);

G_END_DECLS
