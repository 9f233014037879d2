/* pair-dial.c - the dial to start with
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Basting, gathering and thick seams come out of the same sum of terms; nothing here is a special case. What the
 * machine's own test seams taught of the terms stands in their place.
 */

#include "config.h"

#include "model/test-seams.h"
#include "plan/pairing-private.h"

#include <math.h>

#define ORDINARY_SD 0.95                 /* up to this spread, on the 0-9 scale, a whole number either way is printed */
#define SURE_SD 0.5                      /* and up to this one, half a number, once the machine is known: */
#define SURE_SEAMS 5
#define OVERLOCK_NEUTRAL 3.0             /* the number that rows of "overlock-dial" are written for */

static guint32
term_bit (int term)
{
  return term >= 0 ? 1u << term : 0;
}

static guint32
list_cloth_terms (const HwPairing *self)
{
  guint32 terms = 0;

  for (HwSet traits = self->facts.traits; traits != 0; traits &= traits - 1)
    terms |= term_bit (self->handbook->traits[__builtin_ctzll (traits)].tension_term);
  for (gsize i = 0; i < self->n_plies; i++)
    terms |= term_bit (self->handbook->constructions[self->plies[i].cloth->construction].tension_term);
  return terms;
}

static guint32
list_thread_terms (const HwPairing *self)
{
  switch (self->setup->needle_thread.entry->form)
    {
    case HW_THREAD_FILAMENT:
      return term_bit (HW_TENSION_FILAMENT);
    case HW_THREAD_MONOFILAMENT:
      return term_bit (HW_TENSION_MONOFILAMENT);
    case HW_THREAD_METALLIC:
      return term_bit (HW_TENSION_METALLIC);
    case HW_THREAD_SPUN:
    case HW_THREAD_CORE:
    case HW_THREAD_TEXTURED:
    case HW_THREAD_ELASTIC:
    default:
      return 0;
    }
}

static HwTensionFacts
gather_facts (const HwPairing *self)
{
  const HwSetup *setup = self->setup;

  return (HwTensionFacts) {
    .needle_tex = setup->needle_thread.tex,
    .bobbin_tex = setup->bobbin_thread.tex,
    .thickness_mm = setup->under_foot_mm,
    .length_mm = setup->values[HW_FIELD_LENGTH].value,
    .width_mm = setup->values[HW_FIELD_WIDTH].value,
    .terms = list_cloth_terms (self) | list_thread_terms (self)
             | term_bit (setup->stitch->tension_term) | term_bit (setup->purpose->tension_term),
  };
}

/* A printed number, never -0. */
static double
print_step (double dial)
{
  return hw_dial_half_step (dial) + 0.0;
}

static double
get_unit (const HwDialScale *scale)
{
  return (scale->high - scale->low) / 9;
}

static const HwSource own_test_seams = { .id = (char *) "test-seams", .kind = HW_SOURCE_JOURNAL };

/* The handbook's terms, and what this machine's test seams made of their sum. */
static void
explain (HwPairing *self, const HwTensionStart *start, const HwTensionStart *taught, const HwDialScale *scale)
{
  const HwSource *source = self->handbook->tension_source;

  hw_pairing_add_reason (self, HW_FIELD_DIAL, HW_REASON_DIAL_NEUTRAL, source, scale->neutral, 0, 0);
  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    if (fabs (start->terms[term]) > 0)
      hw_pairing_add_reason (self, HW_FIELD_DIAL, HW_REASON_DIAL_TERM, source, term,
                             start->terms[term] * get_unit (scale), 0);
  if (self->setup->n_test_seams > 0)
    hw_pairing_add_reason (self, HW_FIELD_DIAL, HW_REASON_TEST_SEAMS, &own_test_seams, self->setup->n_test_seams,
                           taught->dial - start->dial, taught->sd);
}

/* On an untaught machine a number either way, one and a half where much is uncertain; half a number only after a few
 * test seams, and only where they speak of this operation too. */
static double
choose_spread (const HwSetup *setup, double unit)
{
  if (setup->n_test_seams >= SURE_SEAMS && setup->dial_sd <= SURE_SD * unit)
    return 0.5 * unit;
  return (setup->dial_sd <= ORDINARY_SD * unit ? 1 : 1.5) * unit;
}

/* Where the stitch is likely to end up. */
static void
set_likely (HwSetup *setup, double dial, double spread, const HwDialScale *scale)
{
  setup->dial_likely_low = print_step (CLAMP (dial - spread, scale->low, scale->high));
  setup->dial_likely_high = print_step (CLAMP (dial + spread, scale->low, scale->high));
}

/* A dial shared with another operation may lie half way to the edge of the window on either side. */
static HwBand
find_band (const HwTensionStart *start, double set)
{
  double low = print_step (start->dial - (start->dial - start->window_low) / 2);
  double high = print_step (start->dial + (start->window_high - start->dial) / 2);

  return (HwBand) { MIN (low, set), set, MAX (high, set) };
}

/* Nor may a shared dial lead back to where that scrap was at fault. */
static HwBand
keep_off_fault (HwBand band, const HwTensionBelief *belief, double untaught)
{
  if (hw_tension_belief_is_first_fault (belief) && band.prefer > untaught)
    band.low = band.prefer;
  else if (hw_tension_belief_is_first_fault (belief) && band.prefer < untaught)
    band.high = band.prefer;
  return band;
}

static void
move_start (HwTensionStart *start, double by)
{
  start->dial += by;
  start->window_low += by;
  start->window_high += by;
}

/* What was tried and found good is where to start the same again, whatever else was learned since. */
HwTensionStart
hw_pair_dial_start (const HwTensionPrior *prior, const HwTensionBelief *belief, const HwDialScale *scale,
                    const HwTensionFacts *facts)
{
  HwTensionStart start = hw_tension_belief_start (belief, facts);
  double untaught, good;

  if (hw_tension_belief_find_good (belief, facts, &good))
    move_start (&start, good - start.dial);
  if (!hw_tension_belief_is_first_fault (belief))
    return start;
  untaught = print_step (hw_tension_start (prior, facts, scale).dial);
  move_start (&start, CLAMP (start.dial, untaught - HW_FIRST_STEP, untaught + HW_FIRST_STEP) - start.dial);
  return start;
}

/* Where @set may be moved to so that it serves other steps too; not at all where it was tried and found good. */
static HwBand
make_band (const HwTensionBelief *belief, const HwTensionFacts *facts, const HwTensionStart *start, double untaught)
{
  double set = print_step (start->dial);
  double good;

  if (hw_tension_belief_find_good (belief, facts, &good))
    return (HwBand) { set, set, set };
  return keep_off_fault (find_band (start, set), belief, print_step (untaught));
}

static void
settle_lockstitch_dial (HwPairing *self)
{
  HwSetup *setup = self->setup;
  const HwDialScale *scale = &setup->machine->dial;
  const HwTensionPrior *prior = &self->handbook->tension;
  const HwTensionBelief *belief = hw_room_get_belief (self->room, setup->machine, prior);
  HwTensionStart untaught, start;
  HwBand band;
  double set;

  setup->tension = gather_facts (self);
  setup->n_test_seams = hw_tension_belief_n_telling (belief);
  untaught = hw_tension_start (prior, &setup->tension, scale);
  start = hw_pair_dial_start (prior, belief, scale, &setup->tension);
  set = print_step (start.dial);
  explain (self, &untaught, &start, scale);
  band = make_band (belief, &setup->tension, &start, untaught.dial);
  hw_pairing_set_number (self, HW_FIELD_DIAL, band, (HwRange) { scale->low, scale->high });
  setup->dial_sd = start.sd;
  setup->window_low = start.window_low;
  setup->window_high = start.window_high;
  set_likely (setup, set, choose_spread (setup, get_unit (scale)), scale);
}

static double
place_on_scale (double dial, const HwDialScale *scale)
{
  double placed = scale->neutral + (dial - OVERLOCK_NEUTRAL) * get_unit (scale);

  return print_step (CLAMP (placed, scale->low, scale->high));
}

/* All dials of an overlocker or coverstitch machine start at its own manual's number. */
static void
settle_overlock_dial (HwPairing *self)
{
  HwSetup *setup = self->setup;
  const HwDialScale *scale = &setup->machine->dial;
  const HwRule *rule = hw_rules_first (self->handbook, HW_RULES_LOOPER_DIAL, &self->facts);
  HwBand row = rule != NULL ? rule->band : (HwBand) { OVERLOCK_NEUTRAL, OVERLOCK_NEUTRAL, OVERLOCK_NEUTRAL };
  HwBand band = { place_on_scale (row.low, scale), place_on_scale (row.prefer, scale),
                  place_on_scale (row.high, scale) };

  hw_pairing_add_reason (self, HW_FIELD_DIAL, HW_REASON_DIAL_NEUTRAL, self->practice, scale->neutral, 0, 0);
  if (rule != NULL)
    hw_pairing_add_rule (self, HW_FIELD_DIAL, rule, NULL);
  hw_pairing_set_number (self, HW_FIELD_DIAL, band, (HwRange) { scale->low, scale->high });
  setup->dial_sd = (band.high - band.low) / 2;
  setup->window_low = setup->dial_likely_low = band.low;
  setup->window_high = setup->dial_likely_high = band.high;
}

void
hw_pairing_settle_dial (HwPairing *self)
{
  if (self->setup->machine->kind == HW_MACHINE_LOCKSTITCH)
    settle_lockstitch_dial (self);
  else
    settle_overlock_dial (self);
}

HwBand
hw_pair_dial_band (const HwHandbook *handbook, const HwRoom *room, const HwSetup *setup, double length_mm)
{
  const HwValue *own = &setup->values[HW_FIELD_DIAL];
  const HwDialScale *scale = &setup->machine->dial;
  const HwTensionBelief *belief;
  HwTensionFacts facts = setup->tension;
  HwTensionStart start, untaught;
  HwBand band;

  if (setup->machine->kind != HW_MACHINE_LOCKSTITCH)
    return (HwBand) { own->low, own->prefer, own->high };
  facts.length_mm = length_mm;
  belief = hw_room_get_belief (room, setup->machine, &handbook->tension);
  untaught = hw_tension_start (&handbook->tension, &facts, scale);
  start = hw_pair_dial_start (&handbook->tension, belief, scale, &facts);
  band = make_band (belief, &facts, &start, untaught.dial);
  return (HwBand) { CLAMP (band.low, scale->low, scale->high), CLAMP (band.prefer, scale->low, scale->high),
                    CLAMP (band.high, scale->low, scale->high) };
}
