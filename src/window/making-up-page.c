/* making-up-page.c - the making up: fabrics, steps, and the selected step's set-up or a form
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Everything done here is an action "making-up.…", undone by Undo. Forms open in the side panel, in place of the
 * set-up.
 */

#include "config.h"

#include "window/pages.h"

#include <glib/gi18n.h>

#include "window/cloth-cards.h"
#include "window/controls.h"
#include "window/forms.h"
#include "window/setup-panel.h"
#include "window/split.h"
#include "window/step-columns.h"
#include "window/step-list.h"

#define HW_TYPE_MAKING_UP_PAGE (hw_making_up_page_get_type ())
G_DECLARE_FINAL_TYPE (HwMakingUpPage, hw_making_up_page, HW, MAKING_UP_PAGE, GtkBox)

struct _HwMakingUpPage
{
  GtkBox              parent_instance;
  HwWorkspace        *workspace;
  HwWrap             *fabric_cards, *thread_cards;
  GtkColumnView      *step_view;
  GtkScrolledWindow  *panel_window;
  GtkStack           *panel;
  GtkWidget          *add_button;
  GtkWidget          *form;             /* in the panel; NULL: the set-up is shown */
  GListStore         *steps;
  GtkSingleSelection *selection;
  char               *path;             /* of the project shown */
  gboolean            showing;
};

G_DEFINE_FINAL_TYPE (HwMakingUpPage, hw_making_up_page, GTK_TYPE_BOX)

/* ---- the panel ---- */

static void
close_form (HwMakingUpPage *self)
{
  GtkWidget *form = self->form;

  if (form == NULL)
    return;
  self->form = NULL;
  gtk_stack_set_visible_child_name (self->panel, "setup");
  /* The focus leaves the form before the form goes; an empty list does not take it. */
  if (!gtk_widget_grab_focus (GTK_WIDGET (self->step_view)))
    gtk_widget_grab_focus (self->add_button);
  gtk_stack_remove (self->panel, form);
}

static gboolean
close_form_later_cb (gpointer data)
{
  close_form (HW_MAKING_UP_PAGE (data));
  return G_SOURCE_REMOVE;
}

/* The form is still inside its own action; it goes when that is over. */
static void
form_closed_cb (HwMakingUpPage *self)
{
  g_idle_add_full (G_PRIORITY_HIGH_IDLE, close_form_later_cb, g_object_ref (self), g_object_unref);
}

static gboolean
is_control (GtkWidget *widget)
{
  return GTK_IS_ENTRY (widget) || GTK_IS_SEARCH_ENTRY (widget) || GTK_IS_DROP_DOWN (widget)
      || GTK_IS_SPIN_BUTTON (widget);
}

static GtkWidget *
find_control (GtkWidget *widget)
{
  if (is_control (widget))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_control (child);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
show_form (HwMakingUpPage *self,
           GtkWidget      *form)
{
  GtkWidget *first = find_control (form);

  close_form (self);
  self->form = form;
  gtk_stack_add_named (self->panel, form, "form");
  gtk_stack_set_visible_child (self->panel, form);
  g_signal_connect_object (form, "closed", G_CALLBACK (form_closed_cb), self, G_CONNECT_SWAPPED);
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->panel_window), 0);
  if (first != NULL)
    gtk_widget_grab_focus (first);
}

/* ---- what is shown ---- */

static int
selected_place (HwMakingUpPage *self)
{
  return hw_step_list_find (G_LIST_MODEL (self->steps), hw_workspace_peek_selected (self->workspace));
}

static void
refresh_actions (HwMakingUpPage *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  int        place = selected_place (self);
  int        n = (int) g_list_model_get_n_items (G_LIST_MODEL (self->steps));
  gboolean   open = hw_workspace_peek_project (self->workspace) != NULL;

  gtk_widget_action_set_enabled (widget, "making-up.move-up", place > 0);
  gtk_widget_action_set_enabled (widget, "making-up.move-down", place >= 0 && place < n - 1);
  gtk_widget_action_set_enabled (widget, "making-up.remove-step", place >= 0);
  gtk_widget_action_set_enabled (widget, "making-up.edit-step", place >= 0);
  gtk_widget_action_set_enabled (widget, "making-up.add-operation", open);
  gtk_widget_action_set_enabled (widget, "making-up.add-hand-step", open);
  gtk_widget_action_set_enabled (widget, "making-up.add-fabric", open);
  gtk_widget_action_set_enabled (widget, "making-up.add-thread", open);
  gtk_widget_action_set_enabled (widget, "making-up.edit-project", open);
}

static void
selection_cb (HwMakingUpPage *self)
{
  int place = selected_place (self);

  self->showing = TRUE;
  gtk_single_selection_set_selected (self->selection, place >= 0 ? (guint) place : GTK_INVALID_LIST_POSITION);
  self->showing = FALSE;
  refresh_actions (self);
}

static void
changed_cb (HwMakingUpPage *self)
{
  const char *path = hw_workspace_peek_path (self->workspace);

  self->showing = TRUE;
  hw_fabric_cards_fill (self->fabric_cards, self->workspace);
  hw_thread_cards_fill (self->thread_cards, self->workspace);
  hw_step_list_update (self->steps, hw_workspace_peek_project (self->workspace));
  self->showing = FALSE;
  selection_cb (self);
  if (g_strcmp0 (path, self->path) == 0)
    return;
  close_form (self);                    /* it belongs to another project */
  g_free (self->path);
  self->path = g_strdup (path);
}

static void
row_selected_cb (HwMakingUpPage *self)
{
  HwStepItem *item = gtk_single_selection_get_selected_item (self->selection);

  if (!self->showing && item != NULL)
    hw_workspace_select (self->workspace, hw_step_item_get_number (item));
}

static void
row_activated_cb (HwMakingUpPage *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "making-up.edit-step", NULL);
}

/* ---- actions ---- */

static void
add_step_action (GtkWidget  *widget,
                 const char *name,
                 GVariant   *parameter)
{
  HwMakingUpPage *self = HW_MAKING_UP_PAGE (widget);
  HwStepKind      kind = g_str_equal (name, "making-up.add-operation") ? HW_STEP_OPERATION : HW_STEP_HAND;

  show_form (self, hw_step_form_new (self->workspace, NULL, kind));
}

static void
edit_step_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *parameter)
{
  HwMakingUpPage *self = HW_MAKING_UP_PAGE (widget);
  const char     *number = hw_workspace_peek_selected (self->workspace);

  if (number != NULL)
    show_form (self, hw_step_form_new (self->workspace, number, HW_STEP_OPERATION));
}

static void
remove_step_action (GtkWidget  *widget,
                    const char *name,
                    GVariant   *parameter)
{
  HwMakingUpPage    *self = HW_MAKING_UP_PAGE (widget);
  const char        *number = hw_workspace_peek_selected (self->workspace);
  g_autoptr (GError) error = NULL;
  g_autofree char   *label = NULL;
  HwProject         *next;

  if (number == NULL)
    return;
  /* Translators: in “Undo: …”; a step's number */
  label = g_strdup_printf (_("remove step %s"), number);
  next = hw_edit_remove_step (hw_workspace_peek_project (self->workspace), number, &error);
  hw_workspace_edit (self->workspace, next, label, NULL, error);
}

static void
move_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  HwMakingUpPage    *self = HW_MAKING_UP_PAGE (widget);
  const char        *number = hw_workspace_peek_selected (self->workspace);
  int                place = selected_place (self) + (g_str_equal (name, "making-up.move-up") ? -1 : 1);
  g_autoptr (GError) error = NULL;
  g_autofree char   *label = NULL;
  g_autofree char   *merge = NULL;
  HwProject         *next;

  if (number == NULL || place < 0 || place >= (int) g_list_model_get_n_items (G_LIST_MODEL (self->steps)))
    return;
  /* Translators: in “Undo: …”; a step's number */
  label = g_strdup_printf (_("move step %s"), number);
  merge = g_strconcat ("move-", number, NULL);
  next = hw_edit_move_step (hw_workspace_peek_project (self->workspace), number, (gsize) place, &error);
  hw_workspace_edit (self->workspace, next, label, merge, error);
}

static void
add_cloth_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *parameter)
{
  HwMakingUpPage *self = HW_MAKING_UP_PAGE (widget);

  show_form (self, g_str_equal (name, "making-up.add-fabric") ? hw_fabric_form_new (self->workspace, NULL)
                                                              : hw_thread_form_new (self->workspace, NULL));
}

static void
edit_cloth_action (GtkWidget  *widget,
                   const char *name,
                   GVariant   *parameter)
{
  HwMakingUpPage *self = HW_MAKING_UP_PAGE (widget);
  const char     *id = g_variant_get_string (parameter, NULL);

  show_form (self, g_str_equal (name, "making-up.edit-fabric") ? hw_fabric_form_new (self->workspace, id)
                                                               : hw_thread_form_new (self->workspace, id));
}

static void
remove_cloth_action (GtkWidget  *widget,
                     const char *name,
                     GVariant   *parameter)
{
  HwMakingUpPage    *self = HW_MAKING_UP_PAGE (widget);
  const char        *id = g_variant_get_string (parameter, NULL);
  const HwProject   *project = hw_workspace_peek_project (self->workspace);
  gboolean           fabric = g_str_equal (name, "making-up.remove-fabric");
  g_autoptr (GError) error = NULL;
  HwProject         *next = fabric ? hw_edit_remove_fabric (project, id, &error)
                                   : hw_edit_remove_thread (project, id, &error);

  if (hw_workspace_edit (self->workspace, next, fabric ? _("remove a fabric") : _("remove a thread"), NULL, error))
    form_closed_cb (self);
}

static void
edit_project_action (GtkWidget  *widget,
                     const char *name,
                     GVariant   *parameter)
{
  HwMakingUpPage *self = HW_MAKING_UP_PAGE (widget);

  show_form (self, hw_project_form_new (self->workspace));
}

/* ---- the object ---- */

static void
hw_making_up_page_dispose (GObject *object)
{
  HwMakingUpPage *self = HW_MAKING_UP_PAGE (object);

  self->form = NULL;
  gtk_widget_dispose_template (GTK_WIDGET (self), HW_TYPE_MAKING_UP_PAGE);
  g_clear_object (&self->selection);
  g_clear_object (&self->steps);
  g_clear_object (&self->workspace);
  g_clear_pointer (&self->path, g_free);
  G_OBJECT_CLASS (hw_making_up_page_parent_class)->dispose (object);
}

static void
install_actions (GtkWidgetClass *class)
{
  gtk_widget_class_install_action (class, "making-up.add-operation", NULL, add_step_action);
  gtk_widget_class_install_action (class, "making-up.add-hand-step", NULL, add_step_action);
  gtk_widget_class_install_action (class, "making-up.edit-step", NULL, edit_step_action);
  gtk_widget_class_install_action (class, "making-up.remove-step", NULL, remove_step_action);
  gtk_widget_class_install_action (class, "making-up.move-up", NULL, move_action);
  gtk_widget_class_install_action (class, "making-up.move-down", NULL, move_action);
  gtk_widget_class_install_action (class, "making-up.add-fabric", NULL, add_cloth_action);
  gtk_widget_class_install_action (class, "making-up.add-thread", NULL, add_cloth_action);
  gtk_widget_class_install_action (class, "making-up.edit-fabric", "s", edit_cloth_action);
  gtk_widget_class_install_action (class, "making-up.edit-thread", "s", edit_cloth_action);
  gtk_widget_class_install_action (class, "making-up.remove-fabric", "s", remove_cloth_action);
  gtk_widget_class_install_action (class, "making-up.remove-thread", "s", remove_cloth_action);
  gtk_widget_class_install_action (class, "making-up.edit-project", NULL, edit_project_action);
  gtk_widget_class_add_binding_action (class, GDK_KEY_Up, GDK_ALT_MASK, "making-up.move-up", NULL);
  gtk_widget_class_add_binding_action (class, GDK_KEY_Down, GDK_ALT_MASK, "making-up.move-down", NULL);
  gtk_widget_class_add_binding_action (class, GDK_KEY_F2, 0, "making-up.edit-step", NULL);
  gtk_widget_class_add_binding_action (class, GDK_KEY_Insert, GDK_CONTROL_MASK, "making-up.add-operation", NULL);
}

static void
hw_making_up_page_class_init (HwMakingUpPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = hw_making_up_page_dispose;
  g_type_ensure (HW_TYPE_WRAP);
  g_type_ensure (HW_TYPE_SPLIT);
  gtk_widget_class_set_template_from_resource (widget_class, "/net/handwheel/making-up-page.ui");
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, fabric_cards);
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, thread_cards);
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, step_view);
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, panel_window);
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, panel);
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, add_button);
  install_actions (widget_class);
}

/* Delete belongs to the list alone: in a form it takes away a letter. */
static void
add_delete_key (HwMakingUpPage *self)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (keys),
                                        gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Delete, 0),
                                                          gtk_named_action_new ("making-up.remove-step")));
  gtk_widget_add_controller (GTK_WIDGET (self->step_view), keys);
}

static void
hw_making_up_page_init (HwMakingUpPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hw_control_name (self->add_button, _("Add a step"));
  self->steps = hw_step_list_new ();
  self->selection = gtk_single_selection_new (G_LIST_MODEL (g_object_ref (self->steps)));
  gtk_single_selection_set_autoselect (self->selection, FALSE);
  gtk_single_selection_set_can_unselect (self->selection, TRUE);
  add_delete_key (self);
}

GtkWidget *
hw_making_up_page_new (HwWorkspace *workspace)
{
  HwMakingUpPage *self = g_object_new (HW_TYPE_MAKING_UP_PAGE, NULL);

  self->workspace = g_object_ref (workspace);
  hw_step_columns_add (self->step_view, workspace);
  gtk_column_view_set_model (self->step_view, GTK_SELECTION_MODEL (self->selection));
  gtk_stack_add_named (self->panel, hw_setup_panel_new (workspace), "setup");
  g_signal_connect_swapped (self->selection, "notify::selected-item", G_CALLBACK (row_selected_cb), self);
  g_signal_connect_swapped (self->step_view, "activate", G_CALLBACK (row_activated_cb), self);
  g_signal_connect_object (workspace, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (workspace, "selection", G_CALLBACK (selection_cb), self, G_CONNECT_SWAPPED);
  changed_cb (self);
  return GTK_WIDGET (self);
}
