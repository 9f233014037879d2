/* save.h - the one crash-safe writer
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

/* Replaces @path with @data so that after a crash either the old or the new bytes are there, whole:
 * temporary file beside it, fsync, the last good version linked as "NAME~", rename, folder fsync.
 * Creates the folder when it is missing. FALSE with a G_FILE_ERROR that names the path. */
gboolean hw_save_bytes (const char *path, const char *data, gssize size, GError **error);

/* The same, but only in place of what has the mark @mark (NULL: of whatever is there), or of nothing. When another
 * program has changed the file, also at the very moment of saving, its version stays or is put back, *@changed is set
 * and FALSE returned, without an error. */
gboolean hw_save_bytes_over (const char *path, const char *data, gsize size, const char *mark, gboolean *changed,
                             GError **error);

/* A mark of bytes, and of what the file at @path holds: the same mark, the same bytes. (transfer full); NULL when it
 * cannot be read. */
char    *hw_mark_bytes    (const char *data, gsize size);
char    *hw_mark_file     (const char *path);

/* A path, and its last part, fit to stand in one line: valid UTF-8 without line breaks or what cannot be seen.
 * (transfer full) */
char *hw_show_path (const char *path);
char *hw_show_name (const char *path);

/* A lock on a folder (flock on ".lock"): held until freed, gone with the process. NULL when another
 * process does not give it back within @wait_ms. */
typedef struct _HwLock HwLock;
HwLock  *hw_lock_folder (const char *folder, guint wait_ms, GError **error);
/* A lock on a file that is replaced by saving; for those only who ask for it. NULL when it cannot be had. */
HwLock  *hw_lock_file   (const char *path, guint wait_ms);
void     hw_lock_free   (HwLock *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwLock, hw_lock_free)

G_END_DECLS
