/* application.h - the GTK application
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_APPLICATION (hw_application_get_type ())
G_DECLARE_FINAL_TYPE (HwApplication, hw_application, HW, APPLICATION, GtkApplication)
HwApplication *hw_application_new (void);

G_END_DECLS
