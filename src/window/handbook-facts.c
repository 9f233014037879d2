/* handbook-facts.c - the handbook's entries as a list, and what each says as lines of text
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/handbook-facts.h"

#include <glib/gi18n.h>
#include <math.h>

#include "words/words.h"

static void
add_items (GArray     *items,
           const char *table,
           const char *kind,
           const void *entries,
           gsize       n,
           gsize       size)
{
  for (gsize i = 0; i < n; i++)
    {
      HwHandbookItem item = { table, kind, (const HwEntry *) ((const char *) entries + i * size) };

      g_array_append_val (items, item);
    }
}

GArray *
hw_handbook_items (const HwHandbook *handbook)
{
  GArray *items = g_array_new (FALSE, FALSE, sizeof (HwHandbookItem));

  add_items (items, "fabric", _("Fabric"), handbook->fabrics, handbook->n_fabrics, sizeof (HwFabric));
  add_items (items, "point", _("Needle point"), handbook->points, handbook->n_points, sizeof (HwPoint));
  add_items (items, "system", _("Needle system"), handbook->systems, handbook->n_systems, sizeof (HwNeedleSystem));
  add_items (items, "thread", _("Thread"), handbook->threads, handbook->n_threads, sizeof (HwThreadEntry));
  add_items (items, "stitch", _("Stitch"), handbook->stitches, handbook->n_stitches, sizeof (HwStitch));
  add_items (items, "seam", _("Seam"), handbook->seams, handbook->n_seams, sizeof (HwSeam));
  add_items (items, "purpose", _("Purpose"), handbook->purposes, handbook->n_purposes, sizeof (HwPurpose));
  add_items (items, "foot", _("Foot"), handbook->feet, handbook->n_feet, sizeof (HwFoot));
  add_items (items, "plate", _("Plate"), handbook->plates, handbook->n_plates, sizeof (HwPlate));
  add_items (items, "care", _("Care"), handbook->care, handbook->n_care, sizeof (HwCareTask));
  add_items (items, "construction", _("Construction"), handbook->constructions, handbook->n_constructions,
             sizeof (HwConstruction));
  add_items (items, "trait", _("Trait"), handbook->traits, handbook->n_traits, sizeof (HwTrait));
  return items;
}

/* ---- figures ---- */

typedef struct
{
  HwFactFunc fact;
  gpointer   data;
} Teller;

static void
tell (const Teller *teller,
      const char   *name,
      char         *value)              /* (transfer full) */
{
  teller->fact (name, value, teller->data);
  g_free (value);
}

static char *
say_band (const HwBand *band,
          const char   *unit)
{
  g_autofree char *low = hw_words_number (band->low, 2);
  g_autofree char *prefer = hw_words_number (band->prefer, 2);
  g_autofree char *high = hw_words_number (band->high, 2);

  if (band->low >= band->high)
    return g_strdup_printf ("%s %s", prefer, unit);
  /* Translators: typical value, unit, lowest, highest */
  return g_strdup_printf (_("%s %s, from %s to %s"), prefer, unit, low, high);
}

static char *
say_range (const HwRange *range,
           const char    *unit)
{
  g_autofree char *low = hw_words_number (range->low, 2);
  g_autofree char *high = hw_words_number (range->high, 2);

  /* Translators: lowest, highest, unit */
  return g_strdup_printf (_("%s to %s %s"), low, high, unit);
}

static char *
say_traits (const HwHandbook *handbook,
            HwSet             traits)
{
  g_autoptr (GStrvBuilder) names = g_strv_builder_new ();
  g_auto (GStrv)           list = NULL;

  for (gsize i = 0; i < handbook->n_traits; i++)
    if ((traits & HW_SET (i)) != 0)
      g_strv_builder_add (names, _(handbook->traits[i].entry.name));
  list = g_strv_builder_end (names);
  return list[0] != NULL ? g_strjoinv (", ", list) : g_strdup (_("none"));
}

static void
tell_fabric (const Teller     *teller,
             const HwHandbook *handbook,
             const HwFabric   *fabric)
{
  g_autofree char *stretch = hw_words_number (fabric->stretch_percent, 0);

  tell (teller, _("Construction"), g_strdup (_(handbook->constructions[fabric->construction].entry.name)));
  tell (teller, _("Mass"), say_band (&fabric->mass_g_m2, "g/m²"));
  tell (teller, _("Thickness"), say_band (&fabric->thickness_mm, "mm"));
  tell (teller, _("Stretch"), g_strdup_printf ("%s %%", stretch));
  tell (teller, _("Traits"), say_traits (handbook, fabric->traits));
}

static void
tell_point (const Teller  *teller,
            const HwPoint *point)
{
  GString *sizes = g_string_new (NULL);
  GString *twins = g_string_new (NULL);

  for (gsize i = 0; i < point->n_sizes; i++)
    {
      g_autofree char *size = hw_words_size (point->sizes[i], 0);

      g_string_append_printf (sizes, "%s%s", i > 0 ? ", " : "", size);
    }
  for (gsize i = 0; i < point->n_twins; i++)
    {
      g_autofree char *size = hw_words_size (point->twins[i].nm, point->twins[i].spacing_mm);

      g_string_append_printf (twins, "%s%s", i > 0 ? ", " : "", size);
    }
  if (point->letters != NULL)
    tell (teller, _("Letters on the packet"), g_strdup (point->letters));
  tell (teller, _("Sizes"), g_string_free (sizes, FALSE));
  if (twins->len > 0)
    tell (teller, _("As twin needle"), g_string_free (twins, FALSE));
  else
    g_string_free (twins, TRUE);
}

static void
tell_thread (const Teller        *teller,
             const HwThreadEntry *thread)
{
  g_autofree char *density = hw_words_number (thread->density, 2);
  g_autofree char *tenacity = hw_words_number (thread->tenacity_cn_tex, 0);

  tell (teller, _("Fibre"), g_strdup (_(thread->fibre)));
  tell (teller, _("Size, tex"), hw_words_number (thread->tex, 1));
  tell (teller, _("Fibre density"), g_strdup_printf ("%s g/cm³", density));
  if (thread->tenacity_cn_tex > 0)
    tell (teller, _("Strength"), g_strdup_printf ("%s cN/tex", tenacity));
}

static void
tell_stitch (const Teller   *teller,
             const HwStitch *stitch)
{
  tell (teller, _("ISO 4915"), g_strdup (stitch->iso[0] != '\0' ? stitch->iso : _("no verified number")));
  tell (teller, _("Length"), say_range (&stitch->length_mm, "mm"));
  if (stitch->width_mm.high > 0)
    tell (teller, _("Width"), say_range (&stitch->width_mm, "mm"));
  tell (teller, _("Needles"), g_strdup_printf ("%d", stitch->needles));
  if (stitch->loopers > 0)
    tell (teller, _("Loopers"), g_strdup_printf ("%d", stitch->loopers));
}

static void
tell_seam (const Teller *teller,
           const HwSeam *seam)
{
  tell (teller, _("ISO 4916"), g_strdup_printf (_("class %d, family %s; last digits not verified"), seam->iso_class,
                                                seam->iso_family != NULL ? seam->iso_family : "–"));
}

static void
tell_purpose (const Teller     *teller,
              const HwHandbook *handbook,
              const HwPurpose  *purpose)
{
  g_autofree char *share = hw_words_number (purpose->speed_share * 100, 0);

  if (purpose->seam >= 0)
    tell (teller, _("Seam offered first"), g_strdup (_(handbook->seams[purpose->seam].entry.name)));
  if (purpose->stitch >= 0)
    tell (teller, _("Stitch offered first"), g_strdup (_(handbook->stitches[purpose->stitch].entry.name)));
  tell (teller, _("Share of top speed"), g_strdup_printf ("%s %%", share));
  tell (teller, _("Handling"), hw_words_minutes (purpose->handling_minutes));
}

static void
tell_care (const Teller     *teller,
           const HwCareTask *care)
{
  for (char **step = care->steps; step != NULL && *step != NULL; step++)
    tell (teller, _("Step"), g_strdup (_(*step)));
  for (char **caution = care->cautions; caution != NULL && *caution != NULL; caution++)
    tell (teller, _("Caution"), g_strdup (_(*caution)));
  tell (teller, _("Takes"), hw_words_minutes (care->minutes));
}

void
hw_handbook_facts (const HwHandbook     *handbook,
                   const HwHandbookItem *item,
                   HwFactFunc            fact,
                   gpointer              data)
{
  const Teller teller = { fact, data };
  /* Every entry's struct begins with its HwEntry. */
  const void  *whole = item->entry;

  if (g_str_equal (item->table, "fabric"))
    tell_fabric (&teller, handbook, whole);
  else if (g_str_equal (item->table, "point"))
    tell_point (&teller, whole);
  else if (g_str_equal (item->table, "thread"))
    tell_thread (&teller, whole);
  else if (g_str_equal (item->table, "stitch"))
    tell_stitch (&teller, whole);
  else if (g_str_equal (item->table, "seam"))
    tell_seam (&teller, whole);
  else if (g_str_equal (item->table, "purpose"))
    tell_purpose (&teller, handbook, whole);
  else if (g_str_equal (item->table, "care"))
    tell_care (&teller, whole);
}
