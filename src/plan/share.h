/* share.h - which set-ups each operation of a project would take, so that one may serve many
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/at-hand.h"

G_BEGIN_DECLS

typedef enum
{
  HW_SHARE_NEEDLE,         /* system, point, size and twin spacing as one */
  HW_SHARE_FOOT,
  HW_SHARE_PLATE,
  HW_SHARE_SOFT,           /* length, width, pressure, dial and the overlocker's own as one */
  HW_SHARE_N_PARTS
} HwSharePart;

#define HW_SHARE_MAX_VALUES 64

/* The values of each part seen on one machine, numbered in the order met. */
typedef struct
{
  const HwMachine *machine;
  HwNeedleKind     needles[HW_SHARE_MAX_VALUES];
  int              feet[HW_SHARE_MAX_VALUES];
  int              plates[HW_SHARE_MAX_VALUES];
  int              soft[HW_SHARE_MAX_VALUES][HW_N_SOFT_PARTS];
  int              n[HW_SHARE_N_PARTS];
  guint64          core[HW_SHARE_N_PARTS];     /* 1 << value: those that suffice for the least change time */
} HwShareValues;

/* An operation with one choice of threads; the first is the preferred one. */
typedef struct
{
  HwSetup *setup;                              /* of the plan, or our own */
  gboolean own;
  int      kind;                               /* stitch and threads as one number */
  int      prefer[HW_SHARE_N_PARTS];
  guint64  accept[HW_SHARE_N_PARTS];           /* 1 << value */
  int      distance;                           /* of its threads from the preferred ones */
} HwShareVariant;

typedef struct
{
  gsize   step;
  int     machine;                             /* index in machines; -1: the iron, where nothing is set */
  GArray *variants;                            /* HwShareVariant */
} HwShareOperation;

typedef struct
{
  HwPlan    *plan;
  gsize      n_operations;
  HwShareOperation *operations;
  GPtrArray *machines;                         /* (element-type HwShareValues) */
  GArray    *kinds;                            /* HwMounted: a stitch and threads each */

  GArray    *setups;                           /* HwMounted: the candidates, those of the core first */
  GArray    *numbers;                          /* HwShareNumbers: the same by number */
  gsize      n_core;
  int       *prefer;                           /* [n_operations] set-up */
  guint64   *accept;                           /* [n_operations x words], as order.h wants it */
  int       *distance;                         /* [n_operations x n_setups] */
} HwSharing;

typedef struct { int machine, kind, value[HW_SHARE_N_PARTS]; } HwShareNumbers;

/* @steps: gsize, the operations to order, a hand step among them standing for the iron; @standing: what is on each
 * of @machines now. Lasts as long as @plan; NULL when there are more different values than can be numbered. */
HwSharing *hw_sharing_new  (HwPlan *plan, const GArray *steps, const GPtrArray *machines, const HwMounted *standing);
void       hw_sharing_free (HwSharing *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwSharing, hw_sharing_free)

/* share-candidates.c */
void       hw_sharing_list_candidates (HwSharing *self, const HwMounted *standing);
int        hw_sharing_measure (const HwSharing *self, gsize operation, const HwShareVariant *variant,
                               const HwShareNumbers *numbers);

/* share-take.c: gives the plan's set-up of @operation the values of the candidate @setup, with the reasons. */
void       hw_sharing_take (HwSharing *self, gsize operation, int setup);
/* What a journal entry says that a step was sewn with, where its bands admit it. */
void       hw_setup_take_sewn (HwPlan *plan, gsize step, const HwJournalEntry *entry);
/* Another dial in its band in place of the one preferred. */
void       hw_setup_agree_dial (HwPlan *plan, HwSetup *setup, double dial);

G_END_DECLS
