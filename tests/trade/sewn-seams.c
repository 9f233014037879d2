/* sewn-seams.c - test seams sewn on machines that exist in tests alone
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "sewn-seams.h"

#include "first-try.h"
#include "tension-prior.h"

#include <math.h>

double
normal_random (GRand *rand)
{
  double radius = sqrt (-2 * log (1 - g_rand_double (rand)));

  return radius * cos (2 * G_PI * g_rand_double (rand));
}

double
normal_below (double x)
{
  return 0.5 * erfc (-x / G_SQRT2);
}

HwTensionFacts
sewn_facts (GRand *rand)
{
  HwTensionFacts facts = first_tries[g_rand_int_range (rand, 0, FIRST_TRIES)].facts;

  if (g_rand_boolean (rand))
    facts.needle_tex = facts.bobbin_tex * (g_rand_boolean (rand) ? 1 : 2);
  if (g_rand_boolean (rand))
    facts.thickness_mm *= g_rand_double_range (rand, 0.7, 2);
  if (g_rand_boolean (rand))
    facts.length_mm = g_rand_double_range (rand, 1.5, 4);
  return facts;
}

/* What each term is there for follows from the prior's own sum: what it added over its mean. */
double
sewn_balance (const SewnMachine *machine, const HwTensionFacts *facts)
{
  HwTensionPrior ones = tension_prior;
  HwTensionStart start = hw_tension_start (&tension_prior, facts, &first_try_scale);
  double balance = first_try_scale.neutral;

  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    ones.terms[term].mean = 1;
  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    if (tension_prior.terms[term].mean != 0)
      balance += start.terms[term] / tension_prior.terms[term].mean * machine->terms[term];
    else
      balance += hw_tension_start (&ones, facts, &first_try_scale).terms[term] * machine->terms[term];
  return balance;
}

HwVerdict
sewn_verdict (const SewnMachine *machine, const HwTensionFacts *facts, double dial, gboolean puckers, GRand *rand)
{
  double seen = sewn_balance (machine, facts) + normal_random (rand) * tension_prior.verdict_noise;
  double below = tension_prior.window_below
                 + tension_prior.window_below_per_mm * MIN (facts->thickness_mm, tension_prior.window_thickest_mm);

  if (dial < seen - below)
    return HW_VERDICT_LOOPS_BELOW;
  if (dial <= seen + tension_prior.window_above)
    return HW_VERDICT_BALANCED;
  return puckers && g_rand_boolean (rand) ? HW_VERDICT_PUCKER_RELEASED : HW_VERDICT_BOBBIN_ABOVE;
}
