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

#include "files/rescue.h"
#include "files/save.h"
#include "files/xml.h"
#include "model/formats.h"

#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>

#define MOMENT_US (5 * G_USEC_PER_SEC)   /* an entry made now is appended within */

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

/* The last time on that machine when it is later than @time; NULL. Borrowed */
static const char *
find_later (const HwRoom *self,
            const char   *machine,
            const char   *time)
{
  for (guint i = self->entries->len; i > 0; i--)
    {
      const HwJournalEntry *entry = g_ptr_array_index (self->entries, i - 1);

      if (strcmp (entry->time, time) <= 0)
        return NULL;
      if (strcmp (entry->machine, machine) == 0)
        return entry->time;
    }
  return NULL;
}

static gboolean
is_of_this_moment (const char *time)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  g_autoptr (GDateTime) then = g_date_time_new_from_iso8601 (time, NULL);

  return then != NULL && ABS (g_date_time_difference (now, then)) <= MOMENT_US;
}

const char *
hw_room_clock_behind (const HwRoom         *self,
                      const HwJournalEntry *entry)
{
  g_return_val_if_fail (self != NULL && entry != NULL && entry->machine != NULL && entry->time != NULL, NULL);

  return is_of_this_moment (entry->time) ? find_later (self, entry->machine, entry->time) : NULL;
}

/* What is done now comes after what was done before, also when the clock was set back: what is on a machine follows
 * from the order of its entries. A time that a person gave stays. */
static void
put_after_last (const HwRoom   *self,
                HwJournalEntry *entry)
{
  const char *later = hw_room_clock_behind (self, entry);
  g_autoptr (GDateTime) last = later != NULL ? g_date_time_new_from_iso8601 (later, NULL) : NULL;
  g_autoptr (GDateTime) next = last != NULL ? g_date_time_add_seconds (last, 1) : NULL;

  if (next == NULL)
    return;
  g_free (entry->time);
  entry->time = g_date_time_format (next, "%Y-%m-%dT%H:%M:%SZ");
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
  put_after_last (self, copy);
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
      data = hw_xml_put_back (hw_format_find ("journal"), file->path,
                              hw_journal_to_xml (machine, file->year, file->entries, &size), &size);
    }
  if (size > HW_JOURNAL_MAX_BYTES)
    {
      g_autofree char *shown = hw_show_path (file->path);
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

/* *@refused: it was the entries that were wrong, and nothing about the disk. */
static HwRoom *
append_prepared (const HwRoom *self,
                 GPtrArray    *added,
                 gboolean     *refused,
                 GError      **error)
{
  g_autoptr (HwLock) lock = hw_room_lock (self->folder, error);
  g_autoptr (HwRoom) before = NULL;
  g_auto (File) file = { NULL };
  const HwJournalEntry *first = g_ptr_array_index (added, 0);

  if (lock == NULL || !read_file (self, first, &file, error))
    return NULL;
  before = catch_up (self, file.entries);
  for (guint i = 0; i < added->len; i++)
    if (!check_new (before, g_ptr_array_index (added, i), error))
      {
        *refused = TRUE;
        return NULL;
      }
  if (!furnish_if_bare (self, error) || !write_file (&file, first->machine, added, error))
    return NULL;
  return hw_room_extend (before, added);
}

/* A journal of these alone: put into the room's folder for journals, they are part of it. */
static void
rescue_entries (const GPtrArray *entries,
                GError         **error)
{
  const HwJournalEntry *first = g_ptr_array_index (entries, 0);
  int year = atoi (first->time);
  gsize size = 0;
  g_autofree char *data = hw_journal_to_xml (first->machine, year, entries, &size);
  g_autofree char *name = g_strdup_printf ("%s-%d.xml", first->machine, year);
  g_autofree char *rescued = hw_rescue_bytes (name, NULL, data, size);

  hw_rescue_tell (error, rescued);
}

HwRoom *
hw_room_append_all (const HwRoom                 *self,
                    const HwJournalEntry * const *entries,
                    gsize                         n,
                    GError                      **error)
{
  g_autoptr (GPtrArray) added = NULL;
  gboolean refused = FALSE;
  HwRoom *next;

  g_return_val_if_fail (self != NULL && n > 0 && entries[0]->machine != NULL, NULL);

  added = prepare_entries (self, entries, n, error);
  if (added == NULL)
    return NULL;
  next = append_prepared (self, added, &refused, error);
  if (next == NULL && !refused)
    rescue_entries (added, error);
  return next;
}

/**
 * hw_room_append:
 *
 * Returns: (transfer full): the room with @entry in its journal, and with what another process wrote to the same file
 *   since; %NULL with @error set and nothing written but, when it was the disk that failed, a rescue copy of @entry
 */
HwRoom *
hw_room_append (const HwRoom         *self,
                const HwJournalEntry *entry,
                GError              **error)
{
  g_return_val_if_fail (self != NULL && entry != NULL && entry->machine != NULL, NULL);

  return hw_room_append_all (self, &entry, 1, error);
}
