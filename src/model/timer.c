/* timer.c - how long steps have been worked at so far
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/timer.h"

#include <glib/gi18n.h>

#include "files/save.h"
#include "model/read-private.h"

#define TIMER_NS "urn:handwheel:timer:1"
#define MAX_BYTES (256 * 1024)
#define LONGEST_SECONDS (1000.0 * 3600)

typedef struct
{
  char  *project, *number;
  double seconds;                /* without what runs now */
} Timed;

struct _HwTimer
{
  GPtrArray *steps;              /* (element-type Timed), the one touched last first */
  gboolean   running;            /* the first one does */
  gint64     since, seen;
};

static void
free_timed (gpointer data)
{
  Timed *timed = data;

  g_free (timed->project);
  g_free (timed->number);
  g_free (timed);
}

HwTimer *
hw_timer_new (void)
{
  HwTimer *self = g_new0 (HwTimer, 1);

  self->steps = g_ptr_array_new_with_free_func (free_timed);
  return self;
}

void
hw_timer_free (HwTimer *self)
{
  if (self == NULL)
    return;
  g_ptr_array_unref (self->steps);
  g_free (self);
}

/* ---- time ---- */

static int
find_timed (const HwTimer *self,
            const char    *project,
            const char    *step)
{
  for (guint i = 0; i < self->steps->len; i++)
    {
      const Timed *timed = g_ptr_array_index (self->steps, i);

      if (g_str_equal (timed->project, project) && g_str_equal (timed->number, step))
        return (int) i;
    }
  return -1;
}

/* A clock that was put back takes nothing away. */
static double
seconds_until (const HwTimer *self,
               gint64         now)
{
  return (double) MAX (now - self->since, 0);
}

void
hw_timer_pause (HwTimer *self,
                gint64   now)
{
  g_return_if_fail (self != NULL);

  if (!self->running)
    return;
  ((Timed *) g_ptr_array_index (self->steps, 0))->seconds += seconds_until (self, now);
  self->running = FALSE;
}

void
hw_timer_start (HwTimer    *self,
                const char *project,
                const char *step,
                gint64      now)
{
  Timed *timed;
  int    index;

  g_return_if_fail (self != NULL && project != NULL && step != NULL);

  if (hw_timer_is_running (self, project, step))
    return;
  hw_timer_pause (self, now);
  index = find_timed (self, project, step);
  if (index >= 0)
    {
      timed = g_ptr_array_steal_index (self->steps, (guint) index);
    }
  else
    {
      timed = g_new0 (Timed, 1);
      timed->project = g_strdup (project);
      timed->number = g_strdup (step);
    }
  g_ptr_array_insert (self->steps, 0, timed);
  self->running = TRUE;
  self->since = self->seen = now;
}

void
hw_timer_forget (HwTimer    *self,
                 const char *project,
                 const char *step)
{
  int index;

  g_return_if_fail (self != NULL && project != NULL && step != NULL);

  index = find_timed (self, project, step);
  if (index < 0)
    return;
  if (index == 0)
    self->running = FALSE;
  g_ptr_array_remove_index (self->steps, (guint) index);
}

gboolean
hw_timer_see (HwTimer *self,
              gint64   now)
{
  gboolean lost;

  g_return_val_if_fail (self != NULL, FALSE);

  lost = self->running && now - self->seen > HW_TIMER_LOST_SECONDS;
  if (lost)
    hw_timer_pause (self, self->seen);
  else
    self->seen = now;
  return lost;
}

gboolean
hw_timer_get_running (const HwTimer *self,
                      const char   **project,
                      const char   **step)
{
  const Timed *timed;

  g_return_val_if_fail (self != NULL, FALSE);

  if (!self->running)
    return FALSE;
  timed = g_ptr_array_index (self->steps, 0);
  if (project != NULL)
    *project = timed->project;
  if (step != NULL)
    *step = timed->number;
  return TRUE;
}

gboolean
hw_timer_is_running (const HwTimer *self,
                     const char    *project,
                     const char    *step)
{
  g_return_val_if_fail (self != NULL && project != NULL && step != NULL, FALSE);

  return self->running && find_timed (self, project, step) == 0;
}

double
hw_timer_minutes (const HwTimer *self,
                  const char    *project,
                  const char    *step,
                  gint64         now)
{
  int    index;
  double seconds;

  g_return_val_if_fail (self != NULL && project != NULL && step != NULL, 0);

  index = find_timed (self, project, step);
  if (index < 0)
    return 0;
  seconds = ((const Timed *) g_ptr_array_index (self->steps, (guint) index))->seconds;
  if (index == 0 && self->running)
    seconds += seconds_until (self, now);
  return MIN (seconds, LONGEST_SECONDS) / 60;
}

gint64
hw_timer_seen (const HwTimer *self)
{
  g_return_val_if_fail (self != NULL, 0);

  return self->seen;
}

/* ---- its file ---- */

static const char * const yes_no[] = { "no", "yes", NULL };

static gboolean
read_time (const HwXml   *xml,
           const xmlNode *node,
           const char    *attribute,
           gint64        *seconds,
           GError       **error)
{
  g_autofree char      *text = hw_xml_dup_attr (node, attribute);
  g_autoptr (GDateTime) time = NULL;

  if (text == NULL)
    return TRUE;
  time = g_date_time_new_from_iso8601 (text, NULL);
  if (time == NULL)
    return hw_read_refuse (xml, node, error, _("%s=\"%s\" is no time such as 2031-05-09T14:03:00Z"), attribute, text);
  *seconds = g_date_time_to_unix (time);
  return TRUE;
}

static gboolean
read_step (const HwXml   *xml,
           const xmlNode *node,
           HwTimer       *self,
           GError       **error)
{
  static const char * const known[] = { "project", "number", "seconds", NULL };
  Timed *timed = g_new0 (Timed, 1);

  g_ptr_array_add (self->steps, timed);
  if (!hw_read_check_leaf (xml, node, known, error))
    return FALSE;
  timed->project = hw_xml_dup_required (xml, node, "project", error);
  if (timed->project == NULL)
    return FALSE;
  timed->number = hw_xml_dup_required (xml, node, "number", error);
  return timed->number != NULL
         && hw_xml_get_required_number (xml, node, "seconds", 0, LONGEST_SECONDS, &timed->seconds, error);
}

static HwTimer *
read_timer (const HwXml *xml,
            GError     **error)
{
  static const char * const known[] = { "running", "since", "seen", NULL };
  static const char * const elements[] = { "step", NULL };
  g_autoptr (HwTimer) self = hw_timer_new ();
  const xmlNode      *root = hw_xml_root (xml);
  int                 running = 0;

  if (!hw_xml_check_attributes (xml, root, known, error) || !hw_read_check_text (xml, root, error)
      || !hw_xml_get_word (xml, root, "running", yes_no, &running, error)
      || !read_time (xml, root, "since", &self->since, error) || !read_time (xml, root, "seen", &self->seen, error))
    return NULL;
  for (const xmlNode *node = hw_xml_first (root, NULL); node != NULL; node = hw_xml_next (node, NULL))
    if (!hw_read_check_element (xml, node, elements, error) || !read_step (xml, node, self, error))
      return NULL;
  self->running = running == 1 && self->steps->len > 0 && self->since > 0;
  return g_steal_pointer (&self);
}

HwTimer *
hw_timer_read (const char *path,
               GError    **error)
{
  g_autoptr (HwXml) xml = NULL;

  g_return_val_if_fail (path != NULL, NULL);

  if (!g_file_test (path, G_FILE_TEST_EXISTS))
    return hw_timer_new ();
  xml = hw_xml_read_file (path, MAX_BYTES, "timer", TIMER_NS, error);
  return xml != NULL ? read_timer (xml, error) : NULL;
}

static void
write_time (HwXmlWriter *writer,
            const char  *attribute,
            gint64       seconds)
{
  g_autoptr (GDateTime) time = g_date_time_new_from_unix_utc (seconds);
  g_autofree char      *text = g_date_time_format (time, "%Y-%m-%dT%H:%M:%SZ");

  hw_xml_writer_attr (writer, attribute, text);
}

gboolean
hw_timer_write (const HwTimer *self,
                const char    *path,
                GError       **error)
{
  HwXmlWriter     *writer = hw_xml_writer_new ("timer", TIMER_NS);
  g_autofree char *data = NULL;
  gsize            size = 0;

  hw_xml_writer_attr (writer, "running", yes_no[self->running ? 1 : 0]);
  write_time (writer, "since", self->since);
  write_time (writer, "seen", self->seen);
  for (guint i = 0; i < self->steps->len; i++)
    {
      const Timed *timed = g_ptr_array_index (self->steps, i);

      hw_xml_writer_open (writer, "step");
      hw_xml_writer_attr (writer, "project", timed->project);
      hw_xml_writer_attr (writer, "number", timed->number);
      hw_xml_writer_number (writer, "seconds", timed->seconds);
      hw_xml_writer_close (writer);
    }
  data = hw_xml_writer_finish (writer, &size);
  return hw_save_bytes (path, data, (gssize) size, error);
}
