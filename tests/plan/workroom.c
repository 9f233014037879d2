/* workroom.c - sewing rooms, projects and set-ups for the tests of the plan
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "workroom.h"

#include "temp-folder.h"

#include <glib/gstdio.h>
#include <string.h>

const WorkroomMachine workroom_usual = {
  5, 7, 9, 6, 0, 9, 4,
  "all-purpose straight edge zip concealed-zip blind-hem buttonhole walking roller satin overcast rolled-hem gathering",
  "zigzag single-hole",
};

static void
add_words (GString *xml, const char *element, const char *words)
{
  g_auto (GStrv) ids = g_strsplit (words, " ", -1);

  for (gsize i = 0; ids[i] != NULL; i++)
    if (ids[i][0] != '\0')
      g_string_append_printf (xml, "  <%s id=\"%s\"/>\n", element, ids[i]);
}

static void
add_number (GString *xml, const char *attribute, double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  g_string_append_printf (xml, " %s=\"%s\"", attribute, g_ascii_dtostr (text, sizeof text, value));
}

static void
write_lockstitch (const char *machines, const WorkroomMachine *machine)
{
  g_autoptr (GString) xml = g_string_new ("<machine xmlns=\"" HW_ROOM_NS "\" id=\"home\" name=\"Home machine\""
                                          " kind=\"lockstitch\" system=\"household\" dial=\"edge-wheel\"");

  add_number (xml, "dial-low", machine->dial_low);
  add_number (xml, "dial-high", machine->dial_high);
  add_number (xml, "dial-neutral", machine->dial_neutral);
  add_number (xml, "length-max", machine->length_max_mm);
  add_number (xml, "width-max", machine->width_max_mm);
  add_number (xml, "plate-opening", machine->plate_opening_mm);
  add_number (xml, "foot-lift", machine->foot_lift_mm);
  g_string_append (xml, " speed=\"800\" bobbin-cm3=\"2.2\" needle-flat=\"back\">\n");
  add_words (xml, "foot", machine->feet);
  add_words (xml, "plate", machine->plates);
  g_string_append (xml, "</machine>\n");
  temp_folder_write (machines, "home.xml", xml->str, -1);
}

static void
write_overlocker (const char *machines, const char *system, double neutral)
{
  g_autoptr (GString) xml = g_string_new ("<machine xmlns=\"" HW_ROOM_NS "\" id=\"overlocker\" name=\"Overlocker\""
                                          " kind=\"overlock\" dial=\"number\" dial-low=\"0\" dial-high=\"9\"");

  g_string_append_printf (xml, " system=\"%s\"", system);
  add_number (xml, "dial-neutral", neutral);
  g_string_append (xml, " length-max=\"4\" width-max=\"7\" plate-opening=\"9\" foot-lift=\"6\" speed=\"1300\""
                        " bobbin-cm3=\"0\" needle-flat=\"back\">\n  <foot id=\"overlock\"/>\n</machine>\n");
  temp_folder_write (machines, "overlocker.xml", xml->str, -1);
}

HwRoom *
workroom_new (const WorkroomMachine *lockstitch, const char *overlock_system, double overlock_neutral)
{
  g_autoptr (GError) error = NULL;
  char *folder = temp_folder_new ();
  g_autofree char *machines = g_build_filename (folder, "machines", NULL);
  HwRoom *room;

  g_assert_cmpint (g_mkdir (machines, 0700), ==, 0);
  write_lockstitch (machines, lockstitch);
  if (overlock_system != NULL)
    write_overlocker (machines, overlock_system, overlock_neutral);
  room = hw_room_open (folder, &error);
  g_assert_no_error (error);
  temp_folder_remove (folder);           /* a room is a snapshot: nothing of the folder is read again */
  return room;
}

static HwHandbook *
load (const char *folder)
{
  g_autoptr (GError) error = NULL;
  HwHandbook *handbook = hw_handbook_load (folder, &error);

  g_assert_no_error (error);
  return handbook;
}

static char *
get_shipped_folder (void)
{
  const char *data = g_getenv ("HANDWHEEL_DATA_DIR");

  g_assert_nonnull (data);
  return g_build_filename (data, "handbook", NULL);
}

HwHandbook *
workroom_handbook (void)
{
  g_autofree char *folder = get_shipped_folder ();

  return load (folder);
}

HwHandbook *
workroom_small (void)
{
  static const char * const files[] = { "cloth.xml", "means.xml", "pairing.xml", "tension.xml" };
  g_autofree char *shipped = get_shipped_folder ();
  g_autofree char *schema = g_build_filename (shipped, "handbook.rng", NULL);
  char *folder = temp_folder_new ();
  HwHandbook *handbook;

  temp_folder_copy (folder, "handbook.rng", schema);
  for (gsize i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *path = g_test_build_filename (G_TEST_DIST, "plan", "small", files[i], NULL);

      temp_folder_copy (folder, files[i], path);
    }
  handbook = load (folder);
  temp_folder_remove (folder);
  return handbook;
}

HwProject *
workroom_garment (const char *name)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *file = g_strconcat (name, ".handwheel", NULL);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "plan", "garments", file, NULL);
  HwProject *project = hw_project_read (path, &error);

  g_assert_no_error (error);
  return project;
}

HwProject *
workroom_parse (const char *inside)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *xml = g_strdup_printf ("<project xmlns=\"" HW_PROJECT_NS "\" id=\"test\" title=\"Test\">%s"
                                          "</project>", inside);
  HwProject *project = hw_project_parse ("test", xml, strlen (xml), &error);

  g_assert_no_error (error);
  return project;
}
