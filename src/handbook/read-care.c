/* read-care.c - care tasks, how long a needle lasts, what a change costs
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-handbook"

#include "config.h"

#include "handbook/handbook-private.h"

#include <glib/gi18n.h>
#include <math.h>

static const char * const clocks[] = { "running", "at-machine", "months", "sewing-day", NULL };
static const char * const nothing[] = { NULL };

gboolean
hw_read_care (HwReader      *reader,
              const xmlNode *node,
              void          *into,
              GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "machines", "clock", "limit", "or-months", "lint",
                                             "only-by-manual", "minutes", NULL };
  static const char * const children[] = { "note", "step", "caution", NULL };
  static const HwField fields[] = {
    { "limit", G_STRUCT_OFFSET (HwCareTask, limit), 0.1, 10000, TRUE },
    { "or-months", G_STRUCT_OFFSET (HwCareTask, or_months), 0, 240, FALSE },
    { "minutes", G_STRUCT_OFFSET (HwCareTask, minutes), 0, 600, TRUE },
    { NULL, 0, 0, 0, FALSE }
  };
  HwCareTask *self = into;
  int clock = 0;

  if (!hw_reader_entry (reader, node, attributes, children, &self->entry, error)
      || !hw_reader_required (reader, node, "machines", error)
      || !hw_reader_mask (reader, node, "machines", hw_machine_kind_ids, &self->machines, error)
      || !hw_xml_get_required_word (reader->xml, node, "clock", clocks, &clock, error)
      || !hw_reader_fields (reader, node, fields, self, error)
      || !hw_reader_flag (reader, node, "lint", &self->counts_lint, error)
      || !hw_reader_flag (reader, node, "only-by-manual", &self->only_by_manual, error)
      || !hw_reader_sentences (reader, node, "step", &self->steps, error)
      || !hw_reader_sentences (reader, node, "caution", &self->cautions, error))
    return FALSE;
  self->clock = (HwClock) clock;
  if (*self->steps != NULL)
    return TRUE;
  hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                    _("there is no <step>; say what is to be done"));
  return FALSE;
}

gboolean
hw_read_closing (HwReader      *reader,
                 const xmlNode *node,
                 void          *into,
                 GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "machines", "when", NULL };
  static const char * const whens[] = { "always", "lint", "needle", NULL };
  HwClosing *self = into;
  int when = 0;

  if (!hw_reader_entry (reader, node, attributes, NULL, &self->entry, error)
      || !hw_reader_required (reader, node, "machines", error)
      || !hw_reader_mask (reader, node, "machines", hw_machine_kind_ids, &self->machines, error)
      || !hw_xml_get_required_word (reader->xml, node, "when", whens, &when, error))
    return FALSE;
  self->when = (HwClosingWhen) when;
  return TRUE;
}

void
hw_clear_care (void *entry)
{
  HwCareTask *self = entry;

  hw_clear_entry (&self->entry);
  g_strfreev (self->steps);
  g_strfreev (self->cautions);
}

gboolean
hw_read_needle_life (HwReader      *reader,
                     const xmlNode *node,
                     void          *book,
                     GError       **error)
{
  static const char * const attributes[] = { "source", "at-machine", "running", NULL };
  static const HwField fields[] = {
    { "at-machine", G_STRUCT_OFFSET (HwNeedleLife, at_machine_hours), 0.1, 1000, TRUE },
    { "running", G_STRUCT_OFFSET (HwNeedleLife, running_hours), 0.1, 1000, TRUE },
    { NULL, 0, 0, 0, FALSE }
  };
  HwNeedleLife *self = &((HwHandbook *) book)->needle_life;

  return hw_xml_check_attributes (reader->xml, node, attributes, error)
         && hw_reader_children (reader, node, nothing, error)
         && hw_reader_fields (reader, node, fields, self, error)
         && hw_reader_source (reader, node, &self->source, error);
}

gboolean
hw_read_hours (HwReader      *reader,
               const xmlNode *node,
               void          *book,
               GError       **error)
{
  static const char * const attributes[] = { "source", "running-share", NULL };
  HwHandbook *self = book;

  return hw_xml_check_attributes (reader->xml, node, attributes, error)
         && hw_reader_children (reader, node, nothing, error)
         && hw_xml_get_required_number (reader->xml, node, "running-share", 0.01, 1, &self->running_share, error)
         && hw_reader_source (reader, node, &self->running_source, error);
}

#define CHANGE(attr, member) { attr, G_STRUCT_OFFSET (HwChangeCosts, member), 0, 120, TRUE }

gboolean
hw_read_changes (HwReader      *reader,
                 const xmlNode *node,
                 void          *book,
                 GError       **error)
{
  static const char * const attributes[] = { "source", "walk", "needle", "thread", "bobbin", "foot", "plate", "stitch",
                                             "soft", "overlock-thread", NULL };
  static const HwField fields[] = {
    CHANGE ("walk", walk), CHANGE ("needle", needle), CHANGE ("thread", thread), CHANGE ("bobbin", bobbin),
    CHANGE ("foot", foot), CHANGE ("plate", plate), CHANGE ("stitch", stitch), CHANGE ("soft", soft),
    CHANGE ("overlock-thread", overlock_thread),
    { NULL, 0, 0, 0, FALSE }
  };
  HwChangeCosts *self = &((HwHandbook *) book)->changes;

  return hw_xml_check_attributes (reader->xml, node, attributes, error)
         && hw_reader_children (reader, node, nothing, error)
         && hw_reader_fields (reader, node, fields, self, error)
         && hw_reader_source (reader, node, &self->source, error);
}
