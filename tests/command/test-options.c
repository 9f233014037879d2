/* test-options.c - what each command does on request, and what it refuses in one line that says what to do
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All run in a copy of the demo's sewing room, called as a person calls them.
 */

#include "outcome.h"
#include "temp-folder.h"

#include <glib/gstdio.h>
#include <string.h>

typedef struct
{
  char *folder, *room, *project;
} Fixture;

/* ---- a room ---- */

static void
set_up (Fixture      *fixture,
        gconstpointer data)
{
  g_autofree char *demo = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "demo", NULL);

  fixture->folder = g_dir_make_tmp ("handwheel-options-XXXXXX", NULL);
  fixture->room = g_build_filename (fixture->folder, "room", NULL);
  fixture->project = g_build_filename (fixture->room, "projects", "stage-cape.handwheel", NULL);
  temp_folder_copy_tree (demo, fixture->room);
}

static void
tear_down (Fixture      *fixture,
           gconstpointer data)
{
  temp_folder_remove_tree (fixture->folder);
  g_free (fixture->folder);
  g_free (fixture->room);
  g_free (fixture->project);
}

/* Runs handwheel in the fixture's folder with the words of @line; PROJECT is the demo's project. */
static Outcome
run (const Fixture *fixture,
     const char    *line)
{
  g_autoptr (GSubprocessLauncher) launcher = outcome_launcher_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *program = g_canonicalize_filename (g_getenv ("HANDWHEEL"), NULL);
  g_autofree char *whole = g_strdup_printf ("'%s' %s", program, line);
  g_auto (GStrv) argv = NULL;

  g_assert_true (g_shell_parse_argv (whole, NULL, &argv, &error));
  for (char **word = argv; *word != NULL; word++)
    if (g_str_equal (*word, "PROJECT"))
      {
        g_free (*word);
        *word = g_strdup (fixture->project);
      }
  g_subprocess_launcher_set_cwd (launcher, fixture->folder);
  g_subprocess_launcher_setenv (launcher, "HANDWHEEL_ROOM", fixture->room, TRUE);
  return outcome_spawn (launcher, (const char * const *) argv);
}

/* The command does it, and says all of @parts (ends with NULL). */
static void
assert_says (const Fixture      *fixture,
             const char         *line,
             const char * const *parts)
{
  g_auto (Outcome) outcome = run (fixture, line);

  if (outcome.status != 0)
    g_error ("“%s”: %s", line, outcome.err);
  g_assert_cmpstr (outcome.err, ==, "");
  for (; *parts != NULL; parts++)
    assert_contains (outcome.out, *parts);
}

#define SAYS(line, ...) assert_says (fixture, line, (const char * const []) { __VA_ARGS__, NULL })

static char *
read_file (const Fixture *fixture,
           const char    *name)
{
  g_autofree char *path = g_build_filename (fixture->folder, name, NULL);
  char *data = NULL;

  g_assert_true (g_file_get_contents (path, &data, NULL, NULL));
  return data;
}

/* ---- handed on ---- */

/* Another person's, with the same machines and no project. */
static void
make_other_room (const Fixture *fixture)
{
  g_autofree char *demo = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "demo", NULL);
  g_autofree char *other = g_build_filename (fixture->folder, "other", NULL);
  g_autofree char *project = g_build_filename (other, "projects", "stage-cape.handwheel", NULL);

  temp_folder_copy_tree (demo, other);
  g_assert_cmpint (g_unlink (project), ==, 0);
}

/* A project goes with its fabrics and test seams to another room, and is planned there. */
static void
test_share (Fixture      *fixture,
            gconstpointer data)
{
  SAYS ("test-seam PROJECT --step 3 --verdict loops-below --dial 3", "");
  SAYS ("export PROJECT -o cape.handwheel-share", "");
  make_other_room (fixture);
  SAYS ("import cape.handwheel-share --machine lockstitch --room other", "stage-cape.handwheel\n",
        "1 test seam came with it");
  SAYS ("plan other/projects/stage-cape.handwheel --room other", "Topstitch both sides of each seam");
  SAYS ("test-seam PROJECT --room other", "Side panels to back and fronts");
  SAYS ("import cape.handwheel-share --room other", "stage-cape-2.handwheel");
}

/* Test seams for a kind of machine that the room does not have are left out, and counted. */
static void
test_share_without_machine (Fixture      *fixture,
                            gconstpointer data)
{
  g_autofree char *machine = g_build_filename (fixture->folder, "other", "machines", "lockstitch.xml", NULL);
  g_autofree char *journal = g_build_filename (fixture->folder, "other", "journal", "lockstitch-2026.xml", NULL);

  SAYS ("test-seam PROJECT --step 3 --verdict loops-below --dial 3", "");
  SAYS ("export PROJECT -o cape.handwheel-share", "");
  make_other_room (fixture);
  g_assert_cmpint (g_unlink (machine), ==, 0);
  g_assert_cmpint (g_unlink (journal), ==, 0);
  SAYS ("import cape.handwheel-share --room other", "stage-cape.handwheel\n", "1 test seam", "no machine");
}

static void
test_teach (Fixture      *fixture,
            gconstpointer data)
{
  g_autofree char *own = read_file (fixture, "room/machines/lockstitch.xml");
  g_autofree char *second = g_build_filename (fixture->room, "machines", "second.xml", NULL);
  g_auto (GStrv) parts = g_strsplit (own, "id=\"lockstitch\"", 2);
  g_autofree char *text = g_strjoinv ("id=\"second\"", parts);
  g_autofree char *taught = NULL;
  g_autofree char *forgot = NULL;

  g_assert_true (g_file_set_contents (second, text, -1, NULL));
  SAYS ("teach --machine second --from lockstitch", "");
  taught = read_file (fixture, "room/machines/second.xml");
  assert_contains (taught, "learned-from=\"lockstitch\"");
  SAYS ("teach --machine second --forget", "");
  forgot = read_file (fixture, "room/machines/second.xml");
  g_assert_null (strstr (forgot, "learned-from"));
}

/* ---- told ---- */

/* Every chapter that the list names can be read, and is on paper too. */
static void
test_guide (Fixture      *fixture,
            gconstpointer data)
{
  g_auto (Outcome) list = run (fixture, "guide");
  g_auto (GStrv) lines = g_strsplit (g_strchomp (list.out), "\n", -1);
  g_autofree char *a4 = NULL;
  g_autofree char *letter = NULL;

  g_assert_cmpuint (g_strv_length (lines), >, 5);
  for (char **line = lines; *line != NULL; line++)
    {
      g_auto (GStrv) words = g_strsplit (*line, " ", 2);
      g_autofree char *call = g_strconcat ("guide ", words[0], NULL);
      g_auto (Outcome) chapter = run (fixture, call);

      g_assert_cmpint (chapter.status, ==, 0);
      g_assert_true (g_str_has_prefix (chapter.out, g_strchug (words[1])));
      g_assert_cmpuint (strlen (chapter.out), >, 300);
    }
  SAYS ("guide -o a4.pdf", "");
  SAYS ("guide -o letter.pdf --paper letter", "");
  a4 = read_file (fixture, "a4.pdf");
  letter = read_file (fixture, "letter.pdf");
  g_assert_true (g_str_has_prefix (a4, "%PDF"));
  g_assert_true (g_str_has_prefix (letter, "%PDF"));
}

static void
test_care (Fixture      *fixture,
           gconstpointer data)
{
  g_auto (Outcome) one = run (fixture, "care --machine overlocker");

  SAYS ("care", "Lockstitch machine", "Overlocker", "Dust under the needle plate",
        "The dates suppose 6 h of sewing a week",
        "Switch off and unplug");
  g_assert_cmpint (one.status, ==, 0);
  g_assert_null (strstr (one.out, "Lockstitch machine"));
  SAYS ("care --format=csv", "months", ",hours,");
}

static void
test_shelf (Fixture      *fixture,
            gconstpointer data)
{
  g_autofree char *threads = g_build_filename (fixture->room, "threads.xml", NULL);
  g_autofree char *fabrics = g_build_filename (fixture->room, "fabrics.xml", NULL);

  g_assert_true (g_file_set_contents (threads, "<threads xmlns=\"urn:handwheel:room:1\"><thread id=\"navy\""
    " handbook=\"polyester-27\" colour=\"navy\" metres=\"820\" counted=\"2031-05-09T14:03:00Z\" snap=\"weak\"/>"
    "</threads>", -1, NULL));
  g_assert_true (g_file_set_contents (fabrics, "<fabrics xmlns=\"urn:handwheel:room:1\"><fabric id=\"drill\""
    " name=\"Drill from the market\" construction=\"twill\" mass=\"280\" metres=\"3.2\"/>"
    "<fabric id=\"sheet\" name=\"Old sheets\" handbook=\"muslin\"/></fabrics>", -1, NULL));
  SAYS ("shelf", "80/12 medium-ball point", "in: Lockstitch machine", "in the case",
        "navy, Polyester, all-purpose, tex 27", "820 m", "weak: for tacking only", "Drill from the market", "3.2 m",
        "280 g/m²", "Old sheets");
  SAYS ("shelf --format=csv", "part-worn,80/12 round point,", "thread,\"navy, Polyester, all-purpose, tex 27\",820,",
        "fabric,Old sheets,,");
}

/* One card, all cards, and a handout for every machine of a class. */
static void
test_cards (Fixture      *fixture,
            gconstpointer data)
{
  g_autofree char *one = NULL;
  g_autofree char *all = NULL;
  g_autofree char *picture = NULL;
  g_autofree char *handout = NULL;

  SAYS ("card PROJECT -o one.pdf --step 3 --step 3", "");
  SAYS ("card PROJECT -o all.pdf --paper letter --per-sheet 4", "");
  SAYS ("card PROJECT -o picture.svg --step 3 --paper a5", "");
  SAYS ("card PROJECT -o handout.pdf --machines all", "");
  SAYS ("card PROJECT -o named.pdf --machines ' lockstitch , overlocker '", "");
  one = read_file (fixture, "one.pdf");
  all = read_file (fixture, "all.pdf");
  picture = read_file (fixture, "picture.svg");
  handout = read_file (fixture, "handout.pdf");
  g_assert_true (g_str_has_prefix (one, "%PDF"));
  g_assert_true (g_str_has_prefix (handout, "%PDF"));
  assert_contains (picture, "<svg");
}

/* The needle to load next of a project, of the room, and of one in which all is sewn. */
static void
test_next (Fixture      *fixture,
           gconstpointer data)
{
  g_autoptr (GString) steps = g_string_new ("log PROJECT");

  SAYS ("next", "Lined cape for the school play", "Next: step 1, Fuse", "100/16 topstitch point, new");
  SAYS ("log PROJECT --load", "");
  for (int step = 1; step <= 24; step++)
    g_string_append_printf (steps, " --step %d", step);
  SAYS (steps->str, "");
  SAYS ("next PROJECT", "Every step is sewn.", "nothing more to load");
  SAYS ("queue PROJECT", "Nothing is left to sew.");
  {
    g_auto (Outcome) more = run (fixture, "log PROJECT --load");
    g_auto (Outcome) none = run (fixture, "next");
    g_auto (Outcome) empty = run (fixture, "next --room other");

    g_assert_cmpint (more.status, ==, 1);
    assert_contains (more.err, "Nothing more is to be loaded");
    g_assert_cmpint (none.status, ==, 1);
    assert_contains (none.err, "Nothing is left to sew in the sewing room");
    g_assert_cmpint (empty.status, !=, 0);
  }
}

/* The example comes before nothing of the person's own, until something of it is sewn. */
static void
test_example (Fixture      *fixture,
              gconstpointer data)
{
  SAYS ("queue", "Lined cape for the school play");
  SAYS ("new --garment=skirt -o room/projects/skirt.handwheel", "steps");
  {
    g_auto (Outcome) queue = run (fixture, "queue");
    g_auto (Outcome) next = run (fixture, "next");

    assert_contains (next.out, "Straight skirt");
    assert_contains (queue.out, "Straight skirt");
    g_assert_null (strstr (queue.out, "Lined cape"));
  }
  SAYS ("log PROJECT --step 1", "");
  SAYS ("queue", "Lined cape for the school play", "Straight skirt");
}

/* A project's copy that differs in nothing is told as such. */
static void
test_same_copy (Fixture      *fixture,
                gconstpointer data)
{
  g_autofree char *text = read_file (fixture, "room/projects/stage-cape.handwheel");
  g_autofree char *copy = g_build_filename (fixture->room, "projects", "stage-cape (1).handwheel", NULL);

  g_assert_true (g_file_set_contents (copy, text, -1, NULL));
  SAYS ("copies", "stage-cape (1).handwheel", "nothing differs");
  g_assert_true (g_file_set_contents (copy, "<project xmlns=\"urn:handwheel:project:1\" id=\"stage-cape\">", -1,
                                      NULL));
  {
    g_auto (Outcome) told = run (fixture, "copies");
    g_auto (Outcome) merged = run (fixture, "copies --merge");

    g_assert_cmpint (told.status, ==, 1);
    assert_contains (told.err, "stage-cape (1).handwheel");
    g_assert_cmpint (merged.status, ==, 1);
    g_assert_true (g_file_test (copy, G_FILE_TEST_EXISTS));
    g_assert_cmpstr (merged.out, ==, "");
  }
}

/* ---- refused ---- */

static const struct { const char *line; int status; const char *words; } refusals[] = {
  { "export", 2, "one project file" },
  { "export PROJECT", 2, ".handwheel-share" },
  { "export PROJECT -o cape.xml", 2, ".handwheel-share" },
  { "export nowhere.handwheel -o x.handwheel-share", 3, "nowhere.handwheel" },
  { "export PROJECT -o nowhere.handwheel/x.handwheel-share --room nowhere", 3, "nowhere" },
  { "import", 2, "one file that was exported" },
  { "import nowhere.handwheel-share", 3, "nowhere.handwheel-share" },
  { "import PROJECT", 1, "urn:handwheel:share:1" },
  { "teach", 2, "--from or --forget" },
  { "teach --machine lockstitch", 2, "--from or --forget" },
  { "teach --machine lockstitch --from lockstitch --forget", 2, "--from or --forget" },
  { "teach --machine nobody --forget", 1, "no machine “nobody”" },
  { "teach --machine lockstitch --from nobody", 1, "no machine “nobody”" },
  { "teach --machine lockstitch --from lockstitch", 1, "another machine of the same kind" },
  { "teach --machine lockstitch --from overlocker", 1, "another machine of the same kind" },
  { "guide one two", 2, "one chapter" },
  { "guide nonsense", 2, "“handwheel guide” lists them" },
  { "guide -o guide.txt", 2, ".pdf" },
  { "guide -o guide.pdf --paper a3", 2, "a4 or letter" },
  { "guide -o guide.pdf --nonsense", 2, "--nonsense" },
  { "guide -o nowhere/guide.pdf", 3, "nowhere/guide.pdf" },
  { "card PROJECT", 2, "-o" },
  { "card PROJECT PROJECT -o cards.pdf", 2, "one project file" },
  { "card PROJECT -o cards.pdf --dpi 5", 2, "30 to 1200" },
  { "card PROJECT -o cards.pdf --per-sheet 3", 2, "1, 2 or 4" },
  { "card PROJECT -o cards.pdf --paper a6 --per-sheet 2", 2, "1 on A5 and A6" },
  { "card PROJECT -o cards.pdf --step 99", 1, "“handwheel plan” lists them" },
  { "card PROJECT -o cards.pdf --step 1 --machines all", 2, "--step or --machines" },
  { "card PROJECT -o cards.pdf --machines nobody", 1, "nobody" },
  { "card PROJECT -o nowhere/cards.pdf", 3, "nowhere" },
  { "card PROJECT --format=yaml", 2, "yaml" },
  { "next PROJECT PROJECT", 2, "one project file" },
  { "next PROJECT --format=yaml", 2, "yaml" },
  { "shelf needles", 2, "one word too many" },
  { "shelf --format=yaml", 2, "yaml" },
  { "shelf --room nowhere", 3, "nowhere" },
  { "copies now", 2, "one word too many" },
  { "copies --format=yaml", 2, "yaml" },
  { "journal oil", 2, "--text searches" },
  { "journal --from 2026-13-40", 2, "2026-13-40" },
  { "journal --format=yaml", 2, "yaml" },
  { "log PROJECT", 2, "--step NUMBER or --load" },
  { "log PROJECT --step 1 --minutes 5000", 2, "at most 1440" },
  { "log PROJECT --step 99", 1, "99" },
  { "log nowhere.handwheel --step 1", 3, "nowhere.handwheel" },
  { "care --done dust --machine lockstitch --calendar care.ics", 2, "either --done or --calendar" },
  { "care --format=yaml", 2, "yaml" },
  { "care --done polish --machine lockstitch", 1, "polish" },
  { "care --machine nobody", 1, "nobody" },
  { "pair denim", 2, "--fabric" },
  { "pair --fabric denim --mass 9000", 2, "5000 g/m²" },
  { "pair --fabric denim --thickness 90", 2, "50 mm" },
  { "pair --fabric denim --length 0", 2, "0.1 to 100000 cm" },
  { "pair --fabric denim --format=yaml", 2, "yaml" },
  { "pair --fabric nonsense", 1, "nonsense" },
  { "new --garment nonsense -o x.handwheel", 1, "“handwheel handbook” lists them" },
  { "new --garment skirt --size 96", 2, "-o FILE" },
  { "new skirt -o x.handwheel", 2, "is not an option" },
  { "new --garment skirt --size 96 --measure hip=wide -o x.handwheel", 1, "hip" },
  { "new --garment skirt --measure hip=5 -o x.handwheel", 1, "hip" },
  { "fault skipped-stitches PROJECT PROJECT", 2, "one symptom" },
  { "fault nonsense", 1, "“handwheel fault” lists them" },
  { "fault skipped-stitches PROJECT --step 99", 1, "99" },
  { "fault skipped-stitches --machine nobody", 1, "nobody" },
  { "test-seam PROJECT --step 99 --verdict balanced --dial 4", 1, "99" },
  { "test-seam --nonsense", 2, "--nonsense" },
  { "queue nowhere.handwheel", 3, "nowhere.handwheel" },
  { "queue --format=yaml", 2, "yaml" },
  { "check nowhere", 3, "nowhere" },
  { "plan PROJECT --wish nonsense", 2, "nonsense" },
  { "plan PROJECT --wish 'before 4 99'", 1, "99" },
  { "handbook nonsense", 1, "nonsense" },
};

static void
test_refused (Fixture      *fixture,
              gconstpointer data)
{
  int n_wrong = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (refusals); i++)
    {
      g_auto (Outcome) outcome = run (fixture, refusals[i].line);

      if (outcome.status == refusals[i].status && outcome.out[0] == '\0'
          && strchr (outcome.err, '\n') == outcome.err + strlen (outcome.err) - 1
          && strstr (outcome.err, refusals[i].words) != NULL)
        continue;
      n_wrong++;
      g_printerr ("# “%s”: %d instead of %d\n# %s# %s\n", refusals[i].line, outcome.status, refusals[i].status,
                  outcome.out, outcome.err);
    }
  g_assert_cmpint (n_wrong, ==, 0);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/options/share", Fixture, NULL, set_up, test_share, tear_down);
  g_test_add ("/options/share/without-machine", Fixture, NULL, set_up, test_share_without_machine, tear_down);
  g_test_add ("/options/teach", Fixture, NULL, set_up, test_teach, tear_down);
  g_test_add ("/options/guide", Fixture, NULL, set_up, test_guide, tear_down);
  g_test_add ("/options/care", Fixture, NULL, set_up, test_care, tear_down);
  g_test_add ("/options/shelf", Fixture, NULL, set_up, test_shelf, tear_down);
  g_test_add ("/options/cards", Fixture, NULL, set_up, test_cards, tear_down);
  g_test_add ("/options/next", Fixture, NULL, set_up, test_next, tear_down);
  g_test_add ("/options/example", Fixture, NULL, set_up, test_example, tear_down);
  g_test_add ("/options/same-copy", Fixture, NULL, set_up, test_same_copy, tear_down);
  g_test_add ("/options/refused", Fixture, NULL, set_up, test_refused, tear_down);
  return g_test_run ();
}
