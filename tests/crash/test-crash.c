/* test-crash.c - whatever stops a change of the sewing room, the old or the new is there, whole
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A worker process makes one change. First every call by which it changes a file fails once in each way, or is the
 * last thing the process does. Then the calls of a change that went well are played back up to each of them, as a
 * power failure there may have left the disk. Last, a folder without rights, a disk without space, and two processes.
 */

#include "config.h"

#include "disk.h"
#include "files/save.h"
#include "model/room.h"
#include "temp-folder.h"

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mount.h>
#include <sys/wait.h>

#define ENTRY_BEFORE "2e3c1f5a-0000-4000-8000-000000000001"
#define MOST_CALLS 200

typedef struct
{
  const char *action;
  const char *file;                      /* the one it changes */
} Change;

static const Change changes[] = {
  { "project", "projects/cape.handwheel" },
  { "version", "versions/cape/20310503T140300Z-9c93f378.handwheel" },
  { "journal", "journal/lockstitch-2031.xml" },
  { "machine", "machines/lockstitch.xml" },
  { "needles", "needles.xml" },
  { "overlay", "handbook/own.xml" },
  { "threads", "threads.xml" },
  { "fabrics", "fabrics.xml" },
  { "preferences", "preferences.xml" },
};

typedef struct
{
  const Change *change;
  char *base, *folder, *played;          /* the room before; the one worked on; the one played back into */
  char *old_bytes, *new_bytes;           /* old: NULL where the file is new */
  char *rescue;                          /* where work that cannot be saved goes */
} Place;

static int n_points, n_failures, n_states;               /* over all changes */

/* ---- folders ---- */

static char *
read_file (const char *folder,
           const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  char *data = NULL;

  return g_file_get_contents (path, &data, NULL, NULL) ? data : NULL;
}

static void
furnish (const char *folder)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (HwRoom) next = NULL;
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_SEWING, "lockstitch");
  g_autoptr (HwProject) project = hw_project_new ("cape", "The cape");
  g_autofree char *cape = g_build_filename (folder, "projects", "cape.handwheel", NULL);
  g_autofree char *own = g_build_filename (folder, "handbook", "own.xml", NULL);

  hw_room_create (folder, &error);
  g_assert_no_error (error);
  room = hw_room_open (folder, &error);
  g_assert_no_error (error);
  g_free (entry->id);
  g_free (entry->time);
  entry->id = g_strdup (ENTRY_BEFORE);
  entry->time = g_strdup ("2031-05-09T14:00:00Z");
  entry->minutes = 30;
  next = hw_room_append (room, entry, &error);
  g_assert_no_error (error);
  hw_project_write (project, cape, &error);
  g_assert_no_error (error);
  hw_save_bytes (own, "<handbook xmlns=\"urn:handwheel:handbook:1\"/>\n", -1, &error);
  g_assert_no_error (error);
}

/* ---- the worker ---- */

typedef struct
{
  gboolean killed;
  int      status;
  char    *told;
} Outcome;

/* What the compiler's coverage adds where a worker without rights cannot add its counts; no words of ours. */
static char *
leave_counts_out (const char *told)
{
  g_autoptr (GRegex) counts = g_regex_new ("^(libgcov )?profiling( error)?:.*\\n", G_REGEX_MULTILINE, 0, NULL);

  return g_regex_replace_literal (counts, told, -1, 0, "", 0, NULL);
}

/* Runs it on the folder; @at 0: undisturbed. The text is the caller's. */
static Outcome
run_worker (const Place *place,
            int          at,
            const char  *how,
            const char  *log)
{
  g_autofree char *number = g_strdup_printf ("%d", at);
  const char *argv[] = { g_getenv ("CRASH_WORKER"), place->change->action, place->folder, NULL };
  g_auto (GStrv) env = g_get_environ ();
  g_autoptr (GError) error = NULL;
  g_autofree char *told = NULL;
  Outcome outcome = { FALSE, 0, NULL };
  int status = 0;

  env = g_environ_setenv (env, "CRASH_ROOT", place->folder, TRUE);
  env = g_environ_setenv (env, "HANDWHEEL_RESCUE", place->rescue, TRUE);
  if (at > 0)
    env = g_environ_setenv (g_environ_setenv (env, "CRASH_AT", number, TRUE), "CRASH_HOW", how, TRUE);
  if (log != NULL)
    env = g_environ_setenv (env, "CRASH_LOG", log, TRUE);
  g_spawn_sync (NULL, (char **) argv, env, G_SPAWN_DEFAULT, NULL, NULL, NULL, &told, &status, &error);
  g_assert_no_error (error);
  outcome.told = leave_counts_out (told);
  outcome.killed = WIFSIGNALED (status);
  outcome.status = WIFEXITED (status) ? WEXITSTATUS (status) : -1;
  return outcome;
}

static void
begin_anew (const Place *place)
{
  temp_folder_remove_tree (place->folder);
  temp_folder_copy_tree (place->base, place->folder);
}

/* ---- what must hold ---- */

/* The file is the old or the new one; the room with all the rest loads; nothing that was noted is lost. */
static void
assert_whole (const Place *place,
              const char  *folder)
{
  g_autofree char *bytes = read_file (folder, place->change->file);
  g_autofree char *cape = g_build_filename (folder, "projects", "cape.handwheel", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = hw_room_open (folder, &error);
  g_autoptr (HwProject) project = NULL;

  g_assert_no_error (error);
  if (g_strcmp0 (bytes, place->old_bytes) != 0)
    g_assert_cmpstr (bytes, ==, place->new_bytes);
  project = hw_project_read (cape, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (room->machines->len, ==, 2);
  g_assert_cmpuint (room->entries->len, >=, 1);
  g_assert_cmpstr (((HwJournalEntry *) g_ptr_array_index (room->entries, 0))->id, ==, ENTRY_BEFORE);
}

static int
count_temporaries (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  int n = 0;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        n += count_temporaries (path);
      else if (strstr (name, ".hw") != NULL && name[0] == '.')
        n++;
    }
  return n;
}

/* After whatever happened the same change can be made, and tidies up. An entry that is in the journal already is not
 * noted twice. */
static void
assert_goes_on (const Place *place)
{
  g_autofree char *before = read_file (place->folder, place->change->file);
  gboolean noted = g_strcmp0 (before, place->new_bytes) == 0 && strcmp (place->change->action, "journal") == 0;
  Outcome again = run_worker (place, 0, NULL, NULL);
  g_autofree char *after = read_file (place->folder, place->change->file);

  if (!noted)
    g_assert_cmpstr (again.told, ==, "");
  g_assert_cmpint (again.status, ==, noted ? 1 : 0);
  g_assert_cmpstr (after, ==, place->new_bytes);
  g_assert_cmpint (count_temporaries (place->folder), ==, 0);
  g_free (again.told);
}

static void
assert_told_in_a_line (const Outcome *outcome)
{
  const char *end = strchr (outcome->told, '\n');

  g_assert_cmpint (outcome->status, ==, 1);
  g_assert_nonnull (end);
  g_assert_cmpstr (end, ==, "\n");
}

/* What was not saved lies in the rescue folder, under the name that the message tells, and says what is new. */
static void
assert_rescued (const Place   *place,
                const Outcome *outcome,
                const char    *says)
{
  g_autoptr (GDir) dir = g_dir_open (place->rescue, 0, NULL);
  const char *name = g_dir_read_name (dir);
  g_autofree char *data = name != NULL ? read_file (place->rescue, name) : NULL;

  if (data == NULL)
    g_error ("nothing was kept: %s", outcome->told);
  g_assert_nonnull (strstr (outcome->told, name));
  g_assert_nonnull (strstr (data, says));
  g_assert_null (g_dir_read_name (dir));
}

static void
empty_rescue (const Place *place)
{
  temp_folder_remove_tree (place->rescue);
  g_assert_cmpint (g_mkdir (place->rescue, 0777), ==, 0);
  g_assert_cmpint (g_chmod (place->rescue, 0777), ==, 0);        /* whatever the umask */
}

/* A line of the new file that the old one does not have. */
static const char *
telling_words (const Change *change)
{
  static const struct { const char *action, *words; } all[] = {
    { "project", "The new title of the cape" }, { "journal", "2e3c1f5a-0000-4000-8000-000000000002" },
    { "machine", "speed=\"950\"" }, { "needles", "<needle " }, { "threads", "navy" }, { "fabrics", "Old sheets" },
    { "preferences", "hours-a-week=\"9\"" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (all); i++)
    if (strcmp (all[i].action, change->action) == 0)
      return all[i].words;
  return NULL;                           /* an overlay is a person's own file; a version that cannot be kept is told */
}

/* ---- the tests ---- */

static void
set_up (Place         *place,
        gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  Outcome outcome;

  place->change = data;
  place->base = g_dir_make_tmp ("crash-base-XXXXXX", &error);
  place->folder = g_dir_make_tmp ("crash-XXXXXX", &error);
  place->played = g_dir_make_tmp ("crash-played-XXXXXX", &error);
  place->rescue = g_dir_make_tmp ("crash-rescue-XXXXXX", &error);
  g_assert_no_error (error);
  furnish (place->base);
  begin_anew (place);
  place->old_bytes = read_file (place->folder, place->change->file);
  outcome = run_worker (place, 0, NULL, NULL);
  g_assert_cmpstr (outcome.told, ==, "");
  g_free (outcome.told);
  place->new_bytes = read_file (place->folder, place->change->file);
  g_assert_nonnull (place->new_bytes);
  g_assert_cmpstr (place->old_bytes, !=, place->new_bytes);
}

static void
tear_down (Place         *place,
           gconstpointer  data)
{
  temp_folder_remove_tree (place->base);
  temp_folder_remove_tree (place->folder);
  temp_folder_remove_tree (place->played);
  temp_folder_remove_tree (place->rescue);
  g_free (place->rescue);
  g_free (place->base);
  g_free (place->folder);
  g_free (place->played);
  g_free (place->old_bytes);
  g_free (place->new_bytes);
}

static int
interrupt_everywhere (const Place *place,
                      const char  *how)
{
  for (int at = 1; at < MOST_CALLS; at++)
    {
      Outcome outcome;
      gboolean undisturbed;

      begin_anew (place);
      outcome = run_worker (place, at, how, NULL);
      undisturbed = !outcome.killed && outcome.status == 0 && outcome.told[0] == '\0';
      if (!outcome.killed && !undisturbed)
        assert_told_in_a_line (&outcome);
      assert_whole (place, place->folder);
      assert_goes_on (place);
      g_free (outcome.told);
      if (undisturbed && strcmp (how, "kill") == 0)
        return at - 1;
    }
  g_assert_not_reached ();
}

static void
test_killed (Place         *place,
             gconstpointer  data)
{
  int points = interrupt_everywhere (place, "kill");

  n_points += points;
  g_test_message ("%s: killed at each of %d calls", place->change->action, points);
  g_assert_cmpint (points, >=, 5);
}

static void
test_failing (Place         *place,
              gconstpointer  data)
{
  static const char * const ways[] = { "ENOSPC", "EIO", "EROFS", "EDQUOT" };
  int points = interrupt_everywhere (place, "kill");

  for (gsize way = 0; way < G_N_ELEMENTS (ways); way++)
    for (int at = 1; at <= points; at++)
      {
        Outcome outcome;

        begin_anew (place);
        outcome = run_worker (place, at, ways[way], NULL);
        g_assert_false (outcome.killed);
        if (outcome.status != 0)
          {
            g_autofree char *bytes = read_file (place->folder, place->change->file);

            assert_told_in_a_line (&outcome);
            if (telling_words (place->change) != NULL && g_strcmp0 (bytes, place->new_bytes) != 0)
              assert_rescued (place, &outcome, telling_words (place->change));
          }
        empty_rescue (place);
        assert_whole (place, place->folder);
        assert_goes_on (place);
        g_free (outcome.told);
        n_failures++;
      }
  g_test_message ("%s: %d calls failed in %d ways", place->change->action, points, (int) G_N_ELEMENTS (ways));
}

static int
check_states (const Place *place,
              const Disk  *disk)
{
  int n = 0;

  for (DiskBytes bytes = DISK_SYNCED_ONLY; bytes < DISK_N_BYTES_KEPT; bytes++)
    for (guint names = 0; names <= disk_n_pending (disk); names++)
      {
        disk_write (disk, place->played, bytes, names);
        assert_whole (place, place->played);
        n++;
      }
  return n;
}

static void
test_power_failure (Place         *place,
                    gconstpointer  data)
{
  g_autofree char *log = g_strconcat (place->base, ".log", NULL);
  g_autofree char *calls = NULL;
  g_autoptr (Disk) disk = NULL;
  g_auto (GStrv) lines = NULL;
  Outcome outcome;
  int states = 0;

  begin_anew (place);
  disk = disk_new (place->folder);
  outcome = run_worker (place, 0, NULL, log);
  g_assert_cmpstr (outcome.told, ==, "");
  g_free (outcome.told);
  g_assert_true (g_file_get_contents (log, &calls, NULL, NULL));
  g_unlink (log);
  lines = g_strsplit (calls, "\n", -1);
  states += check_states (place, disk);
  for (char **line = lines; **line != '\0'; line++)
    {
      disk_play (disk, *line);
      states += check_states (place, disk);
    }
  g_test_message ("%s: %d states of the disk after a power failure", place->change->action, states);
  g_assert_cmpint (states, >=, 20);
  n_states += states;
  /* What was reported as done is done: nothing is pending, and the bytes on the disk are the new ones. */
  disk_write (disk, place->played, DISK_SYNCED_ONLY, 0);
  g_free (calls);
  calls = read_file (place->played, place->change->file);
  g_assert_cmpstr (calls, ==, place->new_bytes);
}

/* ---- nowhere to write ---- */

/* The folder and what is in it may be read only. */
static void
forbid_writing (const Place *place,
                gboolean     forbid)
{
  static const char * const folders[] = { ".", "projects", "journal", "machines", "handbook" };

  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++)
    {
      g_autofree char *path = g_build_filename (place->folder, folders[i], NULL);
      g_assert_cmpint (g_chmod (path, forbid ? 0555 : 0755), ==, 0);
    }
}

static void
test_no_rights (Place         *place,
                gconstpointer  data)
{
  Outcome outcome;

  begin_anew (place);
  empty_rescue (place);
  forbid_writing (place, TRUE);
  g_setenv ("WORKER_NOBODY", "1", TRUE);
  outcome = run_worker (place, 0, NULL, NULL);
  g_unsetenv ("WORKER_NOBODY");
  forbid_writing (place, FALSE);
  assert_told_in_a_line (&outcome);
  g_assert_nonnull (strstr (outcome.told, "ermission denied"));
  if (telling_words (place->change) != NULL)
    assert_rescued (place, &outcome, telling_words (place->change));
  assert_whole (place, place->folder);
  assert_goes_on (place);
  g_free (outcome.told);
}

/* As on a disk that is full everywhere: the program says so, and that it has nowhere to keep the work. */
static void
test_limited (Place         *place,
              gconstpointer  data)
{
  Outcome outcome;

  begin_anew (place);
  empty_rescue (place);
  g_setenv ("WORKER_FILE_SIZE", "10", TRUE);
  outcome = run_worker (place, 0, NULL, NULL);
  g_unsetenv ("WORKER_FILE_SIZE");
  assert_told_in_a_line (&outcome);
  if (telling_words (place->change) != NULL)
    g_assert_nonnull (strstr (outcome.told, "nor could what you did be kept anywhere else"));
  assert_whole (place, place->folder);
  assert_goes_on (place);
  g_free (outcome.told);
}

/* A file system of its own, with no room left; the rescue folder lies on another. */
static void
test_full_disk (Place         *place,
                gconstpointer  data)
{
  g_autofree char *filler = g_build_filename (place->folder, "filler", NULL);
  g_autofree char *much = g_malloc0 (1 << 20);
  Outcome outcome;
  FILE *file;

  temp_folder_remove_tree (place->folder);
  g_mkdir (place->folder, 0755);
  if (mount ("tmpfs", place->folder, "tmpfs", 0, "size=256k") != 0)
    {
      g_test_skip ("a file system of its own cannot be mounted here; the limit on file sizes stands in for it");
      return;
    }
  temp_folder_copy_tree (place->base, place->folder);
  empty_rescue (place);
  file = g_fopen (filler, "wb");
  setvbuf (file, NULL, _IONBF, 0);
  (void) !fwrite (much, 1, 1 << 20, file);
  fclose (file);
  outcome = run_worker (place, 0, NULL, NULL);
  assert_told_in_a_line (&outcome);
  g_assert_nonnull (strstr (outcome.told, "No space left"));
  if (telling_words (place->change) != NULL)
    assert_rescued (place, &outcome, telling_words (place->change));
  assert_whole (place, place->folder);
  g_unlink (filler);
  assert_goes_on (place);
  g_assert_cmpint (umount2 (place->folder, MNT_DETACH), ==, 0);
  g_free (outcome.told);
}

/* ---- two at once ---- */

static GSubprocess *
start_worker (const char *action,
              const char *folder)
{
  g_autoptr (GError) error = NULL;
  GSubprocess *worker = g_subprocess_new (G_SUBPROCESS_FLAGS_NONE, &error, g_getenv ("CRASH_WORKER"), action, folder,
                                          NULL);

  g_assert_no_error (error);
  return worker;
}

/* The different ids in the journal. */
static guint
count_entries (const char *folder)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = hw_room_open (folder, &error);

  g_assert_no_error (error);
  for (guint i = 0; i < room->entries->len; i++)
    g_hash_table_add (ids, ((HwJournalEntry *) g_ptr_array_index (room->entries, i))->id);
  return g_hash_table_size (ids);
}

/* Nobody waits for ever, and no session is lost. */
static void
log_at_once (Place      *place,
             guint       n_processes,
             const char *sessions)
{
  g_autoptr (GPtrArray) workers = g_ptr_array_new_with_free_func (g_object_unref);
  guint expected = n_processes * (guint) atoi (sessions);
  guint before;

  begin_anew (place);
  before = count_entries (place->folder);
  g_setenv ("WORKER_SESSIONS", sessions, TRUE);
  for (guint i = 0; i < n_processes; i++)
    g_ptr_array_add (workers, start_worker ("sessions", place->folder));
  g_unsetenv ("WORKER_SESSIONS");
  for (guint i = 0; i < n_processes; i++)
    {
      g_autoptr (GError) error = NULL;

      g_subprocess_wait_check (g_ptr_array_index (workers, i), NULL, &error);
      g_assert_no_error (error);
    }
  g_assert_cmpuint (count_entries (place->folder), ==, before + expected);
  g_test_message ("%u processes, %s sessions each: %u in the journal", n_processes, sessions, expected);
}

static void
test_two_at_once (Place         *place,
                  gconstpointer  data)
{
  log_at_once (place, 2, "1000");
}

static void
test_four_at_once (Place         *place,
                   gconstpointer  data)
{
  log_at_once (place, 4, "250");
}

static void
test_stale_lock (Place         *place,
                 gconstpointer  data)
{
  g_autoptr (GSubprocess) dead = NULL;
  g_autofree char *lock = g_build_filename (place->folder, ".lock", NULL);

  begin_anew (place);
  dead = start_worker ("die-with-lock", place->folder);
  g_assert_true (g_subprocess_wait (dead, NULL, NULL));
  g_assert_true (g_subprocess_get_if_signaled (dead));
  g_assert_true (g_file_test (lock, G_FILE_TEST_EXISTS));
  assert_goes_on (place);
}

int
main (int    argc,
      char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (changes); i++)
    {
      g_autofree char *killed = g_strdup_printf ("/crash/killed/%s", changes[i].action);
      g_autofree char *failing = g_strdup_printf ("/crash/failing/%s", changes[i].action);
      g_autofree char *rights = g_strdup_printf ("/crash/no-rights/%s", changes[i].action);
      g_autofree char *limited = g_strdup_printf ("/crash/no-space/%s", changes[i].action);
      g_autofree char *full = g_strdup_printf ("/crash/full-disk/%s", changes[i].action);
      g_autofree char *power = g_strdup_printf ("/crash/power-failure/%s", changes[i].action);

      g_test_add (killed, Place, &changes[i], set_up, test_killed, tear_down);
      g_test_add (failing, Place, &changes[i], set_up, test_failing, tear_down);
      g_test_add (power, Place, &changes[i], set_up, test_power_failure, tear_down);
      g_test_add (rights, Place, &changes[i], set_up, test_no_rights, tear_down);
      g_test_add (limited, Place, &changes[i], set_up, test_limited, tear_down);
      g_test_add (full, Place, &changes[i], set_up, test_full_disk, tear_down);
    }
  g_test_add ("/crash/two-at-once", Place, &changes[1], set_up, test_two_at_once, tear_down);
  g_test_add ("/crash/four-at-once", Place, &changes[1], set_up, test_four_at_once, tear_down);
  g_test_add ("/crash/stale-lock", Place, &changes[1], set_up, test_stale_lock, tear_down);
  status = g_test_run ();
  g_print ("# %d fault points, killed at each and failing in %d ways; %d states of the disk after a power failure\n",
           n_points, n_failures, n_states);
  return status;
}
