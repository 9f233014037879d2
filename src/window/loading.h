/* loading.h - what the window works on, read and planned on a thread while the window system is being begun
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/order-memory.h"
#include "plan/plan.h"
#include "window/project-list.h"

G_BEGIN_DECLS

/* What was read. Whoever takes a part sets its place to NULL; the rest goes with the whole. */
typedef struct
{
  char          *data_folder, *room_folder;
  HwHandbook    *handbook;
  GError        *overlay_error;          /* why the person's own handbook is left out */
  HwRoom        *room;                   /* without a machine in the folder: the room of our defaults */
  char          *room_note;              /* of its files, just before it was read: see hw_room_watch_note() */
  HwOrderMemory *memory;
  HwProjectList *projects;               /* what was read: at the start, those of the room that stay in sight too */
  char          *path;                   /* of the project, canonical; NULL none */
  HwProjectPlace place;                  /* as it was just before the project was read */
  HwProject     *project;                /* NULL: none, or it cannot be read */
  HwPlan        *plan;                   /* by HW_PLAN_QUICK_STATES; NULL: none, or it cannot be planned */
} HwLoaded;

/* Handbook, the overlay that is in use, and room, at once. (transfer full); NULL with @error. */
HwLoaded *hw_loaded_new   (const char *data_folder, const char *room_folder, GError **error);
void      hw_loaded_free  (HwLoaded *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwLoaded, hw_loaded_free)

/* Set atomically: the project's steps, once it is read, and how many of them have been paired. */
typedef struct { int n_steps, n_paired; } HwLoadedSteps;
/* Reads the project at @self's path, and plans it, for a thread of its own. */
void      hw_loaded_read_project (HwLoaded *self, HwLoadedSteps *steps);

typedef struct _HwLoading HwLoading;

/* Begins the thread. @path_or_null: the project that will be wanted; else that which was open last; a large one is left
 * to whoever opens it. It reads only, and what goes wrong is not told: whoever reads again finds the same, and why. */
HwLoading *hw_loading_begin  (const char *data_folder, const char *room_folder, const char *path_or_null);
/* Waits for the thread, and takes what it found: (transfer full). NULL when handbook or room cannot be read,
 * or when that was begun so long ago that they may be others now. */
HwLoaded  *hw_loading_finish (HwLoading *self);

G_END_DECLS
