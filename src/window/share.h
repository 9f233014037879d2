/* share.h - a project to hand to somebody, one from somebody, and a set-up as text
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

/* Asks where to, then writes the open project with its test seams and fabrics. */
void     hw_share_ask_export (GtkWindow *window, HwWorkspace *workspace);
/* Is it a file that hw_share_ask_export() writes? */
gboolean hw_share_is_file    (const char *path);
/* Takes it into the room and opens its project; told by "message". */
gboolean hw_share_import     (HwWorkspace *workspace, const char *path);
/* Puts the selected step's set-up on the clipboard. */
void     hw_share_copy_setup (GtkWidget *widget, HwWorkspace *workspace);

G_END_DECLS
