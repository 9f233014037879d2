/* queue-private.h - the parts of a queue
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/plan-private.h"
#include "plan/queue.h"

G_BEGIN_DECLS

/* queue-imagine.c: the journal as it will be when what is left of @plan is sewn as planned, on top of its own room's:
 * loads, care and sewing, at the times that the calendar gives. (element-type HwJournalEntry) (transfer full) */
GPtrArray *hw_queue_imagine (const HwPlan *plan);

/* queue-joined.c: several projects as one. */
typedef struct
{
  HwProject  *project;               /* all steps, numbered "2.14" */
  HwProject **views;                 /* [steps] the threads from which each chooses: its own project's */
  int        *owner;                 /* [steps] index of its project */
  gsize      *step;                  /* [steps] index within that */
} HwJoined;

/* @wait: one a project: what follows it waits until it is finished. */
HwJoined *hw_joined_new    (const HwHandbook *handbook, const GPtrArray *projects, const HwRoom *room,
                            const gboolean *wait);
void      hw_joined_free   (HwJoined *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwJoined, hw_joined_free)

/* The room in which what was done of @projects was done of the joined one. (transfer full) */
HwRoom   *hw_joined_room   (const HwJoined *self, const GPtrArray *projects, const HwRoom *room);

/* queue-care.c: fills care from steps and plans. */
void      hw_queue_list_care (HwQueue *self, const HwHandbook *handbook, const HwRoom *room);

/* The project's step behind @step of a plan. */
static inline const HwPlanStep *
hw_queue_planned (const HwQueue *self, const HwQueueStep *step)
{
  return hw_plan_step_at (g_ptr_array_index (self->plans, (guint) step->plan), (gsize) step->place);
}

G_END_DECLS
