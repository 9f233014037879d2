/* save.c - the one crash-safe writer
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The new bytes go to a temporary file beside the old one and to the disk before the old one is touched; rename
 * then puts them in its place in one step. The temporary file is locked while it is being written, so that
 * another process that tidies up after a crash can tell an orphan from work in hand.
 */

#define G_LOG_DOMAIN "hw-files"
#define _GNU_SOURCE                      /* renameat2 */

#include "config.h"

#include "files/save.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define ATTEMPTS 100
#define LOCK_WAIT_MS 10000

/* The temporary file beside the one to replace; -1 and NULL when there is none. */
typedef struct
{
  int   fd;
  char *path;
} Temporary;

/* @format takes the path and what the system said (errno). Always FALSE. */
static gboolean
fail (GError    **error,
      const char *path,
      const char *format)
{
  int number = errno;
  g_autofree char *shown = hw_show_path (path);

  g_set_error (error, G_FILE_ERROR, (int) g_file_error_from_errno (number), format, shown, g_strerror (number));
  return FALSE;
}

static gboolean
sync_folder (const char *folder,
             GError    **error)
{
  int fd = g_open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC, 0);
  gboolean done;

  if (fd < 0)
    return fail (error, folder, _("Could not open the folder “%s”: %s"));
  /* Some network and FAT file systems cannot sync a folder and say EINVAL; there is nothing more to do there. */
  done = fsync (fd) == 0 || errno == EINVAL || errno == ENOTSUP;
  if (!done)
    fail (error, folder, _("Could not bring the folder “%s” to the disk: %s"));
  close (fd);
  return done;
}

static gboolean
make_folder (const char *folder,
             GError    **error)
{
  g_autofree char *parent = NULL;

  if (g_file_test (folder, G_FILE_TEST_IS_DIR))
    return TRUE;
  parent = g_path_get_dirname (folder);
  if (strcmp (parent, folder) != 0 && !make_folder (parent, error))
    return FALSE;
  if (g_mkdir (folder, 0777) != 0 && errno != EEXIST)    /* the umask decides, as for any folder */
    return fail (error, folder, _("Could not make the folder “%s”: %s"));
  return sync_folder (parent, error);
}

/* Whether @name is ".NAME.hwXXXXXX", a temporary of @base. */
static gboolean
is_temporary_of (const char *name,
                 const char *base)
{
  g_autofree char *prefix = g_strdup_printf (".%s.hw", base);

  return g_str_has_prefix (name, prefix) && strlen (name) == strlen (prefix) + 6;
}

static void
remove_orphan (const char *path)
{
  int fd = g_open (path, O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK, 0);

  if (fd < 0)
    return;
  if (flock (fd, LOCK_EX | LOCK_NB) == 0)
    g_unlink (path);
  close (fd);
}

/* Temporaries left by a crash only take up room, so what cannot be removed is left for the next time. */
static void
remove_orphans (const char *folder,
                const char *base)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (is_temporary_of (name, base))
      {
        g_autofree char *path = g_build_filename (folder, name, NULL);
        remove_orphan (path);
      }
}

static void
drop_temporary (Temporary *self)
{
  if (self->path != NULL)
    g_unlink (self->path);
  if (self->fd >= 0)
    close (self->fd);
  g_clear_pointer (&self->path, g_free);
  self->fd = -1;
}

/* Another process may take a file for an orphan between its birth and its lock: then it has no name any more. */
static gboolean
open_temporary (Temporary  *self,
                const char *folder,
                const char *base,
                GError    **error)
{
  for (int attempt = 0; attempt < ATTEMPTS; attempt++)
    {
      struct stat about;
      g_autofree char *name = g_strdup_printf (".%s.hwXXXXXX", base);

      self->path = g_build_filename (folder, name, NULL);
      self->fd = g_mkstemp_full (self->path, O_WRONLY | O_CLOEXEC, 0666);
      if (self->fd < 0)
        {
          g_clear_pointer (&self->path, g_free);
          return fail (error, folder, _("Could not write in the folder “%s”: %s"));
        }
      if ((flock (self->fd, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK)
          && fstat (self->fd, &about) == 0 && about.st_nlink > 0)
        return TRUE;
      drop_temporary (self);
    }
  errno = EBUSY;
  return fail (error, folder, _("Could not write in the folder “%s”: %s"));
}

static gboolean
write_all (int         fd,
           const char *path,
           const char *data,
           gsize       size,
           GError    **error)
{
  while (size > 0)
    {
      gssize written = write (fd, data, size);
      if (written < 0 && errno == EINTR)
        continue;
      if (written < 0)
        return fail (error, path, _("Could not write “%s”: %s"));
      data += written;
      size -= (gsize) written;
    }
  return TRUE;
}

static gboolean
fill_temporary (const Temporary *self,
                const char      *path,
                const char      *data,
                gsize            size,
                GError         **error)
{
  struct stat about;

  if (stat (path, &about) == 0 && fchmod (self->fd, about.st_mode & 0777) != 0)
    return fail (error, path, _("Could not keep the permissions of “%s”: %s"));
  if (!write_all (self->fd, path, data, size, error))
    return FALSE;
  if (fsync (self->fd) != 0)
    return fail (error, path, _("Could not bring “%s” to the disk: %s"));
  return TRUE;
}

static gboolean
put_in_place (Temporary  *self,
              const char *path,
              GError    **error)
{
  int fd = self->fd;

  if (g_rename (self->path, path) != 0)
    return fail (error, path, _("Could not replace “%s”: %s"));
  g_clear_pointer (&self->path, g_free);
  self->fd = -1;
  if (close (fd) != 0 && errno != EINTR)
    return fail (error, path, _("Could not finish writing “%s”: %s"));
  return TRUE;
}

/* What may be replaced: a file with this mark, and what was found in it; no data where none was found. */
typedef struct
{
  const char *mark;
  char       *data;
  gsize       size;
} Known;

/* Its bytes are read and compared, which takes less time than their mark. */
static gboolean
is_known (const char  *path,
          const Known *known)
{
  g_autofree char *data = NULL;
  g_autofree char *mark = NULL;
  gsize size = 0;

  if (!g_file_get_contents (path, &data, &size, NULL))
    return FALSE;
  if (known->data != NULL)
    return size == known->size && memcmp (data, known->data, size) == 0;
  mark = hw_mark_bytes (data, size);
  return strcmp (mark, known->mark) == 0;
}

/* Changes places with the file at @path, and looks at what came out: what another program put there since it was last
 * looked at goes back. */
static gboolean
change_places (Temporary   *self,
               const char  *path,
               const Known *known,
               gboolean    *changed,
               GError     **error)
{
  if (renameat2 (AT_FDCWD, self->path, AT_FDCWD, path, RENAME_EXCHANGE) != 0)
    {
      if (errno == ENOENT || errno == EINVAL || errno == ENOSYS || errno == ENOTSUP)   /* no file; no such call here */
        return put_in_place (self, path, error);
      return fail (error, path, _("Could not replace “%s”: %s"));
    }
  if (is_known (self->path, known))
    return TRUE;
  *changed = TRUE;
  put_in_place (self, path, error);
  return FALSE;
}

/* Where a file cannot have two names (FAT, some network folders) the last good version is copied. */
static gboolean
copy_last_good (const char *path,
                const char *folder,
                const char *kept,
                GError    **error)
{
  g_autofree char *data = NULL;
  g_autofree char *base = g_path_get_basename (kept);
  Temporary temporary = { -1, NULL };
  gsize size = 0;
  gboolean done;

  if (!g_file_get_contents (path, &data, &size, error) || !open_temporary (&temporary, folder, base, error))
    return FALSE;
  done = fill_temporary (&temporary, kept, data, size, error) && put_in_place (&temporary, kept, error);
  drop_temporary (&temporary);
  return done;
}

/* link, again when another process replaced the file at that very moment (the old one has no name left then). */
static int
link_again (const char *path,
            const char *kept)
{
  for (int attempt = 0; attempt < ATTEMPTS; attempt++)
    if (link (path, kept) == 0 || errno == EEXIST)       /* another process has just kept it */
      return 0;
    else if (errno != ENOENT)
      break;
  return -1;
}

static gboolean
keep_last_good (const char *path,
                const char *folder,
                GError    **error)
{
  g_autofree char *kept = g_strconcat (path, "~", NULL);

  if (!g_file_test (path, G_FILE_TEST_EXISTS))
    return TRUE;
  if (g_unlink (kept) != 0 && errno != ENOENT)
    return fail (error, kept, _("Could not replace “%s”: %s"));
  if (link_again (path, kept) == 0)
    return TRUE;
  if (errno == EPERM || errno == ENOTSUP || errno == ENOSYS || errno == EMLINK)
    return copy_last_good (path, folder, kept, error);
  return fail (error, kept, _("Could not keep the last version as “%s”: %s"));
}

/* A file that its owner made read-only is not replaced behind its back, though rename could. */
static gboolean
check_target (const char *path,
              GError    **error)
{
  if (g_file_test (path, G_FILE_TEST_IS_DIR))
    {
      errno = EISDIR;
      return fail (error, path, _("Could not write “%s”: %s"));
    }
  if (g_file_test (path, G_FILE_TEST_EXISTS) && g_access (path, W_OK) != 0)
    return fail (error, path, _("Could not write “%s”: %s"));
  return TRUE;
}

/* (transfer full): where a link leads, so that the file is replaced and not the link. */
static char *
follow_link (const char *path,
             GError    **error)
{
  char *real;
  char *copy;

  if (!g_file_test (path, G_FILE_TEST_IS_SYMLINK))
    return g_strdup (path);
  real = realpath (path, NULL);
  if (real == NULL)
    {
      fail (error, path, _("The link “%s” leads nowhere: %s"));
      return NULL;
    }
  copy = g_strdup (real);
  free (real);
  return copy;
}

/* @known: NULL: anything may be replaced */
static gboolean
replace_file (const char  *target,
              const char  *data,
              gsize        size,
              const Known *known,
              gboolean    *changed,
              GError     **error)
{
  g_autofree char *folder = g_path_get_dirname (target);
  g_autofree char *base = g_path_get_basename (target);
  Temporary temporary = { -1, NULL };
  gboolean done;

  if (!make_folder (folder, error) || !check_target (target, error))
    return FALSE;
  remove_orphans (folder, base);
  if (!open_temporary (&temporary, folder, base, error))
    return FALSE;
  done = fill_temporary (&temporary, target, data, size, error)
         && keep_last_good (target, folder, error)
         && (known != NULL ? change_places (&temporary, target, known, changed, error)
                           : put_in_place (&temporary, target, error))
         && sync_folder (folder, error);
  drop_temporary (&temporary);
  return done;
}

/**
 * hw_save_bytes:
 * @size: bytes in @data, or -1 when it ends with a NUL
 *
 * Returns: whether @path now holds @data, on the disk
 */
gboolean
hw_save_bytes (const char *path,
               const char *data,
               gssize      size,
               GError    **error)
{
  g_autofree char *target = NULL;

  g_return_val_if_fail (path != NULL && *path != '\0', FALSE);
  g_return_val_if_fail (data != NULL || size == 0, FALSE);

  target = follow_link (path, error);
  return target != NULL && replace_file (target, data, size < 0 ? strlen (data) : (gsize) size, NULL, NULL, error);
}

/* Whether the file at @path may be replaced: one that somebody removed is not in the way. */
static gboolean
look_at_target (const char *path,
                Known      *known)
{
  g_autofree char *now = NULL;

  if (!g_file_get_contents (path, &known->data, &known->size, NULL))
    return TRUE;
  now = hw_mark_bytes (known->data, known->size);
  return strcmp (now, known->mark) == 0;
}

/* Two Handwheels take the file's lock one after the other; a program that knows no lock is found out when the files
 * change places. */
gboolean
hw_save_bytes_over (const char  *path,
                    const char  *data,
                    gsize        size,
                    const char  *mark,
                    gboolean    *changed,
                    GError     **error)
{
  g_autofree char *target = NULL;
  g_autoptr (HwLock) lock = NULL;
  Known known = { mark, NULL, 0 };
  gboolean done;

  g_return_val_if_fail (path != NULL && *path != '\0' && changed != NULL, FALSE);
  g_return_val_if_fail (data != NULL || size == 0, FALSE);

  *changed = FALSE;
  target = follow_link (path, error);
  if (target == NULL)
    return FALSE;
  if (mark != NULL)
    {
      lock = hw_lock_file (target, LOCK_WAIT_MS);
      *changed = !look_at_target (target, &known);
    }
  done = !*changed && replace_file (target, data, size, mark != NULL ? &known : NULL, changed, error);
  g_free (known.data);
  return done;
}

char *
hw_mark_bytes (const char *data,
               gsize       size)
{
  return g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *) data, size);
}

char *
hw_mark_file (const char *path)
{
  g_autofree char *data = NULL;
  gsize size = 0;

  g_return_val_if_fail (path != NULL, NULL);

  return g_file_get_contents (path, &data, &size, NULL) ? hw_mark_bytes (data, size) : NULL;
}
