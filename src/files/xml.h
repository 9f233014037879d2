/* xml.h - hardened XML reading and writing over libxml2
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reading refuses: files over the given size, any internal subset, any network
 * or external entity, depth over 64. Every error names file and line and says
 * what was expected: "shirt.handwheel:12: “length-cm” must be a number from 0.1 to 100000; it is “-4”".
 */

#pragma once
#include <glib.h>
#include <libxml/tree.h>

G_BEGIN_DECLS

#define HW_XML_ERROR (hw_xml_error_quark ())
GQuark hw_xml_error_quark (void);
typedef enum
{
  HW_XML_ERROR_READ,       /* could not read */
  HW_XML_ERROR_TOO_BIG,
  HW_XML_ERROR_MALFORMED,
  HW_XML_ERROR_FORBIDDEN,  /* internal subset, depth */
  HW_XML_ERROR_NAMESPACE,  /* another schema, or a newer version of ours */
  HW_XML_ERROR_INVALID,    /* an element or attribute is wrong */
} HwXmlError;

typedef struct _HwXml HwXml;             /* a parsed document and its file name */

/* @root and @ns: what the root element must be. (transfer full), NULL with @error. */
HwXml     *hw_xml_read_file   (const char *path, gsize max_bytes, const char *root, const char *ns, GError **error);
HwXml     *hw_xml_read_bytes  (const char *name, const char *data, gsize size, const char *root, const char *ns,
                               GError **error);
xmlNode   *hw_xml_root        (const HwXml *self);
const char *hw_xml_name       (const HwXml *self);       /* file name for messages (base name) */
void       hw_xml_rename      (HwXml *self, const char *name);       /* what messages are to call it */
int        hw_xml_line        (const xmlNode *node);
void       hw_xml_free        (HwXml *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwXml, hw_xml_free)

/* The bytes of an ordinary file of at most @max_bytes. (transfer full), NULL with an error that names @path. */
char      *hw_xml_load_file   (const char *path, gsize max_bytes, gsize *size, GError **error);

/* Long files: tag by tag, without a tree. Only what is plainly good goes through: UTF-8, well-formed, no DOCTYPE, every
 * element in the namespace of the file, no attribute in any, no CDATA, and no text but white space. FALSE for anything
 * else, or when @func did not take a tag: then hw_xml_read_bytes() and those who read its tree know what to say. */
typedef struct
{
  const char *name;                      /* holds during the scan: equal names are the same pointer */
  const char *value;                     /* holds during the call: @length bytes without a NUL behind them */
  gsize       length;
} HwXmlValue;
typedef struct
{
  const char       *name;
  const HwXmlValue *attributes;
  guint             n_attributes;
} HwXmlTag;
typedef gboolean (* HwXmlTagFunc) (const HwXmlTag *tag, guint depth, gpointer data);     /* @depth: 0 the outermost */
gboolean   hw_xml_scan        (const char *bytes, gsize size, const char *ns, HwXmlTagFunc func, gpointer data);
/* A decimal number as the typed readers below take one: no blanks, no "nan", nothing left over. */
gboolean   hw_xml_parse_number (const char *text, double *value);

/* Sets @error to "NAME:LINE: message". */
void       hw_xml_set_error   (const HwXml *self, const xmlNode *node, GError **error, int code,
                               const char *format, ...) G_GNUC_PRINTF (5, 6);

/* @text fit to stand in a one-line message: control characters replaced, cut to a readable length. (transfer full) */
char      *hw_xml_quote       (const char *text);

/* RELAX NG, the second fence. @schema_path is an .rng file; compiled schemas may be kept by the caller. */
typedef struct _HwSchema HwSchema;
HwSchema  *hw_schema_load     (const char *schema_path, GError **error);
gboolean   hw_schema_check    (const HwSchema *self, const HwXml *xml, GError **error);
void       hw_schema_free     (HwSchema *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwSchema, hw_schema_free)

/* Walking: element children only; @name NULL for any. */
xmlNode   *hw_xml_first       (const xmlNode *parent, const char *name);
xmlNode   *hw_xml_next        (const xmlNode *node, const char *name);
gsize      hw_xml_count       (const xmlNode *parent, const char *name);
gboolean   hw_xml_is          (const xmlNode *node, const char *name);

/* Attributes, copied into GLib memory. The _required forms set @error and return NULL/FALSE when the
 * attribute is absent; the optional ones leave @value alone. */
char      *hw_xml_dup_attr          (const xmlNode *node, const char *attr);                    /* NULL when absent */
char      *hw_xml_dup_required      (const HwXml *self, const xmlNode *node, const char *attr, GError **error);
/* Stripped, white space folded; "" when there is none. */
char      *hw_xml_dup_text          (const xmlNode *node);
/* Split at white space; an empty vector when absent. */
char     **hw_xml_dup_words         (const xmlNode *node, const char *attr);
gboolean   hw_xml_get_number        (const HwXml *self, const xmlNode *node, const char *attr, double low, double high,
                                     double *value, GError **error);
gboolean   hw_xml_get_required_number (const HwXml *self, const xmlNode *node, const char *attr, double low,
                                     double high, double *value, GError **error);
gboolean   hw_xml_get_int           (const HwXml *self, const xmlNode *node, const char *attr, int low, int high,
                                     int *value, GError **error);
/* One of @words (NULL-terminated): *@index is set. */
gboolean   hw_xml_get_word          (const HwXml *self, const xmlNode *node, const char *attr,
                                     const char * const *words, int *index, GError **error);
gboolean   hw_xml_get_required_word (const HwXml *self, const xmlNode *node, const char *attr,
                                     const char * const *words, int *index, GError **error);
/* The word of the NULL-terminated @known that @word was most likely meant to be; NULL when none is near. Borrowed. */
const char *hw_xml_nearest          (const char *word, const char * const *known);
/* Refuses attributes of @node not in the NULL-terminated list, naming the nearest known one. */
gboolean   hw_xml_check_attributes  (const HwXml *self, const xmlNode *node, const char * const *known, GError **error);

/* Writing: deterministic, two-space indentation, attributes in call order, numbers by g_ascii_dtostr shortest form. */
typedef struct _HwXmlWriter HwXmlWriter;
HwXmlWriter *hw_xml_writer_new      (const char *root, const char *ns);
void         hw_xml_writer_open     (HwXmlWriter *self, const char *name);
/* A value that is NULL or a list that is empty is left out. */
void         hw_xml_writer_attr     (HwXmlWriter *self, const char *name, const char *value);
void         hw_xml_writer_number   (HwXmlWriter *self, const char *name, double value);
void         hw_xml_writer_words    (HwXmlWriter *self, const char *name, char **words);
void         hw_xml_writer_text     (HwXmlWriter *self, const char *text);
void         hw_xml_writer_close    (HwXmlWriter *self);
char        *hw_xml_writer_finish   (HwXmlWriter *self, gsize *size);                             /* frees the writer */

G_END_DECLS
