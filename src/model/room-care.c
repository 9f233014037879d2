/* room-care.c - what the clocks of care show
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include <string.h>

#define DATE_LENGTH 10                   /* of "2031-05-09" */
#define DAYS_A_MONTH 30.4375             /* 365.25 / 12 */

static const HwCareSum *
find_sum (const HwRoom     *self,
          const HwMachine  *machine,
          const HwCareTask *task)
{
  int index = hw_room_machine_index (self, machine->id);

  g_return_val_if_fail (index >= 0, NULL);

  return hw_room_sums_care (self->sums, (gsize) index, task->entry.id);
}

const char *
hw_room_care_since (const HwRoom     *self,
                    const HwMachine  *machine,
                    const HwCareTask *task)
{
  const HwCareSum *sum;

  g_return_val_if_fail (self != NULL && machine != NULL && task != NULL, NULL);

  sum = find_sum (self, machine, task);
  return sum->task != NULL ? sum->since : NULL;
}

gboolean
hw_room_care_sewn_on (const HwRoom     *self,
                      const HwMachine  *machine,
                      const HwCareTask *task,
                      const char       *now_iso)
{
  const HwCareSum *sum;

  g_return_val_if_fail (self != NULL && machine != NULL && task != NULL && now_iso != NULL, FALSE);

  sum = find_sum (self, machine, task);
  return sum->last_day != NULL && strncmp (sum->last_day, now_iso, DATE_LENGTH) == 0;
}

static double
get_hours (const HwCareSum  *sum,
           const HwCareTask *task)
{
  if (task->clock == HW_CLOCK_RUNNING)
    return (task->counts_lint ? sum->lint_running : sum->running) / 60;
  return (task->counts_lint ? sum->lint_minutes : sum->minutes) / 60;
}

double
hw_room_care_months (const HwRoom     *self,
                     const HwMachine  *machine,
                     const HwCareTask *task,
                     const char       *now_iso)
{
  g_autoptr (GTimeZone) utc = g_time_zone_new_utc ();
  g_autoptr (GDateTime) now = NULL;
  g_autoptr (GDateTime) then = NULL;
  const HwCareSum *sum;

  g_return_val_if_fail (self != NULL && machine != NULL && task != NULL && now_iso != NULL, 0);

  sum = find_sum (self, machine, task);
  now = g_date_time_new_from_iso8601 (now_iso, utc);
  if (sum->since == NULL || now == NULL)
    return 0;
  then = g_date_time_new_from_iso8601 (sum->since, utc);
  return MAX (0, (double) g_date_time_difference (now, then) / G_TIME_SPAN_DAY / DAYS_A_MONTH);
}

/**
 * hw_room_care_clock:
 *
 * The clock of the needle is that of the needle in the machine, wherever it sewed; without one, the hours since a
 * new one was noted.
 */
double
hw_room_care_clock (const HwRoom     *self,
                    const HwMachine  *machine,
                    const HwCareTask *task,
                    const char       *now_iso)
{
  const HwMachineState *state;

  g_return_val_if_fail (self != NULL && machine != NULL && task != NULL, 0);

  state = hw_room_get_state (self, machine);
  switch (task->clock)
    {
    case HW_CLOCK_MONTHS:
      return now_iso != NULL ? hw_room_care_months (self, machine, task, now_iso) : 0;
    case HW_CLOCK_SEWING_DAY:
      return find_sum (self, machine, task)->days;
    case HW_CLOCK_RUNNING:
    case HW_CLOCK_AT_MACHINE:
    default:
      if (strcmp (task->entry.id, HW_NEEDLE_TASK) == 0 && state != NULL && state->needle != NULL)
        return task->clock == HW_CLOCK_RUNNING ? state->needle->running_hours : state->needle->at_machine_hours;
      return get_hours (find_sum (self, machine, task), task);
    }
}

double
hw_room_care_limit (const HwMachine  *machine,
                    const HwCareTask *task)
{
  g_return_val_if_fail (machine != NULL && task != NULL, 0);

  for (gsize i = 0; i < machine->n_care; i++)
    if (strcmp (machine->care[i].care, task->entry.id) == 0)
      return machine->care[i].limit;
  return task->limit;
}
