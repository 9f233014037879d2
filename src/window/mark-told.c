/* mark-told.c - what is told of a step that was just marked as done, or is open again
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/mark-told.h"

#include <glib/gi18n.h>
#include <math.h>

#include "model/journal.h"
#include "words/words-room.h"
#include "words/words.h"

/* The steps that it comes after and that are not done: their numbers. (transfer full) */
static GStrv
find_open (const HwPlan *plan,
           const HwStep *step)
{
  g_autoptr (GStrvBuilder) open = g_strv_builder_new ();

  for (char **after = step->after; after != NULL && *after != NULL; after++)
    {
      const HwPlanStep *planned = hw_plan_find_step (plan, *after);

      if (planned != NULL && !planned->done)
        g_strv_builder_add (open, *after);
    }
  return g_strv_builder_end (open);
}

/* (transfer full) (nullable) */
static char *
tell_before (const HwPlan *plan,
             const HwStep *step)
{
  g_auto (GStrv)   open = find_open (plan, step);
  g_autofree char *numbers = g_strjoinv (C_("list", ", "), open);

  if (open[0] == NULL)
    return NULL;
  /* Translators: a step's number; the number of the step, or numbers of the steps, that it comes after */
  return g_strdup_printf (ngettext ("Step %s comes after step %s, which is not done yet.",
                                    "Step %s comes after steps %s, which are not done yet.", g_strv_length (open)),
                          step->number, numbers);
}

static char *
tell_minutes (const HwPlanStep     *planned,
              const HwStep         *step,
              double                clock_minutes,
              const HwJournalEntry *entry)
{
  g_autofree char *noted = hw_words_minutes (entry->minutes);
  g_autofree char *given = hw_words_minutes (planned->minutes);

  if (clock_minutes >= HW_LEAST_TIMED_MINUTES)
    /* Translators: a step's number, its minutes by the timer, the plan's minutes */
    return g_strdup_printf (_("Step %s is noted with %s by the timer; the plan gave it %s."), step->number, noted,
                            given);
  if (clock_minutes > 0)
    /* Translators: a step's number, the plan's minutes, seconds */
    return g_strdup_printf (_("Step %s is noted with %s, as planned; the timer ran only %.0f s."), step->number, noted,
                            MAX (floor (clock_minutes * 60), 1));
  if (step->kind == HW_STEP_HAND)
    /* Translators: a step's number, the plan's minutes */
    return g_strdup_printf (_("Step %s is done: noted with %s, as planned."), step->number, noted);
  return g_strdup_printf (_("Step %s is sewn: noted with %s, as planned."), step->number, noted);
}

/* (transfer full) (nullable) */
static char *
tell_load (const HwPlan         *plan,
           const HwJournalEntry *entry)
{
  g_autofree char *needle = NULL;

  if (entry->kind != HW_ENTRY_LOAD)
    return NULL;
  needle = hw_words_needle_loaded (plan->handbook, entry);
  /* Translators: the needle that a step was sewn with */
  return g_strdup_printf (_("Its needle is noted as loaded: %s."), needle);
}

static void
add_sentence (GString *told,
              char    *sentence)
{
  if (sentence != NULL && told->len > 0)
    g_string_append_c (told, ' ');
  if (sentence != NULL)
    g_string_append (told, sentence);
  g_free (sentence);
}

char *
hw_mark_told (const HwPlan    *plan,
              const char      *number,
              double           clock_minutes,
              const GPtrArray *entries)
{
  const HwPlanStep *planned = hw_plan_find_step (plan, number);
  const HwStep     *step = NULL;
  GString          *told = g_string_new (NULL);

  g_return_val_if_fail (planned != NULL && entries->len > 0, NULL);

  step = hw_project_get_step (plan->project, planned->step);
  add_sentence (told, tell_before (plan, step));
  add_sentence (told, tell_minutes (planned, step, clock_minutes, g_ptr_array_index (entries, entries->len - 1)));
  if (hw_journal_begins_pace (plan->room, g_ptr_array_index (entries, entries->len - 1)))
    add_sentence (told, g_strdup (_("From now on the plan’s times follow your timer.")));
  add_sentence (told, tell_load (plan, g_ptr_array_index (entries, 0)));
  return g_string_free (told, FALSE);
}

char *
hw_mark_told_open (const char           *number,
                   const HwJournalEntry *sewing)
{
  g_autofree char *minutes = NULL;

  g_return_val_if_fail (number != NULL && sewing != NULL, NULL);

  minutes = hw_words_minutes (sewing->minutes);
  /* Translators: a step's number, the minutes that were noted of it */
  return g_strdup_printf (_("Step %s is open again; its %s are taken back."), number, minutes);
}
