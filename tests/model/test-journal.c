/* test-journal.c - finding, exporting, correcting and adding up the journal
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "model/journal.h"
#include "room-fixture.h"
#include "temp-folder.h"

#include <math.h>
#include <string.h>

static void
take (HwRoom **room,
      HwRoom  *next,
      GError  *error)
{
  g_assert_no_error (error);
  hw_room_unref (*room);
  *room = next;
}

static void
append (HwRoom              **room,
        const HwJournalEntry *entry)
{
  GError *error = NULL;
  HwRoom *next = hw_room_append (*room, entry, &error);

  take (room, next, error);
}

static HwJournalEntry *
make_entry (HwEntryKind kind,
            const char *time)
{
  HwJournalEntry *entry = hw_journal_entry_new (kind, "m");

  g_free (entry->time);
  entry->time = g_strdup (time);
  return entry;
}

static HwJournalEntry *
make_sewing (const char *time,
             const char *project,
             double      minutes)
{
  HwJournalEntry *entry = make_entry (HW_ENTRY_SEWING, time);

  entry->project = g_strdup (project);
  entry->step = project != NULL ? g_strdup ("1") : NULL;
  entry->minutes = minutes;
  return entry;
}

static guint
count (const HwRoom         *room,
       const HwJournalFilter filter)
{
  g_autoptr (GPtrArray) found = hw_journal_find (room, &filter);

  return found->len;
}

static void
test_find (RoomFixture  *fixture,
           gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) first = make_sewing ("2031-05-01T10:00:00Z", "cape", 30);
  g_autoptr (HwJournalEntry) second = make_sewing ("2031-05-02T23:59:59Z", "skirt", 30);
  g_autoptr (HwJournalEntry) care = make_entry (HW_ENTRY_CARE, "2031-05-03T10:00:00Z");
  g_autoptr (HwJournalEntry) cancel = make_entry (HW_ENTRY_CANCEL, "2031-05-04T10:00:00Z");
  g_autoptr (HwJournalEntry) hand = hw_journal_entry_new (HW_ENTRY_SEWING, "hand");

  first->note = g_strdup ("Straße: needle THREAD snapped");
  second->needle_thread = g_strdup ("Écru tex 30");
  care->task = g_strdup ("dust");
  g_free (hand->time);
  hand->time = g_strdup ("2031-05-03T11:00:00Z");
  cancel->of = g_strdup (care->id);
  append (&room, first);
  append (&room, second);
  append (&room, care);
  append (&room, hand);
  g_assert_cmpuint (count (room, (HwJournalFilter) { 0 }), ==, 4);
  append (&room, cancel);
  g_assert_cmpuint (count (room, (HwJournalFilter) { 0 }), ==, 3);
  g_assert_cmpuint (count (room, (HwJournalFilter) { .with_cancelled = TRUE }), ==, 4);
  g_assert_cmpuint (count (room, (HwJournalFilter) { .kinds = 1u << HW_ENTRY_CANCEL }), ==, 1);
  g_assert_cmpuint (count (room, (HwJournalFilter) { .machine = "hand" }), ==, 1);
  g_assert_cmpuint (count (room, (HwJournalFilter) { .project = "cape" }), ==, 1);
  g_assert_cmpuint (count (room, (HwJournalFilter) { .from = "2031-05-02", .to = "2031-05-02" }), ==, 1);
  g_assert_cmpuint (count (room, (HwJournalFilter) { .to = "2031-05-01" }), ==, 1);
  g_assert_cmpuint (count (room, (HwJournalFilter) { .text = "thread" }), ==, 1);
  g_assert_cmpuint (count (room, (HwJournalFilter) { .text = "STRASSE" }), ==, 1);
  g_assert_cmpuint (count (room, (HwJournalFilter) { .text = "écRU" }), ==, 1);
  g_assert_cmpuint (count (room, (HwJournalFilter) { .text = "linen" }), ==, 0);
}

static void
test_csv (RoomFixture  *fixture,
          gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) entry = make_sewing ("2031-05-01T10:00:00Z", "cape", 30.5);
  g_autoptr (GPtrArray) found = NULL;
  const HwJournalFilter all = { 0 };
  g_autofree char *csv = NULL;
  g_auto (GStrv) lines = NULL;

  entry->note = g_strdup ("=1+1, \"so\"");
  append (&room, entry);
  found = hw_journal_find (room, &all);
  csv = hw_journal_to_csv (found);
  lines = g_strsplit (csv, "\r\n", -1);
  g_assert_cmpuint (g_strv_length (lines), ==, 3);
  g_assert_true (g_str_has_prefix (lines[0], "time,machine,kind,project,step,minutes,"));
  g_assert_true (g_str_has_prefix (lines[1], "2031-05-01T10:00:00Z,m,sewing,cape,1,30.5,"));
  g_assert_nonnull (strstr (lines[1], ",\"'=1+1, \"\"so\"\"\","));
  g_assert_true (g_str_has_suffix (lines[1], entry->id));
  g_assert_cmpstr (lines[2], ==, "");
}

static void
test_correct (RoomFixture  *fixture,
              gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwRoom) again = NULL;
  g_autoptr (HwJournalEntry) wrong = make_sewing ("2031-05-01T10:00:00Z", "cape", 300);
  g_autoptr (HwJournalEntry) right = hw_journal_entry_new_like (wrong);
  GError *error = NULL;

  append (&room, wrong);
  g_assert_cmpstr (right->id, !=, wrong->id);
  right->minutes = 30;
  take (&room, hw_journal_correct (room, wrong->id, right, &error), error);
  g_assert_cmpfloat_with_epsilon (hw_room_get_state (room, hw_room_find_machine (room, "m"))->at_machine_hours, 10.5,
                                  1e-9);
  g_assert_cmpstr (hw_room_step_done (room, "cape", "1")->id, ==, right->id);
  again = room_fixture_open (fixture->folder);
  g_assert_cmpfloat_with_epsilon (hw_room_get_state (again, hw_room_find_machine (again, "m"))->at_machine_hours, 10.5,
                                  1e-9);
  g_assert_cmpuint (again->entries->len, ==, 3);

  g_clear_pointer (&right, hw_journal_entry_free);
  right = hw_journal_entry_new_like (wrong);
  g_assert_null (hw_journal_correct (room, wrong->id, right, &error));
  g_assert_nonnull (strstr (error->message, "cancelled already"));
  g_clear_error (&error);
}

/* A needle that bears its entry's id keeps its hours when the entry is corrected. */
static void
test_correct_load (RoomFixture  *fixture,
                   gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) load = make_entry (HW_ENTRY_LOAD, "2031-05-01T10:00:00Z");
  g_autoptr (HwJournalEntry) sewing = make_sewing ("2031-05-01T11:00:00Z", NULL, 90);
  g_autoptr (HwJournalEntry) right = NULL;
  const HwNeedle *needle;
  GError *error = NULL;

  load->nm = 80;
  load->point = g_strdup ("round");
  append (&room, load);
  sewing->needle = g_strdup (load->id);
  append (&room, sewing);
  right = hw_journal_entry_new_like (load);
  right->nm = 90;
  take (&room, hw_journal_correct (room, load->id, right, &error), error);
  g_assert_cmpuint (room->needles->len, ==, 1);
  needle = hw_room_get_state (room, hw_room_find_machine (room, "m"))->needle;
  g_assert_cmpint (needle->nm, ==, 90);
  g_assert_cmpfloat_with_epsilon (needle->at_machine_hours, 1.5, 1e-9);
}

/* ISO 8601: 29 December 2031 is a Monday and begins 2032-W01 (1 January 2032 is a Thursday); 1 January 2033 is a
 * Saturday of 2032-W53. */
static void
test_weeks (RoomFixture  *fixture,
            gconstpointer data)
{
  static const struct { const char *time; const char *project; double minutes; } sewn[] = {
    { "2031-12-28T10:00:00Z", "cape", 60 }, { "2031-12-29T10:00:00Z", "cape", 30 },
    { "2032-01-01T10:00:00Z", "cape", 30 }, { "2032-01-02T10:00:00Z", NULL, 15 },
    { "2033-01-01T10:00:00Z", "cape", 6 },
  };
  static const struct { const char *week; const char *project; double hours; } expected[] = {
    { "2031-W52", "cape", 1 }, { "2032-W01", NULL, 0.25 }, { "2032-W01", "cape", 1 }, { "2032-W53", "cape", 0.1 },
  };
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) hand = hw_journal_entry_new (HW_ENTRY_SEWING, "hand");
  g_autoptr (GArray) weeks = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (sewn); i++)
    {
      g_autoptr (HwJournalEntry) entry = make_sewing (sewn[i].time, sewn[i].project, sewn[i].minutes);

      append (&room, entry);
    }
  hand->minutes = 100;
  append (&room, hand);
  weeks = hw_journal_weeks (room, NULL, NULL);
  g_assert_cmpuint (weeks->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < weeks->len; i++)
    {
      const HwWeekHours *week = &g_array_index (weeks, HwWeekHours, i);

      g_assert_cmpstr (week->week, ==, expected[i].week);
      g_assert_cmpstr (week->project, ==, expected[i].project);
      g_assert_cmpfloat_with_epsilon (week->hours, expected[i].hours, 1e-9);
    }
}

static void
test_project_hours (RoomFixture  *fixture,
                    gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) first = make_sewing ("2031-05-01T10:00:00Z", "cape", 60);
  g_autoptr (HwJournalEntry) second = make_sewing ("2031-05-02T10:00:00Z", "bag", 30);
  g_autoptr (HwJournalEntry) third = make_sewing ("2031-05-03T10:00:00Z", "cape", 45);
  g_autoptr (HwJournalEntry) none = make_sewing ("2031-05-04T10:00:00Z", NULL, 10);
  g_autoptr (GArray) hours = NULL;

  first->planned = 40;
  third->planned = 50;
  append (&room, first);
  append (&room, second);
  append (&room, third);
  append (&room, none);
  hours = hw_journal_project_hours (room);
  g_assert_cmpuint (hours->len, ==, 2);
  g_assert_cmpstr (g_array_index (hours, HwProjectHours, 0).project, ==, "cape");
  g_assert_cmpfloat_with_epsilon (g_array_index (hours, HwProjectHours, 0).actual, 1.75, 1e-9);
  g_assert_cmpfloat_with_epsilon (g_array_index (hours, HwProjectHours, 0).planned, 1.5, 1e-9);
  g_assert_cmpstr (g_array_index (hours, HwProjectHours, 1).project, ==, "bag");
  g_assert_cmpfloat (g_array_index (hours, HwProjectHours, 1).planned, ==, 0);
}

/* Four prior entries at ratio 1: eight that took twice as long give a mean of log 2 × 8 / 12 for all, and for their own
 * purpose (8 log 2 + 4 × that) / 12. */
static void
test_time_factor (RoomFixture  *fixture,
                  gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  double all = log (2) * 8 / 12;

  g_assert_cmpfloat (hw_journal_time_factor (room, "seam"), ==, 1);
  for (int i = 0; i < 8; i++)
    {
      g_autoptr (HwJournalEntry) entry = make_sewing ("2031-05-01T10:00:00Z", NULL, 20);

      entry->planned = 10;
      entry->purpose = g_strdup ("seam");
      append (&room, entry);
    }
  g_assert_cmpfloat_with_epsilon (hw_journal_time_factor (room, NULL), exp (all), 1e-12);
  g_assert_cmpfloat_with_epsilon (hw_journal_time_factor (room, "hem"), exp (all), 1e-12);
  g_assert_cmpfloat_with_epsilon (hw_journal_time_factor (room, "seam"), exp ((8 * log (2) + 4 * all) / 12), 1e-12);
}

static void
test_needle_entries (RoomFixture  *fixture,
                     gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) load = make_entry (HW_ENTRY_LOAD, "2031-05-01T10:00:00Z");
  g_autoptr (HwJournalEntry) out = make_entry (HW_ENTRY_NEEDLE, "2031-05-02T10:00:00Z");
  g_autoptr (HwJournalEntry) sewing = make_sewing ("2031-05-02T11:00:00Z", NULL, 60);
  g_autoptr (HwJournalEntry) thrown = make_entry (HW_ENTRY_NEEDLE, "2031-05-03T10:00:00Z");
  const HwNeedle *needle;

  load->needle = g_strdup ("n1");
  load->packet = g_strdup ("r80");
  load->nm = 80;
  append (&room, load);
  out->needle = g_strdup ("n1");
  out->verdict = g_strdup ("out");
  out->place = g_strdup ("row 2, third");
  append (&room, out);
  append (&room, sewing);
  needle = g_ptr_array_index (room->needles, 0);
  g_assert_null (needle->machine);
  g_assert_cmpstr (needle->place, ==, "row 2, third");
  g_assert_false (needle->discarded);
  g_assert_cmpfloat (needle->at_machine_hours, ==, 0);
  g_assert_null (hw_room_get_state (room, hw_room_find_machine (room, "m"))->needle);
  thrown->needle = g_strdup ("n1");
  thrown->verdict = g_strdup ("discarded");
  append (&room, thrown);
  needle = g_ptr_array_index (room->needles, 0);
  g_assert_true (needle->discarded);
  g_assert_cmpstr (needle->place, ==, "row 2, third");
  g_assert_cmpint (hw_room_new_needles (room, room->packets->pdata[0]), ==, 2);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  ADD ("/journal/find", test_find);
  ADD ("/journal/csv", test_csv);
  ADD ("/journal/correct", test_correct);
  ADD ("/journal/correct-load", test_correct_load);
  ADD ("/journal/weeks", test_weeks);
  ADD ("/journal/project-hours", test_project_hours);
  ADD ("/journal/time-factor", test_time_factor);
  ADD ("/journal/needle-entries", test_needle_entries);
  return g_test_run ();
}
