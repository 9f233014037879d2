/* card-facts-more.c - what one card says: settings, test seam, warnings
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "words/words.h"

#define SECOND_ROW_LAYERS 4     /* in the second row of a French seam, the first lies folded */
#define keep hw_card_facts_keep
#define NEAR_EDGE_MM 10           /* plates have lines from about here; nearer, one measures from the edge */

#define CLOSE_BALANCE (-0.45)     /* of a good satin stitch, buttonhole or bar tack; common practice, no source */

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
  return g_strdup (plan->handbook->plates[(int) plate->value].entry.name);
}

static char *
describe_line (const HwPlan  *plan,
               const HwSetup *setup)
{
  const HwValue *allowance = &setup->values[HW_FIELD_ALLOWANCE];
  g_autofree char *mm = NULL;
  g_autoptr (GString) held = NULL;

  if (!allowance->applies || allowance->value <= 0)
    return NULL;
  mm = hw_words_allowance (allowance->value);
  held = g_string_new (mm);
  g_string_replace (held, " ", "\302\240", 0);               /* the unit stays by its figure */
  if (allowance->value < NEAR_EDGE_MM || setup->line_from == HW_FROM_SEAM || setup->line_from == HW_FROM_CENTRE_FRONT)
    return hw_words_line (setup->line_from, held->str);
  if (setup->line_from == HW_FROM_FOLD)
    /* Translators: of the needle plate: the hem's fold is led along the line of that distance */
    return g_strdup_printf (_("fold along the %s line"), held->str);
  return g_strdup_printf (_("follow the %s line"), held->str);
}

static char *
describe_needle_place (const HwPlan  *plan,
                       const HwSetup *setup)
{
  g_autofree char *place = hw_words_needle_stands (plan, setup);

  /* Translators: on a card, where the needle stands in the foot: “needle 2 mm left of the centre” */
  return place != NULL ? g_strdup_printf (_("needle %s"), place) : NULL;
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

static char *
describe_together (const HwPlan  *plan,
                   const HwSetup *setup)
{
  HwTogether together = setup->seam != NULL ? setup->seam->together : HW_TOGETHER_UNSAID;

  if (together == HW_TOGETHER_WRONG_FIRST && hw_step_count_layers (setup->step) >= SECOND_ROW_LAYERS)
    together = HW_TOGETHER_RIGHT;
  /* A topstitched row comes when the seam has been turned. */
  if (together == HW_TOGETHER_UNSAID || g_strcmp0 (setup->purpose->entry.id, "topstitch") == 0)
    return NULL;
  return g_strdup (hw_words_together (together));
}

/* @steps: of the project, in its order, that are on this card; @n_all: how many of the whole set-up say so. */
typedef struct { char *text; GArray *steps; guint n_all; } Saying;

static void
clear_saying (gpointer data)
{
  Saying *saying = data;

  g_free (saying->text);
  g_array_unref (saying->steps);
}

/* The one of @text, made where there is none; takes @text over. */
static Saying *
take_saying (GArray *sayings,
             char   *text)
{
  Saying fresh = { text, NULL, 0 };

  for (guint i = 0; i < sayings->len; i++)
    if (g_str_equal (g_array_index (sayings, Saying, i).text, text))
      {
        g_free (text);
        return &g_array_index (sayings, Saying, i);
      }
  fresh.steps = g_array_new (FALSE, FALSE, sizeof (gsize));
  g_array_append_val (sayings, fresh);
  return &g_array_index (sayings, Saying, sayings->len - 1);
}

static gboolean
speaks_of (const HwCardFacts *self,
           gsize              step)
{
  for (guint i = 0; i < self->told->len; i++)
    if (g_array_index (self->told, gsize, i) == step)
      return TRUE;
  return FALSE;
}

static void
insert_step (GArray *steps,
             gsize   step)
{
  guint place = steps->len;

  while (place > 0 && g_array_index (steps, gsize, place - 1) > step)
    place--;
  g_array_insert_val (steps, place, step);
}

static GArray *
collect_sayings (const HwCardFacts *self,
                 const HwPlan      *plan,
                 const HwGroup     *group,
                 DescribeFunc       describe)
{
  GArray *sayings = g_array_new (FALSE, TRUE, sizeof (Saying));

  g_array_set_clear_func (sayings, clear_saying);
  for (guint i = 0; i < group->members->len; i++)
    {
      gsize step = g_array_index (group->members, gsize, i);
      char *text = describe (plan, plan->setups[step]);
      Saying *saying = text != NULL ? take_saying (sayings, text) : NULL;

      if (saying == NULL)
        continue;
      saying->n_all++;
      if (speaks_of (self, step))
        insert_step (saying->steps, step);
    }
  return sayings;
}

/* "steps 3 8: 3 stitches back at both ends". (transfer full) */
static char *
say_of_steps (const HwPlan *plan,
              const Saying *saying)
{
  g_autoptr (GString) numbers = g_string_new (NULL);

  for (guint i = 0; i < saying->steps->len; i++)
    g_string_append_printf (numbers, "%s%s", i > 0 ? " " : "",
                            hw_project_get_step (plan->project, g_array_index (saying->steps, gsize, i))->number);
  /* Translators: steps by number, then a setting of theirs: “steps 3 8: 3 stitches back at both ends” */
  return g_strdup_printf (ngettext ("step %s: %s", "steps %s: %s", saying->steps->len), numbers->str, saying->text);
}

/* What most steps of the whole set-up want first, so that its cards have one rule, bare when no step here is without
 * it; then the others, each behind its steps. */
static char *
describe_over_steps (const HwCardFacts *self,
                     const HwPlan      *plan,
                     const HwGroup     *group,
                     DescribeFunc       describe,
                     gboolean          *varies)
{
  g_autoptr (GArray) sayings = collect_sayings (self, plan, group, describe);
  g_autoptr (GString) all = g_string_new (NULL);
  const Saying *rule = NULL;
  guint n_here = 0;
  guint n_said = 0;

  for (guint i = 0; i < sayings->len; i++)
    {
      const Saying *saying = &g_array_index (sayings, Saying, i);

      if (saying->steps->len == 0)
        continue;
      n_here++;
      n_said += saying->steps->len;
      if (rule == NULL || saying->n_all > rule->n_all)
        rule = saying;
    }
  *varies = n_here > 1 || n_said < self->told->len;
  if (n_said < self->told->len)
    rule = NULL;
  g_string_append (all, rule != NULL ? rule->text : "");
  for (guint i = 0; i < sayings->len; i++)
    {
      const Saying *saying = &g_array_index (sayings, Saying, i);
      g_autofree char *part = NULL;

      if (saying == rule || saying->steps->len == 0)
        continue;
      part = say_of_steps (plan, saying);
      g_string_append_printf (all, "%s%s", all->len > 0 ? C_("list of choices", "; ") : "", part);
    }
  return all->len > 0 ? g_string_free (g_steal_pointer (&all), FALSE) : NULL;
}

static const struct { const char *role; DescribeFunc describe; } settings[] = {
  { "pressure", describe_pressure },
  { "differential", describe_differential },
  { "plate", describe_plate },
  { "needle-place", describe_needle_place },
  { "line", describe_line },
  { "together", describe_together },
  { "ends", describe_ends },
};

void
hw_card_facts_add_settings (HwCardFacts  *self,
                            const HwPlan *plan,
                            int           group_index,
                            gboolean      is_later)
{
  const HwGroup *group = hw_plan_get_group (plan, group_index);

  for (gsize i = 0; i < G_N_ELEMENTS (settings); i++)
    {
      HwCardLine line = { settings[i].role, NULL, FALSE };
      g_autofree char *text = NULL;

      /* Where line or pressure differ the list of steps gives them. */
      if (settings[i].describe == describe_line && self->soft_differs[HW_SOFT_LINE])
        continue;
      if (settings[i].describe == describe_pressure && self->soft_differs[HW_SOFT_PRESSURE] && is_later)
        continue;
      if (settings[i].describe == describe_pressure && self->soft_differs[HW_SOFT_PRESSURE])
        {
          g_autofree char *pressure = describe_pressure (plan, plan->setups[self->first_step]);

          text = g_strdup_printf (_("%s for step %s"), pressure, self->first.number);
        }
      else
        text = describe_over_steps (self, plan, group, settings[i].describe, &line.varies);
      if (text == NULL)
        continue;
      line.text = keep (self, g_steal_pointer (&text));
      g_array_append_val (self->settings, line);
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

/* Where the threads lock by what is seen: of close stitches always a little under the middle. */
static double
lock_at (const HwSetup *setup,
         HwVerdict      verdict)
{
  switch (verdict)
    {
    case HW_VERDICT_LOOPS_BELOW:
      return -1;
    case HW_VERDICT_BOBBIN_ABOVE:
      return 1;
    default:
      return hw_words_is_close (&setup->tension) ? CLOSE_BALANCE : 0;
    }
}

static void
add_lockstitch_verdicts (HwCardFacts   *self,
                         const HwSetup *setup)
{
  static const HwVerdict seen[] = { HW_VERDICT_LOOPS_BELOW, HW_VERDICT_BALANCED, HW_VERDICT_BOBBIN_ABOVE };

  for (int i = 0; i < (int) G_N_ELEMENTS (seen); i++)
    add_verdict (self, keep (self, hw_words_look (seen[i], &setup->tension)), keep (self, hw_words_remedy (i, TRUE)),
                 lock_at (setup, seen[i]), TRUE);
}

void
hw_card_facts_add_verdicts (HwCardFacts   *self,
                            const HwSetup *setup)
{
  if (self->figure == HW_FIGURE_EDGE)
    add_overlock_verdicts (self);
  else if (!setup->stitch->bobbin)
    add_chain_verdicts (self);
  else
    add_lockstitch_verdicts (self, setup);
  if (hw_words_is_close (&setup->tension))
    self->start_balance = MIN (self->start_balance, CLOSE_BALANCE);
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

typedef struct
{
  HwWarningCode    code;
  const HwSetup   *setup;
  const HwWarning *warning;
  GString         *steps;
  guint            n;
} WorstCase;

static void
clear_case (gpointer data)
{
  g_string_free (((WorstCase *) data)->steps, TRUE);
}

static void
note_case (GArray          *cases,
           const HwSetup   *setup,
           const HwWarning *warning)
{
  WorstCase *known = NULL;

  for (guint i = 0; i < cases->len && known == NULL; i++)
    if (g_array_index (cases, WorstCase, i).code == warning->code)
      known = &g_array_index (cases, WorstCase, i);
  if (known == NULL)
    {
      WorstCase fresh = { warning->code, setup, warning, g_string_new (NULL), 0 };

      g_array_append_val (cases, fresh);
      known = &g_array_index (cases, WorstCase, cases->len - 1);
    }
  if (warning->v[0] > known->warning->v[0])
    {
      known->setup = setup;
      known->warning = warning;
    }
  if (known->n > 0 && g_str_has_suffix (known->steps->str, setup->step->number))
    return;                               /* the same step again */
  g_string_append_printf (known->steps, "%s%s", known->n > 0 ? " " : "", setup->step->number);
  known->n++;
}

/* One sentence for each kind of warning: the worst case, with all the steps it holds for. */
void
hw_card_facts_add_warnings (HwCardFacts  *self,
                            const HwPlan *plan)
{
  g_autoptr (GArray) cases = g_array_new (FALSE, TRUE, sizeof (WorstCase));

  g_array_set_clear_func (cases, clear_case);
  for (guint i = 0; i < self->told->len && self->steps->len > 0; i++)
    {
      const HwSetup *setup = plan->setups[g_array_index (self->told, gsize, i)];

      for (guint j = 0; j < setup->warnings->len; j++)
        if (is_for_the_card (g_array_index (setup->warnings, HwWarning, j).code))
          note_case (cases, setup, &g_array_index (setup->warnings, HwWarning, j));
    }
  for (guint i = 0; i < cases->len; i++)
    {
      const WorstCase *worst = &g_array_index (cases, WorstCase, i);
      g_autofree char *sentence = hw_words_warning (plan, worst->setup, worst->warning);
      char *text = g_strdup_printf (ngettext ("Step %s: %s", "Steps %s: %s", worst->n), worst->steps->str, sentence);

      g_ptr_array_add (self->warnings, (char *) keep (self, text));
    }
}
