/* agree-private.h - what the two halves of agreeing share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/agree.h"

G_BEGIN_DECLS

/* The operations of one machine and kind, the set-ups they could take, and every way to serve them all with as
 * few of those as possible. */
typedef struct
{
  int      kind;
  gsize    n_members;
  int     *members;            /* operations */
  int     *alike;              /* [n_members] index in classes: who accepts and prefers the same is served alike */
  gsize    n_classes;
  int     *classes;            /* an operation of each */
  gsize    n_candidates;
  HwAgreeChoice *candidates;
  gsize    cover_size;         /* candidates in each way */
  GArray  *covers;             /* int: cover_size candidate numbers each, nearest to the preferred first */
  GArray  *distances;          /* int: one a way */
  gboolean complete;           /* the list holds every way */
} HwAgreeKind;

HwAgreeKind *hw_agree_kind_new  (const HwAgreeProblem *problem, int machine, int kind);
void         hw_agree_kind_free (HwAgreeKind *self);

/* What the members take of the way @cover. */
void         hw_agree_kind_take (const HwAgreeKind *self, const HwAgreeProblem *problem, gsize cover,
                                 HwAgreeChoice *choices);

gboolean     hw_agree_accepts   (const HwAgreeOperation *operation, const HwAgreeChoice *choice);
int          hw_agree_distance  (const HwAgreeOperation *operation, const HwAgreeChoice *choice);

/* A set-up as the spanning tree sees it. */
typedef struct { int kind; HwAgreeChoice choice; } HwAgreeNode;
int          hw_agree_span      (const HwAgreeProblem *problem, const HwAgreeNode *nodes, gsize n);

G_END_DECLS
