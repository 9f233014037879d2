/* read-needles.c - needle systems, points, threads
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-handbook"

#include "config.h"

#include "handbook/handbook-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#define SMALLEST_NM 30
#define LARGEST_NM 300

const char * const hw_thread_form_ids[] = { "spun", "core", "filament", "monofilament", "textured", "metallic",
                                            "elastic", NULL };
const char * const hw_machine_kind_ids[] = { "lockstitch", "overlock", "coverstitch", NULL };

static const char * const point_forms[] = { "round", "ball", "cutting", NULL };

gboolean
hw_read_system (HwReader      *reader,
                const xmlNode *node,
                void          *into,
                GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "also", "machines", NULL };
  HwNeedleSystem *self = into;

  if (!hw_reader_entry (reader, node, attributes, NULL, &self->entry, error)
      || !hw_reader_required (reader, node, "machines", error)
      || !hw_reader_mask (reader, node, "machines", hw_machine_kind_ids, &self->machines, error))
    return FALSE;
  self->also = hw_xml_dup_attr (node, "also");
  return TRUE;
}

void
hw_clear_system (void *entry)
{
  HwNeedleSystem *self = entry;

  hw_clear_entry (&self->entry);
  g_free (self->also);
}

static gboolean
parse_nm (const char *text,
          int        *nm)
{
  guint64 value;

  if (!g_ascii_string_to_unsigned (text, 10, SMALLEST_NM, LARGEST_NM, &value, NULL))
    return FALSE;
  *nm = (int) value;
  return TRUE;
}

static gboolean
read_sizes (HwReader      *reader,
            const xmlNode *node,
            HwPoint       *self,
            GError       **error)
{
  g_auto (GStrv) words = hw_xml_dup_words (node, "sizes");

  self->sizes = g_new0 (int, g_strv_length (words));
  for (char **word = words; *word != NULL; word++)
    {
      int *size = &self->sizes[self->n_sizes];
      if (!parse_nm (*word, size) || (self->n_sizes > 0 && *size <= size[-1]))
        {
          g_autofree char *quoted = hw_xml_quote (*word);
          hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                            _("“sizes” must be Nm numbers from %d to %d, each larger than the one before; “%s” is not"),
                            SMALLEST_NM, LARGEST_NM, quoted);
          return FALSE;
        }
      self->n_sizes++;
    }
  return TRUE;
}

/* "2.5/75": 2.5 mm between the two points, Nm 75. */
static gboolean
parse_twin (const char *text,
            HwTwin     *twin)
{
  char *end = NULL;

  if (strspn (text, "0123456789./") != strlen (text))
    return FALSE;
  twin->spacing_mm = g_ascii_strtod (text, &end);
  return *end == '/' && twin->spacing_mm >= 0.5 && twin->spacing_mm <= 12 && parse_nm (end + 1, &twin->nm);
}

static gboolean
read_twins (HwReader      *reader,
            const xmlNode *node,
            HwPoint       *self,
            GError       **error)
{
  g_auto (GStrv) words = hw_xml_dup_words (node, "twins");

  self->twins = g_new0 (HwTwin, g_strv_length (words));
  for (char **word = words; *word != NULL; word++)
    if (!parse_twin (*word, &self->twins[self->n_twins++]))
      {
        g_autofree char *quoted = hw_xml_quote (*word);
        hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                          _("“twins” must be millimetres between the points and Nm, such as “2.5/75”; “%s” is not"),
                          quoted);
        return FALSE;
      }
  return TRUE;
}

gboolean
hw_read_point (HwReader      *reader,
               const xmlNode *node,
               void          *into,
               GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "letters", "form", "eye", "system", "sizes",
                                             "twins", NULL };
  HwPoint *self = into;
  int form = 0;

  self->eye_factor = 1;
  if (!hw_reader_entry (reader, node, attributes, NULL, &self->entry, error)
      || !hw_xml_get_required_word (reader->xml, node, "form", point_forms, &form, error)
      || !hw_xml_get_number (reader->xml, node, "eye", 0.5, 2, &self->eye_factor, error)
      || !hw_reader_required (reader, node, "system", error)
      || !hw_reader_set (reader, node, "system", HW_TABLE_SYSTEM, &self->systems, error)
      || !hw_reader_required (reader, node, "sizes", error)
      || !read_sizes (reader, node, self, error)
      || !read_twins (reader, node, self, error))
    return FALSE;
  self->form = (HwPointForm) form;
  self->letters = hw_xml_dup_attr (node, "letters");
  return TRUE;
}

void
hw_clear_point (void *entry)
{
  HwPoint *self = entry;

  hw_clear_entry (&self->entry);
  g_free (self->letters);
  g_free (self->sizes);
  g_free (self->twins);
}

gboolean
hw_read_thread (HwReader      *reader,
                const xmlNode *node,
                void          *into,
                GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "fibre", "form", "tex", "ticket", "density",
                                             "packing", "tenacity", "cone", "machines", NULL };
  static const HwField fields[] = {
    { "tex", G_STRUCT_OFFSET (HwThreadEntry, tex), 1, 1000, TRUE },
    { "ticket", G_STRUCT_OFFSET (HwThreadEntry, ticket), 4, 1000, FALSE },
    { "density", G_STRUCT_OFFSET (HwThreadEntry, density), 0.5, 10, TRUE },
    { "packing", G_STRUCT_OFFSET (HwThreadEntry, packing), 0.05, 1, TRUE },
    { "tenacity", G_STRUCT_OFFSET (HwThreadEntry, tenacity_cn_tex), 0, 200, FALSE },
    { NULL, 0, 0, 0, FALSE }
  };
  HwThreadEntry *self = into;
  int form = 0;

  if (!hw_reader_entry (reader, node, attributes, NULL, &self->entry, error)
      || !hw_reader_required (reader, node, "fibre", error)
      || !hw_xml_get_required_word (reader->xml, node, "form", hw_thread_form_ids, &form, error)
      || !hw_reader_fields (reader, node, fields, self, error)
      || !hw_reader_flag (reader, node, "cone", &self->cone, error)
      || !hw_reader_required (reader, node, "machines", error)
      || !hw_reader_mask (reader, node, "machines", hw_machine_kind_ids, &self->machines, error))
    return FALSE;
  self->form = (HwThreadForm) form;
  self->fibre = hw_xml_dup_attr (node, "fibre");
  return TRUE;
}

void
hw_clear_thread (void *entry)
{
  HwThreadEntry *self = entry;

  hw_clear_entry (&self->entry);
  g_free (self->fibre);
}
