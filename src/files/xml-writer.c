/* xml-writer.c - the same data always gives the same bytes
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-files"

#include "config.h"

#include "files/xml.h"
#include "files/xml-private.h"

#include <math.h>
#include <string.h>

typedef enum { IN_TAG, IN_CHILDREN, IN_TEXT } Where;

typedef struct
{
  char *name;
  Where where;
} Level;

struct _HwXmlWriter
{
  GString *out;
  GArray  *levels;                       /* of Level, outermost first */
};

#define MOST_PLAIN 1e15                  /* beyond it not every whole number is a double */

/* Decimals first: a person reads 100000 and 0.00001 more easily than 1e+05 and 1e-05. */
char *
hw_xml_format_number (double value)
{
  char text[64];

  if (fabs (value) < MOST_PLAIN && trunc (value) == value)
    return g_strdup_printf ("%" G_GINT64_FORMAT, (gint64) value);
  if (fabs (value) < MOST_PLAIN)
    for (int decimals = 0; decimals <= 17; decimals++)
      {
        char format[8];
        g_snprintf (format, sizeof format, "%%.%df", decimals);
        g_ascii_formatd (text, sizeof text, format, value);
        if (g_ascii_strtod (text, NULL) == value)
          return g_strdup (text);
      }
  return g_strdup (g_ascii_dtostr (text, sizeof text, value));
}

static gboolean
is_xml_character (gunichar c)
{
  return (c >= 0x20 && c != 0xfffe && c != 0xffff) || c == '\t' || c == '\n' || c == '\r';
}

/* Letters, digits and all else of ASCII that is written as it stands, which is nearly everything. */
static gsize
count_plain (const char *text)
{
  gsize n = 0;

  while (text[n] >= 0x20 && (guchar) text[n] < 0x80
         && text[n] != '&' && text[n] != '<' && text[n] != '>' && text[n] != '"')
    n++;
  return n;
}

/* A character that XML cannot hold becomes U+FFFD: a file that cannot be read again would be worse. */
static void
append_escaped (GString    *out,
                const char *text,
                gboolean    in_attribute)
{
  gsize            n = count_plain (text);
  g_autofree char *valid = NULL;

  g_string_append_len (out, text, (gssize) n);
  if (text[n] == '\0')
    return;
  valid = g_utf8_make_valid (text + n, -1);
  for (const char *at = valid; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);
      if (c == '&')
        g_string_append (out, "&amp;");
      else if (c == '<')
        g_string_append (out, "&lt;");
      else if (c == '>')
        g_string_append (out, "&gt;");
      else if (c == '"' && in_attribute)
        g_string_append (out, "&quot;");
      else if (c == '\r' || (in_attribute && (c == '\n' || c == '\t')))
        g_string_append_printf (out, "&#%u;", c);
      else
        g_string_append_unichar (out, is_xml_character (c) ? c : 0xfffd);
    }
}

static Level *
peek_level (HwXmlWriter *self)
{
  return &g_array_index (self->levels, Level, self->levels->len - 1);
}

static void
start_line (HwXmlWriter *self,
            guint        depth)
{
  g_string_append_c (self->out, '\n');
  for (guint i = 0; i < depth; i++)
    g_string_append (self->out, "  ");
}

static void
leave_tag (HwXmlWriter *self,
           Where        where)
{
  Level *level = peek_level (self);

  if (level->where == IN_TAG)
    g_string_append_c (self->out, '>');
  level->where = where;
}

static void
push_level (HwXmlWriter *self,
            const char  *name)
{
  Level level = { g_strdup (name), IN_TAG };

  g_string_append_c (self->out, '<');
  g_string_append (self->out, name);
  g_array_append_val (self->levels, level);
}

HwXmlWriter *
hw_xml_writer_new (const char *root,
                   const char *ns)
{
  HwXmlWriter *self = g_new0 (HwXmlWriter, 1);

  self->out = g_string_new ("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
  self->levels = g_array_new (FALSE, FALSE, sizeof (Level));
  push_level (self, root);
  hw_xml_writer_attr (self, "xmlns", ns);
  return self;
}

void
hw_xml_writer_open (HwXmlWriter *self,
                    const char  *name)
{
  g_return_if_fail (self != NULL && self->levels->len > 0 && name != NULL);
  g_return_if_fail (peek_level (self)->where != IN_TEXT);

  leave_tag (self, IN_CHILDREN);
  start_line (self, self->levels->len);
  push_level (self, name);
}

void
hw_xml_writer_attr (HwXmlWriter *self,
                    const char  *name,
                    const char  *value)
{
  g_return_if_fail (self != NULL && self->levels->len > 0 && name != NULL);
  g_return_if_fail (peek_level (self)->where == IN_TAG);

  if (value == NULL)
    return;
  g_string_append_c (self->out, ' ');
  g_string_append (self->out, name);
  g_string_append (self->out, "=\"");
  append_escaped (self->out, value, TRUE);
  g_string_append_c (self->out, '"');
}

void
hw_xml_writer_number (HwXmlWriter *self,
                      const char  *name,
                      double       value)
{
  g_autofree char *text = NULL;

  g_return_if_fail (isfinite (value));
  text = hw_xml_format_number (value);
  hw_xml_writer_attr (self, name, text);
}

void
hw_xml_writer_words (HwXmlWriter *self,
                     const char  *name,
                     char       **words)
{
  g_autofree char *joined = NULL;

  if (words == NULL || *words == NULL)
    return;
  joined = g_strjoinv (" ", words);
  hw_xml_writer_attr (self, name, joined);
}

void
hw_xml_writer_text (HwXmlWriter *self,
                    const char  *text)
{
  g_return_if_fail (self != NULL && self->levels->len > 0);
  g_return_if_fail (peek_level (self)->where != IN_CHILDREN);

  if (text == NULL || *text == '\0')
    return;
  leave_tag (self, IN_TEXT);
  append_escaped (self->out, text, FALSE);
}

void
hw_xml_writer_close (HwXmlWriter *self)
{
  Level level;

  g_return_if_fail (self != NULL && self->levels->len > 0);

  level = *peek_level (self);
  g_array_set_size (self->levels, self->levels->len - 1);
  if (level.where == IN_CHILDREN)
    start_line (self, self->levels->len);
  if (level.where == IN_TAG)
    {
      g_string_append (self->out, "/>");
    }
  else
    {
      g_string_append (self->out, "</");
      g_string_append (self->out, level.name);
      g_string_append_c (self->out, '>');
    }
  g_free (level.name);
}

/* Closes whatever is still open, the root at least. */
char *
hw_xml_writer_finish (HwXmlWriter *self,
                      gsize       *size)
{
  GString *out;

  g_return_val_if_fail (self != NULL, NULL);

  while (self->levels->len > 0)
    hw_xml_writer_close (self);
  out = self->out;
  g_string_append_c (out, '\n');
  if (size != NULL)
    *size = out->len;
  g_array_unref (self->levels);
  g_free (self);
  return g_string_free (out, FALSE);
}
