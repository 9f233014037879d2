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

/* (transfer full): the other entries of @self and those of the file, as a snapshot that is not yet derived. */
static HwRoom *
join_snapshot (const HwRoom *self,
               GPtrArray    *in_file)
{
  HwRoom *next = hw_room_share (self);
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);

  g_ptr_array_unref (next->entries);
  next->entries = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);
  for (guint i = 0; i < in_file->len; i++)
    g_hash_table_add (ids, ((HwJournalEntry *) g_ptr_array_index (in_file, i))->id);
  for (guint i = 0; i < self->entries->len; i++)
    {
      HwJournalEntry *entry = g_ptr_array_index (self->entries, i);
      if (!g_hash_table_contains (ids, entry->id))
        g_ptr_array_add (next->entries, hw_journal_entry_ref (entry));
    }
  for (guint i = 0; i < in_file->len; i++)
    g_ptr_array_add (next->entries, hw_journal_entry_ref (g_ptr_array_index (in_file, i)));
  hw_room_sort_entries (next);
  hw_room_derive (next);
  return next;
}

static gboolean
has_entry (const HwRoom *self,
           const char   *id)
{
  for (guint i = 0; i < self->entries->len; i++)
    if (strcmp (((HwJournalEntry *) g_ptr_array_index (self->entries, i))->id, id) == 0)
      return TRUE;
  return FALSE;
}

static gboolean
check_new (const HwRoom         *self,
           const HwJournalEntry *entry,
           GError              **error)
{
  if (has_entry (self, entry->id))
    g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, _("the entry “%s” is in the journal already"),
                 entry->id);
  else if (entry->kind != HW_ENTRY_CANCEL)
    return TRUE;
  else if (!has_entry (self, entry->of))
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

static gboolean
save_journal (const char      *path,
              const char      *machine,
              int              year,
              const GPtrArray *entries,
              GError         **error)
{
  g_autofree char *data = NULL;
  gsize size = 0;

  data = hw_journal_to_xml (machine, year, entries, &size);
  if (size > HW_JOURNAL_MAX_BYTES)
    {
      g_autofree char *shown = g_filename_display_name (path);
      g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_TOO_BIG, _("%s is full; move its oldest entries to another file"),
                   shown);
      return FALSE;
    }
  return hw_save_bytes (path, data, (gssize) size, error);
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
  g_autoptr (GPtrArray) in_file = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);
  g_autoptr (HwRoom) before = NULL;
  g_autofree char *name = NULL;
  g_autofree char *path = NULL;
  const HwJournalEntry *first;
  int year;

  if (lock == NULL)
    return NULL;
  first = g_ptr_array_index (added, 0);
  year = atoi (first->time);
  name = g_strdup_printf ("%s-%d.xml", first->machine, year);
  path = g_build_filename (self->folder, "journal", name, NULL);
  if (g_file_test (path, G_FILE_TEST_EXISTS) && !hw_journal_read (path, first->machine, in_file, error))
    return NULL;
  before = join_snapshot (self, in_file);
  for (guint i = 0; i < added->len; i++)
    if (!check_new (before, g_ptr_array_index (added, i), error))
      return NULL;
  if (!furnish_if_bare (self, error))
    return NULL;
  for (guint i = 0; i < added->len; i++)
    g_ptr_array_add (in_file, hw_journal_entry_ref (g_ptr_array_index (added, i)));
  if (!save_journal (path, first->machine, year, in_file, error))
    return NULL;
  return join_snapshot (before, in_file);
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
