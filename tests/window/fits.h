/* fits.h - whether all that a window shows has room: no text cut off, nothing beyond what holds it
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Looks at every widget on the screen under @root. A label's text fits, or it ends in “…” on purpose: it was made to,
 * and the whole is told in a tooltip. No widget lies beyond the one that holds it, but for what scrolls. Appends a line
 * for each that does not, beginning with @where. Returns how many labels were looked at. */
guint fits_look (GtkWidget *root, const char *where, GString *faults);

G_END_DECLS
