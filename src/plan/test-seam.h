/* test-seam.h - a test seam on a scrap: what to record of it, and the dial to try next
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "model/test-seams.h"
#include "plan/plan.h"

G_BEGIN_DECLS

/* Has the step a needle thread dial that test seams teach? (a lockstitch; loopers have dials of their own) NULL: no. */
const HwSetup  *hw_plan_find_test_setup (const HwPlan *plan, const char *number);

/* The journal entry for a scrap of @number's cloth sewn as its set-up says but at @dial, with all facts that the model
 * learns from; append it with hw_room_append(). (transfer full) */
HwJournalEntry *hw_plan_entry_for_test_seam (const HwPlan *plan, const HwSetup *setup, double dial,
                                             HwVerdict verdict);

/* The last scrap sewn for the step of @setup on its machine, of the cloth that it has now. Borrowed from the room;
 * NULL: none yet. */
const HwJournalEntry *hw_plan_find_test_seam (const HwPlan *plan, const HwSetup *setup);

/* The printed half-step to try after a seam at @dial looked like @verdict: with @recorded the seam is in the journal
 * already, without it is taken as if it were. Half a number, as the card says, unless seams before it on the machine
 * say that this is too little. */
double          hw_plan_next_dial (const HwPlan *plan, const HwSetup *setup, double dial, HwVerdict verdict,
                                   gboolean recorded);

G_END_DECLS
