/* folder.h - folders with all that is in them
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

/* Removes @path and everything below it, following no link. What cannot be removed stays. */
void hw_folder_remove (const char *path);

G_END_DECLS
