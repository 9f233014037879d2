/* now.c - what is on a machine now, what comes next, and the journal entries for it
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/plan-private.h"

#include <math.h>

/* The first step to sew that is not done; -1 none. */
static int
find_next_sewn (const HwPlan *self, const HwMachine *machine)
{
  for (gsize i = 0; i < self->order->len; i++)
    {
      const HwSetup *setup = hw_plan_setup_at (self, i);

      if (setup != NULL && !hw_plan_step_at (self, i)->done && (machine == NULL || setup->machine == machine))
        return (int) i;
    }
  return -1;
}

/* All done: the machine of the last step sewn, else the room's first. */
static const HwMachine *
find_last_machine (const HwPlan *self)
{
  for (gsize i = self->order->len; i-- > 0;)
    if (hw_plan_setup_at (self, i) != NULL)
      return hw_plan_setup_at (self, i)->machine;
  return self->room->machines->len > 0 ? g_ptr_array_index (self->room->machines, 0) : NULL;
}

/* Hours worn, on whichever of the two clocks has gone further, told in hours at the machine. */
static double
hours_worn (const HwNeedleLife *life, const HwNeedle *needle)
{
  double at_machine = needle->at_machine_hours;

  return MAX (at_machine, needle->running_hours * life->at_machine_hours / life->running_hours);
}

static gboolean
is_within_step (const HwNeedlePick *pick)
{
  return pick->from_piece > 0 || pick->mid_row;
}

/* On @machine, or on whichever comes first (NULL). */
static void
find_next_pick (const HwPlan *self, const HwMachine *machine, HwNow *now)
{
  for (guint i = 0; i < self->needles->len; i++)
    {
      const HwNeedlePick *pick = g_ptr_array_index (self->needles, i);
      const HwGroup *group = hw_plan_get_group (self, pick->group);

      if (group == NULL || (machine != NULL && group->machine != machine))
        continue;
      now->next = pick;
      now->next_step = pick->before;
      now->next_group = group;
      return;
    }
}

/* The needle in the machine runs out where the first one after it replaces it for that. */
static int
find_worn_step (const HwPlan *self, const HwMachine *machine)
{
  for (guint i = 0; i < self->needles->len; i++)
    {
      const HwNeedlePick *pick = g_ptr_array_index (self->needles, i);
      const HwGroup *group = hw_plan_get_group (self, pick->group);

      if (group != NULL && group->machine == machine)
        return hw_plan_step_at (self, (gsize) pick->before)->needle_worn || is_within_step (pick) ? pick->before : -1;
    }
  return -1;
}

static void
find_next_care (const HwPlan *self, HwNow *now)
{
  for (gsize i = 0; i < self->order->len; i++)
    {
      const HwPlanStep *step = hw_plan_step_at (self, i);
      const HwSetup *setup = self->setups[step->step];

      if (setup == NULL || setup->machine != now->machine || step->done || step->care_due == 0)
        continue;
      now->care = 0;
      while (!((step->care_due >> now->care) & 1))
        now->care++;
      now->care_step = (int) i;
      return;
    }
}

HwNow
hw_now_in (const HwHandbook *handbook, const HwRoom *room, const HwMachine *machine)
{
  HwNow now = { .machine = machine, .next_step = -1, .worn_step = -1, .care = -1, .care_step = -1 };
  const HwMachineState *state;

  now.hours_limit = handbook->needle_life.at_machine_hours;
  if (machine == NULL)
    return now;
  state = hw_room_get_state (room, machine);
  now.needle = state->needle;
  if (now.needle != NULL)
    now.hours_used = hours_worn (&handbook->needle_life, now.needle);
  return now;
}

HwNow
hw_plan_now (const HwPlan *self, const HwMachine *machine)
{
  HwNow now;
  int next = find_next_sewn (self, machine);
  const HwMachine *at = machine;

  if (machine == NULL)
    at = next >= 0 ? hw_plan_setup_at (self, (gsize) next)->machine : find_last_machine (self);
  now = hw_now_in (self->handbook, self->room, at);
  if (now.machine == NULL)
    return now;
  now.worn_step = find_worn_step (self, now.machine);
  find_next_pick (self, now.machine, &now);
  if (machine == NULL && now.next == NULL)
    find_next_pick (self, NULL, &now);
  find_next_care (self, &now);
  return now;
}

const HwPlanStep *
hw_plan_find_step (const HwPlan *self, const char *number)
{
  int step = hw_project_find_step (self->project, number);

  for (gsize i = 0; step >= 0 && i < self->order->len; i++)
    if (hw_plan_step_at (self, i)->step == (gsize) step)
      return hw_plan_step_at (self, i);
  return NULL;
}

const HwPlanStep *
hw_plan_find_left (const HwPlan *self, const HwPlanStep *first)
{
  for (gsize i = (gsize) (first - hw_plan_step_at (self, 0)); i < self->order->len; i++)
    {
      const HwPlanStep *step = hw_plan_step_at (self, i);

      if (step->group >= 0 && step->group != first->group)
        return NULL;
      if (step->group == first->group && !step->done)
        return step;
    }
  return NULL;
}

const HwGroup *
hw_plan_get_group (const HwPlan *self, int index)
{
  return index >= 0 && (guint) index < self->groups->len ? g_ptr_array_index (self->groups, (guint) index) : NULL;
}

static char *
dup_id (const HwEntry *entry)
{
  return g_strdup (entry->id);
}

/* What the step is sewn with: the set-up may be shared otherwise once the step is done. */
static void
note_setup (const HwHandbook *handbook, const HwSetup *setup, HwJournalEntry *entry)
{
  HwMounted mounted = hw_mounted_from_setup (setup);

  entry->system = mounted.system >= 0 ? dup_id (&handbook->systems[mounted.system].entry) : NULL;
  entry->point = mounted.point >= 0 ? dup_id (&handbook->points[mounted.point].entry) : NULL;
  entry->nm = MAX (mounted.size_nm, 0);
  entry->foot = mounted.foot >= 0 ? dup_id (&handbook->feet[mounted.foot].entry) : NULL;
  entry->plate = mounted.plate >= 0 ? dup_id (&handbook->plates[mounted.plate].entry) : NULL;
  entry->length_mm = mounted.soft[HW_SOFT_LENGTH] / 100.0;
  entry->width_mm = mounted.soft[HW_SOFT_WIDTH] / 100.0;
  entry->dial = mounted.soft[HW_SOFT_DIAL] / 100.0;
}

/* The thread that the step takes off its spools, and what its cloth does to needle and machine. */
static void
fill_sewing (const HwPlan *self, const HwPlanStep *step, HwJournalEntry *entry)
{
  const HwSetup *setup = self->setups[step->step];
  const HwMachineState *state = hw_room_get_state (self->room, setup->machine);

  entry->running = step->minutes > 0 ? step->running * entry->minutes / step->minutes : 0;
  entry->needle = state->needle != NULL ? g_strdup (state->needle->id) : NULL;
  entry->lint = setup->lint_factor;
  entry->life = setup->needle_life;
  note_setup (self->handbook, setup, entry);
  entry->purpose = g_strdup (setup->purpose->entry.id);
  entry->needle_thread = hw_thread_choice_label (&setup->needle_thread);
  entry->needle_m = step->needle_m;
  if (step->under_m <= 0)
    return;
  entry->bobbin_thread = hw_thread_choice_label (&setup->bobbin_thread);
  entry->bobbin_m = step->under_m;
}

HwJournalEntry *
hw_plan_entry_for_step (const HwPlan *self, const char *number, double actual_minutes)
{
  const HwPlanStep *step = hw_plan_find_step (self, number);
  const HwSetup *setup;
  HwJournalEntry *entry;

  g_return_val_if_fail (step != NULL, NULL);

  setup = self->setups[step->step];
  entry = hw_journal_entry_new (HW_ENTRY_SEWING, setup != NULL ? setup->machine->id : HW_HAND);
  entry->project = g_strdup (self->project->id);
  entry->step = g_strdup (number);
  entry->minutes = actual_minutes > 0 ? actual_minutes : step->minutes;
  entry->planned = actual_minutes > 0 ? step->minutes / step->pace : 0;
  entry->lint = entry->life = 1;
  if (setup != NULL)
    fill_sewing (self, step, entry);
  return entry;
}

gboolean
hw_plan_is_needle_of (const HwPlan *self, const HwNeedle *needle, const HwGroup *group)
{
  return needle->nm == group->size_nm && fabs (needle->twin_mm - group->twin_mm) < 0.005 && needle->point != NULL
         && hw_handbook_find_point (self->handbook, needle->point) == group->point;
}

/* Without a pick the needle stays, if it is of the group's kind; else it is one that nobody has noted yet. */
static char *
name_needle (const HwPlan *self, const HwGroup *group, const HwNeedlePick *pick)
{
  const HwNeedle *there = hw_room_get_state (self->room, group->machine)->needle;

  if (pick != NULL && pick->worn != NULL)
    return g_strdup (pick->worn->id);
  if (pick == NULL && there != NULL && hw_plan_is_needle_of (self, there, group))
    return g_strdup (there->id);
  return g_uuid_string_random ();
}

/* A needle loaded before its turn leaves one behind that has hours left. */
static gboolean
is_due_now (const HwPlan *self, const HwGroup *group, const HwNeedlePick *pick)
{
  return find_next_sewn (self, group->machine) == pick->before;
}

HwJournalEntry *
hw_plan_entry_for_load (const HwPlan *self, const HwGroup *group, const HwNeedlePick *pick)
{
  const HwHandbook *handbook = self->handbook;
  HwJournalEntry *entry = hw_journal_entry_new (HW_ENTRY_LOAD, group->machine->id);

  entry->needle = name_needle (self, group, pick);
  if (pick != NULL && pick->discards && is_due_now (self, group, pick))
    entry->verdict = g_strdup ("discarded");
  if (pick != NULL && pick->worn == NULL && pick->packet != NULL)
    entry->packet = g_strdup (pick->packet->id);
  entry->system = group->system >= 0 ? dup_id (&handbook->systems[group->system].entry) : NULL;
  entry->point = group->point >= 0 ? dup_id (&handbook->points[group->point].entry) : NULL;
  entry->nm = group->size_nm;
  entry->twin_mm = group->twin_mm;
  entry->needle_thread = hw_thread_choice_label (group->needle_thread);
  entry->bobbin_thread = hw_thread_choice_label (group->bobbin_thread);
  entry->foot = group->foot >= 0 ? dup_id (&handbook->feet[group->foot].entry) : NULL;
  entry->plate = group->plate >= 0 ? dup_id (&handbook->plates[group->plate].entry) : NULL;
  entry->stitch = dup_id (&group->stitch->entry);
  return entry;
}
