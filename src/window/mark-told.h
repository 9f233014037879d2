/* mark-told.h - what is told of a step that was just marked as done, or is open again
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/plan.h"

G_BEGIN_DECLS

/* Less than that by the timer is a slip of the finger, not work: the plan's minutes are noted. */
#define HW_LEAST_TIMED_MINUTES 0.1

/* @plan: as it was before. @clock_minutes: what the step's timer has run, 0: it has not. @entries: what is noted
 * (hw_plan_entries_for_step()). The steps that should have come before, its minutes and by what they are reckoned, and
 * a needle noted with it. (transfer full) */
char *hw_mark_told      (const HwPlan *plan, const char *number, double clock_minutes, const GPtrArray *entries);
/* @sewing: the entry that is taken back. (transfer full) */
char *hw_mark_told_open (const char *number, const HwJournalEntry *sewing);

G_END_DECLS
