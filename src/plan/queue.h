/* queue.h - several projects through one room: order, due dates, forecast of care and needles
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A pure function of (handbook, projects, room, now). One after another: each project's plan starts from what the one
 * before leaves on the machines. Mixed: all steps in one order of work, least change time, where a due date is an
 * arrow: what is due earlier is finished no later than what is due after it.
 */

#pragma once
#include "plan/care.h"
#include "plan/plan.h"

G_BEGIN_DECLS

typedef struct
{
  int      project;                  /* index into projects */
  char    *step;
  double   starts_hours;             /* hours at any machine from now on, all projects' work and changes */
} HwQueueStep;

typedef struct
{
  gatomicrefcount ref_count;
  GPtrArray  *projects;              /* (element-type HwProject) in the order sewn */
  GPtrArray  *plans;                 /* (element-type HwPlan): one a project; mixed: one, of the joined project */
  gboolean    mixed;
  GArray     *steps;                 /* HwQueueStep, what is not done, in the order to work */
  GPtrArray  *care;                  /* (element-type HwCareDue): soonest first */
  double     *hours_left;            /* one a project */
  char      **finished;              /* one a project: ISO date at the person's hours a week; NULL nothing left */
  gboolean   *late;                  /* one a project: finished after its due date */
  double      change_minutes, change_minutes_one_by_one;
} HwQueue;

/* The room's preferences give the order of the queue, whether it is mixed and the hours a week; projects not in the
 * queue follow by due date, then title. @now_iso: ISO 8601. */
HwQueue *hw_queue_new   (const HwHandbook *handbook, const GPtrArray *projects, const HwRoom *room,
                         const char *now_iso, GError **error);
HwQueue *hw_queue_ref   (HwQueue *self);
void     hw_queue_unref (HwQueue *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwQueue, hw_queue_unref)

/* RFC 5545 calendar of the care due, one event each. @stamp: ISO 8601 UTC. (transfer full) */
char    *hw_queue_calendar (const HwQueue *self, const HwHandbook *handbook, const char *stamp);

G_END_DECLS
