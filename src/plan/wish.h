/* wish.h - what a wish for the order of work costs, or why it cannot be
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/plan.h"

G_BEGIN_DECLS

typedef struct
{
  gboolean possible;
  double   minutes;                  /* of change time more than without it; may be negative 0, never less than 0 */
  gboolean proved;                   /* both orders are */
  char   **chain;                    /* impossible: the numbers that forbid it, in order; else NULL */
} HwWishAnswer;

/* What @wish would add to @plan's project. */
HwWishAnswer *hw_wish_try         (const HwPlan *plan, const HwWish *wish, guint max_states);
/* What the wish at @index costs now: the plan against the same without it. */
HwWishAnswer *hw_wish_cost        (const HwPlan *plan, guint index, guint max_states);
void          hw_wish_answer_free (HwWishAnswer *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwWishAnswer, hw_wish_answer_free)

G_END_DECLS
