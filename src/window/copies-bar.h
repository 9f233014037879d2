/* copies-bar.h - tells of conflicting copies in the sewing room, and merges them
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>

#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_COPIES_BAR (hw_copies_bar_get_type ())
G_DECLARE_FINAL_TYPE (HwCopiesBar, hw_copies_bar, HW, COPIES_BAR, GtkWidget)

/* Looks for copies now, whenever the workspace changes and whenever the window is turned to. */
void hw_copies_bar_set_workspace (HwCopiesBar *self, HwWorkspace *workspace);

G_END_DECLS
