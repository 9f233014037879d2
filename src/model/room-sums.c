/* room-sums.c - what the journal adds up to: sewing since each care, thread used, minutes against the plan's
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Made while the journal is gone through once, so that no clock has to go through it again.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/journal.h"
#include "model/room-private.h"

#include <math.h>
#include <string.h>

static void
clear_care_sum (gpointer data)
{
  g_free (((HwCareSum *) data)->task);
}

static GArray *
add_care_sum (GArray     *sums,
              const char *task)
{
  HwCareSum sum = { .task = g_strdup (task) };

  g_array_append_val (sums, sum);
  return sums;
}

static HwRoomSums *
make_sums (void)
{
  HwRoomSums *self = g_atomic_rc_box_new0 (HwRoomSums);

  self->threads = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_array_unref);
  self->paces = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  return self;
}

HwRoomSums *
hw_room_sums_new (const HwRoom *room)
{
  HwRoomSums *self = make_sums ();

  self->care = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  for (guint i = 0; i < room->machines->len; i++)
    {
      GArray *sums = g_array_new (FALSE, FALSE, sizeof (HwCareSum));

      g_array_set_clear_func (sums, clear_care_sum);
      g_ptr_array_add (self->care, add_care_sum (sums, NULL));
    }
  return self;
}

static void
clear_sums (gpointer data)
{
  HwRoomSums *self = data;

  g_ptr_array_unref (self->care);
  g_hash_table_unref (self->threads);
  g_hash_table_unref (self->paces);
}

static gpointer
copy_care (gconstpointer sums,
           gpointer      data)
{
  GArray *copy = g_array_copy ((GArray *) sums);

  g_array_set_clear_func (copy, clear_care_sum);
  for (guint i = 0; i < copy->len; i++)
    {
      HwCareSum *sum = &g_array_index (copy, HwCareSum, i);
      sum->task = g_strdup (sum->task);
    }
  return copy;
}

static gboolean
is_used (const char      *label,
         const GPtrArray *entries)
{
  for (guint i = 0; i < entries->len; i++)
    {
      const HwJournalEntry *entry = g_ptr_array_index (entries, i);

      if (g_strcmp0 (label, entry->needle_thread) == 0 || g_strcmp0 (label, entry->bobbin_thread) == 0)
        return TRUE;
    }
  return FALSE;
}

/* (transfer full): to be added to by @added; uses of threads that are not in these are shared. */
HwRoomSums *
hw_room_sums_copy (const HwRoomSums *self,
                   const GPtrArray  *added)
{
  HwRoomSums *copy = make_sums ();
  GHashTableIter iter;
  gpointer key;
  gpointer value;

  copy->care = g_ptr_array_copy (self->care, copy_care, NULL);
  g_hash_table_iter_init (&iter, self->threads);
  while (g_hash_table_iter_next (&iter, &key, &value))
    g_hash_table_insert (copy->threads, g_strdup (key), is_used (key, added) ? g_array_copy (value)
                                                                             : g_array_ref (value));
  g_hash_table_iter_init (&iter, self->paces);
  while (g_hash_table_iter_next (&iter, &key, &value))
    g_hash_table_insert (copy->paces, g_strdup (key), g_memdup2 (value, sizeof (HwPaceSum)));
  copy->pace = self->pace;
  return copy;
}

HwRoomSums *
hw_room_sums_ref (HwRoomSums *self)
{
  return g_atomic_rc_box_acquire (self);
}

void
hw_room_sums_unref (HwRoomSums *self)
{
  g_atomic_rc_box_release_full (self, clear_sums);
}

/* ---- care ---- */

static HwCareSum *
find_care (GArray     *sums,
           const char *task)
{
  for (guint i = 1; i < sums->len; i++)
    if (strcmp (g_array_index (sums, HwCareSum, i).task, task) == 0)
      return &g_array_index (sums, HwCareSum, i);
  return NULL;
}

static void
note_care (GArray               *sums,
           const HwJournalEntry *entry)
{
  HwCareSum *sum = find_care (sums, entry->task);
  char *task;

  if (sum == NULL)
    sum = &g_array_index (add_care_sum (sums, entry->task), HwCareSum, sums->len - 1);
  task = sum->task;
  *sum = (HwCareSum) { .task = task, .since = entry->time };
}

static void
note_sewing (HwCareSum            *sum,
             const HwJournalEntry *entry)
{
  sum->minutes += entry->minutes;
  sum->running += entry->running;
  sum->lint_minutes += entry->minutes * entry->lint;
  sum->lint_running += entry->running * entry->lint;
  if (sum->last_day == NULL || strncmp (sum->last_day, entry->time, strlen ("2031-05-09")) != 0)
    sum->days++;
  sum->last_day = entry->time;
}

void
hw_room_sums_begin (HwRoomSums           *self,
                    int                   machine,
                    const HwJournalEntry *entry)
{
  HwCareSum *first;

  if (machine < 0)
    return;
  first = &g_array_index ((GArray *) g_ptr_array_index (self->care, (guint) machine), HwCareSum, 0);
  if (first->since == NULL)
    first->since = entry->time;
}

const HwCareSum *
hw_room_sums_care (const HwRoomSums *self,
                   gsize             machine,
                   const char       *task)
{
  GArray *sums = g_ptr_array_index (self->care, machine);
  const HwCareSum *sum = find_care (sums, task);

  return sum != NULL ? sum : &g_array_index (sums, HwCareSum, 0);
}

/* ---- thread and pace ---- */

static void
use_thread (HwRoomSums *self,
            const char *label,
            double      metres,
            const char *time)
{
  HwSpoolUse use = { time, metres };
  GArray *uses;

  if (label == NULL || metres <= 0)
    return;
  uses = g_hash_table_lookup (self->threads, label);
  if (uses == NULL)
    {
      uses = g_array_new (FALSE, FALSE, sizeof (HwSpoolUse));
      g_hash_table_insert (self->threads, g_strdup (label), uses);
    }
  g_array_append_val (uses, use);
}

gboolean
hw_room_sums_tells_pace (const HwJournalEntry *entry)
{
  return entry->kind == HW_ENTRY_SEWING && entry->purpose != NULL && entry->planned > 0
         && entry->minutes >= HW_TIME_SLIP * entry->planned;
}

static void
add_pace (HwRoomSums           *self,
          const HwJournalEntry *entry)
{
  HwPaceSum *pace;
  double ratio;

  if (!hw_room_sums_tells_pace (entry))
    return;
  ratio = CLAMP (log (entry->minutes / entry->planned), -log (HW_TIME_RATIO_MOST), log (HW_TIME_RATIO_MOST));
  pace = g_hash_table_lookup (self->paces, entry->purpose);
  if (pace == NULL)
    {
      pace = g_new0 (HwPaceSum, 1);
      g_hash_table_insert (self->paces, g_strdup (entry->purpose), pace);
    }
  pace->sum += ratio;
  pace->n++;
  self->pace.sum += ratio;
  self->pace.n++;
}

void
hw_room_sums_add (HwRoomSums           *self,
                  int                   machine,
                  const HwJournalEntry *entry)
{
  GArray *care = machine >= 0 ? g_ptr_array_index (self->care, (guint) machine) : NULL;

  if (entry->kind == HW_ENTRY_CARE && care != NULL)
    note_care (care, entry);
  if (entry->kind != HW_ENTRY_SEWING)
    return;
  for (guint i = 0; care != NULL && i < care->len; i++)
    note_sewing (&g_array_index (care, HwCareSum, i), entry);
  use_thread (self, entry->needle_thread, entry->needle_m, entry->time);
  use_thread (self, entry->bobbin_thread, entry->bobbin_m, entry->time);
  add_pace (self, entry);
}

double
hw_room_spool_left (const HwRoom     *self,
                    const HwSpool    *spool,
                    const HwHandbook *handbook)
{
  g_autofree char *label = NULL;
  const GArray *uses;
  double left;
  int thread;

  g_return_val_if_fail (self != NULL && spool != NULL && handbook != NULL, 0);

  thread = hw_handbook_find_thread (handbook, spool->handbook);
  label = hw_thread_label (spool->colour, spool->handbook,
                           spool->tex > 0 || thread < 0 ? spool->tex : handbook->threads[thread].tex);
  uses = g_hash_table_lookup (self->sums->threads, label);
  left = spool->metres;
  for (guint i = 0; uses != NULL && i < uses->len; i++)
    if (strcmp (g_array_index (uses, HwSpoolUse, i).time, spool->counted) > 0)
      left -= g_array_index (uses, HwSpoolUse, i).metres;
  return MAX (left, 0);
}
