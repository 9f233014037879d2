/* furnish-language.h - the demo in the person's language
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

/* Puts the projects and machines of the demo copied to @room_folder into the language of the process. */
gboolean hw_furnish_translate (const char *room_folder, GError **error);

G_END_DECLS
