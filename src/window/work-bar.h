/* work-bar.h - long work: how far it has got, how long it will take, and Cancel
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A bar of the window, hidden while nothing is at work and for the first moment of what is. The pieces are done between
 * the window's own work, so that it stays awake, or by a thread, which the bar asks how far it is.
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_WORK_BAR (hw_work_bar_get_type ())
G_DECLARE_FINAL_TYPE (HwWorkBar, hw_work_bar, HW, WORK_BAR, GtkWidget)

typedef struct
{
  const char *title;             /* translated: “Saving the cards”; borrowed until end() */
  guint       n_pieces;
  /* Does piece @index, in a few milliseconds. FALSE with @error ends the work. */
  gboolean (* piece) (gpointer data, guint index, GError **error);
  /* Once, when all pieces are done (@error NULL, @cancelled FALSE), one has failed, or the person has cancelled it:
   * then nothing of it may remain. */
  void     (* end)   (gpointer data, gboolean cancelled, const GError *error);
  /* In the place of @piece: how many parts in @n_pieces of its work a thread has done. */
  guint    (* count) (gpointer data);
} HwWork;

/* The bar of the window that @widget is in; NULL: none. */
HwWorkBar *hw_work_bar_of      (GtkWidget *widget);
/* @data is freed by end(). FALSE: something is at work already; nothing was begun, and end() is not called. */
gboolean   hw_work_bar_begin   (HwWorkBar *self, const HwWork *work, gpointer data);
gboolean   hw_work_bar_is_busy (HwWorkBar *self);

G_END_DECLS
