/* journal-command.c - handwheel journal: what was done, found and exported
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <stdio.h>
#include <string.h>

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "model/journal.h"
#include "words/words-room.h"
#include "words/words.h"

static const char *
machine_name (const HwRoom         *room,
              const HwJournalEntry *entry,
              HwFormat              format)
{
  const HwMachine *machine = hw_room_find_machine (room, entry->machine);

  if (machine != NULL)
    return machine->name;
  return format == HW_FORMAT_PEOPLE ? _("by hand") : entry->machine;
}

/* People read their own clock, programs UTC. */
static char *
say_time (const char *time,
          HwFormat    format)
{
  return format == HW_FORMAT_PEOPLE ? hw_words_entry_time_short (time) : g_strdup (time);
}

static HwTable *
build_table (const HwHandbook *handbook,
             const HwRoom     *room,
             const GPtrArray  *entries,
             HwFormat          format)
{
  HwTable *table = hw_table_new ("journal", "entry");

  hw_table_add_column (table, "time", _("When"), FALSE);
  hw_table_add_column (table, "machine", _("Machine"), FALSE);
  hw_table_add_column (table, "kind", _("What"), FALSE);
  hw_table_add_column (table, "project", _("Project"), FALSE);
  hw_table_add_column (table, "words", _("In words"), FALSE);
  hw_table_add_column (table, "minutes", _("Minutes"), TRUE);
  hw_table_add_column (table, "note", _("Note"), FALSE);
  hw_table_add_column (table, "id", _("Entry"), FALSE);
  for (guint i = 0; i < entries->len; i++)
    {
      const HwJournalEntry *entry = g_ptr_array_index (entries, i);

      hw_table_take (table, say_time (entry->time, format));
      hw_table_text (table, machine_name (room, entry, format));
      hw_table_text (table, format == HW_FORMAT_PEOPLE ? hw_words_entry_kind (entry->kind)
                                                       : hw_entry_kind_ids[entry->kind]);
      hw_table_text (table, entry->project);
      hw_table_take (table, hw_words_entry (handbook, room, entry, NULL));
      if (entry->kind == HW_ENTRY_SEWING)
        hw_table_number (table, entry->minutes, hw_words_number (entry->minutes, 1));
      else
        hw_table_text (table, NULL);
      hw_table_text (table, entry->note);
      hw_table_text (table, entry->id);
    }
  return table;
}

static void
print_entries (const HwHandbook *handbook,
               const HwRoom     *room,
               const GPtrArray  *entries,
               HwFormat          format)
{
  g_autoptr (HwTable) table = NULL;
  g_autofree char *text = NULL;

  if (format == HW_FORMAT_CSV)
    text = hw_journal_to_csv (entries);
  else if (format == HW_FORMAT_PEOPLE && entries->len == 0)
    text = g_strconcat (_("Nothing of that is in the journal."), "\n", NULL);
  else
    {
      table = build_table (handbook, room, entries, format);
      text = hw_table_format (table, format);
    }
  hw_command_print (text);
}

/* 1u << kind; 0 with usage told: no such kind. */
static guint
find_kind (const char *command,
           const char *word)
{
  g_autofree char *all = NULL;

  for (int kind = 0; kind < HW_N_ENTRY_KINDS; kind++)
    if (strcmp (hw_entry_kind_ids[kind], word) == 0)
      return 1u << kind;
  all = g_strjoinv (", ", (char **) hw_entry_kind_ids);
  hw_command_usage (command, _("--kind is one of %s, not “%s”"), all, word);
  return 0;
}

static gboolean
check_date (const char *command,
            const char *option,
            const char *date)
{
  int year, month, day;

  if (date == NULL || (strlen (date) == strlen ("2031-05-09") && sscanf (date, "%4d-%2d-%2d", &year, &month, &day) == 3
                       && year > 0 && month >= 1 && month <= 12
                       && g_date_valid_dmy ((GDateDay) day, (GDateMonth) month, (GDateYear) year)))
    return TRUE;
  hw_command_usage (command, _("%s is a date such as 2031-05-09, not “%s”"), option, date);
  return FALSE;
}

int
hw_command_journal (int    argc,
                    char **argv)
{
  g_autoptr (HwHandbook) handbook = NULL;
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (GPtrArray) entries = NULL;
  g_autofree char *room_folder = NULL;
  g_autofree char *format_word = NULL;
  g_autofree char *machine = NULL;
  g_autofree char *project = NULL;
  g_autofree char *kind = NULL;
  g_autofree char *from = NULL;
  g_autofree char *to = NULL;
  g_autofree char *text = NULL;
  gboolean         cancelled = FALSE;
  HwJournalFilter  filter = { 0 };
  HwFormat         format = HW_FORMAT_PEOPLE;
  int              status = HW_EXIT_DONE;
  const GOptionEntry options[] = {
    { "machine", 0, 0, G_OPTION_ARG_STRING, &machine, N_("only what was done on this machine"), N_("ID") },
    { "project", 0, 0, G_OPTION_ARG_STRING, &project, N_("only what was done for this project"), N_("ID") },
    { "kind", 0, 0, G_OPTION_ARG_STRING, &kind, N_("sewing, load, care, test-seam, fault or needle"), N_("KIND") },
    { "from", 0, 0, G_OPTION_ARG_STRING, &from, N_("from this day on"), N_("DATE") },
    { "to", 0, 0, G_OPTION_ARG_STRING, &to, N_("up to this day"), N_("DATE") },
    { "text", 0, 0, G_OPTION_ARG_STRING, &text, N_("only entries that hold this text"), N_("TEXT") },
    { "cancelled", 0, 0, G_OPTION_ARG_NONE, &cancelled, N_("entries that were taken back, too"), NULL },
    { "format", 0, 0, G_OPTION_ARG_STRING, &format_word, N_("table (for people), csv or xml"), N_("FORMAT") },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, NULL, _("What was done, by day: the sewing room's journal."), options, &status))
    return status;
  if (argc > 1)
    return hw_command_usage (argv[0], _("“%s” is one word too many; --text searches"), argv[1]);
  if (!hw_command_get_format (argv[0], format_word, &format) || !check_date (argv[0], "--from", from)
      || !check_date (argv[0], "--to", to))
    return HW_EXIT_USAGE;
  filter = (HwJournalFilter) { .kinds = kind != NULL ? find_kind (argv[0], kind) : 0, .machine = machine,
                               .project = project, .from = from, .to = to, .text = text,
                               .with_cancelled = cancelled };
  if (kind != NULL && filter.kinds == 0)
    return HW_EXIT_USAGE;
  handbook = hw_command_handbook_load (&status);
  room = handbook != NULL ? hw_command_room_open (room_folder, &status) : NULL;
  if (room == NULL)
    return status;
  if (machine != NULL && strcmp (machine, HW_HAND) != 0 && hw_room_find_machine (room, machine) == NULL)
    {
      fprintf (stderr, _("There is no machine “%s” in the sewing room\n"), machine);
      return HW_EXIT_REFUSED;
    }
  entries = hw_journal_find (room, &filter);
  print_entries (handbook, room, entries, format);
  return HW_EXIT_DONE;
}
