/* furnish-language.c - the demo in the person's language, before it becomes their sewing room
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/furnish-language.h"

#include <glib/gi18n.h>

#include "files/save.h"
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

/* ---- what the demo's journals say ---- */

static gboolean
put_word_cb (const GMatchInfo *match,
             GString          *out,
             gpointer          data)
{
  g_autofree char *name = g_match_info_fetch (match, 1);
  g_autofree char *text = g_match_info_fetch (match, 2);
  g_autofree char *told = g_markup_escape_text (hw_words_translate ("demo", text), -1);

  g_string_append_printf (out, " %s=\"%s\"", name, told);
  return FALSE;
}

/* These files are our own, and hold no escapes: a journal of somebody's is never written anew, only added to. */
static gboolean
translate_journal (const char *path,
                   GError    **error)
{
  g_autoptr (GRegex) words = g_regex_new (" (note|needle-thread|bobbin-thread)=\"([^\"&]*)\"", 0, 0, NULL);
  g_autofree char   *text = NULL;
  g_autofree char   *told = NULL;

  if (!g_file_get_contents (path, &text, NULL, error))
    return FALSE;
  told = g_regex_replace_eval (words, text, -1, 0, 0, put_word_cb, NULL, error);
  return told != NULL && (g_str_equal (text, told) || hw_save_bytes (path, told, -1, error));
}

static gboolean
translate_journals (const char *folder,
                    GError    **error)
{
  g_autofree char *journals = g_build_filename (folder, "journal", NULL);
  g_autoptr (GDir) dir = g_dir_open (journals, 0, NULL);
  const char      *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (journals, name, NULL);

      if (g_str_has_suffix (name, ".xml") && !translate_journal (path, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
hw_furnish_translate (const char *room_folder,
                      GError    **error)
{
  return translate_projects (room_folder, error) && translate_journals (room_folder, error)
         && translate_machines (room_folder, error);
}
