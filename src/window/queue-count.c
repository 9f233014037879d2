/* queue-count.c - the room's queue as it stands now, planned on a thread
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/queue-count.h"

#include "window/project-list.h"
#include "words/words-example.h"

typedef struct
{
  GWeakRef    source;
  HwHandbook *handbook;
  HwRoom     *room;
  HwProject  *open;                      /* stands for its file; NULL none */
  char       *open_path;
  GPtrArray  *projects;                  /* NULL: to be read, on the thread */
  char       *now;
  void     (* done) (gpointer source, HwQueue *queue);
} Count;

static void
free_count (gpointer data)
{
  Count *count = data;

  g_weak_ref_clear (&count->source);
  hw_handbook_unref (count->handbook);
  hw_room_unref (count->room);
  g_clear_pointer (&count->open, hw_project_unref);
  g_free (count->open_path);
  g_clear_pointer (&count->projects, g_ptr_array_unref);
  g_free (count->now);
  g_free (count);
}

static void
count_in_thread (GTask        *task,
                 gpointer      source,
                 gpointer      data,
                 GCancellable *cancellable)
{
  Count                *count = data;
  g_autoptr (GPtrArray) work = NULL;

  if (count->projects == NULL)
    {
      g_autoptr (HwProjectList) list = hw_project_list_new ();

      count->projects = hw_project_list_projects (list, count->room, count->open, count->open_path);
    }
  work = hw_words_list_work (count->projects, count->room);
  g_task_return_pointer (task, hw_queue_new (count->handbook, work, count->room, count->now,
                                             HW_QUEUE_AS_PREFERRED), (GDestroyNotify) hw_queue_unref);
}

static void
counted_cb (GObject      *source,
            GAsyncResult *result,
            gpointer      data)
{
  Count              *count = g_task_get_task_data (G_TASK (result));
  g_autoptr (HwQueue) queue = g_task_propagate_pointer (G_TASK (result), NULL);   /* cancelled: NULL */
  g_autoptr (GObject) asker = g_weak_ref_get (&count->source);

  if (queue != NULL && asker != NULL)
    count->done (asker, queue);
}

void
hw_queue_count (HwWorkspace   *workspace,
                gpointer       source,
                GCancellable **counting,
                void        (* done) (gpointer source, HwQueue *queue))
{
  g_autoptr (GTask)     task = NULL;
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  Count                *count = g_new0 (Count, 1);

  hw_queue_count_cancel (counting);
  *counting = g_cancellable_new ();
  count->handbook = hw_handbook_ref ((HwHandbook *) hw_workspace_get_handbook (workspace));
  count->room = hw_room_ref ((HwRoom *) hw_workspace_get_room (workspace));
  count->open = hw_workspace_peek_project (workspace) != NULL
                ? hw_project_ref ((HwProject *) hw_workspace_peek_project (workspace)) : NULL;
  count->open_path = g_strdup (hw_workspace_peek_path (workspace));
  count->projects = hw_workspace_known_projects (workspace);
  count->now = g_date_time_format_iso8601 (now);
  count->done = done;
  g_weak_ref_init (&count->source, source);
  task = g_task_new (NULL, *counting, counted_cb, NULL);
  g_task_set_source_tag (task, hw_queue_count);
  g_task_set_task_data (task, count, free_count);
  g_task_run_in_thread (task, count_in_thread);
}

void
hw_queue_count_cancel (GCancellable **counting)
{
  if (*counting != NULL)
    g_cancellable_cancel (*counting);
  g_clear_object (counting);
}
