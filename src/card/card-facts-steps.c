/* card-facts-steps.c - what one card says: its list of steps, and the soft parts of each
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

/* ---- soft parts ---- */

static char *
describe_soft (HwSoft soft,
               double value)
{
  switch (soft)
    {
    case HW_SOFT_PRESSURE:
      return hw_words_pressure (value);
    case HW_SOFT_DIAL:
      return hw_words_half (value);
    case HW_SOFT_LENGTH:
    case HW_SOFT_WIDTH:
    case HW_SOFT_LINE:
    case HW_N_SOFT:
    default:
      return hw_words_number (value, 2);
    }
}

static char *
describe_soft_in_line (HwSoft      soft,
                       double      value)
{
  gboolean is_mm = soft == HW_SOFT_LENGTH || soft == HW_SOFT_WIDTH || soft == HW_SOFT_LINE;
  g_autofree char *text = is_mm ? hw_words_mm (value) : describe_soft (soft, value);

  switch (soft)
    {
    case HW_SOFT_WIDTH:
      return g_strdup_printf (_("width %s"), text);
    case HW_SOFT_PRESSURE:
      return g_strdup_printf (_("pressure %s"), text);
    case HW_SOFT_DIAL:
      return g_strdup_printf (_("dial %s"), text);
    case HW_SOFT_LINE:
      return g_strdup_printf (_("%s from the edge"), text);
    case HW_SOFT_LENGTH:
    case HW_N_SOFT:
    default:
      return g_strdup_printf (_("length %s"), text);
    }
}

/* A buttonhole is 6 cm, not 0.06 m. */
static char *
describe_length (double length_cm)
{
  if (length_cm >= 100)
    return hw_words_metres (length_cm / 100);
  return hw_words_cm (length_cm, length_cm < 10 ? 1 : 0);
}

static void
set_soft (HwCardFacts   *self,
          const HwSetup *setup,
          HwCardStep    *step)
{
  step->length = keep (self, describe_length (setup->step->length_cm));
  for (int soft = 0; soft < HW_N_SOFT; soft++)
    {
      const HwValue *value = &setup->values[soft_fields[soft]];

      if (!value->applies)
        continue;
      step->soft[soft] = value->value;
      step->soft_text[soft] = keep (self, describe_soft ((HwSoft) soft, value->value));
    }
}

static HwCardStep
make_step (HwCardFacts      *self,
           const HwPlan     *plan,
           const HwPlanStep *planned)
{
  const HwStep *step = hw_project_get_step (plan->project, planned->step);
  HwCardStep    made = { .index = planned->step, .number = step->number, .name = step->name, .length = "",
                         .done = planned->done, .by_hand = planned->group < 0, .soft_short = "" };

  for (int soft = 0; soft < HW_N_SOFT; soft++)
    made.soft_text[soft] = "";
  if (!made.by_hand)
    set_soft (self, plan->setups[planned->step], &made);
  return made;
}

/* From the set-up's first step. */
static void
note_differences (HwCardFacts *self,
                  HwCardStep  *step)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (int soft = 0; soft < HW_N_SOFT; soft++)
    if (fabs (step->soft[soft] - self->first.soft[soft]) > 1e-6)
      {
        g_autofree char *part = describe_soft_in_line ((HwSoft) soft, step->soft[soft]);

        self->soft_differs[soft] = TRUE;
        self->any_soft = TRUE;
        g_string_append_printf (text, "%s%s", text->len > 0 ? C_("list", ", ") : "", part);
      }
  step->soft_short = keep (self, g_string_free (g_steal_pointer (&text), FALSE));
}

/* Where a later step is set otherwise, the large values say whose they are. */
static void
add_labels (HwCardFacts *self)
{
  const char *first = self->first.number;
  const char *dial = self->n_dials > 1 ? _("Tension dials") : _("Needle thread tension");
  const char *stitch = _("Stitch");

  self->stitch_label = stitch;
  self->dial_label = dial;
  self->dial_label_short = dial;
  /* Translators: a heading, then the step it is for: “Stitch, step 3” */
  if (self->soft_differs[HW_SOFT_LENGTH] || self->soft_differs[HW_SOFT_WIDTH])
    self->stitch_label = keep (self, g_strdup_printf (_("%s, step %s"), stitch, first));
  if (self->soft_differs[HW_SOFT_DIAL])
    {
      self->dial_label = keep (self, g_strdup_printf (_("%s, step %s"), dial, first));
      self->dial_label_short = keep (self, g_strdup_printf (_("%s, step %s"), _("Tension"), first));
    }
}

static gboolean
has_same_soft (const HwCardStep *a,
               const HwCardStep *b)
{
  for (int soft = 0; soft < HW_N_SOFT; soft++)
    if (fabs (a->soft[soft] - b->soft[soft]) > 1e-6)
      return FALSE;
  return TRUE;
}

/* One row for each combination, naming its steps. */
static void
add_soft_rows (HwCardFacts *self)
{
  for (guint i = 0; i < self->steps->len; i++)
    {
      const HwCardStep *step = &g_array_index (self->steps, HwCardStep, i);
      g_autoptr (GString) numbers = g_string_new (NULL);
      HwCardSoftRow row = { 0 };
      gboolean seen = FALSE;

      for (guint j = 0; j < self->steps->len && !seen; j++)
        {
          const HwCardStep *other = &g_array_index (self->steps, HwCardStep, j);

          if (!has_same_soft (step, other))
            continue;
          seen = j < i;
          g_string_append_printf (numbers, "%s%s", numbers->len > 0 ? " " : "", other->number);
        }
      if (seen)
        continue;
      row.steps = keep (self, g_string_free (g_steal_pointer (&numbers), FALSE));
      for (int soft = 0; soft < HW_N_SOFT; soft++)
        row.soft_text[soft] = step->soft_text[soft];
      g_array_append_val (self->soft_rows, row);
    }
}

/* ---- all of it ---- */

static void
add_row (HwCardFacts  *self,
         const HwPlan *plan,
         const GArray *rows,
         guint         row)
{
  guint             place = g_array_index (rows, guint, row);
  const HwPlanStep *planned = &g_array_index (plan->order, HwPlanStep, place);
  const HwPlanStep *next = hw_card_is_run_end (rows, row) ? hw_card_find_next_operation (plan, place + 1) : NULL;
  HwCardStep        step = make_step (self, plan, planned);

  if (next != NULL)
    step.then = hw_plan_get_group (plan, next->group)->letter;
  if (next != NULL && row + 1 < rows->len)
    self->is_left = TRUE;
  if (step.by_hand)
    self->has_hand = TRUE;
  else
    note_differences (self, &step);
  g_array_append_val (self->rows, step);
  if (!step.by_hand)
    g_array_append_val (self->steps, step);
}

void
hw_card_facts_add_rows (HwCardFacts  *self,
                        const HwPlan *plan,
                        const GArray *rows,
                        HwCardPart    part)
{
  for (guint i = 0; i < rows->len && self->first.number == NULL; i++)
    {
      const HwPlanStep *planned = &g_array_index (plan->order, HwPlanStep, g_array_index (rows, guint, i));

      if (planned->group >= 0)
        self->first = make_step (self, plan, planned);
    }
  for (guint i = part.from; i < part.from + part.n; i++)
    add_row (self, plan, rows, i);
  if (self->any_soft)
    add_soft_rows (self);
  add_labels (self);
}
