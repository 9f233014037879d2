/* versions-command.c - handwheel versions FILE: earlier versions of a project, and going back to one
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "model/edit.h"
#include "words/words-versions.h"
#include "words/words.h"

static HwTable *
new_table (void)
{
  HwTable *table = hw_table_new ("versions", "version");

  hw_table_add_column (table, "number", _("Number"), TRUE);
  hw_table_add_column (table, "kept", _("Kept"), FALSE);
  hw_table_add_column (table, "steps", _("Steps"), TRUE);
  hw_table_add_column (table, "since", _("Since then"), FALSE);
  return table;
}

static char *
say_kept (gint64   time,
          HwFormat format)
{
  g_autoptr (GDateTime) date = NULL;

  if (format == HW_FORMAT_PEOPLE)
    return hw_words_moment (time);
  date = g_date_time_new_from_unix_utc (time);
  return g_date_time_format_iso8601 (date);
}

static gboolean
add_version (HwTable         *table,
             guint            number,
             const HwVersion *version,
             const HwProject *project,
             HwFormat         format,
             GError         **error)
{
  g_autoptr (HwProject) earlier = hw_version_read (version, project, error);
  g_autoptr (HwDifference) difference = earlier != NULL ? hw_project_compare (earlier, project) : NULL;

  if (earlier == NULL)
    return FALSE;
  hw_table_number (table, number, g_strdup_printf ("%u", number));
  hw_table_take (table, say_kept (version->time, format));
  hw_table_number (table, earlier->steps->len, g_strdup_printf ("%u", earlier->steps->len));
  hw_table_take (table, hw_words_difference (difference));
  return TRUE;
}

static int
show_versions (const GPtrArray *versions,
               const HwProject *project,
               HwFormat         format)
{
  g_autoptr (HwTable) table = new_table ();
  g_autofree char *text = NULL;
  int status = HW_EXIT_DONE;

  if (versions->len == 0 && format == HW_FORMAT_PEOPLE)
    {
      hw_command_print (_("There are no earlier versions of this project.\n"));
      return status;
    }
  for (guint i = 0; i < versions->len; i++)
    {
      g_autoptr (GError) error = NULL;

      if (!add_version (table, i + 1, g_ptr_array_index (versions, i), project, format, &error))
        status = hw_command_fail (error);
    }
  text = hw_table_format (table, format);
  hw_command_print (text);
  return status;
}

/* What the file holds now is kept before another takes its place. @place: of the file, from before it was read. */
static int
go_back (const GPtrArray *versions,
         int              number,
         const HwProject *project,
         const char      *room_folder,
         const char      *file,
         HwProjectPlace  *place)
{
  const HwVersion *version = g_ptr_array_index (versions, (guint) number - 1);
  g_autofree char *kept = hw_words_moment (version->time);
  g_autofree char *told = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) earlier = hw_version_read (version, project, &error);

  if (earlier == NULL
      || !hw_versions_keep (room_folder, project, g_get_real_time () / G_USEC_PER_SEC, &error)
      || !hw_project_save (earlier, file, place, &error))
    return hw_command_fail (error);
  /* Translators: a file, date and time */
  told = g_strdup_printf (_("%s is as it was on %s; what it held before is an earlier version now\n"), file, kept);
  hw_command_print (told);
  return HW_EXIT_DONE;
}

int
hw_command_versions (int    argc,
                     char **argv)
{
  g_auto (HwProjectPlace) place = { NULL, NULL };
  g_autoptr (HwProject) project = NULL;
  g_autoptr (GPtrArray) versions = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *room_folder = NULL;
  g_autofree char *format_word = NULL;
  int              number = 0;
  HwFormat         format = HW_FORMAT_PEOPLE;
  int              status = HW_EXIT_DONE;
  const GOptionEntry options[] = {
    { "back-to", 0, 0, G_OPTION_ARG_INT, &number, N_("go back to this version"), N_("NUMBER") },
    { "format", 0, 0, G_OPTION_ARG_STRING, &format_word, N_("table (for people), csv or xml"), N_("FORMAT") },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, _("FILE"),
                         _("Earlier versions of a project, the newest first, and what was changed since each."),
                         options, &status))
    return status;
  if (argc != 2)
    return hw_command_usage (argv[0], _("name one project file"));
  if (!hw_command_get_format (argv[0], format_word, &format))
    return HW_EXIT_USAGE;
  hw_project_place_look (&place, argv[1]);
  project = hw_project_read (argv[1], &error);
  if (project == NULL)
    return hw_command_fail (error);
  if (room_folder == NULL)
    room_folder = hw_room_folder ();
  versions = hw_versions_list (room_folder, project->id);
  if (number == 0)
    return show_versions (versions, project, format);
  if (number < 1 || (guint) number > versions->len)
    return hw_command_usage (argv[0], ngettext ("there is no version %d; the project has %u earlier version",
                                                "there is no version %d; the project has %u earlier versions",
                                                versions->len), number, versions->len);
  return go_back (versions, number, project, room_folder, argv[1], &place);
}
