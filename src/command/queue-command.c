/* queue-command.c - handwheel queue [FILE…]: several projects in the order to sew them
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "words/words.h"

static void
add_project (HwTable       *table,
             const HwQueue *queue,
             guint          index,
             HwFormat       format)
{
  const HwProject *project = g_ptr_array_index (queue->projects, index);
  gboolean         people = format == HW_FORMAT_PEOPLE;

  hw_table_number (table, index + 1, hw_words_number (index + 1, 0));
  hw_table_text (table, project->id);
  hw_table_text (table, project->title);
  hw_table_number (table, queue->hours_left[index], hw_words_hours (queue->hours_left[index]));
  hw_table_take (table, people ? hw_words_date (queue->finished[index]) : g_strdup (queue->finished[index]));
  hw_table_take (table, people && project->due != NULL ? hw_words_date (project->due) : g_strdup (project->due));
  if (people)
    hw_table_text (table, queue->late[index] ? _("late") : project->due != NULL ? _("in time") : NULL);
  else
    hw_table_text (table, queue->late[index] ? "yes" : "no");
}

static HwTable *
build_table (const HwQueue *queue,
             HwFormat       format)
{
  HwTable *table = hw_table_new ("queue", "project");
  char     buffer[G_ASCII_DTOSTR_BUF_SIZE];

  hw_table_fact (table, "mixed", queue->mixed ? "yes" : "no");
  hw_table_fact (table, "change-minutes", g_ascii_formatd (buffer, sizeof buffer, "%.2f", queue->change_minutes));
  hw_table_fact (table, "change-minutes-one-by-one",
                 g_ascii_formatd (buffer, sizeof buffer, "%.2f", queue->change_minutes_one_by_one));
  hw_table_add_column (table, "place", _("Place"), TRUE);
  hw_table_add_column (table, "id", _("Id"), FALSE);
  hw_table_add_column (table, "title", _("Project"), FALSE);
  hw_table_add_column (table, "hours-left", _("Left"), TRUE);
  hw_table_add_column (table, "finished", _("Finished"), FALSE);
  hw_table_add_column (table, "due", _("Due"), FALSE);
  hw_table_add_column (table, "late", format == HW_FORMAT_PEOPLE ? _("In time?") : "late", FALSE);
  for (guint i = 0; i < queue->projects->len; i++)
    add_project (table, queue, i, format);
  return table;
}

/* What mixing is worth, when there is anything to mix. */
static void
print_changes (const HwQueue *queue,
               const HwQueue *mixed)
{
  g_autofree char *apart = hw_words_minutes (mixed->change_minutes_one_by_one);
  g_autofree char *together = hw_words_minutes (mixed->change_minutes);
  g_autofree char *line = NULL;

  if (queue->projects->len < 2)
    return;
  if (!mixed->mixed)
    line = g_strdup_printf (_("Changes: %s. Mixing saves none of them.\n"), apart);
  else if (queue->mixed)
    /* Translators: minutes for changes, mixed and one after another */
    line = g_strdup_printf (_("Mixed: %s for changes; one after another they take %s.\n"), together, apart);
  else
    /* Translators: minutes for changes, one after another and mixed */
    line = g_strdup_printf (_("One after another: %s for changes; mixed (--mixed) they take %s.\n"), apart, together);
  hw_command_print (line);
}

/* The steps of a mixed queue, for no single project's plan tells their order. */
static void
print_steps (const HwQueue *queue)
{
  for (guint i = 0; queue->mixed && i < queue->steps->len; i++)
    {
      const HwQueueStep *step = &g_array_index (queue->steps, HwQueueStep, i);
      const HwPlan      *plan = g_ptr_array_index (queue->plans, (guint) step->plan);
      const HwPlanStep  *planned = &g_array_index (plan->order, HwPlanStep, (guint) step->place);
      const HwPlanStep  *before = step->place > 0 ? &g_array_index (plan->order, HwPlanStep, (guint) step->place - 1)
                                                  : NULL;
      const HwProject   *project = g_ptr_array_index (queue->projects, (guint) step->project);
      const HwStep      *own = hw_project_get_step (project, (gsize) hw_project_find_step (project, step->step));
      g_autofree char   *line = g_strdup_printf ("   %-14s %-4s %s\n", project->title, step->step, own->name);

      if (planned->group >= 0 && (before == NULL || planned->group != before->group))
        {
          g_autofree char *change = hw_words_heading (plan, planned, before);

          hw_command_print ("\n");
          hw_command_print (change);
          hw_command_print ("\n");
        }
      hw_command_print (line);
    }
}

static void
print_people (const HwCommandQueue *inputs)
{
  const HwQueue    *queue = inputs->queue;
  g_autoptr (HwTable) table = build_table (queue, HW_FORMAT_PEOPLE);
  g_autofree char  *text = hw_table_format (table, HW_FORMAT_PEOPLE);
  g_autofree char  *week = hw_words_hours (inputs->room->preferences->hours_a_week);
  g_autofree char  *line = NULL;
  g_autoptr (HwQueue) mixed = queue->mixed ? hw_queue_ref (inputs->queue)
                                           : hw_queue_new (inputs->handbook, inputs->projects, inputs->room,
                                                           inputs->now, HW_QUEUE_MIXED);

  if (queue->projects->len == 0)
    {
      hw_command_print (_("Nothing is left to sew.\n"));
      return;
    }
  hw_command_print (text);
  /* Translators: hours */
  line = g_strdup_printf (_("Dates are for %s a week.\n"), week);
  hw_command_print (line);
  print_changes (queue, mixed);
  print_steps (queue);
}

int
hw_command_queue (int    argc,
                  char **argv)
{
  g_auto (HwCommandQueue) inputs = { 0 };
  g_autofree char *format_word = NULL;
  g_autofree char *room_folder = NULL;
  gboolean         mixed = FALSE;
  gboolean         apart = FALSE;
  HwFormat         format = HW_FORMAT_PEOPLE;
  HwQueueMode      mode;
  int              status = HW_EXIT_DONE;
  const GOptionEntry entries[] = {
    { "mixed", 0, 0, G_OPTION_ARG_NONE, &mixed, N_("all steps in one order of work, with the fewest changes"), NULL },
    { "one-by-one", 0, 0, G_OPTION_ARG_NONE, &apart, N_("one project after another"), NULL },
    { "format", 0, 0, G_OPTION_ARG_STRING, &format_word, N_("table (for people), csv or xml"), N_("FORMAT") },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, _("[FILE…]"),
                         _("Several projects in the order to sew them: hours left, when each is finished, what is "
                           "late. Without files, those of the sewing room."),
                         entries, &status))
    return status;
  if (mixed && apart)
    return hw_command_usage (argv[0], _("either --mixed or --one-by-one"));
  if (!hw_command_get_format (argv[0], format_word, &format))
    return HW_EXIT_USAGE;
  mode = mixed ? HW_QUEUE_MIXED : apart ? HW_QUEUE_ONE_BY_ONE : HW_QUEUE_AS_PREFERRED;
  if (!hw_command_queue_open (&inputs, argv + 1, room_folder, mode, &status))
    return status;

  if (format == HW_FORMAT_PEOPLE)
    {
      print_people (&inputs);
    }
  else
    {
      g_autoptr (HwTable) table = build_table (inputs.queue, format);
      g_autofree char *text = hw_table_format (table, format);

      hw_command_print (text);
    }
  return HW_EXIT_DONE;
}
