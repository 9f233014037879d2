/* file-watch.h - tells when another program wrote a file
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

typedef struct _HwFileWatch HwFileWatch;

/* @written is called a moment after the file at @path was written, with what hw_file_watch_known() did not know of. */
HwFileWatch *hw_file_watch_new   (const char *path, void (* written) (gpointer data), gpointer data);
void         hw_file_watch_free  (HwFileWatch *self);
/* The file as it is now is known: its owner has just read or written it. */
void         hw_file_watch_known (HwFileWatch *self);

G_END_DECLS
