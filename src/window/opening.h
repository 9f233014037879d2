/* opening.h - a large project, read and planned on a thread while the window stays awake
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

typedef struct _HwOpening HwOpening;

/* When it is over. FALSE: it was cancelled, or why it could not be opened has been told, and what was open before still
 * is. */
typedef void (* HwOpeningEnd) (GtkWidget *window, gboolean opened);

/* Begins to open the project at @path, with the bar of @window to tell how far that has got and to cancel it. @end is
 * called once, and the opening is gone then. NULL: something else is at work there, which has been told. */
HwOpening *hw_opening_begin  (GtkWidget *window, HwWorkspace *workspace, const char *path, HwOpeningEnd end);
void       hw_opening_cancel (HwOpening *self);

G_END_DECLS
