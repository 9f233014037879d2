/* test-copies.c - conflicting copies: found, compared, merged by id
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "files/xml.h"
#include "model/copies.h"
#include "room-fixture.h"
#include "temp-folder.h"

#include <glib/gstdio.h>
#include <string.h>

#define PNS "xmlns=\"urn:handwheel:project:1\""
#define SKIRT "<project " PNS " id=\"skirt\" title=\"%s\">" \
              "<fabrics><fabric id=\"shell\" handbook=\"denim\"/>%s</fabrics>" \
              "<threads><thread id=\"main\" handbook=\"polyester-27\"/></threads><steps>" \
              "<operation number=\"1\" name=\"Darts\" purpose=\"seam\" length-cm=\"%d\">" \
              "<ply fabric=\"shell\" count=\"2\"/>" \
              "</operation>%s</steps></project>\n"
#define PRESS "<hand number=\"2\" name=\"Press\" after=\"1\" kind=\"press\" minutes=\"4\"/>"
#define HEM "<operation number=\"3\" name=\"Hem\" after=\"1\" purpose=\"hem\" length-cm=\"200\">" \
            "<ply fabric=\"lining\"/>" \
            "</operation>"
#define LINING "<fabric id=\"lining\" handbook=\"lining\"/>"
#define NEEDLE "<needle id=\"%s\" system=\"household\" point=\"universal\" nm=\"%d\" count=\"5\"/>"

/* What file-sync services and people call the second file. */
static const char * const patterns[] = {
  "%s (conflicted copy 2031-05-09 140300)%s", "%s (Ada's conflicted copy 2031-05-09)%s",
  "%s.sync-conflict-20310509-140300%s",
  "%s (1)%s", "%s - Copy%s", "%s_conflict-20310509-140300%s", "%s (Konflikt)%s", "%s [2]%s", "%s copy%s",
  "%s (case conflict)%s",
};

static char *
name_copy (gsize       pattern,
           const char *stem,
           const char *ending)
{
  g_auto (GStrv) parts = g_strsplit (patterns[pattern], "%s", 3);

  return g_strconcat (parts[0], stem, parts[1], ending, parts[2], NULL);
}

static void
write_skirt (const char *folder,
             const char *name,
             const char *title,
             const char *fabrics,
             int         length,
             const char *steps)
{
  g_autofree char *text = g_strdup_printf (SKIRT, title, fabrics, length, steps);

  temp_folder_write (folder, name, text, -1);
}

static void
write_needles (const char *folder,
               const char *name,
               const char *first,
               int         nm,
               const char *second)
{
  g_autofree char *text = g_strdup_printf ("<needles " NS ">" NEEDLE NEEDLE "</needles>", first, nm, second, 90);

  temp_folder_write (folder, name, text, -1);
}

/* "WHAT: HERE / THERE", a line each, sorted as they come. */
static char *
tell (const HwCopy *copy)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) differences = hw_copy_compare (copy, &error);
  GString *told = g_string_new (NULL);

  g_assert_no_error (error);
  for (guint i = 0; i < differences->len; i++)
    {
      const HwCopyDifference *difference = g_ptr_array_index (differences, i);
      g_string_append_printf (told, "%s: %s / %s\n", difference->what,
                              difference->here != NULL ? difference->here : "-",
                              difference->there != NULL ? difference->there : "-");
    }
  return g_string_free (told, FALSE);
}

static HwCopy *
find_one (const char *folder,
          GPtrArray **copies)
{
  *copies = hw_copies_find (folder);
  g_assert_cmpuint ((*copies)->len, ==, 1);
  return g_ptr_array_index (*copies, 0);
}

static void
merge_one (const char *folder,
           gboolean    prefer_copy)
{
  g_autoptr (GPtrArray) copies = NULL;
  g_autoptr (GPtrArray) after = NULL;
  g_autoptr (GError) error = NULL;
  HwCopy *copy = find_one (folder, &copies);
  g_autofree char *aside = g_strconcat (copy->copy, "~", NULL);

  g_assert_true (hw_copy_merge (copy, prefer_copy, &error));
  g_assert_no_error (error);
  g_assert_false (g_file_test (copy->copy, G_FILE_TEST_EXISTS));
  g_assert_true (g_file_test (aside, G_FILE_TEST_EXISTS));
  after = hw_copies_find (folder);
  g_assert_cmpuint (after->len, ==, 0);
}

static void
test_none (RoomFixture   *fixture,
           gconstpointer  data)
{
  g_autoptr (GPtrArray) copies = NULL;
  g_autoptr (GPtrArray) nowhere = hw_copies_find ("/nowhere/at/all");

  room_fixture_make_folder (fixture->folder, "projects");
  write_skirt (fixture->folder, "projects/skirt.handwheel", "Skirt", "", 40, PRESS);
  temp_folder_write (fixture->folder, "projects/notes.handwheel", "not XML at all", -1);
  temp_folder_write (fixture->folder, "projects/other.handwheel", "<project " PNS " id=\"other\" title=\"O\"/>", -1);
  temp_folder_write (fixture->folder, "projects/skirt.handwheel~", "<project " PNS " id=\"skirt\" title=\"O\"/>", -1);
  copies = hw_copies_find (fixture->folder);
  g_assert_cmpuint (copies->len, ==, 0);
  g_assert_cmpuint (nowhere->len, ==, 0);
}

/* Whatever the second file is called. */
static void
test_names (RoomFixture   *fixture,
            gconstpointer  data)
{
  static const struct { const char *folder, *stem, *ending, *text; } files[] = {
    { "projects/", "skirt", ".handwheel", "<project " PNS " title=\"Skirt\" id='skirt'/>" },
    { "machines/", "m", ".xml", MACHINE "</machine>" },
    { "journal/", "m-2031", ".xml", JOURNAL "</journal>" },
    { "", "needles", ".xml", "<?xml version=\"1.0\"?>\n<!-- mine -->\n<needles " NS "/>" },
    { "", "threads", ".xml", "<threads " NS "></threads>" },
    { "", "fabrics", ".xml", "<fabrics " NS "/>" },
    { "", "preferences", ".xml", "<preferences " NS " units=\"mm\"/>" },
  };

  room_fixture_make_folder (fixture->folder, "projects");
  room_fixture_make_folder (fixture->folder, "journal");
  for (gsize i = 0; i < G_N_ELEMENTS (files); i++)
    for (gsize pattern = 0; pattern < G_N_ELEMENTS (patterns); pattern++)
      {
        g_autofree char *own = g_strconcat (files[i].folder, files[i].stem, files[i].ending, NULL);
        g_autofree char *name = name_copy (pattern, files[i].stem, files[i].ending);
        g_autofree char *second = g_strconcat (files[i].folder, name, NULL);
        g_autofree char *own_path = g_build_filename (fixture->folder, own, NULL);
        g_autofree char *path = g_build_filename (fixture->folder, second, NULL);
        g_autoptr (GPtrArray) copies = NULL;
        g_autoptr (GError) error = NULL;
        g_autoptr (HwRoom) room = NULL;
        HwCopy *copy;

        temp_folder_write (fixture->folder, own, files[i].text, -1);
        temp_folder_write (fixture->folder, second, files[i].text, -1);
        copy = find_one (fixture->folder, &copies);
        g_assert_cmpstr (copy->copy, ==, path);
        g_assert_cmpstr (copy->file, ==, own_path);
        room = hw_room_open (fixture->folder, &error);           /* a copy keeps no room shut */
        g_assert_no_error (error);
        g_unlink (path);
      }
}

static void
test_project (RoomFixture   *fixture,
              gconstpointer  data)
{
  g_autoptr (GPtrArray) copies = NULL;
  g_autofree char *path = g_build_filename (fixture->folder, "projects", "skirt.handwheel", NULL);
  g_autofree char *told = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = NULL;

  room_fixture_make_folder (fixture->folder, "projects");
  write_skirt (fixture->folder, "projects/skirt.handwheel", "Skirt", "", 40, PRESS);
  write_skirt (fixture->folder, "projects/skirt (1).handwheel", "Long skirt", LINING, 44, HEM);
  told = tell (find_one (fixture->folder, &copies));
  g_assert_cmpstr (told, ==,
                   "title: Skirt / Long skirt\n"
                   "fabric lining: - / lining\n"
                   "hand 2: Press / -\n"
                   "operation 1 length-cm: 40 / 44\n"
                   "operation 3: - / Hem\n");
  merge_one (fixture->folder, FALSE);
  project = hw_project_read (path, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (project->title, ==, "Skirt");
  g_assert_cmpuint (project->steps->len, ==, 3);
  g_assert_cmpuint (project->fabrics->len, ==, 2);
  g_assert_cmpfloat (hw_project_get_step (project, 0)->length_cm, ==, 40);
  g_assert_cmpint (hw_project_find_step (project, "3"), ==, 2);
}

static void
test_prefer_copy (RoomFixture   *fixture,
                  gconstpointer  data)
{
  g_autofree char *path = g_build_filename (fixture->folder, "projects", "skirt.handwheel", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = NULL;

  room_fixture_make_folder (fixture->folder, "projects");
  write_skirt (fixture->folder, "projects/skirt.handwheel", "Skirt", "", 40, PRESS);
  write_skirt (fixture->folder, "projects/skirt (1).handwheel", "Long skirt", LINING, 44, HEM);
  merge_one (fixture->folder, TRUE);
  project = hw_project_read (path, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (project->title, ==, "Long skirt");
  g_assert_cmpuint (project->steps->len, ==, 3);
  g_assert_cmpfloat (hw_project_get_step (project, 0)->length_cm, ==, 44);
}

/* Each comes after the other's: both files stay as they are. */
static void
test_impossible (RoomFixture   *fixture,
                 gconstpointer  data)
{
  g_autoptr (GPtrArray) copies = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  HwCopy *copy;

  room_fixture_make_folder (fixture->folder, "projects");
  write_skirt (fixture->folder, "projects/skirt.handwheel", "Skirt", "", 40,
               "<hand number=\"4\" name=\"Press\" after=\"1\" kind=\"press\" minutes=\"4\"/>"
               "<hand number=\"5\" name=\"Turn\" after=\"4\" kind=\"turn\" minutes=\"4\"/>");
  write_skirt (fixture->folder, "projects/skirt (1).handwheel", "Skirt", "", 40,
               "<hand number=\"4\" name=\"Press\" after=\"6\" kind=\"press\" minutes=\"4\"/>"
               "<hand number=\"6\" name=\"Clip\" after=\"5\" kind=\"clip\" minutes=\"4\"/>"
               "<hand number=\"5\" name=\"Turn\" after=\"1\" kind=\"turn\" minutes=\"4\"/>");
  before = temp_folder_read (fixture->folder, "projects/skirt.handwheel");
  copy = find_one (fixture->folder, &copies);
  g_assert_true (hw_copy_merge (copy, FALSE, &error));           /* here 4 comes after 1 */
  g_assert_no_error (error);
  g_free (before);
  write_skirt (fixture->folder, "projects/skirt (2).handwheel", "Skirt", "", 40,
               "<hand number=\"1\" name=\"Darts\" after=\"7\" kind=\"sew\" minutes=\"4\"/>"
               "<hand number=\"7\" name=\"Turn\" kind=\"turn\" minutes=\"4\"/>");
  before = temp_folder_read (fixture->folder, "projects/skirt.handwheel");
  g_ptr_array_unref (g_steal_pointer (&copies));
  copy = find_one (fixture->folder, &copies);
  g_assert_false (hw_copy_merge (copy, FALSE, &error));
  g_assert_nonnull (error);
  after = temp_folder_read (fixture->folder, "projects/skirt.handwheel");
  g_assert_cmpstr (before, ==, after);
  g_assert_true (g_file_test (copy->copy, G_FILE_TEST_EXISTS));
}

static void
test_machine (RoomFixture   *fixture,
              gconstpointer  data)
{
  g_autoptr (GPtrArray) copies = NULL;
  g_autofree char *told = NULL;
  g_autoptr (HwRoom) room = NULL;

  temp_folder_write (fixture->folder, "machines/m.xml",
                     MACHINE "<foot id=\"edge\"/><care id=\"dust\" limit=\"3\"/></machine>", -1);
  temp_folder_write (fixture->folder, "machines/m (conflicted copy).xml",
                     MACHINE "<foot id=\"zip\"/><care id=\"dust\" limit=\"5\"/></machine>", -1);
  told = tell (find_one (fixture->folder, &copies));
  g_assert_cmpstr (told, ==, "foot edge: edge / -\nfoot zip: - / zip\ncare dust limit: 3 / 5\n");
  merge_one (fixture->folder, FALSE);
  room = room_fixture_open (fixture->folder);
  g_assert_cmpuint (g_strv_length (hw_room_find_machine (room, "m")->feet), ==, 2);
  g_assert_cmpfloat (hw_room_find_machine (room, "m")->care[0].limit, ==, 3);
}

static void
test_needles (RoomFixture   *fixture,
              gconstpointer  data)
{
  g_autoptr (HwRoom) room = NULL;

  write_needles (fixture->folder, "needles.xml", "a", 80, "b");
  write_needles (fixture->folder, "needles - Copy.xml", "a", 70, "c");
  merge_one (fixture->folder, FALSE);
  room = room_fixture_open (fixture->folder);
  g_assert_cmpuint (room->packets->len, ==, 3);
  g_assert_cmpint (((HwPacket *) room->packets->pdata[0])->nm, ==, 80);
  g_assert_cmpstr (((HwPacket *) room->packets->pdata[2])->id, ==, "c");
}

static void
test_shelf (RoomFixture   *fixture,
            gconstpointer  data)
{
  g_autoptr (HwRoom) room = NULL;

  temp_folder_write (fixture->folder, "threads.xml", "<threads " NS "><thread id=\"a\" handbook=\"p\" colour=\"red\" "
                     "metres=\"100\" counted=\"2031-05-09T14:03:00Z\"/></threads>", -1);
  temp_folder_write (fixture->folder, "threads (1).xml", "<threads " NS "><thread id=\"b\" handbook=\"p\" "
                     "colour=\"blue\" metres=\"100\" counted=\"2031-05-09T14:03:00Z\"/></threads>", -1);
  merge_one (fixture->folder, FALSE);
  temp_folder_write (fixture->folder, "fabrics.xml", "<fabrics " NS "/>", -1);
  temp_folder_write (fixture->folder, "fabrics (1).xml", "<fabrics " NS "><fabric id=\"s\" name=\"Sheet\" "
                     "handbook=\"m\"/></fabrics>", -1);
  merge_one (fixture->folder, FALSE);
  temp_folder_write (fixture->folder, "preferences.xml", "<preferences " NS " units=\"mm\"><change part=\"walk\" "
                     "minutes=\"2\"/><queue><project id=\"a\"/></queue></preferences>", -1);
  temp_folder_write (fixture->folder, "preferences (1).xml", "<preferences " NS " units=\"inch\"><change part=\"foot\" "
                     "minutes=\"1\"/><queue><project id=\"b\"/></queue></preferences>", -1);
  merge_one (fixture->folder, FALSE);
  room = room_fixture_open (fixture->folder);
  g_assert_cmpuint (room->spools->len, ==, 2);
  g_assert_cmpuint (room->cloths->len, ==, 1);
  g_assert_cmpstr (room->preferences->units, ==, "mm");
  g_assert_cmpuint (g_strv_length (room->preferences->queue), ==, 2);
}

static void
test_journal (RoomFixture   *fixture,
              gconstpointer  data)
{
  g_autoptr (HwRoom) room = NULL;
  g_autofree char *text = NULL;

  room_fixture_make_folder (fixture->folder, "journal");
  temp_folder_write (fixture->folder, "journal/m-2031.xml", JOURNAL
                     "<sewing id=\"a\" time=\"2031-05-09T14:00:00Z\" minutes=\"10\"/>"
                     "<sewing id=\"b\" time=\"2031-05-09T15:00:00Z\" minutes=\"10\"/></journal>", -1);
  temp_folder_write (fixture->folder, "journal/m-2031 (conflicted copy).xml", JOURNAL
                     "<sewing id=\"a\" time=\"2031-05-09T14:00:00Z\" minutes=\"10\"/>"
                     "<sewing id=\"c\" time=\"2031-05-09T14:30:00Z\" minutes=\"20\"/></journal>", -1);
  room = room_fixture_open (fixture->folder);
  g_assert_cmpuint (room->entries->len, ==, 3);                  /* before they are merged, too */
  hw_room_unref (g_steal_pointer (&room));
  merge_one (fixture->folder, FALSE);
  room = room_fixture_open (fixture->folder);
  g_assert_cmpuint (room->entries->len, ==, 3);
  text = temp_folder_read (fixture->folder, "journal/m-2031.xml");
  g_assert_nonnull (strstr (text, "id=\"c\""));
}

/* A copy that cannot be read is told of, and stays. */
static void
test_damaged (RoomFixture   *fixture,
              gconstpointer  data)
{
  g_autoptr (GPtrArray) copies = NULL;
  g_autoptr (GError) error = NULL;
  HwCopy *copy;

  write_needles (fixture->folder, "needles.xml", "a", 80, "b");
  temp_folder_write (fixture->folder, "needles (1).xml", "<needles " NS "><needle id=\"a\"", -1);
  copy = find_one (fixture->folder, &copies);
  g_assert_null (hw_copy_compare (copy, &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_MALFORMED);
  g_clear_error (&error);
  g_assert_false (hw_copy_merge (copy, TRUE, &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_MALFORMED);
  g_assert_true (g_file_test (copy->copy, G_FILE_TEST_EXISTS));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/copies/none", test_none);
  ADD ("/copies/names", test_names);
  ADD ("/copies/project", test_project);
  ADD ("/copies/prefer-copy", test_prefer_copy);
  ADD ("/copies/impossible", test_impossible);
  ADD ("/copies/machine", test_machine);
  ADD ("/copies/needles", test_needles);
  ADD ("/copies/shelf", test_shelf);
  ADD ("/copies/journal", test_journal);
  ADD ("/copies/damaged", test_damaged);
  return g_test_run ();
}
