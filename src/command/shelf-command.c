/* shelf-command.c - handwheel shelf: needles, thread and fabrics on hand
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "words/words-room.h"
#include "words/words.h"

static HwTable *
new_table (void)
{
  HwTable *table = hw_table_new ("shelf", "item");

  hw_table_add_column (table, "kind", _("Kind"), FALSE);
  hw_table_add_column (table, "name", _("On hand"), FALSE);
  hw_table_add_column (table, "left", _("Left"), TRUE);
  hw_table_add_column (table, "detail", _("More of it"), FALSE);
  hw_table_add_column (table, "id", _("Entry"), FALSE);
  return table;
}

static void
add_needles (HwTable          *table,
             const HwHandbook *handbook,
             const HwRoom     *room)
{
  for (guint i = 0; i < room->packets->len; i++)
    {
      const HwPacket *packet = g_ptr_array_index (room->packets, i);
      int count = hw_room_new_needles (room, packet);

      hw_table_text (table, "needle");
      hw_table_take (table, hw_words_packet (handbook, packet));
      /* Translators: new needles of one kind in the case */
      hw_table_number (table, count, g_strdup_printf (ngettext ("%d new", "%d new", (gulong) count), count));
      hw_table_text (table, packet->system);
      hw_table_text (table, packet->id);
    }
}

static void
add_worn (HwTable          *table,
          const HwHandbook *handbook,
          const HwRoom     *room)
{
  for (guint i = 0; i < room->needles->len; i++)
    {
      const HwNeedle *needle = g_ptr_array_index (room->needles, i);
      double left = MAX (handbook->needle_life.at_machine_hours - needle->at_machine_hours, 0);

      if (needle->discarded)
        continue;
      hw_table_text (table, "part-worn");
      hw_table_take (table, hw_words_needle_of (handbook, needle));
      hw_table_number (table, left, hw_words_hours (left));
      hw_table_take (table, hw_words_needle_place (room, needle));
      hw_table_text (table, needle->id);
    }
}

static void
add_threads (HwTable          *table,
             const HwHandbook *handbook,
             const HwRoom     *room)
{
  for (guint i = 0; i < room->spools->len; i++)
    {
      const HwSpool *spool = g_ptr_array_index (room->spools, i);
      double left = hw_room_spool_left (room, spool, handbook);

      hw_table_text (table, "thread");
      hw_table_take (table, hw_words_spool (handbook, spool));
      hw_table_number (table, left, hw_words_metres (left));
      hw_table_take (table, hw_words_snap (spool->snap));
      hw_table_text (table, spool->id);
    }
}

static void
add_cloths (HwTable          *table,
            const HwHandbook *handbook,
            const HwRoom     *room)
{
  for (guint i = 0; i < room->cloths->len; i++)
    {
      const HwShelfCloth *cloth = g_ptr_array_index (room->cloths, i);

      hw_table_text (table, "fabric");
      hw_table_text (table, cloth->name);
      if (cloth->metres > 0)
        hw_table_number (table, cloth->metres, hw_words_metres (cloth->metres));
      else
        hw_table_text (table, NULL);
      hw_table_take (table, hw_words_shelf_cloth (handbook, cloth));
      hw_table_text (table, cloth->id);
    }
}

int
hw_command_shelf (int    argc,
                  char **argv)
{
  g_autoptr (HwHandbook) handbook = NULL;
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (HwTable) table = NULL;
  g_autofree char *room_folder = NULL;
  g_autofree char *format_word = NULL;
  g_autofree char *text = NULL;
  HwFormat         format = HW_FORMAT_PEOPLE;
  int              status = HW_EXIT_DONE;
  const GOptionEntry options[] = {
    { "format", 0, 0, G_OPTION_ARG_STRING, &format_word, N_("table (for people), csv or xml"), N_("FORMAT") },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, NULL, _("What is on hand: needles new and part-worn, thread, fabrics."), options,
                         &status))
    return status;
  if (argc > 1)
    return hw_command_usage (argv[0], _("“%s” is one word too many"), argv[1]);
  if (!hw_command_get_format (argv[0], format_word, &format))
    return HW_EXIT_USAGE;
  handbook = hw_command_handbook_load (&status);
  room = handbook != NULL ? hw_command_room_open (room_folder, &status) : NULL;
  if (room == NULL)
    return status;
  table = new_table ();
  add_needles (table, handbook, room);
  add_worn (table, handbook, room);
  add_threads (table, handbook, room);
  add_cloths (table, handbook, room);
  text = hw_table_format (table, format);
  hw_command_print (text);
  return HW_EXIT_DONE;
}
