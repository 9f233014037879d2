/* form-spin.h - numbers with buttons for less and more, in forms and panels
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Numbers are read and shown as the person writes them. What is no number, or out of the range, is never taken for
 * another one: it stays in sight, marked as wrong, and the value is as it was before.
 */

#pragma once
#include "window/workspace.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

GtkWidget *hw_form_spin      (double value, double low, double high, double step, guint digits);
/* A spin button made elsewhere. */
void       hw_form_mark_spin (GtkSpinButton *spin);
/* Also takes away what was typed wrong. */
void       hw_form_set_spin  (GtkSpinButton *spin, double value);
/* Takes what is typed. NULL when it is a number in the range, else what to tell. (transfer full) */
char      *hw_form_check_spin (GtkSpinButton *spin);
/* A spin button outside of a form, where nothing is saved: it tells at once what is wrong and shows its value again. */
void       hw_form_tell_spin (GtkSpinButton *spin, HwWorkspace *workspace);

G_END_DECLS
