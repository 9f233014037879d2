/* order-wish.h - wishes for the order of work by dragging, keys and menu
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/order-row.h"
#include "window/workspace.h"

G_BEGIN_DECLS

/* Each makes one edit. TRUE when there is a new wish; else nothing changed, and a message says why. */
gboolean    hw_order_wish        (HwWorkspace *workspace, HwWishKind kind, const char * const *steps);
/* The step goes before the one in front of it, or after the one behind it, as the order of work stands. */
gboolean    hw_order_wish_move   (HwWorkspace *workspace, const char *number, gboolean later);
gboolean    hw_order_wish_keep   (HwWorkspace *workspace, const char *number);     /* with the next step */
void        hw_order_wish_forget (HwWorkspace *workspace, const char *number);     /* all that name it, by one edit */

gboolean    hw_order_can_wish    (HwWorkspace *workspace, const char *number);     /* there, and not done */
gboolean    hw_order_has_wish    (HwWorkspace *workspace, const char *number);

GMenuModel *hw_order_wish_menu   (void);                                           /* (transfer full) */

/* Lets a row of the list be dragged and dropped on; @get_row tells what it shows now. @cost: where the row tells what a
 * drop there would cost; hidden at other times. */
typedef HwOrderRow *(*HwOrderGetRow) (gpointer data);
void        hw_order_wish_add_drag (GtkWidget *row, GtkLabel *cost, HwOrderGetRow get_row, gpointer data);
/* Made known to all rows within @page: what they ask for the cost. */
void        hw_order_wish_set_up   (GtkWidget *page, HwWorkspace *workspace);
/* As if @dragged hung over @row, in its upper or lower half; what is told then stands in the row's label. */
void        hw_order_wish_hover    (GtkWidget *row, const char *dragged, gboolean upper);

G_END_DECLS
