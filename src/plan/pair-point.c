/* pair-point.c - the needle's point, and the spacing of a twin
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The most easily harmed ply decides. A cutting point cuts a slot: never in cloth, so only where every ply is skin.
 */

#include "config.h"

#include "plan/pairing-private.h"
#include "trade/needle.h"

#include <glib/gi18n.h>
#include <math.h>

#define TWIN_PLATE_CLEARANCE_MM 1.0      /* half a millimetre on each side, as in hw_twin_allowed_width_mm() */

typedef struct
{
  const HwRule  *rule;
  const HwCloth *cloth;                  /* NULL: the work decides */
} Decider;

/* Points that the machine's needle system is made with, that these plies bear, and as twins where one is needed. */
static HwSet
list_allowed (const HwPairing *self)
{
  HwSet system = HW_SET ((guint) self->setup->values[HW_FIELD_SYSTEM].value);
  gboolean skin_only = self->sets.families == 1u << HW_FAMILY_SKIN;
  HwSet allowed = 0;

  for (gsize i = 0; i < self->handbook->n_points; i++)
    {
      const HwPoint *point = &self->handbook->points[i];

      if ((point->systems & system) != 0
          && (skin_only || point->form != HW_POINT_CUTTING)
          && (!self->twin || point->n_twins > 0))
        allowed |= HW_SET (i);
    }
  return allowed;
}

/* Of rows with equal rank the earlier in the table, so that the order of the plies does not matter. */
static gboolean
decides_over (const HwRule *one, const HwRule *other)
{
  return other == NULL || one->rank > other->rank || (one->rank == other->rank && one->line < other->line);
}

/* What the ply with the highest rank wants, and what every ply accepts (0: nothing in common). */
static Decider
ask_plies (const HwPairing *self, HwSet *common)
{
  Decider decider = { NULL, NULL };

  *common = ~(HwSet) 0;
  for (gsize i = 0; i < self->n_plies; i++)
    {
      const HwRule *rule = hw_rules_first (self->handbook, HW_RULES_POINT, &self->plies[i].facts);

      if (rule == NULL)
        continue;
      *common &= rule->accept;
      if (decides_over (rule, decider.rule))
        decider = (Decider) { rule, self->plies[i].cloth };
    }
  return decider;
}

/* The points of @set that are of the form of @point; all of @set when none is. */
static HwSet
prefer_form (const HwPairing *self, HwSet set, int point)
{
  HwSet alike = 0;

  for (gsize i = 0; i < self->handbook->n_points; i++)
    if ((set & HW_SET (i)) != 0 && self->handbook->points[i].form == self->handbook->points[point].form)
      alike |= HW_SET (i);
  return alike != 0 ? alike : set;
}

static int
find_first (HwSet set)
{
  return set != 0 ? __builtin_ctzll (set) : -1;
}

/* Where the point wanted may not be had: an accepted one, else one of like form, else any. */
static int
find_substitute (const HwPairing *self, int wanted, HwSet accept, HwSet allowed)
{
  HwPointForm form = wanted >= 0 ? self->handbook->points[wanted].form : HW_POINT_ROUND;

  if ((accept & allowed) != 0)
    return find_first (accept & allowed);
  for (gsize i = 0; i < self->handbook->n_points; i++)
    if ((allowed & HW_SET (i)) != 0 && self->handbook->points[i].form == form)
      return (int) i;
  return find_first (allowed);
}

/* Says why the point wanted gave way: to a ply that a cutting point would cut, or to the machine. */
static void
explain_substitute (HwPairing *self, int wanted)
{
  if (wanted >= 0 && self->handbook->points[wanted].form == HW_POINT_CUTTING)
    for (gsize i = 0; i < self->n_plies; i++)
      {
        const HwRule *rule = hw_rules_first (self->handbook, HW_RULES_POINT, &self->plies[i].facts);

        if (rule != NULL && self->plies[i].facts.families != 1u << HW_FAMILY_SKIN)
          {
            hw_pairing_add_rule (self, HW_FIELD_POINT, rule, self->plies[i].cloth);
            return;
          }
      }
  hw_pairing_add_reason (self, HW_FIELD_POINT, HW_REASON_MACHINE, self->practice, 0, 0, 0);
}

/* Names the ply that does not bear the point another wants: they get one that both accept. */
static void
explain_common (HwPairing *self, int wanted)
{
  for (gsize i = 0; i < self->n_plies; i++)
    {
      const HwRule *rule = hw_rules_first (self->handbook, HW_RULES_POINT, &self->plies[i].facts);

      if (rule != NULL && (rule->accept & HW_SET (wanted)) == 0)
        {
          hw_pairing_add_rule (self, HW_FIELD_POINT, rule, self->plies[i].cloth);
          return;
        }
    }
}

static gboolean
settle_form (HwPairing *self, GError **error)
{
  HwSet allowed = list_allowed (self);
  HwSet common, accept;
  Decider decider = ask_plies (self, &common);
  const HwRule *work = hw_rules_first (self->handbook, HW_RULES_POINT_WORK, &self->facts);
  int wanted;

  if (work != NULL)
    decider = (Decider) { work, NULL };
  accept = decider.rule == NULL                  ? allowed
           : work == NULL && (common & allowed) ? common
                                                : decider.rule->accept;
  wanted = decider.rule != NULL ? decider.rule->choice : -1;
  if (decider.rule != NULL)
    hw_pairing_add_rule (self, HW_FIELD_POINT, decider.rule, decider.cloth);
  if (wanted >= 0 && (accept & allowed) != 0 && (accept & HW_SET (wanted)) == 0)
    {
      explain_common (self, wanted);
      wanted = find_first (prefer_form (self, accept & allowed, wanted));
    }
  if (wanted < 0 || (allowed & HW_SET (wanted)) == 0)
    {
      explain_substitute (self, wanted);
      wanted = find_substitute (self, wanted, accept, allowed);
    }
  if (wanted < 0)
    {
      g_set_error_literal (error, HW_PLAN_ERROR, HW_PLAN_ERROR_UNKNOWN,
                           _("the handbook has no needle point for this machine's needle system"));
      return FALSE;
    }
  return hw_pairing_set_choice (self, HW_FIELD_POINT, wanted, accept & allowed, error);
}

/* ---- twins ---- */

static gboolean
passes (const HwMachine *machine, double spacing_mm)
{
  return spacing_mm <= machine->plate_opening_mm - TWIN_PLATE_CLEARANCE_MM
         && hw_twin_allowed_width_mm (spacing_mm, machine->width_max_mm) >= 0;
}

/* The spacing sold that is nearest to @wanted_mm, the narrower of equals; of all, or of those the machine passes. */
static double
find_spacing (const HwPoint *point, double wanted_mm, const HwMachine *machine)
{
  double nearest = NAN;

  for (gsize i = 0; i < point->n_twins; i++)
    {
      double spacing = point->twins[i].spacing_mm;
      double gap = fabs (spacing - wanted_mm) - fabs (nearest - wanted_mm);

      if (machine != NULL && !passes (machine, spacing))
        continue;
      if (isnan (nearest) || gap < 0 || (!(gap > 0) && spacing < nearest))
        nearest = spacing;
    }
  return nearest;
}

/* The widest sold with @point that the machine passes; 0 when it passes none. */
static double
find_widest (const HwPoint *point, const HwMachine *machine)
{
  double widest = 0;

  for (gsize i = 0; i < point->n_twins; i++)
    if (passes (machine, point->twins[i].spacing_mm))
      widest = MAX (widest, point->twins[i].spacing_mm);
  return widest;
}

static void
settle_spacing (HwPairing *self)
{
  const HwMachine *machine = self->setup->machine;
  const HwPoint *point = &self->handbook->points[(gsize) self->setup->values[HW_FIELD_POINT].value];
  const HwRule *rule = hw_rules_first (self->handbook, HW_RULES_TWIN, &self->facts);
  HwBand band = rule != NULL ? rule->band : (HwBand) { 1.6, 2.5, 4 };
  HwValue *value = &self->setup->values[HW_FIELD_TWIN];
  double widest = find_widest (point, machine);
  double wanted = find_spacing (point, band.prefer, NULL);
  double fits = find_spacing (point, band.prefer, machine);

  if (isnan (wanted))                    /* an overridden point that no twin is sold with */
    wanted = fits = band.prefer;
  if (isnan (fits))
    fits = wanted;                       /* no twin passes at all: the warning says so */
  if (rule != NULL)
    hw_pairing_add_rule (self, HW_FIELD_TWIN, rule, NULL);
  else
    hw_pairing_add_reason (self, HW_FIELD_TWIN, HW_REASON_MACHINE, self->practice, 0, 0, 0);

  *value = (HwValue) { .applies = TRUE, .low = MIN (band.low, fits), .prefer = fits, .value = fits,
                       .high = MAX (MIN (band.high, widest), fits) };
  if (fits < wanted || fits > wanted)
    {
      value->origin = HW_ORIGIN_CLAMPED;
      hw_pairing_add_reason (self, HW_FIELD_TWIN, HW_REASON_CLAMPED, self->practice, wanted, fits, 0);
    }
  hw_pairing_override_number (self, HW_FIELD_TWIN);
  if (value->origin == HW_ORIGIN_CLAMPED || !passes (machine, value->value))
    hw_pairing_add_warning (self, HW_FIELD_TWIN, HW_WARN_TWIN_WIDE, NULL,
                            value->origin == HW_ORIGIN_CLAMPED ? wanted : value->value,
                            MIN (machine->plate_opening_mm, machine->width_max_mm), widest);
}

gboolean
hw_pairing_settle_point (HwPairing *self, GError **error)
{
  if (!settle_form (self, error))
    return FALSE;
  if (self->twin)
    settle_spacing (self);
  return TRUE;
}
