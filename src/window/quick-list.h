/* quick-list.h - what a field may be completed to: rows under an entry
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is typed stays in the entry; Down goes into the rows, each of which takes the focus, so that a screen reader
 * tells it. Return takes a row, Tab takes it and goes on, Up from the first and Escape go back.
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The offers for what stands in @entry: (element-type HwQuickOffer) (transfer full). */
typedef GPtrArray *(* HwQuickAsk) (gpointer data, GtkWidget *entry);

/* A popover, to be given a parent that holds all the entries and outlives none of them. */
GtkWidget *hw_quick_list_new   (HwQuickAsk ask, gpointer data);
void       hw_quick_list_serve (GtkWidget *list, GtkWidget *entry);
void       hw_quick_list_close (GtkWidget *list);
void       hw_quick_list_leave (GtkWidget *list, GtkWidget *entry);       /* closes it if it stands under @entry */

G_END_DECLS
