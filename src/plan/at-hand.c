/* at-hand.c - a needle of the size that the sewing room has, where it passes as well
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Nobody buys a packet for a step that a needle in the case sews as well. Where none of the preferred size is there,
 * the nearest in the step's own band is taken instead: of the same system, point and spacing, and with the thread
 * within a third of its blade, as for every size taken for another reason than the cloth's.
 */

#include "config.h"

#include "plan/at-hand.h"
#include "plan/plan-private.h"

#include <math.h>
#include <string.h>

/* ---- what is there ---- */

static void
add_kind (GArray *kinds, HwNeedleKind kind)
{
  if (kind.system < 0 || kind.point < 0 || kind.size_nm <= 0)
    return;
  for (guint i = 0; i < kinds->len; i++)
    if (memcmp (&g_array_index (kinds, HwNeedleKind, i), &kind, sizeof kind) == 0)
      return;
  g_array_append_val (kinds, kind);
}

static HwNeedleKind
make_kind (const HwHandbook *handbook, const char *system, const char *point, int size_nm, double twin_mm)
{
  return (HwNeedleKind) { system != NULL ? hw_handbook_find_system (handbook, system) : -1,
                          point != NULL ? hw_handbook_find_point (handbook, point) : -1, size_nm,
                          (int) lround (twin_mm * 100) };
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
        add_kind (kinds, make_kind (handbook, packet->system, packet->point, packet->nm, packet->twin_mm));
    }
  for (guint i = 0; i < room->needles->len; i++)
    {
      const HwNeedle *needle = g_ptr_array_index (room->needles, i);

      if (needle->machine == NULL && hw_needle_has_hours_left (handbook, needle))
        add_kind (kinds, make_kind (handbook, needle->system, needle->point, needle->nm, needle->twin_mm));
    }
  return kinds;
}

/* ---- taking it ---- */

/* Of two as near the larger: the thread runs easier in it. */
static gboolean
is_nearer (int size_nm, int other_nm, int wanted_nm)
{
  int far = ABS (size_nm - wanted_nm), other_far = ABS (other_nm - wanted_nm);

  return other_nm == 0 || far < other_far || (far == other_far && size_nm > other_nm);
}

/* @size_nm: the nearest so far, 0 none; that of @kind where it is nearer and passes. */
static void
try_kind (const HwPlan *plan, const HwSetup *setup, const HwNeedleKind *wanted, const HwNeedleKind *kind, int *size_nm)
{
  if (kind->system == wanted->system && kind->point == wanted->point && kind->twin == wanted->twin
      && hw_value_accepts (&setup->values[HW_FIELD_SIZE], HW_FIELD_SIZE, kind->size_nm)
      && hw_needle_takes_thread (plan, setup, kind) && is_nearer (kind->size_nm, *size_nm, wanted->size_nm))
    *size_nm = kind->size_nm;
}

/* In Nm, that preferred itself where it is there; 0: none that passes. */
static int
find_size (const HwPlan *plan, const HwSetup *setup, const HwNeedleKind *wanted)
{
  const HwNeedle *there = hw_room_get_state (plan->room, setup->machine)->needle;
  int size_nm = 0;

  for (guint i = 0; i < plan->at_hand->len; i++)
    try_kind (plan, setup, wanted, &g_array_index (plan->at_hand, HwNeedleKind, i), &size_nm);
  if (there != NULL && hw_needle_has_hours_left (plan->handbook, there))
    {
      HwNeedleKind kind = make_kind (plan->handbook, there->system, there->point, there->nm, there->twin_mm);

      try_kind (plan, setup, wanted, &kind, &size_nm);
    }
  return size_nm;
}

void
hw_setup_prefer_at_hand (const HwPlan *plan, HwSetup *setup)
{
  HwValue *size = &setup->values[HW_FIELD_SIZE];
  HwMounted mounted = hw_mounted_from_setup (setup);
  HwNeedleKind wanted = { mounted.system, mounted.point, mounted.size_nm, mounted.twin };
  HwReason reason = { .field = HW_FIELD_SIZE, .code = HW_REASON_AT_HAND, .source = plan->costs.source };
  int found;

  if (!setup->step->share || !plan->project->share || !size->applies || size->origin != HW_ORIGIN_PREFERRED)
    return;
  found = find_size (plan, setup, &wanted);
  if (found == 0 || found == wanted.size_nm)
    return;
  reason.v[0] = size->value;
  size->value = found;
  size->origin = HW_ORIGIN_AT_HAND;
  g_array_append_val (setup->reasons, reason);
}

void
hw_setup_forget_at_hand (HwSetup *setup)
{
  HwValue *size = &setup->values[HW_FIELD_SIZE];

  if (size->origin != HW_ORIGIN_AT_HAND)
    return;
  for (guint i = setup->reasons->len; i-- > 0;)
    if (g_array_index (setup->reasons, HwReason, i).code == HW_REASON_AT_HAND)
      {
        size->value = g_array_index (setup->reasons, HwReason, i).v[0];
        g_array_remove_index (setup->reasons, i);
      }
  size->origin = HW_ORIGIN_PREFERRED;
}

void
hw_plan_prefer_at_hand (HwPlan *plan)
{
  plan->at_hand = hw_needles_at_hand (plan->handbook, plan->room);
  for (gsize i = 0; i < plan->n_steps; i++)
    if (plan->setups[i] != NULL)
      hw_setup_prefer_at_hand (plan, plan->setups[i]);
}
