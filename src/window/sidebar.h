/* sidebar.h - the projects and the sewing room's pages
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_SIDEBAR (hw_sidebar_get_type ())
G_DECLARE_FINAL_TYPE (HwSidebar, hw_sidebar, HW, SIDEBAR, GtkBox)

void hw_sidebar_set_workspace (HwSidebar *self, HwWorkspace *workspace);
void hw_sidebar_set_page      (HwSidebar *self, const char *page);        /* marks the entry of the current page */
void hw_sidebar_ask_title     (HwSidebar *self);                          /* for a new project */

G_END_DECLS
