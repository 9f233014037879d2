/* thread-use.c - metres of thread in a seam
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "trade/thread-use.h"

#include <math.h>

/* Rounding must not wind one bobbin more when the metres fill the last one exactly. */
#define WHOLE_BOBBIN_TOLERANCE 1e-9

static HwThreadUse
halve (double total)
{
  return (HwThreadUse) { total / 2.0, total / 2.0 };
}

static HwThreadUse
share (double total, double needle_share)
{
  return (HwThreadUse) { total * needle_share, total * (1.0 - needle_share) };
}

/* Both needles sew rows of their own; the bobbin thread goes across to each loop at every stitch. */
static HwThreadUse
measure_twin (double thickness_mm, double length_mm, double spacing_mm)
{
  double across = spacing_mm + hypot (length_mm, spacing_mm);

  return (HwThreadUse) { 2.0 * (1.0 + thickness_mm / length_mm), (across + 2.0 * thickness_mm) / length_mm };
}

/**
 * hw_thread_use_per_metre:
 * @width_mm: the stitch's width; a twin needle's spacing
 * @ratio: metres of thread in a metre, for %HW_THREAD_USE_RATIO
 * @needle_share: the needle threads' part where the shape does not settle it
 *
 * Returns: metres of thread per metre of seam
 */
HwThreadUse
hw_thread_use_per_metre (HwThreadUseShape shape, double thickness_mm, double length_mm, double width_mm, double ratio,
                         double needle_share)
{
  double through;

  g_return_val_if_fail (length_mm > 0 && thickness_mm >= 0 && width_mm >= 0, ((HwThreadUse) { NAN, NAN }));

  through = 2.0 * thickness_mm / length_mm;
  switch (shape)
    {
    case HW_THREAD_USE_RATIO:
      return share (ratio, needle_share);
    case HW_THREAD_USE_101:
      return (HwThreadUse) { 3.0 + through, 0 };
    case HW_THREAD_USE_301:
      return halve (2.0 + through);
    case HW_THREAD_USE_304:
      return halve (2.0 * hypot (length_mm, width_mm) / length_mm + through);
    case HW_THREAD_USE_401:
      return share (4.0 + through, needle_share);
    case HW_THREAD_USE_504:
      return share (3.0 + 4.0 * (width_mm + thickness_mm) / length_mm, needle_share);
    case HW_THREAD_USE_514:
      return share (5.0 + 4.0 * (width_mm + thickness_mm) / length_mm, needle_share);
    case HW_THREAD_USE_TWIN:
      return measure_twin (thickness_mm, length_mm, width_mm);
    case HW_THREAD_USE_TRIPLE:
      return halve (3.0 * (2.0 + through));
    default:
      g_return_val_if_reached (((HwThreadUse) { NAN, NAN }));
    }
}

double
hw_bobbin_metres (double winding_cm3, double bulk_g_cm3, double tex)
{
  g_return_val_if_fail (winding_cm3 >= 0 && bulk_g_cm3 > 0 && tex > 0, NAN);

  return winding_cm3 * bulk_g_cm3 * 1000.0 / tex;
}

int
hw_bobbin_count (double metres, double capacity_m)
{
  g_return_val_if_fail (metres >= 0 && metres < G_MAXINT && capacity_m > 0, 0);

  return (int) MIN (ceil (metres / capacity_m - WHOLE_BOBBIN_TOLERANCE), (double) G_MAXINT);
}
