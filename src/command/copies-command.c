/* copies-command.c - handwheel copies: conflicting copies of files, shown and merged
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "files/save.h"
#include "model/copies.h"

static HwTable *
new_table (void)
{
  HwTable *table = hw_table_new ("copies", "difference");

  hw_table_add_column (table, "file", _("File"), FALSE);
  hw_table_add_column (table, "copy", _("Copy"), FALSE);
  hw_table_add_column (table, "what", _("Difference"), FALSE);
  hw_table_add_column (table, "here", _("In the file"), FALSE);
  hw_table_add_column (table, "there", _("In the copy"), FALSE);
  return table;
}

static void
add_row (HwTable                *table,
         const HwCopy           *copy,
         const HwCopyDifference *difference)
{
  hw_table_take (table, hw_show_name (copy->file));
  hw_table_take (table, hw_show_name (copy->copy));
  hw_table_text (table, difference != NULL ? difference->what : _("nothing differs"));
  hw_table_text (table, difference != NULL ? difference->here : NULL);
  hw_table_text (table, difference != NULL ? difference->there : NULL);
}

static gboolean
add_copy (HwTable      *table,
          const HwCopy *copy,
          GError      **error)
{
  g_autoptr (GPtrArray) differences = hw_copy_compare (copy, error);

  if (differences == NULL)
    return FALSE;
  for (guint i = 0; i < differences->len; i++)
    add_row (table, copy, g_ptr_array_index (differences, i));
  if (differences->len == 0)
    add_row (table, copy, NULL);
  return TRUE;
}

static int
show_copies (const GPtrArray *copies,
             HwFormat         format)
{
  g_autoptr (HwTable) table = new_table ();
  g_autofree char *text = NULL;
  int status = HW_EXIT_DONE;

  for (guint i = 0; i < copies->len; i++)
    {
      g_autoptr (GError) error = NULL;

      if (!add_copy (table, g_ptr_array_index (copies, i), &error))
        status = hw_command_fail (error);
    }
  text = hw_table_format (table, format);
  hw_command_print (text);
  return status;
}

static int
merge_copies (const GPtrArray *copies,
              gboolean         prefer_copy)
{
  gboolean merged = FALSE;
  int status = HW_EXIT_DONE;

  for (guint i = 0; i < copies->len; i++)
    {
      const HwCopy *copy = g_ptr_array_index (copies, i);
      g_autofree char *file = hw_show_name (copy->file);
      g_autofree char *name = hw_show_name (copy->copy);
      g_autofree char *told = NULL;
      g_autoptr (GError) error = NULL;

      if (!hw_copy_merge (copy, prefer_copy, &error))
        {
          status = hw_command_fail (error);
          continue;
        }
      /* Translators: names of two files */
      told = g_strdup_printf (_("“%s” is merged into “%s” and kept as “%s~”\n"), name, file, name);
      hw_command_print (told);
      merged = TRUE;
    }
  if (merged)
    hw_command_print (_("Each step, needle or entry that stood in one of the two is kept: what you had removed from "
                        "the other is there again.\n"));
  return status;
}

int
hw_command_copies (int    argc,
                   char **argv)
{
  g_autoptr (GPtrArray) copies = NULL;
  g_autofree char *room_folder = NULL;
  g_autofree char *format_word = NULL;
  gboolean         merge = FALSE;
  gboolean         prefer_copy = FALSE;
  HwFormat         format = HW_FORMAT_PEOPLE;
  int              status = HW_EXIT_DONE;
  const GOptionEntry options[] = {
    { "merge", 0, 0, G_OPTION_ARG_NONE, &merge, N_("put what only a copy holds into the file"), NULL },
    { "prefer-copy", 0, 0, G_OPTION_ARG_NONE, &prefer_copy, N_("where both differ take what the copy says"), NULL },
    { "format", 0, 0, G_OPTION_ARG_STRING, &format_word, N_("table (for people), csv or xml"), N_("FORMAT") },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, NULL,
                         _("Conflicting copies that a file-sync service left in the sewing room: how they differ."),
                         options, &status))
    return status;
  if (argc > 1)
    return hw_command_usage (argv[0], _("“%s” is one word too many"), argv[1]);
  if (prefer_copy && !merge)
    return hw_command_usage (argv[0], _("“--prefer-copy” goes with “--merge”"));
  if (!hw_command_get_format (argv[0], format_word, &format))
    return HW_EXIT_USAGE;
  if (room_folder == NULL)
    room_folder = hw_room_folder ();
  copies = hw_copies_find (room_folder);
  if (copies->len == 0 && format == HW_FORMAT_PEOPLE)
    hw_command_print (_("There are no conflicting copies.\n"));
  else
    status = merge ? merge_copies (copies, prefer_copy) : show_copies (copies, format);
  return status;
}
