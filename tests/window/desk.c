/* desk.c - the real window over a scene, for a test
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "desk.h"

#include "walk.h"

void
desk_open (Desk *self)
{
  scene_open (&self->scene);
  self->window = HW_WINDOW (g_object_ref_sink (hw_window_new (NULL, self->scene.workspace)));
  self->root = GTK_WIDGET (self->window);
  gtk_window_present (GTK_WINDOW (self->window));
  gtk_test_widget_wait_for_draw (self->root);
}

void
desk_close (Desk *self)
{
  gtk_window_destroy (GTK_WINDOW (self->window));
  scene_settle ();
  g_assert_finalize_object (self->window);
  scene_close (&self->scene);
}

GtkWidget *
desk_page (Desk *self)
{
  return gtk_stack_get_visible_child (walk_stack (self->root, "making-up"));
}

void
desk_open_page (Desk       *self,
                const char *name)
{
  g_assert_true (gtk_widget_activate_action (self->root, "win.page", "s", name));
  gtk_test_widget_wait_for_draw (self->root);
  scene_settle ();
  self->page = desk_page (self);
}

gboolean
desk_act (GtkWidget  *widget,
          const char *action)
{
  gboolean done = gtk_widget_activate_action (widget, action, NULL);

  scene_settle ();
  return done;
}
