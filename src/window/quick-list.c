/* quick-list.c - what a field may be completed to: rows above or below the row of fields
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/quick-list.h"

#include <glib/gi18n.h>
#include <math.h>

#include "window/controls.h"
#include "words/quick.h"

#define MARGIN 12
#define LEAST_HEIGHT 80

typedef struct
{
  HwQuickAsk  ask;
  gpointer    data;
  GtkWidget  *popover, *scroller, *rows;
  GtkWidget  *entry;             /* that the rows are for; NULL: none */
  gboolean    taking;
} QuickList;

static QuickList *
get_list (GtkWidget *popover)
{
  return g_object_get_data (G_OBJECT (popover), "hw-quick-list");
}

/* ---- rows ---- */

static GtkWidget *
make_row (const HwQuickOffer *offer)
{
  GtkWidget       *row = gtk_list_box_row_new ();
  GtkWidget       *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget       *name = gtk_label_new (offer->text);
  GtkWidget       *detail = gtk_label_new (offer->detail);
  g_autofree char *whole = offer->detail[0] != '\0' ? g_strdup_printf ("%s, %s", offer->text, offer->detail)
                                                    : g_strdup (offer->text);

  gtk_widget_add_css_class (detail, "small");
  gtk_widget_add_css_class (detail, "mute");
  gtk_widget_set_hexpand (detail, TRUE);
  gtk_widget_set_halign (detail, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (box), name);
  gtk_box_append (GTK_BOX (box), detail);
  gtk_widget_add_css_class (box, "quick-offer");
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, whole, -1);
  g_object_set_data_full (G_OBJECT (row), "hw-text", g_strdup (offer->text), g_free);
  return row;
}

static void
clear_rows (QuickList *self)
{
  GtkListBoxRow *row = NULL;

  while ((row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->rows), 0)) != NULL)
    gtk_list_box_remove (GTK_LIST_BOX (self->rows), GTK_WIDGET (row));
}

void
hw_quick_list_close (GtkWidget *list)
{
  QuickList *self = get_list (list);

  gtk_popover_popdown (GTK_POPOVER (list));
  self->entry = NULL;
}

void
hw_quick_list_leave (GtkWidget *list,
                     GtkWidget *entry)
{
  if (get_list (list)->entry == entry)
    hw_quick_list_close (list);
}

static gboolean
is_open (QuickList *self)
{
  return gtk_widget_get_visible (self->popover);
}

/* Above or below the whole row, where there is more room: field, and what it is taken as, stay in sight. */
static void
choose_side (QuickList *self,
             GtkWidget *row)
{
  GtkWidget *window = GTK_WIDGET (gtk_widget_get_root (row));
  double     above = 0;
  int        below;

  gtk_widget_translate_coordinates (row, window, 0, 0, NULL, &above);
  below = gtk_widget_get_height (window) - (int) above - gtk_widget_get_height (row);
  gtk_popover_set_position (GTK_POPOVER (self->popover), below >= above ? GTK_POS_BOTTOM : GTK_POS_TOP);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (self->scroller),
                                              MAX (MAX (below, (int) above) - 2 * MARGIN, LEAST_HEIGHT));
}

static void
show_beside (QuickList *self,
             GtkWidget *entry)
{
  GtkWidget       *row = gtk_widget_get_parent (self->popover);
  GdkRectangle     place = { 0, 0, gtk_widget_get_width (entry), gtk_widget_get_height (row) };
  graphene_rect_t  bounds;
  double           x = 0;

  gtk_widget_translate_coordinates (entry, row, 0, 0, &x, NULL);
  place.x = (int) x;
  /* GTK counts from the edge of the row, outside its padding. */
  if (gtk_widget_compute_bounds (row, row, &bounds))
    place.height = (int) ceilf (bounds.size.height);
  self->entry = entry;
  choose_side (self, row);
  gtk_popover_set_pointing_to (GTK_POPOVER (self->popover), &place);
  gtk_popover_popup (GTK_POPOVER (self->popover));
}

static void
offer (QuickList *self,
       GtkWidget *entry)
{
  g_autoptr (GPtrArray) offers = self->ask (self->data, entry);
  const char           *text = gtk_editable_get_text (GTK_EDITABLE (entry));

  clear_rows (self);
  for (guint i = 0; i < offers->len; i++)
    gtk_list_box_append (GTK_LIST_BOX (self->rows), make_row (offers->pdata[i]));
  /* What is already there in full is no help. */
  if (offers->len == 0
      || (offers->len == 1 && g_str_equal (((HwQuickOffer *) offers->pdata[0])->text, text)))
    hw_quick_list_close (self->popover);
  else
    show_beside (self, entry);
}

static void
take (QuickList     *self,
      GtkListBoxRow *row)
{
  GtkWidget  *entry = self->entry;
  const char *text = g_object_get_data (G_OBJECT (row), "hw-text");

  if (entry == NULL)
    return;
  self->taking = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  gtk_entry_grab_focus_without_selecting (GTK_ENTRY (entry));
  gtk_editable_set_position (GTK_EDITABLE (entry), -1);
  self->taking = FALSE;
  hw_quick_list_close (self->popover);
}

/* ---- keys ---- */

static void
changed_cb (QuickList *self,
            GtkWidget *entry)
{
  GtkWidget *text = GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (entry)));

  if (self->taking || !gtk_widget_has_focus (text))
    return;
  if (gtk_editable_get_text (GTK_EDITABLE (entry))[0] != '\0')
    offer (self, entry);
  else
    hw_quick_list_close (self->popover);         /* all that may be is only for who asks for it, by the arrow */
}

static gboolean
entry_key_cb (GtkEventControllerKey *keys,
              guint                  key,
              guint                  code,
              GdkModifierType        modifiers,
              QuickList             *self)
{
  GtkWidget *entry = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (keys));

  if (key == GDK_KEY_Escape && is_open (self))
    {
      hw_quick_list_close (self->popover);
      return TRUE;
    }
  if (key != GDK_KEY_Down)
    return FALSE;
  if (!is_open (self))
    offer (self, entry);
  if (is_open (self))
    gtk_widget_grab_focus (GTK_WIDGET (gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->rows), 0)));
  return TRUE;
}

static gboolean
back_to_entry (QuickList *self)
{
  gtk_entry_grab_focus_without_selecting (GTK_ENTRY (self->entry));
  return TRUE;
}

static gboolean
row_key_cb (GtkEventControllerKey *keys,
            guint                  key,
            guint                  code,
            GdkModifierType        modifiers,
            QuickList             *self)
{
  GtkRoot       *root = gtk_widget_get_root (self->rows);
  GtkWidget     *focus = gtk_root_get_focus (root);
  GtkListBoxRow *first = gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->rows), 0);
  GtkWidget     *entry = self->entry;

  if (entry == NULL)
    return FALSE;
  if (key == GDK_KEY_Escape)
    {
      back_to_entry (self);
      hw_quick_list_close (self->popover);
      return TRUE;
    }
  if (key == GDK_KEY_Up && focus == GTK_WIDGET (first))
    return back_to_entry (self);
  if (key == GDK_KEY_Tab && GTK_IS_LIST_BOX_ROW (focus))
    {
      take (self, GTK_LIST_BOX_ROW (focus));
      gtk_widget_child_focus (gtk_widget_get_parent (self->popover), GTK_DIR_TAB_FORWARD);
      return TRUE;
    }
  if (key == GDK_KEY_BackSpace || ((modifiers & (GDK_CONTROL_MASK | GDK_ALT_MASK)) == 0
                                   && key != GDK_KEY_space && g_unichar_isprint (gdk_keyval_to_unicode (key))))
    {
      back_to_entry (self);
      return gtk_event_controller_key_forward (keys, GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (entry))));
    }
  return FALSE;
}

static void
add_keys (GtkWidget *widget,
          GCallback  pressed,
          QuickList *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", pressed, self);
  gtk_widget_add_controller (widget, keys);
}

/* ---- making it ---- */

GtkWidget *
hw_quick_list_new (HwQuickAsk ask,
                   gpointer   data)
{
  GtkWidget *popover = gtk_popover_new ();
  QuickList *self = g_new0 (QuickList, 1);

  self->ask = ask;
  self->data = data;
  self->popover = popover;
  self->rows = gtk_list_box_new ();
  hw_control_name (self->rows, _("What it may be"));
  hw_control_name (popover, _("What it may be"));
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (self->rows), GTK_SELECTION_NONE);
  g_signal_connect_swapped (self->rows, "row-activated", G_CALLBACK (take), self);
  add_keys (self->rows, G_CALLBACK (row_key_cb), self);
  self->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (self->scroller), TRUE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), self->rows);
  gtk_widget_set_focusable (self->scroller, FALSE);
  gtk_popover_set_child (GTK_POPOVER (popover), self->scroller);
  gtk_popover_set_autohide (GTK_POPOVER (popover), FALSE);
  gtk_popover_set_has_arrow (GTK_POPOVER (popover), FALSE);
  gtk_popover_set_position (GTK_POPOVER (popover), GTK_POS_BOTTOM);
  gtk_widget_set_halign (popover, GTK_ALIGN_START);
  g_object_set_data_full (G_OBJECT (popover), "hw-quick-list", self, g_free);
  return popover;
}

void
hw_quick_list_serve (GtkWidget *list,
                     GtkWidget *entry)
{
  QuickList *self = get_list (list);

  g_signal_connect_swapped (entry, "changed", G_CALLBACK (changed_cb), self);
  add_keys (entry, G_CALLBACK (entry_key_cb), self);
  gtk_accessible_update_property (GTK_ACCESSIBLE (gtk_editable_get_delegate (GTK_EDITABLE (entry))),
                                  GTK_ACCESSIBLE_PROPERTY_AUTOCOMPLETE, GTK_ACCESSIBLE_AUTOCOMPLETE_LIST,
                                  GTK_ACCESSIBLE_PROPERTY_HAS_POPUP, TRUE, -1);
}
