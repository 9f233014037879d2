/* card-facts-steps.c - what one card says: its list of steps
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "words/words.h"

#define keep hw_card_facts_keep

static const HwField soft_fields[HW_N_SOFT] = { HW_FIELD_LENGTH, HW_FIELD_WIDTH, HW_FIELD_PRESSURE, HW_FIELD_DIAL,
                                                HW_FIELD_ALLOWANCE };

/* ---- the list of a set-up ---- */

const HwPlanStep *
hw_card_find_next_operation (const HwPlan *plan,
                             guint         from)
{
  for (guint i = from; i < plan->order->len; i++)
    if (g_array_index (plan->order, HwPlanStep, i).group >= 0)
      return &g_array_index (plan->order, HwPlanStep, i);
  return NULL;
}

GArray *
hw_card_list_rows (const HwPlan *plan,
                   int           group_index)
{
  const HwPlanStep *first = hw_card_find_next_operation (plan, 0);
  GArray           *rows = g_array_new (FALSE, FALSE, sizeof (guint));
  int               group = first != NULL ? first->group : -1;

  for (guint i = 0; i < plan->order->len; i++)
    {
      const HwPlanStep *planned = &g_array_index (plan->order, HwPlanStep, i);

      if (planned->group >= 0)
        group = planned->group;
      if (group == group_index)
        g_array_append_val (rows, i);
    }
  return rows;
}

gboolean
hw_card_is_run_end (const GArray *rows,
                    guint         row)
{
  return row + 1 == rows->len || g_array_index (rows, guint, row + 1) != g_array_index (rows, guint, row) + 1;
}

/* ---- one row ---- */

static void
set_soft (HwCardFacts   *self,
          const HwSetup *setup,
          HwCardStep    *step)
{
  for (int soft = 0; soft < HW_N_SOFT; soft++)
    if (setup->values[soft_fields[soft]].applies)
      step->soft[soft] = setup->values[soft_fields[soft]].value;
  step->from = setup->line_from;
  if (setup->values[HW_FIELD_ALLOWANCE].applies)
    step->edge = keep (self, hw_words_number (step->soft[HW_SOFT_LINE], 2));
}

HwCardStep
hw_card_facts_make_step (HwCardFacts      *self,
                         const HwPlan     *plan,
                         const HwPlanStep *planned)
{
  const HwStep *step = hw_project_get_step (plan->project, planned->step);
  HwCardStep    made = { .index = planned->step, .number = step->number, .length = "", .edge = "",
                         .note = step->note, .done = planned->done && !self->is_unsewn,
                         .by_hand = planned->group < 0 };

  made.name = keep (self, hw_words_title (step->name));
  if (made.by_hand)
    return made;
  made.length = keep (self, hw_words_sewn_length (step));
  set_soft (self, plan->setups[planned->step], &made);
  return made;
}

/* Where a later step is set otherwise, the large values say whose they are. */
static void
add_stitch_label (HwCardFacts *self)
{
  self->stitch_label = _("Stitch");
  /* Translators: a heading, then the step it is for: “Stitch, step 3” */
  if (self->soft_differs[HW_SOFT_LENGTH] || self->soft_differs[HW_SOFT_WIDTH])
    self->stitch_label = keep (self, g_strdup_printf (_("%s, step %s"), _("Stitch"), self->first.number));
}

/* ---- all of it ---- */

/* Where the set-up is left after this row, to be come back to: what is sewn meanwhile. After the last row the card has
 * words of its own for what comes next. */
static void
add_leaving (HwCardFacts      *self,
             HwCardStep       *step,
             const HwPlan     *plan,
             const HwPlanStep *next)
{
  const char *number = hw_project_get_step (plan->project, next->step)->number;

  step->then = hw_plan_get_group (plan, next->group)->letter;
  /* Translators: in the list of a set-up: the letter of another one, the step that is sewn with it */
  step->then_text = keep (self, g_strdup_printf (_("Now set-up %s, step %s; then on here"), step->then, number));
}

static void
add_row (HwCardFacts  *self,
         const HwPlan *plan,
         const GArray *rows,
         guint         row,
         gboolean      is_last)
{
  guint             place = g_array_index (rows, guint, row);
  const HwPlanStep *planned = &g_array_index (plan->order, HwPlanStep, place);
  HwCardStep        step = hw_card_facts_make_step (self, plan, planned);

  if (!is_last && hw_card_is_run_end (rows, row))
    add_leaving (self, &step, plan, hw_card_find_next_operation (plan, place + 1));
  if (step.by_hand)
    self->has_hand = TRUE;
  for (int soft = 0; soft < HW_N_SOFT && !step.by_hand; soft++)
    if (hw_card_steps_differ (&step, &self->first, soft))
      self->soft_differs[soft] = TRUE;
  g_array_append_val (self->rows, step);
}

static const char *
name_line (HwLineFrom from)
{
  static const char * const names[HW_N_LINES_FROM] = {
    [HW_FROM_EDGE] = N_("from edge"),
    [HW_FROM_FOLD] = N_("from fold"),
    [HW_FROM_SEAM] = N_("from seam"),
    [HW_FROM_CENTRE_FRONT] = N_("from centre"),
  };

  return _(names[from]);
}

static const char *
say_line (HwCardFacts      *self,
          const HwCardStep *step)
{
  switch (step->from)
    {
    case HW_FROM_FOLD:
      /* Translators: in a narrow column headed “from edge”: millimetres that are measured from elsewhere, the number
       * first so that nobody reads of a fold so deep; so below */
      return keep (self, g_strdup_printf (_("%s, fold"), step->edge));
    case HW_FROM_SEAM:
      return keep (self, g_strdup_printf (_("%s, seam"), step->edge));
    case HW_FROM_CENTRE_FRONT:
      return keep (self, g_strdup_printf (_("%s, centre"), step->edge));
    case HW_FROM_EDGE:
    case HW_N_LINES_FROM:
    default:
      return step->edge;
    }
}

/* What the lines are measured from stands over them where it is the same for all, else with each that is not measured
 * from the edge. */
static void
label_lines (HwCardFacts *self)
{
  HwLineFrom from = HW_N_LINES_FROM;
  gboolean   mixed = FALSE;

  for (guint i = 0; i < self->rows->len; i++)
    {
      const HwCardStep *step = &g_array_index (self->rows, HwCardStep, i);

      if (step->edge[0] == '\0')
        continue;
      mixed = mixed || (from != HW_N_LINES_FROM && step->from != from);
      from = step->from;
    }
  self->line_label = name_line (mixed || from == HW_N_LINES_FROM ? HW_FROM_EDGE : from);
  for (guint i = 0; i < self->rows->len && mixed; i++)
    {
      HwCardStep *step = &g_array_index (self->rows, HwCardStep, i);

      if (step->edge[0] != '\0')
        step->edge = say_line (self, step);
    }
}

static void
add_steps (HwCardFacts *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    if (!g_array_index (self->rows, HwCardStep, i).by_hand)
      g_array_append_val (self->steps, g_array_index (self->rows, HwCardStep, i));
}

/* Nobody needs advice for what is sewn; where all on the card is, it stays as it was. */
static void
add_told (HwCardFacts *self)
{
  gboolean is_sewn = TRUE;

  for (guint i = 0; i < self->rows->len; i++)
    {
      const HwCardStep *step = &g_array_index (self->rows, HwCardStep, i);

      is_sewn = is_sewn && (step->by_hand || step->done);
    }
  for (guint i = 0; i < self->rows->len; i++)
    {
      const HwCardStep *step = &g_array_index (self->rows, HwCardStep, i);

      if (!step->by_hand && (is_sewn || !step->done))
        g_array_append_val (self->told, step->index);
    }
  if (self->told->len == 0)
    g_array_append_val (self->told, self->first.index);
}

void
hw_card_facts_add_rows (HwCardFacts  *self,
                        const HwPlan *plan,
                        const GArray *rows,
                        HwCardPart    part)
{
  for (guint i = part.from; i < part.from + part.n; i++)
    add_row (self, plan, rows, i, i + 1 == part.from + part.n);
  add_told (self);
  hw_card_facts_add_changes (self, plan, rows, part);
  hw_card_facts_add_cloths (self, plan);
  label_lines (self);
  add_steps (self);
  add_stitch_label (self);
  hw_card_facts_add_likely (self, plan);
}
