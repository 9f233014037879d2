/* print.h - setup cards through the desktop's printing
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "card/card.h"

G_BEGIN_DECLS

/* Opens the print dialog (or, with @export_path, writes that PDF through the same operation). FALSE with @error;
 * cancelling is no error. @sheets must outlive the call. */
gboolean hw_print_sheets (GtkWindow *parent, HwSheets *sheets, const char *title, const char *export_path,
                          GError **error);

G_END_DECLS
