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

/* Whoever looks for needles finds them also where they were put in with a set-up or changed as care. */
static void
test_find_needles (RoomFixture  *fixture,
                   gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) put_in = make_entry (HW_ENTRY_LOAD, "2031-05-01T10:00:00Z");
  g_autoptr (HwJournalEntry) rest = make_entry (HW_ENTRY_LOAD, "2031-05-01T11:00:00Z");
  g_autoptr (HwJournalEntry) out = make_entry (HW_ENTRY_NEEDLE, "2031-05-01T12:00:00Z");
  g_autoptr (HwJournalEntry) care = make_entry (HW_ENTRY_CARE, "2031-05-02T10:00:00Z");
  g_autoptr (HwJournalEntry) dust = make_entry (HW_ENTRY_CARE, "2031-05-03T10:00:00Z");

  put_in->nm = 70;
  rest->foot = g_strdup ("zip");
  out->needle = g_strdup (put_in->id);
  out->verdict = g_strdup ("discarded");
  care->task = g_strdup (HW_NEEDLE_TASK);
  dust->task = g_strdup ("dust");
  append (&room, put_in);
  append (&room, rest);
  append (&room, out);
  append (&room, care);
  append (&room, dust);
  g_assert_cmpuint (count (room, (HwJournalFilter) { .kinds = 1u << HW_ENTRY_NEEDLE }), ==, 3);
  g_assert_cmpuint (count (room, (HwJournalFilter) { .kinds = 1u << HW_ENTRY_LOAD }), ==, 2);
  g_assert_cmpuint (count (room, (HwJournalFilter) { .kinds = 1u << HW_ENTRY_CARE }), ==, 2);
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

typedef struct { const char *week; const char *project; double hours; } WeekCase;

static void
check_weeks (const HwRoom   *room,
             GDateWeekday    first,
             const WeekCase *expected,
             guint           n)
{
  g_autoptr (GArray) weeks = hw_journal_weeks (room, first, NULL, NULL);

  g_assert_cmpuint (weeks->len, ==, n);
  for (guint i = 0; i < n; i++)
    {
      const HwWeekHours *week = &g_array_index (weeks, HwWeekHours, i);

      g_assert_cmpstr (week->week, ==, expected[i].week);
      g_assert_cmpstr (week->project, ==, expected[i].project);
      g_assert_cmpfloat_with_epsilon (week->hours, expected[i].hours, 1e-9);
    }
}

/* 28 December 2031 is a Sunday, 1 January 2033 a Saturday. */
static void
test_weeks (RoomFixture  *fixture,
            gconstpointer data)
{
  static const struct { const char *time; const char *project; double minutes; } sewn[] = {
    { "2031-12-28T10:00:00Z", "cape", 60 }, { "2031-12-29T10:00:00Z", "cape", 30 },
    { "2032-01-01T10:00:00Z", "cape", 30 }, { "2032-01-02T10:00:00Z", NULL, 15 },
    { "2033-01-01T10:00:00Z", "cape", 6 },
  };
  static const WeekCase from_monday[] = {
    { "2031-12-22", "cape", 1 }, { "2031-12-29", NULL, 0.25 }, { "2031-12-29", "cape", 1 },
    { "2032-12-27", "cape", 0.1 },
  };
  static const WeekCase from_sunday[] = {
    { "2031-12-28", NULL, 0.25 }, { "2031-12-28", "cape", 2 }, { "2032-12-26", "cape", 0.1 },
  };
  static const WeekCase from_saturday[] = {
    { "2031-12-27", NULL, 0.25 }, { "2031-12-27", "cape", 2 }, { "2033-01-01", "cape", 0.1 },
  };
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwJournalEntry) hand = hw_journal_entry_new (HW_ENTRY_SEWING, "hand");

  for (gsize i = 0; i < G_N_ELEMENTS (sewn); i++)
    {
      g_autoptr (HwJournalEntry) entry = make_sewing (sewn[i].time, sewn[i].project, sewn[i].minutes);

      append (&room, entry);
    }
  hand->minutes = 100;
  append (&room, hand);
  check_weeks (room, G_DATE_MONDAY, from_monday, G_N_ELEMENTS (from_monday));
  check_weeks (room, G_DATE_SUNDAY, from_sunday, G_N_ELEMENTS (from_sunday));
  check_weeks (room, G_DATE_SATURDAY, from_saturday, G_N_ELEMENTS (from_saturday));
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
      g_assert_cmpint (hw_journal_begins_pace (room, entry), ==, i == HW_TIME_LEAST_ENTRIES - 1);
      append (&room, entry);
      if (i < HW_TIME_LEAST_ENTRIES - 1)         /* one step, or two, are no pace */
        g_assert_cmpfloat (hw_journal_time_factor (room, "seam"), ==, 1);
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

/* ---- random journals, corrected and cancelled ---- */

#define N_ACTIONS 150

/* What still stands, kept beside the journal. */
typedef struct
{
  char    *id;
  gboolean live;
  gboolean care;
  char     time[32];
  double   minutes, running, lint, life, planned, metres;
  int      needle;                       /* n0 … n2 */
  int      purpose;
} Record;

static const char * const purposes[] = { "seam", "hem", "topstitch" };

static void
draw (GRand  *rand,
      Record *record)
{
  g_snprintf (record->time, sizeof record->time, "2031-%02d-%02dT%02d:%02d:%02dZ", g_rand_int_range (rand, 1, 13),
              g_rand_int_range (rand, 1, 29), g_rand_int_range (rand, 0, 24), g_rand_int_range (rand, 0, 60),
              g_rand_int_range (rand, 0, 60));
  record->minutes = g_rand_double_range (rand, 1, 100);
  record->running = record->minutes * g_rand_double (rand);
  record->lint = g_rand_double_range (rand, 0.5, 3);
  record->life = g_rand_double_range (rand, 0.3, 2);
  record->planned = g_rand_boolean (rand) ? g_rand_double_range (rand, 1, 100) : 0;
  record->metres = g_rand_double_range (rand, 0, 20);
  record->needle = g_rand_int_range (rand, 0, 3);
  record->purpose = g_rand_int_range (rand, 0, 3);
}

static HwJournalEntry *
make_recorded (const Record *record)
{
  HwJournalEntry *entry = make_entry (record->care ? HW_ENTRY_CARE : HW_ENTRY_SEWING, record->time);

  if (record->care)
    {
      entry->task = g_strdup ("dust");
      return entry;
    }
  entry->minutes = record->minutes;
  entry->running = record->running;
  entry->lint = record->lint;
  entry->life = record->life;
  entry->planned = record->planned;
  entry->needle = g_strdup_printf ("n%d", record->needle);
  entry->purpose = g_strdup (purposes[record->purpose]);
  entry->needle_thread = g_strdup ("navy & white tex 30");
  entry->needle_m = record->metres;
  return entry;
}

/* Two entries of one second stand in the order written, which the records do not know: none may share one. */
static gboolean
is_taken (const GArray *records,
          const char   *time)
{
  for (guint i = 0; i < records->len; i++)
    if (strcmp (g_array_index (records, Record, i).time, time) == 0)
      return TRUE;
  return FALSE;
}

static void
act (GRand   *rand,
     HwRoom **room,
     GArray  *records)
{
  Record *old = records->len > 0 ? &g_array_index (records, Record, g_rand_int_range (rand, 0, (int) records->len))
                                 : NULL;
  int what = old != NULL && old->live ? g_rand_int_range (rand, 0, 4) : 3;
  g_autoptr (HwJournalEntry) entry = NULL;
  GError *error = NULL;
  Record record = { .live = TRUE, .care = g_rand_int_range (rand, 0, 12) == 0 };
  HwRoom *next;

  if (what == 0)
    {
      entry = make_entry (HW_ENTRY_CANCEL, "2031-12-31T23:59:59Z");
      entry->of = g_strdup (old->id);
      append (room, entry);
      old->live = FALSE;
      return;
    }
  do
    draw (rand, &record);
  while (is_taken (records, record.time));
  record.care = what == 1 ? old->care : record.care;
  entry = make_recorded (&record);
  record.id = g_strdup (entry->id);
  if (what == 1)
    {
      next = hw_journal_correct (*room, old->id, entry, &error);
      take (room, next, error);
      old->live = FALSE;
    }
  else
    append (room, entry);
  g_array_append_val (records, record);
}

/* What the journal should add up to. */
typedef struct
{
  double minutes, running, lint, metres, worn[3], pace;
  int    n_pace;
} Sums;

static Sums
add_up (const GArray *records,
        const char   *counted)
{
  const char *dusted = "";
  Sums sums = { 0 };

  for (guint i = 0; i < records->len; i++)
    {
      const Record *record = &g_array_index (records, Record, i);

      if (record->live && record->care && strcmp (record->time, dusted) > 0)
        dusted = record->time;
    }
  for (guint i = 0; i < records->len; i++)
    {
      const Record *record = &g_array_index (records, Record, i);

      if (!record->live || record->care)
        continue;
      sums.minutes += record->minutes;
      sums.running += record->running;
      sums.worn[record->needle] += record->minutes / record->life / 60;
      sums.lint += strcmp (record->time, dusted) > 0 ? record->running * record->lint : 0;
      sums.metres += strcmp (record->time, counted) > 0 ? record->metres : 0;
      if (record->planned > 0 && record->minutes >= 0.2 * record->planned)
        {
          sums.pace += CLAMP (log (record->minutes / record->planned), -log (3), log (3));
          sums.n_pace++;
        }
    }
  return sums;
}

static void
assert_sums (const HwRoom     *room,
             const GArray     *records,
             const HwHandbook *handbook)
{
  const HwMachine *machine = hw_room_find_machine (room, "m");
  HwCareTask dust = { .entry.id = (char *) "dust", .machines = 1, .clock = HW_CLOCK_RUNNING, .counts_lint = TRUE };
  HwSpool spool = { (char *) "s", (char *) "none", (char *) "navy & white", 30, 10000,
                    (char *) "2031-06-01T00:00:00Z", HW_SNAP_GOOD, NULL };
  Sums sums = add_up (records, spool.counted);

  g_assert_cmpfloat_with_epsilon (hw_room_get_state (room, machine)->at_machine_hours, 10 + sums.minutes / 60, 1e-6);
  g_assert_cmpfloat_with_epsilon (hw_room_get_state (room, machine)->running_hours, 3 + sums.running / 60, 1e-6);
  g_assert_cmpfloat_with_epsilon (hw_room_care_clock (room, machine, &dust, NULL), sums.lint / 60, 1e-6);
  g_assert_cmpfloat_with_epsilon (hw_room_spool_left (room, &spool, handbook), 10000 - sums.metres, 1e-6);
  g_assert_cmpfloat_with_epsilon (hw_journal_time_factor (room, NULL),
                                  sums.n_pace < HW_TIME_LEAST_ENTRIES
                                  ? 1 : exp (sums.pace / (sums.n_pace + HW_TIME_PRIOR_ENTRIES)), 1e-9);
  for (guint i = 0; i < room->needles->len; i++)
    {
      const HwNeedle *needle = room->needles->pdata[i];

      g_assert_cmpfloat_with_epsilon (needle->at_machine_hours, sums.worn[needle->id[1] - '0'], 1e-6);
    }
}

/* Whatever was entered, corrected and taken back, in whatever order of times: the sums are those of what stands. */
static void
test_random (RoomFixture  *fixture,
             gconstpointer data)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (GPOINTER_TO_UINT (data));
  g_autofree char *folder = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "handbook", NULL);
  g_autoptr (HwHandbook) handbook = hw_handbook_load (folder, NULL);
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwRoom) again = NULL;
  g_autoptr (GArray) records = g_array_new (FALSE, FALSE, sizeof (Record));

  for (int i = 0; i < 3; i++)
    {
      g_autoptr (HwJournalEntry) load = make_entry (HW_ENTRY_LOAD, "2031-01-01T00:00:00Z");

      load->needle = g_strdup_printf ("n%d", i);
      load->nm = 80;
      append (&room, load);
    }
  for (int i = 0; i < N_ACTIONS; i++)
    act (rand, &room, records);
  assert_sums (room, records, handbook);
  again = room_fixture_open (fixture->folder);
  assert_sums (again, records, handbook);
  for (guint i = 0; i < records->len; i++)
    g_free (g_array_index (records, Record, i).id);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  ADD ("/journal/find", test_find);
  ADD ("/journal/find-needles", test_find_needles);
  ADD ("/journal/csv", test_csv);
  ADD ("/journal/correct", test_correct);
  ADD ("/journal/correct-load", test_correct_load);
  ADD ("/journal/weeks", test_weeks);
  ADD ("/journal/project-hours", test_project_hours);
  ADD ("/journal/time-factor", test_time_factor);
  ADD ("/journal/needle-entries", test_needle_entries);
  for (guint seed = 1; seed <= 5; seed++)
    {
      g_autofree char *path = g_strdup_printf ("/journal/random/%u", seed);

      g_test_add (path, RoomFixture, GUINT_TO_POINTER (seed), room_fixture_set_up, test_random, room_fixture_tear_down);
    }
  return g_test_run ();
}
