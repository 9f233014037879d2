/* controls.h - accessible names for whole controls, a drop-down of ids, rows of text
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Names @control and the parts of it that a reader meets on their own: the text of an entry, the buttons of a spin
 * button, the button of a drop-down. */
void        hw_control_name     (GtkWidget *control, const char *name);
/* As it was given to a spin button; borrowed. */
const char *hw_control_get_name (GtkWidget *spin);
/* The same by the text of a label with a mnemonic: “_Next”. */
void        hw_control_name_by  (GtkWidget *control, const char *label);

/* A drop-down whose items have an id (NULL allowed: "none of them") and a label. */
GtkWidget  *hw_choice_new       (void);
void        hw_choice_clear     (GtkDropDown *choice);
void        hw_choice_add       (GtkDropDown *choice, const char *id, const char *label);
const char *hw_choice_peek      (GtkDropDown *choice);                  /* id of the selected item */
/* Found by typing at once; Return takes the first that matches. */
void        hw_choice_search    (GtkDropDown *choice);
gboolean    hw_choice_select    (GtkDropDown *choice, const char *id);  /* FALSE: no such item, nothing selected */

/* Rows of a GtkStringList: one line each, named by its text. */
GtkListItemFactory *hw_string_rows_new (void);

/* Calls @act in the frame after the next one: @widget has its size then, and its rows their places. */
void        hw_when_placed      (GtkWidget *widget, void (* act) (GtkWidget *widget));
/* Scrolls so far that what lies between is seen, or its top where there is no room for all; at once, so that a movement
 * that the focus has begun, to where something was before, does not go on. */
void        hw_scroll_to_show   (GtkAdjustment *adjustment, double top, double bottom);
/* Scrolls whatever it lies in so far that all of it is seen, or as much as there is room for. */
void        hw_bring_into_sight (GtkWidget *widget);

/* @page in a window of its own that scrolls: with large text it is taller than a small screen. */
GtkWidget  *hw_page_scroller_new (GtkWidget *page);

/* A figure and its unit (“2 mm”, “tex 30”) stay in one line of @label, which wraps; the text itself is as given. */
void        hw_label_set_figures (GtkLabel *label, const char *text);
GtkWidget  *hw_label_new        (const char *text, const char *css_class);   /* starts at the edge, wraps */
/* Sets the tooltip where it is another one: setting it asks the display where the pointer is. */
void        hw_control_tell     (GtkWidget *control, const char *text);
/* @range only shows its value: no part of it is seen or taken hold of. Its class leaves size_allocate() empty. */
void        hw_control_only_show (GtkRange *range);
/* Where @label is cut short, a tooltip tells the whole of it. */
void        hw_label_tell_whole (GtkWidget *label);

/* The menu is made when it is first opened: nobody opens most of them. */
void       hw_menu_button_set (GtkMenuButton *button, GMenuModel *menu);

/* Without the arrow: where nothing composes the screen, all beside it would be black. */
void        hw_popover_plain    (GtkPopover *popover);

G_END_DECLS
