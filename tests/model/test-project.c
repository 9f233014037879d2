/* test-project.c - reading, refusing and writing projects
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "files/xml.h"
#include "model/project.h"
#include "temp-folder.h"

#include <glib/gstdio.h>
#include <string.h>

/* Seven lines; what a case adds begins on line 8. */
#define HEAD "<project xmlns=\"urn:handwheel:project:1\" id=\"cushion\" title=\"Cushion\">\n" \
             "<fabrics>\n" \
             "<fabric id=\"poplin\" handbook=\"poplin\"/>\n" \
             "<fabric id=\"wadding\" handbook=\"wadding\"/>\n" \
             "</fabrics>\n" \
             "<threads><thread id=\"main\" handbook=\"polyester-30\"/></threads>\n" \
             "<steps>\n"
#define TAIL "</steps></project>\n"
/* Steps 1 to 4, each after the one before: lines 8 to 11; the wishes begin on line 13. */
#define CHAIN OPERATION ("1", "length-cm=\"4\"", PLY) OPERATION ("2", "length-cm=\"4\" after=\"1\"", PLY) \
              OPERATION ("3", "length-cm=\"4\" after=\"2\"", PLY) OPERATION ("4", "length-cm=\"4\"", PLY)
#define WISHES(inside) HEAD CHAIN "</steps><wishes>\n" inside "</wishes></project>\n"
#define PLY "<ply fabric=\"poplin\" count=\"2\"/>"
#define OPERATION(number, more, inside) \
  "<operation number=\"" number "\" name=\"Seam\" purpose=\"seam\" " more ">" inside "</operation>\n"

typedef struct
{
  const char *path;
  const char *data;
  int         line;
  const char *parts[3];          /* of the message: the value, what was expected, the remedy */
} BadCase;

static const BadCase bad_cases[] = {
  { "/project/bad/empty", "", 1, { "empty", "<project" } },
  { "/project/bad/not-xml", "Cushion, 2 buttons", 1, { "not an XML file", "<project" } },
  { "/project/bad/cut-short", HEAD "<operation number=", 8, { "not well-formed" } },
  { "/project/bad/doctype", "<!DOCTYPE project [<!ENTITY a \"b\">]>\n" HEAD TAIL, 1, { "DOCTYPE", "take" } },
  { "/project/bad/other-schema",
    "<list xmlns=\"urn:example:list\"/>", 1, { "urn:example:list", "urn:handwheel:project:1" } },
  { "/project/bad/no-namespace", "<project/>", 1, { "urn:handwheel:project:1" } },
  { "/project/bad/newer", "<project xmlns=\"urn:handwheel:project:2\"/>", 1, { "newer", "update" } },
  { "/project/bad/no-title", "<project xmlns=\"urn:handwheel:project:1\" id=\"a\"/>", 1, { "title", "missing" } },
  { "/project/bad/blank-title", "<project xmlns=\"urn:handwheel:project:1\" title=\" \"/>", 1, { "title", "empty" } },
  { "/project/bad/due", "<project xmlns=\"urn:handwheel:project:1\" title=\"a\" due=\"2031-02-30\"/>", 1,
    { "2031-02-30", "day of the calendar" } },
  { "/project/bad/due-week",
    "<project xmlns=\"urn:handwheel:project:1\" title=\"a\" due=\"2031-W05-1\"/>", 1, { "due" } },
  { "/project/bad/id", "<project xmlns=\"urn:handwheel:project:1\" title=\"a\" id=\"two words\"/>", 1,
    { "two words", "one word" } },
  { "/project/bad/root-attribute", "<project xmlns=\"urn:handwheel:project:1\" title=\"a\" dues=\"2031-02-03\"/>", 1,
    { "dues", "did you mean “due”" } },
  { "/project/bad/root-element", "<project xmlns=\"urn:handwheel:project:1\" title=\"a\">\n<step/></project>", 2,
    { "<step>", "did you mean <steps>" } },
  { "/project/bad/stray-text",
    "<project xmlns=\"urn:handwheel:project:1\" title=\"a\">\n<steps>soon</steps></project>", 2,
    { "<steps>", "<note>" } },
  { "/project/bad/two-sections",
    "<project xmlns=\"urn:handwheel:project:1\" title=\"a\">\n<steps/>\n<steps/></project>", 3,
    { "<steps>", "twice" } },
  { "/project/bad/two-notes",
    "<project xmlns=\"urn:handwheel:project:1\" title=\"a\"><note>b</note>\n<note>c</note></project>",
    2, { "<note>", "twice" } },
  { "/project/bad/foreign-element",
    "<project xmlns=\"urn:handwheel:project:1\" title=\"a\">\n<steps xmlns=\"urn:example:x\"/></project>", 2,
    { "<steps>", "namespace" } },
  { "/project/bad/fabric-twice",
    "<project xmlns=\"urn:handwheel:project:1\" title=\"a\"><fabrics>\n<fabric id=\"a\" handbook=\"b\"/>\n"
    "<fabric id=\"a\" handbook=\"c\"/></fabrics></project>", 3, { "“a”", "twice" } },
  { "/project/bad/fabric-nothing",
    "<project xmlns=\"urn:handwheel:project:1\" title=\"a\"><fabrics>\n<fabric id=\"a\"/></fabrics></project>", 2,
    { "handbook", "construction" } },
  { "/project/bad/fabric-both",
    "<project xmlns=\"urn:handwheel:project:1\" title=\"a\"><fabrics>\n"
    "<fabric id=\"a\" handbook=\"b\" construction=\"twill\"/></fabrics></project>", 2, { "keep one" } },
  { "/project/bad/fabric-not-weighed",
    "<project xmlns=\"urn:handwheel:project:1\" title=\"a\"><fabrics>\n"
    "<fabric id=\"a\" construction=\"twill\"/></fabrics></project>", 2, { "mass", "weigh" } },
  { "/project/bad/fabric-mass",
    "<project xmlns=\"urn:handwheel:project:1\" title=\"a\"><fabrics>\n"
    "<fabric id=\"a\" handbook=\"b\" mass=\"2,5\"/></fabrics></project>", 2, { "“mass”", "2,5", "with a point" } },
  { "/project/bad/fabric-stretch",
    "<project xmlns=\"urn:handwheel:project:1\" title=\"a\"><fabrics>\n"
    "<fabric id=\"a\" handbook=\"b\" stretch=\"-1\"/></fabrics></project>", 2, { "“stretch”", "from 0 to 500" } },
  { "/project/bad/thread-nothing",
    "<project xmlns=\"urn:handwheel:project:1\" title=\"a\"><threads>\n<thread id=\"a\"/></threads></project>", 2,
    { "handbook", "missing" } },
  { "/project/bad/unknown-fabric", HEAD OPERATION ("1", "length-cm=\"10\"", "\n<ply fabric=\"popln\"/>") TAIL, 9,
    { "fabric “popln”", "did you mean “poplin”", "poplin, wadding" } },
  { "/project/bad/unknown-crossing",
    HEAD OPERATION ("1", "length-cm=\"10\"", PLY "<crossing>\n<ply fabric=\"denim\"/></crossing>") TAIL, 9,
    { "fabric “denim”", "poplin, wadding" } },
  { "/project/bad/empty-crossing", HEAD OPERATION ("1", "length-cm=\"10\"", PLY "\n<crossing/>") TAIL, 9,
    { "<crossing>", "empty" } },
  { "/project/bad/unknown-thread", HEAD OPERATION ("1", "length-cm=\"10\" needle-thread=\"mian\"", PLY) TAIL, 8,
    { "thread “mian”", "did you mean “main”" } },
  { "/project/bad/unknown-bobbin-thread", HEAD OPERATION ("1", "length-cm=\"10\" bobbin-thread=\"red\"", PLY) TAIL, 8,
    { "thread “red”", "main" } },
  { "/project/bad/unknown-step",
    HEAD OPERATION ("10", "length-cm=\"10\"", PLY) OPERATION ("2", "length-cm=\"10\" after=\"01\"", PLY) TAIL, 9,
    { "step “01”", "did you mean “10”" } },
  { "/project/bad/number-twice",
    HEAD OPERATION ("1", "length-cm=\"1\"", PLY) OPERATION ("1", "length-cm=\"1\"", PLY) TAIL,
    9, { "number", "“1”", "twice" } },
  { "/project/bad/number-words", HEAD OPERATION ("1 a", "length-cm=\"1\"", PLY) TAIL, 8, { "“1 a”", "one word" } },
  { "/project/bad/no-length", HEAD OPERATION ("1", "", PLY) TAIL, 8, { "length-cm", "missing", "0.1 to 100000" } },
  { "/project/bad/zero-length",
    HEAD OPERATION ("1", "length-cm=\"0\"", PLY) TAIL, 8, { "length-cm", "“0”", "0.1 to 100000" } },
  { "/project/bad/negative-length", HEAD OPERATION ("1", "length-cm=\"-4\"", PLY) TAIL, 8, { "length-cm", "“-4”" } },
  { "/project/bad/length-not-a-number",
    HEAD OPERATION ("1", "length-cm=\"nan\"", PLY) TAIL, 8, { "length-cm", "“nan”" } },
  { "/project/bad/pieces", HEAD OPERATION ("1", "length-cm=\"4\" pieces=\"1.5\"", PLY) TAIL, 8, { "pieces", "whole" } },
  { "/project/bad/share", HEAD OPERATION ("1", "length-cm=\"4\" share=\"maybe\"", PLY) TAIL, 8, { "share", "yes" } },
  { "/project/bad/no-plies", HEAD OPERATION ("1", "length-cm=\"4\"", "") TAIL, 8, { "layers", "<ply" } },
  { "/project/bad/ply-count", HEAD OPERATION ("1", "length-cm=\"4\"", "<ply fabric=\"poplin\" count=\"65\"/>") TAIL, 8,
    { "count", "1 to 64" } },
  { "/project/bad/too-many-plies",
    HEAD OPERATION ("1", "length-cm=\"4\"",
    "<ply fabric=\"poplin\" count=\"60\"/>\n<ply fabric=\"wadding\" count=\"5\"/>") TAIL, 9,
    { "64 layers", "take some out" } },
  { "/project/bad/ply-inside",
    HEAD OPERATION ("1", "length-cm=\"4\"", "<ply fabric=\"poplin\">\n<ply fabric=\"poplin\"/></ply>") TAIL, 9,
    { "<ply>", "holds nothing" } },
  { "/project/bad/operation-element",
    HEAD OPERATION ("1", "length-cm=\"4\"", PLY "\n<plys fabric=\"poplin\"/>") TAIL, 9,
    { "<plys>", "did you mean <ply>" } },
  { "/project/bad/operation-attribute", HEAD OPERATION ("1", "length-mm=\"4\"", PLY) TAIL, 8,
    { "“length-mm”", "did you mean “length-cm”" } },
  { "/project/bad/long-stitch",
    HEAD OPERATION ("1", "length-cm=\"4\"", PLY "\n<set field=\"length\" value=\"300\"/>") TAIL, 9,
    { "a stitch is 0.2 to 12 mm long", "300" } },
  { "/project/bad/zero-stitch",
    HEAD OPERATION ("1", "length-cm=\"4\"", PLY "\n<set field=\"length\" value=\"0\"/>") TAIL, 9,
    { "a stitch is 0.2 to 12 mm long" } },
  { "/project/bad/set-field",
    HEAD OPERATION ("1", "length-cm=\"4\"", PLY "\n<set field=\"lenght\" value=\"3\"/>") TAIL, 9,
    { "lenght", "did you mean “length”" } },
  { "/project/bad/set-choice",
    HEAD OPERATION ("1", "length-cm=\"4\"", PLY "\n<set field=\"point\" value=\"3\"/>") TAIL, 9,
    { "point", "“choice”" } },
  { "/project/bad/set-value",
    HEAD OPERATION ("1", "length-cm=\"4\"", PLY "\n<set field=\"dial\" choice=\"high\"/>") TAIL, 9,
    { "“value”", "missing" } },
  { "/project/bad/set-both",
    HEAD OPERATION ("1", "length-cm=\"4\"", PLY "\n<set field=\"dial\" value=\"3\" choice=\"3\"/>") TAIL, 9,
    { "“dial”", "“value”" } },
  { "/project/bad/set-ends",
    HEAD OPERATION ("1", "length-cm=\"4\"", PLY "\n<set field=\"ends\" choice=\"knots\"/>") TAIL, 9,
    { "knots", "did you mean “knot”", "back-tack" } },
  { "/project/bad/set-size",
    HEAD OPERATION ("1", "length-cm=\"4\"", PLY "\n<set field=\"size\" value=\"80.5\"/>") TAIL, 9,
    { "whole number" } },
  { "/project/bad/set-twice",
    HEAD OPERATION ("1",
    "length-cm=\"4\"", PLY "<set field=\"dial\" value=\"3\"/>\n<set field=\"dial\" value=\"4\"/>") TAIL, 9,
    { "“dial”", "twice" } },
  { "/project/bad/wish-kind", WISHES ("<wish kind=\"befor\" steps=\"4 2\"/>"), 13,
    { "befor", "did you mean “before”" } },
  { "/project/bad/wish-attribute", WISHES ("<wish kind=\"first\" step=\"4\"/>"), 13, { "did you mean “steps”" } },
  { "/project/bad/wish-element", WISHES ("<wishe kind=\"first\"/>"), 13, { "<wishe>", "did you mean <wish>" } },
  { "/project/bad/wish-nobody", WISHES ("<wish kind=\"first\"/>"), 13, { "one step", "steps=\"6\"" } },
  { "/project/bad/wish-one", WISHES ("<wish kind=\"before\" steps=\"4\"/>"), 13, { "two steps", "steps=\"4 2\"" } },
  { "/project/bad/wish-three", WISHES ("\n<wish kind=\"before\" steps=\"4 2 3\"/>"), 14, { "two steps" } },
  { "/project/bad/wish-alone", WISHES ("<wish kind=\"together\" steps=\"4\"/>"), 13, { "two steps or more" } },
  { "/project/bad/wish-unknown", WISHES ("<wish kind=\"last\" steps=\"7\"/>"), 13, { "step 7", "name one" } },
  { "/project/bad/wish-itself", WISHES ("<wish kind=\"before\" steps=\"4 4\"/>"), 13, { "step 4", "twice" } },
  { "/project/bad/wish-twice", WISHES ("<wish kind=\"last\" steps=\"4\"/>\n<wish kind=\"last\" steps=\"4\"/>"), 14,
    { "same wish", "keep one" } },
  { "/project/bad/wish-kept-twice",
    WISHES ("<wish kind=\"together\" steps=\"1 2\"/>\n<wish kind=\"together\" steps=\"2 4\"/>"), 14,
    { "step 2", "one wish of the two" } },
  { "/project/bad/wish-chain", WISHES ("<wish kind=\"before\" steps=\"3 1\"/>"), 13,
    { "step 3 before 1", "3 after 2 after 1;", "take the wish out" } },
  { "/project/bad/wish-chain-of-wishes",
    WISHES ("<wish kind=\"before\" steps=\"4 1\"/>\n<wish kind=\"before\" steps=\"2 4\"/>"), 14,
    { "2 after 1 after 4,", "by other wishes too" } },
  { "/project/bad/wish-together-apart", WISHES ("<wish kind=\"together\" steps=\"1 3\"/>"), 13,
    { "steps 1 3 together", "3 after 2 after 1;" } },
  { "/project/bad/wish-together-order", WISHES ("<wish kind=\"together\" steps=\"2 1\"/>"), 13,
    { "steps 2 1 together", "2 after 1;" } },
  { "/project/bad/wish-through-kept",
    WISHES ("<wish kind=\"together\" steps=\"1 4\"/>\n<wish kind=\"before\" steps=\"2 4\"/>"), 14,
    { "2 after 1 after 4,", "by other wishes too" } },
  { "/project/bad/gather-hand", "<project xmlns=\"urn:handwheel:project:1\" title=\"a\" gather-hand=\"maybe\"/>", 1,
    { "gather-hand", "maybe", "yes" } },
  { "/project/bad/hand-kind", HEAD "<hand number=\"1\" name=\"Press\" kind=\"pres\" minutes=\"3\"/>" TAIL, 8,
    { "pres", "did you mean “press”" } },
  { "/project/bad/hand-minutes", HEAD "<hand number=\"1\" name=\"Press\" kind=\"press\" minutes=\"-3\"/>" TAIL, 8,
    { "minutes", "“-3”" } },
  { "/project/bad/hand-ply",
    HEAD "<hand number=\"1\" name=\"Press\" kind=\"press\" minutes=\"3\">\n" PLY "</hand>" TAIL, 9,
    { "<ply>", "<hand>", "note" } },
  { "/project/bad/circle-of-one", HEAD OPERATION ("1", "length-cm=\"1\" after=\"1\"", PLY) TAIL, 8,
    { "1 → 1;", "after" } },
  { "/project/bad/circle-of-three",
    HEAD OPERATION ("1", "length-cm=\"1\"", PLY) OPERATION ("9", "length-cm=\"1\" after=\"5\"", PLY)
    OPERATION ("3", "length-cm=\"1\" after=\"1 9\"", PLY) OPERATION ("5", "length-cm=\"1\" after=\"3 1\"", PLY)
    OPERATION ("7", "length-cm=\"1\" after=\"9\"", PLY) TAIL, 9, { "9 → 3 → 5 → 9;", "circle" } },
  { "/project/bad/two-circles",
    HEAD OPERATION ("a", "length-cm=\"1\" after=\"b d\"", PLY) OPERATION ("b", "length-cm=\"1\" after=\"c\"", PLY)
    OPERATION ("c", "length-cm=\"1\" after=\"b\"", PLY) OPERATION ("d", "length-cm=\"1\"", PLY) TAIL, 9,
    { "b → c → b;" } },
};

static void
assert_contains (const char *text,
                 const char *part)
{
  if (strstr (text, part) == NULL)
    g_error ("“%s” is not in: %s", part, text);
}

static void
test_bad (gconstpointer data)
{
  const BadCase *bad = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *start = g_strdup_printf ("bad.handwheel:%d: ", bad->line);
  HwProject *project = hw_project_parse ("bad.handwheel", bad->data, strlen (bad->data), &error);

  g_assert_null (project);
  g_assert_nonnull (error);
  g_assert_true (error->domain == HW_XML_ERROR || error->domain == HW_MODEL_ERROR);
  if (!g_str_has_prefix (error->message, start))
    g_error ("“%s” does not begin: %s", start, error->message);
  for (gsize i = 0; i < G_N_ELEMENTS (bad->parts) && bad->parts[i] != NULL; i++)
    assert_contains (error->message, bad->parts[i]);
  g_assert_null (strchr (error->message, '\n'));
}

/* The same files that the command line is tested with. */
static void
test_bad_files (void)
{
  static const struct { const char *name; int line; const char *part; } files[] = {
    { "not-xml", 1, "not an XML file" },
    { "other-schema", 2, "urn:handwheel:project:1" },
    { "newer-version", 2, "newer" },
    { "unknown-fabric", 11, "did you mean “poplin”" },
    { "circle", 13, "3 → 5 → 9 → 3" },
    { "negative-length", 7, "length-cm" },
    { "long-stitch", 9, "0.2 to 12 mm" },
    { "duplicate-number", 10, "number" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *name = g_strconcat (files[i].name, ".handwheel", NULL);
      g_autofree char *path = g_test_build_filename (G_TEST_DIST, "model", "bad", name, NULL);
      g_autofree char *start = g_strdup_printf ("%s:%d: ", name, files[i].line);

      g_assert_null (hw_project_read (path, &error));
      g_assert_true (g_str_has_prefix (error->message, start));
      assert_contains (error->message, files[i].part);
    }
}

static void
test_missing_file (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (hw_project_read ("/nowhere/at/all.handwheel", &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_READ);
  assert_contains (error->message, "/nowhere/at/all.handwheel");
}

static HwProject *
parse (const char *data)
{
  g_autoptr (GError) error = NULL;
  HwProject *project = hw_project_parse ("shirts, two.handwheel", data, strlen (data), &error);

  g_assert_no_error (error);
  return project;
}

/* A file that a person wrote: sections in another order, no ids, nothing but the needful. */
static void
test_by_hand (void)
{
  static const char data[] =
    "<?xml version='1.0'?>\n"
    "<project xmlns='urn:handwheel:project:1' title='Two shirts'><!-- soon -->\n"
    "  <steps>\n"
    "    <operation number='2b' name='Yoke' after=' 1  1 ' purpose='seam' length-cm='40'>\n"
    "      <note>\n        First line,\n        second   line.\n\n      </note>\n"
    "      <ply fabric='cloth'/><ply fabric='cloth' count='2'/>\n"
    "    </operation>\n"
    "    <hand number='1' name='Press' kind='press' minutes='2.5'/>\n"
    "  </steps>\n"
    "  <fabrics><fabric id='cloth' construction='twill' mass='150' traits=' slippery  sheds '/></fabrics>\n"
    "</project>\n";
  g_autoptr (HwProject) project = parse (data);
  const HwProjectFabric *cloth = hw_project_find_fabric (project, "cloth");
  const HwStep *yoke = hw_project_get_step (project, 0);

  g_assert_cmpstr (project->id, ==, "shirts--two");      /* from the file's name */
  g_assert_cmpstr (project->title, ==, "Two shirts");
  g_assert_null (project->due);
  g_assert_cmpuint (project->threads->len, ==, 0);
  g_assert_cmpstr (cloth->name, ==, "cloth");
  g_assert_cmpstr (cloth->construction, ==, "twill");
  g_assert_cmpfloat (cloth->thickness_mm, ==, 0);
  g_assert_cmpfloat (cloth->stretch_percent, ==, -1);
  g_assert_cmpstr (cloth->traits[0], ==, "slippery");
  g_assert_cmpstr (cloth->traits[1], ==, "sheds");
  g_assert_null (cloth->traits[2]);
  g_assert_cmpint (cloth->line, ==, 14);
  g_assert_cmpstr (yoke->after[0], ==, "1");
  g_assert_null (yoke->after[1]);
  g_assert_cmpstr (yoke->note, ==, "First line,\nsecond   line.");
  g_assert_cmpint (yoke->pieces, ==, 1);
  g_assert_true (yoke->share);
  g_assert_cmpuint (yoke->n_plies, ==, 2);
  g_assert_cmpint (yoke->plies[0].count, ==, 1);
  g_assert_cmpint (yoke->plies[1].count, ==, 2);
  g_assert_cmpint (yoke->line, ==, 4);
  g_assert_cmpint (hw_project_find_step (project, "1"), ==, 1);
  g_assert_cmpint (hw_project_find_step (project, "7"), ==, -1);
  g_assert_cmpint (hw_project_get_step (project, 1)->hand, ==, HW_HAND_PRESS);
  g_assert_cmpfloat (hw_project_get_step (project, 1)->minutes, ==, 2.5);
  g_assert_cmpstr (project->file, ==, "shirts, two.handwheel");
}

static HwProject *
read_again (const HwProject *project,
            char           **bytes)
{
  gsize size = 0;

  *bytes = hw_project_to_xml (project, &size);
  g_assert_cmpuint (size, ==, strlen (*bytes));
  return parse (*bytes);
}

static void
assert_round_trip (const HwProject *project)
{
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;
  g_autoptr (HwProject) again = read_again (project, &first);
  g_autoptr (HwProject) third = read_again (again, &second);

  g_assert_cmpstr (first, ==, second);
  g_assert_true (hw_project_is_equal (again, third));
}

static void
test_round_trip (void)
{
  static const char * const folders[][2] = {
    { "plan", "garments" }, { "plan", "garments/far" }, { "..", "data/demo/projects" },
  };
  int n = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++)
    {
      g_autofree char *folder = g_test_build_filename (G_TEST_DIST, folders[i][0], folders[i][1], NULL);
      g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
      const char *name;

      g_assert_nonnull (dir);
      while ((name = g_dir_read_name (dir)) != NULL)
        {
          g_autoptr (GError) error = NULL;
          g_autofree char *path = g_build_filename (folder, name, NULL);
          g_autoptr (HwProject) project = NULL;

          if (!g_str_has_suffix (name, ".handwheel"))
            continue;
          project = hw_project_read (path, &error);
          g_assert_no_error (error);
          assert_round_trip (project);
          n++;
        }
    }
  g_assert_cmpint (n, >=, 10);
}

/* The shipped demo is already as the writer writes it. */
static void
test_demo_bytes (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "data/demo/projects/stage-cape.handwheel", NULL);
  g_autoptr (HwProject) project = hw_project_read (path, &error);
  g_autofree char *expected = NULL;
  g_autofree char *written = NULL;

  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (path, &expected, NULL, NULL));
  written = hw_project_to_xml (project, NULL);
  g_assert_cmpstr (written, ==, expected);
}

/* Everything that a project may hold, and characters that XML treats specially. */
static HwProject *
make_full (void)
{
  HwProject *project = hw_project_new ("full", "A & B < “C” > 'd' \"e\"");
  HwProjectFabric *fabric = hw_project_fabric_new ("own", "Éponge & co");
  HwProjectThread *thread = hw_project_thread_new ("top", "polyester-60");
  HwStep *operation = hw_step_new (HW_STEP_OPERATION, "2", "Fell");
  HwStep *hand = hw_step_new (HW_STEP_HAND, "1", "Clip");

  project->due = g_strdup ("2031-02-28");
  project->note = g_strdup ("  one\r\n\ttwo  \n\nthree ]]> & <four> \n");
  fabric->construction = g_strdup ("twill");
  fabric->mass_g_m2 = 0.1 + 280.2;
  fabric->thickness_mm = 1.0 / 3;
  fabric->stretch_percent = 0;
  fabric->colour = g_strdup ("écru");
  g_strfreev (fabric->traits);
  fabric->traits = g_strsplit ("sheds lofty", " ", -1);
  g_ptr_array_add (project->fabrics, fabric);
  thread->tex = 59.5;
  thread->colour = g_strdup ("gold");
  g_ptr_array_add (project->threads, thread);
  hand->hand = HW_HAND_CLIP;
  hand->minutes = 1e-3;
  hand->note = g_strdup ("to the stitching");
  g_ptr_array_add (project->steps, hand);
  g_strfreev (operation->after);
  operation->after = g_strsplit ("1", " ", -1);
  operation->purpose = g_strdup ("seam");
  operation->seam = g_strdup ("felled");
  operation->stitch = g_strdup ("301");
  operation->machine = g_strdup ("lockstitch");
  operation->length_cm = 1e5;
  operation->pieces = 3;
  operation->needle_thread = g_strdup ("top");
  operation->bobbin_thread = g_strdup ("main");
  operation->share = FALSE;
  operation->plies = g_new0 (HwPly, 1);
  operation->plies[0] = (HwPly) { g_strdup ("own"), 4 };
  operation->n_plies = 1;
  operation->crossing = g_new0 (HwPly, 1);
  operation->crossing[0] = (HwPly) { g_strdup ("own"), 12 };
  operation->n_crossing = 1;
  operation->overrides = g_new0 (HwOverride, 2);
  operation->overrides[0] = (HwOverride) { HW_FIELD_LENGTH, 2.8, NULL };
  operation->overrides[1] = (HwOverride) { HW_FIELD_ENDS, 0, g_strdup ("back-tack") };
  operation->n_overrides = 2;
  operation->note = g_strdup ("two rows\n6 mm apart");
  g_ptr_array_add (project->steps, operation);
  g_ptr_array_add (project->wishes, hw_wish_new (HW_WISH_TOGETHER, (const char *[]) { "1", "2", NULL }));
  g_ptr_array_add (project->wishes, hw_wish_new (HW_WISH_LAST, (const char *[]) { "2", NULL }));
  g_ptr_array_add (project->wishes, hw_wish_new (HW_WISH_BEFORE, (const char *[]) { "1", "2", NULL }));
  g_ptr_array_add (project->wishes, hw_wish_new (HW_WISH_FIRST, (const char *[]) { "1", NULL }));
  project->gather_hand = TRUE;
  return project;
}

static void
test_full (void)
{
  g_autoptr (HwProject) project = make_full ();
  g_autofree char *bytes = NULL;
  g_autoptr (HwProject) again = read_again (project, &bytes);

  assert_round_trip (project);
  g_assert_cmpstr (again->note, ==, "one\ntwo\n\nthree ]]> & <four>");
  g_assert_false (hw_project_is_equal (project, again)); /* the note was not tidy */
  g_free (project->note);
  project->note = g_strdup (again->note);
  g_assert_true (hw_project_is_equal (project, again));  /* lines and file do not count */
}

/* Each part counts for equality. */
static void
test_is_equal (void)
{
  g_autoptr (HwProject) full = make_full ();
  static const char * const changes[][2] = {
    { "title=\"A", "title=\"Z" }, { "due=\"2031-02-28\"", "" }, { "name=\"Éponge", "name=\"Eponge" },
    { "mass=\"", "mass=\"1" }, { "stretch=\"0\"", "stretch=\"1\"" }, { "colour=\"gold\"", "colour=\"old\"" },
    { "tex=\"59.5\"", "" }, { "sheds lofty", "sheds" }, { "after=\"1\"", "" }, { "seam=\"felled\"", "" },
    { "pieces=\"3\"", "" }, { "share=\"no\"", "" }, { "count=\"12\"", "count=\"11\"" }, { "value=\"2.8\"",
    "value=\"2.9\"" },
    { "choice=\"back-tack\"", "choice=\"lock\"" }, { "two rows", "three rows" }, { "kind=\"clip\"", "kind=\"trim\"" },
    { "minutes=\"0.001\"", "minutes=\"0.002\"" }, { "machine=\"lockstitch\"", "" }, { "needle-thread=\"top\"", "" },
    { "gather-hand=\"yes\"", "" }, { "kind=\"last\"", "kind=\"first\"" },
    { "<wish kind=\"before\" steps=\"1 2\"/>", "" },
  };
  g_autofree char *bytes = NULL;
  g_autoptr (HwProject) project = read_again (full, &bytes);

  for (gsize i = 0; i < G_N_ELEMENTS (changes); i++)
    {
      g_autoptr (GString) changed = g_string_new (bytes);
      g_autoptr (HwProject) other = NULL;

      g_assert_cmpuint (g_string_replace (changed, changes[i][0], changes[i][1], 1), ==, 1);
      other = parse (changed->str);
      g_assert_false (hw_project_is_equal (project, other));
    }
}

static char *
make_long (guint    n,
           gboolean circle)
{
  GString *text = g_string_new (HEAD);

  for (guint i = 0; i < n; i++)
    {
      g_string_append_printf (text, "<hand number=\"%u\" name=\"Press\" kind=\"press\" minutes=\"1\" after=\"", i);
      if (i > 0 || circle)
        g_string_append_printf (text, "%u", i > 0 ? i - 1 : n - 1);
      if (i > 1)
        g_string_append_printf (text, " %u", i / 2);
      g_string_append (text, "\"/>\n");
    }
  g_string_append (text, TAIL);
  return g_string_free (text, FALSE);
}

/* How many times slower a checker may make it. */
#define SLOWNESS (g_getenv ("TESTS_ONE_IN") != NULL ? 50 : 1)

/* A chain as long as a project may be: neither the stack nor the time may grow with its square. */
static void
test_long_chain (void)
{
  g_autofree char *chain = make_long (20000, FALSE);
  g_autofree char *circle = make_long (20000, TRUE);
  g_autofree char *one_more = make_long (20001, FALSE);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = NULL;
  gint64 start = g_get_monotonic_time ();

  project = parse (chain);
  g_assert_cmpuint (project->steps->len, ==, 20000);
  g_assert_null (hw_project_parse ("c", circle, strlen (circle), &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_CIRCLE);
  assert_contains (error->message, "c:8: ");
  assert_contains (error->message, " → … → ");
  g_assert_cmpuint (strlen (error->message), <, 400);
  g_clear_error (&error);
  g_assert_null (hw_project_parse ("c", one_more, strlen (one_more), &error));
  assert_contains (error->message, "c:20008: ");
  assert_contains (error->message, "at most 20000 steps");
  g_assert_cmpint (g_get_monotonic_time () - start, <, 20 * SLOWNESS * G_TIME_SPAN_SECOND);
}

static void
test_limits (void)
{
  g_autofree char *longest = g_strnfill (200, 'n');
  g_autofree char *too_long = g_strnfill (201, 'n');
  static const char most[] = HEAD OPERATION ("1", "length-cm=\"4\"", "<ply fabric=\"poplin\" count=\"64\"/>") TAIL;
  g_autoptr (GString) good = g_string_new (most);
  g_autoptr (GString) bad = g_string_new (good->str);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = NULL;

  g_string_replace (good, "\"Seam\"", "\"@\"", 1);
  g_string_replace (good, "@", longest, 1);
  project = parse (good->str);
  g_assert_cmpuint (strlen (hw_project_get_step (project, 0)->name), ==, 200);
  g_string_replace (bad, "\"Seam\"", "\"@\"", 1);
  g_string_replace (bad, "@", too_long, 1);
  g_assert_null (hw_project_parse ("b", bad->str, bad->len, &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID);
  assert_contains (error->message, "200 characters");
}

static void
test_write (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = temp_folder_new ();
  g_autofree char *path = g_build_filename (folder, "full.handwheel", NULL);
  g_autoptr (HwProject) project = make_full ();
  g_autoptr (HwProject) again = NULL;
  g_autofree char *expected = hw_project_to_xml (project, NULL);
  g_autofree char *written = NULL;

  g_assert_true (hw_project_write (project, path, &error));
  g_assert_no_error (error);
  written = temp_folder_read (folder, "full.handwheel");
  g_assert_cmpstr (written, ==, expected);
  again = hw_project_read (path, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (again->file, ==, "full.handwheel");
  g_assert_false (hw_project_write (project, "/dev/null/x.handwheel", &error));
  g_assert_nonnull (error);
  temp_folder_remove (g_steal_pointer (&folder));
}

/* The schema takes what the reader takes: the writer's bytes pass both. */
static void
test_schema (void)
{
  g_autofree char *schema_path = g_test_build_filename (G_TEST_DIST, "..", "data/schema/project.rng", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSchema) schema = hw_schema_load (schema_path, &error);
  g_autoptr (HwProject) project = make_full ();
  g_autofree char *bytes = NULL;
  g_autoptr (HwXml) xml = NULL;
  gsize size = 0;

  g_assert_no_error (error);
  bytes = hw_project_to_xml (project, &size);
  xml = hw_xml_read_bytes ("full", bytes, size, "project", HW_PROJECT_NS, &error);
  g_assert_no_error (error);
  g_assert_true (hw_schema_check (schema, xml, &error));
  g_assert_no_error (error);
}

/* What the reader refuses in one element or attribute, the schema refuses too. */
static void
test_schema_refuses (void)
{
  static const char * const wrong[] = {
    HEAD OPERATION ("1", "length-cm=\"-4\"", PLY) TAIL,
    HEAD OPERATION ("1", "length=\"4\"", PLY) TAIL,
    HEAD OPERATION ("1", "length-cm=\"4\"", "") TAIL,
    HEAD OPERATION ("1", "length-cm=\"4\"", PLY "<set field=\"point\" value=\"3\"/>") TAIL,
    HEAD OPERATION ("1", "length-cm=\"4\"", PLY "<plie/>") TAIL,
    HEAD "<hand number=\"1\" name=\"Press\" kind=\"pres\" minutes=\"3\"/>" TAIL,
    "<project xmlns=\"urn:handwheel:project:1\" title=\"a\" due=\"soon\"/>",
    "<project xmlns=\"urn:handwheel:project:1\" title=\"a\" gather-hand=\"maybe\"/>",
    WISHES ("<wish kind=\"before\" steps=\"4\"/>"),
    WISHES ("<wish kind=\"together\" steps=\"4\"/>"),
    WISHES ("<wish kind=\"first\" steps=\"4 2\"/>"),
    WISHES ("<wish kind=\"soon\" steps=\"4\"/>"),
  };
  g_autofree char *schema_path = g_test_build_filename (G_TEST_DIST, "..", "data/schema/project.rng", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSchema) schema = hw_schema_load (schema_path, &error);

  g_assert_no_error (error);
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_autoptr (HwXml) xml = hw_xml_read_bytes ("w", wrong[i], strlen (wrong[i]), "project", HW_PROJECT_NS, &error);

      g_assert_no_error (error);
      g_assert_false (hw_schema_check (schema, xml, &error));
      g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_INVALID);
      g_clear_error (&error);
    }
}

static void
test_fields (void)
{
  for (int field = 0; field < HW_N_FIELDS; field++)
    g_assert_cmpint (hw_field_from_id (hw_field_ids[field]), ==, field);
  g_assert_cmpint (hw_field_from_id ("colour"), ==, -1);
  g_assert_true (hw_field_is_choice (HW_FIELD_ENDS));
  g_assert_false (hw_field_is_choice (HW_FIELD_DIAL));
}

/* A new project can be written and read at once. */
static void
test_new (void)
{
  g_autoptr (HwProject) project = hw_project_new ("new", "New");

  g_assert_cmpuint (project->threads->len, ==, 1);
  assert_round_trip (project);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (bad_cases); i++)
    g_test_add_data_func (bad_cases[i].path, &bad_cases[i], test_bad);
  g_test_add_func ("/project/bad-files", test_bad_files);
  g_test_add_func ("/project/missing-file", test_missing_file);
  g_test_add_func ("/project/by-hand", test_by_hand);
  g_test_add_func ("/project/round-trip", test_round_trip);
  g_test_add_func ("/project/demo-bytes", test_demo_bytes);
  g_test_add_func ("/project/full", test_full);
  g_test_add_func ("/project/is-equal", test_is_equal);
  g_test_add_func ("/project/long-chain", test_long_chain);
  g_test_add_func ("/project/limits", test_limits);
  g_test_add_func ("/project/write", test_write);
  g_test_add_func ("/project/schema", test_schema);
  g_test_add_func ("/project/schema-refuses", test_schema_refuses);
  g_test_add_func ("/project/fields", test_fields);
  g_test_add_func ("/project/new", test_new);
  return g_test_run ();
}
