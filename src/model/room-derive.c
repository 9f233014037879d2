/* room-derive.c - what follows from the journal
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The entries are gone through once in the order of their times, those of the same second in the order of their
 * file; a cancelled entry is passed over as if it had never been written. Nothing of this is stored.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include <string.h>

/* While the journal is gone through. */
typedef struct
{
  HwRoom     *room;
  GHashTable *needles;                   /* id -> HwNeedle */
  GHashTable *states;                    /* machine id -> HwMachineState */
  const char *machine;                   /* of the entry before, and its state: runs of entries are of one machine */
  HwMachineState *state;
} Walk;

static void
free_needle (gpointer data)
{
  HwNeedle *self = data;

  g_free (self->id);
  g_free (self->packet);
  g_free (self->system);
  g_free (self->point);
  g_free (self->machine);
  g_free (self->place);
  g_free (self);
}

/* From the last to the first: a cancellation that was itself cancelled before it is reached cancels nothing. */
static void
find_cancelled (HwRoom *self)
{
  for (guint i = self->entries->len; i > 0; i--)
    {
      const HwJournalEntry *entry = g_ptr_array_index (self->entries, i - 1);
      if (entry->kind == HW_ENTRY_CANCEL && !g_hash_table_contains (self->cancelled, entry->id))
        g_hash_table_add (self->cancelled, g_strdup (entry->of));
    }
}

static HwMachineState *
find_state (Walk       *walk,
            const char *machine)
{
  if (walk->machine == NULL || strcmp (walk->machine, machine) != 0)
    {
      walk->machine = machine;
      walk->state = g_hash_table_lookup (walk->states, machine);
    }
  return walk->state;
}

/* Entries as keys of the steps that they did. */
static guint
hash_step (gconstpointer key)
{
  const HwJournalEntry *entry = key;

  return g_str_hash (entry->project) * 31 + g_str_hash (entry->step);
}

static gboolean
is_same_step (gconstpointer a,
              gconstpointer b)
{
  const HwJournalEntry *first = a;
  const HwJournalEntry *second = b;

  return strcmp (first->step, second->step) == 0 && strcmp (first->project, second->project) == 0;
}

static void
wear (HwNeedle             *needle,
      const HwJournalEntry *entry)
{
  needle->at_machine_hours += entry->minutes / 60 / entry->life;
  needle->running_hours += entry->running / 60 / entry->life;
}

/* What an entry does not name stays as it was. */
static void
follow_parts (HwMachineState       *state,
              const HwJournalEntry *entry)
{
  state->needle_thread = entry->needle_thread != NULL ? entry->needle_thread : state->needle_thread;
  state->bobbin_thread = entry->bobbin_thread != NULL ? entry->bobbin_thread : state->bobbin_thread;
  state->foot = entry->foot != NULL ? entry->foot : state->foot;
  state->plate = entry->plate != NULL ? entry->plate : state->plate;
}

static void
follow_sewing (Walk           *walk,
               HwJournalEntry *entry)
{
  HwMachineState *state = find_state (walk, entry->machine);
  HwNeedle *needle = entry->needle != NULL ? g_hash_table_lookup (walk->needles, entry->needle)
                                           : state != NULL ? (HwNeedle *) state->needle : NULL;

  if (state != NULL)
    {
      state->at_machine_hours += entry->minutes / 60;
      state->running_hours += entry->running / 60;
      follow_parts (state, entry);
    }
  if (needle != NULL)
    wear (needle, entry);
  if (entry->project != NULL && entry->step != NULL)
    g_hash_table_add (walk->room->done, entry);          /* replaces the one before */
}

static HwNeedle *
get_needle (Walk                 *walk,
            const HwJournalEntry *entry)
{
  const char *id = entry->needle != NULL ? entry->needle : entry->id;
  HwNeedle *needle = g_hash_table_lookup (walk->needles, id);

  if (needle != NULL)
    return needle;
  needle = g_new0 (HwNeedle, 1);
  needle->id = g_strdup (id);
  needle->packet = g_strdup (entry->packet);
  needle->system = g_strdup (entry->system);
  needle->point = g_strdup (entry->point);
  needle->nm = entry->nm;
  needle->twin_mm = entry->twin_mm;
  needle->at_machine_hours = entry->hours;
  g_hash_table_insert (walk->needles, needle->id, needle);
  g_ptr_array_add (walk->room->needles, needle);
  return needle;
}

static void
take_out (HwMachineState *state,
          gboolean        discard)
{
  HwNeedle *needle = (HwNeedle *) state->needle;

  if (needle == NULL)
    return;
  g_clear_pointer (&needle->machine, g_free);
  needle->discarded = discard;
  state->needle = NULL;
}

static void
leave_empty (HwMachineState       *state,
             const HwJournalEntry *entry)
{
  state->needle = NULL;
  state->emptied = entry;
}

/* A needle is in one machine: put into this one, it is no longer in another. */
static void
put_in (Walk                 *walk,
        HwMachineState       *state,
        HwNeedle             *needle,
        const HwJournalEntry *entry)
{
  HwMachineState *other = needle->machine != NULL ? g_hash_table_lookup (walk->states, needle->machine) : NULL;

  if (other != NULL)
    leave_empty (other, entry);
  take_out (state, g_strcmp0 (entry->verdict, "discarded") == 0);
  state->needle = needle;
  state->emptied = NULL;
  g_free (needle->machine);
  needle->machine = g_strdup (entry->machine);
  needle->discarded = FALSE;
}

static void
follow_load (Walk                 *walk,
             const HwJournalEntry *entry)
{
  HwMachineState *state = g_hash_table_lookup (walk->states, entry->machine);
  HwNeedle *needle = entry->needle != NULL || entry->nm > 0 ? get_needle (walk, entry) : NULL;

  if (state == NULL)
    return;
  follow_parts (state, entry);
  if (needle != NULL && needle != state->needle)
    put_in (walk, state, needle, entry);
}

/* Whoever notes a new needle without saying which has thrown the old one away; one that has not sewn yet is that new
 * one. */
static void
follow_care (Walk                 *walk,
             const HwJournalEntry *entry)
{
  HwMachineState *state = g_hash_table_lookup (walk->states, entry->machine);

  if (state == NULL || strcmp (entry->task, HW_NEEDLE_TASK) != 0
      || (state->needle != NULL && state->needle->at_machine_hours <= 0 && state->needle->running_hours <= 0))
    return;
  take_out (state, TRUE);
  leave_empty (state, entry);
}

/* Taken out, put in its place, thrown away, without another one going in; or come into the case from outside. */
static void
follow_needle (Walk                 *walk,
               const HwJournalEntry *entry)
{
  HwNeedle *needle = strcmp (entry->verdict, "in") == 0 && entry->nm > 0
                     ? get_needle (walk, entry) : g_hash_table_lookup (walk->needles, entry->needle);
  HwMachineState *state;

  if (needle == NULL)
    return;
  state = needle->machine != NULL ? g_hash_table_lookup (walk->states, needle->machine) : NULL;
  if (state != NULL)
    leave_empty (state, entry);
  g_clear_pointer (&needle->machine, g_free);
  needle->discarded = strcmp (entry->verdict, "discarded") == 0;
  if (entry->place != NULL)
    {
      g_free (needle->place);
      needle->place = g_strdup (entry->place);
    }
}

static void
follow (Walk           *walk,
        HwJournalEntry *entry)
{
  switch (entry->kind)
    {
    case HW_ENTRY_SEWING:
      follow_sewing (walk, entry);
      break;
    case HW_ENTRY_LOAD:
      follow_load (walk, entry);
      break;
    case HW_ENTRY_CARE:
      follow_care (walk, entry);
      break;
    case HW_ENTRY_NEEDLE:
      follow_needle (walk, entry);
      break;
    case HW_ENTRY_TEST_SEAM:
    case HW_ENTRY_FAULT:
    case HW_ENTRY_CANCEL:
    case HW_N_ENTRY_KINDS:
      break;
    }
}

void
hw_room_clear_derived (HwRoom *self)
{
  g_clear_pointer (&self->needles, g_ptr_array_unref);
  g_clear_pointer (&self->states, g_atomic_rc_box_release);
  g_clear_pointer (&self->cancelled, g_hash_table_unref);
  g_clear_pointer (&self->done, g_hash_table_unref);
  g_clear_pointer (&self->sums, hw_room_sums_unref);
}

static void
begin_derived (HwRoom *self)
{
  self->needles = g_ptr_array_new_with_free_func (free_needle);
  self->states = g_atomic_rc_box_alloc0 (MAX (self->machines->len, 1) * sizeof *self->states);
  self->cancelled = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  self->done = g_hash_table_new (hash_step, is_same_step);
  self->sums = hw_room_sums_new (self);
}

static void
follow_entry (Walk           *walk,
              HwJournalEntry *entry)
{
  HwRoom *room = walk->room;
  HwMachineState *state = find_state (walk, entry->machine);
  int machine = state != NULL ? (int) (state - room->states) : -1;

  hw_room_sums_begin (room->sums, machine, entry);
  if (g_hash_table_contains (room->cancelled, entry->id))
    return;
  hw_room_sums_add (room->sums, machine, entry);
  follow (walk, entry);
}

static void
name_states (HwRoom     *self,
             GHashTable *states)
{
  for (guint i = 0; i < self->machines->len; i++)
    g_hash_table_insert (states, ((HwMachine *) g_ptr_array_index (self->machines, i))->id, &self->states[i]);
}

void
hw_room_derive (HwRoom *self)
{
  g_autoptr (GHashTable) needles = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) states = g_hash_table_new (g_str_hash, g_str_equal);
  Walk walk = { self, needles, states, NULL, NULL };

  hw_room_clear_derived (self);
  begin_derived (self);
  find_cancelled (self);
  for (guint i = 0; i < self->machines->len; i++)
    {
      const HwMachine *machine = g_ptr_array_index (self->machines, i);
      self->states[i].at_machine_hours = machine->start_hours;
      self->states[i].running_hours = machine->start_running;
    }
  name_states (self, states);
  for (guint i = 0; i < self->entries->len; i++)
    follow_entry (&walk, g_ptr_array_index (self->entries, i));
}

/* ---- a little more ---- */

static HwNeedle *
copy_needle (const HwNeedle *needle)
{
  HwNeedle *copy = g_memdup2 (needle, sizeof *needle);

  copy->id = g_strdup (needle->id);
  copy->packet = g_strdup (needle->packet);
  copy->system = g_strdup (needle->system);
  copy->point = g_strdup (needle->point);
  copy->machine = g_strdup (needle->machine);
  copy->place = g_strdup (needle->place);
  return copy;
}

/* In place of what @self shares with the snapshot before, its own copy, to be changed. @needles: filled. */
static void
copy_derived (HwRoom          *self,
              const GPtrArray *added,
              GHashTable      *needles)
{
  HwRoom before = *self;
  GHashTableIter iter;
  gpointer entry;

  begin_derived (self);
  g_hash_table_unref (self->cancelled);
  self->cancelled = g_hash_table_ref (before.cancelled);
  hw_room_sums_unref (self->sums);
  self->sums = hw_room_sums_copy (before.sums, added);
  for (guint i = 0; i < before.needles->len; i++)
    {
      HwNeedle *copy = copy_needle (g_ptr_array_index (before.needles, i));
      g_ptr_array_add (self->needles, copy);
      g_hash_table_insert (needles, copy->id, copy);
    }
  for (guint i = 0; i < self->machines->len; i++)
    {
      self->states[i] = before.states[i];
      if (before.states[i].needle != NULL)
        self->states[i].needle = g_hash_table_lookup (needles, before.states[i].needle->id);
    }
  g_hash_table_iter_init (&iter, before.done);
  while (g_hash_table_iter_next (&iter, &entry, NULL))
    g_hash_table_add (self->done, entry);
  hw_room_clear_derived (&before);
}

/* @self shares all that is derived with the snapshot before; @added come after all its entries and cancel none. */
void
hw_room_derive_more (HwRoom          *self,
                     const GPtrArray *added)
{
  g_autoptr (GHashTable) needles = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) states = g_hash_table_new (g_str_hash, g_str_equal);
  Walk walk = { self, needles, states, NULL, NULL };

  copy_derived (self, added, needles);
  name_states (self, states);
  for (guint i = 0; i < added->len; i++)
    follow_entry (&walk, g_ptr_array_index (added, i));
}

const HwJournalEntry *
hw_room_step_done (const HwRoom *self,
                   const char   *project,
                   const char   *step)
{
  HwJournalEntry key = { .project = (char *) project, .step = (char *) step };

  g_return_val_if_fail (self != NULL && project != NULL && step != NULL, NULL);

  return g_hash_table_lookup (self->done, &key);
}

guint
hw_room_count_done (const HwRoom    *self,
                    const HwProject *project)
{
  guint n = 0;

  for (guint i = 0; i < project->steps->len; i++)
    n += hw_room_step_done (self, project->id, hw_project_get_step (project, i)->number) != NULL ? 1 : 0;
  return n;
}
