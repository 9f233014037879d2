/* furnish-language.c - the demo in the person's language, before it becomes their sewing room
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/furnish-language.h"

#include <glib/gi18n.h>

#include "model/project-translate.h"
#include "model/room.h"
#include "words/words.h"

static gboolean
translate_file (const char *path,
                GError    **error)
{
  g_autoptr (HwProject) project = hw_project_read (path, error);
  g_autoptr (HwProject) told = NULL;

  if (project == NULL)
    return FALSE;
  told = hw_project_translate (project, hw_words_translate);
  return hw_project_is_equal (project, told) || hw_project_write (told, path, error);
}

static gboolean
translate_projects (const char *folder,
                    GError    **error)
{
  g_autofree char *projects = g_build_filename (folder, "projects", NULL);
  g_autoptr (GDir) dir = g_dir_open (projects, 0, NULL);
  const char      *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (projects, name, NULL);

      if (g_str_has_suffix (name, ".handwheel") && !translate_file (path, error))
        return FALSE;
    }
  return TRUE;
}

/* The demo's machines are called as those of a room that begins without it: model/room-default.c has their names. */
static gboolean
translate_machines (const char *folder,
                    GError    **error)
{
  g_autoptr (HwRoom) room = hw_room_open (folder, error);

  for (guint i = 0; room != NULL && i < room->machines->len; i++)
    {
      g_autoptr (HwMachine) machine = hw_machine_copy (room->machines->pdata[i]);
      g_autofree char      *before = machine->name;
      HwRoom               *next;

      machine->name = g_strdup (hw_words_translate (NULL, before));
      if (g_str_equal (machine->name, before))
        continue;
      next = hw_room_with_machine (room, machine, error);
      hw_room_unref (room);
      room = next;
    }
  return room != NULL;
}

gboolean
hw_furnish_translate (const char *room_folder,
                      GError    **error)
{
  return translate_projects (room_folder, error) && translate_machines (room_folder, error);
}
