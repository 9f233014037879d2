/* override-editor.h - sets one value of a set-up by hand
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_OVERRIDE_EDITOR (hw_override_editor_get_type ())
G_DECLARE_FINAL_TYPE (HwOverrideEditor, hw_override_editor, HW, OVERRIDE_EDITOR, GtkBox)

GtkWidget *hw_override_editor_new  (HwWorkspace *workspace, HwField field);
/* Shows the value of @setup, which belongs to @plan; hidden when the operation has no such value. */
void       hw_override_editor_show (HwOverrideEditor *self, const HwPlan *plan, const HwSetup *setup);

G_END_DECLS
