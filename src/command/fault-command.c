/* fault-command.c - handwheel fault: trace a stitch fault, and note what it was
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <stdio.h>
#include <string.h>

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "words/words.h"

typedef struct
{
  char    *room_folder, *format_word, *step, *machine_id, *found;
  char   **ruled_out;
  gboolean done;
} Options;

typedef struct
{
  HwCommandInputs  inputs;
  HwFormat         format;
  const HwFault   *fault;
  const HwMachine *machine;
  const HwSetup   *setup;               /* NULL: no step named */
} Trace;

static void
clear_options (Options *self)
{
  g_free (self->room_folder);
  g_free (self->format_word);
  g_free (self->step);
  g_free (self->machine_id);
  g_free (self->found);
  g_strfreev (self->ruled_out);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Options, clear_options)

static int
refuse (const char *format,
        ...) G_GNUC_PRINTF (1, 2);

static int
refuse (const char *format,
        ...)
{
  g_autofree char *text = NULL;
  va_list          args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  fprintf (stderr, "%s\n", text);
  return HW_EXIT_REFUSED;
}

/* ---- the list ---- */

/* For people what the machines are called, for programs their ids. */
static char *
list_machines (guint    mask,
               HwFormat format)
{
  GString *list = g_string_new (NULL);

  for (int i = 0; i < HW_N_MACHINE_KINDS; i++)
    if ((mask & (1u << i)) != 0 && format == HW_FORMAT_PEOPLE)
      g_string_append_printf (list, "%s%s", list->len > 0 ? ", " : "", hw_words_machine_kind ((HwMachineKind) i));
    else if ((mask & (1u << i)) != 0)
      g_string_append_printf (list, "%s%s", list->len > 0 ? " " : "", hw_machine_kind_ids[i]);
  return g_string_free (list, FALSE);
}

static int
list_faults (HwFormat format)
{
  int                    status = HW_EXIT_DONE;
  g_autoptr (HwHandbook) handbook = hw_command_handbook_load (&status);
  g_autoptr (HwTable)    table = hw_table_new ("faults", "fault");
  g_autofree char       *text = NULL;

  if (handbook == NULL)
    return status;
  hw_table_add_column (table, "id", _("Fault"), FALSE);
  hw_table_add_column (table, "name", _("Name"), FALSE);
  hw_table_add_column (table, "machines", _("Machines"), FALSE);
  hw_table_add_column (table, "sign", _("What is seen"), FALSE);
  for (gsize i = 0; i < handbook->n_faults; i++)
    {
      hw_table_text (table, handbook->faults[i].entry.id);
      hw_table_text (table, handbook->faults[i].entry.name);
      hw_table_take (table, list_machines (handbook->faults[i].machines, format));
      hw_table_text (table, handbook->faults[i].sign);
    }
  text = hw_table_format (table, format);
  hw_command_print (text);
  return HW_EXIT_DONE;
}

/* ---- what is asked ---- */

static int
find_fault (Trace      *self,
            const char *id)
{
  int              index = hw_handbook_find_fault (self->inputs.handbook, id);
  g_autofree char *nearest = NULL;

  if (index >= 0)
    {
      self->fault = &self->inputs.handbook->faults[index];
      return HW_EXIT_DONE;
    }
  nearest = hw_handbook_nearest_id (self->inputs.handbook, "fault", id);
  if (nearest != NULL)
    return refuse (_("The handbook has no fault “%s”; did you mean “%s”?"), id, nearest);
  return refuse (_("The handbook has no fault “%s”; “handwheel fault” lists them"), id);
}

static int
find_step (Trace      *self,
           const char *number)
{
  int index = hw_project_find_step (self->inputs.project, number);

  if (index < 0)
    return refuse (_("There is no step numbered “%s” in “%s”; “handwheel plan” lists them"), number,
                   self->inputs.project->title);
  self->setup = self->inputs.plan->setups[index];
  if (self->setup == NULL)
    return refuse (_("Step %s is sewn on no machine"), number);
  return HW_EXIT_DONE;
}

/* The one named, that of the step, or the room's first on which the fault shows. */
static int
find_machine (Trace      *self,
              const char *id)
{
  const HwRoom *room = self->inputs.room;

  self->machine = id != NULL ? hw_room_find_machine (room, id) : self->setup != NULL ? self->setup->machine : NULL;
  if (id != NULL && self->machine == NULL)
    return refuse (_("There is no machine “%s” in the sewing room"), id);
  for (guint i = 0; self->machine == NULL && i < room->machines->len; i++)
    if ((self->fault->machines & (1u << ((HwMachine *) g_ptr_array_index (room->machines, i))->kind)) != 0)
      self->machine = g_ptr_array_index (room->machines, i);
  if (self->machine == NULL)
    return refuse (_("No machine in the sewing room can have the fault “%s”"), self->fault->entry.id);
  if ((self->fault->machines & (1u << self->machine->kind)) == 0)
    return refuse (_("“%s” is no fault of %s"), self->fault->entry.id, self->machine->name);
  if (self->setup != NULL && self->setup->machine != self->machine)
    return refuse (_("The step is sewn on %s, not on %s; leave --machine out"), self->setup->machine->name,
                   self->machine->name);
  return HW_EXIT_DONE;
}

static int
check_cause (const Trace *self,
             const char  *id)
{
  g_autoptr (GString) all = g_string_new (NULL);

  if (id == NULL || hw_fault_find_cause (self->fault, id) != NULL)
    return HW_EXIT_DONE;
  for (gsize i = 0; i < self->fault->n_causes; i++)
    g_string_append_printf (all, "%s%s", i > 0 ? ", " : "", self->fault->causes[i].id);
  return refuse (_("“%s” has no cause “%s”; it has %s"), self->fault->entry.id, id, all->str);
}

static int
open_trace (Trace         *self,
            int            argc,
            char         **argv,
            const Options *options)
{
  int status = HW_EXIT_DONE;

  if (argc == 3)
    {
      if (!hw_command_inputs_open (&self->inputs, argv[2], options->room_folder, &status))
        return status;
    }
  else
    {
      self->inputs.handbook = hw_command_handbook_load (&status);
      if (self->inputs.handbook != NULL)
        self->inputs.room = hw_command_room_open (options->room_folder, &status);
      if (self->inputs.room == NULL)
        return status;
    }
  status = find_fault (self, argv[1]);
  if (status == HW_EXIT_DONE && options->step != NULL)
    status = find_step (self, options->step);
  if (status == HW_EXIT_DONE)
    status = find_machine (self, options->machine_id);
  for (char **id = options->ruled_out; status == HW_EXIT_DONE && id != NULL && *id != NULL; id++)
    status = check_cause (self, *id);
  return status == HW_EXIT_DONE ? check_cause (self, options->found) : status;
}

/* ---- the checks ---- */

static HwFix
get_fix (const Trace   *self,
         const HwCause *cause)
{
  return hw_fault_fix (self->inputs.handbook, self->inputs.room, self->machine, self->setup, cause);
}

static void
add_check (HwTable            *table,
           const Trace        *self,
           const HwFaultCheck *check,
           guint               place)
{
  HwFix fix = get_fix (self, check->cause);

  hw_table_number (table, place, g_strdup_printf ("%u", place));
  hw_table_text (table, check->cause->id);
  hw_table_text (table, check->cause->name);
  hw_table_number (table, check->chance, hw_words_number (check->chance, 3));
  hw_table_number (table, check->minutes, hw_words_minutes (check->minutes));
  hw_table_text (table, check->cause->check);
  hw_table_take (table, hw_words_fault_fact (self->inputs.handbook, check));
  hw_table_number (table, check->found, g_strdup_printf ("%d", check->found));
  hw_table_text (table, check->cause->action);
  hw_table_take (table, hw_words_fix (self->inputs.handbook, check->cause, &fix));
}

static void
print_table (const Trace         *self,
             const HwFaultSearch *search)
{
  g_autoptr (HwTable) table = hw_table_new ("fault", "check");
  g_autofree char    *text = NULL;
  char                minutes[G_ASCII_DTOSTR_BUF_SIZE];

  hw_table_fact (table, "fault", self->fault->entry.id);
  hw_table_fact (table, "machine", self->machine->id);
  if (self->setup != NULL)
    hw_table_fact (table, "step", self->setup->step->number);
  hw_table_fact (table, "expected-minutes", g_ascii_formatd (minutes, sizeof minutes, "%.2f",
                                                             search->expected_minutes));
  hw_table_add_column (table, "place", _("Place"), TRUE);
  hw_table_add_column (table, "cause", _("Cause"), FALSE);
  hw_table_add_column (table, "name", _("Name"), FALSE);
  hw_table_add_column (table, "chance", _("Chance"), TRUE);
  hw_table_add_column (table, "minutes", _("Minutes"), TRUE);
  hw_table_add_column (table, "check", _("How to find out"), FALSE);
  hw_table_add_column (table, "known", _("What the room knows"), FALSE);
  hw_table_add_column (table, "found-before", _("Found before"), TRUE);
  hw_table_add_column (table, "remedy", _("Remedy"), FALSE);
  hw_table_add_column (table, "fix", _("Can be noted"), FALSE);
  for (guint i = 0; i < search->checks->len; i++)
    add_check (table, self, &g_array_index (search->checks, HwFaultCheck, i), i + 1);
  text = hw_table_format (table, self->format);
  hw_command_print (text);
}

static void
print_line (char *text)                 /* (transfer full) (nullable) */
{
  if (text != NULL)
    printf ("     %s\n", text);
  g_free (text);
}

static void
print_check (const Trace        *self,
             const HwFaultCheck *check,
             guint               place)
{
  g_autofree char *minutes = hw_words_minutes (check->minutes);
  HwFix            fix = get_fix (self, check->cause);
  g_autofree char *press = hw_words_fix (self->inputs.handbook, check->cause, &fix);

  /* Translators: place in the list, cause, its id, chance in per cent, minutes to find out */
  printf (_("%u.  %s (%s): %.0f %%, %s\n"), place, check->cause->name, check->cause->id, check->chance * 100,
          minutes);
  print_line (g_strdup (check->cause->check));
  print_line (hw_words_fault_fact (self->inputs.handbook, check));
  print_line (hw_words_fault_history (check));
  print_line (g_strdup_printf ("→ %s", check->cause->action));
  if (press != NULL)
    /* Translators: a remedy that the program can note, such as “Lower the dial to 3” */
    print_line (g_strdup_printf (_("--found %s --done: %s"), check->cause->id, press));
}

static void
print_people (const Trace         *self,
              const HwFaultSearch *search)
{
  g_autofree char *expected = hw_words_number (search->expected_minutes, 1);

  printf ("%s\n", self->fault->entry.name);
  printf ("  %s\n", self->fault->sign);
  if (self->fault->entry.note != NULL)
    printf ("  %s\n", self->fault->entry.note);
  if (self->setup != NULL)
    /* Translators: machine, number and name of a step */
    printf (_("  %s, step %s, %s\n"), self->machine->name, self->setup->step->number, self->setup->step->name);
  else
    printf ("  %s\n", self->machine->name);
  for (char **caution = self->fault->cautions; *caution != NULL; caution++)
    printf ("  %s %s\n", _("Caution:"), _(*caution));
  for (guint i = 0; i < search->checks->len; i++)
    print_check (self, &g_array_index (search->checks, HwFaultCheck, i), i + 1);
  /* Translators: minutes */
  printf (_("In this order the cause is found in %s min on average.\n"), expected);
}

static int
show_checks (const Trace   *self,
             const Options *options)
{
  g_autoptr (GDateTime)     now = g_date_time_new_now_utc ();
  g_autofree char          *now_iso = g_date_time_format_iso8601 (now);
  g_autoptr (HwFaultSearch) search = hw_fault_search_new (self->inputs.handbook, self->inputs.room, self->machine,
                                                          self->setup, self->fault,
                                                          (const char * const *) options->ruled_out, now_iso);

  if (search == NULL)
    return refuse (_("Every cause of “%s” is ruled out; leave it to a qualified technician"), self->fault->entry.id);
  if (self->format == HW_FORMAT_PEOPLE)
    print_people (self, search);
  else
    print_table (self, search);
  return HW_EXIT_DONE;
}

/* ---- what it was ---- */

/* Takes @entry (NULL: nothing to note). */
static int
append_entry (Trace          *self,
              HwJournalEntry *entry)
{
  g_autoptr (HwJournalEntry) owned = entry;
  g_autoptr (GError)         error = NULL;
  HwRoom                    *next = owned != NULL ? hw_command_append (self->inputs.room, owned, &error)
                                                  : hw_room_ref (self->inputs.room);

  if (next == NULL)
    return hw_command_fail (error);
  hw_room_unref (self->inputs.room);
  self->inputs.room = next;
  return HW_EXIT_DONE;
}

static int
note_found (Trace         *self,
            const Options *options)
{
  const HwCause   *cause = hw_fault_find_cause (self->fault, options->found);
  HwFix            fix = get_fix (self, cause);
  HwJournalEntry  *entry = NULL;
  g_autofree char *done = hw_words_fix_done (self->inputs.handbook, &fix);
  g_autofree char *name = g_strdup (self->machine->name);
  int              status = HW_EXIT_DONE;

  if (options->done && fix.kind == HW_FIX_NONE)
    return refuse (_("Nothing can be noted as done about “%s” here; leave --done out"), cause->id);
  entry = hw_fault_entry (self->machine, self->fault, cause,
                          self->setup != NULL ? self->inputs.project->id : NULL,
                          self->setup != NULL ? self->setup->step->number : NULL);
  entry->dial = options->done ? fix.dial : 0;
  if (options->done)
    status = append_entry (self, hw_fault_fix_entry (self->inputs.handbook, self->inputs.room, self->machine, &fix));
  if (status != HW_EXIT_DONE)
    {
      hw_journal_entry_free (entry);
      return status;
    }
  status = append_entry (self, entry);
  if (status != HW_EXIT_DONE)
    return status;
  /* Translators: machine, fault, cause */
  printf (_("%s: %s, %s. Noted.\n"), name, self->fault->entry.name, cause->name);
  printf ("→ %s\n", options->done && done != NULL ? done : cause->action);
  return HW_EXIT_DONE;
}

static int
run (int            argc,
     char         **argv,
     const Options *options,
     HwFormat       format)
{
  Trace trace = { .format = format };
  int   status = open_trace (&trace, argc, argv, options);

  if (status == HW_EXIT_DONE)
    status = options->found != NULL ? note_found (&trace, options) : show_checks (&trace, options);
  hw_command_inputs_clear (&trace.inputs);
  return status;
}

int
hw_command_fault (int    argc,
                  char **argv)
{
  g_auto (Options) options = { 0 };
  HwFormat         format = HW_FORMAT_PEOPLE;
  int              status = HW_EXIT_DONE;
  const GOptionEntry entries[] = {
    { "step", 0, 0, G_OPTION_ARG_STRING, &options.step, N_("the step of the project that was sewn"), N_("NUMBER") },
    { "machine", 0, 0, G_OPTION_ARG_STRING, &options.machine_id, N_("the machine on which it shows"), N_("ID") },
    { "not", 0, 0, G_OPTION_ARG_STRING_ARRAY, &options.ruled_out, N_("it is not this cause; may be repeated"),
      N_("CAUSE") },
    { "found", 0, 0, G_OPTION_ARG_STRING, &options.found, N_("it is this cause: note it in the journal"),
      N_("CAUSE") },
    { "done", 0, 0, G_OPTION_ARG_NONE, &options.done,
      N_("with --found: the remedy is done too (new needle in, dial set, care done)"), NULL },
    { "format", 0, 0, G_OPTION_ARG_STRING, &options.format_word, N_("table (for people), csv or xml"), N_("FORMAT") },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &options.room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, _("[SYMPTOM [FILE]]"),
                         _("What to check first when a stitch goes wrong, by all that the sewing room knows. Without a "
                           "symptom, lists them."),
                         entries, &status))
    return status;
  if (!hw_command_get_format (argv[0], options.format_word, &format))
    return HW_EXIT_USAGE;
  if (argc > 3)
    return hw_command_usage (argv[0], _("name one symptom and at most one project file"));
  if ((argc == 3) != (options.step != NULL))
    return hw_command_usage (argv[0], _("a project file goes with --step NUMBER"));
  if (argc == 1 && (options.found != NULL || options.ruled_out != NULL || options.machine_id != NULL))
    return hw_command_usage (argv[0], _("name a symptom; “handwheel fault” lists them"));
  if (options.done && options.found == NULL)
    return hw_command_usage (argv[0], _("--done goes with --found CAUSE"));
  return argc == 1 ? list_faults (format) : run (argc, argv, &options, format);
}
