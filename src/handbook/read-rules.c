/* read-rules.c - pairing rules: which rows there are, what they ask, what they answer
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-handbook"

#include "config.h"

#include "handbook/handbook-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

const char * const hw_rule_subject_ids[] = {
  "thread", "bobbin", "point", "point-for-work", "cloth-size", "stack-size", "thread-size", "twin", "length", "width",
  "foot", "plate", "pressure", "ends", "allowance", "differential", "cutting-width", "overlock-dial", NULL
};

const char * const hw_line_from_ids[HW_N_LINES_FROM + 1] = { "edge", "fold", "seam", "centre-front", NULL };
const char * const hw_ends_ids[] = { "none", "back-tack", "knot", "tails", "lock", "chain-off", NULL };

/* What a row of each subject answers. */
typedef enum { ANSWERS_BAND, ANSWERS_LOWER_BOUND, ANSWERS_ENTRY, ANSWERS_ENDS } AnswerKind;
typedef struct
{
  AnswerKind kind;
  HwTableId  table;                      /* of an entry */
  double     low, high;                  /* of a number: what can be meant at all */
} Answer;

static const Answer answers[HW_N_RULE_SUBJECTS] = {
  [HW_RULES_THREAD]       = { ANSWERS_BAND, 0, 1, 1000 },
  [HW_RULES_BOBBIN]       = { ANSWERS_BAND, 0, 1, 1000 },
  [HW_RULES_POINT]        = { ANSWERS_ENTRY, HW_TABLE_POINT, 0, 0 },
  [HW_RULES_POINT_WORK]   = { ANSWERS_ENTRY, HW_TABLE_POINT, 0, 0 },
  [HW_RULES_CLOTH_SIZE]   = { ANSWERS_BAND, 0, 30, 300 },
  [HW_RULES_STACK_SIZE]   = { ANSWERS_LOWER_BOUND, 0, 30, 300 },
  [HW_RULES_THREAD_SIZE]  = { ANSWERS_BAND, 0, 30, 300 },
  [HW_RULES_TWIN]         = { ANSWERS_BAND, 0, 0.5, 12 },
  [HW_RULES_LENGTH]       = { ANSWERS_BAND, 0, 0, 20 },
  [HW_RULES_WIDTH]        = { ANSWERS_BAND, 0, 0, 20 },
  [HW_RULES_FOOT]         = { ANSWERS_ENTRY, HW_TABLE_FOOT, 0, 0 },
  [HW_RULES_PLATE]        = { ANSWERS_ENTRY, HW_TABLE_PLATE, 0, 0 },
  [HW_RULES_PRESSURE]     = { ANSWERS_BAND, 0, -5, 5 },
  [HW_RULES_ENDS]         = { ANSWERS_ENDS, 0, 0, 0 },
  [HW_RULES_ALLOWANCE]    = { ANSWERS_BAND, 0, 0, 200 },
  [HW_RULES_DIFFERENTIAL] = { ANSWERS_BAND, 0, 0.2, 4 },
  [HW_RULES_CUTTING]      = { ANSWERS_BAND, 0, 0, 20 },
  [HW_RULES_LOOPER_DIAL]  = { ANSWERS_BAND, 0, 0, 10 },
};

#define CONDITIONS "mass", "thickness", "stretch", "tex", "plies", "constructions", "families", "traits", "without", \
                   "purposes", "seams", "stitches", "machines", "threads", "all", "source"

static const char * const band_attributes[] = { CONDITIONS, "low", "prefer", "high", NULL };
static const char * const line_attributes[] = { CONDITIONS, "low", "prefer", "high", "from", NULL };
static const char * const choice_attributes[] = { CONDITIONS, "choice", "accept", "rank", NULL };

static gboolean
read_ranges (HwReader      *reader,
             const xmlNode *node,
             HwRule        *rule,
             GError       **error)
{
  const struct { const char *attr; HwRange *range; } ranges[] = {
    { "mass", &rule->mass }, { "thickness", &rule->thickness }, { "stretch", &rule->stretch },
    { "tex", &rule->tex }, { "plies", &rule->plies },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (ranges); i++)
    {
      *ranges[i].range = (HwRange) { -INFINITY, INFINITY };
      if (!hw_reader_range (reader, node, ranges[i].attr, TRUE, ranges[i].range, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
read_sets (HwReader      *reader,
           const xmlNode *node,
           HwRule        *rule,
           GError       **error)
{
  return hw_reader_set (reader, node, "constructions", HW_TABLE_CONSTRUCTION, &rule->constructions, error)
         && hw_reader_set (reader, node, "traits", HW_TABLE_TRAIT, &rule->traits, error)
         && hw_reader_set (reader, node, "without", HW_TABLE_TRAIT, &rule->without, error)
         && hw_reader_set (reader, node, "purposes", HW_TABLE_PURPOSE, &rule->purposes, error)
         && hw_reader_set (reader, node, "seams", HW_TABLE_SEAM, &rule->seams, error)
         && hw_reader_set (reader, node, "stitches", HW_TABLE_STITCH, &rule->stitches, error)
         && hw_reader_mask (reader, node, "families", hw_family_ids, &rule->families, error)
         && hw_reader_mask (reader, node, "machines", hw_machine_kind_ids, &rule->machines, error)
         && hw_reader_mask (reader, node, "threads", hw_thread_form_ids, &rule->forms, error)
         && hw_reader_flag (reader, node, "all", &rule->all, error);
}

static gboolean
read_band (HwReader      *reader,
           const xmlNode *node,
           const Answer  *answer,
           HwBand        *band,
           GError       **error)
{
  gboolean whole = answer->kind == ANSWERS_BAND;
  const HwField fields[] = {
    { "low", G_STRUCT_OFFSET (HwBand, low), answer->low, answer->high, TRUE },
    { "prefer", G_STRUCT_OFFSET (HwBand, prefer), answer->low, answer->high, whole },
    { "high", G_STRUCT_OFFSET (HwBand, high), answer->low, answer->high, whole },
    { NULL, 0, 0, 0, FALSE }
  };
  HwBand checked;

  if (!hw_reader_fields (reader, node, fields, band, error))
    return FALSE;
  checked = *band;
  if (isnan (checked.prefer))
    checked.prefer = checked.low;
  if (isnan (checked.high))
    checked.high = checked.prefer;
  return hw_reader_band (reader, node, &checked, "low, prefer, high", error);
}

static gboolean
read_ends (HwReader      *reader,
           const xmlNode *node,
           HwRule        *rule,
           GError       **error)
{
  guint accept = 0;

  if (!hw_xml_get_required_word (reader->xml, node, "choice", hw_ends_ids, &rule->choice, error)
      || !hw_reader_mask (reader, node, "accept", hw_ends_ids, &accept, error))
    return FALSE;
  rule->accept = accept;
  return TRUE;
}

static gboolean
read_choice (HwReader      *reader,
             const xmlNode *node,
             const Answer  *answer,
             HwRule        *rule,
             GError       **error)
{
  gboolean done = answer->kind == ANSWERS_ENDS
    ? read_ends (reader, node, rule, error)
    : hw_reader_required (reader, node, "choice", error)
      && hw_reader_reference (reader, node, "choice", answer->table, &rule->choice, error)
      && hw_reader_set (reader, node, "accept", answer->table, &rule->accept, error);

  if (!done)
    return FALSE;
  rule->accept |= HW_SET (rule->choice);
  return hw_xml_get_int (reader->xml, node, "rank", 0, 1000, &rule->rank, error);
}

static gboolean
read_answer (HwReader      *reader,
             const xmlNode *node,
             HwRule        *rule,
             GError       **error)
{
  const Answer *answer = &answers[rule->subject];
  gboolean chooses = answer->kind == ANSWERS_ENTRY || answer->kind == ANSWERS_ENDS;
  gboolean is_line = rule->subject == HW_RULES_ALLOWANCE;
  int from = HW_FROM_EDGE;

  rule->choice = -1;
  rule->band = (HwBand) { NAN, NAN, NAN };
  if (!hw_xml_check_attributes (reader->xml, node,
                                chooses ? choice_attributes : is_line ? line_attributes : band_attributes, error)
      || (is_line && !hw_xml_get_word (reader->xml, node, "from", hw_line_from_ids, &from, error)))
    return FALSE;
  rule->from = (HwLineFrom) from;
  return chooses ? read_choice (reader, node, answer, rule, error)
                 : read_band (reader, node, answer, &rule->band, error);
}

/* A place that nothing fills would be shown as it is. */
static gboolean
check_places (HwReader      *reader,
              const xmlNode *node,
              const char    *text,
              GError       **error)
{
  static const char * const places[] = { "value", "low", "high", "mass", "thickness", "tex", "plies", NULL };

  for (const char *open = strchr (text, '{'); open != NULL; open = strchr (open + 1, '{'))
    {
      const char *close = strchr (open, '}');
      g_autofree char *name = g_strndup (open + 1, close != NULL ? (gsize) (close - open - 1) : strlen (open + 1));
      g_autofree char *quoted = NULL;
      if (close != NULL && g_strv_contains (places, name))
        continue;
      quoted = hw_xml_quote (name);
      hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                        _("the sentence may hold {value}, {low}, {high}, {mass}, {thickness}, {tex} and {plies}; it "
                          "holds “{%s”"), quoted);
      return FALSE;
    }
  return TRUE;
}

static gboolean
read_row_source (HwReader        *reader,
                 const xmlNode   *node,
                 const HwSource **source,
                 GError         **error)
{
  g_autofree char *own = hw_xml_dup_attr (node, "source");
  g_autofree char *of_table = hw_xml_dup_attr (node->parent, "source");

  return hw_reader_source (reader, own == NULL && of_table != NULL ? node->parent : node, source, error);
}

static gboolean
read_row (HwReader      *reader,
          const xmlNode *node,
          HwRule        *rule,
          GError       **error)
{
  static const char * const nothing[] = { NULL };

  rule->line = hw_xml_line (node);
  if (!hw_reader_children (reader, node, nothing, error)
      || !read_answer (reader, node, rule, error)
      || !read_ranges (reader, node, rule, error)
      || !read_sets (reader, node, rule, error)
      || !hw_reader_text (reader, node, &rule->text, error)
      || !check_places (reader, node, rule->text, error))
    return FALSE;
  hw_reader_translate (reader, NULL, &rule->text);
  return read_row_source (reader, node, &rule->source, error);
}

gboolean
hw_read_rules (HwReader      *reader,
               const xmlNode *node,
               HwRuleSubject  subject,
               GError       **error)
{
  static const char * const attributes[] = { "for", "source", NULL };
  static const char * const children[] = { "row", NULL };
  HwHandbook *book = reader->book;
  gsize *n = &book->n_rules[subject];
  gsize before = *n;

  if (!hw_xml_check_attributes (reader->xml, node, attributes, error)
      || !hw_reader_children (reader, node, children, error))
    return FALSE;
  book->rules[subject] = g_renew (HwRule, book->rules[subject], before + hw_xml_count (node, "row"));
  for (const xmlNode *row = hw_xml_first (node, "row"); row != NULL; row = hw_xml_next (row, "row"))
    {
      HwRule *rule = &book->rules[subject][(*n)++];
      *rule = (HwRule) { .subject = subject };
      if (!read_row (reader, row, rule, error))
        {
          g_autofree char *place = g_strdup_printf (_("table “%s”, row %d"), hw_rule_subject_ids[subject],
                                                    (int) (*n - before));
          hw_reader_name (error, place);
          return FALSE;
        }
    }
  return TRUE;
}

void
hw_clear_rule (HwRule *rule)
{
  g_free (rule->text);
}
