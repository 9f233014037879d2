/* read-faults.c - stitch faults and the words of the trade
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-handbook"

#include "config.h"

#include "handbook/handbook-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#define WEIGHTS_SUM 100

const char * const hw_remedy_ids[HW_N_REMEDIES + 1] = {
  [HW_REMEDY_RETHREAD] = "rethread",
  [HW_REMEDY_RESEAT_BOBBIN] = "reseat-bobbin",
  [HW_REMEDY_REWIND_BOBBIN] = "rewind-bobbin",
  [HW_REMEDY_NEW_NEEDLE] = "new-needle",
  [HW_REMEDY_OTHER_POINT] = "other-point",
  [HW_REMEDY_FINER_NEEDLE] = "finer-needle",
  [HW_REMEDY_THICKER_NEEDLE] = "thicker-needle",
  [HW_REMEDY_OTHER_THREAD] = "other-thread",
  [HW_REMEDY_FINER_THREAD] = "finer-thread",
  [HW_REMEDY_STRONGER_THREAD] = "stronger-thread",
  [HW_REMEDY_DIAL_UP] = "dial-up",
  [HW_REMEDY_DIAL_DOWN] = "dial-down",
  [HW_REMEDY_BOBBIN_TENSION] = "bobbin-tension",
  [HW_REMEDY_LOOPER_TENSION] = "looper-tension",
  [HW_REMEDY_LONGER_STITCH] = "longer-stitch",
  [HW_REMEDY_SHORTER_STITCH] = "shorter-stitch",
  [HW_REMEDY_OTHER_STITCH] = "other-stitch",
  [HW_REMEDY_WIDER_ALLOWANCE] = "wider-allowance",
  [HW_REMEDY_MORE_PRESSURE] = "more-pressure",
  [HW_REMEDY_LESS_PRESSURE] = "less-pressure",
  [HW_REMEDY_OTHER_FOOT] = "other-foot",
  [HW_REMEDY_OTHER_PLATE] = "other-plate",
  [HW_REMEDY_FEED] = "feed",
  [HW_REMEDY_STABILISE] = "stabilise",
  [HW_REMEDY_LEVEL_FOOT] = "level-foot",
  [HW_REMEDY_HANDLE] = "handle",
  [HW_REMEDY_SLOW_DOWN] = "slow-down",
  [HW_REMEDY_CLEAN] = "clean",
  [HW_REMEDY_OIL] = "oil",
  [HW_REMEDY_TIGHTEN] = "tighten",
  [HW_REMEDY_SECURE_END] = "secure-end",
  [HW_REMEDY_SERVICE] = "service",
};

const char * const hw_clue_ids[HW_N_CLUES + 1] = {
  [HW_CLUE_NONE] = "none",
  [HW_CLUE_NEEDLE_HOURS] = "needle-hours",
  [HW_CLUE_NEEDLE_FIT] = "needle-fit",
  [HW_CLUE_LINT] = "lint",
  [HW_CLUE_OIL] = "oil",
  [HW_CLUE_SERVICE] = "service",
  [HW_CLUE_DIAL_HIGH] = "dial-high",
  [HW_CLUE_DIAL_LOW] = "dial-low",
  [HW_CLUE_THREAD] = "thread",
  [HW_CLUE_SNAP] = "snap",
  [HW_CLUE_BOBBIN_SNAP] = "bobbin-snap",
  [HW_CLUE_STITCH] = "stitch",
  [HW_CLUE_PRESSURE] = "pressure",
};

const char * const hw_looks_cloth_ids[HW_N_LOOKS_CLOTHS + 1] = {
  [HW_LOOKS_FLAT] = "flat",
  [HW_LOOKS_PUCKERED] = "puckered",
  [HW_LOOKS_WAVY] = "wavy",
  [HW_LOOKS_OPEN] = "open",
  [HW_LOOKS_SLIPPED] = "slipped",
  [HW_LOOKS_CREPT] = "crept",
  [HW_LOOKS_STEP] = "step",
};

const char * const hw_looks_row_ids[HW_N_LOOKS_ROWS + 1] = {
  [HW_LOOKS_STRAIGHT] = "straight",
  [HW_LOOKS_CHAIN] = "chain",
  [HW_LOOKS_OVERLOCK] = "overlock",
};

/* ---- what the room knows ---- */

gboolean
hw_read_clue (HwReader      *reader,
              const xmlNode *node,
              void          *into,
              GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "factor-clear", "factor-at-limit", "factor-most",
                                             NULL };
  static const HwField fields[] = {
    { "factor-clear", G_STRUCT_OFFSET (HwClueEntry, clear), 0.01, 1, TRUE },
    { "factor-at-limit", G_STRUCT_OFFSET (HwClueEntry, at_limit), 1, 100, TRUE },
    { "factor-most", G_STRUCT_OFFSET (HwClueEntry, most), 1, 100, TRUE },
    { NULL, 0, 0, 0, FALSE }
  };
  HwClueEntry *self = into;
  int clue = 0;

  if (!hw_reader_entry (reader, node, attributes, NULL, &self->entry, error)
      || !hw_xml_get_required_word (reader->xml, node, "id", hw_clue_ids, &clue, error)
      || !hw_reader_fields (reader, node, fields, self, error))
    return FALSE;
  self->clue = (HwClue) clue;
  if (self->most >= self->at_limit)
    return TRUE;
  hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                    _("“factor-most” is %g and “factor-at-limit” %g; the most cannot be less"), self->most,
                    self->at_limit);
  return FALSE;
}

/* ---- looks ---- */

static gboolean
read_looks_row (HwReader      *reader,
                const xmlNode *node,
                const char    *attr,
                const char    *letters,
                char         **row,
                GError       **error)
{
  g_autofree char *quoted = NULL;
  gsize length;

  *row = hw_xml_dup_required (reader->xml, node, attr, error);
  if (*row == NULL)
    return FALSE;
  length = strlen (*row);
  if (length > 0 && length <= HW_LOOKS_MOST && strspn (*row, letters) == length)
    return TRUE;
  quoted = hw_xml_quote (*row);
  hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                    _("“%s” holds “%s”; it may hold 1 to %d of the letters %s"), attr, quoted, HW_LOOKS_MOST, letters);
  return FALSE;
}

static gboolean
read_looks (HwReader      *reader,
            const xmlNode *fault,
            HwLooks       *self,
            GError       **error)
{
  static const char * const attributes[] = { "cloth", "row", "top", "section", "underneath", NULL };
  static const char * const children[] = { NULL };
  const xmlNode *node = hw_xml_first (fault, "looks");
  int cloth = 0;
  int row = 0;

  if (node == NULL)
    return TRUE;
  if (hw_xml_next (node, "looks") != NULL)
    {
      hw_xml_set_error (reader->xml, hw_xml_next (node, "looks"), error, HW_XML_ERROR_INVALID,
                        _("there is already a <looks>, at line %d; take one of them out"), hw_xml_line (node));
      return FALSE;
    }
  if (!hw_xml_check_attributes (reader->xml, node, attributes, error)
      || !hw_reader_children (reader, node, children, error)
      || !hw_xml_get_required_word (reader->xml, node, "cloth", hw_looks_cloth_ids, &cloth, error)
      || !hw_xml_get_word (reader->xml, node, "row", hw_looks_row_ids, &row, error)
      || !read_looks_row (reader, node, "top", HW_LOOKS_SEEN, &self->top, error)
      || !read_looks_row (reader, node, "section", HW_LOOKS_SECTION, &self->section, error)
      || !read_looks_row (reader, node, "underneath", HW_LOOKS_SEEN, &self->underneath, error))
    return FALSE;
  self->cloth = (HwLooksCloth) cloth;
  self->row = (HwLooksRow) row;
  if (strlen (self->top) == strlen (self->section) && strlen (self->top) == strlen (self->underneath))
    return TRUE;
  hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                    _("“top”, “section” and “underneath” must be of one length, a letter for each hole"));
  return FALSE;
}

/* ---- causes ---- */

/* The cause's own source, or the fault's. */
static gboolean
read_cause_source (HwReader        *reader,
                   const xmlNode   *node,
                   const HwSource **source,
                   GError         **error)
{
  g_autofree char *own = hw_xml_dup_attr (node, "source");

  return hw_reader_source (reader, own != NULL ? node : node->parent, source, error);
}

static gboolean
check_id (HwReader      *reader,
          const xmlNode *node,
          const HwFault *fault,
          const char    *id,
          GError       **error)
{
  for (gsize i = 0; i + 1 < fault->n_causes; i++)
    if (g_strcmp0 (fault->causes[i].id, id) == 0)
      {
        hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                          _("there is already a cause “%s”; give this one another id"), id);
        return FALSE;
      }
  return hw_reader_required (reader, node, "id", error);
}

static gboolean
read_cause (HwReader      *reader,
            const xmlNode *node,
            HwFault       *fault,
            GError       **error)
{
  static const char * const attributes[] = { "id", "name", "weight", "minutes", "remedy", "clue", "care",
                                             "source", NULL };
  static const char * const children[] = { "check", "do", NULL };
  static const HwField fields[] = {
    { "weight", G_STRUCT_OFFSET (HwCause, weight), 0.1, WEIGHTS_SUM, TRUE },
    { "minutes", G_STRUCT_OFFSET (HwCause, minutes), 0.1, 600, TRUE },
    { NULL, 0, 0, 0, FALSE }
  };
  HwCause *self = &fault->causes[fault->n_causes++];
  int remedy = 0;
  int clue = HW_CLUE_NONE;

  self->id = hw_xml_dup_required (reader->xml, node, "id", error);
  if (self->id == NULL
      || !hw_xml_check_attributes (reader->xml, node, attributes, error)
      || !hw_reader_children (reader, node, children, error)
      || !check_id (reader, node, fault, self->id, error)
      || !hw_reader_title (reader, node, "cause", &self->name, error)
      || !hw_reader_fields (reader, node, fields, self, error)
      || !hw_xml_get_required_word (reader->xml, node, "remedy", hw_remedy_ids, &remedy, error)
      || !hw_xml_get_word (reader->xml, node, "clue", hw_clue_ids, &clue, error)
      || !hw_reader_reference (reader, node, "care", HW_TABLE_CARE, &self->care, error)
      || !hw_reader_sentence (reader, node, "check", &self->check, error)
      || !hw_reader_sentence (reader, node, "do", &self->action, error)
      || !read_cause_source (reader, node, &self->source, error))
    return FALSE;
  self->remedy = (HwRemedy) remedy;
  self->clue = (HwClue) clue;
  return TRUE;
}

static gboolean
check_weights (HwReader      *reader,
               const xmlNode *node,
               const HwFault *self,
               GError       **error)
{
  double sum = 0;

  for (gsize i = 0; i < self->n_causes; i++)
    {
      sum += self->causes[i].weight;
      if (i > 0 && self->causes[i].weight > self->causes[i - 1].weight)
        {
          hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                            _("the cause “%s” weighs more than the one before it; put the likeliest first"),
                            self->causes[i].id);
          return FALSE;
        }
    }
  if (fabs (sum - WEIGHTS_SUM) < 1e-6)
    return TRUE;
  hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                    _("the weights of the causes add up to %g; they must add up to %d"), sum, WEIGHTS_SUM);
  return FALSE;
}

gboolean
hw_read_fault (HwReader      *reader,
               const xmlNode *node,
               void          *into,
               GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "machines", NULL };
  static const char * const children[] = { "note", "sign", "looks", "caution", "cause", NULL };
  HwFault *self = into;
  gsize n = 0;

  for (const xmlNode *child = hw_xml_first (node, "cause"); child != NULL; child = hw_xml_next (child, "cause"))
    n++;
  self->causes = g_new0 (HwCause, n);
  if (!hw_reader_entry (reader, node, attributes, children, &self->entry, error)
      || !hw_reader_required (reader, node, "machines", error)
      || !hw_reader_mask (reader, node, "machines", hw_machine_kind_ids, &self->machines, error)
      || !hw_reader_sentence (reader, node, "sign", &self->sign, error)
      || !read_looks (reader, node, &self->looks, error)
      || !hw_reader_sentences (reader, node, "caution", &self->cautions, error))
    return FALSE;
  for (const xmlNode *child = hw_xml_first (node, "cause"); child != NULL; child = hw_xml_next (child, "cause"))
    if (!read_cause (reader, child, self, error))
      return FALSE;
  return check_weights (reader, node, self, error);
}

void
hw_clear_fault (void *entry)
{
  HwFault *self = entry;

  hw_clear_entry (&self->entry);
  g_free (self->sign);
  g_free (self->looks.top);
  g_free (self->looks.section);
  g_free (self->looks.underneath);
  g_strfreev (self->cautions);
  for (gsize i = 0; i < self->n_causes; i++)
    {
      HwCause *cause = &self->causes[i];
      g_free (cause->id);
      g_free (cause->name);
      g_free (cause->check);
      g_free (cause->action);
    }
  g_free (self->causes);
}

static gboolean
read_see (HwReader      *reader,
          const xmlNode *node,
          HwTerm        *self,
          GError       **error)
{
  g_auto (GStrv) ids = hw_xml_dup_words (node, "see");

  self->see = g_new0 (int, MAX (g_strv_length (ids), 1));
  for (char **id = ids; *id != NULL; id++)
    {
      int index = hw_table_find (reader->book, HW_TABLE_TERM, *id);
      g_autofree char *quoted = NULL;

      if (index >= 0)
        {
          self->see[self->n_see++] = index;
          continue;
        }
      quoted = hw_xml_quote (*id);
      g_set_error (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_UNKNOWN,
                   _("%s:%d: “see” names “%s”, and no <term> has that id; add the entry or name one that there is"),
                   hw_xml_name (reader->xml), hw_xml_line (node), quoted);
      return FALSE;
    }
  return TRUE;
}

gboolean
hw_read_term (HwReader      *reader,
              const xmlNode *node,
              void          *into,
              GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "see", NULL };
  HwTerm *self = into;

  if (!hw_reader_entry (reader, node, attributes, NULL, &self->entry, error)
      || !read_see (reader, node, self, error))
    return FALSE;
  if (self->entry.note != NULL)
    return TRUE;
  hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID, _("there is no <note>; say what the word means"));
  return FALSE;
}

void
hw_clear_term (void *entry)
{
  HwTerm *self = entry;

  hw_clear_entry (&self->entry);
  g_free (self->see);
}
