/* outcome.c - a program run to its end, and what it said
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "outcome.h"

#include <string.h>

void
outcome_clear (Outcome *self)
{
  g_clear_pointer (&self->out, g_free);
  g_clear_pointer (&self->err, g_free);
}

GSubprocessLauncher *
outcome_launcher_new (void)
{
  GSubprocessLauncher *launcher =
    g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE | G_SUBPROCESS_FLAGS_STDERR_PIPE);

  g_subprocess_launcher_unsetenv (launcher, "DISPLAY");
  return launcher;
}

Outcome
outcome_spawn (GSubprocessLauncher *launcher,
               const char * const  *argv)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) process = g_subprocess_launcher_spawnv (launcher, argv, &error);
  Outcome outcome = { 0 };

  g_assert_no_error (error);
  g_subprocess_communicate_utf8 (process, NULL, NULL, &outcome.out, &outcome.err, &error);
  g_assert_no_error (error);
  g_assert_true (g_subprocess_get_if_exited (process));
  outcome.status = g_subprocess_get_exit_status (process);
  return outcome;
}

void
assert_contains (const char *text,
                 const char *part)
{
  if (strstr (text, part) == NULL)
    g_error ("“%s” is not in:\n%s", part, text);
}
