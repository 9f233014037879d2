/* xml-later.c - files of a later minor version: what this version does not know in them is kept
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-files"

#include "config.h"

#include "files/xml-later.h"

#include "files/save.h"

#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>

#define MOST_BYTES (256u << 20)
#define HEAD_BYTES 4096                  /* a root's tag ends within; else the file is looked at whole */

/* ---- which is which ---- */

char *
hw_xml_dup_key (const xmlNode *node)
{
  static const char * const telling[] = { "id", "number", "part", "field" };
  int place = 0;

  g_return_val_if_fail (node != NULL, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (telling); i++)
    {
      g_autofree char *value = hw_xml_dup_attr (node, telling[i]);

      if (value != NULL)
        return g_strdup_printf ("%s %s=%s", (const char *) node->name, telling[i], value);
    }
  for (const xmlNode *before = node->prev; before != NULL; before = before->prev)
    if (before->type == XML_ELEMENT_NODE && strcmp ((const char *) before->name, (const char *) node->name) == 0)
      place++;
  return g_strdup_printf ("%s %d", (const char *) node->name, place);
}

GHashTable *
hw_xml_index (const xmlNode *parent)
{
  GHashTable *index = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  g_return_val_if_fail (parent != NULL, index);

  for (xmlNode *node = hw_xml_first (parent, NULL); node != NULL; node = hw_xml_next (node, NULL))
    g_hash_table_insert (index, hw_xml_dup_key (node), node);
  return index;
}

static gboolean
has_word (const char *words,
          const char *word)
{
  gsize length = strlen (word);

  for (const char *at = strstr (words, word); at != NULL; at = strstr (at + 1, word))
    if ((at == words || at[-1] == ' ') && (at[length] == ' ' || at[length] == '\0'))
      return TRUE;
  return FALSE;
}

/* NULL: an element that is not known. */
static const HwXmlShape *
find_shape (const HwXmlFormat *format,
            const xmlNode     *node)
{
  if (!hw_xml_is (node, (const char *) node->name))
    return NULL;
  for (const HwXmlShape *shape = format->shapes; shape->element != NULL; shape++)
    if (strcmp (shape->element, (const char *) node->name) == 0)
      return shape;
  return NULL;
}

static gboolean
is_known_child (const HwXmlFormat *format,
                const HwXmlShape  *shape,
                const xmlNode     *child)
{
  return find_shape (format, child) != NULL && has_word (shape->children, (const char *) child->name);
}

static gboolean
is_known_attribute (const HwXmlShape *shape,
                    const xmlAttr    *attribute)
{
  return attribute->ns == NULL && has_word (shape->attributes, (const char *) attribute->name);
}

/* -1: no number at all */
static int
minor_of (const HwXml *xml)
{
  g_autofree char *minor = hw_xml_dup_attr (hw_xml_root (xml), "minor");

  if (minor == NULL)
    return 0;
  return *minor != '\0' && strlen (minor) < 6 && strspn (minor, "0123456789") == strlen (minor) ? atoi (minor) : -1;
}

/* ---- reading ---- */

static void
pass_over_in (xmlNode           *node,
              const HwXmlFormat *format,
              const HwXmlShape  *shape)
{
  xmlAttr *attribute = node->properties;
  xmlNode *child = node->children;

  while (attribute != NULL)
    {
      xmlAttr *next = attribute->next;

      if (!is_known_attribute (shape, attribute))
        xmlRemoveProp (attribute);
      attribute = next;
    }
  while (child != NULL)
    {
      xmlNode *next = child->next;

      if (child->type == XML_ELEMENT_NODE && !is_known_child (format, shape, child))
        {
          xmlUnlinkNode (child);
          xmlFreeNode (child);
        }
      else if (child->type == XML_ELEMENT_NODE)
        pass_over_in (child, format, find_shape (format, child));
      child = next;
    }
}

void
hw_xml_pass_over (HwXml             *xml,
                  const HwXmlFormat *format)
{
  xmlNode *root;
  int minor;

  g_return_if_fail (xml != NULL && format != NULL);

  root = hw_xml_root (xml);
  minor = minor_of (xml);
  if (minor > format->minor)
    pass_over_in (root, format, find_shape (format, root));
  else if (minor >= 0)
    xmlUnsetNsProp (root, NULL, (const xmlChar *) "minor");
}

/* ---- writing ---- */

static guint
depth_of (const xmlNode *node)
{
  guint depth = 0;

  while (node->parent != NULL && node->parent->type == XML_ELEMENT_NODE)
    {
      node = node->parent;
      depth++;
    }
  return depth;
}

static void
add_line (xmlNode *parent,
          guint    depth)
{
  g_autofree char *space = g_strnfill (2 * depth, ' ');
  g_autofree char *line = g_strconcat ("\n", space, NULL);

  xmlAddChild (parent, xmlNewDocText (parent->doc, (const xmlChar *) line));
}

void
hw_xml_add_copy (xmlNode       *parent,
                 const xmlNode *node)
{
  guint depth = depth_of (parent);
  xmlNode *last;
  xmlNode *copy = NULL;

  g_return_if_fail (parent != NULL && node != NULL);

  last = parent->last;
  if (last != NULL && xmlIsBlankNode (last))           /* the line of the closing tag */
    {
      xmlUnlinkNode (last);
      xmlFreeNode (last);
    }
  if (xmlDOMWrapCloneNode (NULL, node->doc, (xmlNode *) node, &copy, parent->doc, parent, 1, 0) != 0)
    g_error ("out of memory");
  add_line (parent, depth + 1);
  xmlAddChild (parent, copy);
  add_line (parent, depth);
}

static void
copy_attribute (xmlNode       *node,
                const xmlAttr *attribute)
{
  xmlChar *value = xmlNodeGetContent ((const xmlNode *) attribute);
  xmlNs *ns = NULL;

  if (attribute->ns != NULL)
    {
      ns = xmlSearchNsByHref (node->doc, node, attribute->ns->href);
      if (ns == NULL || ns->prefix == NULL)
        ns = xmlNewNs (node, attribute->ns->href, attribute->ns->prefix);
    }
  xmlNewNsProp (node, ns, attribute->name, value);
  xmlFree (value);
}

static void
put_back_in (const HwXmlFormat *format,
             const HwXmlShape  *shape,
             const xmlNode     *before,
             xmlNode           *now)
{
  g_autoptr (GHashTable) index = hw_xml_index (now);

  for (const xmlAttr *attribute = before->properties; attribute != NULL; attribute = attribute->next)
    if (!is_known_attribute (shape, attribute))
      copy_attribute (now, attribute);
  for (const xmlNode *child = before->children; child != NULL; child = child->next)
    {
      g_autofree char *key = child->type == XML_ELEMENT_NODE ? hw_xml_dup_key (child) : NULL;
      xmlNode *same = key != NULL ? g_hash_table_lookup (index, key) : NULL;

      if (key != NULL && !is_known_child (format, shape, child))
        hw_xml_add_copy (now, child);
      else if (same != NULL)
        put_back_in (format, find_shape (format, child), child, same);
    }
}

char *
hw_xml_dump (const HwXml *xml,
             gsize       *size)
{
  xmlChar *bytes = NULL;
  int length = 0;
  char *copy;

  g_return_val_if_fail (xml != NULL && size != NULL, NULL);

  xmlDocDumpMemoryEnc (hw_xml_root (xml)->doc, &bytes, &length, "UTF-8");
  *size = (gsize) length;
  copy = g_strndup ((const char *) bytes, *size);
  xmlFree (bytes);
  return copy;
}

/* Most files are not of a later version, and that shows in their first line. (transfer full), "" when there is none */
static char *
read_head (const char *path)
{
  char *head = g_malloc (HEAD_BYTES + 1);
  FILE *file = fopen (path, "rbe");
  gsize got = file != NULL ? fread (head, 1, HEAD_BYTES, file) : 0;

  if (file != NULL)
    fclose (file);
  head[got] = '\0';
  return head;
}

gboolean
hw_xml_check_not_newer (const HwXmlFormat *format,
                        const char        *path,
                        GError           **error)
{
  g_autofree char *head = NULL;
  g_autofree char *shown = NULL;
  gsize stem;
  const char *at;

  g_return_val_if_fail (format != NULL && path != NULL, FALSE);

  head = read_head (path);
  stem = (gsize) (strrchr (format->ns, ':') + 1 - format->ns);
  at = g_strstr_len (head, -1, "xmlns=");
  at = at != NULL ? at + strlen ("xmlns=") + 1 : NULL;
  if (at == NULL || strncmp (at, format->ns, stem) != 0 || atoi (at + stem) <= atoi (format->ns + stem))
    return TRUE;
  shown = hw_show_path (path);
  g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_NAMESPACE,
               _("“%s” was made by a newer version and stays as it is; update Handwheel"), shown);
  return FALSE;
}

char *
hw_xml_put_back (const HwXmlFormat *format,
                 const char        *path,
                 char              *data,
                 gsize             *size)
{
  g_autofree char *head = NULL;
  g_autoptr (HwXml) before = NULL;
  g_autoptr (HwXml) now = NULL;

  g_return_val_if_fail (format != NULL && path != NULL && data != NULL && size != NULL, data);

  head = read_head (path);
  if (strstr (head, "minor") == NULL)
    return data;
  before = hw_xml_read_file (path, MOST_BYTES, format->root, format->ns, NULL);
  if (before == NULL || minor_of (before) <= format->minor)
    return data;
  now = hw_xml_read_bytes (path, data, *size, format->root, format->ns, NULL);
  g_return_val_if_fail (now != NULL, data);
  put_back_in (format, find_shape (format, hw_xml_root (before)), hw_xml_root (before), hw_xml_root (now));
  g_free (data);
  return hw_xml_dump (now, size);
}
