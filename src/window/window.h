/* window.h - the one window: sidebar, header, strip and pages
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_WINDOW (hw_window_get_type ())
G_DECLARE_FINAL_TYPE (HwWindow, hw_window, HW, WINDOW, GtkApplicationWindow)

/* @application may be NULL (tests). */
GtkWidget  *hw_window_new          (GtkApplication *application, HwWorkspace *workspace);
/* A file that cannot be read is told in the window; what was open stays. */
gboolean    hw_window_open_file    (HwWindow *self, GFile *file);
/* The same for the project that was open when the window was left: page and step are to be restored. */
gboolean    hw_window_open_again   (HwWindow *self, const char *path);
/* Whether a large one is still being opened. */
gboolean    hw_window_is_opening   (HwWindow *self);
/* "making-up", "order", "cards", "notions", "machines", "handbook" */
void        hw_window_show_page    (HwWindow *self, const char *name);
/* Size and page as the window was left, before a project is opened; then the step that was chosen in it. */
void        hw_window_restore      (HwWindow *self);
void        hw_window_restore_step (HwWindow *self);
const char *hw_window_get_page     (HwWindow *self);
const char *hw_window_peek_message (HwWindow *self);      /* what the message bar says; NULL: it is hidden */
/* How long a message stays that is no error and offers nothing to do; it is long enough to be read. */
void        hw_window_pass_messages_after (HwWindow *self, guint seconds);

G_END_DECLS
