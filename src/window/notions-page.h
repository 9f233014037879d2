/* notions-page.h - the page “Notions”: what to have ready
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_NOTIONS_PAGE (hw_notions_page_get_type ())
G_DECLARE_FINAL_TYPE (HwNotionsPage, hw_notions_page, HW, NOTIONS_PAGE, GtkWidget)

GtkWidget *hw_notions_page_new (HwWorkspace *workspace);
/* Through GtkPrintOperation; with @export_path straight into that PDF. FALSE with @error. */
gboolean   hw_notions_page_print (HwNotionsPage *self, const char *export_path, GError **error);

G_END_DECLS
