/* test-seam-command.c - handwheel test-seam: note how a scrap looked, and what is believed of each dial
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "model/edit.h"
#include "plan/test-seam.h"
#include "words/words.h"

typedef struct
{
  char    *room_folder, *format_word, *step, *machine, *dial_word, *verdict_word, *note;
  HwFormat format;
  gboolean judged;                       /* a verdict was given */
  HwVerdict verdict;
  double   dial;                         /* NAN: as the set-up says */
} Options;

static void
clear_options (Options *self)
{
  g_free (self->room_folder);
  g_free (self->format_word);
  g_free (self->step);
  g_free (self->machine);
  g_free (self->dial_word);
  g_free (self->verdict_word);
  g_free (self->note);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Options, clear_options)

/* ---- the table ---- */

static HwTable *
new_table (const HwPlan *plan)
{
  HwTable *table = hw_table_new ("test-seam", "step");

  hw_table_fact (table, "project", plan->project->id);
  hw_table_add_column (table, "number", _("Step"), FALSE);
  hw_table_add_column (table, "name", _("Name"), FALSE);
  hw_table_add_column (table, "machine", _("Machine"), FALSE);
  hw_table_add_column (table, "dial", _("Dial"), TRUE);
  hw_table_add_column (table, "likely-low", _("Likely from"), TRUE);
  hw_table_add_column (table, "likely-high", _("to"), TRUE);
  hw_table_add_column (table, "test-seams", _("Test seams on it"), TRUE);
  return table;
}

static void
add_half (HwTable *table, double dial)
{
  hw_table_number (table, dial, hw_words_half (dial));
}

static void
add_step (HwTable *table, const HwSetup *setup)
{
  hw_table_text (table, setup->step->number);
  hw_table_text (table, setup->step->name);
  hw_table_text (table, setup->machine->name);
  add_half (table, setup->values[HW_FIELD_DIAL].value);
  add_half (table, setup->dial_likely_low);
  add_half (table, setup->dial_likely_high);
  hw_table_number (table, setup->n_test_seams, hw_words_number (setup->n_test_seams, 0));
}

static void
print_table (const HwTable *table, HwFormat format)
{
  g_autofree char *text = hw_table_format (table, format);

  hw_command_print (text);
}

/* ---- what is believed ---- */

static gboolean
is_asked (const Options *options, const HwSetup *setup)
{
  return setup != NULL && (options->step == NULL || strcmp (options->step, setup->step->number) == 0)
         && (options->machine == NULL || strcmp (options->machine, setup->machine->id) == 0);
}

static int
show_believed (const Options *options, const HwPlan *plan)
{
  g_autoptr (HwTable) table = new_table (plan);
  int n = 0;

  for (gsize i = 0; i < plan->n_steps; i++)
    {
      const HwSetup *setup = hw_plan_find_test_setup (plan, hw_project_get_step (plan->project, i)->number);

      if (!is_asked (options, setup))
        continue;
      add_step (table, setup);
      n++;
    }
  if (n == 0 && options->format == HW_FORMAT_PEOPLE)
    hw_command_print (_("No step here has a needle thread dial that test seams teach.\n"));
  else
    print_table (table, options->format);
  return HW_EXIT_DONE;
}

/* ---- one more seam ---- */

static int
print_recorded (const Options *options, const HwPlan *plan, const HwSetup *setup, double dial)
{
  double next = hw_plan_next_dial (plan, setup, dial, options->verdict, TRUE);
  g_autoptr (HwTable) table = new_table (plan);
  g_autofree char *look = hw_words_look (options->verdict, &setup->tension);
  g_autofree char *after = hw_words_after_test (options->verdict, dial, next, TRUE);
  g_autofree char *here = hw_words_half (dial);

  hw_table_add_column (table, "sewn-at", _("Sewn at"), TRUE);
  hw_table_add_column (table, "verdict", _("It looked"), FALSE);
  hw_table_add_column (table, "next", _("Try next"), TRUE);
  add_step (table, setup);
  add_half (table, dial);
  hw_table_text (table, options->format == HW_FORMAT_PEOPLE ? look : hw_verdict_ids[options->verdict]);
  add_half (table, next);
  if (options->format == HW_FORMAT_PEOPLE)
    /* Translators: step's number and name, machine's name, number on the dial, how the seam looked, what to do next */
    printf (_("Step %s, %s, on “%s” at %s: %s.\n%s\n"), setup->step->number, setup->step->name, setup->machine->name,
            here, look, after);
  print_table (table, options->format);
  return HW_EXIT_DONE;
}

static int
record (const Options *options, const HwPlan *plan, const HwSetup *setup)
{
  const HwDialScale *scale = &setup->machine->dial;
  double dial = isnan (options->dial) ? setup->values[HW_FIELD_DIAL].value : options->dial;
  g_autoptr (HwJournalEntry) entry = NULL;
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (HwPlan) taught = NULL;
  g_autoptr (GError) error = NULL;

  if (dial < scale->low || dial > scale->high)
    {
      g_autofree char *low = hw_words_half (scale->low);
      g_autofree char *high = hw_words_half (scale->high);

      fprintf (stderr, _("The dial of “%s” goes from %s to %s; name a number on it with --dial\n"),
               setup->machine->name, low, high);
      return HW_EXIT_REFUSED;
    }
  entry = hw_plan_entry_for_test_seam (plan, setup, dial, options->verdict);
  entry->note = g_strdup (options->note);
  room = hw_command_append (plan->room, entry, &error);
  if (room != NULL)
    taught = hw_plan_new (plan->handbook, plan->project, room, &error);
  if (taught == NULL)
    return hw_command_fail (error);
  return print_recorded (options, taught, hw_plan_find_test_setup (taught, options->step), dial);
}

/* ---- the command ---- */

/* The step sewn on another machine than its own, for this once. */
static gboolean
move_to_machine (HwCommandInputs *inputs, const Options *options, int *status)
{
  g_autoptr (GError) error = NULL;
  HwProject *moved;
  HwPlan *plan = NULL;

  if (hw_room_find_machine (inputs->room, options->machine) == NULL)
    {
      fprintf (stderr, _("There is no machine “%s” in the sewing room\n"), options->machine);
      *status = HW_EXIT_REFUSED;
      return FALSE;
    }
  if (options->step == NULL)
    return TRUE;
  moved = hw_edit_set_override (inputs->project, options->step, HW_FIELD_MACHINE, 0, options->machine, &error);
  if (moved != NULL)
    plan = hw_plan_new (inputs->handbook, moved, inputs->room, &error);
  if (plan == NULL)
    *status = hw_command_fail (error);
  else
    hw_plan_unref (inputs->plan);
  if (plan != NULL)
    inputs->plan = plan;
  g_clear_pointer (&moved, hw_project_unref);
  return plan != NULL;
}

static int
run (const Options *options, const char *file)
{
  g_auto (HwCommandInputs) inputs = { 0 };
  const HwSetup *setup;
  int status = HW_EXIT_DONE;

  if (!hw_command_inputs_open (&inputs, file, options->room_folder, &status))
    return status;
  if (options->step != NULL && hw_project_find_step (inputs.project, options->step) < 0)
    {
      fprintf (stderr, _("There is no step numbered “%s” in “%s”; “handwheel plan” lists them\n"), options->step,
               inputs.project->title);
      return HW_EXIT_REFUSED;
    }
  if (options->machine != NULL && !move_to_machine (&inputs, options, &status))
    return status;
  if (!options->judged)
    return show_believed (options, inputs.plan);
  setup = hw_plan_find_test_setup (inputs.plan, options->step);
  if (setup == NULL)
    {
      fprintf (stderr, _("Step %s is not sewn with a needle thread dial that test seams teach\n"), options->step);
      return HW_EXIT_REFUSED;
    }
  return record (options, inputs.plan, setup);
}

/* “3½”, “3.5” and, where people write it so, “3,5”. */
static gboolean
read_dial (Options *self)
{
  g_autoptr (GString) text = NULL;
  char *end = NULL;

  self->dial = NAN;
  if (self->dial_word == NULL)
    return TRUE;
  text = g_string_new (self->dial_word);
  g_string_replace (text, "½", g_str_has_prefix (self->dial_word, "½") ? "0.5" : ".5", 0);
  g_string_replace (text, ",", ".", 0);
  self->dial = g_ascii_strtod (text->str, &end);
  return end != text->str && *end == '\0' && isfinite (self->dial);
}

static gboolean
read_verdict (Options *self)
{
  self->judged = hw_verdict_find (self->verdict_word, &self->verdict);
  return self->verdict_word == NULL || self->judged;
}

int
hw_command_test_seam (int argc, char **argv)
{
  g_auto (Options) options = { 0 };
  int status = HW_EXIT_DONE;
  const GOptionEntry entries[] = {
    { "step", 0, 0, G_OPTION_ARG_STRING, &options.step, N_("the step whose cloth and set-up were tried"),
      N_("NUMBER") },
    { "verdict", 0, 0, G_OPTION_ARG_STRING, &options.verdict_word,
      N_("loops-below (still there after re-threading), balanced, bobbin-above, pucker-released (flat once both "
         "threads are cut), pucker-stays, skipped, thread-snaps or wavy"), N_("WORD") },
    { "dial", 0, 0, G_OPTION_ARG_STRING, &options.dial_word, N_("where it was sewn; without it as the set-up says"),
      N_("N") },
    { "machine", 0, 0, G_OPTION_ARG_STRING, &options.machine, N_("sewn on this machine"), N_("ID") },
    { "note", 0, 0, G_OPTION_ARG_STRING, &options.note, N_("a note to keep with it"), N_("TEXT") },
    { "format", 0, 0, G_OPTION_ARG_STRING, &options.format_word, N_("table (for people), csv or xml"), N_("FORMAT") },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &options.room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, _("FILE"),
                         _("Notes how a test seam on a scrap looked and tells the dial to try next. Without --verdict: "
                           "the dial believed in for each step, with the band it is likely to end in."),
                         entries, &status))
    return status;
  if (argc != 2)
    return hw_command_usage (argv[0], _("name one project file"));
  if (!hw_command_get_format (argv[0], options.format_word, &options.format))
    return HW_EXIT_USAGE;
  if (!read_verdict (&options))
    return hw_command_usage (argv[0], _("“%s” is not a verdict; “handwheel test-seam --help” lists them"),
                             options.verdict_word);
  if (!read_dial (&options))
    return hw_command_usage (argv[0], _("--dial is a number on the machine's dial, such as 3.5"));
  if (options.judged && options.step == NULL)
    return hw_command_usage (argv[0], _("say which step was tried: --step NUMBER"));
  if (!options.judged && (options.dial_word != NULL || options.note != NULL))
    return hw_command_usage (argv[0], _("say how the seam looked: --verdict WORD"));

  return run (&options, argv[1]);
}
