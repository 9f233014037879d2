/* tension-sites.h - what one verdict says about the balanced dial, given all else that is known of it
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All on the 0-9 scale, counted from the neutral number.
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

/* The balance point, with the eye's noise on top, was between @low and @high. One of them may be infinite; at weight 1
 * both, which says nothing. @weight is the exponent of that likelihood: 1, or one half for evidence that counts
 * half. */
typedef struct
{
  double low, high;
  double noise;                          /* > 0 */
  double weight;
} HwTensionEvidence;

/* A normal that stands in for the evidence: its precision, and precision times mean. */
typedef struct { double precision, shift; } HwTensionSite;

/* Chosen so that the normal @mean, @variance (> 0, what is known without this evidence) times the site has the mean
 * and the variance of the same normal times the evidence. precision >= 0. Sound however far the evidence lies out. */
HwTensionSite hw_tension_match (const HwTensionEvidence *evidence, double mean, double variance);

G_END_DECLS
