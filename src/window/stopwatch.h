/* stopwatch.h - the timer of the sewing room at this computer, kept in its file
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Signals: "changed" (a clock was started, stopped or forgotten; not each second),
 *          "message" (const char *text, gboolean is_error): something to tell the person.
 */

#pragma once
#include <gio/gio.h>

G_BEGIN_DECLS

#define HW_TYPE_STOPWATCH (hw_stopwatch_get_type ())
G_DECLARE_FINAL_TYPE (HwStopwatch, hw_stopwatch, HW, STOPWATCH, GObject)

HwStopwatch *hw_stopwatch_new         (const char *path);
/* What is to tell from the time when nobody listened: that a clock was left behind, that the file cannot be read.
 * (transfer full), NULL: nothing. */
char        *hw_stopwatch_steal_news  (HwStopwatch *self);
void         hw_stopwatch_start       (HwStopwatch *self, const char *project, const char *step);
void         hw_stopwatch_pause       (HwStopwatch *self);
void         hw_stopwatch_forget      (HwStopwatch *self, const char *project, const char *step);
gboolean     hw_stopwatch_get_running (HwStopwatch *self, const char **project, const char **step);     /* borrowed */
gboolean     hw_stopwatch_is_running  (HwStopwatch *self, const char *project, const char *step);
double       hw_stopwatch_minutes     (HwStopwatch *self, const char *project, const char *step);

G_END_DECLS
