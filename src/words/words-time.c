/* words-time.c - days, times of the day and weeks as they are usual in the person's country
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The order of a date and what it is made of are the translator's; whether the month comes first, whether the day has
 * twice twelve hours and on which day a week begins are the locale's. The C locale, which nobody chose, is left out.
 */

#include "config.h"

#include "words/words-private.h"

#include <glib/gi18n.h>
#include <langinfo.h>
#include <locale.h>
#include <string.h>

static gboolean
has_country (void)
{
  const char *locale = setlocale (LC_TIME, NULL);

  return !g_str_equal (locale, "C") && !g_str_has_prefix (locale, "C.") && !g_str_equal (locale, "POSIX");
}

/* As in the United States. */
static gboolean
puts_month_first (void)
{
  return has_country () && g_str_has_prefix (nl_langinfo (D_FMT), "%m/%d");
}

static gboolean
counts_twelve_hours (void)
{
  const char *form = nl_langinfo (T_FMT);

  return has_country () && (strstr (form, "%r") != NULL || strstr (form, "%I") != NULL);
}

/* ---- days ---- */

/* @iso: "2031-05-09", what follows is passed over. */
static char *
write_day (const char *iso,
           const char *format)
{
  g_autoptr (GTimeZone) utc = g_time_zone_new_utc ();
  g_autofree char      *noon = iso != NULL ? g_strdup_printf ("%.10sT12:00:00Z", iso) : NULL;
  g_autoptr (GDateTime) date = noon != NULL ? g_date_time_new_from_iso8601 (noon, utc) : NULL;

  return date != NULL ? g_date_time_format (date, format) : g_strdup ("");
}

char *
hw_words_date (const char *iso)
{
  /* Translators: a date, such as 9 May 2031; for the letters see g_date_time_format. The second one is for people in
   * whose country the month comes first. */
  return write_day (iso, puts_month_first () ? _("%B %-d, %Y") : _("%-d %B %Y"));
}

char *
hw_words_day (const char *iso)
{
  /* Translators: a day of this year, such as 9 May; as above */
  return write_day (iso, puts_month_first () ? _("%B %-d") : _("%-d %B"));
}

char *
hw_words_day_short (const char *iso)
{
  /* Translators: a day as short as can be, under a column of a chart: “9 May”, or in figures where it is clear which
   * of them is the month */
  return write_day (iso, puts_month_first () ? C_("short", "%b %-d") : C_("short", "%-d %b"));
}

/* ---- times ---- */

static char *
write_clock (GDateTime *local)
{
  /* Translators: the time of the day; the second one is for people in whose country it has twice twelve hours */
  return g_date_time_format (local, counts_twelve_hours () ? C_("time", "%-I:%M %p") : C_("time", "%H:%M"));
}

char *
hw_words_moment (gint64 unix_time)
{
  g_autoptr (GDateTime) local = g_date_time_new_from_unix_local (unix_time);
  g_autofree char      *iso = local != NULL ? g_date_time_format (local, "%Y-%m-%d") : NULL;
  g_autofree char      *date = hw_words_date (iso);
  g_autofree char      *clock = local != NULL ? write_clock (local) : NULL;

  /* Translators: a date and the time of the day */
  return clock != NULL ? g_strdup_printf (C_("moment", "%s, %s"), date, clock) : g_strdup ("");
}

static GDateTime *
read_moment (const char *iso)
{
  g_autoptr (GDateTime) utc = iso != NULL ? g_date_time_new_from_iso8601 (iso, NULL) : NULL;

  return utc != NULL ? g_date_time_to_local (utc) : NULL;
}

char *
hw_words_entry_time (const char *iso)
{
  g_autoptr (GDateTime) local = read_moment (iso);

  return local != NULL ? hw_words_moment (g_date_time_to_unix (local)) : g_strdup (iso);
}

char *
hw_words_entry_time_short (const char *iso)
{
  g_autoptr (GDateTime) local = read_moment (iso);
  /* Translators: a day in a list */
  const char           *form = has_country () ? "%x" : C_("short", "%-d %b %Y");
  g_autofree char      *date = local != NULL ? g_date_time_format (local, form) : NULL;
  g_autofree char      *clock = local != NULL ? write_clock (local) : NULL;

  return clock != NULL ? g_strconcat (date, " ", clock, NULL) : g_strdup (iso);
}

/* ---- weeks ---- */

/* The C library says first on which day it counts the week from, then which of its days is the first. */
GDateWeekday
hw_words_week_start (void)
{
#ifdef __GLIBC__
  const guint counted_from_monday = 19971201;    /* a Monday; the other value is the Sunday before */
  guint       place = (guint) *nl_langinfo (_NL_TIME_FIRST_WEEKDAY) - 1;
  guint       from = GPOINTER_TO_UINT (nl_langinfo (_NL_TIME_WEEK_1STDAY)) == counted_from_monday ? 1 : 0;

  if (has_country () && place < 7)
    return (from + place) % 7 == 0 ? G_DATE_SUNDAY : (GDateWeekday) ((from + place) % 7);
#endif
  return G_DATE_MONDAY;
}
