/* folder.c - folders with all that is in them
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-files"

#include "config.h"

#include "files/folder.h"

#include <glib/gstdio.h>

void
hw_folder_remove (const char *path)
{
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  const char      *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *child = g_build_filename (path, name, NULL);

      if (g_file_test (child, G_FILE_TEST_IS_DIR) && !g_file_test (child, G_FILE_TEST_IS_SYMLINK))
        hw_folder_remove (child);
      else
        g_unlink (child);
    }
  g_rmdir (path);
}
