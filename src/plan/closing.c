/* closing.c - what is to be done at a machine when the sewing is over
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/closing.h"

#include <string.h>

#define DUST_TASK "dust"
#define ORDINARY_LINT 1.0

static gboolean
is_closing (const HwJournalEntry *entry)
{
  return entry->kind == HW_ENTRY_CARE && strcmp (entry->task, HW_CLOSING_TASK) == 0;
}

/* Whether any of the cloth sheds that was sewn since the last closing. */
static gboolean
has_shed (const HwRoom    *room,
          const HwMachine *machine)
{
  for (guint i = room->entries->len; i-- > 0;)
    {
      const HwJournalEntry *entry = g_ptr_array_index (room->entries, i);

      if (strcmp (entry->machine, machine->id) != 0 || g_hash_table_contains (room->cancelled, entry->id))
        continue;
      if (is_closing (entry))
        return FALSE;
      if (entry->kind == HW_ENTRY_SEWING && entry->lint > ORDINARY_LINT)
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_dust_due (const HwHandbook *handbook,
             const HwRoom     *room,
             const HwMachine  *machine)
{
  int    index = hw_handbook_find_care (handbook, DUST_TASK);
  double limit = index >= 0 ? hw_room_care_limit (machine, &handbook->care[index]) : 0;

  return limit > 0 && hw_room_care_clock (room, machine, &handbook->care[index], NULL) >= limit;
}

const HwJournalEntry *
hw_closing_last_sewn (const HwRoom    *room,
                      const HwMachine *machine)
{
  for (guint i = room->entries->len; i-- > 0;)
    {
      const HwJournalEntry *entry = g_ptr_array_index (room->entries, i);

      if (strcmp (entry->machine, machine->id) != 0 || g_hash_table_contains (room->cancelled, entry->id))
        continue;
      if (entry->kind == HW_ENTRY_SEWING)
        return entry;
      if (is_closing (entry))
        return NULL;
    }
  return NULL;
}

gboolean
hw_closing_is_due (const HwRoom    *room,
                   const HwMachine *machine)
{
  return hw_closing_last_sewn (room, machine) != NULL;
}

GPtrArray *
hw_closing_list (const HwHandbook *handbook,
                 const HwRoom     *room,
                 const HwMachine  *machine)
{
  GPtrArray            *list = g_ptr_array_new ();
  const HwMachineState *state = hw_room_get_state (room, machine);
  gboolean              lint = has_shed (room, machine) || is_dust_due (handbook, room, machine);

  for (gsize i = 0; i < handbook->n_closings; i++)
    {
      const HwClosing *one = &handbook->closings[i];

      if ((one->machines & (1u << machine->kind)) == 0
          || (one->when == HW_CLOSING_LINT && !lint)
          || (one->when == HW_CLOSING_NEEDLE && state->needle == NULL))
        continue;
      g_ptr_array_add (list, (gpointer) one);
    }
  return list;
}

HwJournalEntry *
hw_closing_entry (const HwMachine *machine)
{
  HwJournalEntry *entry = hw_journal_entry_new (HW_ENTRY_CARE, machine->id);

  entry->task = g_strdup (HW_CLOSING_TASK);
  return entry;
}

HwJournalEntry *
hw_closing_needle_entry (const HwRoom    *room,
                         const HwMachine *machine)
{
  const HwNeedle *needle = hw_room_get_state (room, machine)->needle;
  HwJournalEntry *entry;

  if (needle == NULL)
    return NULL;
  entry = hw_journal_entry_new (HW_ENTRY_NEEDLE, machine->id);
  entry->needle = g_strdup (needle->id);
  entry->place = g_strdup (needle->place);
  entry->verdict = g_strdup ("out");
  return entry;
}
