/* temp-folder.c - a folder of files for one test
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "temp-folder.h"

#include <glib/gstdio.h>
#include <stdlib.h>
#include <unistd.h>

static GPtrArray *made;                  /* every folder of this process */
static pid_t maker;                      /* a forked child removes nothing */

/* A room's folder that a test removed comes back when an entry is appended to its snapshot later. */
static void
remove_made (void)
{
  if (getpid () != maker)
    return;
  for (guint i = 0; i < made->len; i++)
    temp_folder_remove_tree (g_ptr_array_index (made, i));
  g_ptr_array_unref (made);
}

char *
temp_folder_new (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_dir_make_tmp ("handwheel-test-XXXXXX", &error);

  g_assert_no_error (error);
  if (made == NULL)
    {
      made = g_ptr_array_new_with_free_func (g_free);
      maker = getpid ();
      atexit (remove_made);
    }
  g_ptr_array_add (made, g_strdup (folder));
  return folder;
}

void
temp_folder_write (const char *folder,
                   const char *name,
                   const char *data,
                   gssize      size)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_build_filename (folder, name, NULL);

  g_file_set_contents (path, data, size, &error);
  g_assert_no_error (error);
}

char *
temp_folder_read (const char *folder,
                  const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  char *data = NULL;

  return g_file_get_contents (path, &data, NULL, NULL) ? data : NULL;
}

void
temp_folder_copy (const char *folder,
                  const char *name,
                  const char *from)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *data = NULL;
  gsize size = 0;

  g_file_get_contents (from, &data, &size, &error);
  g_assert_no_error (error);
  temp_folder_write (folder, name, data, (gssize) size);
}

void
temp_folder_copy_tree (const char *from,
                       const char *to)
{
  g_autoptr (GDir) dir = g_dir_open (from, 0, NULL);
  const char *name;

  g_assert_nonnull (dir);
  g_assert_cmpint (g_mkdir_with_parents (to, 0755), ==, 0);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *source = g_build_filename (from, name, NULL);
      g_autofree char *target = g_build_filename (to, name, NULL);

      if (g_file_test (source, G_FILE_TEST_IS_DIR))
        temp_folder_copy_tree (source, target);
      else
        temp_folder_copy (to, name, source);
    }
}

int
temp_folder_count (const char *folder,
                   const char *beginning)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  int n = 0;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    n += g_str_has_prefix (name, beginning);
  return n;
}

void
temp_folder_remove_tree (const char *path)
{
  g_autoptr (GDir) dir = NULL;
  const char *name;

  if (g_file_test (path, G_FILE_TEST_IS_DIR) && !g_file_test (path, G_FILE_TEST_IS_SYMLINK))
    dir = g_dir_open (path, 0, NULL);
  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *inner = g_build_filename (path, name, NULL);
      temp_folder_remove_tree (inner);
    }
  g_remove (path);
}

void
temp_folder_remove (char *folder)
{
  temp_folder_remove_tree (folder);
  g_free (folder);
}
