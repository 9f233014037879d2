/* at-hand.h - a needle that the sewing room has, where it passes as well
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/changes.h"

G_BEGIN_DECLS

/* By either clock; one thrown away has none. */
gboolean hw_needle_has_hours_left (const HwHandbook *handbook, const HwNeedle *needle);
/* In the case, new or with hours left: (element-type HwNeedleKind), each kind once. (transfer full) */
GArray  *hw_needles_at_hand      (const HwHandbook *handbook, const HwRoom *room);

/* Gives @setup the needle in the case or in its machine that lies nearest to the preferred one, with HW_REASON_AT_HAND,
 * where that one is not; nothing where the person set its size or refused to share. */
void     hw_setup_prefer_at_hand (const HwPlan *plan, HwSetup *setup);
/* Back to the preferred one: when another was agreed on, or sewn with. */
void     hw_setup_forget_at_hand (HwSetup *setup);

/* How far one needle lies from another: a size step is 5 to 20 in Nm, HW_NEEDLE_STEP for short; another point weighs as
 * two of them, another system as four. Own judgement. */
#define HW_NEEDLE_STEP 10
int      hw_needle_distance      (const HwNeedleKind *a, const HwNeedleKind *b);
/* Would the thread of @setup run well in the eye and groove of a needle of that kind? A band of sizes was made
 * for the preferred point; another point with a smaller eye takes less thread at the same size. */
gboolean hw_needle_takes_thread  (const HwPlan *plan, const HwSetup *setup, const HwNeedleKind *kind);

G_END_DECLS
