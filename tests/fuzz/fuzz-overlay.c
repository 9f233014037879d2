/* fuzz-overlay.c - any bytes as a person's own file over the handbook
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The schema, which is slow to compile and the second fence only, is left out: what the typed reader takes must be
 * good by itself.
 */

#include "config.h"

#include "handbook/handbook.h"
#include "target.h"
#include "temp-folder.h"

#include <stdlib.h>
#include <string.h>

static const char anything[] =
  "<grammar xmlns=\"http://relaxng.org/ns/structure/1.0\"><start><ref name=\"any\"/></start><define name=\"any\">"
  "<element><anyName/><zeroOrMore><choice><attribute><anyName/></attribute><text/><ref name=\"any\"/></choice>"
  "</zeroOrMore></element></define></grammar>";

static char *book_folder, *overlay_folder;
static guint n_fabrics, n_stitches;

static void
remove_folders (void)
{
  temp_folder_remove (g_steal_pointer (&book_folder));
  temp_folder_remove (g_steal_pointer (&overlay_folder));
}

/* A small handbook that loads quickly, for the whole run. */
static void
make_folders (void)
{
  static const char * const files[] = { "a-cloth.xml", "b-machine.xml", "c-rules.xml", "d-garment.xml", "e-fault.xml" };
  const char *tests = g_getenv ("G_TEST_SRCDIR");
  g_autoptr (HwHandbook) book = NULL;

  book_folder = temp_folder_new ();
  overlay_folder = temp_folder_new ();
  atexit (remove_folders);
  temp_folder_write (book_folder, "handbook.rng", anything, -1);
  for (gsize i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *from = g_build_filename (tests != NULL ? tests : "tests", "handbook", "good", files[i], NULL);
      temp_folder_copy (book_folder, files[i], from);
    }
  book = hw_handbook_load (book_folder, NULL);
  g_assert (book != NULL);
  n_fabrics = (guint) book->n_fabrics;
  n_stitches = (guint) book->n_stitches;
}

int
LLVMFuzzerTestOneInput (const guint8 *data,
                        gsize         size)
{
  g_autoptr (GError) overlay_error = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (HwHandbook) book = NULL;

  if (book_folder == NULL)
    make_folders ();
  temp_folder_write (overlay_folder, "own.xml", (const char *) data, (gssize) size);
  book = hw_handbook_load_with_overlay (book_folder, overlay_folder, NULL, &overlay_error, &error);
  /* Whatever the overlay is, the handbook loads: with it, or without it and with the reason. */
  g_assert (book != NULL && error == NULL);
  g_assert (book->n_fabrics >= n_fabrics && book->n_stitches >= n_stitches);
  if (overlay_error == NULL)
    return 0;
  g_assert (book->n_fabrics == n_fabrics && book->n_stitches == n_stitches);
  g_assert (overlay_error->domain == HW_HANDBOOK_ERROR);
  g_assert (g_utf8_validate (overlay_error->message, -1, NULL));
  g_assert (strchr (overlay_error->message, '\n') == NULL);
  g_assert (strlen (overlay_error->message) < 4096);
  g_assert (g_str_has_prefix (overlay_error->message, overlay_folder));
  return 0;
}
