/* test-care.c - queue, care and its calendar, as a person calls for them
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The calendar is read by an independent parser (python3-icalendar) and held to the rules of RFC 5545 by section.
 */

#include "outcome.h"
#include "temp-folder.h"

#include <glib/gstdio.h>
#include <string.h>

typedef struct
{
  char *folder, *room, *calendar;
} Fixture;

static Outcome
spawn (const Fixture *fixture, const char * const *argv)
{
  g_autoptr (GSubprocessLauncher) launcher = outcome_launcher_new ();

  g_subprocess_launcher_setenv (launcher, "HANDWHEEL_ROOM", fixture->room, TRUE);
  return outcome_spawn (launcher, argv);
}

static Outcome
run (const Fixture *fixture, const char *line)
{
  g_autofree char *whole = g_strdup_printf ("%s %s", g_getenv ("HANDWHEEL"), line);
  g_auto (GStrv) argv = g_strsplit (whole, " ", -1);

  return spawn (fixture, (const char * const *) argv);
}

/* ---- a room ---- */

static void
write_file (const char *room, const char *folder, const char *name, const char *text)
{
  g_autofree char *path = g_build_filename (room, folder, NULL);
  g_autofree char *file = g_build_filename (path, name, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_mkdir_with_parents (path, 0700), ==, 0);
  g_file_set_contents (file, text, -1, &error);
  g_assert_no_error (error);
}

/* Dusting is due 2 hours at the machine after it was done in 2024; the service by the calendar long since. The
 * machine's name has all that must be escaped, and is too long for a line. */
static const char machine[] =
  "<machine xmlns=\"urn:handwheel:room:1\" id=\"home\""
  " name=\"Grandmother’s machine; heavy, black \\ gold — näht dickes Segeltuch und Öltuch ohne Murren\""
  " kind=\"lockstitch\" system=\"household\" dial=\"edge-wheel\" dial-low=\"0\" dial-high=\"9\" dial-neutral=\"4\""
  " length-max=\"5\" width-max=\"7\" plate-opening=\"9\" foot-lift=\"6\" speed=\"800\" bobbin-cm3=\"2.2\""
  " needle-flat=\"back\"><foot id=\"all-purpose\"/><plate id=\"zigzag\"/><care id=\"dust\" limit=\"2\"/></machine>\n";

static const char journal[] =
  "<journal xmlns=\"urn:handwheel:room:1\" machine=\"home\" year=\"2024\">"
  "<care id=\"7ad1f1b4-52c8-4b0d-b1e9-0c6f6d0f3a03\" time=\"2024-05-01T09:00:00Z\" task=\"dust\"/>"
  "<care id=\"7ad1f1b4-52c8-4b0d-b1e9-0c6f6d0f3a04\" time=\"2024-05-01T09:00:01Z\" task=\"service\"/>"
  "<sewing id=\"7ad1f1b4-52c8-4b0d-b1e9-0c6f6d0f3a05\" time=\"2024-05-01T10:00:00Z\" minutes=\"90\" running=\"30\"/>"
  "</journal>\n";

static char *
make_project (const char *id, const char *due, const char *colour)
{
  return g_strdup_printf (
    "<project xmlns=\"urn:handwheel:project:1\" id=\"%s\" title=\"The %s\"%s>"
    "<fabrics><fabric id=\"cloth\" name=\"Cloth\" handbook=\"cotton-twill\"/></fabrics>"
    "<threads><thread id=\"own\" handbook=\"polyester-30\" colour=\"%s\"/>"
    "<thread id=\"black\" handbook=\"polyester-30\" colour=\"black\"/></threads><steps>"
    "<operation number=\"1\" name=\"Seams\" purpose=\"seam\" length-cm=\"1200\" needle-thread=\"own\">"
    "<ply fabric=\"cloth\" count=\"2\"/></operation>"
    "<operation number=\"2\" name=\"More seams\" purpose=\"seam\" length-cm=\"900\" needle-thread=\"black\""
    " after=\"1\">"
    "<ply fabric=\"cloth\" count=\"2\"/></operation></steps></project>\n", id, id, due, colour);
}

static void
set_up (Fixture *fixture, gconstpointer data)
{
  static const char * const ids[] = { "apron", "bag", "curtain" };
  static const char * const dues[] = { "", " due=\"2099-05-01\"", " due=\"2099-04-01\"" };

  fixture->folder = g_dir_make_tmp ("handwheel-care-XXXXXX", NULL);
  fixture->room = g_build_filename (fixture->folder, "room", NULL);
  fixture->calendar = g_build_filename (fixture->folder, "care.ics", NULL);
  write_file (fixture->room, "machines", "home.xml", machine);
  write_file (fixture->room, "journal", "home-2024.xml", journal);
  for (int i = 0; i < 3; i++)
    {
      g_autofree char *project = make_project (ids[i], dues[i], i == 0 ? "red" : "white");
      g_autofree char *name = g_strconcat (ids[i], ".handwheel", NULL);

      write_file (fixture->room, "projects", name, project);
    }
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  temp_folder_remove_tree (fixture->folder);
  g_free (fixture->folder);
  g_free (fixture->room);
  g_free (fixture->calendar);
}

/* ---- queue ---- */

/* The due ones first, by date; the others behind them. */
static void
test_queue (Fixture *fixture, gconstpointer data)
{
  g_auto (Outcome) outcome = run (fixture, "queue");
  const char *curtain, *bag, *apron;

  g_assert_cmpint (outcome.status, ==, 0);
  curtain = strstr (outcome.out, "The curtain");
  bag = strstr (outcome.out, "The bag");
  apron = strstr (outcome.out, "The apron");
  g_assert_true (curtain != NULL && curtain < bag && bag < apron);
  assert_contains (outcome.out, "in time");
  assert_contains (outcome.out, "1 May 2099");
  assert_contains (outcome.out, "6 h a week");
}

static double
read_fact (const char *xml, const char *name)
{
  g_autofree char *start = g_strdup_printf (" %s=\"", name);
  const char *found = strstr (xml, start);

  g_assert_nonnull (found);
  return g_ascii_strtod (found + strlen (start), NULL);
}

/* White is threaded once for two projects, black once for three. */
static void
test_mixed (Fixture *fixture, gconstpointer data)
{
  g_auto (Outcome) apart = run (fixture, "queue --one-by-one --format=xml");
  g_auto (Outcome) mixed = run (fixture, "queue --mixed --format=xml");
  g_auto (Outcome) people = run (fixture, "queue --mixed");

  g_assert_cmpfloat (read_fact (mixed.out, "change-minutes"), <, read_fact (apart.out, "change-minutes"));
  g_assert_cmpfloat (read_fact (mixed.out, "change-minutes-one-by-one"), ==, read_fact (apart.out, "change-minutes"));
  assert_contains (mixed.out, "mixed=\"yes\"");
  assert_contains (people.out, "Mixed: ");
}

static void
test_queue_refuses (Fixture *fixture, gconstpointer data)
{
  g_auto (Outcome) both = run (fixture, "queue --mixed --one-by-one");
  g_auto (Outcome) none = run (fixture, "queue none.handwheel");
  g_auto (Outcome) damaged = { 0 };

  g_assert_cmpint (both.status, ==, 2);
  g_assert_cmpint (none.status, ==, 3);
  g_assert_cmpstr (none.out, ==, "");
  /* One that does not read does not hide the others. */
  write_file (fixture->room, "projects", "torn.handwheel", "<project");
  damaged = run (fixture, "queue");
  g_assert_cmpint (damaged.status, ==, 0);
  assert_contains (damaged.err, "torn.handwheel");
  assert_contains (damaged.err, "left out");
  assert_contains (damaged.out, "The apron");
}

/* The first of the queue that is not finished. */
static void
test_next (Fixture *fixture, gconstpointer data)
{
  g_autofree char *file = g_build_filename (fixture->room, "projects", "curtain.handwheel", NULL);
  g_autofree char *log = g_strdup_printf ("log %s --step 1 --step 2", file);
  g_auto (Outcome) first = run (fixture, "next");
  g_auto (Outcome) logged = run (fixture, log);
  g_auto (Outcome) second = run (fixture, "next");

  assert_contains (first.out, "The curtain");
  g_assert_cmpint (logged.status, ==, 0);
  assert_contains (second.out, "The bag");
}

/* ---- care ---- */

static void
test_care (Fixture *fixture, gconstpointer data)
{
  g_auto (Outcome) before = run (fixture, "care --format=csv");
  g_auto (Outcome) done = run (fixture, "care --done service --machine home");
  g_auto (Outcome) after = run (fixture, "care --format=csv --machine home");

  g_assert_cmpint (before.status, ==, 0);
  /* Overdue first: a year has long gone since the service. Dusting comes with the second half hour of sewing. */
  assert_contains (before.out, "home,service,");
  g_assert_true (strstr (before.out, ",months,yes,") < strstr (before.out, "home,dust,1.5,2,hours,no,"));
  assert_contains (strstr (before.out, "home,dust,"), ",curtain,1");
  g_assert_null (strstr (before.out, "home,oil"));       /* its manual gives no limit */
  g_assert_cmpint (done.status, ==, 0);
  assert_contains (done.out, "Service, done.");
  assert_contains (after.out, "home,service,0,");
}

/* What has no clock of its own is told to people, and what no step to come brings has about when. */
/* Whoever notes a new needle is told that nobody said which. */
static void
test_care_needle (Fixture *fixture, gconstpointer data)
{
  g_auto (Outcome) done = run (fixture, "care --done needle --machine home");

  g_assert_cmpint (done.status, ==, 0);
  assert_contains (done.out, "No needle is noted in it now");
  assert_contains (done.out, "handwheel log FILE --load");
}

static void
test_care_told (Fixture *fixture, gconstpointer data)
{
  g_auto (Outcome) outcome = run (fixture, "care --machine home");
  const char *oil;
  const char *discs;

  g_assert_cmpint (outcome.status, ==, 0);
  oil = strstr (outcome.out, "Oil ");
  discs = strstr (outcome.out, "Clean the tension discs");
  g_assert_nonnull (oil);
  assert_contains (oil, "only as its manual says; no interval set");
  g_assert_nonnull (discs);
  assert_contains (discs, "in about ");
  g_assert_null (strstr (outcome.out, "not in sight"));
}

static const struct { const char *line; int status; } refusals[] = {
  { "care --done dust", 2 },
  { "care --done polish --machine home", 1 },
  { "care --done knives --machine home", 1 },
  { "care --machine away", 1 },
  { "care some.handwheel", 2 },
  { "care --calendar /nowhere/at/all/care.ics", 3 },
};

static void
test_care_refuses (Fixture *fixture, gconstpointer data)
{
  for (gsize i = 0; i < G_N_ELEMENTS (refusals); i++)
    {
      g_auto (Outcome) outcome = { 0 };

      if (strstr (refusals[i].line, "/nowhere") != NULL && g_access ("/", W_OK) == 0)
        continue;                        /* who may write everywhere may make that folder */
      outcome = run (fixture, refusals[i].line);
      g_assert_cmpint (outcome.status, ==, refusals[i].status);
      g_assert_cmpstr (outcome.out, ==, "");
      g_assert_cmpuint (strlen (outcome.err), >, 10);
    }
}

/* ---- the calendar ---- */

static char *
make_calendar (const Fixture *fixture)
{
  g_autofree char *line = g_strdup_printf ("care --calendar %s", fixture->calendar);
  g_auto (Outcome) outcome = run (fixture, line);
  g_autoptr (GError) error = NULL;
  char *text = NULL;

  g_assert_cmpint (outcome.status, ==, 0);
  g_file_get_contents (fixture->calendar, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

/* Section 3.1: lines end in CRLF and hold 75 octets at most; a line that goes on begins with a space, and none is
 * parted within a character. */
static void
test_folding (Fixture *fixture, gconstpointer data)
{
  g_autofree char *text = make_calendar (fixture);
  g_auto (GStrv) lines = g_strsplit (text, "\r\n", -1);
  guint n = g_strv_length (lines);
  gboolean folded = FALSE;

  g_assert_cmpstr (lines[n - 1], ==, "");
  for (guint i = 0; i + 1 < n; i++)
    {
      g_assert_null (strpbrk (lines[i], "\r\n"));
      g_assert_cmpuint (strlen (lines[i]), <=, 75);
      g_assert_cmpuint (strlen (lines[i]), >, 0);
      g_assert_true (g_utf8_validate (lines[i], -1, NULL));
      folded = folded || lines[i][0] == ' ';
    }
  g_assert_true (folded);
  g_assert_cmpstr (lines[0], ==, "BEGIN:VCALENDAR");
}

/* Section 3.3.11: backslash, semicolon, comma and line break are escaped; nothing else is. */
static void
test_escaping (Fixture *fixture, gconstpointer data)
{
  g_autofree char *text = make_calendar (fixture);
  g_autoptr (GString) whole = g_string_new (text);

  g_string_replace (whole, "\r\n ", "", 0);
  assert_contains (whole->str, "\r\nSUMMARY:Grandmother’s machine\\; heavy\\, black \\\\ gold — ");
  assert_contains (whole->str, "clean or oil. The machine’s manual comes first.\\n");
}

/* Section 3.8.4.7: the same event keeps its UID, so that reading the file again does not double it; the next one
 * after that care has another. */
static void
test_uid (Fixture *fixture, gconstpointer data)
{
  g_autofree char *first = make_calendar (fixture);
  g_autofree char *again = make_calendar (fixture);
  g_auto (Outcome) done = run (fixture, "care --done dust --machine home");
  g_autofree char *after = make_calendar (fixture);
  const char *uid = strstr (first, "UID:dust-home-");
  g_autofree char *line = NULL;

  g_assert_cmpint (done.status, ==, 0);
  g_assert_nonnull (uid);
  line = g_strndup (uid, strcspn (uid, "\r"));
  assert_contains (again, line);
  g_assert_null (strstr (after, line));
}

static const char reader[] =
  "import datetime, icalendar, sys\n"
  "calendar = icalendar.Calendar.from_ical(open(sys.argv[1], 'rb').read())\n"
  "assert calendar['VERSION'] == '2.0' and calendar['PRODID']\n"
  "events = calendar.walk('VEVENT')\n"
  "assert len({str(e['UID']) for e in events}) == len(events) >= 2\n"
  "for event in events:\n"
  "    assert type(event['DTSTART'].dt) is datetime.date\n"
  "    assert event['DTSTAMP'].dt.tzinfo is not None\n"
  "    assert [a['ACTION'] for a in event.walk('VALARM')] == ['DISPLAY']\n"
  "    print(event['DTSTART'].dt.isoformat(), str(event['SUMMARY']))\n";

/* Another program reads what was meant. */
static void
test_parser (Fixture *fixture, gconstpointer data)
{
  const char *python = g_file_test ("/usr/bin/python3", G_FILE_TEST_IS_EXECUTABLE) ? "/usr/bin/python3" : "python3";
  g_autofree char *text = make_calendar (fixture);
  const char *argv[] = { python, "-c", reader, fixture->calendar, NULL };
  g_auto (Outcome) outcome = spawn (fixture, argv);

  g_assert_cmpstr (outcome.err, ==, "");
  g_assert_cmpint (outcome.status, ==, 0);
  assert_contains (outcome.out, "Grandmother’s machine; heavy, black \\ gold — näht dickes Segeltuch und Öltuch ohne "
                                "Murren: Service\n");
  assert_contains (outcome.out, "Murren: Dust under the needle plate\n");
}

static const struct { const char *path; void (*test) (Fixture *, gconstpointer); } tests[] = {
  { "/care/queue", test_queue },
  { "/care/queue-mixed", test_mixed },
  { "/care/queue-refuses", test_queue_refuses },
  { "/care/next", test_next },
  { "/care/due", test_care },
  { "/care/needle", test_care_needle },
  { "/care/told", test_care_told },
  { "/care/refuses", test_care_refuses },
  { "/care/calendar/folding", test_folding },
  { "/care/calendar/escaping", test_escaping },
  { "/care/calendar/uid", test_uid },
  { "/care/calendar/parser", test_parser },
};

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Fixture, NULL, set_up, tests[i].test, tear_down);
  return g_test_run ();
}
