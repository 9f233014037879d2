/* plan-private.h - the stages of a plan, in the order they run
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/changes.h"

G_BEGIN_DECLS

/* at-hand.c: fills at_hand; moves sizes inside their bands to needles that are there. */
void hw_plan_prefer_at_hand (HwPlan *self);

/* sequence.c: fills order, change totals, bound, proved; moves set-ups inside their bands so that fewer serve. */
void hw_plan_put_in_order  (HwPlan *self, const HwPlanEffort *effort);

/* groups.c: fills groups and each step's. */
void hw_plan_make_groups   (HwPlan *self);
void hw_group_free         (HwGroup *self);

/* hours.c: fills stitches, minutes and metres of each step, hours of each machine, totals. */
void hw_plan_fill_times    (HwPlan *self);

/* notions.c */
void hw_plan_count_notions (HwPlan *self);
void hw_notion_free        (HwNotion *self);

/* plan.c: as hw_plan_new_with(), the work beginning at @from_iso (NULL: the last thing noted) with @from_hours laid
 * out before it. @views: one a step: the project from whose threads it chooses; NULL: all from @project's. */
HwPlan *hw_plan_new_from   (const HwHandbook *handbook, const HwProject *project, const HwRoom *room,
                            const char *from_iso, double from_hours, const HwProject * const *views,
                            const HwPlanEffort *effort, GError **error);

/* care.c: which care falls due before which step, and when each begins. */
void hw_plan_forecast_care (HwPlan *self);

/* needles.c: needles to load from now on, and where one wears out. */
void hw_plan_pick_needles  (HwPlan *self);

/* now.c: whether @needle is of the kind that @group is sewn with. */
gboolean hw_plan_is_needle_of (const HwPlan *self, const HwNeedle *needle, const HwGroup *group);

static inline HwPlanStep *
hw_plan_step_at (const HwPlan *self, gsize index)
{
  return &g_array_index (self->order, HwPlanStep, index);
}

static inline const HwSetup *
hw_plan_setup_at (const HwPlan *self, gsize index)
{
  return self->setups[hw_plan_step_at (self, index)->step];
}

G_END_DECLS
