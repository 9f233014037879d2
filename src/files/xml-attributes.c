/* xml-attributes.c - typed attributes, and messages that say what was expected
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-files"

#include "config.h"

#include "files/xml.h"
#include "files/xml-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#define WHITE " \t\r\n"
#define LONGEST_GUESS 64                 /* longer words are never a slip of the pen */

char *
hw_xml_dup_attr (const xmlNode *node,
                 const char    *attr)
{
  xmlChar *value;
  char *copy;

  g_return_val_if_fail (node != NULL && attr != NULL, NULL);

  value = xmlGetNoNsProp (node, (const xmlChar *) attr);
  copy = g_strdup ((const char *) value);
  xmlFree (value);
  return copy;
}

static void
report_missing (const HwXml   *self,
                const xmlNode *node,
                const char    *attr,
                GError       **error)
{
  hw_xml_set_error (self, node, error, HW_XML_ERROR_INVALID, _("“%s” is missing; write <%s %s=\"…\">"),
                    attr, (const char *) node->name, attr);
}

char *
hw_xml_dup_required (const HwXml   *self,
                     const xmlNode *node,
                     const char    *attr,
                     GError       **error)
{
  char *value = hw_xml_dup_attr (node, attr);

  if (value == NULL)
    report_missing (self, node, attr, error);
  return value;
}

/* Goes on to the next word from @at; its length, 0 at the end. */
static gsize
find_word (const char **at)
{
  *at += strspn (*at, WHITE);
  return strcspn (*at, WHITE);
}

static gsize
count_words (const char *text)
{
  gsize count = 0;

  for (gsize n; (n = find_word (&text)) > 0; text += n)
    count++;
  return count;
}

char *
hw_xml_dup_text (const xmlNode *node)
{
  xmlChar *content;
  GString *text = g_string_new (NULL);
  const char *at;

  g_return_val_if_fail (node != NULL, NULL);

  content = xmlNodeGetContent (node);
  at = content != NULL ? (const char *) content : "";
  for (gsize n; (n = find_word (&at)) > 0; at += n)
    {
      if (text->len > 0)
        g_string_append_c (text, ' ');
      g_string_append_len (text, at, (gssize) n);
    }
  xmlFree (content);
  return g_string_free (text, FALSE);
}

char **
hw_xml_dup_words (const xmlNode *node,
                  const char    *attr)
{
  g_autofree char *value = hw_xml_dup_attr (node, attr);
  const char *text = value != NULL ? value : "";
  char **words = g_new0 (char *, count_words (text) + 1);
  char **next = words;

  for (gsize n; (n = find_word (&text)) > 0; text += n)
    *next++ = g_strndup (text, n);
  return words;
}

/* Digits with at most one point among them, few enough that the quotient of two exact numbers is the nearest double. */
static gboolean
parse_plain_number (const char *text,
                    double     *value)
{
  static const double powers[] = { 1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15 };
  guint64 digits = 0;
  guint n_digits = 0;
  guint n_decimals = 0;
  gboolean point = FALSE;

  for (; *text != '\0' && n_digits < G_N_ELEMENTS (powers); text++)
    if (g_ascii_isdigit (*text))
      {
        digits = digits * 10 + (guint64) (*text - '0');
        n_digits++;
        n_decimals += point ? 1 : 0;
      }
    else if (*text == '.' && !point)
      point = TRUE;
    else
      return FALSE;
  *value = (double) digits / powers[MIN (n_decimals, G_N_ELEMENTS (powers) - 1)];
  return *text == '\0' && n_digits > 0 && n_digits < G_N_ELEMENTS (powers);
}

/* strtod alone would take "nan", "inf", "0x1p3" and half of "2,5". */
gboolean
hw_xml_parse_number (const char *text,
                     double     *value)
{
  gsize length = strlen (text);
  char *end = NULL;

  if (parse_plain_number (text, value))
    return TRUE;
  if (length == 0 || strspn (text, "0123456789+-.eE") != length)
    return FALSE;
  *value = g_ascii_strtod (text, &end);
  return end == text + length && isfinite (*value);
}

static void
report_missing_number (const HwXml   *self,
                       const xmlNode *node,
                       const char    *attr,
                       double         low,
                       double         high,
                       GError       **error)
{
  const char      *name = (const char *) node->name;
  g_autofree char *low_text = hw_xml_format_number (low);
  g_autofree char *high_text = hw_xml_format_number (high);

  if (isfinite (low) && isfinite (high))
    hw_xml_set_error (self, node, error, HW_XML_ERROR_INVALID,
                      _("“%s” is missing; write <%s %s=\"…\"> with a number from %s to %s"),
                      attr, name, attr, low_text, high_text);
  else if (isfinite (low))
    hw_xml_set_error (self, node, error, HW_XML_ERROR_INVALID,
                      _("“%s” is missing; write <%s %s=\"…\"> with a number of %s or more"),
                      attr, name, attr, low_text);
  else if (isfinite (high))
    hw_xml_set_error (self, node, error, HW_XML_ERROR_INVALID,
                      _("“%s” is missing; write <%s %s=\"…\"> with a number of %s or less"),
                      attr, name, attr, high_text);
  else
    hw_xml_set_error (self, node, error, HW_XML_ERROR_INVALID,
                      _("“%s” is missing; write <%s %s=\"…\"> with a number"), attr, name, attr);
}

/* (transfer full): what the attribute must be, and what it is. */
static char *
describe_wrong_number (const char *attr,
                       const char *quoted,
                       double      low,
                       double      high,
                       gboolean    whole)
{
  g_autofree char *low_text = hw_xml_format_number (low);
  g_autofree char *high_text = hw_xml_format_number (high);

  if (isfinite (low) && isfinite (high))
    return g_strdup_printf (whole ? _("“%s” must be a whole number from %s to %s; it is “%s”")
                                  : _("“%s” must be a number from %s to %s; it is “%s”"),
                            attr, low_text, high_text, quoted);
  if (isfinite (low))
    return g_strdup_printf (_("“%s” must be a number of %s or more; it is “%s”"), attr, low_text, quoted);
  if (isfinite (high))
    return g_strdup_printf (_("“%s” must be a number of %s or less; it is “%s”"), attr, high_text, quoted);
  return g_strdup_printf (_("“%s” must be a number; it is “%s”"), attr, quoted);
}

static void
report_number (const HwXml   *self,
               const xmlNode *node,
               const char    *text,
               const char    *wrong,
               GError       **error)
{
  g_autofree char *with_point = g_strdelimit (g_strdup (text), ",", '.');
  double value;

  if (strchr (text, ',') != NULL && hw_xml_parse_number (with_point, &value))
    /* Translators: a sentence such as “mass” must be a number; it is “2,5”, then how to write it */
    hw_xml_set_error (self, node, error, HW_XML_ERROR_INVALID, _("%s: write it with a point, “%s”"), wrong, with_point);
  else
    hw_xml_set_error (self, node, error, HW_XML_ERROR_INVALID, "%s", wrong);
}

static gboolean
read_number (const HwXml   *self,
             const xmlNode *node,
             const char    *attr,
             const char    *text,
             double         low,
             double         high,
             gboolean       whole,
             double        *value,
             GError       **error)
{
  g_autofree char *quoted = NULL;
  g_autofree char *wrong = NULL;
  double number = 0;

  if (hw_xml_parse_number (text, &number) && number >= low && number <= high
      && (!whole || number == nearbyint (number)))
    {
      *value = number;
      return TRUE;
    }
  quoted = hw_xml_quote (text);
  wrong = describe_wrong_number (attr, quoted, low, high, whole);
  report_number (self, node, text, wrong, error);
  return FALSE;
}

gboolean
hw_xml_get_number (const HwXml   *self,
                   const xmlNode *node,
                   const char    *attr,
                   double         low,
                   double         high,
                   double        *value,
                   GError       **error)
{
  g_autofree char *text = hw_xml_dup_attr (node, attr);

  return text == NULL || read_number (self, node, attr, text, low, high, FALSE, value, error);
}

gboolean
hw_xml_get_required_number (const HwXml   *self,
                            const xmlNode *node,
                            const char    *attr,
                            double         low,
                            double         high,
                            double        *value,
                            GError       **error)
{
  g_autofree char *text = hw_xml_dup_attr (node, attr);

  if (text != NULL)
    return read_number (self, node, attr, text, low, high, FALSE, value, error);
  report_missing_number (self, node, attr, low, high, error);
  return FALSE;
}

gboolean
hw_xml_get_int (const HwXml   *self,
                const xmlNode *node,
                const char    *attr,
                int            low,
                int            high,
                int           *value,
                GError       **error)
{
  g_autofree char *text = hw_xml_dup_attr (node, attr);
  double number = 0;

  if (text == NULL)
    return TRUE;
  if (!read_number (self, node, attr, text, low, high, TRUE, &number, error))
    return FALSE;
  *value = (int) number;
  return TRUE;
}

static gboolean
read_word (const HwXml        *self,
           const xmlNode      *node,
           const char         *attr,
           const char         *text,
           const char * const *words,
           int                *index,
           GError            **error)
{
  g_autofree char *quoted = hw_xml_quote (text);
  g_autofree char *all = NULL;
  const char *near = NULL;

  for (int i = 0; words[i] != NULL; i++)
    if (strcmp (text, words[i]) == 0)
      {
        *index = i;
        return TRUE;
      }
  all = g_strjoinv (", ", (char **) words);
  near = hw_xml_nearest (text, words);
  if (near != NULL)
    hw_xml_set_error (self, node, error, HW_XML_ERROR_INVALID,
                      _("“%s” must be one of %s; it is “%s” (did you mean “%s”?)"), attr, all, quoted, near);
  else
    hw_xml_set_error (self, node, error, HW_XML_ERROR_INVALID, _("“%s” must be one of %s; it is “%s”"),
                      attr, all, quoted);
  return FALSE;
}

gboolean
hw_xml_get_word (const HwXml        *self,
                 const xmlNode      *node,
                 const char         *attr,
                 const char * const *words,
                 int                *index,
                 GError            **error)
{
  g_autofree char *text = hw_xml_dup_attr (node, attr);

  return text == NULL || read_word (self, node, attr, text, words, index, error);
}

gboolean
hw_xml_get_required_word (const HwXml        *self,
                          const xmlNode      *node,
                          const char         *attr,
                          const char * const *words,
                          int                *index,
                          GError            **error)
{
  g_autofree char *text = hw_xml_dup_attr (node, attr);
  g_autofree char *all = NULL;

  if (text != NULL)
    return read_word (self, node, attr, text, words, index, error);
  all = g_strjoinv (", ", (char **) words);
  hw_xml_set_error (self, node, error, HW_XML_ERROR_INVALID,
                    _("“%s” is missing; write <%s %s=\"…\"> with one of %s"),
                    attr, (const char *) node->name, attr, all);
  return FALSE;
}

/* Letters to add, drop, change or swap with their neighbour to get from @a to @b. */
static guint
count_slips (const char *a,
             const char *b)
{
  guint before[LONGEST_GUESS + 1], above[LONGEST_GUESS + 1], row[LONGEST_GUESS + 1];
  gsize length = strlen (b);

  for (gsize j = 0; j <= length; j++)
    above[j] = before[j] = (guint) j;
  for (gsize i = 1; i <= strlen (a); i++)
    {
      row[0] = (guint) i;
      for (gsize j = 1; j <= length; j++)
        {
          guint change = above[j - 1] + (a[i - 1] != b[j - 1]);
          row[j] = MIN (change, MIN (above[j], row[j - 1]) + 1);
          if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
            row[j] = MIN (row[j], before[j - 2] + 1);
        }
      memcpy (before, above, sizeof above);
      memcpy (above, row, (length + 1) * sizeof *row);
    }
  return above[length];
}

const char *
hw_xml_nearest (const char         *word,
                const char * const *known)
{
  const char *nearest = NULL;
  guint least = 0;
  gsize length;

  g_return_val_if_fail (word != NULL && known != NULL, NULL);

  length = strlen (word);
  if (length == 0 || length > LONGEST_GUESS)
    return NULL;
  for (; *known != NULL; known++)
    {
      guint slips;
      if (strlen (*known) > LONGEST_GUESS)
        continue;
      slips = count_slips (word, *known);
      if (slips <= (length + 1) / 3 && (nearest == NULL || slips < least))
        {
          nearest = *known;
          least = slips;
        }
    }
  return nearest;
}

static void
report_unknown_attribute (const HwXml        *self,
                          const xmlNode      *node,
                          const char         *name,
                          const char * const *known,
                          GError            **error)
{
  g_autofree char *all = g_strjoinv (", ", (char **) known);
  g_autofree char *quoted = hw_xml_quote (name);
  const char *near = hw_xml_nearest (name, known);

  if (near != NULL)
    hw_xml_set_error (self, node, error, HW_XML_ERROR_INVALID,
                      _("<%s> has no attribute “%s” (did you mean “%s”?); it may have %s"),
                      (const char *) node->name, quoted, near, all);
  else
    hw_xml_set_error (self, node, error, HW_XML_ERROR_INVALID, _("<%s> has no attribute “%s”; it may have %s"),
                      (const char *) node->name, quoted, *known != NULL ? all : _("none"));
}

gboolean
hw_xml_check_attributes (const HwXml        *self,
                         const xmlNode      *node,
                         const char * const *known,
                         GError            **error)
{
  g_return_val_if_fail (self != NULL && node != NULL && known != NULL, FALSE);

  for (const xmlAttr *attr = node->properties; attr != NULL; attr = attr->next)
    {
      const char *name = (const char *) attr->name;
      if (attr->ns == NULL && g_strv_contains (known, name))
        continue;
      report_unknown_attribute (self, node, name, known, error);
      return FALSE;
    }
  return TRUE;
}
