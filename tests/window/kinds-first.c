/* kinds-first.c - has GLib look up the folders of the kinds of files before it reads any
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Loaded with the running program where leaks are looked for. GLib reads the kinds into tables, and loses those if it
 * looks up the folders only afterwards, as GTK's file dialog has it do. The tables have no name by which a suppression
 * could know them, and one for all of GIO would hide leaks of ours.
 */

#include <gio/gio.h>

__attribute__ ((constructor)) static void
look_up_folders (void)
{
  g_content_type_get_mime_dirs ();
}
