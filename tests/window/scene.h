/* scene.h - a sewing room in a temporary folder with one project, for a test of the window
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "window/workspace.h"

G_BEGIN_DECLS

typedef struct
{
  char        *folder;
  char        *data;             /* data folder with the handbook */
  char        *room;
  char        *path;             /* of the project "apron" */
  HwWorkspace *workspace;        /* the project is open */
  GString     *log;              /* "changed", "selection", "message: …", one a line */
} Scene;

void  scene_open     (Scene *self);
void  scene_close    (Scene *self);            /* asserts that the workspace goes with it */
void  scene_clear_log (Scene *self);
/* What lies in the project's file now. (transfer full) */
HwProject *scene_read_file (Scene *self);
/* The apron's step of that number; asserts that it is there. */
const HwStep *scene_step (Scene *self, const char *number);
/* Runs the main loop until @done says so; fails after five seconds. */
void  scene_wait     (gboolean (* done) (gpointer data), gpointer data);
/* Runs what is ready. */
void  scene_settle   (void);

G_END_DECLS
