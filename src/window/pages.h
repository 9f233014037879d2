/* pages.h - the making up and the sewing room's pages; each is made with the workspace, the one thing it may write
 * through
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

GtkWidget *hw_making_up_page_new (HwWorkspace *workspace);
GtkWidget *hw_machines_page_new  (HwWorkspace *workspace);
GtkWidget *hw_garment_page_new   (HwWorkspace *workspace);
/* Whether a garment fills the open project, as long as that has neither fabrics nor steps, or begins another. */
void       hw_garment_page_ask   (GtkWidget *page, gboolean here);
GtkWidget *hw_queue_page_new     (HwWorkspace *workspace);
GtkWidget *hw_finish_page_new    (HwWorkspace *workspace);
GtkWidget *hw_preferences_page_new (HwWorkspace *workspace);
GtkWidget *hw_needles_page_new   (HwWorkspace *workspace);
GtkWidget *hw_thread_page_new    (HwWorkspace *workspace);
GtkWidget *hw_fabrics_page_new   (HwWorkspace *workspace);
GtkWidget *hw_journal_page_new   (HwWorkspace *workspace);
GtkWidget *hw_versions_page_new  (HwWorkspace *workspace);

G_END_DECLS
