/* handbook-command.c - handwheel handbook [ENTRY]: browses the knowledge base
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <stdio.h>

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "command/handbook-details.h"
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
  ADD_ALL (table, "sizes", handbook->sizes, handbook->n_sizes);
  ADD_ALL (table, "garment", handbook->garments, handbook->n_garments);
  ADD_ALL (table, "fault", handbook->faults, handbook->n_faults);
  ADD_ALL (table, "term", handbook->terms, handbook->n_terms);
  return table;
}

#undef ADD_ALL

/* Several tables may have an entry of one id: a dart is a seam, a purpose and a word. */
static void
print_others (const HwHandbook *handbook,
              const char       *shown,
              const char       *id)
{
  static const char * const tables[] = {
    "construction", "trait", "fabric", "system", "point", "thread", "stitch", "seam", "purpose", "foot", "plate",
    "care", "sizes", "garment", "fault", "term",
  };
  g_autoptr (GString) others = g_string_new (NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    {
      g_autofree char *exact = g_strdup_printf ("%s/%s", tables[i], id);

      if (!g_str_equal (tables[i], shown) && hw_handbook_find_entry (handbook, exact, NULL) != NULL)
        g_string_append_printf (others, "%s%s", others->len > 0 ? ", " : "", exact);
    }
  if (others->len > 0)
    hw_details_fact (_("Other entries"), g_strdup (others->str));
}

static int
show_entry (const HwHandbook *handbook,
            const char       *id)
{
  const char      *table = NULL;
  const HwEntry   *entry = hw_handbook_find_entry (handbook, id, &table);

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
  hw_details_print (handbook, table, entry);
  if (entry->note != NULL)
    printf ("  %s\n", _(entry->note));
  hw_details_fact (_("Source"), hw_words_source (entry->source));
  print_others (handbook, table, entry->id);
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
