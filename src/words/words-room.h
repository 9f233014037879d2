/* words-room.h - the sewing room in words: journal entries, needles, thread and fabrics on hand
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * As words.h: new strings (transfer full) in the person's language, plain text.
 */

#pragma once
#include "model/project.h"
#include "model/room.h"

G_BEGIN_DECLS

const char *hw_words_entry_kind   (HwEntryKind kind);              /* "Sewing"; borrowed */
/* "step 3, 12 min", "80/12 round point, navy …". @project: the title of its project; NULL: it is not said */
char       *hw_words_entry        (const HwHandbook *handbook, const HwRoom *room, const HwJournalEntry *entry,
                                   const char *project);
/* The same, with the name of its step; NULL: it is not known. */
char       *hw_words_entry_named  (const HwHandbook *handbook, const HwRoom *room, const HwJournalEntry *entry,
                                   const char *project, const char *step);
/* "Sewing"; of work by hand "Pressing" or "By hand". @step: as its project has it now, NULL: not known; borrowed */
const char *hw_words_entry_work   (const HwJournalEntry *entry, const HwStep *step);
/* The machine, and where something was sewn the needle: "Lockstitch, 80/12 round point"; empty: by hand */
char       *hw_words_entry_machine (const HwHandbook *handbook, const HwRoom *room, const HwJournalEntry *entry);
char       *hw_words_needle_of    (const HwHandbook *handbook, const HwNeedle *needle);   /* "80/12 round point" */
char       *hw_words_needle_loaded (const HwHandbook *handbook, const HwJournalEntry *load);   /* the same */
char       *hw_words_packet       (const HwHandbook *handbook, const HwPacket *packet);   /* the same, of new ones */
char       *hw_words_needle_place (const HwRoom *room, const HwNeedle *needle);   /* "in: Overlocker", "in the case" */
/* A thread as the journal names it: "navy tex 30"; without a colour its id stands there, "polyester-27 tex 27", and it
 * is told as "polyester tex 27". */
char       *hw_words_thread_label (const HwHandbook *handbook, const char *label);
char       *hw_words_spool        (const HwHandbook *handbook, const HwSpool *spool);
char       *hw_words_snap         (HwSnap snap);
/* As measured, else as the handbook has it: "118 g/m², 0.24 mm". */
char       *hw_words_shelf_cloth  (const HwHandbook *handbook, const HwShelfCloth *cloth);

/* That the computer's clock stands before the journal's last entry, of @later (ISO 8601), and what was done. */
char *hw_words_clock_behind (const char *later);

G_END_DECLS
