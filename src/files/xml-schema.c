/* xml-schema.c - the second fence: RELAX NG
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-files"

#include "config.h"

#include "files/xml.h"
#include "files/xml-private.h"

#include <glib/gi18n.h>
#include <libxml/parser.h>
#include <libxml/relaxng.h>

struct _HwSchema
{
  xmlRelaxNG *schema;
};

/* libxml2 reports outer elements after inner ones; the first message is the nearest to the cause. */
typedef struct
{
  char *message;
  int   line;
} Finding;

static void
finding_cb (void     *user_data,
            xmlError *found)
{
  Finding *first = user_data;

  if (first->message != NULL || found->message == NULL)
    return;
  first->message = hw_xml_quote (found->message);
  g_strstrip (first->message);
  first->line = found->line;
}

/* libxml2 fills its table of data types at first use, without a lock. */
static void
init_types_once (void)
{
  static gsize done;

  if (!g_once_init_enter (&done))
    return;
  xmlInitParser ();
  xmlRelaxNGInitTypes ();
  g_once_init_leave (&done, 1);
}

/**
 * hw_schema_load:
 *
 * Returns: (transfer full): the compiled schema, or %NULL with a %HW_XML_ERROR
 */
HwSchema *
hw_schema_load (const char *schema_path,
                GError    **error)
{
  g_autoptr (HwXml) xml = NULL;
  g_autofree char *name = NULL;
  Finding finding = { NULL, 0 };
  xmlRelaxNGParserCtxt *parser;
  xmlRelaxNG *schema;
  HwSchema *self;

  g_return_val_if_fail (schema_path != NULL, NULL);

  xml = hw_xml_read_file (schema_path, 4u << 20, "grammar", "http://relaxng.org/ns/structure/1.0", error);
  if (xml == NULL)
    return NULL;
  init_types_once ();
  parser = xmlRelaxNGNewDocParserCtxt (hw_xml_root (xml)->doc);
  xmlRelaxNGSetParserStructuredErrors (parser, finding_cb, &finding);
  schema = xmlRelaxNGParse (parser);
  xmlRelaxNGFreeParserCtxt (parser);
  if (schema == NULL)
    {
      g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_INVALID, _("%s:%d: the schema itself is wrong: %s"),
                   hw_xml_name (xml), finding.line, finding.message != NULL ? finding.message : "");
      g_free (finding.message);
      return NULL;
    }
  g_free (finding.message);
  self = g_new0 (HwSchema, 1);
  self->schema = schema;
  return self;
}

gboolean
hw_schema_check (const HwSchema *self,
                 const HwXml    *xml,
                 GError        **error)
{
  Finding finding = { NULL, 0 };
  xmlRelaxNGValidCtxt *validator;
  int result;

  g_return_val_if_fail (self != NULL && xml != NULL, FALSE);

  validator = xmlRelaxNGNewValidCtxt (self->schema);
  xmlRelaxNGSetValidStructuredErrors (validator, finding_cb, &finding);
  result = xmlRelaxNGValidateDoc (validator, hw_xml_root (xml)->doc);
  xmlRelaxNGFreeValidCtxt (validator);
  if (result != 0)
    g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_INVALID,
                 _("%s:%d: this does not follow the schema: %s; compare it with a neighbour that does"),
                 hw_xml_name (xml), finding.line, finding.message != NULL ? finding.message : "");
  g_free (finding.message);
  return result == 0;
}

void
hw_schema_free (HwSchema *self)
{
  if (self == NULL)
    return;
  xmlRelaxNGFree (self->schema);
  g_free (self);
}
