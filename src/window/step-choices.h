/* step-choices.h - what a step can be given, as choices of a drop-down
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

/* Each adds its choices, by id, below those that stand there; nothing is selected. */
void hw_choice_add_purposes (GtkWidget *choice, const HwHandbook *handbook);
void hw_choice_add_seams    (GtkWidget *choice, const HwHandbook *handbook);
void hw_choice_add_stitches (GtkWidget *choice, const HwHandbook *handbook);
void hw_choice_add_machines (GtkWidget *choice, const HwRoom *room);
void hw_choice_add_fabrics  (GtkWidget *choice, const HwProject *project);
void hw_choice_add_threads  (GtkWidget *choice, const HwHandbook *handbook, const HwProject *project);

G_END_DECLS
