/* furnish.c - the first start: a sewing room with the demo in it; and which project was open last
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/furnish.h"

#include <errno.h>
#include <gio/gio.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>

#include "files/folder.h"
#include "files/save.h"
#include "model/room.h"
#include "window/furnish-language.h"
#include "words/words.h"

#define RECENT "recent-projects"
#define RECENT_MAX 8

static gboolean
copy_folder (const char *from,
             const char *to,
             GError    **error)
{
  g_autoptr (GDir) dir = g_dir_open (from, 0, error);
  const char      *name;

  if (dir == NULL)
    return FALSE;
  if (g_mkdir_with_parents (to, 0700) != 0)
    {
      g_set_error (error, G_FILE_ERROR, (int) g_file_error_from_errno (errno), _("%s: %s"), to, g_strerror (errno));
      return FALSE;
    }
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *source = g_build_filename (from, name, NULL);
      g_autofree char *target = g_build_filename (to, name, NULL);

      if (g_file_test (source, G_FILE_TEST_IS_DIR))
        {
          if (!copy_folder (source, target, error))
            return FALSE;
        }
      else
        {
          g_autofree char *data = NULL;
          gsize            size = 0;

          if (!g_file_get_contents (source, &data, &size, error)
              || !hw_save_bytes (target, data, (gssize) size, error))
            return FALSE;
        }
    }
  return TRUE;
}

/* Beside its place first: a room that is half there would pass for a room the next time. */
static gboolean
copy_demo (const char *demo,
           const char *room_folder,
           GError    **error)
{
  g_autofree char *parent = g_path_get_dirname (room_folder);
  g_autofree char *beside = g_strconcat (room_folder, ".XXXXXX", NULL);

  if (g_mkdir_with_parents (parent, 0700) != 0 || g_mkdtemp_full (beside, 0700) == NULL)
    {
      g_set_error (error, G_FILE_ERROR, (int) g_file_error_from_errno (errno), _("%s: %s"), parent, g_strerror (errno));
      return FALSE;
    }
  if (!copy_folder (demo, beside, error) || !hw_furnish_translate (beside, error))
    {
      hw_folder_remove (beside);
      return FALSE;
    }
  g_rmdir (room_folder);                /* an empty folder may stand there already; else this does nothing */
  if (g_rename (beside, room_folder) != 0)
    {
      g_set_error (error, G_FILE_ERROR, (int) g_file_error_from_errno (errno), _("%s: %s"), room_folder,
                   g_strerror (errno));
      hw_folder_remove (beside);
      return FALSE;
    }
  return TRUE;
}

gboolean
hw_furnish_room (const char *data_folder,
                 const char *room_folder,
                 GError    **error)
{
  g_autofree char *demo = g_build_filename (data_folder, "demo", NULL);

  if (g_file_test (demo, G_FILE_TEST_IS_DIR))
    return copy_demo (demo, room_folder, error);
  return hw_room_create (room_folder, error);
}

static char *
state_path (void)
{
  return g_build_filename (g_get_user_state_dir (), "handwheel", "window.ini", NULL);
}

/* Key files take no brackets or slashes in a key; a checksum is a key of its own kind. */
static char *
room_key (const char *room_folder)
{
  g_autofree char *absolute = g_canonicalize_filename (room_folder, NULL);

  return g_compute_checksum_for_string (G_CHECKSUM_SHA1, absolute, -1);
}

/* A convenience that fails costs a click at the next start; the person is not told. */
static gboolean
save_state (GKeyFile *state)
{
  g_autofree char   *file = state_path ();
  g_autofree char   *folder = g_path_get_dirname (file);
  g_autoptr (GError) error = NULL;

  g_mkdir_with_parents (folder, 0700);
  if (g_key_file_save_to_file (state, file, &error))
    return TRUE;
  g_debug ("%s", error->message);
  return FALSE;
}

/* (transfer full): none yet: a new one. */
static GKeyFile *
load_state (void)
{
  g_autofree char *file = state_path ();
  GKeyFile        *state = g_key_file_new ();

  g_key_file_load_from_file (state, file, G_KEY_FILE_NONE, NULL);
  return state;
}

/* @path comes first, and stands there once. */
static void
note_recent (GKeyFile   *state,
             const char *key,
             const char *path)
{
  g_auto (GStrv)        before = g_key_file_get_string_list (state, RECENT, key, NULL, NULL);
  g_autoptr (GPtrArray) paths = g_ptr_array_new ();

  g_ptr_array_add (paths, (gpointer) path);
  for (char **other = before; other != NULL && *other != NULL && paths->len < RECENT_MAX; other++)
    if (!g_str_equal (*other, path))
      g_ptr_array_add (paths, *other);
  g_key_file_set_string_list (state, RECENT, key, (const char * const *) paths->pdata, paths->len);
}

char **
hw_recall_projects (const char *room_folder)
{
  g_autofree char         *key = room_key (room_folder);
  g_autoptr (GKeyFile)     state = load_state ();
  g_auto (GStrv)           paths = g_key_file_get_string_list (state, RECENT, key, NULL, NULL);
  g_autoptr (GStrvBuilder) there = g_strv_builder_new ();

  for (char **path = paths; path != NULL && *path != NULL; path++)
    if (g_file_test (*path, G_FILE_TEST_EXISTS))
      g_strv_builder_add (there, *path);
  return g_strv_builder_end (there);
}

void
hw_remember_project (const char *room_folder,
                     const char *path)
{
  g_autofree char *key = room_key (room_folder);
  g_autofree char *before = hw_recall_project (room_folder);
  g_autoptr (GKeyFile) state = load_state ();

  if (g_strcmp0 (before, path) == 0)
    return;
  g_key_file_set_string (state, "last-project", key, path);
  note_recent (state, key, path);
  save_state (state);
}

char *
hw_recall_project (const char *room_folder)
{
  g_autofree char *file = state_path ();
  g_autofree char *key = room_key (room_folder);
  g_autofree char *path = NULL;
  g_autoptr (GKeyFile) state = g_key_file_new ();

  if (!g_key_file_load_from_file (state, file, G_KEY_FILE_NONE, NULL))
    return NULL;
  path = g_key_file_get_string (state, "last-project", key, NULL);
  return path != NULL && g_file_test (path, G_FILE_TEST_EXISTS) ? g_steal_pointer (&path) : NULL;
}

char *
hw_timer_path (const char *room_folder)
{
  g_autofree char *key = room_key (room_folder);
  g_autofree char *name = g_strdup_printf ("timer-%s.xml", key);

  return g_build_filename (g_get_user_state_dir (), "handwheel", name, NULL);
}

gboolean
hw_remember_told (const char *room_folder,
                  const char *what,
                  const char *day)
{
  g_autofree char *room = room_key (room_folder);
  g_autofree char *group = g_strconcat ("told ", room, NULL);
  g_autofree char *before = NULL;
  g_autoptr (GKeyFile) state = load_state ();

  before = g_key_file_get_string (state, group, what, NULL);
  if (g_strcmp0 (before, day) == 0)
    return FALSE;
  g_key_file_set_string (state, group, what, day);
  return save_state (state);
}
