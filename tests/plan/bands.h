/* bands.h - garments paired with the shipped handbook, each value against the band that a teacher accepts
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/plan.h"
#include "workroom.h"

#include <math.h>

G_BEGIN_DECLS

/* Low and high; { 0, 0 } where 0 is the only good value, ABSENT where the operation has no such value. */
typedef struct { double low, high; } Range;
#define ABSENT { NAN, NAN }

typedef struct
{
  const char *number;
  const char *points;
  Range       size;
  Range       twin;
  Range       needle_tex, under_tex;
  const char *stitch;
  Range       length;
  Range       width;                     /* of the stitch; an overlocker's cutting width */
  const char *feet;
  Range       pressure;
  Range       dial;
  Range       differential;
  gboolean    foot_lift;                 /* a warning is due */
} Row;

typedef struct
{
  const char *name;                      /* tests/plan/garments/NAME.handwheel */
  const Row  *rows;
  gsize       n;
} Garment;

typedef struct
{
  const char *path;
  GTestFunc   run;
} AcrossTest;

/* The shipped handbook and a usual room, while bands_run() runs. With --planned on the command line the set-ups are
 * those of the plan, after steps have agreed on sharing them. */
extern HwHandbook *bands_handbook;
extern HwRoom     *bands_room;
extern gboolean    bands_planned;

/* A test for each value of each row, then those of @across: what main() returns. */
int              bands_run        (int argc, char **argv, const char *prefix, const Garment *garments, gsize n_garments,
                                   const AcrossTest *across, gsize n_across);

const HwSetup   *bands_setup      (gsize garment, const char *number);
double           bands_number     (gsize garment, const char *number, HwField field);
const GPtrArray *bands_setups     (gsize garment);       /* one a step; NULL for a hand step */

G_END_DECLS
