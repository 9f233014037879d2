/* lookup.c - finding entries by their ids
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-handbook"

#include "config.h"

#include "handbook/handbook-private.h"

#include <math.h>
#include <string.h>

int
hw_table_find (const HwHandbook *book,
               HwTableId         table,
               const char       *id)
{
  return id != NULL ? GPOINTER_TO_INT (g_hash_table_lookup (book->ids[table], id)) - 1 : -1;
}

#define DEFINE_FIND(name, TABLE) \
  int \
  hw_handbook_find_##name (const HwHandbook *self, \
                           const char       *id) \
  { \
    g_return_val_if_fail (self != NULL, -1); \
    return hw_table_find (self, HW_TABLE_##TABLE, id); \
  }

DEFINE_FIND (construction, CONSTRUCTION)
DEFINE_FIND (trait, TRAIT)
DEFINE_FIND (fabric, FABRIC)
DEFINE_FIND (system, SYSTEM)
DEFINE_FIND (point, POINT)
DEFINE_FIND (thread, THREAD)
DEFINE_FIND (stitch, STITCH)
DEFINE_FIND (seam, SEAM)
DEFINE_FIND (purpose, PURPOSE)
DEFINE_FIND (foot, FOOT)
DEFINE_FIND (plate, PLATE)
DEFINE_FIND (care, CARE)
DEFINE_FIND (sizes, SIZES)
DEFINE_FIND (garment, GARMENT)
DEFINE_FIND (fault, FAULT)
DEFINE_FIND (term, TERM)
DEFINE_FIND (source, SOURCE)

static int
find_table_by_name (const char *name,
                    gsize       length)
{
  for (int i = 0; i < HW_N_TABLES; i++)
    if (strlen (hw_tables[i].element) == length && strncmp (hw_tables[i].element, name, length) == 0)
      return i;
  return -1;
}

/* "fabric/denim" is cut in two; @table is -1 for any. FALSE when the part before the slash is no table. */
static gboolean
split_id (const char  *id,
          int         *table,
          const char **rest)
{
  const char *slash = strchr (id, '/');

  *table = -1;
  *rest = id;
  if (slash == NULL)
    return TRUE;
  *table = find_table_by_name (id, (gsize) (slash - id));
  *rest = slash + 1;
  return *table >= 0;
}

/**
 * hw_handbook_find_entry:
 * @table: (out) (optional): the element name of its table
 *
 * Sources are no entries: they have no source of their own.
 *
 * Returns: (transfer none) (nullable): the first entry with that id, in the order of the tables
 */
const HwEntry *
hw_handbook_find_entry (const HwHandbook  *self,
                        const char        *id,
                        const char       **table)
{
  const char *rest = NULL;
  int only;

  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  if (!split_id (id, &only, &rest))
    return NULL;
  for (int i = HW_TABLE_CONSTRUCTION; i < HW_N_TABLES; i++)
    {
      int index = only < 0 || only == i ? hw_table_find (self, (HwTableId) i, rest) : -1;
      if (index < 0)
        continue;
      if (table != NULL)
        *table = hw_tables[i].element;
      return (const HwEntry *) (const void *)
             (hw_table_array (self, (HwTableId) i) + (gsize) index * hw_tables[i].entry_size);
    }
  return NULL;
}

/* Whether @word is one of the parts of "single-jersey". */
static gboolean
has_part (const char *id,
          const char *word)
{
  g_auto (GStrv) parts = g_strsplit (id, "-", -1);

  return g_strv_contains ((const char * const *) parts, word);
}

static int
compare_ids (const void *a,
             const void *b)
{
  return strcmp (*(const char * const *) a, *(const char * const *) b);
}

/* A slip of the pen first, then an id that has the word as one of its parts; equal ones by the alphabet. */
static char *
choose_nearest (GPtrArray  *ids,
                const char *id)
{
  const char *near;

  g_ptr_array_sort (ids, compare_ids);
  g_ptr_array_add (ids, NULL);
  near = hw_xml_nearest (id, (const char * const *) ids->pdata);
  for (guint i = 0; near == NULL && i + 1 < ids->len; i++)
    if (has_part (g_ptr_array_index (ids, i), id))
      near = g_ptr_array_index (ids, i);
  return g_strdup (near);
}

static void
add_ids (const HwHandbook *book,
         HwTableId         table,
         GPtrArray        *ids)
{
  GHashTableIter iter;
  void *key;

  g_hash_table_iter_init (&iter, book->ids[table]);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    g_ptr_array_add (ids, key);
}

char *
hw_table_nearest_id (const HwHandbook *book,
                     HwTableId         table,
                     const char       *id)
{
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();

  add_ids (book, table, ids);
  return choose_nearest (ids, id);
}

char *
hw_handbook_nearest_id (const HwHandbook *self,
                        const char       *table,
                        const char       *id)
{
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();
  const char *rest = NULL;
  int only;

  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  split_id (id, &only, &rest);
  if (table != NULL)
    only = find_table_by_name (table, strlen (table));
  for (int i = 0; i < HW_N_TABLES; i++)
    if (only < 0 || only == i)
      add_ids (self, (HwTableId) i, ids);
  return choose_nearest (ids, rest);
}

gboolean
hw_point_is_sold (const HwPoint *self,
                  int            nm,
                  double         twin_mm)
{
  long twin = lround (twin_mm * 100);

  for (gsize i = 0; twin > 0 && i < self->n_twins; i++)
    if (lround (self->twins[i].spacing_mm * 100) == twin && self->twins[i].nm == nm)
      return TRUE;
  for (gsize i = 0; twin == 0 && i < self->n_sizes; i++)
    if (self->sizes[i] == nm)
      return TRUE;
  return FALSE;
}
