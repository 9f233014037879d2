/* needles.c - needles to load from now on, and where one wears out
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Walks the steps not done. A needle's hours count divided by the cloth's life factor, on both clocks of
 * the handbook; it is changed before the step in which the first of them would run out. When another needle is
 * wanted it is, first, the most worn one that fits and still lasts until the next change; else a new one
 * from a packet; else the least worn one that lasts through the step; else one to buy. A needle taken out goes back to
 * the case with its hours, or away when they are done. A step that outlasts a new needle is sewn with several: each
 * is changed at the last end of a row that it reaches, or within the row when a single one outlasts it.
 */

#include "config.h"

#include "plan/plan-private.h"

#include <math.h>

#define LIMIT_SLACK 1e-9

/* A needle that is somewhere: in the case, or in a machine. */
typedef struct
{
  HwNeedleKind     kind;
  double           at_machine, running;      /* hours worn */
  const HwNeedle  *needle;                   /* NULL: not in the journal yet */
  const HwMachine *machine;                  /* it sits in; NULL: in the case */
  int              pick;                     /* by which it was taken new; -1 */
  int              loaded_by;                /* the last pick that put it in; -1 */
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
  const HwRoom *room = self->plan->room;

  for (guint i = 0; i < room->needles->len; i++)
    {
      const HwNeedle *needle = g_ptr_array_index (room->needles, i);
      Owned owned = {
        .kind = hw_needle_kind (self->plan->handbook, needle->system, needle->point, needle->nm, needle->twin_mm),
        .at_machine = needle->at_machine_hours,
        .running = needle->running_hours,
        .needle = needle,
        .machine = needle->machine != NULL ? hw_room_find_machine (room, needle->machine) : NULL,
        .pick = -1,
        .loaded_by = -1,
      };

      if (!needle->discarded)
        g_array_append_val (self->owned, owned);
    }
}

static gboolean
is_of_kind (const Owned *owned, const HwMounted *wanted)
{
  return hw_needle_kind_same (owned->kind, hw_mounted_needle (wanted));
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

      if (hw_needle_kind_same (hw_needle_kind (plan->handbook, packet->system, packet->point, packet->nm,
                                               packet->twin_mm), hw_mounted_needle (wanted))
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

/* What the steps from @index on wear off a needle until that machine wants another kind, or even a new one is worn. */
static Wear
run_wear (const Needles *self, gsize index, const HwMounted *wanted)
{
  Wear total = { 0, 0 };

  for (gsize i = index; i < self->plan->order->len && lasts (self, &(Owned) { 0 }, total); i++)
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

/* Worn on whichever of the two clocks has gone further, in hours at the machine. */
static double
hours_worn (const Needles *self, const Owned *owned)
{
  const HwNeedleLife *life = &self->plan->handbook->needle_life;

  return MAX (owned->at_machine, owned->running * life->at_machine_hours / life->running_hours);
}

/* One in the case that lasts through @wear: the most worn, or the least worn. -1 none. */
static int
find_worn (const Needles *self, const HwMounted *wanted, Wear wear, gboolean most)
{
  int best = -1;
  double best_hours = 0;

  for (guint i = 0; i < self->owned->len; i++)
    {
      const Owned *owned = &g_array_index (self->owned, Owned, i);
      double hours = hours_worn (self, owned);

      if (owned->machine != NULL || !is_of_kind (owned, wanted) || !lasts (self, owned, wear))
        continue;
      if (best >= 0 && (most ? hours <= best_hours : hours >= best_hours))
        continue;
      best = (int) i;
      best_hours = hours;
    }
  return best;
}

static HwNeedlePick *
get_pick (const Needles *self, int number)
{
  return g_ptr_array_index (self->plan->needles, (guint) number);
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
  pick->points = hw_plan_setup_at (self->plan, index)->values[HW_FIELD_POINT].accept;
  pick->hours_left = self->plan->handbook->needle_life.at_machine_hours;
  pick->before = (int) index;
  pick->worn_before = -1;
  pick->again = -1;
  g_ptr_array_add (self->plan->needles, pick);
  return pick;
}

static void
put_in_worn (Needles *self, int worn, HwNeedlePick *pick, const HwMachine *machine)
{
  Owned *owned = &g_array_index (self->owned, Owned, worn);

  owned->machine = machine;
  owned->loaded_by = (int) self->plan->needles->len - 1;
  pick->worn = owned->needle;
  pick->again = owned->pick;
  pick->hours_left -= hours_worn (self, owned);
}

static HwNeedlePick *
put_in (Needles *self, gsize index, const HwMounted *wanted, Wear wear)
{
  int worn = find_worn (self, wanted, run_wear (self, index, wanted), TRUE);
  HwNeedlePick *pick = make_pick (self, index, wanted);
  int number = (int) self->plan->needles->len - 1;
  Owned taken = { .kind = hw_mounted_needle (wanted), .machine = wanted->machine, .pick = number, .loaded_by = number };

  if (worn < 0)
    {
      pick->packet = find_packet (self, wanted);
      worn = pick->packet == NULL ? find_worn (self, wanted, wear, FALSE) : -1;
    }
  if (worn >= 0)
    put_in_worn (self, worn, pick, wanted->machine);
  else
    {
      pick->buy = pick->packet == NULL;
      g_array_append_val (self->owned, taken);
    }
  return pick;
}

/* The needle in @wanted's machine, when it is one of the kind wanted. A step of this project sewn there since it was
 * noted tells of the needle too, though not of its hours. */
static Owned *
keep_if_fits (Needles *self, const HwMounted *standing, const HwMounted *wanted)
{
  Owned *there = find_in_machine (self, wanted->machine);
  Owned assumed = { .kind = hw_mounted_needle (wanted), .machine = wanted->machine, .pick = -1, .loaded_by = -1 };

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
tell_pick (const Needles *self, const Owned *owned, gsize index)
{
  if (owned->loaded_by >= 0)
    get_pick (self, owned->loaded_by)->worn_before = (int) index;
}

/* It has hours left, though not enough for this step. */
static void
put_back (Needles *self, Owned *owned, gsize index)
{
  tell_pick (self, owned, index);
  owned->machine = NULL;
}

/* Thrown away: no shorter step will want it. */
static void
wear_out (Needles *self, Owned *owned, gsize index)
{
  tell_pick (self, owned, index);
  g_array_remove_index (self->owned, (guint) (owned - (Owned *) (void *) self->owned->data));
}

/* ---- a step that outlasts a needle ---- */

/* How many equal parts of @wear a new needle lasts through. */
static int
count_lasting (const Needles *self, Wear wear)
{
  const HwNeedleLife *life = &self->plan->handbook->needle_life;
  double at_machine = wear.at_machine > 0 ? life->at_machine_hours / wear.at_machine : G_MAXINT;
  double running = wear.running > 0 ? life->running_hours / wear.running : G_MAXINT;

  return (int) floor (MIN (MIN (at_machine, running), G_MAXINT) + LIMIT_SLACK);
}

/* The needle in the machine is new. Of the rows, @pieces, as many to a needle as it lasts through; rows that outlast a
 * needle are parted evenly. */
static void
sew_in_parts (Needles *self, gsize index, const HwMounted *wanted, Wear wear, int pieces)
{
  HwPlanStep *step = hw_plan_step_at (self->plan, index);
  int each = count_lasting (self, (Wear) { wear.at_machine / pieces, wear.running / pieces });
  gboolean mid_row = each < 1;
  int parts = pieces;
  Wear part;

  while (mid_row && (each = count_lasting (self, (Wear) { wear.at_machine / parts, wear.running / parts })) < 1)
    parts++;
  part = (Wear) { wear.at_machine / parts, wear.running / parts };
  step->needles = 0;
  for (int sewn = 0; sewn < parts; sewn += each)
    {
      Owned *there = find_in_machine (self, wanted->machine);
      int now = MIN (each, parts - sewn);

      if (sewn > 0)
        {
          HwNeedlePick *pick;

          wear_out (self, there, index);
          pick = put_in (self, index, wanted, (Wear) { part.at_machine * now, part.running * now });
          pick->discards = TRUE;
          pick->from_piece = (int) ((gint64) sewn * pieces / parts);
          pick->mid_row = mid_row;
          there = find_in_machine (self, wanted->machine);
        }
      there->at_machine += part.at_machine * now;
      there->running += part.running * now;
      step->needles++;
    }
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
  gboolean outlasts = !lasts (self, &(Owned) { 0 }, wear);

  if (there != NULL && (there->at_machine > 0 || there->running > 0) && !lasts (self, there, wear))
    {
      step->needle_worn = TRUE;
      if (outlasts)
        put_back (self, there, index);
      else
        wear_out (self, there, index);
      there = NULL;
    }
  if (there == NULL)
    {
      put_in (self, index, &wanted, wear)->discards = step->needle_worn && !outlasts;
      there = find_in_machine (self, wanted.machine);
    }
  if (there->loaded_by >= 0)
    get_pick (self, there->loaded_by)->points &= setup->values[HW_FIELD_POINT].accept;
  if (outlasts)
    {
      sew_in_parts (self, index, &wanted, wear, MAX (setup->step->pieces, 1));
      return;
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

      hw_plan_step_at (plan, i)->needles = setup != NULL ? 1 : 0;
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
