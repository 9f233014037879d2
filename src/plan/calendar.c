/* calendar.c - hours of work laid on the calendar
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/calendar.h"

#include <math.h>

#define DAY (24 * 60 * 60)
#define HOURS_A_WEEK_MIN 0.1
#define HOURS_A_WEEK_MAX 168.0
#define HOURS_MAX 1e6                    /* a century of whole days: dates beyond it mean nothing */

gint64
hw_calendar_seconds (double hours_a_week, double hours)
{
  double week = CLAMP (hours_a_week, HOURS_A_WEEK_MIN, HOURS_A_WEEK_MAX);
  int days_a_week = (int) CLAMP (ceil (week / HW_SEWING_DAY_HOURS - 1e-9), 1, 7);
  double day_hours = week / days_a_week;
  double done = CLAMP (hours, 0, HOURS_MAX);
  gint64 day = (gint64) floor (done / day_hours + 1e-9);
  double rest = MAX (0, done - (double) day * day_hours);

  return day * 7 / days_a_week * DAY + (gint64) floor (rest * 3600 + 1e-6);
}

static GDateTime *
read_time (const char *iso)
{
  g_autoptr (GTimeZone) utc = g_time_zone_new_utc ();

  return iso != NULL ? g_date_time_new_from_iso8601 (iso, utc) : NULL;
}

char *
hw_calendar_time (const char *from_iso, gint64 seconds)
{
  g_autoptr (GDateTime) from = read_time (from_iso);
  g_autoptr (GDateTime) utc = from != NULL ? g_date_time_to_utc (from) : NULL;
  g_autoptr (GDateTime) then = utc != NULL ? g_date_time_add_seconds (utc, (double) seconds) : NULL;

  return then != NULL ? g_date_time_format (then, "%Y-%m-%dT%H:%M:%SZ") : NULL;
}

gint64
hw_calendar_between (const char *from_iso, const char *to_iso)
{
  g_autoptr (GDateTime) from = read_time (from_iso);
  g_autoptr (GDateTime) to = read_time (to_iso);

  return from != NULL && to != NULL ? g_date_time_difference (to, from) / G_TIME_SPAN_SECOND : 0;
}

gint64
hw_calendar_day (const char *from_iso, gint64 seconds)
{
  g_autoptr (GDateTime) from = read_time (from_iso);
  gint64 then = (from != NULL ? g_date_time_to_unix (from) : 0) + seconds;

  return then >= 0 ? then / DAY : (then + 1) / DAY - 1;
}
