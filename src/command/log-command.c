/* log-command.c - handwheel log: note steps as sewn, a load, or hours on a machine
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <stdio.h>

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "words/words-room.h"
#include "words/words.h"

static gboolean
take_room (HwRoom **room,
           HwRoom  *next,               /* (transfer full) (nullable) */
           GError  *error,
           int     *status)
{
  if (next == NULL)
    {
      *status = hw_command_fail (error);
      return FALSE;
    }
  hw_room_unref (*room);
  *room = next;
  return TRUE;
}

static gboolean
append_entry (HwRoom              **room,
              const HwJournalEntry *entry,
              int                  *status)
{
  g_autoptr (GError) error = NULL;
  HwRoom *next = hw_command_append (*room, entry, &error);

  return take_room (room, next, error, status);
}

static void
print_hours (const HwRoom    *room,
             const HwMachine *machine)
{
  const HwMachineState *state = hw_room_get_state (room, machine);
  g_autofree char      *hours = hw_words_hours (state->at_machine_hours);
  /* Translators: machine's name, its hours in all */
  g_autofree char      *line = g_strdup_printf (_("%s: %s at the machine in all.\n"), machine->name, hours);

  hw_command_print (line);
}

/* Hours without a project: --machine M --minutes N. */
static int
log_minutes (HwRoom          **room,
             const HwHandbook *handbook,
             const char       *machine_id,
             double            minutes)
{
  const HwMachine *machine = hw_room_find_machine (*room, machine_id);
  g_autoptr (HwJournalEntry) entry = NULL;
  const HwMachineState *state;
  int status = HW_EXIT_DONE;

  if (machine == NULL)
    {
      fprintf (stderr, _("There is no machine “%s” in the sewing room\n"), machine_id);
      return HW_EXIT_REFUSED;
    }

  state = hw_room_get_state (*room, machine);
  entry = hw_journal_entry_new (HW_ENTRY_SEWING, machine->id);
  entry->minutes = minutes;
  entry->running = minutes * handbook->running_share;
  entry->needle = g_strdup (state->needle != NULL ? state->needle->id : NULL);
  if (!append_entry (room, entry, &status))
    return status;
  print_hours (*room, hw_room_find_machine (*room, machine_id));
  return HW_EXIT_DONE;
}

/* The needle noted with the step. */
static void
print_load (const HwCommandInputs *inputs,
            const HwJournalEntry  *load)
{
  g_autofree char *needle = hw_words_needle_loaded (inputs->handbook, load);

  /* Translators: machine's name, the needle */
  printf (_("%s: %s is in.\n"), hw_room_find_machine (inputs->room, load->machine)->name, needle);
}

static int
log_step (HwCommandInputs *inputs,
          const char      *number,
          double           minutes,
          gboolean         undo)
{
  const HwPlanStep *planned = hw_plan_find_step (inputs->plan, number);
  const HwStep     *step;
  const HwJournalEntry *first;
  g_autoptr (GPtrArray) entries = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *machine_id = NULL;
  HwRoom *next;
  int status = HW_EXIT_DONE;

  if (planned == NULL)
    {
      fprintf (stderr, _("There is no step numbered “%s” in “%s”; “handwheel plan” lists them\n"), number,
               inputs->project->title);
      return HW_EXIT_REFUSED;
    }
  if (planned->done != undo)
    {
      fprintf (stderr, undo ? _("Step %s is not noted as done\n")
                            : _("Step %s is noted as done already; --undo takes it back\n"), number);
      return HW_EXIT_REFUSED;
    }

  entries = undo ? hw_plan_entries_to_unmark (inputs->plan, number)
                 : hw_plan_entries_for_step (inputs->plan, number, minutes);
  step = hw_project_get_step (inputs->project, planned->step);
  first = g_ptr_array_index (entries, 0);
  machine_id = g_strdup (first->machine);
  next = hw_command_append_all (inputs->room, entries, &error);
  if (!take_room (&inputs->room, next, error, &status))
    return status;

  /* Translators: step's number and name */
  printf (undo ? _("Step %s, %s: taken back.\n") : _("Step %s, %s: done.\n"), step->number, step->name);
  if (first->kind == HW_ENTRY_LOAD)
    print_load (inputs, first);
  if (hw_room_find_machine (inputs->room, machine_id) != NULL)
    print_hours (inputs->room, hw_room_find_machine (inputs->room, machine_id));
  return HW_EXIT_DONE;
}

static int
log_load (HwCommandInputs *inputs)
{
  HwNow now = hw_plan_now (inputs->plan, NULL);
  g_autoptr (HwJournalEntry) entry = NULL;
  g_autofree char *what = NULL;
  int status = HW_EXIT_DONE;

  if (now.next == NULL || now.next_group == NULL)
    {
      fprintf (stderr, "%s\n", _("Nothing more is to be loaded for this project"));
      return HW_EXIT_REFUSED;
    }
  entry = hw_plan_entry_for_load (inputs->plan, now.next_group, now.next);
  what = hw_words_pick (inputs->plan, now.next);
  if (!append_entry (&inputs->room, entry, &status))
    return status;
  /* Translators: machine's name, the needle */
  printf (_("%s: %s is in.\n"), now.next_group->machine->name, what);
  return HW_EXIT_DONE;
}

static int
run (int          argc,
     char       **argv,
     const char  *room_folder,
     char       **steps,
     const char  *machine,
     double       minutes,
     gboolean     load,
     gboolean     undo)
{
  g_auto (HwCommandInputs) inputs = { 0 };
  int status = HW_EXIT_DONE;

  if (machine != NULL)
    {
      inputs.handbook = hw_command_handbook_load (&status);
      if (inputs.handbook != NULL)
        inputs.room = hw_command_room_open (room_folder, &status);
      return inputs.room != NULL ? log_minutes (&inputs.room, inputs.handbook, machine, minutes) : status;
    }

  if (load && steps == NULL)
    return hw_command_inputs_open (&inputs, argv[1], room_folder, &status) ? log_load (&inputs) : status;

  for (char **number = steps; *number != NULL && status == HW_EXIT_DONE; number++)
    {
      g_auto (HwCommandInputs) each = { 0 };

      if (hw_command_inputs_open (&each, argv[1], room_folder, &status))
        status = log_step (&each, *number, minutes, undo);
    }
  return status;
}

int
hw_command_log (int    argc,
                char **argv)
{
  g_autofree char *room_folder = NULL;
  g_autofree char *machine = NULL;
  g_auto (GStrv)   steps = NULL;
  double           minutes = 0;
  gboolean         load = FALSE;
  gboolean         undo = FALSE;
  int              status = HW_EXIT_DONE;
  const GOptionEntry entries[] = {
    { "step", 0, 0, G_OPTION_ARG_STRING_ARRAY, &steps, N_("this step is done; may be repeated"), N_("NUMBER") },
    { "load", 0, 0, G_OPTION_ARG_NONE, &load, N_("the needle to load next is in the machine now"), NULL },
    { "undo", 0, 0, G_OPTION_ARG_NONE, &undo, N_("the step is not done after all"), NULL },
    { "machine", 0, 0, G_OPTION_ARG_STRING, &machine, N_("add minutes to this machine, without a project"), N_("ID") },
    { "minutes", 0, 0, G_OPTION_ARG_DOUBLE, &minutes,
      N_("minutes at the machine; without it a step counts as planned"), N_("N") },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, _("[FILE]"),
                         _("Notes in the journal what was done: steps of a project, a needle loaded, or minutes on a "
                           "machine."),
                         entries, &status))
    return status;
  if ((machine != NULL) == (argc == 2) || argc > 2)
    return hw_command_usage (argv[0], _("name a project file with --step or --load, or a machine with --machine and "
                                        "--minutes"));
  if (machine != NULL && !(minutes > 0 && minutes <= 1440))
    return hw_command_usage (argv[0], _("--minutes is more than 0 and at most 1440"));
  if (minutes < 0 || minutes > 1440)
    return hw_command_usage (argv[0], _("--minutes is more than 0 and at most 1440"));
  if (machine == NULL && steps == NULL && !load)
    return hw_command_usage (argv[0], _("say what was done: --step NUMBER or --load"));

  return run (argc, argv, room_folder, steps, machine, minutes, load, undo);
}
