/* room-lists.c - files of the room that hold a list of things with ids: needles, threads, fabrics
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What another process wrote meanwhile is merged thing by thing: what only one of the two changed is taken from that
 * one. What both changed, each in another way, is refused, for nobody but the person knows which is right.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include "files/rescue.h"

#include "model/formats.h"
#include "model/read-private.h"

#include <glib/gi18n.h>
#include <string.h>

/* ---- reading and writing ---- */

static gboolean
read_items (const HwListFile *file,
            const HwXml      *xml,
            GPtrArray        *items,
            GError          **error)
{
  static const char * const no_attributes[] = { NULL };
  const char * const elements[] = { file->element, NULL };
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  const xmlNode *root = hw_xml_root (xml);

  if (!hw_xml_check_attributes (xml, root, no_attributes, error) || !hw_read_check_text (xml, root, error))
    return FALSE;
  for (const xmlNode *node = hw_xml_first (root, NULL); node != NULL; node = hw_xml_next (node, NULL))
    {
      gpointer item = NULL;

      if (hw_read_check_element (xml, node, elements, error))
        item = file->read (xml, node, seen, error);
      if (item == NULL)
        return FALSE;
      g_ptr_array_add (items, item);
    }
  return TRUE;
}

gboolean
hw_list_read (const HwListFile *file,
              const char       *folder,
              GPtrArray        *items,
              GError          **error)
{
  g_autofree char *path = g_build_filename (folder, file->name, NULL);
  g_autoptr (HwXml) xml = NULL;

  if (!g_file_test (path, G_FILE_TEST_EXISTS))
    return TRUE;
  xml = hw_format_read_file (path, HW_LIST_MAX_BYTES, file->root, error);
  return xml != NULL && read_items (file, xml, items, error);
}

static void
write_item (const HwListFile *file,
            HwXmlWriter      *writer,
            gconstpointer     item)
{
  hw_xml_writer_open (writer, file->element);
  file->write (writer, item);
  hw_xml_writer_close (writer);
}

static char *
list_to_xml (const HwListFile *file,
             const GPtrArray  *items,
             gsize            *size)
{
  HwXmlWriter *writer = hw_xml_writer_new (file->root, HW_ROOM_NS);

  for (guint i = 0; i < items->len; i++)
    write_item (file, writer, g_ptr_array_index (items, i));
  return hw_xml_writer_finish (writer, size);
}

GPtrArray *
hw_list_reread (const HwListFile *file,
                const GPtrArray  *items,
                GError          **error)
{
  g_autoptr (GPtrArray) read = g_ptr_array_new_with_free_func (file->free);
  g_autoptr (HwXml) xml = NULL;
  g_autofree char *data = NULL;
  gsize size = 0;

  data = list_to_xml (file, items, &size);
  xml = hw_format_read_bytes (file->name, data, size, file->root, error);
  return xml != NULL && read_items (file, xml, read, error) ? g_steal_pointer (&read) : NULL;
}

gboolean
hw_list_save (const HwListFile *file,
              const char       *folder,
              const GPtrArray  *items,
              GError          **error)
{
  g_autofree char *path = g_build_filename (folder, file->name, NULL);
  g_autofree char *data = NULL;
  gsize size = 0;

  data = list_to_xml (file, items, &size);
  return hw_format_save (file->root, path, g_steal_pointer (&data), size, error);
}

gboolean
hw_list_is_equal (const HwListFile *file,
                  const GPtrArray  *a,
                  const GPtrArray  *b)
{
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;

  if (a == b)
    return TRUE;
  first = list_to_xml (file, a, NULL);
  second = list_to_xml (file, b, NULL);
  return strcmp (first, second) == 0;
}

void
hw_list_rescue (const HwListFile *file,
                const GPtrArray  *items,
                GError          **error)
{
  gsize size = 0;
  g_autofree char *data = list_to_xml (file, items, &size);
  g_autofree char *rescued = hw_rescue_bytes (file->name, NULL, data, size);

  hw_rescue_tell (error, rescued);
}

/* ---- merging ---- */

static const char *
id_of (gconstpointer item)
{
  return *(char * const *) item;                         /* each kind of item begins with its id */
}

static GHashTable *
index_items (const GPtrArray *items)
{
  GHashTable *index = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < items->len; i++)
    g_hash_table_insert (index, (gpointer) id_of (g_ptr_array_index (items, i)), g_ptr_array_index (items, i));
  return index;
}

static char *
describe_item (const HwListFile *file,
               gconstpointer     item)
{
  HwXmlWriter *writer = hw_xml_writer_new (file->root, HW_ROOM_NS);

  write_item (file, writer, item);
  return hw_xml_writer_finish (writer, NULL);
}

/* Two that are not there are the same, too. */
static gboolean
is_same (const HwListFile *file,
         gconstpointer     a,
         gconstpointer     b)
{
  g_autofree char *first = a != NULL ? describe_item (file, a) : NULL;
  g_autofree char *second = b != NULL ? describe_item (file, b) : NULL;

  return g_strcmp0 (first, second) == 0;
}

/* Of one thing as it was, as this process wants it and as the file has it; NULL: not there. FALSE: both changed it. */
static gboolean
merge_item (const HwListFile *file,
            gconstpointer     before,
            gconstpointer     mine,
            gconstpointer     theirs,
            gconstpointer    *merged)
{
  *merged = is_same (file, before, mine) ? theirs : mine;
  return *merged == theirs || is_same (file, before, theirs) || is_same (file, mine, theirs);
}

GPtrArray *
hw_list_merge (const HwListFile *file,
               const GPtrArray  *before,
               const GPtrArray  *mine,
               const GPtrArray  *theirs,
               GError          **error)
{
  g_autoptr (GHashTable) was = index_items (before);
  g_autoptr (GHashTable) wanted = index_items (mine);
  g_autoptr (GHashTable) found = index_items (theirs);
  g_autoptr (GPtrArray) merged = g_ptr_array_new ();

  for (guint i = 0; i < mine->len + theirs->len; i++)
    {
      gconstpointer item = i < mine->len ? mine->pdata[i] : theirs->pdata[i - mine->len];
      const char *id = id_of (item);
      gconstpointer kept = NULL;

      if (i >= mine->len && g_hash_table_contains (wanted, id))
        continue;
      if (!merge_item (file, g_hash_table_lookup (was, id), g_hash_table_lookup (wanted, id),
                       g_hash_table_lookup (found, id), &kept))
        {
          hw_room_refuse_changed (file->name, id, error);
          return NULL;
        }
      if (kept != NULL)
        g_ptr_array_add (merged, (gpointer) kept);
    }
  return g_steal_pointer (&merged);
}

void
hw_room_refuse_changed (const char *file,
                        const char *id,
                        GError    **error)
{
  g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_CHANGED,
               _("%s: “%s” was changed elsewhere meanwhile; look at what stands there now and make your change again"),
               file, id);
}
