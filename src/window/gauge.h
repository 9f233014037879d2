/* gauge.h - a clock of care as a row of stitches that grows toward its limit
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A range, so that value and limit reach those who cannot see it; nothing moves it by hand.
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_GAUGE (hw_gauge_get_type ())
G_DECLARE_FINAL_TYPE (HwGauge, hw_gauge, HW, GAUGE, GtkRange)

/* @name: what it measures; @words: the value in words. Values past the limit are shown as full. */
GtkWidget *hw_gauge_new (const char *name, const char *words, double value, double limit);
void       hw_gauge_show (HwGauge *self, const char *words, double value, double limit);

G_END_DECLS
