/* test-journal-file.c - the journal's files: what is read, what is refused, what an entry more leaves as it was
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A journal is gone through tag by tag; one that is not plainly good is read again as a tree. Both ways and the schema
 * must agree. An empty CDATA section, which is harmless, makes a file take the long way.
 */

#include "config.h"

#include "files/xml.h"
#include "model/journal.h"
#include "room-fixture.h"
#include "temp-folder.h"

#include <string.h>

#define LONG_WAY "<![CDATA[ ]]>"

typedef struct
{
  char  *csv;                            /* all that was read; NULL: refused, */
  char  *message;                        /* for this */
} Reading;

static void
clear_reading (Reading *self)
{
  g_free (self->csv);
  g_free (self->message);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Reading, clear_reading)

static Reading
read_body (const char *folder,
           const char *inserted,
           const char *body)
{
  const HwJournalFilter all = { .kinds = G_MAXUINT, .with_cancelled = TRUE };
  g_autofree char *file = g_strconcat (JOURNAL, inserted, body, "</journal>", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (GPtrArray) entries = NULL;
  Reading reading = { NULL, NULL };

  temp_folder_write (folder, "journal/m-2031.xml", file, -1);
  room = hw_room_open (folder, &error);
  if (room == NULL)
    reading.message = g_strdup (error->message);
  else
    {
      entries = hw_journal_find (room, &all);
      reading.csv = hw_journal_to_csv (entries);
    }
  return reading;
}

static HwSchema *
load_schema (void)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "data/schema/room.rng", NULL);
  g_autoptr (GError) error = NULL;
  HwSchema *schema = hw_schema_load (path, &error);

  g_assert_no_error (error);
  return schema;
}

static gboolean
follows_schema (const HwSchema *schema,
                const char     *body)
{
  g_autofree char *file = g_strconcat (JOURNAL, body, "</journal>", NULL);
  g_autoptr (HwXml) xml = hw_xml_read_bytes ("m-2031.xml", file, strlen (file), "journal", HW_ROOM_NS, NULL);

  return xml != NULL && hw_schema_check (schema, xml, NULL);
}

/* Returns whether @body is good. */
static gboolean
assert_agree (const RoomFixture *fixture,
              const HwSchema    *schema,
              const char        *body)
{
  g_auto (Reading) tags = read_body (fixture->folder, "", body);
  g_auto (Reading) tree = read_body (fixture->folder, LONG_WAY, body);
  gboolean valid = follows_schema (schema, body);

  if ((tags.csv != NULL) != valid)
    g_error ("the schema %s, but the reader says “%s”: %s", valid ? "takes it" : "refuses it",
             tags.message != NULL ? tags.message : "good", body);
  g_assert_cmpstr (tags.csv, ==, tree.csv);
  g_assert_cmpstr (tags.message, ==, tree.message);
  return valid;
}

/* Few attributes in each: the time that libxml2's validator takes doubles with each optional one. */
#define AT "time='2031-05-09T14:03:00Z'"
static const char * const good[] = {
  "<sewing id='a' " AT " minutes='45'/>",
  "<sewing id='a.b-c_d' " AT " minutes='45' running='7.25' lint='2' life='0.5'/>",
  "<sewing id='a' " AT " minutes='45' project='skirt' step='3' purpose='seam' planned='40'/>",
  "<sewing id='a' " AT " minutes='45' needle='n1' needle-thread='navy tex 30' bobbin-thread='Écru tex 30' "
    "needle-m='12.5' bobbin-m='9'/>",
  "<sewing id='a' " AT " minutes='45' system='household' point='round' nm='80' foot='zip' plate='hole'/>",
  "<sewing id='a' " AT " minutes='45' length='2.5' width='0' dial='4.5' note='Straße &lt;&amp;&quot;&#10;two lines'/>",
  "<load id='ä' " AT " packet='r80' system='household' point='round' nm='80' twin='0'/>",
  "<load id='a' " AT " needle='n1' needle-thread='navy' bobbin-thread='navy' foot='zip'/>",
  "<load id='a' time='2031-05-09T14:03:00.25+02:00' plate='hole' stitch='301' verdict='discarded'/>",
  "<care id='a' " AT " task='dust' note=''/>",
  "<test-seam id='a' time='2032-02-29T23:59:59Z' project='skirt' step='3' dial='-1' verdict='balanced'/>",
  "<test-seam id='a' " AT " dial='4' verdict='balanced' tex='30' bobbin-tex='27' under-foot='1.4' length='2.5'/>",
  "<test-seam id='a' " AT " dial='4' verdict='balanced' width='0' terms='jersey twin' cloth='denim'/>",
  "<fault id='a' " AT " needle='n1' fault='skipped' cause='worn' dial='4' verdict='found'/>",
  "<fault id='a' " AT " project='skirt' step='3' verdict='found'/>",
  "<cancel id='a' time='2031-05-09T14:03:00-05:00' of='b'/>",
  "<needle id='a' " AT " needle='n1' verdict='out' place='second row'/>",
};

static const char * const values[] = {
  "", " ", "a", "two words", "-", "0", "1", "2.5", "-1", "-20.5", "0.001", "81", "1001", "1000001", "1e3", "2,5", "nan",
  "0x1p3", "Ü", "&amp;", "&#9;", "&#x85;", "&#xa0;", "a&#10;b", "2031-05-09", "2031-02-29T10:00:00Z",
  "2031-05-09T24:00:00Z",
  "2031-05-09T10:00:60Z", "2031-05-09T10:00:00", "20310509T100000Z", "2031-W19-5T10:00:00Z", "0999-05-09T10:00:00Z",
  "2031-05-09T10:00:00.5-03:30", "2031-5-9T10:00:00Z", "2031-05-09 10:00:00Z", "&lt;b&gt;",
};

static void
test_good (RoomFixture  *fixture,
           gconstpointer data)
{
  g_autoptr (HwSchema) schema = load_schema ();

  for (gsize i = 0; i < G_N_ELEMENTS (good); i++)
    g_assert_true (assert_agree (fixture, schema, good[i]));
}

static void
test_bad (RoomFixture  *fixture,
          gconstpointer data)
{
  static const char * const bad[] = {
    "<sewing id='a' time='2031-05-09T14:03:00Z'/>",
    "<sewing time='2031-05-09T14:03:00Z' minutes='1'/>",
    "<sewing id='a' minutes='1'/>",
    "<sewing id='a b' time='2031-05-09T14:03:00Z' minutes='1'/>",
    "<sewing id='a' time='2031-05-09T14:03:00Z' minutes='1' colour='red'/>",
    "<sewing id='a' time='2031-05-09T14:03:00Z' minutes='1' task='dust'/>",
    "<sewing id='a' time='2031-05-09T14:03:00Z' minutes='1' xml:lang='de'/>",
    "<sewing id='a' time='2031-05-09T14:03:00Z' minutes='1'>text</sewing>",
    "<sewing xmlns='urn:other' id='a' time='2031-05-09T14:03:00Z' minutes='1'/>",
    "<care id='a' time='2031-05-09T14:03:00Z' task='dust'/>text",
    "<care id='a' time='2031-05-09T14:03:00Z' task='dust' task='oil'/>",
    "<care id='a' time='2031-05-09T14:03:00Z' task='&unknown;'/>",
    "<care id='a' time='2031-05-09T14:03:00Z' task='dust'>",
    "<pause id='a' time='2031-05-09T14:03:00Z'/>",
  };
  g_autoptr (HwSchema) schema = load_schema ();

  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_false (assert_agree (fixture, schema, bad[i]));
}

/* What the schema cannot say. */
static void
test_twice (RoomFixture  *fixture,
            gconstpointer data)
{
  static const char twice[] = "<care id='a' time='2031-05-09T14:03:00Z' task='dust'/>\n"
                              "<care id='a' time='2031-05-10T14:03:00Z' task='dust'/>";
  g_auto (Reading) tags = read_body (fixture->folder, "", twice);
  g_auto (Reading) tree = read_body (fixture->folder, LONG_WAY, twice);

  g_assert_cmpstr (tags.message, ==, "m-2031.xml:3: the id “a” is used twice; give this one another");
  g_assert_cmpstr (tree.message, ==, tags.message);
}

/* (transfer full): @entry with its @n-th attribute given another value; NULL: without it. */
static char *
change_attribute (const char *entry,
                  guint       n,
                  const char *value)
{
  g_auto (GStrv) parts = g_strsplit (entry, "'", -1);    /* names, with "=", and values in turn */
  GString *changed = g_string_new (NULL);
  guint place = 2 * n + 1;

  for (guint i = 0; parts[i] != NULL; i++)
    if (value == NULL && i + 1 == place)
      g_string_append_printf (changed, "%s%.*s", i > 0 ? "'" : "", (int) (strrchr (parts[i], ' ') - parts[i]),
                              parts[i]);
    else if (value == NULL && i == place + 1)
      g_string_append (changed, parts[i]);
    else if (value != NULL || i != place)
      g_string_append_printf (changed, "%s%s", i > 0 ? "'" : "", i == place ? value : parts[i]);
  return g_string_free (changed, FALSE);
}

static void
test_changed (RoomFixture  *fixture,
              gconstpointer data)
{
  g_autoptr (HwSchema) schema = load_schema ();
  int n_good = 0;
  int n_bad = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (good); i++)
    for (guint n = 0, all = 0; n == 0 || n < all; n++)
      {
        g_auto (GStrv) parts = g_strsplit (good[i], "'", -1);

        all = (g_strv_length (parts) - 1) / 2;
        for (gsize j = 0; j <= G_N_ELEMENTS (values); j++)
          {
            g_autofree char *changed = change_attribute (good[i], n, j > 0 ? values[j - 1] : NULL);

            if (assert_agree (fixture, schema, changed))
              n_good++;
            else
              n_bad++;
          }
      }
  g_assert_cmpint (n_good, >, 500);
  g_assert_cmpint (n_bad, >, 500);
}

/* ---- one entry more ---- */

/* (transfer full): of the machine "m", with @id */
static HwJournalEntry *
make_entry (HwEntryKind kind,
            const char *id,
            const char *time)
{
  HwJournalEntry *entry = hw_journal_entry_new (kind, "m");

  g_free (entry->id);
  g_free (entry->time);
  entry->id = g_strdup (id);
  entry->time = g_strdup (time);
  return entry;
}

/* What a person wrote into the file, and another version, stays as it was. */
static void
test_rest_stays (RoomFixture  *fixture,
                 gconstpointer data)
{
  static const char before[] =
    "<?xml version='1.0'?>\n<!-- mine -->\n<journal " NS " machine='m'>\n\n"
    "<care  task='dust'\n  time='2031-02-01T10:00:00+01:00' id='a'/> <!-- with the new brush -->\n";
  g_autofree char *file = g_strconcat (before, "</journal>\n\n", NULL);
  g_autofree char *expected = g_strconcat (before, "  <care id=\"b\" time=\"2031-05-09T14:03:00Z\" task=\"oil\"/>\n"
                                           "</journal>\n", NULL);
  g_autoptr (HwJournalEntry) entry = make_entry (HW_ENTRY_CARE, "b", "2031-05-09T14:03:00Z");
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (HwRoom) next = NULL;
  g_autofree char *after = NULL;

  temp_folder_write (fixture->folder, "journal/m-2031.xml", file, -1);
  room = room_fixture_open (fixture->folder);
  entry->task = g_strdup ("oil");
  next = hw_room_append (room, entry, NULL);
  g_assert_nonnull (next);
  after = temp_folder_read (fixture->folder, "journal/m-2031.xml");
  g_assert_cmpstr (after, ==, expected);
}

static HwJournalEntry *
draw_entry (GRand *rand,
            int    number)
{
  static const HwEntryKind kinds[] = { HW_ENTRY_SEWING, HW_ENTRY_SEWING, HW_ENTRY_LOAD, HW_ENTRY_CARE };
  static const char * const tasks[] = { "dust", "oil", "needle" };
  g_autofree char *id = g_strdup_printf ("e%d", number);
  /* mostly one after the other, now and then before all that is there */
  g_autofree char *time = g_strdup_printf ("2031-%02d-%02dT10:00:00Z",
                                           g_rand_int_range (rand, 0, 10) > 0 ? 2 + number / 28 : 1, 1 + number % 28);
  HwJournalEntry *entry = make_entry (kinds[g_rand_int_range (rand, 0, 4)], id, time);

  entry->minutes = g_rand_int_range (rand, 1, 100);
  entry->running = g_rand_int_range (rand, 0, 2);
  if (entry->kind == HW_ENTRY_CARE)
    entry->task = g_strdup (tasks[g_rand_int_range (rand, 0, 3)]);
  if (entry->kind == HW_ENTRY_LOAD)
    entry->nm = 80;
  if (entry->kind == HW_ENTRY_SEWING)
    {
      entry->project = g_strdup ("skirt");
      entry->step = g_strdup_printf ("%d", g_rand_int_range (rand, 0, 9));
      entry->purpose = g_strdup ("seam");
      entry->planned = g_rand_int_range (rand, 0, 50);
      entry->needle_thread = g_strdup (g_rand_boolean (rand) ? "navy tex 30" : "red tex 30");
      entry->needle_m = g_rand_int_range (rand, 0, 20);
    }
  return entry;
}

static void
assert_same_sums (const HwRoom *a,
                  const HwRoom *b)
{
  static const char * const tasks[] = { "dust", "oil", "needle" };
  const HwMachine *machine = hw_room_find_machine (a, "m");

  for (gsize i = 0; i < G_N_ELEMENTS (tasks); i++)
    for (HwClock clock = HW_CLOCK_RUNNING; clock <= HW_CLOCK_SEWING_DAY; clock++)
      {
        HwCareTask task = { .entry = { .id = (char *) tasks[i] }, .clock = clock };

        g_assert_cmpfloat_with_epsilon (hw_room_care_clock (a, machine, &task, "2032-01-01T00:00:00Z"),
                                        hw_room_care_clock (b, machine, &task, "2032-01-01T00:00:00Z"), 1e-9);
      }
  g_assert_cmpfloat_with_epsilon (hw_journal_time_factor (a, "seam"), hw_journal_time_factor (b, "seam"), 1e-9);
  for (int step = 0; step < 9; step++)
    {
      g_autofree char *number = g_strdup_printf ("%d", step);
      const HwJournalEntry *first = hw_room_step_done (a, "skirt", number);
      const HwJournalEntry *second = hw_room_step_done (b, "skirt", number);

      g_assert_cmpstr (first != NULL ? first->id : NULL, ==, second != NULL ? second->id : NULL);
    }
}

static void
assert_same (const HwRoom *a,
             const HwRoom *b)
{
  g_assert_cmpuint (a->entries->len, ==, b->entries->len);
  for (guint i = 0; i < a->entries->len; i++)
    g_assert_cmpstr (((HwJournalEntry *) a->entries->pdata[i])->id, ==, ((HwJournalEntry *) b->entries->pdata[i])->id);
  g_assert_cmpuint (a->needles->len, ==, b->needles->len);
  for (guint i = 0; i < a->needles->len; i++)
    {
      const HwNeedle *first = a->needles->pdata[i];
      const HwNeedle *second = b->needles->pdata[i];

      g_assert_cmpstr (first->id, ==, second->id);
      g_assert_cmpfloat_with_epsilon (first->at_machine_hours, second->at_machine_hours, 1e-9);
      g_assert_cmpint (first->discarded, ==, second->discarded);
      g_assert_cmpstr (first->machine, ==, second->machine);
    }
  g_assert_cmpfloat_with_epsilon (a->states[0].at_machine_hours, b->states[0].at_machine_hours, 1e-9);
  g_assert_cmpstr (a->states[0].needle != NULL ? a->states[0].needle->id : NULL, ==,
                   b->states[0].needle != NULL ? b->states[0].needle->id : NULL);
  assert_same_sums (a, b);
}

/* Whether an entry is added to what followed from those before, or everything follows from all anew, is the same; and
 * the snapshots before stay as they were. */
static void
test_grown (RoomFixture  *fixture,
            gconstpointer data)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20310510);
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwRoom) kept = NULL;
  g_autoptr (HwRoom) kept_again = NULL;

  for (int i = 0; i < 250; i++)
    {
      g_autoptr (HwJournalEntry) entry = draw_entry (rand, i);
      HwRoom *next = hw_room_append (room, entry, NULL);

      g_assert_nonnull (next);
      hw_room_unref (room);
      room = next;
      if (i == 200)
        {
          kept = hw_room_ref (room);
          kept_again = room_fixture_open (fixture->folder);
        }
      if (i % 25 == 0 || i > 240)
        {
          g_autoptr (HwRoom) again = room_fixture_open (fixture->folder);
          assert_same (room, again);
        }
    }
  assert_same (kept, kept_again);
}

/* More entries than a snapshot keeps in its list of recent ones: an id is known however long ago it came. */
static void
test_known (RoomFixture  *fixture,
            gconstpointer data)
{
  g_autoptr (HwRoom) room = room_fixture_open (fixture->folder);
  g_autoptr (HwRoom) again = NULL;

  for (int i = 0; i < 1100; i++)
    {
      g_autofree char *id = g_strdup_printf ("e%d", i);
      g_autoptr (HwJournalEntry) entry = make_entry (HW_ENTRY_LOAD, id, "2031-05-09T14:03:00Z");
      HwRoom *next = hw_room_append (room, entry, NULL);

      g_assert_nonnull (next);
      hw_room_unref (room);
      room = next;
      if (i % 100 == 0)
        {
          g_autoptr (GError) error = NULL;

          g_assert_null (hw_room_append (room, entry, &error));
          g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID);
        }
    }
  again = room_fixture_open (fixture->folder);
  assert_same (room, again);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  ADD ("/journal-file/good", test_good);
  ADD ("/journal-file/bad", test_bad);
  ADD ("/journal-file/twice", test_twice);
  ADD ("/journal-file/changed", test_changed);
  ADD ("/journal-file/rest-stays", test_rest_stays);
  ADD ("/journal-file/grown", test_grown);
  ADD ("/journal-file/known", test_known);
  return g_test_run ();
}
