/* test-command.c - the real command line, run as a person would run it
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "outcome.h"
#include "temp-folder.h"

#include <string.h>
#include <glib/gstdio.h>

typedef struct
{
  char *folder;          /* everything of the test lives here */
  char *room;
  char *overlay;         /* a person's own handbook, not there until a test writes it */
} Fixture;

static void
set_up (Fixture      *fixture,
        gconstpointer data)
{
  fixture->folder = g_dir_make_tmp ("handwheel-command-XXXXXX", NULL);
  g_assert_nonnull (fixture->folder);
  fixture->room = g_build_filename (fixture->folder, "room", NULL);
  fixture->overlay = g_build_filename (fixture->folder, "own", NULL);
}

static void
tear_down (Fixture      *fixture,
           gconstpointer data)
{
  temp_folder_remove_tree (fixture->folder);
  g_free (fixture->folder);
  g_free (fixture->room);
  g_free (fixture->overlay);
}

/* Runs handwheel with the words of @line (split at spaces; %s is @file when given) in the fixture's room. */
static Outcome
run (const Fixture *fixture,
     const char    *line,
     const char    *file)
{
  g_autoptr (GSubprocessLauncher) launcher = outcome_launcher_new ();
  g_autoptr (GPtrArray) argv = g_ptr_array_new_with_free_func (g_free);
  g_auto (GStrv) words = g_strsplit (line, " ", -1);

  g_ptr_array_add (argv, g_strdup (g_getenv ("HANDWHEEL")));
  for (char **word = words; *word != NULL; word++)
    g_ptr_array_add (argv, g_strdup (g_str_equal (*word, "%s") ? file : *word));
  g_ptr_array_add (argv, NULL);

  g_subprocess_launcher_setenv (launcher, "HANDWHEEL_ROOM", fixture->room, TRUE);
  g_subprocess_launcher_setenv (launcher, "HANDWHEEL_OVERLAY", fixture->overlay, TRUE);
  return outcome_spawn (launcher, (const char * const *) argv->pdata);
}

static char *
find_source (const char *relative)
{
  return g_build_filename (g_getenv ("G_TEST_SRCDIR"), relative, NULL);
}

/* Bad input: one line with file, line number and remedy, exit 1, nothing on stdout. */
typedef struct
{
  const char *path;
  const char *file;
  const char *line;      /* "FILE:LINE:" as it must stand */
  const char *remedy;
} BadCase;

static const BadCase bad_cases[] = {
  { "/command/bad/not-xml", "not-xml", NULL, "XML" },
  { "/command/bad/other-schema", "other-schema", NULL, "urn:handwheel:project:1" },
  { "/command/bad/unknown-fabric", "unknown-fabric", NULL, "fabric" },
  { "/command/bad/circle", "circle", NULL, "→" },
  { "/command/bad/negative-length", "negative-length", NULL, "length-cm" },
  { "/command/bad/long-stitch", "long-stitch", NULL, "mm" },
  { "/command/bad/duplicate-number", "duplicate-number", NULL, "number" },
  { "/command/bad/newer-version", "newer-version", NULL, "newer" },
};

static void
test_bad (Fixture      *fixture,
          gconstpointer data)
{
  static const char * const commands[] = { "plan %s", "check %s", "next %s", "card -o never.pdf %s" };
  const BadCase   *bad = data;
  g_autofree char *name = g_strconcat (bad->file, ".handwheel", NULL);
  g_autofree char *relative = g_build_filename ("model", "bad", name, NULL);
  g_autofree char *file = find_source (relative);

  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    {
      g_auto (Outcome) outcome = run (fixture, commands[i], file);
      g_autofree char *start = g_strconcat (name, ":", NULL);
      const char      *number;

      g_assert_cmpint (outcome.status, ==, 1);
      g_assert_cmpstr (outcome.out, ==, "");
      g_assert_cmpint (strchr (outcome.err, '\n') - outcome.err, ==, (gssize) strlen (outcome.err) - 1);
      assert_contains (outcome.err, start);
      number = strstr (outcome.err, start) + strlen (start);
      g_assert_cmpint (g_ascii_strtoll (number, NULL, 10), >, 0);
      assert_contains (outcome.err, bad->remedy);
    }
  g_assert_false (g_file_test ("never.pdf", G_FILE_TEST_EXISTS));
}

static void
test_missing_file (Fixture      *fixture,
                   gconstpointer data)
{
  g_auto (Outcome) outcome = run (fixture, "plan nowhere.handwheel", NULL);

  g_assert_cmpint (outcome.status, ==, 3);
  assert_contains (outcome.err, "nowhere.handwheel");
}

static void
test_usage (Fixture      *fixture,
            gconstpointer data)
{
  static const char * const lines[] = {
    "plan", "plan a b", "card x.handwheel", "card x.handwheel -o x.txt", "card x.handwheel -o x.pdf --paper a3",
    "pair", "pair --fabric poplin --plies 0", "log", "log --machine lockstitch --minutes -3", "plan --format=yaml x",
    "nonsense", "plan --nonsense x", "handbook a b", "check",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      g_auto (Outcome) outcome = run (fixture, lines[i], NULL);

      g_test_message ("%s: %s", lines[i], outcome.err);
      g_assert_cmpint (outcome.status, ==, 2);
      g_assert_cmpstr (outcome.out, ==, "");
      g_assert_true (g_str_has_prefix (outcome.err, "handwheel"));
    }
}

static void
test_help (Fixture      *fixture,
           gconstpointer data)
{
  static const char * const commands[] = { "plan", "card", "pair", "next", "log", "fault", "test-seam", "check",
                                            "handbook", "new" };
  g_auto (Outcome) help = run (fixture, "--help", NULL);
  g_auto (Outcome) version = run (fixture, "--version", NULL);

  g_assert_cmpint (help.status, ==, 0);
  g_assert_true (g_str_has_prefix (version.out, "handwheel "));
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    {
      g_autofree char *line = g_strconcat (commands[i], " --help", NULL);
      g_auto (Outcome) outcome = run (fixture, line, NULL);

      assert_contains (help.out, commands[i]);
      g_assert_cmpint (outcome.status, ==, 0);
      assert_contains (outcome.out, "--help");
    }
}

static const char * const garments[] = {
  "wrap-skirt", "t-shirt", "jeans", "velvet-jacket", "unknown-cloth",
};

static char *
find_garment (const char *name)
{
  g_autofree char *file = g_strconcat (name, ".handwheel", NULL);
  g_autofree char *relative = g_build_filename ("plan", "garments", file, NULL);

  return find_source (relative);
}

static void
test_garments (Fixture      *fixture,
               gconstpointer data)
{
  for (gsize i = 0; i < G_N_ELEMENTS (garments); i++)
    {
      g_autofree char *file = find_garment (garments[i]);
      g_autofree char *pdf = g_build_filename (fixture->folder, "cards.pdf", NULL);
      g_autofree char *line = g_strdup_printf ("card -o %s %%s", pdf);
      g_autofree char *bytes = NULL;
      gsize            size = 0;
      g_auto (Outcome) plan = run (fixture, "plan %s", file);
      g_auto (Outcome) again = run (fixture, "plan %s", file);
      g_auto (Outcome) check = run (fixture, "check %s", file);
      g_auto (Outcome) card = run (fixture, line, file);

      g_assert_cmpstr (plan.err, ==, "");
      g_assert_cmpint (plan.status, ==, 0);
      g_assert_cmpstr (plan.out, ==, again.out);
      g_assert_cmpstr (check.err, ==, "");
      g_assert_cmpint (check.status, ==, 0);
      g_assert_cmpstr (card.err, ==, "");
      g_assert_cmpint (card.status, ==, 0);
      g_assert_true (g_file_get_contents (pdf, &bytes, &size, NULL));
      g_assert_true (g_str_has_prefix (bytes, "%PDF-"));
      g_assert_cmpuint (size, >, 4000);
      g_unlink (pdf);
    }
}

/* The XML output obeys its schema, and the CSV has a row a step. */
static void
test_formats (Fixture      *fixture,
              gconstpointer data)
{
  g_autofree char *file = find_garment ("wrap-skirt");
  g_autofree char *schema = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "schema", "output.rng", NULL);
  static const char * const lines[] = {
    "plan --format=xml %s", "plan --format=xml --wish=before,7,2 %s", "next --format=xml %s", "handbook --format=xml",
    "pair --format=xml --fabric poplin", "pair --format=xml --fabric poplin --purpose zip",
    "fault --format=xml", "fault --format=xml pucker", "fault --format=xml --step 1 skipped-stitches %s",
    "journal --format=xml", "shelf --format=xml", "copies --format=xml", "versions --format=xml %s",
    "test-seam --format=xml %s",
    "test-seam --format=xml --step 1 --verdict loops-below %s",
  };
  g_auto (Outcome) csv = run (fixture, "plan --format=csv %s", file);

  g_assert_cmpint (csv.status, ==, 0);
  g_assert_true (g_str_has_prefix (csv.out, "place,number,name,"));
  assert_contains (csv.out, "\r\n");

  for (gsize i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      g_auto (Outcome) xml = run (fixture, lines[i], file);
      g_autofree char *path = g_build_filename (fixture->folder, "out.xml", NULL);
      g_autofree char *messages = NULL;
      const char      *argv[] = { "xmllint", "--noout", "--relaxng", schema, path, NULL };
      int              wait_status = 0;

      g_assert_cmpint (xml.status, ==, 0);
      g_assert_true (g_file_set_contents (path, xml.out, -1, NULL));
      g_assert_true (g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, &messages,
                                   &wait_status, NULL));
      g_test_message ("%s: %s", lines[i], messages);
      g_assert_true (g_spawn_check_wait_status (wait_status, NULL));
    }
}

/* The main job on the command line: load, sew, and what is derived from the journal agrees. */
static void
test_sew (Fixture      *fixture,
          gconstpointer data)
{
  g_autofree char *file = find_garment ("t-shirt");
  g_auto (Outcome) before = run (fixture, "next %s", file);
  g_auto (Outcome) load = run (fixture, "log --load %s", file);
  g_auto (Outcome) one = run (fixture, "log --step 1 --minutes 77 %s", file);
  g_auto (Outcome) twice = run (fixture, "log --step 1 %s", file);
  g_auto (Outcome) plan = run (fixture, "plan --format=csv %s", file);
  g_auto (Outcome) people = run (fixture, "plan %s", file);
  g_auto (Outcome) undo = run (fixture, "log --step 1 --undo %s", file);
  g_auto (Outcome) unknown = run (fixture, "log --step 99 %s", file);
  g_auto (Outcome) check = run (fixture, "check %s", fixture->room);

  g_assert_cmpint (before.status, ==, 0);
  assert_contains (before.out, "1");
  g_assert_cmpstr (load.err, ==, "");
  g_assert_cmpint (load.status, ==, 0);
  g_assert_cmpint (one.status, ==, 0);
  g_assert_cmpint (twice.status, ==, 1);
  assert_contains (twice.err, "--undo");
  assert_contains (plan.out, "1,1,");
  assert_contains (plan.out, ",yes\r\n");
  assert_contains (people.out, "1 h 17 min)");           /* as noted, not as planned */
  assert_contains (people.out, "sewn with ");
  g_assert_cmpint (undo.status, ==, 0);
  g_assert_cmpint (unknown.status, ==, 1);
  g_assert_cmpint (check.status, ==, 0);
}

/* A scrap on the command line: noted, told what to do next, and the dial planned from then on has moved. */
static void
test_test_seam (Fixture      *fixture,
                gconstpointer data)
{
  g_autofree char *file = find_garment ("wrap-skirt");
  g_auto (Outcome) before = run (fixture, "test-seam --format=csv --step 1 %s", file);
  g_auto (Outcome) all = run (fixture, "test-seam %s", file);
  g_auto (Outcome) loops = run (fixture, "test-seam --step 1 --verdict loops-below --dial 4½ --note ecru %s", file);
  g_auto (Outcome) after = run (fixture, "test-seam --format=csv --step 1 %s", file);
  g_auto (Outcome) next = run (fixture, "test-seam --format=csv --step 1 --verdict balanced --dial 5.5 %s", file);
  g_auto (Outcome) skipped = run (fixture, "test-seam --step 1 --verdict skipped --machine lockstitch %s", file);
  g_auto (Outcome) check = run (fixture, "check %s", fixture->room);

  g_assert_cmpstr (all.err, ==, "");
  assert_contains (all.out, "Likely from");
  assert_contains (before.out, ",0\r\n");
  g_assert_cmpstr (loops.err, ==, "");
  g_assert_cmpint (loops.status, ==, 0);
  assert_contains (loops.out, "Needle thread loops underneath");
  assert_contains (loops.out, "Dial up half a number, to 5, and sew again.");
  assert_contains (after.out, ",1\r\n");
  g_assert_cmpstr (before.out, !=, after.out);
  assert_contains (next.out, ",5.5,balanced,5.5\r\n");
  g_assert_cmpint (skipped.status, ==, 0);
  assert_contains (skipped.out, "new needle");
  g_assert_cmpint (check.status, ==, 0);
}

static const struct { const char *line, *says; int status; } refused_seams[] = {
  { "test-seam %s --step 1 --verdict odd", "--help", 2 },
  { "test-seam %s --verdict balanced", "--step", 2 },
  { "test-seam %s --step 1 --dial 4", "--verdict", 2 },
  { "test-seam %s --step 1 --verdict balanced --dial four", "3.5", 2 },
  { "test-seam", "project file", 2 },
  { "test-seam %s --step 99 --verdict balanced", "handwheel plan", 1 },
  { "test-seam %s --step 1 --verdict balanced --dial 12", "from 0 to 9", 1 },
  { "test-seam %s --step 1 --verdict balanced --machine mangle", "mangle", 1 },
};

static void
test_test_seam_refused (Fixture      *fixture,
                        gconstpointer data)
{
  g_autofree char *file = find_garment ("wrap-skirt");
  g_autofree char *journal = g_build_filename (fixture->room, "journal", NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (refused_seams); i++)
    {
      g_auto (Outcome) outcome = run (fixture, refused_seams[i].line, file);

      g_test_message ("%s: %s", refused_seams[i].line, outcome.err);
      g_assert_cmpint (outcome.status, ==, refused_seams[i].status);
      assert_contains (outcome.err, refused_seams[i].says);
      g_assert_cmpstr (outcome.out, ==, "");
    }
  g_assert_false (g_file_test (journal, G_FILE_TEST_EXISTS));
}

static void
test_minutes (Fixture      *fixture,
              gconstpointer data)
{
  g_auto (Outcome) log = run (fixture, "log --machine lockstitch --minutes 90", NULL);
  g_auto (Outcome) more = run (fixture, "log --machine lockstitch --minutes 30", NULL);
  g_auto (Outcome) unknown = run (fixture, "log --machine mangle --minutes 30", NULL);

  g_assert_cmpint (log.status, ==, 0);
  assert_contains (log.out, "1.5 h");
  assert_contains (more.out, "2 h");
  g_assert_cmpint (unknown.status, ==, 1);
}

static void
test_pair (Fixture      *fixture,
           gconstpointer data)
{
  g_auto (Outcome) jersey = run (fixture, "pair --fabric single-jersey --stitch 304", NULL);
  g_auto (Outcome) own = run (fixture, "pair --construction twill --mass 290 --thickness 0.62", NULL);
  g_auto (Outcome) unknown = run (fixture, "pair --fabric popln", NULL);
  g_auto (Outcome) edge = run (fixture, "pair --fabric gabardine --purpose understitch", NULL);
  g_auto (Outcome) zip = run (fixture, "pair --fabric gabardine --purpose zip", NULL);
  g_auto (Outcome) edge_csv = run (fixture, "pair --format=csv --fabric gabardine --purpose understitch", NULL);
  g_auto (Outcome) zip_xml = run (fixture, "pair --format=xml --fabric gabardine --purpose zip", NULL);
  g_auto (Outcome) cover = run (fixture, "pair --fabric single-jersey --stitch 406", NULL);

  assert_contains (edge.out, "Needle position: 2 mm left of the centre");
  assert_contains (edge_csv.out, "Needle position,2 mm left of the centre,,");
  assert_contains (edge_csv.out, ",aside,2\r\n");
  assert_contains (zip_xml.out, "place=\"notch\" aside-mm=\"2\"");
  assert_contains (zip.out, "in the notch on the side of the teeth");
  g_assert_cmpint (cover.status, ==, 1);
  assert_contains (cover.err, "it takes a coverstitch machine; the nearest to be had is “Twin-needle straight stitch”");
  g_assert_cmpint (jersey.status, ==, 0);
  assert_contains (jersey.out, "SUK");                    /* jersey on a ball point: common practice, no source */
  g_assert_cmpint (own.status, ==, 0);
  assert_contains (own.out, "301");
  g_assert_cmpint (unknown.status, ==, 1);
  assert_contains (unknown.err, "poplin");
}

/* The one machine of the fixture's room. */
static void
write_machine (const Fixture *fixture,
               const char    *limits,
               const char    *feet)
{
  g_autofree char *folder = g_build_filename (fixture->room, "machines", NULL);
  g_autofree char *path = g_build_filename (folder, "home.xml", NULL);
  g_autofree char *xml = g_strdup_printf (
    "<machine xmlns=\"urn:handwheel:room:1\" id=\"home\" name=\"Home\" kind=\"lockstitch\" system=\"household\" "
    "dial=\"knob\" dial-low=\"0\" dial-high=\"9\" dial-neutral=\"4\" length-max=\"5\" %s foot-lift=\"6\" "
    "speed=\"800\" bobbin-cm3=\"2.2\" needle-flat=\"back\">%s<plate id=\"zigzag\"/></machine>", limits, feet);

  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  g_assert_true (g_file_set_contents (path, xml, -1, NULL));
}

/* What a narrow machine says to a twin needle, as plate or swing sets the limit, and where no twin passes. */
static const struct { const char *limits, *says; } narrow[] = {
  { "width-max=\"7\" plate-opening=\"9\"", "Needle size: 4.0/75" },
  { "width-max=\"4\" plate-opening=\"9\"",
    "A twin needle of 4 mm is too wide for this machine, whose plate and swing give 4 mm: take one of 2.5 mm or less" },
  { "width-max=\"7\" plate-opening=\"3.5\"",
    "A twin needle of 4 mm is too wide for this machine, whose plate and swing give 3.5 mm: take one of 2.5 mm or" },
  { "width-max=\"3\" plate-opening=\"9\"",
    "A twin needle of 4 mm does not pass this machine, whose plate and swing give 3 mm: sew two rows with a single "
    "needle, in a knit with a stretch stitch or a narrow zigzag" },
};

static void
test_pair_narrow_twin (Fixture      *fixture,
                       gconstpointer data)
{
  for (gsize i = 0; i < G_N_ELEMENTS (narrow); i++)
    {
      g_auto (Outcome) pair = { 0 };

      write_machine (fixture, narrow[i].limits, "<foot id=\"all-purpose\"/>");
      pair = run (fixture, "pair --fabric single-jersey --purpose hem --stitch 301-twin", NULL);
      g_assert_cmpint (pair.status, ==, 0);
      assert_contains (pair.out, narrow[i].says);
    }
}

static void
test_pair_foot_not_owned (Fixture      *fixture,
                          gconstpointer data)
{
  g_auto (Outcome) velvet = { 0 };
  g_auto (Outcome) zigzag = { 0 };

  write_machine (fixture, "width-max=\"7\" plate-opening=\"9\"", "<foot id=\"all-purpose\"/><foot id=\"zip\"/>");
  velvet = run (fixture, "pair --fabric cotton-velvet", NULL);
  write_machine (fixture, "width-max=\"7\" plate-opening=\"9\"", "<foot id=\"zip\"/>");
  zigzag = run (fixture, "pair --fabric poplin --purpose neaten", NULL);

  g_assert_cmpint (velvet.status, ==, 0);
  assert_contains (velvet.out, "Foot: all-purpose foot");
  assert_contains (velvet.out, "Best is: walking foot. This machine has none, so the next best takes its place.");
  g_assert_cmpint (zigzag.status, ==, 0);
  assert_contains (zigzag.out, "none of this machine’s feet can stand in for it");
}

static char *
read_text (const char *folder,
           const char *name)
{
  g_autofree char *path = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), folder, name, NULL);
  char *text = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  return text;
}

/* What the user guide prints as an example is the file that is tried here, and it does what the guide says. */
static void
test_guide (Fixture      *fixture,
            gconstpointer data)
{
  g_autofree char *chapter = read_text ("guide", "own-entries.xml");
  g_autofree char *example = read_text ("guide/example", "own-entries.xml");
  g_autofree char *overlay = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "guide", "example", NULL);
  Fixture          own = { fixture->folder, fixture->room, overlay };
  g_auto (Outcome) check = run (&own, "check %s", overlay);
  g_auto (Outcome) pair = run (&own, "pair --fabric sailcloth --purpose topstitch", NULL);
  g_auto (Outcome) shown = run (&own, "handbook sailcloth", NULL);
  g_autoptr (GString) printed = g_string_new (strchr (example, '\n') + 1);

  g_string_truncate (printed, printed->len - 1);         /* the newline at the end */
  g_string_replace (printed, "<", "&lt;", 0);
  g_string_replace (printed, ">", "&gt;", 0);
  assert_contains (chapter, printed->str);
  g_assert_cmpint (check.status, ==, 0);
  g_assert_cmpint (pair.status, ==, 0);
  assert_contains (pair.out, "3.4 mm");
  assert_contains (pair.out, "On my sailcloth 3.4 mm looks best");
  assert_contains (shown.out, "310 (310 to 310) g/m²");
  assert_contains (shown.out, "Washed twice");
}

/* Scales and a ruler say the same as figures: 2.9 g of 10 by 10 cm are 290 g/m², 8 layers of 5 mm 0.625 mm each. */
static void
test_pair_measured (Fixture      *fixture,
                    gconstpointer data)
{
  static const char * const refused[] = { "--grams 3", "--cut 10x10", "--grams 3 --cut ten", "--pile 8", "--pile-mm 4",
                                          "--grams 3 --cut 10x10 --mass 5", "--mass -4", "",
                                          "--mass 90 --pile 8 --pile-mm 4 --thickness 1" };
  g_auto (Outcome) figures = run (fixture, "pair --construction twill --mass 290 --thickness 0.625", NULL);
  g_auto (Outcome) measured = run (fixture, "pair --construction twill --grams 2.9 --cut 10x10 --pile 8 --pile-mm 5",
                                   NULL);
  g_auto (Outcome) ruler = run (fixture, "pair --construction twill --pile 8 --pile-mm 5", NULL);

  g_assert_cmpint (measured.status, ==, 0);
  g_assert_cmpstr (measured.out, ==, figures.out);
  g_assert_cmpint (ruler.status, ==, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autofree char *line = g_strchomp (g_strconcat ("pair --construction twill ", refused[i], NULL));
      g_auto (Outcome) no = run (fixture, line, NULL);

      g_test_message ("%s", line);
      g_assert_cmpint (no.status, ==, 2);
    }
}

static void
test_handbook (Fixture      *fixture,
               gconstpointer data)
{
  g_auto (Outcome) list = run (fixture, "handbook", NULL);
  g_auto (Outcome) denim = run (fixture, "handbook denim", NULL);
  g_auto (Outcome) unknown = run (fixture, "handbook dennim", NULL);

  g_assert_cmpint (list.status, ==, 0);
  assert_contains (list.out, "denim");
  g_assert_cmpint (denim.status, ==, 0);
  assert_contains (denim.out, "g/m²");
  assert_contains (denim.out, "Source");
  g_assert_cmpint (unknown.status, ==, 1);
  assert_contains (unknown.err, "denim");
}

/* What an entry of each table shows. The figures are those of data/handbook. */
static const struct { const char *line; const char *shown[4]; } entries[] = {
  { "handbook system/overlock", { "ELx705", "Machines", "overlocker" } },
  { "handbook construction/denim", { NULL } },
  { "handbook construction/terry", { "Family                 woven", "0.15 g/cm³", "65 %" } },
  { "handbook trait/sheds", { "Dusting hours count    2 ×", "A needle lasts" } },
  { "handbook foot/straight", { "0.5 mm", "All-purpose foot" } },
  { "handbook plate/single-hole", { "straight stitch only", "Zigzag plate" } },
  { "handbook purpose/hem", { "Handling", "Hem, turned twice" } },
  { "handbook seam/taped", { "class 1 (family not verified)" } },
  { "handbook care/dust", { "15 h at the machine", "Caution:" } },
  { "handbook sizes/cushions", { "40 45 50 60 cm" } },
  { "handbook garment/skirt", { "Waist                  76 cm (45 to 150)", "Cotton twill",
                                "4  Darts: 48 cm in 4 pieces; after 2", "17  Sew on hook and bar: by hand, 8 min" } },
  { "handbook pucker", { "38 %  Threads too tight (2 min)", "bulletin: Bulletin 3", "→" } },
  { "handbook clue/needle-hours", { "× 0.4", "× 2.5" } },
  { "handbook term/dial", { "See also               Balance, Tension discs" } },
  { "handbook purpose/dart", { "Other entries          seam/dart", "Each metre             0.5 min" } },
  { "handbook trait/pile", { "Moves the dial by      −0.4, give or take 0.4", "Named by               fabric/" } },
  { "handbook row/ends-1", { "Ends of the row", "On                     overlocker, coverstitch" } },
  { "handbook row/point-1", { "Then " } },
  { "handbook tension/thicker", { "Thicker layers (tension/thicker)", "−0.4, give or take 0.3" } },
  { "handbook figures/changes", { "Needle                 1 min", "Each cone              1 min" } },
  { "handbook figures/needle-life", { "At the machine         15 h" } },
  { "handbook source/needle-hours", { "Kind of source", "figures/needle-life" } },
};

static void
test_entries (Fixture      *fixture,
              gconstpointer data)
{
  for (gsize i = 0; i < G_N_ELEMENTS (entries); i++)
    {
      g_auto (Outcome) shown = run (fixture, entries[i].line, NULL);

      g_test_message ("%s", entries[i].line);
      g_assert_cmpint (shown.status, ==, entries[i].shown[0] != NULL ? 0 : 1);
      for (gsize j = 0; j < G_N_ELEMENTS (entries[i].shown) && entries[i].shown[j] != NULL; j++)
        assert_contains (shown.out, entries[i].shown[j]);
    }
}

/* The kind of a source is said once. */
static void
test_sources (Fixture      *fixture,
              gconstpointer data)
{
  g_auto (Outcome) list = run (fixture, "handbook", NULL);

  assert_contains (list.out, "from memory: ");
  g_assert_null (strstr (list.out, "from memory: From memory"));
}

/* ---- stitch faults ---- */

/* The first cause of the CSV's rows. */
static void
assert_first (const Fixture *fixture,
              const char    *line,
              const char    *file,
              const char    *cause)
{
  g_auto (Outcome) checks = run (fixture, line, file);
  g_auto (GStrv)   rows = g_strsplit (checks.out, "\n", 3);
  g_autofree char *beginning = g_strdup_printf ("1,%s,", cause);

  g_assert_cmpstr (checks.err, ==, "");
  g_assert_cmpint (checks.status, ==, 0);
  g_assert_true (g_str_has_prefix (rows[0], "place,cause,name,chance,minutes,check,known,"));
  if (!g_str_has_prefix (rows[1], beginning))
    g_error ("“%s” is not first in:\n%s", cause, checks.out);
}

static void
test_fault_list (Fixture      *fixture,
                 gconstpointer data)
{
  g_auto (Outcome) list = run (fixture, "fault", NULL);
  g_auto (Outcome) people = run (fixture, "fault pucker", NULL);

  g_assert_cmpint (list.status, ==, 0);
  assert_contains (list.out, "bobbin-on-top");
  assert_contains (list.out, "Dots or loops of the lower thread");
  assert_contains (people.out, "Threads too tight (tension)");
  assert_contains (people.out, "Cut both threads in a few places");
  assert_contains (people.out, "→ Go down half a number");
  assert_contains (people.out, "on average");
}

/* Re-ranked by what is ruled out, by a needle that is worn, and by what was found before. */
static void
test_fault_trace (Fixture      *fixture,
                  gconstpointer data)
{
  g_autofree char *file = find_garment ("wrap-skirt");
  g_auto (Outcome) all = run (fixture, "fault seam-slippage --not loose-cloth --not too-long --not finish", NULL);

  assert_first (fixture, "fault --format=csv nest", NULL, "tails");
  assert_first (fixture, "fault --format=csv nest --not tails", NULL, "foot-or-lever");
  g_assert_cmpint (all.status, ==, 1);
  assert_contains (all.err, "technician");
  for (int i = 0; i < 8; i++)
    {
      g_auto (Outcome) noted = run (fixture, "fault nest --found drawn-in", NULL);

      g_assert_cmpint (noted.status, ==, 0);
      assert_contains (noted.out, "Noted.");
    }
  assert_first (fixture, "fault --format=csv nest", NULL, "drawn-in");
  {
    g_auto (Outcome) people = run (fixture, "fault nest", NULL);

    assert_contains (people.out, "It was this 8 times before on this machine.");
  }
  assert_first (fixture, "fault --format=csv needle-breaks --step 1 %s", file, "pulling");
}

/* A remedy changes the room: a new needle of no hours is in the machine, the dial stands where it was put. */
static void
test_fault_done (Fixture      *fixture,
                 gconstpointer data)
{
  g_autofree char *file = find_garment ("wrap-skirt");
  g_auto (Outcome) minutes = run (fixture, "log --machine lockstitch --minutes 60", NULL);
  g_auto (Outcome) needle = run (fixture, "fault needle-cutting --step 1 --found blunt --done %s", file);
  g_auto (Outcome) dial = run (fixture, "fault bobbin-on-top --step 1 --found dial-high --done %s", file);
  g_auto (Outcome) care = run (fixture, "fault uneven-feed --found feed --done", NULL);
  g_auto (Outcome) again = run (fixture, "fault uneven-feed", NULL);
  g_auto (Outcome) checks = run (fixture, "fault bobbin-on-top --step 1 %s", file);
  g_auto (Outcome) cutting = run (fixture, "fault needle-cutting --step 1 %s", file);
  g_auto (Outcome) none = run (fixture, "fault nest --found tails --done", NULL);

  g_assert_cmpint (minutes.status, ==, 0);
  g_assert_cmpint (needle.status, ==, 0);
  assert_contains (needle.out, "is in the machine, with no hours yet");
  assert_contains (cutting.out, "The needle has sewn 0 of its 15 h.");
  g_assert_cmpint (dial.status, ==, 0);
  assert_contains (dial.out, "The dial is at");
  assert_contains (checks.out, "The dial stands at");
  g_assert_cmpint (care.status, ==, 0);
  assert_contains (care.out, "its clock begins anew");
  assert_contains (again.out, ": 0 of 15 h.");
  g_assert_cmpint (none.status, ==, 1);
  assert_contains (none.err, "leave --done out");
}

static void
test_fault_refused (Fixture      *fixture,
                    gconstpointer data)
{
  static const struct { const char *line; int status; const char *said; } cases[] = {
    { "fault nst", 1, "did you mean “nest”?" },
    { "fault nest --not tail", 1, "it has tails, foot-or-lever" },
    { "fault nest --found tail", 1, "it has tails, foot-or-lever" },
    { "fault nest --machine overlocker", 1, "is no fault of" },
    { "fault nest --machine lathe", 1, "There is no machine “lathe”" },
    { "fault nest --step 99 %s", 1, "There is no step numbered “99”" },
    { "fault nest --machine overlocker --step 1 %s", 1, "is no fault of" },
    { "fault nest --step 1", 2, "a project file goes with --step" },
    { "fault nest %s", 2, "a project file goes with --step" },
    { "fault nest --done", 2, "--done goes with --found" },
    { "fault --found tails", 2, "name a symptom" },
    { "fault nest --format=html", 2, "--format is table, csv or xml" },
  };
  g_autofree char *file = find_garment ("wrap-skirt");

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (Outcome) outcome = run (fixture, cases[i].line, file);

      g_test_message ("%s: %s", cases[i].line, outcome.err);
      g_assert_cmpint (outcome.status, ==, cases[i].status);
      g_assert_cmpstr (outcome.out, ==, "");
      assert_contains (outcome.err, cases[i].said);
    }
  g_assert_false (g_file_test (fixture->room, G_FILE_TEST_EXISTS));      /* nothing was written */
}

/* Every table has its place in the list. */
static void
test_list (Fixture      *fixture,
           gconstpointer data)
{
  static const char * const rows[] = { "fabric,denim,", "construction,twill,", "garment,skirt,", "sizes,women,",
                                       "fault,pucker,", "clue,lint,", "term,dial,", "plate,zigzag,", "care,dust,",
                                       "row,length-1,",
                                       "tension,zigzag,", "figures,changes,", "source,common-practice," };
  g_auto (Outcome) list = run (fixture, "handbook --format=csv", NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_contains (list.out, rows[i]);
}

/* What is refused, and a word of why; a garment of the handbook is made, planned and never written over. */
static void
test_new (Fixture      *fixture,
          gconstpointer data)
{
  static const struct { const char *options; const char *said; } refused[] = {
    { "--garment skrt", "did you mean “skirt”?" },
    { "--garment skirt --size 7", "the sizes 80 84 88 92 96 100 106 112, not “7”" },
    { "--garment skirt --measure waist=500", "waist is 45 to 150 cm, not 500 cm" },
    { "--garment skirt --measure wast=70", "it has waist, hip, length, zip" },
    { "--garment skirt --measure waist=7y", "wants centimetres, or inches" },
    { "--garment skirt --fabric main=denmi", "denim" },
    { "--garment skirt --fabric front=denim", "the parts of “skirt” are main, interfacing, zip" },
  };
  g_autofree char *file = g_build_filename (fixture->folder, "mine.handwheel", NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autofree char *line = g_strconcat ("new ", refused[i].options, " -o %s", NULL);
      g_auto (Outcome) no = run (fixture, line, file);

      g_test_message ("%s", refused[i].options);
      g_assert_cmpint (no.status, ==, 1);
      assert_contains (no.err, refused[i].said);
      g_assert_false (g_file_test (file, G_FILE_TEST_EXISTS));
    }
  {
    g_auto (Outcome) made = run (fixture, "new --garment skirt --measure waist=28in --fabric main=denim -o %s", file);
    g_auto (Outcome) plan = run (fixture, "plan %s", file);
    g_auto (Outcome) again = run (fixture, "new --garment skirt -o %s", file);
    g_auto (Outcome) usage = run (fixture, "new -o %s", file);

    g_assert_cmpint (made.status, ==, 0);
    assert_contains (made.out, "18 steps");
    g_assert_cmpint (plan.status, ==, 0);
    g_assert_cmpint (again.status, ==, 1);
    g_assert_cmpint (usage.status, ==, 2);
  }
}

/* A shirt's bands are 25 to 35 mm wide: common practice, no source. The row goes close beside the inner fold. */
static void
test_button_band (Fixture      *fixture,
                  gconstpointer data)
{
  g_autofree char *file = g_build_filename (fixture->folder, "shirt.handwheel", NULL);
  g_autofree char *text = NULL;
  g_auto (Outcome) made = run (fixture, "new --garment shirt -o %s", file);
  g_auto (Outcome) band = run (fixture, "pair --fabric poplin --plies 3 --purpose topstitch --seam hem-band", NULL);
  const char *row;
  int mm;

  g_assert_cmpint (made.status, ==, 0);
  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  row = strstr (text, "Button band, one row");
  g_assert_nonnull (row);
  g_assert_nonnull (strstr (row, "seam=\"hem-band\""));
  g_assert_true (strstr (row, "seam=\"hem-band\"") < strstr (row, "</operation>"));
  row = strstr (band.out, "The row runs ");
  g_assert_nonnull (row);
  mm = (int) g_ascii_strtoll (row + strlen ("The row runs "), NULL, 10);
  g_assert_cmpint (mm, >=, 23);
  g_assert_cmpint (mm, <=, 33);
}

static char *
write_overlay (const Fixture *fixture,
               const char    *inside)
{
  g_autofree char *text = g_strconcat ("<handbook xmlns=\"urn:handwheel:handbook:1\">\n", inside, "</handbook>\n",
                                       NULL);
  char *path = g_build_filename (fixture->overlay, "mine.xml", NULL);

  g_assert_cmpint (g_mkdir_with_parents (fixture->overlay, 0700), ==, 0);
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  return path;
}

#define OWN_FABRIC(mass) "<fabric id=\"denim\" name=\"My denim\" construction=\"twill\" mass=\"" mass "\"" \
                         " thickness=\"1\" source=\"common-practice\"/>\n"

static void
test_overlay (Fixture      *fixture,
              gconstpointer data)
{
  g_autofree char *path = write_overlay (fixture, OWN_FABRIC ("415"));
  g_auto (Outcome) denim = run (fixture, "handbook denim", NULL);
  g_auto (Outcome) check = run (fixture, "check %s", fixture->overlay);

  g_assert_cmpint (denim.status, ==, 0);
  g_assert_cmpstr (denim.err, ==, "");
  assert_contains (denim.out, "My denim (fabric/denim)");
  assert_contains (denim.out, "415 (415 to 415) g/m²");
  g_assert_cmpint (check.status, ==, 0);
  g_assert_cmpstr (check.err, ==, "");
  assert_contains (check.out, "own: in order");
}

/* A figure is printed as it stands in the handbook, parts of a minute too. */
static void
test_exact (Fixture      *fixture,
            gconstpointer data)
{
  g_autofree char *path = write_overlay (fixture, "<purpose id=\"baste\" name=\"Mine\" speed-share=\"0.5\" "
                                         "handling=\"1.25\" start-stop=\"0.05\" source=\"common-practice\"/>\n");
  g_auto (Outcome) shown = run (fixture, "handbook purpose/baste", NULL);

  assert_contains (shown.out, "Handling               1.25 min\n");
  assert_contains (shown.out, "Each start and stop    0.05 min\n");
  assert_contains (shown.out, "Share of top speed     50 %\n");
}

/* A warning of one line with path and line number; the work goes on with the handbook as it is. */
static void
test_overlay_refused (Fixture      *fixture,
                      gconstpointer data)
{
  g_autofree char *path = write_overlay (fixture, OWN_FABRIC ("heavy"));
  g_autofree char *place = g_strdup_printf ("%s:2: fabric “denim”: “mass” must be a number", path);
  g_autofree char *file = find_garment ("t-shirt");
  g_auto (Outcome) denim = run (fixture, "handbook denim", NULL);
  g_auto (Outcome) plan = run (fixture, "plan %s", file);

  g_assert_cmpint (denim.status, ==, 0);
  g_assert_true (g_str_has_prefix (denim.err, place));
  assert_contains (denim.err, "a warning");
  g_assert_true (strchr (denim.err, '\n') == denim.err + strlen (denim.err) - 1);
  assert_contains (denim.out, "Denim, heavy (fabric/denim)");
  g_assert_cmpint (plan.status, ==, 0);
  g_assert_true (g_str_has_prefix (plan.err, place));
  assert_contains (plan.out, "T-shirt");
}

/* Asked about it, the command refuses it. */
static void
test_check_overlay (Fixture      *fixture,
                    gconstpointer data)
{
  static const struct { const char *inside; const char *said; int line; } cases[] = {
    { OWN_FABRIC ("heavy"), "“mass” must be a number", 2 },
    { "<fabric>", "close every element", 2 },
    { "\n<garment id=\"g\" name=\"G\" source=\"common-practice\"><hand number=\"1\" name=\"P\" kind=\"press\" "
      "minutes=\"1 div 0\"/></garment>\n", "divides by zero", 3 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = write_overlay (fixture, cases[i].inside);
      g_autofree char *place = g_strdup_printf ("%s:%d: ", path, cases[i].line);
      /* It is checked though it is not the one that is in use. */
      Fixture other = { fixture->folder, fixture->room, (char *) "" };
      g_auto (Outcome) check = run (&other, "check %s", fixture->overlay);

      g_assert_cmpint (check.status, ==, 1);
      g_assert_cmpstr (check.out, ==, "");
      g_assert_true (g_str_has_prefix (check.err, place));
      assert_contains (check.err, cases[i].said);
    }
}

/* Wishes are tried, listed with what they cost, and not saved; one that cannot be is told with its chain. */
static void
test_wishes (Fixture      *fixture,
             gconstpointer data)
{
  g_autofree char *file = find_source ("plan/garments/t-shirt.handwheel");
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  g_auto (Outcome) plain = { 0 };
  g_auto (Outcome) tried = { 0 };
  g_auto (Outcome) csv = { 0 };
  g_auto (Outcome) forbidden = { 0 };
  g_auto (Outcome) unknown = { 0 };
  g_auto (Outcome) wrong = { 0 };

  g_assert_true (g_file_get_contents (file, &before, NULL, NULL));
  plain = run (fixture, "plan %s", file);
  g_assert_null (strstr (plain.out, "Wishes:"));
  tried = run (fixture, "plan %s --wish=before,5,3 --wish=together,1,5", file);
  g_assert_cmpint (tried.status, ==, 0);
  assert_contains (tried.out, "Wishes:\n   5 before 3: ");
  assert_contains (tried.out, "   1 and 5 together: ");
  assert_contains (tried.out, "more changing\n");
  csv = run (fixture, "plan %s --format=csv --wish=first,5", file);
  assert_contains (csv.out, ",wishes,done\r\n");
  assert_contains (csv.out, ",first 5: ");
  forbidden = run (fixture, "plan %s --wish=before,4,2", file);
  g_assert_cmpint (forbidden.status, ==, 1);
  g_assert_cmpstr (forbidden.out, ==, "");
  g_assert_cmpstr (forbidden.err, ==, "handwheel plan: 4 before 2 cannot be: 4 after 3 after 2p after 2\n");
  unknown = run (fixture, "plan %s --wish=first,99", file);
  g_assert_cmpint (unknown.status, ==, 1);
  assert_contains (unknown.err, "no step 99");
  wrong = run (fixture, "plan %s --wish=soon,5", file);
  g_assert_cmpint (wrong.status, ==, 2);
  assert_contains (wrong.err, "before, together, first or last");
  g_assert_true (g_file_get_contents (file, &after, NULL, NULL));
  g_assert_cmpstr (before, ==, after);
}

static void
test_journal (Fixture      *fixture,
              gconstpointer data)
{
  g_autofree char *file = find_garment ("wrap-skirt");
  g_auto (Outcome) empty = run (fixture, "journal", NULL);
  g_auto (Outcome) log = run (fixture, "log --step 1 --minutes 40 %s", file);
  g_auto (Outcome) people = run (fixture, "journal --kind=sewing", NULL);
  g_auto (Outcome) csv = run (fixture, "journal --format=csv --machine=lockstitch", NULL);
  g_auto (Outcome) none = run (fixture, "journal --text=mangle", NULL);
  g_auto (Outcome) kind = run (fixture, "journal --kind=sewn", NULL);
  g_auto (Outcome) date = run (fixture, "journal --from=yesterday", NULL);
  g_auto (Outcome) machine = run (fixture, "journal --machine=mangle", NULL);

  g_assert_cmpint (empty.status, ==, 0);
  g_assert_cmpint (log.status, ==, 0);
  assert_contains (people.out, "step 1, 40 min (planned ");
  g_assert_true (g_str_has_prefix (csv.out, "time,machine,kind,project,step,minutes,"));
  assert_contains (csv.out, ",lockstitch,sewing,wrap-skirt,1,40,");
  assert_contains (none.out, "Nothing of that");
  g_assert_cmpint (kind.status, ==, 2);
  assert_contains (kind.err, "sewing, load, care");
  g_assert_cmpint (date.status, ==, 2);
  assert_contains (date.err, "2031-05-09");
  g_assert_cmpint (machine.status, ==, 1);
}

static void
test_shelf (Fixture      *fixture,
            gconstpointer data)
{
  g_auto (Outcome) people = run (fixture, "shelf", NULL);
  g_auto (Outcome) csv = run (fixture, "shelf --format=csv", NULL);
  g_auto (Outcome) word = run (fixture, "shelf needles", NULL);

  g_assert_cmpint (people.status, ==, 0);
  assert_contains (people.out, "80/12 universal point");
  assert_contains (people.out, "5 new");
  assert_contains (csv.out, "needle,80/12 universal point,5,household,universal-80\r\n");
  g_assert_cmpint (word.status, ==, 2);
}

/* A second file for one machine: told, merged, put aside. */
static void
test_copies (Fixture      *fixture,
             gconstpointer data)
{
  g_autofree char *machines = g_build_filename (fixture->room, "machines", NULL);
  g_autofree char *own = g_build_filename (machines, "lockstitch.xml", NULL);
  g_autofree char *copy = g_build_filename (machines, "lockstitch (conflicted copy).xml", NULL);
  g_autofree char *text = NULL;
  g_auto (GStrv) parts = NULL;
  g_autofree char *other = NULL;
  g_auto (Outcome) furnished = run (fixture, "log --machine lockstitch --minutes 5", NULL);
  g_auto (Outcome) none = run (fixture, "copies", NULL);

  g_assert_cmpint (furnished.status, ==, 0);
  g_assert_cmpint (none.status, ==, 0);
  assert_contains (none.out, "no conflicting copies");
  g_assert_true (g_file_get_contents (own, &text, NULL, NULL));
  parts = g_strsplit (text, "speed=\"", 2);
  other = g_strjoinv ("speed=\"1", parts);
  g_assert_true (g_file_set_contents (copy, other, -1, NULL));
  {
    g_auto (Outcome) told = run (fixture, "copies --format=csv", NULL);
    g_auto (Outcome) wrong = run (fixture, "copies --prefer-copy", NULL);
    g_auto (Outcome) merged = run (fixture, "copies --merge", NULL);
    g_auto (Outcome) after = run (fixture, "copies", NULL);

    g_assert_cmpint (told.status, ==, 0);
    assert_contains (told.out, "lockstitch.xml,lockstitch (conflicted copy).xml,speed,");
    g_assert_cmpint (wrong.status, ==, 2);
    g_assert_cmpint (merged.status, ==, 0);
    assert_contains (merged.out, "is merged into “lockstitch.xml” and kept as");
    assert_contains (merged.out, "what you had removed from the other is there again");
    assert_contains (after.out, "no conflicting copies");
  }
}

/* Two journals that say another thing under one id shut the room, and the command alone opens it again. */
static void
test_copies_of_journal (Fixture      *fixture,
                        gconstpointer data)
{
  g_auto (Outcome) furnished = run (fixture, "log --machine lockstitch --minutes 5", NULL);
  g_autofree char *folder = g_build_filename (fixture->room, "journal", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autofree char *own = NULL;
  g_autofree char *copy = g_build_filename (folder, "lockstitch (1).xml", NULL);
  g_autofree char *text = NULL;
  g_autofree char *other = NULL;
  g_auto (GStrv) parts = NULL;

  g_assert_cmpint (furnished.status, ==, 0);
  own = g_build_filename (folder, g_dir_read_name (dir), NULL);
  g_assert_true (g_file_get_contents (own, &text, NULL, NULL));
  parts = g_strsplit (text, "minutes=\"5", 2);
  g_assert_nonnull (parts[1]);
  other = g_strjoinv ("minutes=\"7", parts);
  g_assert_true (g_file_set_contents (copy, other, -1, NULL));
  {
    g_auto (Outcome) shut = run (fixture, "journal", NULL);
    g_auto (Outcome) merged = run (fixture, "copies --merge --prefer-copy", NULL);
    g_auto (Outcome) open = run (fixture, "journal --format=csv", NULL);

    g_assert_cmpint (shut.status, ==, 1);
    assert_contains (shut.err, "stands in another journal file too");
    assert_contains (shut.err, "handwheel copies --merge");
    g_assert_cmpint (merged.status, ==, 0);
    g_assert_cmpint (open.status, ==, 0);
    assert_contains (open.out, ",7,");
  }
}

/* What the skirt was called on 3 May 2031. */
static void
leave_version (Fixture    *fixture,
               const char *text)
{
  g_autofree char *folder = g_build_filename (fixture->room, "versions", "wrap-skirt", NULL);
  g_autofree char *path = g_build_filename (folder, "20310503T140300Z-1a2b3c4d.handwheel", NULL);
  g_auto (GStrv) parts = g_strsplit (text, " title=\"", 2);
  g_autofree char *other = g_strjoinv (" title=\"Old ", parts);

  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  g_assert_true (g_file_set_contents (path, other, -1, NULL));
}

/* Told, gone back to; what was left by going back is one itself. */
static void
test_versions (Fixture      *fixture,
               gconstpointer data)
{
  g_autofree char *garment = find_garment ("wrap-skirt");
  g_autofree char *file = g_build_filename (fixture->folder, "skirt.handwheel", NULL);
  g_autofree char *text = NULL;
  g_autofree char *after_text = NULL;

  g_assert_true (g_file_get_contents (garment, &text, NULL, NULL));
  g_assert_true (g_file_set_contents (file, text, -1, NULL));
  {
    g_auto (Outcome) none = run (fixture, "versions %s", file);

    g_assert_cmpint (none.status, ==, 0);
    assert_contains (none.out, "no earlier versions");
  }
  leave_version (fixture, text);
  {
    g_auto (Outcome) told = run (fixture, "versions %s", file);
    g_auto (Outcome) missing = run (fixture, "versions --back-to=2 %s", file);
    g_auto (Outcome) nothing = run (fixture, "versions", NULL);
    g_auto (Outcome) back = run (fixture, "versions --back-to=1 %s", file);
    g_auto (Outcome) after = run (fixture, "versions --format=csv %s", file);

    assert_contains (told.out, "title");
    g_assert_cmpint (missing.status, ==, 2);
    assert_contains (missing.err, "there is no version 2");
    g_assert_cmpint (nothing.status, ==, 2);
    g_assert_cmpint (back.status, ==, 0);
    assert_contains (after.out, "\r\n1,");
    assert_contains (after.out, "\r\n2,2031-05-03T14:03:00Z,");
    assert_contains (after.out, "nothing differs");
  }
  g_assert_true (g_file_get_contents (file, &after_text, NULL, NULL));
  assert_contains (after_text, " title=\"Old ");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (bad_cases); i++)
    g_test_add (bad_cases[i].path, Fixture, &bad_cases[i], set_up, test_bad, tear_down);
  g_test_add ("/command/missing-file", Fixture, NULL, set_up, test_missing_file, tear_down);
  g_test_add ("/command/usage", Fixture, NULL, set_up, test_usage, tear_down);
  g_test_add ("/command/help", Fixture, NULL, set_up, test_help, tear_down);
  g_test_add ("/command/garments", Fixture, NULL, set_up, test_garments, tear_down);
  g_test_add ("/command/formats", Fixture, NULL, set_up, test_formats, tear_down);
  g_test_add ("/command/wishes", Fixture, NULL, set_up, test_wishes, tear_down);
  g_test_add ("/command/sew", Fixture, NULL, set_up, test_sew, tear_down);
  g_test_add ("/command/minutes", Fixture, NULL, set_up, test_minutes, tear_down);
  g_test_add ("/command/test-seam", Fixture, NULL, set_up, test_test_seam, tear_down);
  g_test_add ("/command/test-seam/refused", Fixture, NULL, set_up, test_test_seam_refused, tear_down);
  g_test_add ("/command/pair", Fixture, NULL, set_up, test_pair, tear_down);
  g_test_add ("/command/pair/narrow-twin", Fixture, NULL, set_up, test_pair_narrow_twin, tear_down);
  g_test_add ("/command/pair/foot-not-owned", Fixture, NULL, set_up, test_pair_foot_not_owned, tear_down);
  g_test_add ("/command/pair/measured", Fixture, NULL, set_up, test_pair_measured, tear_down);
  g_test_add ("/command/guide", Fixture, NULL, set_up, test_guide, tear_down);
  g_test_add ("/command/new", Fixture, NULL, set_up, test_new, tear_down);
  g_test_add ("/command/new/button-band", Fixture, NULL, set_up, test_button_band, tear_down);
  g_test_add ("/command/handbook", Fixture, NULL, set_up, test_handbook, tear_down);
  g_test_add ("/command/handbook/entries", Fixture, NULL, set_up, test_entries, tear_down);
  g_test_add ("/command/handbook/sources", Fixture, NULL, set_up, test_sources, tear_down);
  g_test_add ("/command/handbook/list", Fixture, NULL, set_up, test_list, tear_down);
  g_test_add ("/command/fault/list", Fixture, NULL, set_up, test_fault_list, tear_down);
  g_test_add ("/command/fault/trace", Fixture, NULL, set_up, test_fault_trace, tear_down);
  g_test_add ("/command/fault/done", Fixture, NULL, set_up, test_fault_done, tear_down);
  g_test_add ("/command/fault/refused", Fixture, NULL, set_up, test_fault_refused, tear_down);
  g_test_add ("/command/journal", Fixture, NULL, set_up, test_journal, tear_down);
  g_test_add ("/command/copies", Fixture, NULL, set_up, test_copies, tear_down);
  g_test_add ("/command/copies/journal", Fixture, NULL, set_up, test_copies_of_journal, tear_down);
  g_test_add ("/command/versions", Fixture, NULL, set_up, test_versions, tear_down);
  g_test_add ("/command/shelf", Fixture, NULL, set_up, test_shelf, tear_down);
  g_test_add ("/command/overlay", Fixture, NULL, set_up, test_overlay, tear_down);
  g_test_add ("/command/handbook/exact", Fixture, NULL, set_up, test_exact, tear_down);
  g_test_add ("/command/overlay/refused", Fixture, NULL, set_up, test_overlay_refused, tear_down);
  g_test_add ("/command/overlay/check", Fixture, NULL, set_up, test_check_overlay, tear_down);
  return g_test_run ();
}
