/* room-preferences.c - what the person chose: its file
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include "files/rescue.h"
#include "model/formats.h"
#include "model/project-private.h"
#include "model/read-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#define FILE_NAME "preferences.xml"
#define HOURS_LOW 0.1
#define HOURS_HIGH 168                   /* in a week */
#define CHANGE_MINUTES_HIGH 240

static const char * const units[] = { "mm", "inch", NULL };
static const char * const numbers[] = { "point", "comma", NULL };
static const char * const papers[] = { "a5", "a6", "a4", "letter", NULL };
static const char * const yes_no[] = { "no", "yes", NULL };

/* ---- reading ---- */

static gboolean
read_change (const HwXml   *xml,
             const xmlNode *node,
             HwPreferences *preferences,
             GError       **error)
{
  static const char * const known[] = { "part", "minutes", NULL };
  int part = 0;

  if (!hw_read_check_leaf (xml, node, known, error)
      || !hw_xml_get_required_word (xml, node, "part", hw_change_part_ids, &part, error))
    return FALSE;
  if (!isnan (preferences->change_minutes[part]))
    return hw_read_refuse (xml, node, error, _("the minutes of “%s” stand there twice; keep one of them"),
                           hw_change_part_ids[part]);
  return hw_xml_get_required_number (xml, node, "minutes", 0, CHANGE_MINUTES_HIGH, &preferences->change_minutes[part],
                                     error);
}

static gboolean
read_queue (const HwXml   *xml,
            const xmlNode *node,
            HwPreferences *preferences,
            GError       **error)
{
  static const char * const none[] = { NULL };
  static const char * const known[] = { "id", NULL };
  static const char * const elements[] = { "project", NULL };
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GStrvBuilder) ids = g_strv_builder_new ();

  if (preferences->queue[0] != NULL)
    return hw_read_refuse (xml, node, error, _("<queue> stands there twice; put every project into one"));
  if (!hw_xml_check_attributes (xml, node, none, error) || !hw_read_check_text (xml, node, error))
    return FALSE;
  for (const xmlNode *child = hw_xml_first (node, NULL); child != NULL; child = hw_xml_next (child, NULL))
    {
      g_autofree char *id = NULL;

      if (!hw_read_check_element (xml, child, elements, error) || !hw_read_check_leaf (xml, child, known, error))
        return FALSE;
      id = hw_read_new_id (xml, child, "id", seen, error);
      if (id == NULL)
        return FALSE;
      g_strv_builder_add (ids, id);
    }
  g_strfreev (preferences->queue);
  preferences->queue = g_strv_builder_end (ids);
  return TRUE;
}

static gboolean
read_head (const HwXml   *xml,
           HwPreferences *preferences,
           GError       **error)
{
  static const char * const known[] = { "hours-a-week", "units", "numbers", "paper", "mixed", NULL };
  const xmlNode *root = hw_xml_root (xml);
  int unit = -1;
  int number = -1;
  int paper = -1;
  int mixed = 0;

  if (!hw_xml_check_attributes (xml, root, known, error) || !hw_read_check_text (xml, root, error)
      || !hw_xml_get_number (xml, root, "hours-a-week", HOURS_LOW, HOURS_HIGH, &preferences->hours_a_week, error)
      || !hw_xml_get_word (xml, root, "units", units, &unit, error)
      || !hw_xml_get_word (xml, root, "numbers", numbers, &number, error)
      || !hw_xml_get_word (xml, root, "paper", papers, &paper, error)
      || !hw_xml_get_word (xml, root, "mixed", yes_no, &mixed, error))
    return FALSE;
  preferences->units = unit >= 0 ? g_strdup (units[unit]) : NULL;
  preferences->numbers = number >= 0 ? g_strdup (numbers[number]) : NULL;
  preferences->paper = paper >= 0 ? g_strdup (papers[paper]) : NULL;
  preferences->mixed = mixed == 1;
  return TRUE;
}

/* (transfer full) */
static HwPreferences *
read_preferences (const HwXml *xml,
                  GError     **error)
{
  static const char * const elements[] = { "change", "queue", NULL };
  g_autoptr (HwPreferences) preferences = hw_preferences_new ();

  if (!read_head (xml, preferences, error))
    return NULL;
  for (const xmlNode *node = hw_xml_first (hw_xml_root (xml), NULL); node != NULL; node = hw_xml_next (node, NULL))
    if (!hw_read_check_element (xml, node, elements, error)
        || !(hw_xml_is (node, "change") ? read_change : read_queue) (xml, node, preferences, error))
      return NULL;
  return g_steal_pointer (&preferences);
}

HwPreferences *
hw_preferences_read (const char *folder,
                     GError    **error)
{
  g_autofree char *path = g_build_filename (folder, FILE_NAME, NULL);
  g_autoptr (HwXml) xml = NULL;

  if (!g_file_test (path, G_FILE_TEST_EXISTS))
    return hw_preferences_new ();
  xml = hw_format_read_file (path, HW_LIST_MAX_BYTES, "preferences", error);
  return xml != NULL ? read_preferences (xml, error) : NULL;
}

/* ---- writing ---- */

static void
write_queue (HwXmlWriter *writer,
             char       **queue)
{
  if (queue[0] == NULL)
    return;
  hw_xml_writer_open (writer, "queue");
  for (; *queue != NULL; queue++)
    {
      hw_xml_writer_open (writer, "project");
      hw_xml_writer_attr (writer, "id", *queue);
      hw_xml_writer_close (writer);
    }
  hw_xml_writer_close (writer);
}

static char *
preferences_to_xml (const HwPreferences *self,
                    gsize               *size)
{
  HwXmlWriter *writer = hw_xml_writer_new ("preferences", HW_ROOM_NS);

  hw_xml_writer_number (writer, "hours-a-week", self->hours_a_week);
  hw_xml_writer_attr (writer, "units", self->units);
  hw_xml_writer_attr (writer, "numbers", self->numbers);
  hw_xml_writer_attr (writer, "paper", self->paper);
  hw_xml_writer_attr (writer, "mixed", yes_no[self->mixed ? 1 : 0]);
  for (int part = 0; part < HW_N_CHANGE_PARTS; part++)
    {
      if (isnan (self->change_minutes[part]))
        continue;
      hw_xml_writer_open (writer, "change");
      hw_xml_writer_attr (writer, "part", hw_change_part_ids[part]);
      hw_xml_writer_number (writer, "minutes", self->change_minutes[part]);
      hw_xml_writer_close (writer);
    }
  write_queue (writer, self->queue);
  return hw_xml_writer_finish (writer, size);
}

gboolean
hw_preferences_is_equal (const HwPreferences *a,
                         const HwPreferences *b)
{
  g_autofree char *first = preferences_to_xml (a, NULL);
  g_autofree char *second = preferences_to_xml (b, NULL);

  return strcmp (first, second) == 0;
}

HwPreferences *
hw_preferences_reread (const HwPreferences *self,
                       GError             **error)
{
  g_autoptr (HwXml) xml = NULL;
  g_autofree char *data = NULL;
  gsize size = 0;

  data = preferences_to_xml (self, &size);
  xml = hw_format_read_bytes (FILE_NAME, data, size, "preferences", error);
  return xml != NULL ? read_preferences (xml, error) : NULL;
}

gboolean
hw_preferences_save (const HwPreferences *self,
                     const char          *folder,
                     GError             **error)
{
  g_autofree char *path = g_build_filename (folder, FILE_NAME, NULL);
  g_autofree char *data = NULL;
  gsize size = 0;

  data = preferences_to_xml (self, &size);
  return hw_format_save ("preferences", path, g_steal_pointer (&data), size, error);
}

void
hw_preferences_rescue (const HwPreferences *self,
                       GError             **error)
{
  gsize size = 0;
  g_autofree char *data = preferences_to_xml (self, &size);
  g_autofree char *rescued = hw_rescue_bytes (FILE_NAME, NULL, data, size);

  hw_rescue_tell (error, rescued);
}

/* ---- merging ---- */

static gboolean
is_same_number (double a,
                double b)
{
  return a == b || (isnan (a) && isnan (b));
}

static double
merge_number (double    before,
              double    mine,
              double    theirs,
              gboolean *clash)
{
  if (is_same_number (before, mine))
    return theirs;
  *clash = *clash || !(is_same_number (before, theirs) || is_same_number (mine, theirs));
  return mine;
}

static void
merge_text (const char *before,
            char      **mine,
            const char *theirs,
            gboolean   *clash)
{
  if (g_strcmp0 (before, *mine) == 0)
    {
      g_free (*mine);
      *mine = g_strdup (theirs);
    }
  else
    {
      *clash = *clash || (g_strcmp0 (before, theirs) != 0 && g_strcmp0 (*mine, theirs) != 0);
    }
}

static void
merge_texts (const HwPreferences *before,
             HwPreferences       *mine,
             const HwPreferences *theirs,
             gboolean            *clash)
{
  merge_text (before->units, &mine->units, theirs->units, clash);
  merge_text (before->paper, &mine->paper, theirs->paper, clash);
  merge_text (before->numbers, &mine->numbers, theirs->numbers, clash);
  if (g_strv_equal ((const char * const *) before->queue, (const char * const *) mine->queue))
    {
      g_strfreev (mine->queue);
      mine->queue = g_strdupv (theirs->queue);
    }
  else
    *clash = *clash || (!g_strv_equal ((const char * const *) before->queue, (const char * const *) theirs->queue)
                        && !g_strv_equal ((const char * const *) mine->queue, (const char * const *) theirs->queue));
}

/* Choice by choice, as lists are merged thing by thing. */
gboolean
hw_preferences_merge (const HwPreferences *before,
                      HwPreferences       *mine,
                      const HwPreferences *theirs,
                      GError             **error)
{
  gboolean clash = FALSE;

  mine->hours_a_week = merge_number (before->hours_a_week, mine->hours_a_week, theirs->hours_a_week, &clash);
  mine->mixed = merge_number (before->mixed, mine->mixed, theirs->mixed, &clash) != 0;
  for (int part = 0; part < HW_N_CHANGE_PARTS; part++)
    mine->change_minutes[part] = merge_number (before->change_minutes[part], mine->change_minutes[part],
                                               theirs->change_minutes[part], &clash);
  merge_texts (before, mine, theirs, &clash);
  if (!clash)
    return TRUE;
  g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_CHANGED,
               _("%s: the same choice was changed elsewhere meanwhile; look at what stands there now and make your "
                 "change again"), FILE_NAME);
  return FALSE;
}
