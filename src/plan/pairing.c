/* pairing.c - finds the set-up for one operation from the handbook, with reasons
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The parts run one after the other; each reads what those before it settled, overrides included, so that
 * an overridden length feeds the dial and an overridden size the thread's share of the blade.
 */

#include "config.h"

#include "plan/pairing-private.h"

#include <glib/gi18n.h>

#define EPSILON 1e-9

G_DEFINE_QUARK (hw-plan-error-quark, hw_plan_error)

static void
clear_pairing (HwPairing *self)
{
  g_clear_pointer (&self->setup, hw_setup_free);
  g_clear_pointer (&self->plies, g_free);
  g_clear_pointer (&self->ply_traits, g_free);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (HwPairing, clear_pairing)

static HwSetup *
new_setup (const HwStep *step)
{
  HwSetup *setup = g_new0 (HwSetup, 1);

  setup->step = step;
  setup->reasons = g_array_sized_new (FALSE, TRUE, sizeof (HwReason), 40);
  setup->warnings = g_array_new (FALSE, TRUE, sizeof (HwWarning));
  for (gsize field = 0; field < HW_N_FIELDS; field++)
    setup->values[field].origin = HW_ORIGIN_PREFERRED;
  setup->values[HW_FIELD_PLATE].prefer = setup->values[HW_FIELD_PLATE].value = -1;
  setup->values[HW_FIELD_FOOT].prefer = setup->values[HW_FIELD_FOOT].value = -1;
  return setup;
}

/* What stands behind our own reasons: common practice, for which every handbook has an entry. */
static const HwSource *
find_practice (const HwHandbook *handbook)
{
  int index = hw_handbook_find_source (handbook, "common-practice");

  return index >= 0 ? &handbook->sources[index] : handbook->tension_source;
}

static gboolean
settle (HwPairing *self, const GArray *cloths, GError **error)
{
  if (!hw_pairing_settle_step (self, error)
      || !hw_pairing_lay_plies (self, cloths, error)
      || !hw_pairing_settle_threads (self, error)
      || !hw_pairing_settle_point (self, error))
    return FALSE;

  hw_pairing_settle_size (self);
  hw_pairing_settle_stitch (self);
  if (!hw_pairing_settle_foot (self, error) || !hw_pairing_settle_ends (self, error))
    return FALSE;

  hw_pairing_settle_dial (self);
  hw_pairing_settle_wear (self);
  return TRUE;
}

HwSetup *
hw_pair (const HwHandbook *handbook,
         const HwProject  *project,
         const GArray     *cloths,
         const HwRoom     *room,
         const HwStep     *step,
         GError          **error)
{
  g_auto (HwPairing) self = { .handbook = handbook, .project = project, .room = room, .step = step };

  g_return_val_if_fail (handbook != NULL && project != NULL && cloths != NULL && room != NULL, NULL);
  g_return_val_if_fail (step != NULL && step->kind == HW_STEP_OPERATION, NULL);

  self.practice = find_practice (handbook);
  self.setup = new_setup (step);
  for (gsize i = 0; i < step->n_overrides; i++)
    self.overrides[step->overrides[i].field] = &step->overrides[i];

  if (!settle (&self, cloths, error))
    {
      /* Translators: a step's number; what is wrong with it follows */
      g_prefix_error (error, _("Step %s: "), step->number);
      return NULL;
    }
  return g_steal_pointer (&self.setup);
}

void
hw_setup_free (HwSetup *self)
{
  if (self == NULL)
    return;
  g_array_unref (self->reasons);
  g_array_unref (self->warnings);
  g_free (self->foot_missing);
  g_free (self);
}

gboolean
hw_value_accepts (const HwValue *self, HwField field, double value)
{
  g_return_val_if_fail (self != NULL, FALSE);

  if (!self->applies)
    return FALSE;
  if (hw_field_is_choice (field))
    return value >= 0 && value < 64 && (self->accept & HW_SET ((guint) value)) != 0;
  return value >= self->low - EPSILON && value <= self->high + EPSILON;
}
