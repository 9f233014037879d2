/* hours-chart.h - the hours of the last weeks, by machine or by project
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

GtkWidget *hw_hours_chart_new     (HwWorkspace *workspace);
/* After a change of the room; without hours it hides. */
void       hw_hours_chart_refresh (GtkWidget *chart);

G_END_DECLS
