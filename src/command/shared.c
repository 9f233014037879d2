/* shared.c - what the commands share: options, errors, where things are
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "command/command-private.h"

#include <stdio.h>
#include <string.h>

#include <gio/gio.h>
#include <glib/gi18n.h>

#include "files/xml.h"
#include "words/words-room.h"
#include "words/words.h"

char *
hw_data_folder (void)
{
  const char *folder = g_getenv ("HANDWHEEL_DATA_DIR");

  return g_strdup (folder != NULL && folder[0] != '\0' ? folder : HW_DATA_DIR);
}

char *
hw_locale_folder (void)
{
  const char *folder = g_getenv ("HANDWHEEL_LOCALE_DIR");

  return g_strdup (folder != NULL && folder[0] != '\0' ? folder : HW_LOCALE_DIR);
}

char *
hw_room_folder (void)
{
  const char *folder = g_getenv ("HANDWHEEL_ROOM");

  if (folder != NULL && folder[0] != '\0')
    return g_strdup (folder);
  return g_build_filename (g_get_user_data_dir (), "handwheel", "room", NULL);
}

char *
hw_overlay_folder (void)
{
  const char *folder = g_getenv ("HANDWHEEL_OVERLAY");

  if (folder != NULL)
    return folder[0] != '\0' ? g_strdup (folder) : NULL;
  return g_build_filename (g_get_user_data_dir (), "handwheel", "handbook", NULL);
}

void
hw_command_print (const char *text)
{
  fputs (text, stdout);
}

int
hw_command_usage (const char *command,
                  const char *format,
                  ...)
{
  g_autofree char *text = NULL;
  va_list          args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  if (command != NULL)
    fprintf (stderr, "handwheel %s: %s\n", command, text);
  else
    fprintf (stderr, "handwheel: %s\n", text);
  return HW_EXIT_USAGE;
}

static gboolean
is_io_error (const GError *error)
{
  return error->domain == G_FILE_ERROR || error->domain == G_IO_ERROR
         || g_error_matches (error, HW_XML_ERROR, HW_XML_ERROR_READ)
         || g_error_matches (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_READ);
}

int
hw_command_fail (const GError *error)
{
  g_autofree char *line = g_strdup (error->message);

  /* One line, whatever a file name or a library put into the message. */
  g_strdelimit (line, "\r\n", ' ');
  fprintf (stderr, "%s\n", line);
  return is_io_error (error) ? HW_EXIT_IO : HW_EXIT_REFUSED;
}

gboolean
hw_command_parse (int                *argc,
                  char             ***argv,
                  const char         *arguments,
                  const char         *summary,
                  const GOptionEntry *entries,
                  int                *status)
{
  g_autoptr (GOptionContext) context = g_option_context_new (arguments);
  g_autoptr (GError) error = NULL;
  gboolean help = FALSE;
  const GOptionEntry help_entry[] = {
    { "help", 'h', 0, G_OPTION_ARG_NONE, &help, N_("tell how this command is used"), NULL },
    G_OPTION_ENTRY_NULL,
  };
  const char *command = (*argv)[0];

  g_option_context_set_summary (context, summary);
  g_option_context_set_help_enabled (context, FALSE);
  g_option_context_set_translation_domain (context, GETTEXT_PACKAGE);
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
  g_option_context_add_main_entries (context, help_entry, GETTEXT_PACKAGE);

  if (!g_option_context_parse (context, argc, argv, &error))
    {
      *status = hw_command_usage (command, _("%s; “handwheel %s --help” tells how"), error->message, command);
      return FALSE;
    }
  if (help)
    {
      g_autofree char *name = g_strconcat ("handwheel ", command, NULL);
      g_autofree char *text = NULL;

      g_set_prgname (name);
      text = g_option_context_get_help (context, TRUE, NULL);
      hw_command_print (text);
      *status = HW_EXIT_DONE;
      return FALSE;
    }
  return TRUE;
}

gboolean
hw_command_get_format (const char *command,
                       const char *word,
                       HwFormat   *format)
{
  static const char * const words[] = { "table", "csv", "xml" };
  static const HwFormat     formats[] = { HW_FORMAT_PEOPLE, HW_FORMAT_CSV, HW_FORMAT_XML };

  *format = HW_FORMAT_PEOPLE;
  if (word == NULL)
    return TRUE;

  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    if (g_str_equal (word, words[i]))
      {
        *format = formats[i];
        return TRUE;
      }
  hw_command_usage (command, _("--format is table, csv or xml, not “%s”"), word);
  return FALSE;
}

/* The work goes on without it: a warning, not a failure. */
static void
warn_of_overlay (const GError *refused)
{
  g_autofree char *line = g_strdup (refused->message);

  g_strdelimit (line, "\r\n", ' ');
  /* Translators: a file, a line and what is wrong there */
  fprintf (stderr, _("%s (a warning: your own handbook is left out until it is mended)\n"), line);
}

HwHandbook *
hw_command_handbook_load (int *status)
{
  g_autofree char *data = hw_data_folder ();
  g_autofree char *folder = g_build_filename (data, "handbook", NULL);
  g_autofree char *overlay = hw_overlay_folder ();
  g_autoptr (GError) refused = NULL;
  g_autoptr (GError) error = NULL;
  HwHandbook *handbook = hw_handbook_load_with_overlay (folder, overlay, hw_words_translate, &refused, &error);

  if (handbook == NULL)
    *status = hw_command_fail (error);
  if (refused != NULL)
    warn_of_overlay (refused);
  return handbook;
}

HwRoom *
hw_command_room_open (const char *folder_or_null,
                      int        *status)
{
  g_autofree char *folder = folder_or_null != NULL ? g_strdup (folder_or_null) : hw_room_folder ();
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = NULL;

  if (folder_or_null != NULL && !g_file_test (folder, G_FILE_TEST_IS_DIR))
    {
      g_set_error (&error, G_FILE_ERROR, G_FILE_ERROR_NOENT,
                   _("%s: there is no such sewing-room folder; name one that has machines in it"), folder);
      *status = hw_command_fail (error);
      return NULL;
    }

  room = hw_room_open (folder, &error);
  if (room == NULL)
    {
      *status = hw_command_fail (error);
      return NULL;
    }
  hw_words_take_style (room->preferences);
  return room->machines->len > 0 ? g_steal_pointer (&room) : hw_room_new_default (folder);
}

gboolean
hw_command_inputs_open (HwCommandInputs *self,
                        const char      *file,
                        const char      *room_folder,
                        int             *status)
{
  g_autoptr (GError) error = NULL;

  self->handbook = hw_command_handbook_load (status);
  if (self->handbook == NULL)
    return FALSE;

  self->room = hw_command_room_open (room_folder, status);
  if (self->room == NULL)
    return FALSE;

  self->project = hw_project_read (file, &error);
  if (self->project != NULL)
    self->plan = hw_plan_new (self->handbook, self->project, self->room, &error);
  if (self->plan == NULL)
    *status = hw_command_fail (error);
  return self->plan != NULL;
}

void
hw_command_inputs_clear (HwCommandInputs *self)
{
  g_clear_pointer (&self->plan, hw_plan_unref);
  g_clear_pointer (&self->project, hw_project_unref);
  g_clear_pointer (&self->room, hw_room_unref);
  g_clear_pointer (&self->handbook, hw_handbook_unref);
}

char *
hw_command_date (void)
{
  const char *epoch = g_getenv ("SOURCE_DATE_EPOCH");
  g_autoptr (GDateTime) date = epoch != NULL ? g_date_time_new_from_unix_utc (g_ascii_strtoll (epoch, NULL, 10))
                                             : g_date_time_new_now_utc ();

  return date != NULL ? g_date_time_format_iso8601 (date) : NULL;
}

HwRoom *
hw_command_append_all (const HwRoom     *room,
                       const GPtrArray  *entries,
                       GError          **error)
{
  const char      *later = hw_room_clock_behind (room, g_ptr_array_index (entries, 0));
  g_autofree char *behind = later != NULL ? hw_words_clock_behind (later) : NULL;
  HwRoom          *next = hw_room_append_all (room, (const HwJournalEntry * const *) entries->pdata, entries->len,
                                              error);

  if (next != NULL && behind != NULL)
    fprintf (stderr, "%s\n", behind);
  return next;
}

HwRoom *
hw_command_append (const HwRoom         *room,
                   const HwJournalEntry *entry,
                   GError              **error)
{
  g_autoptr (GPtrArray) entries = g_ptr_array_new ();

  g_ptr_array_add (entries, (gpointer) entry);
  return hw_command_append_all (room, entries, error);
}
