/* rules.c - matching rows of the pairing tables against the facts of an operation
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/rules.h"

static inline gboolean
lies_in (double value, HwRange range)
{
  return value >= range.low && value <= range.high;
}

static inline gboolean
shares (guint64 wanted, guint64 present)
{
  return wanted == 0 || (wanted & present) != 0;
}

static inline gboolean
covers (guint64 wanted, guint64 present)
{
  return wanted == 0 || (present & ~wanted) == 0;
}

static gboolean
every_ply_has_trait (const HwPlySets *whole, HwSet wanted)
{
  if (wanted == 0)
    return TRUE;
  for (gsize i = 0; i < whole->n_plies; i++)
    if ((whole->traits[i] & wanted) == 0)
      return FALSE;
  return TRUE;
}

static gboolean
fits_every_ply (const HwRule *rule, const HwPlySets *whole)
{
  return covers (rule->constructions, whole->constructions)
         && covers (rule->families, whole->families)
         && every_ply_has_trait (whole, rule->traits);
}

/* The masks that most rows differ in come first. */
gboolean
hw_rule_fits (const HwRule *rule, const HwFacts *facts)
{
  return shares (rule->purposes, facts->purposes)
         && shares (rule->seams, facts->seams)
         && shares (rule->machines, facts->machines)
         && shares (rule->stitches, facts->stitches)
         && shares (rule->families, facts->families)
         && shares (rule->constructions, facts->constructions)
         && shares (rule->traits, facts->traits)
         && (rule->without & facts->traits) == 0
         && shares (rule->forms, facts->forms)
         && lies_in (facts->mass_g_m2, rule->mass)
         && lies_in (facts->thickness_mm, rule->thickness)
         && lies_in (facts->stretch_percent, rule->stretch)
         && lies_in (facts->tex, rule->tex)
         && lies_in (facts->plies, rule->plies)
         && (!rule->all || fits_every_ply (rule, facts->whole));
}

const HwRule *
hw_rules_first (const HwHandbook *handbook, HwRuleSubject subject, const HwFacts *facts)
{
  const HwRule *rules = handbook->rules[subject];
  gsize n_rules = handbook->n_rules[subject];

  for (gsize i = 0; i < n_rules; i++)
    if (hw_rule_fits (&rules[i], facts))
      return &rules[i];
  return NULL;
}
