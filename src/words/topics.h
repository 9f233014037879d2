/* topics.h - whatever the handbook can be asked about, and what it says of it
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A topic is an entry of any table, a row of the pairing, a term of the starting tension, one of the general figures
 * or a source. Its facts name other topics, so that command and window can lead from the one to the other.
 */

#pragma once
#include "handbook/handbook.h"

G_BEGIN_DECLS

typedef struct
{
  const char     *table;                 /* the element's name; "row", "tension" and "figures" beside the tables */
  char           *id;                    /* "denim"; of a row its table and place: "thread-3" */
  char           *name;                  /* in the person's language, like all that follows */
  const char     *kind;                  /* "Fabric" */
  const char     *kinds;                 /* "Fabrics" */
  const char     *note;                  /* NULL none */
  const HwSource *source;                /* NULL: is a source itself */
  gconstpointer   whole;                 /* the struct of its table; NULL for figures */
  int             index;                 /* in its table */
} HwTopic;

/* (element-type HwTopic): all of @handbook, table by table. They borrow from it. */
GPtrArray     *hw_topics_list (const HwHandbook *handbook);
/* "fabric/denim", or "denim": the first of the tables that has it. NULL when unknown; borrowed from @topics. */
const HwTopic *hw_topics_find (const GPtrArray *topics, const char *id);
char          *hw_topic_path  (const HwTopic *self);          /* (transfer full): "fabric/denim" */

typedef enum
{
  HW_FACT_FIGURE,                        /* a name and what it is */
  HW_FACT_LINE,                          /* a whole line: a step of care, a cause, a size of seam */
} HwFactKind;

typedef struct
{
  HwFactKind      kind;
  char           *name;                  /* NULL: one more of the fact before it */
  char           *value;
  char           *link;                  /* path of the topic it names; NULL none */
  const HwSource *source;                /* NULL: the topic's own */
} HwFact;

/* (element-type HwFact): what stands in @topic beside name, note and source. */
GArray        *hw_topic_facts (const HwHandbook *handbook, const HwTopic *topic);

/* Which topics name which: path -> GPtrArray of borrowed HwTopic. A source is named by what it stands behind. */
GHashTable    *hw_topics_mentions (const HwHandbook *handbook, const GPtrArray *topics);

/* Whether each word of @search stands somewhere in @text, which is case-folded. */
gboolean       hw_topic_text_matches (const char *text, const char *search);
/* (transfer full): all that @topic says, case-folded, to be searched. */
char          *hw_topic_text (const HwHandbook *handbook, const HwTopic *topic);

G_END_DECLS
