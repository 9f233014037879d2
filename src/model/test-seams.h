/* test-seams.h - the journal's test seams as the tension model reads them
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "model/room.h"
#include "trade/tension-learn.h"

G_BEGIN_DECLS

/* FALSE: not a test seam, or its verdict is not one of hw_verdict_ids. Terms of a later version are passed over. An
 * entry without facts is read, and does not tell (hw_test_seam_tells()). */
gboolean   hw_test_seam_read  (const HwJournalEntry *entry, HwTestSeam *seam);
/* Fills in dial, verdict and facts of a test seam's entry. */
void       hw_test_seam_write (const HwTestSeam *seam, HwJournalEntry *entry);

/* (element-type HwJournalEntry) borrowed from @room: the test seams on a machine that are not cancelled, oldest first.
 * (transfer container) */
GPtrArray *hw_room_list_test_seams (const HwRoom *room, const char *machine);

/* What the room's test seams teach about @machine. Found once for a room's snapshot and kept with it, which no caller
 * can tell from finding it each time: a snapshot does not change, and neither does a belief. Borrowed from @room; safe
 * from any thread. */
const HwTensionBelief *hw_room_get_belief (const HwRoom *room, const HwMachine *machine, const HwTensionPrior *prior);
/* The same with one more test seam that is not in the journal. (transfer full) */
HwTensionBelief *hw_room_belief_with (const HwRoom *room, const HwMachine *machine, const HwTensionPrior *prior,
                                      const HwTestSeam *seam);

G_END_DECLS
