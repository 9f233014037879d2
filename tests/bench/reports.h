/* reports.h - what the order bench prints
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

/* Each returns how many results were wrong: an order that is none, costs otherwise than said, or less than can be. */
guint report_paths    (const char *folder);     /* published instances of the sequential ordering problem */
guint report_graphs   (const char *folder);     /* published precedence graphs, with set-ups drawn */
guint report_projects (void);                   /* projects drawn, one to three machines */
