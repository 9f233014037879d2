/* card-facts-dial.c - what one card says: where the dial is likely to come out, and for which of its steps
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One dial serves steps of other layers: what is told is likely for every one of them. Where the list sets it anew for
 * some, the heading names those that are sewn by the large number.
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <stdlib.h>

#include "words/words.h"

#define keep hw_card_facts_keep

static const HwSetup *
get_told (const HwCardFacts *self,
          const HwPlan      *plan,
          guint              i)
{
  return plan->setups[g_array_index (self->told, gsize, i)];
}

static gboolean
has_same_dial (const HwSetup *a,
               const HwSetup *b)
{
  return fabs (a->values[HW_FIELD_DIAL].value - b->values[HW_FIELD_DIAL].value) < 1e-6;
}

static void
narrow_likely (HwCardFacts   *self,
               const HwSetup *setup)
{
  self->low = fmax (self->low, MIN (setup->dial_likely_low, self->start));
  self->high = fmin (self->high, MAX (setup->dial_likely_high, self->start));
}

/* Those of the steps told of that have the first one's dial, as long as something is likely for them all; else that one
 * alone. (element-type utf8) (transfer container) */
static GPtrArray *
find_sharing (HwCardFacts  *self,
              const HwPlan *plan)
{
  const HwSetup *first = plan->setups[self->first.index];
  GPtrArray     *numbers = g_ptr_array_new ();

  self->low = -INFINITY;
  self->high = INFINITY;
  for (guint i = 0; i < self->told->len; i++)
    {
      const HwSetup *setup = get_told (self, plan, i);

      if (!has_same_dial (setup, first))
        continue;
      narrow_likely (self, setup);
      g_ptr_array_add (numbers, setup->step->number);
    }
  if (self->low < self->high || first->dial_likely_low >= first->dial_likely_high)
    return numbers;
  self->low = MIN (first->dial_likely_low, self->start);
  self->high = MAX (first->dial_likely_high, self->start);
  g_ptr_array_set_size (numbers, 0);
  g_ptr_array_add (numbers, first->step->number);
  return numbers;
}

/* No step of another dial stands between those that share it. */
static gboolean
is_one_run (const HwCardFacts *self,
            const HwPlan      *plan)
{
  const HwSetup *first = plan->setups[self->first.index];
  gboolean is_over = FALSE;

  for (guint i = 0; i < self->told->len; i++)
    {
      gboolean is_same = has_same_dial (get_told (self, plan, i), first);

      if (is_same && is_over)
        return FALSE;
      is_over = is_over || !is_same;
    }
  return TRUE;
}

static void
add_label (HwCardFacts *self,
           char        *label)
{
  self->dial_labels[self->n_dial_labels++] = keep (self, label);
}

/* By the first and the last where that leaves nothing open. (transfer full) */
static char *
name_sharing (const HwCardFacts *self,
              const HwPlan      *plan,
              const char        *dial,
              GPtrArray         *sharing)
{
  const char *first = sharing->pdata[0];
  const char *last = sharing->pdata[sharing->len - 1];
  g_autoptr (GString) all = g_string_new (first);

  if (sharing->len > 2 && is_one_run (self, plan) && atoi (last) > atoi (first))
    /* Translators: over the dial: its name, the first and last of the steps in the list that are sewn by its number */
    return g_strdup_printf (_("%s, steps %s to %s"), dial, first, last);
  for (guint i = 1; i < sharing->len; i++)
    g_string_append_printf (all, " %s", (const char *) sharing->pdata[i]);
  /* Translators: over the dial: its name, the steps that are sewn by its large number: “Tension, steps 24 26 32” */
  return g_strdup_printf (_("%s, steps %s"), dial, all->str);
}

static void
label_dial (HwCardFacts  *self,
            const HwPlan *plan,
            GPtrArray    *sharing)
{
  const char *dial = self->n_dials > 1 ? _("Tension dials") : _("Needle thread tension");

  if (sharing->len < self->told->len && sharing->len > 1)
    {
      add_label (self, name_sharing (self, plan, dial, sharing));
      add_label (self, name_sharing (self, plan, _("Tension"), sharing));
      /* Translators: over the dial: the step from which on its large number holds, until the list says another one */
      add_label (self, g_strdup_printf (_("Tension from step %s"), self->first.number));
    }
  else if (sharing->len < self->told->len)
    {
      add_label (self, g_strdup_printf (_("%s, step %s"), dial, self->first.number));
      add_label (self, g_strdup_printf (_("%s, step %s"), _("Tension"), self->first.number));
    }
  else
    {
      if (self->most_layers > self->least_layers)
        /* Translators: over the dial, where one number serves all steps: the fewest and most layers of a step */
        add_label (self, g_strdup_printf (_("Tension for %u to %u layers"), self->least_layers, self->most_layers));
      else
        add_label (self, g_strdup (dial));
      add_label (self, g_strdup (_("Tension")));
    }
}

void
hw_card_facts_add_likely (HwCardFacts  *self,
                          const HwPlan *plan)
{
  g_autoptr (GPtrArray) sharing = find_sharing (self, plan);

  if (self->low < self->high)
    {
      g_autofree char *low = hw_words_half (self->low);
      g_autofree char *high = hw_words_half (self->high);

      self->dial_likely = keep (self, g_strdup_printf (_("likely %s to %s"), low, high));
    }
  label_dial (self, plan, sharing);
}
