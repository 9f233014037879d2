/* order-keys.c - the keys in the order of work: from step to step, over the heads of the blocks
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A head takes no focus, and the list's own keys would end in front of it, or do nothing where they lead to one.
 */

#include "config.h"

#include "window/order-keys.h"

#include "window/order-row.h"
#include "window/order-sight.h"

static GtkSingleSelection *
get_selection (GtkListView *list)
{
  return GTK_SINGLE_SELECTION (gtk_list_view_get_model (list));
}

/* The nearest step beyond @place in that direction; GTK_INVALID_LIST_POSITION: there is none. */
static guint
find_step (GtkListView *list,
           int          place,
           int          direction)
{
  GListModel *rows = G_LIST_MODEL (get_selection (list));
  int         n = (int) g_list_model_get_n_items (rows);

  for (int i = place + direction; i >= 0 && i < n; i += direction)
    {
      g_autoptr (HwOrderRow) row = g_list_model_get_item (rows, (guint) i);

      if (hw_order_row_get_kind (row) == HW_ORDER_ROW_STEP)
        return (guint) i;
    }
  return GTK_INVALID_LIST_POSITION;
}

gboolean
hw_order_keys_focus (GtkListView *list)
{
  GtkSingleSelection *selection = get_selection (list);
  guint               place = gtk_single_selection_get_selected (selection);

  if (place == GTK_INVALID_LIST_POSITION)
    {
      place = find_step (list, -1, 1);
      if (place == GTK_INVALID_LIST_POSITION)
        return FALSE;
      gtk_single_selection_set_selected (selection, place);
    }
  hw_order_sight_bring (list, hw_order_row_get_number (gtk_single_selection_get_selected_item (selection)));
  for (GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (list)); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    if ((gtk_widget_get_state_flags (row) & GTK_STATE_FLAG_SELECTED) != 0)
      return gtk_widget_get_focus_child (row) != NULL || gtk_widget_child_focus (row, GTK_DIR_TAB_FORWARD);
  return FALSE;
}

/* The step to which the key leads from @place, which may be -1; GTK_INVALID_LIST_POSITION: to none. */
static guint
find_target (GtkListView *list,
             int          place,
             guint        key)
{
  int n = (int) g_list_model_get_n_items (G_LIST_MODEL (get_selection (list)));

  switch (key)
    {
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      return find_step (list, place, 1);
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      return find_step (list, place, -1);
    case GDK_KEY_Home:
    case GDK_KEY_KP_Home:
      return find_step (list, -1, 1);
    case GDK_KEY_End:
    case GDK_KEY_KP_End:
      return find_step (list, n, -1);
    default:
      return GTK_INVALID_LIST_POSITION;
    }
}

/* Ctrl with an arrow is the list's own, and with a step to go to the first or last one as without. */
static gboolean
is_with_others (guint           key,
                GdkModifierType modifiers)
{
  gboolean to_end = key == GDK_KEY_Home || key == GDK_KEY_KP_Home || key == GDK_KEY_End || key == GDK_KEY_KP_End;

  return (modifiers & (GDK_SHIFT_MASK | GDK_ALT_MASK | (to_end ? 0 : GDK_CONTROL_MASK))) != 0;
}

static gboolean
key_cb (GtkEventControllerKey *keys,
        guint                  key,
        guint                  code,
        GdkModifierType        modifiers,
        GtkListView           *list)
{
  guint place = gtk_single_selection_get_selected (get_selection (list));

  if (is_with_others (key, modifiers))
    return FALSE;
  place = find_target (list, place == GTK_INVALID_LIST_POSITION ? -1 : (int) place, key);
  if (place == GTK_INVALID_LIST_POSITION)
    return FALSE;
  gtk_single_selection_set_selected (get_selection (list), place);
  return hw_order_keys_focus (list);
}

void
hw_order_keys_add (GtkListView *list)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), list);
  gtk_widget_add_controller (GTK_WIDGET (list), keys);
}
