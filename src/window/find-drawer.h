/* find-drawer.h - find anything: a drawer that is pulled over the sidebar
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Out of sight until it is opened. What a person takes is activated as an action from the drawer's own place in the
 * window; then, or by Escape, or when the focus goes elsewhere, it closes.
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_FIND_DRAWER (hw_find_drawer_get_type ())
G_DECLARE_FINAL_TYPE (HwFindDrawer, hw_find_drawer, HW, FIND_DRAWER, GtkBox)

/* @page: where the focus goes with what was taken from there. */
GtkWidget *hw_find_drawer_new   (HwWorkspace *workspace, GtkWidget *page);
void       hw_find_drawer_open  (HwFindDrawer *self);
void       hw_find_drawer_close (HwFindDrawer *self);    /* the focus goes back to where it was */

G_END_DECLS
