/* wish-list.c - what the person wishes of the order of work, what each wish costs, and how to forget it
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a wish costs takes another order for each, so it is reckoned on a thread of its own from the plan as it was
 * then, one reckoning at a time; what comes back stale is dropped and begun again.
 */

#include "config.h"

#include "window/wish-list.h"

#include <glib/gi18n.h>

#include "plan/wish.h"
#include "window/controls.h"
#include "window/wrap.h"
#include "words/words.h"

#define WISH_STATES 50000                /* of the search for each order that a wish is compared with */

struct _HwWishList
{
  GtkWidget    parent_instance;
  HwWorkspace *workspace;
  GtkWidget   *row;                      /* a HwWrap */
  GtkWidget   *menu_button;
  GtkWidget   *wishes;                   /* a HwWrap of the wishes */
  GtkWidget   *gather;
  HwPlan      *plan;                     /* what is shown */
  GPtrArray   *answers;                  /* (element-type HwWishAnswer) of its wishes; NULL: not known yet */
  gboolean     reckoning;
  gboolean     announce;                 /* the newest wish's cost is to be told */
  gboolean     updating;
};

G_DEFINE_FINAL_TYPE (HwWishList, hw_wish_list, GTK_TYPE_WIDGET)

/* ---- what the wishes cost ---- */

typedef struct
{
  HwPlan  *plan;
  GWeakRef list;
} Reckoning;

static void start_reckoning (HwWishList *self);
static void show_wishes     (HwWishList *self);

static void
free_reckoning (gpointer data)
{
  Reckoning *reckoning = data;

  hw_plan_unref (reckoning->plan);
  g_weak_ref_clear (&reckoning->list);
  g_free (reckoning);
}

static void
reckon_in_thread (GTask        *task,
                  gpointer      source,
                  gpointer      data,
                  GCancellable *cancellable)
{
  const Reckoning *reckoning = data;
  GPtrArray       *answers = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_wish_answer_free);

  for (guint i = 0; i < reckoning->plan->project->wishes->len; i++)
    g_ptr_array_add (answers, hw_wish_cost (reckoning->plan, i, WISH_STATES));
  g_task_return_pointer (task, answers, (GDestroyNotify) g_ptr_array_unref);
}

static void
tell_newest (HwWishList *self)
{
  guint            newest = self->answers->len - 1;
  g_autofree char *text = hw_words_wish_answer (g_ptr_array_index (self->plan->project->wishes, newest),
                                                g_ptr_array_index (self->answers, newest));

  self->announce = FALSE;
  hw_workspace_tell_undoable (self->workspace, text);
}

static void
reckoned_cb (GObject      *source,
             GAsyncResult *result,
             gpointer      data)
{
  Reckoning             *reckoning = g_task_get_task_data (G_TASK (result));
  g_autoptr (HwWishList) self = g_weak_ref_get (&reckoning->list);
  g_autoptr (GPtrArray)  answers = g_task_propagate_pointer (G_TASK (result), NULL);

  if (self == NULL || self->workspace == NULL)
    return;
  self->reckoning = FALSE;
  if (self->plan == NULL || self->plan->project->wishes->len == 0)
    return;
  if (self->plan->project != reckoning->plan->project || self->plan->room != reckoning->plan->room)
    {
      start_reckoning (self);
      return;
    }
  self->answers = g_steal_pointer (&answers);
  show_wishes (self);
  if (self->announce)
    tell_newest (self);
}

static void
start_reckoning (HwWishList *self)
{
  g_autoptr (GTask) task = NULL;
  Reckoning        *reckoning;

  if (self->reckoning)
    return;
  self->reckoning = TRUE;
  reckoning = g_new0 (Reckoning, 1);
  reckoning->plan = hw_plan_ref (self->plan);
  g_weak_ref_init (&reckoning->list, self);
  task = g_task_new (NULL, NULL, reckoned_cb, NULL);
  g_task_set_source_tag (task, start_reckoning);
  g_task_set_task_data (task, reckoning, free_reckoning);
  g_task_run_in_thread (task, reckon_in_thread);
}

/* ---- what is shown ---- */

static void
name_widget (GtkWidget  *widget,
             const char *name)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static GtkWidget *
make_wish (HwWishList *self,
           guint       index)
{
  const HwWish       *wish = g_ptr_array_index (self->plan->project->wishes, index);
  const HwWishAnswer *answer = self->answers != NULL ? g_ptr_array_index (self->answers, index) : NULL;
  GtkWidget          *chip = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget          *forget = gtk_button_new_with_label ("✕");
  GtkWidget          *cost;
  g_autofree char    *text = hw_words_wish (wish);
  /* Translators: a wish such as “4 before 2” */
  g_autofree char    *name = g_strdup_printf (_("Forget the wish: %s"), text);
  g_autofree char    *more = answer != NULL ? hw_words_wish_more (answer) : g_strdup ("…");

  gtk_widget_add_css_class (chip, "wish");
  gtk_box_append (GTK_BOX (chip), gtk_label_new (text));
  cost = gtk_label_new (more);
  gtk_widget_add_css_class (cost, "secondary");
  gtk_box_append (GTK_BOX (chip), cost);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (forget), "order.forget-wish");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (forget), "u", index);
  gtk_widget_add_css_class (forget, "flat");
  gtk_widget_set_tooltip_text (forget, name);
  name_widget (forget, name);
  gtk_box_append (GTK_BOX (chip), forget);
  return chip;
}

static void
show_wishes (HwWishList *self)
{
  hw_wrap_remove_all (HW_WRAP (self->wishes));
  for (guint i = 0; self->plan != NULL && i < self->plan->project->wishes->len; i++)
    hw_wrap_append (HW_WRAP (self->wishes), make_wish (self, i));
}

static gboolean
has_ironing (const HwProject *project)
{
  for (guint i = 0; i < project->steps->len; i++)
    {
      const HwStep *step = hw_project_get_step (project, i);

      if (step->kind == HW_STEP_HAND && (step->hand == HW_HAND_PRESS || step->hand == HW_HAND_FUSE))
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_all_proved (const HwWishList *self)
{
  for (guint i = 0; i < self->answers->len; i++)
    if (!((const HwWishAnswer *) g_ptr_array_index (self->answers, i))->proved)
      return FALSE;
  return TRUE;
}

static void
update_list (HwWishList *self)
{
  HwPlan  *plan = (HwPlan *) hw_workspace_peek_plan (self->workspace);
  gboolean same = plan != NULL && self->plan != NULL && plan->project == self->plan->project
                  && plan->room == self->plan->room;

  if (!same || (self->answers != NULL && plan->proved && !self->plan->proved && !is_all_proved (self)))
    g_clear_pointer (&self->answers, g_ptr_array_unref);
  g_clear_pointer (&self->plan, hw_plan_unref);
  self->plan = plan != NULL ? hw_plan_ref (plan) : NULL;

  gtk_widget_set_visible (self->row, plan != NULL && plan->next >= 0);
  gtk_widget_set_visible (self->gather, plan != NULL && has_ironing (plan->project));
  self->updating = TRUE;
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->gather), plan != NULL && plan->project->gather_hand);
  self->updating = FALSE;
  show_wishes (self);
  if (plan != NULL && plan->project->wishes->len > 0 && self->answers == NULL)
    start_reckoning (self);
}

static void
gather_toggled_cb (HwWishList *self)
{
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  gboolean         gather = gtk_check_button_get_active (GTK_CHECK_BUTTON (self->gather));

  if (self->updating || project == NULL)
    return;
  hw_workspace_edit (self->workspace, hw_edit_set_gather_hand (project, gather),
                     gather ? _("gather pressing") : _("press as you go"), NULL, NULL);
}

/* ---- the widget ---- */

static void
hw_wish_list_dispose (GObject *object)
{
  HwWishList *self = HW_WISH_LIST (object);

  g_clear_pointer (&self->row, gtk_widget_unparent);
  g_clear_pointer (&self->plan, hw_plan_unref);
  g_clear_pointer (&self->answers, g_ptr_array_unref);
  g_clear_object (&self->workspace);
  G_OBJECT_CLASS (hw_wish_list_parent_class)->dispose (object);
}

static void
hw_wish_list_class_init (HwWishListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_wish_list_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "wishlist");
}

static void
hw_wish_list_init (HwWishList *self)
{
}

GtkWidget *
hw_wish_list_new (HwWorkspace *workspace,
                  GMenuModel  *menu)
{
  HwWishList *self = g_object_new (HW_TYPE_WISH_LIST, NULL);

  self->workspace = g_object_ref (workspace);
  self->row = hw_wrap_new (10, 6);
  gtk_widget_set_parent (self->row, GTK_WIDGET (self));

  self->menu_button = gtk_menu_button_new ();
  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->menu_button), _("Wishes for this step"));
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (self->menu_button), menu);
  hw_popover_plain (gtk_menu_button_get_popover (GTK_MENU_BUTTON (self->menu_button)));
  gtk_widget_add_css_class (self->menu_button, "tool");
  gtk_widget_add_css_class (self->menu_button, "wishes");
  gtk_widget_set_tooltip_text (self->menu_button, _("What you would like of the order, for the chosen step"));
  name_widget (self->menu_button, _("Wishes for the chosen step"));
  hw_wrap_append (HW_WRAP (self->row), self->menu_button);

  self->wishes = hw_wrap_new (8, 4);
  gtk_widget_set_hexpand (self->wishes, TRUE);
  hw_wrap_append (HW_WRAP (self->row), self->wishes);

  self->gather = gtk_check_button_new_with_label (_("Gather pressing"));
  gtk_widget_set_tooltip_text (self->gather, _("Going to the iron counts as a walk, so that pressing is gathered"));
  g_signal_connect_swapped (self->gather, "toggled", G_CALLBACK (gather_toggled_cb), self);
  hw_wrap_append (HW_WRAP (self->row), self->gather);

  g_signal_connect_object (workspace, "changed", G_CALLBACK (update_list), self, G_CONNECT_SWAPPED);
  update_list (self);
  return GTK_WIDGET (self);
}

void
hw_wish_list_announce (HwWishList *self)
{
  g_return_if_fail (HW_IS_WISH_LIST (self));

  if (self->plan == NULL || self->plan->project->wishes->len == 0)
    return;
  if (self->answers != NULL)
    tell_newest (self);
  else
    self->announce = TRUE;
}

void
hw_wish_list_open_menu (HwWishList *self)
{
  g_return_if_fail (HW_IS_WISH_LIST (self));

  gtk_menu_button_popup (GTK_MENU_BUTTON (self->menu_button));
}

void
hw_wish_list_add (HwWishList *self,
                  GtkWidget  *control)
{
  g_return_if_fail (HW_IS_WISH_LIST (self) && GTK_IS_WIDGET (control));

  hw_wrap_append (HW_WRAP (self->row), control);
}
