/* setup-panel.h - the selected step's set-up: drawing, values with their reasons, the person's own
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_SETUP_PANEL (hw_setup_panel_get_type ())
G_DECLARE_FINAL_TYPE (HwSetupPanel, hw_setup_panel, HW, SETUP_PANEL, GtkBox)

/* Follows the workspace's selected step. */
GtkWidget *hw_setup_panel_new  (HwWorkspace *workspace);
/* The same in a sheet that scrolls. */
GtkWidget *hw_setup_panel_new_scrolled (HwWorkspace *workspace);
/* Opens "Why?" of the value that @field belongs to. */
void       hw_setup_panel_open (HwSetupPanel *self, HwField field);

G_END_DECLS
