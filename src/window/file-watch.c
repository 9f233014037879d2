/* file-watch.c - tells when another program wrote a file
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A file that is written anew is another one: its inode, size or time tells. What the owner wrote himself he makes
 * known, so that no write of his is told.
 */

#include "config.h"

#include "window/file-watch.h"

#include <gio/gio.h>
#include <glib/gstdio.h>

#define WAIT_MS 200                      /* many programs write more than once */

struct _HwFileWatch
{
  char         *path;
  char         *stamp;           /* of the file that is known; "" it is not there */
  void       (* written) (gpointer data);
  gpointer      data;
  GFileMonitor *monitor;         /* NULL: it cannot be watched; saving finds out then */
  guint         wait_id;
};

static char *
read_stamp (const char *path)
{
  GStatBuf status;

  if (g_stat (path, &status) != 0)
    return g_strdup ("");
  return g_strdup_printf ("%" G_GINT64_FORMAT " %" G_GINT64_FORMAT ".%09ld %" G_GUINT64_FORMAT, (gint64) status.st_size,
                          (gint64) status.st_mtim.tv_sec, status.st_mtim.tv_nsec, (guint64) status.st_ino);
}

static gboolean
look_cb (gpointer data)
{
  HwFileWatch     *self = data;
  g_autofree char *stamp = read_stamp (self->path);

  self->wait_id = 0;
  if (stamp[0] == '\0' || g_str_equal (stamp, self->stamp))
    return G_SOURCE_REMOVE;
  g_free (self->stamp);
  self->stamp = g_steal_pointer (&stamp);
  self->written (self->data);            /* may free it */
  return G_SOURCE_REMOVE;
}

static void
stirred_cb (HwFileWatch *self)
{
  g_clear_handle_id (&self->wait_id, g_source_remove);
  self->wait_id = g_timeout_add (WAIT_MS, look_cb, self);
}

HwFileWatch *
hw_file_watch_new (const char *path,
                   void     (* written) (gpointer data),
                   gpointer    data)
{
  HwFileWatch      *self = g_new0 (HwFileWatch, 1);
  g_autoptr (GFile) file = g_file_new_for_path (path);

  self->path = g_strdup (path);
  self->stamp = read_stamp (path);
  self->written = written;
  self->data = data;
  self->monitor = g_file_monitor_file (file, G_FILE_MONITOR_WATCH_MOVES, NULL, NULL);
  if (self->monitor != NULL)
    g_signal_connect_swapped (self->monitor, "changed", G_CALLBACK (stirred_cb), self);
  return self;
}

void
hw_file_watch_free (HwFileWatch *self)
{
  if (self == NULL)
    return;
  g_clear_handle_id (&self->wait_id, g_source_remove);
  if (self->monitor != NULL)
    {
      g_signal_handlers_disconnect_by_data (self->monitor, self);
      g_file_monitor_cancel (self->monitor);
      g_object_unref (self->monitor);
    }
  g_free (self->path);
  g_free (self->stamp);
  g_free (self);
}

void
hw_file_watch_known (HwFileWatch *self)
{
  g_return_if_fail (self != NULL);

  g_free (self->stamp);
  self->stamp = read_stamp (self->path);
}
