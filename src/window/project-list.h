/* project-list.h - the projects of the room's folder, and how far each has got
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "model/room.h"

G_BEGIN_DECLS

typedef struct
{
  char    *path;
  char    *title;                /* the file's name when it could not be read */
  char    *due;                  /* ISO date or NULL */
  guint    n_steps;
  guint    n_done;               /* steps done, at a machine or by hand */
  char    *problem;              /* why it could not be read; NULL when it could */
  HwProject *project;            /* a reference; NULL when it could not be read */
  gboolean is_awaited;           /* a large one that has yet to be read, or read again: what is told is older, or its
                                  * file's name alone */
} HwProjectSummary;

/* Remembers what was read by path, size and time, so that only changed files are read again. Not for two threads at
 * once; one may fill a list of its own that another then takes over. */
typedef struct _HwProjectList HwProjectList;

HwProjectList *hw_project_list_new  (void);
void           hw_project_list_free (HwProjectList *self);
/* Sorted by title. @open (may be NULL) stands for the file at @open_path, saved or not. (transfer full) */
GPtrArray     *hw_project_list_read (HwProjectList *self, const HwRoom *room, const HwProject *open,
                                     const char *open_path);
/* The same of those that stay in sight, the open one among them. Large ones are not read, but awaited until they have
 * been. @n_all: (out): how many there are. */
GPtrArray     *hw_project_list_read_in_sight (HwProjectList *self, const HwRoom *room, const HwProject *open,
                                              const char *open_path, guint *n_all);
/* The same as projects, those that could be read: (element-type HwProject), owned references. (transfer full) */
GPtrArray     *hw_project_list_projects (HwProjectList *self, const HwRoom *room, const HwProject *open,
                                         const char *open_path);
/* The file's project, borrowed until the next call; NULL when it cannot be read. */
HwProject     *hw_project_list_look (HwProjectList *self, const char *path);
/* Whether it has been read as it stands. */
gboolean       hw_project_list_knows (HwProjectList *self, const char *path);
/* What @other has read is not read again by @self. (transfer full): @other */
void           hw_project_list_take (HwProjectList *self, HwProjectList *other);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwProjectList, hw_project_list_free)

/* A project so large that it must not hold up what waits for it: reading and planning it takes longer than a tenth of a
 * second. */
gboolean       hw_project_is_large (const char *path);

/* (transfer full) (element-type utf8): paths of the project files in the room, in no order. */
GPtrArray     *hw_project_list_paths (const HwRoom *room);
/* Of those in the room the ones that stay in sight: all, or where they are more than HW_PROJECTS_IN_SIGHT those that
 * were opened last. (transfer full) (element-type utf8) */
#define HW_PROJECTS_IN_SIGHT 40
GPtrArray     *hw_project_list_in_sight (const HwRoom *room);

/* A file name in @folder that no project has yet, made from @title. (transfer full) */
char          *hw_project_list_free_path (const char *folder, const char *title);

G_END_DECLS
