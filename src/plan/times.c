/* times.c - minutes, stitches and metres of thread of one operation
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/times.h"

#include "trade/time.h"

static double
read_value (const HwSetup *setup, HwField field)
{
  return setup->values[field].applies ? setup->values[field].value : 0;
}

/* A length of nothing would sew for ever: the shortest that any machine feeds. */
static double
stitch_length (const HwSetup *setup)
{
  return MAX (read_value (setup, HW_FIELD_LENGTH), 0.2);
}

HwOperationTime
hw_operation_time (const HwSetup *setup)
{
  const HwPurpose *purpose = setup->purpose;
  double stitches = hw_stitch_count (setup->step->length_cm * 10, stitch_length (setup));
  /* The triple stitch takes three strokes of the needle for each stitch forward. */
  double strokes = setup->stitch->shape == HW_THREAD_USE_TRIPLE ? 3 * stitches : stitches;
  double running = hw_running_minutes (strokes, setup->machine->speed_spm,
                                       purpose->speed_share * setup->speed_factor);
  double handling = purpose->handling_minutes + purpose->per_metre_minutes * setup->step->length_cm / 100;

  return (HwOperationTime) {
    .stitches = stitches,
    .running_minutes = running,
    .minutes = hw_at_machine_minutes (running, setup->step->pieces, purpose->start_stop_minutes, handling, 1),
  };
}

/* What the stitch's shape calls its width: the bite of an overlocker, the spacing of twin needles. */
static double
shape_width (const HwSetup *setup)
{
  if (setup->stitch->shape == HW_THREAD_USE_TWIN)
    return read_value (setup, HW_FIELD_TWIN);
  if (setup->values[HW_FIELD_CUTTING_WIDTH].applies)
    return setup->values[HW_FIELD_CUTTING_WIDTH].value;
  return read_value (setup, HW_FIELD_WIDTH);
}

HwOperationThread
hw_operation_thread (const HwSetup *setup)
{
  const HwStitch *stitch = setup->stitch;
  HwThreadUse use = hw_thread_use_per_metre (stitch->shape, setup->under_foot_mm, stitch_length (setup),
                                             shape_width (setup), stitch->ratio, stitch->needle_share);
  double seam_m = setup->step->length_cm / 100;
  int pieces = setup->step->pieces;
  int needles = MAX (stitch->needles, 1);

  /* Loopers chain on past the cloth; other machines leave tails to cut off. */
  if (stitch->loopers > 0)
    {
      double sewn_m = seam_m * (1 + HW_RESEW_SHARE) + pieces * HW_CHAIN_OFF_M;

      return (HwOperationThread) { use.needle * sewn_m, use.under * sewn_m };
    }
  return (HwOperationThread) {
    .needle_m = use.needle * seam_m * (1 + HW_RESEW_SHARE) + pieces * needles * HW_TAIL_M,
    .under_m = use.under * seam_m * (1 + HW_RESEW_SHARE) + (stitch->bobbin ? pieces * HW_TAIL_M : 0),
  };
}
