/* read-tension.c - the starting dial's terms and limits
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-handbook"

#include "config.h"

#include "handbook/handbook-private.h"

#include <glib/gi18n.h>
#include <string.h>

#define SCALE 20                         /* no figure on the 0-9 scale comes near it */

static gboolean
read_term (HwReader      *reader,
           const xmlNode *node,
           int           *lines,
           GError       **error)
{
  static const char * const attributes[] = { "id", "mean", "sd", NULL };
  const char *ids[HW_N_TENSION_TERMS + 1] = { NULL };
  HwTensionPrior *prior = &reader->book->tension;
  int term = 0;

  memcpy (ids, hw_tension_term_ids, sizeof *ids * HW_N_TENSION_TERMS);
  if (!hw_xml_check_attributes (reader->xml, node, attributes, error)
      || !hw_xml_get_required_word (reader->xml, node, "id", ids, &term, error)
      || !hw_xml_get_required_number (reader->xml, node, "mean", -SCALE, SCALE, &prior->terms[term].mean, error)
      || !hw_xml_get_required_number (reader->xml, node, "sd", 0, SCALE, &prior->terms[term].sd, error))
    return FALSE;
  if (lines[term] == 0)
    {
      lines[term] = hw_xml_line (node);
      return TRUE;
    }
  hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                    _("the term “%s” is already at line %d; keep one of them"), ids[term], lines[term]);
  return FALSE;
}

static gboolean
read_terms (HwReader      *reader,
            const xmlNode *node,
            GError       **error)
{
  int lines[HW_N_TENSION_TERMS] = { 0 };

  for (const xmlNode *child = hw_xml_first (node, "term"); child != NULL; child = hw_xml_next (child, "term"))
    if (!read_term (reader, child, lines, error))
      return FALSE;
  for (int i = 0; i < HW_N_TENSION_TERMS; i++)
    if (lines[i] == 0)
      {
        hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                          _("the term “%s” is missing; add <term id=\"%s\" mean=\"…\" sd=\"…\"/>"),
                          hw_tension_term_ids[i], hw_tension_term_ids[i]);
        return FALSE;
      }
  return TRUE;
}

/* What the arithmetic takes for granted. */
static gboolean
check_order (HwReader      *reader,
             const xmlNode *node,
             GError       **error)
{
  const HwTensionPrior *prior = &reader->book->tension;
  const struct { HwBand band; const char *what; } orders[] = {
    { { prior->thinnest_mm, prior->reference_thickness_mm, prior->thickest_mm },
      "thinnest, reference-thickness, thickest" },
    { { prior->shortest_mm, prior->reference_length_mm, prior->longest_mm }, "shortest, reference-length, longest" },
    { { prior->low_limit_loose, prior->low_limit, prior->high_limit }, "low-limit-loose, low-limit, high-limit" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (orders); i++)
    if (!hw_reader_band (reader, node, &orders[i].band, orders[i].what, error))
      return FALSE;
  return TRUE;
}

#define SCALAR(attr, member, low, high) { attr, G_STRUCT_OFFSET (HwTensionPrior, member), low, high, TRUE }

gboolean
hw_read_tension (HwReader      *reader,
                 const xmlNode *node,
                 void          *book,
                 GError       **error)
{
  static const char * const attributes[] = { "source", "reference-thickness", "thickest", "thinnest",
                                             "reference-length", "longest", "shortest", "reference-tex", "cloth-floor",
                                             "zigzag-floor", "low-limit", "low-limit-loose", "high-limit",
                                             "window-below", "window-below-per-mm", "window-thickest", "window-above",
                                             "verdict-noise", NULL };
  static const char * const children[] = { "term", NULL };
  static const HwField fields[] = {
    SCALAR ("reference-thickness", reference_thickness_mm, 0.01, 50), SCALAR ("thickest", thickest_mm, 0.01, 50),
    SCALAR ("thinnest", thinnest_mm, 0.01, 50), SCALAR ("reference-length", reference_length_mm, 0.1, 20),
    SCALAR ("longest", longest_mm, 0.1, 20), SCALAR ("shortest", shortest_mm, 0.1, 20),
    SCALAR ("reference-tex", reference_tex, 1, 500), SCALAR ("cloth-floor", cloth_floor, -SCALE, 0),
    SCALAR ("zigzag-floor", zigzag_floor, -SCALE, 0), SCALAR ("low-limit", low_limit, 0, 9),
    SCALAR ("low-limit-loose", low_limit_loose, 0, 9), SCALAR ("high-limit", high_limit, 0, 9),
    SCALAR ("window-below", window_below, 0, 9), SCALAR ("window-below-per-mm", window_below_per_mm, 0, 9),
    SCALAR ("window-thickest", window_thickest_mm, 0, 50), SCALAR ("window-above", window_above, 0, 9),
    SCALAR ("verdict-noise", verdict_noise, 0.01, 9),
    { NULL, 0, 0, 0, FALSE }
  };
  HwHandbook *self = book;

  return hw_xml_check_attributes (reader->xml, node, attributes, error)
         && hw_reader_children (reader, node, children, error)
         && hw_reader_fields (reader, node, fields, &self->tension, error)
         && check_order (reader, node, error)
         && hw_reader_source (reader, node, &self->tension_source, error)
         && read_terms (reader, node, error);
}
