/* test-equal.c - rooms told from each other by what they hold, copies of it, and a project in another language
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "model/project-translate.h"
#include "room-fixture.h"
#include "temp-folder.h"

#include <glib/gstdio.h>
#include <string.h>

/* ---- rooms ---- */

/* Each file of a room with one value in it that may be another. */
static const struct { const char *name, *text, *other; } files[] = {
  { "machines/m.xml", MACHINE "</machine>", MACHINE "<foot id=\"zip\"/></machine>" },
  { "needles.xml",
    "<needles " NS "><needle id=\"a\" system=\"household\" point=\"round\" nm=\"80\" count=\"5\"/></needles>",
    "<needles " NS "><needle id=\"a\" system=\"household\" point=\"round\" nm=\"80\" count=\"4\"/></needles>" },
  { "threads.xml", "<threads " NS "><thread id=\"n\" handbook=\"polyester-27\" colour=\"navy\" metres=\"9\""
    " counted=\"2031-05-09T14:03:00Z\"/></threads>",
    "<threads " NS "><thread id=\"n\" handbook=\"polyester-27\" colour=\"navy\" metres=\"9\" snap=\"weak\""
    " counted=\"2031-05-09T14:03:00Z\"/></threads>" },
  { "fabrics.xml", "<fabrics " NS "><fabric id=\"s\" name=\"Sheets\" handbook=\"muslin\"/></fabrics>",
    "<fabrics " NS "><fabric id=\"s\" name=\"Sheets\" handbook=\"muslin\" note=\"washed\"/></fabrics>" },
  { "preferences.xml", "<preferences " NS " hours-a-week=\"6\"/>", "<preferences " NS " hours-a-week=\"7\"/>" },
  { "journal/m-2031.xml", JOURNAL "<care id=\"a\" time=\"2031-05-09T14:00:00Z\" task=\"dust\"/></journal>",
    JOURNAL "<care id=\"a\" time=\"2031-05-09T14:00:00Z\" task=\"oil\"/></journal>" },
};

static void
write_room (const char *folder)
{
  for (gsize i = 0; i < G_N_ELEMENTS (files); i++)
    temp_folder_write (folder, files[i].name, files[i].text, -1);
}

static void
test_rooms (RoomFixture   *fixture,
            gconstpointer  data)
{
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (HwRoom) again = NULL;

  write_room (fixture->folder);
  room = room_fixture_open (fixture->folder);
  again = room_fixture_open (fixture->folder);
  g_assert_true (hw_room_is_equal (room, room));
  g_assert_true (hw_room_is_equal (room, again));
  for (gsize i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autoptr (HwRoom) other = NULL;

      temp_folder_write (fixture->folder, files[i].name, files[i].other, -1);
      other = room_fixture_open (fixture->folder);
      g_test_message ("%s", files[i].name);
      g_assert_false (hw_room_is_equal (room, other));
      g_assert_false (hw_room_is_equal (other, room));
      temp_folder_write (fixture->folder, files[i].name, files[i].text, -1);
    }
}

/* One machine more. */
static void
test_more (RoomFixture   *fixture,
           gconstpointer  data)
{
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (HwRoom) more = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (HwMachine) machine = NULL;

  write_room (fixture->folder);
  room = room_fixture_open (fixture->folder);
  machine = hw_machine_copy (room->machines->pdata[0]);
  g_free (machine->id);
  machine->id = g_strdup ("n");
  more = hw_room_with_machine (room, machine, &error);
  g_assert_no_error (error);
  g_assert_false (hw_room_is_equal (room, more));
}

/* A copy of what lies on the shelf is written as the one it was made of. */
static void
test_copies (RoomFixture   *fixture,
             gconstpointer  data)
{
  g_autoptr (GPtrArray) spools = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_spool_free);
  g_autoptr (GPtrArray) cloths = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_shelf_cloth_free);
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (HwRoom) with_spools = NULL;
  g_autoptr (HwRoom) with_both = NULL;
  g_autoptr (GError) error = NULL;

  write_room (fixture->folder);
  temp_folder_write (fixture->folder, "threads.xml", "<threads " NS "><thread id=\"n\" handbook=\"polyester-27\""
    " colour=\"navy\" tex=\"30\" metres=\"9.5\" counted=\"2031-05-09T14:03:00Z\" snap=\"weak\" note=\"one\"/>"
    "</threads>", -1);
  temp_folder_write (fixture->folder, "fabrics.xml", "<fabrics " NS "><fabric id=\"d\" name=\"Drill\""
    " construction=\"twill\" mass=\"280\" thickness=\"0.6\" stretch=\"2\" traits=\"dense pile\" colour=\"olive\""
    " metres=\"3.2\" width-cm=\"150\" note=\"two\"/></fabrics>", -1);
  room = room_fixture_open (fixture->folder);
  g_ptr_array_add (spools, hw_spool_copy (room->spools->pdata[0]));
  g_ptr_array_add (cloths, hw_shelf_cloth_copy (room->cloths->pdata[0]));
  with_spools = hw_room_with_spools (room, spools, &error);
  g_assert_no_error (error);
  with_both = hw_room_with_cloths (with_spools, cloths, &error);
  g_assert_no_error (error);
  g_assert_true (hw_room_is_equal (room, with_both));
}

/* ---- another language ---- */

static const char *
shout (const char *context,
       const char *text)
{
  static char *said;

  g_free (said);
  said = g_utf8_strup (text, -1);
  return said;
}

/* What people read is translated, ids and values are not, and the project itself stays as it was. */
static void
test_translated (void)
{
  static const char text[] =
    "<project xmlns=\"urn:handwheel:project:1\" id=\"cape\" title=\"The cape\"><note>for the play</note>"
    "<fabrics><fabric id=\"shell\" name=\"Shell\" handbook=\"denim\" colour=\"blue\"/></fabrics>"
    "<threads><thread id=\"main\" handbook=\"polyester-27\" colour=\"navy\"/></threads><steps>"
    "<operation number=\"1\" name=\"Darts\" purpose=\"seam\" length-cm=\"10\"><ply fabric=\"shell\"/>"
    "<note>mind the point</note></operation></steps></project>";
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = hw_project_parse ("cape", text, strlen (text), &error);
  g_autoptr (HwProject) told = NULL;
  const HwProjectFabric *fabric;
  const HwStep *step;

  g_assert_no_error (error);
  told = hw_project_translate (project, shout);
  fabric = told->fabrics->pdata[0];
  step = told->steps->pdata[0];
  g_assert_cmpstr (told->id, ==, "cape");
  g_assert_cmpstr (told->title, ==, "THE CAPE");
  g_assert_cmpstr (told->note, ==, "FOR THE PLAY");
  g_assert_cmpstr (fabric->id, ==, "shell");
  g_assert_cmpstr (fabric->name, ==, "SHELL");
  g_assert_cmpstr (fabric->colour, ==, "BLUE");
  g_assert_cmpstr (fabric->handbook, ==, "denim");
  g_assert_cmpstr (((HwProjectThread *) told->threads->pdata[0])->colour, ==, "NAVY");
  g_assert_cmpstr (step->name, ==, "DARTS");
  g_assert_cmpstr (step->note, ==, "MIND THE POINT");
  g_assert_cmpstr (step->purpose, ==, "seam");
  g_assert_cmpstr (project->title, ==, "The cape");
  g_assert_cmpstr (((HwStep *) project->steps->pdata[0])->name, ==, "Darts");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/equal/rooms", test_rooms);
  ADD ("/equal/more", test_more);
  ADD ("/equal/copies", test_copies);
  g_test_add_func ("/equal/translated", test_translated);
  return g_test_run ();
}
