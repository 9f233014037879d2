/* order-trial.c - what a wish would cost, asked while a step is dragged
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The hand moves faster than orders are found: one trial runs on a thread of its own, and when it is back the last one
 * asked for meanwhile is begun.
 */

#include "config.h"

#include "window/order-trial.h"

#include "plan/wish.h"
#include "words/words.h"

struct _HwOrderTrial
{
  HwWorkspace       *workspace;
  HwOrderTrialAnswer answer;
  gpointer           data;
  char              *asked;              /* "4 2"; NULL: nothing is wanted */
  HwWish            *waiting;            /* to be tried when the running trial is back; NULL none */
  GTask             *running;            /* borrowed: it goes by itself */
};

typedef struct
{
  HwPlan       *plan;
  HwWish       *wish;
  char         *asked;
  HwOrderTrial *trial;                   /* NULL: freed meanwhile */
} Trial;

static void
free_trial (gpointer data)
{
  Trial *trial = data;

  hw_plan_unref (trial->plan);
  hw_wish_unref (trial->wish);
  g_free (trial->asked);
  g_free (trial);
}

static void
try_in_thread (GTask        *task,
               gpointer      source,
               gpointer      data,
               GCancellable *cancellable)
{
  const Trial *trial = data;

  g_task_return_pointer (task, hw_wish_try (trial->plan, trial->wish, HW_PLAN_QUICK_STATES),
                         (GDestroyNotify) hw_wish_answer_free);
}

static void begin (HwOrderTrial *self, HwWish *wish);

static void
tried_cb (GObject      *source,
          GAsyncResult *result,
          gpointer      data)
{
  Trial                   *trial = g_task_get_task_data (G_TASK (result));
  HwOrderTrial            *self = trial->trial;
  g_autoptr (HwWishAnswer) answer = g_task_propagate_pointer (G_TASK (result), NULL);

  if (self == NULL)
    return;
  self->running = NULL;
  if (answer != NULL && g_strcmp0 (trial->asked, self->asked) == 0)
    {
      g_autofree char *text = answer->possible ? hw_words_wish_cost (answer)
                                               : hw_words_wish_answer (trial->wish, answer);

      self->answer (text, answer->possible, self->data);
    }
  if (self->waiting != NULL)
    begin (self, g_steal_pointer (&self->waiting));
}

static void
begin (HwOrderTrial *self,
       HwWish       *wish)               /* (transfer full) */
{
  const HwPlan     *plan = hw_workspace_peek_plan (self->workspace);
  g_autoptr (GTask) task = NULL;
  Trial            *trial;

  if (plan == NULL || self->asked == NULL)
    {
      hw_wish_unref (wish);
      return;
    }
  trial = g_new0 (Trial, 1);
  *trial = (Trial) { hw_plan_ref ((HwPlan *) plan), wish, g_strdup (self->asked), self };
  task = g_task_new (NULL, NULL, tried_cb, NULL);
  g_task_set_source_tag (task, begin);
  g_task_set_task_data (task, trial, free_trial);
  self->running = task;
  g_task_run_in_thread (task, try_in_thread);
}

HwOrderTrial *
hw_order_trial_new (HwWorkspace       *workspace,
                    HwOrderTrialAnswer answer,
                    gpointer           data)
{
  HwOrderTrial *self = g_new0 (HwOrderTrial, 1);

  self->workspace = g_object_ref (workspace);
  self->answer = answer;
  self->data = data;
  return self;
}

void
hw_order_trial_ask (HwOrderTrial *self,
                    const char   *first,
                    const char   *second)
{
  const HwProject         *project = hw_workspace_peek_project (self->workspace);
  const char              *steps[] = { first, second, NULL };
  g_autofree char         *asked = g_strdup_printf ("%s %s", first, second);
  g_autoptr (HwWish)       wish = NULL;
  g_autoptr (HwWishAnswer) forbidden = NULL;

  if (project == NULL || g_strcmp0 (asked, self->asked) == 0)
    return;
  hw_order_trial_forget (self);
  self->asked = g_steal_pointer (&asked);
  wish = hw_wish_new (HW_WISH_BEFORE, steps);
  forbidden = hw_wish_forbidden (project, wish);
  if (forbidden != NULL)
    {
      g_autofree char *text = hw_words_wish_answer (wish, forbidden);

      self->answer (text, FALSE, self->data);
      return;
    }
  if (self->running != NULL)
    self->waiting = g_steal_pointer (&wish);
  else
    begin (self, g_steal_pointer (&wish));
}

void
hw_order_trial_forget (HwOrderTrial *self)
{
  g_clear_pointer (&self->asked, g_free);
  g_clear_pointer (&self->waiting, hw_wish_unref);
}

void
hw_order_trial_free (HwOrderTrial *self)
{
  if (self == NULL)
    return;
  hw_order_trial_forget (self);
  if (self->running != NULL)
    ((Trial *) g_task_get_task_data (self->running))->trial = NULL;
  g_object_unref (self->workspace);
  g_free (self);
}
