/* choosers.h - file choosers and what else later GTK deprecates, behind one small door
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef void (*HwFileChosenFunc) (const char *path, gpointer data);

/* @func is called once with a path, or not at all when the person cancels; @destroy frees @data either way. */
void hw_choose_file_to_open (GtkWindow *parent, const char *title, HwFileChosenFunc func, gpointer data,
                             GDestroyNotify destroy);
/* @path, or without the second of two endings: who types “cards.pdf” where “.pdf” stands already wants no
 * “cards.pdf.pdf”, and who types “cards.png” a picture. Never the name of a file that is there: nobody agreed to
 * replace that one. (transfer full) */
char *hw_path_once (const char *path);
void hw_choose_file_to_save (GtkWindow *parent, const char *title, const char *name, HwFileChosenFunc func,
                             gpointer data, GDestroyNotify destroy);

G_END_DECLS
