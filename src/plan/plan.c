/* plan.c - the whole plan, stage by stage
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/plan-private.h"

#include <glib/gi18n.h>
#include <string.h>

static HwPlan *
make_empty (const HwHandbook *handbook, const HwProject *project, const HwRoom *room)
{
  HwPlan *self = g_new0 (HwPlan, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->handbook = hw_handbook_ref ((HwHandbook *) handbook);
  self->project = hw_project_ref ((HwProject *) project);
  self->room = hw_room_ref ((HwRoom *) room);
  self->costs = hw_changes_costs (handbook, room);
  self->n_steps = project->steps->len;
  self->setups = g_new0 (HwSetup *, self->n_steps + 1);
  self->groups = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_group_free);
  self->order = g_array_new (FALSE, FALSE, sizeof (HwPlanStep));
  self->needles = g_ptr_array_new_with_free_func (g_free);
  self->notions = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_notion_free);
  self->hours = g_array_new (FALSE, FALSE, sizeof (HwMachineHours));
  self->next = -1;
  return self;
}

static gboolean
pair_steps (HwPlan *self, const HwProject * const *views, int *n_paired, GError **error)
{
  self->cloths = hw_cloths_resolve (self->handbook, self->project, error);
  if (self->cloths == NULL)
    return FALSE;
  for (gsize i = 0; i < self->n_steps; i++)
    {
      const HwStep *step = hw_project_get_step (self->project, i);

      if (n_paired != NULL)
        g_atomic_int_set (n_paired, (int) i);
      if (step->kind != HW_STEP_OPERATION)
        continue;
      self->setups[i] = hw_pair (self->handbook, views != NULL ? views[i] : self->project, self->cloths, self->room,
                                 step, error);
      if (self->setups[i] == NULL)
        return FALSE;
    }
  return TRUE;
}

/* The plan knows no today: what the calendar tells is counted from the last thing noted in the room. */
static char *
dup_last_noted (const HwRoom *room)
{
  guint n = room->entries->len;

  return n > 0 ? g_strdup (((const HwJournalEntry *) g_ptr_array_index (room->entries, n - 1))->time) : NULL;
}

HwPlan *
hw_plan_new_from (const HwHandbook *handbook, const HwProject *project, const HwRoom *room, const char *from_iso,
                  double from_hours, const HwProject * const *views, const HwPlanEffort *effort, GError **error)
{
  g_autoptr (HwPlan) self = NULL;

  g_return_val_if_fail (handbook != NULL && project != NULL && room != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  self = make_empty (handbook, project, room);
  self->from = from_iso != NULL ? g_strdup (from_iso) : dup_last_noted (room);
  self->from_hours = from_hours;
  if (!pair_steps (self, views, effort->n_paired, error))
    return NULL;
  hw_plan_prefer_at_hand (self);
  hw_plan_put_in_order (self, effort);
  hw_plan_make_groups (self);
  hw_plan_fill_times (self);
  hw_plan_count_notions (self);
  hw_plan_forecast_care (self);
  hw_plan_pick_needles (self);
  return g_steal_pointer (&self);
}

/**
 * hw_plan_new_with:
 * @effort: how far the search for the proof of the order may go, and what it may remember
 *
 * Returns: (transfer full): the plan, or %NULL with @error set, %HW_PLAN_ERROR of the step that cannot be paired
 */
HwPlan *
hw_plan_new_with (const HwHandbook *handbook, const HwProject *project, const HwRoom *room, const HwPlanEffort *effort,
                  GError **error)
{
  return hw_plan_new_from (handbook, project, room, NULL, 0, NULL, effort, error);
}

HwPlan *
hw_plan_new_within (const HwHandbook *handbook, const HwProject *project, const HwRoom *room, guint max_states,
                    GError **error)
{
  return hw_plan_new_with (handbook, project, room, &(HwPlanEffort) { .max_states = max_states }, error);
}

HwPlan *
hw_plan_new (const HwHandbook *handbook, const HwProject *project, const HwRoom *room, GError **error)
{
  return hw_plan_new_within (handbook, project, room, HW_PLAN_QUICK_STATES, error);
}

HwPlan *
hw_plan_ref (HwPlan *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

static void
free_plan (HwPlan *self)
{
  for (gsize i = 0; i < self->n_steps; i++)
    if (self->setups[i] != NULL)
      hw_setup_free (self->setups[i]);
  g_free (self->setups);
  g_clear_pointer (&self->cloths, g_array_unref);
  g_clear_pointer (&self->at_hand, g_array_unref);
  g_ptr_array_unref (self->groups);
  g_array_unref (self->order);
  g_ptr_array_unref (self->needles);
  g_ptr_array_unref (self->notions);
  g_array_unref (self->hours);
  g_free (self->from);
  hw_handbook_unref ((HwHandbook *) self->handbook);
  hw_project_unref ((HwProject *) self->project);
  hw_room_unref ((HwRoom *) self->room);
  g_free (self);
}

void
hw_plan_unref (HwPlan *self)
{
  g_return_if_fail (self != NULL);

  if (g_atomic_ref_count_dec (&self->ref_count))
    free_plan (self);
}
