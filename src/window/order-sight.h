/* order-sight.h - scrolls the order of work so that a step is seen with what heads its block
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Says of which item @box, the child of a row, shows now. */
void   hw_order_sight_note (GtkWidget *box, gpointer item);
/* @list: of HwOrderRow, each row noted. The step, and above it the change that its block begins with and the care due
 * before that, where there is room for both; the frames that follow see to it. @number: NULL, or no step of the list:
 * nothing is done. */
void   hw_order_sight_bring (GtkListView *list, const char *number);
/* How far down from the top of the list as it is scrolled now the step's row begins; NAN: it is not in sight. */
double hw_order_sight_find (GtkListView *list, const char *number);
/* Once rows have changed: the step's row goes back to @place if there is something above and below to scroll to, so
 * that it stays where the person looks; NAN: it is only brought into sight. With @head what heads its block, too. All
 * instead of what was to be brought into sight before. */
void   hw_order_sight_keep (GtkListView *list, const char *number, double place, gboolean head);

G_END_DECLS
