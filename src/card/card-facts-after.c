/* card-facts-after.c - what one card says: what comes when its set-up is left
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>

#include "words/words.h"

#define keep hw_card_facts_keep

/* Where a set-up is left: the last row there, the last operation, and the one that comes next, NULL none. */
typedef struct { const HwPlanStep *row, *last, *next; } Leaving;

static const HwPlanStep *
get_row (const HwPlan *plan,
         const GArray *rows,
         guint         row)
{
  return &g_array_index (plan->order, HwPlanStep, g_array_index (rows, guint, row));
}

/* After each run of rows that ends on the card. */
static GArray *
list_leavings (const HwPlan *plan,
               const GArray *rows,
               HwCardPart    part)
{
  GArray           *leavings = g_array_new (FALSE, FALSE, sizeof (Leaving));
  const HwPlanStep *last = NULL;

  for (guint i = 0; i < part.from + part.n; i++)
    {
      const HwPlanStep *row = get_row (plan, rows, i);
      Leaving           leaving = { row, NULL, NULL };

      if (row->group >= 0)
        last = row;
      if (i < part.from || !hw_card_is_run_end (rows, i))
        continue;
      leaving.last = last;
      leaving.next = hw_card_find_next_operation (plan, g_array_index (rows, guint, i) + 1);
      g_array_append_val (leavings, leaving);
    }
  return leavings;
}

/* In full when the card is left once; short and shorter the more often it is. */
static char *
describe_next (const HwPlan  *plan,
               const Leaving *leaving,
               guint          n_parts,
               gboolean       is_short)
{
  const char *letter = hw_plan_get_group (plan, leaving->next->group)->letter;
  const char *number = hw_project_get_step (plan->project, leaving->next->step)->number;
  const char *last_number = hw_project_get_step (plan->project, leaving->row->step)->number;
  g_autofree char *change = NULL;

  if (n_parts > 2)
    /* Translators: step numbers round a set-up's letter: “after 9b set-up B (step 10a)” */
    return g_strdup_printf (_("after %s set-up %s (step %s)"), last_number, letter, number);
  if (n_parts == 2)
    return g_strdup_printf (_("After step %s: set-up %s for step %s."), last_number, letter, number);
  if (is_short)
    return g_strdup_printf (_("Set-up %s for step %s."), letter, number);
  change = hw_words_change (plan, leaving->next, leaving->last);
  return g_strdup_printf (_("Set-up %s for step %s. %s."), letter, number, change);
}

static char *
describe_after (const HwCardFacts *self,
                const HwPlan      *plan,
                const GArray      *leavings,
                gboolean           is_short)
{
  g_autoptr (GString) text = g_string_new (NULL);
  guint               n_parts = leavings->len + (self->goes_on != NULL ? 1 : 0);

  for (guint i = 0; i < leavings->len; i++)
    {
      const Leaving   *leaving = &g_array_index (leavings, Leaving, i);
      g_autofree char *part = NULL;

      if (leaving->next != NULL)
        part = describe_next (plan, leaving, n_parts, is_short);
      else
        part = g_strdup (_("No further set-up: the machine work is done."));
      g_string_append_printf (text, "%s%s", i == 0 ? "" : n_parts > 2 ? C_("list of choices", "; ") : " ", part);
    }
  if (self->goes_on != NULL)
    g_string_append_printf (text, "%s%s", leavings->len == 0 ? "" : n_parts > 2 ? ". " : " ", self->goes_on);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* A set-up may be left and come back to: each time it is left, the card says what follows. */
void
hw_card_facts_add_after (HwCardFacts  *self,
                         const HwPlan *plan,
                         const GArray *rows,
                         HwCardPart    part)
{
  g_autoptr (GArray) leavings = list_leavings (plan, rows, part);

  self->after = keep (self, describe_after (self, plan, leavings, FALSE));
  self->after_short = keep (self, describe_after (self, plan, leavings, TRUE));
}
