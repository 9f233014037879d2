/* worker.c - makes one change to a sewing room, for the test to interrupt
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * worker ACTION FOLDER: exit 0 done, 1 with one line on stderr.
 */

#include "config.h"

#include "files/save.h"
#include "model/room.h"

#include <string.h>

static gboolean
save_project (const char *folder,
              GError    **error)
{
  g_autofree char *path = g_build_filename (folder, "projects", "cape.handwheel", NULL);
  g_autoptr (HwProject) project = hw_project_new ("cape", "The new title of the cape");

  return hw_project_write (project, path, error);
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
  { "journal", append_entry },
  { "machine", save_machine },
  { "needles", save_case },
  { "overlay", save_overlay },
};

int
main (int    argc,
      char **argv)
{
  g_autoptr (GError) error = NULL;

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
