/* handbook-details.c - one entry of the handbook with its figures, for people
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "command/handbook-details.h"

#include <stdio.h>

#include <glib/gi18n.h>

#include "words/words.h"

#define NAME_WIDTH 22

static const char * const machine_names[HW_N_MACHINE_KINDS] = {
  N_("lockstitch machine"), N_("overlocker"), N_("coverstitch machine"),
};

static const char * const family_names[] = {
  N_("woven"), N_("knit"), N_("nonwoven"), N_("leather and other skins"), N_("net and lace"),
};

static const char * const point_forms[] = { N_("round"), N_("ball"), N_("cutting") };

static const char * const thread_forms[] = {
  N_("spun"), N_("core-spun"), N_("filament"), N_("monofilament"), N_("textured"), N_("metallic"), N_("elastic"),
};

/* ---- pieces ---- */

void
hw_details_fact (const char *name,
                 char       *value)
{
  glong width = g_utf8_strlen (name, -1);      /* printf would count bytes */

  printf ("  %s%*s %s\n", name, (int) MAX (NAME_WIDTH - width, 0), "", *value != '\0' ? value : "–");
  g_free (value);
}

char *
hw_details_number (double      value,
                   int         max_decimals,
                   const char *unit)
{
  g_autofree char *number = hw_words_number (value, max_decimals);

  return *unit != '\0' ? g_strdup_printf ("%s %s", number, unit) : g_steal_pointer (&number);
}

static void
append_name (GString    *list,
             const char *name)
{
  g_string_append_printf (list, "%s%s", list->len > 0 ? ", " : "", _(name));
}

char *
hw_details_machines (guint mask)
{
  GString *list = g_string_new (NULL);

  for (int kind = 0; kind < HW_N_MACHINE_KINDS; kind++)
    if (mask & (1u << kind))
      append_name (list, machine_names[kind]);
  return g_string_free (list, FALSE);
}

static char *
format_band (const HwBand *band,
             const char   *unit)
{
  g_autofree char *low = hw_words_number (band->low, 2);
  g_autofree char *prefer = hw_words_number (band->prefer, 2);
  g_autofree char *high = hw_words_number (band->high, 2);

  /* Translators: typical value and its range, then the unit */
  return g_strdup_printf (_("%s (%s to %s) %s"), prefer, low, high, unit);
}

static char *
format_range (const HwRange *range,
              const char    *unit)
{
  g_autofree char *low = hw_words_number (range->low, 2);
  g_autofree char *high = hw_words_number (range->high, 2);

  /* Translators: the lowest and the highest value, then the unit */
  return g_strdup_printf (_("%s to %s %s"), low, high, unit);
}

/* Minutes as the handbook has them: rounding a part of a minute away would make another figure of it. */
static char *
format_minutes (double minutes)
{
  g_autofree char *number = hw_words_number (minutes, 2);

  /* Translators: a time in minutes */
  return g_strdup_printf (_("%s min"), number);
}

/* Which way a term of the starting tension moves the dial. */
static void
print_term (const HwHandbook *handbook,
            int               term)
{
  g_autofree char *mean = NULL;
  g_autofree char *spread = NULL;

  if (term < 0)
    return;
  mean = hw_words_number (handbook->tension.terms[term].mean, 2);
  spread = hw_words_number (handbook->tension.terms[term].sd, 2);
  /* Translators: numbers on a tension dial from 0 to 9 */
  hw_details_fact (_("Moves the dial by"), g_strdup_printf (_("%s, give or take %s, on a dial from 0 to 9"),
                                                            mean, spread));
}

/* ---- cloth ---- */

static void
print_fabric (const HwHandbook *handbook,
              const HwFabric   *fabric)
{
  GString *traits = g_string_new (NULL);

  for (gsize i = 0; i < handbook->n_traits; i++)
    if (fabric->traits & HW_SET (i))
      append_name (traits, handbook->traits[i].entry.name);
  hw_details_fact (_("Construction"), g_strdup (_(handbook->constructions[fabric->construction].entry.name)));
  hw_details_fact (_("Mass"), format_band (&fabric->mass_g_m2, "g/m²"));
  hw_details_fact (_("Thickness"), format_band (&fabric->thickness_mm, "mm"));
  hw_details_fact (_("Stretch"), hw_details_number (fabric->stretch_percent, 0, "%"));
  hw_details_fact (_("Traits"), g_string_free (traits, FALSE));
}

static void
print_construction (const HwConstruction *construction)
{
  hw_details_fact (_("Family"), g_strdup (_(family_names[construction->family])));
  hw_details_fact (_("Bulk density"), hw_details_number (construction->bulk_density, 3, "g/cm³"));
  /* Translators: how much of a cloth's thickness is left when the presser foot is down */
  hw_details_fact (_("Left under the foot"), hw_details_number (construction->under_foot * 100, 0, "%"));
}

static void
print_trait (const HwHandbook *handbook,
             const HwTrait    *trait)
{
  hw_details_fact (_("Dusting hours count"), hw_details_number (trait->lint_factor, 2, "×"));
  hw_details_fact (_("A needle lasts"), hw_details_number (trait->needle_life, 2, "×"));
  print_term (handbook, trait->tension_term);
}

/* ---- needles and threads ---- */

static void
print_system (const HwNeedleSystem *system)
{
  hw_details_fact (_("Also called"), g_strdup (system->also != NULL ? system->also : ""));
  hw_details_fact (_("Machines"), hw_details_machines (system->machines));
}

static void
print_point (const HwHandbook *handbook,
             const HwPoint    *point)
{
  GString *sizes = g_string_new (NULL);
  GString *systems = g_string_new (NULL);

  for (gsize i = 0; i < point->n_sizes; i++)
    {
      g_autofree char *size = hw_words_size (point->sizes[i], 0);

      g_string_append_printf (sizes, "%s%s", i > 0 ? " " : "", size);
    }
  for (gsize i = 0; i < point->n_twins; i++)
    {
      g_autofree char *size = hw_words_size (point->twins[i].nm, point->twins[i].spacing_mm);

      g_string_append_printf (sizes, "; %s %s", _("twin"), size);
    }
  for (gsize i = 0; i < handbook->n_systems; i++)
    if (point->systems & HW_SET (i))
      append_name (systems, handbook->systems[i].entry.name);
  hw_details_fact (_("Letters"), g_strdup (point->letters != NULL ? point->letters : ""));
  hw_details_fact (_("Form"), g_strdup (_(point_forms[point->form])));
  hw_details_fact (_("Systems"), g_string_free (systems, FALSE));
  hw_details_fact (_("Sizes"), g_string_free (sizes, FALSE));
  /* Translators: how much more thread a needle's eye takes than an ordinary one */
  hw_details_fact (_("Eye"), hw_details_number (point->eye_factor, 2, "×"));
}

static void
print_thread (const HwThreadEntry *thread)
{
  hw_details_fact (_("Fibre"), g_strdup (_(thread->fibre)));
  hw_details_fact (_("Form"), g_strdup (_(thread_forms[thread->form])));
  hw_details_fact (_("Tex"), hw_words_number (thread->tex, 1));
  hw_details_fact (_("Fibre density"), hw_details_number (thread->density, 2, "g/cm³"));
  hw_details_fact (_("Packing"), hw_details_number (thread->packing * 100, 0, "%"));
  if (thread->tenacity_cn_tex > 0)
    hw_details_fact (_("Tenacity"), hw_details_number (thread->tenacity_cn_tex, 1, "cN/tex"));
  hw_details_fact (_("Machines"), hw_details_machines (thread->machines));
}

/* ---- stitches and seams ---- */

static void
print_stitch (const HwHandbook *handbook,
              const HwStitch   *stitch)
{
  int threads = stitch->needles + stitch->loopers + (stitch->bobbin ? 1 : 0);

  hw_details_fact (_("ISO 4915"), g_strdup (stitch->iso[0] != '\0' ? stitch->iso : _("no verified number")));
  hw_details_fact (_("Machines"), hw_details_machines (stitch->machines));
  hw_details_fact (_("Length"), format_range (&stitch->length_mm, "mm"));
  if (stitch->width_mm.high > 0)
    hw_details_fact (_("Width"), format_range (&stitch->width_mm, "mm"));
  hw_details_fact (_("Threads"), hw_details_number (threads, 0, ""));
  if (stitch->shape == HW_THREAD_USE_RATIO)
    hw_details_fact (_("Thread per metre"), hw_details_number (stitch->ratio, 1, "m"));
  else
    hw_details_fact (_("Thread per metre"), g_strdup (_("reckoned from thickness and stitch length")));
  print_term (handbook, stitch->tension_term);
}

static void
print_seam (const HwSeam *seam)
{
  char *class_and_family = seam->iso_family != NULL
    ? g_strdup_printf (_("class %d, family %s (last digits not verified)"), seam->iso_class, seam->iso_family)
    : g_strdup_printf (_("class %d (family not verified)"), seam->iso_class);

  hw_details_fact (_("ISO 4916"), class_and_family);
  if (seam->together != HW_TOGETHER_UNSAID)
    hw_details_fact (_("Sewn with"), g_strdup (seam->together == HW_TOGETHER_RIGHT ? _("right sides together")
                                                                                   : _("wrong sides together")));
}

static void
print_purpose (const HwHandbook *handbook,
               const HwPurpose  *purpose)
{
  if (purpose->seam >= 0)
    hw_details_fact (_("Seam offered first"), g_strdup (_(handbook->seams[purpose->seam].entry.name)));
  if (purpose->stitch >= 0)
    hw_details_fact (_("Stitch offered first"), g_strdup (_(handbook->stitches[purpose->stitch].entry.name)));
  hw_details_fact (_("Share of top speed"), hw_details_number (purpose->speed_share * 100, 0, "%"));
  hw_details_fact (_("Handling"), format_minutes (purpose->handling_minutes));
  hw_details_fact (_("Each start and stop"), format_minutes (purpose->start_stop_minutes));
  if (purpose->per_metre_minutes > 0)
    hw_details_fact (_("Each metre"), format_minutes (purpose->per_metre_minutes));
  print_term (handbook, purpose->tension_term);
}

/* ---- feet, plates, care ---- */

/* @others: the table that its fallbacks are in. */
static void
print_foot (const HwFoot *foot,
            const HwFoot *others)
{
  GString *instead = g_string_new (NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (foot->fallback) && foot->fallback[i] >= 0; i++)
    append_name (instead, others[foot->fallback[i]].entry.name);
  hw_details_fact (_("Machines"), hw_details_machines (foot->machines));
  hw_details_fact (_("Widest swing"), foot->slot_mm > 0 ? hw_details_number (foot->slot_mm, 1, "mm")
                                                        : g_strdup (_("none: straight stitch only")));
  hw_details_fact (_("Instead of it"), g_string_free (instead, FALSE));
}

static char *
format_limit (const HwCareTask *care)
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

static void
print_care (const HwCareTask *care)
{
  hw_details_fact (_("Machines"), hw_details_machines (care->machines));
  hw_details_fact (_("Due after"), format_limit (care));
  if (care->or_months > 0)
    hw_details_fact (_("At the latest after"), hw_details_number (care->or_months, 0, _("months")));
  hw_details_fact (_("Takes"), format_minutes (care->minutes));
  for (char **step = care->steps; step != NULL && *step != NULL; step++)
    printf ("  - %s\n", _(*step));
  for (char **caution = care->cautions; caution != NULL && *caution != NULL; caution++)
    printf ("  %s %s\n", _("Caution:"), _(*caution));
}

/* ---- the entry ---- */

void
hw_details_print (const HwHandbook *handbook,
                  const char       *table,
                  const HwEntry    *entry)
{
  /* Every entry struct starts with its HwEntry, so that the one is the other's address. */
  const void *whole = entry;

  if (g_str_equal (table, "fabric"))
    print_fabric (handbook, whole);
  else if (g_str_equal (table, "construction"))
    print_construction (whole);
  else if (g_str_equal (table, "trait"))
    print_trait (handbook, whole);
  else if (g_str_equal (table, "system"))
    print_system (whole);
  else if (g_str_equal (table, "point"))
    print_point (handbook, whole);
  else if (g_str_equal (table, "thread"))
    print_thread (whole);
  else if (g_str_equal (table, "stitch"))
    print_stitch (handbook, whole);
  else if (g_str_equal (table, "seam"))
    print_seam (whole);
  else if (g_str_equal (table, "purpose"))
    print_purpose (handbook, whole);
  else if (g_str_equal (table, "foot"))
    print_foot (whole, handbook->feet);
  else if (g_str_equal (table, "plate"))
    print_foot (whole, handbook->plates);
  else if (g_str_equal (table, "care"))
    print_care (whole);
  else if (g_str_equal (table, "sizes"))
    hw_details_sizes (whole);
  else if (g_str_equal (table, "garment"))
    hw_details_garment (handbook, whole);
  else if (g_str_equal (table, "fault"))
    hw_details_fault (whole);
  else if (g_str_equal (table, "term"))
    hw_details_term (handbook, whole);
}
