/* needles-page.c - the needle case: new needles, part-worn ones, what planned projects still want
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/pages.h"

#include <glib/gi18n.h>
#include <string.h>

#include "window/controls.h"
#include "window/needs-list.h"
#include "window/room-forms.h"
#include "window/room-page.h"
#include "window/room-rows.h"
#include "words/words-room.h"
#include "words/words.h"

/* ---- what a person does ---- */

static void
add_action (GSimpleAction *action,
            GVariant      *parameter,
            gpointer       page)
{
  hw_room_page_show_form (page, hw_packet_form_new (hw_room_page_workspace (page), NULL));
}

static void
edit_action (GSimpleAction *action,
             GVariant      *parameter,
             gpointer       page)
{
  hw_room_page_show_form (page, hw_packet_form_new (hw_room_page_workspace (page),
                                                    g_variant_get_string (parameter, NULL)));
}

static void
add_worn_action (GSimpleAction *action,
                 GVariant      *parameter,
                 gpointer       page)
{
  hw_room_page_show_form (page, hw_worn_form_new (hw_room_page_workspace (page)));
}

static void
take_packets (HwRoomPage      *page,
              const GPtrArray *packets)
{
  g_autoptr (GError) error = NULL;
  HwRoom *next = hw_room_with_packets (hw_room_page_room (page), packets, &error);

  hw_workspace_take_room (hw_room_page_workspace (page), next, error);
}

static void
count_by (HwRoomPage *page,
          const char *id,
          int         more)
{
  const HwRoom   *room = hw_room_page_room (page);
  const HwPacket *before = hw_shelf_find (room->packets, id);
  g_autoptr (HwPacket) packet = before != NULL ? hw_packet_copy (before) : NULL;
  g_autoptr (GPtrArray) packets = NULL;

  if (packet == NULL || (more < 0 && hw_room_new_needles (room, before) == 0))
    return;
  packet->count += more;
  packets = hw_shelf_put (room->packets, packet, NULL);
  take_packets (page, packets);
}

static void
more_action (GSimpleAction *action,
             GVariant      *parameter,
             gpointer       page)
{
  count_by (page, g_variant_get_string (parameter, NULL), 1);
}

static void
fewer_action (GSimpleAction *action,
              GVariant      *parameter,
              gpointer       page)
{
  count_by (page, g_variant_get_string (parameter, NULL), -1);
}

static void
remove_action (GSimpleAction *action,
               GVariant      *parameter,
               gpointer       page)
{
  g_autoptr (GPtrArray) packets = hw_shelf_put (hw_room_page_room (page)->packets, NULL,
                                                g_variant_get_string (parameter, NULL));

  hw_room_page_close_form (page);
  take_packets (page, packets);
}

static void
load_new_action (GSimpleAction *action,
                 GVariant      *parameter,
                 gpointer       page)
{
  hw_room_page_show_form (page, hw_load_form_new (hw_room_page_workspace (page), NULL,
                                                  g_variant_get_string (parameter, NULL)));
}

static void
load_action (GSimpleAction *action,
             GVariant      *parameter,
             gpointer       page)
{
  hw_room_page_show_form (page, hw_load_form_new (hw_room_page_workspace (page),
                                                  g_variant_get_string (parameter, NULL), NULL));
}

static void
place_action (GSimpleAction *action,
              GVariant      *parameter,
              gpointer       page)
{
  hw_room_page_show_form (page, hw_place_form_new (hw_room_page_workspace (page),
                                                   g_variant_get_string (parameter, NULL)));
}

static void
note_needle (HwRoomPage *page,
             const char *id,
             const char *verdict)
{
  const HwRoom   *room = hw_room_page_room (page);
  const HwNeedle *needle = hw_shelf_find (room->needles, id);
  g_autoptr (HwJournalEntry) entry = NULL;
  g_autofree char *words = NULL;
  g_autofree char *text = NULL;

  if (needle == NULL)
    return;
  entry = hw_journal_entry_new (HW_ENTRY_NEEDLE, hw_needle_machine (room, needle));
  entry->needle = g_strdup (id);
  entry->verdict = g_strdup (verdict);
  words = hw_words_entry (hw_room_page_handbook (page), room, entry, NULL);
  /* Translators: a sentence such as “80/12 round point taken out” */
  text = g_strdup_printf (_("%s."), words);
  hw_workspace_append (hw_room_page_workspace (page), entry, text);
}

static void
take_out_action (GSimpleAction *action,
                 GVariant      *parameter,
                 gpointer       page)
{
  note_needle (page, g_variant_get_string (parameter, NULL), "out");
}

static void
discard_action (GSimpleAction *action,
                GVariant      *parameter,
                gpointer       page)
{
  note_needle (page, g_variant_get_string (parameter, NULL), "discarded");
}

/* ---- what lies there ---- */

static void
add_packet (GtkWidget        *box,
            const HwHandbook *handbook,
            const HwRoom     *room,
            const HwPacket   *packet)
{
  g_autofree char *name = hw_words_packet (handbook, packet);
  int              n = hw_room_new_needles (room, packet);
  /* Translators: new needles of one kind in the case */
  g_autofree char *count = n > 0 ? g_strdup_printf (ngettext ("%d new", "%d new", (gulong) n), n)
                                 : g_strdup (_("none left: buy"));
  GtkWidget       *row = hw_room_rows_add (box, name, count, n > 0 ? "mute" : "brass");

  if (n > 0)
    hw_room_row_add_button (row, _("Load…"), name, "needles.load-new", packet->id);
  hw_room_row_add_button (row, _("One fewer"), name, "needles.fewer", packet->id);
  hw_room_row_add_button (row, _("One more"), name, "needles.more", packet->id);
  hw_room_row_add_button (row, _("Change…"), name, "needles.edit", packet->id);
}

static int
compare_packets (gconstpointer a,
                 gconstpointer b,
                 gpointer      data)
{
  const HwHandbook *handbook = data;
  const HwPacket   *first = *(HwPacket * const *) a;
  const HwPacket   *second = *(HwPacket * const *) b;
  int               order = strcmp (first->system, second->system);

  if (order == 0)
    order = hw_handbook_find_point (handbook, first->point) - hw_handbook_find_point (handbook, second->point);
  if (order == 0)
    order = (first->twin_mm > second->twin_mm) - (first->twin_mm < second->twin_mm);
  return order != 0 ? order : first->nm - second->nm;
}

static void
fill_packets (HwRoomPage *page,
              GtkWidget  *box)
{
  const HwHandbook *handbook = hw_room_page_handbook (page);
  const HwRoom     *room = hw_room_page_room (page);
  g_autoptr (GPtrArray) sorted = hw_shelf_put (room->packets, NULL, NULL);
  const char       *system = NULL;

  g_ptr_array_sort_with_data (sorted, compare_packets, (gpointer) handbook);
  for (guint i = 0; i < sorted->len; i++)
    {
      const HwPacket *packet = sorted->pdata[i];
      int             index = hw_handbook_find_system (handbook, packet->system);

      if (g_strcmp0 (system, packet->system) != 0)
        {
          /* Translators: a needle system's name */
          g_autofree char *heading = g_strdup_printf (_("New needles: %s"), index >= 0
                                                      ? handbook->systems[index].entry.name : packet->system);

          hw_room_rows_add_heading (box, heading);
        }
      system = packet->system;
      add_packet (box, handbook, room, packet);
    }
  if (sorted->len == 0)
    hw_room_rows_add_empty (box, _("The case is empty. Add the needles you own: system, point and size stand on the "
                                   "packet."));
}

static void
add_worn (GtkWidget        *box,
          const HwHandbook *handbook,
          const HwRoom     *room,
          const HwNeedle   *needle)
{
  double           limit = handbook->needle_life.at_machine_hours;
  g_autofree char *name = hw_words_needle_of (handbook, needle);
  g_autofree char *used = hw_words_number (needle->at_machine_hours, 1);
  g_autofree char *most = hw_words_hours (limit);
  g_autofree char *where = hw_words_needle_place (room, needle);
  gboolean         worn = needle->at_machine_hours >= limit;
  /* Translators: hours worn, hours of its life, where the needle is */
  g_autofree char *detail = g_strdup_printf (worn ? _("worn out: %s of %s, %s") : _("%s of %s, %s"), used, most, where);
  GtkWidget       *row = hw_room_rows_add (box, name, detail, worn ? "brass" : "mute");

  if (needle->machine != NULL)
    hw_room_row_add_button (row, _("Take out"), name, "needles.take-out", needle->id);
  else
    hw_room_row_add_button (row, _("Load…"), name, "needles.load", needle->id);
  hw_room_row_add_button (row, _("Place…"), name, "needles.place", needle->id);
  hw_room_row_add_button (row, _("Throw away"), name, "needles.discard", needle->id);
}

static void
fill_worn (HwRoomPage *page,
           GtkWidget  *box)
{
  const HwHandbook *handbook = hw_room_page_handbook (page);
  const HwRoom     *room = hw_room_page_room (page);

  hw_room_rows_add_heading (box, _("Opened: in a machine, or part-worn"));
  for (guint i = 0; i < room->needles->len; i++)
    {
      const HwNeedle *needle = room->needles->pdata[i];

      if (!needle->discarded)
        add_worn (box, handbook, room, needle);
    }
  hw_room_rows_add_button (box, _("Add one used before…"), "needles.add-worn");
}

static void
fill (HwRoomPage *page,
      GtkWidget  *box)
{
  fill_worn (page, box);
  fill_packets (page, box);
}

static GtkWidget *
make_aside (HwRoomPage *page)
{
  return hw_needs_list_new (hw_room_page_workspace (page), hw_room_page_peek_aside (page));
}

GtkWidget *
hw_needles_page_new (HwWorkspace *workspace)
{
  static const GActionEntry actions[] = {
    { .name = "add", .activate = add_action },
    { .name = "add-worn", .activate = add_worn_action },
    { .name = "edit", .activate = edit_action, .parameter_type = "s" },
    { .name = "more", .activate = more_action, .parameter_type = "s" },
    { .name = "fewer", .activate = fewer_action, .parameter_type = "s" },
    { .name = "remove", .activate = remove_action, .parameter_type = "s" },
    { .name = "load-new", .activate = load_new_action, .parameter_type = "s" },
    { .name = "load", .activate = load_action, .parameter_type = "s" },
    { .name = "place", .activate = place_action, .parameter_type = "s" },
    { .name = "take-out", .activate = take_out_action, .parameter_type = "s" },
    { .name = "discard", .activate = discard_action, .parameter_type = "s" },
  };
  static const HwRoomPageKind kind = {
    N_("Needles"), "needles", actions, G_N_ELEMENTS (actions), N_("Add needles"), NULL, fill, make_aside
  };

  return hw_room_page_new (workspace, &kind);
}
