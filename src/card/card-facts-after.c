/* card-facts-after.c - what one card says: what comes when its set-up is left
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>

#include "words/words.h"

#define keep hw_card_facts_keep

static const HwPlanStep *
get_row (const HwPlan *plan,
         const GArray *rows,
         guint         row)
{
  return &g_array_index (plan->order, HwPlanStep, g_array_index (rows, guint, row));
}

/* The last operation up to @row; NULL: only hand steps. */
static const HwPlanStep *
find_last_operation (const HwPlan *plan,
                     const GArray *rows,
                     guint         row)
{
  for (guint i = row + 1; i > 0; i--)
    if (get_row (plan, rows, i - 1)->group >= 0)
      return get_row (plan, rows, i - 1);
  return NULL;
}

static char *
describe_next (const HwPlan     *plan,
               const HwPlanStep *next,
               const HwPlanStep *last,
               gboolean          is_short)
{
  const char *letter = hw_plan_get_group (plan, next->group)->letter;
  const char *number = hw_project_get_step (plan->project, next->step)->number;
  g_autofree char *change = NULL;

  if (is_short)
    return g_strdup_printf (_("Set-up %s for step %s."), letter, number);
  change = hw_words_change (plan, next, last);
  return g_strdup_printf (_("Set-up %s for step %s. %s."), letter, number, change);
}

/* When the last row of the card is done. */
static char *
describe_after (const HwCardFacts *self,
                const HwPlan      *plan,
                const GArray      *rows,
                HwCardPart         part,
                gboolean           is_short)
{
  guint             last = part.from + part.n - 1;
  const HwPlanStep *next;
  g_autofree char  *text = NULL;

  if (part.n == 0 || !hw_card_is_run_end (rows, last))
    return g_strdup (self->goes_on);
  next = hw_card_find_next_operation (plan, g_array_index (rows, guint, last) + 1);
  if (next == NULL)
    return g_strdup (_("No further set-up: the machine work is done."));
  text = describe_next (plan, next, find_last_operation (plan, rows, last), is_short);
  return self->goes_on != NULL ? g_strdup_printf ("%s %s", text, self->goes_on) : g_steal_pointer (&text);
}

/* Where the set-up is left before, the list itself says so. */
void
hw_card_facts_add_after (HwCardFacts  *self,
                         const HwPlan *plan,
                         const GArray *rows,
                         HwCardPart    part)
{
  self->after = keep (self, describe_after (self, plan, rows, part, FALSE));
  self->after_short = keep (self, describe_after (self, plan, rows, part, TRUE));
}
