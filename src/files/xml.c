/* xml.c - hardened XML reading
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A file may come by mail, so nothing in it is trusted: its size is looked at before it is read, it must be
 * UTF-8, and the parser is stopped at the first DOCTYPE (before any entity is declared) and at the 65th level.
 */

#define G_LOG_DOMAIN "hw-files"

#include "config.h"

#include "files/xml.h"
#include "files/save.h"
#include "files/xml-private.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <libxml/parser.h>
#include <libxml/SAX2.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define QUOTE_LIMIT 60
#define READ_OPTIONS (XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING | XML_PARSE_BIG_LINES)

typedef xmlDoc HwXmlDoc;
typedef xmlParserCtxt HwXmlParser;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwXmlDoc, xmlFreeDoc)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwXmlParser, xmlFreeParserCtxt)

struct _HwXml
{
  xmlDoc *doc;
  char   *name;
};

typedef enum { REFUSED_NOTHING, REFUSED_DOCTYPE, REFUSED_DEPTH } Refusal;

/* Hangs on the parser's _private while it runs. Only the first error is kept: the others follow from it. */
typedef struct
{
  Refusal refusal;
  int     line;
  int     code;                          /* of libxml2; 0 none yet */
  char   *message;
} Guard;

G_DEFINE_QUARK (hw-xml-error-quark, hw_xml_error)

static void
refuse (xmlParserCtxt *parser,
        Refusal        refusal)
{
  Guard *guard = parser->_private;

  if (guard->refusal == REFUSED_NOTHING)
    {
      guard->refusal = refusal;
      guard->line = xmlSAX2GetLineNumber (parser);
    }
  xmlStopParser (parser);
}

static void
doctype_cb (void          *context,
            const xmlChar *name,
            const xmlChar *external_id,
            const xmlChar *system_id)
{
  refuse (context, REFUSED_DOCTYPE);
}

/* Lines from the "<" of the tag that is being read to where the parser stands: libxml2 gives an element the line on
 * which its tag ends, and a person looks for the one on which it begins. No "<" can stand inside a tag. */
static int
count_tag_lines (const xmlParserInput *input)
{
  int lines = 0;

  for (const xmlChar *at = input->cur; at >= input->base; at--)
    {
      if (*at == '<')
        return lines;
      lines += *at == '\n';
    }
  return 0;
}

static void
element_start_cb (void           *context,
                  const xmlChar  *local_name,
                  const xmlChar  *prefix,
                  const xmlChar  *uri,
                  int             n_namespaces,
                  const xmlChar **namespaces,
                  int             n_attributes,
                  int             n_defaulted,
                  const xmlChar **attributes)
{
  xmlParserCtxt *parser = context;

  if (parser->nodeNr >= HW_XML_DEPTH_LIMIT)
    {
      refuse (parser, REFUSED_DEPTH);
      return;
    }
  xmlSAX2StartElementNs (context, local_name, prefix, uri, n_namespaces, namespaces,
                         n_attributes, n_defaulted, attributes);
  if (parser->node != NULL && parser->node->line < G_MAXUINT16)
    parser->node->line = (unsigned short) (parser->node->line - count_tag_lines (parser->input));
}

static void
note_error (Guard          *guard,
            const xmlError *found)
{
  if (guard->message != NULL || found == NULL || found->level < XML_ERR_ERROR)
    return;
  guard->code = found->code;
  guard->line = found->line;
  guard->message = g_strdup (found->message != NULL ? found->message : "");
}

static void
error_cb (void     *context,
          xmlError *found)
{
  xmlParserCtxt *parser = context;
  Guard *guard = parser->_private;

  if (guard->refusal == REFUSED_NOTHING)
    note_error (guard, found);
}

static char *
read_all (int      fd,
          gsize    max_bytes,
          gsize   *size,
          GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  guint8 block[16384];

  for (;;)
    {
      gssize got = read (fd, block, sizeof block);
      if (got < 0 && errno == EINTR)
        continue;
      if (got < 0)
        {
          g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_READ, _("could not be read: %s"), g_strerror (errno));
          return NULL;
        }
      if (got == 0)
        break;
      g_byte_array_append (bytes, block, (guint) got);
      if (bytes->len > max_bytes)        /* it grew while it was being read */
        {
          g_set_error_literal (error, HW_XML_ERROR, HW_XML_ERROR_TOO_BIG, _("grew too big while it was being read"));
          return NULL;
        }
    }
  *size = bytes->len;
  g_byte_array_append (bytes, (const guint8 *) "", 1);  /* never NULL, even for an empty file */
  return (char *) g_byte_array_free (g_steal_pointer (&bytes), FALSE);
}

static gboolean
check_file (int      fd,
            gsize    max_bytes,
            GError **error)
{
  struct stat about;

  if (fstat (fd, &about) != 0)
    {
      g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_READ, _("could not be read: %s"), g_strerror (errno));
      return FALSE;
    }
  if (!S_ISREG (about.st_mode))
    {
      g_set_error_literal (error, HW_XML_ERROR, HW_XML_ERROR_READ, _("is not an ordinary file"));
      return FALSE;
    }
  if ((guint64) about.st_size > max_bytes)
    {
      g_autofree char *is = g_format_size ((guint64) about.st_size);
      g_autofree char *most = g_format_size (max_bytes);
      g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_TOO_BIG,
                   _("is too big: %s, and at most %s is read; check that it is the right file"), is, most);
      return FALSE;
    }
  return TRUE;
}

static char *
load_file (const char *path,
           gsize       max_bytes,
           gsize      *size,
           GError    **error)
{
  char *data = NULL;
  int fd = g_open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK, 0);   /* a pipe must not make us wait */

  if (fd < 0)
    {
      g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_READ, _("could not be opened: %s"), g_strerror (errno));
      return NULL;
    }
  if (check_file (fd, max_bytes, error))
    data = read_all (fd, max_bytes, size, error);
  g_close (fd, NULL);
  return data;
}

static gboolean
check_utf8 (const char *name,
            const char *data,
            gsize       size,
            GError    **error)
{
  const char *end = NULL;
  int line = 1;

  if (g_utf8_validate_len (data, size, &end))
    return TRUE;
  for (const char *at = data; at < end; at++)
    line += *at == '\n';
  g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_MALFORMED,
               _("%s:%d: this line holds bytes that are not UTF-8 text; save the file as UTF-8"), name, line);
  return FALSE;
}

/* libxml2's sentence on one line, without its full stop and without the name of its own function. */
static char *
trim_message (const char *message)
{
  g_autofree char *line = g_strdelimit (g_strdup (message != NULL ? message : ""), "\r\n\t", ' ');
  const char *said = line;
  gsize length;

  g_strstrip (line);
  length = strlen (line);
  if (length > 0 && line[length - 1] == '.')
    line[length - 1] = '\0';
  if (g_str_has_prefix (line, "xmlParse") && strstr (line, ": ") != NULL)
    said = strstr (line, ": ") + strlen (": ");
  return hw_xml_quote (said);
}

static const char *
remedy_for (int code)
{
  switch (code)
    {
    case XML_ERR_TAG_NAME_MISMATCH:
    case XML_ERR_TAG_NOT_FINISHED:
    case XML_ERR_GT_REQUIRED:
    case XML_ERR_LTSLASH_REQUIRED:
      return _("close every element in the order in which they were opened");
    case XML_ERR_ATTRIBUTE_NOT_STARTED:
    case XML_ERR_ATTRIBUTE_NOT_FINISHED:
    case XML_ERR_ATTRIBUTE_WITHOUT_VALUE:
    case XML_ERR_LT_IN_ATTRIBUTE:
    case XML_ERR_SPACE_REQUIRED:
      return _("write every attribute as name=\"value\", with a space before it");
    case XML_ERR_ATTRIBUTE_REDEFINED:
      return _("keep only one of them");
    case XML_ERR_UNDECLARED_ENTITY:
    case XML_WAR_UNDECLARED_ENTITY:
    case XML_ERR_ENTITYREF_SEMICOL_MISSING:
    case XML_ERR_NAME_REQUIRED:
      return _("write “&” as &amp; and “<” as &lt;");
    case XML_ERR_DOCUMENT_END:
      return _("keep everything inside the one outermost element");
    case XML_NS_ERR_UNDEFINED_NAMESPACE:
      return _("write the name without its prefix");
    default:
      return _("correct this line, or go back to an earlier copy of the file");
    }
}

static void
report_malformed (const Guard *guard,
                  const char  *name,
                  const char  *root,
                  GError     **error)
{
  g_autofree char *message = trim_message (guard->message);
  int line = MAX (guard->line, 1);

  if (guard->code == 0 || guard->code == XML_ERR_DOCUMENT_EMPTY || guard->code == XML_ERR_DOCUMENT_START)
    g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_MALFORMED,
                 _("%s:%d: this is not an XML file; it must begin with “<%s”"), name, line, root);
  else
    g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_MALFORMED, _("%s:%d: this is not well-formed XML: %s; %s"),
                 name, line, message, remedy_for (guard->code));
}

static void
report_refusal (const Guard *guard,
                const char  *name,
                GError     **error)
{
  if (guard->refusal == REFUSED_DOCTYPE)
    g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_FORBIDDEN,
                 _("%s:%d: a DOCTYPE is not allowed here; take the whole <!DOCTYPE …> out"), name, guard->line);
  else
    g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_FORBIDDEN,
                 _("%s:%d: elements stand more than %d deep in one another; take the inner ones out"),
                 name, guard->line, HW_XML_DEPTH_LIMIT);
}

static xmlDoc *
parse (const char *name,
       const char *data,
       int         size,
       const char *root,
       GError    **error)
{
  g_autoptr (HwXmlParser) parser = xmlNewParserCtxt ();
  g_autoptr (HwXmlDoc) doc = NULL;
  Guard guard = { REFUSED_NOTHING, 0, 0, NULL };
  gboolean good;

  if (parser == NULL)
    g_error ("out of memory");
  parser->_private = &guard;
  parser->sax->internalSubset = doctype_cb;
  parser->sax->startElementNs = element_start_cb;
  parser->sax->serror = error_cb;
  doc = xmlCtxtReadMemory (parser, data, size, NULL, "UTF-8", READ_OPTIONS);
  good = guard.refusal == REFUSED_NOTHING && doc != NULL && parser->nsWellFormed
         && xmlDocGetRootElement (doc) != NULL;
  if (guard.refusal != REFUSED_NOTHING)
    report_refusal (&guard, name, error);
  else if (!good)
    {
      note_error (&guard, xmlCtxtGetLastError (parser));
      report_malformed (&guard, name, root, error);
    }
  g_free (guard.message);
  return good ? g_steal_pointer (&doc) : NULL;
}

/* "urn:handwheel:project:1" and "urn:handwheel:project:2" are one format in two versions. */
static gboolean
is_other_version (const char *ns,
                  const char *wanted)
{
  const char *colon = strrchr (wanted, ':');

  if (ns == NULL || colon == NULL || strcmp (ns, wanted) == 0
      || strncmp (ns, wanted, (gsize) (colon + 1 - wanted)) != 0)
    return FALSE;
  ns += colon + 1 - wanted;
  return *ns != '\0' && strspn (ns, "0123456789") == strlen (ns);
}

static gboolean
check_root (const HwXml *self,
            const char  *root,
            const char  *ns,
            GError     **error)
{
  const xmlNode *node = hw_xml_root (self);
  const char *name = (const char *) node->name;
  const char *href = node->ns != NULL ? (const char *) node->ns->href : NULL;
  g_autofree char *quoted = hw_xml_quote (href != NULL && strcmp (href, ns) != 0 ? href : name);

  if (g_strcmp0 (href, ns) == 0 && strcmp (name, root) == 0)
    return TRUE;
  if (is_other_version (href, ns))
    hw_xml_set_error (self, node, error, HW_XML_ERROR_NAMESPACE,
                      _("this file was made by a newer version; update Handwheel (it is “%s”, and “%s” is read)"),
                      quoted, ns);
  else if (href == NULL)
    hw_xml_set_error (self, node, error, HW_XML_ERROR_NAMESPACE,
                      _("the outermost element has no namespace; write <%s xmlns=\"%s\">"), root, ns);
  else if (strcmp (href, ns) != 0)
    hw_xml_set_error (self, node, error, HW_XML_ERROR_NAMESPACE,
                      _("this is another kind of file: its namespace is “%s”; <%s xmlns=\"%s\"> is needed"),
                      quoted, root, ns);
  else
    hw_xml_set_error (self, node, error, HW_XML_ERROR_NAMESPACE,
                      _("the outermost element is <%s>; it must be <%s>"), quoted, root);
  return FALSE;
}

/**
 * hw_xml_read_bytes:
 * @name: what messages call the bytes
 *
 * Returns: (transfer full): the document, or %NULL with a %HW_XML_ERROR
 */
HwXml *
hw_xml_read_bytes (const char *name,
                   const char *data,
                   gsize       size,
                   const char *root,
                   const char *ns,
                   GError    **error)
{
  g_autoptr (HwXml) self = NULL;
  xmlDoc *doc;

  g_return_val_if_fail (name != NULL && root != NULL && ns != NULL, NULL);
  g_return_val_if_fail (data != NULL || size == 0, NULL);

  if (size > HW_XML_BYTES_LIMIT)
    {
      g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_TOO_BIG,
                   _("%s is too big; check that it is the right file"), name);
      return NULL;
    }
  if (size >= 3 && memcmp (data, "\xef\xbb\xbf", 3) == 0)
    {
      data += 3;
      size -= 3;
    }
  if (size == 0)
    {
      g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_MALFORMED,
                   _("%s:1: the file is empty; it must begin with “<%s”"), name, root);
      return NULL;
    }
  if (!check_utf8 (name, data, size, error))
    return NULL;
  doc = parse (name, data, (int) size, root, error);
  if (doc == NULL)
    return NULL;
  self = g_new0 (HwXml, 1);
  self->doc = doc;
  self->name = g_strdup (name);
  return check_root (self, root, ns, error) ? g_steal_pointer (&self) : NULL;
}

/**
 * hw_xml_load_file:
 * @max_bytes: a file that is bigger is refused before it is read
 *
 * Returns: (transfer full): its bytes, or %NULL with a %HW_XML_ERROR
 */
char *
hw_xml_load_file (const char *path,
                  gsize       max_bytes,
                  gsize      *size,
                  GError    **error)
{
  char *data;

  g_return_val_if_fail (path != NULL && size != NULL, NULL);

  data = load_file (path, MIN (max_bytes, HW_XML_BYTES_LIMIT), size, error);
  if (data == NULL)
    {
      g_autofree char *shown = hw_show_path (path);
      g_prefix_error (error, "%s: ", shown);
    }
  return data;
}

/**
 * hw_xml_read_file:
 * @max_bytes: a file that is bigger is refused before it is read
 *
 * Returns: (transfer full): the document, or %NULL with a %HW_XML_ERROR
 */
HwXml *
hw_xml_read_file (const char *path,
                  gsize       max_bytes,
                  const char *root,
                  const char *ns,
                  GError    **error)
{
  g_autofree char *data = NULL;
  g_autofree char *name = NULL;
  gsize size = 0;

  g_return_val_if_fail (path != NULL && root != NULL && ns != NULL, NULL);

  name = hw_show_name (path);
  data = hw_xml_load_file (path, max_bytes, &size, error);
  return data != NULL ? hw_xml_read_bytes (name, data, size, root, ns, error) : NULL;
}

xmlNode *
hw_xml_root (const HwXml *self)
{
  g_return_val_if_fail (self != NULL, NULL);
  return xmlDocGetRootElement (self->doc);
}

const char *
hw_xml_name (const HwXml *self)
{
  g_return_val_if_fail (self != NULL, NULL);
  return self->name;
}

void
hw_xml_rename (HwXml      *self,
               const char *name)
{
  g_return_if_fail (self != NULL && name != NULL);

  g_free (self->name);
  self->name = g_strdup (name);
}

int
hw_xml_line (const xmlNode *node)
{
  g_return_val_if_fail (node != NULL, 0);
  return (int) xmlGetLineNo (node);
}

void
hw_xml_free (HwXml *self)
{
  if (self == NULL)
    return;
  xmlFreeDoc (self->doc);
  g_free (self->name);
  g_free (self);
}

void
hw_xml_set_error (const HwXml   *self,
                  const xmlNode *node,
                  GError       **error,
                  int            code,
                  const char    *format,
                  ...)
{
  g_autofree char *message = NULL;
  va_list arguments;

  g_return_if_fail (self != NULL);

  va_start (arguments, format);
  message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  if (node != NULL)
    g_set_error (error, HW_XML_ERROR, code, "%s:%d: %s", self->name, hw_xml_line (node), message);
  else
    g_set_error (error, HW_XML_ERROR, code, "%s: %s", self->name, message);
}

static gboolean
has_name (const xmlNode *node,
          const xmlNs   *ns,
          const char    *name)
{
  const xmlChar *wanted = ns != NULL ? ns->href : NULL;
  const xmlChar *href = node->ns != NULL ? node->ns->href : NULL;

  return strcmp ((const char *) node->name, name) == 0 && xmlStrEqual (wanted, href);
}

static xmlNode *
skip_to (xmlNode    *node,
         const char *name)
{
  for (; node != NULL; node = node->next)
    if (node->type == XML_ELEMENT_NODE && (name == NULL || has_name (node, node->parent->ns, name)))
      return node;
  return NULL;
}

xmlNode *
hw_xml_first (const xmlNode *parent,
              const char    *name)
{
  g_return_val_if_fail (parent != NULL, NULL);
  return skip_to (parent->children, name);
}

xmlNode *
hw_xml_next (const xmlNode *node,
             const char    *name)
{
  g_return_val_if_fail (node != NULL, NULL);
  return skip_to (node->next, name);
}

gsize
hw_xml_count (const xmlNode *parent,
              const char    *name)
{
  gsize n = 0;

  g_return_val_if_fail (parent != NULL, 0);
  for (const xmlNode *child = hw_xml_first (parent, name); child != NULL; child = hw_xml_next (child, name))
    n++;
  return n;
}

/* In the namespace of the whole document, so that a stranger's element of the same name is not taken for ours. */
gboolean
hw_xml_is (const xmlNode *node,
           const char    *name)
{
  const xmlNode *root;

  g_return_val_if_fail (node != NULL && name != NULL, FALSE);
  if (node->type != XML_ELEMENT_NODE)
    return FALSE;
  root = xmlDocGetRootElement (node->doc);
  return has_name (node, root != NULL ? root->ns : NULL, name);
}

char *
hw_xml_quote (const char *text)
{
  GString *quoted = g_string_new (NULL);
  int n = 0;

  for (const char *at = text; *at != '\0' && n < QUOTE_LIMIT; at = g_utf8_next_char (at), n++)
    {
      gunichar c = g_utf8_get_char (at);
      g_string_append_unichar (quoted, g_unichar_iscntrl (c) || c == 0x2028 || c == 0x2029 ? ' ' : c);
    }
  if (n == QUOTE_LIMIT)
    g_string_append (quoted, "…");
  return g_string_free (quoted, FALSE);
}
