/* journal-said.h - what a row of the journal says, and whether it holds what is searched for
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "window/workspace.h"

G_BEGIN_DECLS

/* The entry's step as its project has it now; NULL: it is not known. Borrowed. */
const HwStep *hw_journal_find_step (HwWorkspace *workspace, const HwJournalEntry *entry);
/* (transfer full): "step 2 Side seams, 12 min" */
char         *hw_journal_say_what  (HwWorkspace *workspace, const HwRoom *room, const HwJournalEntry *entry);
/* (transfer full): the project, the machine and its needle; "" where there is nothing to say. */
char         *hw_journal_say_where (HwWorkspace *workspace, const HwRoom *room, const HwJournalEntry *entry);

/* Remembers what rows say, for a room and projects that stay as they are. */
typedef struct _HwJournalSaid HwJournalSaid;

HwJournalSaid *hw_journal_said_new   (HwWorkspace *workspace);
void           hw_journal_said_free  (HwJournalSaid *self);
/* The filter's @says: @self is its data. */
gboolean       hw_journal_said_holds (const HwJournalEntry *entry, const char *folded, gpointer self);

G_END_DECLS
