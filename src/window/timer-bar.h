/* timer-bar.h - the timer of the chosen step: how far it has got, start, pause and done
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_TIMER_BAR (hw_timer_bar_get_type ())
G_DECLARE_FINAL_TYPE (HwTimerBar, hw_timer_bar, HW, TIMER_BAR, GtkBox)

/* Its buttons activate "order.timer" and "order.timed-done". */
GtkWidget  *hw_timer_bar_new       (HwWorkspace *workspace);
/* The step that it shows: the one whose clock runs in this project, else the chosen one while it is open to do. NULL:
 * none. Borrowed. */
const char *hw_timer_bar_peek_step (HwTimerBar *self);

G_END_DECLS
