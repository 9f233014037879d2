/* timer-bar.c - the timer of the chosen step: how far it has got, start, pause and done
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The running stitch grows toward the plan's minutes. While a clock runs its step stays here whatever is chosen, so
 * that it can be stopped from wherever one looks.
 */

#include "config.h"

#include "window/timer-bar.h"

#include <glib/gi18n.h>
#include "window/controls.h"
#include "window/gauge.h"
#include "window/stopwatch.h"
#include "words/words.h"

struct _HwTimerBar
{
  GtkBox       parent_instance;
  HwWorkspace *workspace;
  HwStopwatch *stopwatch;
  GtkWidget   *gauge;
  GtkLabel    *why, *name, *time;
  GtkButton   *run;
  GtkWidget   *done;
  char        *step;
  guint        tick_id;
};

G_DEFINE_FINAL_TYPE (HwTimerBar, hw_timer_bar, GTK_TYPE_BOX)

static const HwPlanStep *
find_open (HwTimerBar *self,
           const char *number)
{
  const HwPlan     *plan = hw_workspace_peek_plan (self->workspace);
  const HwPlanStep *planned = plan != NULL && number != NULL ? hw_plan_find_step (plan, number) : NULL;

  return planned != NULL && !planned->done ? planned : NULL;
}

/* NULL: every step is done. */
static const char *
peek_next (const HwPlan *plan)
{
  if (plan->next < 0)
    return NULL;
  return hw_project_get_step (plan->project, g_array_index (plan->order, HwPlanStep, plan->next).step)->number;
}

/* The one whose clock runs, else the chosen one, else the next. */
static const char *
choose_step (HwTimerBar *self)
{
  const HwPlan *plan = hw_workspace_peek_plan (self->workspace);
  const char   *project = NULL;
  const char   *number = NULL;

  if (plan == NULL)
    return NULL;
  if (hw_stopwatch_get_running (self->stopwatch, &project, &number) && g_str_equal (project, plan->project->id)
      && find_open (self, number) != NULL)
    return number;
  number = hw_workspace_peek_selected (self->workspace);
  if (find_open (self, number) != NULL)
    return number;
  return peek_next (plan);
}

/* Which step it is that would be timed, and why that one. */
static const char *
say_why (HwTimerBar   *self,
         const HwPlan *plan)
{
  const char *chosen = hw_workspace_peek_selected (self->workspace);
  const char *next = peek_next (plan);

  if (hw_stopwatch_is_running (self->stopwatch, plan->project->id, self->step))
    return _("The timer runs for this step");
  if (g_strcmp0 (self->step, next) == 0)
    return _("Timer for the next step");
  if (g_strcmp0 (self->step, chosen) == 0)
    return _("Timer for the step you chose");
  return _("Timer");
}

static void
show_time (HwTimerBar       *self,
           const HwPlanStep *planned)
{
  const HwPlan    *plan = hw_workspace_peek_plan (self->workspace);
  double           minutes = hw_stopwatch_minutes (self->stopwatch, plan->project->id, self->step);
  g_autofree char *clock = hw_words_clock (minutes);
  g_autofree char *whole = hw_words_minutes (planned->minutes);
  /* Translators: the clock of a step, such as 4:12; the plan's minutes for it, such as "10 min" */
  g_autofree char *text = g_strdup_printf (_("%s of %s"), clock, whole);
  gboolean         begun = minutes > 0 || hw_stopwatch_is_running (self->stopwatch, plan->project->id, self->step);

  gtk_label_set_text (self->time, begun ? text : whole);
  gtk_widget_set_visible (self->gauge, begun);
  hw_gauge_show (HW_GAUGE (self->gauge), text, minutes, MAX (planned->minutes, 0.1));
}

static gboolean
tick_cb (gpointer data)
{
  HwTimerBar       *self = data;
  const HwPlanStep *planned = find_open (self, self->step);

  if (planned != NULL && gtk_widget_get_mapped (GTK_WIDGET (self)))
    show_time (self, planned);
  return G_SOURCE_CONTINUE;
}

/* What is pressed or trimmed is not sewn. */
static void
show_done (HwTimerBar *self,
           gboolean    by_hand)
{
  gtk_button_set_label (GTK_BUTTON (self->done), by_hand ? _("Done") : _("Sewn"));
  hw_control_name (self->done, by_hand ? _("Done: note it with the timer's minutes")
                                       : _("Sewn: note it with the timer's minutes"));
}

static void
show_run (HwTimerBar *self,
          gboolean    by_hand)
{
  const HwPlan    *plan = hw_workspace_peek_plan (self->workspace);
  gboolean         runs = hw_stopwatch_is_running (self->stopwatch, plan->project->id, self->step);
  gboolean         begun = hw_stopwatch_minutes (self->stopwatch, plan->project->id, self->step) > 0;
  const char      *word = runs ? _("Pause") : begun ? _("Go on") : _("Start timer");
  /* Translators: a button's word; a step's number */
  g_autofree char *name = g_strdup_printf (_("%s, step %s"), word, self->step);

  gtk_button_set_label (self->run, word);
  hw_control_name (GTK_WIDGET (self->run), name);
  show_done (self, by_hand);
  gtk_widget_set_visible (self->done, runs || begun);
  if (runs && self->tick_id == 0)
    self->tick_id = g_timeout_add_seconds (1, tick_cb, self);
  else if (!runs)
    g_clear_handle_id (&self->tick_id, g_source_remove);
}

static void
refresh (HwTimerBar *self)
{
  const HwPlan     *plan = hw_workspace_peek_plan (self->workspace);
  g_autofree char  *step = g_strdup (choose_step (self));
  const HwPlanStep *planned = find_open (self, step);
  g_autofree char  *name = NULL;

  g_free (self->step);
  self->step = g_steal_pointer (&step);
  gtk_widget_set_visible (GTK_WIDGET (self), planned != NULL);
  if (planned == NULL)
    {
      g_clear_handle_id (&self->tick_id, g_source_remove);
      return;
    }
  /* Translators: a step's number and name */
  name = g_strdup_printf (_("%s  %s"), self->step, hw_project_get_step (plan->project, planned->step)->name);
  gtk_label_set_text (self->why, say_why (self, plan));
  gtk_label_set_text (self->name, name);
  show_time (self, planned);
  show_run (self, hw_project_get_step (plan->project, planned->step)->kind == HW_STEP_HAND);
}

static void
hw_timer_bar_dispose (GObject *object)
{
  HwTimerBar *self = HW_TIMER_BAR (object);

  g_clear_handle_id (&self->tick_id, g_source_remove);
  g_clear_pointer (&self->step, g_free);
  g_clear_object (&self->stopwatch);
  g_clear_object (&self->workspace);
  G_OBJECT_CLASS (hw_timer_bar_parent_class)->dispose (object);
}

static void
hw_timer_bar_class_init (HwTimerBarClass *class)
{
  G_OBJECT_CLASS (class)->dispose = hw_timer_bar_dispose;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (class), GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
hw_timer_bar_init (HwTimerBar *self)
{
  GtkWidget *what = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_widget_add_css_class (GTK_WIDGET (self), "sheet");
  gtk_widget_add_css_class (GTK_WIDGET (self), "timer");
  gtk_box_set_spacing (GTK_BOX (self), 12);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Timer"), -1);
  self->gauge = hw_gauge_new (_("Time at the step"), "", 0, 1);
  gtk_widget_set_valign (self->gauge, GTK_ALIGN_CENTER);
  self->why = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_xalign (self->why, 0);
  gtk_label_set_ellipsize (self->why, PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (GTK_WIDGET (self->why), "small");
  gtk_widget_add_css_class (GTK_WIDGET (self->why), "mute");
  self->name = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_xalign (self->name, 0);
  gtk_label_set_ellipsize (self->name, PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (GTK_WIDGET (self->name), TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (self->name), "strong");
  hw_label_tell_whole (GTK_WIDGET (self->why));
  hw_label_tell_whole (GTK_WIDGET (self->name));
  self->time = GTK_LABEL (gtk_label_new (NULL));
  self->run = GTK_BUTTON (gtk_button_new ());
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->run), "order.timer");
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->run), _("Starts and stops the step's clock (Ctrl+T)"));
  self->done = gtk_button_new ();
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->done), "order.timed-done");
  gtk_widget_add_css_class (self->done, "suggested");
  gtk_box_append (GTK_BOX (what), GTK_WIDGET (self->why));
  gtk_box_append (GTK_BOX (what), GTK_WIDGET (self->name));
  gtk_widget_set_hexpand (what, TRUE);
  gtk_box_append (GTK_BOX (self), what);
  gtk_box_append (GTK_BOX (self), self->gauge);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->time));
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->run));
  gtk_box_append (GTK_BOX (self), self->done);
}

GtkWidget *
hw_timer_bar_new (HwWorkspace *workspace)
{
  HwTimerBar *self = g_object_new (HW_TYPE_TIMER_BAR, NULL);

  self->workspace = g_object_ref (workspace);
  self->stopwatch = g_object_ref (hw_workspace_get_stopwatch (workspace));
  g_signal_connect_object (workspace, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (workspace, "selection", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->stopwatch, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  refresh (self);
  return GTK_WIDGET (self);
}

const char *
hw_timer_bar_peek_step (HwTimerBar *self)
{
  g_return_val_if_fail (HW_IS_TIMER_BAR (self), NULL);

  return self->step;
}
