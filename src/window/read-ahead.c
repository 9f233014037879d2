/* read-ahead.c - the room's projects, read on a thread before anybody asks for them
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/read-ahead.h"

#include "window/project-list.h"

#define UNDER_WAY "hw-read-ahead"

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

/* The window does not wait for what it asked for: closed meanwhile, nobody wants it any more. */
static void
read_cb (GObject      *source,
         GAsyncResult *result,
         gpointer      data)
{
  GWeakRef                *asked = data;
  g_autoptr (HwWorkspace)  workspace = g_weak_ref_get (asked);
  HwProjectList           *list = g_task_propagate_pointer (G_TASK (result), NULL);

  g_weak_ref_clear (asked);
  g_free (asked);
  if (workspace == NULL)
    {
      hw_project_list_free (list);
      return;
    }
  g_object_set_data (G_OBJECT (workspace), UNDER_WAY, NULL);
  hw_workspace_take_projects (workspace, list);
}

/* (transfer full): those of the room that have yet to be read. The open one stands for its file. */
static GPtrArray *
list_unread (HwWorkspace *workspace)
{
  g_autoptr (GPtrArray) all = hw_project_list_paths (hw_workspace_get_room (workspace));
  GPtrArray            *unread = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < all->len; i++)
    {
      const char *path = g_ptr_array_index (all, i);

      if (g_strcmp0 (path, hw_workspace_peek_path (workspace)) != 0 && !hw_workspace_knows_project (workspace, path))
        g_ptr_array_add (unread, g_strdup (path));
    }
  return unread;
}

void
hw_read_ahead (HwWorkspace *workspace)
{
  g_autoptr (GPtrArray) paths = NULL;
  g_autoptr (GTask)     task = NULL;
  GWeakRef             *asked;

  g_return_if_fail (HW_IS_WORKSPACE (workspace));

  if (g_object_get_data (G_OBJECT (workspace), UNDER_WAY) != NULL)
    return;                              /* what has come since is asked for again when that has been read */
  paths = list_unread (workspace);
  if (paths->len == 0)
    return;
  g_object_set_data (G_OBJECT (workspace), UNDER_WAY, GINT_TO_POINTER (TRUE));
  asked = g_new0 (GWeakRef, 1);
  g_weak_ref_init (asked, workspace);
  task = g_task_new (NULL, NULL, read_cb, asked);
  g_task_set_source_tag (task, hw_read_ahead);
  g_task_set_task_data (task, g_steal_pointer (&paths), (GDestroyNotify) g_ptr_array_unref);
  g_task_run_in_thread (task, read_in_thread);
}
