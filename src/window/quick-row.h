/* quick-row.h - the row at the end of the making up in which steps are typed
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Tab goes from field to field, Return in any of them adds the step and leaves the row ready for the next, Escape
 * closes it. What is left empty is shown in its field as it will be taken.
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_QUICK_ROW (hw_quick_row_get_type ())
G_DECLARE_FINAL_TYPE (HwQuickRow, hw_quick_row, HW, QUICK_ROW, GtkBox)

/* Signals: "closed" (the person is done with it). */
GtkWidget *hw_quick_row_new   (HwWorkspace *workspace);
/* Shows what stands for empty fields of the project as it is now, and takes the focus. */
void       hw_quick_row_begin (HwQuickRow *self);
/* After it: what stood in the fields when the row was closed last stands there again. */
void       hw_quick_row_begin_again (HwQuickRow *self);

G_END_DECLS
