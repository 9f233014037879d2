/* room-rows.c - what lies in the sewing room, row by row, each with what can be done with it
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/room-rows.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/wrap.h"

struct _HwRoomPlace
{
  char     *action;                     /* NULL: the row itself */
  GVariant *target;                     /* NULL none */
  int       row;                        /* -1: outside of the rows */
};

GtkWidget *
hw_room_rows_new (const char *name)
{
  GtkWidget *rows = gtk_list_box_new ();

  gtk_list_box_set_selection_mode (GTK_LIST_BOX (rows), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (rows, "room-rows");
  hw_control_name (rows, name);
  return rows;
}

void
hw_room_rows_clear (GtkWidget *rows)
{
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (rows), 0)) != NULL)
    gtk_list_box_remove (GTK_LIST_BOX (rows), GTK_WIDGET (row));
}

static GtkWidget *
add_row (GtkWidget  *rows,
         GtkWidget  *child,
         const char *name,
         gboolean    takes_focus)
{
  GtkWidget *row = gtk_list_box_row_new ();

  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), child);
  gtk_widget_set_focusable (row, takes_focus);
  hw_control_name (row, name);
  gtk_list_box_append (GTK_LIST_BOX (rows), row);
  return row;
}

void
hw_room_rows_add_heading (GtkWidget  *rows,
                          const char *text)
{
  GtkWidget *heading = hw_label_new (text, "heading");

  if (gtk_widget_get_first_child (rows) != NULL)
    gtk_widget_set_margin_top (heading, 8);
  add_row (rows, heading, text, FALSE);
}

void
hw_room_rows_add_empty (GtkWidget  *rows,
                        const char *text)
{
  GtkWidget *label = hw_label_new (text, "mute");

  gtk_widget_add_css_class (label, "room-empty");
  add_row (rows, label, text, FALSE);
}

void
hw_room_rows_add_button (GtkWidget  *rows,
                         const char *label,
                         const char *action)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_widget_add_css_class (button, "link");
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  add_row (rows, button, label, FALSE);
}

GtkWidget *
hw_room_rows_add (GtkWidget  *rows,
                  const char *name,
                  const char *detail,
                  const char *detail_class)
{
  GtkWidget       *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget       *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1);
  GtkWidget       *buttons = hw_wrap_new (4, 4);
  gboolean         has_detail = detail != NULL && detail[0] != '\0';
  g_autofree char *whole = has_detail ? g_strdup_printf (_("%s, %s"), name, detail) : g_strdup (name);

  gtk_widget_add_css_class (box, "sheet");
  gtk_widget_add_css_class (box, "room-row");
  gtk_widget_set_hexpand (words, TRUE);
  gtk_widget_set_valign (words, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (words), hw_label_new (name, "strong"));
  if (has_detail)
    gtk_box_append (GTK_BOX (words), hw_label_new (detail, detail_class));
  gtk_widget_set_valign (buttons, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (box), words);
  gtk_box_append (GTK_BOX (box), buttons);
  return add_row (rows, box, whole, TRUE);
}

void
hw_room_row_add_button (GtkWidget  *row,
                        const char *label,
                        const char *what,
                        const char *action,
                        const char *target)
{
  GtkWidget       *button = gtk_button_new_with_label (label);
  GtkWidget       *box = gtk_list_box_row_get_child (GTK_LIST_BOX_ROW (row));
  /* Translators: what a button does, to which needle, thread or fabric */
  g_autofree char *spoken = g_strdup_printf (_("%s: %s"), label, what);

  gtk_widget_add_css_class (button, "flat");
  gtk_widget_add_css_class (button, "tool");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  gtk_widget_set_tooltip_text (button, spoken);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", target);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  hw_wrap_append (HW_WRAP (gtk_widget_get_last_child (box)), button);
}

/* ---- the focus ---- */

static GtkWidget *
find_focus (GtkWidget *within)
{
  GtkRoot   *root = gtk_widget_get_root (within);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  return focus != NULL && gtk_widget_is_ancestor (focus, within) ? focus : NULL;
}

HwRoomPlace *
hw_room_place_new (GtkWidget *within,
                   GtkWidget *rows)
{
  GtkWidget   *focus = find_focus (within);
  GtkWidget   *row = focus != NULL ? gtk_widget_get_ancestor (focus, GTK_TYPE_LIST_BOX_ROW) : NULL;
  HwRoomPlace *self;

  if (focus == NULL)
    return NULL;
  self = g_new0 (HwRoomPlace, 1);
  self->row = row != NULL && gtk_widget_get_parent (row) == rows ? gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (row))
                                                                 : -1;
  /* A row is actionable too, and has no action. */
  if (GTK_IS_ACTIONABLE (focus))
    {
      GVariant *target = gtk_actionable_get_action_target_value (GTK_ACTIONABLE (focus));

      self->action = g_strdup (gtk_actionable_get_action_name (GTK_ACTIONABLE (focus)));
      self->target = target != NULL ? g_variant_ref (target) : NULL;
    }
  return self;
}

static gboolean
is_same_button (GtkWidget         *widget,
                const HwRoomPlace *place)
{
  GtkActionable *actionable = GTK_IS_ACTIONABLE (widget) ? GTK_ACTIONABLE (widget) : NULL;
  GVariant      *target;

  if (actionable == NULL || place->action == NULL
      || g_strcmp0 (gtk_actionable_get_action_name (actionable), place->action) != 0)
    return FALSE;
  target = gtk_actionable_get_action_target_value (actionable);
  return target == NULL || place->target == NULL ? target == place->target : g_variant_equal (target, place->target);
}

static GtkWidget *
find_button (GtkWidget         *within,
             const HwRoomPlace *place)
{
  GtkWidget *found = is_same_button (within, place) ? within : NULL;

  for (GtkWidget *at = gtk_widget_get_first_child (within); at != NULL && found == NULL;
       at = gtk_widget_get_next_sibling (at))
    found = find_button (at, place);
  return found;
}

/* The row in that place, or the nearest before it that takes the focus. */
static void
focus_row (GtkWidget *rows,
           int        place)
{
  for (int i = place; i >= 0; i--)
    {
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (rows), i);

      if (row != NULL && gtk_widget_get_focusable (GTK_WIDGET (row)) && gtk_widget_grab_focus (GTK_WIDGET (row)))
        return;
    }
  gtk_widget_child_focus (rows, GTK_DIR_TAB_FORWARD);
}

void
hw_room_place_restore (const HwRoomPlace *self,
                       GtkWidget         *within,
                       GtkWidget         *rows)
{
  GtkWidget *button = self != NULL ? find_button (within, self) : NULL;

  if (self == NULL || (button != NULL && gtk_widget_grab_focus (button)))
    return;
  if (GTK_IS_LIST_BOX (rows))
    focus_row (rows, self->row);
  else
    gtk_widget_child_focus (rows, GTK_DIR_TAB_FORWARD);
}

void
hw_room_place_free (HwRoomPlace *self)
{
  if (self == NULL)
    return;
  g_free (self->action);
  g_clear_pointer (&self->target, g_variant_unref);
  g_free (self);
}
