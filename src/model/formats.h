/* formats.h - the kinds of files of a project and a sewing room, and their versions
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "files/xml-later.h"

G_BEGIN_DECLS

/* The namespace's number is the major version; a change that earlier programs can pass over, a new attribute or
 * element that may be left out, raises the minor one. See files/xml-later.h. */
#define HW_PROJECT_MINOR 0
#define HW_ROOM_MINOR 0

/* Of the root "project", "machine", "needles", "threads", "fabrics", "preferences" or "journal"; NULL another. */
const HwXmlFormat *hw_format_find (const char *root);

/* hw_xml_read_file() and hw_xml_read_bytes() of such a root, with what a later minor version brought passed over. */
HwXml *hw_format_read_file  (const char *path, gsize max_bytes, const char *root, GError **error);
HwXml *hw_format_read_bytes (const char *name, const char *data, gsize size, const char *root, GError **error);
/* Writes @data (taken) in place of the file at @path, with what that one holds of a later minor version; when it cannot
 * be written a rescue copy is kept, and @error tells where. */
gboolean hw_format_save     (const char *root, const char *path, char *data, gsize size, GError **error);

G_END_DECLS
