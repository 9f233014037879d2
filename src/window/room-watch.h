/* room-watch.h - tells when another process wrote into the sewing room
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "model/room.h"

G_BEGIN_DECLS

/* @room: what the folder holds now, when it is not the room that is known. (transfer full). NULL: it cannot be read,
 * see @error; or, with none, that only project files came, went or changed. */
typedef void (* HwRoomWatchFound) (gpointer data, HwRoom *room, const GError *error);

/* A file of the room came, went or changed, whoever wrote it; before @found, where there is more to tell. */
typedef void (* HwRoomWatchStirred) (gpointer data);

typedef struct _HwRoomWatch HwRoomWatch;

/* (transfer full): the files of the room at @folder, as they are. Taken before the room is read, it tells a watch that
 * begins later what was written in between. For any thread. */
char        *hw_room_watch_note (const char *folder);
/* Both are called from the main loop; what is read is read on a thread. @room: the one that is known. @note: of the
 * files that it was read from. */
HwRoomWatch *hw_room_watch_new  (HwRoom *room, const char *note, HwRoomWatchFound found, HwRoomWatchStirred stirred,
                                 gpointer data);
void         hw_room_watch_free (HwRoomWatch *self);
/* Another room is known from now on: what the owner wrote or took over. */
void         hw_room_watch_know (HwRoomWatch *self, HwRoom *room);
/* The project file that the owner writes; its changes are not told. NULL none. */
void         hw_room_watch_own  (HwRoomWatch *self, const char *path);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwRoomWatch, hw_room_watch_free)

G_END_DECLS
