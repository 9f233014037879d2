/* care.c - which care falls due before which step
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The room's clocks are walked along the order, the work laid on the calendar by calendar.h: a task whose clock would
 * pass its limit inside a step is due before that step, and its clock starts again. A step that by itself is longer
 * than a limit is begun with the clock at nothing. The minutes that care takes put off what comes after it, but run no
 * clock: nothing is sewn in them. A change of needle is not care here; see needles.c.
 */

#include "config.h"

#include "plan/calendar.h"
#include "plan/care.h"
#include "plan/plan-private.h"

#include <string.h>

#define LIMIT_SLACK 1e-9
#define SECONDS_A_MONTH (30.4375 * 24 * 60 * 60)
#define NO_DAY G_MININT64

/* One task on one machine. */
typedef struct
{
  const HwMachine  *machine;
  const HwCareTask *task;
  gsize             care;
  double            limit;
  double            clock;       /* hours or days, of the task's own clock */
  double            months;      /* at the start of the work; after a care, less than nothing by the time until it */
  gboolean          begun;       /* the machine's journal has begun: months count */
  gint64            day;         /* the last one counted; NO_DAY */
} Clock;

typedef struct
{
  HwPlan *plan;
  GArray *clocks;                /* Clock */
} Forecast;

/* From the start of the work, with the hours that a queue has laid out before this plan. */
static gint64
find_seconds (const HwPlan *plan, double hours)
{
  return hw_calendar_seconds (plan->room->preferences->hours_a_week, plan->from_hours + hours);
}

/* ---- the clocks as they stand ---- */

static gboolean
has_journal (const HwRoom *room, const HwMachine *machine)
{
  for (guint i = 0; i < room->entries->len; i++)
    if (strcmp (((const HwJournalEntry *) g_ptr_array_index (room->entries, i))->machine, machine->id) == 0)
      return TRUE;
  return FALSE;
}

static gint64
find_last_day (const HwPlan *plan, const HwMachine *machine)
{
  const HwRoom *room = plan->room;

  for (guint i = room->entries->len; i-- > 0;)
    {
      const HwJournalEntry *entry = g_ptr_array_index (room->entries, i);

      if (entry->kind == HW_ENTRY_SEWING && strcmp (entry->machine, machine->id) == 0
          && !g_hash_table_contains (room->cancelled, entry->id))
        return hw_calendar_day (entry->time, 0);
    }
  return NO_DAY;
}

static void
list_clocks (Forecast *self, const HwMachine *machine)
{
  const HwPlan *plan = self->plan;
  gboolean begun = has_journal (plan->room, machine);
  gint64 seconds = find_seconds (plan, 0);
  double elapsed = (double) seconds / SECONDS_A_MONTH;
  g_autofree char *begins = hw_calendar_time (plan->from, seconds);

  for (gsize care = 0; care < MIN (plan->handbook->n_care, HW_CARE_MAX); care++)
    {
      const HwCareTask *task = &plan->handbook->care[care];
      Clock clock = { .machine = machine, .task = task, .care = care, .limit = hw_care_limit (machine, task),
                      .begun = begun, .day = NO_DAY };

      if (!(clock.limit > 0))
        continue;
      clock.clock = hw_room_care_clock (plan->room, machine, task, begins);
      clock.months = begins != NULL ? hw_room_care_months (plan->room, machine, task, begins) - elapsed : 0;
      if (task->clock == HW_CLOCK_SEWING_DAY && clock.clock > 0)
        clock.day = find_last_day (plan, machine);
      g_array_append_val (self->clocks, clock);
    }
}

/* ---- along the order ---- */

/* What @step adds to a clock of hours. */
static double
count_hours (const Clock *clock, const HwPlanStep *step, const HwSetup *setup)
{
  double lint = clock->task->counts_lint ? setup->lint_factor : 1;

  switch (clock->task->clock)
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

/* Does the clock pass its limit in a step that begins @seconds from the start and adds @hours? */
static gboolean
is_due (const Forecast *self, const Clock *clock, gint64 seconds, double hours)
{
  double months = clock->begun ? clock->months + (double) seconds / SECONDS_A_MONTH : 0;

  if (clock->task->clock == HW_CLOCK_MONTHS)
    return months >= clock->limit;
  if (clock->task->clock == HW_CLOCK_SEWING_DAY)
    return clock->clock > 0 && clock->clock + 1 > clock->limit
           && clock->day != hw_calendar_day (self->plan->from, seconds);
  return (clock->clock > 0 && clock->clock + hours > clock->limit + LIMIT_SLACK)
         || (clock->task->or_months > 0 && months >= clock->task->or_months);
}

static void
start_again (Clock *clock, gint64 seconds)
{
  clock->clock = 0;
  clock->months = -(double) seconds / SECONDS_A_MONTH;
  clock->begun = TRUE;
  clock->day = NO_DAY;
}

static void
advance (const Forecast *self, Clock *clock, gint64 seconds, double hours)
{
  gint64 day = hw_calendar_day (self->plan->from, seconds);

  if (!clock->begun)
    start_again (clock, seconds);
  if (clock->task->clock == HW_CLOCK_SEWING_DAY)
    clock->clock += clock->day != day ? 1 : 0;
  else
    clock->clock += hours;
  clock->day = day;
}

/* The tasks due before a step that begins @seconds from the start, 1 << care each; and the minutes they take. */
static guint64
list_due (const Forecast *self, const HwPlanStep *step, const HwSetup *setup, gint64 seconds, double *minutes)
{
  guint64 due = 0;

  *minutes = 0;
  for (guint i = 0; i < self->clocks->len; i++)
    {
      const Clock *clock = &g_array_index (self->clocks, Clock, i);

      if (clock->machine != setup->machine || !is_due (self, clock, seconds, count_hours (clock, step, setup)))
        continue;
      due |= (guint64) 1 << clock->care;
      *minutes += clock->task->minutes;
    }
  return due;
}

static void
sew (Forecast *self, const HwPlanStep *step, const HwSetup *setup, gint64 seconds)
{
  for (guint i = 0; i < self->clocks->len; i++)
    {
      Clock *clock = &g_array_index (self->clocks, Clock, i);

      if (clock->machine != setup->machine)
        continue;
      if ((step->care_due >> clock->care) & 1)
        start_again (clock, seconds);
      advance (self, clock, seconds, count_hours (clock, step, setup));
    }
}

/* What care takes puts the step off, which may let more care fall due, never less. Returns the hours until the step
 * begins. */
static double
begin_step (const Forecast *self, HwPlanStep *step, const HwSetup *setup, double hours)
{
  double begins = hours + step->change_minutes / 60;
  double minutes;
  guint64 due;

  if (setup == NULL)
    return begins;
  do
    {
      due = step->care_due;
      step->care_due |= list_due (self, step, setup, find_seconds (self->plan, begins), &minutes);
      begins = hours + (step->change_minutes + minutes) / 60;
    }
  while (step->care_due != due);
  return begins;
}

void
hw_plan_forecast_care (HwPlan *plan)
{
  g_autoptr (GArray) clocks = g_array_new (FALSE, FALSE, sizeof (Clock));
  Forecast self = { plan, clocks };
  double hours = 0;

  for (guint m = 0; m < plan->hours->len; m++)
    list_clocks (&self, g_array_index (plan->hours, HwMachineHours, m).machine);
  for (gsize i = 0; i < plan->order->len; i++)
    {
      HwPlanStep *step = hw_plan_step_at (plan, i);
      const HwSetup *setup = hw_plan_setup_at (plan, i);

      if (step->done)
        continue;
      step->starts_hours = begin_step (&self, step, setup, hours);
      if (setup != NULL)
        sew (&self, step, setup, find_seconds (plan, step->starts_hours));
      hours = step->starts_hours + step->minutes / 60;
    }
  plan->work_hours = hours;
}
