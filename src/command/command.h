/* command.h - the command line, headless
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

#define HW_EXIT_DONE    0
#define HW_EXIT_REFUSED 1        /* refused input */
#define HW_EXIT_USAGE   2
#define HW_EXIT_IO      3        /* could not read or write */

/* TRUE when @argv names a command (or --help, --version): then *exit_status is set and nothing of the window is
 * needed. */
gboolean hw_command_run (int argc, char **argv, int *exit_status);

/* Where things are: HANDWHEEL_DATA_DIR else the installed data folder; HANDWHEEL_ROOM else the user's data folder.
 * (transfer full) */
char *hw_data_folder (void);
char *hw_room_folder (void);
/* Where translations are: HANDWHEEL_LOCALE_DIR, else where they are installed. (transfer full) */
char *hw_locale_folder (void);
/* Where a person's own XML over the handbook is: HANDWHEEL_OVERLAY, else the user's data folder; NULL when the variable
 * is there but empty: none. (transfer full) */
char *hw_overlay_folder (void);

G_END_DECLS
