/* tab-stop.h - one stop for Tab, however many rows stand in it
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A list lets Tab go from row to row: whoever never leaves the keyboard is held by a journal of ten thousand entries.
 * With this around it Tab comes into the list once, goes through what stands in that row, and leaves; the arrows go
 * from row to row.
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_TAB_STOP (hw_tab_stop_get_type ())
G_DECLARE_FINAL_TYPE (HwTabStop, hw_tab_stop, HW, TAB_STOP, GtkWidget)

/* Puts the focus into the list, on the row where a person goes on. FALSE: there is none, and Tab goes past. */
typedef gboolean (* HwTabStopEnter) (gpointer list);

GtkWidget *hw_tab_stop_new       (GtkWidget *child);
/* Else it comes to the chosen row of a list box, or as the list itself has it. @list is borrowed: it is inside. */
void       hw_tab_stop_set_enter (HwTabStop *self, HwTabStopEnter enter, gpointer list);

G_END_DECLS
