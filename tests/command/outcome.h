/* outcome.h - a program run to its end, and what it said
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gio/gio.h>

G_BEGIN_DECLS

typedef struct
{
  int   status;
  char *out, *err;
} Outcome;

void outcome_clear (Outcome *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Outcome, outcome_clear)

/* For outcome_spawn(): both streams are kept, and there is no display. (transfer full) */
GSubprocessLauncher *outcome_launcher_new (void);
/* Asserts that it ends by itself, with whatever status. */
Outcome              outcome_spawn        (GSubprocessLauncher *launcher, const char * const *argv);

/* Fails the test and shows all of @text where @part is not in it. */
void                 assert_contains      (const char *text, const char *part);

G_END_DECLS
