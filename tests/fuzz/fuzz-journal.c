/* fuzz-journal.c - any bytes as a journal file of a sewing room
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "files/xml.h"
#include "model/room.h"
#include "target.h"
#include "temp-folder.h"

#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>

static char *folder;

static void
remove_folder (void)
{
  temp_folder_remove (g_steal_pointer (&folder));
}

/* A first room, with the one journal that is written over again and again. */
static const char *
get_folder (void)
{
  if (folder != NULL)
    return folder;
  folder = temp_folder_new ();
  g_assert (hw_room_create (folder, NULL));
  atexit (remove_folder);
  return folder;
}

static void
check_room (const HwRoom *room)
{
  for (guint i = 1; i < room->entries->len; i++)
    {
      const HwJournalEntry *before = g_ptr_array_index (room->entries, i - 1);
      const HwJournalEntry *entry = g_ptr_array_index (room->entries, i);
      g_assert (strcmp (before->time, entry->time) <= 0);
    }
  for (guint i = 0; i < room->machines->len; i++)
    {
      const HwMachineState *state = &room->states[i];
      g_assert (state->at_machine_hours >= 0 && state->running_hours >= 0);
      g_assert (state->needle == NULL || !state->needle->discarded);
    }
}

int
LLVMFuzzerTestOneInput (const guint8 *data,
                        gsize         size)
{
  g_autofree char *path = g_build_filename (get_folder (), "journal", "lockstitch-2031.xml", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = NULL;

  g_assert (g_file_set_contents_full (path, (const char *) data, (gssize) size, G_FILE_SET_CONTENTS_NONE, 0600, NULL));
  room = hw_room_open (get_folder (), &error);
  g_assert ((room == NULL) == (error != NULL));
  if (room != NULL)
    check_room (room);
  else
    {
      g_assert (error->domain == HW_XML_ERROR || error->domain == HW_MODEL_ERROR);
      g_assert (strchr (error->message, '\n') == NULL);
      g_assert (g_str_has_prefix (error->message, "lockstitch-2031.xml:"));
    }
  g_unlink (path);
  return 0;
}
