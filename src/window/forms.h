/* forms.h - the forms of the making up: step, several steps, fabric, thread, project
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each returns an HwForm that writes through the workspace when it is saved.
 */

#pragma once
#include "window/form.h"
#include "window/workspace.h"

G_BEGIN_DECLS

/* @number NULL: a new step of @kind, put after the selected one. */
GtkWidget *hw_step_form_new    (HwWorkspace *workspace, const char *number, HwStepKind kind);
/* What is to be the same in several steps, @numbers NULL-terminated. */
GtkWidget *hw_steps_form_new   (HwWorkspace *workspace, const char * const *numbers);
GtkWidget *hw_fabric_form_new  (HwWorkspace *workspace, const char *id);       /* NULL: a new one */
GtkWidget *hw_thread_form_new  (HwWorkspace *workspace, const char *id);
GtkWidget *hw_project_form_new (HwWorkspace *workspace);

/* @id NULL: a new machine of @kind, filled in as ordinary ones are. */
GtkWidget *hw_machine_form_new (HwWorkspace *workspace, const char *id, HwMachineKind kind);
/* Brings the interval of that care task into sight, with the focus. */
void       hw_machine_form_show_care (GtkWidget *form, const char *care);
/* A care task of a machine as a checklist, logged when it is saved. */
GtkWidget *hw_care_form_new    (HwWorkspace *workspace, const char *machine, const char *care);

/* An id made of @name that @taken does not know yet. (transfer full) */
char      *hw_form_make_id     (const char *name, gboolean (* taken) (gconstpointer data, const char *id),
                                gconstpointer data);

G_END_DECLS
