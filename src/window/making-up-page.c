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
#include "window/later.h"
#include "window/making-up-empty.h"
#include "window/quick-row.h"
#include "window/setup-panel.h"
#include "window/sign.h"
#include "window/split.h"
#include "window/step-columns.h"
#include "window/step-list.h"
#include "window/steps.h"
#include "window/tab-stop.h"
#include "window/theme.h"
#include "window/watch.h"
#include "words/words-example.h"

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
  GtkWidget          *steps_button;
  GtkWidget          *form;             /* in the panel; NULL: the set-up is shown */
  GtkWidget          *several;          /* that form is for the chosen steps; borrowed, NULL else */
  GListStore         *steps;
  GtkSelectionModel  *selection;        /* many at once */
  GtkWidget          *list_box, *list_window, *list_foot;
  GtkWidget          *empty;            /* in the place of the list while there are no steps */
  GtkWidget          *example_label;
  GtkWidget          *quick_row;        /* NULL: not wanted yet */
  GMenuModel         *steps_menu;
  GtkWidget          *context;          /* that menu where it was asked for; NULL until then */
  char               *path;             /* of the project shown */
  gboolean            showing;
  gboolean            begun;            /* the list holds the first screen alone */
  guint               fit_id, scroll_id, scroll_place;
};

G_DEFINE_FINAL_TYPE (HwMakingUpPage, hw_making_up_page, GTK_TYPE_BOX)

static void choose (HwMakingUpPage *self, const char * const *numbers);

/* ---- the panel ---- */

static void
remove_form (HwMakingUpPage *self)
{
  GtkWidget *form = self->form;

  self->form = self->several = NULL;
  gtk_stack_set_visible_child_name (self->panel, "setup");
  gtk_stack_remove (self->panel, form);
}

/* The selected step's row; without steps, what to do first. */
static gboolean
focus_steps (HwMakingUpPage *self)
{
  GtkWidget *row = hw_steps_find_row (GTK_WIDGET (self->step_view), hw_workspace_peek_selected (self->workspace));

  if (gtk_widget_get_visible (self->empty))
    return gtk_widget_child_focus (self->empty, GTK_DIR_TAB_FORWARD);
  return gtk_widget_grab_focus (row != NULL ? row : GTK_WIDGET (self->step_view));
}

static gboolean
hw_making_up_page_grab_focus (GtkWidget *widget)
{
  return focus_steps (HW_MAKING_UP_PAGE (widget));
}

static void
close_form (HwMakingUpPage *self)
{
  if (self->form == NULL)
    return;
  focus_steps (self);                   /* the focus leaves the form before the form goes */
  remove_form (self);
}

/* Done with several steps, one is looked at again. */
static gboolean
close_form_later_cb (gpointer data)
{
  HwMakingUpPage *self = HW_MAKING_UP_PAGE (data);
  const char     *alone[] = { hw_workspace_peek_selected (self->workspace), NULL };
  gboolean        several = self->several != NULL;

  close_form (self);
  if (several)
    choose (self, alone);
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

static GtkWidget *
put_form (HwMakingUpPage *self,
          GtkWidget      *form)
{
  self->form = form;
  gtk_stack_add_named (self->panel, form, "form");
  gtk_stack_set_visible_child (self->panel, form);
  g_signal_connect_object (form, "closed", G_CALLBACK (form_closed_cb), self, G_CONNECT_SWAPPED);
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->panel_window), 0);
  return form;
}

static void
show_form (HwMakingUpPage *self,
           GtkWidget      *form)
{
  GtkWidget *first = find_control (form);

  close_form (self);
  put_form (self, form);
  if (first != NULL)
    gtk_widget_grab_focus (first);
  hw_when_placed (form, hw_bring_into_sight);
}

/* ---- what is shown ---- */

/* (transfer full) */
static char **
get_chosen (HwMakingUpPage *self)
{
  return hw_steps_get_chosen (self->selection);
}

static const char * const *
words (char **numbers)
{
  return (const char * const *) numbers;
}

static void
refresh_actions (HwMakingUpPage *self)
{
  GtkWidget     *widget = GTK_WIDGET (self);
  g_auto (GStrv) chosen = get_chosen (self);
  gboolean       open = hw_workspace_peek_project (self->workspace) != NULL;
  gboolean       any = chosen[0] != NULL;

  gtk_widget_action_set_enabled (widget, "making-up.move-up",
                                 hw_steps_can_shift (self->workspace, words (chosen), FALSE));
  gtk_widget_action_set_enabled (widget, "making-up.move-down",
                                 hw_steps_can_shift (self->workspace, words (chosen), TRUE));
  gtk_widget_action_set_enabled (widget, "making-up.remove-step", any);
  gtk_widget_action_set_enabled (widget, "making-up.copy", any);
  gtk_widget_action_set_enabled (widget, "making-up.cut", any);
  gtk_widget_action_set_enabled (widget, "making-up.edit-step", any && chosen[1] == NULL);
  gtk_widget_action_set_enabled (widget, "making-up.paste", open);
  gtk_widget_action_set_enabled (widget, "making-up.choose-all", open);
  gtk_widget_action_set_enabled (widget, "making-up.add-step", open);
  gtk_widget_action_set_enabled (widget, "making-up.add-operation", open);
  gtk_widget_action_set_enabled (widget, "making-up.add-hand-step", open);
  gtk_widget_action_set_enabled (widget, "making-up.add-fabric", open);
  gtk_widget_action_set_enabled (widget, "making-up.add-thread", open);
  gtk_widget_action_set_enabled (widget, "making-up.edit-project", open);
}

/* With several chosen the panel changes them all; a form that was opened for something else stays. */
static void
show_several (HwMakingUpPage *self)
{
  g_auto (GStrv) chosen = get_chosen (self);
  gboolean       many = chosen[0] != NULL && chosen[1] != NULL;

  if (self->form != NULL && self->form != self->several)
    return;
  if (self->several != NULL)
    remove_form (self);
  if (many)
    self->several = put_form (self, hw_steps_form_new (self->workspace, words (chosen)));
}

static void
choose (HwMakingUpPage     *self,
        const char * const *numbers)
{
  self->showing = TRUE;
  hw_steps_choose (self->selection, numbers);
  self->showing = FALSE;
  show_several (self);
  refresh_actions (self);
}

static gboolean
scroll_cb (gpointer data)
{
  HwMakingUpPage *self = data;

  self->scroll_id = 0;
  if (self->scroll_place < g_list_model_get_n_items (G_LIST_MODEL (self->steps)))
    gtk_widget_activate_action (gtk_widget_get_last_child (GTK_WIDGET (self->step_view)), "list.scroll-to-item", "u",
                                self->scroll_place);
  return G_SOURCE_REMOVE;
}

/* A row that was added has its place only after the next frame. */
static void
scroll_to (HwMakingUpPage *self,
           guint           place)
{
  self->scroll_place = place;
  if (self->scroll_id == 0)
    self->scroll_id = g_idle_add_full (GDK_PRIORITY_REDRAW + 10, scroll_cb, self, NULL);
}

#define ABOVE_LIST_EM 24.0
#define ROW_EM 2.8

/* While the window is not yet drawn: as many steps as it can show, and what is selected among them. */
static guint
count_first_rows (HwMakingUpPage *self)
{
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  const char      *number = hw_workspace_peek_selected (self->workspace);
  double           em = hw_theme_em (GTK_WIDGET (self));
  int              height = hw_later_height (self->workspace);
  int              selected = project != NULL && number != NULL ? hw_project_find_step (project, number) : 0;

  if (height == 0)
    return G_MAXUINT;
  return (guint) MAX (selected + 1, (int) ((height - ABOVE_LIST_EM * em) / (ROW_EM * em)) + 1);
}

static void fill_steps (HwMakingUpPage *self);

/* Nobody needs it where something has changed meanwhile. */
static void
show_rest (gpointer data)
{
  HwMakingUpPage *self = HW_MAKING_UP_PAGE (data);

  if (self->begun)
    fill_steps (self);
}

static void
fill_steps (HwMakingUpPage *self)
{
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  guint            most = count_first_rows (self);
  gboolean         begun = project != NULL && project->steps->len > most;

  self->showing = TRUE;
  hw_step_list_update (self->steps, project, most);
  self->showing = FALSE;
  if (begun && !self->begun)
    hw_later (self->workspace, self, show_rest);
  self->begun = begun;
}

/* What is selected for all pages is one of the chosen steps here. */
static void
selection_cb (HwMakingUpPage *self)
{
  const char    *number = hw_workspace_peek_selected (self->workspace);
  const char    *alone[] = { number, NULL };
  g_auto (GStrv) chosen = get_chosen (self);

  if (self->begun && number != NULL && hw_step_list_find (G_LIST_MODEL (self->steps), number) < 0)
    fill_steps (self);
  if (number != NULL && g_strv_contains (words (chosen), number))
    return;
  choose (self, alone);
  scroll_to (self, (guint) hw_step_list_find (G_LIST_MODEL (self->steps), number));
}

static gboolean
is_typing (HwMakingUpPage *self)
{
  return self->quick_row != NULL && gtk_widget_get_visible (self->quick_row);
}

static void
show_steps (HwMakingUpPage *self)
{
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  gboolean         empty = project == NULL || project->steps->len == 0;
  GtkRoot         *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget       *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  gboolean         asks = empty && !is_typing (self);
  gboolean         goes = asks != gtk_widget_get_visible (self->empty) && focus != NULL
                          && gtk_widget_is_ancestor (focus, self->list_box)
                          && (!is_typing (self) || gtk_widget_is_ancestor (focus, self->empty));

  fill_steps (self);
  hw_making_up_empty_fill (self->empty, project);
  gtk_widget_set_visible (self->empty, asks);
  gtk_widget_set_visible (self->list_window, !empty);
  gtk_widget_set_visible (self->list_foot, !empty && !is_typing (self));
  if (goes)
    focus_steps (self);                 /* what had the focus is hidden */
}

static void
stop_typing (HwMakingUpPage *self)
{
  if (!is_typing (self))
    return;
  gtk_widget_set_visible (self->quick_row, FALSE);
  show_steps (self);
}

static void
refresh (GtkWidget *widget)
{
  HwMakingUpPage *self = HW_MAKING_UP_PAGE (widget);
  const char    *path = hw_workspace_peek_path (self->workspace);
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  gboolean       same = g_strcmp0 (path, self->path) == 0;
  g_auto (GStrv) chosen = get_chosen (self);

  gtk_widget_set_visible (self->example_label, project != NULL && hw_words_is_example (project));
  hw_fabric_cards_fill (self->fabric_cards, self->workspace);
  hw_thread_cards_fill (self->thread_cards, self->workspace);
  show_steps (self);
  if (!same)
    {
      close_form (self);                /* it belongs to another project */
      stop_typing (self);
      g_clear_pointer (&chosen, g_strfreev);
      chosen = g_new0 (char *, 1);
      g_free (self->path);
      self->path = g_strdup (path);
    }
  choose (self, words (chosen));
  selection_cb (self);
}

static void
rows_chosen_cb (HwMakingUpPage *self)
{
  const char    *number = hw_workspace_peek_selected (self->workspace);
  g_auto (GStrv) chosen = NULL;

  if (self->showing)
    return;
  chosen = get_chosen (self);
  show_several (self);
  refresh_actions (self);
  if (chosen[0] != NULL && (number == NULL || !g_strv_contains (words (chosen), number)))
    hw_workspace_select (self->workspace, chosen[0]);
}

static void
row_activated_cb (HwMakingUpPage *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "making-up.edit-step", NULL);
}

/* ---- actions ---- */

static void
typing_closed_cb (HwMakingUpPage *self)
{
  stop_typing (self);
  focus_steps (self);
}

static void
type_steps_action (GtkWidget  *widget,
                   const char *name,
                   GVariant   *parameter)
{
  HwMakingUpPage *self = HW_MAKING_UP_PAGE (widget);

  if (self->quick_row == NULL)
    {
      self->quick_row = hw_quick_row_new (self->workspace);
      gtk_box_insert_child_after (GTK_BOX (self->list_box), self->quick_row, gtk_widget_get_parent (self->list_window));
      g_signal_connect_swapped (self->quick_row, "closed", G_CALLBACK (typing_closed_cb), self);
    }
  gtk_widget_set_visible (self->quick_row, TRUE);
  show_steps (self);
  scroll_to (self, g_list_model_get_n_items (G_LIST_MODEL (self->steps)) - 1);    /* where the next will stand */
  hw_quick_row_begin (HW_QUICK_ROW (self->quick_row));
  hw_when_placed (self->quick_row, hw_bring_into_sight);
}

static void
type_again_action (GtkWidget  *widget,
                   const char *name,
                   GVariant   *parameter)
{
  type_steps_action (widget, name, parameter);
  hw_quick_row_begin_again (HW_QUICK_ROW (HW_MAKING_UP_PAGE (widget)->quick_row));
}

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
chosen_action (GtkWidget  *widget,
               const char *name,
               GVariant   *parameter)
{
  HwMakingUpPage *self = HW_MAKING_UP_PAGE (widget);
  GdkClipboard   *clipboard = gtk_widget_get_clipboard (widget);
  g_auto (GStrv)  chosen = get_chosen (self);

  if (chosen[0] == NULL)
    return;
  if (g_str_equal (name, "making-up.remove-step"))
    hw_steps_remove (self->workspace, words (chosen));
  else if (g_str_equal (name, "making-up.copy"))
    hw_steps_copy (self->workspace, clipboard, words (chosen));
  else if (g_str_equal (name, "making-up.cut"))
    hw_steps_cut (self->workspace, clipboard, words (chosen));
  else
    hw_steps_shift (self->workspace, words (chosen), g_str_equal (name, "making-up.move-down"));
}

static void
place_action (GtkWidget  *widget,
              const char *name,
              GVariant   *parameter)
{
  HwMakingUpPage *self = HW_MAKING_UP_PAGE (widget);
  const char     *dragged, *beside;
  gboolean        after;
  g_auto (GStrv)  numbers = NULL;

  g_variant_get (parameter, "(&s&sb)", &dragged, &beside, &after);
  numbers = g_strsplit (dragged, " ", -1);
  if (hw_workspace_peek_project (self->workspace) != NULL)
    hw_steps_place (self->workspace, words (numbers), beside, after);
}

static void
pasted_cb (GObject      *clipboard,
           GAsyncResult *result,
           gpointer      data)
{
  g_autoptr (HwMakingUpPage) self = data;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, NULL);
  g_auto (GStrv)   chosen = NULL;
  g_auto (GStrv)   pasted = NULL;
  gsize            n;

  /* The page, or its project, may have gone while the other program was asked. */
  if (self->workspace == NULL || hw_workspace_peek_project (self->workspace) == NULL)
    return;
  chosen = get_chosen (self);
  n = g_strv_length (chosen);
  pasted = hw_steps_paste (self->workspace, text, n > 0 ? chosen[n - 1] : NULL);
  if (pasted != NULL)
    choose (self, words (pasted));
}

static void
paste_action (GtkWidget  *widget,
              const char *name,
              GVariant   *parameter)
{
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (widget), NULL, pasted_cb, g_object_ref (widget));
}

static void
choose_all_action (GtkWidget  *widget,
                   const char *name,
                   GVariant   *parameter)
{
  gtk_selection_model_select_all (HW_MAKING_UP_PAGE (widget)->selection);
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

static void
pop_up_menu (HwMakingUpPage     *self,
             const GdkRectangle *at)
{
  if (self->context == NULL)
    {
      self->context = gtk_popover_menu_new_from_model (self->steps_menu);
      gtk_popover_set_has_arrow (GTK_POPOVER (self->context), FALSE);
      gtk_widget_set_halign (self->context, GTK_ALIGN_START);
      gtk_widget_set_parent (self->context, self->list_box);
    }
  gtk_popover_set_pointing_to (GTK_POPOVER (self->context), at);
  gtk_popover_popup (GTK_POPOVER (self->context));
}

static void
menu_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  HwMakingUpPage *self = HW_MAKING_UP_PAGE (widget);
  GtkWidget      *focus = gtk_root_get_focus (gtk_widget_get_root (widget));
  double          x = 40;
  double          y = 40;

  if (focus != NULL && gtk_widget_is_ancestor (focus, self->list_box))
    gtk_widget_translate_coordinates (focus, self->list_box, 40, gtk_widget_get_height (focus) / 2.0, &x, &y);
  pop_up_menu (self, &(GdkRectangle) { (int) x, (int) y, 1, 1 });
}

/* ---- the object ---- */

static void
hw_making_up_page_dispose (GObject *object)
{
  HwMakingUpPage *self = HW_MAKING_UP_PAGE (object);

  self->form = self->several = NULL;
  g_clear_handle_id (&self->fit_id, g_source_remove);
  g_clear_handle_id (&self->scroll_id, g_source_remove);
  g_clear_pointer (&self->context, gtk_widget_unparent);
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
  gtk_widget_class_install_action (class, "making-up.add-step", NULL, type_steps_action);
  gtk_widget_class_install_action (class, "making-up.type-again", NULL, type_again_action);
  gtk_widget_class_install_action (class, "making-up.add-operation", NULL, add_step_action);
  gtk_widget_class_install_action (class, "making-up.add-hand-step", NULL, add_step_action);
  gtk_widget_class_install_action (class, "making-up.edit-step", NULL, edit_step_action);
  gtk_widget_class_install_action (class, "making-up.remove-step", NULL, chosen_action);
  gtk_widget_class_install_action (class, "making-up.move-up", NULL, chosen_action);
  gtk_widget_class_install_action (class, "making-up.move-down", NULL, chosen_action);
  gtk_widget_class_install_action (class, "making-up.copy", NULL, chosen_action);
  gtk_widget_class_install_action (class, "making-up.cut", NULL, chosen_action);
  gtk_widget_class_install_action (class, "making-up.paste", NULL, paste_action);
  gtk_widget_class_install_action (class, "making-up.place", "(ssb)", place_action);
  gtk_widget_class_install_action (class, "making-up.choose-all", NULL, choose_all_action);
  gtk_widget_class_install_action (class, "making-up.menu", NULL, menu_action);
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
  gtk_widget_class_add_binding_action (class, GDK_KEY_Insert, GDK_CONTROL_MASK, "making-up.add-step", NULL);
}

static void
hw_making_up_page_class_init (HwMakingUpPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = hw_making_up_page_dispose;
  widget_class->grab_focus = hw_making_up_page_grab_focus;
  g_type_ensure (HW_TYPE_SIGN);
  g_type_ensure (HW_TYPE_WRAP);
  g_type_ensure (HW_TYPE_SPLIT);
  g_type_ensure (HW_TYPE_TAB_STOP);
  gtk_widget_class_set_template_from_resource (widget_class, "/net/handwheel/making-up-page.ui");
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, fabric_cards);
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, example_label);
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, thread_cards);
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, step_view);
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, panel_window);
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, panel);
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, steps_button);
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, list_box);
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, list_window);
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, list_foot);
  gtk_widget_class_bind_template_child (widget_class, HwMakingUpPage, steps_menu);
  install_actions (widget_class);
}

/* These belong to the list alone: in a form they are about letters. */
static void
add_list_keys (HwMakingUpPage *self)
{
  static const struct { guint key; GdkModifierType modifiers; const char *action; } keys[] = {
    { GDK_KEY_Delete, 0, "making-up.remove-step" },
    { GDK_KEY_c, GDK_CONTROL_MASK, "making-up.copy" },
    { GDK_KEY_x, GDK_CONTROL_MASK, "making-up.cut" },
    { GDK_KEY_v, GDK_CONTROL_MASK, "making-up.paste" },
    { GDK_KEY_F10, GDK_SHIFT_MASK, "making-up.menu" },
    { GDK_KEY_Menu, 0, "making-up.menu" },
  };
  GtkEventController *controller = gtk_shortcut_controller_new ();

  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (controller),
                                          gtk_shortcut_new (gtk_keyval_trigger_new (keys[i].key, keys[i].modifiers),
                                                            gtk_named_action_new (keys[i].action)));
  gtk_widget_add_controller (self->list_box, controller);
}

static void
right_pressed_cb (HwMakingUpPage *self,
                  int             n_press,
                  double          x,
                  double          y)
{
  pop_up_menu (self, &(GdkRectangle) { (int) x, (int) y, 1, 1 });
}

static void
add_context_menu (HwMakingUpPage *self)
{
  GtkGesture *click = gtk_gesture_click_new ();

  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), GDK_BUTTON_SECONDARY);
  g_signal_connect_swapped (click, "pressed", G_CALLBACK (right_pressed_cb), self);
  gtk_widget_add_controller (self->list_box, GTK_EVENT_CONTROLLER (click));
}

/* A column must not come or go while sizes are being given out. */
static gboolean
fit_cb (gpointer data)
{
  HwMakingUpPage *self = data;

  self->fit_id = 0;
  hw_step_columns_fit (self->step_view,
                       gtk_widget_get_width (self->list_window) / hw_theme_em (GTK_WIDGET (self->step_view)));
  return G_SOURCE_REMOVE;
}

static void
width_cb (HwMakingUpPage *self)
{
  if (self->fit_id == 0)
    self->fit_id = g_idle_add_full (G_PRIORITY_HIGH_IDLE, fit_cb, self, NULL);
}

static void
hw_making_up_page_init (HwMakingUpPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hw_control_name (self->steps_button, _("More to do with steps"));
  self->empty = hw_making_up_empty_new ();
  gtk_box_append (GTK_BOX (self->list_box), self->empty);
  hw_menu_button_set (GTK_MENU_BUTTON (self->steps_button), self->steps_menu);
  self->steps = hw_step_list_new ();
  self->selection = GTK_SELECTION_MODEL (gtk_multi_selection_new (G_LIST_MODEL (g_object_ref (self->steps))));
  add_list_keys (self);
  add_context_menu (self);
  g_signal_connect_object (gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (self->list_window)),
                           "notify::page-size", G_CALLBACK (width_cb), self, G_CONNECT_SWAPPED);
}

static void
add_setup (gpointer data)
{
  HwMakingUpPage *self = HW_MAKING_UP_PAGE (data);
  GtkWidget      *panel = hw_setup_panel_new (self->workspace);

  gtk_widget_set_hexpand (panel, TRUE);
  gtk_box_append (GTK_BOX (gtk_stack_get_child_by_name (self->panel, "setup")), panel);
}

static GtkWidget *
make_setup_box (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_widget_add_css_class (box, "panel");
  return box;
}

GtkWidget *
hw_making_up_page_new (HwWorkspace *workspace)
{
  HwMakingUpPage *self = g_object_new (HW_TYPE_MAKING_UP_PAGE, NULL);

  self->workspace = g_object_ref (workspace);
  hw_step_columns_add (self->step_view, workspace);
  gtk_column_view_set_model (self->step_view, self->selection);
  gtk_stack_add_named (self->panel, make_setup_box (), "setup");
  hw_later (workspace, self, add_setup);
  g_signal_connect_swapped (self->selection, "selection-changed", G_CALLBACK (rows_chosen_cb), self);
  g_signal_connect_swapped (self->step_view, "activate", G_CALLBACK (row_activated_cb), self);
  g_signal_connect_object (workspace, "selection", G_CALLBACK (selection_cb), self, G_CONNECT_SWAPPED);
  hw_watch (GTK_WIDGET (self), workspace, refresh);
  return GTK_WIDGET (self);
}
