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
  hw_room_set_entries (room, entries);
  hw_room_derive (room);
  return room;
}
