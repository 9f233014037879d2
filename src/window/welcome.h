/* welcome.h - what the window shows when no project is open, and its keys
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

GtkWidget *hw_welcome_new (void);                       /* (transfer full), not floating */
void       hw_show_keys   (GtkWindow *parent);

G_END_DECLS
