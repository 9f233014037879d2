/* test-garments.c - garments of the handbook: what is read, what their arithmetic comes to, what is refused
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What arithmetic comes to was worked out by hand; how it is written is XPath 1.0, section 3.5 (W3C, 1999): "div" and
 * "mod", floor(), ceiling() and round(), true counting as 1.
 */

#include "config.h"

#include "book-folder.h"
#include "temp-folder.h"

#include <math.h>
#include <string.h>

#define FILE_NAME "d-garment.xml"
#define LENGTH_OF_1 "length=\"$panels * $side\""

static HwHandbook *
load_text (const char *text)
{
  char *folder = book_folder_new ();
  HwHandbook *book;

  temp_folder_write (folder, FILE_NAME, text, -1);
  book = book_folder_load (folder);
  temp_folder_remove (folder);
  return book;
}

static HwHandbook *
load_good (void)
{
  g_autofree char *text = book_folder_good (FILE_NAME);

  return load_text (text);
}

/* ---- what is read ---- */

static void
test_sizes (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const HwSizes *people = &book->sizes[0];

  g_assert_cmpuint (book->n_sizes, ==, 1);
  g_assert_cmpint (hw_handbook_find_sizes (book, "people"), ==, 0);
  g_assert_cmpstr (people->entry.note, ==, "Made up.");
  g_assert_cmpuint (people->n_sizes, ==, 2);
  g_assert_cmpstr (people->names[1], ==, "M");
  g_assert_cmpuint (people->n_bodies, ==, 2);
  g_assert_cmpstr (people->bodies[1].id, ==, "hip");
  g_assert_cmpfloat (people->bodies[1].values[0], ==, 900);
}

static void
test_parts (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const HwGarment *skirt = &book->garments[0];
  const HwMeasurement *panels = &skirt->measurements[2];

  g_assert_cmpuint (book->n_garments, ==, 1);
  g_assert_cmpint (hw_handbook_find_garment (book, "skirt"), ==, 0);
  g_assert_true (skirt->sizes == &book->sizes[0]);
  g_assert_cmpint (skirt->size, ==, 1);
  g_assert_cmpint (hw_garment_find_size (skirt, "S"), ==, 0);
  g_assert_cmpint (hw_garment_find_size (skirt, "L"), ==, -1);
  g_assert_cmpuint (skirt->n_measurements, ==, 3);
  g_assert_cmpint (hw_garment_find_measurement (skirt, "panels"), ==, 2);
  g_assert_cmpint (hw_garment_find_measurement (skirt, "side"), ==, -1);
  g_assert_cmpint (skirt->measurements[0].body, ==, 0);
  g_assert_false (skirt->measurements[0].counts);
  g_assert_cmpint (panels->body, ==, -1);
  g_assert_true (panels->counts);
  g_assert_cmpfloat (panels->usual, ==, 4);
  g_assert_cmpfloat (panels->low, ==, 2);
  g_assert_cmpfloat (panels->high, ==, 8);
  g_assert_cmpuint (skirt->n_roles, ==, 2);
  g_assert_cmpint (hw_garment_find_role (skirt, "lining"), ==, 1);
  g_assert_cmpint (skirt->roles[1].fabric, ==, hw_handbook_find_fabric (book, "jersey-light"));
  g_assert_cmpuint (skirt->n_threads, ==, 2);
  g_assert_cmpint (skirt->threads[0].thread, ==, hw_handbook_find_thread (book, "cotton-30"));
}

static void
test_steps (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const HwGarmentStep *steps = book->garments[0].steps;

  g_assert_cmpuint (book->garments[0].n_steps, ==, 3);
  g_assert_false (steps[0].by_hand);
  g_assert_cmpstr (steps[0].note, ==, "Long seams.");
  g_assert_cmpint (steps[0].purpose, ==, hw_handbook_find_purpose (book, "seam"));
  g_assert_cmpint (steps[0].seam, ==, -1);
  g_assert_cmpint (steps[0].needle_thread, ==, -1);
  g_assert_cmpuint (steps[0].n_plies, ==, 1);
  g_assert_cmpint (steps[0].plies[0].count, ==, 2);
  g_assert_cmpuint (steps[0].n_crossing, ==, 2);
  g_assert_cmpint (steps[0].crossing[1].role, ==, 1);
  g_assert_cmpint (steps[0].crossing[1].count, ==, 1);
  g_assert_true (steps[1].by_hand);
  g_assert_cmpstr (steps[1].kind, ==, "press");
  g_assert_cmpstr (steps[1].after[0], ==, "1");
  g_assert_cmpuint (g_strv_length (steps[2].after), ==, 2);
  g_assert_cmpint (steps[2].seam, ==, hw_handbook_find_seam (book, "plain"));
  g_assert_cmpint (steps[2].stitch, ==, hw_handbook_find_stitch (book, "504"));
  g_assert_cmpint (steps[2].needle_thread, ==, 1);
  g_assert_cmpint (steps[2].bobbin_thread, ==, 0);
}

/* ---- what it comes to ---- */

static void
test_reckon (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  g_autoptr (GError) error = NULL;
  const double values[] = { 650, 500, 5 };
  g_autofree HwGarmentFigure *figures = hw_garment_reckon (&book->garments[0], values, &error);

  g_assert_no_error (error);
  g_assert_cmpfloat (figures[0].length_mm, ==, 5 * 540);
  g_assert_cmpint (figures[0].pieces, ==, 5);
  g_assert_cmpfloat (figures[0].minutes, ==, 0);
  g_assert_cmpfloat (figures[1].minutes, ==, 7.5);
  g_assert_cmpfloat (figures[1].length_mm, ==, 0);
  g_assert_cmpint (figures[1].pieces, ==, 0);
  g_assert_cmpfloat (figures[2].length_mm, ==, 650);
  g_assert_cmpint (figures[2].pieces, ==, 1);
}

static void
test_values (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  g_autofree double *usual = hw_garment_dup_values (&book->garments[0], -1);
  g_autofree double *small = hw_garment_dup_values (&book->garments[0], 0);

  g_assert_cmpfloat (usual[0], ==, 700);
  g_assert_cmpfloat (small[0], ==, 600);
  g_assert_cmpfloat (small[1], ==, 600);       /* the table says nothing of it */
  g_assert_cmpfloat (small[2], ==, 4);
}

typedef struct { const char *text; double value; } Sum;

/* With waist 700, drop 600, panels 4, side 640. */
static const Sum sums[] = {
  { "2 * $side + 30", 1310 },
  { "($waist + 20) div 3", 240 },
  { "$waist mod 64", 60 },
  { "2 * $waist - $drop", 800 },
  { "floor($waist div 300) + ceiling($waist div 300) + round($waist div 300)", 7 },
  { "12.5", 12.5 },
  { ".5 * $drop", 300 },
  { "  $waist  ", 700 },
  { "$waist * ($panels &gt; 3) + 1", 701 },
  { "$waist * ($panels &lt; 3) + 1", 1 },
  { "-1 * -7", 7 },
  { "$drop*$panels", 2400 },
};

static void
test_arithmetic (void)
{
  g_autofree char *text = book_folder_good (FILE_NAME);

  for (gsize i = 0; i < G_N_ELEMENTS (sums); i++)
    {
      int line = 0;
      g_autofree char *length = g_strdup_printf ("length=\"%s\"", sums[i].text);
      g_autofree char *changed = book_change (text, LENGTH_OF_1, length, &line);
      g_autoptr (HwHandbook) book = NULL;
      g_autofree double *values = NULL;
      g_autofree HwGarmentFigure *figures = NULL;

      g_test_message ("%s", sums[i].text);
      book = load_text (changed);
      values = hw_garment_dup_values (&book->garments[0], -1);
      figures = hw_garment_reckon (&book->garments[0], values, NULL);
      g_assert_cmpfloat_with_epsilon (figures[0].length_mm, sums[i].value, 1e-9);
    }
}

typedef struct { double waist, drop, panels; const char *said; } Bad;

static const Bad bad_values[] = {
  { 499, 600, 4, "“Waist” must be from 50 to 120 cm; it is 49.9" },
  { 700, 1001, 4, "“Length” must be from 30 to 100 cm; it is 100.1" },
  { 700, 600, 4.5, "“Panels” must be a whole number from 2 to 8; it is 4.5" },
  { 700, 600, 9, "“Panels” must be a whole number from 2 to 8; it is 9" },
  { NAN, 600, 4, "“Waist” must be from 50 to 120 cm" },
};

static void
test_bad_values (void)
{
  g_autoptr (HwHandbook) book = load_good ();

  for (gsize i = 0; i < G_N_ELEMENTS (bad_values); i++)
    {
      const double values[] = { bad_values[i].waist, bad_values[i].drop, bad_values[i].panels };
      g_autoptr (GError) error = NULL;

      g_assert_null (hw_garment_reckon (&book->garments[0], values, &error));
      g_assert_error (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_INVALID);
      g_assert_nonnull (strstr (error->message, bad_values[i].said));
      g_assert_true (g_str_has_prefix (error->message, FILE_NAME ":9: "));
    }
}

/* Measurements that are each in bounds may still not go together: the step's line is named. */
static void
test_clash (void)
{
  g_autofree char *text = book_folder_good (FILE_NAME);
  int line = 0;
  g_autofree char *changed = book_change (text, LENGTH_OF_1, "length=\"$waist - $drop + 101\"", &line);
  g_autoptr (HwHandbook) book = load_text (changed);
  const double values[] = { 500, 1000, 4 };
  g_autofree char *place = g_strdup_printf (FILE_NAME ":%d: step 1, “length”: ", line);
  g_autoptr (GError) error = NULL;

  g_assert_null (hw_garment_reckon (&book->garments[0], values, &error));
  g_assert_error (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_INVALID);
  g_assert_true (g_str_has_prefix (error->message, place));
  g_assert_nonnull (strstr (error->message, "comes to -399; it must be over 0"));
}

/* ---- what is refused ---- */

typedef struct
{
  const char     *path;
  const char     *from, *to;
  int             shift;                 /* lines from the change to the one that is blamed */
  HwHandbookError code;
  const char     *said;
} Refused;

#define INVALID HW_HANDBOOK_ERROR_INVALID
#define UNKNOWN HW_HANDBOOK_ERROR_UNKNOWN
#define LENGTH(path, text, code, said) \
  { "/garments/refused/length-" path, LENGTH_OF_1, "length=\"" text "\"", 0, code, said }

static const Refused refused[] = {
  /* arithmetic */
  LENGTH ("unknown-name", "2 * $sdie", UNKNOWN,
          "garment “skirt”: step 1, “length”: “2 * $sdie”: there is no “$sdie” (did you mean “$side”?)"),
  LENGTH ("far-name", "$armhole + 1", UNKNOWN, "there is no “$armhole”; there is $drop, $panels, $side, $waist"),
  LENGTH ("no-dollar", "2 * side", INVALID, "write “$” before every name"),
  LENGTH ("path", "waist", INVALID, "write “$” before every name"),
  LENGTH ("divided-by-zero", "$waist div ($drop - $drop)", INVALID, "divides by zero"),
  LENGTH ("zero-by-zero", "0 div 0", INVALID, "divide nothing by zero"),
  LENGTH ("zero", "$waist - $waist", INVALID, "comes to 0; it must be over 0"),
  LENGTH ("negative", "$drop - 2000", INVALID, "comes to -1400; it must be over 0 (in the usual measurements)"),
  LENGTH ("negative-in-size", "$waist - 650", INVALID, "comes to -50; it must be over 0 (in size S)"),
  LENGTH ("negative-when-small", "$waist + $drop - 900", INVALID,
          "comes to -100; it must be over 0 (in the lowest measurements)"),
  LENGTH ("negative-when-large", "2500 - $waist - $drop - $panels * 100", INVALID, "(in the highest measurements)"),
  LENGTH ("truth", "$waist &gt; 3", INVALID, "comes to no number"),
  LENGTH ("function", "sum($waist)", UNKNOWN, "there is no function “sum”; there are floor(), ceiling() and round()"),
  LENGTH ("own-function", "twice($waist)", UNKNOWN, "there is no function “twice”"),
  LENGTH ("string", "'700'", INVALID, "“'” has no place in it"),
  LENGTH ("node", "//ply", INVALID, "“/” has no place in it"),
  LENGTH ("prefix", "x:f(1)", INVALID, "“:” has no place in it"),
  LENGTH ("union", "$waist | $drop", INVALID, "“|” has no place in it"),
  LENGTH ("accent", "2 × $waist", INVALID, "“×” has no place in it"),
  LENGTH ("sign", "$waist + ", INVALID, "is not arithmetic that can be read"),
  LENGTH ("bracket", "2 * ($waist", INVALID, "is not arithmetic that can be read"),
  LENGTH ("two", "1 1", INVALID, "is not arithmetic that can be read"),
  LENGTH ("comma", "0,5 * $waist", INVALID, "is not arithmetic that can be read"),
  LENGTH ("arguments", "round()", INVALID, "is not arithmetic that can be read"),
  LENGTH ("two-arguments", "floor(1, 2)", INVALID, "is not arithmetic that can be read"),
  LENGTH ("empty", "", INVALID, "“length” is empty"),
  LENGTH ("too-long", "2000000", INVALID, "step 1, “length” comes to 2e+06; it must be from 1 to 1e+06"),
  LENGTH ("too-short", "0.5", INVALID, "comes to 0.5; it must be from 1"),
  { "/garments/refused/pieces", "pieces=\"$panels\"", "pieces=\"$panels div 20\"", 0, INVALID,
    "step 1, “pieces” comes to 0; it must be from 1 to 10000" },
  { "/garments/refused/minutes", "minutes=\"1.5 * $panels\"", "minutes=\"1.5 * $pannels\"", 0, UNKNOWN,
    "step 2, “minutes”: “1.5 * $pannels”: there is no “$pannels” (did you mean “$panels”?)" },
  { "/garments/refused/let", "value=\"$drop + 40\"", "value=\"$side + 40\"", 0, UNKNOWN,
    "“side”: “$side + 40”: there is no “$side”" },

  /* measurements and sizes */
  { "/garments/refused/order", "default=\"600\" low=\"300\"", "default=\"200\" low=\"300\"", 0, INVALID,
    "low, default, high: the preferred value must lie between" },
  { "/garments/refused/variable", "<measurement id=\"drop\"", "<measurement id=\"Drop\"", 0, INVALID,
    "“id” stands in arithmetic and must be lower-case letters" },
  { "/garments/refused/variable-twice", "<measurement id=\"drop\"", "<measurement id=\"waist\"", 0, INVALID,
    "there is already a “waist” before it" },
  { "/garments/refused/let-twice", "<let id=\"side\"", "<let id=\"waist\"", 0, INVALID,
    "there is already a “waist” before it" },
  { "/garments/refused/body", "body=\"waist\"", "body=\"wrist\"", 0, UNKNOWN,
    "“body” names “wrist”, and the sizes “people” do not measure it" },
  { "/garments/refused/sizes", "sizes=\"people\" size=\"M\"", "sizes=\"peple\"", 0, UNKNOWN,
    "(did you mean “people”?)" },
  { "/garments/refused/no-sizes", "sizes=\"people\" size=\"M\" ", "", 1, UNKNOWN,
    "“body” names “waist”, and the garment has no “sizes”" },
  { "/garments/refused/size", "size=\"M\"", "size=\"XL\"", 0, UNKNOWN, "“size” is “XL”, and “sizes” names no table" },
  { "/garments/refused/out-of-bounds", "values=\"600 800\"", "values=\"400 800\"", 3, INVALID,
    "“Waist” must be from 50 to 120 cm; it is 40 (in size S)" },
  { "/garments/refused/values", "values=\"600 800\"", "values=\"600\"", 0, INVALID,
    "“values” must be 2 numbers over 0, one for each size" },
  { "/garments/refused/value", "values=\"600 800\"", "values=\"600 0\"", 0, INVALID, "“values” must be 2 numbers" },
  { "/garments/refused/size-names", "names=\"S M\"", "names=\"S S\"", 0, INVALID, "there is already a “S”" },

  /* roles and threads */
  { "/garments/refused/fabric", "fabric=\"denim\"", "fabric=\"denin\"", 0, UNKNOWN,
    "“fabric” names “denin”, and no <fabric> has that id (did you mean “denim”?)" },
  { "/garments/refused/role-twice", "<role id=\"lining\"", "<role id=\"main\"", 0, INVALID, "already a “main”" },
  { "/garments/refused/thread", "thread=\"cotton-30\"", "thread=\"cotton-31\"", 0, UNKNOWN, "no <thread> has that id" },
  { "/garments/refused/thread-role", "needle-thread=\"rows\"", "needle-thread=\"rose\"", -1, UNKNOWN,
    "“needle-thread” names “rose”, and the garment has no such <thread>" },
  { "/garments/refused/ply-role", "<ply role=\"main\" count=\"2\"/>", "<ply role=\"mian\"/>", 0, UNKNOWN,
    "“role” names “mian”, and the garment has no such <role>" },
  { "/garments/refused/ply-count", "<ply role=\"main\" count=\"2\"/>", "<ply role=\"main\" count=\"0\"/>", 0, INVALID,
    "“count” must be a whole number from 1 to 64" },

  /* steps */
  { "/garments/refused/after", "after=\"1 2\"", "after=\"1 4\"", 0, UNKNOWN,
    "“after” names step “4”, and no step before this one has that number" },
  { "/garments/refused/after-itself", "after=\"1 2\"", "after=\"3\"", 0, UNKNOWN, "“after” names step “3”" },
  { "/garments/refused/number-twice", "number=\"3\"", "number=\"1\"", 0, INVALID, "there is already a “1”" },
  { "/garments/refused/kind", "kind=\"press\"", "kind=\"iron\"", 0, INVALID, "“kind” must be one of press, trim" },
  { "/garments/refused/purpose", "purpose=\"baste\"", "purpose=\"bast\"", 0, UNKNOWN, "(did you mean “baste”?)" },
  { "/garments/refused/no-length", LENGTH_OF_1 " ", "", 0, INVALID, "“length” is missing" },
  { "/garments/refused/attribute", "minutes=\"1.5 * $panels\"", "minute=\"5\"", 0, INVALID,
    "<hand> has no attribute “minute” (did you mean “minutes”?)" },
  { "/garments/refused/child", "<let id=\"side\" value=\"$drop + 40\"/>", "<lett id=\"side\" value=\"1\"/>", 0, INVALID,
    "<garment> may hold no <lett> (did you mean <let>?)" },
  { "/garments/refused/schema-number", "number=\"3\"", "number=\"3 b\"", 0, INVALID, "does not follow the schema" },
};

static void
test_refused (gconstpointer data)
{
  const Refused *one = data;
  g_autofree char *text = book_folder_good (FILE_NAME);
  int line = 0;
  g_autofree char *changed = book_change (text, one->from, one->to, &line);

  book_assert_refused (FILE_NAME, changed, line + one->shift, one->code, one->said);
}

/* libxml2 tells some of what goes wrong on stderr; a person who mistyped has one message, ours. */
static void
test_quiet (void)
{
  if (g_test_subprocess ())
    {
      for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
        test_refused (&refused[i]);
      return;
    }
  g_test_trap_subprocess (NULL, 0, 0);
  g_test_trap_assert_passed ();
  g_test_trap_assert_stderr ("");
}

/* A formula that would work for ever is stopped, and the next one is not punished for it. */
static void
test_bounded (void)
{
  g_autofree char *text = book_folder_good (FILE_NAME);
  g_autoptr (GString) deep = g_string_new ("length=\"");
  g_autofree char *changed = NULL;
  int line = 0;

  for (int i = 0; i < 500; i++)
    g_string_append (deep, "(1 + ");
  g_string_append (deep, "1");
  for (int i = 0; i < 500; i++)
    g_string_append (deep, ")");
  g_string_append (deep, "\"");
  changed = book_change (text, LENGTH_OF_1, deep->str, &line);
  book_assert_refused (FILE_NAME, changed, line, HW_HANDBOOK_ERROR_INVALID, "at most 400 characters are read");
}

/* The count of work is of one evaluation: however many are made, the last is as good as the first. */
static void
test_many (void)
{
  g_autofree char *good = book_folder_good (FILE_NAME);
  g_autoptr (GString) steps = g_string_new ("");
  g_autoptr (HwHandbook) book = NULL;
  g_autofree char *changed = NULL;
  g_autofree double *values = NULL;
  g_autofree HwGarmentFigure *figures = NULL;
  int line = 0;

  for (int i = 0; i < 2000; i++)
    g_string_append_printf (steps, "<hand number=\"h%d\" name=\"Press\" kind=\"press\" minutes=\"1 + 2 * (3 + 4) * "
                            "$panels div $panels + $waist - $waist\"/>\n", i);
  g_string_append (steps, "</garment>");
  changed = book_change (good, "</garment>", steps->str, &line);
  book = load_text (changed);
  values = hw_garment_dup_values (&book->garments[0], -1);
  figures = hw_garment_reckon (&book->garments[0], values, NULL);
  g_assert_nonnull (figures);
  g_assert_cmpfloat (figures[2002].minutes, ==, 15);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/garments/sizes", test_sizes);
  g_test_add_func ("/garments/parts", test_parts);
  g_test_add_func ("/garments/steps", test_steps);
  g_test_add_func ("/garments/reckon", test_reckon);
  g_test_add_func ("/garments/values", test_values);
  g_test_add_func ("/garments/arithmetic", test_arithmetic);
  g_test_add_func ("/garments/bad-values", test_bad_values);
  g_test_add_func ("/garments/clash", test_clash);
  g_test_add_func ("/garments/quiet", test_quiet);
  g_test_add_func ("/garments/bounded", test_bounded);
  g_test_add_func ("/garments/many", test_many);
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    g_test_add_data_func (refused[i].path, &refused[i], test_refused);
  return g_test_run ();
}
