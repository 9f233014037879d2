/* demo.h - the real window over the demo's sewing room, in a temporary folder
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

typedef struct
{
  char        *folder;
  HwWorkspace *workspace;        /* the demo's project is open */
  GtkWidget   *window;           /* not presented yet */
} Demo;

void demo_open  (Demo *self);
void demo_close (Demo *self);            /* asserts that the workspace goes with it */

G_END_DECLS
