/* lock.c - one writer at a time in a folder, or of a file
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lock belongs to the open file, so that the kernel gives it back when the process ends, however it ends.
 *
 * Who waits holds a second lock, the turn, which everybody needs on the way to the first: so a process that gives the
 * folder back and wants it again at once comes after the one that has been waiting.
 */

#define G_LOG_DOMAIN "hw-files"

#include "config.h"

#include "files/save.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define STEP_MS 5

struct _HwLock
{
  int fd;
};

static gboolean
take_lock (int    fd,
           gint64 end_us)
{
  while (flock (fd, LOCK_EX | LOCK_NB) != 0)
    {
      if (errno != EWOULDBLOCK && errno != EINTR)
        return FALSE;
      if (g_get_monotonic_time () >= end_us)
        {
          errno = EWOULDBLOCK;
          return FALSE;
        }
      g_usleep (STEP_MS * 1000);
    }
  return TRUE;
}

static int
open_file (const char *folder,
           const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);

  return g_open (path, O_RDWR | O_CREAT | O_CLOEXEC, 0666);
}

/* errno tells why not. */
static gboolean
take_in_turn (const char *folder,
              int         fd,
              guint       wait_ms)
{
  gint64 end_us = g_get_monotonic_time () + (gint64) wait_ms * 1000;
  int turn = open_file (folder, ".lock-turn");
  gboolean taken;
  int number;

  if (turn < 0)
    return FALSE;
  taken = take_lock (turn, end_us) && take_lock (fd, end_us);
  number = errno;
  close (turn);
  errno = number;
  return taken;
}

static void
report_lock (const char *folder,
             int         number,
             GError    **error)
{
  g_autofree char *shown = hw_show_path (folder);

  if (number == EWOULDBLOCK)
    g_set_error (error, G_FILE_ERROR, G_FILE_ERROR_AGAIN,
                 _("The folder “%s” is in use by another Handwheel; close it there and try again"), shown);
  else
    g_set_error (error, G_FILE_ERROR, (int) g_file_error_from_errno (number),
                 _("Could not lock the folder “%s”: %s"), shown, g_strerror (number));
}

/**
 * hw_lock_folder:
 * @wait_ms: how long to wait for another process to give it back; 0 not at all
 *
 * Returns: (transfer full): the lock, or %NULL with a %G_FILE_ERROR
 */
HwLock *
hw_lock_folder (const char *folder,
                guint       wait_ms,
                GError    **error)
{
  HwLock *self;
  int fd;

  g_return_val_if_fail (folder != NULL, NULL);

  fd = open_file (folder, ".lock");
  if (fd < 0)
    {
      report_lock (folder, errno, error);
      return NULL;
    }
  if (!take_in_turn (folder, fd, wait_ms))
    {
      report_lock (folder, errno, error);
      close (fd);
      return NULL;
    }
  self = g_new0 (HwLock, 1);
  self->fd = fd;
  return self;
}

/* Whether @path leads to the file that is open as @fd; who saves puts another in its place. */
static gboolean
is_still_there (int         fd,
                const char *path)
{
  struct stat open_file;
  struct stat now;

  return fstat (fd, &open_file) == 0 && stat (path, &now) == 0 && open_file.st_dev == now.st_dev
         && open_file.st_ino == now.st_ino;
}

/**
 * hw_lock_file:
 * @wait_ms: how long to wait for another process to give it back
 *
 * Returns: (transfer full): the lock, or %NULL when there is no such file, or none that can be locked in time
 */
HwLock *
hw_lock_file (const char *path,
              guint       wait_ms)
{
  gint64 end_us = g_get_monotonic_time () + (gint64) wait_ms * 1000;
  HwLock *self;
  int fd;

  g_return_val_if_fail (path != NULL, NULL);

  while ((fd = g_open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK, 0)) >= 0)
    {
      if (!take_lock (fd, end_us))
        break;
      if (is_still_there (fd, path))
        {
          self = g_new0 (HwLock, 1);
          self->fd = fd;
          return self;
        }
      close (fd);
    }
  if (fd >= 0)
    close (fd);
  return NULL;
}

void
hw_lock_free (HwLock *self)
{
  if (self == NULL)
    return;
  close (self->fd);
  g_free (self);
}
