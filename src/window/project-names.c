/* project-names.c - the projects that a journal speaks of, by their ids
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/project-names.h"

#include <glib/gi18n.h>

#include "model/versions.h"
#include "words/words.h"

struct _HwProjectNames
{
  char       *room_folder;
  GHashTable *by_id;             /* id -> HwProject; NULL: nothing is known of it */
  GHashTable *words;             /* id -> what it says */
};

static void
free_project (gpointer project)
{
  if (project != NULL)
    hw_project_unref (project);
}

HwProjectNames *
hw_project_names_new (const char      *room_folder,
                      const GPtrArray *projects)
{
  HwProjectNames *self = g_new0 (HwProjectNames, 1);

  self->room_folder = g_strdup (room_folder);
  self->by_id = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, free_project);
  self->words = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  for (guint i = 0; i < projects->len; i++)
    {
      HwProject *project = projects->pdata[i];

      g_hash_table_replace (self->by_id, g_strdup (project->id), hw_project_ref (project));
    }
  return self;
}

void
hw_project_names_free (HwProjectNames *self)
{
  g_hash_table_unref (self->by_id);
  g_hash_table_unref (self->words);
  g_free (self->room_folder);
  g_free (self);
}

/* NULL: none was kept. */
static HwProject *
read_last_version (HwProjectNames *self,
                   const char     *id)
{
  g_autoptr (GPtrArray) versions = hw_versions_list (self->room_folder, id);

  return versions->len > 0 ? hw_project_read (((HwVersion *) versions->pdata[0])->path, NULL) : NULL;
}

const HwProject *
hw_project_names_find (HwProjectNames *self,
                       const char     *id)
{
  if (!g_hash_table_contains (self->by_id, id))
    g_hash_table_insert (self->by_id, g_strdup (id), read_last_version (self, id));
  return g_hash_table_lookup (self->by_id, id);
}

/* Projects that only the demo's journal tells of. */
static const char * const demo_titles[] = { NC_("demo", "Seat cushions"), NC_("demo", "Choir shirts") };

/* "seat-cushions": "Seat cushions" */
static char *
say_id (const char *id)
{
  g_autofree char *words = g_strdelimit (g_strdup (id), "-_", ' ');
  const char      *rest = words[0] != '\0' ? g_utf8_next_char (words) : words;
  g_autofree char *first = g_utf8_strup (words, rest - words);
  g_autofree char *said = g_strconcat (first, rest, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (demo_titles); i++)
    if (g_str_equal (said, demo_titles[i]))
      return g_strdup (hw_words_translate ("demo", said));
  return g_steal_pointer (&said);
}

const char *
hw_project_names_say (HwProjectNames *self,
                      const char     *id)
{
  const HwProject *project = hw_project_names_find (self, id);

  if (project != NULL)
    return project->title;
  if (!g_hash_table_contains (self->words, id))
    g_hash_table_insert (self->words, g_strdup (id), say_id (id));
  return g_hash_table_lookup (self->words, id);
}
