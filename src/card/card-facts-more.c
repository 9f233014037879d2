/* card-facts-more.c - what one card says: settings, test seam, what comes after, warnings
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "words/words.h"

#define keep hw_card_facts_keep
#define NEAR_EDGE_MM 10           /* plates have lines from about here; nearer, one measures from the edge */

/* ---- settings: pressure, plate, line, ends, … ---- */

/* What @setup has to say of one setting; NULL nothing. (transfer full) */
typedef char * (* DescribeFunc) (const HwPlan *plan, const HwSetup *setup);

static char *
describe_pressure (const HwPlan  *plan,
                   const HwSetup *setup)
{
  g_autofree char *pressure = NULL;

  if (!setup->values[HW_FIELD_PRESSURE].applies)
    return NULL;
  pressure = hw_words_pressure (setup->values[HW_FIELD_PRESSURE].value);
  return g_strdup_printf (_("pressure %s"), pressure);
}

static char *
describe_plate (const HwPlan  *plan,
                const HwSetup *setup)
{
  const HwValue *plate = &setup->values[HW_FIELD_PLATE];

  if (!plate->applies || plate->value < 0 || plate->value >= (double) plan->handbook->n_plates)
    return NULL;
  return g_strdup (_(plan->handbook->plates[(int) plate->value].entry.name));
}

static char *
describe_line (const HwPlan  *plan,
               const HwSetup *setup)
{
  const HwValue *allowance = &setup->values[HW_FIELD_ALLOWANCE];
  g_autofree char *mm = NULL;

  if (!allowance->applies || allowance->value <= 0)
    return NULL;
  mm = hw_words_mm (allowance->value);
  if (allowance->value < NEAR_EDGE_MM)
    return g_strdup_printf (_("%s from the edge"), mm);
  return g_strdup_printf (_("follow the %s line"), mm);
}

static char *
describe_ends (const HwPlan  *plan,
               const HwSetup *setup)
{
  if (!setup->values[HW_FIELD_ENDS].applies)
    return NULL;
  return hw_words_ends ((HwEnds) setup->values[HW_FIELD_ENDS].value);
}

static char *
describe_differential (const HwPlan  *plan,
                       const HwSetup *setup)
{
  g_autofree char *value = NULL;

  if (!setup->values[HW_FIELD_DIFFERENTIAL].applies)
    return NULL;
  value = hw_words_number (setup->values[HW_FIELD_DIFFERENTIAL].value, 2);
  return g_strdup_printf (_("differential feed %s"), value);
}

/* "TEXT" when all steps agree; else each text with its steps, in the order met. */
static char *
describe_over_steps (const HwCardFacts *self,
                     const HwPlan      *plan,
                     DescribeFunc       describe)
{
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) steps = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GString) all = g_string_new (NULL);

  for (guint i = 0; i < self->steps->len; i++)
    {
      const HwCardStep *step = &g_array_index (self->steps, HwCardStep, i);
      g_autofree char *text = describe (plan, plan->setups[step->index]);
      guint found = 0;

      if (text == NULL)
        continue;
      if (g_ptr_array_find_with_equal_func (texts, text, g_str_equal, &found))
        {
          char *more = g_strconcat (steps->pdata[found], " ", step->number, NULL);

          g_free (steps->pdata[found]);
          steps->pdata[found] = more;
          continue;
        }
      g_ptr_array_add (texts, g_steal_pointer (&text));
      g_ptr_array_add (steps, g_strdup (step->number));
    }

  if (texts->len == 0)
    return NULL;
  if (texts->len == 1)
    return g_strdup (texts->pdata[0]);
  for (guint i = 0; i < texts->len; i++)
    {
      gboolean several = strchr (steps->pdata[i], ' ') != NULL;

      /* Translators: a setting, then the steps that need it: “3 stitches back (steps 3 8)”. */
      g_string_append_printf (all, several ? _("%s%s (steps %s)") : _("%s%s (step %s)"), i > 0 ? "; " : "",
                              (const char *) texts->pdata[i], (const char *) steps->pdata[i]);
    }
  return g_string_free (g_steal_pointer (&all), FALSE);
}

static const struct { const char *role; DescribeFunc describe; } settings[] = {
  { "pressure", describe_pressure },
  { "differential", describe_differential },
  { "plate", describe_plate },
  { "line", describe_line },
  { "ends", describe_ends },
};

void
hw_card_facts_add_settings (HwCardFacts   *self,
                            const HwPlan  *plan,
                            const HwGroup *group)
{
  for (gsize i = 0; i < G_N_ELEMENTS (settings); i++)
    {
      char *text = NULL;

      if (settings[i].describe == describe_pressure && self->soft_differs[HW_SOFT_PRESSURE])
        text = describe_pressure (plan, plan->setups[self->first_step]);      /* the list gives the others */
      else
        text = describe_over_steps (self, plan, settings[i].describe);
      if (text != NULL)
        {
          HwCardLine line = { settings[i].role, keep (self, text) };

          g_array_append_val (self->settings, line);
        }
    }
}

/* ---- test seam ---- */

/* A half never stands at the start of a line by itself. */
static const char *
hold_halves (HwCardFacts *self,
             const char  *text)
{
  g_autoptr (GString) held = g_string_new (text);

  g_string_replace (held, " \302\275", "\302\240\302\275", 0);
  return keep (self, g_string_free (g_steal_pointer (&held), FALSE));
}

static void
add_verdict (HwCardFacts *self,
             const char  *seen,
             const char  *remedy,
             double       balance,
             gboolean     drawn)
{
  HwCardVerdict verdict = { seen, hold_halves (self, remedy), balance, drawn };

  g_array_append_val (self->verdicts, verdict);
}

/* Loopers have dials of their own: which one to move is read from which thread wanders. Common practice, no source. */
static void
add_overlock_verdicts (HwCardFacts *self)
{
  add_verdict (self, _("Upper looper thread wraps underneath"), _("Upper looper dial up ½"), -1, TRUE);
  add_verdict (self, _("Loops meet at the edge, seam flat"), _("Sew"), 0, TRUE);
  add_verdict (self, _("Lower looper thread shows on top"), _("Lower looper dial up ½"), 1, TRUE);
  add_verdict (self, _("Seam gapes when pulled open"), _("Needle dial up ½"), 0, FALSE);
}

static void
add_chain_verdicts (HwCardFacts *self)
{
  add_verdict (self, _("Needle thread loose, seam gapes when pulled"), _("Needle dials up ½"), 0, FALSE);
  add_verdict (self, _("Flat, and stretches without a thread breaking"), _("Sew"), 0, TRUE);
  add_verdict (self, _("Cloth draws up between the rows"), _("Needle and looper dials down ½"), 0, FALSE);
}

void
hw_card_facts_add_verdicts (HwCardFacts    *self,
                            const HwStitch *stitch)
{
  if (self->figure == HW_FIGURE_EDGE)
    add_overlock_verdicts (self);
  else if (!stitch->bobbin)
    add_chain_verdicts (self);
  else
    for (int which = 0; which < 3; which++)
      add_verdict (self, keep (self, hw_words_verdict (which)), keep (self, hw_words_remedy (which, TRUE)), which - 1, TRUE);
}

/* ---- what comes after ---- */

/* The next operation in the order after @from; NULL when only hand steps follow, or nothing. */
static const HwPlanStep *
find_next_operation (const HwPlan *plan,
                     guint         from)
{
  for (guint i = from + 1; i < plan->order->len; i++)
    if (g_array_index (plan->order, HwPlanStep, i).group >= 0)
      return &g_array_index (plan->order, HwPlanStep, i);
  return NULL;
}

static HwCardStep *
find_card_step (HwCardFacts *self,
                gsize        index)
{
  for (guint i = 0; i < self->steps->len; i++)
    if (g_array_index (self->steps, HwCardStep, i).index == index)
      return &g_array_index (self->steps, HwCardStep, i);
  return NULL;
}

static char *
describe_next (const HwPlan     *plan,
               const HwPlanStep *last,
               const HwPlanStep *next,
               gboolean          alone)
{
  const char *letter = hw_plan_get_group (plan, next->group)->letter;
  const char *number = hw_project_get_step (plan->project, next->step)->number;
  g_autofree char *change = NULL;

  if (!alone)
    return g_strdup_printf (_("After step %s: set-up %s for step %s."),
                            hw_project_get_step (plan->project, last->step)->number, letter, number);
  change = hw_words_change (plan, next, last);
  return g_strdup_printf (_("Set-up %s for step %s. %s."), letter, number, change);
}

/* A set-up may be left and come back to: each time it is left, the card says what follows. */
void
hw_card_facts_add_after (HwCardFacts  *self,
                         const HwPlan *plan,
                         int           group_index)
{
  g_autoptr (GString) text = g_string_new (NULL);
  guint n_runs = 0;

  for (int pass = 0; pass < 2; pass++)
    for (guint i = 0; i < plan->order->len; i++)
      {
        const HwPlanStep *step = &g_array_index (plan->order, HwPlanStep, i);
        const HwPlanStep *next = NULL;

        if (step->group != group_index)
          continue;
        next = find_next_operation (plan, i);
        if (next != NULL && next->group == group_index)
          continue;
        if (pass == 0)
          {
            HwCardStep *card_step = find_card_step (self, step->step);

            n_runs++;
            if (card_step != NULL && next != NULL)
              card_step->then = hw_plan_get_group (plan, next->group)->letter;
          }
        else if (next != NULL)
          {
            g_autofree char *part = describe_next (plan, step, next, n_runs == 1);

            g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", part);
          }
        else
          g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", _("Then no further set-up: the machine work is done."));
      }
  self->after = keep (self, g_string_free (g_steal_pointer (&text), FALSE));
}

/* ---- warnings ---- */

/* What a person at the machine has to mind; the rest is for whoever plans. */
static gboolean
is_for_the_card (HwWarningCode code)
{
  switch (code)
    {
    case HW_WARN_FOOT_LIFT:
    case HW_WARN_TWIN_WIDE:
    case HW_WARN_THREAD_LIMIT:
    case HW_WARN_BOUNDS_CROSS:
    case HW_WARN_NOT_OWNED:
      return TRUE;
    case HW_WARN_CLAMPED:
    case HW_WARN_OVERRIDE_OUTSIDE:
    case HW_WARN_SIZE_NOT_SOLD:
    case HW_WARN_COARSE_THREAD:
    case HW_WARN_ESTIMATED:
    default:
      return FALSE;
    }
}

void
hw_card_facts_add_warnings (HwCardFacts  *self,
                            const HwPlan *plan)
{
  for (guint i = 0; i < self->steps->len; i++)
    {
      const HwCardStep *step = &g_array_index (self->steps, HwCardStep, i);
      const HwSetup *setup = plan->setups[step->index];

      for (guint j = 0; j < setup->warnings->len; j++)
        {
          const HwWarning *warning = &g_array_index (setup->warnings, HwWarning, j);
          g_autofree char *sentence = NULL;

          if (!is_for_the_card (warning->code))
            continue;
          sentence = hw_words_warning (plan, setup, warning);
          g_ptr_array_add (self->warnings,
                           (char *) keep (self, g_strdup_printf (_("Step %s: %s"), step->number, sentence)));
        }
    }
}
