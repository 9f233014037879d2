/* care.c - which care falls due before which step
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The room's clocks are walked along the order: a task whose clock would pass its limit inside a step
 * is due before that step, and its clock starts again. The machine's own manual wins: oil only where
 * the machine's entry gives a limit of its own. A change of needle is not care here; see needles.c.
 */

#include "config.h"

#include "plan/plan-private.h"

#include <string.h>

#define LIMIT_SLACK 1e-9

static gboolean
has_own_limit (const HwMachine *machine, const HwCareTask *task)
{
  for (gsize i = 0; i < machine->n_care; i++)
    if (g_strcmp0 (machine->care[i].care, task->entry.id) == 0)
      return TRUE;
  return FALSE;
}

/* Hours (months, days of sewing) after which @task is due on @machine; 0 never. */
static double
find_limit (const HwMachine *machine, const HwCareTask *task)
{
  if (!(task->machines & (1u << machine->kind)) || strcmp (task->entry.id, "needle") == 0)
    return 0;
  if (strcmp (task->entry.id, "oil") == 0 && !has_own_limit (machine, task))
    return 0;
  return hw_room_care_limit (machine, task);
}

/* The plan has no today: months are counted to the last thing noted in the room. */
static const char *
last_noted (const HwRoom *room)
{
  guint n = room->entries->len;

  return n > 0 ? ((const HwJournalEntry *) g_ptr_array_index (room->entries, n - 1))->time : NULL;
}

static double
advance_clock (const HwCareTask *task, const HwPlanStep *step, const HwSetup *setup)
{
  double lint = task->counts_lint ? setup->lint_factor : 1;

  switch (task->clock)
    {
    case HW_CLOCK_RUNNING:
      return step->running / 60 * lint;
    case HW_CLOCK_AT_MACHINE:
      return step->minutes / 60 * lint;
    case HW_CLOCK_MONTHS:
    case HW_CLOCK_SEWING_DAY:
    default:
      return 0;
    }
}

/* Has the calendar run out, whatever the hours say? */
static gboolean
is_overdue (const HwPlan *self, const HwMachine *machine, const HwCareTask *task, double limit, double clock)
{
  const char *now = last_noted (self->room);

  if (task->clock == HW_CLOCK_MONTHS || task->clock == HW_CLOCK_SEWING_DAY)
    return clock >= limit;
  return task->or_months > 0 && now != NULL && hw_room_care_months (self->room, machine, task, now) >= task->or_months;
}

static void
forecast_task (HwPlan *self, const HwMachine *machine, gsize care)
{
  const HwCareTask *task = &self->handbook->care[care];
  double limit = find_limit (machine, task);
  gboolean overdue;
  double clock;

  if (!(limit > 0))
    return;
  clock = hw_room_care_clock (self->room, machine, task, last_noted (self->room));
  overdue = is_overdue (self, machine, task, limit, clock);
  for (gsize i = 0; i < self->order->len; i++)
    {
      HwPlanStep *step = hw_plan_step_at (self, i);
      const HwSetup *setup = self->setups[step->step];
      double hours;

      if (setup == NULL || setup->machine != machine || step->done)
        continue;
      hours = advance_clock (task, step, setup);
      if (overdue || (clock > 0 && clock + hours > limit + LIMIT_SLACK))
        {
          step->care_due |= (guint64) 1 << care;
          overdue = FALSE;
          clock = 0;
        }
      clock += hours;
    }
}

void
hw_plan_forecast_care (HwPlan *self)
{
  for (guint m = 0; m < self->hours->len; m++)
    for (gsize care = 0; care < MIN (self->handbook->n_care, 64); care++)
      forecast_task (self, g_array_index (self->hours, HwMachineHours, m).machine, care);
}
