/* queue-care.c - before which step of the queue each machine's care falls due, and on which date
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/calendar.h"
#include "plan/queue-private.h"

#include <string.h>

#define DATE_LENGTH 10                   /* of "2031-05-09" */

static const HwPlan *
plan_of (const HwQueue *self, const HwQueueStep *step)
{
  return g_ptr_array_index (self->plans, (guint) step->plan);
}

static const HwSetup *
setup_of (const HwQueue *self, const HwQueueStep *step)
{
  return plan_of (self, step)->setups[hw_queue_planned (self, step)->step];
}

/* What the needle in the machine meets at @step: 0 it sews on, 1 it runs out, 2 it is changed before that. */
static int
meet_needle (const HwQueue *self, const HwQueueStep *step)
{
  const HwPlan *plan = plan_of (self, step);

  for (guint i = 0; i < plan->needles->len; i++)
    {
      const HwNeedlePick *pick = g_ptr_array_index (plan->needles, i);

      if (pick->before == step->place)
        return hw_queue_planned (self, step)->needle_worn || pick->from_piece > 0 || pick->mid_row ? 1 : 2;
    }
  return 0;
}

static gboolean
falls_due (const HwQueue *self, const HwQueueStep *step, const HwCareDue *due, gboolean *ends)
{
  int met;

  *ends = FALSE;
  if (due->care != HW_CARE_NEEDLE)
    return (hw_queue_planned (self, step)->care_due >> due->care) & 1;
  met = meet_needle (self, step);
  *ends = met == 2;
  return met == 1;
}

static char *
date_of (const HwQueue *self, const HwRoom *room, double hours)
{
  gint64 seconds = hw_calendar_seconds (room->preferences->hours_a_week, hours);
  g_autofree char *time = hw_calendar_time (self->from, seconds);

  return time != NULL ? g_strndup (time, DATE_LENGTH) : NULL;
}

/* It is the months that bring it, though the task's own clock counts hours. */
static void
tell_months (HwCareDue *due, const HwHandbook *handbook, const HwRoom *room, const char *now)
{
  const HwCareTask *task = due->care >= 0 ? &handbook->care[due->care] : NULL;

  if (task == NULL || !(task->or_months > 0) || due->by_months || task->clock == HW_CLOCK_MONTHS)
    return;
  due->by_months = TRUE;
  due->clock = hw_room_care_months (room, due->machine, task, now);
  due->limit = task->or_months;
}

/* Months run out on their own date, whatever is sewn; the step is then the first one after it. */
static void
settle_date (HwCareDue *due, char *by_work, const HwHandbook *handbook, const HwRoom *room, const char *now)
{
  if (due->date == NULL || strcmp (by_work, due->date) < 0)
    {
      g_free (due->date);
      due->date = by_work;
      return;
    }
  g_free (by_work);
  tell_months (due, handbook, room, now);
}

static void
place_due (HwQueue *self, HwCareDue *due, const HwHandbook *handbook, const HwRoom *room)
{
  double hours = 0;

  for (guint i = 0; i < self->steps->len; i++)
    {
      const HwQueueStep *step = &g_array_index (self->steps, HwQueueStep, i);
      const HwSetup *setup = setup_of (self, step);
      gboolean ends;

      if (setup == NULL || setup->machine != due->machine)
        continue;
      if (falls_due (self, step, due, &ends))
        {
          due->project = step->project;
          due->step = g_strdup (step->step);
          due->hours_until = hours;
          settle_date (due, date_of (self, room, step->starts_hours), handbook, room, self->from);
          return;
        }
      if (ends)
        {
          due->out_project = step->project;
          due->out_step = g_strdup (step->step);
          return;
        }
      hours += hw_queue_planned (self, step)->minutes / 60;
    }
  hw_care_guess (due, handbook, room, self->from, self->work_hours, hours);
  if (due->about != NULL && due->date != NULL && strcmp (due->date, due->about) <= 0)
    g_clear_pointer (&due->about, g_free);       /* the months come first */
}

static int
compare_due_cb (gconstpointer a, gconstpointer b)
{
  const HwCareDue *x = *(HwCareDue * const *) a;
  const HwCareDue *y = *(HwCareDue * const *) b;

  if (x->overdue != y->overdue)
    return x->overdue ? -1 : 1;
  if ((x->date == NULL) != (y->date == NULL))
    return x->date == NULL ? 1 : -1;
  return g_strcmp0 (x->date, y->date);   /* sorting keeps the order of equals: by machine, then by task */
}

void
hw_queue_list_care (HwQueue *self, const HwHandbook *handbook, const HwRoom *room)
{
  int n_care = (int) MIN (handbook->n_care, HW_CARE_MAX);

  for (guint m = 0; m < room->machines->len; m++)
    for (int care = HW_CARE_NEEDLE; care < n_care; care++)
      {
        HwCareDue *due = hw_care_stand (handbook, room, g_ptr_array_index (room->machines, m), care, self->from);

        if (due == NULL)
          continue;
        place_due (self, due, handbook, room);
        if (due->project < 0 && due->date != NULL && due->about == NULL)
          tell_months (due, handbook, room, self->from);
        if (due->overdue)
          {
            g_free (due->date);
            due->date = g_strndup (self->from, DATE_LENGTH);
          }
        g_ptr_array_add (self->care, due);
      }
  g_ptr_array_sort (self->care, compare_due_cb);
}
