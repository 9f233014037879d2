/* command.c - finds the command that was asked for
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "command/command.h"

#include <string.h>

#include <glib/gi18n.h>

#include "command/command-private.h"

static const struct
{
  const char    *name;
  HwCommandFunc  func;
  const char    *summary;
} commands[] = {
  { "new", hw_command_new, N_("a project from a garment of the handbook") },
  { "plan", hw_command_plan, N_("the order of work of a project") },
  { "card", hw_command_card, N_("a project's setup cards as PDF, PNG or SVG") },
  { "pair", hw_command_pair, N_("one set-up for a fabric and a purpose, with its reasons") },
  { "next", hw_command_next, N_("the needle to load next") },
  { "queue", hw_command_queue, N_("several projects: in which order, when finished, what is late") },
  { "care", hw_command_care, N_("the care that each machine is due") },
  { "log", hw_command_log, N_("note steps as sewn, or hours on a machine") },
  { "fault", hw_command_fault, N_("trace a stitch fault: what to check first") },
  { "test-seam", hw_command_test_seam, N_("note how a scrap looked; the dial to try next") },
  { "journal", hw_command_journal, N_("what was done, found and exported") },
  { "shelf", hw_command_shelf, N_("needles, thread and fabrics on hand") },
  { "copies", hw_command_copies, N_("conflicting copies that a file-sync service left") },
  { "versions", hw_command_versions, N_("earlier versions of a project, and going back to one") },
  { "export", hw_command_export, N_("a project with its test seams and fabrics as one file") },
  { "import", hw_command_import, N_("take such a file into the sewing room") },
  { "teach", hw_command_teach, N_("hand what a machine's dial learned to another") },
  { "check", hw_command_check, N_("check project files, the sewing room or a handbook") },
  { "guide", hw_command_guide, N_("the user guide, to read or to print") },
  { "handbook", hw_command_handbook, N_("browse the handbook") },
};

static void
print_help (void)
{
  g_autoptr (GString) out = g_string_new (NULL);

  g_string_append (out, _("Usage:\n"
                          "  handwheel [FILE]                open the window, on a project file if one is named\n"
                          "  handwheel COMMAND [OPTION…]     work without a window\n\n"
                          "Commands:\n"));
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    g_string_append_printf (out, "  %-10s %s\n", commands[i].name, _(commands[i].summary));
  g_string_append (out, _("\n“handwheel COMMAND --help” tells more of each.\n"
                          "Exit status: 0 done, 1 refused input, 2 wrong usage, 3 could not read or write.\n"));
  hw_command_print (out->str);
}

gboolean
hw_command_run (int    argc,
                char **argv,
                int   *exit_status)
{
  const char *word = argc > 1 ? argv[1] : NULL;

  if (word == NULL)
    return FALSE;

  *exit_status = HW_EXIT_DONE;
  if (g_str_equal (word, "--help") || g_str_equal (word, "-h"))
    {
      print_help ();
      return TRUE;
    }
  if (g_str_equal (word, "--version"))
    {
      hw_command_print ("handwheel " HW_VERSION "\n");
      return TRUE;
    }

  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    if (g_str_equal (word, commands[i].name))
      {
        *exit_status = commands[i].func (argc - 1, argv + 1);
        return TRUE;
      }

  /* A word that is neither a file nor an option is a misspelt command, not a project to open. */
  if (word[0] != '-' && strpbrk (word, "/.") == NULL && !g_file_test (word, G_FILE_TEST_EXISTS))
    {
      *exit_status = hw_command_usage (NULL, _("there is no command “%s”; “handwheel --help” lists them"), word);
      return TRUE;
    }
  return FALSE;
}
