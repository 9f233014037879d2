/* pair-stitch.c - length and width of the stitch, its ends, the allowance, and what an overlocker has besides
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/pairing-private.h"
#include "trade/needle.h"

#include <math.h>

#define USUAL_LENGTH_MM 2.5              /* where the handbook has no row */

/* What the rule wants, held inside what the stitch is at all. */
static HwBand
fit_stitch (HwPairing *self, HwField field, const HwRule *rule, double usual, HwRange stitch)
{
  HwBand any = { stitch.low, CLAMP (usual, stitch.low, stitch.high), stitch.high };
  HwBand wanted = rule != NULL ? rule->band : any;
  HwBand band = { CLAMP (wanted.low, stitch.low, stitch.high), CLAMP (wanted.prefer, stitch.low, stitch.high),
                  CLAMP (wanted.high, stitch.low, stitch.high) };

  if (rule != NULL)
    hw_pairing_add_rule (self, field, rule, NULL);
  if (rule == NULL || band.prefer < wanted.prefer || band.prefer > wanted.prefer)
    hw_pairing_add_reason (self, field, HW_REASON_MACHINE, self->setup->stitch->entry.source, wanted.prefer,
                           band.prefer, 0);
  return band;
}

static void
settle_length (HwPairing *self)
{
  const HwStitch *stitch = self->setup->stitch;
  const HwRule *rule = hw_rules_first (self->handbook, HW_RULES_LENGTH, &self->facts);

  hw_pairing_set_number (self, HW_FIELD_LENGTH,
                         fit_stitch (self, HW_FIELD_LENGTH, rule, USUAL_LENGTH_MM, stitch->length_mm),
                         (HwRange) { 0, self->setup->machine->length_max_mm });
}

/* A twin takes its spacing and a margin from the swing; a single needle may use all of it and needs the plate open. */
static double
find_widest_swing (const HwPairing *self)
{
  const HwMachine *machine = self->setup->machine;
  double spacing = self->setup->values[HW_FIELD_TWIN].value;

  if (self->twin)
    return MAX (hw_twin_allowed_width_mm (spacing, machine->width_max_mm), 0);
  return MIN (machine->width_max_mm, machine->plate_opening_mm);
}

/* Only a lockstitch machine swings its needle. */
static void
settle_width (HwPairing *self)
{
  const HwStitch *stitch = self->setup->stitch;
  const HwRule *rule = hw_rules_first (self->handbook, HW_RULES_WIDTH, &self->facts);

  if (self->setup->machine->kind != HW_MACHINE_LOCKSTITCH)
    return;
  hw_pairing_set_number (self, HW_FIELD_WIDTH,
                         fit_stitch (self, HW_FIELD_WIDTH, rule, stitch->width_mm.low, stitch->width_mm),
                         (HwRange) { 0, find_widest_swing (self) });
}

/* A value that only its row knows: without one it does not apply. */
static void
settle_by_rule (HwPairing *self, HwField field, HwRuleSubject subject)
{
  const HwRule *rule = hw_rules_first (self->handbook, subject, &self->facts);

  if (rule == NULL)
    return;
  hw_pairing_add_rule (self, field, rule, NULL);
  hw_pairing_set_number (self, field, rule->band, HW_NO_LIMITS);
}

static void
settle_line (HwPairing *self)
{
  const HwRule *rule = hw_rules_first (self->handbook, HW_RULES_ALLOWANCE, &self->facts);

  settle_by_rule (self, HW_FIELD_ALLOWANCE, HW_RULES_ALLOWANCE);
  if (rule != NULL)
    self->setup->line_from = rule->from;
}

void
hw_pairing_settle_stitch (HwPairing *self)
{
  HwMachineKind kind = self->setup->machine->kind;

  settle_length (self);
  settle_width (self);
  settle_line (self);
  if (kind != HW_MACHINE_LOCKSTITCH)
    settle_by_rule (self, HW_FIELD_DIFFERENTIAL, HW_RULES_DIFFERENTIAL);
  if (kind == HW_MACHINE_OVERLOCK)
    settle_by_rule (self, HW_FIELD_CUTTING_WIDTH, HW_RULES_CUTTING);
}

gboolean
hw_pairing_settle_ends (HwPairing *self, GError **error)
{
  const HwRule *rule = hw_rules_first (self->handbook, HW_RULES_ENDS, &self->facts);

  if (rule != NULL)
    {
      hw_pairing_add_rule (self, HW_FIELD_ENDS, rule, NULL);
      return hw_pairing_set_choice (self, HW_FIELD_ENDS, rule->choice, rule->accept, error);
    }
  hw_pairing_add_reason (self, HW_FIELD_ENDS, HW_REASON_MACHINE, self->practice, 0, 0, 0);
  return hw_pairing_set_choice (self, HW_FIELD_ENDS, HW_ENDS_TAILS, 0, error);
}
