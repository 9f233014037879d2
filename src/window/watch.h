/* watch.h - keeps what a page shows in step with the workspace, at no cost while it is out of sight
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "window/workspace.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef void (* HwWatchRefresh) (GtkWidget *page);

/* Calls @refresh now, and after each change of the workspace: at once when @page is on the screen, else when it next
 * comes there. */
void hw_watch       (GtkWidget *page, HwWorkspace *workspace, HwWatchRefresh refresh);
/* The same once more, when something else has changed that @page shows. */
void hw_watch_stir  (GtkWidget *page);

G_END_DECLS
