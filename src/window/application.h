/* application.h - the GTK application
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_APPLICATION (hw_application_get_type ())
G_DECLARE_FINAL_TYPE (HwApplication, hw_application, HW, APPLICATION, GtkApplication)
HwApplication *hw_application_new   (void);
/* Begins to read, on a thread, what a window with that command line will show. The locale is set already, and GTK not
 * begun: it leaves the locale alone then, which the thread depends on. Optional. */
void           hw_application_begin (HwApplication *self, int argc, char **argv);

G_END_DECLS
