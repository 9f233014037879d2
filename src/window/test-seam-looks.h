/* test-seam-looks.h - the parts of the test seam's panel that are made anew: drawn verdicts, dials, what was sewn
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "plan/test-seam.h"

G_BEGIN_DECLS

/* Drawn from above, cut along the row and from underneath. */
GtkWidget *hw_look_motif_new      (HwVerdict verdict, double width_em, double height_em);
/* A button with that drawing and @name. */
GtkWidget *hw_look_button_new     (HwVerdict verdict, const char *name);
void       hw_look_button_set_name (GtkWidget *button, const char *name);
/* A dial as the machine has it, its words beside it. */
GtkWidget *hw_believed_dial_new   (const HwMachine *machine, double dial, double low, double high, const char *words);

/* Where the same seam would start on every lockstitch machine of the room. */
GtkWidget *hw_believed_dials_new  (const HwPlan *plan, const HwSetup *setup);
/* The last test seams on a machine, the newest first; NULL none. */
GtkWidget *hw_past_test_seams_new (const HwPlan *plan, const HwMachine *machine);
GtkWidget *hw_drop_test_new       (void);

G_END_DECLS
