/* room-imagine.c - the room as it would be with another journal
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

/**
 * hw_room_imagine:
 * @entries: (element-type HwJournalEntry): the whole journal; left as it is
 *
 * For looking ahead: what hours, needles and clocks would be. Nothing is checked and nothing is written.
 *
 * Returns: (transfer full): a room that differs from @self in its journal and what is derived from it
 */
HwRoom *
hw_room_imagine (const HwRoom    *self,
                 const GPtrArray *entries)
{
  HwRoom *room;

  g_return_val_if_fail (self != NULL && entries != NULL, NULL);

  room = hw_room_share (self);
  g_ptr_array_unref (room->entries);
  room->entries = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);
  for (guint i = 0; i < entries->len; i++)
    g_ptr_array_add (room->entries, hw_journal_entry_ref (g_ptr_array_index (entries, i)));
  hw_room_sort_entries (room);
  hw_room_derive (room);
  return room;
}
