/* share-take.c - how far a shared set-up lies from the preferred one, and what taking it does
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/share.h"

#include <math.h>
#include <string.h>

/* Ten for another foot or plate, half a millimetre, a number of the dial or a step of pressure, as for a needle's size.
 * Own judgement. */
#define WEIGH_STEP HW_NEEDLE_STEP

/* Soft parts are in hundredths. */
static int
measure_soft (const int *a, const int *b)
{
  static const int hundredths[HW_N_SOFT_PARTS] = {
    [HW_SOFT_LENGTH] = 50, [HW_SOFT_WIDTH] = 50, [HW_SOFT_PRESSURE] = 100, [HW_SOFT_DIAL] = 100,
    [HW_SOFT_DIFFERENTIAL] = 20, [HW_SOFT_CUTTING_WIDTH] = 100,
  };
  int distance = 0;

  for (int i = 0; i < HW_N_SOFT_PARTS; i++)
    distance += ABS (a[i] - b[i]) * WEIGH_STEP / hundredths[i];
  return distance;
}

/* Other than preferred is never as near. */
int
hw_sharing_measure (const HwSharing *self, gsize operation, const HwShareVariant *variant,
                    const HwShareNumbers *numbers)
{
  const HwShareValues *values = g_ptr_array_index (self->machines, (guint) self->operations[operation].machine);
  const int *prefer = g_array_index (self->operations[operation].variants, HwShareVariant, 0).prefer;
  int distance = variant->distance;

  distance += hw_needle_distance (&values->needles[prefer[HW_SHARE_NEEDLE]],
                              &values->needles[numbers->value[HW_SHARE_NEEDLE]]);
  distance += measure_soft (values->soft[prefer[HW_SHARE_SOFT]], values->soft[numbers->value[HW_SHARE_SOFT]]);
  distance += prefer[HW_SHARE_FOOT] != numbers->value[HW_SHARE_FOOT] ? WEIGH_STEP : 0;
  distance += prefer[HW_SHARE_PLATE] != numbers->value[HW_SHARE_PLATE] ? WEIGH_STEP : 0;
  return MAX (distance, 1);
}

/* ---- taking it ---- */

static void
note_agreed (HwPlan *plan, HwSetup *setup, HwField field, double preferred)
{
  HwReason reason = { .field = field, .code = HW_REASON_AGREED, .source = plan->costs.source, .v = { preferred } };

  setup->values[field].origin = HW_ORIGIN_AGREED;
  g_array_append_val (setup->reasons, reason);
}

static void
move_value (HwPlan *plan, HwSetup *setup, HwField field, double value)
{
  HwValue *own = &setup->values[field];
  double preferred = own->value;

  if (!own->applies || fabs (preferred - value) < 1e-6)
    return;
  own->value = value;
  note_agreed (plan, setup, field, preferred);
}

static int
find_agreed (const HwSetup *setup, HwField field)
{
  for (guint i = 0; i < setup->reasons->len; i++)
    {
      const HwReason *reason = &g_array_index (setup->reasons, HwReason, i);

      if (reason->field == field && reason->code == HW_REASON_AGREED)
        return (int) i;
    }
  return -1;
}

double
hw_setup_get_preferred_dial (const HwSetup *setup)
{
  int agreed = find_agreed (setup, HW_FIELD_DIAL);

  return agreed < 0 ? setup->values[HW_FIELD_DIAL].value : g_array_index (setup->reasons, HwReason, agreed).v[0];
}

/* A dial moved twice is told once, and one that came back not at all. */
void
hw_setup_agree_dial (HwPlan *plan, HwSetup *setup, double dial)
{
  HwValue *own = &setup->values[HW_FIELD_DIAL];
  double   preferred = hw_setup_get_preferred_dial (setup);
  int      agreed = find_agreed (setup, HW_FIELD_DIAL);

  if (fabs (own->value - dial) < 1e-6)
    return;
  if (agreed >= 0)
    g_array_remove_index (setup->reasons, (guint) agreed);
  own->value = dial;
  own->origin = HW_ORIGIN_PREFERRED;
  if (fabs (preferred - dial) >= 1e-6)
    note_agreed (plan, setup, HW_FIELD_DIAL, preferred);
}

/* The needle at hand was the second choice: another is told beside the first. */
static void
move_needle (HwPlan *plan, HwSetup *setup, double point, double size_nm)
{
  if (fabs (setup->values[HW_FIELD_SIZE].value - size_nm) >= 1e-6
      || fabs (setup->values[HW_FIELD_POINT].value - point) >= 1e-6)
    hw_setup_forget_at_hand (setup);
  move_value (plan, setup, HW_FIELD_POINT, point);
  move_value (plan, setup, HW_FIELD_SIZE, size_nm);
}

/* The words of an override are for the person's own; this one was agreed on. */
static void
turn_override (HwSetup *setup, HwField field, const HwSource *source)
{
  for (guint i = 0; i < setup->reasons->len; i++)
    {
      HwReason *reason = &g_array_index (setup->reasons, HwReason, i);

      if (reason->field != field || reason->code != HW_REASON_OVERRIDE)
        continue;
      reason->code = HW_REASON_AGREED;
      reason->source = source;
    }
  setup->values[field].origin = HW_ORIGIN_AGREED;
}

/* The set-up paired anew with the threads of @variant at another length, which the dial follows. */
static HwSetup *
pair_at_length (const HwPlan *plan, const HwShareVariant *variant, double length_mm)
{
  const HwSetup *setup = variant->setup;
  HwStep step = *setup->step;            /* for the call alone: what it points to stays the project's */
  g_autofree HwOverride *overrides = g_new0 (HwOverride, step.n_overrides + 1);
  HwSetup *other;

  for (gsize i = 0; i < step.n_overrides; i++)
    overrides[i] = step.overrides[i];
  overrides[step.n_overrides++] = (HwOverride) { .field = HW_FIELD_LENGTH, .value = length_mm };
  step.overrides = overrides;
  if (setup->needle_thread.thread != NULL)
    step.needle_thread = setup->needle_thread.thread->id;
  if (setup->bobbin_thread.thread != NULL)
    step.bobbin_thread = setup->bobbin_thread.thread->id;
  other = hw_pair (plan->handbook, plan->project, plan->cloths, plan->room, &step, NULL);
  if (other == NULL)
    return NULL;
  other->step = setup->step;
  hw_setup_prefer_at_hand (plan, other);
  turn_override (other, HW_FIELD_LENGTH, plan->costs.source);
  return other;
}

/* @setup stays where it is, for others point to its threads; what it holds becomes that of @other, which goes. */
static void
replace_contents (HwSetup *setup, HwSetup *other)
{
  HwSetup old = *setup;

  *setup = *other;
  *other = old;
  hw_setup_free (other);
}

static HwShareVariant *
find_variant (const HwSharing *self, gsize operation, int kind)
{
  GArray *variants = self->operations[operation].variants;

  for (guint v = 0; v < variants->len; v++)
    if (g_array_index (variants, HwShareVariant, v).kind == kind)
      return &g_array_index (variants, HwShareVariant, v);
  return NULL;
}

static void
take_threads_and_length (HwSharing *self, HwSetup *setup, HwShareVariant *variant, double length_mm)
{
  double needle_tex = setup->needle_thread.tex, bobbin_tex = setup->bobbin_thread.tex;
  const HwValue *length = &variant->setup->values[HW_FIELD_LENGTH];
  HwSetup *other = NULL;

  if (length->applies && fabs (length->value - length_mm) > 1e-6)
    other = pair_at_length (self->plan, variant, length_mm);
  else if (variant->own)
    {
      other = variant->setup;
      variant->own = FALSE;              /* goes over to the plan */
    }
  if (other == NULL)
    return;
  replace_contents (setup, other);
  if (variant->setup == other)
    variant->setup = setup;
  if (fabs (needle_tex - setup->needle_thread.tex) > 1e-6)
    note_agreed (self->plan, setup, HW_FIELD_NEEDLE_TEX, needle_tex);
  if (fabs (bobbin_tex - setup->bobbin_thread.tex) > 1e-6)
    note_agreed (self->plan, setup, HW_FIELD_BOBBIN_TEX, bobbin_tex);
}

void
hw_sharing_take (HwSharing *self, gsize operation, int taken)
{
  const HwShareNumbers *numbers = &g_array_index (self->numbers, HwShareNumbers, taken);
  HwShareVariant *variant;
  const HwShareValues *values;
  const HwNeedleKind *needle;
  const int *soft;
  HwSetup *setup = self->plan->setups[self->operations[operation].step];

  if (numbers->machine < 0 || taken == self->prefer[operation])
    return;
  variant = find_variant (self, operation, numbers->kind);
  values = g_ptr_array_index (self->machines, (guint) numbers->machine);
  needle = &values->needles[numbers->value[HW_SHARE_NEEDLE]];
  soft = values->soft[numbers->value[HW_SHARE_SOFT]];
  take_threads_and_length (self, setup, variant, soft[HW_SOFT_LENGTH] / 100.0);
  move_value (self->plan, setup, HW_FIELD_SYSTEM, needle->system);
  move_needle (self->plan, setup, needle->point, needle->size_nm);
  move_value (self->plan, setup, HW_FIELD_TWIN, needle->twin / 100.0);
  move_value (self->plan, setup, HW_FIELD_FOOT, values->feet[numbers->value[HW_SHARE_FOOT]]);
  move_value (self->plan, setup, HW_FIELD_PLATE, values->plates[numbers->value[HW_SHARE_PLATE]]);
  for (int i = 0; i < HW_N_SOFT_PARTS; i++)
    move_value (self->plan, setup, hw_soft_fields[i], soft[i] / 100.0);
}

/* ---- what was sewn ---- */

/* Length and the dial that goes with it. */
static void
take_sewn_soft (HwPlan *plan, HwSetup *setup, const HwJournalEntry *entry)
{
  const HwValue *length = &setup->values[HW_FIELD_LENGTH];
  const HwShareVariant variant = { .setup = setup };
  HwSetup *other = NULL;

  if (entry->length_mm > 0 && fabs (length->value - entry->length_mm) > 1e-6
      && hw_value_accepts (length, HW_FIELD_LENGTH, entry->length_mm))
    other = pair_at_length (plan, &variant, entry->length_mm);
  if (other != NULL)
    replace_contents (setup, other);
}

static void
take_sewn (HwPlan *plan, HwSetup *setup, HwField field, double value)
{
  if (hw_value_accepts (&setup->values[field], field, value))
    move_value (plan, setup, field, value);
}

/* A journal entry of sewing names its needle, which knows how far its points stand apart. */
static void
take_sewn_needle (HwPlan *plan, HwSetup *setup, const HwJournalEntry *entry)
{
  const HwValue *own_point = &setup->values[HW_FIELD_POINT], *own_size = &setup->values[HW_FIELD_SIZE];
  double point = entry->point != NULL ? hw_handbook_find_point (plan->handbook, entry->point) : -1;
  double size_nm = entry->nm;
  const HwNeedle *needle = NULL;

  if (!hw_value_accepts (own_point, HW_FIELD_POINT, point))
    point = own_point->value;
  if (!(size_nm > 0) || !hw_value_accepts (own_size, HW_FIELD_SIZE, size_nm))
    size_nm = own_size->value;
  move_needle (plan, setup, point, size_nm);
  if (setup->values[HW_FIELD_TWIN].applies)
    needle = hw_room_find_needle (plan->room, entry->needle);
  if (needle != NULL && needle->twin_mm > 0 && needle->nm == entry->nm)
    take_sewn (plan, setup, HW_FIELD_TWIN, needle->twin_mm);
}

void
hw_setup_take_sewn (HwPlan *plan, gsize step, const HwJournalEntry *entry)
{
  const HwHandbook *handbook = plan->handbook;
  HwSetup *setup = plan->setups[step];

  if (strcmp (entry->machine, setup->machine->id) != 0)
    return;
  take_sewn_soft (plan, setup, entry);
  if (entry->dial > 0)
    take_sewn (plan, setup, HW_FIELD_DIAL, entry->dial);
  if (entry->width_mm > 0)
    take_sewn (plan, setup, HW_FIELD_WIDTH, entry->width_mm);
  take_sewn_needle (plan, setup, entry);
  if (entry->foot != NULL)
    take_sewn (plan, setup, HW_FIELD_FOOT, hw_handbook_find_foot (handbook, entry->foot));
  if (entry->plate != NULL)
    take_sewn (plan, setup, HW_FIELD_PLATE, hw_handbook_find_plate (handbook, entry->plate));
}
