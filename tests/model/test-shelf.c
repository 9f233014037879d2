/* test-shelf.c - needles, thread and fabrics on hand, preferences, machines: what the person enters
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "room-fixture.h"
#include "temp-folder.h"

#include <math.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

/* Takes @next, which must be there. */
static void
take (HwRoom **room,
      HwRoom  *next,
      GError  *error)
{
  g_assert_no_error (error);
  hw_room_unref (*room);
  *room = next;
}

static HwSpool *
make_spool (const char *id,
            double      metres)
{
  HwSpool *spool = hw_spool_new (id, "core-30", "navy & white");

  spool->tex = 30;
  spool->metres = metres;
  spool->counted = g_strdup ("2031-01-01T00:00:00Z");
  return spool;
}

static GPtrArray *
new_spools (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) hw_spool_free);
}

static void
test_spools (RoomFixture  *fixture,
             gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwRoom) again = NULL;
  g_autoptr (GPtrArray) spools = new_spools ();
  GError *error = NULL;
  HwSpool *spool = make_spool ("a", 120.5);
  const HwSpool *read;

  spool->snap = HW_SNAP_WEAK;
  spool->note = g_strdup ("from the attic,\n\"old\"");
  g_ptr_array_add (spools, spool);
  g_ptr_array_add (spools, make_spool ("b", 0));
  take (&room, hw_room_with_spools (room, spools, &error), error);
  room_fixture_follows_schema (fixture->folder, "threads.xml", "threads");
  again = room_fixture_open (fixture->folder);
  g_assert_cmpuint (again->spools->len, ==, 2);
  read = again->spools->pdata[0];
  g_assert_cmpstr (read->colour, ==, "navy & white");
  g_assert_cmpstr (read->note, ==, "from the attic,\n\"old\"");
  g_assert_cmpint (read->snap, ==, HW_SNAP_WEAK);
  g_assert_cmpfloat (read->metres, ==, 120.5);
  g_assert_cmpuint (room->spools->len, ==, 2);
}

static void
test_cloths (RoomFixture  *fixture,
             gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwRoom) again = NULL;
  g_autoptr (GPtrArray) cloths = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_shelf_cloth_free);
  HwShelfCloth *cloth = hw_shelf_cloth_new ("shirting", "Blue shirting");
  GError *error = NULL;
  const HwShelfCloth *read;

  cloth->handbook = g_strdup ("cotton-poplin");
  cloth->mass_g_m2 = 118;
  cloth->thickness_mm = 0.24;
  cloth->width_cm = 140;
  cloth->metres = 2.3;
  g_strfreev (cloth->traits);
  cloth->traits = g_strsplit ("fraying sheer", " ", -1);
  g_ptr_array_add (cloths, cloth);
  take (&room, hw_room_with_cloths (room, cloths, &error), error);
  room_fixture_follows_schema (fixture->folder, "fabrics.xml", "fabrics");
  again = room_fixture_open (fixture->folder);
  read = again->cloths->pdata[0];
  g_assert_cmpstr (read->name, ==, "Blue shirting");
  g_assert_cmpfloat (read->thickness_mm, ==, 0.24);
  g_assert_cmpfloat (read->stretch_percent, ==, -1);
  g_assert_cmpstr (read->traits[1], ==, "sheer");

  /* An own fabric without mass and thickness is refused, and the file stays. */
  g_clear_pointer (&cloth->handbook, g_free);
  cloth->construction = g_strdup ("plain");
  cloth->mass_g_m2 = cloth->thickness_mm = 0;
  g_assert_null (hw_room_with_cloths (room, cloths, &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID);
  g_clear_error (&error);
  g_clear_pointer (&again, hw_room_unref);
  again = room_fixture_open (fixture->folder);
  g_assert_cmpfloat (((HwShelfCloth *) again->cloths->pdata[0])->mass_g_m2, ==, 118);
}

static void
test_packets (RoomFixture  *fixture,
              gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwRoom) again = NULL;
  g_autoptr (GPtrArray) packets = g_ptr_array_new ();
  HwPacket packet = { (char *) "j90", (char *) "household", (char *) "jeans", 90, 0, 4 };
  GError *error = NULL;

  g_ptr_array_add (packets, room->packets->pdata[0]);
  g_ptr_array_add (packets, &packet);
  take (&room, hw_room_with_packets (room, packets, &error), error);
  again = room_fixture_open (fixture->folder);
  g_assert_cmpuint (again->packets->len, ==, 2);
  g_assert_cmpint (((HwPacket *) again->packets->pdata[1])->count, ==, 4);
  g_ptr_array_index (packets, 0) = room->packets->pdata[0];
  packet.id = (char *) "r80";
  g_assert_null (hw_room_with_packets (room, packets, &error));
  g_assert_nonnull (strstr (error->message, "twice"));
  g_clear_error (&error);
}

static void
test_preferences (RoomFixture  *fixture,
                  gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwRoom) again = NULL;
  g_autoptr (HwPreferences) wanted = hw_preferences_copy (room->preferences);
  GError *error = NULL;

  g_assert_cmpfloat (wanted->hours_a_week, ==, 6);
  wanted->hours_a_week = 9.5;
  wanted->units = g_strdup ("inch");
  wanted->paper = g_strdup ("letter");
  wanted->change_minutes[HW_CHANGE_PART_NEEDLE] = 2.5;
  g_strfreev (wanted->queue);
  wanted->queue = g_strsplit ("cape skirt", " ", -1);
  take (&room, hw_room_with_preferences (room, wanted, &error), error);
  room_fixture_follows_schema (fixture->folder, "preferences.xml", "preferences");
  again = room_fixture_open (fixture->folder);
  g_assert_cmpfloat (again->preferences->hours_a_week, ==, 9.5);
  g_assert_cmpstr (again->preferences->units, ==, "inch");
  g_assert_cmpstr (again->preferences->paper, ==, "letter");
  g_assert_cmpfloat (again->preferences->change_minutes[HW_CHANGE_PART_NEEDLE], ==, 2.5);
  g_assert_true (isnan (again->preferences->change_minutes[HW_CHANGE_PART_FOOT]));
  g_assert_cmpstr (again->preferences->queue[1], ==, "skirt");

  wanted->hours_a_week = 0;
  g_assert_null (hw_room_with_preferences (room, wanted, &error));
  g_assert_nonnull (strstr (error->message, "hours-a-week"));
  g_clear_error (&error);
}

/* What is not the journal's goes through every entry. */
static void
test_append_keeps_shelf (RoomFixture  *fixture,
                         gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (GPtrArray) spools = new_spools ();
  g_autoptr (HwPreferences) wanted = hw_preferences_copy (room->preferences);
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_SEWING, "m");
  GError *error = NULL;

  wanted->hours_a_week = 3;
  entry->minutes = 30;
  g_ptr_array_add (spools, make_spool ("a", 50));
  take (&room, hw_room_with_preferences (room, wanted, &error), error);
  take (&room, hw_room_with_spools (room, spools, &error), error);
  take (&room, hw_room_append (room, entry, &error), error);
  g_assert_cmpuint (room->spools->len, ==, 1);
  g_assert_cmpfloat (room->preferences->hours_a_week, ==, 3);
  take (&room, hw_room_with_packets (room, room->packets, &error), error);
  g_assert_cmpuint (room->entries->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (hw_room_get_state (room, hw_room_find_machine (room, "m"))->at_machine_hours, 10.5,
                                  1e-9);
}

/* A cut of 20 × 25 cm that weighs 6 g: 120 g/m²; ten layers 2.5 mm high: 0.25 mm. */
static void
test_measures (void)
{
  g_assert_cmpfloat_with_epsilon (hw_cut_mass_g_m2 (6, 20, 25), 120, 1e-9);
  g_assert_cmpfloat (hw_cut_mass_g_m2 (6, 0, 25), ==, 0);
  g_assert_cmpfloat_with_epsilon (hw_pile_thickness_mm (2.5, 10), 0.25, 1e-9);
  g_assert_cmpfloat (hw_pile_thickness_mm (2.5, 0), ==, 0);
}

/* ---- two at once ---- */

static HwSpool *
spool_of (const HwRoom *room,
          const char   *id)
{
  for (guint i = 0; i < room->spools->len; i++)
    if (strcmp (((HwSpool *) room->spools->pdata[i])->id, id) == 0)
      return room->spools->pdata[i];
  return NULL;
}

/* One window recounts "a" and takes "d" out, the other recounts "b" and adds "c": all of it stands. */
static void
test_merge (RoomFixture  *fixture,
            gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwRoom) other = NULL;
  g_autoptr (GPtrArray) spools = new_spools ();
  g_autoptr (GPtrArray) mine = new_spools ();
  g_autoptr (GPtrArray) theirs = new_spools ();
  GError *error = NULL;

  g_ptr_array_add (spools, make_spool ("a", 10));
  g_ptr_array_add (spools, make_spool ("b", 20));
  g_ptr_array_add (spools, make_spool ("d", 40));
  take (&room, hw_room_with_spools (room, spools, &error), error);
  other = room_fixture_open (fixture->folder);

  g_ptr_array_add (mine, make_spool ("a", 11));
  g_ptr_array_add (mine, make_spool ("b", 20));
  take (&room, hw_room_with_spools (room, mine, &error), error);
  g_ptr_array_add (theirs, make_spool ("a", 10));
  g_ptr_array_add (theirs, make_spool ("b", 22));
  g_ptr_array_add (theirs, make_spool ("c", 30));
  g_ptr_array_add (theirs, make_spool ("d", 40));
  take (&other, hw_room_with_spools (other, theirs, &error), error);
  g_assert_cmpuint (other->spools->len, ==, 3);
  g_assert_cmpfloat (spool_of (other, "a")->metres, ==, 11);
  g_assert_cmpfloat (spool_of (other, "b")->metres, ==, 22);
  g_assert_nonnull (spool_of (other, "c"));
  g_assert_null (spool_of (other, "d"));
}

static void
test_merge_refused (RoomFixture  *fixture,
                    gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwRoom) other = NULL;
  g_autoptr (GPtrArray) spools = new_spools ();
  GError *error = NULL;
  HwSpool *spool = make_spool ("a", 10);
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;

  g_ptr_array_add (spools, spool);
  take (&room, hw_room_with_spools (room, spools, &error), error);
  other = room_fixture_open (fixture->folder);
  spool->metres = 11;
  take (&room, hw_room_with_spools (room, spools, &error), error);
  before = temp_folder_read (fixture->folder, "threads.xml");
  spool->metres = 12;
  g_assert_null (hw_room_with_spools (other, spools, &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_CHANGED);
  g_assert_true (g_str_has_prefix (error->message, "threads.xml: “a”"));
  g_clear_error (&error);
  after = temp_folder_read (fixture->folder, "threads.xml");
  g_assert_cmpstr (before, ==, after);

  /* The same change twice is no clash. */
  spool->metres = 11;
  take (&other, hw_room_with_spools (other, spools, &error), error);
}

static void
test_merge_preferences (RoomFixture  *fixture,
                        gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwRoom) other = hw_room_ref (room);
  g_autoptr (HwPreferences) mine = hw_preferences_copy (room->preferences);
  g_autoptr (HwPreferences) theirs = hw_preferences_copy (room->preferences);
  GError *error = NULL;

  mine->hours_a_week = 4;
  theirs->change_minutes[HW_CHANGE_PART_FOOT] = 2;
  take (&room, hw_room_with_preferences (room, mine, &error), error);
  take (&other, hw_room_with_preferences (other, theirs, &error), error);
  g_assert_cmpfloat (other->preferences->hours_a_week, ==, 4);
  g_assert_cmpfloat (other->preferences->change_minutes[HW_CHANGE_PART_FOOT], ==, 2);
  mine->change_minutes[HW_CHANGE_PART_FOOT] = 3;
  g_assert_null (hw_room_with_preferences (room, mine, &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_CHANGED);
  g_clear_error (&error);
}

static gboolean
add_spool (const char *folder,
           int         process,
           int         i)
{
  g_autofree char *id = g_strdup_printf ("s-%d-%d", process, i);
  g_autoptr (HwSpool) spool = make_spool (id, i);
  g_autoptr (HwRoom) room = hw_room_open (folder, NULL);
  g_autoptr (GPtrArray) spools = g_ptr_array_new ();
  g_autoptr (HwRoom) next = NULL;

  g_ptr_array_extend (spools, room->spools, NULL, NULL);
  g_ptr_array_add (spools, spool);
  next = hw_room_with_spools (room, spools, NULL);
  return next != NULL;
}

/* Four processes add 25 spools each: 100 stand in the end. */
static void
test_processes (RoomFixture  *fixture,
                gconstpointer data)
{
  g_autoptr (HwRoom) room = NULL;

  for (int process = 0; process < 4; process++)
    if (fork () == 0)
      {
        gboolean good = TRUE;

        for (int i = 0; i < 25 && good; i++)
          good = add_spool (fixture->folder, process, i);
        _exit (good ? 0 : 1);
      }
  for (int process = 0; process < 4; process++)
    {
      int status;

      g_assert_cmpint (wait (&status), >, 0);
      g_assert_cmpint (status, ==, 0);
    }
  room = room_fixture_open (fixture->folder);
  g_assert_cmpuint (room->spools->len, ==, 100);
}

/* ---- machines ---- */

static void
test_machine (RoomFixture  *fixture,
              gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwRoom) again = NULL;
  g_autoptr (HwMachine) machine = hw_machine_copy (hw_room_find_machine (room, "m"));
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  GError *error = NULL;

  g_free (machine->name);
  machine->name = g_strdup ("New name & co");
  machine->dial.neutral = 4.5;
  machine->start_hours = 20;
  take (&room, hw_room_with_machine (room, machine, &error), error);
  g_assert_cmpfloat (hw_room_get_state (room, hw_room_find_machine (room, "m"))->at_machine_hours, ==, 20);
  again = room_fixture_open (fixture->folder);
  g_assert_cmpstr (hw_room_find_machine (again, "m")->name, ==, "New name & co");
  room_fixture_follows_schema (fixture->folder, "machines/m.xml", "machine");

  before = temp_folder_read (fixture->folder, "machines/m.xml");
  machine->dial.neutral = 12;
  g_assert_null (hw_room_with_machine (room, machine, &error));
  g_assert_nonnull (strstr (error->message, "dial-neutral"));
  g_clear_error (&error);
  machine->dial.neutral = 4;
  machine->speed_spm = 0;
  g_assert_null (hw_room_with_machine (room, machine, &error));
  g_assert_nonnull (strstr (error->message, "speed"));
  g_clear_error (&error);
  g_free (machine->id);
  machine->id = g_strdup ("../m");
  g_assert_null (hw_room_with_machine (room, machine, &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID);
  g_clear_error (&error);
  after = temp_folder_read (fixture->folder, "machines/m.xml");
  g_assert_cmpstr (before, ==, after);
}

static void
test_machine_changed (RoomFixture  *fixture,
                      gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwRoom) other = hw_room_ref (room);
  g_autoptr (HwMachine) machine = hw_machine_copy (hw_room_find_machine (room, "m"));
  GError *error = NULL;

  machine->speed_spm = 900;
  take (&room, hw_room_with_machine (room, machine, &error), error);
  machine->speed_spm = 1000;
  g_assert_null (hw_room_with_machine (other, machine, &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_CHANGED);
  g_clear_error (&error);
}

static void
test_without_machine (RoomFixture  *fixture,
                      gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwMachine) machine = hw_machine_copy (hw_room_find_machine (room, "m"));
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_CARE, "m");
  g_autofree char *kept = NULL;
  GError *error = NULL;

  g_assert_null (hw_room_without_machine (room, "m", &error));
  g_assert_nonnull (strstr (error->message, "only machine"));
  g_clear_error (&error);
  g_free (machine->id);
  machine->id = g_strdup ("m-2");
  take (&room, hw_room_with_machine (room, machine, &error), error);
  entry->task = g_strdup ("dust");
  take (&room, hw_room_append (room, entry, &error), error);
  g_assert_null (hw_room_without_machine (room, "m", &error));
  g_assert_nonnull (strstr (error->message, "journal"));
  g_clear_error (&error);
  take (&room, hw_room_without_machine (room, "m-2", &error), error);
  g_assert_cmpuint (room->machines->len, ==, 1);
  kept = temp_folder_read (fixture->folder, "machines/m-2.xml~");
  g_assert_nonnull (kept);
  g_assert_null (temp_folder_read (fixture->folder, "machines/m-2.xml"));
  g_assert_null (hw_room_without_machine (room, "m-2", &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN);
  g_clear_error (&error);
}

/* A room shown before it was furnished is furnished by the first change. */
static void
test_bare_room (void)
{
  char *folder = temp_folder_new ();
  g_autoptr (HwRoom) room = hw_room_new_default (folder);
  g_autoptr (GPtrArray) packets = g_ptr_array_new ();
  g_autoptr (HwRoom) again = NULL;
  guint n = room->packets->len;
  GError *error = NULL;

  for (guint i = 1; i < n; i++)
    g_ptr_array_add (packets, room->packets->pdata[i]);
  take (&room, hw_room_with_packets (room, packets, &error), error);
  again = room_fixture_open (folder);
  g_assert_cmpuint (again->machines->len, ==, 2);
  g_assert_cmpuint (again->packets->len, ==, n - 1);
  temp_folder_remove (folder);
}

/* ---- what is refused, with file and line ---- */

typedef struct
{
  const char *path;
  const char *file;
  const char *data;
  const char *start;
  const char *part;
} BadCase;

#define THREADS "<threads " NS ">\n"
#define FABRICS "<fabrics " NS ">\n"
#define PREFERENCES "<preferences " NS

static const BadCase bad_cases[] = {
  { "/shelf/bad/thread-colour", "threads.xml", THREADS "<thread id=\"a\" handbook=\"core\" metres=\"1\" "
    "counted=\"2031-01-01T00:00:00Z\"/></threads>", "threads.xml:2: ", "colour" },
  { "/shelf/bad/thread-metres", "threads.xml", THREADS "<thread id=\"a\" handbook=\"core\" colour=\"navy\" "
    "metres=\"-1\" counted=\"2031-01-01T00:00:00Z\"/></threads>", "threads.xml:2: ", "metres" },
  { "/shelf/bad/thread-counted", "threads.xml", THREADS "<thread id=\"a\" handbook=\"core\" colour=\"navy\" "
    "metres=\"1\" counted=\"last week\"/></threads>", "threads.xml:2: ", "moment" },
  { "/shelf/bad/thread-snap", "threads.xml", THREADS "<thread id=\"a\" handbook=\"core\" colour=\"navy\" "
    "metres=\"1\" counted=\"2031-01-01T00:00:00Z\" snap=\"god\"/></threads>", "threads.xml:2: ", "good" },
  { "/shelf/bad/thread-twice", "threads.xml", THREADS "<thread id=\"a\" handbook=\"core\" colour=\"navy\" "
    "metres=\"1\" counted=\"2031-01-01T00:00:00Z\"/>\n<thread id=\"a\" handbook=\"core\" colour=\"red\" "
    "metres=\"1\" counted=\"2031-01-01T00:00:00Z\"/></threads>", "threads.xml:3: ", "twice" },
  { "/shelf/bad/fabric-own", "fabrics.xml", FABRICS "<fabric id=\"a\" name=\"A\" construction=\"plain\"/></fabrics>",
    "fabrics.xml:2: ", "mass" },
  { "/shelf/bad/fabric-thickness", "fabrics.xml", FABRICS "<fabric id=\"a\" name=\"A\" handbook=\"b\" "
    "thickness=\"0.3 mm\"/></fabrics>", "fabrics.xml:2: ", "thickness" },
  { "/shelf/bad/fabric-attribute", "fabrics.xml", FABRICS "<fabric id=\"a\" name=\"A\" handbook=\"b\" "
    "thicknes=\"0.3\"/></fabrics>", "fabrics.xml:2: ", "did you mean “thickness”" },
  { "/shelf/bad/preferences-hours", "preferences.xml", PREFERENCES " hours-a-week=\"200\"/>", "preferences.xml:1: ",
    "168" },
  { "/shelf/bad/preferences-paper", "preferences.xml", PREFERENCES " paper=\"a7\"/>", "preferences.xml:1: ", "a5" },
  { "/shelf/bad/preferences-change", "preferences.xml", PREFERENCES ">\n<change part=\"foot\" minutes=\"1\"/>\n"
    "<change part=\"foot\" minutes=\"2\"/></preferences>", "preferences.xml:3: ", "twice" },
  { "/shelf/bad/preferences-queue", "preferences.xml", PREFERENCES ">\n<queue><project id=\"a\"/>\n"
    "<project id=\"a\"/></queue></preferences>", "preferences.xml:3: ", "twice" },
  { "/shelf/bad/preferences-child", "preferences.xml", PREFERENCES ">\n<que/></preferences>", "preferences.xml:2: ",
    "queue" },
};

static void
test_bad (RoomFixture  *fixture,
          gconstpointer data)
{
  const BadCase *bad = data;
  g_autoptr (GError) error = NULL;

  temp_folder_write (fixture->folder, bad->file, bad->data, -1);
  g_assert_null (hw_room_open (fixture->folder, &error));
  g_assert_nonnull (error);
  g_assert_true (g_str_has_prefix (error->message, bad->start));
  g_assert_nonnull (strstr (error->message, bad->part));
  g_assert_null (strchr (error->message, '\n'));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  ADD ("/shelf/spools", test_spools);
  ADD ("/shelf/cloths", test_cloths);
  ADD ("/shelf/packets", test_packets);
  ADD ("/shelf/preferences", test_preferences);
  ADD ("/shelf/append-keeps-shelf", test_append_keeps_shelf);
  ADD ("/shelf/merge", test_merge);
  ADD ("/shelf/merge-refused", test_merge_refused);
  ADD ("/shelf/merge-preferences", test_merge_preferences);
  ADD ("/shelf/processes", test_processes);
  ADD ("/shelf/machine", test_machine);
  ADD ("/shelf/machine-changed", test_machine_changed);
  ADD ("/shelf/without-machine", test_without_machine);
  g_test_add_func ("/shelf/bare-room", test_bare_room);
  g_test_add_func ("/shelf/measures", test_measures);
  for (gsize i = 0; i < G_N_ELEMENTS (bad_cases); i++)
    g_test_add (bad_cases[i].path, RoomFixture, &bad_cases[i], room_fixture_set_up, test_bad, room_fixture_tear_down);
  return g_test_run ();
}
