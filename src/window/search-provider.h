/* search-provider.h - lets the desktop's search find projects of the sewing room by their titles
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The interface org.gnome.Shell.SearchProvider2 on the session bus; data/desktop tells the desktop of it.
 */

#pragma once
#include <gio/gio.h>

G_BEGIN_DECLS

/* Puts the provider on @connection below the application's own object. Choosing what was found opens it in
 * @application. The number that takes it off again, 0 with @error. */
guint hw_search_provider_register (GApplication *application, GDBusConnection *connection, const char *path,
                                   GError **error);

G_END_DECLS
