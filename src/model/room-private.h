/* room-private.h - what the parts of the sewing room share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "model/room.h"
#include "files/save.h"
#include "files/xml.h"

G_BEGIN_DECLS

#define HW_MACHINE_MAX_BYTES (1u << 20)
#define HW_LIST_MAX_BYTES (4u << 20)
#define HW_JOURNAL_MAX_BYTES (64u << 20)

extern const char * const hw_dial_form_ids[];

/* Machines */
gboolean   hw_machine_check_id   (const char *id, GError **error);       /* it is part of file names */
HwMachine *hw_machine_read       (const char *path, GError **error);
gboolean   hw_machine_save       (const HwMachine *self, const char *folder, GError **error);
void       hw_machine_rescue    (const HwMachine *self, GError **error); /* as hw_list_rescue() */
int        hw_machine_compare    (gconstpointer a, gconstpointer b);     /* of pointers to pointers: by id */

/* A file of things with ids; each thing begins with a "char *id". */
typedef struct
{
  const char    *name;                   /* of the file */
  const char    *root;
  const char    *element;
  gpointer     (*read)  (const HwXml *xml, const xmlNode *node, GHashTable *seen, GError **error);
  void         (*write) (HwXmlWriter *writer, gconstpointer item);
  GDestroyNotify free;
} HwListFile;
extern const HwListFile hw_packets_file, hw_spools_file, hw_cloths_file;

/* Adds what the file holds to @items; nothing when it is missing. */
gboolean   hw_list_read   (const HwListFile *file, const char *folder, GPtrArray *items, GError **error);
gboolean   hw_list_save   (const HwListFile *file, const char *folder, const GPtrArray *items, GError **error);
/* Keeps what was to stand in the file where nothing can be written; told in @error. */
void       hw_list_rescue (const HwListFile *file, const GPtrArray *items, GError **error);
/* (transfer full): copies of @items as they would be read again; NULL with what the reader refuses. */
GPtrArray *hw_list_reread (const HwListFile *file, const GPtrArray *items, GError **error);
gboolean   hw_list_is_equal (const HwListFile *file, const GPtrArray *a, const GPtrArray *b);     /* order and all */
/* (transfer container): what is to stand in the file when @before became @mine here and @theirs elsewhere. */
GPtrArray *hw_list_merge  (const HwListFile *file, const GPtrArray *before, const GPtrArray *mine,
                           const GPtrArray *theirs, GError **error);
void       hw_room_refuse_changed (const char *file, const char *id, GError **error);

/* The same of preferences.xml; @mine becomes what is to stand there. */
HwPreferences *hw_preferences_read   (const char *folder, GError **error);
HwPreferences *hw_preferences_reread (const HwPreferences *self, GError **error);
gboolean       hw_preferences_save   (const HwPreferences *self, const char *folder, GError **error);
gboolean       hw_preferences_is_equal (const HwPreferences *a, const HwPreferences *b);
void           hw_preferences_rescue (const HwPreferences *self, GError **error);       /* as hw_list_rescue() */
gboolean       hw_preferences_merge  (const HwPreferences *before, HwPreferences *mine, const HwPreferences *theirs,
                                      GError **error);

/* Files: reading */
gboolean   hw_room_read_machines (HwRoom *self, GError **error);
gboolean   hw_room_read_journals (HwRoom *self, GError **error);
/* Adds the entries of one journal file, its bytes called @name in messages, to @entries. @machine: whose it must be,
 * NULL any. */
gboolean   hw_journal_read       (const char *name, const char *bytes, gsize size, const char *machine,
                                  GPtrArray *entries, GError **error);
/* The same of a file that is plainly good, much faster; FALSE, with @entries as they were, where it is not. */
gboolean   hw_journal_read_plain (const char *bytes, gsize size, const char *machine, GPtrArray *entries);
/* (transfer full): sorted names in FOLDER/NAME that end in ".xml"; none when it is missing. NULL with @error. */
GPtrArray *hw_room_list_files    (const char *folder, const char *name, GError **error);

/* Files: writing */
char      *hw_machine_to_xml     (const HwMachine *self, gsize *size);
char      *hw_journal_to_xml     (const char *machine, int year, const GPtrArray *entries, gsize *size);
/* (transfer full): @bytes, which were read as a journal, with @added at its end and everything else as it was; NULL
 * when it does not end as we write it. */
char      *hw_journal_add_xml    (const char *bytes, gsize length, const char *machine, int year,
                                  const GPtrArray *added, gsize *size);
/* Machines and needle case; the lock is held. */
gboolean   hw_room_furnish       (const HwRoom *self, GError **error);
gboolean   hw_room_has_machines  (const char *folder, gboolean *has, GError **error);
HwLock    *hw_room_lock          (const char *folder, GError **error);   /* makes the folder when it is missing */

/* Entries are shared by snapshots, counted, and do not change once they are in one. */
HwJournalEntry *hw_journal_entry_alloc (HwEntryKind kind);
/* Its texts are to be laid into the @text_size bytes (zero) that follow the struct. */
HwJournalEntry *hw_journal_entry_alloc_packed (HwEntryKind kind, gsize text_size);
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

/* What the journal adds up to, besides needles and states. */

/* One machine's sewing since a task of care was last done on it (@task NULL: since the beginning). */
typedef struct
{
  char       *task;
  const char *since;                     /* time of that entry, or of the machine's first one; borrowed. May be NULL */
  double      minutes, running;
  double      lint_minutes, lint_running;          /* each times the cloth's lint factor */
  int         days;                      /* of the calendar (UTC) with sewing */
  const char *last_day;                  /* time of the last sewing; borrowed */
} HwCareSum;

typedef struct { const char *time; double metres; } HwSpoolUse;   /* time: borrowed */

/* Of log (actual / planned). */
typedef struct { double sum; int n; } HwPaceSum;

typedef struct _HwRoomSums
{
  GPtrArray  *care;                      /* (element-type GArray of HwCareSum): one a machine, the beginning first */
  GHashTable *threads;                   /* label -> GArray of HwSpoolUse, by time */
  GHashTable *paces;                     /* purpose -> HwPaceSum */
  HwPaceSum   pace;                      /* of all purposes */
} HwRoomSums;

HwRoomSums *hw_room_sums_new   (const HwRoom *room);      /* of no entries */
HwRoomSums *hw_room_sums_copy  (const HwRoomSums *self, const GPtrArray *added);
HwRoomSums *hw_room_sums_ref   (HwRoomSums *self);
void        hw_room_sums_unref (HwRoomSums *self);
/* @machine: index of the entry's in the room, -1 none. Entries come in the order of time. */
void        hw_room_sums_begin (HwRoomSums *self, int machine, const HwJournalEntry *entry);   /* cancelled ones too */
void        hw_room_sums_add   (HwRoomSums *self, int machine, const HwJournalEntry *entry);
/* Whether its minutes were measured, and long enough to tell of a pace. */
gboolean    hw_room_sums_tells_pace (const HwJournalEntry *entry);
/* Of the last time that @task was done on the machine of that index. Never NULL. */
const HwCareSum *hw_room_sums_care (const HwRoomSums *self, gsize machine, const char *task);

/* Entries of a snapshot: "known" and "recent" own them, "entries" has them in the order of time, those of the same
 * second by machine and then in the order of their file. */
void       hw_room_begin_entries (HwRoom *self);                         /* with none */
void       hw_room_share_entries (HwRoom *self, const HwRoom *other);
void       hw_room_drop_entries  (HwRoom *self);
void       hw_room_set_entries   (HwRoom *self, const GPtrArray *entries);       /* in place of those it had */
void       hw_room_sort_entries  (HwRoom *self);
const HwJournalEntry *hw_room_find_entry (const HwRoom *self, const char *id);   /* NULL unknown */
HwRoom    *hw_room_extend        (const HwRoom *self, const GPtrArray *added);

/* Snapshots */
HwBeliefs *hw_beliefs_new        (void);
void       hw_beliefs_free       (HwBeliefs *self);
HwRoom    *hw_room_alloc         (const char *folder);
/* (transfer full): one that shares everything with @self, to have a part replaced. */
HwRoom    *hw_room_share         (const HwRoom *self);
/* Fills in what follows from machines and entries, which are sorted. */
void       hw_room_derive        (HwRoom *self);
void       hw_room_derive_more   (HwRoom *self, const GPtrArray *added);
void       hw_room_clear_derived (HwRoom *self);
/* Index of the machine in @self, -1 unknown. */
int        hw_room_machine_index (const HwRoom *self, const char *id);

G_END_DECLS
