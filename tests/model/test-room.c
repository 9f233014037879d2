/* test-room.c - the sewing room and its journal
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "files/save.h"
#include "files/xml.h"
#include "model/room.h"
#include "room-fixture.h"
#include "temp-folder.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static void
append (HwRoom              **room,
        const HwJournalEntry *entry)
{
  g_autoptr (GError) error = NULL;
  HwRoom *next = hw_room_append (*room, entry, &error);

  g_assert_no_error (error);
  hw_room_unref (*room);
  *room = next;
}

static HwJournalEntry *
make_sewing (const char *time,
             double      minutes,
             double      running)
{
  HwJournalEntry *entry = hw_journal_entry_new (HW_ENTRY_SEWING, "m");

  g_free (entry->time);
  entry->time = g_strdup (time);
  entry->minutes = minutes;
  entry->running = running;
  return entry;
}

static HwJournalEntry *
make_load (const char *time,
           const char *needle,
           const char *packet)
{
  HwJournalEntry *entry = hw_journal_entry_new (HW_ENTRY_LOAD, "m");

  g_free (entry->time);
  entry->time = g_strdup (time);
  entry->needle = g_strdup (needle);
  entry->packet = g_strdup (packet);
  entry->system = g_strdup ("household");
  entry->point = g_strdup ("round");
  entry->nm = 80;
  entry->needle_thread = g_strdup ("navy tex 30");
  return entry;
}

static char *
cancel (HwRoom    **room,
        const char *of)
{
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_CANCEL, "m");

  g_free (entry->time);
  entry->time = g_strdup ("2031-12-31T12:00:00Z");
  entry->of = g_strdup (of);
  append (room, entry);
  return g_strdup (entry->id);
}

/* Everything derived and every entry, as text. */
static char *
describe (const HwRoom *room)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < room->machines->len; i++)
    {
      const HwMachine *machine = g_ptr_array_index (room->machines, i);
      const HwMachineState *state = hw_room_get_state (room, machine);

      g_string_append_printf (text, "%s %.9g %.9g %s %s %s %s %s\n", machine->id, state->at_machine_hours,
                              state->running_hours, state->needle != NULL ? state->needle->id : "-",
                              state->needle_thread, state->bobbin_thread, state->foot, state->plate);
    }
  for (guint i = 0; i < room->needles->len; i++)
    {
      const HwNeedle *needle = g_ptr_array_index (room->needles, i);

      g_string_append_printf (text, "%s %s %d %.9g %.9g %s %d\n", needle->id, needle->packet, needle->nm,
                              needle->at_machine_hours, needle->running_hours, needle->machine, needle->discarded);
    }
  for (guint i = 0; i < room->entries->len; i++)
    {
      const HwJournalEntry *entry = g_ptr_array_index (room->entries, i);

      g_string_append_printf (text, "%s %s %s %s %d\n", hw_entry_kind_ids[entry->kind], entry->id, entry->time,
                              entry->machine, g_hash_table_contains (room->cancelled, entry->id));
    }
  return g_string_free (text, FALSE);
}

static void
assert_reopens_same (const HwRoom *room)
{
  g_autoptr (HwRoom) again = room_fixture_open (room->folder);
  g_autofree char *here = describe (room);
  g_autofree char *there = describe (again);

  g_assert_cmpstr (here, ==, there);
}

static double
hours (const HwRoom *room)
{
  return hw_room_get_state (room, hw_room_find_machine (room, "m"))->at_machine_hours;
}

static const HwNeedle *
needle_in (const HwRoom *room)
{
  return hw_room_get_state (room, hw_room_find_machine (room, "m"))->needle;
}

static const HwNeedle *
find_needle (const HwRoom *room,
             const char   *id)
{
  for (guint i = 0; i < room->needles->len; i++)
    if (g_str_equal (((HwNeedle *) room->needles->pdata[i])->id, id))
      return room->needles->pdata[i];
  return NULL;
}

#define assert_near(is, expected) g_assert_cmpfloat_with_epsilon (is, expected, 1e-9)

/* ---- rooms ---- */

static void
test_missing_folder (void)
{
  g_autoptr (HwRoom) room = room_fixture_open ("/nowhere/at/all");

  g_assert_cmpuint (room->machines->len, ==, 0);
  g_assert_cmpuint (room->entries->len, ==, 0);
  g_assert_null (hw_room_default_machine (room, HW_MACHINE_LOCKSTITCH));
}

static void
test_create (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = temp_folder_new ();
  g_autofree char *inner = g_build_filename (folder, "new", "room", NULL);
  g_autoptr (HwRoom) expected = hw_room_new_default (inner);
  g_autoptr (HwRoom) room = NULL;
  const HwMachine *lockstitch;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;

  g_assert_true (hw_room_create (inner, &error));
  g_assert_no_error (error);
  room = room_fixture_open (inner);
  g_assert_cmpuint (room->machines->len, ==, 2);
  g_assert_cmpuint (room->packets->len, ==, expected->packets->len);
  lockstitch = hw_room_default_machine (room, HW_MACHINE_LOCKSTITCH);
  g_assert_cmpstr (lockstitch->id, ==, "lockstitch");
  g_assert_cmpfloat (lockstitch->dial.neutral, ==, 4);
  g_assert_cmpstr (lockstitch->stitches[5].stitch, ==, "304-buttonhole");
  g_assert_cmpstr (lockstitch->stitches[5].own, ==, "6");
  g_assert_cmpstr (hw_room_default_machine (room, HW_MACHINE_OVERLOCK)->id, ==, "overlocker");
  g_assert_null (hw_room_default_machine (room, HW_MACHINE_COVERSTITCH));
  g_assert_cmpint (hw_room_new_needles (room, room->packets->pdata[0]), ==, 5);
  room_fixture_follows_schema (inner, "machines/lockstitch.xml", "machine");
  room_fixture_follows_schema (inner, "machines/overlocker.xml", "machine");
  room_fixture_follows_schema (inner, "needles.xml", "needles");

  before = temp_folder_read (inner, "machines/lockstitch.xml");
  g_assert_false (hw_room_create (inner, &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID);
  g_assert_nonnull (strstr (error->message, inner));
  after = temp_folder_read (inner, "machines/lockstitch.xml");
  g_assert_cmpstr (before, ==, after);
  temp_folder_remove (folder);
}

/* The demo is a sewing room as it stands. */
static void
test_demo (void)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "..", "data/demo", NULL);
  g_autoptr (HwRoom) room = room_fixture_open (folder);
  const HwMachine *lockstitch = hw_room_find_machine (room, "lockstitch");
  const HwMachineState *state = hw_room_get_state (room, lockstitch);

  /* 62.5 h before, then 75 + 95 + 70 + 80 min; the 40 min were cancelled. */
  assert_near (state->at_machine_hours, 62.5 + 320 / 60.0);
  assert_near (state->running_hours, 21.5 + 110 / 60.0);
  g_assert_cmpint (state->needle->nm, ==, 80);
  g_assert_cmpstr (state->needle->point, ==, "round");
  assert_near (state->needle->at_machine_hours, 245 / 60.0);
  g_assert_nonnull (hw_room_get_state (room, hw_room_find_machine (room, "overlocker"))->needle);
  g_assert_null (hw_room_step_done (room, "stage-cape", "2"));
  for (guint i = 0; i < room->packets->len; i++)
    {
      const HwPacket *packet = g_ptr_array_index (room->packets, i);
      int taken = g_str_equal (packet->id, "round-80") ? 1 : g_str_equal (packet->id, "medium-ball-80") ? 2 : 0;

      g_assert_cmpint (hw_room_new_needles (room, packet), ==, packet->count - taken);
    }
}

/* The first entry of a room that was never furnished writes its machines too. */
static void
test_default_is_furnished (void)
{
  char *folder = temp_folder_new ();
  g_autofree char *inner = g_build_filename (folder, "room", NULL);
  g_autoptr (HwRoom) room = hw_room_new_default (inner);
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_SEWING, "lockstitch");

  g_assert_false (g_file_test (inner, G_FILE_TEST_EXISTS));
  entry->minutes = 30;
  append (&room, entry);
  assert_reopens_same (room);
  g_assert_cmpuint (room->machines->len, ==, 2);
  g_assert_cmpuint (room->packets->len, >, 10);
  assert_near (hw_room_get_state (room, hw_room_find_machine (room, "lockstitch"))->at_machine_hours, 0.5);
  temp_folder_remove (folder);
}

static void
test_broken_project_stays_outside (RoomFixture  *fixture,
                                   gconstpointer data)
{
  g_autoptr (HwRoom) room = NULL;

  room_fixture_make_folder (fixture->folder, "projects");
  temp_folder_write (fixture->folder, "projects/broken.handwheel", "<project", -1);
  room = room_fixture_open (fixture->folder);
  g_assert_cmpuint (room->machines->len, ==, 1);
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

static const BadCase bad_cases[] = {
  { "/room/bad/machine-not-xml", "machines/m.xml", "knob", "m.xml:1: ", "<machine" },
  { "/room/bad/machine-newer", "machines/m.xml", "<machine xmlns=\"urn:handwheel:room:2\"/>", "m.xml:1: ", "newer" },
  { "/room/bad/machine-attribute", "machines/m.xml",
    "<machine " NS " id=\"m\" nam=\"M\"/>", "m.xml:1: ", "did you mean “name”" },
  { "/room/bad/machine-kind", "machines/m.xml",
    "<machine " NS " id=\"m\" name=\"M\" system=\"household\" kind=\"overlok\"/>",
    "m.xml:1: ", "did you mean “overlock”" },
  { "/room/bad/machine-child", "machines/m.xml",
    MACHINE "<foott id=\"zip\"/></machine>", "m.xml:2: ", "did you mean <foot>" },
  { "/room/bad/machine-foot-twice", "machines/m.xml",
    MACHINE "<foot id=\"zip\"/>\n<foot id=\"zip\"/></machine>", "m.xml:3: ", "twice" },
  { "/room/bad/machine-stitch", "machines/m.xml",
    MACHINE "<stitch id=\"301\"/></machine>", "m.xml:2: ", "“own” is missing" },
  { "/room/bad/machine-care", "machines/m.xml",
    MACHINE "<care id=\"oil\" limit=\"-1\"/></machine>", "m.xml:2: ", "limit" },
  { "/room/bad/machine-hand", "machines/hand.xml",
    "<machine " NS " id=\"hand\" name=\"M\" system=\"a\" kind=\"lockstitch\" dial=\"knob\" " MEASURES "/>",
    "hand.xml:1: ", "names its files" },
  { "/room/bad/machine-dial", "machines/m.xml",
    "<machine " NS " id=\"m\" name=\"M\" system=\"a\" kind=\"lockstitch\" dial=\"knob\" "
    "dial-low=\"9\" dial-high=\"0\" dial-neutral=\"4\" length-max=\"5\" width-max=\"7\" plate-opening=\"9\" "
    "foot-lift=\"6\" speed=\"800\"/>",
    "m.xml:1: ", "dial-low" },
  { "/room/bad/machine-misnamed", "machines/other.xml",
    "<machine " NS " id=\"n\" name=\"M\" system=\"a\" kind=\"lockstitch\" dial=\"knob\" " MEASURES "/>",
    "other.xml:1: ", "rename" },
  { "/room/bad/needles-size",
    "needles.xml", "<needles " NS ">\n<needle id=\"a\" system=\"b\" point=\"c\" nm=\"8\"/></needles>",
    "needles.xml:2: ", "35" },
  { "/room/bad/needles-twice", "needles.xml", "<needles " NS "><needle id=\"a\" system=\"b\" point=\"c\" nm=\"80\"/>\n"
    "<needle id=\"a\" system=\"b\" point=\"c\" nm=\"80\"/></needles>", "needles.xml:2: ", "twice" },
  { "/room/bad/journal-cut-short", "journal/m-2031.xml",
    JOURNAL "<sewing id=\"1\" ti", "m-2031.xml:2: ", "well-formed" },
  { "/room/bad/journal-doctype", "journal/m-2031.xml",
    "<!DOCTYPE journal []>\n" JOURNAL "</journal>", "m-2031.xml:1: ", "DOCTYPE" },
  { "/room/bad/journal-time", "journal/m-2031.xml",
    JOURNAL "<sewing id=\"1\" time=\"Tuesday\" minutes=\"3\"/></journal>",
    "m-2031.xml:2: ", "Tuesday" },
  { "/room/bad/journal-minutes", "journal/m-2031.xml",
    JOURNAL "<sewing id=\"1\" time=\"2031-01-01T10:00:00Z\" minutes=\"-3\"/></journal>",
    "m-2031.xml:2: ", "“minutes”" },
  { "/room/bad/journal-no-minutes", "journal/m-2031.xml",
    JOURNAL "<sewing id=\"1\" time=\"2031-01-01T10:00:00Z\"/></journal>",
    "m-2031.xml:2: ", "minutes" },
  { "/room/bad/journal-life", "journal/m-2031.xml",
    JOURNAL "<sewing id=\"1\" time=\"2031-01-01T10:00:00Z\" minutes=\"3\" life=\"0\"/></journal>", "m-2031.xml:2: ",
    "“life”" },
  { "/room/bad/journal-attribute", "journal/m-2031.xml",
    JOURNAL "<care id=\"1\" time=\"2031-01-01T10:00:00Z\" task=\"dust\" minutes=\"3\"/></journal>", "m-2031.xml:2: ",
    "“minutes”" },
  { "/room/bad/journal-element", "journal/m-2031.xml",
    JOURNAL "<cares id=\"1\" time=\"2031-01-01T10:00:00Z\" task=\"dust\"/></journal>",
    "m-2031.xml:2: ", "did you mean <care>" },
  { "/room/bad/journal-twice", "journal/m-2031.xml",
    JOURNAL "<care id=\"1\" time=\"2031-01-01T10:00:00Z\" task=\"dust\"/>\n"
    "<care id=\"1\" time=\"2031-01-01T10:00:00Z\" task=\"dust\"/></journal>",
    "m-2031.xml:3: ", "twice" },
  { "/room/bad/journal-no-machine", "journal/m-2031.xml",
    "<journal " NS "/>", "m-2031.xml:1: ", "“machine” is missing" },
  { "/room/bad/journal-machine", "journal/m-2031.xml",
    "<journal " NS " machine=\"../m\"/>", "m-2031.xml:1: ", "names its files" },
};

static void
test_bad (RoomFixture  *fixture,
          gconstpointer data)
{
  const BadCase *bad = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *after = NULL;

  temp_folder_write (fixture->folder, bad->file, bad->data, -1);
  g_assert_null (hw_room_open (fixture->folder, &error));
  g_assert_nonnull (error);
  g_assert_true (error->domain == HW_XML_ERROR || error->domain == HW_MODEL_ERROR);
  if (!g_str_has_prefix (error->message, bad->start) || strstr (error->message, bad->part) == NULL)
    g_error ("“%s … %s” is not: %s", bad->start, bad->part, error->message);
  g_assert_null (strchr (error->message, '\n'));
  after = temp_folder_read (fixture->folder, bad->file);
  g_assert_cmpstr (after, ==, bad->data);
}

/* ---- the journal ---- */

/* Where the bobbin goes in is kept; what an older file does not say is the front. */
static void
test_hook (RoomFixture  *fixture,
           gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwRoom) next = NULL;
  g_autoptr (HwRoom) again = NULL;
  g_autoptr (GError) error = NULL;
  HwMachine machine = *(const HwMachine *) g_ptr_array_index (room->machines, 0);

  g_assert_cmpint (machine.hook, ==, HW_HOOK_FRONT);
  machine.hook = HW_HOOK_TOP;
  next = hw_room_with_machine (room, &machine, &error);
  g_assert_no_error (error);
  again = room_fixture_open (fixture->folder);
  g_assert_cmpint (hw_room_find_machine (again, machine.id)->hook, ==, HW_HOOK_TOP);
}

static void
test_append (RoomFixture  *fixture,
             gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwRoom) first = hw_room_ref (room);
  g_autoptr (HwJournalEntry) load = make_load ("2031-05-09T08:00:00Z", "n1", "r80");
  g_autoptr (HwJournalEntry) sewing = make_sewing ("2031-05-09T09:00:00Z", 90, 30);
  g_autoptr (HwJournalEntry) next_year = make_sewing ("2032-01-01T00:30:00+02:00", 60, 20);     /* still 2031 in UTC */

  sewing->project = g_strdup ("cape");
  sewing->step = g_strdup ("3");
  sewing->life = 0.5;
  sewing->needle = g_strdup ("n1");
  sewing->note = g_strdup ("two\nlines & more");
  append (&room, load);
  append (&room, sewing);
  append (&room, next_year);
  assert_reopens_same (room);
  room_fixture_follows_schema (fixture->folder, "journal/m-2031.xml", "journal");
  g_assert_cmpint (temp_folder_count (fixture->folder, "journal"), ==, 1);

  assert_near (hours (room), 10 + 2.5);
  assert_near (hw_room_get_state (room, hw_room_find_machine (room, "m"))->running_hours, 3 + 50 / 60.0);
  g_assert_cmpstr (needle_in (room)->id, ==, "n1");
  /* The last entry names no needle: the one in the machine sewed. */
  assert_near (needle_in (room)->at_machine_hours, 90 / 60.0 / 0.5 + 1);
  assert_near (needle_in (room)->running_hours, 1 + 20 / 60.0);
  g_assert_cmpint (hw_room_new_needles (room, room->packets->pdata[0]), ==, 2);
  g_assert_cmpstr (hw_room_step_done (room, "cape", "3")->id, ==, sewing->id);
  g_assert_cmpstr (hw_room_step_done (room, "cape", "3")->note, ==, "two\nlines & more");
  g_assert_null (hw_room_step_done (room, "cape", "2"));
  g_assert_cmpstr (((HwJournalEntry *) room->entries->pdata[2])->time, ==, "2031-12-31T22:30:00Z");

  g_assert_cmpuint (first->entries->len, ==, 0);         /* the old snapshot is as it was */
  assert_near (hours (first), 10);
}

static void
test_hand (RoomFixture  *fixture,
           gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_SEWING, "hand");
  g_autofree char *name = g_strdup_printf ("journal/hand-%.4s.xml", entry->time);
  g_autofree char *file = NULL;

  entry->minutes = 12;
  entry->project = g_strdup ("cape");
  entry->step = g_strdup ("4");
  append (&room, entry);
  assert_reopens_same (room);
  file = temp_folder_read (fixture->folder, name);
  g_assert_nonnull (file);
  assert_near (hours (room), 10);
  g_assert_nonnull (hw_room_step_done (room, "cape", "4"));
}

static void
test_cancel (RoomFixture  *fixture,
             gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) one = make_sewing ("2031-05-09T09:00:00Z", 60, 0);
  g_autoptr (HwJournalEntry) two = make_sewing ("2031-05-09T10:00:00Z", 30, 0);
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;

  one->project = g_strdup ("cape");
  one->step = g_strdup ("1");
  two->project = g_strdup ("cape");
  two->step = g_strdup ("1");
  append (&room, one);
  append (&room, two);
  g_assert_cmpstr (hw_room_step_done (room, "cape", "1")->id, ==, two->id);
  first = cancel (&room, two->id);
  assert_reopens_same (room);
  assert_near (hours (room), 11);
  g_assert_cmpstr (hw_room_step_done (room, "cape", "1")->id, ==, one->id);      /* the other one still stands */
  second = cancel (&room, first);                        /* undoing the undoing */
  assert_reopens_same (room);
  assert_near (hours (room), 11.5);
  g_assert_cmpuint (room->entries->len, ==, 4);
}

static void
test_cancel_refused (RoomFixture  *fixture,
                     gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) sewing = make_sewing ("2031-05-09T09:00:00Z", 60, 0);
  g_autoptr (HwJournalEntry) undo = hw_journal_entry_new (HW_ENTRY_CANCEL, "m");
  g_autofree char *id = NULL;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;

  undo->of = g_strdup ("nothing");
  g_assert_null (hw_room_append (room, undo, &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN);
  g_clear_error (&error);
  append (&room, sewing);
  id = cancel (&room, sewing->id);
  before = temp_folder_read (fixture->folder, "journal/m-2031.xml");
  g_free (undo->of);
  undo->of = g_strdup (sewing->id);
  g_assert_null (hw_room_append (room, undo, &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID);
  g_clear_error (&error);
  g_assert_null (hw_room_append (room, sewing, &error)); /* the same entry again */
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID);
  after = temp_folder_read (fixture->folder, "journal/m-2031.xml");
  g_assert_cmpstr (before, ==, after);
}

/* What the reader would refuse is not written. */
static void
test_append_refused (RoomFixture  *fixture,
                     gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);

  for (int i = 0; i < 7; i++)
    {
      g_autoptr (GError) error = NULL;
      HwEntryKind kind = i == 4 ? HW_ENTRY_CARE : HW_ENTRY_SEWING;
      g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (kind, i == 5 ? "n" : "m");

      if (i == 0)
        entry->minutes = -1;
      else if (i == 1)
        entry->life = 0;
      else if (i == 2)
        entry->running = NAN;
      else if (i == 3)
        {
          g_free (entry->time);
          entry->time = g_strdup ("yesterday");
        }
      else if (i == 6)
        entry->project = g_strdup ("two\nlines");
      g_assert_null (hw_room_append (room, entry, &error));
      g_assert_nonnull (error);
      g_assert_true (error->domain == HW_MODEL_ERROR);
    }
  g_assert_cmpint (temp_folder_count (fixture->folder, ".lock"), <=, 2);
  assert_reopens_same (room);
  g_assert_cmpuint (room->entries->len, ==, 0);
}

static void
test_needles (RoomFixture  *fixture,
              gconstpointer data)
{
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (HwJournalEntry) first = make_load ("2031-05-01T08:00:00Z", "n1", "r80");
  g_autoptr (HwJournalEntry) unnamed = make_load ("2031-05-02T08:00:00Z", NULL, NULL);
  g_autoptr (HwJournalEntry) back = make_load ("2031-05-03T08:00:00Z", "n1", "r80");
  g_autoptr (HwJournalEntry) foot = make_load ("2031-05-04T08:00:00Z", NULL, NULL);
  g_autoptr (HwJournalEntry) elsewhere = make_load ("2031-05-05T08:00:00Z", "n1", "r80");
  g_autoptr (HwJournalEntry) worn = make_load ("2031-05-06T08:00:00Z", "n2", "r80");

  temp_folder_write (fixture->folder, "machines/n.xml",
                     "<machine " NS " id=\"n\" name=\"N\" system=\"household\" kind=\"lockstitch\" dial=\"number\" "
                     "dial-low=\"-5\" dial-high=\"5\" dial-neutral=\"0\" length-max=\"4\" width-max=\"5\" "
                     "plate-opening=\"6\" foot-lift=\"6\" speed=\"700\"/>", -1);
  room = room_fixture_open (fixture->folder);
  append (&room, first);
  append (&room, unnamed);
  g_assert_cmpstr (needle_in (room)->id, ==, unnamed->id);                   /* named by its entry */
  g_assert_null (find_needle (room, "n1")->machine);                         /* in the case, with its hours */
  append (&room, back);
  g_assert_cmpstr (needle_in (room)->id, ==, "n1");
  g_assert_cmpint (hw_room_new_needles (room, room->packets->pdata[0]), ==, 2);      /* taken once, loaded twice */

  foot->nm = 0;
  foot->foot = g_strdup ("zip");
  append (&room, foot);
  g_assert_cmpstr (needle_in (room)->id, ==, "n1");      /* only the foot was changed */
  g_assert_cmpstr (hw_room_get_state (room, hw_room_find_machine (room, "m"))->foot, ==, "zip");

  g_free (elsewhere->machine);
  elsewhere->machine = g_strdup ("n");
  append (&room, elsewhere);
  g_assert_null (needle_in (room));                      /* a needle is in one machine */
  g_assert_cmpstr (find_needle (room, "n1")->machine, ==, "n");

  g_free (worn->machine);
  worn->machine = g_strdup ("n");
  worn->verdict = g_strdup ("discarded");
  append (&room, worn);
  g_assert_true (find_needle (room, "n1")->discarded);
  g_assert_false (find_needle (room, "n2")->discarded);
  assert_reopens_same (room);
}

/* ---- care ---- */

static void
append_care (HwRoom    **room,
             const char *time,
             const char *task)
{
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_CARE, "m");

  g_free (entry->time);
  entry->time = g_strdup (time);
  entry->task = g_strdup (task);
  append (room, entry);
}

static void
append_sewing (HwRoom    **room,
               const char *time,
               double      minutes,
               double      lint)
{
  g_autoptr (HwJournalEntry) entry = make_sewing (time, minutes, minutes / 3);

  entry->lint = lint;
  append (room, entry);
}

static void
test_care (RoomFixture  *fixture,
           gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  const HwMachine *machine;
  HwCareTask dust = { .entry = { .id = (char *) "dust" }, .clock = HW_CLOCK_AT_MACHINE, .limit = 15,
                      .counts_lint = TRUE };
  HwCareTask discs = { .entry = { .id = (char *) "discs" }, .clock = HW_CLOCK_RUNNING, .limit = 25 };
  HwCareTask oil = { .entry = { .id = (char *) "oil" }, .clock = HW_CLOCK_SEWING_DAY, .limit = 1 };
  HwCareTask service = { .entry = { .id = (char *) "service" }, .clock = HW_CLOCK_MONTHS, .limit = 12 };

  append_sewing (&room, "2031-01-01T09:00:00Z", 60, 1);
  append_care (&room, "2031-01-01T12:00:00Z", "dust");
  append_sewing (&room, "2031-01-01T13:00:00Z", 90, 2);
  append_sewing (&room, "2031-01-01T14:00:00Z", 30, 1);
  append_care (&room, "2031-01-01T15:00:00Z", "oil");
  append_sewing (&room, "2031-01-01T16:00:00Z", 30, 1);
  append_sewing (&room, "2031-01-02T16:00:00Z", 30, 1);
  append_sewing (&room, "2031-01-02T18:00:00Z", 30, 1);
  machine = hw_room_find_machine (room, "m");

  assert_near (hw_room_care_clock (room, machine, &dust, NULL), 90 / 60.0 * 2 + 30 / 60.0 + 90 / 60.0);
  assert_near (hw_room_care_clock (room, machine, &discs, NULL), 270 / 60.0 / 3);
  /* The first of January again, and the second. */
  assert_near (hw_room_care_clock (room, machine, &oil, NULL), 2);
  /* never serviced since the journal began on 1 January 09:00: 61 days to 3 March 09:00 */
  assert_near (hw_room_care_clock (room, machine, &service, "2031-03-03T09:00:00Z"), 61 / 30.4375);
  assert_near (hw_room_care_months (room, machine, &dust, "2031-01-31T12:00:00Z"), 30 / 30.4375);
  assert_near (hw_room_care_months (room, machine, &dust, "2030-01-31T12:00:00Z"), 0);
  g_assert_cmpfloat (hw_room_care_limit (machine, &dust), ==, 15);
}

static void
test_care_limit (RoomFixture  *fixture,
                 gconstpointer data)
{
  g_autoptr (HwRoom) room = NULL;
  HwCareTask oil = { .entry = { .id = (char *) "oil" }, .clock = HW_CLOCK_AT_MACHINE, .limit = 8 };
  HwCareTask dust = { .entry = { .id = (char *) "dust" }, .clock = HW_CLOCK_AT_MACHINE, .limit = 15 };

  temp_folder_write (fixture->folder, "machines/m.xml", MACHINE "<care id=\"oil\" limit=\"0\"/></machine>", -1);
  room = room_fixture_open (fixture->folder);
  g_assert_cmpfloat (hw_room_care_limit (hw_room_find_machine (room, "m"), &oil), ==, 0);    /* never */
  g_assert_cmpfloat (hw_room_care_limit (hw_room_find_machine (room, "m"), &dust), ==, 15);
}

static void
test_needle_care (RoomFixture  *fixture,
                  gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) load = make_load ("2031-01-01T08:00:00Z", "n1", "r80");
  HwCareTask task = { .entry = { .id = (char *) "needle" }, .clock = HW_CLOCK_AT_MACHINE, .limit = 15 };

  append (&room, load);
  append_care (&room, "2031-01-01T08:01:00Z", "needle"); /* that was this one */
  g_assert_cmpstr (needle_in (room)->id, ==, "n1");
  append_sewing (&room, "2031-01-01T09:00:00Z", 120, 1);
  assert_near (hw_room_care_clock (room, hw_room_find_machine (room, "m"), &task, NULL), 2);
  append_care (&room, "2031-01-02T08:00:00Z", "needle"); /* another, nobody knows which */
  g_assert_null (needle_in (room));
  g_assert_true (find_needle (room, "n1")->discarded);
  append_sewing (&room, "2031-01-02T09:00:00Z", 60, 1);
  assert_near (hw_room_care_clock (room, hw_room_find_machine (room, "m"), &task, NULL), 1);
  assert_near (find_needle (room, "n1")->at_machine_hours, 2);
  assert_reopens_same (room);
}

/* ---- two at once, and damage ---- */

#define EACH 50

static int
append_many (const char *folder)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = hw_room_open (folder, &error);

  for (int i = 0; i < EACH; i++)
    {
      g_autoptr (HwJournalEntry) entry = make_sewing ("2031-05-09T09:00:00Z", 1, 0);
      HwRoom *next = room != NULL ? hw_room_append (room, entry, &error) : NULL;

      if (next == NULL)
        {
          g_printerr ("%s\n", error->message);
          return 1;
        }
      hw_room_unref (room);
      room = next;
    }
  return 0;
}

/* Two processes that know nothing of each other: no entry of either is lost. */
static void
test_two_processes (RoomFixture  *fixture,
                    gconstpointer data)
{
  g_autoptr (HwRoom) room = NULL;
  pid_t children[2];

  for (gsize i = 0; i < G_N_ELEMENTS (children); i++)
    {
      children[i] = fork ();
      g_assert_cmpint (children[i], >=, 0);
      if (children[i] == 0)
        {
          g_random_set_seed ((guint32) getpid ());       /* a fork goes on with its parent's random numbers */
          _exit (append_many (fixture->folder));
        }
    }
  for (gsize i = 0; i < G_N_ELEMENTS (children); i++)
    {
      int status = 0;
      g_assert_cmpint (waitpid (children[i], &status, 0), ==, children[i]);
      g_assert_true (WIFEXITED (status) && WEXITSTATUS (status) == 0);
    }
  room = room_fixture_open (fixture->folder);
  g_assert_cmpuint (room->entries->len, ==, 2 * EACH);
  assert_near (hours (room), 10 + 2 * EACH / 60.0);
}

/* A window that has been open for long gets the other's entries with its own. */
static void
test_stale_snapshot (RoomFixture  *fixture,
                     gconstpointer data)
{
  g_autoptr (HwRoom) mine = room_fixture_open (fixture->folder);
  g_autoptr (HwRoom) theirs = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) one = make_sewing ("2031-05-09T09:00:00Z", 60, 0);
  g_autoptr (HwJournalEntry) two = make_sewing ("2031-05-09T10:00:00Z", 60, 0);
  g_autofree char *id = NULL;

  append (&theirs, one);
  append (&mine, two);
  assert_near (hours (mine), 12);
  assert_reopens_same (mine);
  id = cancel (&theirs, two->id);                        /* which it learns of under the lock */
  assert_near (hours (theirs), 11);
}

static void
test_damaged_journal_stays (RoomFixture  *fixture,
                            gconstpointer data)
{
  static const char damaged[] = JOURNAL "<sewing id=\"1\" time=\"2031-01-01T10:00:00Z\" minutes=\"3\"/>\n<sewing id=";
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) entry = make_sewing ("2031-05-09T09:00:00Z", 60, 0);
  g_autofree char *after = NULL;

  temp_folder_write (fixture->folder, "journal/m-2031.xml", damaged, -1);
  g_assert_null (hw_room_append (room, entry, &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_MALFORMED);
  g_assert_true (g_str_has_prefix (error->message, "m-2031.xml:3: "));
  after = temp_folder_read (fixture->folder, "journal/m-2031.xml");
  g_assert_cmpstr (after, ==, damaged);
}

static void
test_foreign_journal_stays (RoomFixture  *fixture,
                            gconstpointer data)
{
  static const char foreign[] = "<journal " NS " machine=\"n\" year=\"2031\"/>";
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) entry = make_sewing ("2031-05-09T09:00:00Z", 60, 0);
  g_autofree char *after = NULL;

  temp_folder_write (fixture->folder, "journal/m-2031.xml", foreign, -1);
  g_assert_null (hw_room_append (room, entry, &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID);
  after = temp_folder_read (fixture->folder, "journal/m-2031.xml");
  g_assert_cmpstr (after, ==, foreign);
}

static void
test_locked (RoomFixture  *fixture,
             gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) entry = make_sewing ("2031-05-09T09:00:00Z", 60, 0);
  g_autoptr (HwLock) lock = NULL;

  lock = hw_lock_folder (fixture->folder, 0, &error);
  g_assert_no_error (error);
  g_assert_null (hw_room_append (room, entry, &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_AGAIN);
}

/* A copy that a file-sync service left: its entries are merged by id. */
static void
test_conflicting_copy (RoomFixture  *fixture,
                       gconstpointer data)
{
  static const char one[] = "<sewing id=\"1\" time=\"2031-01-01T10:00:00Z\" minutes=\"60\"/>\n";
  static const char two[] = "<sewing id=\"2\" time=\"2031-01-02T10:00:00Z\" minutes=\"60\"/>\n";
  static const char three[] = "<sewing id=\"3\" time=\"2031-01-03T10:00:00Z\" minutes=\"60\"/>\n";
  g_autofree char *here = g_strconcat (JOURNAL, one, two, "</journal>", NULL);
  g_autofree char *there = g_strconcat (JOURNAL, one, three, "</journal>", NULL);
  static const char other[] = JOURNAL "<sewing id=\"1\" time=\"2031-01-01T10:00:00Z\" minutes=\"61\"/></journal>";
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (HwJournalEntry) entry = make_sewing ("2031-05-09T09:00:00Z", 60, 0);

  temp_folder_write (fixture->folder, "journal/m-2031.xml", here, -1);
  temp_folder_write (fixture->folder, "journal/m-2031 (conflicted copy).xml", there, -1);
  room = room_fixture_open (fixture->folder);
  g_assert_cmpuint (room->entries->len, ==, 3);
  assert_near (hours (room), 13);
  append (&room, entry);
  assert_reopens_same (room);
  assert_near (hours (room), 14);

  temp_folder_write (fixture->folder, "journal/m-2031 (conflicted copy).xml", other, -1);
  g_assert_null (hw_room_open (fixture->folder, &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID);
  g_assert_nonnull (strstr (error->message, "m-2031.xml: the entry “1”"));
}

/* Backups and temporary files of the writer are not journals. */
static void
test_leftovers (RoomFixture  *fixture,
                gconstpointer data)
{
  g_autoptr (HwRoom) room = NULL;

  temp_folder_write (fixture->folder, "journal/m-2031.xml~", "old", -1);
  temp_folder_write (fixture->folder, "journal/.m-2031.xml.hwabcdef", "new", -1);
  temp_folder_write (fixture->folder, "machines/m.xml~", "old", -1);
  room = room_fixture_open (fixture->folder);
  g_assert_cmpuint (room->machines->len, ==, 1);
}

/* Reading what was written gives the same bytes, whoever wrote first. */
static void
test_journal_bytes (RoomFixture  *fixture,
                    gconstpointer data)
{
  static const char by_hand[] =
    "<journal " NS " machine='m'><!-- by hand -->\n"
    "<care task='dust' time='2031-02-01T10:00:00+01:00' id='a'/>\n"
    "<fault id='b' time='2031-02-02T10:00:00.75Z' verdict='skipped stitches' needle='n1'/>\n"
    "<test-seam id='c' time='2031-02-02T10:00:00Z' dial='4.50' verdict='balanced' note='&lt;ok&gt;'/></journal>";
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (HwJournalEntry) entry = make_sewing ("2031-05-09T09:00:00Z", 60, 0);
  g_autofree char *id = NULL;
  g_autofree char *file = NULL;

  temp_folder_write (fixture->folder, "journal/m-2031.xml", by_hand, -1);
  room = room_fixture_open (fixture->folder);
  g_free (entry->id);
  entry->id = g_strdup ("d");
  append (&room, entry);
  file = temp_folder_read (fixture->folder, "journal/m-2031.xml");
  g_assert_cmpstr (file, ==,
                   "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                   "<journal xmlns=\"urn:handwheel:room:1\" machine=\"m\" year=\"2031\">\n"
                   "  <care id=\"a\" time=\"2031-02-01T09:00:00Z\" task=\"dust\"/>\n"
                   "  <fault id=\"b\" time=\"2031-02-02T10:00:00Z\" needle=\"n1\" verdict=\"skipped stitches\"/>\n"
                   "  <test-seam id=\"c\" time=\"2031-02-02T10:00:00Z\" dial=\"4.5\" verdict=\"balanced\" "
                   "note=\"&lt;ok&gt;\"/>\n"
                   "  <sewing id=\"d\" time=\"2031-05-09T09:00:00Z\" minutes=\"60\"/>\n"
                   "</journal>\n");
  assert_reopens_same (room);
}

/* ---- sums ---- */

typedef struct { char *id; double minutes; double running; double life; gboolean live; } Sum;

/* Random entries and cancellations: the hours of machine and needle are the sums of what still stands. */
static void
test_sums (RoomFixture  *fixture,
           gconstpointer data)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20310509);
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) load = make_load ("2031-01-01T00:00:00Z", "n1", "r80");
  g_autoptr (GArray) sums = g_array_new (FALSE, FALSE, sizeof (Sum));
  double minutes = 0;
  double running = 0;
  double worn = 0;
  int n_cancelled = 0;

  append (&room, load);
  for (int i = 0; i < 200; i++)
    {
      Sum *drawn = sums->len > 0 ? &g_array_index (sums, Sum, g_rand_int_range (rand, 0, (int) sums->len)) : NULL;

      if (drawn != NULL && drawn->live && g_rand_int_range (rand, 0, 3) == 0)
        {
          g_free (cancel (&room, drawn->id));
          drawn->live = FALSE;
          n_cancelled++;
        }
      else
        {
          g_autofree char *time = g_strdup_printf ("2031-%02d-01T10:00:00Z", g_rand_int_range (rand, 1, 13));
          int at_machine = g_rand_int_range (rand, 1, 200);
          g_autoptr (HwJournalEntry) entry = make_sewing (time, at_machine, g_rand_int_range (rand, 0, at_machine));
          Sum sum;

          entry->life = g_rand_double_range (rand, 0.3, 2);
          append (&room, entry);
          sum = (Sum) { g_strdup (entry->id), entry->minutes, entry->running, entry->life, TRUE };
          g_array_append_val (sums, sum);
        }
    }
  for (guint i = 0; i < sums->len; i++)
    {
      Sum *sum = &g_array_index (sums, Sum, i);

      if (sum->live)
        {
          minutes += sum->minutes;
          running += sum->running;
          worn += sum->minutes / sum->life;
        }
      g_free (sum->id);
    }
  g_assert_cmpint (n_cancelled, >, 20);
  g_assert_cmpfloat_with_epsilon (hours (room), 10 + minutes / 60, 1e-6);
  g_assert_cmpfloat_with_epsilon (hw_room_get_state (room, hw_room_find_machine (room, "m"))->running_hours,
                                  3 + running / 60, 1e-6);
  g_assert_cmpfloat_with_epsilon (needle_in (room)->at_machine_hours, worn / 60, 1e-6);
  assert_reopens_same (room);
}


int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/room/missing-folder", test_missing_folder);
  g_test_add_func ("/room/create", test_create);
  g_test_add_func ("/room/demo", test_demo);
  g_test_add_func ("/room/default-is-furnished", test_default_is_furnished);
  ADD ("/room/broken-project-stays-outside", test_broken_project_stays_outside);
  for (gsize i = 0; i < G_N_ELEMENTS (bad_cases); i++)
    g_test_add (bad_cases[i].path, RoomFixture, &bad_cases[i], room_fixture_set_up, test_bad, room_fixture_tear_down);
  ADD ("/journal/append", test_append);
  ADD ("/journal/hand", test_hand);
  ADD ("/journal/cancel", test_cancel);
  ADD ("/journal/cancel-refused", test_cancel_refused);
  ADD ("/journal/append-refused", test_append_refused);
  ADD ("/journal/needles", test_needles);
  ADD ("/journal/care", test_care);
  ADD ("/journal/care-limit", test_care_limit);
  ADD ("/journal/needle-care", test_needle_care);
  ADD ("/journal/two-processes", test_two_processes);
  ADD ("/journal/stale-snapshot", test_stale_snapshot);
  ADD ("/journal/damaged-journal-stays", test_damaged_journal_stays);
  ADD ("/journal/foreign-journal-stays", test_foreign_journal_stays);
  ADD ("/journal/locked", test_locked);
  ADD ("/journal/conflicting-copy", test_conflicting_copy);
  ADD ("/journal/leftovers", test_leftovers);
  ADD ("/journal/bytes", test_journal_bytes);
  ADD ("/journal/sums", test_sums);
  ADD ("/room/hook", test_hook);
  return g_test_run ();
}
