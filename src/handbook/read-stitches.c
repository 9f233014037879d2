/* read-stitches.c - stitch types, seams with their drawings, purposes, feet, plates
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-handbook"

#include "config.h"

#include "handbook/handbook-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#define DRAWING_WIDTH 100
#define DRAWING_HEIGHT 60

/* In the order of HwThreadUseShape. */
static const char * const shapes[] = { "ratio", "101", "301", "304", "401", "504", "514", "twin", "triple", NULL };
static const char * const marks[] = { "straight", "twin", "zigzag", "multi-step", "blind", "stretch", "satin",
                                      "buttonhole", "bar-tack", "overlock", "cover", "chain", NULL };

static gboolean
needs_share (HwThreadUseShape shape)
{
  return shape == HW_THREAD_USE_RATIO || shape == HW_THREAD_USE_401
         || shape == HW_THREAD_USE_504 || shape == HW_THREAD_USE_514;
}

static gboolean
read_thread_use (HwReader      *reader,
                 const xmlNode *node,
                 HwStitch      *self,
                 GError       **error)
{
  int shape = 0;

  if (!hw_xml_get_required_word (reader->xml, node, "shape", shapes, &shape, error))
    return FALSE;
  self->shape = (HwThreadUseShape) shape;
  self->needle_share = 0.5;
  if (self->shape == HW_THREAD_USE_RATIO && !hw_reader_required (reader, node, "ratio", error))
    return FALSE;
  if (needs_share (self->shape) && !hw_reader_required (reader, node, "needle-share", error))
    return FALSE;
  return hw_xml_get_number (reader->xml, node, "ratio", 1, 50, &self->ratio, error)
         && hw_xml_get_number (reader->xml, node, "needle-share", 0, 1, &self->needle_share, error);
}

static gboolean
read_make (HwReader      *reader,
           const xmlNode *node,
           HwStitch      *self,
           GError       **error)
{
  self->needles = self->dials = 1;
  return hw_reader_required (reader, node, "machines", error)
         && hw_reader_mask (reader, node, "machines", hw_machine_kind_ids, &self->machines, error)
         && hw_xml_get_int (reader->xml, node, "needles", 1, 4, &self->needles, error)
         && hw_xml_get_int (reader->xml, node, "loopers", 0, 4, &self->loopers, error)
         && hw_reader_required (reader, node, "bobbin", error)
         && hw_reader_flag (reader, node, "bobbin", &self->bobbin, error)
         && hw_xml_get_int (reader->xml, node, "dials", 1, 8, &self->dials, error)
         && hw_reader_required (reader, node, "length", error)
         && hw_reader_range (reader, node, "length", FALSE, &self->length_mm, error)
         && hw_reader_range (reader, node, "width", FALSE, &self->width_mm, error);
}

/* What serves instead, the best first. */
static gboolean
read_fallback (HwReader      *reader,
               const xmlNode *node,
               HwTableId      table,
               int            fallback[HW_N_FALLBACK],
               GError       **error)
{
  g_auto (GStrv) ids = hw_xml_dup_words (node, "fallback");
  HwSet known = 0;

  for (gsize i = 0; i < HW_N_FALLBACK; i++)
    fallback[i] = -1;
  if (!hw_reader_set (reader, node, "fallback", table, &known, error))
    return FALSE;
  if (g_strv_length (ids) > HW_N_FALLBACK)
    {
      hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                        _("“fallback” may name at most %d; leave the least likely out"), HW_N_FALLBACK);
      return FALSE;
    }
  for (gsize i = 0; ids[i] != NULL; i++)
    fallback[i] = hw_table_find (reader->book, table, ids[i]);
  return TRUE;
}

gboolean
hw_read_stitch (HwReader      *reader,
                const xmlNode *node,
                void          *into,
                GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "iso", "machines", "needles", "loopers", "bobbin",
                                             "length", "width", "shape", "ratio", "needle-share", "tension", "mark",
                                             "dials", "fallback", NULL };
  HwStitch *self = into;
  int mark = 0;

  if (!hw_reader_entry (reader, node, attributes, NULL, &self->entry, error)
      || !read_make (reader, node, self, error)
      || !read_thread_use (reader, node, self, error)
      || !hw_reader_term (reader, node, &self->tension_term, error)
      || !read_fallback (reader, node, HW_TABLE_STITCH, self->fallback, error)
      || !hw_xml_get_required_word (reader->xml, node, "mark", marks, &mark, error))
    return FALSE;
  self->mark = g_strdup (marks[mark]);
  self->iso = hw_xml_dup_attr (node, "iso");
  if (self->iso == NULL)
    self->iso = g_strdup ("");
  return TRUE;
}

void
hw_clear_stitch (void *entry)
{
  HwStitch *self = entry;

  hw_clear_entry (&self->entry);
  g_free (self->iso);
  g_free (self->mark);
}

/* "12.5,20": within the drawing's field. */
static gboolean
parse_point (const char *text,
             double     *xy)
{
  char *end = NULL;

  if (strspn (text, "0123456789.,") != strlen (text))
    return FALSE;
  xy[0] = g_ascii_strtod (text, &end);
  if (end == text || *end != ',' || end[1] == '\0')
    return FALSE;
  xy[1] = g_ascii_strtod (end + 1, &end);
  return *end == '\0' && xy[0] <= DRAWING_WIDTH && xy[1] <= DRAWING_HEIGHT;
}

static gboolean
read_ply (HwReader      *reader,
          const xmlNode *node,
          HwPolyline    *ply,
          GError       **error)
{
  static const char * const attributes[] = { "points", NULL };
  g_auto (GStrv) words = hw_xml_dup_words (node, "points");
  guint n_words = g_strv_length (words);
  g_autofree char *quoted = NULL;

  if (!hw_xml_check_attributes (reader->xml, node, attributes, error))
    return FALSE;
  ply->xy = g_new0 (double, 2 * n_words);
  for (; ply->n_points < n_words; ply->n_points++)
    if (!parse_point (words[ply->n_points], &ply->xy[2 * ply->n_points]))
      break;
  if (n_words >= 2 && ply->n_points == n_words)
    return TRUE;
  quoted = hw_xml_quote (n_words > ply->n_points ? words[ply->n_points] : "");
  hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                    _("“points” must be two or more points x,y within 0..%d and 0..%d, such as “0,20 60,20”; “%s” is "
                      "not"), DRAWING_WIDTH, DRAWING_HEIGHT, quoted);
  return FALSE;
}

static gboolean
read_mark (HwReader      *reader,
           const xmlNode *node,
           HwSeamStitch  *stitch,
           GError       **error)
{
  static const char * const attributes[] = { "x1", "y1", "x2", "y2", "row", NULL };
  static const HwField fields[] = {
    { "x1", G_STRUCT_OFFSET (HwSeamStitch, x1), 0, DRAWING_WIDTH, TRUE },
    { "y1", G_STRUCT_OFFSET (HwSeamStitch, y1), 0, DRAWING_HEIGHT, TRUE },
    { "x2", G_STRUCT_OFFSET (HwSeamStitch, x2), 0, DRAWING_WIDTH, TRUE },
    { "y2", G_STRUCT_OFFSET (HwSeamStitch, y2), 0, DRAWING_HEIGHT, TRUE },
    { NULL, 0, 0, 0, FALSE }
  };

  stitch->row = 1;
  return hw_xml_check_attributes (reader->xml, node, attributes, error)
         && hw_reader_fields (reader, node, fields, stitch, error)
         && hw_xml_get_int (reader->xml, node, "row", 1, 9, &stitch->row, error);
}

static gboolean
read_drawing (HwReader      *reader,
              const xmlNode *node,
              HwSeam        *self,
              GError       **error)
{
  self->plies = g_new0 (HwPolyline, hw_xml_count (node, "ply"));
  self->stitches = g_new0 (HwSeamStitch, hw_xml_count (node, "stitch"));
  for (const xmlNode *child = hw_xml_first (node, "ply"); child != NULL; child = hw_xml_next (child, "ply"))
    if (!read_ply (reader, child, &self->plies[self->n_plies++], error))
      return FALSE;
  for (const xmlNode *child = hw_xml_first (node, "stitch"); child != NULL; child = hw_xml_next (child, "stitch"))
    if (!read_mark (reader, child, &self->stitches[self->n_stitches++], error))
      return FALSE;
  if (self->n_plies > 0)
    return TRUE;
  hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                    _("there is no drawing; add a <ply points=\"…\"/> for each ply"));
  return FALSE;
}

gboolean
hw_read_seam (HwReader      *reader,
              const xmlNode *node,
              void          *into,
              GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "class", "family", "verified", "together",
                                             "stacked", NULL };
  static const char * const children[] = { "note", "ply", "stitch", NULL };
  static const char * const sides[] = { "right", "wrong", "wrong-first", NULL };
  HwSeam *self = into;
  int side = -1;
  gboolean verified = FALSE;             /* for whoever keeps the handbook; nothing is computed from it */

  if (!hw_reader_entry (reader, node, attributes, children, &self->entry, error)
      || !hw_reader_required (reader, node, "class", error)
      || !hw_xml_get_int (reader->xml, node, "class", 1, 8, &self->iso_class, error)
      || !hw_reader_flag (reader, node, "verified", &verified, error)
      || !hw_xml_get_word (reader->xml, node, "together", sides, &side, error)
      || !hw_reader_flag (reader, node, "stacked", &self->stacked, error)
      || !read_drawing (reader, node, self, error))
    return FALSE;
  self->together = side < 0 ? HW_TOGETHER_UNSAID : (HwTogether) (HW_TOGETHER_RIGHT + side);
  self->iso_family = hw_xml_dup_attr (node, "family");
  return TRUE;
}

void
hw_clear_seam (void *entry)
{
  HwSeam *self = entry;

  hw_clear_entry (&self->entry);
  g_free (self->iso_family);
  for (gsize i = 0; i < self->n_plies; i++)
    g_free (self->plies[i].xy);
  g_free (self->plies);
  g_free (self->stitches);
}

gboolean
hw_read_purpose (HwReader      *reader,
                 const xmlNode *node,
                 void          *into,
                 GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "seam", "stitch", "speed-share", "handling",
                                             "start-stop", "per-metre", "tension", NULL };
  static const HwField fields[] = {
    { "speed-share", G_STRUCT_OFFSET (HwPurpose, speed_share), 0.01, 1, TRUE },
    { "handling", G_STRUCT_OFFSET (HwPurpose, handling_minutes), 0, 120, TRUE },
    { "start-stop", G_STRUCT_OFFSET (HwPurpose, start_stop_minutes), 0, 10, TRUE },
    { "per-metre", G_STRUCT_OFFSET (HwPurpose, per_metre_minutes), 0, 60, FALSE },
    { NULL, 0, 0, 0, FALSE }
  };
  HwPurpose *self = into;

  return hw_reader_entry (reader, node, attributes, NULL, &self->entry, error)
         && hw_reader_reference (reader, node, "seam", HW_TABLE_SEAM, &self->seam, error)
         && hw_reader_reference (reader, node, "stitch", HW_TABLE_STITCH, &self->stitch, error)
         && hw_reader_fields (reader, node, fields, self, error)
         && hw_reader_term (reader, node, &self->tension_term, error);
}

static gboolean
read_foot_or_plate (HwReader      *reader,
                    const xmlNode *node,
                    HwTableId      table,
                    HwFoot        *self,
                    GError       **error)
{
  return hw_xml_get_required_number (reader->xml, node, "slot-mm", 0, 20, &self->slot_mm, error)
         && read_fallback (reader, node, table, self->fallback, error);
}

const char * const hw_needle_place_ids[] = { "centre", "aside", "notch", NULL };

static gboolean
read_notch (HwReader      *reader,
            const xmlNode *node,
            HwFoot        *self,
            GError       **error)
{
  g_autofree char *unasked = NULL;

  if (self->needle == HW_NEEDLE_NOTCH)
    return hw_xml_get_required_number (reader->xml, node, "notch-mm", 0.5, 6, &self->notch_mm, error);
  unasked = hw_xml_dup_attr (node, "notch-mm");
  if (unasked == NULL)
    return TRUE;
  hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                    _("“notch-mm” stands without needle=\"notch\"; leave it out"));
  return FALSE;
}

gboolean
hw_read_foot (HwReader      *reader,
              const xmlNode *node,
              void          *into,
              GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "machines", "slot-mm", "fallback", "needle",
                                             "notch-mm", NULL };
  HwFoot *self = into;
  int place = -1;

  if (!hw_reader_entry (reader, node, attributes, NULL, &self->entry, error)
      || !hw_reader_required (reader, node, "machines", error)
      || !hw_reader_mask (reader, node, "machines", hw_machine_kind_ids, &self->machines, error)
      || !hw_xml_get_word (reader->xml, node, "needle", hw_needle_place_ids, &place, error)
      || !read_foot_or_plate (reader, node, HW_TABLE_FOOT, self, error))
    return FALSE;
  self->needle = place < 0 ? HW_NEEDLE_UNSAID : (HwNeedlePlace) (HW_NEEDLE_CENTRE + place);
  return read_notch (reader, node, self, error);
}

gboolean
hw_read_plate (HwReader      *reader,
               const xmlNode *node,
               void          *into,
               GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "slot-mm", "fallback", NULL };
  HwPlate *self = into;

  self->machines = 1u << HW_MACHINE_LOCKSTITCH;
  return hw_reader_entry (reader, node, attributes, NULL, &self->entry, error)
         && read_foot_or_plate (reader, node, HW_TABLE_PLATE, self, error);
}
