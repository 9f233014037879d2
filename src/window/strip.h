/* strip.h - what is in the machine, what to load next and the care that is due
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_STRIP (hw_strip_get_type ())
G_DECLARE_FINAL_TYPE (HwStrip, hw_strip, HW, STRIP, GtkBox)

void hw_strip_set_workspace (HwStrip *self, HwWorkspace *workspace);

G_END_DECLS
