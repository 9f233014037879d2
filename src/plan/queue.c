/* queue.c - several projects through one room, one after another or mixed
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/calendar.h"
#include "plan/queue-private.h"

#include <math.h>
#include <string.h>

#define SAVING_MIN 1e-6                  /* minutes: less is no saving */
#define DATE_LENGTH 10                   /* of "2031-05-09" */

static const HwPlanEffort quick = { .max_states = HW_PLAN_QUICK_STATES };

typedef struct
{
  const HwHandbook *handbook;
  const HwRoom     *room;
  const char       *from;
} Setting;

static HwQueue *
make_empty (const char *from)
{
  HwQueue *self = g_new0 (HwQueue, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->projects = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_project_unref);
  self->plans = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_plan_unref);
  self->steps = g_array_new (FALSE, FALSE, sizeof (HwQueueStep));
  self->care = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_care_due_free);
  self->refused = g_ptr_array_new_with_free_func (g_free);
  self->from = g_strdup (from);
  return self;
}

static const HwProject *
project_at (const HwQueue *self, guint index)
{
  return g_ptr_array_index (self->projects, index);
}

/* ---- which projects, in which order ---- */

static int
find_place (const HwProject *project, const HwPreferences *preferences)
{
  int place = 0;

  while (preferences->queue[place] != NULL && strcmp (preferences->queue[place], project->id) != 0)
    place++;
  return place;
}

static int
compare_projects_cb (gconstpointer a, gconstpointer b, gpointer data)
{
  const HwProject *x = *(HwProject * const *) a;
  const HwProject *y = *(HwProject * const *) b;
  int place_x = find_place (x, data), place_y = find_place (y, data);
  int order;

  if (place_x != place_y)
    return place_x < place_y ? -1 : 1;
  if ((x->due == NULL) != (y->due == NULL))
    return x->due == NULL ? 1 : -1;
  order = g_strcmp0 (x->due, y->due);
  if (order == 0)
    order = strcmp (x->title, y->title);
  return order != 0 ? order : strcmp (x->id, y->id);
}

/* (transfer full) */
static GPtrArray *
list_in_order (const GPtrArray *projects, const HwRoom *room)
{
  GPtrArray *list = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_project_unref);

  for (guint i = 0; i < projects->len; i++)
    {
      HwProject *project = g_ptr_array_index (projects, i);

      if (hw_room_count_done (room, project) < project->steps->len)
        g_ptr_array_add (list, hw_project_ref (project));
    }
  g_ptr_array_sort_with_data (list, compare_projects_cb, room->preferences);
  return list;
}

/* ---- sums and dates ---- */

static void
take_step (HwQueue *self, int project, int plan, int place, const char *number)
{
  const HwPlan *planned = g_ptr_array_index (self->plans, (guint) plan);
  HwQueueStep step = { project, g_strdup (number), plan, place, planned->from_hours };

  step.starts_hours += hw_plan_step_at (planned, (gsize) place)->starts_hours;
  g_array_append_val (self->steps, step);
}

/* On the day on which the last of it is done. */
static void
fill_finish (HwQueue *self, guint p, double hours, const HwRoom *room)
{
  gint64 seconds = hw_calendar_seconds (room->preferences->hours_a_week, MAX (hours - 1e-6, 0));
  g_autofree char *time = hw_calendar_time (self->from, seconds);
  const char *due = project_at (self, p)->due;

  self->finished[p] = g_strndup (time, DATE_LENGTH);
  self->late[p] = due != NULL && strncmp (self->finished[p], due, DATE_LENGTH) > 0;
}

/* From steps and plans. */
static void
fill_sums (HwQueue *self, const HwRoom *room)
{
  guint n = self->projects->len;
  g_autofree double *ends = g_new0 (double, n + 1);
  double before = 0;

  self->hours_left = g_new0 (double, n + 1);
  self->finished = g_new0 (char *, n + 1);
  self->late = g_new0 (gboolean, n + 1);
  for (guint i = 0; i < self->steps->len; i++)
    {
      const HwQueueStep *step = &g_array_index (self->steps, HwQueueStep, i);

      ends[step->project] = step->starts_hours + hw_queue_planned (self, step)->minutes / 60;
      self->hours_left[step->project] += ends[step->project] - before;
      before = ends[step->project];
    }
  self->work_hours = before;
  for (guint p = 0; p < n; p++)
    fill_finish (self, p, ends[p], room);
  for (guint i = 0; i < self->plans->len; i++)
    self->change_minutes += ((const HwPlan *) g_ptr_array_index (self->plans, i))->as_ordered.change_minutes;
}

/* ---- one after another ---- */

static void
take_plan (HwQueue *self, HwProject *project, HwPlan *plan)
{
  int index = (int) self->projects->len;

  g_ptr_array_add (self->projects, hw_project_ref (project));
  g_ptr_array_add (self->plans, plan);
  for (gsize i = 0; i < plan->order->len; i++)
    {
      const HwPlanStep *step = hw_plan_step_at (plan, i);

      if (!step->done)
        take_step (self, index, index, (int) i, hw_project_get_step (project, step->step)->number);
    }
}

static HwQueue *
plan_one_by_one (const Setting *setting, const GPtrArray *projects)
{
  HwQueue *self = make_empty (setting->from);
  g_autoptr (HwRoom) room = hw_room_ref ((HwRoom *) setting->room);
  double hours = 0;

  for (guint i = 0; i < projects->len; i++)
    {
      HwProject *project = g_ptr_array_index (projects, i);
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) entries = NULL;
      HwPlan *plan = hw_plan_new_from (setting->handbook, project, room, setting->from, hours, NULL,
                                       &quick, &error);
      HwRoom *next;

      if (plan == NULL)
        {
          g_ptr_array_add (self->refused, g_strdup_printf ("%s: %s", project->title, error->message));
          continue;
        }
      take_plan (self, project, plan);
      hours += plan->work_hours;
      if (i + 1 == projects->len)
        break;
      entries = hw_queue_imagine (plan);
      next = hw_room_imagine (room, entries);
      hw_room_unref (room);
      room = next;
    }
  fill_sums (self, setting->room);
  self->change_minutes_one_by_one = self->change_minutes;
  return self;
}

/* ---- mixed ---- */

static HwQueue *
plan_joined (const Setting *setting, const HwQueue *apart, const gboolean *wait)
{
  g_autoptr (HwJoined) joined = hw_joined_new (setting->handbook, apart->projects, setting->room, wait);
  g_autoptr (HwRoom) room = hw_joined_room (joined, apart->projects, setting->room);
  HwQueue *self = make_empty (setting->from);
  HwPlan *plan = hw_plan_new_from (setting->handbook, joined->project, room, setting->from, 0,
                                   (const HwProject * const *) joined->views, &quick, NULL);

  g_assert (plan != NULL);               /* each of its projects was planned alone */
  self->mixed = TRUE;
  g_ptr_array_add (self->plans, plan);
  for (guint p = 0; p < apart->projects->len; p++)
    g_ptr_array_add (self->projects, hw_project_ref (g_ptr_array_index (apart->projects, p)));
  for (gsize i = 0; i < plan->order->len; i++)
    {
      const HwPlanStep *step = hw_plan_step_at (plan, i);
      int owner = joined->owner[step->step];
      const HwStep *own = hw_project_get_step (project_at (self, (guint) owner), joined->step[step->step]);

      if (!step->done)
        take_step (self, owner, 0, (int) i, own->number);
    }
  fill_sums (self, setting->room);
  self->change_minutes_one_by_one = apart->change_minutes;
  for (guint i = 0; i < apart->refused->len; i++)
    g_ptr_array_add (self->refused, g_strdup (g_ptr_array_index (apart->refused, i)));
  return self;
}

/* The first project that mixing makes late; -1 none. */
static int
find_made_late (const HwQueue *mixed, const HwQueue *apart, const gboolean *wait)
{
  for (guint p = 0; p < mixed->projects->len; p++)
    if (mixed->late[p] && !apart->late[p] && !wait[p])
      return (int) p;
  return -1;
}

static gboolean
makes_late (const HwQueue *mixed, const HwQueue *apart)
{
  for (guint p = 0; p < mixed->projects->len; p++)
    if (mixed->late[p] && !apart->late[p])
      return TRUE;
  return FALSE;
}

/* (transfer full): NULL when mixing gains nothing. */
static HwQueue *
plan_mixed (const Setting *setting, const HwQueue *apart)
{
  g_autofree gboolean *wait = g_new0 (gboolean, apart->projects->len + 1);
  g_autoptr (HwQueue) mixed = plan_joined (setting, apart, wait);
  int late;

  while ((late = find_made_late (mixed, apart, wait)) >= 0)
    {
      wait[late] = TRUE;
      hw_queue_unref (mixed);
      mixed = plan_joined (setting, apart, wait);
    }
  if (mixed->change_minutes > apart->change_minutes - SAVING_MIN || makes_late (mixed, apart))
    return NULL;
  return g_steal_pointer (&mixed);
}

/* ---- the whole ---- */

/* The journal does not run backwards: the work begins now, but after the last thing noted. (transfer full) */
static char *
find_beginning (const HwRoom *room, const char *now_iso)
{
  g_autofree char *now = hw_calendar_time (now_iso, 0);
  guint n = room->entries->len;
  const char *last = n > 0 ? ((const HwJournalEntry *) g_ptr_array_index (room->entries, n - 1))->time : NULL;

  if (last == NULL || g_strcmp0 (last, now) < 0)
    return g_steal_pointer (&now);
  return hw_calendar_time (last, 1);
}

HwQueue *
hw_queue_new (const HwHandbook *handbook, const GPtrArray *projects, const HwRoom *room, const char *now_iso,
              HwQueueMode mode)
{
  g_autoptr (GPtrArray) list = NULL;
  g_autoptr (HwQueue) self = NULL;
  g_autofree char *from = NULL;
  Setting setting;

  g_return_val_if_fail (handbook != NULL && projects != NULL && room != NULL && now_iso != NULL, NULL);

  from = find_beginning (room, now_iso);
  g_return_val_if_fail (from != NULL, NULL);             /* now_iso is no time */
  setting = (Setting) { handbook, room, from };
  list = list_in_order (projects, room);
  self = plan_one_by_one (&setting, list);
  if (self->projects->len > 1 && (mode == HW_QUEUE_MIXED
                                  || (mode == HW_QUEUE_AS_PREFERRED && room->preferences->mixed)))
    {
      HwQueue *mixed = plan_mixed (&setting, self);

      if (mixed != NULL)
        {
          hw_queue_unref (self);
          self = mixed;
        }
    }
  hw_queue_list_care (self, handbook, room);
  return g_steal_pointer (&self);
}

HwQueue *
hw_queue_ref (HwQueue *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

void
hw_queue_unref (HwQueue *self)
{
  g_return_if_fail (self != NULL);

  if (!g_atomic_ref_count_dec (&self->ref_count))
    return;
  for (guint i = 0; i < self->steps->len; i++)
    g_free (g_array_index (self->steps, HwQueueStep, i).step);
  for (guint p = 0; p < self->projects->len; p++)
    g_free (self->finished[p]);
  g_ptr_array_unref (self->projects);
  g_ptr_array_unref (self->plans);
  g_array_unref (self->steps);
  g_ptr_array_unref (self->care);
  g_ptr_array_unref (self->refused);
  g_free (self->hours_left);
  g_free (self->finished);
  g_free (self->late);
  g_free (self->from);
  g_free (self);
}
