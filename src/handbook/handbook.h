/* handbook.h - loads the XML knowledge base into typed tables
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A handbook does not change once loaded and may be read from any thread.
 */

#pragma once
#include "handbook/entries.h"

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
  HwRule         *rules[HW_N_RULE_SUBJECTS];
  gsize           n_rules[HW_N_RULE_SUBJECTS];
  HwTensionPrior  tension;        const HwSource *tension_source;
  HwNeedleLife    needle_life;
  double          running_share;                           /* running hours / hours at the machine */
  const HwSource *running_source;
  HwChangeCosts   changes;
  GHashTable     *ids[16];                                 /* private: id -> index + 1, one per table */
} HwHandbook;

/* Reads every .xml of @folder, checks it against handbook.rng there, compiles it.
 * One error line: file:line: what is wrong and what to change. (transfer full), NULL with @error. */
HwHandbook *hw_handbook_load  (const char *folder, GError **error);
HwHandbook *hw_handbook_ref   (HwHandbook *self);
void        hw_handbook_unref (HwHandbook *self);

/* Index of the entry with @id, -1 when there is none. */
int hw_handbook_find_construction (const HwHandbook *self, const char *id);
int hw_handbook_find_trait        (const HwHandbook *self, const char *id);
int hw_handbook_find_fabric       (const HwHandbook *self, const char *id);
int hw_handbook_find_system       (const HwHandbook *self, const char *id);
int hw_handbook_find_point        (const HwHandbook *self, const char *id);
int hw_handbook_find_thread       (const HwHandbook *self, const char *id);
int hw_handbook_find_stitch       (const HwHandbook *self, const char *id);
int hw_handbook_find_seam         (const HwHandbook *self, const char *id);
int hw_handbook_find_purpose      (const HwHandbook *self, const char *id);
int hw_handbook_find_foot         (const HwHandbook *self, const char *id);
int hw_handbook_find_plate        (const HwHandbook *self, const char *id);
int hw_handbook_find_care         (const HwHandbook *self, const char *id);
int hw_handbook_find_source       (const HwHandbook *self, const char *id);

/* The entry of any table whose id is @id ("fabric/denim" to be exact, or just "denim"), for browsing;
 * *@table gets the table's element name ("fabric"). NULL when unknown. Borrowed. */
const HwEntry *hw_handbook_find_entry (const HwHandbook *self, const char *id, const char **table);

/* The id of @table ("fabric", …; NULL: of any table) that @id was most likely meant to be, for "did you mean";
 * (transfer full), NULL when none is near. */
char *hw_handbook_nearest_id (const HwHandbook *self, const char *table, const char *id);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwHandbook, hw_handbook_unref)

G_END_DECLS
