/* order-wish.c - wishes for the order of work by dragging, keys and menu
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/order-wish.h"

#include <glib/gi18n.h>
#include <string.h>

#include "plan/wish.h"
#include "window/order-trial.h"
#include "words/words.h"

#define DRAG_PREFIX "handwheel-step:"    /* so that text dragged in from elsewhere is no step */

/* ---- wishes ---- */

gboolean
hw_order_can_wish (HwWorkspace *workspace,
                   const char  *number)
{
  const HwPlan     *plan = hw_workspace_peek_plan (workspace);
  const HwPlanStep *planned = plan != NULL && number != NULL ? hw_plan_find_step (plan, number) : NULL;

  return planned != NULL && !planned->done;
}

static gboolean
names (const HwWish *wish,
       const char   *number)
{
  return g_strv_contains ((const char * const *) wish->steps, number);
}

gboolean
hw_order_has_wish (HwWorkspace *workspace,
                   const char  *number)
{
  const HwProject *project = hw_workspace_peek_project (workspace);

  for (guint i = 0; project != NULL && number != NULL && i < project->wishes->len; i++)
    if (names (g_ptr_array_index (project->wishes, i), number))
      return TRUE;
  return FALSE;
}

/* FALSE, and told: a step is there no more, or sewn. */
static gboolean
check_open (HwWorkspace        *workspace,
            const char * const *steps)
{
  for (; *steps != NULL; steps++)
    if (!hw_order_can_wish (workspace, *steps))
      {
        /* Translators: a step's number */
        g_autofree char *text = g_strdup_printf (_("Step %s is done already; its place is settled."), *steps);

        hw_workspace_tell (workspace, text, FALSE);
        return FALSE;
      }
  return TRUE;
}

gboolean
hw_order_wish (HwWorkspace        *workspace,
               HwWishKind          kind,
               const char * const *steps)
{
  const HwProject         *project = hw_workspace_peek_project (workspace);
  g_autoptr (HwWish)       wish = hw_wish_new (kind, steps);
  g_autoptr (HwWishAnswer) forbidden = NULL;
  g_autofree char         *text = NULL;

  if (project == NULL || !check_open (workspace, steps))
    return FALSE;
  forbidden = hw_wish_forbidden (project, wish);
  if (forbidden != NULL)
    {
      text = hw_words_wish_answer (wish, forbidden);
      hw_workspace_tell (workspace, text, TRUE);
      return FALSE;
    }
  text = hw_words_wish (wish);
  return hw_workspace_edit (workspace, hw_edit_add_wish (project, wish, NULL), text, NULL, NULL);
}

/* The number of the step @by places behind @number in the order of work; NULL none, or done. */
static const char *
find_neighbour (HwWorkspace *workspace,
                const char  *number,
                int          by)
{
  const HwPlan     *plan = hw_workspace_peek_plan (workspace);
  const HwPlanStep *planned = plan != NULL ? hw_plan_find_step (plan, number) : NULL;
  int               place;

  if (planned == NULL)
    return NULL;
  place = (int) (planned - &g_array_index (plan->order, HwPlanStep, 0)) + by;
  if (place < 0 || place >= (int) plan->order->len || g_array_index (plan->order, HwPlanStep, place).done)
    return NULL;
  return hw_project_get_step (plan->project, g_array_index (plan->order, HwPlanStep, place).step)->number;
}

gboolean
hw_order_wish_move (HwWorkspace *workspace,
                    const char  *number,
                    gboolean     later)
{
  const char *neighbour = find_neighbour (workspace, number, later ? 1 : -1);

  if (neighbour == NULL)
    {
      hw_workspace_tell (workspace, later ? _("This is the last step.") : _("This is the first step still to do."),
                         FALSE);
      return FALSE;
    }
  if (later)
    return hw_order_wish (workspace, HW_WISH_BEFORE, (const char *[]) { neighbour, number, NULL });
  return hw_order_wish (workspace, HW_WISH_BEFORE, (const char *[]) { number, neighbour, NULL });
}

gboolean
hw_order_wish_keep (HwWorkspace *workspace,
                    const char  *number)
{
  const char *neighbour = find_neighbour (workspace, number, 1);

  if (neighbour == NULL)
    {
      hw_workspace_tell (workspace, _("This is the last step."), FALSE);
      return FALSE;
    }
  return hw_order_wish (workspace, HW_WISH_TOGETHER, (const char *[]) { number, neighbour, NULL });
}

void
hw_order_wish_forget (HwWorkspace *workspace,
                      const char  *number)
{
  const HwProject      *project = hw_workspace_peek_project (workspace);
  g_autoptr (HwProject) next = NULL;
  /* Translators: a step's number */
  g_autofree char      *label = g_strdup_printf (_("forget the wishes for step %s"), number);

  if (!hw_order_has_wish (workspace, number))
    return;
  next = hw_project_ref ((HwProject *) project);
  for (guint i = project->wishes->len; i-- > 0;)
    if (names (g_ptr_array_index (project->wishes, i), number))
      {
        HwProject *less = hw_edit_remove_wish (next, i, NULL);

        hw_project_unref (next);
        next = less;
      }
  hw_workspace_edit (workspace, g_steal_pointer (&next), label, NULL, NULL);
}

GMenuModel *
hw_order_wish_menu (void)
{
  GMenu              *menu = g_menu_new ();
  g_autoptr (GMenu)   ends = g_menu_new ();
  g_autoptr (GMenu)   places = g_menu_new ();
  g_autoptr (GMenu)   forget = g_menu_new ();

  g_menu_append (ends, _("Sew first"), "order.first");
  g_menu_append (ends, _("Sew last"), "order.last");
  g_menu_append (places, _("Sew before the step above"), "order.earlier");
  g_menu_append (places, _("Sew after the step below"), "order.later");
  g_menu_append (places, _("Keep with the next step"), "order.keep");
  g_menu_append (forget, _("Forget this step's wishes"), "order.forget");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (ends));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (places));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (forget));
  return G_MENU_MODEL (menu);
}

/* ---- dragging ---- */

typedef struct
{
  GtkWidget    *widget;                  /* borrowed: it owns this */
  GtkLabel     *cost;
  HwOrderGetRow get_row;
  gpointer      data;
} Drag;

/* One step is dragged at a time. */
typedef struct
{
  HwOrderTrial *trial;
  GtkLabel     *cost;                    /* of the row that is hung over; weak */
  char         *dragged;
} Hover;

static void
free_hover (gpointer data)
{
  Hover *hover = data;

  g_clear_weak_pointer (&hover->cost);
  hw_order_trial_free (hover->trial);
  g_free (hover->dragged);
  g_free (hover);
}

static Hover *
find_hover (GtkWidget *widget)
{
  Hover *hover = NULL;

  for (; widget != NULL && hover == NULL; widget = gtk_widget_get_parent (widget))
    hover = g_object_get_data (G_OBJECT (widget), "order-hover");
  return hover;
}

static void
show_cost (const char *text,
           gboolean    possible,
           gpointer    data)
{
  Hover      *hover = data;
  const char *classes[] = { "drop-cost", possible ? "brass" : "rust", NULL };

  if (hover->cost == NULL)
    return;
  gtk_widget_set_css_classes (GTK_WIDGET (hover->cost), classes);
  gtk_label_set_text (hover->cost, text);
  gtk_widget_set_visible (GTK_WIDGET (hover->cost), TRUE);
}

static void
leave (Hover *hover)
{
  hw_order_trial_forget (hover->trial);
  if (hover->cost != NULL)
    gtk_widget_set_visible (GTK_WIDGET (hover->cost), FALSE);
  g_clear_weak_pointer (&hover->cost);
}

void
hw_order_wish_set_up (GtkWidget   *page,
                      HwWorkspace *workspace)
{
  Hover *hover = g_new0 (Hover, 1);

  hover->trial = hw_order_trial_new (workspace, show_cost, hover);
  g_object_set_data_full (G_OBJECT (page), "order-hover", hover, free_hover);
}

/* The heading of a block stands for the place before its first step. */
void
hw_order_wish_hover (GtkWidget  *widget,
                     const char *dragged,
                     gboolean    upper)
{
  Drag       *drag = g_object_get_data (G_OBJECT (widget), "order-drag");
  Hover      *hover = find_hover (widget);
  HwOrderRow *row = drag->get_row (drag->data);
  const char *other = row != NULL ? hw_order_row_get_step (row) : NULL;

  if (hover == NULL || dragged == NULL || other == NULL || g_str_equal (dragged, other))
    return;
  if (hover->cost != drag->cost)
    {
      leave (hover);
      g_set_weak_pointer (&hover->cost, drag->cost);
    }
  hw_order_trial_ask (hover->trial, upper ? dragged : other, upper ? other : dragged);
}

static GdkContentProvider *
prepare_cb (GtkDragSource *source,
            double         x,
            double         y,
            Drag          *drag)
{
  HwOrderRow      *row = drag->get_row (drag->data);
  g_autofree char *text = NULL;

  if (row == NULL || hw_order_row_get_number (row) == NULL || hw_order_row_get_done (row))
    return NULL;
  text = g_strconcat (DRAG_PREFIX, hw_order_row_get_number (row), NULL);
  return gdk_content_provider_new_typed (G_TYPE_STRING, text);
}

static void
set_dragged (const Drag *drag,
             const char *number)
{
  Hover *hover = find_hover (drag->widget);

  if (hover == NULL)
    return;
  leave (hover);
  g_free (hover->dragged);
  hover->dragged = g_strdup (number);
}

static void
begin_cb (GtkDragSource *source,
          GdkDrag       *gdk_drag,
          Drag          *drag)
{
  const char      *number = hw_order_row_get_number (drag->get_row (drag->data));
  /* Translators: what is dragged; a step's number */
  g_autofree char *text = g_strdup_printf (_("Step %s"), number);
  GtkWidget       *label = gtk_label_new (text);

  /* Small: the row below has something to tell. */
  gtk_widget_add_css_class (label, "drag-slip");
  gtk_drag_icon_set_child (GTK_DRAG_ICON (gtk_drag_icon_get_for_drag (gdk_drag)), label);
  gtk_widget_add_css_class (drag->widget, "dragged");
  set_dragged (drag, number);
}

static void
end_cb (GtkDragSource *source,
        GdkDrag       *gdk_drag,
        gboolean       moved,
        Drag          *drag)
{
  gtk_widget_remove_css_class (drag->widget, "dragged");
  set_dragged (drag, NULL);
}

/* The heading of a block stands for the place before its first step. */
static gboolean
is_upper (const Drag *drag,
          HwOrderRow *row,
          double      y)
{
  return hw_order_row_get_number (row) == NULL || y < gtk_widget_get_height (drag->widget) / 2.0;
}

static void
show_place (const Drag *drag,
            gboolean    before,
            gboolean    after)
{
  if (before)
    gtk_widget_add_css_class (drag->widget, "drop-before");
  else
    gtk_widget_remove_css_class (drag->widget, "drop-before");
  if (after)
    gtk_widget_add_css_class (drag->widget, "drop-after");
  else
    gtk_widget_remove_css_class (drag->widget, "drop-after");
}

static GdkDragAction
motion_cb (GtkDropTarget *target,
           double         x,
           double         y,
           Drag          *drag)
{
  HwOrderRow *row = drag->get_row (drag->data);

  if (row == NULL || hw_order_row_get_done (row))
    return 0;
  show_place (drag, is_upper (drag, row, y), !is_upper (drag, row, y));
  if (find_hover (drag->widget) != NULL)
    hw_order_wish_hover (drag->widget, find_hover (drag->widget)->dragged, is_upper (drag, row, y));
  return GDK_ACTION_MOVE;
}

static void
leave_cb (GtkDropTarget *target,
          Drag          *drag)
{
  show_place (drag, FALSE, FALSE);
  if (find_hover (drag->widget) != NULL)
    leave (find_hover (drag->widget));
}

static gboolean
drop_cb (GtkDropTarget *target,
         const GValue  *value,
         double         x,
         double         y,
         Drag          *drag)
{
  HwOrderRow      *row = drag->get_row (drag->data);
  const char      *text = g_value_get_string (value);
  g_autofree char *dragged = NULL;
  g_autofree char *other = NULL;

  show_place (drag, FALSE, FALSE);
  if (row == NULL || text == NULL || !g_str_has_prefix (text, DRAG_PREFIX))
    return FALSE;
  dragged = g_strdup (text + strlen (DRAG_PREFIX));
  other = g_strdup (hw_order_row_get_step (row));
  if (other == NULL || g_str_equal (dragged, other))
    return FALSE;
  if (is_upper (drag, row, y))
    gtk_widget_activate_action (drag->widget, "order.before", "(sss)", dragged, other, dragged);
  else
    gtk_widget_activate_action (drag->widget, "order.before", "(sss)", other, dragged, dragged);
  return TRUE;
}

void
hw_order_wish_add_drag (GtkWidget    *row,
                        GtkLabel     *cost,
                        HwOrderGetRow get_row,
                        gpointer      data)
{
  GtkDragSource *source = gtk_drag_source_new ();
  GtkDropTarget *target = gtk_drop_target_new (G_TYPE_STRING, GDK_ACTION_MOVE);
  Drag          *drag = g_new0 (Drag, 1);

  *drag = (Drag) { row, cost, get_row, data };
  g_object_set_data_full (G_OBJECT (row), "order-drag", drag, g_free);
  gtk_drag_source_set_actions (source, GDK_ACTION_MOVE);
  g_signal_connect (source, "prepare", G_CALLBACK (prepare_cb), drag);
  g_signal_connect (source, "drag-begin", G_CALLBACK (begin_cb), drag);
  g_signal_connect (source, "drag-end", G_CALLBACK (end_cb), drag);
  gtk_widget_add_controller (row, GTK_EVENT_CONTROLLER (source));
  g_signal_connect (target, "motion", G_CALLBACK (motion_cb), drag);
  g_signal_connect (target, "leave", G_CALLBACK (leave_cb), drag);
  g_signal_connect (target, "drop", G_CALLBACK (drop_cb), drag);
  gtk_widget_add_controller (row, GTK_EVENT_CONTROLLER (target));
}
