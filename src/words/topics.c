/* topics.c - whatever the handbook can be asked about
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/topics-private.h"

#include <glib/gi18n.h>
#include <string.h>

typedef struct
{
  const char *table;
  const char *kind, *kinds;
  gsize       array, n, size;            /* offsets in HwHandbook; the size of an entry */
} Table;

#define TABLE(element, kind, kinds, member, type) \
  { element, kind, kinds, G_STRUCT_OFFSET (HwHandbook, member), G_STRUCT_OFFSET (HwHandbook, n_##member), \
    sizeof (type) }

static const Table tables[] = {
  TABLE ("fabric", N_("Fabric"), N_("Fabrics"), fabrics, HwFabric),
  TABLE ("construction", N_("Construction"), N_("Constructions"), constructions, HwConstruction),
  TABLE ("trait", N_("Trait"), N_("Traits"), traits, HwTrait),
  TABLE ("system", N_("Needle system"), N_("Needle systems"), systems, HwNeedleSystem),
  TABLE ("point", N_("Needle point"), N_("Needle points"), points, HwPoint),
  TABLE ("thread", N_("Thread"), N_("Threads"), threads, HwThreadEntry),
  TABLE ("stitch", N_("Stitch"), N_("Stitches"), stitches, HwStitch),
  TABLE ("seam", N_("Seam"), N_("Seams"), seams, HwSeam),
  TABLE ("purpose", N_("Purpose"), N_("Purposes"), purposes, HwPurpose),
  TABLE ("foot", N_("Foot"), N_("Feet"), feet, HwFoot),
  TABLE ("plate", N_("Plate"), N_("Plates"), plates, HwPlate),
  TABLE ("care", N_("Care"), N_("Care"), care, HwCareTask),
  TABLE ("closing", N_("After sewing"), N_("After sewing"), closings, HwClosing),
  TABLE ("sizes", N_("Table of sizes"), N_("Tables of sizes"), sizes, HwSizes),
  TABLE ("garment", N_("Garment"), N_("Garments"), garments, HwGarment),
  TABLE ("fault", N_("Stitch fault"), N_("Stitch faults"), faults, HwFault),
  TABLE ("clue", N_("Clue of a fault"), N_("Clues of faults"), clues, HwClueEntry),
  TABLE ("term", N_("Term"), N_("Terms"), terms, HwTerm),
};

#undef TABLE

static const struct { const char *id; const char *name; } figures[] = {
  { "needle-life", N_("How long a needle lasts") },
  { "hours", N_("Hours sewn in an hour at the machine") },
  { "changes", N_("What a change of set-up takes") },
  { "dial", N_("What the starting dial is reckoned from") },
};

static void
free_topic (gpointer data)
{
  HwTopic *self = data;

  g_free (self->id);
  g_free (self->name);
  g_free (self);
}

static HwTopic *
add_topic (GPtrArray      *topics,
           const char     *table,
           const char     *id,
           const char     *kind,
           const char     *kinds,
           const HwSource *source)
{
  HwTopic *self = g_new0 (HwTopic, 1);

  self->table = table;
  self->id = g_strdup (id);
  self->kind = _(kind);
  self->kinds = _(kinds);
  self->source = source;
  g_ptr_array_add (topics, self);
  return self;
}

static void
add_table (GPtrArray        *topics,
           const HwHandbook *handbook,
           const Table      *table)
{
  const char *array = G_STRUCT_MEMBER (char *, handbook, table->array);
  gsize       n = G_STRUCT_MEMBER (gsize, handbook, table->n);

  for (gsize i = 0; i < n; i++)
    {
      /* Every entry's struct begins with its HwEntry. */
      const HwEntry *entry = (const HwEntry *) (const void *) (array + i * table->size);
      HwTopic       *topic = add_topic (topics, table->table, entry->id, table->kind, table->kinds, entry->source);

      topic->name = g_strdup (entry->name);
      topic->note = entry->note;
      topic->whole = entry;
      topic->index = (int) i;
    }
}

static void
add_rows (GPtrArray        *topics,
          const HwHandbook *handbook)
{
  for (int subject = 0; subject < HW_N_RULE_SUBJECTS; subject++)
    for (gsize i = 0; i < handbook->n_rules[subject]; i++)
      {
        const HwRule    *rule = &handbook->rules[subject][i];
        g_autofree char *id = g_strdup_printf ("%s-%" G_GSIZE_FORMAT, hw_rule_subject_ids[subject], i + 1);
        HwTopic         *topic = add_topic (topics, "row", id, N_("Pairing"), N_("Pairing"), rule->source);

        topic->name = hw_topic_row_name (rule);
        topic->whole = rule;
        topic->index = (int) i;
      }
}

static const HwSource *
figures_source (const HwHandbook *handbook,
                const char       *id)
{
  if (g_str_equal (id, "needle-life"))
    return handbook->needle_life.source;
  if (g_str_equal (id, "hours"))
    return handbook->running_source;
  return g_str_equal (id, "changes") ? handbook->changes.source : handbook->tension_source;
}

/**
 * hw_topics_list:
 *
 * Returns: (transfer full) (element-type HwTopic): all of them
 */
GPtrArray *
hw_topics_list (const HwHandbook *handbook)
{
  GPtrArray *topics = g_ptr_array_new_with_free_func (free_topic);

  g_return_val_if_fail (handbook != NULL, topics);

  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    add_table (topics, handbook, &tables[i]);
  add_rows (topics, handbook);
  for (int i = 0; i < HW_N_TENSION_TERMS; i++)
    {
      HwTopic *topic = add_topic (topics, "tension", hw_tension_term_ids[i], N_("Starting tension"),
                                  N_("Starting tension"), handbook->tension_source);

      topic->name = g_strdup (hw_topic_term (i));
      topic->index = i;
    }
  for (gsize i = 0; i < G_N_ELEMENTS (figures); i++)
    add_topic (topics, "figures", figures[i].id, N_("General figures"), N_("General figures"),
               figures_source (handbook, figures[i].id))->name = g_strdup (_(figures[i].name));
  for (gsize i = 0; i < handbook->n_sources; i++)
    {
      HwTopic *topic = add_topic (topics, "source", handbook->sources[i].id, N_("Source"), N_("Sources"), NULL);

      topic->name = g_strdup (handbook->sources[i].title);
      topic->whole = &handbook->sources[i];
      topic->index = (int) i;
    }
  return topics;
}

const HwTopic *
hw_topics_find (const GPtrArray *topics,
                const char      *id)
{
  const char *slash = strchr (id, '/');
  gsize       length = slash != NULL ? (gsize) (slash - id) : 0;

  for (guint i = 0; i < topics->len; i++)
    {
      const HwTopic *topic = topics->pdata[i];

      if (slash != NULL && (strlen (topic->table) != length || strncmp (topic->table, id, length) != 0))
        continue;
      if (g_str_equal (topic->id, slash != NULL ? slash + 1 : id))
        return topic;
    }
  return NULL;
}

char *
hw_topic_path (const HwTopic *self)
{
  return g_strdup_printf ("%s/%s", self->table, self->id);
}

/* ---- what it says ---- */

static void
clear_fact (gpointer data)
{
  HwFact *fact = data;

  g_free (fact->name);
  g_free (fact->value);
  g_free (fact->link);
}

static void
tell_whole (HwTeller      *teller,
            const HwTopic *topic)
{
  const char *table = topic->table;

  if (g_str_equal (table, "fabric"))
    hw_tell_fabric (teller, topic->whole);
  else if (g_str_equal (table, "construction"))
    hw_tell_construction (teller, topic->whole);
  else if (g_str_equal (table, "trait"))
    hw_tell_trait (teller, topic->whole);
  else if (g_str_equal (table, "system"))
    hw_tell_system (teller, topic->whole);
  else if (g_str_equal (table, "point"))
    hw_tell_point (teller, topic->whole);
  else if (g_str_equal (table, "thread"))
    hw_tell_thread (teller, topic->whole);
  else if (g_str_equal (table, "stitch"))
    hw_tell_stitch (teller, topic->whole);
  else if (g_str_equal (table, "seam"))
    hw_tell_seam (teller, topic->whole);
  else if (g_str_equal (table, "purpose"))
    hw_tell_purpose (teller, topic->whole);
  else if (g_str_equal (table, "foot") || g_str_equal (table, "plate"))
    hw_tell_foot (teller, topic->whole, table);
  else if (g_str_equal (table, "care"))
    hw_tell_care (teller, topic->whole);
  else if (g_str_equal (table, "closing"))
    hw_tell_closing (teller, topic->whole);
  else if (g_str_equal (table, "sizes"))
    hw_tell_sizes (teller, topic->whole);
  else if (g_str_equal (table, "garment"))
    hw_tell_garment (teller, topic->whole);
  else if (g_str_equal (table, "fault"))
    hw_tell_fault (teller, topic->whole);
  else if (g_str_equal (table, "clue"))
    hw_tell_clue (teller, topic->whole);
  else if (g_str_equal (table, "term"))
    hw_tell_word (teller, topic->whole);
  else if (g_str_equal (table, "row"))
    hw_tell_row (teller, topic->whole);
  else if (g_str_equal (table, "tension"))
    hw_tell_tension (teller, topic->index);
  else if (g_str_equal (table, "figures"))
    hw_tell_figures (teller, topic->id);
  else
    hw_tell_source (teller, topic->whole);
}

/**
 * hw_topic_facts:
 *
 * Returns: (transfer full) (element-type HwFact): in the order in which they are read
 */
GArray *
hw_topic_facts (const HwHandbook *handbook,
                const HwTopic    *topic)
{
  HwTeller teller = { handbook, g_array_new (FALSE, FALSE, sizeof (HwFact)) };

  g_array_set_clear_func (teller.facts, clear_fact);
  tell_whole (&teller, topic);
  return teller.facts;
}

static void
note_mention (GHashTable    *mentions,
              char          *path,       /* (transfer full) */
              const HwTopic *by)
{
  GPtrArray *all = g_hash_table_lookup (mentions, path);

  if (all == NULL)
    {
      all = g_ptr_array_new ();
      g_hash_table_insert (mentions, g_strdup (path), all);
    }
  if (all->len == 0 || all->pdata[all->len - 1] != (gpointer) by)
    g_ptr_array_add (all, (gpointer) by);
  g_free (path);
}

/**
 * hw_topics_mentions:
 *
 * Returns: (transfer full) (element-type utf8 GPtrArray): path -> those that name it
 */
GHashTable *
hw_topics_mentions (const HwHandbook *handbook,
                    const GPtrArray  *topics)
{
  GHashTable *mentions = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_ptr_array_unref);

  for (guint i = 0; i < topics->len; i++)
    {
      const HwTopic     *topic = topics->pdata[i];
      g_autoptr (GArray) facts = hw_topic_facts (handbook, topic);

      if (topic->source != NULL)
        note_mention (mentions, g_strdup_printf ("source/%s", topic->source->id), topic);
      for (guint j = 0; j < facts->len; j++)
        {
          const HwFact *fact = &g_array_index (facts, HwFact, j);

          if (fact->link != NULL)
            note_mention (mentions, g_strdup (fact->link), topic);
          if (fact->source != NULL)
            note_mention (mentions, g_strdup_printf ("source/%s", fact->source->id), topic);
        }
    }
  return mentions;
}

/* ---- search ---- */

char *
hw_topic_text (const HwHandbook *handbook,
               const HwTopic    *topic)
{
  g_autoptr (GArray)  facts = hw_topic_facts (handbook, topic);
  g_autoptr (GString) text = g_string_new (topic->name);

  g_string_append_printf (text, "\n%s\n%s\n%s", topic->id, topic->kind, topic->note != NULL ? topic->note : "");
  if (topic->source != NULL)
    {
      g_autofree char *source = hw_words_source (topic->source);

      g_string_append_printf (text, "\n%s", source);
    }
  for (guint i = 0; i < facts->len; i++)
    {
      const HwFact *fact = &g_array_index (facts, HwFact, i);

      g_string_append_printf (text, "\n%s %s", fact->name != NULL ? fact->name : "", fact->value);
    }
  return g_utf8_casefold (text->str, -1);
}

gboolean
hw_topic_text_matches (const char *text,
                       const char *search)
{
  g_autofree char *folded = g_utf8_casefold (search, -1);
  g_auto (GStrv)   words = g_strsplit_set (folded, " \t", -1);

  for (char **word = words; *word != NULL; word++)
    if (strstr (text, *word) == NULL)
      return FALSE;
  return TRUE;
}
