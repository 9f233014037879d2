/* sewn-seams.h - test seams sewn on machines that exist in tests alone
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "trade/tension-learn.h"

G_BEGIN_DECLS

/* A machine as it truly is: the terms that its balanced dial follows, unknown to the model. */
typedef struct { double terms[HW_N_TENSION_TERMS]; } SewnMachine;

double         normal_random   (GRand *rand);                    /* mean 0, spread 1 */
double         normal_below    (double x);                       /* Phi (x) */

/* One of the twenty-five first tries, or a change of thread, layers or length on one. */
HwTensionFacts sewn_facts      (GRand *rand);
/* Where that machine's stitch truly balances, on the 0-9 scale. */
double         sewn_balance    (const SewnMachine *machine, const HwTensionFacts *facts);
/* How the stitch looks at @dial, with the eye's noise. @puckers: what is too tight shows as a pucker half the time. */
HwVerdict      sewn_verdict    (const SewnMachine *machine, const HwTensionFacts *facts, double dial, gboolean puckers,
                                GRand *rand);

G_END_DECLS
