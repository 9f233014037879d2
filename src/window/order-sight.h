/* order-sight.h - scrolls the order of work so that a step is seen with what heads its block
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Says of which item @box, the child of a row, shows now. */
void hw_order_sight_note  (GtkWidget *box, gpointer item);
/* @list: of HwOrderRow, each row noted. The step, and above it the change that its block begins with and the care due
 * before that, where there is room for both; the frames that follow see to it. @number: NULL, or no step of the list:
 * nothing is done. */
void hw_order_sight_bring (GtkListView *list, const char *number);
/* The step alone, instead of what was to be brought into sight. */
void hw_order_sight_keep  (GtkListView *list, const char *number);

G_END_DECLS
