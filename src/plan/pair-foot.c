/* pair-foot.c - foot, plate and pressure: from those owned that pass the needle's swing
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A single-hole plate locks the zigzag off, so it serves a straight row of one needle alone; likewise no foot is
 * taken whose slot is narrower than the swing.
 */

#include "config.h"

#include "plan/pairing-private.h"

#define EPSILON 1e-9

/* Feet or plates: the same but for where they stand. */
typedef struct
{
  HwField        field;
  HwRuleSubject  subject;
  const HwFoot  *table;
  gsize          n;
  HwSet          owned;
  HwSet          passing;                /* this machine's kind, slot wide enough */
} Shelf;

/* How far the needle, or the two of a twin, swing in all. */
static double
get_swing (const HwPairing *self)
{
  const HwValue *values = self->setup->values;
  double width = values[HW_FIELD_WIDTH].applies ? values[HW_FIELD_WIDTH].value : 0;

  return width + (self->twin ? values[HW_FIELD_TWIN].value : 0);
}

/* A plate must also pass a needle that stands beside the centre of the foot. */
static double
get_reach (const HwPairing *self, HwField field)
{
  double aside_mm = 0;

  if (field == HW_FIELD_PLATE)
    hw_setup_needle_place (self->handbook, self->setup, &aside_mm);
  return MAX (get_swing (self), 2 * aside_mm);
}

static void
list_passing (const HwPairing *self, Shelf *shelf, gboolean any_machine)
{
  double swing = get_reach (self, shelf->field);

  for (gsize i = 0; i < shelf->n; i++)
    if (shelf->table[i].slot_mm >= swing - EPSILON
        && (any_machine || (shelf->table[i].machines & self->facts.machines) != 0))
      shelf->passing |= HW_SET (i);
}

/* The first row that fits and whose choice passes the swing. */
static const HwRule *
find_row (const HwPairing *self, const Shelf *shelf)
{
  const HwRule *rules = self->handbook->rules[shelf->subject];
  gsize n_rules = self->handbook->n_rules[shelf->subject];

  for (gsize i = 0; i < n_rules; i++)
    if ((shelf->passing & HW_SET (rules[i].choice)) != 0 && hw_rule_fits (&rules[i], &self->facts))
      return &rules[i];
  return NULL;
}

/* The one wanted, else its fallbacks in their order, else the first accepted one; -1 none of them is owned. */
static int
find_owned (const Shelf *shelf, int wanted, HwSet accept)
{
  HwSet fit = shelf->owned & shelf->passing;

  if ((fit & HW_SET (wanted)) != 0)
    return wanted;
  for (gsize i = 0; i < G_N_ELEMENTS (shelf->table[wanted].fallback) && shelf->table[wanted].fallback[i] >= 0; i++)
    if ((fit & HW_SET (shelf->table[wanted].fallback[i])) != 0)
      return shelf->table[wanted].fallback[i];
  return (fit & accept) != 0 ? __builtin_ctzll (fit & accept) : -1;
}

static gboolean
settle_from_shelf (HwPairing *self, const Shelf *shelf, GError **error)
{
  const HwRule *rule = find_row (self, shelf);
  HwSet fit = shelf->owned & shelf->passing;
  int wanted, choice;

  if (rule == NULL && fit == 0)
    return TRUE;                         /* nothing is said and nothing is owned: no value */
  if (rule != NULL)
    hw_pairing_add_rule (self, shelf->field, rule, NULL);
  else
    hw_pairing_add_reason (self, shelf->field, HW_REASON_MACHINE, self->practice, 0, 0, 0);

  wanted = rule != NULL ? rule->choice : __builtin_ctzll (fit);
  choice = find_owned (shelf, wanted, rule != NULL ? rule->accept : fit);
  if (choice < 0)
    hw_pairing_add_warning (self, shelf->field, HW_WARN_NOT_OWNED, NULL, wanted, 0, 0);
  else if (choice != wanted)
    hw_pairing_add_reason (self, shelf->field, HW_REASON_OWNED, self->practice, wanted, 0, 0);
  return hw_pairing_set_choice (self, shelf->field, choice < 0 ? wanted : choice,
                                rule != NULL ? rule->accept & fit : 0, error);
}

static gboolean
settle_plate (HwPairing *self, GError **error)
{
  const HwMachine *machine = self->setup->machine;
  Shelf shelf = { .field = HW_FIELD_PLATE, .subject = HW_RULES_PLATE, .table = self->handbook->plates,
                  .n = self->handbook->n_plates };

  if (machine->kind != HW_MACHINE_LOCKSTITCH)
    return TRUE;
  for (gsize i = 0; machine->plates != NULL && machine->plates[i] != NULL; i++)
    {
      int plate = hw_handbook_find_plate (self->handbook, machine->plates[i]);

      shelf.owned |= plate >= 0 ? HW_SET (plate) : 0;
    }
  list_passing (self, &shelf, TRUE);
  return settle_from_shelf (self, &shelf, error);
}

static gboolean
settle_foot (HwPairing *self, GError **error)
{
  const HwMachine *machine = self->setup->machine;
  Shelf shelf = { .field = HW_FIELD_FOOT, .subject = HW_RULES_FOOT, .table = self->handbook->feet,
                  .n = self->handbook->n_feet };

  for (gsize i = 0; machine->feet != NULL && machine->feet[i] != NULL; i++)
    {
      int foot = hw_handbook_find_foot (self->handbook, machine->feet[i]);

      shelf.owned |= foot >= 0 ? HW_SET (foot) : 0;
    }
  list_passing (self, &shelf, FALSE);
  return settle_from_shelf (self, &shelf, error);
}

static void
settle_pressure (HwPairing *self)
{
  const HwRule *rule = hw_rules_first (self->handbook, HW_RULES_PRESSURE, &self->facts);

  if (rule != NULL)
    hw_pairing_add_rule (self, HW_FIELD_PRESSURE, rule, NULL);
  else
    hw_pairing_add_reason (self, HW_FIELD_PRESSURE, HW_REASON_MACHINE, self->practice, 0, 0, 0);
  hw_pairing_set_number (self, HW_FIELD_PRESSURE, rule != NULL ? rule->band : (HwBand) { 0, 0, 0 }, HW_NO_LIMITS);
}

gboolean
hw_pairing_settle_foot (HwPairing *self, GError **error)
{
  if (!settle_foot (self, error) || !settle_plate (self, error))
    return FALSE;
  settle_pressure (self);
  return TRUE;
}
