/* cards-page.h - the page “Setup cards”
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_CARDS_PAGE (hw_cards_page_get_type ())
G_DECLARE_FINAL_TYPE (HwCardsPage, hw_cards_page, HW, CARDS_PAGE, GtkWidget)

GtkWidget *hw_cards_page_new        (HwWorkspace *workspace);

/* Through GtkPrintOperation; with @export_path straight into that PDF. FALSE with @error. */
gboolean   hw_cards_page_print      (HwCardsPage *self, const char *export_path, GError **error);
/* Writes PDF, PNG or SVG by the name's ending. */
gboolean   hw_cards_page_save       (HwCardsPage *self, const char *path, GError **error);
/* The same a page at a time, in the window's bar for long work; what came of it is told. */
void       hw_cards_page_begin_save (HwCardsPage *self, const char *path);

G_END_DECLS
