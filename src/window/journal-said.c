/* journal-said.c - what a row of the journal says, and whether it holds what is searched for
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/journal-said.h"

#include <glib/gi18n.h>
#include <string.h>

#include "words/words-room.h"
#include "words/words.h"

const HwStep *
hw_journal_find_step (HwWorkspace          *workspace,
                      const HwJournalEntry *entry)
{
  return entry->kind == HW_ENTRY_SEWING ? hw_workspace_find_step (workspace, entry->project, entry->step) : NULL;
}

char *
hw_journal_say_what (HwWorkspace          *workspace,
                     const HwRoom         *room,
                     const HwJournalEntry *entry)
{
  const HwStep *step = hw_journal_find_step (workspace, entry);

  return hw_words_entry_named (hw_workspace_get_handbook (workspace), room, entry, NULL,
                               step != NULL ? step->name : NULL);
}

char *
hw_journal_say_where (HwWorkspace          *workspace,
                      const HwRoom         *room,
                      const HwJournalEntry *entry)
{
  const char      *project = hw_workspace_name_project (workspace, entry->project);
  g_autofree char *machine = hw_words_entry_machine (hw_workspace_get_handbook (workspace), room, entry);

  if (project == NULL)
    return g_steal_pointer (&machine);
  return machine[0] != '\0' ? g_strjoin (C_("list", ", "), project, machine, NULL) : g_strdup (project);
}

/* ---- searching ---- */

struct _HwJournalSaid
{
  HwWorkspace *workspace;               /* borrowed */
  GHashTable  *folded;                  /* HwJournalEntry -> all that its row says, folded */
};

HwJournalSaid *
hw_journal_said_new (HwWorkspace *workspace)
{
  HwJournalSaid *self = g_new0 (HwJournalSaid, 1);

  self->workspace = workspace;
  self->folded = g_hash_table_new_full (NULL, NULL, NULL, g_free);
  return self;
}

void
hw_journal_said_free (HwJournalSaid *self)
{
  g_hash_table_unref (self->folded);
  g_free (self);
}

static char *
fold (HwJournalSaid        *self,
      const HwJournalEntry *entry)
{
  const HwRoom    *room = hw_workspace_get_room (self->workspace);
  const char      *work = hw_words_entry_work (entry, hw_journal_find_step (self->workspace, entry));
  g_autofree char *what = hw_journal_say_what (self->workspace, room, entry);
  g_autofree char *where = hw_journal_say_where (self->workspace, room, entry);
  g_autofree char *all = g_strjoin ("\n", work, what, where, NULL);

  return g_utf8_casefold (all, -1);
}

gboolean
hw_journal_said_holds (const HwJournalEntry *entry,
                       const char           *folded,
                       gpointer              data)
{
  HwJournalSaid *self = data;
  char          *said = g_hash_table_lookup (self->folded, entry);

  if (said == NULL)
    {
      said = fold (self, entry);
      g_hash_table_insert (self->folded, (gpointer) entry, said);
    }
  return strstr (said, folded) != NULL;
}
