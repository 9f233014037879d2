/* handbook.c - loads the XML knowledge base, and a person's own XML over it
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The typed reader comes first, because its messages name the entry and what was expected; the RELAX NG schema then
 * looks at every file once more, so that nothing the reader does not ask for slips in. That takes longer than all else;
 * bytes that it once found good it need not see again.
 */

#define G_LOG_DOMAIN "hw-handbook"

#include "config.h"

#include "files/save.h"
#include "handbook/handbook-private.h"

#include <glib/gi18n.h>
#include <string.h>

#define NAMESPACE "urn:handwheel:handbook:1"
#define MOST_BYTES (4u << 20)
#define MOST_FILES 64

G_DEFINE_QUARK (hw-handbook-error-quark, hw_handbook_error)

static int
compare_names (const void *a,
               const void *b)
{
  return strcmp (*(const char * const *) a, *(const char * const *) b);
}

/* (transfer full): the names of the XML files of @folder, sorted, so that the order never depends on the disk. */
static GPtrArray *
list_files (const char *folder,
            GError    **error)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, error);
  const char *name;

  if (dir == NULL)
    return NULL;
  while ((name = g_dir_read_name (dir)) != NULL)
    if (*name != '.' && g_str_has_suffix (name, ".xml"))
      g_ptr_array_add (names, g_strdup (name));
  g_ptr_array_sort (names, compare_names);
  return g_steal_pointer (&names);
}

static gboolean
check_count (const char      *folder,
             const GPtrArray *names,
             guint            least,
             GError         **error)
{
  if (names->len >= least && names->len <= MOST_FILES)
    return TRUE;
  g_set_error (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_READ,
               _("%s: a handbook is a folder with 1 to %d .xml files; this one has %d"),
               folder, MOST_FILES, (int) names->len);
  return FALSE;
}

static void
sum_file (GChecksum  *sum,
          const char *path,
          const char *data,
          gsize       size)
{
  g_checksum_update (sum, (const guchar *) path, (gssize) strlen (path) + 1);
  g_checksum_update (sum, (const guchar *) &size, sizeof size);
  g_checksum_update (sum, (const guchar *) data, (gssize) size);
}

/* (transfer full): the bytes of the file, which then count for the mark. */
static char *
load_file (HwReader   *self,
           const char *path,
           gsize      *size,
           GError    **error)
{
  char *data = hw_xml_load_file (path, MOST_BYTES, size, error);

  if (data != NULL && self->sum != NULL)
    sum_file (self->sum, path, data, *size);
  return data;
}

static HwXml *
read_document (HwReader   *self,
               const char *folder,
               const char *name,
               gboolean    overlays,
               GError    **error)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  gsize size = 0;
  g_autofree char *data = load_file (self, path, &size, error);
  g_autofree char *shown = hw_show_name (path);
  HwXml *xml = data != NULL ? hw_xml_read_bytes (shown, data, size, "handbook", NAMESPACE, error) : NULL;

  /* A person's file may be called like one of ours: messages tell the two apart by the path. */
  if (xml == NULL && overlays)
    g_prefix_error (error, "%s%s", folder, G_DIR_SEPARATOR_S);
  else if (xml != NULL && overlays)
    hw_xml_rename (xml, path);
  return xml;
}

static gboolean
read_documents (HwReader   *self,
                const char *folder,
                gboolean    overlays,
                GError    **error)
{
  g_autoptr (GPtrArray) names = list_files (folder, error);

  if (names == NULL || !check_count (folder, names, overlays ? 0 : 1, error))
    return FALSE;
  for (guint i = 0; i < names->len; i++)
    {
      HwXml *xml = read_document (self, folder, g_ptr_array_index (names, i), overlays, error);
      if (xml == NULL)
        return FALSE;
      g_ptr_array_add (self->documents, xml);
    }
  if (!overlays)
    self->n_own = self->documents->len;
  return TRUE;
}

static gboolean
check_roots (HwReader *self,
             GError  **error)
{
  static const char * const nothing[] = { NULL };

  for (guint i = 0; i < self->documents->len; i++)
    {
      const HwXml *xml = g_ptr_array_index (self->documents, i);
      if (!hw_xml_check_attributes (xml, hw_xml_root (xml), nothing, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_schema (HwReader   *self,
              const char *known,
              GError    **error)
{
  g_autofree char *path = g_build_filename (self->book->folder, "handbook.rng", NULL);
  gsize size = 0;
  g_autofree char *bytes = load_file (self, path, &size, error);
  g_autoptr (HwSchema) schema = NULL;

  if (bytes == NULL)
    return FALSE;
  if (known != NULL && strcmp (g_checksum_get_string (self->sum), known) == 0)
    return TRUE;
  schema = hw_schema_load (path, error);
  if (schema == NULL)
    return FALSE;
  for (guint i = 0; i < self->documents->len; i++)
    if (!hw_schema_check (schema, g_ptr_array_index (self->documents, i), error))
      return FALSE;
  return TRUE;
}

static int
translate_code (const GError *error)
{
  if (error->domain != HW_XML_ERROR)
    return HW_HANDBOOK_ERROR_READ;
  switch ((HwXmlError) error->code)
    {
    case HW_XML_ERROR_READ:
    case HW_XML_ERROR_TOO_BIG:
      return HW_HANDBOOK_ERROR_READ;
    case HW_XML_ERROR_MALFORMED:
    case HW_XML_ERROR_FORBIDDEN:
      return HW_HANDBOOK_ERROR_MALFORMED;
    case HW_XML_ERROR_NAMESPACE:
    case HW_XML_ERROR_INVALID:
    default:
      return HW_HANDBOOK_ERROR_INVALID;
    }
}

/* Callers know the handbook's own errors only. */
static void
hand_over_error (GError **error,
                 GError  *found)
{
  if (found->domain != HW_HANDBOOK_ERROR)
    {
      GError *own = g_error_new_literal (HW_HANDBOOK_ERROR, translate_code (found), found->message);
      g_error_free (found);
      found = own;
    }
  g_propagate_error (error, found);
}

static void
free_xml (void *xml)
{
  hw_xml_free (xml);
}

/* (transfer full): another version may ask for more. */
static GChecksum *
new_sum (void)
{
  GChecksum *sum = g_checksum_new (G_CHECKSUM_SHA256);

  g_checksum_update (sum, (const guchar *) HW_VERSION, -1);
  return sum;
}

static HwHandbook *
load (const char  *folder,
      const char  *overlay,
      HwTranslate  translate,
      const char  *known,
      char       **mark,
      GError     **error)
{
  g_autoptr (HwHandbook) self = g_new0 (HwHandbook, 1);
  GError *found = NULL;
  HwReader reader = { 0 };
  gboolean done;

  g_atomic_ref_count_init (&self->ref_count);
  self->folder = g_strdup (folder);
  reader.book = self;
  reader.translate = translate;
  reader.sum = known != NULL || mark != NULL ? new_sum () : NULL;
  reader.documents = g_ptr_array_new_with_free_func (free_xml);
  done = read_documents (&reader, folder, FALSE, &found)
         && (overlay == NULL || read_documents (&reader, overlay, TRUE, &found))
         && check_roots (&reader, &found)
         && hw_reader_read_tables (&reader, &found)
         && check_schema (&reader, known, &found);
  g_ptr_array_unref (reader.documents);
  if (done && mark != NULL)
    *mark = g_strdup (g_checksum_get_string (reader.sum));
  g_clear_pointer (&reader.sum, g_checksum_free);
  if (done)
    return g_steal_pointer (&self);
  hand_over_error (error, found);
  return NULL;
}

/**
 * hw_handbook_load:
 * @folder: holds the .xml files and handbook.rng
 *
 * Returns: (transfer full): the whole handbook, or %NULL with a %HW_HANDBOOK_ERROR
 */
HwHandbook *
hw_handbook_load (const char *folder,
                  GError    **error)
{
  g_return_val_if_fail (folder != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  return load (folder, NULL, NULL, NULL, NULL, error);
}

/**
 * hw_handbook_load_with_overlay:
 * @folder: holds the .xml files and handbook.rng
 * @overlay_or_null: holds a person's own .xml files
 * @translate: (scope call) (nullable): puts names and sentences into the person's language
 * @overlay_error: (out) (optional): why the overlay was refused
 *
 * Returns: (transfer full): the handbook with the overlay, or without it and @overlay_error set, or %NULL with @error
 */
HwHandbook *
hw_handbook_load_with_overlay (const char  *folder,
                               const char  *overlay_or_null,
                               HwTranslate  translate,
                               GError     **overlay_error,
                               GError     **error)
{
  return hw_handbook_load_known (folder, overlay_or_null, translate, NULL, NULL, overlay_error, error);
}

/**
 * hw_handbook_load_known:
 * @known_or_null: what @mark was given when files were loaded before
 * @mark: (out) (optional) (transfer full): of the bytes read; set when they follow the schema
 *
 * Returns: (transfer full): as hw_handbook_load_with_overlay()
 */
HwHandbook *
hw_handbook_load_known (const char  *folder,
                        const char  *overlay_or_null,
                        HwTranslate  translate,
                        const char  *known_or_null,
                        char       **mark,
                        GError     **overlay_error,
                        GError     **error)
{
  g_autoptr (GError) refused = NULL;
  HwHandbook *self;

  g_return_val_if_fail (folder != NULL, NULL);
  g_return_val_if_fail (overlay_error == NULL || *overlay_error == NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (overlay_or_null == NULL || !g_file_test (overlay_or_null, G_FILE_TEST_EXISTS))
    return load (folder, NULL, translate, known_or_null, mark, error);
  self = load (folder, overlay_or_null, translate, known_or_null, mark, &refused);
  if (self != NULL)
    return self;
  self = load (folder, NULL, translate, known_or_null, mark, error);
  if (self != NULL)
    g_propagate_error (overlay_error, g_steal_pointer (&refused));
  return self;
}

HwHandbook *
hw_handbook_ref (HwHandbook *self)
{
  g_return_val_if_fail (self != NULL, NULL);
  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

void
hw_handbook_unref (HwHandbook *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->ref_count))
    return;
  hw_tables_clear (self);
  g_free (self->folder);
  g_free (self);
}
