/* first-try.c - twenty-five seams as a teacher would first set them
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "first-try.h"

#define FLAT  0.95
#define LOFTY 0.65
#define MILLED 0.9

#define ON(term) (1u << HW_TENSION_ ## term)

const HwDialScale first_try_scale = { 0, 9, 4 };

const FirstTry first_tries[FIRST_TRIES] = {
  { "/first-try/silk-organza",
    { 18, 18, FLAT * 2 * 0.1, 2, 0, ON (SHEER) | ON (SLIPPERY) }, 3.5, 3, 4, 3.5 },
  { "/first-try/polyester-voile-double-hem",
    { 27, 27, FLAT * 3 * 0.2, 2.5, 0, ON (SHEER) }, 3.5, 3, 4, 3.5 },
  { "/first-try/crepe-de-chine",
    { 24, 24, FLAT * 2 * 0.18, 2, 0, ON (SLIPPERY) }, 3.5, 3, 4, 4 },
  { "/first-try/acetate-lining",
    { 27, 27, FLAT * 2 * 0.12, 2.5, 0, ON (SLIPPERY) }, 4, 3.5, 4.5, 4 },
  { "/first-try/shirt-poplin",
    { 27, 27, FLAT * 2 * 0.25, 2.2, 0, 0 }, 4, 3.5, 4.5, 4 },
  { "/first-try/medium-cotton",
    { 30, 30, 0.8, 2.5, 0, 0 }, 4, 3.5, 4.5, 4 },
  { "/first-try/twill-2-plies",
    { 30, 30, FLAT * 2 * 0.45, 2.5, 0, 0 }, 4, 3.5, 4.5, 4 },
  { "/first-try/twill-6-plies",
    { 30, 30, FLAT * 6 * 0.45, 3, 0, 0 }, 3, 2.5, 4, 3 },
  { "/first-try/twill-topstitch",
    { 60, 30, FLAT * 4 * 0.45, 3.5, 0, 0 }, 3.5, 3, 4.5, 3.5 },
  { "/first-try/denim-2-plies",
    { 40, 40, FLAT * 2 * 0.95, 3, 0, 0 }, 3.5, 3, 4, 3.5 },
  { "/first-try/denim-topstitch",
    { 80, 40, FLAT * 4 * 0.95, 3.5, 0, 0 }, 3, 2.5, 5, 3 },
  { "/first-try/denim-crossing",
    { 80, 40, FLAT * 8 * 0.95, 4, 0, 0 }, 2.5, 2, 4, 2.5 },
  { "/first-try/jersey-narrow-zigzag",
    { 27, 27, FLAT * 2 * 0.55, 2.5, 1, ON (JERSEY) | ON (ZIGZAG) }, 3.5, 3, 4, 3 },
  { "/first-try/jersey-hem-twin",
    { 27, 27, FLAT * 2 * 0.55, 3, 4, ON (JERSEY) | ON (TWIN) }, 2.5, 2, 3.5, 2.5 },
  { "/first-try/swim-elastic",
    { 27, 27, FLAT * (2 * 0.65 + 0.8), 1.5, 5, ON (JERSEY) | ON (MULTISTEP) }, 3, 2.5, 3.5, 2.5 },
  { "/first-try/cotton-velvet",
    { 30, 30, LOFTY * 2 * 1.1, 2.8, 0, ON (PILE) }, 3, 2.5, 3.5, 3 },
  { "/first-try/fleece",
    { 27, 27, LOFTY * 2 * 2.5, 3, 0, ON (LOFTY) }, 3, 2.5, 3.5, 2.5 },
  { "/first-try/melton",
    { 40, 40, MILLED * 2 * 2.4, 3, 0, ON (LOFTY) }, 3, 2.5, 4, 2.5 },
  { "/first-try/garment-leather",
    { 40, 40, FLAT * 2 * 0.85, 3.5, 0, ON (LEATHER) }, 3.5, 3, 5, 3.5 },
  { "/first-try/waxed-canvas",
    { 70, 70, FLAT * 2 * 0.7, 3.5, 0, ON (COATED) }, 3, 2.5, 4.5, 3.5 },
  { "/first-try/buttonhole",
    { 27, 27, FLAT * (2 * 0.25 + 0.2), 0.4, 2.5, ON (BUTTONHOLE) }, 3, 2, 4, 3 },
  { "/first-try/satin-stitch",
    { 27, 27, FLAT * (0.3 + 0.3), 0.4, 4, ON (SATIN) }, 3, 2, 3.5, 3 },
  { "/first-try/overcast-zigzag",
    { 30, 30, FLAT * 0.45, 2, 5, ON (ZIGZAG) }, 3, 2.5, 4, 3 },
  { "/first-try/baste-twill",
    { 30, 30, FLAT * 2 * 0.45, 5, 0, ON (BASTE) }, 1, 0, 2, 1 },
  { "/first-try/gather-lawn",
    { 24, 24, FLAT * 0.17, 4.5, 0, ON (GATHER) }, 2, 1, 3, 2 },
};
