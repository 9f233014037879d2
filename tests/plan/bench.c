/* bench.c - a room of our own defaults, written to a folder, so that entries can be appended as the program does
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "bench.h"

#include "temp-folder.h"
#include "workroom.h"

void
bench_open (Bench *self)
{
  g_autoptr (GError) error = NULL;

  self->folder = temp_folder_new ();
  self->handbook = workroom_handbook ();
  hw_room_create (self->folder, &error);
  g_assert_no_error (error);
  self->room = hw_room_open (self->folder, &error);
  g_assert_no_error (error);
}

void
bench_close (Bench *self)
{
  g_clear_pointer (&self->plan, hw_plan_unref);
  g_clear_pointer (&self->project, hw_project_unref);
  hw_room_unref (self->room);
  hw_handbook_unref (self->handbook);
  temp_folder_remove (self->folder);
}

const HwMachine *
bench_machine (const Bench *self)
{
  return hw_room_find_machine (self->room, BENCH_MACHINE);
}

void
bench_set_time (Bench *self, HwJournalEntry *entry)
{
  g_free (entry->time);
  self->n_entries++;
  entry->time = g_strdup_printf ("2031-05-%02uT%02u:00:00Z", 1 + self->n_entries / 24, self->n_entries % 24);
}

void
bench_append (Bench *self, HwJournalEntry *entry)
{
  g_autoptr (GError) error = NULL;
  HwRoom *next = hw_room_append (self->room, entry, &error);

  g_assert_no_error (error);
  hw_room_unref (self->room);
  self->room = next;
  hw_journal_entry_free (entry);
}
