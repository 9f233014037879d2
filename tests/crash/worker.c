/* worker.c - makes one change to a sewing room, for the test to interrupt
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * worker ACTION FOLDER: exit 0 done, 1 with one line on stderr. WORKER_NOBODY in the environment: as a person without
 * rights. WORKER_FILE_SIZE: no file may grow beyond so many bytes. WORKER_SESSIONS: how many sessions "sessions" logs.
 */

#include "config.h"

#include "files/save.h"
#include "model/room.h"
#include "model/versions.h"

#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

static gboolean
save_project (const char *folder,
              GError    **error)
{
  g_autofree char *path = g_build_filename (folder, "projects", "cape.handwheel", NULL);
  g_autoptr (HwProject) project = hw_project_new ("cape", "The new title of the cape");
  HwProjectPlace place = { NULL, NULL };
  gboolean done;

  hw_project_place_look (&place, path);
  done = hw_project_save (project, path, &place, error);
  hw_project_place_clear (&place);
  return done;
}

static gboolean
keep_version (const char *folder,
              GError    **error)
{
  g_autoptr (HwProject) project = hw_project_new ("cape", "The cape before it was changed");

  return hw_versions_keep (folder, project, 1935583380, error);
}

static gboolean
append_entry (const char *folder,
              GError    **error)
{
  g_autoptr (HwRoom) room = hw_room_open (folder, error);
  g_autoptr (HwRoom) next = NULL;
  g_autoptr (HwJournalEntry) entry = NULL;

  if (room == NULL)
    return FALSE;
  entry = hw_journal_entry_new (HW_ENTRY_SEWING, "lockstitch");
  g_free (entry->id);
  g_free (entry->time);
  entry->id = g_strdup ("2e3c1f5a-0000-4000-8000-000000000002");
  entry->time = g_strdup ("2031-05-09T15:00:00Z");
  entry->minutes = 12;
  next = hw_room_append (room, entry, error);
  return next != NULL;
}

static gboolean
save_machine (const char *folder,
              GError    **error)
{
  g_autoptr (HwRoom) room = hw_room_open (folder, error);
  g_autoptr (HwRoom) next = NULL;
  HwMachine machine;

  if (room == NULL)
    return FALSE;
  machine = *hw_room_find_machine (room, "lockstitch");
  machine.speed_spm = 950;
  next = hw_room_with_machine (room, &machine, error);
  return next != NULL;
}

static gboolean
save_case (const char *folder,
           GError    **error)
{
  g_autoptr (HwRoom) room = hw_room_open (folder, error);
  g_autoptr (HwRoom) next = NULL;
  g_autoptr (GPtrArray) packets = NULL;

  if (room == NULL)
    return FALSE;
  packets = g_ptr_array_new ();
  g_ptr_array_add (packets, g_ptr_array_index (room->packets, 0));
  next = hw_room_with_packets (room, packets, error);
  return next != NULL;
}

static gboolean
save_shelf (const char *folder,
            GError    **error)
{
  g_autoptr (HwRoom) room = hw_room_open (folder, error);
  g_autoptr (HwRoom) next = NULL;
  g_autoptr (HwSpool) spool = hw_spool_new ("navy", "polyester-27", "navy");
  g_autoptr (GPtrArray) spools = g_ptr_array_new ();

  if (room == NULL)
    return FALSE;
  spool->metres = 500;
  g_free (spool->counted);
  spool->counted = g_strdup ("2031-05-09T15:00:00Z");
  g_ptr_array_add (spools, spool);
  next = hw_room_with_spools (room, spools, error);
  return next != NULL;
}

static gboolean
save_cloths (const char *folder,
             GError    **error)
{
  g_autoptr (HwRoom) room = hw_room_open (folder, error);
  g_autoptr (HwRoom) next = NULL;
  g_autoptr (HwShelfCloth) cloth = hw_shelf_cloth_new ("sheet", "Old sheets");
  g_autoptr (GPtrArray) cloths = g_ptr_array_new ();

  if (room == NULL)
    return FALSE;
  g_free (cloth->handbook);
  cloth->handbook = g_strdup ("muslin");
  g_ptr_array_add (cloths, cloth);
  next = hw_room_with_cloths (room, cloths, error);
  return next != NULL;
}

static gboolean
save_preferences (const char *folder,
                  GError    **error)
{
  g_autoptr (HwRoom) room = hw_room_open (folder, error);
  g_autoptr (HwRoom) next = NULL;
  g_autoptr (HwPreferences) preferences = NULL;

  if (room == NULL)
    return FALSE;
  preferences = hw_preferences_copy (room->preferences);
  preferences->hours_a_week = 9;
  next = hw_room_with_preferences (room, preferences, error);
  return next != NULL;
}

/* Many sessions, one by one, as a person with the room open all day. */
static gboolean
log_sessions (const char *folder,
              GError    **error)
{
  HwRoom *room = hw_room_open (folder, error);
  int n = atoi (g_getenv ("WORKER_SESSIONS"));

  for (int i = 0; room != NULL && i < n; i++)
    {
      g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_SEWING, "lockstitch");
      HwRoom *next;

      g_free (entry->time);
      entry->time = g_strdup_printf ("2031-05-10T%02d:%02d:%02dZ", i / 3600, i / 60 % 60, i % 60);
      entry->minutes = 1;
      next = hw_room_append (room, entry, error);
      hw_room_unref (room);
      room = next;
    }
  if (room == NULL)
    return FALSE;
  hw_room_unref (room);
  return TRUE;
}

/* Takes the lock and dies with it. */
static gboolean
die_with_lock (const char *folder,
               GError    **error)
{
  HwLock *lock = hw_lock_folder (folder, 0, error);

  if (lock != NULL)
    kill (getpid (), SIGKILL);
  return FALSE;
}

static gboolean
save_overlay (const char *folder,
              GError    **error)
{
  g_autofree char *path = g_build_filename (folder, "handbook", "own.xml", NULL);

  return hw_save_bytes (path, "<handbook xmlns=\"urn:handwheel:handbook:1\"><!-- new --></handbook>\n", -1, error);
}

static const struct
{
  const char *name;
  gboolean (* run) (const char *folder, GError **error);
} actions[] = {
  { "project", save_project },
  { "version", keep_version },
  { "journal", append_entry },
  { "machine", save_machine },
  { "needles", save_case },
  { "overlay", save_overlay },
  { "threads", save_shelf },
  { "fabrics", save_cloths },
  { "preferences", save_preferences },
  { "sessions", log_sessions },
  { "die-with-lock", die_with_lock },
};

static void
limit_file_size (const char *bytes)
{
  struct rlimit limit = { (rlim_t) atoi (bytes), (rlim_t) atoi (bytes) };

  signal (SIGXFSZ, SIG_IGN);                             /* the write fails instead */
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &limit), ==, 0);
}

/* Root may write everywhere. */
static void
become_nobody (void)
{
  if (geteuid () != 0)
    return;
  g_assert_cmpint (setgid (65534), ==, 0);
  g_assert_cmpint (setuid (65534), ==, 0);
}

int
main (int    argc,
      char **argv)
{
  g_autoptr (GError) error = NULL;

  if (g_getenv ("WORKER_NOBODY") != NULL)
    become_nobody ();
  if (g_getenv ("WORKER_FILE_SIZE") != NULL)
    limit_file_size (g_getenv ("WORKER_FILE_SIZE"));
  for (gsize i = 0; argc == 3 && i < G_N_ELEMENTS (actions); i++)
    if (strcmp (actions[i].name, argv[1]) == 0)
      {
        if (actions[i].run (argv[2], &error))
          return 0;
        g_printerr ("%s\n", error->message);
        return 1;
      }
  g_printerr ("worker ACTION FOLDER\n");
  return 2;
}
