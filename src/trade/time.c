/* time.c - stitches and minutes
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "trade/time.h"

#include <math.h>

#define MINUTES_PER_TMU 0.0006

double
hw_stitch_count (double seam_mm, double length_mm)
{
  g_return_val_if_fail (seam_mm >= 0 && length_mm > 0, NAN);

  return seam_mm / length_mm;
}

double
hw_running_minutes (double stitches, double top_speed_spm, double speed_share)
{
  g_return_val_if_fail (stitches >= 0 && top_speed_spm > 0 && speed_share > 0 && speed_share <= 1, NAN);

  return stitches / (top_speed_spm * speed_share);
}

double
hw_at_machine_minutes (double running, int pieces, double start_stop, double handling, double skill)
{
  g_return_val_if_fail (running >= 0 && pieces >= 0 && start_stop >= 0 && handling >= 0 && skill > 0, NAN);

  return running + pieces * start_stop + handling * skill;
}

double
hw_minutes_from_tmu (double tmu)
{
  return tmu * MINUTES_PER_TMU;
}

double
hw_standard_minutes (double observed, double rating, double allowance)
{
  return observed * rating * (1.0 + allowance);
}
