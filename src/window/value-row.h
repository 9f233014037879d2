/* value-row.h - one value of a set-up: what it is, why, and the person's own
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_VALUE_ROW (hw_value_row_get_type ())
G_DECLARE_FINAL_TYPE (HwValueRow, hw_value_row, HW, VALUE_ROW, GtkBox)

GtkWidget *hw_value_row_new          (const char *title);
/* Where what the value is called depends on the machine. */
void       hw_value_row_set_title    (HwValueRow *self, const char *title);
/* @note: beside the value, NULL none; @own: the note speaks of the person's own value. */
void       hw_value_row_show         (HwValueRow *self, const char *value, const char *note, gboolean own);
/* What "Why?" opens: sentences with their sources, then the editors. Between begin and end all of the sentences are
 * told again; the labels stay, and what is the same costs nothing. */
void       hw_value_row_begin        (HwValueRow *self);
void       hw_value_row_add_warning  (HwValueRow *self, const char *sentence);
void       hw_value_row_add_reason   (HwValueRow *self, const char *sentence, const char *source);
void       hw_value_row_end          (HwValueRow *self);
void       hw_value_row_add_editor   (HwValueRow *self, GtkWidget *editor);      /* once; it stays */
void       hw_value_row_set_open     (HwValueRow *self, gboolean open);

G_END_DECLS
