/* rescue.h - where work is kept that could not be written in its own place
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

/* HANDWHEEL_RESCUE where it is set, else handwheel/rescue in the person's folder for state. (transfer full) */
char    *hw_rescue_folder (void);

/* Writes @data to a new file called after the one at @path, in @folder_or_null, else in hw_rescue_folder(), else in the
 * folder for temporary files: whichever can be written first. (transfer full): its path; NULL when none can. */
char    *hw_rescue_bytes  (const char *path, const char *folder_or_null, const char *data, gsize size);

/* Says at the end of the message where the work is kept. @rescued: path, or NULL: nowhere. */
void     hw_rescue_tell   (GError **error, const char *rescued);

/* hw_save_bytes(), and when that fails hw_rescue_bytes(), told in @error. */
gboolean hw_save_or_rescue (const char *path, const char *data, gsize size, GError **error);

G_END_DECLS
