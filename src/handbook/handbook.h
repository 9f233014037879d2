/* handbook.h - loads the XML knowledge base into typed tables
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A handbook does not change once loaded and may be read from any thread.
 */

#pragma once
#include "handbook/entries.h"
#include "handbook/faults.h"
#include "handbook/garments.h"
#include "handbook/glossary.h"

G_BEGIN_DECLS

#define HW_HANDBOOK_ERROR (hw_handbook_error_quark ())
GQuark hw_handbook_error_quark (void);

typedef enum
{
  HW_HANDBOOK_ERROR_READ,       /* a file could not be read */
  HW_HANDBOOK_ERROR_MALFORMED,  /* not well-formed XML, or an internal subset */
  HW_HANDBOOK_ERROR_INVALID,    /* breaks the schema or a typed check */
  HW_HANDBOOK_ERROR_UNKNOWN,    /* names an id that no entry has */
} HwHandbookError;

typedef struct
{
  gatomicrefcount ref_count;
  char *folder;
  /* Each table in file order; indices into them are what masks and entries use. */
  HwSource       *sources;        gsize n_sources;
  HwConstruction *constructions;  gsize n_constructions;   /* <= 64 */
  HwTrait        *traits;         gsize n_traits;          /* <= 64 */
  HwFabric       *fabrics;        gsize n_fabrics;
  HwNeedleSystem *systems;        gsize n_systems;         /* <= 64 */
  HwPoint        *points;         gsize n_points;          /* <= 64 */
  HwThreadEntry  *threads;        gsize n_threads;
  HwStitch       *stitches;       gsize n_stitches;        /* <= 64 */
  HwSeam         *seams;          gsize n_seams;
  HwPurpose      *purposes;       gsize n_purposes;        /* <= 64 */
  HwFoot         *feet;           gsize n_feet;            /* <= 64 */
  HwPlate        *plates;         gsize n_plates;
  HwCareTask     *care;           gsize n_care;
  HwClosing      *closings;       gsize n_closings;
  HwSizes        *sizes;          gsize n_sizes;
  HwGarment      *garments;       gsize n_garments;
  HwFault        *faults;         gsize n_faults;
  HwClueEntry    *clues;          gsize n_clues;
  HwTerm         *terms;          gsize n_terms;
  HwRule         *rules[HW_N_RULE_SUBJECTS];
  gsize           n_rules[HW_N_RULE_SUBJECTS];
  HwTensionPrior  tension;        const HwSource *tension_source;
  HwNeedleLife    needle_life;
  double          running_share;                           /* running hours / hours at the machine */
  const HwSource *running_source;
  HwChangeCosts   changes;
  GHashTable     *ids[24];                                 /* private: id -> index + 1, one per table */
} HwHandbook;

/* Reads every .xml of @folder, checks it against handbook.rng there, compiles it.
 * One error line: file:line: what is wrong and what to change. (transfer full), NULL with @error. */
HwHandbook *hw_handbook_load  (const char *folder, GError **error);

/* Puts what a person reads into their language: @context is the element that a name belongs to ("fabric"), NULL with a
 * sentence. Gives @text itself where it knows nothing better; borrowed. Called while the handbook is loaded, on the
 * same thread: the handbook knows no language of its own. */
typedef const char *(*HwTranslate) (const char *context_or_null, const char *text);

/* The same with a person's own XML over it. Each file of @overlay is written like those of the handbook: an entry with
 * an id that the handbook has takes that one's place, others are added, rows of a <table> stand before the handbook's
 * own. A folder that is not there, or has no .xml file, is no overlay. One that is wrong is refused as a whole: then
 * the handbook is loaded without it and *@overlay_error is set, its message beginning with the path and line.
 * NULL, with @error, only when the handbook itself is wrong.
 * @translate: NULL leaves every text as it stands in the files. */
HwHandbook *hw_handbook_load_with_overlay (const char *folder, const char *overlay_or_null,
                                           HwTranslate translate, GError **overlay_error, GError **error);
/* The same, but the schema is not gone through when it has been before, over the very same bytes: @known is the mark
 * that they were given then. *@mark: that of these, (transfer full); NULL before the call, and when nothing loads. */
HwHandbook *hw_handbook_load_known (const char *folder, const char *overlay_or_null, HwTranslate translate,
                                    const char *known_or_null, char **mark, GError **overlay_error, GError **error);
HwHandbook *hw_handbook_ref   (HwHandbook *self);
void        hw_handbook_unref (HwHandbook *self);

/* Index of the entry with @id, -1 when there is none. */
int hw_handbook_find_construction (const HwHandbook *self, const char *id);
int hw_handbook_find_trait        (const HwHandbook *self, const char *id);
int hw_handbook_find_fabric       (const HwHandbook *self, const char *id);
int hw_handbook_find_system       (const HwHandbook *self, const char *id);
int hw_handbook_find_point        (const HwHandbook *self, const char *id);
gboolean hw_point_is_sold         (const HwPoint *self, int nm, double twin_mm);      /* @twin_mm 0: single needles */
int hw_handbook_find_thread       (const HwHandbook *self, const char *id);
int hw_handbook_find_stitch       (const HwHandbook *self, const char *id);
int hw_handbook_find_seam         (const HwHandbook *self, const char *id);
int hw_handbook_find_purpose      (const HwHandbook *self, const char *id);
int hw_handbook_find_foot         (const HwHandbook *self, const char *id);
int hw_handbook_find_plate        (const HwHandbook *self, const char *id);
int hw_handbook_find_care         (const HwHandbook *self, const char *id);
int hw_handbook_find_sizes        (const HwHandbook *self, const char *id);
int hw_handbook_find_garment      (const HwHandbook *self, const char *id);
int hw_handbook_find_fault        (const HwHandbook *self, const char *id);
int hw_handbook_find_term         (const HwHandbook *self, const char *id);
int hw_handbook_find_source       (const HwHandbook *self, const char *id);

/* The entry of any table whose id is @id ("fabric/denim" to be exact, or just "denim"), for browsing;
 * *@table gets the table's element name ("fabric"). NULL when unknown. Borrowed. */
const HwEntry *hw_handbook_find_entry (const HwHandbook *self, const char *id, const char **table);

/* The id of @table ("fabric", …; NULL: of any table) that @id was most likely meant to be, for "did you mean";
 * (transfer full), NULL when none is near. */
char *hw_handbook_nearest_id (const HwHandbook *self, const char *table, const char *id);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwHandbook, hw_handbook_unref)

G_END_DECLS
