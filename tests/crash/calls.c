/* calls.c - the calls by which a program changes files, made to fail, to end the process, or noted down
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Defined in the executable, these stand before the C library's for every library in the process, GLib's included.
 * CRASH_ROOT names the folder whose files are watched. CRASH_AT counts the calls there from 1; at that one the process
 * is killed (CRASH_HOW=kill), or the call fails with the error named (ENOSPC, EIO, EROFS, …), a write after half of
 * it is done. CRASH_LOG gets a line a call, with what a crash needs to be played back.
 */

#define _GNU_SOURCE
#include "config.h"

#include <dlfcn.h>
#include <errno.h>
#include <glib.h>
#include <limits.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

ssize_t write (int fd, const void *data, size_t size);
int     fsync (int fd);
int     fdatasync (int fd);
int     rename (const char *from, const char *to);
int     renameat2 (int from_fd, const char *from, int to_fd, const char *to, unsigned int flags);
int     link (const char *from, const char *to);
int     unlink (const char *path);
int     ftruncate (int fd, off_t size);
int     mkdir (const char *path, mode_t mode);

static int n_calls;
static int in_call;                      /* what this file does itself is not watched */

static const struct { const char *name; int number; } errors[] = {
  { "ENOSPC", ENOSPC }, { "EIO", EIO }, { "EROFS", EROFS }, { "EDQUOT", EDQUOT },
};

#define NEXT(function) ((__typeof__ (&function)) dlsym (RTLD_NEXT, #function))

static int
is_watched (const char *path)
{
  const char *root = getenv ("CRASH_ROOT");

  return in_call == 0 && root != NULL && path != NULL && strncmp (path, root, strlen (root)) == 0;
}

static const char *
path_of (int   fd,
         char *path)
{
  char name[64];
  ssize_t length;

  snprintf (name, sizeof name, "/proc/self/fd/%d", fd);
  length = readlink (name, path, PATH_MAX - 1);
  if (length < 0)
    return NULL;
  path[length] = '\0';
  return path;
}

static void
note (const char *kind,
      const char *first,
      const char *second)
{
  const char *log = getenv ("CRASH_LOG");
  FILE *file;

  if (log == NULL)
    return;
  in_call++;
  file = fopen (log, "a");
  if (file != NULL)
    {
      fprintf (file, "%s\t%s\t%s\n", kind, first, second != NULL ? second : "");
      fclose (file);
    }
  in_call--;
}

/* Whether the call that is beginning fails; errno is set then. A call that kills does not return. */
static int
meet (void)
{
  const char *at = getenv ("CRASH_AT");
  const char *how = getenv ("CRASH_HOW");

  n_calls++;
  if (at == NULL || atoi (at) != n_calls)
    return 0;
  if (how == NULL || strcmp (how, "kill") == 0)
    kill (getpid (), SIGKILL);
  for (size_t i = 0; i < sizeof errors / sizeof errors[0]; i++)
    if (how != NULL && strcmp (how, errors[i].name) == 0)
      errno = errors[i].number;
  return 1;
}

static void
note_write (int         fd,
            const char *path,
            const void *data,
            size_t      size)
{
  g_autofree char *hex = g_malloc (size * 2 + 32);
  int at = sprintf (hex, "%lld:", (long long) lseek (fd, 0, SEEK_CUR));

  for (size_t i = 0; i < size; i++)
    at += sprintf (hex + at, "%02x", ((const unsigned char *) data)[i]);
  note ("write", path, hex);
}

ssize_t
write (int         fd,
       const void *data,
       size_t      size)
{
  char path[PATH_MAX];

  if (in_call > 0 || !is_watched (path_of (fd, path)))
    return NEXT (write) (fd, data, size);
  if (meet ())
    {
      int number = errno;

      (void) !NEXT (write) (fd, data, size / 2);
      errno = number;
      return -1;
    }
  note_write (fd, path, data, size);
  return NEXT (write) (fd, data, size);
}

static int
sync_with (int (* real) (int), int fd)
{
  char path[PATH_MAX];
  struct stat about;

  if (!is_watched (path_of (fd, path)))
    return real (fd);
  if (meet ())
    return -1;
  note (fstat (fd, &about) == 0 && S_ISDIR (about.st_mode) ? "sync-folder" : "sync", path, NULL);
  return real (fd);
}

int
fsync (int fd)
{
  return sync_with (NEXT (fsync), fd);
}

int
fdatasync (int fd)
{
  return sync_with (NEXT (fdatasync), fd);
}

static int
two_names (int       (* real) (const char *, const char *),
           const char *kind,
           const char *from,
           const char *to)
{
  int done;

  if (!is_watched (to))
    return real (from, to);
  if (meet ())
    return -1;
  done = real (from, to);
  if (done == 0)
    note (kind, from, to);
  return done;
}

int
rename (const char *from,
        const char *to)
{
  return two_names (NEXT (rename), "rename", from, to);
}

int
renameat2 (int          from_fd,
           const char  *from,
           int          to_fd,
           const char  *to,
           unsigned int flags)
{
  int done;

  if (!is_watched (to))
    return NEXT (renameat2) (from_fd, from, to_fd, to, flags);
  if (meet ())
    return -1;
  done = NEXT (renameat2) (from_fd, from, to_fd, to, flags);
  if (done == 0)
    note ("exchange", from, to);
  return done;
}

int
link (const char *from,
      const char *to)
{
  return two_names (NEXT (link), "link", from, to);
}

int
unlink (const char *path)
{
  int done;

  if (!is_watched (path))
    return NEXT (unlink) (path);
  if (meet ())
    return -1;
  done = NEXT (unlink) (path);
  if (done == 0)
    note ("unlink", path, NULL);
  return done;
}

int
ftruncate (int   fd,
           off_t size)
{
  char path[PATH_MAX];
  char text[32];

  if (!is_watched (path_of (fd, path)))
    return NEXT (ftruncate) (fd, size);
  if (meet ())
    return -1;
  snprintf (text, sizeof text, "%lld", (long long) size);
  note ("truncate", path, text);
  return NEXT (ftruncate) (fd, size);
}

int
mkdir (const char *path,
       mode_t      mode)
{
  if (!is_watched (path))
    return NEXT (mkdir) (path, mode);
  if (meet ())
    return -1;
  note ("mkdir", path, NULL);
  return NEXT (mkdir) (path, mode);
}
