/* queue.h - several projects through one room: order, due dates, forecast of care and needles
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A pure function of (handbook, projects, room, now).
 *
 * One after another: each project is planned in the room as the ones before it will leave it, with what is then on the
 * machines, the hours on the needles and the clocks of care.
 *
 * Mixed: all steps in one order of work with the least change time. Of two projects with a due date, what is due
 * earlier is finished no later. Mixing makes nothing late that would be in time one after another: what follows such
 * a project in the queue then waits until it is finished. Where mixing saves no minutes, the projects are sewn one
 * after another.
 *
 * Hours of work are those of the steps, by hand too, of the changes and of care; they are laid on the calendar by
 * calendar.h. Clocks of care and needles run by the steps at a machine alone.
 */

#pragma once
#include "plan/care.h"
#include "plan/plan.h"

G_BEGIN_DECLS

typedef enum { HW_QUEUE_AS_PREFERRED, HW_QUEUE_ONE_BY_ONE, HW_QUEUE_MIXED } HwQueueMode;

typedef struct
{
  int      project;                  /* index into projects */
  char    *step;                     /* its number in that project */
  int      plan, place;              /* index into plans, into that plan's order */
  double   starts_hours;             /* of work from now on until it begins */
} HwQueueStep;

typedef struct
{
  gatomicrefcount ref_count;
  GPtrArray *projects;               /* (element-type HwProject) with steps left, in the order of the queue */
  GPtrArray *plans;                  /* (element-type HwPlan): one a project; mixed: one, of the joined project, whose
                                      * steps are numbered "2.14": the second project's step 14 */
  gboolean   mixed;
  GArray    *steps;                  /* HwQueueStep, what is not done, in the order to work */
  GPtrArray *care;                   /* (element-type HwCareDue): overdue first, by date, what is not in sight last */
  double    *hours_left;             /* one a project: its steps, their changes and care */
  char     **finished;               /* one a project: "2031-05-09", at the person's hours a week */
  gboolean  *late;                   /* one a project: finished after its due date */
  double     change_minutes, change_minutes_one_by_one;
  double     work_hours;             /* all of it */
  char      *from;                   /* when the work begins: now, or after the last thing noted */
  GPtrArray *refused;                /* (element-type utf8) one line each: projects that cannot be planned, left out */
} HwQueue;

/* The room's preferences give the order of the queue, whether it is mixed and the hours a week; projects not in the
 * queue follow by due date (without one last), then title. Projects with nothing left are left out. @now_iso: ISO 8601.
 * (transfer full) */
HwQueue *hw_queue_new   (const HwHandbook *handbook, const GPtrArray *projects, const HwRoom *room,
                         const char *now_iso, HwQueueMode mode);
HwQueue *hw_queue_ref   (HwQueue *self);
void     hw_queue_unref (HwQueue *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwQueue, hw_queue_unref)

G_END_DECLS
