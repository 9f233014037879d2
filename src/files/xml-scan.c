/* xml-scan.c - a long file tag by tag, without a tree
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A tree of a file takes five times as long to make as going through its tags. What is not plainly good is not
 * explained here: those who read it as a tree do that.
 */

#define G_LOG_DOMAIN "hw-files"

#include "config.h"

#include "files/xml.h"
#include "files/xml-private.h"

#include <libxml/parser.h>
#include <libxml/parserInternals.h>
#include <string.h>

#define MOST_ATTRIBUTES 64
/* UTF-8 has been seen to; what the file says of itself could only mislead. Without a DOCTYPE there are no entities but
 * the five that XML has, and NOENT has "&amp;" handed over as "&". */
#define OPTIONS (XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING | XML_PARSE_IGNORE_ENC | XML_PARSE_NOENT)

typedef xmlParserCtxt HwXmlParser;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwXmlParser, xmlFreeParserCtxt)

/* Hangs on the parser's _private while it runs. */
typedef struct
{
  HwXmlTagFunc func;
  gpointer     data;
  const char  *ns;
  const char  *ns_seen;                  /* the document's own pointer to it */
  guint        depth;
  gboolean     plain;                    /* so far */
} Scan;

static void
doubt (xmlParserCtxt *parser)
{
  ((Scan *) parser->_private)->plain = FALSE;
  xmlStopParser (parser);
}

/* libxml2 gives each attribute as five pointers: name, prefix, namespace, begin and end of the value. */
static gboolean
take_attributes (const xmlChar **given,
                 int             n,
                 HwXmlValue     *attributes)
{
  for (int i = 0; i < n; i++, given += 5)
    {
      if (given[1] != NULL)
        return FALSE;
      attributes[i] = (HwXmlValue) { (const char *) given[0], (const char *) given[3], (gsize) (given[4] - given[3]) };
    }
  return TRUE;
}

/* libxml2 keeps each name and namespace of a document once. */
static gboolean
is_namespace (Scan       *scan,
              const char *uri)
{
  if (uri != NULL && uri != scan->ns_seen && strcmp (uri, scan->ns) == 0)
    scan->ns_seen = uri;
  return uri != NULL && uri == scan->ns_seen;
}

static void
start_cb (void           *context,
          const xmlChar  *local_name,
          const xmlChar  *prefix,
          const xmlChar  *uri,
          int             n_namespaces,
          const xmlChar **namespaces,
          int             n_attributes,
          int             n_defaulted,
          const xmlChar **attributes)
{
  Scan *scan = ((xmlParserCtxt *) context)->_private;
  HwXmlValue values[MOST_ATTRIBUTES];
  HwXmlTag tag = { (const char *) local_name, values, (guint) n_attributes };

  if (!scan->plain)
    return;
  if (scan->depth >= HW_XML_DEPTH_LIMIT || n_attributes > MOST_ATTRIBUTES
      || !is_namespace (scan, (const char *) uri) || !take_attributes (attributes, n_attributes, values)
      || !scan->func (&tag, scan->depth, scan->data))
    doubt (context);
  scan->depth++;
}

static void
end_cb (void          *context,
        const xmlChar *local_name,
        const xmlChar *prefix,
        const xmlChar *uri)
{
  ((Scan *) ((xmlParserCtxt *) context)->_private)->depth--;
}

static void
text_cb (void          *context,
         const xmlChar *text,
         int            length)
{
  for (int i = 0; i < length; i++)
    if (text[i] != ' ' && text[i] != '\n' && text[i] != '\t' && text[i] != '\r')
      {
        doubt (context);
        return;
      }
}

static void
cdata_cb (void          *context,
          const xmlChar *text,
          int            length)
{
  doubt (context);
}

static void
doctype_cb (void          *context,
            const xmlChar *name,
            const xmlChar *external_id,
            const xmlChar *system_id)
{
  doubt (context);
}

static void
reference_cb (void          *context,
              const xmlChar *name)
{
  doubt (context);
}

static gboolean
parse (const char *bytes,
       int         size,
       Scan       *scan)
{
  g_autoptr (HwXmlParser) parser = xmlNewParserCtxt ();

  if (parser == NULL)
    g_error ("out of memory");
  memset (parser->sax, 0, sizeof *parser->sax);
  parser->sax->initialized = XML_SAX2_MAGIC;
  parser->sax->startElementNs = start_cb;
  parser->sax->endElementNs = end_cb;
  parser->sax->characters = text_cb;
  parser->sax->cdataBlock = cdata_cb;
  parser->sax->internalSubset = doctype_cb;
  parser->sax->reference = reference_cb;
  parser->_private = scan;
  xmlCtxtReadMemory (parser, bytes, size, NULL, NULL, OPTIONS);
  return scan->plain && parser->wellFormed && parser->nsWellFormed;
}

/**
 * hw_xml_scan:
 * @ns: the namespace of all its elements
 * @func: called for each start tag, parents before their children; returns whether it took it
 *
 * Returns: whether the whole document was plainly good
 */
gboolean
hw_xml_scan (const char   *bytes,
             gsize         size,
             const char   *ns,
             HwXmlTagFunc  func,
             gpointer      data)
{
  Scan scan = { func, data, ns, NULL, 0, TRUE };

  g_return_val_if_fail (bytes != NULL && ns != NULL && func != NULL, FALSE);

  if (size >= 3 && memcmp (bytes, "\xef\xbb\xbf", 3) == 0)
    {
      bytes += 3;
      size -= 3;
    }
  return size > 0 && size <= HW_XML_BYTES_LIMIT && g_utf8_validate_len (bytes, size, NULL)
         && parse (bytes, (int) size, &scan);
}
