/* room.h - the sewing room: machines, needle case, journal
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A folder:   machines/ID.xml   needles.xml   threads.xml   fabrics.xml   preferences.xml
 *             journal/MACHINE-YEAR.xml   projects/NAME.handwheel
 * (hand steps go to journal/hand-YEAR.xml). What was done stands in the journal alone; loaded needles,
 * hours, clocks and done steps are derived from it when the room is opened and after each entry.
 */

#pragma once
#include "model/preferences.h"
#include "model/project.h"
#include "model/shelf.h"
#include "handbook/handbook.h"

G_BEGIN_DECLS

#define HW_ROOM_NS "urn:handwheel:room:1"

typedef enum { HW_DIAL_EDGE_WHEEL, HW_DIAL_KNOB, HW_DIAL_NUMBER } HwDialForm;
typedef enum { HW_HOOK_FRONT, HW_HOOK_TOP } HwHook;      /* where a lockstitch machine's bobbin goes in */
extern const char * const hw_hook_ids[];

/* machines/ID.xml: <machine xmlns id name kind system dial="edge-wheel|knob|number" dial-low dial-high dial-neutral
 *   length-max width-max plate-opening foot-lift speed bobbin-cm3="2.2" hook="front|top" needle-flat="back"
 *   start-hours="0" start-running="0" learned-from="ID">
 *   <stitch id="301" own="1"/>*  <foot id/>*  <plate id/>*  <care id limit=""/>*   (limit by its own manual; 0 = never)
 * </machine> */
typedef struct { char *stitch; char *own; } HwOwnStitch;
typedef struct { char *care; double limit; } HwOwnCare;
typedef struct
{
  char          *id;
  char          *name;
  HwMachineKind  kind;
  char          *system;             /* needle system id */
  HwDialForm     dial_form;
  HwDialScale    dial;
  double         length_max_mm;
  double         width_max_mm;
  double         plate_opening_mm;
  double         foot_lift_mm;
  double         speed_spm;
  double         bobbin_cm3;         /* winding volume */
  HwHook         hook;               /* a front-loading one has a case, for the drop test; front when left out */
  char          *needle_flat;        /* "back", "right", … by the manual */
  double         start_hours;        /* at the machine before the journal began */
  double         start_running;
  char          *learned_from;       /* id of a machine of the same kind whose test seams its dial begins with; NULL */
  HwOwnStitch   *stitches;  gsize n_stitches;
  char         **feet;               /* foot ids owned */
  char         **plates;
  HwOwnCare     *care;      gsize n_care;
} HwMachine;

/* needles.xml: <needles xmlns><needle id system point nm twin="" count/></needles>: packets of new ones. */
typedef struct { char *id; char *system; char *point; int nm; double twin_mm; int count; } HwPacket;

/* Values to change before they are handed to hw_room_with_machine() and hw_room_with_packets(), which copy them. */
HwMachine *hw_machine_new  (const char *id, const char *name, HwMachineKind kind);
HwMachine *hw_machine_copy (const HwMachine *self);
void       hw_machine_free (HwMachine *self);
HwPacket  *hw_packet_new   (const char *id, const char *system, const char *point, int nm);       /* one needle */
/* Does it hold needles of that kind? @system and @point may be NULL, which none has. */
gboolean   hw_packet_is_of (const HwPacket *self, const char *system, const char *point, int nm, double twin_mm);
HwPacket  *hw_packet_copy  (const HwPacket *self);
void       hw_packet_free  (HwPacket *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwMachine, hw_machine_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwPacket, hw_packet_free)
/* FALSE with a sentence: what its file would be refused for. */
gboolean   hw_machine_check (const HwMachine *self, GError **error);

#define HW_HAND "hand"                   /* stands for the machine where work is by hand */

typedef enum { HW_ENTRY_SEWING, HW_ENTRY_LOAD, HW_ENTRY_CARE, HW_ENTRY_TEST_SEAM, HW_ENTRY_FAULT, HW_ENTRY_CANCEL,
               HW_ENTRY_NEEDLE, HW_N_ENTRY_KINDS } HwEntryKind;
extern const char * const hw_entry_kind_ids[HW_N_ENTRY_KINDS + 1];  /* "sewing", "load", … the element names */

/* One record. <sewing id time project step minutes running lint life needle purpose planned needle-thread
 *   bobbin-thread needle-m bobbin-m system point nm foot plate length width dial note/>
 *   minutes at the machine, needle-moving minutes;
 *   planned: minutes the plan gave it before any correction learned, where the minutes were measured and not just taken
 *   over from the plan; needle-m, bobbin-m: metres taken from the spools of those labels
 *   system point nm foot plate length width dial: what it was sewn with, so that a plan made later still knows
 *   lint: factor on the dusting clock; life: factor on the needle's hours (its hours count / life)
 *   without needle: the hours are those of the needle that sits in the machine
 * <load id time needle packet system point nm twin hours needle-thread bobbin-thread foot plate stitch verdict/>
 *   what is on the machine from now on
 *   without needle but with nm: a new needle, named by the entry's own id; without both: the needle stays.
 *   thread, foot and plate that it does not name stay as they were sewn with or set last; so does the stitch where it
 *   names no thread either
 *   hours: that a needle had been sewn with before the journal knew of it
 *   verdict="discarded": the needle that came out was thrown away
 * <needle id time needle place verdict="out|discarded"/>   taken out of the machine, or thrown away, without another
 *   going in; place: the label of its place in the case
 * <needle id time needle system point nm twin hours place verdict="in"/>   a part-worn needle that the journal did not
 *   know is in the case
 * <care id time task/>   <cancel id time of/>   every kind may have a note
 * <test-seam id time project step dial verdict tex bobbin-tex under-foot length width terms="jersey twin" cloth/>
 *   what the stitch looked like at that dial, with all that the tension model needs to learn from it: thread tex,
 *   thickness under the foot and stitch in mm, the terms that are simply on; cloth: name, for people
 * <fault id time project step fault cause dial verdict="found|not-found"/>   handbook ids; cause may lack;
 *   dial: where it was put to cure it, 0 not said */
typedef struct
{
  HwEntryKind kind;
  char   *id;                        /* UUID */
  char   *machine;                   /* machine id, or HW_HAND */
  char   *time;                      /* ISO 8601 UTC */
  char   *project, *step;            /* sewing, test seam */
  double  minutes, running;          /* sewing */
  double  lint, life;                /* sewing; 1 ordinary */
  char   *needle;                    /* instance id (sewing, load) */
  char   *packet;                    /* load: taken new from this packet, or NULL */
  char   *system, *point;            /* load */
  int     nm;
  double  twin_mm;
  double  hours;                     /* load, needle: sewn with before, as the person remembers */
  char   *needle_thread, *bobbin_thread;   /* load: label such as "navy tex 30" */
  char   *foot, *plate, *stitch;     /* load: ids */
  char   *task;                      /* care id */
  char   *of;                        /* cancel: the entry's id */
  double  dial;                      /* test seam, fault (0: not said), on the machine's scale */
  char   *verdict;
  char   *purpose;                   /* sewing: handbook id */
  double  planned;                   /* sewing: minutes; 0 unknown */
  double  needle_m, bobbin_m;        /* sewing */
  double  tex, bobbin_tex;           /* test seam */
  double  under_foot_mm, length_mm, width_mm;
  char   *terms;                     /* ids parted by spaces, or NULL */
  char   *cloth;                     /* NULL unknown */
  char   *fault, *cause;             /* fault: handbook ids; cause may be NULL */
  char   *place;                     /* needle: label of its place in the case, or NULL */
  char   *note;
  gboolean packed;                   /* private: its texts stand in the block of the entry itself */
} HwJournalEntry;

typedef struct _HwBeliefs HwBeliefs;

/* Derived: a needle that was ever loaded, with its hours. */
typedef struct
{
  char   *id, *packet, *system, *point;
  int     nm;
  double  twin_mm;
  double  at_machine_hours;          /* wear: hours / life factor */
  double  running_hours;
  char   *machine;                   /* where it sits, or NULL: in the case */
  gboolean discarded;
  char   *place;                     /* label of its place in the case; NULL unknown */
} HwNeedle;

typedef struct
{
  double at_machine_hours, running_hours;    /* start + journal */
  const HwNeedle       *needle;              /* in the machine; NULL: none known. Borrowed from the room */
  const char *needle_thread, *bobbin_thread; /* labels, as last sewn with or set; NULL not noted. Borrowed */
  const char *foot, *plate;                  /* ids, the same */
  const HwJournalEntry *emptied;             /* took the needle out, and none was noted since; NULL otherwise */
} HwMachineState;

typedef struct
{
  gatomicrefcount ref_count;
  char      *folder;
  GPtrArray *machines;               /* (element-type HwMachine) sorted by id; first of a kind is its default */
  GPtrArray *packets;                /* (element-type HwPacket) */
  GPtrArray *spools;                 /* (element-type HwSpool) threads.xml */
  GPtrArray *cloths;                 /* (element-type HwShelfCloth) fabrics.xml */
  HwPreferences *preferences;        /* preferences.xml; never NULL */
  GPtrArray *entries;                /* (element-type HwJournalEntry) by time, cancelled ones too; owned below */
  GPtrArray *needles;                /* (element-type HwNeedle) derived */
  HwMachineState *states;            /* one per machine, derived */
  GHashTable *cancelled;             /* set of cancelled ids */
  GHashTable *done;                  /* private: see hw_room_step_done() */
  GHashTable *known;                 /* private: id -> entry, which it owns; */
  GPtrArray  *recent;                /* private: the few entries, owned, that are not in it yet */
  struct _HwRoomSums *sums;          /* private: see hw_room_care_clock(), hw_room_spool_left() */
  HwBeliefs  *beliefs;               /* private: see hw_room_get_belief() in model/test-seams.h */
} HwRoom;                            /* a snapshot; does not change */

/* Opens @folder; a missing folder is an empty room (see hw_room_create). Unreadable file: NULL with one error line;
 * nothing is written. */
HwRoom *hw_room_open    (const char *folder, GError **error);
/* The same machines, needles, threads, fabrics, preferences and journal. */
gboolean hw_room_is_equal (const HwRoom *a, const HwRoom *b);
/* Writes a first room: one lockstitch machine, one overlocker, a needle case, from our own defaults. Refuses a folder
 * that has machines. */
gboolean hw_room_create (const char *folder, GError **error);
/* The room that hw_room_create() would write, as a snapshot only: for planning before any room was furnished.
 * @folder: where appending would write (the default machines' files are written there then). */
HwRoom *hw_room_new_default (const char *folder);
HwRoom *hw_room_ref     (HwRoom *self);
void    hw_room_unref   (HwRoom *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwRoom, hw_room_unref)

const HwMachine *hw_room_find_machine (const HwRoom *self, const char *id);       /* NULL unknown */
const HwNeedle  *hw_room_find_needle  (const HwRoom *self, const char *id_or_null);    /* NULL unknown */
const HwMachine *hw_room_default_machine (const HwRoom *self, HwMachineKind kind);/* NULL none */
const HwMachineState *hw_room_get_state (const HwRoom *self, const HwMachine *machine);
/* Hours that the dusting (or other) clock of @task shows on @machine since that care was last done. Months: of
 * 30.4375 days until @now_iso. The clock of "needle" is that of the needle in the machine. */
double   hw_room_care_clock  (const HwRoom *self, const HwMachine *machine, const HwCareTask *task,
                              const char *now_iso);
/* Months since that care was last done on @machine (or since its journal began), for tasks with or_months. */
double   hw_room_care_months (const HwRoom *self, const HwMachine *machine, const HwCareTask *task,
                              const char *now_iso);
/* When that care was last done; NULL never noted. Borrowed. */
const char *hw_room_care_since (const HwRoom *self, const HwMachine *machine, const HwCareTask *task);
/* Whether @machine sewed, since that care, on the day (UTC) of @now_iso. */
gboolean hw_room_care_sewn_on (const HwRoom *self, const HwMachine *machine, const HwCareTask *task,
                               const char *now_iso);
/* The machine's own, else the handbook's; 0 never. */
double   hw_room_care_limit  (const HwMachine *machine, const HwCareTask *task);
/* The live sewing entry that did @step of @project (last one not cancelled); NULL: not done. */
const HwJournalEntry *hw_room_step_done (const HwRoom *self, const char *project, const char *step);
/* Of all its steps those that are done. */
guint    hw_room_count_done  (const HwRoom *self, const HwProject *project);
int      hw_room_new_needles (const HwRoom *self, const HwPacket *packet);        /* count less those taken */

/* Id and time filled in, to be changed before it is appended (which copies it). Allocated here alone: it is counted. */
HwJournalEntry *hw_journal_entry_new  (HwEntryKind kind, const char *machine);
/* The cancellation of the entry of that @id. */
HwJournalEntry *hw_journal_entry_new_cancel (const char *machine, const char *id);
void            hw_journal_entry_free (HwJournalEntry *self);
HwJournalEntry *hw_journal_entry_ref  (HwJournalEntry *self);
HwJournalEntry *hw_journal_entry_copy (const HwJournalEntry *self);        /* (transfer full): to be changed */
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwJournalEntry, hw_journal_entry_free)

/* Appends to the one journal file of entry->machine and its year, under the room's lock, re-reading that file first
 * so that another process's entries stay. Returns the new room snapshot, NULL with @error and nothing written. */
HwRoom *hw_room_append  (const HwRoom *self, const HwJournalEntry *entry, GError **error);
/* hw_room_append() of several entries of one machine and year: one write. */
HwRoom *hw_room_append_all (const HwRoom *self, const HwJournalEntry * const *entries, gsize n, GError **error);
/* An entry of this moment is put after the last one of its machine when the computer's clock stands before that one.
 * Whether @entry will be: the time of the last one (borrowed), to be told; NULL it will not. */
const char *hw_room_clock_behind (const HwRoom *self, const HwJournalEntry *entry);
/* The room as it would be with @entries (element-type HwJournalEntry) as its whole journal, for looking ahead: nothing
 * is checked and nothing written. */
HwRoom *hw_room_imagine (const HwRoom *self, const GPtrArray *entries);
/* The whole needle case, thread shelf, fabrics on hand, preferences (copied). Each returns the new snapshot, its file
 * written under the room's lock; NULL with @error and nothing written. The file is read again first: what another
 * process changed meanwhile is kept and shows in the new snapshot; where both changed the same needle, thread, fabric
 * or choice, each in another way, it is refused with HW_MODEL_ERROR_CHANGED. */
HwRoom *hw_room_with_packets     (const HwRoom *self, const GPtrArray *packets, GError **error);
HwRoom *hw_room_with_spools      (const HwRoom *self, const GPtrArray *spools, GError **error);
HwRoom *hw_room_with_cloths      (const HwRoom *self, const GPtrArray *cloths, GError **error);
HwRoom *hw_room_with_preferences (const HwRoom *self, const HwPreferences *preferences, GError **error);
/* @machine replaces the one of its id, or is added. Machines are those of the new snapshot: ask it for them anew. */
HwRoom *hw_room_with_machine     (const HwRoom *self, const HwMachine *machine, GError **error);
/* Only a machine that the journal never named can go, and never the last one; its file stays beside as "ID.xml~". */
HwRoom *hw_room_without_machine  (const HwRoom *self, const char *id, GError **error);

/* Metres left of @spool: as counted less what was sewn since from thread of that label; never below 0. */
double  hw_room_spool_left       (const HwRoom *self, const HwSpool *spool, const HwHandbook *handbook);

G_END_DECLS
