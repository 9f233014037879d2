/* handbook-page.h - the page “Handbook”
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_HANDBOOK_PAGE (hw_handbook_page_get_type ())
G_DECLARE_FINAL_TYPE (HwHandbookPage, hw_handbook_page, HW, HANDBOOK_PAGE, GtkBox)

GtkWidget *hw_handbook_page_new  (HwWorkspace *workspace);
/* @path: of a topic, "fabric/denim"; one that is not known changes nothing. */
void       hw_handbook_page_show (HwHandbookPage *self, const char *path);

G_END_DECLS
