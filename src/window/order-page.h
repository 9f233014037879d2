/* order-page.h - the page “Order of work”
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_ORDER_PAGE (hw_order_page_get_type ())
G_DECLARE_FINAL_TYPE (HwOrderPage, hw_order_page, HW, ORDER_PAGE, GtkWidget)

GtkWidget *hw_order_page_new (HwWorkspace *workspace);

G_END_DECLS
