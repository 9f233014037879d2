/* room-care.c - what the clocks of care show
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include <string.h>

#define DAYS_A_MONTH 30.4375             /* 365.25 / 12 */
#define NEEDLE_TASK "needle"

static gboolean
is_live (const HwRoom         *self,
         const HwJournalEntry *entry)
{
  return !g_hash_table_contains (self->cancelled, entry->id);
}

static gboolean
is_care (const HwJournalEntry *entry,
         const HwCareTask     *task)
{
  return entry->kind == HW_ENTRY_CARE && strcmp (entry->task, task->entry.id) == 0;
}

/* Index of the machine's last live entry of that care, + 1; 0: it was never done since the journal began. */
static guint
find_last_care (const HwRoom     *self,
                const HwMachine  *machine,
                const HwCareTask *task)
{
  for (guint i = self->entries->len; i > 0; i--)
    {
      const HwJournalEntry *entry = g_ptr_array_index (self->entries, i - 1);
      if (is_care (entry, task) && strcmp (entry->machine, machine->id) == 0 && is_live (self, entry))
        return i;
    }
  return 0;
}

static gboolean
is_sewing_on (const HwRoom         *self,
              const HwJournalEntry *entry,
              const HwMachine      *machine)
{
  return entry->kind == HW_ENTRY_SEWING && strcmp (entry->machine, machine->id) == 0 && is_live (self, entry);
}

static double
sum_hours (const HwRoom     *self,
           const HwMachine  *machine,
           const HwCareTask *task)
{
  double minutes = 0;

  for (guint i = find_last_care (self, machine, task); i < self->entries->len; i++)
    {
      const HwJournalEntry *entry = g_ptr_array_index (self->entries, i);
      if (is_sewing_on (self, entry, machine))
        minutes += (task->clock == HW_CLOCK_RUNNING ? entry->running : entry->minutes)
                   * (task->counts_lint ? entry->lint : 1);
    }
  return minutes / 60;
}

/* Days of the calendar (UTC) on which the machine sewed since then. */
static double
count_days (const HwRoom     *self,
            const HwMachine  *machine,
            const HwCareTask *task)
{
  const char *last = "";
  int days = 0;

  for (guint i = find_last_care (self, machine, task); i < self->entries->len; i++)
    {
      const HwJournalEntry *entry = g_ptr_array_index (self->entries, i);
      if (!is_sewing_on (self, entry, machine) || strncmp (entry->time, last, strlen ("2031-05-09")) == 0)
        continue;
      last = entry->time;
      days++;
    }
  return days;
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
  guint last;

  g_return_val_if_fail (self != NULL && machine != NULL && task != NULL && now_iso != NULL, 0);

  last = find_last_care (self, machine, task);
  for (guint i = 0; last == 0 && i < self->entries->len; i++)
    if (strcmp (((HwJournalEntry *) g_ptr_array_index (self->entries, i))->machine, machine->id) == 0)
      last = i + 1;
  now = g_date_time_new_from_iso8601 (now_iso, utc);
  if (last == 0 || now == NULL)
    return 0;
  then = g_date_time_new_from_iso8601 (((HwJournalEntry *) g_ptr_array_index (self->entries, last - 1))->time, utc);
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
      return count_days (self, machine, task);
    case HW_CLOCK_RUNNING:
    case HW_CLOCK_AT_MACHINE:
    default:
      if (strcmp (task->entry.id, NEEDLE_TASK) == 0 && state != NULL && state->needle != NULL)
        return task->clock == HW_CLOCK_RUNNING ? state->needle->running_hours : state->needle->at_machine_hours;
      return sum_hours (self, machine, task);
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
