/* card-facts.c - what one card says: needle, threads, stitch, dial, steps
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where the steps of a card differ in a soft part, the card's large values are those of its first step, and the
 * list of steps gives each step's own.
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "card/drawing.h"
#include "words/words.h"

static const HwField soft_fields[HW_N_SOFT] = { HW_FIELD_LENGTH, HW_FIELD_WIDTH, HW_FIELD_PRESSURE, HW_FIELD_DIAL,
                                                HW_FIELD_ALLOWANCE };

const char *
hw_card_facts_keep (HwCardFacts *self,
                    char        *text)
{
  if (text != NULL)
    g_ptr_array_add (self->strings, text);
  return text;
}

#define keep hw_card_facts_keep

static const HwSetup *
get_setup (const HwPlan  *plan,
           const HwGroup *group,
           gsize          member)
{
  return plan->setups[g_array_index (group->members, gsize, member)];
}

/* ---- needle, threads, stitch ---- */

static void
add_needle (HwCardFacts   *self,
            const HwPlan  *plan,
            const HwGroup *group)
{
  g_autofree char *point = hw_words_point (&plan->handbook->points[group->point]);
  int needles = MAX (group->stitch->needles, 1);

  self->size = keep (self, hw_words_size (group->size_nm, group->twin_mm));
  if (group->twin_mm > 0)
    self->point = keep (self, g_strdup_printf (_("twin needle, %s"), point));
  else
    self->point = keep (self, g_steal_pointer (&point));
  if (group->twin_mm <= 0 && needles > 1)
    self->needle_note = keep (self, g_strdup_printf (ngettext ("%d needle", "%d needles", (gulong) needles), needles));
  self->needle_system = plan->handbook->systems[group->system].entry.name;
}

static const char *
describe_thread (HwCardFacts          *self,
                 const HwThreadChoice *thread,
                 const char           *where)
{
  if (thread->entry == NULL || thread->entry->fibre == NULL)
    return where;
  /* Translators: a fibre, then where the thread goes: “polyester, in the needle”. */
  return keep (self, g_strdup_printf (_("%s, %s"), _(thread->entry->fibre), where));
}

static void
add_threads (HwCardFacts   *self,
             const HwGroup *group)
{
  const HwStitch *stitch = group->stitch;
  gboolean both = group->twin_mm > 0 || stitch->needles == 2;
  gboolean loopers = !stitch->bobbin;

  self->thread = keep (self, hw_words_thread_short (group->needle_thread));
  self->thread_note = describe_thread (self, group->needle_thread, both ? _("in both needles") : _("in the needle"));
  if (group->bobbin_thread == NULL || group->bobbin_thread->entry == NULL || (loopers && stitch->loopers == 0))
    return;
  self->bobbin = keep (self, hw_words_thread_short (group->bobbin_thread));
  self->bobbin_note = describe_thread (self, group->bobbin_thread,
                                       !loopers ? _("in the bobbin")
                                                : stitch->loopers > 1 ? _("in both loopers") : _("in the looper"));
  if (!loopers && !both && g_strcmp0 (self->thread, self->bobbin) == 0)
    self->both_note = describe_thread (self, group->needle_thread, _("in needle and bobbin"));
}

static void
add_stitch (HwCardFacts   *self,
            const HwSetup *setup)
{
  const HwValue *length = &setup->values[HW_FIELD_LENGTH];
  const HwValue *width = &setup->values[HW_FIELD_WIDTH];
  const HwValue *cutting = &setup->values[HW_FIELD_CUTTING_WIDTH];

  self->stitch = keep (self, hw_words_stitch (setup));
  if (length->applies)
    {
      g_autofree char *mm = hw_words_mm (length->value);

      self->length = keep (self, g_strdup_printf (_("length %s"), mm));
    }
  if (cutting->applies)
    {
      g_autofree char *mm = hw_words_mm (cutting->value);
      g_autoptr (GString) held = g_string_new (mm);

      g_string_replace (held, " ", "\302\240",
                        0);         /* the longest line of its column: the unit stays by its figure */
      self->width = keep (self, g_strdup_printf (_("cutting width %s"), held->str));
    }
  else if (width->applies)
    {
      g_autofree char *mm = width->value > 0 ? hw_words_mm (width->value) : hw_words_number (0, 0);

      self->width = keep (self, g_strdup_printf (_("width %s"), mm));
    }
}

/* ---- dial ---- */

static const char *
name_dial (const HwStitch *stitch,
           int             dial)
{
  int needles = MAX (stitch->needles, 1);
  int looper = dial - needles;

  if (dial < needles)
    return needles == 1 ? _("needle") : needles == 2 ? (dial == 0 ? _("left needle") : _("right needle")) : _("needle");
  if (stitch->bobbin || looper >= stitch->loopers)
    return "";
  if (stitch->loopers == 1)
    return _("looper");
  return looper == 0 ? _("upper looper") : _("lower looper");
}

static void
add_dial (HwCardFacts   *self,
          const HwSetup *setup)
{
  g_autofree char *start = hw_words_half (setup->values[HW_FIELD_DIAL].value);
  g_autofree char *low = hw_words_half (setup->dial_likely_low);
  g_autofree char *high = hw_words_half (setup->dial_likely_high);
  g_autoptr (GString) all = g_string_new (NULL);

  self->start = setup->values[HW_FIELD_DIAL].value;
  self->low = MIN (setup->dial_likely_low, self->start);
  self->high = MAX (setup->dial_likely_high, self->start);
  self->n_dials = CLAMP (setup->stitch->dials, 1, (int) G_N_ELEMENTS (self->dial_names));
  for (int i = 0; i < self->n_dials; i++)
    {
      self->dial_names[i] = name_dial (setup->stitch, i);
      g_string_append_printf (all, "%s%s", i > 0 ? " " : "", start);
    }
  self->dial_start = keep (self, g_strdup_printf (_("start at %s"), all->str));
  if (g_strcmp0 (low, high) != 0)
    self->dial_likely = keep (self, g_strdup_printf (_("likely %s to %s"), low, high));
  self->start_balance = hw_stitch_balance (setup, self->start);
}

/* ---- steps and their soft parts ---- */

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

static gboolean
is_done (const HwPlan *plan,
         gsize         index)
{
  for (guint i = 0; i < plan->order->len; i++)
    if (g_array_index (plan->order, HwPlanStep, i).step == index)
      return g_array_index (plan->order, HwPlanStep, i).done;
  return FALSE;
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
add_step (HwCardFacts   *self,
          const HwPlan  *plan,
          gsize          index,
          gboolean       is_small)
{
  const HwSetup *setup = plan->setups[index];
  HwCardStep step = { .index = index, .number = setup->step->number, .name = setup->step->name,
                      .done = is_done (plan, index) };

  step.length = keep (self, describe_length (setup->step->length_cm));
  for (int soft = 0; soft < HW_N_SOFT; soft++)
    {
      const HwValue *value = &setup->values[soft_fields[soft]];
      gboolean applies = value->applies && (soft != HW_SOFT_LINE || !is_small);

      step.soft[soft] = applies ? value->value : 0;
      step.soft_text[soft] = applies ? keep (self, describe_soft ((HwSoft) soft, value->value)) : "";
    }
  g_array_append_val (self->steps, step);
}

static void
note_differences (HwCardFacts *self)
{
  const HwCardStep *first = &g_array_index (self->steps, HwCardStep, 0);

  for (guint i = 0; i < self->steps->len; i++)
    {
      HwCardStep *step = &g_array_index (self->steps, HwCardStep, i);
      g_autoptr (GString) text = g_string_new (NULL);

      for (int soft = 0; soft < HW_N_SOFT; soft++)
        if (fabs (step->soft[soft] - first->soft[soft]) > 1e-6)
          {
            g_autofree char *part = describe_soft_in_line ((HwSoft) soft, step->soft[soft]);

            self->soft_differs[soft] = TRUE;
            self->any_soft = TRUE;
            g_string_append_printf (text, "%s%s", text->len > 0 ? C_("list", ", ") : "", part);
          }
      step->soft_short = keep (self, g_string_free (g_steal_pointer (&text), FALSE));
    }
}

/* Where a later step is set otherwise, the large values say whose they are. */
static void
add_labels (HwCardFacts *self)
{
  const char *first = g_array_index (self->steps, HwCardStep, 0).number;
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

/* Every seam once, in the order met. */
static void
add_sections (HwCardFacts   *self,
              const HwPlan  *plan)
{
  for (guint i = 0; i < self->steps->len; i++)
    {
      gsize index = g_array_index (self->steps, HwCardStep, i).index;
      const HwSeam *seam = plan->setups[index]->seam;
      HwCardSection section = { index, NULL };
      gboolean seen = seam == NULL || seam->n_plies == 0;

      for (guint j = 0; j < self->sections->len && !seen; j++)
        seen = plan->setups[g_array_index (self->sections, HwCardSection, j).step]->seam == seam;
      if (seen)
        continue;
      section.caption = seam->entry.name;
      g_array_append_val (self->sections, section);
    }
}

/* A lockstitch row is pictured from the side, an overlocked edge cut across, all else as it lies on the cloth. */
static HwFigure
choose_figure (const HwStitch *stitch)
{
  if (g_strcmp0 (stitch->mark, "overlock") == 0)
    return HW_FIGURE_EDGE;
  return stitch->bobbin ? HW_FIGURE_ALONG : HW_FIGURE_ROW;
}

HwCardFacts *
hw_card_facts_new (const HwPlan *plan,
                   int           group_index,
                   gboolean      is_small)
{
  const HwGroup *group = hw_plan_get_group (plan, group_index);
  const HwSetup *first = get_setup (plan, group, 0);
  HwCardFacts *self = g_new0 (HwCardFacts, 1);

  self->strings = g_ptr_array_new_with_free_func (g_free);
  self->settings = g_array_new (FALSE, FALSE, sizeof (HwCardLine));
  self->steps = g_array_new (FALSE, FALSE, sizeof (HwCardStep));
  self->soft_rows = g_array_new (FALSE, FALSE, sizeof (HwCardSoftRow));
  self->sections = g_array_new (FALSE, FALSE, sizeof (HwCardSection));
  self->verdicts = g_array_new (FALSE, FALSE, sizeof (HwCardVerdict));
  self->checks = g_ptr_array_new ();
  self->warnings = g_ptr_array_new ();

  self->title = plan->project->title;
  self->letter = group->letter;
  self->machine = keep (self, g_strdup_printf (_("%s · set-up"), group->machine->name));
  self->first_step = g_array_index (group->members, gsize, 0);
  self->first_length_mm = first->values[HW_FIELD_LENGTH].value;
  self->figure = choose_figure (group->stitch);
  self->has_row = self->figure != HW_FIGURE_ROW && g_strcmp0 (group->stitch->mark, "straight") != 0;
  self->is_usual_plate = group->plate < 0
  || g_strcmp0 (plan->handbook->plates[group->plate].entry.id, "single-hole") != 0;
  add_needle (self, plan, group);
  if (self->needle_note == NULL)
    self->needle_note = keep (self, hw_words_group_needle (plan, group_index));
  add_threads (self, group);
  add_stitch (self, first);
  add_dial (self, first);
  if (group->foot >= 0)
    self->foot = keep (self, hw_words_foot (plan->handbook, group->foot));
  for (guint i = 0; i < group->members->len; i++)
    add_step (self, plan, g_array_index (group->members, gsize, i), is_small);
  note_differences (self);
  if (self->any_soft)
    add_soft_rows (self);
  add_labels (self);
  add_sections (self, plan);
  hw_card_facts_add_settings (self, plan, group);
  self->test = keep (self, hw_words_test_piece (group->stitch));
  hw_card_facts_add_verdicts (self, group->stitch);
  for (int i = 0; i < 6; i++)
    g_ptr_array_add (self->checks, (char *) keep (self, hw_words_check (group->machine, i)));
  hw_card_facts_add_after (self, plan, group_index);
  hw_card_facts_add_warnings (self, plan);
  self->caution = keep (self, hw_words_caution (0));
  return self;
}

void
hw_card_facts_free (HwCardFacts *self)
{
  g_array_unref (self->settings);
  g_array_unref (self->steps);
  g_array_unref (self->soft_rows);
  g_array_unref (self->sections);
  g_array_unref (self->verdicts);
  g_ptr_array_unref (self->checks);
  g_ptr_array_unref (self->warnings);
  g_ptr_array_unref (self->strings);
  g_free (self);
}
