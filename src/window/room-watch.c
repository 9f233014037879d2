/* room-watch.c - tells when another process wrote into the sewing room
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whoever writes there, the folder's monitors say so. A moment later, when many files may have come at once, a thread
 * looks at the files' names, sizes and times; where they are others than at the last look it reads the room and
 * compares it with the one that is known. What the owner wrote himself is found to be the same and told to nobody, so
 * that no write leads to another.
 */

#include "config.h"

#include "window/room-watch.h"

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <string.h>

#define WAIT_MS 200

static const char * const folders[] = { ".", "machines", "journal", "projects" };

#define PROJECTS 3                      /* of these */

struct _HwRoomWatch
{
  HwRoom          *known;
  HwRoomWatchFound found;
  HwRoomWatchStirred stirred;
  gpointer         data;
  GFileMonitor    *monitors[G_N_ELEMENTS (folders)];
  GCancellable    *gone;
  char            *own;
  char            *files, *projects;    /* as they were at the last look */
  guint            wait_id;
  gboolean         looking;
  gboolean         again;               /* something happened since the look began */
};

typedef struct
{
  HwRoom *known;
  char   *own;
  char   *files, *projects;             /* before; then as they are */
  HwRoom *room;                         /* NULL: the same as known */
  gboolean files_changed, projects_changed;
} Look;

static void
free_look (gpointer data)
{
  Look *look = data;

  hw_room_unref (look->known);
  hw_room_unref (look->room);
  g_free (look->own);
  g_free (look->files);
  g_free (look->projects);
  g_free (look);
}

/* ---- on the thread ---- */

static int
compare_names (gconstpointer a,
               gconstpointer b)
{
  return strcmp (*(char * const *) a, *(char * const *) b);
}

/* A file that is written anew is another one: its inode, if nothing else, tells. */
static void
note_files (GString    *note,
            const char *folder,
            const char *suffix,
            const char *but)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, suffix))
      g_ptr_array_add (names, g_build_filename (folder, name, NULL));
  g_ptr_array_sort (names, compare_names);
  for (guint i = 0; i < names->len; i++)
    {
      GStatBuf status;

      if (g_strcmp0 (names->pdata[i], but) != 0 && g_stat (names->pdata[i], &status) == 0)
        g_string_append_printf (note, "%s %" G_GINT64_FORMAT " %" G_GINT64_FORMAT ".%09ld %" G_GUINT64_FORMAT "\n",
                                (char *) names->pdata[i], (gint64) status.st_size, (gint64) status.st_mtim.tv_sec,
                                status.st_mtim.tv_nsec, (guint64) status.st_ino);
    }
}

char *
hw_room_watch_note (const char *room)
{
  GString *note = g_string_new (NULL);

  for (gsize i = 0; i < PROJECTS; i++)
    {
      g_autofree char *folder = g_build_filename (room, folders[i], NULL);

      note_files (note, folder, ".xml", NULL);
    }
  return g_string_free (note, FALSE);
}

static char *
note_projects (const char *room,
               const char *own)
{
  g_autofree char *folder = g_build_filename (room, folders[PROJECTS], NULL);
  GString *note = g_string_new (NULL);

  note_files (note, folder, ".handwheel", own);
  return g_string_free (note, FALSE);
}

/* A room that was never furnished has no files and stands for what is known. */
static gboolean
read_again (Look    *look,
            GError **error)
{
  g_autoptr (HwRoom) room = hw_room_open (look->known->folder, error);

  if (room == NULL)
    return FALSE;
  if (room->machines->len > 0 && !hw_room_is_equal (room, look->known))
    look->room = g_steal_pointer (&room);
  return TRUE;
}

static void
look_in_thread (GTask        *task,
                gpointer      source,
                gpointer      data,
                GCancellable *cancellable)
{
  Look            *look = data;
  g_autofree char *files = hw_room_watch_note (look->known->folder);
  g_autofree char *projects = note_projects (look->known->folder, look->own);
  GError          *error = NULL;

  look->files_changed = g_strcmp0 (files, look->files) != 0;
  look->projects_changed = g_strcmp0 (projects, look->projects) != 0;
  g_free (look->files);
  g_free (look->projects);
  look->files = g_steal_pointer (&files);
  look->projects = g_steal_pointer (&projects);
  if (look->files_changed && !read_again (look, &error))
    g_task_return_error (task, error);
  else
    g_task_return_boolean (task, TRUE);
}

/* ---- on the main loop ---- */

static void begin_waiting (HwRoomWatch *self);

static void
looked_cb (GObject      *source,
           GAsyncResult *result,
           gpointer      data)
{
  HwRoomWatch       *self = data;       /* gone when the task was cancelled */
  Look              *look = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;

  if (g_cancellable_is_cancelled (g_task_get_cancellable (G_TASK (result))))
    return;
  g_task_propagate_boolean (G_TASK (result), &error);
  self->looking = FALSE;
  if (look->known != self->known)       /* it was compared with what is past */
    {
      begin_waiting (self);
      return;
    }
  g_free (self->files);
  g_free (self->projects);
  self->files = g_steal_pointer (&look->files);
  self->projects = g_steal_pointer (&look->projects);
  if (self->again)
    begin_waiting (self);
  if (look->files_changed || look->projects_changed)
    self->stirred (self->data);
  if (error != NULL || look->room != NULL || look->projects_changed)
    self->found (self->data, g_steal_pointer (&look->room), error);
}

static gboolean
look_cb (gpointer data)
{
  HwRoomWatch      *self = data;
  g_autoptr (GTask) task = NULL;
  Look             *look = g_new0 (Look, 1);

  self->wait_id = 0;
  self->looking = TRUE;
  self->again = FALSE;
  look->known = hw_room_ref (self->known);
  look->own = g_strdup (self->own);
  look->files = g_strdup (self->files);
  look->projects = g_strdup (self->projects);
  task = g_task_new (NULL, self->gone, looked_cb, self);
  g_task_set_source_tag (task, look_cb);
  g_task_set_task_data (task, look, free_look);
  g_task_run_in_thread (task, look_in_thread);
  return G_SOURCE_REMOVE;
}

static void
begin_waiting (HwRoomWatch *self)
{
  self->again = TRUE;
  if (self->wait_id == 0 && !self->looking)
    self->wait_id = g_timeout_add (WAIT_MS, look_cb, self);
}

static void
monitor (HwRoomWatch *self,
         gsize        i)
{
  g_autofree char  *path = g_build_filename (self->known->folder, folders[i], NULL);
  g_autoptr (GFile) folder = g_file_new_for_path (path);

  /* Where nothing can be monitored, the room is read again with each entry, as ever. */
  self->monitors[i] = g_file_monitor_directory (folder, G_FILE_MONITOR_WATCH_MOVES, NULL, NULL);
  if (self->monitors[i] != NULL)
    g_signal_connect_swapped (self->monitors[i], "changed", G_CALLBACK (begin_waiting), self);
}

HwRoomWatch *
hw_room_watch_new (HwRoom            *room,
                   const char        *note,
                   HwRoomWatchFound   found,
                   HwRoomWatchStirred stirred,
                   gpointer           data)
{
  HwRoomWatch *self = g_new0 (HwRoomWatch, 1);

  g_return_val_if_fail (room != NULL && note != NULL && found != NULL && stirred != NULL, NULL);

  self->known = hw_room_ref (room);
  self->found = found;
  self->stirred = stirred;
  self->data = data;
  self->gone = g_cancellable_new ();
  self->files = g_strdup (note);
  self->projects = note_projects (room->folder, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++)
    monitor (self, i);
  begin_waiting (self);
  return self;
}

void
hw_room_watch_free (HwRoomWatch *self)
{
  if (self == NULL)
    return;
  g_cancellable_cancel (self->gone);
  g_clear_handle_id (&self->wait_id, g_source_remove);
  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++)
    if (self->monitors[i] != NULL)
      {
        g_signal_handlers_disconnect_by_data (self->monitors[i], self);
        g_file_monitor_cancel (self->monitors[i]);
        g_object_unref (self->monitors[i]);
      }
  g_object_unref (self->gone);
  hw_room_unref (self->known);
  g_free (self->own);
  g_free (self->files);
  g_free (self->projects);
  g_free (self);
}

void
hw_room_watch_know (HwRoomWatch *self,
                    HwRoom      *room)
{
  g_return_if_fail (self != NULL && room != NULL);

  hw_room_ref (room);
  hw_room_unref (self->known);
  self->known = room;
}

void
hw_room_watch_own (HwRoomWatch *self,
                   const char  *path)
{
  g_return_if_fail (self != NULL);

  g_free (self->own);
  self->own = g_strdup (path);
  g_free (self->projects);
  self->projects = note_projects (self->known->folder, path);
}
