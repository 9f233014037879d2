/* card-facts-change.c - what one card says: what is set anew within its list, and the cloth of each step
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The large values are those of the first step that is not sewn yet. From there on the list says what changes, where it
 * changes, and holds good until the next change.
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "words/words.h"

#define keep hw_card_facts_keep

static char *
describe_soft (HwSoft            soft,
               const HwCardStep *step)
{
  double value = step->soft[soft];
  g_autofree char *mm = hw_words_mm (value);
  g_autofree char *text = NULL;

  switch (soft)
    {
    case HW_SOFT_WIDTH:
      return g_strdup_printf (_("width %s"), mm);
    case HW_SOFT_PRESSURE:
      text = hw_words_pressure (value);
      return g_strdup_printf (_("pressure %s"), text);
    case HW_SOFT_DIAL:
      text = hw_words_half (value);
      return g_strdup_printf (_("dial %s"), text);
    case HW_SOFT_LINE:
      return hw_words_line (step->from, mm);
    case HW_SOFT_LENGTH:
    case HW_N_SOFT:
    default:
      return g_strdup_printf (_("length %s"), mm);
    }
}

/* ---- what is set anew ---- */

/* What the machine is set to before a row. */
typedef struct
{
  const HwCardStep *before;             /* the operation before; NULL: none */
  gboolean          is_resumed;         /* begun with a new card, or come back to */
  gboolean          is_new_card;        /* one beyond the first */
  gboolean          is_left;            /* something else was sewn since then */
} Standing;

gboolean
hw_card_steps_differ (const HwCardStep *a,
                      const HwCardStep *b,
                      int               soft)
{
  return fabs (a->soft[soft] - b->soft[soft]) > 1e-6
         || (soft == HW_SOFT_LINE && a->soft[soft] > 0 && a->from != b->from);
}

/* Where the list is taken up again, one sets by the large values of the card: what is other than those is said too. At
 * the top of a later card so is all that its first lines leave to the list. */
static gboolean
is_to_set (const HwCardFacts *self,
           const HwCardStep  *step,
           const Standing    *standing,
           int                soft)
{
  const HwCardStep *before = standing->before != NULL ? standing->before : &self->first;

  return (standing->is_new_card && (self->soft_differs[soft] || hw_card_steps_differ (step, &self->lead, soft)))
         || hw_card_steps_differ (step, before, soft)
         || (standing->is_resumed && hw_card_steps_differ (step, &self->first, soft));
}

/* It begins a card with nothing that is not as the card before left it. */
static gboolean
stays_set (const HwCardStep *step,
           const Standing   *standing,
           gboolean          with_line)
{
  if (!standing->is_new_card || standing->is_left || standing->before == NULL)
    return FALSE;
  for (int soft = 0; soft < HW_N_SOFT; soft++)
    if ((soft != HW_SOFT_LINE || with_line) && hw_card_steps_differ (step, standing->before, soft))
      return FALSE;
  return TRUE;
}

/* NULL: nothing. @with_line: the distance from the edge too, which else has a column. */
static const char *
describe_change (HwCardFacts      *self,
                 const HwCardStep *step,
                 const Standing   *standing,
                 gboolean          with_line)
{
  g_autoptr (GString) all = g_string_new (NULL);

  for (int soft = 0; soft < HW_N_SOFT; soft++)
    {
      gboolean is_begun = soft == HW_SOFT_LINE && (standing->before == NULL || standing->is_resumed);
      g_autofree char *part = NULL;
      g_autoptr (GString) held = NULL;

      if (soft == HW_SOFT_LINE ? !with_line || !self->soft_differs[soft] || step->soft[soft] <= 0 : FALSE)
        continue;
      if (!is_begun && !is_to_set (self, step, standing, soft))
        continue;
      part = describe_soft ((HwSoft) soft, step);
      held = g_string_new (part);
      if (soft != HW_SOFT_LINE)
        g_string_replace (held, " ", "\302\240", 0);         /* a word and its figure stay on one line */
      g_string_append_printf (all, "%s%s", all->len > 0 ? C_("list", ", ") : "", held->str);
    }
  if (all->len == 0)
    return NULL;
  if (stays_set (step, standing, with_line))
    /* Translators: at the top of a later card's list: “As set: length 3 mm, dial 3½”, as the card before left it */
    return keep (self, g_strdup_printf (_("As set: %s"), all->str));
  /* Translators: across the list of a card, above the step from which on it holds: “From here: length 3 mm, dial 3½” */
  return keep (self, g_strdup_printf (_("From here: %s"), all->str));
}

/* ---- why the dial is another one ---- */

typedef enum { CAUSE_THICKNESS, CAUSE_LENGTH, CAUSE_OTHER, N_CAUSES } Cause;

static Cause
find_cause (const HwReason *reason)
{
  if (reason->code != HW_REASON_DIAL_TERM)
    return CAUSE_OTHER;
  switch ((HwTensionTerm) reason->v[0])
    {
    case HW_TENSION_THICKER:
    case HW_TENSION_THINNER:
      return CAUSE_THICKNESS;
    case HW_TENSION_LONGER:
    case HW_TENSION_SHORTER:
      return CAUSE_LENGTH;
    default:
      return CAUSE_OTHER;
    }
}

/* What each cause makes of the dial of @setup, @sign times. */
static void
add_causes (const HwSetup *setup,
            double         sign,
            double         causes[N_CAUSES])
{
  for (guint i = 0; i < setup->reasons->len; i++)
    {
      const HwReason *reason = &g_array_index (setup->reasons, HwReason, i);

      if (reason->field == HW_FIELD_DIAL
          && (reason->code == HW_REASON_DIAL_TERM || reason->code == HW_REASON_TEST_SEAMS))
        causes[find_cause (reason)] += sign * reason->v[1];
    }
}

/* Rows of the set-up, by which whoever sews them has set the dial before: the first @n of its list. */
typedef struct { const GArray *all; guint n; } Earlier;

/* Were as many layers sewn at another dial, or more of them (thinner: fewer), and were all such less thick? */
static gboolean
was_otherwise (const HwPlan  *plan,
               const HwSetup *setup,
               Earlier        earlier,
               gboolean       is_thicker,
               gboolean      *is_extreme)
{
  guint    layers = hw_step_count_layers (setup->step);
  gboolean was = FALSE;

  *is_extreme = TRUE;
  for (guint i = 0; i < earlier.n; i++)
    {
      const HwPlanStep *planned = &g_array_index (plan->order, HwPlanStep, g_array_index (earlier.all, guint, i));
      const HwSetup    *other = planned->group >= 0 ? plan->setups[planned->step] : NULL;
      guint             others = other != NULL ? hw_step_count_layers (other->step) : 0;
      double            less;

      if (other == NULL || (is_thicker ? others < layers : others > layers)
          || fabs (other->values[HW_FIELD_DIAL].value - setup->values[HW_FIELD_DIAL].value) < 1e-6)
        continue;
      was = TRUE;
      less = is_thicker ? setup->under_foot_mm - other->under_foot_mm : other->under_foot_mm - setup->under_foot_mm;
      *is_extreme = *is_extreme && less >= 0.1;
    }
  return was;
}

/* By its layers where there are more of them, or fewer; else the cloth makes them thicker or thinner. NULL: it tells
 * nothing apart. */
static const char *
name_layers (HwCardFacts   *self,
             const HwPlan  *plan,
             HwCardStep    *step,
             const HwSetup *before,
             Earlier        earlier,
             gboolean       is_thicker)
{
  const HwSetup   *setup = plan->setups[step->index];
  guint            layers = hw_step_count_layers (setup->step);
  guint            layers_before = hw_step_count_layers (before->step);
  g_autofree char *named = NULL;
  gboolean         is_extreme;

  if (is_thicker ? layers > layers_before : layers < layers_before)
    {
      if (!was_otherwise (plan, setup, earlier, is_thicker, &is_extreme))
        return keep (self, g_strdup_printf (is_thicker ? ngettext ("thicker: %u layer", "thicker: %u layers", layers)
                                                       : ngettext ("thinner: %u layer", "thinner: %u layers", layers),
                                            layers));
      if (!is_extreme)
        return NULL;
      named = hw_words_mm (round (setup->under_foot_mm * 10) / 10);
      /* Translators: beside a change of the dial: how thick the layers are: “thicker: 2.5 mm under the foot” */
      return keep (self, g_strdup_printf (is_thicker ? _("thicker: %s under the foot")
                                                     : _("thinner: %s under the foot"), named));
    }
  step->change_why_short = is_thicker ? _("thicker cloth") : _("thinner cloth");
  named = hw_words_layers (plan, setup->step);
  /* Translators: the layers of a step: “thicker: 2 × corduroy” */
  return keep (self, g_strdup_printf (is_thicker ? _("thicker: %s") : _("thinner: %s"), named));
}

/* Would the dial go that way if nothing had been agreed on, and is neither number the person's own? */
static gboolean
is_wanted (const HwSetup *before,
           const HwSetup *after,
           gboolean       is_lower)
{
  double change = hw_setup_get_preferred_dial (after) - hw_setup_get_preferred_dial (before);

  return after->values[HW_FIELD_DIAL].origin != HW_ORIGIN_OVERRIDDEN
         && before->values[HW_FIELD_DIAL].origin != HW_ORIGIN_OVERRIDDEN && (is_lower ? change < 0 : change > 0);
}

/* What weighs most in it, in few words; NULL: neither the layers nor the length of the stitch, or it was moved only so
 * that one dial serves more steps. */
static const char *
describe_why (HwCardFacts   *self,
              const HwPlan  *plan,
              HwCardStep    *step,
              const HwSetup *before,
              Earlier        earlier)
{
  const HwSetup *setup = plan->setups[step->index];
  gboolean is_lower = setup->values[HW_FIELD_DIAL].value < before->values[HW_FIELD_DIAL].value;
  double causes[N_CAUSES] = { 0 };
  Cause most = CAUSE_OTHER;

  if (!is_wanted (before, setup, is_lower))
    return NULL;
  add_causes (setup, is_lower ? -1 : 1, causes);
  add_causes (before, is_lower ? 1 : -1, causes);
  for (int cause = 0; cause < N_CAUSES; cause++)
    if (causes[cause] > causes[most])
      most = (Cause) cause;
  switch (most)
    {
    case CAUSE_THICKNESS:
      return name_layers (self, plan, step, before, earlier, is_lower);
    case CAUSE_LENGTH:
      return is_lower ? _("a longer stitch") : _("a shorter stitch");
    case CAUSE_OTHER:
    case N_CAUSES:
    default:
      return NULL;
    }
}

static void
add_change (HwCardFacts    *self,
            const HwPlan   *plan,
            HwCardStep     *step,
            const Standing *standing,
            Earlier         earlier)
{
  const HwCardStep *before = standing->before != NULL ? standing->before : &self->first;

  step->change = describe_change (self, step, standing, FALSE);
  step->change_with_line = describe_change (self, step, standing, TRUE);
  if (hw_card_steps_differ (step, before, HW_SOFT_DIAL))
    step->change_why = describe_why (self, plan, step, plan->setups[before->index], earlier);
}

/* The operation before row @from of the set-up; %FALSE: none. */
static gboolean
find_before (HwCardFacts  *self,
             const HwPlan *plan,
             const GArray *rows,
             guint         from,
             HwCardStep   *before)
{
  for (guint i = from; i > 0; i--)
    {
      const HwPlanStep *planned = &g_array_index (plan->order, HwPlanStep, g_array_index (rows, guint, i - 1));

      if (planned->group < 0)
        continue;
      *before = hw_card_facts_make_step (self, plan, planned);
      return TRUE;
    }
  return FALSE;
}

void
hw_card_facts_add_changes (HwCardFacts  *self,
                           const HwPlan *plan,
                           const GArray *rows,
                           HwCardPart    part)
{
  HwCardStep earlier = { 0 };
  Standing   standing = { NULL, part.from > 0, part.from > 0,
                          part.from > 0 && hw_card_is_run_end (rows, part.from - 1) };

  if (find_before (self, plan, rows, part.from, &earlier))
    standing.before = &earlier;
  for (guint i = 0; i < self->rows->len; i++)
    {
      HwCardStep *step = &g_array_index (self->rows, HwCardStep, i);

      if (!step->by_hand && (!step->done || self->first.done))   /* nothing is set any more for what is sewn */
        {
          add_change (self, plan, step, &standing, (Earlier) { rows, part.from + i });
          standing = (Standing) { .before = step };
        }
      standing.is_left = standing.is_left || (!step->by_hand && standing.before != step);
      standing.is_resumed = standing.is_resumed || step->then != NULL;
    }
}

/* ---- the cloth of each step ---- */

static gboolean
is_one_cloth (const HwCardFacts *self,
              const HwPlan      *plan)
{
  const char *only = NULL;

  for (guint i = 0; i < self->rows->len; i++)
    {
      const HwCardStep *row = &g_array_index (self->rows, HwCardStep, i);
      const HwStep     *step = hw_project_get_step (plan->project, row->index);

      for (gsize j = 0; !row->by_hand && j < step->n_plies; j++)
        {
          if (only != NULL && g_strcmp0 (only, step->plies[j].fabric) != 0)
            return FALSE;
          only = step->plies[j].fabric;
        }
    }
  return TRUE;
}

static gboolean
has_same_layers (const HwStep *a,
                 const HwStep *b)
{
  if (a->n_plies != b->n_plies)
    return FALSE;
  for (gsize i = 0; i < a->n_plies; i++)
    if (a->plies[i].count != b->plies[i].count || g_strcmp0 (a->plies[i].fabric, b->plies[i].fabric) != 0)
      return FALSE;
  return TRUE;
}

/* Where all steps are of the same layers the test seam names them. */
static void
find_differences (HwCardFacts  *self,
                  const HwPlan *plan)
{
  const HwSetup *first = plan->setups[self->first.index];

  for (guint i = 0; i < self->told->len; i++)
    {
      const HwStep *step = plan->setups[g_array_index (self->told, gsize, i)]->step;

      self->cloth_differs = self->cloth_differs || !has_same_layers (step, first->step);
      self->least_layers = MIN (self->least_layers, hw_step_count_layers (step));
      self->most_layers = MAX (self->most_layers, hw_step_count_layers (step));
    }
}

/* The scrap has the layers of the step for which the large values are. */
static void
add_test (HwCardFacts  *self,
          const HwPlan *plan)
{
  const HwSetup *first = plan->setups[self->first.index];
  g_autofree char *layers = hw_words_layers (plan, first->step);
  g_autofree char *cloth = NULL;

  if (self->cloth_differs)
    /* Translators: the layers of a scrap, the step that has the same: “2 × cotton twill, as step 6” */
    cloth = g_strdup_printf (_("%s, as step %s"), layers, self->first.number);
  else
    cloth = g_steal_pointer (&layers);
  self->test = keep (self, hw_words_test_piece (first->stitch, cloth));
  self->test_short = keep (self, hw_words_test_piece (first->stitch, NULL));
}

void
hw_card_facts_add_cloths (HwCardFacts  *self,
                          const HwPlan *plan)
{
  gboolean is_one = is_one_cloth (self, plan);

  self->least_layers = self->most_layers = hw_step_count_layers (plan->setups[self->first.index]->step);
  find_differences (self, plan);
  add_test (self, plan);
  for (guint i = 0; i < self->rows->len && self->cloth_differs; i++)
    {
      HwCardStep *row = &g_array_index (self->rows, HwCardStep, i);
      guint       n;

      if (row->by_hand)
        continue;
      n = hw_step_count_layers (plan->setups[row->index]->step);
      row->layers = keep (self, g_strdup_printf (ngettext ("%u layer", "%u layers", n), n));
      row->cloth = is_one ? row->layers : keep (self, hw_words_layers (plan, plan->setups[row->index]->step));
    }
}
