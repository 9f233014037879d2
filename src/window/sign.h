/* sign.h - the small signs on buttons: plus, up, down, sidebar
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Drawn in the colour and as large as the text beside it. An icon file would ask for a library that reads SVG, which
 * takes longer to load, and more memory, than all that the window draws itself.
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_SIGN (hw_sign_get_type ())
G_DECLARE_FINAL_TYPE (HwSign, hw_sign, HW, SIGN, GtkWidget)

/* @shape: "plus", "up", "down" or "sidebar"; the property of the same name. */
GtkWidget *hw_sign_new (const char *shape);

G_END_DECLS
