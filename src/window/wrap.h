/* wrap.h - lays children in a row and wraps to further rows when they do not fit
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is left of a row goes to its children with hexpand. Large text and long translations then cost height,
 * never a control that cannot be reached. Children that are found elsewhere too may be spared before a row is begun.
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_WRAP (hw_wrap_get_type ())
G_DECLARE_FINAL_TYPE (HwWrap, hw_wrap, HW, WRAP, GtkWidget)

GtkWidget *hw_wrap_new    (int spacing, int row_spacing);
void       hw_wrap_append (HwWrap *self, GtkWidget *child);
/* @child of a wrap is left out where all would not fit in one row: those of @rank 1 first, then those of 2. */
void       hw_wrap_spare  (GtkWidget *child, int rank);
void       hw_wrap_remove_all (HwWrap *self);

G_END_DECLS
