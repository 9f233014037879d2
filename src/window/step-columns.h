/* step-columns.h - the columns of the making up: number, step, fabrics, seam, layers, length, stitch, after
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

/* Items of the view's model are HwStepItem. */
void  hw_step_columns_add    (GtkColumnView *view, HwWorkspace *workspace);
/* Shows the columns for which a list of that width has room. */
void  hw_step_columns_fit    (GtkColumnView *view, double width_em);

G_END_DECLS
