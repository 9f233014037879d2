/* thread.c - what a thread's size implies: diameter, strength of thread and seam
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "trade/thread.h"

#include <math.h>

#define MM_PER_CM 10.0
#define N_PER_CN  0.01

double
hw_thread_diameter_mm (double tex, double density_g_cm3, double packing)
{
  g_return_val_if_fail (tex > 0 && density_g_cm3 > 0 && packing > 0 && packing <= 1, NAN);

  /* tex x 1e-3 is the cross-section in mm2 of a thread as dense as water. */
  return sqrt (4.0 * tex * 1e-3 / (G_PI * packing * density_g_cm3));
}

double
hw_seam_strength_n_cm (double length_mm, double thread_strength_cn, double loop_factor)
{
  g_return_val_if_fail (length_mm > 0 && thread_strength_cn >= 0 && loop_factor > 0, NAN);

  return MM_PER_CM / length_mm * thread_strength_cn * N_PER_CN * loop_factor;
}

double
hw_tenacity_cn_tex (double strength_cn, double tex)
{
  g_return_val_if_fail (strength_cn >= 0 && tex > 0, NAN);

  return strength_cn / tex;
}
