/* sample-plan.h - a plan put together by hand, for cards that do not depend on the handbook
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/plan.h"

typedef struct
{
  int        n_steps;            /* on set-up A, from 1 */
  gboolean   soft_differs;       /* the second step is longer stitched, the third on another dial too */
  gboolean   long_names;
  HwDialForm dial_form;
  gboolean   by_hand;            /* a hand step before all others, one after the first step, one after the overlocker */
} SampleOptions;

enum { SAMPLE_LOCKSTITCH, SAMPLE_OVERLOCK, SAMPLE_TOPSTITCH, SAMPLE_TWIN, SAMPLE_BUTTONHOLE, SAMPLE_COVER,
       N_SAMPLE_GROUPS };

typedef struct _Sample Sample;

Sample       *sample_new      (const SampleOptions *options);
const HwPlan *sample_get_plan (const Sample *self);
HwSetup      *sample_get_setup (const Sample *self, gsize step);   /* mutable, to put a case together */
void          sample_free     (Sample *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Sample, sample_free)
