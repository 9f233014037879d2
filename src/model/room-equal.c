/* room-equal.c - whether two snapshots of a sewing room hold the same
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is derived follows from the rest and is not looked at.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include <string.h>

typedef gboolean (* IsSame) (gconstpointer a, gconstpointer b);

/* Snapshots that follow each other share most of their things. */
static gboolean
are_same (const GPtrArray *a,
          const GPtrArray *b,
          IsSame           is_same)
{
  if (a == b)
    return TRUE;
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    if (a->pdata[i] != b->pdata[i] && !is_same (a->pdata[i], b->pdata[i]))
      return FALSE;
  return TRUE;
}

static gboolean
is_same_machine (gconstpointer a,
                 gconstpointer b)
{
  g_autofree char *first = hw_machine_to_xml (a, NULL);
  g_autofree char *second = hw_machine_to_xml (b, NULL);

  return strcmp (first, second) == 0;
}

static gboolean
is_same_entry (gconstpointer a,
               gconstpointer b)
{
  return hw_journal_entry_is_equal (a, b);
}

gboolean
hw_room_is_equal (const HwRoom *a,
                  const HwRoom *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  return a == b
         || (are_same (a->machines, b->machines, is_same_machine)
             && hw_list_is_equal (&hw_packets_file, a->packets, b->packets)
             && hw_list_is_equal (&hw_spools_file, a->spools, b->spools)
             && hw_list_is_equal (&hw_cloths_file, a->cloths, b->cloths)
             && hw_preferences_is_equal (a->preferences, b->preferences)
             && are_same (a->entries, b->entries, is_same_entry));
}
