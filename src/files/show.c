/* show.c - file names as people read them
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-files"

#include "config.h"

#include "files/save.h"

/* What would break the line, hide or turn round what follows: controls, line ends, marks of direction. */
static gboolean
is_unseen (gunichar c)
{
  return g_unichar_iscntrl (c) || g_unichar_type (c) == G_UNICODE_FORMAT || c == 0x2028 || c == 0x2029;
}

char *
hw_show_path (const char *path)
{
  g_autofree char *valid = NULL;
  GString *shown = g_string_new (NULL);

  g_return_val_if_fail (path != NULL, g_string_free (shown, FALSE));

  valid = g_filename_display_name (path);
  for (const char *at = valid; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);
      g_string_append_unichar (shown, is_unseen (c) ? 0xfffd : c);
    }
  return g_string_free (shown, FALSE);
}

char *
hw_show_name (const char *path)
{
  g_autofree char *base = NULL;

  g_return_val_if_fail (path != NULL, NULL);

  base = g_path_get_basename (path);
  return hw_show_path (base);
}
