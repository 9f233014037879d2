/* wish.c - what a wish for the order of work costs, or why it cannot be
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/wish.h"

#include "model/edit.h"

static HwWishAnswer *
refuse (const HwProject *project, const HwWish *wish, const GError *error)
{
  HwWishAnswer *answer = g_new0 (HwWishAnswer, 1);

  answer->refusal = g_strdup (error->message);
  if (g_error_matches (error, HW_MODEL_ERROR, HW_MODEL_ERROR_CIRCLE))
    answer->chain = hw_project_find_chain (project, wish, &answer->by_wishes);
  return answer;
}

HwWishAnswer *
hw_wish_forbidden (const HwProject *project, const HwWish *wish)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) wished = NULL;

  g_return_val_if_fail (project != NULL && wish != NULL, NULL);

  wished = hw_edit_add_wish (project, wish, &error);
  return wished == NULL ? refuse (project, wish, error) : NULL;
}

/* The plan of @project in the place of @plan's. It was planned before, so that no set-up of it can fail. */
static HwPlan *
plan_anew (const HwPlan *plan, const HwProject *project, guint max_states)
{
  g_autoptr (GError) error = NULL;
  HwPlan *anew = hw_plan_new_within (plan->handbook, project, plan->room, max_states, &error);

  g_assert_no_error (error);
  return anew;
}

static HwWishAnswer *
compare (const HwPlan *with, const HwPlan *without)
{
  HwWishAnswer *answer = g_new0 (HwWishAnswer, 1);
  double more = with->as_ordered.change_minutes - without->as_ordered.change_minutes;

  answer->possible = TRUE;
  answer->proved = with->proved && without->proved;
  answer->minutes = more > 0.0005 ? more : 0;      /* minutes are sums of thousandths */
  return answer;
}

/* @plan itself when its order is proved already. (transfer full) */
static HwPlan *
prove (const HwPlan *plan, guint max_states)
{
  return plan->proved ? hw_plan_ref ((HwPlan *) plan) : plan_anew (plan, plan->project, max_states);
}

HwWishAnswer *
hw_wish_try (const HwPlan *plan, const HwWish *wish, guint max_states)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) wished = NULL;
  g_autoptr (HwPlan) with = NULL;
  g_autoptr (HwPlan) without = NULL;

  g_return_val_if_fail (plan != NULL && wish != NULL, NULL);

  wished = hw_edit_add_wish (plan->project, wish, &error);
  if (wished == NULL)
    return refuse (plan->project, wish, error);
  with = plan_anew (plan, wished, max_states);
  without = prove (plan, max_states);
  return compare (with, without);
}

HwWishAnswer *
hw_wish_cost (const HwPlan *plan, guint index, guint max_states)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) rest = NULL;
  g_autoptr (HwPlan) with = NULL;
  g_autoptr (HwPlan) without = NULL;

  g_return_val_if_fail (plan != NULL && index < plan->project->wishes->len, NULL);

  rest = hw_edit_remove_wish (plan->project, index, &error);
  g_assert_no_error (error);
  with = prove (plan, max_states);
  without = plan_anew (plan, rest, max_states);
  return compare (with, without);
}

void
hw_wish_answer_free (HwWishAnswer *self)
{
  if (self == NULL)
    return;
  g_strfreev (self->chain);
  g_free (self->refusal);
  g_free (self);
}
