/* room-entries.c - the entries of a snapshot: which there are, whose they are, and their order
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A journal is long and grows by one entry at a time. Snapshots share the table of the entries that were read; each has
 * a short list of its own of those that came since, until they are many enough for a new table.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include <string.h>

#define MOST_RECENT 512

typedef struct
{
  guint64         when;
  HwJournalEntry *entry;
} Timed;

/* ---- owning ---- */

void
hw_room_begin_entries (HwRoom *self)
{
  self->known = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify) hw_journal_entry_free);
  self->recent = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);
  self->entries = g_ptr_array_new ();
}

void
hw_room_share_entries (HwRoom       *self,
                       const HwRoom *other)
{
  self->known = g_hash_table_ref (other->known);
  self->recent = g_ptr_array_ref (other->recent);
  self->entries = g_ptr_array_ref (other->entries);
}

void
hw_room_drop_entries (HwRoom *self)
{
  g_clear_pointer (&self->entries, g_ptr_array_unref);
  g_clear_pointer (&self->recent, g_ptr_array_unref);
  g_clear_pointer (&self->known, g_hash_table_unref);
}

const HwJournalEntry *
hw_room_find_entry (const HwRoom *self,
                    const char   *id)
{
  const HwJournalEntry *entry = g_hash_table_lookup (self->known, id);

  for (guint i = 0; entry == NULL && i < self->recent->len; i++)
    if (strcmp (((HwJournalEntry *) g_ptr_array_index (self->recent, i))->id, id) == 0)
      entry = g_ptr_array_index (self->recent, i);
  return entry;
}

/* A table of all entries in place of the old one and the list of recent ones. */
static void
settle (HwRoom *self)
{
  g_autoptr (GPtrArray) entries = g_ptr_array_ref (self->entries);
  HwRoom before = *self;

  hw_room_begin_entries (self);
  for (guint i = 0; i < entries->len; i++)
    {
      HwJournalEntry *entry = g_ptr_array_index (entries, i);
      g_hash_table_insert (self->known, entry->id, hw_journal_entry_ref (entry));
    }
  g_ptr_array_unref (self->entries);
  self->entries = g_ptr_array_ref (entries);
  hw_room_drop_entries (&before);
}

void
hw_room_set_entries (HwRoom          *self,
                     const GPtrArray *entries)
{
  hw_room_drop_entries (self);
  hw_room_begin_entries (self);
  for (guint i = 0; i < entries->len; i++)
    {
      HwJournalEntry *entry = g_ptr_array_index (entries, i);

      g_ptr_array_add (self->recent, hw_journal_entry_ref (entry));
      g_ptr_array_add (self->entries, entry);
    }
  hw_room_sort_entries (self);
}

/* ---- order ---- */

/* The digits of a time as the file keeps it. */
static guint64
read_when (const char *time)
{
  guint64 when = 0;

  for (; *time != '\0'; time++)
    if (g_ascii_isdigit (*time))
      when = when * 10 + (guint64) (*time - '0');
  return when;
}

/* Of the same second: by machine. */
static int
compare (const Timed *a,
         const Timed *b)
{
  if (a->when != b->when)
    return a->when < b->when ? -1 : 1;
  return strcmp (a->entry->machine, b->entry->machine);
}

/* Where each run that is in order begins, and the end of the last. (transfer full) */
static GArray *
find_runs (const Timed *timed,
           gsize        n)
{
  GArray *runs = g_array_new (FALSE, FALSE, sizeof (gsize));

  for (gsize i = 0; i < n; i++)
    if (i == 0 || compare (&timed[i - 1], &timed[i]) > 0)
      g_array_append_val (runs, i);
  g_array_append_val (runs, n);
  return runs;
}

/* The runs from @a to @b and from @b to @c as one in @to; of equals, the first run's first. */
static void
merge_two (const Timed *from,
           gsize        a,
           gsize        b,
           gsize        c,
           Timed       *to)
{
  gsize second = b;

  for (gsize i = a; i < c; i++)
    if (a < b && (second == c || compare (&from[a], &from[second]) <= 0))
      to[i] = from[a++];
    else
      to[i] = from[second++];
}

/* @runs are those of @from; afterwards, half as many, those of @to. */
static void
merge_runs (const Timed *from,
            Timed       *to,
            GArray      *runs)
{
  gsize *starts = (gsize *) (gpointer) runs->data;
  guint n = runs->len - 1;
  guint kept = 0;

  for (guint i = 0; i < n; i += 2)
    {
      guint last = MIN (i + 2, n);

      merge_two (from, starts[i], starts[i + 1], starts[last], to);
      starts[kept++] = starts[i];
    }
  starts[kept++] = starts[n];
  g_array_set_size (runs, kept);
}

/* Each file is mostly in order, so that there is little to do but to merge what is. */
void
hw_room_sort_entries (HwRoom *self)
{
  gsize n = self->entries->len;
  g_autofree Timed *timed = g_new (Timed, n);
  g_autofree Timed *spare = g_new (Timed, n);
  g_autoptr (GArray) runs = NULL;

  for (gsize i = 0; i < n; i++)
    {
      timed[i].entry = g_ptr_array_index (self->entries, i);
      timed[i].when = read_when (timed[i].entry->time);
    }
  for (runs = find_runs (timed, n); runs->len > 2;)
    {
      Timed *sorted = spare;

      merge_runs (timed, spare, runs);
      spare = timed;
      timed = sorted;
    }
  for (gsize i = 0; i < n; i++)
    g_ptr_array_index (self->entries, i) = timed[i].entry;
}

/* ---- growing ---- */

/* Whether @added come after all others, in their order, and take nothing back. */
static gboolean
come_last (const GPtrArray *entries,
           const GPtrArray *added)
{
  HwJournalEntry *last = entries->len > 0 ? g_ptr_array_index (entries, entries->len - 1) : NULL;

  for (guint i = 0; i < added->len; i++)
    {
      HwJournalEntry *entry = g_ptr_array_index (added, i);
      Timed this = { read_when (entry->time), entry };
      Timed before = { last != NULL ? read_when (last->time) : 0, last };

      if (entry->kind == HW_ENTRY_CANCEL || (last != NULL && compare (&before, &this) > 0))
        return FALSE;
      last = entry;
    }
  return TRUE;
}

static gpointer
ref_entry (gconstpointer entry,
           gpointer      data)
{
  return hw_journal_entry_ref ((HwJournalEntry *) entry);
}

/**
 * hw_room_extend:
 * @added: entries that @self does not know
 *
 * Returns: (transfer full): the room with them in its journal; what follows from them is added to what followed before
 *   where they come last, as they mostly do
 */
HwRoom *
hw_room_extend (const HwRoom    *self,
                const GPtrArray *added)
{
  HwRoom *next = hw_room_share (self);

  g_ptr_array_unref (next->entries);
  g_ptr_array_unref (next->recent);
  next->entries = g_ptr_array_copy (self->entries, NULL, NULL);
  next->recent = g_ptr_array_copy (self->recent, ref_entry, NULL);
  for (guint i = 0; i < added->len; i++)
    {
      g_ptr_array_add (next->recent, hw_journal_entry_ref (g_ptr_array_index (added, i)));
      g_ptr_array_add (next->entries, g_ptr_array_index (added, i));
    }
  if (come_last (self->entries, added))
    hw_room_derive_more (next, added);
  else
    {
      hw_room_sort_entries (next);
      hw_room_derive (next);
    }
  if (next->recent->len > MOST_RECENT)
    settle (next);
  return next;
}
