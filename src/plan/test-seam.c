/* test-seam.c - a test seam on a scrap: what to record of it, and the dial to try next
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/test-seam.h"

#include <string.h>

const HwSetup *
hw_plan_find_test_setup (const HwPlan *plan, const char *number)
{
  int step = hw_project_find_step (plan->project, number);
  const HwSetup *setup = step >= 0 ? plan->setups[step] : NULL;

  return setup != NULL && setup->machine->kind == HW_MACHINE_LOCKSTITCH ? setup : NULL;
}

/* "cotton twill, interfacing": names for people, each once. */
static char *
name_cloths (const HwPlan *plan, const HwStep *step)
{
  g_autoptr (GString) names = g_string_new (NULL);

  for (gsize i = 0; i < step->n_plies; i++)
    for (guint k = 0; k < plan->project->fabrics->len; k++)
      {
        const HwProjectFabric *fabric = g_ptr_array_index (plan->project->fabrics, k);

        if (strcmp (fabric->id, step->plies[i].fabric) == 0 && strstr (names->str, fabric->name) == NULL)
          g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "", fabric->name);
      }
  return names->len > 0 ? g_string_free (g_steal_pointer (&names), FALSE) : NULL;
}

HwJournalEntry *
hw_plan_entry_for_test_seam (const HwPlan *plan, const HwSetup *setup, double dial, HwVerdict verdict)
{
  HwTestSeam seam = { setup->tension, dial, verdict };
  HwJournalEntry *entry = hw_journal_entry_new (HW_ENTRY_TEST_SEAM, setup->machine->id);

  entry->project = g_strdup (plan->project->id);
  entry->step = g_strdup (setup->step->number);
  entry->cloth = name_cloths (plan, setup->step);
  hw_test_seam_write (&seam, entry);
  return entry;
}

const HwJournalEntry *
hw_plan_find_test_seam (const HwPlan *plan, const HwSetup *setup)
{
  g_autofree char *cloth = name_cloths (plan, setup->step);

  for (guint i = plan->room->entries->len; i > 0; i--)
    {
      const HwJournalEntry *entry = g_ptr_array_index (plan->room->entries, i - 1);

      if (entry->kind == HW_ENTRY_TEST_SEAM && g_strcmp0 (entry->machine, setup->machine->id) == 0
          && g_strcmp0 (entry->project, plan->project->id) == 0 && g_strcmp0 (entry->step, setup->step->number) == 0
          && g_strcmp0 (entry->cloth, cloth) == 0 && !g_hash_table_contains (plan->room->cancelled, entry->id))
        return entry;
    }
  return NULL;
}

/* The first scrap of a machine speaks alone: by the prior it may point further than the half number that every card
 * prints for it, but nobody can tell a beginner why. What is learned goes beyond it when scraps agree. */
static double
find_next (const HwTensionBelief *belief, const HwTestSeam *seam)
{
  double next = hw_tension_belief_next (belief, &seam->facts, seam->dial, seam->verdict);

  if (!hw_tension_belief_is_first_fault (belief))
    return next;
  return CLAMP (next, hw_dial_half_step (seam->dial) - HW_FIRST_STEP, hw_dial_half_step (seam->dial) + HW_FIRST_STEP);
}

double
hw_plan_next_dial (const HwPlan *plan, const HwSetup *setup, double dial, HwVerdict verdict, gboolean recorded)
{
  const HwTensionPrior *prior = &plan->handbook->tension;
  HwTestSeam seam = { setup->tension, dial, verdict };
  g_autoptr (HwTensionBelief) with = NULL;

  if (recorded)
    return find_next (hw_room_get_belief (plan->room, setup->machine, prior), &seam);
  with = hw_room_belief_with (plan->room, setup->machine, prior, &seam);
  return find_next (with, &seam);
}
