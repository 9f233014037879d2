/* test-faults.c - stitch faults and words: what is read, what is refused, what the shipped ones hold
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "book-folder.h"
#include "temp-folder.h"

#include <string.h>

#define FILE_NAME "e-fault.xml"

static HwHandbook *
load_good (void)
{
  g_autofree char *text = book_folder_good (FILE_NAME);
  char *folder = book_folder_new ();
  HwHandbook *book;

  temp_folder_write (folder, FILE_NAME, text, -1);
  book = book_folder_load (folder);
  temp_folder_remove (folder);
  return book;
}

static HwHandbook *
load_shipped (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "handbook", NULL);

  return book_folder_load (folder);
}

static void
test_fault (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const HwFault *skipped = &book->faults[0];
  const HwCause *needle = &skipped->causes[0];
  const HwCause *timing = &skipped->causes[1];

  g_assert_cmpuint (book->n_faults, ==, 1);
  g_assert_cmpint (hw_handbook_find_fault (book, "skipped"), ==, 0);
  g_assert_cmpuint (skipped->machines, ==, 1u << HW_MACHINE_LOCKSTITCH | 1u << HW_MACHINE_OVERLOCK);
  g_assert_cmpstr (skipped->sign, ==, "A stitch is long.");
  g_assert_cmpstr (skipped->entry.note, ==, "One thing at a time.");
  g_assert_cmpstr (skipped->cautions[0], ==, "Unplug.");
  g_assert_null (skipped->cautions[1]);
  g_assert_cmpuint (skipped->n_causes, ==, 2);
  g_assert_cmpstr (needle->id, ==, "needle");
  g_assert_cmpfloat (needle->weight, ==, 62.5);
  g_assert_cmpfloat (needle->minutes, ==, 1);
  g_assert_cmpint (needle->remedy, ==, HW_REMEDY_NEW_NEEDLE);
  g_assert_cmpint (needle->clue, ==, HW_CLUE_NEEDLE_HOURS);
  g_assert_cmpstr (needle->check, ==, "Look at it.");
  g_assert_cmpstr (needle->action, ==, "Change it.");
  g_assert_cmpstr (needle->source->id, ==, "a-book");
  g_assert_cmpint (timing->remedy, ==, HW_REMEDY_SERVICE);
  g_assert_cmpint (timing->clue, ==, HW_CLUE_NONE);
  g_assert_cmpstr (timing->source->id, ==, "practice");          /* the fault's */
}

static void
test_terms (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const HwTerm *dial = &book->terms[hw_handbook_find_term (book, "dial")];

  g_assert_cmpuint (book->n_terms, ==, 2);
  g_assert_cmpstr (dial->entry.note, ==, "A number.");
  g_assert_cmpuint (dial->n_see, ==, 1);
  g_assert_cmpint (dial->see[0], ==, hw_handbook_find_term (book, "discs"));
}

static void
test_words (void)
{
  for (int i = 0; i < HW_N_REMEDIES; i++)
    g_assert_nonnull (hw_remedy_ids[i]);
  for (int i = 0; i < HW_N_CLUES; i++)
    g_assert_nonnull (hw_clue_ids[i]);
  g_assert_null (hw_remedy_ids[HW_N_REMEDIES]);
  g_assert_null (hw_clue_ids[HW_N_CLUES]);
}

/* ---- what is refused ---- */

typedef struct
{
  const char     *path;
  const char     *from, *to;
  int             shift;
  HwHandbookError code;
  const char     *said;
} Refused;

#define INVALID HW_HANDBOOK_ERROR_INVALID
#define UNKNOWN HW_HANDBOOK_ERROR_UNKNOWN

static const Refused refused[] = {
  { "/faults/refused/sum", "weight=\"37.5\"", "weight=\"30\"", -9, INVALID,
    "fault “skipped”: the weights of the causes add up to 92.5; they must add up to 100" },
  { "/faults/refused/rank", "weight=\"62.5\"", "weight=\"20\"", -4, INVALID,
    "the cause “timing” weighs more than the one before it; put the likeliest first" },
  { "/faults/refused/weight", "weight=\"37.5\"", "weight=\"0\"", 0, INVALID, "“weight” must be a number from 0.1" },
  { "/faults/refused/minutes", "minutes=\"10\" ", "", 0, INVALID, "“minutes” is missing" },
  { "/faults/refused/remedy", "remedy=\"service\"", "remedy=\"servise\"", 0, INVALID, "(did you mean “service”?)" },
  { "/faults/refused/clue", "clue=\"needle-hours\"", "clue=\"weather\"", 0, INVALID, "“clue” must be one of none" },
  { "/faults/refused/source", "source=\"a-book\"", "source=\"a-bok\"", -1, UNKNOWN, "(did you mean “a-book”?)" },
  { "/faults/refused/id-twice", "<cause id=\"timing\"", "<cause id=\"needle\"", 0, INVALID,
    "there is already a cause “needle”" },
  { "/faults/refused/no-check", "<check>Look at it.</check>", "", -2, INVALID, "there is no <check>; add it" },
  { "/faults/refused/two-dos", "<do>Change it.</do>", "<do>Change it.</do><do>Quickly.</do>", 0, INVALID,
    "there is already a <do>, at line" },
  { "/faults/refused/no-sign", "<sign>A stitch is long.</sign>", "", -2, INVALID, "there is no <sign>; add it" },
  { "/faults/refused/empty-caution", "<caution>Unplug.</caution>", "<caution> </caution>", 0, INVALID,
    "<caution> is empty" },
  { "/faults/refused/machines", "machines=\"lockstitch overlock\"", "machines=\"knitting\"", 0, INVALID,
    "“machines” may hold lockstitch" },
  { "/faults/refused/no-note", "<note>They brake.</note>", "", 0, INVALID,
    "term “discs”: there is no <note>; say what the word means" },
  { "/faults/refused/see", "see=\"discs\"", "see=\"disks\"", 0, UNKNOWN, "term “dial”: “see” names “disks”" },
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

/* ---- the shipped ones ---- */

/* The faults that a trade list of faults names; common practice, no source. */
static const char * const named[] = {
  "skipped-stitches", "needle-thread-breaks", "bobbin-thread-breaks", "loops-underneath", "bobbin-on-top", "nest",
  "pucker", "needle-breaks", "needle-cutting", "seam-grin", "seam-slippage", "wavy-seam", "uneven-feed", "creep",
  "thread-shreds", "bulk-stalls",
};

static void
test_shipped (void)
{
  g_autoptr (HwHandbook) book = load_shipped ();

  g_assert_cmpuint (book->n_faults, >=, 16);
  for (gsize i = 0; i < G_N_ELEMENTS (named); i++)
    g_assert_cmpint (hw_handbook_find_fault (book, named[i]), >=, 0);
  g_assert_cmpuint (book->n_terms, >=, 40);
}

static const HwCause *
get_first_cause (const HwHandbook *book,
                 const char       *fault)
{
  return &book->faults[hw_handbook_find_fault (book, fault)].causes[0];
}

/* What repair tables and teaching agree on, common practice unless named:
 * - loops underneath come from above, so that re-threading comes before the dial;
 * - bobbin thread on top: the dial is too high;
 * - a thread-maker's bulletin (Coats, Bulletin 3) begins with tension for pucker;
 * - a machine-maker's table (Janome, service manual, page 2) begins broken needles with pulling the work. */
static void
test_first_causes (void)
{
  g_autoptr (HwHandbook) book = load_shipped ();

  g_assert_cmpint (get_first_cause (book, "loops-underneath")->remedy, ==, HW_REMEDY_RETHREAD);
  g_assert_cmpint (get_first_cause (book, "bobbin-on-top")->remedy, ==, HW_REMEDY_DIAL_DOWN);
  g_assert_cmpint (get_first_cause (book, "skipped-stitches")->remedy, ==, HW_REMEDY_NEW_NEEDLE);
  g_assert_cmpstr (get_first_cause (book, "pucker")->source->id, ==, "seam-puckering");
  g_assert_cmpint (get_first_cause (book, "needle-breaks")->remedy, ==, HW_REMEDY_HANDLE);
}

/* Where hands go into the machine, a caution says to unplug it; what a person cannot set goes to a technician. */
static void
test_care_for_people (void)
{
  g_autoptr (HwHandbook) book = load_shipped ();

  for (gsize i = 0; i < book->n_faults; i++)
    for (gsize j = 0; j < book->faults[i].n_causes; j++)
      {
        const HwCause *cause = &book->faults[i].causes[j];
        gboolean opens = strstr (cause->check, "take the case out") != NULL
                         || strstr (cause->check, "plate off") != NULL
                         || strstr (cause->check, "open the plate") != NULL;

        g_test_message ("%s, %s", book->faults[i].entry.id, cause->id);
        if (opens)
          {
            g_assert_nonnull (strstr (cause->check, "Unplug"));
            g_assert_nonnull (book->faults[i].cautions[0]);
          }
        if (cause->remedy == HW_REMEDY_SERVICE)
          g_assert_nonnull (strstr (cause->action, "technician"));
      }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/faults/fault", test_fault);
  g_test_add_func ("/faults/terms", test_terms);
  g_test_add_func ("/faults/words", test_words);
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    g_test_add_data_func (refused[i].path, &refused[i], test_refused);
  g_test_add_func ("/faults/shipped", test_shipped);
  g_test_add_func ("/faults/first-causes", test_first_causes);
  g_test_add_func ("/faults/care-for-people", test_care_for_people);
  return g_test_run ();
}
