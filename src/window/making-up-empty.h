/* making-up-empty.h - what stands in place of the steps while there are none: what to do first
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "model/project.h"

G_BEGIN_DECLS

GtkWidget *hw_making_up_empty_new  (void);
/* Tells the next thing to do in @project (NULL: none). */
void       hw_making_up_empty_fill (GtkWidget *empty, const HwProject *project);

G_END_DECLS
