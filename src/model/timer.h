/* timer.h - how long steps have been worked at so far: one clock runs at most, the others keep their time
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * timer.xml: <timer xmlns running="yes" since="2031-05-09T14:03:00Z" seen="2031-05-09T14:20:00Z">
 *   <step project="skirt" number="3" seconds="412"/>*</timer>   the first step is the one that runs
 * It belongs to the computer, not to the room: what was done is the journal's, and a step that is noted there leaves
 * the timer. Times are given by the caller, in seconds since 1970 UTC.
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

/* A clock that nobody has looked at for longer was left behind: it stands still where it was last seen. */
#define HW_TIMER_LOST_SECONDS (30 * 60)

typedef struct _HwTimer HwTimer;

HwTimer    *hw_timer_new         (void);
void        hw_timer_free        (HwTimer *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwTimer, hw_timer_free)

/* No file: nothing is timed. NULL with an error that names file and line. */
HwTimer    *hw_timer_read        (const char *path, GError **error);
gboolean    hw_timer_write       (const HwTimer *self, const char *path, GError **error);

/* Goes on from the time the step has had; the one that ran stands still. */
void        hw_timer_start       (HwTimer *self, const char *project, const char *step, gint64 now);
void        hw_timer_pause       (HwTimer *self, gint64 now);
void        hw_timer_forget      (HwTimer *self, const char *project, const char *step);
/* Notes that the clock was looked at. TRUE: it had been left behind, and stands still now. */
gboolean    hw_timer_see         (HwTimer *self, gint64 now);

/* The step that runs; FALSE: none does. Borrowed. */
gboolean    hw_timer_get_running (const HwTimer *self, const char **project, const char **step);
gboolean    hw_timer_is_running  (const HwTimer *self, const char *project, const char *step);
double      hw_timer_minutes     (const HwTimer *self, const char *project, const char *step, gint64 now);
gint64      hw_timer_seen        (const HwTimer *self);       /* when it was last looked at; 0 never */

G_END_DECLS
