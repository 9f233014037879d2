/* read.c - what the readers of projects and rooms share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/read-private.h"

#include "model/project-private.h"

#include <glib/gi18n.h>
#include <string.h>

gboolean
hw_read_refuse (const HwXml   *xml,
                const xmlNode *node,
                GError       **error,
                const char    *format,
                ...)
{
  g_autofree char *message = NULL;
  va_list arguments;

  va_start (arguments, format);
  message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, "%s:%d: %s", hw_xml_name (xml), hw_xml_line (node),
               message);
  return FALSE;
}

gboolean
hw_read_blame (const HwXml   *xml,
               const xmlNode *node,
               gboolean       good,
               GError       **error)
{
  if (!good)
    g_prefix_error (error, "%s:%d: ", hw_xml_name (xml), hw_xml_line (node));
  return good;
}

gboolean
hw_read_check_element (const HwXml        *xml,
                       const xmlNode      *node,
                       const char * const *known,
                       GError            **error)
{
  const char *name = (const char *) node->name;
  g_autofree char *all = NULL;
  const char *near;

  for (gsize i = 0; known[i] != NULL; i++)
    if (hw_xml_is (node, known[i]))
      return TRUE;
  all = g_strjoinv (", ", (char **) known);
  near = hw_xml_nearest (name, known);
  if (g_strcmp0 (near, name) == 0)
    return hw_read_refuse (xml, node, error, _("<%s> stands in another namespace than the file; take its “xmlns” out"),
                           name);
  if (near != NULL)
    return hw_read_refuse (xml, node, error, _("<%.64s> does not belong in <%s> (did you mean <%s>?); it may hold %s"),
                           name, (const char *) node->parent->name, near, all);
  return hw_read_refuse (xml, node, error, _("<%.64s> does not belong in <%s>; it may hold %s"),
                         name, (const char *) node->parent->name, all);
}

gboolean
hw_read_check_text (const HwXml   *xml,
                    const xmlNode *node,
                    GError       **error)
{
  for (const xmlNode *child = node->children; child != NULL; child = child->next)
    if ((child->type == XML_TEXT_NODE || child->type == XML_CDATA_SECTION_NODE) && !xmlIsBlankNode (child))
      return hw_read_refuse (xml, node, error, _("<%s> holds text of its own; put it into a <note>"),
                             (const char *) node->name);
  return TRUE;
}

gboolean
hw_read_check_leaf (const HwXml        *xml,
                    const xmlNode      *node,
                    const char * const *known,
                    GError            **error)
{
  if (!hw_xml_check_attributes (xml, node, known, error) || !hw_read_check_text (xml, node, error))
    return FALSE;
  if (hw_xml_first (node, NULL) != NULL)
    return hw_read_refuse (xml, hw_xml_first (node, NULL), error, _("<%s> holds nothing; close it with “/>”"),
                           (const char *) node->name);
  return TRUE;
}

gboolean
hw_read_note (const HwXml   *xml,
              const xmlNode *node,
              char         **note,
              GError       **error)
{
  static const char * const no_attributes[] = { NULL };
  xmlChar *content;

  if (*note != NULL)
    return hw_read_refuse (xml, node, error, _("<note> stands twice in <%s>; put everything into one"),
                           (const char *) node->parent->name);
  if (!hw_xml_check_attributes (xml, node, no_attributes, error))
    return FALSE;
  if (hw_xml_first (node, NULL) != NULL)
    return hw_read_refuse (xml, hw_xml_first (node, NULL), error, _("<note> holds text alone"));
  content = xmlNodeGetContent (node);
  *note = hw_tidy_note ((const char *) content);
  xmlFree (content);
  return hw_read_blame (xml, node, hw_check_note (*note, error), error);
}

char *
hw_read_new_id (const HwXml   *xml,
                const xmlNode *node,
                const char    *attr,
                GHashTable    *seen,
                GError       **error)
{
  g_autofree char *id = hw_xml_dup_required (xml, node, attr, error);
  g_autofree char *what = NULL;

  if (id == NULL)
    return NULL;
  what = g_strdup_printf ("“%s”", attr);
  if (!hw_read_blame (xml, node, hw_check_id (what, id, error), error))
    return NULL;
  if (g_hash_table_add (seen, g_strdup (id)))
    return g_steal_pointer (&id);
  hw_read_refuse (xml, node, error, _("the %s “%s” is used twice; give this one another"), attr, id);
  return NULL;
}

gboolean
hw_read_limit (const HwXml   *xml,
               const xmlNode *node,
               const HwLimit *limit,
               double        *value,
               GError       **error)
{
  return hw_xml_get_number (xml, node, limit->attribute, limit->low, limit->high, value, error);
}
