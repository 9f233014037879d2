/* furnish.h - the first start: a sewing room with the demo in it; and which project was open last
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "model/project.h"

G_BEGIN_DECLS

/* Makes @room_folder from demo/ of @data_folder, whole or not at all. Without a demo there, a room of our defaults. */
gboolean hw_furnish_room       (const char *data_folder, const char *room_folder, GError **error);

/* Kept per room in the user's state folder, not in the room, which may be shared between computers. */
void     hw_remember_project   (const char *room_folder, const char *path);
char    *hw_recall_project     (const char *room_folder);      /* (transfer full); NULL none, or it is gone */

/* (transfer full): where the timer of that room is kept on this computer. */
char    *hw_timer_path         (const char *room_folder);

/* (transfer full): paths of the projects opened last, the last one first; those that are gone are left out. */
char   **hw_recall_projects    (const char *room_folder);

/* Was @what not told on @day yet? Then it is noted as told. FALSE too when that cannot be noted: rather not than again
 * and again. */
gboolean hw_remember_told      (const char *room_folder, const char *what, const char *day);

G_END_DECLS
