/* xml-private.h - what the parts of the XML reader share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "files/xml.h"

G_BEGIN_DECLS

#define HW_XML_DEPTH_LIMIT 64
#define HW_XML_BYTES_LIMIT (256u << 20)

/* A number as a person writes it: shortest form that reads back the same, no exponent where it can be avoided. */
char *hw_xml_format_number (double value);

G_END_DECLS
