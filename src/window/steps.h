/* steps.h - what can be done with the steps chosen in the making up
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Steps are named by their numbers, a NULL-terminated list in the order of the making up. Each writes through the
 * workspace, is one undo, and tells what was wrong by "message".
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

/* The numbers chosen in a selection of HwStepItem. (transfer full) */
char   **hw_steps_get_chosen (GtkSelectionModel *selection);
/* Chooses these and no others; numbers that are not there are passed over. */
void     hw_steps_choose     (GtkSelectionModel *selection, const char * const *numbers);

void     hw_steps_remove     (HwWorkspace *workspace, const char * const *numbers);
/* By one place, all together. */
gboolean hw_steps_can_shift  (HwWorkspace *workspace, const char * const *numbers, gboolean down);
void     hw_steps_shift      (HwWorkspace *workspace, const char * const *numbers, gboolean down);
/* Next to step @beside. */
void     hw_steps_place      (HwWorkspace *workspace, const char * const *numbers, const char *beside, gboolean after);
void     hw_steps_copy       (HwWorkspace *workspace, GdkClipboard *clipboard, const char * const *numbers);
void     hw_steps_cut        (HwWorkspace *workspace, GdkClipboard *clipboard, const char * const *numbers);
/* Steps copied before, after step @after (NULL: at the end). Their numbers now, (transfer full); NULL: nothing was
 * pasted. */
char   **hw_steps_paste      (HwWorkspace *workspace, const char *text, const char *after);

/* Lets @row, which shows a HwStepItem, be dragged to another place, with all that are chosen when it is one of them.
 * Calls the action "making-up.place" (dragged numbers, beside which, after it?). */
void     hw_steps_add_drag   (GtkWidget *row);
/* Which item the row shows now; NULL none. */
void     hw_steps_set_row    (GtkWidget *row, gpointer item);
/* The row of step @number (NULL: none) inside @view; NULL: it is not on the screen. */
GtkWidget *hw_steps_find_row (GtkWidget *view, const char *number);

G_END_DECLS
