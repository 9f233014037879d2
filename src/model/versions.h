/* versions.h - earlier versions of a project, kept in the sewing room
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * versions/PROJECT/20310509T140300Z-1a2b3c4d.handwheel: a whole project file each, named by when it was kept (UTC) and
 * by the beginning of its mark. Each is written as any file is: whole or not at all; older ones go only when it is on
 * the disk. A version is what a project was before it was edited, so that the last one always lies in its own file.
 * Times are given by the caller, in seconds since 1970 UTC.
 */

#pragma once
#include "model/project.h"

G_BEGIN_DECLS

/* While a project is edited one is kept at most so often. */
#define HW_VERSIONS_SECONDS (60 * 60)

/* What stays: all of the last day, the first of each day for a month, of each week for a year, then of each 30 days;
 * never more than these, the newest always. */
#define HW_VERSIONS_MAX 100
#define HW_VERSIONS_MAX_BYTES (16u << 20)

typedef struct
{
  char   *path;
  gint64  time;
  guint64 bytes;
} HwVersion;

/* (transfer full) (element-type HwVersion): of the project with that id, the newest first. */
GPtrArray *hw_versions_list (const char *room_folder, const char *project);

/* Keeps @project, unless the newest version holds just the same. When the clock was set back, it comes a second after
 * the newest. */
gboolean   hw_versions_keep (const char *room_folder, const HwProject *project, gint64 now, GError **error);

/* What @version holds, under the id of @project, so that it can take its place. */
HwProject *hw_version_read  (const HwVersion *version, const HwProject *project, GError **error);

/* ---- what differs ---- */

typedef struct
{
  GPtrArray *added, *removed, *changed;  /* (element-type HwStep): of the later one, the earlier one, the later one */
  gboolean   reordered;                  /* steps that both have follow each other otherwise */
  gboolean   fabrics, threads, wishes;
  gboolean   title, due, note;
  gboolean   settings;                   /* sharing set-ups, gathering pressing */
} HwDifference;

/* Steps are the same by their number. */
HwDifference *hw_project_compare      (const HwProject *earlier, const HwProject *later);
gboolean      hw_difference_is_none   (const HwDifference *self);
void          hw_difference_free      (HwDifference *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwDifference, hw_difference_free)

G_END_DECLS
