/* wish.h - what a wish for the order of work costs, or why it cannot be
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/plan.h"

G_BEGIN_DECLS

typedef struct
{
  gboolean possible;
  double   minutes;                  /* of change time more than without it, never less than 0 */
  gboolean proved;                   /* both orders are */
  char   **chain;                    /* impossible: the numbers that forbid it, each after the next; or see refusal */
  gboolean by_wishes;                /* other wishes are links of the chain, besides the making up */
  char    *refusal;                  /* impossible: one sentence; else NULL */
} HwWishAnswer;

/* Why @wish cannot be taken in; NULL: it can. Needs no plan. */
HwWishAnswer *hw_wish_forbidden   (const HwProject *project, const HwWish *wish);
/* What @wish would add to @plan's project: as hw_edit_add_wish() would take it in. @max_states as for
 * hw_plan_new_within(), for each order that is not proved yet. Safe off the main thread. */
HwWishAnswer *hw_wish_try         (const HwPlan *plan, const HwWish *wish, guint max_states);
/* What the wish at @index costs now: the plan against the same without it. */
HwWishAnswer *hw_wish_cost        (const HwPlan *plan, guint index, guint max_states);
void          hw_wish_answer_free (HwWishAnswer *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwWishAnswer, hw_wish_answer_free)

G_END_DECLS
