/* garment-form.h - the form that makes a project from a garment of the handbook
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "window/form.h"
#include "window/workspace.h"

G_BEGIN_DECLS

/* An HwForm; saved, it has opened the new project, or with @here has put the garment into the open one, which is one
 * undo. @garment is borrowed from the workspace's handbook. */
GtkWidget *hw_garment_form_new (HwWorkspace *workspace, const HwGarment *garment, gboolean here);

G_END_DECLS
