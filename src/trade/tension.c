/* tension.c - the starting dial for a needle thread
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each term has an amount (doublings, millimetres, or one where it is simply
 * on), and adds amount x mean to the dial and amount x spread to what is not
 * known about it. So the start is linear in the amounts, and test seams can be
 * taken as evidence about the means. What is limited (a zigzag's width, the
 * cloth's terms together) is limited by its amount, so that mean and spread
 * stay in step.
 */

#include "config.h"

#include "trade/tension-private.h"

#include <math.h>

#define PRINTED_DIAL_RANGE   9.0     /* the scale that the handbook's numbers are for */
#define HALF_STEP_TOLERANCE  1e-9    /* a sum that should be 3.25 is not always exactly that */

#define BIT(term) (1u << (term))

const char * const hw_tension_term_ids[HW_N_TENSION_TERMS] = {
  [HW_TENSION_MACHINE] = "machine",
  [HW_TENSION_TEX] = "both-threads",
  [HW_TENSION_NEEDLE_HEAVIER] = "needle-heavier",
  [HW_TENSION_FILAMENT] = "filament",
  [HW_TENSION_MONOFILAMENT] = "monofilament",
  [HW_TENSION_METALLIC] = "metallic",
  [HW_TENSION_THICKER] = "thicker",
  [HW_TENSION_THINNER] = "thinner",
  [HW_TENSION_LONGER] = "longer",
  [HW_TENSION_SHORTER] = "shorter",
  [HW_TENSION_SHEER] = "sheer",
  [HW_TENSION_SLIPPERY] = "slippery",
  [HW_TENSION_JERSEY] = "jersey",
  [HW_TENSION_PILE] = "pile",
  [HW_TENSION_LOFTY] = "lofty",
  [HW_TENSION_COATED] = "coated",
  [HW_TENSION_LEATHER] = "leather",
  [HW_TENSION_ZIGZAG] = "zigzag",
  [HW_TENSION_MULTISTEP] = "multi-step",
  [HW_TENSION_STRETCH_STITCH] = "stretch-stitch",
  [HW_TENSION_BLIND] = "blind",
  [HW_TENSION_SATIN] = "satin",
  [HW_TENSION_BUTTONHOLE] = "buttonhole",
  [HW_TENSION_BAR_TACK] = "bar-tack",
  [HW_TENSION_TWIN] = "twin",
  [HW_TENSION_BASTE] = "baste",
  [HW_TENSION_GATHER] = "gather",
  [HW_TENSION_EASE] = "ease",
};

/* Terms with an amount of one where their bit is set. */
static const guint32 switched =
  BIT (HW_TENSION_FILAMENT) | BIT (HW_TENSION_MONOFILAMENT) | BIT (HW_TENSION_METALLIC) | BIT (HW_TENSION_SHEER) |
  BIT (HW_TENSION_SLIPPERY) | BIT (HW_TENSION_JERSEY) | BIT (HW_TENSION_PILE) | BIT (HW_TENSION_LOFTY) |
  BIT (HW_TENSION_COATED) | BIT (HW_TENSION_LEATHER) | BIT (HW_TENSION_MULTISTEP) | BIT (HW_TENSION_STRETCH_STITCH) |
  BIT (HW_TENSION_BLIND) | BIT (HW_TENSION_SATIN) | BIT (HW_TENSION_BUTTONHOLE) | BIT (HW_TENSION_BAR_TACK) |
  BIT (HW_TENSION_TWIN) | BIT (HW_TENSION_BASTE) | BIT (HW_TENSION_GATHER) | BIT (HW_TENSION_EASE);

/* Stitches whose own term already says what their swing does. */
static const guint32 shaped =
  BIT (HW_TENSION_MULTISTEP) | BIT (HW_TENSION_STRETCH_STITCH) | BIT (HW_TENSION_BLIND) | BIT (HW_TENSION_SATIN) |
  BIT (HW_TENSION_BUTTONHOLE) | BIT (HW_TENSION_BAR_TACK) | BIT (HW_TENSION_TWIN);

static const guint32 without_length = BIT (HW_TENSION_SATIN) | BIT (HW_TENSION_BUTTONHOLE) | BIT (HW_TENSION_BAR_TACK);

static const guint32 loose = BIT (HW_TENSION_BASTE) | BIT (HW_TENSION_GATHER);

static void
weigh_threads (double *amounts, const HwTensionPrior *prior, const HwTensionFacts *facts)
{
  double common = MIN (facts->needle_tex, facts->bobbin_tex);

  amounts[HW_TENSION_TEX] = log2 (common / prior->reference_tex);
  amounts[HW_TENSION_NEEDLE_HEAVIER] = log2 (facts->needle_tex / common);
}

static void
weigh_thickness (double *amounts, const HwTensionPrior *prior, const HwTensionFacts *facts)
{
  double thickness = CLAMP (facts->thickness_mm, prior->thinnest_mm, prior->thickest_mm);
  double doublings = log2 (thickness / prior->reference_thickness_mm);

  amounts[HW_TENSION_THICKER] = MAX (doublings, 0);
  amounts[HW_TENSION_THINNER] = MAX (-doublings, 0);
}

static void
weigh_length (double *amounts, const HwTensionPrior *prior, const HwTensionFacts *facts)
{
  double longer = CLAMP (facts->length_mm, prior->shortest_mm, prior->longest_mm) - prior->reference_length_mm;

  if ((facts->terms & without_length) != 0)
    return;
  amounts[HW_TENSION_LONGER] = MAX (longer, 0);
  amounts[HW_TENSION_SHORTER] = MAX (-longer, 0);
}

/* The swing counts up to the width at which the term reaches its floor. */
static void
weigh_width (double *amounts, const HwTensionPrior *prior, const HwTensionFacts *facts)
{
  double mean = prior->terms[HW_TENSION_ZIGZAG].mean;
  double widest = mean < 0 && prior->zigzag_floor < 0 ? prior->zigzag_floor / mean : facts->width_mm;

  if ((facts->terms & shaped) == 0)
    amounts[HW_TENSION_ZIGZAG] = MIN (facts->width_mm, widest);
}

/* A cloth that is sheer and slippery and more is one cloth: its terms share what they may take together. */
static void
limit_cloth (double *amounts, const HwTensionPrior *prior)
{
  double sum = 0;

  for (int term = HW_TENSION_SHEER; term <= HW_TENSION_LOFTY; term++)
    sum += amounts[term] * prior->terms[term].mean;
  if (sum >= prior->cloth_floor || prior->cloth_floor >= 0)
    return;
  for (int term = HW_TENSION_SHEER; term <= HW_TENSION_LOFTY; term++)
    amounts[term] *= prior->cloth_floor / sum;
}

void
hw_tension_weigh (double amounts[HW_N_TENSION_TERMS], const HwTensionPrior *prior, const HwTensionFacts *facts)
{
  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    amounts[term] = (switched & facts->terms & BIT (term)) != 0 ? 1 : 0;
  amounts[HW_TENSION_MACHINE] = 1;
  weigh_threads (amounts, prior, facts);
  weigh_thickness (amounts, prior, facts);
  weigh_length (amounts, prior, facts);
  weigh_width (amounts, prior, facts);
  limit_cloth (amounts, prior);
}

gboolean
hw_tension_facts_are_usable (const HwTensionFacts *facts)
{
  return facts->needle_tex > 0 && facts->bobbin_tex > 0 && facts->thickness_mm > 0 && facts->length_mm > 0
         && facts->width_mm >= 0 && isfinite (facts->needle_tex) && isfinite (facts->bobbin_tex)
         && isfinite (facts->thickness_mm) && isfinite (facts->length_mm) && isfinite (facts->width_mm);
}

double
hw_tension_unit (const HwDialScale *scale)
{
  return (scale->high - scale->low) / PRINTED_DIAL_RANGE;
}

double
hw_tension_window_below (const HwTensionPrior *prior, double thickness_mm)
{
  return prior->window_below + prior->window_below_per_mm * MIN (thickness_mm, prior->window_thickest_mm);
}

static double
limit_dial (double dial, double unit, const HwTensionPrior *prior, const HwTensionFacts *facts,
            const HwDialScale *scale)
{
  double lowest = (facts->terms & loose) != 0 ? prior->low_limit_loose : prior->low_limit;

  return CLAMP (dial, scale->low + unit * lowest, scale->low + unit * prior->high_limit);
}

HwTensionStart
hw_tension_add_up (const HwTensionPrior *prior, const HwTensionFacts *facts, const HwDialScale *scale,
                   const double amounts[HW_N_TENSION_TERMS], const double means[HW_N_TENSION_TERMS], double variance)
{
  HwTensionStart start = { 0 };
  double unit = hw_tension_unit (scale);
  double sum = 0;

  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    {
      start.terms[term] = amounts[term] * means[term];
      sum += start.terms[term];
    }
  start.dial = limit_dial (scale->neutral + unit * sum, unit, prior, facts, scale);
  start.sd = unit * sqrt (variance);
  start.window_low = MAX (start.dial - unit * hw_tension_window_below (prior, facts->thickness_mm), scale->low);
  start.window_high = MIN (start.dial + unit * prior->window_above, scale->high);
  return start;
}

/**
 * hw_tension_start:
 * @prior: the handbook's terms, for a dial from 0 to 9
 * @facts: the operation as it passes under the foot
 * @scale: this machine's dial
 *
 * Where to set the dial before anything was sewn, and how much of that is a
 * guess. The limits hold the start away from the ends of the dial; the terms
 * stay as they were added, so they need not sum up to a dial that was limited.
 *
 * Returns: the start, on the machine's own scale
 */
HwTensionStart
hw_tension_start (const HwTensionPrior *prior, const HwTensionFacts *facts, const HwDialScale *scale)
{
  HwTensionStart nothing = { 0 };
  double amounts[HW_N_TENSION_TERMS];
  double means[HW_N_TENSION_TERMS];
  double variance = 0;

  g_return_val_if_fail (prior != NULL && facts != NULL && scale != NULL && scale->low < scale->high, nothing);
  g_return_val_if_fail (facts->needle_tex > 0 && facts->bobbin_tex > 0, nothing);
  g_return_val_if_fail (facts->thickness_mm > 0 && facts->length_mm > 0 && facts->width_mm >= 0, nothing);

  hw_tension_weigh (amounts, prior, facts);
  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    {
      double spread = amounts[term] * prior->terms[term].sd;

      means[term] = prior->terms[term].mean;
      variance += spread * spread;
    }
  return hw_tension_add_up (prior, facts, scale, amounts, means, variance);
}

double
hw_dial_half_step (double dial)
{
  return ceil (dial * 2.0 - 0.5 - HALF_STEP_TOLERANCE) / 2.0;
}
