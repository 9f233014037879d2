/* demo.c - the real window over the demo's sewing room
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "demo.h"

#include "scene.h"
#include "temp-folder.h"
#include "window/furnish.h"
#include "window/window.h"

void
demo_open (Demo *self)
{
  const char *data = g_getenv ("HANDWHEEL_DATA_DIR");
  g_autofree char *room = NULL;
  g_autofree char *project = NULL;
  g_autoptr (GError) error = NULL;

  self->folder = temp_folder_new ();
  room = g_build_filename (self->folder, "room", NULL);
  project = g_build_filename (room, "projects", "stage-cape.handwheel", NULL);
  hw_furnish_room (data, room, &error);
  g_assert_no_error (error);
  self->workspace = hw_workspace_new (data, room, &error);
  g_assert_no_error (error);
  hw_workspace_open (self->workspace, project, &error);
  g_assert_no_error (error);
  self->window = g_object_ref_sink (hw_window_new (NULL, self->workspace));
}

void
demo_close (Demo *self)
{
  gtk_window_destroy (GTK_WINDOW (self->window));
  scene_settle ();
  g_object_unref (self->window);
  g_assert_finalize_object (self->workspace);
  temp_folder_remove (self->folder);
}
