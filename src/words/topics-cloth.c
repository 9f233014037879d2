/* topics-cloth.c - what the handbook says of cloth, needles, thread, stitches, seams, purposes, feet and care
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/topics-private.h"
#include "words/words.h"

#include <glib/gi18n.h>

static const char * const point_forms[] = { N_("round"), N_("ball"), N_("cutting") };

/* ---- cloth ---- */

void
hw_tell_fabric (HwTeller       *self,
                const HwFabric *fabric)
{
  hw_tell_entry (self, _("Construction"), "construction", fabric->construction);
  hw_tell_band (self, _("Mass"), &fabric->mass_g_m2, "g/m²");
  hw_tell_band (self, _("Thickness"), &fabric->thickness_mm, "mm");
  hw_tell_number (self, _("Stretch"), fabric->stretch_percent, 0, "%");
  if (fabric->traits == 0)
    hw_tell (self, _("Traits"), NULL);
  hw_tell_set (self, _("Traits"), "trait", fabric->traits);
  if (fabric->fibre != NULL)
    hw_tell (self, _("Fibre"), g_strdup (hw_words_fibre (fabric->fibre)));
}

void
hw_tell_construction (HwTeller             *self,
                      const HwConstruction *construction)
{
  hw_tell (self, _("Family"), g_strdup (hw_topic_family (construction->family)));
  hw_tell_number (self, _("Bulk density"), construction->bulk_density, 3, "g/cm³");
  /* Translators: how much of a cloth's thickness is left when the presser foot is down */
  hw_tell_number (self, _("Left under the foot"), construction->under_foot * 100, 0, "%");
  hw_tell_term (self, construction->tension_term);
}

void
hw_tell_trait (HwTeller      *self,
               const HwTrait *trait)
{
  hw_tell_number (self, _("Dusting hours count"), trait->lint_factor, 2, "×");
  hw_tell_number (self, _("A needle lasts"), trait->needle_life, 2, "×");
  hw_tell_number (self, _("Sewn at a speed of"), trait->speed_factor, 2, "×");
  hw_tell_term (self, trait->tension_term);
  if (trait->constructions == 0)
    return;
  hw_tell_set (self, _("Own cloth of"), "construction", trait->constructions);
  hw_tell_range (self, _("Of a mass of"), &trait->mass_g_m2, "g/m²");
  hw_tell_range (self, _("Of a thickness of"), &trait->thickness_mm, "mm");
  hw_tell_range (self, _("Of a stretch of"), &trait->stretch_percent, "%");
}

/* ---- needles and threads ---- */

void
hw_tell_system (HwTeller             *self,
                const HwNeedleSystem *system)
{
  hw_tell (self, _("Also called"), g_strdup (system->also));
  hw_tell_machines (self, system->machines);
}

void
hw_tell_point (HwTeller      *self,
               const HwPoint *point)
{
  g_autoptr (GString) sizes = g_string_new (NULL);

  for (gsize i = 0; i < point->n_sizes; i++)
    {
      g_autofree char *size = hw_words_size (point->sizes[i], 0);

      g_string_append_printf (sizes, "%s%s", i > 0 ? " " : "", size);
    }
  hw_tell (self, _("Letters"), g_strdup (point->letters));
  hw_tell (self, _("Form"), g_strdup (_(point_forms[point->form])));
  hw_tell_set (self, _("Systems"), "system", point->systems);
  hw_tell (self, _("Sizes"), g_strdup (sizes->str));
  for (gsize i = 0; i < point->n_twins; i++)
    hw_tell (self, i == 0 ? _("As twin needle") : NULL, hw_words_size (point->twins[i].nm, point->twins[i].spacing_mm));
  /* Translators: how much more thread a needle's eye takes than an ordinary one */
  hw_tell_number (self, _("Eye"), point->eye_factor, 2, "×");
}

void
hw_tell_thread (HwTeller            *self,
                const HwThreadEntry *thread)
{
  hw_tell (self, _("Fibre"), g_strdup (hw_words_fibre (thread->fibre)));
  hw_tell (self, _("Form"), g_strdup (hw_topic_form (thread->form)));
  hw_tell_number (self, _("Tex"), thread->tex, 1, "");
  hw_tell_number (self, _("Fibre density"), thread->density, 2, "g/cm³");
  hw_tell_number (self, _("Packing"), thread->packing * 100, 0, "%");
  if (thread->tenacity_cn_tex > 0)
    hw_tell_number (self, _("Tenacity"), thread->tenacity_cn_tex, 1, "cN/tex");
  hw_tell_machines (self, thread->machines);
}

/* ---- stitches and seams ---- */

void
hw_tell_stitch (HwTeller       *self,
                const HwStitch *stitch)
{
  int threads = stitch->needles + stitch->loopers + (stitch->bobbin ? 1 : 0);

  hw_tell (self, _("ISO 4915"), g_strdup (stitch->iso[0] != '\0' ? stitch->iso : _("no verified number")));
  hw_tell_machines (self, stitch->machines);
  hw_tell_range (self, _("Length"), &stitch->length_mm, "mm");
  if (stitch->width_mm.high > 0)
    hw_tell_range (self, _("Width"), &stitch->width_mm, "mm");
  hw_tell_number (self, _("Threads"), threads, 0, "");
  if (stitch->loopers > 0)
    hw_tell_number (self, _("Loopers"), stitch->loopers, 0, "");
  for (gsize i = 0; i < HW_N_FALLBACK && stitch->fallback[i] >= 0; i++)
    hw_tell_entry (self, i == 0 ? _("Instead of it") : NULL, "stitch", stitch->fallback[i]);
  if (stitch->shape == HW_THREAD_USE_RATIO)
    hw_tell_number (self, _("Thread per metre"), stitch->ratio, 1, "m");
  else
    hw_tell (self, _("Thread per metre"), g_strdup (_("reckoned from thickness and stitch length")));
  hw_tell_term (self, stitch->tension_term);
}

void
hw_tell_seam (HwTeller     *self,
              const HwSeam *seam)
{
  hw_tell (self, _("ISO 4916"), seam->iso_family != NULL
             ? g_strdup_printf (_("class %d, family %s (last digits not verified)"), seam->iso_class, seam->iso_family)
             : g_strdup_printf (_("class %d (family not verified)"), seam->iso_class));
  if (seam->together != HW_TOGETHER_UNSAID)
    hw_tell (self, _("Sewn with"), g_strdup (hw_words_together (seam->together)));
}

void
hw_tell_purpose (HwTeller        *self,
                 const HwPurpose *purpose)
{
  hw_tell_entry (self, _("Seam offered first"), "seam", purpose->seam);
  hw_tell_entry (self, _("Stitch offered first"), "stitch", purpose->stitch);
  hw_tell_number (self, _("Share of top speed"), purpose->speed_share * 100, 0, "%");
  hw_tell_minutes (self, _("Handling"), purpose->handling_minutes);
  hw_tell_minutes (self, _("Each start and stop"), purpose->start_stop_minutes);
  if (purpose->per_metre_minutes > 0)
    hw_tell_minutes (self, _("Each metre"), purpose->per_metre_minutes);
  hw_tell_term (self, purpose->tension_term);
}

/* ---- feet, plates, care ---- */

void
hw_tell_foot (HwTeller     *self,
              const HwFoot *foot,
              const char   *table)
{
  hw_tell_machines (self, foot->machines);
  if (foot->slot_mm > 0)
    hw_tell_number (self, _("Widest swing"), foot->slot_mm, 1, "mm");
  else
    hw_tell (self, _("Widest swing"), g_strdup (_("none: straight stitch only")));
  if (foot->needle != HW_NEEDLE_UNSAID)
    hw_tell (self, _("Needle"), g_strdup (hw_words_place_reason (foot->needle)));
  if (foot->notch_mm > 0)
    hw_tell_number (self, _("Notch beside the middle"), foot->notch_mm, 1, "mm");
  for (gsize i = 0; i < G_N_ELEMENTS (foot->fallback) && foot->fallback[i] >= 0; i++)
    hw_tell_entry (self, i == 0 ? _("Instead of it") : NULL, table, foot->fallback[i]);
}

static char *
say_limit (const HwCareTask *care)
{
  g_autofree char *limit = hw_words_number (care->limit, 1);

  switch (care->clock)
    {
    case HW_CLOCK_RUNNING:
      /* Translators: how often a care task is due */
      return g_strdup_printf (_("%s h with the needle moving"), limit);
    case HW_CLOCK_AT_MACHINE:
      /* Translators: how often a care task is due */
      return g_strdup_printf (_("%s h at the machine"), limit);
    case HW_CLOCK_MONTHS:
      /* Translators: how often a care task is due */
      return g_strdup_printf (_("%s months"), limit);
    case HW_CLOCK_SEWING_DAY:
    default:
      return g_strdup (_("each day of sewing"));
    }
}

void
hw_tell_care (HwTeller         *self,
              const HwCareTask *care)
{
  hw_tell_machines (self, care->machines);
  hw_tell (self, _("Due after"), care->only_by_manual ? g_strdup (_("what its own manual says, and only then"))
                                                      : say_limit (care));
  if (care->or_months > 0)
    hw_tell_number (self, _("At the latest after"), care->or_months, 0, _("months"));
  if (care->counts_lint)
    hw_tell (self, _("Counts"), g_strdup (_("hours in cloth that sheds twice")));
  hw_tell_minutes (self, _("Takes"), care->minutes);
  for (char **step = care->steps; step != NULL && *step != NULL; step++)
    hw_tell_line (self, NULL, g_strdup_printf ("- %s", *step), NULL);
  for (char **caution = care->cautions; caution != NULL && *caution != NULL; caution++)
    hw_tell_line (self, _("Caution"), g_strdup (*caution), NULL);
}
