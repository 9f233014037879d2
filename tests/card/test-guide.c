/* test-guide.c - the user guide: every chapter with its picture, every formula with its source, all of it on paper
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <gio/gio.h>
#include <string.h>

#include "card/guide-sheets.h"
#include "temp-folder.h"

typedef struct
{
  HwHandbook *handbook;
  GPtrArray  *chapters;
  char       *folder;
} Shelf;

static void
shelf_open (Shelf         *self,
            gconstpointer  data)
{
  g_autofree char *handbook = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "handbook", NULL);
  g_autofree char *guide = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "guide", NULL);
  g_autoptr (GError) error = NULL;

  self->handbook = hw_handbook_load (handbook, &error);
  g_assert_no_error (error);
  self->chapters = hw_guide_load (guide, self->handbook, NULL, &error);
  g_assert_no_error (error);
  self->folder = temp_folder_new ();
}

static void
shelf_close (Shelf         *self,
             gconstpointer  data)
{
  g_ptr_array_unref (self->chapters);
  hw_handbook_unref (self->handbook);
  temp_folder_remove (self->folder);
}

static guint
count (const HwGuideChapter *chapter,
       HwGuideKind           kind)
{
  guint n = 0;

  for (guint i = 0; i < chapter->blocks->len; i++)
    n += ((HwGuideBlock *) chapter->blocks->pdata[i])->kind == kind ? 1 : 0;
  return n;
}

static void
test_chapters (Shelf         *self,
               gconstpointer  data)
{
  static const char * const needed[] = { "plan", "print", "card", "test-seam", "care", "faults", "numbers" };

  for (gsize i = 0; i < G_N_ELEMENTS (needed); i++)
    g_assert_nonnull (hw_guide_find (self->chapters, needed[i]));
  g_assert_null (hw_guide_find (self->chapters, "nothing"));
  for (guint i = 0; i < self->chapters->len; i++)
    {
      const HwGuideChapter *chapter = self->chapters->pdata[i];

      g_assert_cmpint (chapter->place, ==, (int) i + 1);
      g_assert_cmpuint (count (chapter, HW_GUIDE_PICTURE), >=, 1);
      for (guint j = 0; j < chapter->blocks->len; j++)
        {
          const HwGuideBlock *block = chapter->blocks->pdata[j];

          g_assert_cmpstr (block->text, !=, "");
          if (block->kind == HW_GUIDE_PICTURE)
            g_assert_true (g_file_test (block->file, G_FILE_TEST_IS_REGULAR));
        }
    }
}

static void
test_numbers (Shelf         *self,
              gconstpointer  data)
{
  const HwGuideChapter *chapter = hw_guide_find (self->chapters, "numbers");

  g_assert_cmpuint (count (chapter, HW_GUIDE_FORMULA), >=, 10);
  for (guint i = 0; i < chapter->blocks->len; i++)
    {
      const HwGuideBlock *block = chapter->blocks->pdata[i];

      if (block->kind == HW_GUIDE_FORMULA)
        g_assert_nonnull (block->sources[0]);
    }
}

static char *
read_pdf (const char *path)
{
  g_autoptr (GSubprocess) process = g_subprocess_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE, NULL, "pdftotext", path, "-",
                                                      NULL);
  char *text = NULL;

  g_assert_nonnull (process);
  g_assert_true (g_subprocess_communicate_utf8 (process, NULL, NULL, &text, NULL, NULL));
  return text;
}

static void
test_paper (Shelf         *self,
            gconstpointer  data)
{
  g_autofree char *path = g_build_filename (self->folder, "guide.pdf", NULL);
  g_autofree char *again = g_build_filename (self->folder, "again.pdf", NULL);
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  gsize n_first = 0;
  gsize n_second = 0;

  hw_guide_write (self->chapters, HW_PAPER_A4, path, "2031-05-09T14:03:00Z", &error);
  g_assert_no_error (error);
  hw_guide_write (self->chapters, HW_PAPER_A4, again, "2031-05-09T14:03:00Z", &error);
  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (path, &first, &n_first, NULL));
  g_assert_true (g_file_get_contents (again, &second, &n_second, NULL));
  g_assert_cmpuint (n_first, ==, n_second);
  g_assert_cmpint (memcmp (first, second, n_first), ==, 0);
  text = read_pdf (path);
  for (guint i = 0; i < self->chapters->len; i++)
    g_assert_nonnull (strstr (text, ((HwGuideChapter *) self->chapters->pdata[i])->title));
}

/* Damaged chapters are refused with their line. */
static void
test_refused (Shelf         *self,
              gconstpointer  data)
{
  static const struct { const char *text; const char *told; } cases[] = {
    { "<chapter xmlns=\"urn:handwheel:guide:1\" id=\"a\" title=\"A\" place=\"1\">\n"
      "<formula sources=\"nobody\">x</formula></chapter>", "bad.xml:2: “sources” names “nobody”" },
    { "<chapter xmlns=\"urn:handwheel:guide:1\" id=\"a\" title=\"A\" place=\"0\"><p>x</p></chapter>", "“place”" },
    { "<chapter xmlns=\"urn:handwheel:guide:1\" id=\"a\" title=\"A\" place=\"1\"><q>x</q></chapter>", "schema" },
  };
  g_autofree char *schema = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "guide", "guide.rng", NULL);

  temp_folder_copy (self->folder, "guide.rng", schema);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;

      temp_folder_write (self->folder, "bad.xml", cases[i].text, -1);
      g_assert_null (hw_guide_load (self->folder, self->handbook, NULL, &error));
      g_assert_nonnull (error);
      g_assert_nonnull (strstr (error->message, cases[i].told));
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/guide/chapters", Shelf, NULL, shelf_open, test_chapters, shelf_close);
  g_test_add ("/guide/numbers", Shelf, NULL, shelf_open, test_numbers, shelf_close);
  g_test_add ("/guide/paper", Shelf, NULL, shelf_open, test_paper, shelf_close);
  g_test_add ("/guide/refused", Shelf, NULL, shelf_open, test_refused, shelf_close);
  return g_test_run ();
}
