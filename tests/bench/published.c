/* published.c - published instances of the sequential ordering problem, and where they are looked for
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "published.h"

const Published published[] = {
  { "br17.10", 55, TRUE, TRUE },        { "ESC07", 2125, TRUE, TRUE },
  { "ESC12", 1675, TRUE, TRUE },        { "ESC25", 1681, TRUE, TRUE },
  { "ESC78", 18230, TRUE, FALSE },      { "ft53.1", 7531, TRUE, FALSE },
  { "ft53.3", 10262, TRUE, FALSE },     { "ft70.1", 39313, TRUE, FALSE },
  { "ft70.3", 42535, TRUE, FALSE },     { "kro124p.1", 39420, FALSE, FALSE },
  { "kro124p.3", 49499, FALSE, FALSE }, { "p43.1", 28140, TRUE, FALSE },
  { "p43.4", 83005, TRUE, TRUE },       { "prob.42", 243, TRUE, FALSE },
  { "rbg048a", 351, TRUE, FALSE },      { "rbg109a", 1038, TRUE, TRUE },
  { "rbg174a", 2033, TRUE, TRUE },      { "rbg253a", 2950, FALSE, FALSE },
  { "rbg358a", 2545, FALSE, FALSE },    { "ry48p.1", 15805, TRUE, FALSE },
  { "ry48p.4", 31446, TRUE, TRUE },     { "R.200.100.1", 61, FALSE, FALSE },
  { "R.200.100.30", 4216, TRUE, TRUE }, { "R.200.1000.15", 20481, TRUE, FALSE },
  { "R.200.1000.60", 71556, TRUE, TRUE }, { "R.300.100.30", 6120, TRUE, TRUE },
  { "R.300.1000.60", 109471, TRUE, TRUE }, { "R.500.100.60", 18240, TRUE, TRUE },
};

const gsize n_published = G_N_ELEMENTS (published);

static gboolean
is_folder (const char *path)
{
  return path != NULL && g_file_test (path, G_FILE_TEST_IS_DIR);
}

/* The first folder, by name, beside the source folder that holds one called @name. */
static char *
find_beside_source (const char *name)
{
  g_autofree char *parent = g_path_get_dirname (SOURCE_FOLDER);
  g_autoptr (GDir) dir = g_dir_open (parent, 0, NULL);
  g_autofree char *found = NULL;
  const char *entry;

  while (dir != NULL && (entry = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (parent, entry, name, NULL);

      if (is_folder (path) && (found == NULL || g_strcmp0 (path, found) < 0))
        {
          g_free (found);
          found = g_steal_pointer (&path);
        }
    }
  return g_steal_pointer (&found);
}

char *
published_folder (const char *name)
{
  const char *given = g_getenv ("HANDWHEEL_BENCH_DATA");
  char *path = given != NULL ? g_build_filename (given, name, NULL) : find_beside_source (name);

  if (is_folder (path))
    return path;
  g_free (path);
  return NULL;
}
