/* shared-queue.c - the queue of projects that a command looks at
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "command/command-private.h"

#include <stdio.h>

#include <gio/gio.h>
#include <glib/gi18n.h>

#include "words/words-example.h"

static int
compare_paths_cb (gconstpointer a,
                  gconstpointer b)
{
  return g_strcmp0 (*(char * const *) a, *(char * const *) b);
}

/* (element-type filename) sorted, none when the room has no such folder. */
static GPtrArray *
list_files (const HwRoom *room)
{
  GPtrArray       *paths = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *folder = g_build_filename (room->folder, "projects", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char      *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".handwheel"))
      g_ptr_array_add (paths, g_build_filename (folder, name, NULL));
  g_ptr_array_sort (paths, compare_paths_cb);
  return paths;
}

/* One file that does not read does not hide the others: a warning that says why. */
static void
warn_left_out (const char *why)
{
  g_autofree char *line = g_strdup (why);

  g_strdelimit (line, "\r\n", ' ');
  /* Translators: what is wrong with a project */
  fprintf (stderr, _("%s (a warning: this project is left out)\n"), line);
}

GPtrArray *
hw_command_room_projects (const HwRoom *room)
{
  g_autoptr (GPtrArray) paths = list_files (room);
  GPtrArray *projects = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_project_unref);

  for (guint i = 0; i < paths->len; i++)
    {
      g_autoptr (GError) error = NULL;
      HwProject *project = hw_project_read (g_ptr_array_index (paths, i), &error);

      if (project != NULL)
        g_ptr_array_add (projects, project);
      else
        warn_left_out (error->message);
    }
  return projects;
}

char *
hw_command_now (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();

  return g_date_time_format (now, "%Y-%m-%dT%H:%M:%SZ");
}

/* Files that were named must all do. */
static GPtrArray *
read_files (char **files,
            int   *status)
{
  g_autoptr (GPtrArray) projects = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_project_unref);

  for (char **file = files; *file != NULL; file++)
    {
      g_autoptr (GError) error = NULL;
      HwProject *project = hw_project_read (*file, &error);

      if (project == NULL)
        {
          *status = hw_command_fail (error);
          return NULL;
        }
      g_ptr_array_add (projects, project);
    }
  return g_steal_pointer (&projects);
}

static GPtrArray *
list_work (const HwRoom *room)
{
  g_autoptr (GPtrArray) all = hw_command_room_projects (room);

  return all != NULL ? hw_words_list_work (all, room) : NULL;
}

gboolean
hw_command_queue_open (HwCommandQueue *self,
                       char          **files,
                       const char     *room_folder,
                       HwQueueMode     mode,
                       int            *status)
{
  gboolean named = files != NULL && *files != NULL;

  self->handbook = hw_command_handbook_load (status);
  if (self->handbook != NULL)
    self->room = hw_command_room_open (room_folder, status);
  if (self->room == NULL)
    return FALSE;
  self->projects = named ? read_files (files, status) : list_work (self->room);
  if (self->projects == NULL)
    return FALSE;
  self->now = hw_command_now ();
  self->queue = hw_queue_new (self->handbook, self->projects, self->room, self->now, mode);
  for (guint i = 0; i < self->queue->refused->len; i++)
    {
      const char *why = g_ptr_array_index (self->queue->refused, i);

      if (!named)
        warn_left_out (why);
      else
        fprintf (stderr, "%s\n", why);
    }
  if (named && self->queue->refused->len > 0)
    *status = HW_EXIT_REFUSED;
  return *status == HW_EXIT_DONE;
}

void
hw_command_queue_clear (HwCommandQueue *self)
{
  g_clear_pointer (&self->queue, hw_queue_unref);
  g_clear_pointer (&self->projects, g_ptr_array_unref);
  g_clear_pointer (&self->room, hw_room_unref);
  g_clear_pointer (&self->handbook, hw_handbook_unref);
  g_clear_pointer (&self->now, g_free);
}
