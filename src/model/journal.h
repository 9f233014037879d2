/* journal.h - reading the journal: finding entries, sums by week, what the person's minutes teach
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "model/room.h"

G_BEGIN_DECLS

/* Everything given must hold. */
typedef struct
{
  /* 1u << HwEntryKind; 0: all but cancellations. That of needles is of all that put one in or take one out, loads and
   * the care of changing it among them. */
  guint       kinds;
  const char *machine;               /* id, or NULL: any */
  const char *project;
  const char *from, *to;             /* ISO 8601 dates, both included; NULL: open */
  const char *text;                  /* in note, step, cloth, task, label … whatever the case; NULL */
  /* Whether what is said of an entry holds @folded, the text folded, though its own fields do not; NULL: nothing is. */
  gboolean (*says) (const HwJournalEntry *entry, const char *folded, gpointer data);
  gpointer    data;
  gboolean    with_cancelled;
} HwJournalFilter;

/* (element-type HwJournalEntry) borrowed from @room, in the order of time. (transfer container) */
GPtrArray *hw_journal_find   (const HwRoom *room, const HwJournalFilter *filter);
/* RFC 4180, one line an entry, a header first; a field that a spreadsheet might take for a formula is neutralised. */
char      *hw_journal_to_csv (const GPtrArray *entries);
/* (transfer full): the same under a new id, to be changed and handed to hw_journal_correct(). A needle that bore the
 * entry's own id keeps it, so that its hours stay. */
HwJournalEntry *hw_journal_entry_new_like (const HwJournalEntry *entry);
/* A wrong entry is put right by cancelling it and appending @entry in its place: one file, one write, and so the
 * cancellation bears the time of @entry. */
HwRoom    *hw_journal_correct (const HwRoom *room, const char *id, const HwJournalEntry *entry, GError **error);

typedef struct
{
  char   week[16];                   /* its first day, "2031-05-05" */
  char  *project, *machine;
  double hours;
} HwWeekHours;
/* Hours at the machine by week (of the day in UTC, weeks that begin on @first), project and machine: (element-type
 * HwWeekHours), sorted by these three; @project NULL: of no project. Work by hand is left out. */
GArray    *hw_journal_weeks  (const HwRoom *room, GDateWeekday first, const char *from, const char *to);

typedef struct { char *project; char *machine; double actual, planned; } HwProjectHours;
/* Hours at the machine that each project has had on each machine, and what the plan gave the same steps (@planned 0: it
 * was not noted): (element-type HwProjectHours), what was sewn last first. Work by hand and of no project is left
 * out. */
GArray    *hw_journal_project_hours (const HwRoom *room);

/* How the person's minutes compare with the planned ones for @purpose: the mean of log (actual / planned) over its
 * sewing entries, shrunk toward all purposes' mean and that toward 0 (ratio 1), each with the weight of
 * HW_TIME_PRIOR_ENTRIES entries. Multiplies planned minutes; 1 without entries. One entry counts for a ratio of
 * HW_TIME_RATIO_MOST at most, either way: a timer begun late or forgotten says little of a pace. One that ran for less
 * than HW_TIME_SLIP of the plan's minutes was only tried, or stopped too soon, and says nothing. Fewer than
 * HW_TIME_LEAST_ENTRIES in all change nothing yet: one step is no pace. By judgement. */
#define HW_TIME_PRIOR_ENTRIES 4
#define HW_TIME_LEAST_ENTRIES 3
#define HW_TIME_RATIO_MOST 3.0
#define HW_TIME_SLIP 0.2
double     hw_journal_time_factor (const HwRoom *room, const char *purpose);
/* Whether @entry, appended to @room, is the one with which planned minutes begin to follow the person's. */
gboolean   hw_journal_begins_pace (const HwRoom *room, const HwJournalEntry *entry);

G_END_DECLS
