/* window-state.h - how the window was left, in the desktop's settings
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

/* Zero or NULL (or empty) where that is not known. */
typedef struct
{
  int      width, height;
  gboolean maximized;
  char    *page;
  char    *step;                 /* the chosen one of the last project */
} HwWindowState;

/* Each room has its own. */
void hw_window_state_keep   (const char *room_folder, const HwWindowState *state);
void hw_window_state_recall (const char *room_folder, HwWindowState *state);           /* its texts: (transfer full) */

G_END_DECLS
