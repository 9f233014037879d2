/* room-append.c - one more entry in the journal
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The one file of the entry's machine and year is read again under the room's lock, so that what another process
 * wrote there stays, and shows in the new snapshot.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include "files/save.h"
#include "files/xml.h"

#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>

static gpointer
ref_entry (gconstpointer entry,
           gpointer      data)
{
  return hw_journal_entry_ref ((HwJournalEntry *) entry);
}

static gboolean
check_machine_known (const HwRoom         *self,
                     const HwJournalEntry *entry,
                     GError              **error)
{
  g_autoptr (GPtrArray) ids = NULL;
  g_autofree char *all = NULL;

  if (strcmp (entry->machine, HW_HAND) == 0 || hw_room_find_machine (self, entry->machine) != NULL)
    return TRUE;
  ids = g_ptr_array_new ();
  for (guint i = 0; i < self->machines->len; i++)
    g_ptr_array_add (ids, ((HwMachine *) g_ptr_array_index (self->machines, i))->id);
  g_ptr_array_add (ids, (gpointer) HW_HAND);
  g_ptr_array_add (ids, NULL);
  all = g_strjoinv (", ", (char **) ids->pdata);
  g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN,
               _("there is no machine “%s” in the sewing room; it has %s"), entry->machine, all);
  return FALSE;
}

/* (transfer full): a checked copy with its time as the file keeps it. */
static HwJournalEntry *
prepare_entry (const HwRoom         *self,
               const HwJournalEntry *entry,
               GError              **error)
{
  g_autoptr (HwJournalEntry) copy = hw_journal_entry_copy (entry);

  g_free (copy->time);
  copy->time = hw_time_normalise (entry->time);
  if (copy->time == NULL)
    {
      g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                   _("a journal entry's time must be a moment such as 2031-05-09T14:03:00Z"));
      return NULL;
    }
  if (!hw_journal_entry_check (copy, error) || !check_machine_known (self, copy, error))
    return NULL;
  return g_steal_pointer (&copy);
}

/* (transfer container): those of @entries that @self does not know; NULL when it knows one that says something else. */
static GPtrArray *
find_unknown (const HwRoom    *self,
              const GPtrArray *entries)
{
  g_autoptr (GPtrArray) unknown = g_ptr_array_new ();

  for (guint i = 0; i < entries->len; i++)
    {
      HwJournalEntry *entry = g_ptr_array_index (entries, i);
      const HwJournalEntry *known = hw_room_find_entry (self, entry->id);

      if (known == NULL)
        g_ptr_array_add (unknown, entry);
      else if (!hw_journal_entry_is_equal (known, entry))
        return NULL;
    }
  return g_steal_pointer (&unknown);
}

/* (transfer full): those of @self that are not in @in_file, and then these. */
static GPtrArray *
replace_known (const HwRoom    *self,
               const GPtrArray *in_file)
{
  GPtrArray *entries = g_ptr_array_new ();
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < in_file->len; i++)
    g_hash_table_add (ids, ((HwJournalEntry *) g_ptr_array_index (in_file, i))->id);
  for (guint i = 0; i < self->entries->len; i++)
    if (!g_hash_table_contains (ids, ((HwJournalEntry *) g_ptr_array_index (self->entries, i))->id))
      g_ptr_array_add (entries, g_ptr_array_index (self->entries, i));
  for (guint i = 0; i < in_file->len; i++)
    g_ptr_array_add (entries, g_ptr_array_index (in_file, i));
  return entries;
}

/* (transfer full): @self as it is with what another process wrote to the file since; what the file says counts. */
static HwRoom *
catch_up (const HwRoom *self,
          GPtrArray    *in_file)
{
  g_autoptr (GPtrArray) unknown = find_unknown (self, in_file);
  g_autoptr (GPtrArray) entries = NULL;

  if (unknown != NULL)
    return unknown->len > 0 ? hw_room_extend (self, unknown) : hw_room_ref ((HwRoom *) self);
  entries = replace_known (self, in_file);
  return hw_room_imagine (self, entries);
}

static gboolean
check_new (const HwRoom         *self,
           const HwJournalEntry *entry,
           GError              **error)
{
  if (hw_room_find_entry (self, entry->id) != NULL)
    g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, _("the entry “%s” is in the journal already"),
                 entry->id);
  else if (entry->kind != HW_ENTRY_CANCEL)
    return TRUE;
  else if (hw_room_find_entry (self, entry->of) == NULL)
    g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN,
                 _("there is no entry “%s” in the journal to cancel; open the sewing room again"), entry->of);
  else if (g_hash_table_contains (self->cancelled, entry->of))
    g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, _("the entry “%s” is cancelled already"), entry->of);
  else
    return TRUE;
  return FALSE;
}

static gboolean
furnish_if_bare (const HwRoom *self,
                 GError      **error)
{
  gboolean furnished = FALSE;

  return hw_room_has_machines (self->folder, &furnished, error) && (furnished || hw_room_furnish (self, error));
}

/* The one journal file that is written to, as it stood. */
typedef struct
{
  char      *path;
  char      *name;                       /* for messages */
  char      *bytes;                      /* NULL: there is none yet */
  gsize      size;
  int        year;
  GPtrArray *entries;
} File;

static void
clear_file (File *self)
{
  g_free (self->path);
  g_free (self->name);
  g_free (self->bytes);
  g_clear_pointer (&self->entries, g_ptr_array_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (File, clear_file)

static gboolean
read_file (const HwRoom         *self,
           const HwJournalEntry *first,
           File                 *file,
           GError              **error)
{
  file->year = atoi (first->time);
  file->name = g_strdup_printf ("%s-%d.xml", first->machine, file->year);
  file->path = g_build_filename (self->folder, "journal", file->name, NULL);
  file->entries = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);
  if (!g_file_test (file->path, G_FILE_TEST_EXISTS))
    return TRUE;
  file->bytes = hw_xml_load_file (file->path, HW_JOURNAL_MAX_BYTES, &file->size, error);
  return file->bytes != NULL
         && hw_journal_read (file->name, file->bytes, file->size, first->machine, file->entries, error);
}

static gboolean
write_file (File            *file,
            const char      *machine,
            const GPtrArray *added,
            GError         **error)
{
  g_autofree char *data = NULL;
  gsize size = 0;

  if (file->bytes != NULL)
    data = hw_journal_add_xml (file->bytes, file->size, machine, file->year, added, &size);
  if (data == NULL)
    {
      g_ptr_array_extend (file->entries, (GPtrArray *) added, ref_entry, NULL);
      data = hw_journal_to_xml (machine, file->year, file->entries, &size);
    }
  if (size > HW_JOURNAL_MAX_BYTES)
    {
      g_autofree char *shown = g_filename_display_name (file->path);
      g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_TOO_BIG, _("%s is full; move its oldest entries to another file"),
                   shown);
      return FALSE;
    }
  return hw_save_bytes (file->path, data, (gssize) size, error);
}

/* (transfer full): checked copies; NULL with @error set when one is refused */
static GPtrArray *
prepare_entries (const HwRoom                 *self,
                 const HwJournalEntry * const *entries,
                 gsize                         n,
                 GError                      **error)
{
  g_autoptr (GPtrArray) prepared = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);

  for (gsize i = 0; i < n; i++)
    {
      HwJournalEntry *entry = prepare_entry (self, entries[i], error);

      if (entry == NULL)
        return NULL;
      g_ptr_array_add (prepared, entry);
    }
  return g_steal_pointer (&prepared);
}

HwRoom *
hw_room_append_all (const HwRoom                 *self,
                    const HwJournalEntry * const *entries,
                    gsize                         n,
                    GError                      **error)
{
  g_autoptr (GPtrArray) added = prepare_entries (self, entries, n, error);
  g_autoptr (HwLock) lock = added != NULL ? hw_room_lock (self->folder, error) : NULL;
  g_autoptr (HwRoom) before = NULL;
  g_auto (File) file = { NULL };
  const HwJournalEntry *first;

  if (lock == NULL)
    return NULL;
  first = g_ptr_array_index (added, 0);
  if (!read_file (self, first, &file, error))
    return NULL;
  before = catch_up (self, file.entries);
  for (guint i = 0; i < added->len; i++)
    if (!check_new (before, g_ptr_array_index (added, i), error))
      return NULL;
  if (!furnish_if_bare (self, error) || !write_file (&file, first->machine, added, error))
    return NULL;
  return hw_room_extend (before, added);
}

/**
 * hw_room_append:
 *
 * Returns: (transfer full): the room with @entry in its journal, and with what another process wrote to the same file
 *   since; %NULL with @error set, and nothing written
 */
HwRoom *
hw_room_append (const HwRoom         *self,
                const HwJournalEntry *entry,
                GError              **error)
{
  g_return_val_if_fail (self != NULL && entry != NULL && entry->machine != NULL, NULL);

  return hw_room_append_all (self, &entry, 1, error);
}
