/* agree.h - few set-ups for many operations, on plain arrays
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An operation whose bands admit what another needs anyway takes it. Costs are thousandths of a minute.
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  HW_AGREE_NEEDLE,         /* system, point, size and twin spacing as one */
  HW_AGREE_FOOT,
  HW_AGREE_PLATE,
  HW_AGREE_N_PARTS
} HwAgreePart;

#define HW_AGREE_MAX_VALUES 64

/* Values of a part are numbered from 0; each operation says which of them it accepts. */
typedef struct
{
  int     machine;                                          /* set-ups on different machines are never the same */
  int     kind;                                             /* stitch and threads as one number: likewise */
  int     prefer[HW_AGREE_N_PARTS];
  guint64 accept[HW_AGREE_N_PARTS];                         /* 1 << value; the preferred one is always accepted */
  int     distance[HW_AGREE_N_PARTS][HW_AGREE_MAX_VALUES];  /* how far each value lies from the preferred, >= 0 */
} HwAgreeOperation;

typedef struct
{
  gsize                   n_operations;
  const HwAgreeOperation *operations;
  int                     cost[HW_AGREE_N_PARTS];           /* of changing each part */
  gsize                   n_kinds;
  const int              *kind_cost;                        /* [n_kinds squared] of changing stitch and threads */
} HwAgreeProblem;

typedef struct { int value[HW_AGREE_N_PARTS]; } HwAgreeChoice;

/* What is made least, in this order. */
typedef struct
{
  int groups;      /* distinct set-ups */
  int change;      /* least changing that links the set-ups of each machine: its spanning tree */
  int distance;    /* from the preferred values, over all operations */
} HwAgreeScore;

HwAgreeScore hw_agree_score (const HwAgreeProblem *problem, const HwAgreeChoice *choices);
int          hw_agree_score_compare (const HwAgreeScore *a, const HwAgreeScore *b);

/* One choice an operation. TRUE when no other choice scores less, FALSE when the search was cut short
 * and the best found is given. The same input gives the same choice. */
gboolean     hw_agree       (const HwAgreeProblem *problem, HwAgreeChoice *choices);

G_END_DECLS
