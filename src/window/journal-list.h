/* journal-list.h - journal entries as a list model, each item made when it is asked for
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gio/gio.h>
#include "model/room.h"

G_BEGIN_DECLS

#define HW_TYPE_JOURNAL_ITEM (hw_journal_item_get_type ())
G_DECLARE_FINAL_TYPE (HwJournalItem, hw_journal_item, HW, JOURNAL_ITEM, GObject)

/* The room it stands in, and the entry. Borrowed. */
const HwRoom         *hw_journal_item_room  (HwJournalItem *self);
const HwJournalEntry *hw_journal_item_entry (HwJournalItem *self);

#define HW_TYPE_JOURNAL_LIST (hw_journal_list_get_type ())
G_DECLARE_FINAL_TYPE (HwJournalList, hw_journal_list, HW, JOURNAL_LIST, GObject)

HwJournalList *hw_journal_list_new (void);
/* Shows @entries (element-type HwJournalEntry) of @room, the last one first. */
void           hw_journal_list_set (HwJournalList *self, const HwRoom *room, GPtrArray *entries);
/* Position of the entry, -1 none. */
int            hw_journal_list_find (HwJournalList *self, const char *id);

G_END_DECLS
