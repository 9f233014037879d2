/* care-stand.c - how the care of each machine stands now
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/calendar.h"
#include "plan/care.h"

#include <math.h>
#include <string.h>

#define SECONDS_A_MONTH (30.4375 * 24 * 60 * 60)
#define SECONDS_A_WEEK (7.0 * 24 * 60 * 60)
#define DATE_LENGTH 10                   /* of "2031-05-09" */
#define LIMIT_SLACK 1e-9

void
hw_care_due_free (HwCareDue *self)
{
  if (self == NULL)
    return;
  g_free (self->step);
  g_free (self->date);
  g_free (self->about);
  g_free (self->since);
  g_free (self->out_step);
  g_free (self);
}

static gboolean
has_own_limit (const HwMachine *machine, const HwCareTask *task)
{
  for (gsize i = 0; i < machine->n_care; i++)
    if (g_strcmp0 (machine->care[i].care, task->entry.id) == 0)
      return TRUE;
  return FALSE;
}

double
hw_care_limit (const HwMachine *machine, const HwCareTask *task)
{
  if (!(task->machines & (1u << machine->kind)) || strcmp (task->entry.id, HW_NEEDLE_TASK) == 0
      || (task->only_by_manual && !has_own_limit (machine, task)))
    return 0;
  return hw_room_care_limit (machine, task);
}

/* Months tell a date without any sewing: from now until the limit is reached. */
static void
fill_months (HwCareDue *due, double months, double limit, const char *now_iso)
{
  g_autofree char *time = hw_calendar_time (now_iso, (gint64) floor (MAX (limit - months, 0) * SECONDS_A_MONTH));

  due->overdue = due->overdue || months >= limit;
  due->date = time != NULL ? g_strndup (time, DATE_LENGTH) : NULL;
}

static void
fill_hours (HwCareDue *due, const HwCareTask *task, double months, const char *now_iso)
{
  due->overdue = due->clock >= due->limit - LIMIT_SLACK;
  if (due->overdue || !(task->or_months > 0))
    return;
  fill_months (due, months, task->or_months, now_iso);
  if (!due->overdue)
    return;
  due->by_months = TRUE;
  due->clock = months;
  due->limit = task->or_months;
}

static HwCareDue *
stand_task (const HwHandbook *handbook, const HwRoom *room, const HwMachine *machine, int care, const char *now_iso)
{
  const HwCareTask *task = &handbook->care[care];
  double limit = hw_care_limit (machine, task);
  double months;
  HwCareDue *due;

  if (!(limit > 0))
    return NULL;
  months = hw_room_care_months (room, machine, task, now_iso);
  due = g_new0 (HwCareDue, 1);
  *due = (HwCareDue) { .machine = machine, .care = care, .project = -1, .hours_until = INFINITY, .limit = limit,
                       .clock = hw_room_care_clock (room, machine, task, now_iso),
                       .since = g_strdup (hw_room_care_since (room, machine, task)) };
  switch (task->clock)
    {
    case HW_CLOCK_MONTHS:
      fill_months (due, months, limit, now_iso);
      break;
    case HW_CLOCK_SEWING_DAY:
      due->overdue = due->clock >= limit && !hw_room_care_sewn_on (room, machine, task, now_iso);
      break;
    case HW_CLOCK_RUNNING:
    case HW_CLOCK_AT_MACHINE:
    default:
      fill_hours (due, task, months, now_iso);
      break;
    }
  return due;
}

/* When the needle was first put into a machine; NULL not noted. */
static const char *
find_first_load (const HwRoom *room, const HwNeedle *needle)
{
  for (guint i = 0; i < room->entries->len; i++)
    {
      const HwJournalEntry *entry = g_ptr_array_index (room->entries, i);

      if (entry->kind == HW_ENTRY_LOAD && !g_hash_table_contains (room->cancelled, entry->id)
          && strcmp (entry->needle != NULL ? entry->needle : entry->id, needle->id) == 0)
        return entry->time;
    }
  return NULL;
}

/* Told on whichever of its two clocks has gone further. */
static HwCareDue *
stand_needle (const HwHandbook *handbook, const HwRoom *room, const HwMachine *machine)
{
  const HwNeedleLife *life = &handbook->needle_life;
  const HwNeedle *needle = hw_room_get_state (room, machine)->needle;
  HwCareDue *due;

  if (needle == NULL)
    return NULL;
  due = g_new0 (HwCareDue, 1);
  *due = (HwCareDue) { .machine = machine, .care = HW_CARE_NEEDLE, .project = -1, .hours_until = INFINITY,
                       .clock = MAX (needle->at_machine_hours,
                                     needle->running_hours * life->at_machine_hours / life->running_hours),
                       .limit = life->at_machine_hours, .since = g_strdup (find_first_load (room, needle)) };
  due->overdue = due->clock >= due->limit - LIMIT_SLACK;
  return due;
}

/* Hours at the machine in an hour of the task's clock; 0: it counts no hours. */
static double
find_share (const HwHandbook *handbook, const HwCareDue *due)
{
  if (due->care == HW_CARE_NEEDLE)
    return 1;
  switch (handbook->care[due->care].clock)
    {
    case HW_CLOCK_AT_MACHINE:
      return 1;
    case HW_CLOCK_RUNNING:
      return handbook->running_share > 0 ? 1 / handbook->running_share : 0;
    case HW_CLOCK_MONTHS:
    case HW_CLOCK_SEWING_DAY:
    default:
      return 0;
    }
}

void
hw_care_guess (HwCareDue *due, const HwHandbook *handbook, const HwRoom *room, const char *from_iso, double work_hours,
               double machine_hours)
{
  double share = find_share (handbook, due);
  double hours = (due->limit - due->clock) * share - machine_hours;
  gint64 seconds = hw_calendar_seconds (room->preferences->hours_a_week, work_hours + MAX (hours, 0));
  g_autofree char *time = hw_calendar_time (from_iso, seconds);

  g_clear_pointer (&due->about, g_free);
  if (due->overdue || due->by_months || !(share > 0) || time == NULL)
    return;
  due->about = g_strndup (time, DATE_LENGTH);
  due->about_weeks = (double) seconds / SECONDS_A_WEEK;
}

HwCareDue *
hw_care_stand (const HwHandbook *handbook, const HwRoom *room, const HwMachine *machine, int care, const char *now_iso)
{
  g_return_val_if_fail (handbook != NULL && room != NULL && machine != NULL && now_iso != NULL, NULL);

  return care == HW_CARE_NEEDLE ? stand_needle (handbook, room, machine)
                                : stand_task (handbook, room, machine, care, now_iso);
}

GPtrArray *
hw_care_overdue (const HwHandbook *handbook, const HwRoom *room, const char *now_iso)
{
  GPtrArray *overdue = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_care_due_free);
  int n_care = (int) MIN (handbook->n_care, HW_CARE_MAX);

  for (guint m = 0; m < room->machines->len; m++)
    for (int care = HW_CARE_NEEDLE; care < n_care; care++)
      {
        const HwMachine *machine = g_ptr_array_index (room->machines, m);
        g_autoptr (HwCareDue) due = hw_care_stand (handbook, room, machine, care, now_iso);

        if (due != NULL && due->overdue)
          g_ptr_array_add (overdue, g_steal_pointer (&due));
      }
  return overdue;
}
