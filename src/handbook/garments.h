/* garments.h - things to make: measurements, sizes, roles of cloth, steps whose lengths are reckoned
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A garment is a pattern for a project. The person gives a few measurements, or takes a size; the lengths sewn, the
 * number of pieces and the minutes of each step follow by arithmetic. The arithmetic is XPath's, in which "$waist" is
 * a measurement: "2 * $side + 30", with + - * div mod, floor(), ceiling(), round() and comparisons, which count as 1
 * or 0. It is evaluated by libxml2. A name that is not known, a result that is no finite number over 0, and a division
 * by zero are refused with the line of the step.
 *
 * Lengths are in millimetres here and in centimetres on screen.
 */

#pragma once
#include "handbook/entries.h"

G_BEGIN_DECLS

/* garments.xml: <sizes id name names="S M L" source><note/><body id name values="640 720 800"/>…</sizes>
 * names: of the sizes, in order; a body measurement has a value for each. */
typedef struct
{
  char   *id;                            /* a lower-case word, as after "$" */
  char   *name;
  double *values;                        /* n_sizes of them */
} HwBody;

typedef struct
{
  HwEntry  entry;
  char   **names;
  gsize    n_sizes;
  HwBody  *bodies;
  gsize    n_bodies;
} HwSizes;

/* <measurement id name default low high counts?="no" body?="ID"/>
 * counts: a whole number of things rather than a length. body: the measurement of the garment's sizes it follows. */
typedef struct
{
  char    *id;
  char    *name;
  gboolean counts;
  double   usual, low, high;             /* mm, or a number */
  int      body;                         /* index into the bodies; -1: the same in every size */
} HwMeasurement;

/* <let id value="…"/>: a length that several steps need, from the measurements and the lets before it */
typedef struct { char *id; char *value; int line; } HwLet;

/* <role id name fabric="ID"/>: what a fabric is for, and the fabric of the handbook it is unless another is chosen.
 * <thread id thread="ID"/> is the same for a thread. */
typedef struct { char *id; char *name; int fabric; } HwRole;
typedef struct { char *id; int thread; } HwThreadRole;

typedef struct { int role; int count; } HwRolePly;

/* <operation number name after? purpose seam? stitch? length="2 * $side" pieces?="2" needle-thread? bobbin-thread?>
 *   <ply role count?/>…<crossing><ply/>…</crossing>?<note/>? </operation>
 * <hand number name after? kind minutes="5"><note/>?</hand>
 * A step comes after steps that stand before it, so that the order of the file is one in which it can be made. */
typedef struct
{
  gboolean   by_hand;
  char      *number;
  char      *name;
  char     **after;                      /* never NULL */
  char      *note;                       /* may be NULL */
  int        line;
  int        purpose;                    /* an operation: indices; seam and stitch -1: the purpose's */
  int        seam, stitch;
  char      *length;                     /* arithmetic, mm, all pieces together */
  char      *pieces;                     /* arithmetic, rounded; NULL: 1 */
  int        needle_thread, bobbin_thread;     /* indices into the garment's threads; -1 none named */
  HwRolePly *plies;                      gsize n_plies;
  HwRolePly *crossing;                   gsize n_crossing;
  char      *kind;                       /* a hand step: press, trim, clip, turn, fuse, tack, hang, sew, other */
  char      *minutes;                    /* arithmetic */
} HwGarmentStep;

/* <garment id name sizes?="ID" size?="M" source><note/>… the elements above …</garment>
 * size: the one taken when none is named; only with sizes. */
typedef struct
{
  HwEntry        entry;
  const HwSizes *sizes;                  /* NULL none */
  int            size;                   /* taken first; -1 without sizes */
  HwMeasurement *measurements;           gsize n_measurements;
  HwLet         *lets;                   gsize n_lets;
  HwRole        *roles;                  gsize n_roles;
  HwThreadRole  *threads;                gsize n_threads;
  HwGarmentStep *steps;                  gsize n_steps;
} HwGarment;

extern const char * const hw_garment_hand_ids[];         /* ends with NULL */

/* What one step comes to. */
typedef struct
{
  double length_mm;                      /* 0 by hand */
  int    pieces;                         /* 0 by hand */
  double minutes;                        /* 0 for an operation */
} HwGarmentFigure;

int hw_garment_find_measurement (const HwGarment *self, const char *id);       /* index, -1 */
int hw_garment_find_role        (const HwGarment *self, const char *id);       /* index, -1 */
int hw_garment_find_size        (const HwGarment *self, const char *name);     /* index, -1 */

/* (transfer full): a value for each measurement, in their order. @size -1: the usual values. */
double *hw_garment_dup_values   (const HwGarment *self, int size);

/* @values: one for each measurement. Each must lie in its bounds. (transfer full): a figure for each step, or NULL
 * with a HW_HANDBOOK_ERROR: file, line, what is wrong. */
HwGarmentFigure *hw_garment_reckon (const HwGarment *self, const double *values, GError **error);

G_END_DECLS
