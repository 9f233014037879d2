/* care-command.c - handwheel care: what is due on each machine; note care as done; a calendar of it
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "files/save.h"
#include "words/words.h"

static const char *
task_id (const HwHandbook *handbook,
         const HwCareDue  *due)
{
  return due->care == HW_CARE_NEEDLE ? "needle" : handbook->care[due->care].entry.id;
}

static const char *
unit_of (const HwHandbook *handbook,
         const HwCareDue  *due)
{
  if (due->by_months)
    return "months";
  if (due->care == HW_CARE_NEEDLE)
    return "hours";
  switch (handbook->care[due->care].clock)
    {
    case HW_CLOCK_MONTHS:
      return "months";
    case HW_CLOCK_SEWING_DAY:
      return "sewing-days";
    case HW_CLOCK_RUNNING:
      return "running-hours";
    case HW_CLOCK_AT_MACHINE:
    default:
      return "hours";
    }
}

/* ---- for people ---- */

/* What is not due by any clock is told too, so that nobody has to wonder. */
static void
add_without (HwTable          *table,
             const HwHandbook *handbook,
             const HwMachine  *machine)
{
  for (gsize i = 0; i < handbook->n_care; i++)
    {
      g_autofree char *words = hw_words_care_without (machine, &handbook->care[i]);

      if (words == NULL)
        continue;
      hw_table_text (table, machine->name);
      hw_table_take (table, hw_words_care_task (handbook, (int) i));
      hw_table_text (table, NULL);
      hw_table_take (table, g_steal_pointer (&words));
      hw_table_text (table, NULL);
    }
}

static HwTable *
build_people (const HwCommandQueue *inputs,
              const HwMachine      *machine)
{
  HwTable *table = hw_table_new ("care", "task");

  hw_table_add_column (table, "machine", _("Machine"), FALSE);
  hw_table_add_column (table, "task", _("Care"), FALSE);
  hw_table_add_column (table, "clock", _("So far"), FALSE);
  hw_table_add_column (table, "when", _("Due"), FALSE);
  hw_table_add_column (table, "date", _("Date"), FALSE);
  for (guint i = 0; i < inputs->queue->care->len; i++)
    {
      const HwCareDue *due = g_ptr_array_index (inputs->queue->care, i);

      if (machine != NULL && due->machine != machine)
        continue;
      hw_table_text (table, due->machine->name);
      hw_table_take (table, hw_words_care_task (inputs->handbook, due->care));
      hw_table_take (table, hw_words_care_clock (inputs->handbook, due));
      hw_table_take (table, hw_words_care_when (inputs->queue, due));
      hw_table_take (table, hw_words_date (due->about != NULL ? due->about : due->date));
    }
  for (guint i = 0; i < inputs->room->machines->len; i++)
    if (machine == NULL || machine == inputs->room->machines->pdata[i])
      add_without (table, inputs->handbook, inputs->room->machines->pdata[i]);
  return table;
}

static void
print_people (const HwCommandQueue *inputs,
              const HwMachine      *machine)
{
  g_autoptr (HwTable) table = build_people (inputs, machine);
  g_autofree char *text = hw_table_format (table, HW_FORMAT_PEOPLE);
  g_autofree char *caution = hw_words_caution (0);
  g_autofree char *week = hw_words_hours (inputs->room->preferences->hours_a_week);
  g_autofree char *line = hw_words_care_dates (week);

  hw_command_print (text);
  hw_command_print (line);
  hw_command_print ("\n");
  hw_command_print (caution);
  hw_command_print ("\n");
}

/* ---- for programs ---- */

/* To the hundredth: half a minute, or a few hours of a month. */
static double
round_clock (double value)
{
  return round (value * 100) / 100;
}

static HwTable *
build_table (const HwCommandQueue *inputs,
             const HwMachine      *machine)
{
  HwTable *table = hw_table_new ("care", "task");

  hw_table_add_column (table, "machine", "machine", FALSE);
  hw_table_add_column (table, "task", "task", FALSE);
  hw_table_add_column (table, "clock", "clock", TRUE);
  hw_table_add_column (table, "limit", "limit", TRUE);
  hw_table_add_column (table, "unit", "unit", FALSE);
  hw_table_add_column (table, "overdue", "overdue", FALSE);
  hw_table_add_column (table, "date", "date", FALSE);
  hw_table_add_column (table, "project", "project", FALSE);
  hw_table_add_column (table, "before-step", "before-step", FALSE);
  for (guint i = 0; i < inputs->queue->care->len; i++)
    {
      const HwCareDue *due = g_ptr_array_index (inputs->queue->care, i);
      const HwProject *project = due->project >= 0 ? g_ptr_array_index (inputs->queue->projects, (guint) due->project)
                                                   : NULL;

      if (machine != NULL && due->machine != machine)
        continue;
      hw_table_text (table, due->machine->id);
      hw_table_text (table, task_id (inputs->handbook, due));
      hw_table_number (table, round_clock (due->clock), hw_words_number (due->clock, 2));
      hw_table_number (table, round_clock (due->limit), hw_words_number (due->limit, 2));
      hw_table_text (table, unit_of (inputs->handbook, due));
      hw_table_text (table, due->overdue ? "yes" : "no");
      hw_table_text (table, due->date);
      hw_table_text (table, project != NULL ? project->id : NULL);
      hw_table_text (table, due->step);
    }
  return table;
}

/* ---- done, calendar ---- */

static int
note_done (const HwCommandQueue *inputs,
           const HwMachine      *machine,
           const char           *task)
{
  int care = hw_handbook_find_care (inputs->handbook, task);
  g_autoptr (HwJournalEntry) entry = NULL;
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *name = NULL;
  g_autofree char *line = NULL;

  if (care < 0)
    {
      fprintf (stderr, _("There is no care “%s” in the handbook; “handwheel handbook care” lists it\n"), task);
      return HW_EXIT_REFUSED;
    }
  if ((inputs->handbook->care[care].machines & (1u << machine->kind)) == 0)
    {
      fprintf (stderr, _("“%s” is not for a machine such as “%s”\n"), task, machine->id);
      return HW_EXIT_REFUSED;
    }
  entry = hw_journal_entry_new (HW_ENTRY_CARE, machine->id);
  entry->task = g_strdup (task);
  room = hw_command_append (inputs->room, entry, &error);
  if (room == NULL)
    return hw_command_fail (error);
  name = hw_words_care_task (inputs->handbook, care);
  /* Translators: a machine's name, a care task */
  line = g_strdup_printf (_("%s: %s, done.\n"), machine->name, name);
  hw_command_print (line);
  if (g_str_equal (task, HW_NEEDLE_TASK)
      && hw_room_get_state (room, hw_room_find_machine (room, machine->id))->needle == NULL)
    hw_command_print (_("No needle is noted in it now: “handwheel log FILE --load” notes the one that the plan wants "
                        "next.\n"));
  return HW_EXIT_DONE;
}

static int
write_calendar (const HwCommandQueue *inputs,
                const char           *path)
{
  g_autofree char *text = hw_words_care_calendar (inputs->handbook, inputs->room, inputs->queue, inputs->now);
  g_autoptr (GError) error = NULL;

  if (!hw_save_bytes (path, text, (gssize) strlen (text), &error))
    return hw_command_fail (error);
  return HW_EXIT_DONE;
}

static int
run (const HwCommandQueue *inputs,
     const char           *machine_id,
     const char           *done,
     const char           *calendar,
     HwFormat              format)
{
  const HwMachine *machine = machine_id != NULL ? hw_room_find_machine (inputs->room, machine_id) : NULL;

  if (machine_id != NULL && machine == NULL)
    {
      fprintf (stderr, _("There is no machine “%s” in the sewing room\n"), machine_id);
      return HW_EXIT_REFUSED;
    }
  if (done != NULL)
    return note_done (inputs, machine, done);
  if (calendar != NULL)
    return write_calendar (inputs, calendar);
  if (format == HW_FORMAT_PEOPLE)
    {
      print_people (inputs, machine);
    }
  else
    {
      g_autoptr (HwTable) table = build_table (inputs, machine);
      g_autofree char *text = hw_table_format (table, format);

      hw_command_print (text);
    }
  return HW_EXIT_DONE;
}

int
hw_command_care (int    argc,
                 char **argv)
{
  g_auto (HwCommandQueue) inputs = { 0 };
  g_autofree char *format_word = NULL;
  g_autofree char *room_folder = NULL;
  g_autofree char *machine = NULL;
  g_autofree char *done = NULL;
  g_autofree char *calendar = NULL;
  HwFormat         format = HW_FORMAT_PEOPLE;
  int              status = HW_EXIT_DONE;
  const GOptionEntry entries[] = {
    { "machine", 0, 0, G_OPTION_ARG_STRING, &machine, N_("only this machine"), N_("ID") },
    { "done", 0, 0, G_OPTION_ARG_STRING, &done, N_("note in the journal that this care was done on --machine"),
      N_("TASK") },
    { "calendar", 0, 0, G_OPTION_ARG_FILENAME, &calendar, N_("write the dates as a calendar (RFC 5545)"), N_("FILE") },
    { "format", 0, 0, G_OPTION_ARG_STRING, &format_word, N_("table (for people), csv or xml"), N_("FORMAT") },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, NULL,
                         _("What care each machine is due, before which step of the projects in the sewing room and on "
                           "which date. Its own manual comes before all of it."),
                         entries, &status))
    return status;
  if (argc > 1)
    return hw_command_usage (argv[0], _("it takes no file; the projects are those of the sewing room"));
  if (done != NULL && machine == NULL)
    return hw_command_usage (argv[0], _("say on which machine it was done: --machine ID"));
  if (done != NULL && calendar != NULL)
    return hw_command_usage (argv[0], _("either --done or --calendar"));
  if (!hw_command_get_format (argv[0], format_word, &format))
    return HW_EXIT_USAGE;
  if (!hw_command_queue_open (&inputs, NULL, room_folder, HW_QUEUE_AS_PREFERRED, &status))
    return status;
  return run (&inputs, machine, done, calendar, format);
}
