/* cloth.c - a project's fabrics with everything resolved
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/pairing-private.h"

#include <glib/gi18n.h>

void
hw_pairing_set_unknown (const HwHandbook *handbook, const char *table, const char *id, GError **error)
{
  g_autofree char *nearest = hw_handbook_nearest_id (handbook, table, id);

  if (nearest != NULL)
    /* Translators: an id, the id probably meant */
    g_set_error (error, HW_PLAN_ERROR, HW_PLAN_ERROR_UNKNOWN,
                 _("the handbook does not know “%s”; did you mean “%s”?"), id, nearest);
  else
    /* Translators: an id */
    g_set_error (error, HW_PLAN_ERROR, HW_PLAN_ERROR_UNKNOWN, _("the handbook does not know “%s”"), id);
}

static gboolean
take_from_handbook (HwCloth *cloth, const HwHandbook *handbook, GError **error)
{
  int index = hw_handbook_find_fabric (handbook, cloth->fabric->handbook);

  if (index < 0)
    {
      hw_pairing_set_unknown (handbook, "fabric", cloth->fabric->handbook, error);
      return FALSE;
    }
  cloth->entry = &handbook->fabrics[index];
  cloth->construction = cloth->entry->construction;
  cloth->mass_g_m2 = cloth->entry->mass_g_m2.prefer;
  cloth->thickness_mm = cloth->entry->thickness_mm.prefer;
  cloth->stretch_percent = cloth->entry->stretch_percent;
  cloth->traits = cloth->entry->traits;
  return TRUE;
}

static gboolean
take_construction (HwCloth *cloth, const HwHandbook *handbook, GError **error)
{
  const char *id = cloth->fabric->construction;

  if (id == NULL)
    {
      g_set_error_literal (error, HW_PLAN_ERROR, HW_PLAN_ERROR_UNKNOWN,
                           _("it names neither a fabric of the handbook nor a construction"));
      return FALSE;
    }
  cloth->construction = hw_handbook_find_construction (handbook, id);
  if (cloth->construction >= 0)
    return TRUE;
  hw_pairing_set_unknown (handbook, "construction", id, error);
  return FALSE;
}

static gboolean
add_traits (HwCloth *cloth, const HwHandbook *handbook, GError **error)
{
  char **ids = cloth->fabric->traits;

  for (gsize i = 0; ids != NULL && ids[i] != NULL; i++)
    {
      int trait = hw_handbook_find_trait (handbook, ids[i]);

      if (trait < 0)
        {
          hw_pairing_set_unknown (handbook, "trait", ids[i], error);
          return FALSE;
        }
      cloth->traits |= HW_SET (trait);
    }
  return TRUE;
}

/* What was weighed and not measured is thought as dense as the handbook's cloth of its name: a heavier denim is a
 * thicker one. */
static void
take_measured (HwCloth *cloth)
{
  const HwProjectFabric *fabric = cloth->fabric;

  if (fabric->mass_g_m2 > 0 && cloth->entry != NULL && !(fabric->thickness_mm > 0))
    {
      cloth->thickness_mm *= fabric->mass_g_m2 / cloth->mass_g_m2;
      cloth->thickness_estimated = TRUE;
    }
  if (fabric->mass_g_m2 > 0)
    cloth->mass_g_m2 = fabric->mass_g_m2;
  if (fabric->thickness_mm > 0)
    cloth->thickness_mm = fabric->thickness_mm;
  if (fabric->stretch_percent >= 0)
    cloth->stretch_percent = fabric->stretch_percent;
}

/* Mass and thickness tell of each other through the bulk density that is usual for the construction:
 * g/m2 over mm is 1000 times g/cm3. */
static gboolean
guess_missing (HwCloth *cloth, const HwHandbook *handbook, GError **error)
{
  double bulk_density = handbook->constructions[cloth->construction].bulk_density;

  if (cloth->mass_g_m2 <= 0 && cloth->thickness_mm <= 0)
    {
      g_set_error_literal (error, HW_PLAN_ERROR, HW_PLAN_ERROR_UNKNOWN,
                           _("it has neither a mass nor a thickness; weigh or measure it"));
      return FALSE;
    }
  if (cloth->thickness_mm <= 0)
    {
      cloth->thickness_mm = cloth->mass_g_m2 / (1000 * bulk_density);
      cloth->thickness_estimated = TRUE;
    }
  if (cloth->mass_g_m2 <= 0)
    cloth->mass_g_m2 = cloth->thickness_mm * 1000 * bulk_density;
  return TRUE;
}

static gboolean
lies_in (double value, HwRange range)
{
  return value >= range.low && value <= range.high;
}

/* Velvet has a pile and coated cloth sticks, whether or not it is said of a cloth that the handbook does not have. */
static void
add_unsaid_traits (HwCloth *cloth, const HwHandbook *handbook)
{
  for (gsize i = 0; i < handbook->n_traits; i++)
    {
      const HwTrait *trait = &handbook->traits[i];

      if ((trait->constructions & HW_SET (cloth->construction)) != 0
          && lies_in (cloth->mass_g_m2, trait->mass_g_m2) && lies_in (cloth->thickness_mm, trait->thickness_mm)
          && lies_in (cloth->stretch_percent, trait->stretch_percent))
        cloth->traits |= HW_SET (i);
    }
}

static gboolean
resolve (HwCloth *cloth, const HwHandbook *handbook, GError **error)
{
  gboolean found = cloth->fabric->handbook != NULL ? take_from_handbook (cloth, handbook, error)
                                                   : take_construction (cloth, handbook, error);

  if (!found || !add_traits (cloth, handbook, error))
    return FALSE;
  take_measured (cloth);
  if (!guess_missing (cloth, handbook, error))
    return FALSE;
  if (cloth->entry == NULL)
    add_unsaid_traits (cloth, handbook);
  return TRUE;
}

GArray *
hw_cloths_resolve (const HwHandbook *handbook, const HwProject *project, GError **error)
{
  g_autoptr (GArray) cloths = NULL;

  g_return_val_if_fail (handbook != NULL && project != NULL, NULL);

  cloths = g_array_sized_new (FALSE, TRUE, sizeof (HwCloth), project->fabrics->len);
  for (guint i = 0; i < project->fabrics->len; i++)
    {
      HwCloth cloth = { .fabric = g_ptr_array_index (project->fabrics, i) };

      if (!resolve (&cloth, handbook, error))
        {
          /* Translators: the name of a fabric; what is wrong with it follows */
          g_prefix_error (error, _("Fabric “%s”: "), cloth.fabric->name);
          return NULL;
        }
      g_array_append_val (cloths, cloth);
    }
  return g_steal_pointer (&cloths);
}
