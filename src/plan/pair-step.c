/* pair-step.c - what an operation is: purpose, stitch, seam, machine, and its plies
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/pairing-private.h"

#include <glib/gi18n.h>
#include <math.h>

static gboolean
settle_purpose (HwPairing *self, GError **error)
{
  const char *id = self->step->purpose != NULL ? self->step->purpose : "seam";
  int index = hw_handbook_find_purpose (self->handbook, id);

  if (index < 0)
    {
      hw_pairing_set_unknown (self->handbook, "purpose", id, error);
      return FALSE;
    }
  self->setup->purpose = &self->handbook->purposes[index];
  self->facts.purposes = HW_SET (index);
  return TRUE;
}

static gboolean
settle_seam (HwPairing *self, GError **error)
{
  const char *id = self->step->seam;
  int index = id != NULL ? hw_handbook_find_seam (self->handbook, id) : self->setup->purpose->seam;

  if (id != NULL && index < 0)
    {
      hw_pairing_set_unknown (self->handbook, "seam", id, error);
      return FALSE;
    }
  self->setup->seam = index >= 0 ? &self->handbook->seams[index] : NULL;
  self->facts.seams = index >= 0 ? HW_SET (index) : 0;
  return TRUE;
}

static gboolean
settle_stitch (HwPairing *self, GError **error)
{
  const char *id = self->step->stitch;
  int index = id != NULL ? hw_handbook_find_stitch (self->handbook, id) : self->setup->purpose->stitch;

  if (id != NULL && index < 0)
    {
      hw_pairing_set_unknown (self->handbook, "stitch", id, error);
      return FALSE;
    }
  if (index < 0)
    index = 0;
  if (!hw_pairing_set_choice (self, HW_FIELD_STITCH, index, 0, error))
    return FALSE;
  index = (int) self->setup->values[HW_FIELD_STITCH].value;
  self->setup->stitch = &self->handbook->stitches[index];
  self->facts.stitches = HW_SET (index);
  return TRUE;
}

/* The machine the step names, else the first in the room of a kind that forms the stitch. */
static const HwMachine *
find_machine (const HwPairing *self)
{
  const HwMachine *machine = NULL;

  for (HwMachineKind kind = 0; kind < HW_N_MACHINE_KINDS && machine == NULL; kind++)
    if (self->setup->stitch->machines & (1u << kind))
      machine = hw_room_default_machine (self->room, kind);
  return machine;
}

/* ---- a stitch that is not to be had ---- */

/* "an overlocker or a coverstitch machine" */
static char *
name_kinds (guint machines)
{
  static const char * const kinds[HW_N_MACHINE_KINDS] = {
    [HW_MACHINE_LOCKSTITCH] = N_("a sewing machine"),
    [HW_MACHINE_OVERLOCK] = N_("an overlocker"),
    [HW_MACHINE_COVERSTITCH] = N_("a coverstitch machine"),
  };
  g_autofree char *names = NULL;

  for (HwMachineKind kind = 0; kind < HW_N_MACHINE_KINDS; kind++)
    if ((machines & (1u << kind)) != 0)
      {
        char *longer = names == NULL ? g_strdup (_(kinds[kind]))
                                     /* Translators: two kinds of machine, either of which would do */
                                     : g_strdup_printf (_("%s or %s"), names, _(kinds[kind]));

        g_free (names);
        names = longer;
      }
  return names != NULL ? g_steal_pointer (&names) : g_strdup (_("another machine"));
}

/* The nearest stitch that a machine of the @kinds forms; NULL none. */
static const HwStitch *
find_nearest (const HwPairing *self, guint kinds)
{
  const HwStitch *stitch = self->setup->stitch;

  for (gsize i = 0; i < HW_N_FALLBACK && stitch->fallback[i] >= 0; i++)
    if ((self->handbook->stitches[stitch->fallback[i]].machines & kinds) != 0)
      return &self->handbook->stitches[stitch->fallback[i]];
  return NULL;
}

static guint
list_kinds (const HwRoom *room)
{
  guint kinds = 0;

  for (guint i = 0; i < room->machines->len; i++)
    kinds |= 1u << ((const HwMachine *) g_ptr_array_index (room->machines, i))->kind;
  return kinds;
}

/* @missing says what forms no such stitch; the error goes on to say what would, and what is nearest to it. */
static gboolean
refuse_stitch (const HwPairing *self, const char *missing, guint kinds, GError **error)
{
  g_autofree char *would = name_kinds (self->setup->stitch->machines);
  const HwStitch *nearest = find_nearest (self, kinds);

  if (nearest != NULL)
    /* Translators: what is missing, a sentence; the machine that forms the stitch; another stitch, and its id */
    g_set_error (error, HW_PLAN_ERROR, HW_PLAN_ERROR_NO_MACHINE,
                 _("%s: it takes %s; the nearest to be had is “%s” (%s)"), missing, would, nearest->entry.name,
                 nearest->entry.id);
  else
    /* Translators: what is missing, a sentence; the machine that forms the stitch */
    g_set_error (error, HW_PLAN_ERROR, HW_PLAN_ERROR_NO_MACHINE, _("%s: it takes %s, and no other stitch comes near"),
                 missing, would);
  return FALSE;
}

static gboolean
pick_machine (HwPairing *self, GError **error)
{
  const HwRoom *room = self->room;
  const char *id = self->step->machine;
  g_autofree char *missing = NULL;
  int index;

  if (self->overrides[HW_FIELD_MACHINE] != NULL)
    {
      index = hw_pairing_find_choice (self, HW_FIELD_MACHINE, error);
      if (index < 0)
        return FALSE;
      self->setup->machine = g_ptr_array_index (room->machines, (guint) index);
      return TRUE;
    }
  self->setup->machine = id != NULL ? hw_room_find_machine (room, id) : find_machine (self);
  if (self->setup->machine != NULL)
    return TRUE;
  if (id != NULL)
    {
      g_set_error (error, HW_PLAN_ERROR, HW_PLAN_ERROR_UNKNOWN, _("the sewing room has no machine “%s”"), id);
      return FALSE;
    }
  /* Translators: a stitch */
  missing = g_strdup_printf (_("the sewing room has no machine that forms the stitch “%s”"),
                             self->setup->stitch->entry.name);
  return refuse_stitch (self, missing, list_kinds (room), error);
}

static gboolean
settle_machine (HwPairing *self, GError **error)
{
  HwSetup *setup = self->setup;
  guint index = 0;

  if (!pick_machine (self, error))
    return FALSE;
  if ((setup->stitch->machines & (1u << setup->machine->kind)) == 0)
    {
      /* Translators: a machine, a stitch */
      g_autofree char *missing = g_strdup_printf (_("“%s” does not form the stitch “%s”"), setup->machine->name,
                                                  setup->stitch->entry.name);

      return refuse_stitch (self, missing, 1u << setup->machine->kind, error);
    }
  self->facts.machines = 1u << setup->machine->kind;
  self->twin = setup->stitch->needles > 1 && setup->machine->kind == HW_MACHINE_LOCKSTITCH;
  hw_pairing_add_reason (self, HW_FIELD_MACHINE, HW_REASON_MACHINE, setup->stitch->entry.source, 0, 0, 0);
  hw_pairing_add_reason (self, HW_FIELD_STITCH, HW_REASON_MACHINE, setup->stitch->entry.source, 0, 0, 0);
  return g_ptr_array_find (self->room->machines, setup->machine, &index)
         && hw_pairing_set_choice (self, HW_FIELD_MACHINE, (int) index, 0, error);
}

/* The system is the machine's own and nothing else fits safely. */
static gboolean
settle_system (HwPairing *self, GError **error)
{
  const char *id = self->setup->machine->system;
  int index = hw_handbook_find_system (self->handbook, id);

  if (index < 0)
    {
      hw_pairing_set_unknown (self->handbook, "system", id, error);
      return FALSE;
    }
  hw_pairing_add_reason (self, HW_FIELD_SYSTEM, HW_REASON_MACHINE, self->handbook->systems[index].entry.source,
                         0, 0, 0);
  return hw_pairing_set_choice (self, HW_FIELD_SYSTEM, index, 0, error);
}

gboolean
hw_pairing_settle_step (HwPairing *self, GError **error)
{
  return settle_purpose (self, error) && settle_seam (self, error) && settle_stitch (self, error)
         && settle_machine (self, error) && settle_system (self, error);
}

/* ---- plies ---- */

static const HwCloth *
find_cloth (const GArray *cloths, const char *fabric)
{
  for (guint i = 0; i < cloths->len; i++)
    {
      const HwCloth *cloth = &g_array_index (cloths, HwCloth, i);

      if (g_str_equal (cloth->fabric->id, fabric))
        return cloth;
    }
  return NULL;
}

static const HwCloth *
require_cloth (const GArray *cloths, const char *fabric, GError **error)
{
  const HwCloth *cloth = find_cloth (cloths, fabric);

  if (cloth == NULL)
    g_set_error (error, HW_PLAN_ERROR, HW_PLAN_ERROR_UNKNOWN, _("the project has no fabric “%s”"), fabric);
  return cloth;
}

static void
describe_ply (HwPairing *self, gsize index)
{
  const HwCloth *cloth = self->plies[index].cloth;
  HwFacts *facts = &self->plies[index].facts;

  *facts = self->facts;
  facts->mass_g_m2 = cloth->mass_g_m2;
  facts->thickness_mm = cloth->thickness_mm;
  facts->stretch_percent = cloth->stretch_percent;
  facts->constructions = HW_SET (cloth->construction);
  facts->traits = cloth->traits;
  facts->families = 1u << self->handbook->constructions[cloth->construction].family;
}

/* Interfacing, tape, wadding, elastic: they are in the stack, but what they go with decides. */
static HwSet
find_backing (const HwPairing *self)
{
  int backing = hw_handbook_find_trait (self->handbook, "backing");
  HwSet set = backing >= 0 ? HW_SET (backing) : 0;

  for (gsize i = 0; i < self->n_plies; i++)
    if ((self->plies[i].cloth->traits & set) == 0)
      return set;
  return 0;                              /* nothing but backing: then it is the cloth */
}

/* The heaviest, the stretchiest, and what kind it is. */
static void
add_face (HwPairing *self, const HwPairPly *ply)
{
  HwFacts *facts = &self->facts;

  facts->mass_g_m2 = MAX (facts->mass_g_m2, ply->cloth->mass_g_m2);
  facts->stretch_percent = MAX (facts->stretch_percent, ply->cloth->stretch_percent);
  facts->families |= ply->facts.families;
  self->ply_traits[self->sets.n_plies++] = ply->cloth->traits;
}

/* All the traits and the whole thickness. */
static void
add_to_operation (HwPairing *self, const HwPairPly *ply, HwSet backing)
{
  HwFacts *facts = &self->facts;
  const HwConstruction *construction = &self->handbook->constructions[ply->cloth->construction];
  double thickness_mm = ply->count * ply->cloth->thickness_mm;

  if ((ply->cloth->traits & backing) == 0)
    add_face (self, ply);
  facts->thickness_mm += thickness_mm;
  facts->plies += ply->count;
  facts->constructions |= ply->facts.constructions;
  facts->traits |= ply->facts.traits;
  self->sets.families |= ply->facts.families;
  self->setup->under_foot_mm += thickness_mm * construction->under_foot;
}

static gboolean
measure_crossing (HwPairing *self, const GArray *cloths, GError **error)
{
  for (gsize i = 0; i < self->step->n_crossing; i++)
    {
      const HwPly *ply = &self->step->crossing[i];
      const HwCloth *cloth = require_cloth (cloths, ply->fabric, error);

      if (cloth == NULL)
        return FALSE;
      self->setup->crossing_mm += ply->count * cloth->thickness_mm;
      self->crossing_under_foot_mm += ply->count * cloth->thickness_mm
                                      * self->handbook->constructions[cloth->construction].under_foot;
    }
  return TRUE;
}

gboolean
hw_pairing_lay_plies (HwPairing *self, const GArray *cloths, GError **error)
{
  const HwStep *step = self->step;
  HwSet backing;

  if (step->n_plies == 0)
    {
      g_set_error_literal (error, HW_PLAN_ERROR, HW_PLAN_ERROR_UNKNOWN, _("it says of no fabric that it is sewn"));
      return FALSE;
    }
  self->n_plies = step->n_plies;
  self->plies = g_new0 (HwPairPly, self->n_plies);
  self->ply_traits = g_new0 (HwSet, self->n_plies);
  self->facts.whole = &self->sets;
  for (gsize i = 0; i < self->n_plies; i++)
    {
      self->plies[i].cloth = require_cloth (cloths, step->plies[i].fabric, error);
      if (self->plies[i].cloth == NULL)
        return FALSE;
      self->plies[i].count = step->plies[i].count;
      describe_ply (self, i);
    }
  backing = find_backing (self);
  for (gsize i = 0; i < self->n_plies; i++)
    add_to_operation (self, &self->plies[i], backing);
  for (gsize i = 0; i < self->n_plies; i++)
    self->plies[i].facts.plies = self->facts.plies;

  self->sets.constructions = self->facts.constructions;
  self->sets.traits = self->ply_traits;
  self->setup->thickness_mm = self->facts.thickness_mm;
  return measure_crossing (self, cloths, error);
}
