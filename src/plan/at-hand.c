/* at-hand.c - a needle that the sewing room has, where it passes as well
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Nobody buys a packet for a step that a needle in the case sews as well. Where none of the preferred size is there,
 * the nearest in the step's own bands is taken instead: of the same system and spacing, and with the thread within a
 * third of its blade, as for every needle taken for another reason than the cloth's.
 */

#include "config.h"

#include "plan/at-hand.h"
#include "plan/plan-private.h"
#include "trade/needle.h"

#include <math.h>
#include <string.h>

/* ---- what is there ---- */

static void
add_kind (GArray *kinds, HwNeedleKind kind)
{
  if (kind.system < 0 || kind.point < 0 || kind.size_nm <= 0)
    return;
  for (guint i = 0; i < kinds->len; i++)
    if (hw_needle_kind_same (g_array_index (kinds, HwNeedleKind, i), kind))
      return;
  g_array_append_val (kinds, kind);
}

gboolean
hw_needle_has_hours_left (const HwHandbook *handbook, const HwNeedle *needle)
{
  return !needle->discarded && needle->at_machine_hours < handbook->needle_life.at_machine_hours
         && needle->running_hours < handbook->needle_life.running_hours;
}

GArray *
hw_needles_at_hand (const HwHandbook *handbook, const HwRoom *room)
{
  GArray *kinds = g_array_new (FALSE, TRUE, sizeof (HwNeedleKind));

  for (guint i = 0; i < room->packets->len; i++)
    {
      const HwPacket *packet = g_ptr_array_index (room->packets, i);

      if (hw_room_new_needles (room, packet) > 0)
        add_kind (kinds, hw_needle_kind (handbook, packet->system, packet->point, packet->nm, packet->twin_mm));
    }
  for (guint i = 0; i < room->needles->len; i++)
    {
      const HwNeedle *needle = g_ptr_array_index (room->needles, i);

      if (needle->machine == NULL && hw_needle_has_hours_left (handbook, needle))
        add_kind (kinds, hw_needle_kind (handbook, needle->system, needle->point, needle->nm, needle->twin_mm));
    }
  return kinds;
}

/* ---- taking it ---- */

int
hw_needle_distance (const HwNeedleKind *a, const HwNeedleKind *b)
{
  return ABS (a->size_nm - b->size_nm) + (a->point != b->point ? 2 * HW_NEEDLE_STEP : 0) + ABS (a->twin - b->twin) / 10
         + (a->system != b->system ? 4 * HW_NEEDLE_STEP : 0);
}

gboolean
hw_needle_takes_thread (const HwPlan *plan, const HwSetup *setup, const HwNeedleKind *kind)
{
  double diameter = setup->needle_thread.diameter_mm;
  double blade;

  if (kind->point < 0 || !(diameter > 0))
    return TRUE;
  blade = hw_needle_blade_mm (kind->size_nm) * plan->handbook->points[kind->point].eye_factor;
  return diameter <= HW_NEEDLE_THREAD_SHARE_SHARED * blade;
}

/* Of two as near the larger: the thread runs easier in it. */
static gboolean
is_nearer (const HwNeedleKind *kind, const HwNeedleKind *other, const HwNeedleKind *wanted)
{
  int far = hw_needle_distance (kind, wanted), other_far = hw_needle_distance (other, wanted);

  return other->size_nm == 0 || far < other_far || (far == other_far && kind->size_nm > other->size_nm);
}

static gboolean
passes (const HwPlan *plan, const HwSetup *setup, const HwNeedleKind *kind, const HwNeedleKind *wanted)
{
  return kind->system == wanted->system && kind->twin == wanted->twin
         && (kind->point == wanted->point || (setup->values[HW_FIELD_POINT].origin == HW_ORIGIN_PREFERRED
                                              && hw_value_accepts (&setup->values[HW_FIELD_POINT], HW_FIELD_POINT,
                                                                   kind->point)))
         && hw_value_accepts (&setup->values[HW_FIELD_SIZE], HW_FIELD_SIZE, kind->size_nm)
         && hw_needle_takes_thread (plan, setup, kind);
}

/* The nearest that passes, that preferred itself where it is there; of size 0: none. */
static HwNeedleKind
find_nearest (const HwPlan *plan, const HwSetup *setup, const HwNeedleKind *wanted)
{
  const HwNeedle *there = hw_room_get_state (plan->room, setup->machine)->needle;
  HwNeedleKind nearest = { .size_nm = 0 };

  for (guint i = 0; i < plan->at_hand->len; i++)
    {
      const HwNeedleKind *kind = &g_array_index (plan->at_hand, HwNeedleKind, i);

      if (passes (plan, setup, kind, wanted) && is_nearer (kind, &nearest, wanted))
        nearest = *kind;
    }
  if (there != NULL && hw_needle_has_hours_left (plan->handbook, there))
    {
      HwNeedleKind kind = hw_needle_kind (plan->handbook, there->system, there->point, there->nm, there->twin_mm);

      if (passes (plan, setup, &kind, wanted) && is_nearer (&kind, &nearest, wanted))
        nearest = kind;
    }
  return nearest;
}

static void
take_value (const HwPlan *plan, HwSetup *setup, HwField field, double value)
{
  HwValue *own = &setup->values[field];
  HwReason reason = { .field = field, .code = HW_REASON_AT_HAND, .source = plan->costs.source, .v = { own->value } };

  if (fabs (own->value - value) < 1e-6)
    return;
  own->value = value;
  own->origin = HW_ORIGIN_AT_HAND;
  g_array_append_val (setup->reasons, reason);
}

void
hw_setup_prefer_at_hand (const HwPlan *plan, HwSetup *setup)
{
  const HwValue *size = &setup->values[HW_FIELD_SIZE];
  HwMounted mounted = hw_mounted_from_setup (setup);
  HwNeedleKind wanted = hw_mounted_needle (&mounted);
  HwNeedleKind nearest;

  if (!setup->step->share || !plan->project->share || !size->applies || size->origin != HW_ORIGIN_PREFERRED)
    return;
  nearest = find_nearest (plan, setup, &wanted);
  if (nearest.size_nm == 0)
    return;
  take_value (plan, setup, HW_FIELD_POINT, nearest.point);
  take_value (plan, setup, HW_FIELD_SIZE, nearest.size_nm);
}

void
hw_setup_forget_at_hand (HwSetup *setup)
{
  for (guint i = setup->reasons->len; i-- > 0;)
    {
      const HwReason *reason = &g_array_index (setup->reasons, HwReason, i);

      if (reason->code != HW_REASON_AT_HAND)
        continue;
      setup->values[reason->field].value = reason->v[0];
      setup->values[reason->field].origin = HW_ORIGIN_PREFERRED;
      g_array_remove_index (setup->reasons, i);
    }
}

void
hw_plan_prefer_at_hand (HwPlan *plan)
{
  plan->at_hand = hw_needles_at_hand (plan->handbook, plan->room);
  for (gsize i = 0; i < plan->n_steps; i++)
    if (plan->setups[i] != NULL)
      hw_setup_prefer_at_hand (plan, plan->setups[i]);
}
