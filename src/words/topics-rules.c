/* topics-rules.c - what the handbook says in the rows of its pairing, the starting dial and its sources
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/topics-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

static const struct { const char *name; const char *unit; const char *table; } subjects[HW_N_RULE_SUBJECTS] = {
  [HW_RULES_THREAD] = { N_("Needle thread"), "tex", NULL },
  [HW_RULES_BOBBIN] = { N_("Bobbin or looper thread"), "tex", NULL },
  [HW_RULES_POINT] = { N_("Needle point, by cloth"), "", "point" },
  [HW_RULES_POINT_WORK] = { N_("Needle point, by work"), "", "point" },
  [HW_RULES_CLOTH_SIZE] = { N_("Needle size, by cloth"), "Nm", NULL },
  [HW_RULES_STACK_SIZE] = { N_("Needle size, by layers"), "Nm", NULL },
  [HW_RULES_THREAD_SIZE] = { N_("Needle size, by thread"), "Nm", NULL },
  [HW_RULES_TWIN] = { N_("Spacing of a twin needle"), "mm", NULL },
  [HW_RULES_LENGTH] = { N_("Stitch length"), "mm", NULL },
  [HW_RULES_WIDTH] = { N_("Stitch width"), "mm", NULL },
  [HW_RULES_FOOT] = { N_("Foot"), "", "foot" },
  [HW_RULES_PLATE] = { N_("Plate"), "", "plate" },
  [HW_RULES_PRESSURE] = { N_("Foot pressure"), N_("steps from normal"), NULL },
  [HW_RULES_ENDS] = { N_("Ends of the row"), "", NULL },
  [HW_RULES_ALLOWANCE] = { N_("Seam allowance"), "mm", NULL },
  [HW_RULES_DIFFERENTIAL] = { N_("Differential feed"), "", NULL },
  [HW_RULES_CUTTING] = { N_("Cutting width"), "mm", NULL },
  [HW_RULES_LOOPER_DIAL] = { N_("Dials of the overlocker"), "", NULL },
};

const char *
hw_topic_subject (HwRuleSubject subject)
{
  return _(subjects[subject].name);
}

/* ---- the sentence ---- */

/* What a place of the sentence says without an operation; what only an operation knows is left as dots. */
static char *
fill_place (const HwRule *rule,
            const char   *name)
{
  double value = NAN;

  if (g_str_equal (name, "low"))
    value = rule->band.low;
  else if (g_str_equal (name, "high"))
    value = rule->band.high;
  else if (g_str_equal (name, "value"))
    value = isfinite (rule->band.prefer) ? rule->band.prefer : rule->band.low;
  return isfinite (value) ? hw_words_number (value, 2) : g_strdup ("…");
}

char *
hw_topic_row_name (const HwRule *rule)
{
  g_autoptr (GString) out = g_string_new (NULL);
  const char *text = rule->text;
  const char *open = NULL;

  while ((open = strchr (text, '{')) != NULL && strchr (open, '}') != NULL)
    {
      const char      *close = strchr (open, '}');
      g_autofree char *name = g_strndup (open + 1, (gsize) (close - open - 1));
      g_autofree char *filled = fill_place (rule, name);

      g_string_append_len (out, text, open - text);
      g_string_append (out, filled);
      text = close + 1;
    }
  g_string_append (out, text);
  return g_string_free (g_steal_pointer (&out), FALSE);
}

/* ---- a row ---- */

static void
tell_words (HwTeller     *self,
            const char   *name,
            guint         mask,
            const char *(*word) (guint index),
            guint         n)
{
  gboolean first = TRUE;

  for (guint i = 0; i < n; i++)
    if ((mask & (1u << i)) != 0)
      {
        hw_tell (self, first ? name : NULL, g_strdup (word (i)));
        first = FALSE;
      }
}

static void
tell_conditions (HwTeller     *self,
                 const HwRule *rule)
{
  tell_words (self, _("On"), rule->machines, hw_topic_machine, HW_N_MACHINE_KINDS);
  hw_tell_set (self, _("For"), "purpose", rule->purposes);
  hw_tell_set (self, _("In the seam"), "seam", rule->seams);
  hw_tell_set (self, _("With the stitch"), "stitch", rule->stitches);
  tell_words (self, _("In cloth that is"), rule->families, hw_topic_family, HW_FAMILY_NET + 1);
  hw_tell_set (self, rule->all ? _("Every layer is") : _("A layer is"), "construction", rule->constructions);
  hw_tell_set (self, rule->all ? _("Every layer has") : _("A layer has"), "trait", rule->traits);
  hw_tell_set (self, _("No layer has"), "trait", rule->without);
  hw_tell_range (self, _("Mass"), &rule->mass, "g/m²");
  hw_tell_range (self, _("Thickness"), &rule->thickness, "mm");
  hw_tell_range (self, _("Stretch"), &rule->stretch, "%");
  hw_tell_range (self, _("Layers"), &rule->plies, "");
  hw_tell_range (self, _("Needle thread"), &rule->tex, "tex");
  tell_words (self, _("Thread that is"), rule->forms, hw_topic_form, HW_THREAD_ELASTIC + 1);
}

static void
tell_value (HwTeller     *self,
            const HwRule *rule)
{
  const char *unit = subjects[rule->subject].unit;
  const char *table = subjects[rule->subject].table;
  HwRange     open = { rule->band.low, isfinite (rule->band.high) ? rule->band.high : INFINITY };

  if (rule->subject == HW_RULES_ENDS)
    hw_tell (self, _("Then"), hw_words_ends ((HwEnds) rule->choice));
  else if (table != NULL)
    {
      hw_tell_entry (self, _("Then"), table, rule->choice);
      hw_tell_set (self, _("Will do too"), table, rule->accept & ~HW_SET (rule->choice));
    }
  else if (isfinite (rule->band.prefer))
    hw_tell_band (self, _("Then"), &rule->band, *unit != '\0' ? _(unit) : "");
  else
    hw_tell_range (self, _("Then"), &open, *unit != '\0' ? _(unit) : "");
}

void
hw_tell_row (HwTeller     *self,
             const HwRule *rule)
{
  hw_tell (self, _("Decides"), g_strdup (hw_topic_subject (rule->subject)));
  tell_conditions (self, rule);
  tell_value (self, rule);
}

/* ---- the starting dial ---- */

void
hw_tell_tension (HwTeller *self,
                 int       term)
{
  g_autofree char *mean = hw_words_number (self->handbook->tension.terms[term].mean, 2);
  g_autofree char *spread = hw_words_number (self->handbook->tension.terms[term].sd, 2);

  /* Translators: numbers on a tension dial from 0 to 9 */
  hw_tell (self, _("Moves the dial by"), g_strdup_printf (_("%s, give or take %s, on a dial from 0 to 9"), mean,
                                                          spread));
}

static void
tell_prior (HwTeller *self)
{
  const HwTensionPrior *prior = &self->handbook->tension;

  hw_tell_number (self, _("Layers under the foot"), prior->reference_thickness_mm, 2, "mm");
  hw_tell_number (self, _("Counted to, at most"), prior->thickest_mm, 2, "mm");
  hw_tell_number (self, _("Counted to, at least"), prior->thinnest_mm, 2, "mm");
  hw_tell_number (self, _("Stitch length"), prior->reference_length_mm, 2, "mm");
  hw_tell_number (self, _("Thread"), prior->reference_tex, 1, "tex");
  hw_tell_number (self, _("Cloth takes off at most"), prior->cloth_floor, 2, "");
  hw_tell_number (self, _("A zigzag, at most"), prior->zigzag_floor, 2, "");
  hw_tell_number (self, _("Lowest dial"), prior->low_limit, 2, "");
  hw_tell_number (self, _("Highest dial"), prior->high_limit, 2, "");
  hw_tell_number (self, _("Balanced below it by"), prior->window_below, 2, "");
  hw_tell_number (self, _("Balanced above it by"), prior->window_above, 2, "");
}

static void
tell_changes (HwTeller *self)
{
  const HwChangeCosts *changes = &self->handbook->changes;

  hw_tell_minutes (self, _("Another machine"), changes->walk);
  hw_tell_minutes (self, _("Needle"), changes->needle);
  hw_tell_minutes (self, _("Thread"), changes->thread);
  hw_tell_minutes (self, _("Bobbin"), changes->bobbin);
  hw_tell_minutes (self, _("Foot"), changes->foot);
  hw_tell_minutes (self, _("Plate"), changes->plate);
  hw_tell_minutes (self, _("Stitch"), changes->stitch);
  hw_tell_minutes (self, _("Length, width, dial"), changes->soft);
  hw_tell_minutes (self, _("Each cone"), changes->overlock_thread);
}

void
hw_tell_figures (HwTeller   *self,
                 const char *id)
{
  if (g_str_equal (id, "needle-life"))
    {
      hw_tell_number (self, _("At the machine"), self->handbook->needle_life.at_machine_hours, 1, "h");
      hw_tell_number (self, _("With the needle moving"), self->handbook->needle_life.running_hours, 1, "h");
    }
  else if (g_str_equal (id, "hours"))
    hw_tell_number (self, _("The needle moves"), self->handbook->running_share * 100, 0, "%");
  else if (g_str_equal (id, "changes"))
    tell_changes (self);
  else
    tell_prior (self);
}

/* ---- sources ---- */

void
hw_tell_source (HwTeller       *self,
                const HwSource *source)
{
  static const char * const kinds[] = {
    [HW_SOURCE_STANDARD] = N_("standard"),
    [HW_SOURCE_BOOK] = N_("book"),
    [HW_SOURCE_PAPER] = N_("paper"),
    [HW_SOURCE_BULLETIN] = N_("bulletin of a maker or an institute"),
    [HW_SOURCE_COMMON_PRACTICE] = N_("common practice, without a document"),
    [HW_SOURCE_FROM_MEMORY] = N_("from memory, not looked up again"),
  };

  hw_tell (self, _("Kind of source"), g_strdup (_(kinds[source->kind])));
  if (source->where != NULL)
    hw_tell (self, _("Where"), g_strdup (source->where));
}
