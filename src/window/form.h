/* form.h - a form in the side panel: labelled controls, what is wrong, save and cancel
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Actions "form.save" (Ctrl+Return, Return in a line of text) and "form.cancel" (Escape). Emits "closed" when it is
 * done with.
 */

#pragma once
#include <gtk/gtk.h>

#include "window/form-spin.h"

G_BEGIN_DECLS

#define HW_TYPE_FORM (hw_form_get_type ())
G_DECLARE_FINAL_TYPE (HwForm, hw_form, HW, FORM, GtkBox)

/* FALSE with @error: the form stays open and says it. */
typedef gboolean (* HwFormSave) (gpointer data, GError **error);

GtkWidget *hw_form_new      (const char *title, const char *save_label);
void       hw_form_set_save (HwForm *self, HwFormSave save, gpointer data, GDestroyNotify free_data);
/* @label with a mnemonic; it names @control. Returns @control's row, to show or hide. */
GtkWidget *hw_form_add      (HwForm *self, const char *label, GtkWidget *control);
/* The same on one line: the label, then the control at the end. */
GtkWidget *hw_form_add_beside (HwForm *self, const char *label, GtkWidget *control);
/* What is added from now on stands in @box, which is somewhere within the form. */
void       hw_form_add_into (HwForm *self, GtkWidget *box);
/* A line under the last row that says where to find its value. */
void       hw_form_add_hint (HwForm *self, const char *text);
void       hw_form_add_heading (HwForm *self, const char *text);
void       hw_form_add_wide (HwForm *self, GtkWidget *widget);
/* Between the rows and the buttons, in sight however far the rows are scrolled. */
void       hw_form_add_foot (HwForm *self, GtkWidget *widget);
/* A flat button beside Save and Cancel. */
void       hw_form_add_button (HwForm *self, const char *label, const char *action, const char *target);

/* Controls with our settings. */
GtkWidget *hw_form_entry    (const char *text, const char *placeholder);
/* Its frame is scrolled into sight with the text within, which has the focus. */
void       hw_form_show_whole (GtkWidget *control);
GtkWidget *hw_form_note     (const char *text);            /* a text view in a frame */
char      *hw_form_get_note (GtkWidget *note);             /* (transfer full); NULL empty */
/* A number in an entry, in the person's own locale. Empty: @empty. FALSE with an HW_MODEL_ERROR. */
/* Takes away what the form that @field is in has said to be wrong: it holds no longer. */
void       hw_form_clear_error (GtkWidget *field);
gboolean   hw_form_get_number (GtkWidget *entry, const char *what, double empty, double *value, GError **error);

G_END_DECLS
