/* desk.h - the real window over a scene, for a test
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>

#include "scene.h"
#include "window/window.h"

G_BEGIN_DECLS

typedef struct
{
  Scene      scene;
  HwWindow  *window;
  GtkWidget *root;               /* the same, as a widget */
  GtkWidget *page;               /* that desk_open_page() went to last; NULL none */
} Desk;

void       desk_open      (Desk *self);
void       desk_close     (Desk *self);        /* asserts that the window goes with it */
GtkWidget *desk_page      (Desk *self);        /* the page that is shown */
void       desk_open_page (Desk *self, const char *name);
/* Activates an action without a parameter and runs what is ready. */
gboolean   desk_act       (GtkWidget *widget, const char *action);

G_END_DECLS
