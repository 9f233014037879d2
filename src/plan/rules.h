/* rules.h - matching rows of the pairing tables against the facts of an operation
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Runs for every row of every table in every pairing: bit masks and ranges only, no strings.
 */

#pragma once
#include "handbook/handbook.h"

G_BEGIN_DECLS

/* What all plies of an operation have between them, for conditions marked all="yes". */
typedef struct
{
  HwSet        constructions;            /* of any ply */
  guint        families;
  const HwSet *traits;                   /* one set a cloth, backings aside */
  gsize        n_plies;                  /* how many sets */
} HwPlySets;

/* What conditions look at: of one ply, or of the operation. */
typedef struct
{
  double           mass_g_m2, thickness_mm, stretch_percent, tex, plies;
  HwSet            constructions, traits, purposes, seams, stitches;
  guint            families, machines, forms;
  const HwPlySets *whole;
} HwFacts;

gboolean      hw_rule_fits   (const HwRule *rule, const HwFacts *facts);

/* The first row that fits; NULL none. */
const HwRule *hw_rules_first (const HwHandbook *handbook, HwRuleSubject subject, const HwFacts *facts);

G_END_DECLS
