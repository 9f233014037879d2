/* test-seam-panel.h - how a scrap looked, in three presses; the dial it makes, on each machine; the bobbin's drop test
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_TEST_SEAM_PANEL (hw_test_seam_panel_get_type ())
G_DECLARE_FINAL_TYPE (HwTestSeamPanel, hw_test_seam_panel, HW, TEST_SEAM_PANEL, GtkBox)

/* Speaks of the workspace's selected step. */
GtkWidget *hw_test_seam_panel_new       (HwWorkspace *workspace);
/* A button “Test seam…” that opens it. */
GtkWidget *hw_test_seam_button_new      (HwWorkspace *workspace);
/* From now on of the step of that number; NULL: of the selected one again. */
void       hw_test_seam_button_speak_of (GtkWidget *button, const char *number);
/* Whether that step (NULL: the selected one) has a needle thread dial that test seams teach. */
gboolean   hw_test_seam_is_possible     (HwWorkspace *workspace, const char *number);

G_END_DECLS
