/* marking.c - what the journal notes when a step is marked as sewn, and when the mark is taken back
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A step that was sewn was sewn with its needle: where nobody noted that it was put in, it is noted with the step, so
 * that the hours go to that needle and not to the one before it.
 */

#include "config.h"

#include "plan/plan-private.h"

#include <string.h>

/* The first pick of that group: the one that was to be loaded before its steps. NULL: none is needed. */
static const HwNeedlePick *
find_pick (const HwPlan *self, int group)
{
  for (guint i = 0; i < self->needles->len; i++)
    {
      const HwNeedlePick *pick = g_ptr_array_index (self->needles, i);

      if (pick->group == group && pick->from_piece == 0 && !pick->mid_row)
        return pick;
    }
  return NULL;
}

/* (transfer full) (nullable) */
static HwJournalEntry *
imply_load (const HwPlan *self, const HwPlanStep *step, const HwJournalEntry *sewing)
{
  const HwGroup *group = hw_plan_get_group (self, step->group);
  const HwNeedle *there = group != NULL ? hw_room_get_state (self->room, group->machine)->needle : NULL;
  HwJournalEntry *load;

  if (group == NULL || group->size_nm <= 0 || (there != NULL && hw_plan_is_needle_of (self, there, group)))
    return NULL;
  load = hw_plan_entry_for_load (self, group, find_pick (self, step->group));
  g_free (load->time);
  load->time = g_strdup (sewing->time);
  return load;
}

GPtrArray *
hw_plan_entries_for_step (const HwPlan *self, const char *number, double actual_minutes)
{
  GPtrArray *entries = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);
  HwJournalEntry *sewing = hw_plan_entry_for_step (self, number, actual_minutes);
  HwJournalEntry *load = imply_load (self, hw_plan_find_step (self, number), sewing);

  if (load != NULL)
    {
      g_ptr_array_add (entries, load);
      g_free (sewing->needle);
      sewing->needle = g_strdup (load->needle);
    }
  g_ptr_array_add (entries, sewing);
  return entries;
}

static gboolean
came_with (const HwJournalEntry *load, const HwJournalEntry *sewing)
{
  return load->kind == HW_ENTRY_LOAD && g_strcmp0 (load->needle, sewing->needle) == 0
         && strcmp (load->time, sewing->time) == 0;
}

/* The load noted with @sewing, when nothing was sewn or loaded on that machine since; NULL otherwise. */
static const HwJournalEntry *
find_implied (const HwRoom *room, const HwJournalEntry *sewing)
{
  for (guint i = room->entries->len; i-- > 0;)
    {
      const HwJournalEntry *entry = g_ptr_array_index (room->entries, i);

      if (entry == sewing || (entry->kind != HW_ENTRY_SEWING && entry->kind != HW_ENTRY_LOAD)
          || strcmp (entry->machine, sewing->machine) != 0 || g_hash_table_contains (room->cancelled, entry->id))
        continue;
      return came_with (entry, sewing) ? entry : NULL;
    }
  return NULL;
}

GPtrArray *
hw_plan_entries_to_unmark (const HwPlan *self, const char *number)
{
  const HwJournalEntry *sewing = hw_room_step_done (self->room, self->project->id, number);
  const HwJournalEntry *load;
  GPtrArray *entries;

  g_return_val_if_fail (sewing != NULL, NULL);

  entries = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);
  load = find_implied (self->room, sewing);
  g_ptr_array_add (entries, hw_journal_entry_new_cancel (sewing->machine, sewing->id));
  if (load != NULL)
    g_ptr_array_add (entries, hw_journal_entry_new_cancel (load->machine, load->id));
  return entries;
}
