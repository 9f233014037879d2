/* order-keys.h - the keys in the order of work: from step to step, over the heads of the blocks
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* @list shows a GtkSingleSelection of HwOrderRow. */
void     hw_order_keys_add   (GtkListView *list);
/* The selected step's row, else the first step's. FALSE: there is none. */
gboolean hw_order_keys_focus (GtkListView *list);

G_END_DECLS
