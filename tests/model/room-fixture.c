/* room-fixture.c - a sewing room with the one machine "m", for one test
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "room-fixture.h"

#include "files/xml.h"
#include "temp-folder.h"

#include <glib/gstdio.h>

void
room_fixture_make_folder (const char *folder,
                          const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);

  g_assert_cmpint (g_mkdir_with_parents (path, 0700), ==, 0);
}

void
room_fixture_set_up (RoomFixture  *fixture,
                     gconstpointer data)
{
  fixture->folder = temp_folder_new ();
  room_fixture_make_folder (fixture->folder, "machines");
  room_fixture_make_folder (fixture->folder, "journal");
  temp_folder_write (fixture->folder, "machines/m.xml", MACHINE "</machine>", -1);
  temp_folder_write (fixture->folder, "needles.xml",
                     "<needles " NS "><needle id=\"r80\" system=\"household\" point=\"round\" nm=\"80\" "
                     "count=\"3\"/></needles>", -1);
}

void
room_fixture_tear_down (RoomFixture  *fixture,
                        gconstpointer data)
{
  temp_folder_remove (fixture->folder);
}

HwRoom *
room_fixture_open (const char *folder)
{
  g_autoptr (GError) error = NULL;
  HwRoom *room = hw_room_open (folder, &error);

  g_assert_no_error (error);
  return room;
}

void
room_fixture_follows_schema (const char *folder,
                             const char *name,
                             const char *root)
{
  g_autofree char *schema_path = g_test_build_filename (G_TEST_DIST, "..", "data/schema/room.rng", NULL);
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSchema) schema = hw_schema_load (schema_path, &error);
  g_autoptr (HwXml) xml = hw_xml_read_file (path, 1 << 20, root, HW_ROOM_NS, &error);

  g_assert_no_error (error);
  hw_schema_check (schema, xml, &error);
  g_assert_no_error (error);
}
