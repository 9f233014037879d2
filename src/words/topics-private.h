/* topics-private.h - how the facts of a topic are told
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "words/topics.h"
#include "words/words-private.h"

G_BEGIN_DECLS

typedef struct
{
  const HwHandbook *handbook;
  GArray           *facts;
} HwTeller;

/* @value is taken over; NULL or "" tells a dash. @name is translated already. */
void  hw_tell        (HwTeller *self, const char *name, char *value);
void  hw_tell_linked (HwTeller *self, const char *name, char *value, char *link);     /* takes both over */
void  hw_tell_line   (HwTeller *self, const char *name_or_null, char *value, const HwSource *source);
/* The name of the entry at @index of @table ("fabric", …) with a link to it; -1 tells nothing. */
void  hw_tell_entry  (HwTeller *self, const char *name, const char *table, int index);
void  hw_tell_set    (HwTeller *self, const char *name, const char *table, HwSet set);
void  hw_tell_number (HwTeller *self, const char *name, double value, int decimals, const char *unit);
void  hw_tell_minutes (HwTeller *self, const char *name, double minutes);
void  hw_tell_band   (HwTeller *self, const char *name, const HwBand *band, const char *unit);
void  hw_tell_range  (HwTeller *self, const char *name, const HwRange *range, const char *unit);
void  hw_tell_machines (HwTeller *self, guint mask);
void  hw_tell_term   (HwTeller *self, int term);         /* -1 tells nothing */

const char *hw_topic_subject (HwRuleSubject subject);    /* "Needle point" */
const char *hw_topic_family  (guint family);             /* "woven" */
const char *hw_topic_machine (guint kind);               /* "overlocker" */
const char *hw_topic_form    (guint form);               /* of thread: "core-spun" */
const char *hw_topic_term    (int term);                 /* "Thicker layers" */
char       *hw_topic_row_name (const HwRule *rule);      /* its sentence with the figures that it has itself */

void  hw_tell_fabric       (HwTeller *self, const HwFabric *fabric);
void  hw_tell_construction (HwTeller *self, const HwConstruction *construction);
void  hw_tell_trait        (HwTeller *self, const HwTrait *trait);
void  hw_tell_system       (HwTeller *self, const HwNeedleSystem *system);
void  hw_tell_point        (HwTeller *self, const HwPoint *point);
void  hw_tell_thread       (HwTeller *self, const HwThreadEntry *thread);
void  hw_tell_stitch       (HwTeller *self, const HwStitch *stitch);
void  hw_tell_seam         (HwTeller *self, const HwSeam *seam);
void  hw_tell_purpose      (HwTeller *self, const HwPurpose *purpose);
void  hw_tell_foot         (HwTeller *self, const HwFoot *foot, const char *table);
void  hw_tell_care         (HwTeller *self, const HwCareTask *care);
void  hw_tell_closing      (HwTeller *self, const HwClosing *closing);
void  hw_tell_sizes        (HwTeller *self, const HwSizes *sizes);
void  hw_tell_garment      (HwTeller *self, const HwGarment *garment);
void  hw_tell_fault        (HwTeller *self, const HwFault *fault);
void  hw_tell_clue         (HwTeller *self, const HwClueEntry *clue);
void  hw_tell_word         (HwTeller *self, const HwTerm *term);
void  hw_tell_row          (HwTeller *self, const HwRule *rule);
void  hw_tell_tension      (HwTeller *self, int term);
void  hw_tell_figures      (HwTeller *self, const char *id);
void  hw_tell_source       (HwTeller *self, const HwSource *source);

G_END_DECLS
