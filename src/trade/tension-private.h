/* tension-private.h - what the untaught and the taught dial share
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An amount says how much of a term there is: doublings, millimetres, or one where it is simply on. What is limited
 * is limited in the amounts, by the prior's means, so the dial is linear in the terms whatever is learned of them.
 */

#pragma once
#include "trade/tension.h"

G_BEGIN_DECLS

gboolean hw_tension_facts_are_usable (const HwTensionFacts *facts);
void     hw_tension_weigh (double amounts[HW_N_TENSION_TERMS], const HwTensionPrior *prior,
                           const HwTensionFacts *facts);
/* One number of the 0-9 scale on this machine's. */
double   hw_tension_unit  (const HwDialScale *scale);
/* How far below its balance point a stitch still looks balanced, on the 0-9 scale. */
double   hw_tension_window_below (const HwTensionPrior *prior, double thickness_mm);
/* @means of the terms and @variance of their sum, on the 0-9 scale. */
HwTensionStart hw_tension_add_up (const HwTensionPrior *prior, const HwTensionFacts *facts, const HwDialScale *scale,
                                  const double amounts[HW_N_TENSION_TERMS], const double means[HW_N_TENSION_TERMS],
                                  double variance);

G_END_DECLS
