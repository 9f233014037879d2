/* test-sheets.c - cards as files: real text, true size, metadata, outline, and writes that fail
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * PDF files are judged by poppler's tools, which know nothing of how they were made.
 */

#include "config.h"

#include "sample-plan.h"

#include <glib/gstdio.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "card/card.h"

#define MM_PER_PT (25.4 / 72)
#define TRUE_MM 0.1               /* how true the gauge has to be */
#define DATE "2026-03-04T05:06:07Z"

typedef struct { char *folder; Sample *sample; } Fixture;

static void
set_up (Fixture      *fixture,
        gconstpointer data)
{
  const SampleOptions options = { 4, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };

  fixture->folder = g_dir_make_tmp ("handwheel-card-XXXXXX", NULL);
  g_assert_nonnull (fixture->folder);
  fixture->sample = sample_new (&options);
}

static void
tear_down (Fixture      *fixture,
           gconstpointer data)
{
  g_autoptr (GDir) dir = g_dir_open (fixture->folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (fixture->folder, name, NULL);

      g_assert_cmpint (g_remove (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (fixture->folder), ==, 0);
  g_free (fixture->folder);
  sample_free (fixture->sample);
}

static char *
write_sheets (Fixture    *fixture,
              HwPaper     paper,
              int         per_sheet,
              const int  *groups,
              gsize       n_groups,
              const char *name)
{
  const HwSheetOptions options = { paper, per_sheet, groups, n_groups };
  g_autoptr (HwSheets) sheets = hw_sheets_new (sample_get_plan (fixture->sample), &options);
  g_autoptr (GError) error = NULL;
  char *path = g_build_filename (fixture->folder, name, NULL);

  g_assert_true (hw_sheets_write (sheets, path, 72, DATE, &error));
  g_assert_no_error (error);
  return path;
}

static char *
run_tool (const char * const *arguments)
{
  g_autofree char *tool = g_find_program_in_path (arguments[0]);
  g_autoptr (GError) error = NULL;
  char *output = NULL;
  int status = 0;

  if (tool == NULL)
    {
      g_test_skip ("poppler-utils is not installed");
      return NULL;
    }
  g_assert_true (g_spawn_sync (NULL, (char **) arguments, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_STDERR_TO_DEV_NULL, NULL,
                               NULL,
                               &output, NULL, &status, &error));
  g_assert_true (g_spawn_check_wait_status (status, &error));
  return output;
}

/* ---- text, metadata, fonts ---- */

static void
assert_in_order (const char         *text,
                 const char * const *parts)
{
  const char *at = text;

  for (gsize i = 0; parts[i] != NULL; i++)
    {
      const char *found = strstr (at, parts[i]);

      if (found == NULL)
        {
          g_test_message ("“%s” is missing, or stands too early, in:\n%s", parts[i], text);
          g_test_fail ();
          return;
        }
      at = found + strlen (parts[i]);
    }
}

static void
test_pdf_text (Fixture      *fixture,
               gconstpointer data)
{
  static const char * const parts[] = {
    "Market-day skirt", "Needle", "80/12", "round point (R)", "navy, tex 30", "straight stitch", "length 2.5 mm",
    "Needle thread tension", "start at 4", "likely 3 to 5", "All-purpose foot", "pressure normal", "Sew, in this order",
    "Side seams", "Tie seams", "Before the first stitch", "Hold both thread tails", "First a test seam",
    "Bobbin thread shows on top", "What comes next", "Switch off and unplug", "Stitch gauge, true size", "2.5 mm",
    "20 mm if printed at 100 %", NULL,
  };
  g_autofree char *path = write_sheets (fixture, HW_PAPER_A5, 1, NULL, 0, "cards.pdf");
  const char *arguments[] = { "pdftotext", "-raw", "-f", "1", "-l", "1", path, "-", NULL };
  g_autofree char *text = run_tool (arguments);

  if (text != NULL)
    assert_in_order (text, parts);
}

static void
test_pdf_info (Fixture      *fixture,
               gconstpointer data)
{
  g_autofree char *path = write_sheets (fixture, HW_PAPER_A5, 1, NULL, 0, "cards.pdf");
  const char *arguments[] = { "pdfinfo", "-isodates", path, NULL };
  g_autofree char *info = run_tool (arguments);

  if (info == NULL)
    return;
  g_assert_nonnull (strstr (info, "Title:           Market-day skirt\n"));
  g_assert_nonnull (strstr (info, "Creator:         Handwheel\n"));
  g_assert_nonnull (strstr (info, "2026-03-04T05:06:07"));
  g_assert_nonnull (strstr (info, "Pages:           6\n"));
  g_assert_null (strstr (info, "Author:"));
}

static void
test_pdf_fonts_are_embedded (Fixture      *fixture,
                             gconstpointer data)
{
  g_autofree char *path = write_sheets (fixture, HW_PAPER_A5, 1, NULL, 0, "cards.pdf");
  const char *arguments[] = { "pdffonts", path, NULL };
  g_autofree char *output = run_tool (arguments);
  g_auto (GStrv) lines = NULL;

  if (output == NULL)
    return;
  lines = g_strsplit (output, "\n", -1);
  g_assert_cmpuint (g_strv_length (lines), >, 3);
  g_assert_null (strstr (output, "Type 3"));             /* letters drawn as pictures are no text */
  for (gsize i = 2; lines[i] != NULL && *lines[i] != '\0'; i++)
    g_assert_nonnull (strstr (lines[i], " yes yes yes "));
}

static guint
count_bytes (const char *bytes,
             gsize       size,
             const char *wanted)
{
  gsize length = strlen (wanted);
  guint n = 0;

  for (gsize i = 0; i + length <= size; i++)
    n += memcmp (bytes + i, wanted, length) == 0 ? 1 : 0;
  return n;
}

/* The outline stands uncompressed in the file, for cairo writes objects of its own for it; a title with brackets is in
 * UTF-16, as hexadecimal numbers. */
static guint
count_titles (const char *bytes,
              gsize       size,
              const char *ascii)
{
  g_autoptr (GString) wanted = g_string_new ("/Title <FEFF");

  for (const char *at = ascii; *at != '\0'; at++)
    g_string_append_printf (wanted, "%04X", (guint) *at);
  g_string_append_c (wanted, '>');
  return count_bytes (bytes, size, wanted->str);
}

static void
test_pdf_outline (Fixture      *fixture,
                  gconstpointer data)
{
  g_autofree char *path = write_sheets (fixture, HW_PAPER_A4, 2, NULL, 0, "cards.pdf");
  g_autofree char *bytes = NULL;
  gsize size = 0;

  g_assert_true (g_file_get_contents (path, &bytes, &size, NULL));
  g_assert_cmpuint (count_bytes (bytes, size, "/Dest "), ==, N_SAMPLE_GROUPS);
  g_assert_cmpuint (count_titles (bytes, size, "A  80/12, round point (R)"), ==, 1);
  g_assert_cmpuint (count_titles (bytes, size, "D  4.0/75, twin needle, stretch point (H-S)"), ==, 1);
}

static void
test_same_bytes (Fixture      *fixture,
                 gconstpointer data)
{
  /* Not SVG: the ids in it count on through a process. */
  static const char * const endings[] = { ".pdf", ".png" };
  const int group = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (endings); i++)
    {
      g_autofree char *first_name = g_strconcat ("first", endings[i], NULL);
      g_autofree char *second_name = g_strconcat ("second", endings[i], NULL);
      g_autofree char *first = write_sheets (fixture, HW_PAPER_A6, 1, &group, 1, first_name);
      g_autofree char *second = write_sheets (fixture, HW_PAPER_A6, 1, &group, 1, second_name);
      g_autofree char *a = NULL;
      g_autofree char *b = NULL;
      gsize a_size = 0;
      gsize b_size = 0;

      g_assert_true (g_file_get_contents (first, &a, &a_size, NULL));
      g_assert_true (g_file_get_contents (second, &b, &b_size, NULL));
      g_assert_cmpuint (a_size, ==, b_size);
      g_assert_cmpint (memcmp (a, b, a_size), ==, 0);
    }
}

/* ---- true size ---- */

typedef struct { double pitch_mm; int n_ticks; double width_mm; } TickRow;

/* "M x y L x y M …": a row of parallel strokes, one way or the other. FALSE when it is something else. */
static gboolean
read_tick_row (const char *path,
               double      scale_x,
               double      scale_y,
               TickRow    *row)
{
  double last = 0;
  double first = 0;
  double pitch = 0;
  int n = 0;
  gboolean upright = TRUE;

  for (const char *at = strchr (path, 'M'); at != NULL; at = strchr (at + 1, 'M'), n++)
    {
      char *end = NULL;
      double x1 = g_ascii_strtod (at + 1, &end);
      double y1 = g_ascii_strtod (end, &end);
      double x2;
      double y2;
      double here;

      while (*end == ' ')
        end++;
      if (*end != 'L')
        return FALSE;
      x2 = g_ascii_strtod (end + 1, &end);
      y2 = g_ascii_strtod (end, &end);
      while (*end == ' ')
        end++;
      if (*end != 'M' && *end != '"')
        return FALSE;
      if (n == 0)
        upright = fabs (x1 - x2) < 1e-6;
      if (upright ? fabs (x1 - x2) > 1e-6 : fabs (y1 - y2) > 1e-6)
        return FALSE;
      here = upright ? x1 * scale_x : y1 * scale_y;
      if (n == 0)
        first = here;
      if (n == 1)
        pitch = fabs (here - last);
      if (n > 1 && fabs (fabs (here - last) - pitch) * MM_PER_PT > TRUE_MM / 2)
        return FALSE;
      last = here;
    }
  if (n < 4)
    return FALSE;
  *row = (TickRow) { pitch * MM_PER_PT, n, fabs (last - first) * MM_PER_PT };
  return TRUE;
}

static GArray *
read_tick_rows (const char *svg)
{
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (TickRow));

  for (const char *at = strstr (svg, " d=\"M"); at != NULL; at = strstr (at + 1, " d=\"M"))
    {
      const char *end = strchr (at + 4, '"');
      const char *close = strchr (at, '>');
      const char *matrix = end != NULL ? g_strstr_len (end, close - end, "matrix(") : NULL;
      g_autofree char *path = end != NULL ? g_strndup (at + 4, (gsize) (end + 1 - at - 4)) : NULL;
      double scale_x = matrix != NULL ? fabs (g_ascii_strtod (matrix + 7, NULL)) : 1;
      double scale_y = scale_x;
      TickRow row;

      if (matrix != NULL && scale_x < 1e-9)              /* turned a quarter: a and d are nought */
        scale_x = scale_y = 1;
      if (path != NULL && read_tick_row (path, scale_x, scale_y, &row))
        g_array_append_val (rows, row);
    }
  return rows;
}

static const TickRow *
find_row (const GArray *rows,
          double        pitch_mm,
          int           n_ticks)
{
  const TickRow *nearest = NULL;

  for (guint i = 0; i < rows->len; i++)
    {
      const TickRow *row = &g_array_index (rows, TickRow, i);

      if (row->n_ticks == n_ticks
          && (nearest == NULL || fabs (row->pitch_mm - pitch_mm) < fabs (nearest->pitch_mm - pitch_mm)))
        nearest = row;
    }
  return nearest;
}

static void
check_true_size (const GArray *rows,
                 double        length_mm,
                 int           n_stitches)
{
  const TickRow *gauge = find_row (rows, length_mm, n_stitches + 1);
  const TickRow *ruler = find_row (rows, 1, 21);

  g_assert_nonnull (gauge);
  g_assert_cmpfloat_with_epsilon (gauge->width_mm, length_mm * n_stitches, TRUE_MM);
  g_assert_nonnull (ruler);
  g_assert_cmpfloat_with_epsilon (ruler->width_mm, 20, TRUE_MM);
}

typedef struct
{
  const char *path;
  HwPaper     paper;
  int         per_sheet, group;
  double      length_mm;
  int         n_stitches;
} TrueCase;

static const TrueCase true_cases[] = {
  { "/sheets/true-size/a5", HW_PAPER_A5, 1, SAMPLE_LOCKSTITCH, 2.5, 10 },
  { "/sheets/true-size/a6", HW_PAPER_A6, 1, SAMPLE_LOCKSTITCH, 3, 8 },
  { "/sheets/true-size/a4-two", HW_PAPER_A4, 2, SAMPLE_TOPSTITCH, 3.5, 7 },
  { "/sheets/true-size/a4-four", HW_PAPER_A4, 4, SAMPLE_LOCKSTITCH, 2, 10 },
  { "/sheets/true-size/letter-two", HW_PAPER_LETTER, 2, SAMPLE_LOCKSTITCH, 2.5, 10 },
  { "/sheets/true-size/letter-four", HW_PAPER_LETTER, 4, SAMPLE_LOCKSTITCH, 2.5, 10 },
  { "/sheets/true-size/fine", HW_PAPER_A5, 1, SAMPLE_BUTTONHOLE, 0.4, 20 },
};

static void
test_true_size_in_pdf (Fixture      *fixture,
                       gconstpointer data)
{
  const TrueCase *test = data;
  g_autofree char *path = write_sheets (fixture, test->paper, test->per_sheet, &test->group, 1, "cards.pdf");
  const char *arguments[] = { "pdftocairo", "-svg", "-noshrink", path, "-", NULL };
  g_autofree char *svg = run_tool (arguments);
  g_autoptr (GArray) rows = svg != NULL ? read_tick_rows (svg) : NULL;

  if (rows != NULL)
    check_true_size (rows, test->length_mm, test->n_stitches);
}

static void
test_true_size_in_svg (Fixture      *fixture,
                       gconstpointer data)
{
  const int group = SAMPLE_LOCKSTITCH;
  g_autofree char *path = write_sheets (fixture, HW_PAPER_A5, 1, &group, 1, "card.svg");
  g_autofree char *svg = NULL;
  g_autoptr (GArray) rows = NULL;
  const char *width;

  g_assert_true (g_file_get_contents (path, &svg, NULL, NULL));
  rows = read_tick_rows (svg);
  check_true_size (rows, 2.5, 10);
  width = strstr (svg, "width=\"");
  g_assert_cmpfloat_with_epsilon (g_ascii_strtod (width + 7, NULL), 210 / MM_PER_PT, 0.01);
  g_assert_nonnull (g_strstr_len (width, 24, "pt\""));
}

/* ---- pages ---- */

static void
test_pages (Fixture      *fixture,
            gconstpointer data)
{
  static const struct { HwPaper paper; int per_sheet, n_pages; double width_mm, height_mm; } cases[] = {
    { HW_PAPER_A6, 1, 6, 148, 105 },                     /* ISO 216 */
    { HW_PAPER_A5, 1, 6, 210, 148 },
    { HW_PAPER_A5, 4, 6, 210, 148 },                     /* several only on large sheets */
    { HW_PAPER_A4, 1, 6, 210, 297 },
    { HW_PAPER_A4, 2, 3, 210, 297 },
    { HW_PAPER_A4, 4, 2, 297, 210 },
    { HW_PAPER_LETTER, 2, 3, 215.9, 279.4 },
    { HW_PAPER_LETTER, 4, 2, 279.4, 215.9 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const HwSheetOptions options = { cases[i].paper, cases[i].per_sheet, NULL, 0 };
      g_autoptr (HwSheets) sheets = hw_sheets_new (sample_get_plan (fixture->sample), &options);
      double width;
      double height;

      hw_sheets_get_size (sheets, &width, &height);
      g_assert_cmpint (hw_sheets_get_n_pages (sheets), ==, cases[i].n_pages);
      g_assert_cmpfloat_with_epsilon (width * MM_PER_PT, cases[i].width_mm, 1e-6);
      g_assert_cmpfloat_with_epsilon (height * MM_PER_PT, cases[i].height_mm, 1e-6);
    }
}

/* A preview asks for one page, and only the cards of that one are laid out: a page is turned at once, however many
 * there are. */
static void
test_laid_out_when_asked_for (Fixture      *fixture,
                              gconstpointer data)
{
  const HwSheetOptions options = { HW_PAPER_A4, 2, NULL, 0 };
  g_autoptr (HwSheets) sheets = hw_sheets_new (sample_get_plan (fixture->sample), &options);
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR, NULL);
  cairo_t *cr = cairo_create (surface);
  guint n = 0;

  hw_sheets_draw (sheets, 1, cr);
  g_assert_nonnull (hw_sheets_get_first_on (sheets, 1));
  g_assert_cmpint (hw_card_get_group (hw_sheets_get_first_on (sheets, 1)), ==, 2);
  while (hw_sheets_lay_out_next (sheets))
    n++;
  g_assert_cmpuint (n, ==, N_SAMPLE_GROUPS - 2);
  g_assert_cmpint (hw_sheets_get_n_pages (sheets), ==, 3);
  g_assert_null (hw_sheets_get_first_on (sheets, 3));
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

/* Where a list goes on on a second card there is a page more, in all that counts pages, and the second card is known by
 * its steps. */
static void
test_second_cards (Fixture      *fixture,
                   gconstpointer data)
{
  const SampleOptions many = { 26, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, TRUE };
  const int groups[] = { SAMPLE_OVERLOCK, SAMPLE_LOCKSTITCH };
  const HwSheetOptions options = { HW_PAPER_A5, 1, groups, 2 };
  g_autoptr (Sample) sample = sample_new (&many);
  g_autoptr (HwSheets) sheets = hw_sheets_new (sample_get_plan (sample), &options);
  g_autofree char *pdf = g_build_filename (fixture->folder, "cards.pdf", NULL);
  g_autofree char *png = g_build_filename (fixture->folder, "cards.png", NULL);
  g_autofree char *third = g_build_filename (fixture->folder, "cards-3.png", NULL);
  g_autofree char *fourth = g_build_filename (fixture->folder, "cards-4.png", NULL);
  g_autofree char *bytes = NULL;
  g_autoptr (GError) error = NULL;
  gsize size = 0;

  g_assert_cmpint (hw_sheets_find_page (sheets, sample_get_plan (sample), SAMPLE_LOCKSTITCH, 25), ==, 2);
  g_assert_cmpint (hw_sheets_find_page (sheets, sample_get_plan (sample), SAMPLE_LOCKSTITCH, 0), ==, 1);
  g_assert_cmpint (hw_sheets_find_page (sheets, sample_get_plan (sample), SAMPLE_TWIN, 0), ==, -1);
  g_assert_cmpint (hw_sheets_get_n_pages (sheets), ==, 3);
  g_assert_true (hw_sheets_write (sheets, pdf, 72, DATE, &error));
  g_assert_true (hw_sheets_write (sheets, png, 72, DATE, &error));
  g_assert_no_error (error);
  g_assert_true (g_file_test (third, G_FILE_TEST_EXISTS));
  g_assert_false (g_file_test (fourth, G_FILE_TEST_EXISTS));
  g_assert_true (g_file_get_contents (pdf, &bytes, &size, NULL));
  g_assert_cmpuint (count_bytes (bytes, size, "/Dest "), ==, 3);
  g_assert_cmpuint (count_titles (bytes, size, "A  80/12, round point (R), card 2 of 2"), ==, 1);
}

static void
test_chosen_groups (Fixture      *fixture,
                    gconstpointer data)
{
  const int groups[] = { SAMPLE_TWIN, SAMPLE_OVERLOCK };
  g_autofree char *path = write_sheets (fixture, HW_PAPER_A5, 1, groups, 2, "cards.pdf");
  const char *arguments[] = { "pdftotext", "-raw", path, "-", NULL };
  static const char * const parts[] = { "4.0/75", "three-thread", NULL };
  g_autofree char *text = run_tool (arguments);

  if (text == NULL)
    return;
  assert_in_order (text, parts);
  g_assert_null (strstr (text, "100/16\n"));
}

static void
assert_png_size (const char *path,
                 int         width,
                 int         height)
{
  cairo_surface_t *surface = cairo_image_surface_create_from_png (path);

  g_assert_cmpint (cairo_surface_status (surface), ==, CAIRO_STATUS_SUCCESS);
  g_assert_cmpint (cairo_image_surface_get_width (surface), ==, width);
  g_assert_cmpint (cairo_image_surface_get_height (surface), ==, height);
  /* The corners are paper. */
  g_assert_cmphex (*(const guint32 *) (const void *) cairo_image_surface_get_data (surface) & 0xffffff, ==, 0xffffff);
  cairo_surface_destroy (surface);
}

static void
test_png_pages (Fixture      *fixture,
                gconstpointer data)
{
  g_autofree char *path = write_sheets (fixture, HW_PAPER_A4, 4, NULL, 0, "cards.png");
  g_autofree char *first = g_build_filename (fixture->folder, "cards-1.png", NULL);
  g_autofree char *second = g_build_filename (fixture->folder, "cards-2.png", NULL);
  g_autofree char *third = g_build_filename (fixture->folder, "cards-3.png", NULL);

  assert_png_size (first, 842, 595);
  assert_png_size (second, 842, 595);
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  g_assert_false (g_file_test (third, G_FILE_TEST_EXISTS));
}

static void
test_single_page_keeps_its_name (Fixture      *fixture,
                                 gconstpointer data)
{
  const int group = SAMPLE_COVER;
  g_autofree char *png = write_sheets (fixture, HW_PAPER_A5, 1, &group, 1, "card.PNG");

  assert_png_size (png, 595, 420);
}

/* ---- what fails ---- */

static void
test_write_fails_whole (Fixture      *fixture,
                        gconstpointer data)
{
  static const char * const names[] = { "cards.pdf", "cards.png", "cards.svg" };
  const HwSheetOptions options = { HW_PAPER_A6, 1, NULL, 0 };
  g_autoptr (HwSheets) sheets = hw_sheets_new (sample_get_plan (fixture->sample), &options);
  g_autofree char *file = g_build_filename (fixture->folder, "no-folder", NULL);

  /* A file stands where the folder should be: not even the superuser can write below it. */
  g_assert_true (g_file_set_contents (file, "", 0, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (file, names[i], NULL);
      g_autoptr (GError) error = NULL;

      g_assert_false (hw_sheets_write (sheets, path, 72, NULL, &error));
      g_assert_error (error, HW_CARD_ERROR, HW_CARD_ERROR_WRITE);
      g_assert_nonnull (strstr (error->message, "no-folder"));
      g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
    }
}

static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

/* A folder cannot be replaced by a file: the temporary file has to go as well. */
static void
test_failed_replacement_leaves_nothing (Fixture      *fixture,
                                        gconstpointer data)
{
  const HwSheetOptions options = { HW_PAPER_A6, 1, NULL, 0 };
  g_autoptr (HwSheets) sheets = hw_sheets_new (sample_get_plan (fixture->sample), &options);
  g_autofree char *path = g_build_filename (fixture->folder, "cards.pdf", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_mkdir (path, 0700), ==, 0);
  g_assert_false (hw_sheets_write (sheets, path, 72, NULL, &error));
  g_assert_error (error, HW_CARD_ERROR, HW_CARD_ERROR_WRITE);
  g_assert_cmpuint (count_files (fixture->folder), ==, 1);
  g_assert_true (g_file_test (path, G_FILE_TEST_IS_DIR));
}

static void
test_unknown_ending (Fixture      *fixture,
                     gconstpointer data)
{
  const HwSheetOptions options = { HW_PAPER_A6, 1, NULL, 0 };
  g_autoptr (HwSheets) sheets = hw_sheets_new (sample_get_plan (fixture->sample), &options);
  g_autofree char *path = g_build_filename (fixture->folder, "cards.gif", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_false (hw_sheets_write (sheets, path, 72, NULL, &error));
  g_assert_error (error, HW_CARD_ERROR, HW_CARD_ERROR_WRITE);
  g_assert_cmpuint (count_files (fixture->folder), ==, 0);
}

static void
test_nothing_to_print (Fixture      *fixture,
                       gconstpointer data)
{
  const int none = 0;
  const HwSheetOptions options = { HW_PAPER_A5, 1, &none, 0 };
  g_autoptr (HwSheets) sheets = hw_sheets_new (sample_get_plan (fixture->sample), &options);
  g_autofree char *path = g_build_filename (fixture->folder, "cards.pdf", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (hw_sheets_get_n_pages (sheets), ==, 0);
  g_assert_false (hw_sheets_write (sheets, path, 72, NULL, &error));
  g_assert_error (error, HW_CARD_ERROR, HW_CARD_ERROR_NOTHING);
  g_assert_cmpuint (count_files (fixture->folder), ==, 0);
}

int
main (int    argc,
      char **argv)
{
  static const struct { const char *path; void (* test) (Fixture *, gconstpointer); } cases[] = {
    { "/sheets/pdf/text", test_pdf_text },
    { "/sheets/pdf/info", test_pdf_info },
    { "/sheets/pdf/fonts", test_pdf_fonts_are_embedded },
    { "/sheets/pdf/outline", test_pdf_outline },
    { "/sheets/same-bytes", test_same_bytes },
    { "/sheets/true-size/svg", test_true_size_in_svg },
    { "/sheets/pages", test_pages },
    { "/sheets/laid-out-when-asked-for", test_laid_out_when_asked_for },
    { "/sheets/second-cards", test_second_cards },
    { "/sheets/chosen-groups", test_chosen_groups },
    { "/sheets/png/pages", test_png_pages },
    { "/sheets/png/single-page", test_single_page_keeps_its_name },
    { "/sheets/fails/whole", test_write_fails_whole },
    { "/sheets/fails/replacement", test_failed_replacement_leaves_nothing },
    { "/sheets/fails/unknown-ending", test_unknown_ending },
    { "/sheets/fails/nothing", test_nothing_to_print },
  };

  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    g_test_add (cases[i].path, Fixture, NULL, set_up, cases[i].test, tear_down);
  for (gsize i = 0; i < G_N_ELEMENTS (true_cases); i++)
    g_test_add (true_cases[i].path, Fixture, &true_cases[i], set_up, test_true_size_in_pdf, tear_down);
  return g_test_run ();
}
