/* next-command.c - handwheel next [FILE]: the needle to load next
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "words/words.h"

/* The room's project with something left to sew and the earliest due date; ties by file name. */
static char *
find_project (const char *room_folder,
              GError    **error)
{
  g_autofree char *folder = g_build_filename (room_folder, "projects", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autofree char *best = NULL;
  g_autofree char *best_due = NULL;
  const char      *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autoptr (HwProject) project = NULL;
      g_autofree char *due = NULL;
      int order;

      if (!g_str_has_suffix (name, ".handwheel"))
        continue;
      /* A file that does not read is not the one to sew next; “handwheel check” tells why. */
      project = hw_project_read (path, NULL);
      if (project == NULL)
        continue;
      due = g_strdup (project->due != NULL ? project->due : "9999");
      order = best == NULL ? -1 : g_strcmp0 (due, best_due);
      if (order < 0 || (order == 0 && g_strcmp0 (path, best) < 0))
        {
          g_free (best);
          best = g_steal_pointer (&path);
          g_free (best_due);
          best_due = g_steal_pointer (&due);
        }
    }

  if (best == NULL)
    g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                 _("There is no project in the sewing room; name a project file"));
  return g_steal_pointer (&best);
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

  for (guint i = 0; i < plan->hours->len; i++)
    {
      const HwMachine *machine = g_array_index (plan->hours, HwMachineHours, i).machine;
      HwNow            now = hw_plan_now (plan, machine);

      hw_table_text (table, machine->name);
      hw_table_take (table, hw_words_needle_now (plan, &now));
      hw_table_number (table, now.hours_used, hw_words_hours (now.hours_used));
      if (now.next != NULL && now.next_step >= 0)
        {
          const HwPlanStep *planned = &g_array_index (plan->order, HwPlanStep, now.next_step);

          hw_table_take (table, hw_words_pick (plan, now.next));
          hw_table_text (table, hw_project_get_step (plan->project, planned->step)->number);
        }
      else
        {
          hw_table_text (table, _("nothing more to load"));
          hw_table_text (table, NULL);
        }
    }
  return table;
}

static void
print_people (const HwPlan *plan)
{
  g_autoptr (HwTable) table = build_table (plan);
  g_autofree char *text = hw_table_format (table, HW_FORMAT_PEOPLE);
  g_autofree char *care = NULL;
  HwNow now = hw_plan_now (plan, NULL);

  hw_command_print (plan->project->title);
  hw_command_print ("\n");
  if (plan->next >= 0)
    {
      const HwPlanStep *planned = &g_array_index (plan->order, HwPlanStep, plan->next);
      const HwStep     *step = hw_project_get_step (plan->project, planned->step);
      g_autofree char  *line = g_strdup_printf (_("Next: step %s, %s.\n"), step->number, step->name);

      hw_command_print (line);
    }
  else
    {
      hw_command_print (_("Every step is sewn.\n"));
    }
  hw_command_print (text);
  care = hw_words_care_due (plan, &now);
  if (care != NULL)
    {
      hw_command_print (care);
      hw_command_print ("\n");
    }
}

int
hw_command_next (int    argc,
                 char **argv)
{
  g_auto (HwCommandInputs) inputs = { 0 };
  g_autoptr (GError) error = NULL;
  g_autofree char *format_word = NULL;
  g_autofree char *room_folder = NULL;
  g_autofree char *path = NULL;
  HwFormat         format = HW_FORMAT_PEOPLE;
  int              status = HW_EXIT_DONE;
  const GOptionEntry entries[] = {
    { "format", 0, 0, G_OPTION_ARG_STRING, &format_word, N_("table (for people), csv or xml"), N_("FORMAT") },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, _("[FILE]"),
                         _("What is in each machine and the needle to load next, for a project or the one due first."),
                         entries, &status))
    return status;
  if (argc > 2)
    return hw_command_usage (argv[0], _("name at most one project file"));
  if (!hw_command_get_format (argv[0], format_word, &format))
    return HW_EXIT_USAGE;

  if (argc == 2)
    {
      path = g_strdup (argv[1]);
    }
  else
    {
      g_autofree char *folder = room_folder != NULL ? g_strdup (room_folder) : hw_room_folder ();

      path = find_project (folder, &error);
      if (path == NULL)
        return hw_command_fail (error);
    }
  if (!hw_command_inputs_open (&inputs, path, room_folder, &status))
    return status;

  if (format == HW_FORMAT_PEOPLE)
    {
      print_people (inputs.plan);
    }
  else
    {
      g_autoptr (HwTable) table = build_table (inputs.plan);
      g_autofree char *text = hw_table_format (table, format);

      hw_command_print (text);
    }
  return HW_EXIT_DONE;
}
