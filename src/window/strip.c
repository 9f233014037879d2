/* strip.c - what is in the machine, what to load next and the care that is due
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/strip.h"

#include <glib/gi18n.h>

#include "plan/closing.h"
#include "window/controls.h"
#include "window/motif.h"
#include "window/wrap.h"
#include "words/words.h"

struct _HwStrip
{
  GtkBox       parent_instance;
  HwWorkspace *workspace;
  GtkBox      *now_box, *next_box;
  GtkLabel    *now_heading, *now_label, *next_heading, *next_label, *care_label;
  GtkWidget   *arrow, *now_needle, *next_needle, *loaded_button, *finish_button, *timer_button;
  guint        tick_id;
};

G_DEFINE_FINAL_TYPE (HwStrip, hw_strip, GTK_TYPE_BOX)

static void
set_label (GtkLabel *label,
           char     *text)              /* (transfer full) (nullable) */
{
  gtk_label_set_text (label, text != NULL ? text : "");
  g_free (text);
}

/* What stands after it is at the end of the strip. */
static void
show_next (HwStrip *self,
           gboolean show)
{
  gtk_widget_set_visible (GTK_WIDGET (self->next_box), show);
  gtk_widget_set_hexpand (GTK_WIDGET (self->now_box), !show);
}

/* No arrow goes to another machine: what is in this one stays. Nor is there a button for its needle, which who begins
 * at this machine would take for this one's; the menu has it. */
static void
show_to_load (HwStrip *self,
              gboolean needle,
              gboolean here)
{
  gtk_widget_set_visible (self->next_needle, needle);
  gtk_widget_set_visible (self->loaded_button, needle && here);
  gtk_widget_set_visible (self->arrow, needle && here);
}

static void
show_machine (HwStrip         *self,
              const HwMachine *machine)
{
  /* Translators: the machine's name */
  set_label (self->now_heading, machine != NULL ? g_strdup_printf (_("In the machine: %s"), machine->name)
                                                : g_strdup (_("In the machine")));
}

static void
tell_hours (HwStrip     *self,
            const HwNow *now)
{
  g_autofree char *limit = hw_words_hours (now->hours_limit);
  /* Translators: the hours of a needle's life with their unit */
  g_autofree char *told = g_strdup_printf (_("Hours sewn at the machine; changed after %s (common practice). Opens the "
                                             "page “Needles”."), limit);

  hw_control_tell (self->now_needle, now->needle != NULL ? told : _("Opens the page “Needles”"));
}

/* What is in the machine is so whether or not there is anything to sew. */
static void
show_no_work (HwStrip *self)
{
  const HwRoom    *room = hw_workspace_get_room (self->workspace);
  const HwMachine *machine = room->machines->len > 0 ? g_ptr_array_index (room->machines, 0) : NULL;
  HwNow            now = hw_now_in (hw_workspace_get_handbook (self->workspace), room, machine);

  show_machine (self, machine);
  tell_hours (self, &now);
  set_label (self->now_label, machine != NULL ? hw_words_needle_in (hw_workspace_get_handbook (self->workspace), &now)
                                              : g_strdup (_("no machine yet")));
  show_next (self, FALSE);
  show_to_load (self, FALSE, FALSE);
  gtk_widget_set_visible (GTK_WIDGET (self->care_label), FALSE);
}

/* The button stands out only while the needle is wanted at once: one loaded ahead of its step has to come out again. */
static void
show_load (HwStrip      *self,
           const HwPlan *plan,
           const HwNow  *now)
{
  gboolean here = now->next_group == NULL || now->next_group->machine == now->machine;

  show_next (self, TRUE);
  show_to_load (self, now->next != NULL, here);
  set_label (self->next_heading, hw_words_next_when (plan, now));
  set_label (self->next_label, hw_words_next (plan, now));
  if (now->next == NULL)
    return;
  /* What the button notes is not always the same. */
  gtk_button_set_label (GTK_BUTTON (self->loaded_button), now->next->buy ? _("Bought and loaded") : _("I loaded it"));
  if (!here)
    /* Translators: the machine's name; another machine wants the next needle */
    set_label (self->now_heading, g_strdup_printf (_("In the machine: %s; nothing more to load"), now->machine->name));
  if (now->next_step == plan->next)
    gtk_widget_add_css_class (self->loaded_button, "suggested");
  else
    gtk_widget_remove_css_class (self->loaded_button, "suggested");
}

static void
show_now (HwStrip      *self,
          const HwPlan *plan)
{
  HwNow            now = hw_plan_now (plan, NULL);
  g_autofree char *care = NULL;

  if (now.machine == NULL)
    {
      show_no_work (self);
      return;
    }
  show_machine (self, now.machine);
  tell_hours (self, &now);
  set_label (self->now_label, hw_words_needle_now (plan, &now));
  show_load (self, plan, &now);
  care = hw_words_care_due (plan, &now);
  gtk_widget_set_visible (GTK_WIDGET (self->care_label), care != NULL);
  set_label (self->care_label, g_steal_pointer (&care));
}

/* Once something was sewn. */
static gboolean
has_to_close (HwStrip *self)
{
  const HwRoom *room = hw_workspace_get_room (self->workspace);

  for (guint i = 0; i < room->machines->len; i++)
    if (hw_closing_is_due (room, g_ptr_array_index (room->machines, i)))
      return TRUE;
  return FALSE;
}

/* Not while a clock runs: then the work goes on, and the clock has its place. */
static void
show_finish (HwStrip *self)
{
  gboolean runs = hw_stopwatch_get_running (hw_workspace_get_stopwatch (self->workspace), NULL, NULL);

  gtk_widget_set_visible (self->finish_button, !runs && has_to_close (self));
}

/* ---- the timer ---- */

static void
show_timer (HwStrip *self)
{
  HwStopwatch     *stopwatch = hw_workspace_get_stopwatch (self->workspace);
  const char      *project = NULL;
  const char      *step = NULL;
  g_autofree char *clock = NULL;
  g_autofree char *text = NULL;
  g_autofree char *name = NULL;

  if (!hw_stopwatch_get_running (stopwatch, &project, &step))
    return;
  clock = hw_words_clock (hw_stopwatch_minutes (stopwatch, project, step));
  /* Translators: a step's number, its clock such as 4:12 */
  text = g_strdup_printf (_("Step %s  %s"), step, clock);
  /* Translators: a step's number */
  name = g_strdup_printf (_("The timer of step %s runs: go to it"), step);
  gtk_button_set_label (GTK_BUTTON (self->timer_button), text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->timer_button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static gboolean
tick_cb (gpointer self)
{
  show_timer (self);
  return G_SOURCE_CONTINUE;
}

static void
timer_changed_cb (HwStrip *self)
{
  gboolean runs = hw_stopwatch_get_running (hw_workspace_get_stopwatch (self->workspace), NULL, NULL);

  show_timer (self);
  gtk_widget_set_visible (self->timer_button, runs);
  show_finish (self);
  if (runs && self->tick_id == 0)
    self->tick_id = g_timeout_add_seconds (1, tick_cb, self);
  else if (!runs)
    g_clear_handle_id (&self->tick_id, g_source_remove);
}

static void
changed_cb (HwStrip *self)
{
  const HwPlan *plan = hw_workspace_peek_plan (self->workspace);
  gboolean      can_load = FALSE;

  if (plan == NULL || plan->order->len == 0)
    show_no_work (self);
  else
    {
      HwNow now = hw_plan_now (plan, NULL);

      show_now (self, plan);
      can_load = now.next != NULL && now.next_group != NULL;
    }
  show_finish (self);
  gtk_widget_action_set_enabled (GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (self))), "win.loaded", can_load);
}

static void
hw_strip_dispose (GObject *object)
{
  HwStrip *self = HW_STRIP (object);

  g_clear_handle_id (&self->tick_id, g_source_remove);
  g_clear_object (&self->workspace);
  gtk_widget_dispose_template (GTK_WIDGET (self), HW_TYPE_STRIP);
  G_OBJECT_CLASS (hw_strip_parent_class)->dispose (object);
}

static void
hw_strip_class_init (HwStripClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = hw_strip_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/net/handwheel/strip.ui");
  gtk_widget_class_bind_template_child (widget_class, HwStrip, now_box);
  gtk_widget_class_bind_template_child (widget_class, HwStrip, next_box);
  gtk_widget_class_bind_template_child (widget_class, HwStrip, now_heading);
  gtk_widget_class_bind_template_child (widget_class, HwStrip, now_label);
  gtk_widget_class_bind_template_child (widget_class, HwStrip, next_heading);
  gtk_widget_class_bind_template_child (widget_class, HwStrip, next_label);
  gtk_widget_class_bind_template_child (widget_class, HwStrip, care_label);
  gtk_widget_class_bind_template_child (widget_class, HwStrip, loaded_button);
  gtk_widget_class_bind_template_child (widget_class, HwStrip, finish_button);
  gtk_widget_class_bind_template_child (widget_class, HwStrip, timer_button);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_REGION);
}

/* Pressed, it opens the page that tells the needles' hours. */
static GtkWidget *
make_needle (gboolean    solid,
             const char *name)
{
  GtkWidget *button = gtk_button_new ();
  GtkWidget *needle = hw_motif_new (0.9, 3.1);

  hw_motif_show_needle (HW_MOTIF (needle), solid);
  hw_motif_set_name (HW_MOTIF (needle), name);
  gtk_button_set_child (GTK_BUTTON (button), needle);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_add_css_class (button, "needle");
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", "needles");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.page");
  return button;
}

/* In the machine: drawn solid; to come: in outline, behind a stitched arrow. */
static void
hw_strip_init (HwStrip *self)
{
  GtkLabel **labels[] = { &self->now_heading, &self->now_label, &self->next_heading, &self->next_label };

  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("In the machine and to load next"), -1);
  self->now_needle = make_needle (TRUE, _("Needle in the machine"));
  self->next_needle = make_needle (FALSE, _("Needle to load next"));
  hw_control_tell (self->next_needle, _("Opens the page “Needles”"));
  self->arrow = hw_motif_new (3.2, 1);
  hw_motif_show_arrow (HW_MOTIF (self->arrow));
  hw_motif_set_name (HW_MOTIF (self->arrow), _("then"));
  gtk_widget_set_valign (self->arrow, GTK_ALIGN_CENTER);
  gtk_box_prepend (self->now_box, self->now_needle);
  gtk_box_prepend (self->next_box, self->next_needle);
  gtk_widget_insert_after (self->arrow, gtk_widget_get_parent (GTK_WIDGET (self->now_box)),
                           GTK_WIDGET (self->now_box));
  hw_wrap_spare (self->arrow, 1);
  hw_wrap_spare (self->finish_button, 1);                /* it is in the menu too */
  for (gsize i = 0; i < G_N_ELEMENTS (labels); i++)
    hw_label_tell_whole (GTK_WIDGET (*labels[i]));
}

void
hw_strip_set_workspace (HwStrip     *self,
                        HwWorkspace *workspace)
{
  g_return_if_fail (HW_IS_STRIP (self) && self->workspace == NULL);

  self->workspace = g_object_ref (workspace);
  g_signal_connect_object (workspace, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (hw_workspace_get_stopwatch (workspace), "changed", G_CALLBACK (timer_changed_cb), self,
                           G_CONNECT_SWAPPED);
  changed_cb (self);
  timer_changed_cb (self);
}
