/* test-renderer.c - no GL driver is begun unless the person asks for one
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include <string.h>

#include "program.h"

/* (transfer full): the libraries that the running program has loaded, among others */
static char *
read_maps (Program *program)
{
  g_autofree char   *path = g_strdup_printf ("/proc/%s/maps", g_subprocess_get_identifier (program->process));
  g_autoptr (GError) error = NULL;
  char              *maps = NULL;

  g_assert_true (g_file_get_contents (path, &maps, NULL, &error));
  g_assert_nonnull (strstr (maps, "libgtk-4"));
  return maps;
}

static gboolean
has_driver (const char *maps)
{
  return strstr (maps, "/libGL") != NULL || strstr (maps, "/libEGL") != NULL || strstr (maps, "_dri.so") != NULL;
}

static void
test_none (Program      *program,
           gconstpointer data)
{
  g_autofree char *maps = NULL;

  g_unsetenv ("GSK_RENDERER");
  g_unsetenv ("GDK_DEBUG");
  program_start (program, NULL);
  maps = read_maps (program);
  g_assert_false (has_driver (maps));
  program_quit (program);
}

static void
test_asked_for (Program      *program,
                gconstpointer data)
{
  g_autofree char *maps = NULL;

  g_setenv ("GSK_RENDERER", "gl", TRUE);
  g_unsetenv ("GDK_DEBUG");
  program_start (program, NULL);
  maps = read_maps (program);
  g_assert_true (has_driver (maps));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/window/renderer/none", Program, NULL, program_set_up, test_none, program_tear_down);
  g_test_add ("/window/renderer/asked-for", Program, NULL, program_set_up, test_asked_for, program_tear_down);
  return g_test_run ();
}
