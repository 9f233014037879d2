/* test-save.c - whatever happens while saving, the old or the new bytes are there, whole
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The linker routes the system calls of the writer through the functions below (--wrap), so that each can fail, do
 * half its work or be the last thing that the process does.
 */

#include "config.h"

#include "files/save.h"
#include "temp-folder.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define OLD "old bytes, of a length of their own"
#define NEW "new bytes"
#define EXIT_DIED 42

/* ---- faults ---- */

static struct
{
  char     log[1024];                    /* names of the calls, in order */
  int      n_calls;
  int      fail_at;                      /* the call to fail, counted from 1; 0 none */
  int      fail_errno;
  const char *fail_name;                 /* every call of this name fails; NULL none */
  int      die_before;                   /* the process ends before this call; 0 never */
  const char *meanwhile;                 /* another program puts it into the file just before the files change places */
  gboolean piecemeal;                    /* write one byte at a time, interrupted every other time */
} faults;

static void
clear_faults (void)
{
  memset (&faults, 0, sizeof faults);
}

/* Whether @name is to fail now; errno is set then. */
static gboolean
meet_call (const char *name)
{
  faults.n_calls++;
  if (strlen (faults.log) + strlen (name) + 2 < sizeof faults.log)
    {
      strcat (faults.log, name);
      strcat (faults.log, " ");
    }
  if (faults.die_before == faults.n_calls)
    _exit (EXIT_DIED);
  if (faults.fail_at != faults.n_calls && g_strcmp0 (faults.fail_name, name) != 0)
    return FALSE;
  errno = faults.fail_errno;
  return TRUE;
}

gssize __real_write (int fd, const void *data, gsize size);
gssize __wrap_write (int fd, const void *data, gsize size);
int    __real_fsync (int fd);
int    __wrap_fsync (int fd);
int    __real_link (const char *from, const char *to);
int    __wrap_link (const char *from, const char *to);
int    __real_rename (const char *from, const char *to);
int    __wrap_rename (const char *from, const char *to);
int    __real_renameat2 (int from_fd, const char *from, int to_fd, const char *to, unsigned int flags);
int    __wrap_renameat2 (int from_fd, const char *from, int to_fd, const char *to, unsigned int flags);

gssize
__wrap_write (int         fd,
              const void *data,
              gsize       size)
{
  static gboolean interrupted;

  if (faults.piecemeal)
    {
      interrupted = !interrupted;
      if (!interrupted)
        return __real_write (fd, data, 1);
      errno = EINTR;
      return -1;
    }
  return meet_call ("write") ? -1 : __real_write (fd, data, size);
}

int
__wrap_fsync (int fd)
{
  struct stat about;

  return meet_call (fstat (fd, &about) == 0 && S_ISDIR (about.st_mode) ? "fsync-folder" : "fsync-file")
         ? -1 : __real_fsync (fd);
}

int
__wrap_link (const char *from,
             const char *to)
{
  return meet_call ("link") ? -1 : __real_link (from, to);
}

int
__wrap_rename (const char *from,
               const char *to)
{
  return meet_call ("rename") ? -1 : __real_rename (from, to);
}

int
__wrap_renameat2 (int          from_fd,
                  const char  *from,
                  int          to_fd,
                  const char  *to,
                  unsigned int flags)
{
  if (faults.meanwhile != NULL)
    g_assert_true (g_file_set_contents (to, faults.meanwhile, -1, NULL));
  faults.meanwhile = NULL;
  return meet_call ("exchange") ? -1 : __real_renameat2 (from_fd, from, to_fd, to, flags);
}

/* ---- a folder with one file in it ---- */

typedef struct
{
  char *folder;
  char *path;
} Place;

static void
set_up (Place         *place,
        gconstpointer  data)
{
  clear_faults ();
  place->folder = temp_folder_new ();
  place->path = g_build_filename (place->folder, "room.xml", NULL);
}

static void
tear_down (Place         *place,
           gconstpointer  data)
{
  clear_faults ();
  temp_folder_remove (place->folder);
  g_free (place->path);
}

static void
assert_holds (const Place *place,
              const char  *name,
              const char  *wanted)
{
  g_autofree char *data = temp_folder_read (place->folder, name);

  g_assert_cmpstr (data, ==, wanted);
}

static void
save (const Place *place,
      const char  *data)
{
  g_autoptr (GError) error = NULL;
  gboolean done = hw_save_bytes (place->path, data, -1, &error);

  g_assert_no_error (error);
  g_assert_true (done);
}

/* ---- cases ---- */

static void
test_new_file (Place         *place,
               gconstpointer  data)
{
  save (place, NEW);
  assert_holds (place, "room.xml", NEW);
  assert_holds (place, "room.xml~", NULL);
  g_assert_cmpint (temp_folder_count (place->folder, ""), ==, 1);
}

static void
test_keeps_last_good (Place         *place,
                      gconstpointer  data)
{
  save (place, "first");
  save (place, "second");
  assert_holds (place, "room.xml", "second");
  assert_holds (place, "room.xml~", "first");
  save (place, "third");
  assert_holds (place, "room.xml", "third");
  assert_holds (place, "room.xml~", "second");
  g_assert_cmpint (temp_folder_count (place->folder, ""), ==, 2);
}

static void
test_size (Place         *place,
           gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *read = NULL;
  gsize size = 0;

  g_assert_true (hw_save_bytes (place->path, "a\0b-and-more", 3, &error));
  g_assert_true (g_file_get_contents (place->path, &read, &size, NULL));
  g_assert_cmpuint (size, ==, 3);
  g_assert_true (memcmp (read, "a\0b", 3) == 0);
  g_assert_true (hw_save_bytes (place->path, NULL, 0, &error));
  assert_holds (place, "room.xml", "");
}

static void
test_missing_folder (Place         *place,
                     gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *deep = g_build_filename (place->folder, "a", "b", "c.xml", NULL);

  g_assert_true (hw_save_bytes (deep, NEW, -1, &error));
  g_assert_no_error (error);
  assert_holds (place, "a/b/c.xml", NEW);
  /* Each new folder is itself brought to the disk: its parent is synced, twice here, before the file is written. */
  g_assert_cmpstr (faults.log, ==, "fsync-folder fsync-folder write fsync-file rename fsync-folder ");
}

/* The order of calls is what survives a power cut: bytes on the disk, old ones kept, swap, folder on the disk. */
static void
test_order_of_calls (Place         *place,
                     gconstpointer  data)
{
  save (place, OLD);
  clear_faults ();
  save (place, NEW);
  g_assert_cmpstr (faults.log, ==, "write fsync-file link rename fsync-folder ");
}

static void
test_short_writes (Place         *place,
                   gconstpointer  data)
{
  faults.piecemeal = TRUE;
  save (place, NEW);
  assert_holds (place, "room.xml", NEW);
}

static void
test_permissions (Place         *place,
                  gconstpointer  data)
{
  struct stat about;

  save (place, OLD);
  g_assert_cmpint (g_chmod (place->path, 0640), ==, 0);
  save (place, NEW);
  g_assert_cmpint (stat (place->path, &about), ==, 0);
  g_assert_cmpint (about.st_mode & 0777, ==, 0640);
}

static void
test_follows_link (Place         *place,
                   gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *through = g_build_filename (place->folder, "through.xml", NULL);
  g_autofree char *nowhere = g_build_filename (place->folder, "nowhere.xml", NULL);

  save (place, OLD);
  g_assert_cmpint (symlink ("room.xml", through), ==, 0);
  g_assert_true (hw_save_bytes (through, NEW, -1, &error));
  g_assert_true (g_file_test (through, G_FILE_TEST_IS_SYMLINK));
  assert_holds (place, "room.xml", NEW);
  g_assert_cmpint (symlink ("absent.xml", nowhere), ==, 0);
  g_assert_false (hw_save_bytes (nowhere, NEW, -1, &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_NOENT);
}

static void
assert_refused (const char *path,
                int         code)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (hw_save_bytes (path, NEW, -1, &error));
  g_assert_error (error, G_FILE_ERROR, code);
  g_test_message ("%s", error->message);
}

static void
test_refused (Place         *place,
              gconstpointer  data)
{
  g_autofree char *below_a_file = g_build_filename (place->path, "x.xml", NULL);

  assert_refused (place->folder, G_FILE_ERROR_ISDIR);
  save (place, OLD);
  assert_refused (below_a_file, G_FILE_ERROR_NOTDIR);
  assert_holds (place, "room.xml", OLD);
}

/* Root may write anywhere: the process gives its rights up in a child. */
static void
save_as_nobody (const Place *place,
                int          code)
{
  int status = 0;
  pid_t child = fork ();

  if (child == 0)
    {
      g_autoptr (GError) error = NULL;
      if (geteuid () == 0 && (setgid (65534) != 0 || setuid (65534) != 0))
        _exit (3);
      _exit (!hw_save_bytes (place->path, NEW, -1, &error) && g_error_matches (error, G_FILE_ERROR, code)
             && strstr (error->message, place->folder) != NULL ? 0 : 1);
    }
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (WIFEXITED (status));
  if (WEXITSTATUS (status) == 3)
    g_test_skip ("this process may not give its rights up");
  else
    g_assert_cmpint (WEXITSTATUS (status), ==, 0);
}

static void
test_unwritable_folder (Place         *place,
                        gconstpointer  data)
{
  save (place, OLD);
  g_assert_cmpint (g_chmod (place->path, 0666), ==, 0);
  g_assert_cmpint (g_chmod (place->folder, 0555), ==, 0);
  save_as_nobody (place, G_FILE_ERROR_ACCES);
  g_assert_cmpint (g_chmod (place->folder, 0755), ==, 0);
  assert_holds (place, "room.xml", OLD);
  g_assert_cmpint (temp_folder_count (place->folder, ""), ==, 1);
}

/* Rename could replace it, for the folder is writable; its owner said no. */
static void
test_read_only_file (Place         *place,
                     gconstpointer  data)
{
  save (place, OLD);
  g_assert_cmpint (g_chmod (place->folder, 0777), ==, 0);
  g_assert_cmpint (g_chmod (place->path, 0444), ==, 0);
  save_as_nobody (place, G_FILE_ERROR_ACCES);
  assert_holds (place, "room.xml", OLD);
}

/* Every call in turn fails: an error is told, nothing is left lying about, the file is whole. */
static void
test_each_call_fails (Place         *place,
                      gconstpointer  data)
{
  static const int errors[] = { ENOSPC, EIO, EDQUOT };
  static const int n_calls = 5;          /* as in test_order_of_calls */

  for (gsize e = 0; e < G_N_ELEMENTS (errors); e++)
    for (int at = 1; at <= n_calls; at++)
      {
        g_autoptr (GError) error = NULL;
        clear_faults ();
        save (place, OLD);
        clear_faults ();
        faults.fail_at = at;
        faults.fail_errno = errors[e];
        g_assert_false (hw_save_bytes (place->path, NEW, -1, &error));
        g_assert_error (error, G_FILE_ERROR, (int) g_file_error_from_errno (errors[e]));
        g_assert_nonnull (strstr (error->message, place->folder));
        assert_holds (place, "room.xml", at < n_calls ? OLD : NEW);
        g_assert_cmpint (temp_folder_count (place->folder, "."), ==, 0);
      }
}

/* Where a file cannot have two names, the last good version is copied, as carefully. */
static void
test_no_links (Place         *place,
               gconstpointer  data)
{
  save (place, OLD);
  clear_faults ();
  faults.fail_name = "link";
  faults.fail_errno = EPERM;
  save (place, NEW);
  assert_holds (place, "room.xml", NEW);
  assert_holds (place, "room.xml~", OLD);
  g_assert_cmpstr (faults.log, ==, "write fsync-file link write fsync-file rename rename fsync-folder ");
}

/* A folder that cannot be synced at all (some network file systems) is no reason to lose work. */
static void
test_folder_cannot_sync (Place         *place,
                         gconstpointer  data)
{
  faults.fail_name = "fsync-folder";
  faults.fail_errno = EINVAL;
  save (place, NEW);
  assert_holds (place, "room.xml", NEW);
}

/* The process dies before each call in turn. The next save finds the file whole and sweeps up. */
static void
test_each_crash (Place         *place,
                 gconstpointer  data)
{
  for (int at = 1; at <= 5; at++)
    {
      int status = 0;
      pid_t child;

      clear_faults ();
      save (place, OLD);
      child = fork ();
      if (child == 0)
        {
          clear_faults ();
          faults.die_before = at;
          hw_save_bytes (place->path, NEW, -1, NULL);
          _exit (0);
        }
      g_assert_cmpint (waitpid (child, &status, 0), ==, child);
      g_assert_true (WIFEXITED (status));
      g_assert_cmpint (WEXITSTATUS (status), ==, EXIT_DIED);
      assert_holds (place, "room.xml", at < 5 ? OLD : NEW);
      g_assert_cmpint (temp_folder_count (place->folder, "."), ==, at < 5 ? 1 : 0);
      save (place, "next");
      assert_holds (place, "room.xml", "next");
      g_assert_cmpint (temp_folder_count (place->folder, "."), ==, 0);
    }
}

/* Sweeping takes orphans of the same name only, and none that another process is still writing. */
static void
test_sweeping (Place         *place,
               gconstpointer  data)
{
  g_autofree char *busy = g_build_filename (place->folder, ".room.xml.hwBUSY00", NULL);
  int fd;

  temp_folder_write (place->folder, ".room.xml.hwORPHAN", "", 0);
  temp_folder_write (place->folder, ".room.xml.hwnot-one-of-ours", "", 0);
  temp_folder_write (place->folder, ".other.xml.hwORPHAN", "", 0);
  temp_folder_write (place->folder, ".room.xml.hwBUSY00", "", 0);
  fd = g_open (busy, O_RDONLY | O_CLOEXEC, 0);
  g_assert_cmpint (flock (fd, LOCK_EX | LOCK_NB), ==, 0);
  save (place, NEW);
  assert_holds (place, ".room.xml.hwORPHAN", NULL);
  assert_holds (place, ".room.xml.hwnot-one-of-ours", "");
  assert_holds (place, ".other.xml.hwORPHAN", "");
  assert_holds (place, ".room.xml.hwBUSY00", "");
  close (fd);
}

/* A process that saves its text again and again; it ends with 1 when it cannot, or reads anything but a whole text. */
static pid_t
start_writer (const Place        *place,
              const char * const *texts,
              int                 own)
{
  pid_t child = fork ();

  if (child != 0)
    return child;
  for (int n = 0; n < 100; n++)
    {
      g_autofree char *now = NULL;
      if (!hw_save_bytes (place->path, texts[own], -1, NULL))
        _exit (1);
      now = temp_folder_read (place->folder, "room.xml");
      if (!g_strv_contains (texts, now))
        _exit (1);
    }
  _exit (0);
}

/* At every moment the file is one of theirs, whole. */
static void
test_two_writers (Place         *place,
                  gconstpointer  data)
{
  static const char * const texts[] = { "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa", "bbbb", NULL };
  pid_t children[2];

  save (place, texts[0]);
  for (int i = 0; i < 2; i++)
    children[i] = start_writer (place, texts, i);
  for (int i = 0; i < 2; i++)
    {
      int status = 0;
      g_assert_cmpint (waitpid (children[i], &status, 0), ==, children[i]);
      g_assert_cmpint (status, ==, 0);
    }
  save (place, NEW);
  g_assert_cmpint (temp_folder_count (place->folder, "."), ==, 0);
}

/* ---- only in place of what was there ---- */

/* Saves NEW in place of OLD. */
static void
save_over (const Place *place,
           gboolean     expected,
           gboolean     expected_changed)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *mark = hw_mark_bytes (OLD, strlen (OLD));
  gboolean changed = !expected_changed;

  g_assert_cmpint (hw_save_bytes_over (place->path, NEW, strlen (NEW), mark, &changed, &error), ==, expected);
  g_assert_no_error (error);
  g_assert_cmpint (changed, ==, expected_changed);
  g_assert_cmpint (temp_folder_count (place->folder, "."), ==, 0);
}

static void
test_over (Place         *place,
           gconstpointer  data)
{
  save (place, OLD);
  clear_faults ();
  save_over (place, TRUE, FALSE);
  g_assert_cmpstr (faults.log, ==, "write fsync-file link exchange fsync-folder ");
  assert_holds (place, "room.xml", NEW);
  assert_holds (place, "room.xml~", OLD);
}

/* A file that somebody removed is not in the way. */
static void
test_over_nothing (Place         *place,
                   gconstpointer  data)
{
  save_over (place, TRUE, FALSE);
  assert_holds (place, "room.xml", NEW);
}

static void
test_over_changed (Place         *place,
                   gconstpointer  data)
{
  save (place, "another's");
  clear_faults ();
  save_over (place, FALSE, TRUE);
  g_assert_cmpstr (faults.log, ==, "");
  assert_holds (place, "room.xml", "another's");
}

/* Another program knows no lock, and may write between the look and the change of places. */
static void
test_over_changed_meanwhile (Place         *place,
                             gconstpointer  data)
{
  save (place, OLD);
  clear_faults ();
  faults.meanwhile = "another's";
  save_over (place, FALSE, TRUE);
  g_assert_cmpstr (faults.log, ==, "write fsync-file link exchange rename ");
  assert_holds (place, "room.xml", "another's");
}

/* File systems where files cannot change places. */
static void
test_over_without_exchange (Place         *place,
                            gconstpointer  data)
{
  save (place, OLD);
  faults.fail_name = "exchange";
  faults.fail_errno = EINVAL;
  save_over (place, TRUE, FALSE);
  assert_holds (place, "room.xml", NEW);
}

static void
test_over_fails (Place         *place,
                 gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *mark = hw_mark_bytes (OLD, strlen (OLD));
  g_autofree char *lost = g_build_filename (place->folder, "lost.xml", NULL);
  gboolean changed = TRUE;

  save (place, OLD);
  faults.fail_name = "exchange";
  faults.fail_errno = EIO;
  g_assert_false (hw_save_bytes_over (place->path, NEW, strlen (NEW), mark, &changed, &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_IO);
  g_assert_false (changed);
  assert_holds (place, "room.xml", OLD);
  g_assert_cmpint (temp_folder_count (place->folder, "."), ==, 0);
  g_clear_error (&error);
  g_assert_cmpint (symlink ("nowhere", lost), ==, 0);
  g_assert_false (hw_save_bytes_over (lost, NEW, strlen (NEW), mark, &changed, &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_NOENT);
}

/* Adds one to the number in the file, @times times, reading it again whenever somebody else was first. FALSE: it could
 * not be read or saved. */
static gboolean
count_up (const char *path,
          int         times)
{
  for (int n = 0; n < times;)
    {
      g_autofree char *data = NULL;
      g_autofree char *mark = NULL;
      g_autofree char *next = NULL;
      gboolean changed = FALSE;
      gsize size = 0;

      if (!g_file_get_contents (path, &data, &size, NULL))
        return FALSE;
      mark = hw_mark_bytes (data, size);
      next = g_strdup_printf ("%d", atoi (data) + 1);
      if (hw_save_bytes_over (path, next, strlen (next), mark, &changed, NULL))
        n++;
      else if (!changed)
        return FALSE;
    }
  return TRUE;
}

/* Nobody writes over what another has just written: none of the counts is lost. */
static void
test_over_at_once (Place         *place,
                   gconstpointer  data)
{
  enum { WRITERS = 4, TIMES = 25 };
  g_autofree char *sum = NULL;
  pid_t children[WRITERS];

  save (place, "0");
  for (int i = 0; i < WRITERS; i++)
    if ((children[i] = fork ()) == 0)
      _exit (count_up (place->path, TIMES) ? 0 : 1);
  for (int i = 0; i < WRITERS; i++)
    {
      int status = 0;
      g_assert_cmpint (waitpid (children[i], &status, 0), ==, children[i]);
      g_assert_cmpint (status, ==, 0);
    }
  sum = g_strdup_printf ("%d", WRITERS * TIMES);
  assert_holds (place, "room.xml", sum);
}

/* ---- the lock ---- */

static void
test_lock (Place         *place,
           gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  HwLock *first = hw_lock_folder (place->folder, 0, &error);
  gint64 start;
  HwLock *second;

  g_assert_no_error (error);
  start = g_get_monotonic_time ();
  g_assert_null (hw_lock_folder (place->folder, 60, &error));
  g_assert_cmpint (g_get_monotonic_time () - start, >=, 60 * 1000);
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_AGAIN);
  g_assert_nonnull (strstr (error->message, place->folder));
  g_clear_error (&error);
  hw_lock_free (first);
  second = hw_lock_folder (place->folder, 0, &error);
  g_assert_no_error (error);
  hw_lock_free (second);
}

static void
test_lock_ends_with_process (Place         *place,
                             gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwLock) lock = NULL;
  static HwLock * volatile held;                /* reachable when the child ends, so no leak; and truly stored */
  int status = 0;
  pid_t child = fork ();

  if (child == 0)
    {
      held = hw_lock_folder (place->folder, 0, NULL);
      _exit (held != NULL ? 0 : 1);
    }
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_cmpint (status, ==, 0);
  lock = hw_lock_folder (place->folder, 0, &error);
  g_assert_no_error (error);
}

static void
test_lock_nowhere (Place         *place,
                   gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *nowhere = g_build_filename (place->folder, "absent", NULL);

  g_assert_null (hw_lock_folder (nowhere, 0, &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_NOENT);
}

/* The lock is on what stands there now: once the file was replaced, it is another's to take. */
static void
test_lock_of_file (Place         *place,
                   gconstpointer  data)
{
  g_autoptr (HwLock) first = NULL;
  g_autoptr (HwLock) second = NULL;

  g_assert_null (hw_lock_file (place->path, 0));
  save (place, OLD);
  first = hw_lock_file (place->path, 0);
  g_assert_nonnull (first);
  g_assert_null (hw_lock_file (place->path, 20));
  save (place, NEW);
  second = hw_lock_file (place->path, 0);
  g_assert_nonnull (second);
}

int
main (int    argc,
      char **argv)
{
  static const struct { const char *path; void (*test) (Place *place, gconstpointer data); } cases[] = {
    { "/save/new-file", test_new_file },
    { "/save/keeps-last-good", test_keeps_last_good },
    { "/save/size", test_size },
    { "/save/missing-folder", test_missing_folder },
    { "/save/order-of-calls", test_order_of_calls },
    { "/save/short-writes", test_short_writes },
    { "/save/permissions", test_permissions },
    { "/save/follows-link", test_follows_link },
    { "/save/refused", test_refused },
    { "/save/unwritable-folder", test_unwritable_folder },
    { "/save/read-only-file", test_read_only_file },
    { "/save/each-call-fails", test_each_call_fails },
    { "/save/no-links", test_no_links },
    { "/save/folder-cannot-sync", test_folder_cannot_sync },
    { "/save/each-crash", test_each_crash },
    { "/save/sweeping", test_sweeping },
    { "/save/two-writers", test_two_writers },
    { "/save/over", test_over },
    { "/save/over/nothing", test_over_nothing },
    { "/save/over/changed", test_over_changed },
    { "/save/over/changed-meanwhile", test_over_changed_meanwhile },
    { "/save/over/without-exchange", test_over_without_exchange },
    { "/save/over/fails", test_over_fails },
    { "/save/over/at-once", test_over_at_once },
    { "/lock/waits", test_lock },
    { "/lock/ends-with-process", test_lock_ends_with_process },
    { "/lock/nowhere", test_lock_nowhere },
    { "/lock/of-file", test_lock_of_file },
  };

  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    g_test_add (cases[i].path, Place, NULL, set_up, cases[i].test, tear_down);
  return g_test_run ();
}
