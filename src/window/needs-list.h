/* needs-list.h - which new needles the planned projects still want, against those in the case
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

/* A box for the page of needles. All projects are planned on a thread, for a room may have hundreds; until that is
 * done the box says so, or shows what @before (may be NULL: the box made last) shows. */
GtkWidget *hw_needs_list_new (HwWorkspace *workspace, GtkWidget *before);

G_END_DECLS
