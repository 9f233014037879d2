/* workroom.h - sewing rooms, projects and set-ups for the tests of the plan
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/pairing.h"

G_BEGIN_DECLS

/* What a test may want other than usual of its lockstitch machine. Feet and plates are words. */
typedef struct
{
  double      length_max_mm, width_max_mm, plate_opening_mm, foot_lift_mm;
  double      dial_low, dial_high, dial_neutral;
  const char *feet;
  const char *plates;
} WorkroomMachine;

/* A household machine of the usual kind with all common feet. */
extern const WorkroomMachine workroom_usual;

/* One lockstitch machine ("home") and, unless @overlock_system is NULL, one overlocker ("overlocker"). */
HwRoom     *workroom_new       (const WorkroomMachine *lockstitch, const char *overlock_system,
                                double overlock_neutral);

HwHandbook *workroom_handbook  (void);                   /* the shipped one */
HwHandbook *workroom_small     (void);                   /* tests/plan/small: made up, to be worked out by hand */
HwProject  *workroom_garment   (const char *name);       /* tests/plan/garments/NAME.handwheel */
HwProject  *workroom_parse     (const char *inside);     /* what stands in <project> */

G_END_DECLS
