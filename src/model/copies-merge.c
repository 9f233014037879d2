/* copies-merge.c - what two copies differ in, and one file of both
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Works on the elements of the files, so that what a later version put there goes along. The root and the lists in it
 * are gone into; an element in a list is a whole, told from others by its id or number: of two that differ one is
 * taken, never a mixture.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/copies.h"

#include "files/save.h"
#include "model/formats.h"
#include "model/room-private.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>

static void
free_difference (gpointer data)
{
  HwCopyDifference *difference = data;

  g_free (difference->what);
  g_free (difference->here);
  g_free (difference->there);
  g_free (difference);
}

static void
note (GPtrArray  *differences,
      const char *what,
      const char *here,
      const char *there)
{
  HwCopyDifference *difference = g_new0 (HwCopyDifference, 1);

  difference->what = g_strdup (what);
  difference->here = g_strdup (here);
  difference->there = g_strdup (there);
  g_ptr_array_add (differences, difference);
}

/* ---- elements ---- */

static gboolean
is_same_attributes (const xmlNode *a,
                    const xmlNode *b)
{
  int n = 0;

  for (const xmlAttr *attribute = a->properties; attribute != NULL; attribute = attribute->next)
    {
      g_autofree char *first = hw_xml_dup_attr (a, (const char *) attribute->name);
      g_autofree char *second = hw_xml_dup_attr (b, (const char *) attribute->name);

      if (g_strcmp0 (first, second) != 0)
        return FALSE;
      n++;
    }
  for (const xmlAttr *attribute = b->properties; attribute != NULL; attribute = attribute->next)
    n--;
  return n == 0;
}

static gboolean
is_same (const xmlNode *a,
         const xmlNode *b)
{
  const xmlNode *first = hw_xml_first (a, NULL);
  const xmlNode *second = hw_xml_first (b, NULL);
  g_autofree char *text = hw_xml_dup_text (a);
  g_autofree char *other = hw_xml_dup_text (b);

  if (strcmp ((const char *) a->name, (const char *) b->name) != 0 || strcmp (text, other) != 0
      || !is_same_attributes (a, b))
    return FALSE;
  for (; first != NULL && second != NULL; first = hw_xml_next (first, NULL), second = hw_xml_next (second, NULL))
    if (!is_same (first, second))
      return FALSE;
  return first == NULL && second == NULL;
}

/* Told from others by an attribute of its own. */
static gboolean
has_id (const xmlNode *node)
{
  g_autofree char *key = hw_xml_dup_key (node);

  return strchr (key, '=') != NULL;
}

static gboolean
is_list (const xmlNode *node)
{
  static const char * const lists[] = { "fabrics", "threads", "steps", "wishes", "queue", NULL };

  return !has_id (node) && g_strv_contains (lists, (const char *) node->name);
}

/* The element of @parent, with its @index, that is the same thing as @node; NULL */
static xmlNode *
find_same_thing (const xmlNode *parent,
                 GHashTable    *index,
                 const xmlNode *node)
{
  g_autofree char *key = hw_xml_dup_key (node);

  if (has_id (node) || is_list (node) || strcmp ((const char *) node->name, "note") == 0)
    return g_hash_table_lookup (index, key);
  for (xmlNode *other = hw_xml_first (parent, NULL); other != NULL; other = hw_xml_next (other, NULL))
    if (is_same (other, node))
      return other;
  return NULL;
}

/* ---- for people ---- */

/* "operation 3", "fabric shell", "note" */
static char *
describe (const xmlNode *node)
{
  g_autofree char *key = hw_xml_dup_key (node);
  const char *equals = strchr (key, '=');

  return equals != NULL ? g_strdup_printf ("%s %s", (const char *) node->name, equals + 1)
                        : g_strdup ((const char *) node->name);
}

/* Name, or what else a person knows it by. */
static char *
summarise (const xmlNode *node)
{
  static const char * const telling[] = { "name", "title", "colour", "time", "steps", "id" };

  for (gsize i = 0; i < G_N_ELEMENTS (telling); i++)
    {
      char *value = hw_xml_dup_attr (node, telling[i]);
      if (value != NULL)
        return value;
    }
  return hw_xml_dup_text (node);
}

static void
note_attributes (GPtrArray     *differences,
                 const char    *what,
                 const xmlNode *here,
                 const xmlNode *there)
{
  const xmlNode *both[] = { here, there };

  for (int side = 0; side < 2; side++)
    for (const xmlAttr *attribute = both[side]->properties; attribute != NULL; attribute = attribute->next)
      {
        const char *name = (const char *) attribute->name;
        g_autofree char *first = hw_xml_dup_attr (here, name);
        g_autofree char *second = hw_xml_dup_attr (there, name);
        g_autofree char *which = *what != '\0' ? g_strdup_printf ("%s %s", what, name) : g_strdup (name);

        if (g_strcmp0 (first, second) != 0 && (side == 0 || first == NULL))
          note (differences, which, first != NULL ? first : "", second != NULL ? second : "");
      }
}

static void
note_different (GPtrArray     *differences,
                const xmlNode *here,
                const xmlNode *there)
{
  g_autofree char *what = describe (here);
  g_autofree char *first = summarise (here);
  g_autofree char *second = summarise (there);

  if (is_same_attributes (here, there))
    note (differences, what, first, second);
  else
    note_attributes (differences, what, here, there);
}

/* ---- both ---- */

static void
take_attributes (xmlNode       *here,
                 const xmlNode *there)
{
  for (const xmlAttr *attribute = there->properties; attribute != NULL; attribute = attribute->next)
    if (attribute->ns == NULL)
      {
        g_autofree char *value = hw_xml_dup_attr (there, (const char *) attribute->name);
        xmlSetProp (here, attribute->name, (const xmlChar *) value);
      }
}

static void
replace (xmlNode       *here,
         const xmlNode *there)
{
  xmlNode *copy = NULL;

  if (xmlDOMWrapCloneNode (NULL, there->doc, (xmlNode *) there, &copy, here->doc, here->parent, 1, 0) != 0)
    g_error ("out of memory");
  xmlFreeNode (xmlReplaceNode (here, copy));
}

static void merge_inside (GPtrArray *differences, xmlNode *here, const xmlNode *there, gboolean prefer_copy);

static void
merge_child (GPtrArray     *differences,
             xmlNode       *here,
             GHashTable    *index,
             const xmlNode *child,
             gboolean       prefer_copy)
{
  xmlNode *same = find_same_thing (here, index, child);

  if (same == NULL)
    {
      g_autofree char *what = describe (child);
      g_autofree char *summary = summarise (child);

      note (differences, what, NULL, summary);
      hw_xml_add_copy (here, child);
    }
  else if (is_list (child))
    {
      merge_inside (differences, same, child, prefer_copy);
    }
  else if (!is_same (same, child))
    {
      note_different (differences, same, child);
      if (prefer_copy)
        replace (same, child);
    }
}

/* Notes how they differ, and makes of @here both. */
static void
merge_inside (GPtrArray     *differences,
              xmlNode       *here,
              const xmlNode *there,
              gboolean       prefer_copy)
{
  g_autoptr (GHashTable) own = hw_xml_index (here);
  g_autoptr (GHashTable) others = hw_xml_index (there);

  for (const xmlNode *child = hw_xml_first (here, NULL); child != NULL; child = hw_xml_next (child, NULL))
    if (find_same_thing (there, others, child) == NULL && !is_list (child))
      {
        g_autofree char *what = describe (child);
        g_autofree char *summary = summarise (child);
        note (differences, what, summary, NULL);
      }
  note_attributes (differences, "", here, there);
  if (prefer_copy)
    take_attributes (here, there);
  for (const xmlNode *child = hw_xml_first (there, NULL); child != NULL; child = hw_xml_next (child, NULL))
    merge_child (differences, here, own, child, prefer_copy);
}

/* (transfer full): the file with what the copy adds */
static HwXml *
read_both (const HwCopy *self,
           gboolean      prefer_copy,
           GPtrArray    *differences,
           GError      **error)
{
  const HwXmlFormat *format = hw_format_find (self->root);
  g_autoptr (HwXml) here = hw_xml_read_file (self->file, HW_JOURNAL_MAX_BYTES, format->root, format->ns, error);
  g_autoptr (HwXml) there = NULL;

  if (here != NULL)
    there = hw_xml_read_file (self->copy, HW_JOURNAL_MAX_BYTES, format->root, format->ns, error);
  if (there == NULL)
    return NULL;
  merge_inside (differences, hw_xml_root (here), hw_xml_root (there), prefer_copy);
  return g_steal_pointer (&here);
}

GPtrArray *
hw_copy_compare (const HwCopy *self,
                 GError      **error)
{
  g_autoptr (GPtrArray) differences = g_ptr_array_new_with_free_func (free_difference);
  g_autoptr (HwXml) both = NULL;

  g_return_val_if_fail (self != NULL, NULL);

  both = read_both (self, FALSE, differences, error);
  return both != NULL ? g_steal_pointer (&differences) : NULL;
}

/* ---- the file ---- */

static void
remove_room (const char *folder)
{
  static const char * const inside[] = { "machines", "journal" };

  for (gsize i = 0; i < G_N_ELEMENTS (inside); i++)
    {
      g_autofree char *path = g_build_filename (folder, inside[i], NULL);
      g_rmdir (path);
    }
  g_rmdir (folder);
}

/* Only the room knows what it takes: one of this file alone is opened. */
static gboolean
check_in_room (const HwCopy *self,
               const char   *data,
               gsize         size,
               GError      **error)
{
  g_autofree char *folder = g_dir_make_tmp ("handwheel-XXXXXX", error);
  g_autofree char *base = g_path_get_basename (self->file);
  g_autofree char *inside = g_path_get_dirname (self->file);
  g_autofree char *last = g_path_get_basename (inside);
  g_autofree char *path = NULL;
  g_autofree char *before = NULL;
  g_autoptr (HwRoom) room = NULL;
  gboolean in_folder = strcmp (self->root, "machine") == 0 || strcmp (self->root, "journal") == 0;

  if (folder == NULL)
    return FALSE;
  path = in_folder ? g_build_filename (folder, last, base, NULL) : g_build_filename (folder, base, NULL);
  before = g_strconcat (path, "~", NULL);
  if (hw_save_bytes (path, data, (gssize) size, error))
    room = hw_room_open (folder, error);
  g_unlink (path);
  g_unlink (before);
  remove_room (folder);
  return room != NULL;
}

static gboolean
check_merged (const HwCopy *self,
              const char   *data,
              gsize         size,
              GError      **error)
{
  g_autofree char *base = g_path_get_basename (self->file);
  g_autoptr (HwProject) project = NULL;

  if (strcmp (self->root, "project") != 0)
    return check_in_room (self, data, size, error);
  project = hw_project_parse (base, data, size, error);
  return project != NULL;
}

static gboolean
put_aside (const char *path,
           GError    **error)
{
  g_autofree char *aside = g_strconcat (path, "~", NULL);
  g_autofree char *shown = NULL;
  int number;

  if (g_rename (path, aside) == 0)
    return TRUE;
  number = errno;
  shown = hw_show_path (path);
  g_set_error (error, G_FILE_ERROR, (int) g_file_error_from_errno (number), _("Could not put “%s” aside: %s"), shown,
               g_strerror (number));
  return FALSE;
}

gboolean
hw_copy_merge (const HwCopy *self,
               gboolean      prefer_copy,
               GError      **error)
{
  g_autoptr (GPtrArray) differences = g_ptr_array_new_with_free_func (free_difference);
  g_autoptr (HwLock) lock = NULL;
  g_autoptr (HwXml) both = NULL;
  g_autofree char *data = NULL;
  gsize size = 0;

  g_return_val_if_fail (self != NULL, FALSE);

  lock = hw_room_lock (self->folder, error);
  both = lock != NULL ? read_both (self, prefer_copy, differences, error) : NULL;
  if (both == NULL)
    return FALSE;
  data = hw_xml_dump (both, &size);
  /* A crash before the copy is put aside leaves both, and merging them again changes nothing. */
  return check_merged (self, data, size, error) && hw_save_bytes (self->file, data, (gssize) size, error)
         && put_aside (self->copy, error);
}
