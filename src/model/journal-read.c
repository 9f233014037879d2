/* journal-read.c - the journal from its files
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every file in the folder is read, a copy that a file-sync service made too: entries are told apart by id, so that
 * what stands in two files counts once.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include "files/save.h"
#include "files/xml.h"
#include "model/formats.h"
#include "model/project-private.h"
#include "model/read-private.h"

#include <glib/gi18n.h>
#include <string.h>

static gboolean
read_text (const HwXml          *xml,
           const xmlNode        *node,
           const HwEntryField   *field,
           gboolean              required,
           HwJournalEntry       *entry,
           GError              **error)
{
  char **text = (char **) G_STRUCT_MEMBER_P (entry, field->offset);
  g_autofree char *what = g_strdup_printf ("“%s”", field->attribute);

  *text = required ? hw_xml_dup_required (xml, node, field->attribute, error)
                   : hw_xml_dup_attr (node, field->attribute);
  if (*text == NULL)
    return !required;
  if (strcmp (field->attribute, "note") == 0)
    return hw_read_blame (xml, node, hw_check_note (*text, error), error);
  return hw_read_blame (xml, node, hw_check_text (what, *text, error), error);
}

static gboolean
read_field (const HwXml        *xml,
            const xmlNode      *node,
            const HwEntryField *field,
            HwJournalEntry     *entry,
            GError            **error)
{
  gboolean required = (field->required & (1u << entry->kind)) != 0;
  double *number = (double *) G_STRUCT_MEMBER_P (entry, field->offset);

  if (field->type == HW_ENTRY_TEXT)
    return read_text (xml, node, field, required, entry, error);
  if (field->type == HW_ENTRY_INT)
    return hw_xml_get_int (xml, node, field->attribute, (int) field->low, (int) field->high,
                           G_STRUCT_MEMBER_P (entry, field->offset), error);
  return required ? hw_xml_get_required_number (xml, node, field->attribute, field->low, field->high, number, error)
                  : hw_xml_get_number (xml, node, field->attribute, field->low, field->high, number, error);
}

static gboolean
check_known_attributes (const HwXml   *xml,
                        const xmlNode *node,
                        HwEntryKind    kind,
                        GError       **error)
{
  g_autoptr (GPtrArray) known = g_ptr_array_new ();

  g_ptr_array_add (known, (gpointer) "id");
  g_ptr_array_add (known, (gpointer) "time");
  for (gsize i = 0; i < hw_n_entry_fields; i++)
    if ((hw_entry_fields[i].kinds & (1u << kind)) != 0)
      g_ptr_array_add (known, (gpointer) hw_entry_fields[i].attribute);
  g_ptr_array_add (known, NULL);
  return hw_xml_check_attributes (xml, node, (const char * const *) known->pdata, error)
         && hw_read_check_text (xml, node, error);
}

static gboolean
read_time (const HwXml    *xml,
           const xmlNode  *node,
           HwJournalEntry *entry,
           GError        **error)
{
  g_autofree char *time = hw_xml_dup_required (xml, node, "time", error);

  if (time == NULL)
    return FALSE;
  entry->time = hw_time_normalise (time);
  return entry->time != NULL
         || hw_read_refuse (xml, node, error, _("“time” must be a moment such as 2031-05-09T14:03:00Z; it is “%.40s”"),
                            time);
}

static gboolean
read_entry (const HwXml    *xml,
            const xmlNode  *node,
            GHashTable     *seen,
            HwJournalEntry *entry,
            GError        **error)
{
  entry->id = hw_read_new_id (xml, node, "id", seen, error);
  if (entry->id == NULL || !read_time (xml, node, entry, error)
      || !check_known_attributes (xml, node, entry->kind, error))
    return FALSE;
  for (gsize i = 0; i < hw_n_entry_fields; i++)
    if ((hw_entry_fields[i].kinds & (1u << entry->kind)) != 0
        && !read_field (xml, node, &hw_entry_fields[i], entry, error))
      return FALSE;
  return TRUE;
}

static gboolean
read_entries (const HwXml *xml,
              const char  *machine,
              GPtrArray   *entries,
              GError     **error)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (const xmlNode *node = hw_xml_first (hw_xml_root (xml), NULL); node != NULL; node = hw_xml_next (node, NULL))
    {
      HwEntryKind kind = HW_ENTRY_SEWING;
      HwJournalEntry *entry;

      if (!hw_read_check_element (xml, node, hw_entry_kind_ids, error))
        return FALSE;
      while (!hw_xml_is (node, hw_entry_kind_ids[kind]))
        kind++;
      entry = hw_journal_entry_alloc (kind);
      entry->machine = g_strdup (machine);
      g_ptr_array_add (entries, entry);
      if (!read_entry (xml, node, seen, entry, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
read_tree (const HwXml *xml,
           const char  *machine,
           GPtrArray   *entries,
           GError     **error)
{
  static const char * const known[] = { "machine", "year", NULL };
  const xmlNode *root = hw_xml_root (xml);
  g_autofree char *owner = NULL;
  int year = 0;

  if (!hw_xml_check_attributes (xml, root, known, error) || !hw_read_check_text (xml, root, error))
    return FALSE;
  owner = hw_xml_dup_required (xml, root, "machine", error);
  if (owner == NULL || !hw_xml_get_int (xml, root, "year", 1000, 9999, &year, error))
    return FALSE;
  if (strcmp (owner, HW_HAND) != 0 && !hw_read_blame (xml, root, hw_machine_check_id (owner, error), error))
    return FALSE;
  if (machine != NULL && strcmp (machine, owner) != 0)
    return hw_read_refuse (xml, root, error, _("this is the journal of “%s”, but its file's name says “%s”; rename it"),
                           owner, machine);
  return read_entries (xml, owner, entries, error);
}

gboolean
hw_journal_read (const char *name,
                 const char *bytes,
                 gsize       size,
                 const char *machine,
                 GPtrArray  *entries,
                 GError    **error)
{
  g_autoptr (HwXml) xml = NULL;

  if (hw_journal_read_plain (bytes, size, machine, entries))
    return TRUE;
  xml = hw_format_read_bytes (name, bytes, size, "journal", error);
  return xml != NULL && read_tree (xml, machine, entries, error);
}

/* Takes over what is new in @entries; what another file holds with the same words is the same entry. */
static gboolean
merge (HwRoom     *self,
       GPtrArray  *entries,
       const char *name,
       GError    **error)
{
  for (guint i = 0; i < entries->len; i++)
    {
      HwJournalEntry *entry = g_ptr_array_index (entries, i);
      const HwJournalEntry *other = g_hash_table_lookup (self->known, entry->id);

      if (other != NULL && !hw_journal_entry_is_equal (entry, other))
        {
          g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                       _("%s: the entry “%s” stands in another journal file too and says something else there; keep "
                         "one of them, or let “handwheel copies --merge” do so"), name, entry->id);
          return FALSE;
        }
      if (other != NULL)
        continue;
      g_hash_table_insert (self->known, entry->id, hw_journal_entry_ref (entry));
      g_ptr_array_add (self->entries, entry);
    }
  return TRUE;
}

static gboolean
read_journal (HwRoom     *self,
              const char *name,
              GError    **error)
{
  g_autofree char *path = g_build_filename (self->folder, "journal", name, NULL);
  g_autofree char *shown = hw_show_path (name);
  g_autoptr (GPtrArray) entries = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);
  g_autofree char *bytes = NULL;
  gsize size = 0;

  bytes = hw_xml_load_file (path, HW_JOURNAL_MAX_BYTES, &size, error);
  return bytes != NULL && hw_journal_read (shown, bytes, size, NULL, entries, error)
         && merge (self, entries, shown, error);
}

gboolean
hw_room_read_journals (HwRoom  *self,
                       GError **error)
{
  g_autoptr (GPtrArray) names = hw_room_list_files (self->folder, "journal", error);

  for (guint i = 0; names != NULL && i < names->len; i++)
    if (!read_journal (self, g_ptr_array_index (names, i), error))
      return FALSE;
  return names != NULL;
}
