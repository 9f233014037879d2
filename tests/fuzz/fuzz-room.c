/* fuzz-room.c - any bytes as a file of a sewing room
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which file they are is said by the first element's name that they hold: a machine, a list, the preferences, else a
 * journal.
 */

#define _GNU_SOURCE                      /* memmem */
#include "config.h"

#include "files/xml.h"
#include "model/room.h"
#include "target.h"
#include "temp-folder.h"

#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>

static const struct
{
  const char *root;
  const char *file;
} kinds[] = {
  { "<machine", "machines/fuzzed.xml" },
  { "<needles", "needles.xml" },
  { "<threads", "threads.xml" },
  { "<fabrics", "fabrics.xml" },
  { "<preferences", "preferences.xml" },
  { "<journal", "journal/lockstitch-2031.xml" },
};

static char *folder;

static void
remove_folder (void)
{
  temp_folder_remove (g_steal_pointer (&folder));
}

/* A first room, with the one file that is written over again and again. */
static const char *
get_folder (void)
{
  g_autofree char *journal = NULL;

  if (folder != NULL)
    return folder;
  folder = temp_folder_new ();
  g_assert (hw_room_create (folder, NULL));
  journal = g_build_filename (folder, "journal", NULL);
  g_mkdir (journal, 0700);
  atexit (remove_folder);
  return folder;
}

static const char *
choose_file (const guint8 *data,
             gsize         size)
{
  const char *file = kinds[G_N_ELEMENTS (kinds) - 1].file;
  const guint8 *first = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      const guint8 *at = memmem (data, size, kinds[i].root, strlen (kinds[i].root));

      if (at != NULL && (first == NULL || at < first))
        {
          first = at;
          file = kinds[i].file;
        }
    }
  return file;
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
      g_assert (hw_machine_check (g_ptr_array_index (room->machines, i), NULL));
    }
}

int
LLVMFuzzerTestOneInput (const guint8 *data,
                        gsize         size)
{
  const char *file = choose_file (data, size);
  g_autofree char *path = g_build_filename (get_folder (), file, NULL);
  g_autofree char *base = g_path_get_basename (file);
  g_autofree char *kept = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = NULL;
  gsize kept_size = 0;

  g_file_get_contents (path, &kept, &kept_size, NULL);
  g_assert (g_file_set_contents_full (path, (const char *) data, (gssize) size, G_FILE_SET_CONTENTS_NONE, 0600, NULL));
  room = hw_room_open (get_folder (), &error);
  g_assert ((room == NULL) == (error != NULL));
  if (room != NULL)
    check_room (room);
  else
    {
      g_assert (error->domain == HW_XML_ERROR || error->domain == HW_MODEL_ERROR);
      g_assert (g_utf8_validate (error->message, -1, NULL));
      g_assert (strchr (error->message, '\n') == NULL);
      g_assert (g_str_has_prefix (error->message, base) && error->message[strlen (base)] == ':');
    }
  g_unlink (path);
  if (kept != NULL)
    g_assert (g_file_set_contents_full (path, kept, (gssize) kept_size, G_FILE_SET_CONTENTS_NONE, 0600, NULL));
  return 0;
}
