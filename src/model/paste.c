/* paste.c - the steps of a clip put into a project
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * First the fabrics and threads find their places, then the steps get their numbers, then every name in the steps is
 * put through what was found.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/clip-private.h"
#include "model/edit.h"
#include "model/project-private.h"

#include <glib/gi18n.h>
#include <string.h>

/* What the names in a clip are in the project: id or number there → here, all strings owned. */
typedef struct
{
  GHashTable *fabrics, *threads, *steps;
} Names;

static GHashTable *
new_table (void)
{
  return g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
}

static void
clear_names (Names *names)
{
  g_hash_table_unref (names->fabrics);
  g_hash_table_unref (names->threads);
  g_hash_table_unref (names->steps);
}

static void
rename_to (char      **word,
           GHashTable *table)
{
  char *instead = *word != NULL ? g_strdup (g_hash_table_lookup (table, *word)) : NULL;

  g_free (*word);
  *word = instead;
}

/* ---- fabrics and threads ---- */

typedef gboolean (* IsTaken) (const HwProject *project, const char *id);

static gboolean
has_fabric (const HwProject *project,
            const char      *id)
{
  return hw_project_find_fabric (project, id) != NULL;
}

static gboolean
has_thread (const HwProject *project,
            const char      *id)
{
  return hw_project_find_thread (project, id) != NULL;
}

/* (transfer full): @id, or what is nearest to it and not taken. */
static char *
free_id (const HwProject *project,
         const char      *id,
         IsTaken          is_taken)
{
  for (int i = 2; is_taken (project, id); i++)
    {
      g_autofree char *tail = g_strdup_printf ("-%d", i);
      g_autofree char *head = g_utf8_substring (id, 0, MIN (g_utf8_strlen (id, -1), HW_ID_MAX - (glong) strlen (tail)));
      g_autofree char *tried = g_strconcat (head, tail, NULL);

      if (!is_taken (project, tried))
        return g_steal_pointer (&tried);
    }
  return g_strdup (id);
}

/* The fabric of @project that says the same as @fabric, whatever it is called there; NULL none. */
static const char *
find_same_fabric (const HwProject       *project,
                  const HwProjectFabric *fabric)
{
  for (guint i = 0; i < project->fabrics->len; i++)
    {
      const HwProjectFabric *other = project->fabrics->pdata[i];
      HwProjectFabric alike = *fabric;

      alike.id = other->id;
      if (hw_project_fabric_is_equal (&alike, other))
        return other->id;
    }
  return NULL;
}

static const char *
find_same_thread (const HwProject       *project,
                  const HwProjectThread *thread)
{
  for (guint i = 0; i < project->threads->len; i++)
    {
      const HwProjectThread *other = project->threads->pdata[i];
      HwProjectThread alike = *thread;

      alike.id = other->id;
      if (hw_project_thread_is_equal (&alike, other))
        return other->id;
    }
  return NULL;
}

static void
place_fabrics (HwProject    *project,
               const HwClip *clip,
               Names        *names)
{
  for (guint i = 0; i < clip->parts->fabrics->len; i++)
    {
      const HwProjectFabric *fabric = clip->parts->fabrics->pdata[i];
      const char *same = find_same_fabric (project, fabric);
      char *id = same != NULL ? g_strdup (same) : free_id (project, fabric->id, has_fabric);
      HwProjectFabric *added;

      g_hash_table_insert (names->fabrics, g_strdup (fabric->id), id);
      if (same != NULL)
        continue;
      added = hw_project_fabric_copy (fabric);
      g_free (added->id);
      added->id = g_strdup (id);
      added->line = 0;
      g_ptr_array_add (project->fabrics, added);
    }
}

static void
place_threads (HwProject    *project,
               const HwClip *clip,
               Names        *names)
{
  for (guint i = 0; i < clip->parts->threads->len; i++)
    {
      const HwProjectThread *thread = clip->parts->threads->pdata[i];
      const char *same = find_same_thread (project, thread);
      char *id = same != NULL ? g_strdup (same) : free_id (project, thread->id, has_thread);
      HwProjectThread *added;

      g_hash_table_insert (names->threads, g_strdup (thread->id), id);
      if (same != NULL)
        continue;
      added = hw_project_thread_copy (thread);
      g_free (added->id);
      added->id = g_strdup (id);
      added->line = 0;
      g_ptr_array_add (project->threads, added);
    }
}

/* ---- numbers ---- */

/* A number that is free in another project may be that of a step which was taken out of it, and of which the journal
 * still speaks; only at home is it surely the same step. */
static void
number_steps (const HwProject *project,
              const HwClip    *clip,
              Names           *names)
{
  gboolean home = g_str_equal (clip->parts->id, project->id);
  g_autoptr (GHashTable) taken = hw_project_index_steps (project);
  g_autofree char *next_here = hw_project_free_number (project);
  g_autofree char *next_there = hw_project_free_number (clip->parts);
  guint64 next = g_ascii_strtoull (next_here, NULL, 10);

  if (home)
    next = MAX (next, g_ascii_strtoull (next_there, NULL, 10));
  for (guint i = 0; i < clip->parts->steps->len; i++)
    {
      const char *number = hw_project_get_step (clip->parts, i)->number;
      gboolean kept = home && !g_hash_table_contains (taken, number);

      g_hash_table_insert (names->steps, g_strdup (number),
                           kept ? g_strdup (number) : g_strdup_printf ("%" G_GUINT64_FORMAT, next++));
    }
}

/* At home an arrow from a step that stayed behind still holds. */
static void
keep_arrows_from_home (const HwProject *project,
                       const HwClip    *clip,
                       Names           *names)
{
  if (!g_str_equal (clip->parts->id, project->id))
    return;
  for (guint i = 0; i < project->steps->len; i++)
    {
      const char *number = hw_project_get_step (project, i)->number;
      if (!g_hash_table_contains (names->steps, number))
        g_hash_table_insert (names->steps, g_strdup (number), g_strdup (number));
    }
}

/* ---- steps ---- */

static void
rename_after (HwStep      *step,
              const Names *names)
{
  gsize kept = 0;

  for (gsize i = 0; step->after[i] != NULL; i++)
    {
      char *word = step->after[i];

      rename_to (&word, names->steps);
      if (word != NULL)
        step->after[kept++] = word;
    }
  step->after[kept] = NULL;
}

static HwStep *
rename_step (const HwStep *step,
             const Names  *names)
{
  HwStep *copy = hw_step_copy (step);

  copy->line = 0;
  rename_to (&copy->number, names->steps);
  rename_after (copy, names);
  for (gsize i = 0; i < copy->n_plies; i++)
    rename_to (&copy->plies[i].fabric, names->fabrics);
  for (gsize i = 0; i < copy->n_crossing; i++)
    rename_to (&copy->crossing[i].fabric, names->fabrics);
  rename_to (&copy->needle_thread, names->threads);
  rename_to (&copy->bobbin_thread, names->threads);
  return copy;
}

static gboolean
check_sizes (const HwProject *project,
             GError         **error)
{
  if (project->fabrics->len > HW_PARTS_MAX || project->threads->len > HW_PARTS_MAX)
    g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                 _("a project may have at most %d fabrics and as many threads; paste fewer steps"), HW_PARTS_MAX);
  else if (project->steps->len > HW_STEPS_MAX)
    g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                 _("a project may have at most %d steps; make two of it"), HW_STEPS_MAX);
  else
    return TRUE;
  return FALSE;
}

static void
insert_steps (HwProject    *project,
              gsize         index,
              const HwClip *clip,
              const Names  *names)
{
  for (guint i = 0; i < clip->parts->steps->len; i++)
    g_ptr_array_insert (project->steps, (int) (index + i),
                        rename_step (hw_project_get_step (clip->parts, i), names));
}

static char **
list_numbers (const HwProject *project,
              gsize            index,
              gsize            n)
{
  char **numbers = g_new0 (char *, n + 1);

  for (gsize i = 0; i < n; i++)
    numbers[i] = g_strdup (hw_project_get_step (project, index + i)->number);
  return numbers;
}

HwProject *
hw_edit_paste (const HwProject *project,
               gsize            index,
               const HwClip    *clip,
               char          ***numbers,
               GError         **error)
{
  Names names = { new_table (), new_table (), new_table () };
  HwProject *next;
  gsize at = 0;

  g_return_val_if_fail (project != NULL && clip != NULL && index <= project->steps->len, NULL);

  next = hw_project_thaw (project);
  place_fabrics (next, clip, &names);
  place_threads (next, clip, &names);
  number_steps (project, clip, &names);
  keep_arrows_from_home (project, clip, &names);
  insert_steps (next, index, clip, &names);
  clear_names (&names);
  if (!check_sizes (next, error) || !hw_check_after (next, &at, error) || !hw_check_wishes (next, error))
    {
      hw_project_unref (next);
      return NULL;
    }
  if (numbers != NULL)
    *numbers = list_numbers (next, index, clip->parts->steps->len);
  return next;
}
