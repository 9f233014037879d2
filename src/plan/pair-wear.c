/* pair-wear.c - what the operation does to needle and machine, and what to mind
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/pairing-private.h"

#define LIFT_CLEARANCE 0.9               /* a stack slides in under the raised foot with a tenth to spare */

/* The harshest trait of any ply rules: factors are for the cloth as it is, not to be multiplied. */
static void
settle_factors (HwPairing *self)
{
  HwSetup *setup = self->setup;

  setup->lint_factor = 1;
  setup->needle_life = 1;
  setup->speed_factor = 1;
  for (HwSet traits = self->facts.traits; traits != 0; traits &= traits - 1)
    {
      const HwTrait *trait = &self->handbook->traits[__builtin_ctzll (traits)];

      setup->lint_factor = MAX (setup->lint_factor, trait->lint_factor);
      setup->needle_life = MIN (setup->needle_life, trait->needle_life);
      setup->speed_factor = MIN (setup->speed_factor, trait->speed_factor);
    }
}

static void
check_foot_lift (HwPairing *self)
{
  const HwSetup *setup = self->setup;
  double lift = setup->machine->foot_lift_mm;

  if (lift > 0 && MAX (setup->under_foot_mm, self->crossing_under_foot_mm) > lift * LIFT_CLEARANCE)
    hw_pairing_add_warning (self, HW_FIELD_FOOT, HW_WARN_FOOT_LIFT, NULL, setup->under_foot_mm, lift,
                            self->crossing_under_foot_mm);
}

static gboolean
stands_before (const HwPairing *self, gsize index)
{
  for (gsize i = 0; i < index; i++)
    if (self->plies[i].cloth == self->plies[index].cloth)
      return TRUE;
  return FALSE;
}

void
hw_pairing_settle_wear (HwPairing *self)
{
  settle_factors (self);
  check_foot_lift (self);
  for (gsize i = 0; i < self->n_plies; i++)
    if (self->plies[i].cloth->thickness_estimated && !stands_before (self, i))
      hw_pairing_add_warning (self, HW_FIELD_DIAL, HW_WARN_ESTIMATED, self->plies[i].cloth,
                              self->plies[i].cloth->thickness_mm, 0, 0);
}
