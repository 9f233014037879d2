/* tab-stop.c - one stop for Tab, however many rows stand in it
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/tab-stop.h"

struct _HwTabStop
{
  GtkWidget      parent_instance;
  HwTabStopEnter enter;
  gpointer       list;
};

G_DEFINE_FINAL_TYPE (HwTabStop, hw_tab_stop, GTK_TYPE_WIDGET)

/* The row that has the focus, or what in it has. */
static GtkWidget *
find_row (GtkWidget *self)
{
  GtkWidget *at = gtk_root_get_focus (gtk_widget_get_root (self));

  for (; at != NULL && at != self; at = gtk_widget_get_parent (at))
    {
      GtkWidget *list = gtk_widget_get_parent (at);

      if (GTK_IS_LIST_BASE (list) || GTK_IS_LIST_BOX (list))
        return at;
    }
  return NULL;
}

/* The list that scrolls in @widget, or is it; NULL: another kind. */
static GtkListBox *
find_list_box (GtkWidget *widget)
{
  if (widget == NULL || GTK_IS_LIST_BOX (widget))
    return (GtkListBox *) widget;
  return GTK_IS_SCROLLED_WINDOW (widget) || GTK_IS_VIEWPORT (widget)
         ? find_list_box (gtk_widget_get_first_child (widget)) : NULL;
}

/* From behind, too, it comes to the chosen row: the last one would be chosen by it. */
static gboolean
enter_chosen (GtkWidget *self)
{
  GtkListBox    *list = find_list_box (gtk_widget_get_first_child (self));
  GtkListBoxRow *row = list != NULL ? gtk_list_box_get_selected_row (list) : NULL;

  return row != NULL && gtk_widget_grab_focus (GTK_WIDGET (row));
}

/* What else stands in a row comes before Tab leaves it. */
static gboolean
hw_tab_stop_focus (GtkWidget        *widget,
                   GtkDirectionType  direction)
{
  HwTabStop *self = HW_TAB_STOP (widget);
  gboolean   by_tab = direction == GTK_DIR_TAB_FORWARD || direction == GTK_DIR_TAB_BACKWARD;

  if (by_tab && gtk_widget_get_focus_child (widget) != NULL)
    {
      GtkWidget *row = find_row (widget);

      return row != NULL && gtk_widget_child_focus (row, direction);
    }
  if (by_tab && self->enter != NULL)
    return self->enter (self->list);
  return (by_tab && enter_chosen (widget)) || GTK_WIDGET_CLASS (hw_tab_stop_parent_class)->focus (widget, direction);
}

/* A bare widget would not ask for the room that its child wants. */
static void
hw_tab_stop_compute_expand (GtkWidget *widget,
                            gboolean  *hexpand,
                            gboolean  *vexpand)
{
  GtkWidget *child = gtk_widget_get_first_child (widget);

  *hexpand = child != NULL && gtk_widget_compute_expand (child, GTK_ORIENTATION_HORIZONTAL);
  *vexpand = child != NULL && gtk_widget_compute_expand (child, GTK_ORIENTATION_VERTICAL);
}

static void
hw_tab_stop_dispose (GObject *object)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  if (child != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (hw_tab_stop_parent_class)->dispose (object);
}

static void
hw_tab_stop_class_init (HwTabStopClass *class)
{
  G_OBJECT_CLASS (class)->dispose = hw_tab_stop_dispose;
  GTK_WIDGET_CLASS (class)->focus = hw_tab_stop_focus;
  GTK_WIDGET_CLASS (class)->compute_expand = hw_tab_stop_compute_expand;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_BIN_LAYOUT);
}

static void
hw_tab_stop_init (HwTabStop *self)
{
}

GtkWidget *
hw_tab_stop_new (GtkWidget *child)
{
  GtkWidget *self = g_object_new (HW_TYPE_TAB_STOP, NULL);

  gtk_widget_set_parent (child, self);
  return self;
}

void
hw_tab_stop_set_enter (HwTabStop      *self,
                       HwTabStopEnter  enter,
                       gpointer        list)
{
  g_return_if_fail (HW_IS_TAB_STOP (self));

  self->enter = enter;
  self->list = list;
}
