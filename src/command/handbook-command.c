/* handbook-command.c - handwheel handbook [ENTRY]: browses the knowledge base
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <math.h>
#include <stdio.h>

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "words/words.h"

static void
add_entry (HwTable       *table,
           const char    *kind,
           const HwEntry *entry)
{
  hw_table_text (table, kind);
  hw_table_text (table, entry->id);
  hw_table_text (table, _(entry->name));
  hw_table_take (table, hw_words_source (entry->source));
}

#define ADD_ALL(table, kind, entries, count) \
  for (gsize i_ = 0; i_ < (count); i_++) add_entry ((table), (kind), &(entries)[i_].entry)

static HwTable *
build_list (const HwHandbook *handbook)
{
  HwTable *table = hw_table_new ("handbook", "entry");

  hw_table_add_column (table, "table", _("Kind"), FALSE);
  hw_table_add_column (table, "id", _("Entry"), FALSE);
  hw_table_add_column (table, "name", _("Name"), FALSE);
  hw_table_add_column (table, "source", _("Source"), FALSE);
  ADD_ALL (table, "fabric", handbook->fabrics, handbook->n_fabrics);
  ADD_ALL (table, "construction", handbook->constructions, handbook->n_constructions);
  ADD_ALL (table, "trait", handbook->traits, handbook->n_traits);
  ADD_ALL (table, "system", handbook->systems, handbook->n_systems);
  ADD_ALL (table, "point", handbook->points, handbook->n_points);
  ADD_ALL (table, "thread", handbook->threads, handbook->n_threads);
  ADD_ALL (table, "stitch", handbook->stitches, handbook->n_stitches);
  ADD_ALL (table, "seam", handbook->seams, handbook->n_seams);
  ADD_ALL (table, "purpose", handbook->purposes, handbook->n_purposes);
  ADD_ALL (table, "foot", handbook->feet, handbook->n_feet);
  ADD_ALL (table, "plate", handbook->plates, handbook->n_plates);
  ADD_ALL (table, "care", handbook->care, handbook->n_care);
  return table;
}

#undef ADD_ALL

static void
print_fact (const char *name,
            char       *value)        /* (transfer full) */
{
  printf ("  %-22s %s\n", name, value);
  g_free (value);
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

  return g_strdup_printf (_("%s to %s %s"), low, high, unit);
}

static void
print_fabric (const HwHandbook *handbook,
              const HwFabric   *fabric)
{
  g_autofree char *stretch = hw_words_number (fabric->stretch_percent, 0);
  GString         *traits = g_string_new (NULL);

  for (gsize i = 0; i < handbook->n_traits; i++)
    if (fabric->traits & HW_SET (i))
      g_string_append_printf (traits, "%s%s", traits->len > 0 ? ", " : "", _(handbook->traits[i].entry.name));
  print_fact (_("Construction"), g_strdup (_(handbook->constructions[fabric->construction].entry.name)));
  print_fact (_("Mass"), format_band (&fabric->mass_g_m2, "g/m²"));
  print_fact (_("Thickness"), format_band (&fabric->thickness_mm, "mm"));
  print_fact (_("Stretch"), g_strdup_printf ("%s %%", stretch));
  print_fact (_("Traits"), g_string_free (traits, FALSE));
}

static void
print_point (const HwPoint *point)
{
  GString *sizes = g_string_new (NULL);

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
  print_fact (_("Letters"), g_strdup (point->letters != NULL ? point->letters : "–"));
  print_fact (_("Sizes"), g_string_free (sizes, FALSE));
}

static void
print_thread (const HwThreadEntry *thread)
{
  print_fact (_("Fibre"), g_strdup (_(thread->fibre)));
  print_fact (_("Tex"), hw_words_number (thread->tex, 1));
  print_fact (_("Fibre density"), g_strdup_printf ("%.2f g/cm³", thread->density));
}

static void
print_stitch (const HwStitch *stitch)
{
  print_fact (_("ISO 4915"), g_strdup (stitch->iso[0] != '\0' ? stitch->iso : _("no verified number")));
  print_fact (_("Length"), format_range (&stitch->length_mm, "mm"));
  print_fact (_("Width"), format_range (&stitch->width_mm, "mm"));
  print_fact (_("Threads"), g_strdup_printf ("%d", stitch->needles + stitch->loopers + (stitch->bobbin ? 1 : 0)));
  print_fact (_("Thread per metre"), g_strdup_printf ("%.1f m", stitch->ratio));
}

static void
print_seam (const HwSeam *seam)
{
  print_fact (_("ISO 4916"), g_strdup_printf (_("class %d, family %s (last digits not verified)"), seam->iso_class,
                                              seam->iso_family));
}

static void
print_purpose (const HwHandbook *handbook,
               const HwPurpose  *purpose)
{
  if (purpose->seam >= 0)
    print_fact (_("Seam offered first"), g_strdup (_(handbook->seams[purpose->seam].entry.name)));
  if (purpose->stitch >= 0)
    print_fact (_("Stitch offered first"), g_strdup (_(handbook->stitches[purpose->stitch].entry.name)));
  print_fact (_("Share of top speed"), g_strdup_printf ("%.0f %%", purpose->speed_share * 100));
  print_fact (_("Handling"), hw_words_minutes (purpose->handling_minutes));
}

static void
print_care (const HwCareTask *care)
{
  for (char **step = care->steps; step != NULL && *step != NULL; step++)
    printf ("  - %s\n", _(*step));
  for (char **caution = care->cautions; caution != NULL && *caution != NULL; caution++)
    printf ("  %s %s\n", _("Caution:"), _(*caution));
}

static void
print_details (const HwHandbook *handbook,
               const char       *table,
               const HwEntry    *entry)
{
  /* Every entry struct starts with its HwEntry, so that the one is the other's address. */
  const void *whole = entry;

  if (g_str_equal (table, "fabric"))
    print_fabric (handbook, whole);
  else if (g_str_equal (table, "point"))
    print_point (whole);
  else if (g_str_equal (table, "thread"))
    print_thread (whole);
  else if (g_str_equal (table, "stitch"))
    print_stitch (whole);
  else if (g_str_equal (table, "seam"))
    print_seam (whole);
  else if (g_str_equal (table, "purpose"))
    print_purpose (handbook, whole);
  else if (g_str_equal (table, "care"))
    print_care (whole);
}

static int
show_entry (const HwHandbook *handbook,
            const char       *id)
{
  const char      *table = NULL;
  const HwEntry   *entry = hw_handbook_find_entry (handbook, id, &table);
  g_autofree char *source = NULL;

  if (entry == NULL)
    {
      g_autofree char *nearest = hw_handbook_nearest_id (handbook, NULL, id);

      if (nearest != NULL)
        fprintf (stderr, _("The handbook has no entry “%s”; did you mean “%s”?\n"), id, nearest);
      else
        fprintf (stderr, _("The handbook has no entry “%s”; “handwheel handbook” lists them\n"), id);
      return HW_EXIT_REFUSED;
    }

  printf ("%s (%s/%s)\n", _(entry->name), table, entry->id);
  print_details (handbook, table, entry);
  if (entry->note != NULL)
    printf ("  %s\n", _(entry->note));
  source = hw_words_source (entry->source);
  print_fact (_("Source"), g_steal_pointer (&source));
  return HW_EXIT_DONE;
}

int
hw_command_handbook (int    argc,
                     char **argv)
{
  g_autoptr (HwHandbook) handbook = NULL;
  g_autofree char *format_word = NULL;
  HwFormat         format = HW_FORMAT_PEOPLE;
  int              status = HW_EXIT_DONE;
  const GOptionEntry entries[] = {
    { "format", 0, 0, G_OPTION_ARG_STRING, &format_word, N_("table (for people), csv or xml"), N_("FORMAT") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, _("[ENTRY]"), _("Lists the handbook's entries, or shows one with its source."),
                         entries, &status))
    return status;
  if (argc > 2)
    return hw_command_usage (argv[0], _("name at most one entry"));
  if (!hw_command_get_format (argv[0], format_word, &format))
    return HW_EXIT_USAGE;

  handbook = hw_command_handbook_load (&status);
  if (handbook == NULL)
    return status;
  if (argc == 2)
    return show_entry (handbook, argv[1]);

  {
    g_autoptr (HwTable) table = build_list (handbook);
    g_autofree char *text = hw_table_format (table, format);

    hw_command_print (text);
  }
  return HW_EXIT_DONE;
}
