/* calendar.h - hours of work laid on the calendar
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A week's hours are parted evenly over as few days as keep each within HW_SEWING_DAY_HOURS, those days evenly over the
 * week, the first one today. Six hours a week are two each on the first, the third and the fifth day.
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

#define HW_SEWING_DAY_HOURS 2.0          /* at one sitting; common practice, no source */

/* Seconds from the beginning of the work until @hours of it are done. Grows with @hours. */
gint64 hw_calendar_seconds (double hours_a_week, double hours);

/* (transfer full): "2031-05-09T14:03:00Z", @seconds after @from_iso; NULL when @from_iso is no ISO 8601 time. */
char  *hw_calendar_time    (const char *from_iso, gint64 seconds);

/* Seconds from @from_iso to @to_iso; 0 when one of them is no time. */
gint64 hw_calendar_between (const char *from_iso, const char *to_iso);

/* Number of the day, UTC, @seconds after @from_iso: grows by one each midnight. */
gint64 hw_calendar_day     (const char *from_iso, gint64 seconds);

G_END_DECLS
