/* read-ahead.c - the room's projects, read on a thread before anybody asks for them
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/read-ahead.h"

#include "window/project-list.h"

static void
read_in_thread (GTask        *task,
                gpointer      source,
                gpointer      data,
                GCancellable *cancellable)
{
  const GPtrArray *paths = data;
  HwProjectList   *list = hw_project_list_new ();

  for (guint i = 0; i < paths->len; i++)
    hw_project_list_look (list, g_ptr_array_index (paths, i));
  g_task_return_pointer (task, list, (GDestroyNotify) hw_project_list_free);
}

static void
read_cb (GObject      *source,
         GAsyncResult *result,
         gpointer      data)
{
  hw_workspace_take_projects (HW_WORKSPACE (source), g_task_propagate_pointer (G_TASK (result), NULL));
}

void
hw_read_ahead (HwWorkspace *workspace)
{
  g_autoptr (GPtrArray) paths = NULL;
  g_autoptr (GTask)     task = NULL;

  g_return_if_fail (HW_IS_WORKSPACE (workspace));

  paths = hw_project_list_paths (hw_workspace_get_room (workspace));
  if (paths->len <= HW_PROJECTS_IN_SIGHT)
    return;                              /* they have been read */
  task = g_task_new (workspace, NULL, read_cb, NULL);
  g_task_set_source_tag (task, hw_read_ahead);
  g_task_set_task_data (task, g_steal_pointer (&paths), (GDestroyNotify) g_ptr_array_unref);
  g_task_run_in_thread (task, read_in_thread);
}
