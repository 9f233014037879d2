/* pair-note.c - reasons, warnings, and values in their bands
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/pairing-private.h"

#include <glib/gi18n.h>
#include <math.h>

void
hw_pairing_add_rule (HwPairing *self, HwField field, const HwRule *rule, const HwCloth *cloth)
{
  gboolean chooses = rule->choice >= 0;
  HwReason reason = {
    .field = field, .code = HW_REASON_RULE, .rule = rule, .source = rule->source, .cloth = cloth,
    .v = { chooses ? rule->choice : rule->band.prefer, rule->band.low, rule->band.high },
  };

  if (!chooses && isnan (reason.v[0]))
    reason.v[0] = rule->band.low;
  g_array_append_val (self->setup->reasons, reason);
}

void
hw_pairing_add_reason (HwPairing      *self,
                       HwField         field,
                       HwReasonCode    code,
                       const HwSource *source,
                       double          v0,
                       double          v1,
                       double          v2)
{
  HwReason reason = { .field = field, .code = code, .source = source, .v = { v0, v1, v2 } };

  g_array_append_val (self->setup->reasons, reason);
}

void
hw_pairing_add_warning (HwPairing     *self,
                        HwField        field,
                        HwWarningCode  code,
                        const HwCloth *cloth,
                        double         v0,
                        double         v1,
                        double         v2)
{
  HwWarning warning = { .field = field, .code = code, .cloth = cloth, .v = { v0, v1, v2 } };

  g_array_append_val (self->setup->warnings, warning);
}

void
hw_pairing_override_number (HwPairing *self, HwField field)
{
  const HwOverride *override = self->overrides[field];
  HwValue *value = &self->setup->values[field];

  if (override == NULL || !value->applies)
    return;
  hw_pairing_add_reason (self, field, HW_REASON_OVERRIDE, self->practice, value->prefer, 0, 0);
  value->value = override->value;
  value->origin = HW_ORIGIN_OVERRIDDEN;
  if (!hw_value_accepts (value, field, value->value))
    hw_pairing_add_warning (self, field, HW_WARN_OVERRIDE_OUTSIDE, NULL, value->value, value->low, value->high);
}

/* @band is what the handbook prefers; the machine's limits cut it, and say so where the preferred value goes. */
void
hw_pairing_set_number (HwPairing *self, HwField field, HwBand band, HwRange machine_limits)
{
  HwValue *value = &self->setup->values[field];
  double low = machine_limits.low, high = MAX (machine_limits.low, machine_limits.high);

  value->applies = TRUE;
  value->low = CLAMP (band.low, low, high);
  value->prefer = value->value = CLAMP (band.prefer, low, high);
  value->high = CLAMP (band.high, low, high);
  if (value->prefer < band.prefer || value->prefer > band.prefer)
    {
      value->origin = HW_ORIGIN_CLAMPED;
      hw_pairing_add_reason (self, field, HW_REASON_CLAMPED, self->practice, band.prefer, value->prefer, 0);
      hw_pairing_add_warning (self, field, HW_WARN_CLAMPED, NULL, band.prefer, value->prefer, 0);
    }
  hw_pairing_override_number (self, field);
}

static int
find_machine (const HwRoom *room, const char *id)
{
  for (guint i = 0; i < room->machines->len; i++)
    if (g_str_equal (((const HwMachine *) g_ptr_array_index (room->machines, i))->id, id))
      return (int) i;
  return -1;
}

static int
find_ends (const char *id)
{
  for (int i = 0; i < HW_N_ENDS; i++)
    if (g_str_equal (hw_ends_ids[i], id))
      return i;
  return -1;
}

static int
find_in_table (const HwPairing *self, HwField field, const char *id, const char **table)
{
  switch (field)
    {
    case HW_FIELD_MACHINE:
      *table = NULL;
      return find_machine (self->room, id);
    case HW_FIELD_STITCH:
      *table = "stitch";
      return hw_handbook_find_stitch (self->handbook, id);
    case HW_FIELD_SYSTEM:
      *table = "system";
      return hw_handbook_find_system (self->handbook, id);
    case HW_FIELD_POINT:
      *table = "point";
      return hw_handbook_find_point (self->handbook, id);
    case HW_FIELD_FOOT:
      *table = "foot";
      return hw_handbook_find_foot (self->handbook, id);
    case HW_FIELD_PLATE:
      *table = "plate";
      return hw_handbook_find_plate (self->handbook, id);
    case HW_FIELD_ENDS:
      *table = NULL;
      return find_ends (id);
    default:
      g_assert_not_reached ();
    }
}

int
hw_pairing_find_choice (HwPairing *self, HwField field, GError **error)
{
  const char *id = self->overrides[field]->choice;
  const char *table = NULL;
  int index = id != NULL ? find_in_table (self, field, id, &table) : -1;

  if (index >= 0)
    return index;
  if (table != NULL && id != NULL)
    hw_pairing_set_unknown (self->handbook, table, id, error);
  else
    /* Translators: the id of a machine, or a word for how ends are secured */
    g_set_error (error, HW_PLAN_ERROR, HW_PLAN_ERROR_UNKNOWN, _("nothing here is called “%s”"), id != NULL ? id : "");
  return -1;
}

gboolean
hw_pairing_set_choice (HwPairing *self, HwField field, int choice, HwSet accept, GError **error)
{
  HwValue *value = &self->setup->values[field];
  int index;

  value->applies = TRUE;
  value->accept = accept | (choice >= 0 ? HW_SET (choice) : 0);
  value->low = value->prefer = value->high = value->value = choice;
  if (self->overrides[field] == NULL)
    return TRUE;

  index = hw_pairing_find_choice (self, field, error);
  if (index < 0)
    return FALSE;
  hw_pairing_add_reason (self, field, HW_REASON_OVERRIDE, self->practice, choice, 0, 0);
  value->value = index;
  value->origin = HW_ORIGIN_OVERRIDDEN;
  if (!hw_value_accepts (value, field, index))
    hw_pairing_add_warning (self, field, HW_WARN_OVERRIDE_OUTSIDE, NULL, index, choice, choice);
  return TRUE;
}
