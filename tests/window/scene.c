/* scene.c - a sewing room in a temporary folder with one project, for a test of the window
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "scene.h"

#include <glib/gstdio.h>
#include <string.h>

#include "temp-folder.h"

/* Invented; every id is one that the handbook has to have. */
static const char apron[] =
  "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
  "<project xmlns=\"urn:handwheel:project:1\" id=\"apron\" title=\"Workshop apron\">\n"
  "  <fabrics>\n"
  "    <fabric id=\"twill\" name=\"Twill\" handbook=\"cotton-twill\" colour=\"blue\"/>\n"
  "    <fabric id=\"fusible\" name=\"Fusible\" handbook=\"fusible-woven\"/>\n"
  "  </fabrics>\n"
  "  <threads>\n"
  "    <thread id=\"blue\" handbook=\"polyester-30\" colour=\"blue\"/>\n"
  "    <thread id=\"ochre\" handbook=\"polyester-60\" colour=\"ochre\"/>\n"
  "  </threads>\n"
  "  <steps>\n"
  "    <operation number=\"1\" name=\"Hem the pocket\" purpose=\"hem\" seam=\"hem-double\" length-cm=\"24\">\n"
  "      <ply fabric=\"twill\" count=\"3\"/>\n"
  "    </operation>\n"
  "    <hand number=\"2\" name=\"Press the pocket\" after=\"1\" kind=\"press\" minutes=\"3\"/>\n"
  "    <operation number=\"3\" name=\"Set the pocket\" after=\"2\" purpose=\"topstitch\" seam=\"row\" length-cm=\"70\""
  " needle-thread=\"ochre\" bobbin-thread=\"blue\">\n"
  "      <ply fabric=\"twill\" count=\"3\"/>\n"
  "    </operation>\n"
  "    <operation number=\"4\" name=\"Side hems\" purpose=\"hem\" seam=\"hem-double\" length-cm=\"180\" pieces=\"2\">\n"
  "      <ply fabric=\"twill\" count=\"3\"/>\n"
  "    </operation>\n"
  "  </steps>\n"
  "</project>\n";

static void
changed_cb (Scene *self)
{
  g_string_append (self->log, "changed\n");
}

static void
selection_cb (Scene *self)
{
  g_string_append (self->log, "selection\n");
}

static void
message_cb (Scene      *self,
            const char *text,
            gboolean    is_error)
{
  g_string_append_printf (self->log, "%s: %s\n", is_error ? "error" : "message", text);
}

static void
make_room (Scene *self)
{
  g_autofree char *projects = NULL;
  g_autoptr (GError) error = NULL;

  self->folder = temp_folder_new ();
  self->data = g_strdup (g_getenv ("HANDWHEEL_DATA_DIR"));
  g_assert_nonnull (self->data);
  self->room = g_build_filename (self->folder, "room", NULL);
  hw_room_create (self->room, &error);
  g_assert_no_error (error);
  projects = g_build_filename (self->room, "projects", NULL);
  g_mkdir_with_parents (projects, 0700);
  temp_folder_write (projects, "apron.handwheel", apron, -1);
  self->path = g_build_filename (projects, "apron.handwheel", NULL);
}

void
scene_open (Scene *self)
{
  g_autoptr (GError) error = NULL;

  make_room (self);
  self->workspace = hw_workspace_new (self->data, self->room, &error);
  g_assert_no_error (error);
  hw_workspace_open (self->workspace, self->path, &error);
  g_assert_no_error (error);
  self->log = g_string_new (NULL);
  g_signal_connect_swapped (self->workspace, "changed", G_CALLBACK (changed_cb), self);
  g_signal_connect_swapped (self->workspace, "selection", G_CALLBACK (selection_cb), self);
  g_signal_connect_swapped (self->workspace, "message", G_CALLBACK (message_cb), self);
}

void
scene_close (Scene *self)
{
  g_assert_finalize_object (self->workspace);
  g_string_free (self->log, TRUE);
  temp_folder_remove (self->folder);
  g_free (self->data);
  g_free (self->room);
  g_free (self->path);
}

void
scene_clear_log (Scene *self)
{
  g_string_truncate (self->log, 0);
}

HwProject *
scene_read_file (Scene *self)
{
  g_autoptr (GError) error = NULL;
  HwProject         *project = hw_project_read (self->path, &error);

  g_assert_no_error (error);
  return project;
}

const HwStep *
scene_step (Scene      *self,
            const char *number)
{
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  int              index = hw_project_find_step (project, number);

  g_assert_cmpint (index, >=, 0);
  return hw_project_get_step (project, (gsize) index);
}

void
scene_settle (void)
{
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

static gboolean
wake_cb (gpointer data)
{
  return G_SOURCE_CONTINUE;
}

void
scene_wait (gboolean (* done) (gpointer data),
            gpointer data)
{
  gint64 end = g_get_monotonic_time () + 5 * G_TIME_SPAN_SECOND;
  guint  wake = g_timeout_add (20, wake_cb, NULL);

  while (!done (data))
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, TRUE);
    }
  g_source_remove (wake);
}
