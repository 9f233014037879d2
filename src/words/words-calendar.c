/* words-calendar.c - care due as a calendar for other programs, RFC 5545
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lines end in CRLF and hold 75 octets at most, longer ones are folded (section 3.1) between characters; text is
 * escaped (3.3.11). An event lasts the day on which the care falls due, and does not make the person busy. Its UID
 * stays until the care has been done, so that importing the file again moves the event and does not double it.
 */

#include "config.h"

#include "words/words-private.h"

#include <glib/gi18n.h>
#include <string.h>

#define LINE_OCTETS 75
#define DATE_LENGTH 10                   /* of "2031-05-09" */

/* ---- lines ---- */

static void
add_line (GString *out, const char *line)
{
  gsize room = LINE_OCTETS;

  for (const char *c = line; *c != '\0'; c = g_utf8_next_char (c))
    {
      gsize octets = (gsize) (g_utf8_next_char (c) - c);

      if (octets > room)
        {
          g_string_append (out, "\r\n ");
          room = LINE_OCTETS - 1;
        }
      g_string_append_len (out, c, (gssize) octets);
      room -= octets;
    }
  g_string_append (out, "\r\n");
}

static void
add_text (GString *out, const char *name, const char *text)
{
  g_autoptr (GString) line = g_string_new (name);

  g_string_append_c (line, ':');
  for (const char *c = text; *c != '\0'; c++)
    {
      if (strchr ("\\;,", *c) != NULL)
        g_string_append_c (line, '\\');
      if (*c == '\n')
        g_string_append (line, "\\n");
      else if (g_ascii_iscntrl (*c))
        g_string_append_c (line, ' ');   /* not allowed there, and nothing that a person would see */
      else
        g_string_append_c (line, *c);
    }
  add_line (out, line->str);
}

/* "2031-05-09T14:03:00Z" -> "20310509T140300Z"; a date alone likewise. (transfer full) */
static char *
compact (const char *iso, gsize length)
{
  GString *out = g_string_new (NULL);

  for (gsize i = 0; i < length && iso[i] != '\0'; i++)
    if (iso[i] != '-' && iso[i] != ':')
      g_string_append_c (out, iso[i]);
  return g_string_free (out, FALSE);
}

/* ---- one event ---- */

/* The same for one care until it is done, another for the next; other rooms have other ones. */
static char *
name_event (const HwHandbook *handbook, const HwRoom *room, const HwCareDue *due)
{
  const char *task = due->care == HW_CARE_NEEDLE ? "needle" : handbook->care[due->care].entry.id;
  g_autofree char *since = due->since != NULL ? compact (due->since, strlen (due->since)) : g_strdup ("first");
  g_autofree char *folder = g_canonicalize_filename (room->folder, "/");
  g_autofree char *checksum = g_compute_checksum_for_string (G_CHECKSUM_SHA1, folder, -1);

  return g_strdup_printf ("%s-%s-%s-%.12s@handwheel", task, due->machine->id, since, checksum);
}

static const HwCareTask *
find_task (const HwHandbook *handbook, const HwCareDue *due)
{
  int needle = hw_handbook_find_care (handbook, "needle");

  if (due->care >= 0)
    return &handbook->care[due->care];
  return needle >= 0 ? &handbook->care[needle] : NULL;
}

/* When and how, cautions first. */
static char *
describe (const HwHandbook *handbook, const HwQueue *queue, const HwCareDue *due)
{
  GString *text = g_string_new (NULL);
  const HwCareTask *task = find_task (handbook, due);
  g_autofree char *clock = hw_words_care_clock (handbook, due);
  g_autofree char *when = hw_words_care_when (queue, due);
  g_autofree char *unplug = hw_words_caution (0);

  /* Translators: how far the clock has run, such as “12.4 of 15 h”; before which step, or “due now” */
  g_string_append_printf (text, _("%s, %s."), clock, when);
  g_string_append_printf (text, "\n%s", unplug);
  for (char **caution = task != NULL ? task->cautions : NULL; caution != NULL && *caution != NULL; caution++)
    g_string_append_printf (text, "\n%s", *caution);
  for (char **step = task != NULL ? task->steps : NULL; step != NULL && *step != NULL; step++)
    g_string_append_printf (text, "\n• %s", *step);
  return g_string_free (text, FALSE);
}

static void
add_date (GString *out, const char *name, const char *date)
{
  g_autofree char *compacted = compact (date, DATE_LENGTH);
  g_autofree char *line = g_strdup_printf ("%s;VALUE=DATE:%s", name, compacted);

  add_line (out, line);
}

static void
add_event (GString *out, const HwHandbook *handbook, const HwRoom *room, const HwQueue *queue, const HwCareDue *due,
           const char *stamp)
{
  g_autofree char *uid = name_event (handbook, room, due);
  g_autofree char *stamped = compact (stamp, strlen (stamp));
  g_autofree char *stamp_line = g_strconcat ("DTSTAMP:", stamped, NULL);
  g_autofree char *title = hw_words_care_title (handbook, due);
  g_autofree char *description = describe (handbook, queue, due);

  add_line (out, "BEGIN:VEVENT");
  add_text (out, "UID", uid);
  add_line (out, stamp_line);
  add_date (out, "DTSTART", due->date);
  add_text (out, "SUMMARY", title);
  add_text (out, "DESCRIPTION", description);
  add_line (out, "TRANSP:TRANSPARENT");
  add_line (out, "BEGIN:VALARM");
  add_line (out, "ACTION:DISPLAY");
  add_text (out, "DESCRIPTION", title);
  add_line (out, "TRIGGER:PT9H");        /* nine in the morning of that day */
  add_line (out, "END:VALARM");
  add_line (out, "END:VEVENT");
}

/**
 * hw_words_care_calendar:
 * @stamp: when the file is made, such as "2031-05-09T14:03:00Z"
 *
 * Returns: (transfer full): an iCalendar object with one event for each care that has a date
 */
char *
hw_words_care_calendar (const HwHandbook *handbook, const HwRoom *room, const HwQueue *queue, const char *stamp)
{
  GString *out = g_string_new (NULL);

  add_line (out, "BEGIN:VCALENDAR");
  add_line (out, "VERSION:2.0");
  add_line (out, "PRODID:-//Handwheel//Care//EN");
  add_line (out, "CALSCALE:GREGORIAN");
  for (guint i = 0; i < queue->care->len; i++)
    {
      const HwCareDue *due = g_ptr_array_index (queue->care, i);

      if (due->date != NULL)
        add_event (out, handbook, room, queue, due, stamp);
    }
  add_line (out, "END:VCALENDAR");
  return g_string_free (out, FALSE);
}
