/* words-rules.c - the sentence of a handbook's rule with its figures filled in
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/words-rules.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

typedef struct
{
  const HwPlan   *plan;
  const HwSetup  *setup;
  const HwReason *reason;
} Filling;

static const HwCloth *
find_cloth (const HwPlan *plan, const char *fabric)
{
  for (guint i = 0; i < plan->cloths->len; i++)
    {
      const HwCloth *cloth = &g_array_index (plan->cloths, HwCloth, i);

      if (g_str_equal (cloth->fabric->id, fabric))
        return cloth;
    }
  return NULL;
}

/* Rules about the operation look at its heaviest cloth. */
static double
get_mass (const Filling *self)
{
  const HwStep *step = self->setup->step;
  double mass = 0;

  if (self->reason->cloth != NULL)
    return self->reason->cloth->mass_g_m2;
  for (gsize i = 0; i < step->n_plies; i++)
    {
      const HwCloth *cloth = find_cloth (self->plan, step->plies[i].fabric);

      if (cloth != NULL)
        mass = MAX (mass, cloth->mass_g_m2);
    }
  return mass;
}

static double
get_thickness (const Filling *self)
{
  return self->reason->cloth != NULL ? self->reason->cloth->thickness_mm : self->setup->thickness_mm;
}

/* A bound of the rule. The sentence has the unit, so numbers come bare; sizes, steps of pressure and half-steps have
 * forms of their own. */
static char *
say_bound (const Filling *self, double bound)
{
  HwField field = self->reason->field;

  if (!isfinite (bound))
    return g_strdup ("");
  switch ((int) field)
    {
    case HW_FIELD_SIZE:
    case HW_FIELD_PRESSURE:
    case HW_FIELD_DIAL:
    case HW_FIELD_DIFFERENTIAL:
      return hw_words_quantity (self->plan, self->setup, field, bound);
    default:
      return hw_words_number (bound, 2);
    }
}

static char *
say_value (const Filling *self)
{
  const HwRule *rule = self->reason->rule;

  if (rule->choice >= 0)
    return hw_words_quantity (self->plan, self->setup, self->reason->field, rule->choice);
  return say_bound (self, isfinite (rule->band.prefer) ? rule->band.prefer : rule->band.low);
}

/* What stands in @text for the @length bytes of a name between braces; NULL for a name that is none of ours. */
static char *
say_placeholder (const Filling *self, const char *name, gsize length)
{
  const HwBand *band = &self->reason->rule->band;
  g_autofree char *key = g_strndup (name, length);

  if (g_str_equal (key, "value"))
    return say_value (self);
  if (g_str_equal (key, "low"))
    return say_bound (self, band->low);
  if (g_str_equal (key, "high"))
    return say_bound (self, band->high);
  if (g_str_equal (key, "mass"))
    return hw_words_number (get_mass (self), 0);
  if (g_str_equal (key, "thickness"))
    return hw_words_number (get_thickness (self), 2);
  if (g_str_equal (key, "tex"))
    return hw_words_number (self->setup->needle_thread.tex, 0);
  if (g_str_equal (key, "plies"))
    return g_strdup_printf ("%u", hw_step_count_layers (self->setup->step));
  return NULL;
}

static char *
fill_text (const Filling *self, const char *text)
{
  g_autoptr (GString) out = g_string_new (NULL);

  while (*text != '\0')
    {
      const char *open = strchr (text, '{');
      const char *close = open != NULL ? strchr (open, '}') : NULL;
      g_autofree char *filled = NULL;

      if (close == NULL)
        break;
      g_string_append_len (out, text, open - text);
      filled = say_placeholder (self, open + 1, (gsize) (close - open - 1));
      if (filled != NULL)
        g_string_append (out, filled);
      else
        g_string_append_len (out, open, close + 1 - open);
      text = close + 1;
    }
  g_string_append (out, text);
  return g_string_free (g_steal_pointer (&out), FALSE);
}

/**
 * hw_words_rule:
 * @reason: one whose code is %HW_REASON_RULE
 *
 * Where an operation joins several cloths, a sentence about one of them begins
 * with its name.
 *
 * Returns: (transfer full): the rule's sentence, in the person's language, with
 *   its figures
 */
char *
hw_words_rule (const HwPlan *plan, const HwSetup *setup, const HwReason *reason)
{
  Filling self = { plan, setup, reason };
  g_autofree char *sentence = fill_text (&self, reason->rule->text);

  if (reason->cloth == NULL || setup->step->n_plies < 2)
    return g_steal_pointer (&sentence);
  /* Translators: a fabric's name, a sentence about it */
  return g_strdup_printf (_("%s: %s"), reason->cloth->fabric->name, sentence);
}
