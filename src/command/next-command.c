/* next-command.c - handwheel next [FILE]: the needle to load next
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <stdio.h>

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "words/words.h"

static const char *
get_number (const HwPlan *plan,
            int           place)
{
  if (place < 0)
    return NULL;
  return hw_project_get_step (plan->project, g_array_index (plan->order, HwPlanStep, (guint) place).step)->number;
}

static HwTable *
build_table (const HwPlan *plan)
{
  HwTable *table = hw_table_new ("next", "machine");

  hw_table_fact (table, "project", plan->project->id);
  hw_table_add_column (table, "machine", _("Machine"), FALSE);
  hw_table_add_column (table, "now", _("In the machine"), FALSE);
  hw_table_add_column (table, "hours", _("Its hours"), TRUE);
  hw_table_add_column (table, "load", _("Load next"), FALSE);
  hw_table_add_column (table, "before-step", _("Before step"), FALSE);
  hw_table_add_column (table, "hours-left", _("Hours left"), TRUE);
  hw_table_add_column (table, "runs-out-in-step", _("Runs out in step"), FALSE);

  for (guint i = 0; i < plan->hours->len; i++)
    {
      const HwMachine *machine = g_array_index (plan->hours, HwMachineHours, i).machine;
      HwNow            now = hw_plan_now (plan, machine);

      hw_table_text (table, machine->name);
      hw_table_take (table, hw_words_needle_now (plan, &now));
      hw_table_number (table, now.hours_used, hw_words_hours (now.hours_used));
      hw_table_take (table, hw_words_next (plan, &now));
      if (now.next != NULL && now.next_step >= 0)
        {
          hw_table_text (table, get_number (plan, now.next_step));
          hw_table_number (table, now.next->hours_left, hw_words_hours (now.next->hours_left));
          hw_table_text (table, get_number (plan, now.next->worn_before));
        }
      else
        for (int empty = 0; empty < 3; empty++)
          hw_table_text (table, NULL);
    }
  return table;
}

static void
print_step (const HwPlan *plan)
{
  const HwPlanStep *planned;
  const HwStep     *step;
  g_autofree char  *line = NULL;
  g_autofree char  *within = NULL;

  if (plan->next < 0)
    {
      hw_command_print (_("Every step is sewn.\n"));
      return;
    }
  planned = &g_array_index (plan->order, HwPlanStep, plan->next);
  step = hw_project_get_step (plan->project, planned->step);
  line = g_strdup_printf (_("Next: step %s, %s.\n"), step->number, step->name);
  hw_command_print (line);
  within = hw_words_needles_within (plan, plan->next);
  if (within == NULL)
    return;
  hw_command_print (within);
  hw_command_print (".\n");
}

static void
print_people (const HwPlan *plan,
              const char   *title)
{
  g_autoptr (HwTable) table = build_table (plan);
  g_autofree char *text = hw_table_format (table, HW_FORMAT_PEOPLE);
  g_autofree char *care = NULL;
  HwNow now = hw_plan_now (plan, NULL);

  hw_command_print (title);
  hw_command_print ("\n");
  print_step (plan);
  hw_command_print (text);
  care = hw_words_care_due (plan, &now);
  if (care != NULL)
    {
      hw_command_print (care);
      hw_command_print ("\n");
    }
}

static int
print (const HwPlan *plan,
       const char   *title,
       HwFormat      format)
{
  g_autoptr (HwTable) table = NULL;
  g_autofree char *text = NULL;

  if (format == HW_FORMAT_PEOPLE)
    {
      print_people (plan, title);
      return HW_EXIT_DONE;
    }
  table = build_table (plan);
  text = hw_table_format (table, format);
  hw_command_print (text);
  return HW_EXIT_DONE;
}

/* The first of the queue, or the whole of it when it is mixed: a step is then numbered by its project, “2.14”. */
static int
print_of_room (const char *room_folder,
               HwFormat    format)
{
  g_auto (HwCommandQueue) inputs = { 0 };
  int status = HW_EXIT_DONE;

  if (!hw_command_queue_open (&inputs, NULL, room_folder, HW_QUEUE_AS_PREFERRED, &status))
    return status;
  if (inputs.queue->projects->len == 0)
    {
      fprintf (stderr, "%s\n",
               inputs.projects->len == 0 ? _("There is no project in the sewing room; name a project file")
                                         : _("Nothing is left to sew in the sewing room"));
      return HW_EXIT_REFUSED;
    }
  return print (g_ptr_array_index (inputs.queue->plans, 0),
                inputs.queue->mixed ? _("All projects, mixed")
                                    : ((const HwProject *) g_ptr_array_index (inputs.queue->projects, 0))->title,
                format);
}

int
hw_command_next (int    argc,
                 char **argv)
{
  g_auto (HwCommandInputs) inputs = { 0 };
  g_autofree char *format_word = NULL;
  g_autofree char *room_folder = NULL;
  HwFormat         format = HW_FORMAT_PEOPLE;
  int              status = HW_EXIT_DONE;
  const GOptionEntry entries[] = {
    { "format", 0, 0, G_OPTION_ARG_STRING, &format_word, N_("table (for people), csv or xml"), N_("FORMAT") },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, _("[FILE]"),
                         _("What is in each machine and the needle to load next, for a project or the first of the "
                           "queue."),
                         entries, &status))
    return status;
  if (argc > 2)
    return hw_command_usage (argv[0], _("name at most one project file"));
  if (!hw_command_get_format (argv[0], format_word, &format))
    return HW_EXIT_USAGE;

  if (argc < 2)
    return print_of_room (room_folder, format);
  if (!hw_command_inputs_open (&inputs, argv[1], room_folder, &status))
    return status;
  return print (inputs.plan, inputs.plan->project->title, format);
}
