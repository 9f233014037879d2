/* handbook-private.h - what the readers of the tables share
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reading takes two passes. The first gives every id its place in its table, over all files, so that an entry may
 * name one that stands further down or in another file; the second reads the entries and looks the names up.
 */

#pragma once
#include "files/xml.h"
#include "handbook/formula.h"
#include "handbook/handbook.h"

G_BEGIN_DECLS

typedef enum
{
  HW_TABLE_SOURCE,
  HW_TABLE_CONSTRUCTION,
  HW_TABLE_TRAIT,
  HW_TABLE_FABRIC,
  HW_TABLE_SYSTEM,
  HW_TABLE_POINT,
  HW_TABLE_THREAD,
  HW_TABLE_STITCH,
  HW_TABLE_SEAM,
  HW_TABLE_PURPOSE,
  HW_TABLE_FOOT,
  HW_TABLE_PLATE,
  HW_TABLE_CARE,
  HW_TABLE_CLOSING,
  HW_TABLE_SIZES,
  HW_TABLE_GARMENT,
  HW_TABLE_FAULT,
  HW_TABLE_CLUE,
  HW_TABLE_TERM,
  HW_N_TABLES
} HwTableId;

/* Elements that the whole handbook has exactly once. */
typedef enum { HW_ONCE_TENSION, HW_ONCE_NEEDLE_LIFE, HW_ONCE_HOURS, HW_ONCE_CHANGES, HW_N_ONCE } HwOnce;

typedef struct
{
  const HwXml   *xml;
  const xmlNode *node;                   /* NULL: not met yet */
  gboolean       overlays;               /* it stands in the person's own files */
} HwPlace;

typedef struct
{
  HwHandbook  *book;
  GPtrArray   *documents;                /* of HwXml; the handbook's, then the overlay's */
  guint        n_own;                    /* how many are the handbook's */
  GArray      *places[HW_N_TABLES];      /* of HwPlace, in the order of the table */
  HwPlace      once[HW_N_ONCE];
  HwPlace      rules[HW_N_RULE_SUBJECTS];
  HwPlace      overlay_rules[HW_N_RULE_SUBJECTS];
  gboolean     overlaying;               /* first pass: the file is the overlay's */
  HwTranslate  translate;                /* NULL: none */
  GChecksum   *sum;                      /* of all that was read; NULL: nobody asks for it */
  const HwXml *xml;                      /* the one the entry being read stands in; borrowed */
} HwReader;

typedef gboolean (*HwReadFunc) (HwReader *reader, const xmlNode *node, void *into, GError **error);

/* How a table lies in HwHandbook. Every entry begins with its id. */
typedef struct
{
  const char *element;
  gsize       array_offset, count_offset;
  gsize       entry_size;
  gsize       most;                      /* entries; 0 any number */
  HwReadFunc  read;
  void      (*clear) (void *entry);
} HwTable;

extern const HwTable hw_tables[HW_N_TABLES];

char *hw_table_array (const HwHandbook *book, HwTableId id);
gsize hw_table_count (const HwHandbook *book, HwTableId id);
int   hw_table_find  (const HwHandbook *book, HwTableId table, const char *id);      /* -1: not there */
char *hw_table_nearest_id (const HwHandbook *book, HwTableId table, const char *id);

gboolean hw_reader_read_tables (HwReader *self, GError **error);                     /* both passes */
void     hw_tables_clear       (HwHandbook *book);

/* ---- pieces of an entry; all of them set @error to "FILE:LINE: …" and return FALSE when it is wrong ---- */

/* Numbers written straight into a struct. @attr NULL ends a list of fields. */
typedef struct
{
  const char *attr;
  gsize       offset;
  double      low, high;
  gboolean    required;
} HwField;

gboolean hw_reader_fields    (HwReader *self, const xmlNode *node, const HwField *fields, void *into, GError **error);

/* id, name, note, source and place; no attribute but @attributes (which lists those too), no child but <note>
 * and @children (NULL: none). */
gboolean hw_reader_entry     (HwReader *self, const xmlNode *node, const char * const *attributes,
                              const char * const *children, HwEntry *entry, GError **error);
gboolean hw_reader_children  (HwReader *self, const xmlNode *node, const char * const *children, GError **error);
gboolean hw_reader_source    (HwReader *self, const xmlNode *node, const HwSource **source, GError **error);
gboolean hw_reader_text      (HwReader *self, const xmlNode *node, char **text, GError **error);
gboolean hw_reader_flag      (HwReader *self, const xmlNode *node, const char *attr, gboolean *flag, GError **error);
/* One id or several; @index is -1 and @set 0 when the attribute is absent. */
gboolean hw_reader_reference (HwReader *self, const xmlNode *node, const char *attr, HwTableId table, int *index,
                              GError **error);
gboolean hw_reader_set       (HwReader *self, const xmlNode *node, const char *attr, HwTableId table, HwSet *set,
                              GError **error);
gboolean hw_reader_mask      (HwReader *self, const xmlNode *node, const char *attr, const char * const *words,
                              guint *mask, GError **error);
gboolean hw_reader_term      (HwReader *self, const xmlNode *node, int *term, GError **error);
/* "low high"; with @open either may be "-". @range is left alone when the attribute is absent. */
gboolean hw_reader_range     (HwReader *self, const xmlNode *node, const char *attr, gboolean open, HwRange *range,
                              GError **error);
gboolean hw_reader_band      (HwReader *self, const xmlNode *node, const HwBand *band, const char *what,
                              GError **error);
/* The texts of all children called @name, in order; they may hold nothing else. (transfer full), never NULL. */
gboolean hw_reader_sentences (HwReader *self, const xmlNode *node, const char *name, char ***sentences,
                              GError **error);
/* The text of the one child called @name; there must be one. */
gboolean hw_reader_sentence  (HwReader *self, const xmlNode *node, const char *name, char **sentence, GError **error);
/* The “name” that @node must have, in the person's language; @context: see HwTranslate. */
gboolean hw_reader_title     (HwReader *self, const xmlNode *node, const char *context, char **name, GError **error);
/* Puts *@text, which is not empty, into the person's language. */
void     hw_reader_translate (HwReader *self, const char *context, char **text);
gboolean hw_reader_required  (HwReader *self, const xmlNode *node, const char *attr, GError **error);

/* Puts "fabric “denim”: " after the FILE:LINE of a message. */
void     hw_reader_name      (GError **error, const char *subject);

/* ---- the readers ---- */

gboolean hw_read_source       (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_construction (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_trait        (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_fabric       (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_system       (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_point        (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_thread       (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_stitch       (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_seam         (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_purpose      (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_foot         (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_plate        (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_closing      (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_care         (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_sizes        (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_garment      (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_clue         (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_fault        (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_term         (HwReader *reader, const xmlNode *node, void *into, GError **error);
gboolean hw_read_tension      (HwReader *reader, const xmlNode *node, void *book, GError **error);
gboolean hw_read_needle_life  (HwReader *reader, const xmlNode *node, void *book, GError **error);
gboolean hw_read_hours        (HwReader *reader, const xmlNode *node, void *book, GError **error);
gboolean hw_read_changes      (HwReader *reader, const xmlNode *node, void *book, GError **error);
/* As hw_garment_reckon(), with @formulas that have read the arithmetic before. */
HwGarmentFigure *hw_garment_reckon_with (const HwGarment *self, HwFormulas *formulas, const double *values,
                                         GError **error);
/* Adds the rows of @node behind those that are there. */
gboolean hw_read_rules        (HwReader *reader, const xmlNode *node, HwRuleSubject subject, GError **error);

void     hw_clear_source      (void *entry);
void     hw_clear_entry       (void *entry);
void     hw_clear_fabric      (void *entry);
void     hw_clear_system      (void *entry);
void     hw_clear_point       (void *entry);
void     hw_clear_thread      (void *entry);
void     hw_clear_stitch      (void *entry);
void     hw_clear_seam        (void *entry);
void     hw_clear_care        (void *entry);
void     hw_clear_sizes       (void *entry);
void     hw_clear_garment     (void *entry);
void     hw_clear_fault       (void *entry);
void     hw_clear_term        (void *entry);
void     hw_clear_rule        (HwRule *rule);

G_END_DECLS
