/* pairing-private.h - what the parts of a pairing share
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The parts run in the order of this list, each reading what those before it settled.
 */

#pragma once
#include "plan/pairing.h"
#include "plan/rules.h"

#include <math.h>

G_BEGIN_DECLS

typedef struct
{
  const HwCloth *cloth;
  int            count;
  HwFacts        facts;                  /* of one ply of it */
} HwPairPly;

typedef struct
{
  const HwHandbook *handbook;
  const HwProject  *project;
  const HwRoom     *room;
  const HwStep     *step;
  const HwSource   *practice;            /* for reasons of our own; never NULL */
  HwSetup          *setup;
  HwPairPly        *plies;               /* one for each cloth of the step */
  gsize             n_plies;
  HwSet            *ply_traits;          /* of the cloths that are not the backing of another */
  HwPlySets         sets;
  HwFacts           facts;               /* of the operation */
  double            crossing_under_foot_mm;
  gboolean          twin;                /* two needles on one shank */
  const HwOverride *overrides[HW_N_FIELDS];
} HwPairing;

/* pair-step.c: purpose, stitch, seam, machine, system; the plies and what they have between them */
gboolean hw_pairing_settle_step  (HwPairing *self, GError **error);
gboolean hw_pairing_lay_plies    (HwPairing *self, const GArray *cloths, GError **error);

/* pair-thread.c */
gboolean hw_pairing_settle_threads (HwPairing *self, GError **error);

/* pair-point.c: point and twin spacing; pair-size.c: size */
gboolean hw_pairing_settle_point (HwPairing *self, GError **error);
void     hw_pairing_settle_size  (HwPairing *self);

/* pair-stitch.c: length and width; ends, allowance, differential, cutting width */
void     hw_pairing_settle_stitch (HwPairing *self);
gboolean hw_pairing_settle_ends  (HwPairing *self, GError **error);

/* pair-foot.c: foot, plate, pressure */
gboolean hw_pairing_settle_foot  (HwPairing *self, GError **error);

/* pair-dial.c */
void     hw_pairing_settle_dial  (HwPairing *self);

/* pair-wear.c: factors on hours, foot lift, estimates */
void     hw_pairing_settle_wear  (HwPairing *self);

/* pair-note.c: reasons, warnings, and values in their bands */
void     hw_pairing_add_rule     (HwPairing *self, HwField field, const HwRule *rule, const HwCloth *cloth);
void     hw_pairing_add_reason   (HwPairing *self, HwField field, HwReasonCode code, const HwSource *source,
                                  double v0, double v1, double v2);
void     hw_pairing_add_warning  (HwPairing *self, HwField field, HwWarningCode code, const HwCloth *cloth,
                                  double v0, double v1, double v2);
void     hw_pairing_set_number   (HwPairing *self, HwField field, HwBand band, HwRange machine_limits);
void     hw_pairing_override_number (HwPairing *self, HwField field);
gboolean hw_pairing_set_choice   (HwPairing *self, HwField field, int choice, HwSet accept, GError **error);
/* The index that an override of a choice names; -1 with @error when no entry has its id. */
int      hw_pairing_find_choice  (HwPairing *self, HwField field, GError **error);

/* Error HW_PLAN_ERROR_UNKNOWN naming @id, the table it is not in and the nearest id there. */
void     hw_pairing_set_unknown  (const HwHandbook *handbook, const char *table, const char *id, GError **error);

#define HW_NO_LIMITS ((HwRange) { -INFINITY, INFINITY })

G_END_DECLS
