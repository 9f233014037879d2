/* test-command-line.c - published figures, asked of the real command line
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The same program that a person runs, in a room that was never furnished, so with the default machines.
 */

#include <gio/gio.h>
#include <string.h>

#define SHEET    "R external: Needles for stitching textiles, a needle-maker's sheet reproduced by Texpedia, 2013"
#define MANUALS  "R external: Siruba household manual, p. 17, and Janome 415 manual, p. 6 (US 11 to 14)"
#define LIGHT    "R external: light by three lists of fabric weights; Siruba manual, p. 17: 70 to 80 for light cloth"
#define MEDIUM   "R external: medium by four lists of fabric weights; Janome 415 manual, p. 6: US 11 to 14"
#define HEAVY    "R external: heavy by four lists of fabric weights; Janome 415 manual, p. 6: US 14 to 16"
#define TEACHING "P external: easysewingtechniques.blogspot.com, needles by fabric (one size passes)"
#define LENGTHS  "R external: American & Efird Technical Bulletin, Stitches per inch"
#define RATIOS   "P external: Estimation of thread consumption of a garment, quoting a Coats table"
#define SEAMS    "E external: BS 3870-2:1991 = ISO 4916:1991, as quoted in Essential garment construction"

/* What is printed must hold one of @parts, which are separated by "|". */
typedef struct
{
  const char *path;
  const char *source;
  const char *line;                /* after "handwheel", split at spaces */
  const char *beginning;           /* of the line of output that answers */
  const char *parts;
} CommandRow;

#define SIZE     "Needle size: "
#define POINT    "Needle point: "
#define LENGTH   "Stitch length: "

static const CommandRow rows[] = {
  /* sizes as packets print them, Nm and US */
  { "/published/C4/printed-sizes", "E external: apparelscience.com, Needle number system; UK Sewing Services (19)",
    "handbook round", "  Sizes ", "60/8 65/9 70/10 75/11 80/12 90/14 100/16 110/18 120/19" },
  { "/published/C17/printed-shirting", SHEET, "pair --fabric poplin", SIZE, "65/9|70/10|75/11" },
  { "/published/C17/printed-shirting-point", SHEET, "pair --fabric poplin", POINT, "round point (R)" },
  { "/published/C18/printed-suiting", SHEET, "pair --fabric worsted", SIZE, "80/12|90/14" },
  { "/published/C20/printed-denim-topstitching", SHEET, "pair --fabric denim --plies 3 --purpose topstitch", SIZE,
    "110/18|120/19" },
  { "/published/C22/printed-linen", MANUALS, "pair --fabric linen-medium", SIZE, "75/11|80/12|90/14" },
  { "/published/C22/printed-wool", MANUALS, "pair --fabric wool-flannel", SIZE, "75/11|80/12|90/14" },
  { "/published/C22/printed-double-knit", MANUALS, "pair --fabric ponte", SIZE, "75/11|80/12|90/14" },
  { "/published/C23/printed-coating", TEACHING, "pair --fabric coating", SIZE, "90/14|100/16|110/18" },
  { "/published/C25/printed-velvet", TEACHING, "pair --fabric cotton-velvet", SIZE, "75/11|80/12|90/14" },
  { "/published/C25/printed-brocade", TEACHING, "pair --fabric brocade", SIZE, "80/12|90/14|100/16" },
  { "/published/C25/printed-two-way-stretch", TEACHING, "pair --fabric swim-tricot", SIZE, "70/10|75/11|80/12" },
  { "/published/C25/printed-two-way-stretch-point", TEACHING, "pair --fabric swim-tricot", POINT, "stretch point" },
  { "/published/C27/printed-jersey", SHEET, "pair --fabric single-jersey", POINT, "ball point (SUK)|ball point (SES)" },

  /* a cloth that was only weighed */
  { "/published/B9/weighed-70",
   "R external: light by three lists of fabric weights; Janome 415 manual, p. 6: US 9 to 11",
    "pair --construction plain --mass 70", SIZE, "65/9|70/10|75/11" },
  { "/published/B12/weighed-130", LIGHT, "pair --construction plain --mass 130", SIZE, "70/10|75/11|80/12" },
  { "/published/B11/weighed-200", MEDIUM, "pair --construction twill --mass 200", SIZE, "75/11|80/12|90/14" },
  { "/published/B10/weighed-400", HEAVY, "pair --construction twill --mass 400", SIZE, "90/14|100/16" },

  /* stitches: 25.4 mm over the densities of the bulletin */
  { "/published/E11/printed-jeans", LENGTHS " (7 to 8)", "pair --fabric denim --plies 3 --purpose topstitch", LENGTH,
    "3.2 mm|3.3 mm|3.4 mm|3.5 mm|3.6 mm" },
  { "/published/E11/printed-casual-shirt", LENGTHS " (10 to 14)", "pair --fabric poplin", LENGTH,
    "1.9 mm|2 mm|2.1 mm|2.2 mm|2.3 mm|2.4 mm|2.5 mm" },
  { "/published/E11/printed-dress-trousers", LENGTHS " (10 to 12)", "pair --fabric worsted", LENGTH,
    "2.2 mm|2.3 mm|2.4 mm|2.5 mm" },
  { "/published/E15/printed-medium", "R external: teaching tables of stitch lengths, three that agree (2.5)",
    "pair --fabric cotton-twill", LENGTH, "2.5 mm" },

  /* overlocker */
  { "/published/H9/printed-start", "P external: Janome Air Thread 2000D manual, p. 37 (all dials at 3)",
    "pair --fabric cotton-twill --plies 1 --purpose neaten --stitch 504", "Needle thread tension: ", "at 3," },
  { "/published/H13/printed-knit-differential", "R external: baby lock UK 2025; Bernina, Mastering your sergers, p. 40",
    "pair --fabric single-jersey --stitch 504", "Differential feed: ", "1.3|1.4|1.5" },

  /* the handbook as printed */
  { "/published/F21/printed-503", RATIOS, "handbook 503", "  Thread per metre ", " 12.0 m| 12 m" },
  { "/published/F21/printed-512", RATIOS, "handbook 512", "  Thread per metre ", " 18.0 m| 18 m" },
  { "/published/F21/printed-516", RATIOS, "handbook 516", "  Thread per metre ", " 20.0 m| 20 m" },
  { "/published/F21/printed-406", RATIOS, "handbook 406", "  Thread per metre ", " 18.0 m| 18 m" },
  { "/published/F21/printed-602", RATIOS, "handbook 602", "  Thread per metre ", " 25.0 m| 25 m" },
  { "/published/F21/printed-605", RATIOS, "handbook 605", "  Thread per metre ", " 28.0 m| 28 m" },
  { "/published/K2/printed-605", "E external: NIMI, Sewing Technology Trade Practical, volume 2", "handbook 605",
    "  Threads ", " 5" },
  { "/published/K3/printed-felled", SEAMS, "handbook seam/felled", "  ISO 4916 ", "class 2" },
  { "/published/K3/printed-hem", SEAMS, "handbook seam/hem-double", "  ISO 4916 ", "class 6" },
  { "/published/A5/printed-cotton-50-3", "E: Coats Bulletin 05, Thread Numbering (590.5 / 50 x 3)",
    "handbook thread/cotton-30", "  Tex ", " 35.4" },
};

/* Standard output of "handwheel @line"; it must end well. */
static char *
run (const char *line)
{
  g_autoptr (GSubprocessLauncher) launcher = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE);
  g_autoptr (GSubprocess) process = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *command = g_strconcat (g_getenv ("HANDWHEEL"), " ", line, NULL);
  g_auto (GStrv) words = NULL;
  char *out = NULL;

  g_assert_nonnull (g_getenv ("HANDWHEEL"));
  g_assert_true (g_shell_parse_argv (command, NULL, &words, &error));
  g_subprocess_launcher_setenv (launcher, "HANDWHEEL_ROOM", "/nonexistent/handwheel-room", TRUE);
  g_subprocess_launcher_unsetenv (launcher, "DISPLAY");
  process = g_subprocess_launcher_spawnv (launcher, (const char * const *) words, &error);
  g_assert_no_error (error);
  g_subprocess_communicate_utf8 (process, NULL, NULL, &out, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (g_subprocess_get_if_exited (process));
  g_assert_cmpint (g_subprocess_get_exit_status (process), ==, 0);
  return out;
}

/* The only line of @text with that beginning, without it and without the band after it in brackets. */
static char *
find_answer (const char *text, const char *beginning)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  char *answer = NULL;

  for (gsize i = 0; lines[i] != NULL; i++)
    if (g_str_has_prefix (lines[i], beginning))
      {
        const char *value = lines[i] + strlen (beginning) - 1;
        const char *band = g_strrstr (value, " (");

        g_assert_null (answer);
        answer = g_strndup (value, band != NULL ? (gsize) (band - value) : strlen (value));
      }
  g_assert_nonnull (answer);
  return answer;
}

static void
test_row (gconstpointer data)
{
  const CommandRow *row = data;
  g_autofree char *text = run (row->line);
  g_autofree char *answer = find_answer (text, row->beginning);
  g_auto (GStrv) parts = g_strsplit (row->parts, "|", -1);
  gboolean found = FALSE;

  g_test_message ("%s", row->source);
  for (gsize i = 0; parts[i] != NULL; i++)
    {
      const char *place = strstr (answer, parts[i]);

      /* "2 mm" is not to be found in "12 mm", nor "0/8" in "100/8" */
      found = found || (place != NULL && (place == answer || !g_ascii_isdigit (place[-1])));
    }
  if (!found)
    {
      g_test_message ("“%s” holds none of %s", answer, row->parts);
      g_test_fail ();
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_test_add_data_func (rows[i].path, &rows[i], test_row);
  return g_test_run ();
}
