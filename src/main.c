/* main.c - the command line, else the window
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <locale.h>

#include <glib/gi18n.h>

#include "command/command.h"
#include "window/application.h"

int
main (int    argc,
      char **argv)
{
  int exit_status = HW_EXIT_DONE;
  g_autofree char *locale = hw_locale_folder ();
  g_autoptr (HwApplication) application = NULL;

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, locale);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);

  if (hw_command_run (argc, argv, &exit_status))
    return exit_status;

  application = hw_application_new ();
  hw_application_begin (application, argc, argv);
  return g_application_run (G_APPLICATION (application), argc, argv);
}
