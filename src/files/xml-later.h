/* xml-later.h - files of a later minor version: what this version does not know in them is kept
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The number at the end of a file's namespace is the major version of its format, "minor" of its root the minor one,
 * 0 when it is left out. Another major version is refused. In a file of the minor version known here, or of an earlier
 * one, whatever is unknown is a mistake and refused too. In one of a later minor version it is something new: reading
 * passes over it, and writing puts it back where it stood, as long as the element it stood in is still there.
 */

#pragma once
#include "files/xml.h"

G_BEGIN_DECLS

/* An element with the attributes and child elements that it may have, each parted by spaces. */
typedef struct { const char *element; const char *attributes; const char *children; } HwXmlShape;

/* Of one kind of file. */
typedef struct
{
  const char       *root;
  const char       *ns;
  int               minor;               /* the version that is known here */
  const HwXmlShape *shapes;              /* ends with an element of NULL */
} HwXmlFormat;

/* Takes what is unknown out of @xml when it is of a later minor version. The root's "minor" goes in any case; one that
 * is no number stays, to be refused with the other unknown attributes. */
void  hw_xml_pass_over   (HwXml *xml, const HwXmlFormat *format);
/* @data, of this minor version, with what the file at @path holds beyond that when it is of a later one. @data is
 * taken, and mostly what is returned. (transfer full) */
char *hw_xml_put_back    (const HwXmlFormat *format, const char *path, char *data, gsize *size);

/* FALSE, with an HW_XML_ERROR_NAMESPACE, when the file at @path is of a newer major version and must be left alone. */
gboolean hw_xml_check_not_newer (const HwXmlFormat *format, const char *path, GError **error);

/* Which of its kind an element is: its name with its id, or whatever tells it from others; (transfer full) */
char *hw_xml_dup_key     (const xmlNode *node);
/* (transfer full): key -> child element of @parent, borrowed */
GHashTable *hw_xml_index (const xmlNode *parent);
/* Puts a copy of @node, which may be of another document, at the end of @parent, on a line of its own. */
void  hw_xml_add_copy    (xmlNode *parent, const xmlNode *node);
/* The document as text; (transfer full) */
char *hw_xml_dump        (const HwXml *xml, gsize *size);

G_END_DECLS
