/* order-path-private.h - what the parts of the general solver share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/order-path.h"
#include "plan/order-private.h"

G_BEGIN_DECLS

/* Bounds are reckoned in fractions of a cost, in whole numbers so that they are exact. */
#define HW_PATH_SCALE 512
#define HW_PATH_ABSENT ((gint64) 1 << 55)      /* scaled: no way */

/* The problem and what follows from its arrows. One node more than there are operations stands for both
 * ends: from it one begins at the entry cost, to it one ends for nothing. */
typedef struct
{
  gsize    n, n_words;
  gsize    stride;          /* n + 1 */
  int     *cost;            /* [stride squared]; far where a may never stand right before b */
  int      far;             /* dearer than any order without such an arc */
  guint64 *before;          /* [n x n_words] transitive */
  guint64 *after;           /* [n x n_words] transitive */
  int     *n_before;        /* [n] */
  int     *n_after;         /* [n] */
  int     *first_earlier;   /* [n + 1] into earlier */
  int     *earlier;         /* immediate arrows backwards */
  int     *first_later;     /* [n + 1] into later */
  int     *later;           /* immediate arrows forwards */
  int     *listed;          /* [n] the person's order, mended */
} HwPathFacts;

HwPathFacts *hw_path_facts_new   (const HwPathProblem *problem);      /* NULL: circle */
HwPathFacts *hw_path_facts_turn  (const HwPathFacts *self);           /* the same from the end to the start */
void         hw_path_facts_free  (HwPathFacts *self);
gint64       hw_path_facts_cost  (const HwPathFacts *self, const int *order);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwPathFacts, hw_path_facts_free)

static inline int
hw_path_cost (const HwPathFacts *self, gsize from, gsize to)
{
  return self->cost[from * self->stride + to];
}

/* ---- assignment ---- */

/* Prices from the cheapest assignment of a next node to every node: writes @row and @column [stride]; their
 * sum is a bound, if a lower one when cancelled. */
void hw_path_assign (const HwPathFacts *facts, const HwOrderLimits *limits, gint64 *row, gint64 *column);

/* ---- bound ---- */

/* Walks that know of some operations, those tracked, whether they are done. A state is a place, what is done
 * of the tracked, and the operation that stands there; state 0 is the start. States are sorted by place. */
typedef struct
{
  gsize    n, n_states;
  guint64 *tracked;         /* set */
  guint32 *first_arc;       /* [n_states + 1] into target */
  guint32 *target;          /* states of the next place */
  guint16 *last;            /* [n_states] */
  guint32  first_final;     /* states from here on stand at the last place */
  gint64  *rest;            /* [n_states] at least, from there to the end */
} HwPathTrack;

void hw_path_track_free (HwPathTrack *self);

typedef struct
{
  const HwPathFacts *facts;
  gsize    n_alive;         /* in all places together */
  gsize    n_arcs;          /* from place to place, or of the track */
  int     *first_alive;     /* [n + 1] into alive */
  guint16 *alive;           /* operations that can stand at each place */
  gint64  *price;           /* [stride] added for going to a node; the end's is zero */
  gint64   price_sum;
  gint64  *step;            /* [stride squared] scaled cost and price, HW_PATH_ABSENT */
  /* [n x n] by place and operation: at least, from there to the end; not kept up with a track */
  gint64  *rest;
  HwPathTrack *track;       /* NULL: none yet */
  guint32 *missed;          /* [n] how often cheapest walks came to it too often or not at all */
  guint    group;           /* to track more at the next time */
  guint    n_made;          /* states of all tracks so far */
  gint64   n_walked;        /* arcs of all rounds so far */
  gint64   value;           /* scaled; no order cheaper than known costs less */
  gboolean layered;         /* FALSE: too big; rest then is zero and only the assignment counts */
} HwPathBound;

HwPathBound *hw_path_bound_new     (const HwPathFacts *facts, const HwOrderLimits *limits);
void         hw_path_bound_free    (HwPathBound *self);
/* Raises prices by @n_rounds of ascent. @known: what some order costs; what only dearer orders use is dropped. */
void         hw_path_bound_improve (HwPathBound *self, const HwOrderLimits *limits, gint64 known, guint n_rounds);
/* Tracks some more operations. FALSE when it took more than @max_states. */
gboolean     hw_path_bound_track   (HwPathBound *self, const HwOrderLimits *limits, gint64 known, gsize max_states);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwPathBound, hw_path_bound_free)

/* Table of rests at the steps in force; returns the cheapest walk and counts its visits. Cancelled: less than any
 * walk, and the table is of no use. */
gint64       hw_path_track_walk    (HwPathTrack *self, const HwPathBound *bound, const HwOrderLimits *limits,
                                    int *visits);
/* Adds up the states at every place. */
void         hw_path_track_count   (const HwPathTrack *self, guint32 *n_states);
/* Drops arcs of walks dearer than @most, prices included. Needs the table at the steps in force. */
void         hw_path_track_drop    (HwPathTrack *self, const HwPathBound *bound, gint64 most);

/* ---- local search ---- */

typedef struct _HwPathLocal HwPathLocal;

HwPathLocal *hw_path_local_new  (const HwPathFacts *facts);
void         hw_path_local_free (HwPathLocal *self);
/* Takes up @order and betters it without kicks, until no exchange within reach gains. */
void         hw_path_local_take (HwPathLocal *self, const int *order, const HwOrderLimits *limits);
/* Kicks until @effort exchanges were looked at; returns how many kicks. */
guint        hw_path_local_kick (HwPathLocal *self, const HwOrderLimits *limits, guint64 effort, guint max_kicks);
gint64       hw_path_local_cost (const HwPathLocal *self);            /* of the best */
void         hw_path_local_best (const HwPathLocal *self, int *order);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwPathLocal, hw_path_local_free)

/* ---- proof ---- */

typedef struct
{
  gsize    width;           /* states kept at each place */
  gint64   known;           /* what some order costs; only cheaper ones are looked for */
  int     *order;           /* [n] written when @found */
  gboolean found;
  gboolean complete;        /* nothing was left out: no order is cheaper than known or the one found */
  gint64   least;           /* scaled: no order left out costs less */
  guint    n_states;
} HwPathPass;

void         hw_path_pass_run   (const HwPathBound *bound, const HwOrderLimits *limits, HwPathPass *pass);

/* The walks that know of @tracked, which holds what the bound tracks now; NULL: more than @max_states, or cancelled.
 * Adds to @n_made. */
HwPathTrack *hw_path_track_new  (const HwPathBound *bound, const HwOrderLimits *limits, const guint64 *tracked,
                                 gint64 known, gsize max_states, guint *n_made);

G_END_DECLS
