/* first-try.h - twenty-five seams as a teacher would first set them
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * On a scale of 0 to 9 with neutral 4; common practice, no source. Thickness is that of typical cloth under the foot.
 */

#pragma once
#include "trade/tension.h"

G_BEGIN_DECLS

#define FIRST_TRIES 25

typedef struct
{
  const char    *path;
  HwTensionFacts facts;
  double         stated, low, high;  /* what the teacher sets first, and accepts */
  double         printed;            /* what the model prints */
} FirstTry;

extern const FirstTry    first_tries[FIRST_TRIES];
extern const HwDialScale first_try_scale;

G_END_DECLS
