/* room-private.h - what the parts of the sewing room share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "model/room.h"
#include "files/save.h"

G_BEGIN_DECLS

#define HW_MACHINE_MAX_BYTES (1u << 20)
#define HW_NEEDLES_MAX_BYTES (4u << 20)
#define HW_JOURNAL_MAX_BYTES (64u << 20)
#define HW_HAND "hand"                   /* stands for the machine where work is by hand */

extern const char * const hw_dial_form_ids[];

/* Machines and packets */
HwMachine *hw_machine_new        (const char *id, const char *name, HwMachineKind kind);
void       hw_machine_free       (HwMachine *self);
gboolean   hw_machine_check_id   (const char *id, GError **error);       /* it is part of file names */
void       hw_packet_free        (HwPacket *self);
gboolean   hw_machine_check      (const HwMachine *self, GError **error);
gboolean   hw_packets_check      (const GPtrArray *packets, GError **error);
int        hw_machine_compare    (gconstpointer a, gconstpointer b);     /* of pointers to pointers: by id */

/* Files: reading */
gboolean   hw_room_read_machines (HwRoom *self, GError **error);
gboolean   hw_room_read_packets  (HwRoom *self, GError **error);
gboolean   hw_room_read_journals (HwRoom *self, GError **error);
/* Adds the entries of one journal file to @entries. @machine: whose it must be, NULL any. */
gboolean   hw_journal_read       (const char *path, const char *machine, GPtrArray *entries, GError **error);
/* (transfer full): sorted names in FOLDER/NAME that end in ".xml"; none when it is missing. NULL with @error. */
GPtrArray *hw_room_list_files    (const char *folder, const char *name, GError **error);

/* Files: writing */
char      *hw_machine_to_xml     (const HwMachine *self, gsize *size);
char      *hw_packets_to_xml     (const GPtrArray *packets, gsize *size);
char      *hw_journal_to_xml     (const char *machine, int year, const GPtrArray *entries, gsize *size);
/* Machines and needle case; the lock is held. */
gboolean   hw_room_furnish       (const HwRoom *self, GError **error);
gboolean   hw_room_has_machines  (const char *folder, gboolean *has, GError **error);
HwLock    *hw_room_lock          (const char *folder, GError **error);   /* makes the folder when it is missing */

/* Entries are shared by snapshots, counted, and do not change once they are in one. */
HwJournalEntry *hw_journal_entry_alloc (HwEntryKind kind);
gboolean   hw_journal_entry_check      (const HwJournalEntry *self, GError **error);
gboolean   hw_journal_entry_is_equal   (const HwJournalEntry *a, const HwJournalEntry *b);

/* What an entry of each kind holds besides id and time, in the order in which it is written. */
typedef enum { HW_ENTRY_TEXT, HW_ENTRY_NUMBER, HW_ENTRY_INT } HwEntryFieldType;
typedef struct
{
  const char      *attribute;
  HwEntryFieldType type;
  gsize            offset;
  guint            kinds;                /* 1u << HwEntryKind: may have it */
  guint            required;             /* must have it */
  double           low, high;            /* numbers */
  double           ordinary;             /* numbers: left out at this value unless required */
} HwEntryField;
extern const HwEntryField hw_entry_fields[];
extern const gsize        hw_n_entry_fields;

/* (transfer full): any ISO 8601 time as "2031-05-09T14:03:00Z", so that times sort as text; NULL when it is none. */
char      *hw_time_normalise     (const char *time);

/* Snapshots */
HwRoom    *hw_room_alloc         (const char *folder);
/* Sorts the entries and fills in what is derived. */
void       hw_room_derive        (HwRoom *self);
void       hw_room_clear_derived (HwRoom *self);

G_END_DECLS
