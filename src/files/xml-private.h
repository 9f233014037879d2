/* xml-private.h - what the parts of the XML reader share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "files/xml.h"

G_BEGIN_DECLS

/* A number as a person writes it: shortest form that reads back the same, no exponent where it can be avoided. */
char *hw_xml_format_number (double value);

G_END_DECLS
