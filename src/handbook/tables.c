/* tables.c - the two passes over the handbook's files
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The files of an overlay come last in the first pass. An entry of theirs moves into the place of the handbook's entry
 * with its id, so that the second pass knows nothing of overlays, save that their rules come first.
 */

#define G_LOG_DOMAIN "hw-handbook"

#include "config.h"

#include "handbook/handbook-private.h"

#include <glib/gi18n.h>
#include <string.h>

#define LONGEST_ID 64
#define MOST_IN_A_SET 64                 /* bits of a HwSet */

#define TABLE(element, member, type, most, reader, clearer) \
  { element, G_STRUCT_OFFSET (HwHandbook, member), G_STRUCT_OFFSET (HwHandbook, n_##member), sizeof (type), most, \
    hw_read_##reader, hw_clear_##clearer }

const HwTable hw_tables[HW_N_TABLES] = {
  [HW_TABLE_SOURCE]       = TABLE ("source", sources, HwSource, 0, source, source),
  [HW_TABLE_CONSTRUCTION] = TABLE ("construction", constructions, HwConstruction, MOST_IN_A_SET, construction, entry),
  [HW_TABLE_TRAIT]        = TABLE ("trait", traits, HwTrait, MOST_IN_A_SET, trait, entry),
  [HW_TABLE_FABRIC]       = TABLE ("fabric", fabrics, HwFabric, 0, fabric, fabric),
  [HW_TABLE_SYSTEM]       = TABLE ("system", systems, HwNeedleSystem, MOST_IN_A_SET, system, system),
  [HW_TABLE_POINT]        = TABLE ("point", points, HwPoint, MOST_IN_A_SET, point, point),
  [HW_TABLE_THREAD]       = TABLE ("thread", threads, HwThreadEntry, 0, thread, thread),
  [HW_TABLE_STITCH]       = TABLE ("stitch", stitches, HwStitch, MOST_IN_A_SET, stitch, stitch),
  [HW_TABLE_SEAM]         = TABLE ("seam", seams, HwSeam, 0, seam, seam),
  [HW_TABLE_PURPOSE]      = TABLE ("purpose", purposes, HwPurpose, MOST_IN_A_SET, purpose, entry),
  [HW_TABLE_FOOT]         = TABLE ("foot", feet, HwFoot, MOST_IN_A_SET, foot, entry),
  [HW_TABLE_PLATE]        = TABLE ("plate", plates, HwPlate, MOST_IN_A_SET, plate, entry),
  [HW_TABLE_CARE]         = TABLE ("care", care, HwCareTask, 0, care, care),
  [HW_TABLE_CLOSING]      = TABLE ("closing", closings, HwClosing, 0, closing, entry),
  [HW_TABLE_SIZES]        = TABLE ("sizes", sizes, HwSizes, 0, sizes, sizes),
  [HW_TABLE_GARMENT]      = TABLE ("garment", garments, HwGarment, 0, garment, garment),
  [HW_TABLE_FAULT]        = TABLE ("fault", faults, HwFault, 0, fault, fault),
  [HW_TABLE_CLUE]         = TABLE ("clue", clues, HwClueEntry, 0, clue, entry),
  [HW_TABLE_TERM]         = TABLE ("term", terms, HwTerm, 0, term, term),
};

G_STATIC_ASSERT (HW_N_TABLES <= G_N_ELEMENTS (((HwHandbook *) NULL)->ids));

static const struct { const char *element; HwReadFunc read; } once_elements[HW_N_ONCE] = {
  [HW_ONCE_TENSION]     = { "tension", hw_read_tension },
  [HW_ONCE_NEEDLE_LIFE] = { "needle-life", hw_read_needle_life },
  [HW_ONCE_HOURS]       = { "hours", hw_read_hours },
  [HW_ONCE_CHANGES]     = { "changes", hw_read_changes },
};

char *
hw_table_array (const HwHandbook *book,
                HwTableId         id)
{
  return G_STRUCT_MEMBER (char *, book, hw_tables[id].array_offset);
}

gsize
hw_table_count (const HwHandbook *book,
                HwTableId         id)
{
  return G_STRUCT_MEMBER (gsize, book, hw_tables[id].count_offset);
}

static int
find_table (const xmlNode *node)
{
  for (int i = 0; i < HW_N_TABLES; i++)
    if (hw_xml_is (node, hw_tables[i].element))
      return i;
  return -1;
}

static int
find_once (const xmlNode *node)
{
  for (int i = 0; i < HW_N_ONCE; i++)
    if (hw_xml_is (node, once_elements[i].element))
      return i;
  return -1;
}

static void
report_duplicate (HwReader      *self,
                  const xmlNode *node,
                  const HwPlace *first,
                  const char    *what,
                  GError       **error)
{
  hw_xml_set_error (self->xml, node, error, HW_XML_ERROR_INVALID,
                    _("%s is already at %s:%d; take one of them out or give it another id"),
                    what, hw_xml_name (first->xml), hw_xml_line (first->node));
}

static gboolean
check_id (HwReader      *self,
          const xmlNode *node,
          const char    *id,
          GError       **error)
{
  g_autofree char *quoted = NULL;

  if (*id != '\0' && strlen (id) <= LONGEST_ID
      && strspn (id, "abcdefghijklmnopqrstuvwxyz0123456789-.") == strlen (id))
    return TRUE;
  quoted = hw_xml_quote (id);
  hw_xml_set_error (self->xml, node, error, HW_XML_ERROR_INVALID,
                    _("“id” may hold lower-case letters a to z, digits, “-” and “.”, %d at most; it is “%s”"),
                    LONGEST_ID, quoted);
  return FALSE;
}

/* Whether an entry that stands at @place gives way to one of the overlay's. */
static gboolean
gives_way (const HwReader *self,
           const HwPlace  *place)
{
  return self->overlaying && !place->overlays;
}

static gboolean
collect_again (HwReader      *self,
               const xmlNode *node,
               HwPlace       *place,
               const char    *what,
               GError       **error)
{
  if (!gives_way (self, place))
    {
      report_duplicate (self, node, place, what, error);
      return FALSE;
    }
  *place = (HwPlace) { self->xml, node, TRUE };
  return TRUE;
}

static gboolean
collect_entry (HwReader      *self,
               const xmlNode *node,
               HwTableId      table,
               GError       **error)
{
  g_autofree char *id = hw_xml_dup_required (self->xml, node, "id", error);
  GArray *places = self->places[table];
  HwPlace place = { self->xml, node, self->overlaying };
  int known;

  if (id == NULL || !check_id (self, node, id, error))
    return FALSE;
  known = hw_table_find (self->book, table, id);
  if (known >= 0)
    {
      g_autofree char *what = g_strdup_printf ("%s “%s”", hw_tables[table].element, id);
      return collect_again (self, node, &g_array_index (places, HwPlace, known), what, error);
    }
  if (hw_tables[table].most != 0 && places->len == hw_tables[table].most)
    {
      hw_xml_set_error (self->xml, node, error, HW_XML_ERROR_INVALID,
                        _("there can be at most %d <%s>; take one out"), (int) places->len, hw_tables[table].element);
      return FALSE;
    }
  g_array_append_val (places, place);
  g_hash_table_insert (self->book->ids[table], g_steal_pointer (&id), GUINT_TO_POINTER (places->len));
  return TRUE;
}

static gboolean
collect_single (HwReader      *self,
                const xmlNode *node,
                HwPlace       *place,
                const char    *what,
                GError       **error)
{
  if (place->node != NULL)
    return collect_again (self, node, place, what, error);
  *place = (HwPlace) { self->xml, node, self->overlaying };
  return TRUE;
}

static gboolean
collect_rules (HwReader      *self,
               const xmlNode *node,
               GError       **error)
{
  g_autofree char *what = NULL;
  int subject = 0;

  if (!hw_xml_get_required_word (self->xml, node, "for", hw_rule_subject_ids, &subject, error))
    return FALSE;
  what = g_strdup_printf (_("the table for “%s”"), hw_rule_subject_ids[subject]);
  return collect_single (self, node, self->overlaying ? &self->overlay_rules[subject] : &self->rules[subject], what,
                         error);
}

static void
report_element (HwReader      *self,
                const xmlNode *node,
                GError       **error)
{
  const char *known[HW_N_TABLES + HW_N_ONCE + 2] = { "table" };
  g_autofree char *quoted = hw_xml_quote ((const char *) node->name);
  const char *near;

  for (int i = 0; i < HW_N_TABLES; i++)
    known[1 + i] = hw_tables[i].element;
  for (int i = 0; i < HW_N_ONCE; i++)
    known[1 + HW_N_TABLES + i] = once_elements[i].element;
  near = hw_xml_nearest ((const char *) node->name, known);
  if (near != NULL)
    hw_xml_set_error (self->xml, node, error, HW_XML_ERROR_INVALID,
                      _("a handbook has no <%s> (did you mean <%s>?)"), quoted, near);
  else
    {
      g_autofree char *all = g_strjoinv (", ", (char **) known);
      hw_xml_set_error (self->xml, node, error, HW_XML_ERROR_INVALID,
                        _("a handbook has no <%s>; it may have %s"), quoted, all);
    }
}

static gboolean
collect_element (HwReader      *self,
                 const xmlNode *node,
                 GError       **error)
{
  int table = find_table (node);
  int once = find_once (node);

  if (table >= 0)
    return collect_entry (self, node, (HwTableId) table, error);
  if (once >= 0)
    {
      g_autofree char *what = g_strdup_printf ("<%s>", once_elements[once].element);
      return collect_single (self, node, &self->once[once], what, error);
    }
  if (hw_xml_is (node, "table"))
    return collect_rules (self, node, error);
  report_element (self, node, error);
  return FALSE;
}

static gboolean
collect_all (HwReader *self,
             GError  **error)
{
  for (guint i = 0; i < self->documents->len; i++)
    {
      self->xml = g_ptr_array_index (self->documents, i);
      self->overlaying = i >= self->n_own;
      for (const xmlNode *node = hw_xml_first (hw_xml_root (self->xml), NULL); node != NULL;
           node = hw_xml_next (node, NULL))
        if (!collect_element (self, node, error))
          return FALSE;
    }
  return TRUE;
}

static gboolean
read_table (HwReader  *self,
            HwTableId  id,
            GError   **error)
{
  const HwTable *table = &hw_tables[id];
  GArray *places = self->places[id];
  char *array = g_malloc0_n (places->len, table->entry_size);

  G_STRUCT_MEMBER (char *, self->book, table->array_offset) = array;
  G_STRUCT_MEMBER (gsize, self->book, table->count_offset) = places->len;
  for (guint i = 0; i < places->len; i++)
    {
      const HwPlace *place = &g_array_index (places, HwPlace, i);
      self->xml = place->xml;
      if (!table->read (self, place->node, array + i * table->entry_size, error))
        {
          g_autofree char *id_text = hw_xml_dup_attr (place->node, "id");
          g_autofree char *subject = g_strdup_printf ("%s “%s”", table->element, id_text);
          hw_reader_name (error, subject);
          return FALSE;
        }
    }
  return TRUE;
}

static gboolean
read_once (HwReader *self,
           HwOnce    once,
           GError  **error)
{
  const HwPlace *place = &self->once[once];
  const char *element = once_elements[once].element;

  if (place->node == NULL)
    {
      g_set_error (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_INVALID,
                   _("%s: no file has <%s>; add it to one of them"), self->book->folder, element);
      return FALSE;
    }
  self->xml = place->xml;
  if (once_elements[once].read (self, place->node, self->book, error))
    return TRUE;
  hw_reader_name (error, element);
  return FALSE;
}

static gboolean
read_rules (HwReader      *self,
            const HwPlace *place,
            HwRuleSubject  subject,
            GError       **error)
{
  self->xml = place->xml;
  return place->node == NULL || hw_read_rules (self, place->node, subject, error);
}

static gboolean
read_all (HwReader *self,
          GError  **error)
{
  for (int i = 0; i < HW_N_TABLES; i++)
    if (!read_table (self, (HwTableId) i, error))
      return FALSE;
  for (int i = 0; i < HW_N_ONCE; i++)
    if (!read_once (self, (HwOnce) i, error))
      return FALSE;
  for (int i = 0; i < HW_N_RULE_SUBJECTS; i++)
    if (!read_rules (self, &self->overlay_rules[i], (HwRuleSubject) i, error)
        || !read_rules (self, &self->rules[i], (HwRuleSubject) i, error))
      return FALSE;
  return TRUE;
}

gboolean
hw_reader_read_tables (HwReader *self,
                       GError  **error)
{
  gboolean done;

  for (int i = 0; i < HW_N_TABLES; i++)
    {
      self->book->ids[i] = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
      self->places[i] = g_array_new (FALSE, FALSE, sizeof (HwPlace));
    }
  done = collect_all (self, error) && read_all (self, error);
  for (int i = 0; i < HW_N_TABLES; i++)
    g_array_unref (self->places[i]);
  return done;
}

void
hw_tables_clear (HwHandbook *book)
{
  for (int i = 0; i < HW_N_TABLES; i++)
    {
      char *array = hw_table_array (book, (HwTableId) i);
      for (gsize j = 0; j < hw_table_count (book, (HwTableId) i); j++)
        hw_tables[i].clear (array + j * hw_tables[i].entry_size);
      g_free (array);
      g_clear_pointer (&book->ids[i], g_hash_table_unref);
    }
  for (int i = 0; i < HW_N_RULE_SUBJECTS; i++)
    {
      for (gsize j = 0; j < book->n_rules[i]; j++)
        hw_clear_rule (&book->rules[i][j]);
      g_free (book->rules[i]);
    }
}
