/* card-facts.c - what one card says: needle, threads, stitch, dial, steps
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where the steps of a set-up differ in a soft part, the card's large values are those of its next step, and the
 * list of steps says where they change.
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "card/drawing.h"
#include "words/words.h"

const char *
hw_card_facts_keep (HwCardFacts *self,
                    char        *text)
{
  if (text != NULL)
    g_ptr_array_add (self->strings, text);
  return text;
}

#define keep hw_card_facts_keep
#define HARD_SPACE "\302\240"

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
  /* Without a colour the line above names the fibre; spools tell their ticket rather than tex. */
  if (hw_words_thread_colour (thread) == NULL && thread->entry->ticket > 0)
    /* Translators: the number on a spool's label, then where the thread goes: “ticket 120, in the needle” */
    return keep (self, g_strdup_printf (_("ticket %.0f, %s"), thread->entry->ticket, where));
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

/* "straight stitch, no. 1": the number stays by its word. (transfer full) */
static char *
name_stitch (const HwSetup *setup)
{
  g_autofree char *name = hw_words_stitch (setup);
  char *space = strrchr (name, ' ');

  if (space == NULL || !g_ascii_isdigit (space[1]))
    return g_steal_pointer (&name);
  *space = '\0';
  return g_strconcat (name, HARD_SPACE, space + 1, NULL);
}

static void
add_stitch (HwCardFacts   *self,
            const HwSetup *setup)
{
  const HwValue *length = &setup->values[HW_FIELD_LENGTH];
  const HwValue *width = &setup->values[HW_FIELD_WIDTH];
  const HwValue *cutting = &setup->values[HW_FIELD_CUTTING_WIDTH];

  self->stitch = keep (self, name_stitch (setup));
  if (length->applies)
    {
      g_autofree char *mm = hw_words_mm (length->value);

      self->length = keep (self, g_strdup_printf (_("length %s"), mm));
    }
  if (cutting->applies)
    {
      g_autofree char *mm = hw_words_mm (cutting->value);
      g_autoptr (GString) held = g_string_new (mm);

      /* The longest line of its column: the unit stays by its figure. */
      g_string_replace (held, " ", HARD_SPACE, 0);
      self->width = keep (self, g_strdup_printf (_("cutting width %s"), held->str));
    }
  else if (width->applies)
    self->width = keep (self, hw_words_width (setup));
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
  g_autoptr (GString) all = g_string_new (NULL);

  self->start = setup->values[HW_FIELD_DIAL].value;
  self->n_dials = CLAMP (setup->stitch->dials, 1, (int) G_N_ELEMENTS (self->dial_names));
  for (int i = 0; i < self->n_dials; i++)
    {
      self->dial_names[i] = name_dial (setup->stitch, i);
      g_string_append_printf (all, "%s%s", i > 0 ? " " : "", start);
    }
  self->dial_start = keep (self, g_strdup_printf (_("start at %s"), all->str));
  self->start_balance = hw_stitch_balance (setup, self->start);
}

/* ---- all of it ---- */

/* A lockstitch row is pictured from the side, an overlocked edge cut across, all else as it lies on the cloth. */
static HwFigure
choose_figure (const HwStitch *stitch)
{
  if (g_strcmp0 (stitch->mark, "overlock") == 0)
    return HW_FIGURE_EDGE;
  return stitch->bobbin ? HW_FIGURE_ALONG : HW_FIGURE_ROW;
}

/* A part that is a word and its figure stays on one line. */
static void
append_part (GString    *text,
             const char *part)
{
  g_autoptr (GString) held = g_string_new (part);

  if (part == NULL)
    return;
  g_string_replace (held, " ", HARD_SPACE, 0);
  g_string_append_printf (text, "%s%s", text->len > 0 ? " · " : "", held->str);
}

/* In one line, with where each goes unless they are alike. (transfer full) */
static char *
list_threads (const HwCardFacts *self)
{
  const char *comma = C_("list", ", ");

  if (self->both_note != NULL)
    return g_strconcat (self->thread, comma, self->both_note, NULL);
  if (self->bobbin == NULL || g_str_equal (self->thread, self->bobbin))
    return g_strdup (self->thread);
  return g_strconcat (self->thread, comma, self->thread_note, " · ", self->bobbin, comma, self->bobbin_note, NULL);
}

/* On this card all the same, and the same as the large value of the first one. */
static gboolean
is_as_before (const HwCardFacts *self,
              HwSoft             soft)
{
  return !self->soft_differs[soft] && fabs (self->first.soft[soft] - self->lead.soft[soft]) < 1e-6;
}

/* What the machine has in it already, in one line; settings that are other ones on this card stand in its list. */
static const char *
describe_again (HwCardFacts *self)
{
  g_autofree char *needle = g_strdup_printf ("%s %s", self->size, self->point);
  g_autofree char *threads = list_threads (self);
  g_autoptr (GString) all = g_string_new (NULL);

  g_string_append_printf (all, "%s · %s · %s", needle, threads, self->stitch);
  if (is_as_before (self, HW_SOFT_LENGTH))
    append_part (all, self->length);
  if (is_as_before (self, HW_SOFT_WIDTH))
    append_part (all, self->width);
  /* Translators: on the second card of a set-up: needle, thread, stitch */
  return keep (self, g_strdup_printf (_("Set as on card 1: %s"), all->str));
}

/* Of the set-up's @rows those of @part: the operation that is to be sewn next, else the first; NULL: there is none. */
static const HwPlanStep *
find_next (const HwCardFacts *self,
           const HwPlan      *plan,
           const GArray      *rows,
           HwCardPart         part)
{
  const HwPlanStep *first = NULL;

  for (guint i = part.from; i < part.from + part.n; i++)
    {
      const HwPlanStep *planned = &g_array_index (plan->order, HwPlanStep, g_array_index (rows, guint, i));

      if (planned->group < 0)
        continue;
      if (!planned->done || self->is_unsewn)
        return planned;
      first = first != NULL ? first : planned;
    }
  return first;
}

/* A later card may be the one from which the machine is set. */
static void
add_again (HwCardFacts *self)
{
  self->again = describe_again (self);
  /* Translators: on a later card of a set-up, for whoever begins with it: “Set anew? First a test seam, 15 cm” */
  self->test = keep (self, g_strdup_printf (_("Set anew? %s"), self->test));
  self->test_short = keep (self, g_strdup_printf (_("Set anew? %s"), self->test_short));
}

static HwCardFacts *
new_empty (void)
{
  HwCardFacts *self = g_new0 (HwCardFacts, 1);

  self->strings = g_ptr_array_new_with_free_func (g_free);
  self->settings = g_array_new (FALSE, FALSE, sizeof (HwCardLine));
  self->rows = g_array_new (FALSE, FALSE, sizeof (HwCardStep));
  self->steps = g_array_new (FALSE, FALSE, sizeof (HwCardStep));
  self->told = g_array_new (FALSE, FALSE, sizeof (gsize));
  self->sections = g_array_new (FALSE, FALSE, sizeof (HwCardSection));
  self->verdicts = g_array_new (FALSE, FALSE, sizeof (HwCardVerdict));
  self->checks = g_ptr_array_new ();
  self->warnings = g_ptr_array_new ();
  return self;
}

/* Whose values are the large ones: a card with steps of its own never has those of another one's. */
static void
add_first (HwCardFacts  *self,
           const HwPlan *plan,
           const GArray *rows,
           HwCardPart    part)
{
  const HwPlanStep *next = find_next (self, plan, rows, (HwCardPart) { .n = rows->len });
  const HwPlanStep *lead = find_next (self, plan, rows, (HwCardPart) { .n = part.n_first });
  const HwPlanStep *own = find_next (self, plan, rows, part);

  self->is_sewn = next->done && !self->is_unsewn;
  self->lead = hw_card_facts_make_step (self, plan, lead != NULL ? lead : next);
  self->first = own != NULL ? hw_card_facts_make_step (self, plan, own) : self->lead;
  self->first_step = self->first.index;
  self->first_length_mm = plan->setups[self->first_step]->values[HW_FIELD_LENGTH].value;
}

/* What the set-up is, beside its steps. */
static void
add_setup (HwCardFacts  *self,
           const HwPlan *plan,
           int           group_index)
{
  const HwGroup *group = hw_plan_get_group (plan, group_index);
  const HwSetup *first = plan->setups[self->first_step];

  self->title = plan->project->title;
  self->letter = group->letter;
  /* Nobody is to load a needle for what is left by hand. */
  self->machine = keep (self, g_strdup_printf (!self->is_sewn ? _("%s · set-up")
                                                              /* Translators: of a machine's set-up: its steps are */
                                                              : _("%s · all sewn"), group->machine->name));
  self->figure = choose_figure (group->stitch);
  self->has_row = self->figure != HW_FIGURE_ROW && g_strcmp0 (group->stitch->mark, "straight") != 0;
  self->is_usual_plate = group->plate < 0
  || g_strcmp0 (plan->handbook->plates[group->plate].entry.id, "single-hole") != 0;
  add_needle (self, plan, group);
  self->universal = keep (self, hw_words_group_universal (plan, group_index));
  if (self->needle_note == NULL)
    self->needle_which = keep (self, hw_words_group_needle (plan, group_index));
  add_threads (self, group);
  add_stitch (self, first);
  add_dial (self, first);
  if (group->foot >= 0)
    self->foot = keep (self, hw_words_foot (plan->handbook, group->foot));
  hw_card_facts_add_gauges (self, plan, group);
  hw_card_facts_add_verdicts (self, first);
  for (int i = 0; i < 6; i++)
    g_ptr_array_add (self->checks, (char *) keep (self, hw_words_check (group->machine, i)));
  self->caution = keep (self, hw_words_caution (0));
}

HwCardFacts *
hw_card_facts_new (const HwPlan *plan,
                   int           group_index,
                   const GArray *rows,
                   HwCardPart    part,
                   int           number,
                   gboolean      is_unsewn)
{
  HwCardFacts *self = new_empty ();

  self->is_unsewn = is_unsewn;
  add_first (self, plan, rows, part);
  add_setup (self, plan, group_index);
  if (part.from + part.n < rows->len)
    {
      const HwPlanStep *next = &g_array_index (plan->order, HwPlanStep,
                                               g_array_index (rows, guint, part.from + part.n));

      /* Translators: number of a card of the same set-up, number of the step with which its list begins */
      self->goes_on = keep (self, g_strdup_printf (_("Go on with card %d, step %s."), number + 1,
                                                   hw_project_get_step (plan->project, next->step)->number));
    }
  hw_card_facts_add_rows (self, plan, rows, part);
  hw_card_facts_add_sections (self, plan, rows, part);
  hw_card_facts_add_settings (self, plan, group_index, number > 1);
  hw_card_facts_add_after (self, plan, rows, part);
  hw_card_facts_add_warnings (self, plan);
  if (number > 1)
    add_again (self);
  return self;
}

void
hw_card_facts_free (HwCardFacts *self)
{
  g_array_unref (self->settings);
  g_array_unref (self->rows);
  g_array_unref (self->steps);
  g_array_unref (self->told);
  g_array_unref (self->sections);
  g_array_unref (self->verdicts);
  g_ptr_array_unref (self->checks);
  g_ptr_array_unref (self->warnings);
  g_ptr_array_unref (self->strings);
  g_free (self);
}
