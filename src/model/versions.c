/* versions.c - earlier versions of a project, kept in the sewing room
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The names alone say when each was kept, so that no index can be out of step with what is there: a folder that a
 * file-sync service has joined from two computers is in order.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/versions.h"

#include "files/save.h"
#include "model/edit.h"

#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>

#define ENDING ".handwheel"
#define MARK_LENGTH 8
#define STAMP_LENGTH 16                  /* of "20310509T140300Z" */
#define NAME_LENGTH (STAMP_LENGTH + 1 + MARK_LENGTH + sizeof ENDING - 1)

#define DAY (24 * 60 * 60)

/* How long one version of each span stays. */
static const struct { gint64 until, span; } ages[] = {
  { 31 * DAY, DAY },
  { 366 * DAY, 7 * DAY },
  { G_MAXINT64, 30 * DAY },
};

static void
free_version (gpointer data)
{
  HwVersion *version = data;

  g_free (version->path);
  g_free (version);
}

/* An id may be made of anything that is a token, such as "..": what is no plain name stands for itself by its mark. */
static char *
find_folder (const char *room_folder,
             const char *project)
{
  gboolean plain = project[0] != '\0';
  g_autofree char *mark = NULL;

  for (const char *c = project; *c != '\0'; c++)
    plain = plain && (g_ascii_isalnum (*c) || *c == '-' || *c == '_');
  mark = plain ? NULL : hw_mark_bytes (project, strlen (project));
  return g_build_filename (room_folder, "versions", plain ? project : mark, NULL);
}

/* FALSE: @name is not a version's. */
static gboolean
read_stamp (const char *name,
            gint64     *time)
{
  int part[6] = { 0 };
  g_autoptr (GDateTime) date = NULL;

  if (strlen (name) != NAME_LENGTH || !g_str_has_suffix (name, ENDING) || name[STAMP_LENGTH] != '-'
      || sscanf (name, "%4d%2d%2dT%2d%2d%2dZ", &part[0], &part[1], &part[2], &part[3], &part[4], &part[5]) != 6)
    return FALSE;
  date = g_date_time_new_utc (part[0], part[1], part[2], part[3], part[4], part[5]);
  if (date == NULL)
    return FALSE;
  *time = g_date_time_to_unix (date);
  return TRUE;
}

static char *
make_name (gint64      time,
           const char *mark)
{
  g_autoptr (GDateTime) date = g_date_time_new_from_unix_utc (time);
  g_autofree char *stamp = g_date_time_format (date, "%Y%m%dT%H%M%SZ");

  return g_strdup_printf ("%s-%.*s" ENDING, stamp, MARK_LENGTH, mark);
}

static int
compare_versions (gconstpointer a,
                  gconstpointer b)
{
  const HwVersion *first = *(const HwVersion * const *) a;
  const HwVersion *second = *(const HwVersion * const *) b;

  if (first->time != second->time)
    return first->time > second->time ? -1 : 1;
  return strcmp (second->path, first->path);
}

static GPtrArray *
list_folder (const char *folder)
{
  GPtrArray *versions = g_ptr_array_new_with_free_func (free_version);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      HwVersion *version;
      GStatBuf about;
      gint64 time = 0;

      if (!read_stamp (name, &time) || g_stat (path, &about) != 0 || !S_ISREG (about.st_mode))
        continue;
      version = g_new0 (HwVersion, 1);
      version->path = g_steal_pointer (&path);
      version->time = time;
      version->bytes = (guint64) about.st_size;
      g_ptr_array_add (versions, version);
    }
  g_ptr_array_sort (versions, compare_versions);
  return versions;
}

GPtrArray *
hw_versions_list (const char *room_folder,
                  const char *project)
{
  g_autofree char *folder = NULL;

  g_return_val_if_fail (room_folder != NULL && project != NULL, NULL);

  folder = find_folder (room_folder, project);
  return list_folder (folder);
}

/* ---- keeping ---- */

static gint64
find_span (gint64 age)
{
  gsize i = 0;

  while (age >= ages[i].until)
    i++;
  return ages[i].span;
}

/* Whether an older one tells of the same span of time. */
static gboolean
is_crowded (const GPtrArray *versions,
            guint            index,
            gint64           now)
{
  const HwVersion *version = g_ptr_array_index (versions, index);
  const HwVersion *older = index + 1 < versions->len ? g_ptr_array_index (versions, index + 1) : NULL;
  gint64 span = find_span (now - version->time);

  return now - version->time >= DAY && older != NULL && older->time / span == version->time / span;
}

/* What cannot be removed takes up room and does no harm; it is tried again the next time. */
static void
thin_out (const GPtrArray *versions,
          gint64           now)
{
  guint64 bytes = 0;
  guint n = 0;

  for (guint i = 0; i < versions->len; i++)
    {
      const HwVersion *version = g_ptr_array_index (versions, i);
      gboolean full = n >= HW_VERSIONS_MAX || bytes + version->bytes > HW_VERSIONS_MAX_BYTES;

      if (i > 0 && (full || is_crowded (versions, i, now)))
        {
          g_unlink (version->path);
          continue;
        }
      bytes += version->bytes;
      n++;
    }
}

static gboolean
holds (const HwVersion *version,
       const char      *mark)
{
  g_autofree char *own = hw_mark_file (version->path);

  return g_strcmp0 (own, mark) == 0;
}

gboolean
hw_versions_keep (const char      *room_folder,
                  const HwProject *project,
                  gint64           now,
                  GError         **error)
{
  gsize size = 0;
  g_autofree char *data = NULL;
  g_autofree char *mark = NULL;
  g_autofree char *folder = NULL;
  g_autofree char *name = NULL;
  g_autofree char *path = NULL;
  g_autoptr (GPtrArray) before = NULL;
  g_autoptr (GPtrArray) after = NULL;
  const HwVersion *newest;

  g_return_val_if_fail (room_folder != NULL && project != NULL, FALSE);

  data = hw_project_to_xml (project, &size);
  mark = hw_mark_bytes (data, size);
  folder = find_folder (room_folder, project->id);
  before = list_folder (folder);
  newest = before->len > 0 ? before->pdata[0] : NULL;
  if (newest != NULL && holds (newest, mark))
    return TRUE;
  if (newest != NULL && now <= newest->time)
    now = newest->time + 1;
  name = make_name (now, mark);
  path = g_build_filename (folder, name, NULL);
  if (!hw_save_bytes (path, data, (gssize) size, error))
    return FALSE;
  after = list_folder (folder);
  thin_out (after, now);
  return TRUE;
}

HwProject *
hw_version_read (const HwVersion *version,
                 const HwProject *project,
                 GError         **error)
{
  g_autoptr (HwProject) read = NULL;

  g_return_val_if_fail (version != NULL && project != NULL, NULL);

  read = hw_project_read (version->path, error);
  return read != NULL ? hw_edit_set_id (read, project->id, error) : NULL;
}
