/* needle-place.c - where the needle stands in the foot
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Follows from the foot that is on, so a fallback brings its own, and from how far the row lies from what the foot
 * is guided by. Nothing is said where foot, plate or swing would not let the needle stand there.
 */

#include "config.h"

#include "plan/pairing.h"

#define EPSILON 1e-9

static const HwFoot *
get_foot (const HwHandbook *handbook, const HwSetup *setup)
{
  const HwValue *foot = &setup->values[HW_FIELD_FOOT];

  return foot->applies && foot->value >= 0 ? &handbook->feet[(gsize) foot->value] : NULL;
}

static gboolean
is_single_straight_row (const HwSetup *setup)
{
  const HwValue *width = &setup->values[HW_FIELD_WIDTH];

  return setup->machine->kind == HW_MACHINE_LOCKSTITCH && !setup->values[HW_FIELD_TWIN].applies
         && !(width->applies && width->value > 0);
}

/* With no plate settled yet it is the foot alone that decides. */
static gboolean
plate_passes (const HwHandbook *handbook, const HwSetup *setup, double aside_mm)
{
  const HwValue *plate = &setup->values[HW_FIELD_PLATE];

  return !plate->applies || plate->value < 0
         || 2 * aside_mm <= handbook->plates[(gsize) plate->value].slot_mm + EPSILON;
}

HwNeedlePlace
hw_setup_needle_place (const HwHandbook *handbook, const HwSetup *setup, double *aside_mm)
{
  const HwFoot *foot = get_foot (handbook, setup);
  const HwValue *allowance = &setup->values[HW_FIELD_ALLOWANCE];
  double aside = 0;

  *aside_mm = 0;
  if (foot == NULL || foot->needle == HW_NEEDLE_UNSAID || !is_single_straight_row (setup))
    return HW_NEEDLE_UNSAID;
  if (foot->needle == HW_NEEDLE_ASIDE)
    {
      if (!allowance->applies || 2 * allowance->value > MIN (foot->slot_mm, setup->machine->width_max_mm) + EPSILON)
        return HW_NEEDLE_UNSAID;
      aside = allowance->value;
    }
  if (foot->needle == HW_NEEDLE_NOTCH)
    aside = foot->notch_mm;
  if (!plate_passes (handbook, setup, aside))
    return HW_NEEDLE_UNSAID;
  *aside_mm = aside;
  return foot->needle;
}
