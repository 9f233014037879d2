/* garment-cloth.h - which fabric a part of a garment is made of: drawn, with its figures, to be changed
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "handbook/handbook.h"

G_BEGIN_DECLS

/* @handbook and @role are borrowed for as long as the widget is there. */
GtkWidget  *hw_garment_cloth_new  (const HwHandbook *handbook, const HwRole *role);
/* The id of the fabric chosen; NULL: none. */
const char *hw_garment_cloth_peek (GtkWidget *cloth);

G_END_DECLS
