/* disk.h - what a disk may hold after the power failed
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A folder of files as it was before, and the calls made since (as calls.c notes them). Bytes that were not brought to
 * the disk by a sync of their file may be there, in part or not at all; names that were not by a sync of their folder
 * may be there up to any one of them: file systems with a journal keep the order of names.
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

typedef struct _Disk Disk;

typedef enum { DISK_SYNCED_ONLY, DISK_HALF, DISK_ALL, DISK_N_BYTES_KEPT } DiskBytes;

Disk *disk_new       (const char *folder);            /* reads all files below it */
void  disk_free      (Disk *self);
/* One line of the log. */
void  disk_play      (Disk *self, const char *line);
/* How many names were changed since the last sync of their folder. */
guint disk_n_pending (const Disk *self);
/* Writes below @folder, which is emptied first, the state with @n_names of the pending names taken. */
void  disk_write     (const Disk *self, const char *folder, DiskBytes bytes, guint n_names);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Disk, disk_free)

G_END_DECLS
