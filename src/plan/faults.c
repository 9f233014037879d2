/* faults.c - tracing a stitch fault: chances and the order of the checks
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/faults-private.h"

#include <math.h>
#include <string.h>

#define FOUND "found"
#define NOT_FOUND "not-found"

/* ---- chances ---- */

static const HwClueEntry *
find_clue (const HwHandbook *handbook,
           HwClue            clue)
{
  for (gsize i = 0; i < handbook->n_clues; i++)
    if (handbook->clues[i].clue == clue)
      return &handbook->clues[i];
  return NULL;
}

/* By the same ratio for the same way: half way between clear and limit is their geometric mean. */
static double
weigh_clue (const HwClueEntry *entry,
            double             share)
{
  if (entry == NULL || isnan (share))
    return 1;
  return MIN (entry->most, entry->clear * pow (entry->at_limit / entry->clear, MAX (0, share)));
}

static gboolean
names_fault (const HwFaultScene   *scene,
             const HwJournalEntry *entry,
             const HwFault        *fault)
{
  return entry->kind == HW_ENTRY_FAULT && g_strcmp0 (entry->fault, fault->entry.id) == 0
         && strcmp (entry->machine, scene->machine->id) == 0 && g_strcmp0 (entry->verdict, FOUND) == 0
         && hw_fault_is_live (scene->room, entry);
}

/* How often this machine's journal found @cause (NULL: any that the handbook still has) behind @fault. */
static int
count_found (const HwFaultScene *scene,
             const HwFault      *fault,
             const HwCause      *cause)
{
  int n = 0;

  for (guint i = 0; i < scene->room->entries->len; i++)
    {
      const HwJournalEntry *entry = g_ptr_array_index (scene->room->entries, i);

      if (names_fault (scene, entry, fault)
          && (cause != NULL ? g_strcmp0 (entry->cause, cause->id) == 0
                            : hw_fault_find_cause (fault, entry->cause) != NULL))
        n++;
    }
  return n;
}

static HwFaultCheck
weigh_cause (const HwFaultScene *scene,
             const HwFault      *fault,
             const HwCause      *cause)
{
  HwClueFact   fact = hw_fault_clue_fact (scene, cause);
  HwFaultCheck check = {
    .cause = cause,
    .prior = cause->weight / 100,
    .minutes = cause->minutes,
    .clue = weigh_clue (find_clue (scene->handbook, cause->clue), fact.share),
    .found = count_found (scene, fault, cause),
    .fact = fact.kind,
    .clue_value = fact.value,
    .clue_limit = fact.limit,
    .clue_care = fact.care,
  };

  check.history = (HW_FAULT_PRIOR_CASES + check.found / check.prior)
                  / (HW_FAULT_PRIOR_CASES + count_found (scene, fault, NULL));
  check.chance = check.prior * check.clue * check.history;
  return check;
}

static void
normalise (GArray *checks)
{
  double sum = 0;

  for (guint i = 0; i < checks->len; i++)
    sum += g_array_index (checks, HwFaultCheck, i).chance;
  for (guint i = 0; i < checks->len; i++)
    g_array_index (checks, HwFaultCheck, i).chance /= sum;
}

/* ---- order ---- */

/* Falling chance / minutes, compared without division; equal ones in the handbook's order, in which causes lie one
 * behind the other in memory. */
static int
compare_checks (const void *a,
                const void *b)
{
  const HwFaultCheck *first = a;
  const HwFaultCheck *second = b;
  double              left = first->chance * second->minutes;
  double              right = second->chance * first->minutes;

  if (fabs (left - right) > 1e-12 * MAX (left, right))
    return left > right ? -1 : 1;
  return first->cause < second->cause ? -1 : first->cause > second->cause ? 1 : 0;
}

double
hw_fault_expected_minutes (const HwFaultCheck *checks,
                           gsize               n_checks,
                           const gsize        *order)
{
  double minutes = 0;
  double expected = 0;

  for (gsize i = 0; i < n_checks; i++)
    {
      const HwFaultCheck *check = &checks[order != NULL ? order[i] : i];

      minutes += check->minutes;
      expected += check->chance * minutes;
    }
  return expected;
}

/* ---- the search ---- */

const HwCause *
hw_fault_find_cause (const HwFault *fault,
                     const char    *id)
{
  for (gsize i = 0; i < fault->n_causes; i++)
    if (g_strcmp0 (fault->causes[i].id, id) == 0)
      return &fault->causes[i];
  return NULL;
}

HwFaultSearch *
hw_fault_search_new (const HwHandbook   *handbook,
                     const HwRoom       *room,
                     const HwMachine    *machine,
                     const HwSetup      *setup,
                     const HwFault      *fault,
                     const char * const *ruled_out,
                     const char         *now_iso)
{
  const HwFaultScene scene = { handbook, room, machine, setup, hw_room_get_state (room, machine), now_iso };
  HwFaultSearch     *self;

  g_return_val_if_fail (fault != NULL && scene.state != NULL, NULL);

  self = g_new0 (HwFaultSearch, 1);
  self->fault = fault;
  self->checks = g_array_new (FALSE, FALSE, sizeof (HwFaultCheck));
  for (gsize i = 0; i < fault->n_causes; i++)
    if (ruled_out == NULL || !g_strv_contains (ruled_out, fault->causes[i].id))
      {
        HwFaultCheck check = weigh_cause (&scene, fault, &fault->causes[i]);

        g_array_append_val (self->checks, check);
      }
  if (self->checks->len == 0)
    {
      hw_fault_search_free (self);
      return NULL;
    }
  normalise (self->checks);
  g_array_sort (self->checks, compare_checks);
  self->expected_minutes = hw_fault_expected_minutes ((const HwFaultCheck *) (void *) self->checks->data,
                                                      self->checks->len, NULL);
  return self;
}

void
hw_fault_search_free (HwFaultSearch *self)
{
  if (self == NULL)
    return;
  g_array_unref (self->checks);
  g_free (self);
}

HwJournalEntry *
hw_fault_entry (const HwMachine *machine,
                const HwFault   *fault,
                const HwCause   *cause,
                const char      *project,
                const char      *step)
{
  HwJournalEntry *entry = hw_journal_entry_new (HW_ENTRY_FAULT, machine->id);

  entry->project = g_strdup (project);
  entry->step = g_strdup (step);
  entry->fault = g_strdup (fault->entry.id);
  entry->cause = cause != NULL ? g_strdup (cause->id) : NULL;
  entry->verdict = g_strdup (cause != NULL ? FOUND : NOT_FOUND);
  return entry;
}
