/* closing.h - what is to be done at a machine when the sewing is over
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pure: same handbook and room, same list.
 */

#pragma once
#include "model/room.h"

G_BEGIN_DECLS

#define HW_CLOSING_TASK "closing"        /* of the care entry that notes it */

/* (element-type HwClosing) borrowed from @handbook, in its order. (transfer container) */
GPtrArray *hw_closing_list     (const HwHandbook *handbook, const HwRoom *room, const HwMachine *machine);
/* The last sewing on @machine since it was last closed, borrowed from @room; NULL: there is none. */
const HwJournalEntry *hw_closing_last_sewn (const HwRoom *room, const HwMachine *machine);
/* Whether there is any. */
gboolean   hw_closing_is_due   (const HwRoom *room, const HwMachine *machine);
/* For the journal (transfer full). */
HwJournalEntry *hw_closing_entry (const HwMachine *machine);
/* The needle in @machine, back to the case, to its place where that is known; NULL when none is in it. */
HwJournalEntry *hw_closing_needle_entry (const HwRoom *room, const HwMachine *machine);

G_END_DECLS
