/* room.c - the sewing room as a snapshot
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Snapshots that follow each other share what did not change between them, what is derived too.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include <string.h>

HwRoom *
hw_room_alloc (const char *folder)
{
  HwRoom *self = g_new0 (HwRoom, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->folder = g_strdup (folder);
  self->machines = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_machine_free);
  self->packets = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_packet_free);
  hw_room_begin_entries (self);
  self->spools = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_spool_free);
  self->cloths = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_shelf_cloth_free);
  self->preferences = hw_preferences_new ();
  self->beliefs = hw_beliefs_new ();
  return self;
}

/* The last reference that is let go frees, whichever snapshot holds it. */
HwRoom *
hw_room_share (const HwRoom *self)
{
  HwRoom *next = g_new0 (HwRoom, 1);

  g_atomic_ref_count_init (&next->ref_count);
  next->folder = g_strdup (self->folder);
  next->machines = g_ptr_array_ref (self->machines);
  next->packets = g_ptr_array_ref (self->packets);
  next->spools = g_ptr_array_ref (self->spools);
  next->cloths = g_ptr_array_ref (self->cloths);
  next->preferences = hw_preferences_copy (self->preferences);
  hw_room_share_entries (next, self);
  next->needles = g_ptr_array_ref (self->needles);
  next->states = g_atomic_rc_box_acquire (self->states);
  next->cancelled = g_hash_table_ref (self->cancelled);
  next->done = g_hash_table_ref (self->done);
  next->sums = hw_room_sums_ref (self->sums);
  next->beliefs = hw_beliefs_new ();
  return next;
}

HwRoom *
hw_room_ref (HwRoom *self)
{
  g_return_val_if_fail (self != NULL, NULL);
  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

void
hw_room_unref (HwRoom *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->ref_count))
    return;
  hw_room_clear_derived (self);
  hw_beliefs_free (self->beliefs);
  g_ptr_array_unref (self->machines);
  g_ptr_array_unref (self->packets);
  hw_room_drop_entries (self);
  g_ptr_array_unref (self->spools);
  g_ptr_array_unref (self->cloths);
  hw_preferences_free (self->preferences);
  g_free (self->folder);
  g_free (self);
}

static gboolean
read_all (HwRoom  *self,
          GError **error)
{
  HwPreferences *preferences = hw_preferences_read (self->folder, error);

  if (preferences == NULL)
    return FALSE;
  hw_preferences_free (self->preferences);
  self->preferences = preferences;
  return hw_room_read_machines (self, error)
         && hw_list_read (&hw_packets_file, self->folder, self->packets, error)
         && hw_list_read (&hw_spools_file, self->folder, self->spools, error)
         && hw_list_read (&hw_cloths_file, self->folder, self->cloths, error)
         && hw_room_read_journals (self, error);
}

/**
 * hw_room_open:
 *
 * Project files are opened one by one by those who show them, so that one that does not read keeps no room shut.
 *
 * Returns: (transfer full): the room, or %NULL with an %HW_XML_ERROR, %HW_MODEL_ERROR or %G_FILE_ERROR of one line
 */
HwRoom *
hw_room_open (const char *folder,
              GError    **error)
{
  g_autoptr (HwRoom) self = NULL;

  g_return_val_if_fail (folder != NULL, NULL);

  self = hw_room_alloc (folder);
  if (!read_all (self, error))
    return NULL;
  hw_room_sort_entries (self);
  hw_room_derive (self);
  return g_steal_pointer (&self);
}

int
hw_room_machine_index (const HwRoom *self,
                       const char   *id)
{
  for (guint i = 0; i < self->machines->len; i++)
    if (strcmp (((HwMachine *) g_ptr_array_index (self->machines, i))->id, id) == 0)
      return (int) i;
  return -1;
}

const HwMachine *
hw_room_find_machine (const HwRoom *self,
                      const char   *id)
{
  int index;

  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  index = hw_room_machine_index (self, id);
  return index >= 0 ? g_ptr_array_index (self->machines, (guint) index) : NULL;
}

const HwNeedle *
hw_room_find_needle (const HwRoom *self,
                     const char   *id)
{
  g_return_val_if_fail (self != NULL, NULL);

  for (guint i = 0; id != NULL && i < self->needles->len; i++)
    if (strcmp (((const HwNeedle *) g_ptr_array_index (self->needles, i))->id, id) == 0)
      return g_ptr_array_index (self->needles, i);
  return NULL;
}

const HwMachine *
hw_room_default_machine (const HwRoom  *self,
                         HwMachineKind  kind)
{
  g_return_val_if_fail (self != NULL, NULL);

  for (guint i = 0; i < self->machines->len; i++)
    {
      const HwMachine *machine = g_ptr_array_index (self->machines, i);
      if (machine->kind == kind)
        return machine;
    }
  return NULL;
}

const HwMachineState *
hw_room_get_state (const HwRoom    *self,
                   const HwMachine *machine)
{
  int index;

  g_return_val_if_fail (self != NULL && machine != NULL, NULL);

  index = hw_room_machine_index (self, machine->id);
  g_return_val_if_fail (index >= 0, NULL);
  return &self->states[index];
}

int
hw_room_new_needles (const HwRoom   *self,
                     const HwPacket *packet)
{
  int taken = 0;

  g_return_val_if_fail (self != NULL && packet != NULL, 0);

  for (guint i = 0; i < self->needles->len; i++)
    if (g_strcmp0 (((HwNeedle *) g_ptr_array_index (self->needles, i))->packet, packet->id) == 0)
      taken++;
  return MAX (packet->count - taken, 0);
}
