/* read-cloth.c - sources, constructions, traits, fabrics
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-handbook"

#include "config.h"

#include "handbook/handbook-private.h"

#include <math.h>

const char * const hw_family_ids[] = { "woven", "knit", "nonwoven", "skin", "net", NULL };

static const char * const source_kinds[] = { "standard", "book", "paper", "bulletin", "common-practice",
                                             "from-memory", NULL };

gboolean
hw_read_source (HwReader      *reader,
                const xmlNode *node,
                void          *into,
                GError       **error)
{
  static const char * const attributes[] = { "id", "kind", "title", "where", NULL };
  static const char * const children[] = { NULL };
  HwSource *self = into;
  int kind = 0;

  self->id = hw_xml_dup_attr (node, "id");
  if (!hw_xml_check_attributes (reader->xml, node, attributes, error)
      || !hw_reader_children (reader, node, children, error)
      || !hw_xml_get_required_word (reader->xml, node, "kind", source_kinds, &kind, error)
      || !hw_reader_required (reader, node, "title", error))
    return FALSE;
  self->kind = (HwSourceKind) kind;
  self->title = hw_xml_dup_attr (node, "title");
  self->where = hw_xml_dup_attr (node, "where");
  hw_reader_translate (reader, "source", &self->title);
  if (self->where != NULL)
    hw_reader_translate (reader, "source", &self->where);
  return TRUE;
}

void
hw_clear_source (void *entry)
{
  HwSource *self = entry;

  g_free (self->id);
  g_free (self->title);
  g_free (self->where);
}

gboolean
hw_read_construction (HwReader      *reader,
                      const xmlNode *node,
                      void          *into,
                      GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "family", "bulk-density", "under-foot",
                                             "tension", NULL };
  static const HwField fields[] = {
    { "bulk-density", G_STRUCT_OFFSET (HwConstruction, bulk_density), 0.005, 5, TRUE },
    { "under-foot", G_STRUCT_OFFSET (HwConstruction, under_foot), 0.05, 1, TRUE },
    { NULL, 0, 0, 0, FALSE }
  };
  HwConstruction *self = into;
  int family = 0;

  if (!hw_reader_entry (reader, node, attributes, NULL, &self->entry, error)
      || !hw_xml_get_required_word (reader->xml, node, "family", hw_family_ids, &family, error)
      || !hw_reader_fields (reader, node, fields, self, error)
      || !hw_reader_term (reader, node, &self->tension_term, error))
    return FALSE;
  self->family = (HwFamily) family;
  return TRUE;
}

/* What a cloth of one's own has without being asked. */
static gboolean
read_unsaid (HwReader      *reader,
             const xmlNode *node,
             HwTrait       *self,
             GError       **error)
{
  const struct { const char *attr; HwRange *range; } ranges[] = {
    { "mass", &self->mass_g_m2 }, { "thickness", &self->thickness_mm }, { "stretch", &self->stretch_percent },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (ranges); i++)
    {
      *ranges[i].range = (HwRange) { -INFINITY, INFINITY };
      if (!hw_reader_range (reader, node, ranges[i].attr, TRUE, ranges[i].range, error))
        return FALSE;
    }
  return hw_reader_set (reader, node, "constructions", HW_TABLE_CONSTRUCTION, &self->constructions, error);
}

gboolean
hw_read_trait (HwReader      *reader,
               const xmlNode *node,
               void          *into,
               GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "lint", "needle-life", "speed", "tension",
                                             "constructions", "mass", "thickness", "stretch", NULL };
  static const HwField fields[] = {
    { "lint", G_STRUCT_OFFSET (HwTrait, lint_factor), 0.1, 20, FALSE },
    { "needle-life", G_STRUCT_OFFSET (HwTrait, needle_life), 0.05, 2, FALSE },
    { "speed", G_STRUCT_OFFSET (HwTrait, speed_factor), 0.05, 1, FALSE },
    { NULL, 0, 0, 0, FALSE }
  };
  HwTrait *self = into;

  self->lint_factor = 1;
  self->needle_life = 1;
  self->speed_factor = 1;
  return hw_reader_entry (reader, node, attributes, NULL, &self->entry, error)
         && hw_reader_fields (reader, node, fields, self, error)
         && hw_reader_term (reader, node, &self->tension_term, error)
         && read_unsaid (reader, node, self, error);
}

/* The typical value; bounds that are left out are the value itself. */
static gboolean
read_typical (HwReader      *reader,
              const xmlNode *node,
              const char    *attr,
              double         most,
              HwBand        *band,
              GError       **error)
{
  g_autofree char *low = g_strconcat (attr, "-low", NULL);
  g_autofree char *high = g_strconcat (attr, "-high", NULL);

  if (!hw_xml_get_required_number (reader->xml, node, attr, 0.001, most, &band->prefer, error))
    return FALSE;
  band->low = band->high = band->prefer;
  return hw_xml_get_number (reader->xml, node, low, 0.001, most, &band->low, error)
         && hw_xml_get_number (reader->xml, node, high, 0.001, most, &band->high, error)
         && hw_reader_band (reader, node, band, attr, error);
}

gboolean
hw_read_fabric (HwReader      *reader,
                const xmlNode *node,
                void          *into,
                GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "construction", "mass", "mass-low", "mass-high",
                                             "thickness", "thickness-low", "thickness-high", "stretch", "traits",
                                             "fibre", NULL };
  HwFabric *self = into;

  if (!hw_reader_entry (reader, node, attributes, NULL, &self->entry, error)
      || !hw_reader_required (reader, node, "construction", error)
      || !hw_reader_reference (reader, node, "construction", HW_TABLE_CONSTRUCTION, &self->construction, error)
      || !read_typical (reader, node, "mass", 5000, &self->mass_g_m2, error)
      || !read_typical (reader, node, "thickness", 50, &self->thickness_mm, error)
      || !hw_xml_get_number (reader->xml, node, "stretch", 0, 500, &self->stretch_percent, error)
      || !hw_reader_set (reader, node, "traits", HW_TABLE_TRAIT, &self->traits, error))
    return FALSE;
  self->fibre = hw_xml_dup_attr (node, "fibre");
  return TRUE;
}

void
hw_clear_fabric (void *entry)
{
  HwFabric *self = entry;

  hw_clear_entry (&self->entry);
  g_free (self->fibre);
}
