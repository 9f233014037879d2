/* rescue.c - where work is kept that could not be written in its own place
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-files"

#include "config.h"

#include "files/rescue.h"
#include "files/save.h"

#include <glib/gi18n.h>
#include <string.h>

#define ATTEMPTS 1000

char *
hw_rescue_folder (void)
{
  const char *folder = g_getenv ("HANDWHEEL_RESCUE");

  if (folder != NULL && folder[0] != '\0')
    return g_strdup (folder);
  return g_build_filename (g_get_user_state_dir (), "handwheel", "rescue", NULL);
}

/* "FOLDER/cape (rescued 2031-05-09).handwheel", the next time "… (rescued 2031-05-09, 2).handwheel". (transfer full);
 * NULL when so many are there already. */
static char *
find_name (const char *path,
           const char *folder)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *day = g_date_time_format (now, "%Y-%m-%d");
  g_autofree char *stem = g_path_get_basename (path);
  g_autofree char *ending = NULL;
  char *dot = strrchr (stem, '.');

  if (dot != NULL && dot != stem)
    {
      ending = g_strdup (dot);
      *dot = '\0';
    }
  for (int i = 1; i <= ATTEMPTS; i++)
    {
      g_autofree char *count = i > 1 ? g_strdup_printf (", %d", i) : g_strdup ("");
      g_autofree char *name = g_strdup_printf ("%s (rescued %s%s)%s", stem, day, count, ending != NULL ? ending : "");
      g_autofree char *rescued = g_build_filename (folder, name, NULL);

      if (!g_file_test (rescued, G_FILE_TEST_EXISTS))
        return g_steal_pointer (&rescued);
    }
  return NULL;
}

char *
hw_rescue_bytes (const char *path,
                 const char *folder_or_null,
                 const char *data,
                 gsize       size)
{
  g_autofree char *own = hw_rescue_folder ();
  const char *folders[] = { folder_or_null != NULL ? folder_or_null : own, own, g_get_tmp_dir () };

  g_return_val_if_fail (path != NULL && (data != NULL || size == 0), NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++)
    {
      g_autofree char *rescued = find_name (path, folders[i]);

      if (rescued != NULL && hw_save_bytes (rescued, data, (gssize) size, NULL))
        return g_steal_pointer (&rescued);
    }
  return NULL;
}

void
hw_rescue_tell (GError    **error,
                const char *rescued)
{
  g_autofree char *message = NULL;
  g_autofree char *shown = NULL;

  if (error == NULL || *error == NULL)
    return;
  message = g_steal_pointer (&(*error)->message);
  shown = rescued != NULL ? hw_show_path (rescued) : NULL;
  if (shown != NULL)
    (*error)->message = g_strdup_printf (_("%s; what you did is kept in “%s”"), message, shown);
  else
    (*error)->message = g_strdup_printf (_("%s; nor could what you did be kept anywhere else"), message);
}

gboolean
hw_save_or_rescue (const char *path,
                   const char *data,
                   gsize       size,
                   GError    **error)
{
  g_autofree char *rescued = NULL;

  if (hw_save_bytes (path, data, (gssize) size, error))
    return TRUE;
  rescued = hw_rescue_bytes (path, NULL, data, size);
  hw_rescue_tell (error, rescued);
  return FALSE;
}
