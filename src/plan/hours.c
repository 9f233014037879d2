/* hours.c - what each step takes, and the sums over machines and the project
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "model/journal.h"
#include "plan/plan-private.h"
#include "plan/times.h"

static HwMachineHours *
find_hours (HwPlan *self, const HwMachine *machine)
{
  HwMachineHours hours = { .machine = machine };

  for (guint i = 0; i < self->hours->len; i++)
    if (g_array_index (self->hours, HwMachineHours, i).machine == machine)
      return &g_array_index (self->hours, HwMachineHours, i);
  g_array_append_val (self->hours, hours);
  return &g_array_index (self->hours, HwMachineHours, self->hours->len - 1);
}

static void
fill_operation (HwPlan *self, HwPlanStep *step)
{
  const HwSetup *setup = self->setups[step->step];
  HwOperationTime time = hw_operation_time (setup);
  HwOperationThread thread = hw_operation_thread (setup);
  HwMachineHours *hours = find_hours (self, setup->machine);

  /* How long the needle moves follows from stitches and speed; the person's own pace is in the handling. */
  step->pace = hw_journal_time_factor (self->room, setup->purpose->entry.id);
  step->stitches = time.stitches;
  step->running = time.running_minutes;
  step->minutes = MAX (time.minutes * step->pace, time.running_minutes);
  step->needle_m = thread.needle_m;
  step->under_m = thread.under_m;
  hours->at_machine_hours += step->minutes / 60;
  hours->running_hours += time.running_minutes / 60;
  hours->left_at_machine += step->done ? 0 : step->minutes / 60;
  hours->left_running += step->done ? 0 : time.running_minutes / 60;
}

void
hw_plan_fill_times (HwPlan *self)
{
  for (gsize i = 0; i < self->order->len; i++)
    {
      HwPlanStep *step = hw_plan_step_at (self, i);

      if (self->setups[step->step] != NULL)
        fill_operation (self, step);
      else
        {
          step->pace = 1;
          step->minutes = hw_project_get_step (self->project, step->step)->minutes;
          self->hand_minutes += step->minutes;
        }
      self->minutes_total += step->minutes;
      self->minutes_left += step->done ? 0 : step->minutes;
      self->running_total += step->running;
    }
}
