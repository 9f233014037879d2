/* needles.c - needles to load from now on, and where one wears out
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Walks the steps not done. A needle's hours count divided by the cloth's life factor, on both clocks of
 * the handbook; it is changed before the step in which the first of them would run out. When another needle is
 * wanted it is, first, the most worn one that fits and still lasts until the next change; else a new one
 * from a packet; else one to buy. A needle taken out goes back to the case with its hours.
 */

#include "config.h"

#include "plan/plan-private.h"

#include <math.h>
#include <string.h>

#define LIMIT_SLACK 1e-9

/* A needle that is somewhere: in the case, or in a machine. */
typedef struct
{
  int              system, point, size_nm, twin;
  double           at_machine, running;      /* hours worn */
  const HwNeedle  *needle;                   /* NULL: not in the journal yet */
  const HwMachine *machine;                  /* it sits in; NULL: in the case */
  int              pick;                     /* by which it was taken new; -1 */
} Owned;

typedef struct { double at_machine, running; } Wear;

typedef struct
{
  HwPlan *plan;
  GArray *owned;            /* Owned */
  int    *taken;            /* [packets] taken from it in this plan */
} Needles;

/* ---- what is there ---- */

static void
list_owned (Needles *self)
{
  const HwHandbook *handbook = self->plan->handbook;
  const HwRoom *room = self->plan->room;

  for (guint i = 0; i < room->needles->len; i++)
    {
      const HwNeedle *needle = g_ptr_array_index (room->needles, i);
      Owned owned = {
        .system = needle->system != NULL ? hw_handbook_find_system (handbook, needle->system) : -1,
        .point = needle->point != NULL ? hw_handbook_find_point (handbook, needle->point) : -1,
        .size_nm = needle->nm,
        .twin = (int) lround (needle->twin_mm * 100),
        .at_machine = needle->at_machine_hours,
        .running = needle->running_hours,
        .needle = needle,
        .machine = needle->machine != NULL ? hw_room_find_machine (room, needle->machine) : NULL,
        .pick = -1,
      };

      if (!needle->discarded)
        g_array_append_val (self->owned, owned);
    }
}

static gboolean
is_of_kind (const Owned *owned, const HwMounted *wanted)
{
  return owned->system == wanted->system && owned->point == wanted->point && owned->size_nm == wanted->size_nm
         && owned->twin == wanted->twin;
}

static Owned *
find_in_machine (const Needles *self, const HwMachine *machine)
{
  for (guint i = 0; i < self->owned->len; i++)
    if (g_array_index (self->owned, Owned, i).machine == machine)
      return &g_array_index (self->owned, Owned, i);
  return NULL;
}

static const HwPacket *
find_packet (const Needles *self, const HwMounted *wanted)
{
  const HwPlan *plan = self->plan;

  for (guint i = 0; i < plan->room->packets->len; i++)
    {
      const HwPacket *packet = g_ptr_array_index (plan->room->packets, i);

      if (packet->nm == wanted->size_nm && (int) lround (packet->twin_mm * 100) == wanted->twin
          && hw_handbook_find_system (plan->handbook, packet->system) == wanted->system
          && hw_handbook_find_point (plan->handbook, packet->point) == wanted->point
          && hw_room_new_needles (plan->room, packet) > self->taken[i])
        {
          self->taken[i]++;
          return packet;
        }
    }
  return NULL;
}

/* ---- wear ---- */

static Wear
step_wear (const HwPlanStep *step, const HwSetup *setup)
{
  double life = setup->needle_life > 0 ? setup->needle_life : 1;

  return (Wear) { step->minutes / 60 / life, step->running / 60 / life };
}

static gboolean
lasts (const Needles *self, const Owned *owned, Wear wear)
{
  const HwNeedleLife *life = &self->plan->handbook->needle_life;

  return owned->at_machine + wear.at_machine <= life->at_machine_hours + LIMIT_SLACK
         && owned->running + wear.running <= life->running_hours + LIMIT_SLACK;
}

/* What the steps from @index on wear off a needle until that machine wants another kind. */
static Wear
run_wear (const Needles *self, gsize index, const HwMounted *wanted)
{
  Wear total = { 0, 0 };

  for (gsize i = index; i < self->plan->order->len; i++)
    {
      const HwSetup *setup = hw_plan_setup_at (self->plan, i);
      HwMounted mounted;
      Wear wear;

      if (setup == NULL || setup->machine != wanted->machine)
        continue;
      mounted = hw_mounted_from_setup (setup);
      if (!hw_mounted_same_needle (&mounted, wanted))
        break;
      wear = step_wear (hw_plan_step_at (self->plan, i), setup);
      total.at_machine += wear.at_machine;
      total.running += wear.running;
    }
  return total;
}

/* ---- picking ---- */

static int
find_worn (const Needles *self, const HwMounted *wanted, Wear run)
{
  int best = -1;

  for (guint i = 0; i < self->owned->len; i++)
    {
      const Owned *owned = &g_array_index (self->owned, Owned, i);

      if (owned->machine != NULL || !is_of_kind (owned, wanted) || !lasts (self, owned, run))
        continue;
      if (best < 0 || owned->at_machine > g_array_index (self->owned, Owned, best).at_machine)
        best = (int) i;
    }
  return best;
}

static HwNeedlePick *
make_pick (const Needles *self, gsize index, const HwMounted *wanted)
{
  HwNeedlePick *pick = g_new0 (HwNeedlePick, 1);

  pick->system = wanted->system;
  pick->point = wanted->point;
  pick->size_nm = wanted->size_nm;
  pick->twin_mm = wanted->twin / 100.0;
  pick->group = hw_plan_step_at (self->plan, index)->group;
  pick->hours_left = self->plan->handbook->needle_life.at_machine_hours;
  pick->before = (int) index;
  pick->again = -1;
  g_ptr_array_add (self->plan->needles, pick);
  return pick;
}

static void
put_in (Needles *self, gsize index, const HwMounted *wanted)
{
  int worn = find_worn (self, wanted, run_wear (self, index, wanted));
  HwNeedlePick *pick = make_pick (self, index, wanted);
  Owned taken = { .system = wanted->system, .point = wanted->point, .size_nm = wanted->size_nm, .twin = wanted->twin,
                  .machine = wanted->machine, .pick = (int) self->plan->needles->len - 1 };

  if (worn >= 0)
    {
      Owned *owned = &g_array_index (self->owned, Owned, worn);

      owned->machine = wanted->machine;
      pick->worn = owned->needle;
      pick->again = owned->pick;
      pick->hours_left -= owned->at_machine;
      return;
    }
  pick->packet = find_packet (self, wanted);
  pick->buy = pick->packet == NULL;
  g_array_append_val (self->owned, taken);
}

/* The needle in @wanted's machine, when it is one of the kind wanted. A step of this project sewn there since it was
 * noted tells of the needle too, though not of its hours. */
static Owned *
keep_if_fits (Needles *self, const HwMounted *standing, const HwMounted *wanted)
{
  Owned *there = find_in_machine (self, wanted->machine);
  Owned assumed = { .system = wanted->system, .point = wanted->point, .size_nm = wanted->size_nm, .twin = wanted->twin,
                    .machine = wanted->machine, .pick = -1 };

  if (there != NULL && is_of_kind (there, wanted))
    return there;
  if (there != NULL)
    there->machine = NULL;
  if (standing == NULL || !standing->known || !hw_mounted_same_needle (standing, wanted))
    return NULL;
  g_array_append_val (self->owned, assumed);
  return &g_array_index (self->owned, Owned, self->owned->len - 1);
}

static void
discard (Needles *self, Owned *owned)
{
  g_array_remove_index (self->owned, (guint) (owned - (Owned *) (void *) self->owned->data));
}

/* Sews one step; @standing as for keep_if_fits(). */
static void
wear_step (Needles *self, gsize index, const HwMounted *standing)
{
  HwPlanStep *step = hw_plan_step_at (self->plan, index);
  const HwSetup *setup = self->plan->setups[step->step];
  HwMounted wanted = hw_mounted_from_setup (setup);
  Wear wear = step_wear (step, setup);
  Owned *there = keep_if_fits (self, standing, &wanted);

  if (there != NULL && (there->at_machine > 0 || there->running > 0) && !lasts (self, there, wear))
    {
      step->needle_worn = TRUE;
      discard (self, there);
      there = NULL;
    }
  if (there == NULL)
    {
      put_in (self, index, &wanted);
      there = find_in_machine (self, wanted.machine);
    }
  there->at_machine += wear.at_machine;
  there->running += wear.running;
}

void
hw_plan_pick_needles (HwPlan *plan)
{
  g_autoptr (GArray) owned = g_array_new (FALSE, FALSE, sizeof (Owned));
  g_autoptr (GPtrArray) begun = g_ptr_array_new ();      /* machines that have sewn */
  g_autofree int *taken = g_new0 (int, plan->room->packets->len + 1);
  Needles self = { plan, owned, taken };

  list_owned (&self);
  for (gsize i = 0; i < plan->order->len; i++)
    {
      const HwSetup *setup = hw_plan_setup_at (plan, i);

      if (setup == NULL || hw_plan_step_at (plan, i)->done)
        continue;
      if (g_ptr_array_find (begun, setup->machine, NULL))
        wear_step (&self, i, NULL);
      else
        {
          HwMounted standing = hw_mounted_now (plan, setup->machine);

          g_ptr_array_add (begun, (gpointer) setup->machine);
          wear_step (&self, i, &standing);
        }
    }
}
