/* reader.c - the pieces that entries of the handbook are made of
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-handbook"

#include "config.h"

#include "handbook/handbook-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

static const char * const no_yes[] = { "no", "yes", NULL };

void
hw_reader_name (GError    **error,
                const char *subject)
{
  const char *after;
  char *named;

  if (error == NULL || *error == NULL)
    return;
  after = strstr ((*error)->message, ": ");
  if (after == NULL)
    return;
  after += strlen (": ");
  named = g_strdup_printf ("%.*s%s: %s", (int) (after - (*error)->message), (*error)->message, subject, after);
  g_free ((*error)->message);
  (*error)->message = named;
}

gboolean
hw_reader_fields (HwReader       *self,
                  const xmlNode  *node,
                  const HwField  *fields,
                  void           *into,
                  GError        **error)
{
  for (; fields->attr != NULL; fields++)
    {
      double *value = &G_STRUCT_MEMBER (double, into, fields->offset);
      gboolean done = fields->required
        ? hw_xml_get_required_number (self->xml, node, fields->attr, fields->low, fields->high, value, error)
        : hw_xml_get_number (self->xml, node, fields->attr, fields->low, fields->high, value, error);
      if (!done)
        return FALSE;
    }
  return TRUE;
}

gboolean
hw_reader_required (HwReader      *self,
                    const xmlNode *node,
                    const char    *attr,
                    GError       **error)
{
  g_autofree char *value = hw_xml_dup_required (self->xml, node, attr, error);

  if (value == NULL)
    return FALSE;
  if (*g_strstrip (value) != '\0')
    return TRUE;
  hw_xml_set_error (self->xml, node, error, HW_XML_ERROR_INVALID,
                    _("“%s” is empty; write what it is, or ask the source"), attr);
  return FALSE;
}

void
hw_reader_translate (HwReader   *self,
                     const char *context,
                     char      **text)
{
  char *found;

  if (self->translate == NULL || **text == '\0')
    return;
  found = g_strdup (self->translate (context, *text));
  g_free (*text);
  *text = found;
}

gboolean
hw_reader_title (HwReader      *self,
                 const xmlNode *node,
                 const char    *context,
                 char         **name,
                 GError       **error)
{
  if (!hw_reader_required (self, node, "name", error))
    return FALSE;
  *name = hw_xml_dup_attr (node, "name");
  hw_reader_translate (self, context, name);
  return TRUE;
}

static gboolean
find_reference (HwReader      *self,
                const xmlNode *node,
                const char    *attr,
                HwTableId      table,
                const char    *id,
                int           *index,
                GError       **error)
{
  g_autofree char *quoted = NULL;
  g_autofree char *near = NULL;
  const char *element = hw_tables[table].element;

  *index = hw_table_find (self->book, table, id);
  if (*index >= 0)
    return TRUE;
  quoted = hw_xml_quote (id);
  near = hw_table_nearest_id (self->book, table, id);
  if (near != NULL)
    g_set_error (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_UNKNOWN,
                 _("%s:%d: “%s” names “%s”, and no <%s> has that id (did you mean “%s”?)"),
                 hw_xml_name (self->xml), hw_xml_line (node), attr, quoted, element, near);
  else
    g_set_error (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_UNKNOWN,
                 _("%s:%d: “%s” names “%s”, and no <%s> has that id; add the entry or name one that there is"),
                 hw_xml_name (self->xml), hw_xml_line (node), attr, quoted, element);
  return FALSE;
}

gboolean
hw_reader_reference (HwReader      *self,
                     const xmlNode *node,
                     const char    *attr,
                     HwTableId      table,
                     int           *index,
                     GError       **error)
{
  g_autofree char *id = hw_xml_dup_attr (node, attr);

  *index = -1;
  return id == NULL || find_reference (self, node, attr, table, id, index, error);
}

/* An attribute that is there but empty was meant to say something. */
static gboolean
dup_list (HwReader      *self,
          const xmlNode *node,
          const char    *attr,
          char        ***words,
          GError       **error)
{
  g_autofree char *text = hw_xml_dup_attr (node, attr);

  *words = hw_xml_dup_words (node, attr);
  if (text == NULL || **words != NULL)
    return TRUE;
  hw_xml_set_error (self->xml, node, error, HW_XML_ERROR_INVALID,
                    _("“%s” is empty; name at least one, or leave it out"), attr);
  return FALSE;
}

gboolean
hw_reader_set (HwReader      *self,
               const xmlNode *node,
               const char    *attr,
               HwTableId      table,
               HwSet         *set,
               GError       **error)
{
  g_auto (GStrv) ids = NULL;

  *set = 0;
  if (!dup_list (self, node, attr, &ids, error))
    return FALSE;
  for (char **id = ids; *id != NULL; id++)
    {
      int index = -1;
      if (!find_reference (self, node, attr, table, *id, &index, error))
        return FALSE;
      *set |= HW_SET (index);
    }
  return TRUE;
}

static int
find_word (const char         *word,
           const char * const *words)
{
  for (int i = 0; words[i] != NULL; i++)
    if (strcmp (word, words[i]) == 0)
      return i;
  return -1;
}

gboolean
hw_reader_mask (HwReader           *self,
                const xmlNode      *node,
                const char         *attr,
                const char * const *words,
                guint              *mask,
                GError            **error)
{
  g_auto (GStrv) list = NULL;

  *mask = 0;
  if (!dup_list (self, node, attr, &list, error))
    return FALSE;
  for (char **word = list; *word != NULL; word++)
    {
      int index = find_word (*word, words);
      if (index < 0)
        {
          g_autofree char *all = g_strjoinv (", ", (char **) words);
          g_autofree char *quoted = hw_xml_quote (*word);
          hw_xml_set_error (self->xml, node, error, HW_XML_ERROR_INVALID,
                            _("“%s” may hold %s; it holds “%s”"), attr, all, quoted);
          return FALSE;
        }
      *mask |= 1u << index;
    }
  return TRUE;
}

gboolean
hw_reader_flag (HwReader      *self,
                const xmlNode *node,
                const char    *attr,
                gboolean      *flag,
                GError       **error)
{
  return hw_xml_get_word (self->xml, node, attr, no_yes, flag, error);
}

gboolean
hw_reader_term (HwReader      *self,
                const xmlNode *node,
                int           *term,
                GError       **error)
{
  const char *terms[HW_N_TENSION_TERMS + 1] = { NULL };

  memcpy (terms, hw_tension_term_ids, sizeof *terms * HW_N_TENSION_TERMS);
  *term = -1;
  return hw_xml_get_word (self->xml, node, "tension", terms, term, error);
}

static gboolean
parse_bound (const char *word,
             double      open,
             double     *bound)
{
  char *end = NULL;

  if (strcmp (word, "-") == 0)
    {
      *bound = open;
      return isinf (open);
    }
  if (strspn (word, "0123456789.") != strlen (word))
    return FALSE;
  *bound = g_ascii_strtod (word, &end);
  return *end == '\0' && isfinite (*bound);
}

gboolean
hw_reader_range (HwReader      *self,
                 const xmlNode *node,
                 const char    *attr,
                 gboolean       open,
                 HwRange       *range,
                 GError       **error)
{
  g_autofree char *text = hw_xml_dup_attr (node, attr);
  g_auto (GStrv) words = hw_xml_dup_words (node, attr);
  g_autofree char *quoted = NULL;
  HwRange read = { NAN, NAN };

  if (text == NULL)
    return TRUE;
  if (g_strv_length (words) == 2
      && parse_bound (words[0], open ? -INFINITY : NAN, &read.low)
      && parse_bound (words[1], open ? INFINITY : NAN, &read.high)
      && read.low <= read.high)
    {
      *range = read;
      return TRUE;
    }
  quoted = hw_xml_quote (text);
  hw_xml_set_error (self->xml, node, error, HW_XML_ERROR_INVALID,
                    open ? _("“%s” must be two numbers, the lower first, with “-” for an open end; it is “%s”")
                         : _("“%s” must be two numbers, the lower first; it is “%s”"), attr, quoted);
  return FALSE;
}

gboolean
hw_reader_band (HwReader      *self,
                const xmlNode *node,
                const HwBand  *band,
                const char    *what,
                GError       **error)
{
  if (band->low <= band->prefer && band->prefer <= band->high)
    return TRUE;
  hw_xml_set_error (self->xml, node, error, HW_XML_ERROR_INVALID,
                    _("%s: the preferred value must lie between the lowest and the highest; they are %g, %g, %g"),
                    what, band->low, band->prefer, band->high);
  return FALSE;
}

gboolean
hw_reader_source (HwReader        *self,
                  const xmlNode   *node,
                  const HwSource **source,
                  GError         **error)
{
  g_autofree char *id = hw_xml_dup_attr (node, "source");
  int index = -1;

  if (id == NULL)
    {
      hw_xml_set_error (self->xml, node, error, HW_XML_ERROR_INVALID,
                        _("“source” is missing; every figure says where it is from: write source=\"…\" with an id of "
                          "sources.xml"));
      return FALSE;
    }
  if (!find_reference (self, node, "source", HW_TABLE_SOURCE, id, &index, error))
    return FALSE;
  *source = &self->book->sources[index];
  return TRUE;
}

gboolean
hw_reader_text (HwReader      *self,
                const xmlNode *node,
                char         **text,
                GError       **error)
{
  *text = hw_xml_dup_text (node);
  if (**text != '\0')
    return TRUE;
  hw_xml_set_error (self->xml, node, error, HW_XML_ERROR_INVALID,
                    _("<%s> is empty; write the sentence that people read"), (const char *) node->name);
  return FALSE;
}

static void
report_child (HwReader           *self,
              const xmlNode      *child,
              const char * const *children,
              GError            **error)
{
  g_autofree char *all = g_strjoinv (", ", (char **) children);
  g_autofree char *quoted = hw_xml_quote ((const char *) child->name);
  const char *near = hw_xml_nearest ((const char *) child->name, children);

  if (near != NULL)
    hw_xml_set_error (self->xml, child, error, HW_XML_ERROR_INVALID,
                      _("<%s> may hold no <%s> (did you mean <%s>?)"),
                      (const char *) child->parent->name, quoted, near);
  else
    hw_xml_set_error (self->xml, child, error, HW_XML_ERROR_INVALID,
                      _("<%s> may hold no <%s>; it may hold: %s"), (const char *) child->parent->name,
                      quoted, *children != NULL ? all : _("nothing"));
}

gboolean
hw_reader_children (HwReader           *self,
                    const xmlNode      *node,
                    const char * const *children,
                    GError            **error)
{
  for (const xmlNode *child = hw_xml_first (node, NULL); child != NULL; child = hw_xml_next (child, NULL))
    {
      const char *name = (const char *) child->name;
      if (g_strv_contains (children, name) && hw_xml_is (child, name))
        continue;
      report_child (self, child, children, error);
      return FALSE;
    }
  return TRUE;
}

static gboolean
read_sentence (HwReader      *self,
               const xmlNode *node,
               char         **text,
               GError       **error)
{
  static const char * const nothing[] = { NULL };

  if (!hw_xml_check_attributes (self->xml, node, nothing, error)
      || !hw_reader_children (self, node, nothing, error)
      || !hw_reader_text (self, node, text, error))
    return FALSE;
  hw_reader_translate (self, NULL, text);
  return TRUE;
}

gboolean
hw_reader_sentences (HwReader      *self,
                     const xmlNode *node,
                     const char    *name,
                     char        ***sentences,
                     GError       **error)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();

  for (const xmlNode *child = hw_xml_first (node, name); child != NULL; child = hw_xml_next (child, name))
    {
      g_autofree char *text = NULL;
      if (!read_sentence (self, child, &text, error))
        return FALSE;
      g_strv_builder_add (builder, text);
    }
  *sentences = g_strv_builder_end (builder);
  return TRUE;
}

gboolean
hw_reader_sentence (HwReader      *self,
                    const xmlNode *node,
                    const char    *name,
                    char         **sentence,
                    GError       **error)
{
  const xmlNode *child = hw_xml_first (node, name);
  const xmlNode *second = child != NULL ? hw_xml_next (child, name) : NULL;

  if (child == NULL)
    hw_xml_set_error (self->xml, node, error, HW_XML_ERROR_INVALID, _("there is no <%s>; add it"), name);
  else if (second != NULL)
    hw_xml_set_error (self->xml, second, error, HW_XML_ERROR_INVALID,
                      _("there is already a <%s>, at line %d; join the two"), name, hw_xml_line (child));
  else
    return read_sentence (self, child, sentence, error);
  return FALSE;
}

static gboolean
read_note (HwReader      *self,
           const xmlNode *node,
           char         **note,
           GError       **error)
{
  const xmlNode *child = hw_xml_first (node, "note");
  const xmlNode *second = child != NULL ? hw_xml_next (child, "note") : NULL;

  if (second != NULL)
    {
      hw_xml_set_error (self->xml, second, error, HW_XML_ERROR_INVALID,
                        _("there is already a <note>, at line %d; join the two"), hw_xml_line (child));
      return FALSE;
    }
  if (child == NULL)
    return TRUE;
  if (!hw_reader_text (self, child, note, error))
    return FALSE;
  hw_reader_translate (self, NULL, note);
  return TRUE;
}

gboolean
hw_reader_entry (HwReader           *self,
                 const xmlNode      *node,
                 const char * const *attributes,
                 const char * const *children,
                 HwEntry            *entry,
                 GError            **error)
{
  static const char * const note_only[] = { "note", NULL };

  entry->id = hw_xml_dup_attr (node, "id");      /* the first pass has looked at it */
  entry->file = g_strdup (hw_xml_name (self->xml));
  entry->line = hw_xml_line (node);
  if (!hw_xml_check_attributes (self->xml, node, attributes, error)
      || !hw_reader_children (self, node, children != NULL ? children : note_only, error)
      || !hw_reader_title (self, node, (const char *) node->name, &entry->name, error)
      || !read_note (self, node, &entry->note, error))
    return FALSE;
  return hw_reader_source (self, node, &entry->source, error);
}

void
hw_clear_entry (void *entry)
{
  HwEntry *self = entry;

  g_free (self->id);
  g_free (self->name);
  g_free (self->note);
  g_free (self->file);
}
