/* fault-view.h - a stitch fault's picture, its checks, the remedy: the parts of the page that are made anew
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Buttons act through the page's actions.
 */

#pragma once
#include <gtk/gtk.h>
#include "plan/faults.h"

G_BEGIN_DECLS

GtkWidget *hw_fault_card_new    (const HwFault *fault);                    /* a button of the gallery */
GtkWidget *hw_fault_picture_new (const HwFault *fault);                    /* three views, sign, note */
GtkWidget *hw_fault_cautions_new (char **cautions);                        /* NULL when there are none */
GtkWidget *hw_fault_checks_new  (const HwHandbook *handbook, const HwFaultSearch *search);
GtkWidget *hw_fault_ruled_out_new (const HwFault *fault, const GPtrArray *ids);
GtkWidget *hw_fault_remedy_new  (const HwHandbook *handbook, const HwFault *fault, const HwCause *cause,
                                 const HwFix *fix);
GtkWidget *hw_fault_noted_new   (const char *what);
GtkWidget *hw_fault_unknown_new (void);                                    /* every cause is ruled out */

G_END_DECLS
