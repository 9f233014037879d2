/* tension-prior.c - the terms of the starting dial that tests work with
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "tension-prior.h"

const HwTensionPrior tension_prior = {
  .terms = {
    [HW_TENSION_MACHINE] = { 0, 0.75 },
    [HW_TENSION_TEX] = { 0, 0.35 },
    [HW_TENSION_NEEDLE_HEAVIER] = { 0.5, 0.4 },
    [HW_TENSION_FILAMENT] = { -0.5, 0.4 },
    [HW_TENSION_MONOFILAMENT] = { -1.25, 0.7 },
    [HW_TENSION_METALLIC] = { -1.5, 0.7 },
    [HW_TENSION_THICKER] = { -0.4, 0.3 },
    [HW_TENSION_THINNER] = { 0.15, 0.25 },
    [HW_TENSION_LONGER] = { -0.4, 0.2 },
    [HW_TENSION_SHORTER] = { 0.15, 0.25 },
    [HW_TENSION_SHEER] = { -0.5, 0.5 },
    [HW_TENSION_SLIPPERY] = { -0.25, 0.4 },
    [HW_TENSION_JERSEY] = { -0.4, 0.4 },
    [HW_TENSION_PILE] = { -0.4, 0.4 },
    [HW_TENSION_LOFTY] = { -0.25, 0.4 },
    [HW_TENSION_COATED] = { 0, 0.5 },
    [HW_TENSION_LEATHER] = { 0.5, 0.6 },
    [HW_TENSION_ZIGZAG] = { -0.2, 0.1 },
    [HW_TENSION_MULTISTEP] = { -0.5, 0.4 },
    [HW_TENSION_STRETCH_STITCH] = { -0.25, 0.4 },
    [HW_TENSION_BLIND] = { -0.75, 0.5 },
    [HW_TENSION_SATIN] = { -1.25, 0.5 },
    [HW_TENSION_BUTTONHOLE] = { -1, 0.5 },
    [HW_TENSION_BAR_TACK] = { -1, 0.5 },
    [HW_TENSION_TWIN] = { -0.75, 0.5 },
    [HW_TENSION_BASTE] = { -2, 0.5 },
    [HW_TENSION_GATHER] = { -1.5, 0.5 },
    [HW_TENSION_EASE] = { -0.75, 0.4 },
  },
  .reference_thickness_mm = 0.8,
  .thickest_mm = 6,
  .thinnest_mm = 0.4,
  .reference_length_mm = 2.5,
  .longest_mm = 6,
  .shortest_mm = 1,
  .reference_tex = 30,
  .cloth_floor = -0.75,
  .zigzag_floor = -1,
  .low_limit = 1,
  .low_limit_loose = 0.5,
  .high_limit = 8,
  .window_below = 0.35,
  .window_below_per_mm = 0.3,
  .window_thickest_mm = 4,
  .window_above = 0.5,
  .verdict_noise = 0.35,
};
