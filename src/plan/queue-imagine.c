/* queue-imagine.c - the journal as it will be when a plan is sewn
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The same entries that the person's marks would make, with ids and times that follow from the plan alone.
 */

#include "config.h"

#include "plan/calendar.h"
#include "plan/queue-private.h"

#define HARD_CHANGES (~(guint) (HW_CHANGE_MACHINE | HW_CHANGE_SOFT))

typedef struct
{
  const HwPlan *plan;
  GPtrArray    *entries;
  GHashTable   *in_machine;          /* machine -> id of the needle in it; missing: none known */
  char        **picked;              /* [needles] id of each pick's needle */
  guint         n;                   /* entries made so far */
} Imagination;

static void
replace (char **text, char *with)    /* @with: (transfer full) (nullable) */
{
  g_free (*text);
  *text = with;
}

static void
take_entry (Imagination *self, HwJournalEntry *entry, const HwPlanStep *step)
{
  const HwPlan *plan = self->plan;
  gint64 seconds = hw_calendar_seconds (plan->room->preferences->hours_a_week, plan->from_hours + step->starts_hours);

  replace (&entry->id, g_strdup_printf ("planned %s %u", plan->project->id, ++self->n));
  replace (&entry->time, hw_calendar_time (plan->from, seconds));
  g_ptr_array_add (self->entries, entry);
}

static const char *
get_needle (const Imagination *self, const HwMachine *machine)
{
  return g_hash_table_lookup (self->in_machine, machine);
}

static void
add_care (Imagination *self, const HwPlanStep *step, const HwMachine *machine)
{
  for (gsize care = 0; care < MIN (self->plan->handbook->n_care, HW_CARE_MAX); care++)
    if ((step->care_due >> care) & 1)
      {
        HwJournalEntry *entry = hw_journal_entry_new (HW_ENTRY_CARE, machine->id);

        entry->task = g_strdup (self->plan->handbook->care[care].entry.id);
        take_entry (self, entry, step);
      }
}

static const char *
name_pick (Imagination *self, guint index)
{
  const HwNeedlePick *pick = g_ptr_array_index (self->plan->needles, index);

  if (pick->worn != NULL)
    return pick->worn->id;
  if (pick->again >= 0)
    return self->picked[pick->again];
  if (self->picked[index] == NULL)
    self->picked[index] = g_strdup_printf ("planned %s needle %u", self->plan->project->id, index);
  return self->picked[index];
}

/* @pick: index; -1: the needle stays, the rest is changed. */
static void
add_load (Imagination *self, const HwPlanStep *step, int pick)
{
  const HwGroup *group = hw_plan_get_group (self->plan, step->group);
  const HwNeedlePick *picked = pick >= 0 ? g_ptr_array_index (self->plan->needles, (guint) pick) : NULL;
  HwJournalEntry *entry = hw_plan_entry_for_load (self->plan, group, picked);

  if (picked != NULL)
    {
      const char *needle = name_pick (self, (guint) pick);

      g_hash_table_replace (self->in_machine, (gpointer) group->machine, g_strdup (needle));
      replace (&entry->verdict, picked->discards ? g_strdup ("discarded") : NULL);
    }
  else if (get_needle (self, group->machine) == NULL)
    g_hash_table_replace (self->in_machine, (gpointer) group->machine,
                          g_strdup_printf ("planned %s kept on %s", self->plan->project->id, group->machine->id));
  replace (&entry->needle, g_strdup (get_needle (self, group->machine)));
  take_entry (self, entry, step);
}

/* @share of the step's minutes; the last part alone marks the step as done. */
static void
add_sewing (Imagination *self, const HwPlanStep *step, double share, gboolean last)
{
  const HwStep *own = hw_project_get_step (self->plan->project, step->step);
  const HwSetup *setup = self->plan->setups[step->step];
  HwJournalEntry *entry = hw_plan_entry_for_step (self->plan, own->number, 0);

  entry->minutes *= share;
  entry->running *= share;
  replace (&entry->needle, setup != NULL ? g_strdup (get_needle (self, setup->machine)) : NULL);
  if (!last)
    replace (&entry->step, NULL);
  take_entry (self, entry, step);
}

/* Where in the step the needle of @pick is put in, as a share of it. */
static double
find_share (const HwPlanStep *step, const HwSetup *setup, const HwNeedlePick *pick, int nth)
{
  return pick->mid_row ? (double) nth / step->needles : (double) pick->from_piece / MAX (setup->step->pieces, 1);
}

static void
add_operation (Imagination *self, const HwPlanStep *step, const HwSetup *setup, int place)
{
  double sewn = 0;
  int nth = 0;
  gboolean loaded = FALSE;

  add_care (self, step, setup->machine);
  for (guint i = 0; i < self->plan->needles->len; i++)
    {
      const HwNeedlePick *pick = g_ptr_array_index (self->plan->needles, i);

      if (pick->before != place)
        continue;
      if (pick->from_piece > 0 || pick->mid_row)
        {
          double share = find_share (step, setup, pick, ++nth);

          add_sewing (self, step, share - sewn, FALSE);
          sewn = share;
        }
      add_load (self, step, (int) i);
      loaded = TRUE;
    }
  if (!loaded && (step->changes & HARD_CHANGES) != 0)
    add_load (self, step, -1);
  add_sewing (self, step, 1 - sewn, TRUE);
}

static void
note_needles (Imagination *self)
{
  const HwRoom *room = self->plan->room;

  for (guint i = 0; i < room->machines->len; i++)
    {
      const HwMachine *machine = g_ptr_array_index (room->machines, i);
      const HwNeedle *needle = hw_room_get_state (room, machine)->needle;

      if (needle != NULL)
        g_hash_table_insert (self->in_machine, (gpointer) machine, g_strdup (needle->id));
    }
}

GPtrArray *
hw_queue_imagine (const HwPlan *plan)
{
  GPtrArray *entries = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);
  g_autoptr (GHashTable) in_machine = g_hash_table_new_full (NULL, NULL, NULL, g_free);
  g_autofree char **picked = g_new0 (char *, plan->needles->len + 1);
  Imagination self = { plan, entries, in_machine, picked, 0 };

  note_needles (&self);
  for (guint i = 0; i < plan->room->entries->len; i++)
    g_ptr_array_add (entries, hw_journal_entry_ref (g_ptr_array_index (plan->room->entries, i)));
  for (gsize i = 0; i < plan->order->len; i++)
    {
      const HwPlanStep *step = hw_plan_step_at (plan, i);
      const HwSetup *setup = plan->setups[step->step];

      if (step->done)
        continue;
      if (setup != NULL)
        add_operation (&self, step, setup, (int) i);
      else
        add_sewing (&self, step, 1, TRUE);
    }
  for (guint i = 0; i < plan->needles->len; i++)
    g_free (picked[i]);
  return entries;
}
