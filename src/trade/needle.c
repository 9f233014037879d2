/* needle.c - needle sizes and what fits their eye and groove
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "trade/needle.h"

#include <math.h>

/* Packets print both numbers. The US series is arbitrary; from 120 up packets disagree
 * (120/19 and 120/20 are both seen), and this is the majority. */
static const struct
{
  int nm;
  int us;
} sizes[] = {
  { 60, 8 },
  { 65, 9 },
  { 70, 10 },
  { 75, 11 },
  { 80, 12 },
  { 85, 13 },
  { 90, 14 },
  { 95, 15 },
  { 100, 16 },
  { 105, 17 },
  { 110, 18 },
  { 120, 19 },
  { 125, 20 },
  { 130, 21 },
};

#define TWIN_CLEARANCE_MM 1.0      /* both sides of the pair together */

int
hw_us_from_nm (int nm)
{
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    if (sizes[i].nm == nm)
      return sizes[i].us;
  return 0;
}

int
hw_nm_from_us (int us)
{
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    if (sizes[i].us == us)
      return sizes[i].nm;
  return 0;
}

double
hw_needle_blade_mm (int nm)
{
  return nm / 100.0;
}

/* The Nm whose blade the thread fills to @share; a larger eye takes that much more thread. */
static double
fit_blade_nm (double thread_diameter_mm, double share, double eye_factor)
{
  return thread_diameter_mm / share * 100.0 / eye_factor;
}

double
hw_needle_suggested_nm (double thread_diameter_mm, double eye_factor)
{
  g_return_val_if_fail (thread_diameter_mm >= 0 && eye_factor > 0, NAN);

  return fit_blade_nm (thread_diameter_mm, HW_NEEDLE_THREAD_SHARE, eye_factor);
}

double
hw_needle_smallest_nm (double thread_diameter_mm, double eye_factor)
{
  g_return_val_if_fail (thread_diameter_mm >= 0 && eye_factor > 0, NAN);

  return fit_blade_nm (thread_diameter_mm, HW_NEEDLE_THREAD_SHARE_LIMIT, eye_factor);
}

double
hw_twin_allowed_width_mm (double spacing_mm, double max_width_mm)
{
  g_return_val_if_fail (spacing_mm > 0 && max_width_mm >= 0, -1);

  if (spacing_mm > max_width_mm - TWIN_CLEARANCE_MM)
    return -1;
  return max_width_mm - spacing_mm - TWIN_CLEARANCE_MM;
}
