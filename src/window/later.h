/* later.h - what can wait until the window has been drawn for the first time
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * While a program starts, its person looks for the steps; what stands beside and below them follows a moment after. A
 * workspace that nobody holds lets everything be done at once.
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

typedef void (* HwLaterAct) (gpointer object);

/* From now on things wait, until the window of hw_later_until() has been drawn, or for a second at most. */
void hw_later_hold   (HwWorkspace *workspace);
void hw_later_until  (HwWorkspace *workspace, GtkWidget *window);
/* Calls @act with @object: at once when nobody holds @workspace, else when its turn comes, unless @object is gone. What
 * was asked for earlier is done earlier, each between two frames. */
void hw_later        (HwWorkspace *workspace, gpointer object, HwLaterAct act);
/* The height that the window will have, in px, while things wait for it; 0: nothing does. */
int  hw_later_height (HwWorkspace *workspace);

G_END_DECLS
