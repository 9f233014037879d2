/* book-folder.c - a folder with the small handbook of the tests
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "book-folder.h"

#include "temp-folder.h"

#include <string.h>

static const char * const first_files[] = { "a-cloth.xml", "b-machine.xml", "c-rules.xml" };

char *
book_folder_new (void)
{
  char *folder = temp_folder_new ();
  g_autofree char *schema = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "handbook", "handbook.rng", NULL);

  temp_folder_copy (folder, "handbook.rng", schema);
  for (gsize i = 0; i < G_N_ELEMENTS (first_files); i++)
    {
      g_autofree char *text = book_folder_good (first_files[i]);
      temp_folder_write (folder, first_files[i], text, -1);
    }
  return folder;
}

char *
book_folder_good (const char *name)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "handbook", "good", name, NULL);
  char *text = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

HwHandbook *
book_folder_load (const char *folder)
{
  g_autoptr (GError) error = NULL;
  HwHandbook *book = hw_handbook_load (folder, &error);

  g_assert_no_error (error);
  g_assert_nonnull (book);
  return book;
}

char *
book_change (const char *text,
             const char *from,
             const char *to,
             int        *line)
{
  const char *at = strstr (text, from);

  g_assert_nonnull (at);
  g_assert_null (strstr (at + strlen (from), from));       /* a case that changes two places tests neither */
  *line = 1;
  for (const char *c = text; c < at; c++)
    *line += *c == '\n';
  return g_strdup_printf ("%.*s%s%s", (int) (at - text), text, to, at + strlen (from));
}

void
book_assert_refused (const char      *name,
                     const char      *text,
                     int              line,
                     HwHandbookError  code,
                     const char      *said)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *place = g_strdup_printf ("%s:%d: ", name, line);
  char *folder = book_folder_new ();
  HwHandbook *book;

  temp_folder_write (folder, name, text, -1);
  book = hw_handbook_load (folder, &error);
  temp_folder_remove (folder);
  g_assert_null (book);
  g_assert_error (error, HW_HANDBOOK_ERROR, (int) code);
  if (!g_str_has_prefix (error->message, place) || strstr (error->message, said) == NULL
      || strchr (error->message, '\n') != NULL)
    g_error ("“%s” must be one line that begins with “%s” and holds “%s”", error->message, place, said);
}
