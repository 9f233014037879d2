/* faults-page.h - stitch faults: the symptom from drawings, then one check after the other
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Actions: "faults.choose" (a fault's id), "faults.not" and "faults.found" (a cause's id), "faults.fix" (the remedy's
 * one press, noted with the cause), "faults.note" (the cause alone), "faults.not-found", "faults.undo",
 * "faults.again" (all causes once more), "faults.back" (to the drawings).
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_FAULTS_PAGE (hw_faults_page_get_type ())
G_DECLARE_FINAL_TYPE (HwFaultsPage, hw_faults_page, HW, FAULTS_PAGE, GtkBox)

GtkWidget *hw_faults_page_new (HwWorkspace *workspace);
/* Shows the drawings, to trace a fault of the selected step. */
void       hw_faults_page_ask (HwFaultsPage *self);

G_END_DECLS
