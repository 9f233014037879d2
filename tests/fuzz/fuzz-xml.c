/* fuzz-xml.c - any bytes through the XML reader
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "files/xml.h"
#include "target.h"

#include <math.h>
#include <string.h>

static void
look_at (const HwXml   *xml,
         const xmlNode *node,
         int            depth)
{
  static const char * const known[] = { "id", "name", "source", NULL };
  g_autofree char *text = hw_xml_dup_text (node);
  g_auto (GStrv) words = hw_xml_dup_words (node, "traits");
  g_autofree char *id = hw_xml_dup_attr (node, "id");
  g_autoptr (GError) error = NULL;
  double number = 0;

  g_assert (depth <= 64);
  g_assert (hw_xml_line (node) >= 1);
  g_assert (g_utf8_validate (text, -1, NULL));
  g_assert (hw_xml_check_attributes (xml, node, known, &error) == (error == NULL));
  g_clear_error (&error);
  g_assert (hw_xml_get_number (xml, node, "mass", -INFINITY, INFINITY, &number, &error) == (error == NULL));
  g_assert (isfinite (number));
  for (const xmlNode *child = hw_xml_first (node, NULL); child != NULL; child = hw_xml_next (child, NULL))
    look_at (xml, child, depth + 1);
}

int
LLVMFuzzerTestOneInput (const guint8 *data,
                        gsize         size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwXml) xml = hw_xml_read_bytes ("input", (const char *) data, size, "handbook",
                                             "urn:handwheel:handbook:1", &error);

  g_assert ((xml == NULL) == (error != NULL));
  if (xml != NULL)
    look_at (xml, hw_xml_root (xml), 1);
  else
    {
      g_assert (error->domain == HW_XML_ERROR);
      g_assert (g_utf8_validate (error->message, -1, NULL));
      g_assert (strchr (error->message, '\n') == NULL);
      g_assert (strlen (error->message) < 4096);
      g_assert (g_str_has_prefix (error->message, "input:"));
    }
  return 0;
}
