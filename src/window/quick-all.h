/* quick-all.h - all that an empty field of a typed step may be, the likeliest first
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "words/quick.h"

G_BEGIN_DECLS

/* Seams and stitches that the handbook's garments have for that purpose, then all others; the project's fabrics, as
 * many layers as @guess has: (element-type HwQuickOffer) (transfer full). Empty for the other fields. */
GPtrArray *hw_quick_all (const HwHandbook *handbook, const HwProject *project, const HwQuickGuess *guess,
                         HwQuickField field);

G_END_DECLS
