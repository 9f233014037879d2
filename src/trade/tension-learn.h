/* tension-learn.h - what test seams teach about a machine's dial
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The balanced dial is linear in the terms of tension.h, whose means and spreads are the prior. A verdict is
 * interval-censored evidence about it with normal noise (interval probit): the stitch looked balanced, so that the
 * dial lay inside the window; or it did not, so that the dial lay beyond one edge. The window is that of tension.h.
 * The posterior is kept by expectation propagation (T. Minka, UAI 2001).
 */

#pragma once
#include "trade/tension.h"

G_BEGIN_DECLS

typedef enum
{
  HW_VERDICT_LOOPS_BELOW,     /* "loops-below": needle thread loops underneath, after re-threading: dial too low */
  HW_VERDICT_BALANCED,        /* "balanced": the same on both sides; close stitches with needle thread a little
                               * underneath */
  HW_VERDICT_BOBBIN_ABOVE,    /* "bobbin-above": bobbin thread on top: too high */
  HW_VERDICT_PUCKER_RELEASED, /* "pucker-released": puckered, flat when both threads are cut: too high, half weight */
  HW_VERDICT_PUCKER_STAYS,    /* "pucker-stays": says nothing about the dial */
  HW_VERDICT_SKIPPED,         /* "skipped": nothing */
  HW_VERDICT_THREAD_SNAPS,    /* "thread-snaps": when the seam is pulled; nothing */
  HW_VERDICT_WAVY,            /* "wavy": nothing */
  HW_N_VERDICTS
} HwVerdict;
extern const char * const hw_verdict_ids[HW_N_VERDICTS + 1];
/* FALSE: @id (may be NULL) is none of them, and *verdict stays. */
gboolean         hw_verdict_find        (const char *id, HwVerdict *verdict);

typedef struct
{
  HwTensionFacts facts;
  double         dial;        /* as set, on the machine's own scale */
  HwVerdict      verdict;
} HwTestSeam;

typedef struct _HwTensionBelief HwTensionBelief;      /* opaque; does not change once made */

/* Does it say anything about the dial: one of the first four verdicts, with facts (a tex or thickness of 0 is none). */
gboolean         hw_test_seam_tells     (const HwTestSeam *self);

/* Order of @seams does not matter; those that do not tell are passed over. With none it is the prior. */
HwTensionBelief *hw_tension_belief_new  (const HwTensionPrior *prior, const HwDialScale *scale,
                                         const HwTestSeam *seams, gsize n_seams);
void             hw_tension_belief_free (HwTensionBelief *self);
guint            hw_tension_belief_n_telling (const HwTensionBelief *self);   /* seams that it learned from */
/* Was it a single one, and found too loose or too tight: a fault without anything to hold it against. */
gboolean         hw_tension_belief_is_first_fault (const HwTensionBelief *self);
/* Was a seam of these facts found balanced, and none at the same dial at fault? Writes its dial; of several the one
 * nearest to where the start is believed. */
gboolean         hw_tension_belief_find_good (const HwTensionBelief *self, const HwTensionFacts *facts, double *dial);
/* As hw_tension_start(), from what is believed now; without seams the two are equal to the last bit. */
HwTensionStart   hw_tension_belief_start(const HwTensionBelief *self, const HwTensionFacts *facts);
/* What another machine of the same kind may begin with: means and spreads of the terms as @self believes them, all but
 * the machine's own, which no two machines share. That the terms are believed together is left out, as if each had been
 * learned alone. */
HwTensionPrior   hw_tension_belief_hand_on (const HwTensionBelief *self);
/* The half-step to try after @dial got @verdict. */
double           hw_tension_belief_next (const HwTensionBelief *self, const HwTensionFacts *facts, double dial,
                                         HwVerdict verdict);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwTensionBelief, hw_tension_belief_free)

G_END_DECLS
