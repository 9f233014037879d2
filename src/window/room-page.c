/* room-page.c - a page of the sewing room: what lies there on the left, a form or advice on the right
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/room-page.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/form.h"
#include "window/room-rows.h"
#include "window/split.h"
#include "window/tab-stop.h"
#include "window/wrap.h"

#define SCROLLBAR 10                    /* beside the rows, not on them */

struct _HwRoomPage
{
  GtkBox                parent_instance;
  HwWorkspace          *workspace;
  const HwRoomPageKind *kind;
  GtkWidget            *split, *left, *panel, *add_button;
  HwRoomPlace          *asked;           /* what opened the form; NULL: no form is open */
  GtkWidget            *form;            /* in the panel; NULL: the aside */
  HwRoom               *shown;           /* the room that is shown; NULL: not filled yet */
};

G_DEFINE_FINAL_TYPE (HwRoomPage, hw_room_page, GTK_TYPE_BOX)

HwWorkspace *
hw_room_page_workspace (HwRoomPage *self)
{
  return self->workspace;
}

const HwRoom *
hw_room_page_room (HwRoomPage *self)
{
  return hw_workspace_get_room (self->workspace);
}

const HwHandbook *
hw_room_page_handbook (HwRoomPage *self)
{
  return hw_workspace_get_handbook (self->workspace);
}

/* ---- the panel ---- */

static void
clear_box (GtkWidget *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (box)) != NULL)
    gtk_box_remove (GTK_BOX (box), child);
}

void
hw_room_page_show_aside (HwRoomPage *self)
{
  GtkWidget *aside;

  if (self->kind == NULL || self->form != NULL)
    return;
  aside = self->kind->aside (self);
  gtk_widget_add_css_class (aside, "panel");
  clear_box (self->panel);
  gtk_box_append (GTK_BOX (self->panel), aside);
}

GtkWidget *
hw_room_page_peek_aside (HwRoomPage *self)
{
  return self->form == NULL ? gtk_widget_get_first_child (self->panel) : NULL;
}

static gboolean
close_form_later_cb (gpointer data)
{
  HwRoomPage *self = data;

  if (self->kind == NULL || self->form == NULL)
    return G_SOURCE_REMOVE;
  self->form = NULL;
  hw_split_lead_panel (HW_SPLIT (self->split), FALSE);
  /* The focus leaves the form before the form goes, back to what asked for it. */
  hw_room_place_restore (self->asked, GTK_WIDGET (self), self->left);
  g_clear_pointer (&self->asked, hw_room_place_free);
  hw_room_page_show_aside (self);
  return G_SOURCE_REMOVE;
}

/* The form is still inside its own action; it goes when that is over. */
static void
form_closed_cb (HwRoomPage *self)
{
  g_idle_add_full (G_PRIORITY_HIGH_IDLE, close_form_later_cb, g_object_ref (self), g_object_unref);
}

void
hw_room_page_close_form (HwRoomPage *self)
{
  if (self->form != NULL)
    form_closed_cb (self);
}

void
hw_room_page_show_form (HwRoomPage *self,
                        GtkWidget  *form)
{
  HwRoomPlace *asked = hw_room_place_new (GTK_WIDGET (self), self->left);

  if (asked != NULL)                    /* one form may ask for the next, and goes */
    {
      g_clear_pointer (&self->asked, hw_room_place_free);
      self->asked = asked;
    }
  clear_box (self->panel);
  self->form = form;
  gtk_box_append (GTK_BOX (self->panel), form);
  hw_split_lead_panel (HW_SPLIT (self->split), TRUE);
  g_signal_connect_object (form, "closed", G_CALLBACK (form_closed_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_child_focus (form, GTK_DIR_TAB_FORWARD);
  hw_when_placed (form, hw_bring_into_sight);
}

/* ---- what lies there ---- */

static void
fill (HwRoomPage *self)
{
  const HwRoom *room = hw_room_page_room (self);
  HwRoomPlace  *place = self->kind->make == NULL ? hw_room_place_new (self->left, self->left) : NULL;

  g_clear_pointer (&self->shown, hw_room_unref);
  self->shown = hw_room_ref ((HwRoom *) room);
  if (self->kind->make == NULL)
    hw_room_rows_clear (self->left);
  self->kind->fill (self, self->left);
  hw_room_place_restore (place, GTK_WIDGET (self), self->left);
  hw_room_place_free (place);
  hw_room_page_show_aside (self);
}

/* A page that nobody looks at is filled when it is looked at. */
static void
changed_cb (HwRoomPage *self)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    fill (self);
  else
    g_clear_pointer (&self->shown, hw_room_unref);
}

static void
hw_room_page_map (GtkWidget *widget)
{
  HwRoomPage *self = HW_ROOM_PAGE (widget);

  if (self->shown != hw_room_page_room (self))
    fill (self);
  GTK_WIDGET_CLASS (hw_room_page_parent_class)->map (widget);
}

/* ---- the object ---- */

static void
hw_room_page_dispose (GObject *object)
{
  HwRoomPage *self = HW_ROOM_PAGE (object);

  self->kind = NULL;
  self->form = NULL;
  g_clear_pointer (&self->asked, hw_room_place_free);
  g_clear_pointer (&self->shown, hw_room_unref);
  g_clear_object (&self->workspace);
  G_OBJECT_CLASS (hw_room_page_parent_class)->dispose (object);
}

static void
hw_room_page_class_init (HwRoomPageClass *class)
{
  G_OBJECT_CLASS (class)->dispose = hw_room_page_dispose;
  GTK_WIDGET_CLASS (class)->map = hw_room_page_map;
}

static void
hw_room_page_init (HwRoomPage *self)
{
}

static GtkWidget *
make_head (HwRoomPage *self)
{
  GtkWidget       *head = hw_wrap_new (12, 6);
  GtkWidget       *title = hw_label_new (_(self->kind->title), "figure");
  g_autofree char *action = g_strconcat (self->kind->group, ".add", NULL);

  gtk_widget_set_hexpand (title, TRUE);
  hw_wrap_append (HW_WRAP (head), title);
  if (self->kind->add_label == NULL)
    return head;
  self->add_button = gtk_button_new_with_label (_(self->kind->add_label));
  gtk_widget_set_valign (self->add_button, GTK_ALIGN_CENTER);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->add_button), action);
  hw_wrap_append (HW_WRAP (head), self->add_button);
  return head;
}

static GtkWidget *
make_scrolled (GtkWidget *child)
{
  GtkWidget *scrolled = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), child);
  gtk_widget_set_vexpand (scrolled, TRUE);
  return scrolled;
}

GtkWidget *
hw_room_page_new (HwWorkspace          *workspace,
                  const HwRoomPageKind *kind)
{
  HwRoomPage *self = g_object_new (HW_TYPE_ROOM_PAGE, NULL);
  g_autoptr (GSimpleActionGroup) actions = g_simple_action_group_new ();
  GtkWidget *columns = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  GtkWidget *right;

  self->workspace = g_object_ref (workspace);
  self->split = hw_split_new ();
  self->kind = kind;
  g_action_map_add_action_entries (G_ACTION_MAP (actions), kind->actions, (int) kind->n_actions, self);
  gtk_widget_insert_action_group (GTK_WIDGET (self), kind->group, G_ACTION_GROUP (actions));
  gtk_widget_add_css_class (columns, "page");
  gtk_box_append (GTK_BOX (columns), make_head (self));
  self->left = kind->make != NULL ? kind->make (self) : hw_room_rows_new (_(kind->title));
  if (kind->make == NULL)
    gtk_widget_set_margin_end (self->left, SCROLLBAR);
  self->panel = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  right = make_scrolled (self->panel);
  gtk_widget_add_css_class (right, "sheet");
  hw_split_set_fits (HW_SPLIT (self->split), TRUE);
  hw_split_append (HW_SPLIT (self->split),
                   kind->make != NULL ? self->left : hw_tab_stop_new (make_scrolled (self->left)));
  hw_split_append (HW_SPLIT (self->split), right);
  gtk_widget_set_vexpand (self->split, TRUE);
  gtk_box_append (GTK_BOX (columns), self->split);
  gtk_box_append (GTK_BOX (self), hw_page_scroller_new (columns));
  g_signal_connect_object (workspace, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}
