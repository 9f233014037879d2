/* card-command.c - handwheel card FILE -o cards.pdf
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <stdio.h>

#include <glib/gi18n.h>

#include "card/card.h"
#include "command/card-table.h"
#include "command/command-private.h"

#define DEFAULT_DPI 150

static gboolean
get_paper (const char *word,
           HwPaper    *paper)
{
  *paper = HW_PAPER_A5;
  if (word == NULL)
    return TRUE;

  for (int i = 0; i < HW_N_PAPERS; i++)
    if (g_ascii_strcasecmp (word, hw_paper_ids[i]) == 0)
      {
        *paper = (HwPaper) i;
        return TRUE;
      }
  return FALSE;
}

static gboolean
has_known_ending (const char *path)
{
  g_autofree char *lower = g_ascii_strdown (path, -1);

  return g_str_has_suffix (lower, ".pdf") || g_str_has_suffix (lower, ".png") || g_str_has_suffix (lower, ".svg");
}

/* The groups whose cards serve the steps asked for; empty: all. NULL with an unknown step in *@unknown. */
static GArray *
choose_groups (const HwPlan  *plan,
               char         **steps,
               const char   **unknown)
{
  g_autoptr (GArray) groups = g_array_new (FALSE, FALSE, sizeof (int));

  for (char **number = steps; number != NULL && *number != NULL; number++)
    {
      const HwPlanStep *planned = hw_plan_find_step (plan, *number);
      gboolean          seen = FALSE;

      if (planned == NULL || planned->group < 0)
        {
          *unknown = *number;
          return NULL;
        }
      for (guint i = 0; i < groups->len; i++)
        seen |= g_array_index (groups, int, i) == planned->group;
      if (!seen)
        g_array_append_val (groups, planned->group);
    }
  return g_steal_pointer (&groups);
}

/* "all", or ids with commas between them. (transfer full) */
static char **
read_machines (const HwPlan *plan,
               const char   *words)
{
  char **ids = g_str_equal (words, "all") ? hw_handout_machines (plan) : g_strsplit (words, ",", -1);

  for (char **id = ids; *id != NULL; id++)
    g_strstrip (*id);
  return ids;
}

static HwSheets *
make_sheets (const HwPlan         *plan,
             const char           *machines,
             const HwSheetOptions *options,
             GError              **error)
{
  g_auto (GStrv) ids = machines != NULL ? read_machines (plan, machines) : NULL;

  return ids != NULL ? hw_handout_new (plan, (const char * const *) ids, options, error)
                     : hw_sheets_new (plan, options);
}

static int
write_cards (const HwPlan         *plan,
             const char           *machines,
             const HwSheetOptions *options,
             double                dpi,
             const char           *output)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSheets) sheets = make_sheets (plan, machines, options, &error);
  g_autofree char *date = hw_command_date ();

  if (sheets == NULL)
    {
      hw_command_fail (error);
      return HW_EXIT_REFUSED;
    }
  if (!hw_sheets_write (sheets, output, dpi, date, &error))
    {
      hw_command_fail (error);
      return g_error_matches (error, HW_CARD_ERROR, HW_CARD_ERROR_NOTHING) ? HW_EXIT_REFUSED : HW_EXIT_IO;
    }
  return HW_EXIT_DONE;
}

int
hw_command_card (int    argc,
                 char **argv)
{
  g_auto (HwCommandInputs) inputs = { 0 };
  g_autoptr (GArray) groups = NULL;
  g_autofree char *output = NULL;
  g_autofree char *paper_word = NULL;
  g_autofree char *format_word = NULL;
  HwFormat         format = HW_FORMAT_PEOPLE;
  g_autofree char *room_folder = NULL;
  g_autofree char *machines = NULL;
  g_auto (GStrv)   steps = NULL;
  HwSheetOptions   options = { 0 };
  const char      *unknown = NULL;
  HwPaper          paper = HW_PAPER_A5;
  int              per_sheet = 0;
  double           dpi = DEFAULT_DPI;
  int              status = HW_EXIT_DONE;
  const GOptionEntry entries[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &output,
      N_("where to write: a name that ends in .pdf, .png or .svg"), N_("FILE") },
    { "paper", 0, 0, G_OPTION_ARG_STRING, &paper_word, N_("a6, a5, a4 or letter; else as in the preferences"),
      N_("PAPER") },
    { "per-sheet", 0, 0, G_OPTION_ARG_INT, &per_sheet, N_("cards on an A4 or Letter sheet: 1, 2 or 4"), N_("N") },
    { "step", 0, 0, G_OPTION_ARG_STRING_ARRAY, &steps,
      N_("only the card of this step; may be repeated"), N_("NUMBER") },
    { "machines", 0, 0, G_OPTION_ARG_STRING, &machines,
      N_("a class handout: a set of cards for each of these machines (ids, or all), each with its own dial"),
      N_("ID,ID…") },
    { "dpi", 0, 0, G_OPTION_ARG_DOUBLE, &dpi, N_("dots per inch of a PNG"), N_("N") },
    { "format", 0, 0, G_OPTION_ARG_STRING, &format_word, N_("instead of drawing: table, csv or xml on stdout"),
      N_("FORMAT") },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, _("FILE"), _("A project's setup cards, to pin by the machine."), entries,
                         &status))
    return status;
  if (argc != 2)
    return hw_command_usage (argv[0], _("name one project file"));
  if (!hw_command_get_format (argv[0], format_word, &format))
    return HW_EXIT_USAGE;
  if (format_word == NULL && (output == NULL || !has_known_ending (output)))
    return hw_command_usage (argv[0], _("say where to write with -o FILE, a name that ends in .pdf, .png or .svg"));
  if (!get_paper (paper_word, &paper))
    return hw_command_usage (argv[0], _("--paper is a6, a5, a4 or letter, not “%s”"), paper_word);
  if (machines != NULL && steps != NULL)
    return hw_command_usage (argv[0], _("a handout holds all cards: leave --step or --machines out"));
  if (dpi < 30 || dpi > 1200)
    return hw_command_usage (argv[0], _("--dpi is 30 to 1200"));
  if (!hw_command_inputs_open (&inputs, argv[1], room_folder, &status))
    return status;
  if (paper_word == NULL)
    paper = hw_paper_chosen (inputs.room->preferences);
  if (per_sheet == 0)
    per_sheet = paper == HW_PAPER_A4 || paper == HW_PAPER_LETTER ? 2 : 1;
  if ((per_sheet != 1 && per_sheet != 2 && per_sheet != 4)
      || (per_sheet > 1 && (paper == HW_PAPER_A5 || paper == HW_PAPER_A6)))
    return hw_command_usage (argv[0], _("--per-sheet is 1, 2 or 4 on A4 and Letter, 1 on A5 and A6"));

  groups = choose_groups (inputs.plan, steps, &unknown);
  if (groups == NULL)
    {
      fprintf (stderr, _("%s: there is no operation numbered “%s”; “handwheel plan” lists them\n"), argv[1], unknown);
      return HW_EXIT_REFUSED;
    }
  if (format_word != NULL)
    {
      g_autofree char *text = hw_command_format_cards (inputs.plan, groups, format);

      hw_command_print (text);
      return HW_EXIT_DONE;
    }
  options.paper = paper;
  options.per_sheet = per_sheet;
  options.groups = groups->len > 0 ? (const int *) (const void *) groups->data : NULL;
  options.n_groups = groups->len;
  return write_cards (inputs.plan, machines, &options, dpi, output);
}
