/* care.h - when the care of a machine falls due
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each task has its own clock (hours at the machine, hours that the needle moves, months, days on which it sewed) and a
 * limit in that clock's unit, of the machine's own manual where it gives one. Without one a machine is not oiled: many
 * must not be. Months count beside the hours where the handbook says "whichever first".
 */

#pragma once
#include "handbook/handbook.h"
#include "model/room.h"

G_BEGIN_DECLS

#define HW_CARE_NEEDLE (-1)              /* stands for a care task: the needle in the machine */
#define HW_CARE_MAX 64                   /* tasks of a handbook that are looked at: as many as fit a guint64 */

typedef struct
{
  const HwMachine *machine;
  int              care;             /* handbook index; HW_CARE_NEEDLE */
  gboolean         overdue;          /* already now, whether sewn or not */
  int              project;          /* index into a queue's projects: before which step it falls due; -1 before none */
  char            *step;             /* number, NULL with project -1 */
  double           hours_until;      /* on this machine, until that step; INFINITY with project -1 */
  char            *date;             /* "2031-05-09": at the person's hours a week, or by months; NULL not in sight */
  gboolean         by_months;        /* clock and limit are months, though the task's own clock counts hours */
  int              out_project;      /* the needle: before which step another one is loaded, though it has hours left */
  char            *out_step;         /* NULL: none is */
  double           clock, limit;     /* now; in the task's own unit */
  char            *about;            /* "2031-05-09": by its hours, if all of the person's are sewn at this machine
                                      * after the queue; NULL: due already, told by a step, or not counted in hours */
  double           about_weeks;      /* until then */
  char            *since;            /* ISO 8601: when it was last done, or the needle first loaded; NULL never noted */
} HwCareDue;

void   hw_care_due_free  (HwCareDue *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwCareDue, hw_care_due_free)

/* Hours (months, days of sewing) after which @task is due on @machine; 0 never, or not a task of this machine. Never
 * for "needle", which the needles' hours tell. */
double hw_care_limit     (const HwMachine *machine, const HwCareTask *task);

/* How @care stands at @now_iso, without any work to come: project -1; a date only where months tell it. NULL when the
 * task does not belong to the machine. HW_CARE_NEEDLE: NULL when no needle is known. (transfer full) */
HwCareDue *hw_care_stand (const HwHandbook *handbook, const HwRoom *room, const HwMachine *machine, int care,
                          const char *now_iso);

/* Fills in about and about_weeks: of @work_hours from @from_iso on @machine_hours are at the machine, then all are. */
void hw_care_guess       (HwCareDue *due, const HwHandbook *handbook, const HwRoom *room, const char *from_iso,
                          double work_hours, double machine_hours);

/* What is overdue at @now_iso on any machine of the room: (element-type HwCareDue), by machine. (transfer full) */
GPtrArray *hw_care_overdue (const HwHandbook *handbook, const HwRoom *room, const char *now_iso);

G_END_DECLS
