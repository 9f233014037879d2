/* tension-prior.h - the terms of the starting dial that tests work with
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "trade/tension.h"

G_BEGIN_DECLS

/* A teacher's judgement for an untaught machine with a dial from 0 to 9 and neutral 4: two plies of medium cotton
 * 0.8 mm under the foot, 2.5 mm, tex 30, start at 4. Common practice, no source. Kept apart from the handbook's own
 * file on purpose: these tests are about the sum, not about what the file says today. */
extern const HwTensionPrior tension_prior;

G_END_DECLS
