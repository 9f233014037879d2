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
  g_assert_cmpint (needle->care, ==, -1);
  g_assert_cmpint (timing->care, ==, hw_handbook_find_care (book, "dust"));
  g_assert_cmpint (timing->care, >=, 0);
}

static void
test_looks (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const HwLooks *looks = &book->faults[0].looks;

  g_assert_cmpint (looks->cloth, ==, HW_LOOKS_PUCKERED);
  g_assert_cmpint (looks->row, ==, HW_LOOKS_CHAIN);
  g_assert_cmpstr (looks->top, ==, "--=-");
  g_assert_cmpstr (looks->section, ==, "-v.^");
  g_assert_cmpstr (looks->underneath, ==, "-o=-");
}

static void
test_clue (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const HwEntry *entry = hw_handbook_find_entry (book, "clue/needle-hours", NULL);

  g_assert_cmpuint (book->n_clues, ==, 1);
  g_assert_true (entry == &book->clues[0].entry);
  g_assert_cmpint (book->clues[0].clue, ==, HW_CLUE_NEEDLE_HOURS);
  g_assert_cmpfloat (book->clues[0].clear, ==, 0.5);
  g_assert_cmpfloat (book->clues[0].at_limit, ==, 2);
  g_assert_cmpfloat (book->clues[0].most, ==, 8);
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
  { "/faults/refused/care", "care=\"dust\"", "care=\"dist\"", 0, UNKNOWN, "(did you mean “dust”?)" },
  { "/faults/refused/looks-cloth", "cloth=\"puckered\"", "cloth=\"bent\"", 0, INVALID, "“cloth” must be one of flat" },
  { "/faults/refused/looks-letter", "top=\"--=-\"", "top=\"--q-\"", 0, INVALID,
    "“top” holds “--q-”; it may hold 1 to" },
  { "/faults/refused/looks-length", "top=\"--=-\"", "top=\"--=\"", 0, INVALID, "must be of one length" },
  { "/faults/refused/looks-twice", "<looks", "<looks cloth=\"flat\" top=\"-\" section=\"-\" underneath=\"-\"/><looks",
    0, INVALID, "there is already a <looks>" },
  { "/faults/refused/clue-word", "<clue id=\"needle-hours\"", "<clue id=\"needle-days\"", 0, INVALID,
    "“id” must be one of none" },
  { "/faults/refused/clue-most", "factor-most=\"8\"", "factor-most=\"1.5\"", 0, INVALID, "the most cannot be less" },
  { "/faults/refused/clue-clear", "factor-clear=\"0.5\"", "factor-clear=\"1.5\"", 0, INVALID,
    "“factor-clear” must be a number from 0.01 to 1" },
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

/* Every fault has its drawing, and every clue that a cause names has its factors. */
static void
test_shipped_whole (void)
{
  g_autoptr (HwHandbook) book = load_shipped ();
  guint clues = 0;

  for (gsize i = 0; i < book->n_clues; i++)
    clues |= 1u << book->clues[i].clue;
  for (gsize i = 0; i < book->n_faults; i++)
    {
      g_test_message ("%s", book->faults[i].entry.id);
      g_assert_nonnull (book->faults[i].looks.top);
      for (gsize j = 0; j < book->faults[i].n_causes; j++)
        if (book->faults[i].causes[j].clue != HW_CLUE_NONE)
          g_assert_true ((clues & 1u << book->faults[i].causes[j].clue) != 0);
    }
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
  g_test_add_func ("/faults/looks", test_looks);
  g_test_add_func ("/faults/clue", test_clue);
  g_test_add_func ("/faults/terms", test_terms);
  g_test_add_func ("/faults/words", test_words);
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    g_test_add_data_func (refused[i].path, &refused[i], test_refused);
  g_test_add_func ("/faults/shipped", test_shipped);
  g_test_add_func ("/faults/shipped-whole", test_shipped_whole);
  g_test_add_func ("/faults/first-causes", test_first_causes);
  g_test_add_func ("/faults/care-for-people", test_care_for_people);
  return g_test_run ();
}
