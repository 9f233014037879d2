/* plan-command.c - handwheel plan FILE: the order of work
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "model/edit.h"
#include "plan/wish.h"
#include "words/words.h"

#define WISH_STATES 200000               /* of the search for each order that a wish is compared with */

static const HwPlanStep *
get_plan_step (const HwPlan *plan,
               gsize         index)
{
  return &g_array_index (plan->order, HwPlanStep, index);
}

/* Which needle goes in before the step, and how many it takes. */
static void
append_needles (GString          *out,
                const HwPlan     *plan,
                const HwPlanStep *planned)
{
  int              place = (int) (planned - (const HwPlanStep *) (void *) plan->order->data);
  g_autofree char *within = hw_words_needles_within (plan, place);

  for (guint i = 0; i < plan->needles->len; i++)
    {
      const HwNeedlePick *pick = g_ptr_array_index (plan->needles, i);
      g_autofree char    *state = NULL;

      if (pick->before != place || pick->from_piece > 0 || pick->mid_row)
        continue;
      state = hw_words_pick_state (plan, pick);
      /* Translators: which needle to take: “new”, or “part-worn, 8.8 h left” */
      g_string_append_printf (out, _("   Needle: %s\n"), state);
    }
  if (within != NULL)
    g_string_append_printf (out, "   %s\n", within);
}

static void
append_care (GString          *out,
             const HwPlan     *plan,
             const HwPlanStep *planned)
{
  for (gsize i = 0; i < plan->handbook->n_care; i++)
    if (planned->care_due & ((guint64) 1 << i))
      g_string_append_printf (out, _("   First, switched off and unplugged: %s\n"),
                              plan->handbook->care[i].entry.name);
  if (planned->needle_worn)
    g_string_append (out, _("   First a new needle: this one reaches its hours in the next step\n"));
  append_needles (out, plan, planned);
}

/* Of a block by its first step, @before: the last step at a machine. Returns whether there is one here. */
static gboolean
append_heading (GString          *out,
                const HwPlan     *plan,
                const HwPlanStep *planned,
                const HwPlanStep *before)
{
  const HwGroup   *group = hw_plan_get_group (plan, planned->group);
  g_autofree char *head = NULL;

  if (group == NULL)
    {
      if (planned == get_plan_step (plan, 0))
        g_string_append_printf (out, "\n%s\n", _("By hand"));
      return FALSE;
    }
  if (before != NULL && planned->group == before->group)
    return FALSE;
  head = hw_words_block (plan, planned, before);
  g_string_append_printf (out, "\n%s  %s\n", group->letter, head);
  return TRUE;
}

static void
append_step (GString          *out,
             const HwPlan     *plan,
             const HwPlanStep *planned,
             gboolean          heads)
{
  const HwStep    *step = hw_project_get_step (plan->project, planned->step);
  g_autofree char *amount = hw_words_row_amount (plan, planned, heads);
  g_autofree char *name = hw_words_title (step->name);
  const char      *mark = planned->done ? "[x]" : "[ ]";

  append_care (out, plan, planned);
  g_string_append_printf (out, "   %s %-4s %s  (%s)\n", mark, step->number, name, amount);
}

static void
append_warnings (GString      *out,
                 const HwPlan *plan)
{
  for (gsize i = 0; i < plan->n_steps; i++)
    {
      const HwSetup *setup = plan->setups[i];

      for (guint k = 0; setup != NULL && k < setup->warnings->len; k++)
        {
          g_autofree char *text = hw_words_warning (plan, setup, &g_array_index (setup->warnings, HwWarning, k));

          g_string_append_printf (out, _("Step %s: %s\n"), setup->step->number, text);
        }
    }
}

static void
append_hours (GString      *out,
              const HwPlan *plan)
{
  for (guint i = 0; i < plan->hours->len; i++)
    {
      const HwMachineHours *hours = &g_array_index (plan->hours, HwMachineHours, i);
      g_autofree char      *added = hw_words_minutes (hours->at_machine_hours * 60);
      g_autofree char      *running = hw_words_minutes (hours->running_hours * 60);

      /* Translators: machine's name, time at the machine, time the needle moves */
      g_string_append_printf (out, _("%s: %s at the machine, the needle moving for %s\n"), hours->machine->name, added,
                              running);
    }
}

/* What each wish of the plan costs: (element-type HwWishAnswer) */
static GPtrArray *
list_answers (const HwPlan *plan)
{
  GPtrArray *answers = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_wish_answer_free);

  for (guint i = 0; i < plan->project->wishes->len; i++)
    g_ptr_array_add (answers, hw_wish_cost (plan, i, WISH_STATES));
  return answers;
}

static void
append_wishes (GString         *out,
               const HwPlan    *plan,
               const GPtrArray *answers)
{
  if (answers->len > 0)
    g_string_append_printf (out, "%s\n", _("Wishes:"));
  for (guint i = 0; i < answers->len; i++)
    {
      g_autofree char *text = hw_words_wish_answer (g_ptr_array_index (plan->project->wishes, i),
                                                    g_ptr_array_index (answers, i));

      g_string_append_printf (out, "   %s\n", text);
    }
}

static char *
format_for_people (const HwPlan    *plan,
                   const GPtrArray *answers)
{
  GString          *out = g_string_new (NULL);
  g_autofree char  *ordered = hw_words_totals (&plan->as_ordered);
  g_autofree char  *proof = hw_words_proof (plan);
  g_autofree char  *compared = hw_words_compared (plan);
  g_autofree char  *total = hw_words_minutes (plan->minutes_total);
  const HwPlanStep *before = NULL;

  g_string_append_printf (out, "%s\n", plan->project->title);
  /* Translators: totals such as "3 changes of needle, thread, foot or stitch (2 needles), 5 minutes"; how good the
   * order is, as "no other order takes less changing" */
  if (proof != NULL)
    g_string_append_printf (out, _("%s, %s.\n"), ordered, proof);
  else
    g_string_append_printf (out, "%s.\n", ordered);
  g_string_append_printf (out, "%s\n", compared);
  /* Translators: all the minutes of the project's steps */
  g_string_append_printf (out, _("%s in all.\n"), total);
  append_wishes (out, plan, answers);

  for (gsize i = 0; i < plan->order->len; i++)
    {
      const HwPlanStep *planned = get_plan_step (plan, i);

      append_step (out, plan, planned, append_heading (out, plan, planned, before));
      if (planned->group >= 0)
        before = planned;
    }

  g_string_append_c (out, '\n');
  append_hours (out, plan);
  append_warnings (out, plan);
  return g_string_free (out, FALSE);
}

static void
add_columns (HwTable *table)
{
  hw_table_add_column (table, "place", _("Place"), TRUE);
  hw_table_add_column (table, "number", _("Step"), FALSE);
  hw_table_add_column (table, "name", _("Name"), FALSE);
  hw_table_add_column (table, "setup", _("Set-up"), FALSE);
  hw_table_add_column (table, "machine", _("Machine"), FALSE);
  hw_table_add_column (table, "point", _("Point"), FALSE);
  hw_table_add_column (table, "needle-nm", _("Needle"), TRUE);
  hw_table_add_column (table, "twin-mm", _("Twin"), TRUE);
  hw_table_add_column (table, "needle-thread", _("Needle thread"), FALSE);
  hw_table_add_column (table, "needle-tex", _("Tex"), TRUE);
  hw_table_add_column (table, "bobbin-tex", _("Bobbin tex"), TRUE);
  hw_table_add_column (table, "stitch", _("Stitch"), FALSE);
  hw_table_add_column (table, "length-mm", _("Length"), TRUE);
  hw_table_add_column (table, "width-mm", _("Width"), TRUE);
  hw_table_add_column (table, "foot", _("Foot"), FALSE);
  hw_table_add_column (table, "pressure", _("Pressure"), TRUE);
  hw_table_add_column (table, "dial", _("Dial"), TRUE);
  hw_table_add_column (table, "change-minutes", C_("between steps", "Change"), TRUE);
  hw_table_add_column (table, "minutes", _("Minutes"), TRUE);
  hw_table_add_column (table, "stitches", _("Stitches"), TRUE);
  hw_table_add_column (table, "needle-m", _("Needle thread m"), TRUE);
  hw_table_add_column (table, "under-m", _("Bobbin m"), TRUE);
  hw_table_add_column (table, "wishes", _("Wishes"), FALSE);
  hw_table_add_column (table, "done", _("Done"), FALSE);
}

static void
add_number (HwTable *table,
            double   value,
            int      decimals)
{
  hw_table_number (table, value, hw_words_number (value, decimals));
}

static void
add_field (HwTable       *table,
           const HwSetup *setup,
           HwField        field)
{
  const HwValue *value = &setup->values[field];

  if (value->applies)
    add_number (table, value->value, 2);
  else
    hw_table_text (table, NULL);
}

static void
add_setup_cells (HwTable          *table,
                 const HwPlan     *plan,
                 const HwPlanStep *planned)
{
  const HwSetup *setup = plan->setups[planned->step];
  const HwGroup *group = hw_plan_get_group (plan, planned->group);
  g_autofree char *thread = NULL;

  if (setup == NULL || group == NULL)
    {
      for (int i = 0; i < 14; i++)
        hw_table_text (table, NULL);
      return;
    }

  thread = hw_words_thread (&setup->needle_thread);
  hw_table_text (table, group->letter);
  hw_table_text (table, setup->machine->id);
  hw_table_text (table, plan->handbook->points[group->point].entry.id);
  add_number (table, group->size_nm, 0);
  if (group->twin_mm > 0)
    add_number (table, group->twin_mm, 1);
  else
    hw_table_text (table, NULL);
  hw_table_text (table, thread);
  add_number (table, setup->needle_thread.tex, 1);
  add_number (table, setup->bobbin_thread.tex, 1);
  hw_table_text (table, setup->stitch->entry.id);
  add_field (table, setup, HW_FIELD_LENGTH);
  add_field (table, setup, HW_FIELD_WIDTH);
  hw_table_text (table, group->foot >= 0 ? plan->handbook->feet[group->foot].entry.id : NULL);
  add_field (table, setup, HW_FIELD_PRESSURE);
  add_field (table, setup, HW_FIELD_DIAL);
}

/* "before 4 2: 2.50; first 4: 0.00": the wishes that name the step, as the file has them, with their minutes. */
static char *
list_wishes (const HwPlan    *plan,
             const HwStep    *step,
             const GPtrArray *answers)
{
  GString *list = g_string_new (NULL);
  char     buffer[G_ASCII_DTOSTR_BUF_SIZE];

  for (guint i = 0; i < answers->len; i++)
    {
      const HwWish       *wish = g_ptr_array_index (plan->project->wishes, i);
      const HwWishAnswer *answer = g_ptr_array_index (answers, i);
      g_autofree char    *steps = NULL;

      if (!g_strv_contains ((const char * const *) wish->steps, step->number))
        continue;
      steps = g_strjoinv (" ", wish->steps);
      g_string_append_printf (list, "%s%s %s: %s", list->len > 0 ? "; " : "", hw_wish_kind_ids[wish->kind], steps,
                              g_ascii_formatd (buffer, sizeof buffer, "%.2f", answer->minutes));
    }
  return g_string_free (list, FALSE);
}

static void
add_minutes (HwTable    *table,
             const char *id,
             double      minutes)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  hw_table_fact (table, id, g_ascii_formatd (buffer, sizeof buffer, "%.2f", minutes));
}

/* Under names that end alike: minutes, and how often hard parts and the needle change. */
static void
add_totals (HwTable              *table,
            const char           *which,
            const HwChangeTotals *totals)
{
  g_autofree char *minutes = g_strconcat ("change-minutes", which, NULL);
  g_autofree char *changes = g_strconcat ("changes", which, NULL);
  g_autofree char *needles = g_strconcat ("needle-changes", which, NULL);
  g_autofree char *n_changes = g_strdup_printf ("%d", totals->changes);
  g_autofree char *n_needles = g_strdup_printf ("%d", totals->needle_changes);

  add_minutes (table, minutes, totals->change_minutes);
  hw_table_fact (table, changes, n_changes);
  hw_table_fact (table, needles, n_needles);
}

static HwTable *
build_table (const HwPlan    *plan,
             const GPtrArray *answers)
{
  HwTable *table = hw_table_new ("plan", "step");

  hw_table_fact (table, "project", plan->project->id);
  hw_table_fact (table, "title", plan->project->title);
  add_totals (table, "", &plan->as_ordered);
  add_totals (table, "-unshared", &plan->as_ordered_unshared);
  add_totals (table, "-as-listed", &plan->as_listed);
  add_minutes (table, "change-minutes-bound", plan->bound_minutes);
  hw_table_fact (table, "proved", plan->proved ? "yes" : "no");
  add_columns (table);

  for (gsize i = 0; i < plan->order->len; i++)
    {
      const HwPlanStep *planned = get_plan_step (plan, i);
      const HwStep     *step = hw_project_get_step (plan->project, planned->step);

      add_number (table, (double) i + 1, 0);
      hw_table_text (table, step->number);
      hw_table_text (table, step->name);
      add_setup_cells (table, plan, planned);
      add_number (table, planned->change_minutes, 2);
      add_number (table, planned->minutes, 1);
      add_number (table, planned->stitches, 0);
      add_number (table, planned->needle_m, 2);
      add_number (table, planned->under_m, 2);
      hw_table_take (table, list_wishes (plan, step, answers));
      hw_table_text (table, planned->done ? "yes" : "no");
    }
  return table;
}

/* "before 4 2"; NULL: not the words of a wish. */
static HwWish *
parse_wish (const char *text)
{
  g_auto (GStrv)       words = g_strsplit_set (text, " ,\t", -1);
  g_autoptr (GPtrArray) steps = g_ptr_array_new ();
  int                  kind = -1;

  for (char **word = words; *word != NULL; word++)
    if (**word != '\0' && kind < 0)
      {
        for (kind = 0; kind < HW_N_WISH_KINDS && !g_str_equal (hw_wish_kind_ids[kind], *word);)
          kind++;
        if (kind == HW_N_WISH_KINDS)
          return NULL;
      }
    else if (**word != '\0')
      {
        g_ptr_array_add (steps, *word);
      }
  if (kind < 0)
    return NULL;
  g_ptr_array_add (steps, NULL);
  return hw_wish_new ((HwWishKind) kind, (const char * const *) steps->pdata);
}

/* Plans with @wish as well. FALSE with *status set and the reason printed. */
static gboolean
add_wish (HwCommandInputs *inputs,
          const char      *command,
          const char      *text,
          int             *status)
{
  g_autoptr (HwWish)       wish = parse_wish (text);
  g_autoptr (HwWishAnswer) forbidden = NULL;
  g_autofree char         *why = NULL;
  HwProject               *next;

  if (wish == NULL)
    {
      *status = hw_command_usage (command, _("“%s” is no wish; write before, together, first or last and the numbers "
                                             "of steps, such as --wish \"before 4 2\""), text);
      return FALSE;
    }
  forbidden = hw_wish_forbidden (inputs->project, wish);
  if (forbidden != NULL)
    {
      why = hw_words_wish_answer (wish, forbidden);
      hw_command_usage (command, "%s", why);
      *status = HW_EXIT_REFUSED;
      return FALSE;
    }
  next = hw_edit_add_wish (inputs->project, wish, NULL);
  g_clear_pointer (&inputs->project, hw_project_unref);
  inputs->project = next;
  return TRUE;
}

static gboolean
add_wishes (HwCommandInputs *inputs,
            const char      *command,
            char           **texts,
            int             *status)
{
  g_autoptr (GError) error = NULL;

  if (texts == NULL)
    return TRUE;
  for (; *texts != NULL; texts++)
    if (!add_wish (inputs, command, *texts, status))
      return FALSE;
  g_clear_pointer (&inputs->plan, hw_plan_unref);
  inputs->plan = hw_plan_new_within (inputs->handbook, inputs->project, inputs->room, WISH_STATES, &error);
  if (inputs->plan == NULL)
    *status = hw_command_fail (error);
  return inputs->plan != NULL;
}

int
hw_command_plan (int    argc,
                 char **argv)
{
  g_auto (HwCommandInputs) inputs = { 0 };
  g_autofree char *format_word = NULL;
  g_autofree char *room_folder = NULL;
  g_autofree char *text = NULL;
  g_auto (GStrv)   wishes = NULL;
  g_autoptr (GPtrArray) answers = NULL;
  HwFormat         format = HW_FORMAT_PEOPLE;
  int              status = HW_EXIT_DONE;
  const GOptionEntry entries[] = {
    { "wish", 0, 0, G_OPTION_ARG_STRING_ARRAY, &wishes,
      N_("try a wish without saving it: \"before 4 2\", \"together 3 4\", \"first 6\" or \"last 6\"; repeatable"),
      N_("WISH") },
    { "format", 0, 0, G_OPTION_ARG_STRING, &format_word, N_("table (for people), csv or xml"), N_("FORMAT") },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, _("FILE"), _("The order of work of a project, with the changes between steps."),
                         entries, &status))
    return status;
  if (argc != 2)
    return hw_command_usage (argv[0], _("name one project file"));
  if (!hw_command_get_format (argv[0], format_word, &format))
    return HW_EXIT_USAGE;
  if (!hw_command_inputs_open (&inputs, argv[1], room_folder, &status)
      || !add_wishes (&inputs, argv[0], wishes, &status))
    return status;

  answers = list_answers (inputs.plan);
  if (format == HW_FORMAT_PEOPLE)
    {
      text = format_for_people (inputs.plan, answers);
    }
  else
    {
      g_autoptr (HwTable) table = build_table (inputs.plan, answers);

      text = hw_table_format (table, format);
    }
  hw_command_print (text);
  return HW_EXIT_DONE;
}
