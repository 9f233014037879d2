/* test-words.c - what the plan says, in numbers and sentences
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Set-ups come from the handbook of tests/plan/small, so that each figure in a sentence can be worked out by hand.
 */

#include "config.h"

#include "temp-folder.h"
#include "plan/test-seam.h"
#include "words/words.h"
#include "workroom.h"

#include <glib/gstdio.h>
#include <locale.h>
#include <math.h>
#include <string.h>

/* Takes @text. */
static void
assert_words (char *text, const char *expected)
{
  g_assert_cmpstr (text, ==, expected);
  g_free (text);
}

/* ---- numbers ---- */

static const struct { double value; int max_decimals; const char *words; } numbers[] = {
  { 2.5, 2, "2.5" }, { 2, 2, "2" }, { 2.504, 2, "2.5" }, { 2.25, 1, "2.2" }, { 0.05, 2, "0.05" }, { 100, 0, "100" },
  { 100, 3, "100" }, { 1234.5, 1, "1234.5" }, { 0, 2, "0" }, { -0.0, 2, "0" }, { -0.001, 2, "0" }, { -1.5, 1, "−1.5" },
  { -2, 0, "−2" },
};

static void
test_number (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    assert_words (hw_words_number (numbers[i].value, numbers[i].max_decimals), numbers[i].words);
}

static const struct { double dial; const char *words; } halves[] = {
  { 3.5, "3½" }, { 3, "3" }, { 0.5, "½" }, { 0, "0" }, { -0.5, "−½" }, { -1.5, "−1½" }, { 12.5, "12½" },
  { 3.25, "3.25" },
};

static void
test_half (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (halves); i++)
    assert_words (hw_words_half (halves[i].dial), halves[i].words);
}

/* Inches, and a decimal mark that is not the locale's. */
static void
test_style (void)
{
  double value = 0;

  hw_words_set_style (TRUE, HW_NUMBER_LOCALE);
  assert_words (hw_words_cm (48, 1), "18⅞ in");
  assert_words (hw_words_cm (1.5, 1), "⅝ in");
  assert_words (hw_words_cm (2.54, 1), "1 in");
  assert_words (hw_words_cm (0.1, 1), "0.04 in");
  assert_words (hw_words_cm (0, 1), "0 in");
  assert_words (hw_words_cm (127.3, 1), "50 in");
  assert_words (hw_words_metres (0.48), "18⅞ in");
  assert_words (hw_words_metres (1.4), "55 in");
  assert_words (hw_words_metres (2.8), "3.1 yd");
  assert_words (hw_words_metres (200), "219 yd");
  assert_words (hw_words_allowance (15), "⅝ in (15 mm)");
  assert_words (hw_words_allowance (10), "⅜ in (10 mm)");
  assert_words (hw_words_mm (2.5), "2.5 mm");            /* a stitch is set in mm on any machine */
  hw_words_set_style (FALSE, HW_NUMBER_COMMA);
  assert_words (hw_words_number (2.5, 1), "2,5");
  assert_words (hw_words_fixed (-3.5, 2), "-3,50");
  assert_words (hw_words_cm (48.5, 1), "48,5 cm");
  assert_words (hw_words_allowance (15), "15 mm");
  g_assert_true (hw_words_parse_number ("2,5", &value));
  g_assert_cmpfloat (value, ==, 2.5);
  g_assert_true (hw_words_parse_number ("2.5", &value));
  g_assert_cmpfloat (value, ==, 2.5);
  g_assert_false (hw_words_parse_number ("2,5,1", &value));
  g_assert_false (hw_words_parse_number ("", &value));
  g_assert_false (hw_words_parse_number ("nan", &value));
  hw_words_set_style (FALSE, HW_NUMBER_LOCALE);
  assert_words (hw_words_number (2.5, 1), "2.5");
  g_assert_true (hw_words_parse_number ("12,5", &value));            /* either mark, where it can be no other */
  g_assert_cmpfloat (value, ==, 12.5);
  g_assert_true (hw_words_parse_number ("0,125", &value));
  g_assert_cmpfloat (value, ==, 0.125);
  g_assert_false (hw_words_parse_number ("1,250", &value));
  g_assert_false (hw_words_parse_number ("12,5.5", &value));
}

static void
test_measures (void)
{
  assert_words (hw_words_clock (0), "0:00");
  assert_words (hw_words_clock (4.2), "4:12");
  assert_words (hw_words_clock (59.4), "59:24");
  assert_words (hw_words_clock (80), "1 h 20 min");
  assert_words (hw_words_mm (2.5), "2.5 mm");
  assert_words (hw_words_mm (0.45), "0.45 mm");
  assert_words (hw_words_mm (0), "0 mm");
  assert_words (hw_words_metres (1.36), "1.4 m");
  assert_words (hw_words_metres (0.48), "0.5 m");
  assert_words (hw_words_metres (0.06), "0.06 m");
  assert_words (hw_words_metres (162.7), "163 m");
  assert_words (hw_words_hours (6.24), "6.2 h");
  assert_words (hw_words_hours (15), "15 h");
}

static const struct { double minutes; const char *words; } minutes[] = {
  { 0, "0 min" }, { 0.04, "0.1 min" }, { 0.5, "0.5 min" }, { 0.94, "0.9 min" }, { 0.96, "1 min" }, { 7.2, "7 min" },
  { 59.4, "59 min" }, { 59.6, "1 h" }, { 60, "1 h" }, { 80, "1 h 20 min" }, { 119.7, "2 h" }, { 600, "10 h" },
};

static void
test_minutes (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (minutes); i++)
    assert_words (hw_words_minutes (minutes[i].minutes), minutes[i].words);
}

/* ---- the decimal mark of another country ---- */

static gboolean
make_locale (const char *folder)
{
  g_autofree char *path = g_build_filename (folder, "de_DE.UTF-8", NULL);
  const char *command[] = { "localedef", "--no-warnings=ascii", "-i", "de_DE", "-f", "UTF-8", path, NULL };

  /* It complains of small things and writes the locale all the same. */
  g_spawn_sync (NULL, (char **) command, NULL,
                G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL | G_SPAWN_STDERR_TO_DEV_NULL,
                NULL, NULL, NULL, NULL, NULL, NULL);
  g_setenv ("LOCPATH", folder, TRUE);
  return setlocale (LC_NUMERIC, "de_DE.UTF-8") != NULL;
}

static void
test_decimal_comma (void)
{
  char *folder = temp_folder_new ();

  if (make_locale (folder))
    {
      assert_words (hw_words_number (2.5, 2), "2,5");
      assert_words (hw_words_number (-0.75, 2), "−0,75");
      assert_words (hw_words_number (100, 2), "100");
      assert_words (hw_words_mm (0.45), "0,45 mm");
      assert_words (hw_words_size (75, 4), "4,0/75");
      assert_words (hw_words_half (3.5), "3½");
      g_assert_nonnull (setlocale (LC_NUMERIC, "C"));
    }
  else
    g_test_skip ("no locale with a decimal comma can be made here: localedef and its sources are needed");
  g_unsetenv ("LOCPATH");
  temp_folder_remove (folder);
}

/* ---- needles, pressure, ends ---- */

static void
test_sizes (void)
{
  assert_words (hw_words_size (80, 0), "80/12");
  assert_words (hw_words_size (110, 0), "110/18");
  assert_words (hw_words_size (140, 0), "140");
  assert_words (hw_words_size (75, 4), "4.0/75");
  assert_words (hw_words_size (80, 1.6), "1.6/80");
}

static void
test_needles (void)
{
  g_autoptr (HwHandbook) handbook = workroom_small ();
  int round = hw_handbook_find_point (handbook, "round");
  int sharp = hw_handbook_find_point (handbook, "sharp");

  assert_words (hw_words_needle (handbook, round, 80, 0), "80/12 round");
  assert_words (hw_words_needle (handbook, round, 80, 2), "twin 2.0/80 round");
  assert_words (hw_words_needle (handbook, -1, 80, 0), "80/12");
  assert_words (hw_words_point (&handbook->points[round]), "round (R)");
  assert_words (hw_words_point (&handbook->points[sharp]), "sharp");
}

static const struct { double steps; const char *words; } pressures[] = {
  { 0, "normal" }, { -1, "1 lighter" }, { -2, "2 lighter" }, { 1, "1 heavier" }, { -1.5, "1–2 lighter" },
  { 0.5, "0–1 heavier" },
};

static void
test_pressure (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (pressures); i++)
    assert_words (hw_words_pressure (pressures[i].steps), pressures[i].words);
}

static void
test_ends (void)
{
  assert_words (hw_words_ends (HW_ENDS_BACK_TACK), "3 stitches back at both ends");
  for (int a = 0; a < HW_N_ENDS; a++)
    for (int b = 0; b < a; b++)
      {
        g_autofree char *one = hw_words_ends ((HwEnds) a);
        g_autofree char *other = hw_words_ends ((HwEnds) b);

        g_assert_cmpstr (one, !=, other);
      }
}

/* ---- what stands on every card ---- */

static const struct { HwMachineKind kind; const char *flat; const char *checks[6]; } check_cases[] = {
  { HW_MACHINE_LOCKSTITCH, "right",
    { "Needle fully up, flat side right", "Thread with the foot up", "Bobbin the right way round",
      "Foot, plate, stitch agree", "One turn by hand", "Hold both thread tails" } },
  { HW_MACHINE_LOCKSTITCH, "back",
    { "Needle fully up, flat side to the back", "Thread with the foot up", "Bobbin the right way round",
      "Foot, plate, stitch agree", "One turn by hand", "Hold both thread tails" } },
  { HW_MACHINE_OVERLOCK, "towards you",
    { "Needle fully up, flat side: towards you", "Thread in the manual’s order", "Looper cover closed",
      "Knife and stitch finger set for the stitch", "One turn by hand", "Hold all thread tails" } },
  { HW_MACHINE_COVERSTITCH, NULL,
    { "Needle fully up, turned as the manual shows", "Thread in the manual’s order", "Looper cover closed",
      "Foot and stitch agree", "One turn by hand", "Hold all thread tails" } },
};

static void
test_checks (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (check_cases); i++)
    {
      HwMachine machine = { .kind = check_cases[i].kind, .needle_flat = (char *) check_cases[i].flat };

      for (int which = 0; which < 6; which++)
        assert_words (hw_words_check (&machine, which), check_cases[i].checks[which]);
    }
}

static void
test_verdicts (void)
{
  const HwTensionFacts plain = { 0 };
  const HwTensionFacts buttonhole = { .terms = 1u << HW_TENSION_BUTTONHOLE };

  assert_words (hw_words_look (HW_VERDICT_LOOPS_BELOW, &plain), "Needle thread loops underneath");
  assert_words (hw_words_look (HW_VERDICT_BALANCED, &plain), "Same on both sides, flat when pulled");
  assert_words (hw_words_look (HW_VERDICT_BALANCED, NULL), "Same on both sides, flat when pulled");
  assert_words (hw_words_look (HW_VERDICT_BALANCED, &buttonhole), "Smooth on top, a little needle thread underneath");
  assert_words (hw_words_look (HW_VERDICT_BOBBIN_ABOVE, &buttonhole), "Bobbin thread shows on top");
  assert_words (hw_words_remedy (0, FALSE), "Needle thread loops underneath. First re-thread with the foot up. "
                                            "Still there: dial up half a number.");
  assert_words (hw_words_remedy (1, FALSE), "Looks the same on both sides, flat when pulled: sew.");
  assert_words (hw_words_remedy (2, FALSE), "Bobbin thread shows on top: dial down half a number.");
  assert_words (hw_words_remedy (0, TRUE), "Re-thread, foot up. Then up ½");
  assert_words (hw_words_remedy (1, TRUE), "Sew");
  assert_words (hw_words_remedy (2, TRUE), "Dial down ½");
}

static void
test_cautions (void)
{
  assert_words (hw_words_caution (0), "Switch off and unplug before you change needle or foot, clean or oil. "
                                      "The machine’s manual comes first.");
  for (int which = 1; which < 6; which++)
    {
      g_autofree char *caution = hw_words_caution (which);

      g_assert_true (g_str_has_suffix (caution, "."));
    }
  g_assert_null (hw_words_caution (6));
}

/* ---- sources ---- */

static const struct { HwSourceKind kind; const char *where; const char *words; } sources[] = {
  { HW_SOURCE_STANDARD, "ISO 1234", "standard: A title, ISO 1234" },
  { HW_SOURCE_BOOK, NULL, "book: A title" },
  { HW_SOURCE_PAPER, "", "paper: A title" },
  { HW_SOURCE_BULLETIN, "page 3", "bulletin: A title, page 3" },
  { HW_SOURCE_FROM_MEMORY, NULL, "from memory: A title" },
  { HW_SOURCE_COMMON_PRACTICE, NULL, "common practice" },
};

static void
test_sources (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (sources); i++)
    {
      HwSource source = { "id", sources[i].kind, "A title", (char *) sources[i].where };

      assert_words (hw_words_source (&source), sources[i].words);
    }
}

/* ---- a plan to speak of ---- */

#define FABRICS "<fabrics><fabric id='cotton' name='Cotton twill' handbook='cotton'/>" \
                "<fabric id='velvet' name='Silk velvet' handbook='velvet'/>" \
                "<fabric id='jersey' name='Jersey' handbook='jersey'/></fabrics>"
#define THREADS "<threads><thread id='seam' handbook='usual' colour='navy'/>" \
                "<thread id='top' handbook='stout' colour='ochre'/><thread id='cone' handbook='fine'/></threads>"
#define OPERATION(number, rest, inside) \
  "<operation number='" number "' name='Step " number "' length-cm='100' " rest ">" inside "</operation>"
#define TWO_COTTON "<ply fabric='cotton' count='2'/>"
#define SEAM_THREADS "needle-thread='seam' bobbin-thread='seam'"
#define TOP_THREADS "needle-thread='top' bobbin-thread='seam'"

typedef struct
{
  HwHandbook *handbook;
  HwRoom     *room;
  HwProject  *project;
  HwPlan     *plan;
} Work;

static void
clear_work (Work *self)
{
  g_clear_pointer (&self->plan, hw_plan_unref);
  g_clear_pointer (&self->project, hw_project_unref);
  g_clear_pointer (&self->room, hw_room_unref);
  g_clear_pointer (&self->handbook, hw_handbook_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Work, clear_work)

static Work
plan_steps (const WorkroomMachine *machine, const char *steps)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *xml = g_strdup_printf (FABRICS THREADS "<steps>%s</steps>", steps);
  Work self = { workroom_small (), workroom_new (machine, "household", 3), workroom_parse (xml), NULL };

  self.plan = hw_plan_new (self.handbook, self.project, self.room, &error);
  g_assert_no_error (error);
  return self;
}

static const HwSetup *
get_setup (const Work *self, const char *number)
{
  int index = hw_project_find_step (self->project, number);

  g_assert_cmpint (index, >=, 0);
  g_assert_nonnull (self->plan->setups[index]);
  return self->plan->setups[index];
}

/* The sentence of the first reason with @code for @field. */
static char *
say_reason (const Work *self, const char *number, HwField field, HwReasonCode code)
{
  const HwSetup *setup = get_setup (self, number);

  for (guint i = 0; i < setup->reasons->len; i++)
    {
      const HwReason *reason = &g_array_index (setup->reasons, HwReason, i);

      if (reason->field == field && reason->code == code)
        return hw_words_reason (self->plan, setup, reason);
    }
  return NULL;
}

/* ---- threads and layers ---- */

static void
test_threads (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='topstitch' " TOP_THREADS, TWO_COTTON)
                                                    OPERATION ("2", "purpose='neaten'", TWO_COTTON));
  const HwSetup *setup = get_setup (&work, "1");
  const HwThreadChoice *cone = &get_setup (&work, "2")->needle_thread;
  HwThreadEntry monofilament = { .fibre = (char *) "nylon", .form = HW_THREAD_MONOFILAMENT };
  HwThreadEntry metallic = { .fibre = (char *) "metal", .form = HW_THREAD_METALLIC };
  HwThreadEntry elastic = { .fibre = (char *) "elastane", .form = HW_THREAD_ELASTIC };
  HwThreadEntry textured = { .fibre = (char *) "polyamide", .form = HW_THREAD_TEXTURED };

  assert_words (hw_words_thread (&setup->needle_thread), "ochre core-spun polyester tex 60");
  assert_words (hw_words_thread (&setup->bobbin_thread), "navy polyester tex 30");
  assert_words (hw_words_thread_short (&setup->bobbin_thread), "navy, tex 30");
  assert_words (hw_words_thread_short (cone), "polyester, tex 18");
  assert_words (hw_words_thread (&(HwThreadChoice) { NULL, &monofilament, 15, 0.1 }), "nylon monofilament tex 15");
  assert_words (hw_words_thread (&(HwThreadChoice) { NULL, &metallic, 30, 0.2 }), "metallic tex 30");
  assert_words (hw_words_thread (&(HwThreadChoice) { NULL, &elastic, 200, 0.5 }), "elastic tex 200");
  assert_words (hw_words_thread (&(HwThreadChoice) { NULL, &textured, 27, 0.2 }), "textured polyamide tex 27");
}

static void
test_layers (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON
                                                               "<ply fabric='velvet'/>"));
  const HwStep *step = hw_project_get_step (work.project, 0);

  assert_words (hw_words_layers (work.plan, step), "2 × cotton twill + 1 × silk velvet");
  assert_words (hw_words_layer_counts (step), "2 + 1");
}

/* Of a buttonhole the row runs along both sides; a bar tack is sewn as long as it is. */
static void
test_sewn_length (void)
{
  static const struct { const char *purpose; double cm; int pieces; const char *words; } cases[] = {
    { "seam", 48, 2, "48 cm" },
    { "seam", 125, 1, "125 cm" },
    { "seam", 199.6, 1, "2 m" },
    { "seam", 240, 1, "2.4 m" },
    { "buttonhole", 30.8, 11, "11, each 14 mm" },
    { "buttonhole", 4.4, 1, "22 mm" },
    { "bar-tack", 8.1, 9, "9, each 9 mm" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const HwStep step = { .purpose = (char *) cases[i].purpose, .length_cm = cases[i].cm,
                            .pieces = cases[i].pieces };

      assert_words (hw_words_sewn_length (&step), cases[i].words);
    }
}

/* ---- values and bands ---- */

static const struct { HwField field; const char *value; const char *band; } field_cases[] = {
  { HW_FIELD_MACHINE, "Home machine", "" },
  { HW_FIELD_STITCH, "straight, 301", "" },
  { HW_FIELD_SYSTEM, "Household", "" },
  { HW_FIELD_POINT, "round (R)", "round; sharp; topstitch" },
  { HW_FIELD_SIZE, "80/12", "70/10 to 90/14" },
  { HW_FIELD_TWIN, "none", "" },
  { HW_FIELD_NEEDLE_TEX, "navy polyester tex 30", "tex 24 to 40" },
  { HW_FIELD_BOBBIN_TEX, "the same", "tex 15 to 40" },
  { HW_FIELD_LENGTH, "2.5 mm", "2 to 3 mm" },
  { HW_FIELD_WIDTH, "0 mm", "0 mm" },
  { HW_FIELD_FOOT, "all-purpose foot", "all-purpose foot; straight foot; edge foot" },
  { HW_FIELD_PLATE, "zigzag plate", "zigzag plate" },
  { HW_FIELD_PRESSURE, "normal", "normal" },
  { HW_FIELD_ENDS, "3 stitches back at both ends",
    "3 stitches back at both ends; long tails, knotted by hand; a few stitches on the spot at both ends" },
  { HW_FIELD_ALLOWANCE, "15 mm", "10 to 20 mm" },
  { HW_FIELD_DIFFERENTIAL, "none", "" },
};

static void
test_values (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON));
  const HwSetup *setup = get_setup (&work, "1");

  for (gsize i = 0; i < G_N_ELEMENTS (field_cases); i++)
    {
      g_test_message ("%s", hw_field_ids[field_cases[i].field]);
      assert_words (hw_words_value (work.plan, setup, field_cases[i].field), field_cases[i].value);
      assert_words (hw_words_band (work.plan, setup, field_cases[i].field), field_cases[i].band);
    }
  /* two plies of 0.4 mm: the reference, so the neutral number, one number either way */
  assert_words (hw_words_value (work.plan, setup, HW_FIELD_DIAL), "start at 4, likely to end between 3 and 5");
}

/* What the dial's number stands on: the rule, then what the last scrap of the step said. */
static void
test_dial_ground (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON)
                                                    OPERATION ("2", "purpose='neaten' after='1'", TWO_COTTON)
                                                    OPERATION ("3", "purpose='seam' after='1' " SEAM_THREADS,
                                                               TWO_COTTON));
  HwSetup *setup = (HwSetup *) get_setup (&work, "1");
  GPtrArray *entries = work.plan->room->entries;
  g_autoptr (HwJournalEntry) loops = hw_plan_entry_for_test_seam (work.plan, setup, 4, HW_VERDICT_LOOPS_BELOW);
  g_autoptr (HwJournalEntry) good = hw_plan_entry_for_test_seam (work.plan, setup, 4.5, HW_VERDICT_BALANCED);
  guint before = entries->len;

  g_assert_null (hw_words_dial_ground (work.plan, get_setup (&work, "2")));      /* loopers have dials of their own */
  assert_words (hw_words_dial_ground (work.plan, setup), "by the handbook’s rule, not tried on a scrap yet");
  setup->n_test_seams = 2;
  assert_words (hw_words_dial_ground (work.plan, setup),
                "by the handbook’s rule and 2 test seams on this machine; not tried on a scrap yet");
  g_ptr_array_add (entries, loops);
  assert_words (hw_words_dial_ground (work.plan, setup), "on the last scrap, at 4: needle thread loops underneath");
  g_ptr_array_add (entries, good);
  assert_words (hw_words_dial_ground (work.plan, setup), "tried on a scrap, at 4½: good");
  assert_words (hw_words_dial_ground (work.plan, get_setup (&work, "3")),
                "by the handbook’s rule, not tried on a scrap yet");
  g_ptr_array_set_size (entries, (int) before);
}

/* A seam lies at its allowance, a hem is measured from its fold, and so said everywhere. */
static void
test_line_from (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON)
                                                    OPERATION ("2", "purpose='topstitch' " TOP_THREADS, TWO_COTTON));
  HwSetup *setup = (HwSetup *) get_setup (&work, "1");

  assert_words (hw_words_field_of (setup, HW_FIELD_ALLOWANCE), "Seam allowance");
  assert_words (hw_words_field_of (get_setup (&work, "2"), HW_FIELD_ALLOWANCE), "From the edge");
  assert_words (hw_words_line (setup->line_from, "15 mm"), "15 mm from the edge");
  setup->line_from = HW_FROM_FOLD;
  assert_words (hw_words_field_of (setup, HW_FIELD_ALLOWANCE), "From the fold");
  assert_words (hw_words_line (setup->line_from, "20 mm"), "20 mm from the fold");
}

static void
test_overlock_values (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='neaten'", "<ply fabric='jersey'/>"));
  const HwSetup *setup = get_setup (&work, "1");

  assert_words (hw_words_value (work.plan, setup, HW_FIELD_DIAL),
                "start all dials at 3, likely to end between 2½ and 4");
  assert_words (hw_words_band (work.plan, setup, HW_FIELD_DIAL), "2½ to 4");
  assert_words (hw_words_value (work.plan, setup, HW_FIELD_DIFFERENTIAL), "1.3");
  assert_words (hw_words_band (work.plan, setup, HW_FIELD_DIFFERENTIAL), "1.2 to 1.5");
  assert_words (hw_words_value (work.plan, setup, HW_FIELD_CUTTING_WIDTH), "5 mm");
}

static void
test_twin_values (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual,
                                   OPERATION ("1", "purpose='topstitch' stitch='301-twin' " SEAM_THREADS,
                                              "<ply fabric='jersey' count='2'/>"));
  HwSetup setup = *get_setup (&work, "1");

  setup.values[HW_FIELD_TWIN].value = 4;
  assert_words (hw_words_value (work.plan, &setup, HW_FIELD_TWIN), "4 mm");
  setup.values[HW_FIELD_SIZE].value = 75;
  assert_words (hw_words_value (work.plan, &setup, HW_FIELD_SIZE), "4.0/75");
}

static void
test_own_stitch (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON));
  HwSetup setup = *get_setup (&work, "1");
  HwMachine machine = *setup.machine;
  HwOwnStitch own = { (char *) "301", (char *) "1" };

  assert_words (hw_words_stitch (&setup), "straight");
  machine.stitches = &own;
  machine.n_stitches = 1;
  setup.machine = &machine;
  assert_words (hw_words_stitch (&setup), "straight, no. 1");
  assert_words (hw_words_value (work.plan, &setup, HW_FIELD_STITCH), "straight, no. 1, 301");
}

static void
test_open_bands (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON));
  HwSetup setup = *get_setup (&work, "1");
  HwValue *length = &setup.values[HW_FIELD_LENGTH];

  length->low = -INFINITY;
  assert_words (hw_words_band (work.plan, &setup, HW_FIELD_LENGTH), "up to 3 mm");
  length->high = INFINITY;
  assert_words (hw_words_band (work.plan, &setup, HW_FIELD_LENGTH), "any");
  length->low = 2;
  assert_words (hw_words_band (work.plan, &setup, HW_FIELD_LENGTH), "2 mm or more");
}

static void
test_fields (void)
{
  for (int field = 0; field < HW_N_FIELDS; field++)
    {
      g_autofree char *name = hw_words_field ((HwField) field);

      g_assert_true (g_ascii_isupper (name[0]));
    }
  assert_words (hw_words_field (HW_FIELD_SIZE), "Needle size");
}

/* ---- reasons ---- */

static void
test_size_reasons (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON));

  /* 0.0356825 x sqrt (30 / (0.6 x 1.4)) = 0.213 mm; / 0.8 mm = 27 % */
  assert_words (say_reason (&work, "1", HW_FIELD_SIZE, HW_REASON_THREAD_SHARE),
                "Tex 30 thread is 0.21 mm thick, 27 % of this blade; about 28 % is right, 40 % the most.");
  assert_words (say_reason (&work, "1", HW_FIELD_SIZE, HW_REASON_SMALLEST),
                "80/12 is the smallest that serves the thread and every layer.");
  assert_words (say_reason (&work, "1", HW_FIELD_SIZE, HW_REASON_RULE), "Usual.");
  assert_words (say_reason (&work, "1", HW_FIELD_NEEDLE_TEX, HW_REASON_CHOSEN_THREAD),
                "You named this thread for the step: navy polyester tex 30.");
  assert_words (say_reason (&work, "1", HW_FIELD_MACHINE, HW_REASON_MACHINE), "“Home machine” forms this stitch.");
  assert_words (say_reason (&work, "1", HW_FIELD_STITCH, HW_REASON_MACHINE),
                "The usual stitch for this kind of step.");
}

static void
test_dial_reasons (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual,
                                   OPERATION ("1", "purpose='baste' " SEAM_THREADS, TWO_COTTON)
                                   OPERATION ("2", "purpose='neaten'", TWO_COTTON));

  assert_words (say_reason (&work, "1", HW_FIELD_DIAL, HW_REASON_DIAL_NEUTRAL),
                "This machine’s neutral number is 4: two layers of medium cotton balance there.");
  /* 5 mm is 2.5 over the reference: 2.5 x 0.4 */
  assert_words (say_reason (&work, "1", HW_FIELD_DIAL, HW_REASON_DIAL_TERM),
                "Lower by 1: the stitch is longer than 2.5 mm.");
  assert_words (say_reason (&work, "2", HW_FIELD_DIAL, HW_REASON_DIAL_NEUTRAL),
                "This machine’s own manual starts its dials at 3.");
}

static void
test_term_reasons (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON));
  const HwSetup *setup = get_setup (&work, "1");

  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    {
      HwReason reason = { .field = HW_FIELD_DIAL, .code = HW_REASON_DIAL_TERM, .v = { term, 0.5, 0 } };
      g_autofree char *higher = hw_words_reason (work.plan, setup, &reason);
      g_autofree char *lower = NULL;

      reason.v[1] = -0.3;
      lower = hw_words_reason (work.plan, setup, &reason);
      g_assert_true (g_str_has_prefix (higher, "Higher by 0.5: "));
      g_assert_true (g_str_has_prefix (lower, "Lower by 0.3: "));
      g_assert_null (strstr (higher, "(null)"));
      g_assert_cmpstr (strchr (higher, ':'), ==, strchr (lower, ':'));

      g_free (lower);
      reason.v[1] = -0.04;
      lower = hw_words_reason (work.plan, setup, &reason);
      g_assert_true (g_str_has_prefix (lower, "A shade lower: "));
    }
}

static void
test_override_reasons (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual,
                                   OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON
                                              "<set field='length' value='2.8'/><set field='point' choice='sharp'/>"));

  assert_words (say_reason (&work, "1", HW_FIELD_LENGTH, HW_REASON_OVERRIDE), "Yours; 2.5 mm is usual.");
  assert_words (say_reason (&work, "1", HW_FIELD_POINT, HW_REASON_OVERRIDE), "Yours; round is usual.");
  assert_words (hw_words_value (work.plan, get_setup (&work, "1"), HW_FIELD_LENGTH), "2.8 mm");
}

static void
test_limit_reasons (void)
{
  WorkroomMachine machine = workroom_usual;
  g_auto (Work) work = { 0 };

  machine.length_max_mm = 4;
  machine.feet = "all-purpose";
  work = plan_steps (&machine, OPERATION ("1", "purpose='baste' " SEAM_THREADS, TWO_COTTON)
                               OPERATION ("2", "purpose='topstitch' " SEAM_THREADS, TWO_COTTON));
  assert_words (say_reason (&work, "1", HW_FIELD_LENGTH, HW_REASON_CLAMPED),
                "5 mm is wanted; this machine reaches 4 mm.");
  assert_words (say_reason (&work, "2", HW_FIELD_FOOT, HW_REASON_OWNED),
                "Best is: edge foot. This machine has none, so the next best takes its place.");
}

static void
test_at_hand_reason (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON));
  const HwSetup *setup = get_setup (&work, "1");
  const char *point = work.handbook->points[(gsize) setup->values[HW_FIELD_POINT].value].entry.id;
  g_autoptr (GError) error = NULL;

  g_ptr_array_add (work.room->packets, hw_packet_new ("other", "household", point, 90));
  hw_plan_unref (work.plan);
  work.plan = hw_plan_new (work.handbook, work.project, work.room, &error);
  g_assert_no_error (error);
  assert_words (say_reason (&work, "1", HW_FIELD_SIZE, HW_REASON_AT_HAND),
                "Best here is 80/12, but no such needle is in the case or the machine. One of 90/14 is, and passes "
                "too: nothing to buy.");
}

/* What was agreed is said with the steps it serves, the one it is about left out. */
static void
test_agreed_reason (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON)
                                                    OPERATION ("2", "purpose='seam' " SEAM_THREADS, TWO_COTTON));
  g_auto (Work) more = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON)
                                                    OPERATION ("2", "purpose='seam' " SEAM_THREADS, TWO_COTTON)
                                                    OPERATION ("3", "purpose='seam' after='2' " SEAM_THREADS,
                                                               TWO_COTTON));
  g_auto (Work) alone = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON));
  HwReason reason = { .field = HW_FIELD_SIZE, .code = HW_REASON_AGREED, .v = { 70, 0, 0 } };

  assert_words (hw_words_reason (work.plan, get_setup (&work, "1"), &reason),
                "Moved to 80/12, which passes too and saves a change; preferred here: 70/10. One set-up with step 2.");
  assert_words (hw_words_reason (more.plan, get_setup (&more, "1"), &reason),
                "Moved to 80/12, which passes too and saves a change; preferred here: 70/10. One set-up with "
                "steps 2, 3.");
  assert_words (hw_words_reason (alone.plan, get_setup (&alone, "1"), &reason),
                "Moved to 80/12, which passes too and saves a change; preferred here: 70/10.");
}

/* ---- rules with figures ---- */

static const struct { const char *text; HwField field; const char *words; } rule_cases[] = {
  { "Nothing to fill.", HW_FIELD_LENGTH, "Nothing to fill." },
  { "{value} mm, {low} to {high}.", HW_FIELD_LENGTH, "2.5 mm, 2 to 3." },
  { "At {mass} g/m² and {thickness} mm.", HW_FIELD_LENGTH, "At 200 g/m² and 0.8 mm." },
  { "Tex {tex} through {plies} layers.", HW_FIELD_LENGTH, "Tex 30 through 2 layers." },
  { "{unknown} {", HW_FIELD_LENGTH, "{unknown} {" },
  { "", HW_FIELD_LENGTH, "" },
};

static void
test_rules (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON));
  const HwSetup *setup = get_setup (&work, "1");

  for (gsize i = 0; i < G_N_ELEMENTS (rule_cases); i++)
    {
      HwRule rule = { .band = { 2, 2.5, 3 }, .choice = -1, .text = (char *) rule_cases[i].text };
      HwReason reason = { .field = rule_cases[i].field, .code = HW_REASON_RULE, .rule = &rule };

      assert_words (hw_words_reason (work.plan, setup, &reason), rule_cases[i].words);
    }
}

/* Sizes as packets show them, the choice by its name, and the cloth by its own where there are several. */
static void
test_rule_of_cloth (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON
                                                               "<ply fabric='velvet'/>"));
  const HwSetup *setup = get_setup (&work, "1");
  const HwCloth *velvet = &g_array_index (work.plan->cloths, HwCloth, 1);
  HwRule size = { .band = { 70, 80, 90 }, .choice = -1,
                  .text = (char *) "{mass} g/m², {thickness} mm: {low} to {high}." };
  HwRule point = { .band = { NAN, NAN, NAN }, .choice = hw_handbook_find_point (work.handbook, "sharp"),
                   .text = (char *) "Wants the {value}." };
  HwReason about_size = { .field = HW_FIELD_SIZE, .code = HW_REASON_RULE, .rule = &size, .cloth = velvet };
  HwReason about_point = { .field = HW_FIELD_POINT, .code = HW_REASON_RULE, .rule = &point, .cloth = velvet };

  assert_words (hw_words_reason (work.plan, setup, &about_size), "Silk velvet: 300 g/m², 1.2 mm: 70/10 to 90/14.");
  assert_words (hw_words_reason (work.plan, setup, &about_point), "Silk velvet: Wants the sharp.");
}

/* ---- warnings: both sides and the way out ---- */

static const struct { HwField field; HwWarningCode code; double v[3]; const char *words; } warning_cases[] = {
  { HW_FIELD_SIZE, HW_WARN_BOUNDS_CROSS, { 95, 80, 30 },
    "The thread wants a needle of 100/16 or more, and 80/12 is the largest for cotton twill: take thread of tex 30 or "
    "finer." },
  { HW_FIELD_SIZE, HW_WARN_BOUNDS_CROSS, { 100, 80, 0 },
    "Thread and layers want a needle of 100/16 or more, and 80/12 is the largest for cotton twill: try it on a scrap, "
    "and if it leaves holes, choose another point." },
  { HW_FIELD_SIZE, HW_WARN_THREAD_LIMIT, { 46.4, 0, 0 },
    "The thread fills 46 % of the blade of this 80/12 needle and its groove holds 40 %: take a larger needle, a point "
    "with a large eye, or a finer thread." },
  { HW_FIELD_LENGTH, HW_WARN_CLAMPED, { 5, 4, 0 },
    "Stitch length: 5 mm is wanted and this machine reaches 4 mm. Try it on a scrap, or sew the step on a machine that "
    "reaches further." },
  { HW_FIELD_FOOT, HW_WARN_FOOT_LIFT, { 2, 6, 7.22 },
    "The thickest crossing is 7.2 mm under the foot, and the foot lifts 6 mm: flatten it with a hammer or a clapper, "
    "lay a shim behind the foot, and go over it by hand wheel." },
  { HW_FIELD_FOOT, HW_WARN_FOOT_LIFT, { 4.7, 6, 12.9 },
    "The thickest crossing is 12.9 mm under the foot, and the foot lifts 6 mm, which no hammering makes good: cut the "
    "allowances back in steps, stop on either side of it, and sew the gap by hand." },
  { HW_FIELD_FOOT, HW_WARN_FOOT_LIFT, { 6.5, 6, 0 },
    "The layers are 6.5 mm under the foot, and the foot lifts 6 mm: trim layers out of the seam, press it flat, or sew "
    "this one by hand." },
  { HW_FIELD_TWIN, HW_WARN_TWIN_WIDE, { 6, 5, 4 },
    "A twin needle of 6 mm is too wide for this machine, whose plate and swing give 5 mm: take one of 4 mm or less, "
    "and turn the first stitches by hand." },
  { HW_FIELD_TWIN, HW_WARN_TWIN_WIDE, { 2, 0, 0 },
    "A twin needle of 2 mm does not pass this machine, whose plate and swing give 0 mm: sew two rows with a single "
    "needle, in a knit with a stretch stitch or a narrow zigzag." },
  { HW_FIELD_LENGTH, HW_WARN_OVERRIDE_OUTSIDE, { 5, 2, 3 },
    "Stitch length: yours is 5 mm; what passes here is 2 to 3 mm. Try it on a scrap, or take it back." },
  { HW_FIELD_FOOT, HW_WARN_NOT_OWNED, { 2, 0, 0 },
    "This step wants the edge foot, and none of this machine’s feet can stand in for it: note the foot if you have it, "
    "or choose another stitch." },
  { HW_FIELD_PLATE, HW_WARN_NOT_OWNED, { 1, 0, 0 },
    "This step wants the single-hole plate, and none of this machine’s plates can stand in for it: note the plate if "
    "you have it, or choose another stitch." },
  { HW_FIELD_SIZE, HW_WARN_SIZE_NOT_SOLD, { 65, 70, 0 },
    "A needle of 65/9 is wanted, and this point is not sold so: 70/10 is the nearest. Try it on a scrap, or choose "
    "another point." },
  { HW_FIELD_NEEDLE_TEX, HW_WARN_COARSE_THREAD, { 105, 90, 0 },
    "Tex 105 in the needle is coarser than the tex 90 many household machines stop at: look in its manual, or take a "
    "finer thread twice." },
  { HW_FIELD_DIAL, HW_WARN_ESTIMATED, { 0.55, 0, 0 },
    "The thickness of cotton twill was guessed from its mass as 0.55 mm, and the start depends on it: measure several "
    "layers together and note it." },
};

static void
test_warnings (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON));
  const HwSetup *setup = get_setup (&work, "1");
  const HwCloth *cotton = &g_array_index (work.plan->cloths, HwCloth, 0);

  for (gsize i = 0; i < G_N_ELEMENTS (warning_cases); i++)
    {
      HwWarning warning = { .field = warning_cases[i].field, .code = warning_cases[i].code, .cloth = cotton };

      memcpy (warning.v, warning_cases[i].v, sizeof warning.v);
      assert_words (hw_words_warning (work.plan, setup, &warning), warning_cases[i].words);
    }
}

/* ---- the order of work ---- */

static const HwPlanStep *
get_step (const Work *self, gsize index)
{
  return &g_array_index (self->plan->order, HwPlanStep, index);
}

static void
test_changes (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual,
                                   OPERATION ("1", "purpose='seam' share='no' " SEAM_THREADS, TWO_COTTON)
                                   "<hand number='2' name='Press' kind='press' minutes='3' after='1'/>"
                                   OPERATION ("3", "purpose='topstitch' after='2' share='no' " TOP_THREADS,
                                              TWO_COTTON));
  HwPlanStep step = *get_step (&work, 0);

  g_assert_cmpuint (work.plan->order->len, ==, 3);
  assert_words (hw_words_change (work.plan, get_step (&work, 1), get_step (&work, 0)), "By hand");
  /* tex 60 over tex 30: half a number higher; 3.5 mm: 0.4 lower */
  assert_words (hw_words_change (work.plan, get_step (&work, 2), get_step (&work, 1)),
                "Load 90/14 topstitch, ochre tex 60, edge foot, 3.5 mm, dial 4");

  step.changes = 0;
  assert_words (hw_words_change (work.plan, &step, NULL),
                "In the machine now: 80/12 round, navy tex 30, all-purpose foot, 2.5 mm, dial 4");
  assert_words (hw_words_change (work.plan, &step, get_step (&work, 1)),
                "As it stands: 80/12 round, navy tex 30, all-purpose foot, 2.5 mm, dial 4");
  step.changes = HW_CHANGE_THREAD | HW_CHANGE_BOBBIN;
  assert_words (hw_words_change (work.plan, &step, NULL),
                "Thread with navy tex 30, bobbin navy tex 30, 2.5 mm, dial 4");
  step.changes = HW_CHANGE_FOOT | HW_CHANGE_PLATE | HW_CHANGE_STITCH;
  assert_words (hw_words_change (work.plan, &step, NULL),
                "Change to all-purpose foot, zigzag plate, straight, 2.5 mm, dial 4");
  step.changes = HW_CHANGE_SOFT;
  assert_words (hw_words_change (work.plan, &step, NULL), "Set 2.5 mm, dial 4");
}

static void
test_machine_changes (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual,
                                   OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON)
                                   OPERATION ("2", "purpose='neaten' after='1'", TWO_COTTON)
                                   OPERATION ("3", "purpose='seam' after='2' " SEAM_THREADS, TWO_COTTON));
  HwPlanStep other = *get_step (&work, 1);
  HwPlanStep back = *get_step (&work, 2);

  other.changes = HW_CHANGE_MACHINE | HW_CHANGE_NEEDLE;
  assert_words (hw_words_change (work.plan, &other, get_step (&work, 0)),
                "Overlocker: load 80/12 round, 2.5 mm, differential 1.0, dials 3");
  other.changes = HW_CHANGE_MACHINE;
  assert_words (hw_words_change (work.plan, &other, get_step (&work, 0)),
                "Overlocker, as it stands: 80/12 round, polyester tex 18, overlock foot, 2.5 mm, differential 1.0, "
                "dials 3");
  back.changes = HW_CHANGE_MACHINE;
  assert_words (hw_words_change (work.plan, &back, get_step (&work, 1)),
                "Home machine again, as it stands: 80/12 round, navy tex 30, all-purpose foot, 2.5 mm, dial 4");
  back.changes = HW_CHANGE_MACHINE | HW_CHANGE_SOFT;
  assert_words (hw_words_change (work.plan, &back, get_step (&work, 1)), "Home machine again: set 2.5 mm, dial 4");
}

/* A block that is half sewn stands as its last step left it, not as its first began it. */
static void
test_half_sewn (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual,
                                   OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON)
                                   OPERATION ("2", "purpose='seam' after='1' " SEAM_THREADS, TWO_COTTON)
                                   OPERATION ("3", "purpose='seam' after='2' " SEAM_THREADS, TWO_COTTON));
  HwPlanStep *steps = &g_array_index (work.plan->order, HwPlanStep, 0);
  g_autofree char *row = NULL;
  g_autofree char *head = NULL;

  g_assert_cmpint (steps[0].group, ==, steps[2].group);
  work.plan->setups[steps[2].step]->values[HW_FIELD_LENGTH].value = 2.2;
  steps[0].done = steps[1].done = TRUE;
  steps[2].changes = 0;                  /* whichever of the two was sewn last: nothing need be set for the third */
  assert_words (hw_words_block (work.plan, steps, NULL),
                "In the machine now: 80/12 round, navy tex 30, all-purpose foot, 2.2 mm, dial 4");
  work.plan->setups[steps[1].step]->values[HW_FIELD_LENGTH].value = 2.2;
  work.plan->setups[steps[2].step]->values[HW_FIELD_LENGTH].value = 3;
  steps[2].changes = HW_CHANGE_SOFT;
  assert_words (hw_words_block (work.plan, steps, NULL),
                "In the machine now: 80/12 round, navy tex 30, all-purpose foot, 2.2 mm, dial 4");
  row = hw_words_row_amount (work.plan, &steps[2], FALSE);
  head = hw_words_row_amount (work.plan, &steps[2], TRUE);
  g_assert_true (g_str_has_prefix (row, "Set length 3 mm; "));     /* the dial stays */
  g_assert_true (g_str_has_suffix (row, head));
  steps[2].done = TRUE;
  assert_words (hw_words_block (work.plan, steps, NULL),
                "Sewn with 80/12 round, navy tex 30, all-purpose foot, 2.5 mm, dial 4");
}

/* Whoever begins at a machine is told all that is in it; whoever goes on there, what changes. */
static void
test_first_block (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual,
                                   OPERATION ("1", "purpose='seam' share='no' " SEAM_THREADS, TWO_COTTON)
                                   OPERATION ("2", "purpose='topstitch' after='1' share='no' " TOP_THREADS,
                                              TWO_COTTON));
  HwPlanStep *first = &g_array_index (work.plan->order, HwPlanStep, 0);
  HwPlanStep *second = &g_array_index (work.plan->order, HwPlanStep, 1);

  first->changes = HW_CHANGE_THREAD;
  assert_words (hw_words_block (work.plan, first, NULL),
                "Thread with navy tex 30, 2.5 mm, dial 4; in the machine: 80/12 round, all-purpose foot");
  first->changes = HW_CHANGE_SOFT;
  assert_words (hw_words_block (work.plan, first, NULL),
                "Set 2.5 mm, dial 4; in the machine: 80/12 round, navy tex 30, all-purpose foot");
  first->changes = HW_CHANGE_NEEDLE | HW_CHANGE_THREAD | HW_CHANGE_FOOT;
  assert_words (hw_words_block (work.plan, first, NULL),
                "Load 80/12 round, navy tex 30, all-purpose foot, 2.5 mm, dial 4");
  second->changes = HW_CHANGE_FOOT;
  assert_words (hw_words_block (work.plan, second, first), "Change to edge foot, 3.5 mm, dial 4");
}

/* With several machines in a plan no heading leaves it open which one is meant; with one, its name is not repeated. */
static void
test_headings (void)
{
  g_auto (Work) one = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON));
  g_auto (Work) two = plan_steps (&workroom_usual,
                                  OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON)
                                  OPERATION ("2", "purpose='neaten' after='1'", TWO_COTTON));
  HwPlanStep first = *get_step (&two, 0);
  HwPlanStep other = *get_step (&two, 1);
  HwPlanStep only = *get_step (&one, 0);

  first.changes = HW_CHANGE_MACHINE | HW_CHANGE_NEEDLE | HW_CHANGE_THREAD;
  assert_words (hw_words_heading (two.plan, &first, NULL),
                "Home machine: load 80/12 round, navy tex 30, 2.5 mm, dial 4");
  first.changes = HW_CHANGE_FOOT;
  assert_words (hw_words_heading (two.plan, &first, get_step (&two, 1)),
                "Home machine: change to all-purpose foot, 2.5 mm, dial 4");
  first.changes = 0;
  assert_words (hw_words_heading (two.plan, &first, NULL),
                "Home machine, now in it: 80/12 round, navy tex 30, all-purpose foot, 2.5 mm, dial 4");
  assert_words (hw_words_heading (two.plan, &first, get_step (&two, 1)),
                "Home machine, as it stands: 80/12 round, navy tex 30, all-purpose foot, 2.5 mm, dial 4");
  assert_words (hw_words_sewn_with (two.plan, &first),
                "Home machine: sewn with 80/12 round, navy tex 30, all-purpose foot, 2.5 mm, dial 4");
  other.changes = HW_CHANGE_MACHINE;
  assert_words (hw_words_heading (two.plan, &other, &first),
                "Overlocker, as it stands: 80/12 round, polyester tex 18, overlock foot, 2.5 mm, differential 1.0, "
                "dials 3");

  only.changes = HW_CHANGE_NEEDLE;
  assert_words (hw_words_heading (one.plan, &only, NULL), "Load 80/12 round, 2.5 mm, dial 4");
  only.changes = 0;
  assert_words (hw_words_heading (one.plan, &only, NULL),
                "In the machine now: 80/12 round, navy tex 30, all-purpose foot, 2.5 mm, dial 4");
}

static const struct { HwChangeTotals totals; const char *words; } totals_cases[] = {
  { { 5.2, 2, 1, 0, 0, 3 }, "3 changes of needle, thread, foot or stitch (2 needles), 5 minutes" },
  { { 1, 1, 0, 0, 0, 1 }, "1 change of needle, thread, foot or stitch (1 needle), 1 minute" },
  { { 2, 0, 1, 1, 0, 2 }, "2 changes of needle, thread, foot or stitch, 2 minutes" },
  { { 0.2, 0, 0, 1, 0, 1 }, "1 change of needle, thread, foot or stitch, under a minute" },
  { { 0, 0, 0, 0, 0, 0 }, "nothing to change" },
};

static void
test_totals (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (totals_cases); i++)
    assert_words (hw_words_totals (&totals_cases[i].totals), totals_cases[i].words);
}

/* ---- what is in the machine, what comes next ---- */

static void
test_picks (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON));
  HwNeedle needle = { .point = (char *) "round", .nm = 80, .at_machine_hours = 6.24 };
  HwPacket packet = { .nm = 80 };
  HwNeedlePick pick = { .point = hw_handbook_find_point (work.handbook, "round"), .size_nm = 80, .again = -1 };

  pick.buy = TRUE;
  assert_words (hw_words_pick (work.plan, &pick), "80/12 round, to buy");
  pick.buy = FALSE;
  pick.packet = &packet;
  assert_words (hw_words_pick (work.plan, &pick), "80/12 round, new");
  pick.packet = NULL;
  pick.worn = &needle;
  pick.hours_left = 8.76;
  pick.worn_before = -1;
  assert_words (hw_words_pick (work.plan, &pick), "80/12 round, 8.8 h left");
  assert_words (hw_words_pick_state (work.plan, &pick), "part-worn, 8.8 h left");
  pick.worn_before = 0;
  assert_words (hw_words_pick_state (work.plan, &pick), "part-worn, 8.8 h left, runs out in step 1");
  pick.again = 0;
  assert_words (hw_words_pick (work.plan, &pick), "80/12 round, again, 8.8 h left");
}

static void
test_now (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON)
                                                    OPERATION ("2", "purpose='seam' after='1' " SEAM_THREADS,
                                                               TWO_COTTON));
  HwNow now = hw_plan_now (work.plan, NULL);
  HwNeedle needle = { .point = (char *) "round", .nm = 80 };
  HwNeedlePick pick = { .size_nm = 80, .again = -1 };

  assert_words (hw_words_needle_now (work.plan, &now), "no needle noted yet");
  now.needle = &needle;
  now.hours_used = 6.2;
  now.hours_limit = 15;
  assert_words (hw_words_needle_now (work.plan, &now), "80/12 round, 6.2 of 15 h");
  now.worn_step = 1;
  assert_words (hw_words_needle_now (work.plan, &now), "80/12 round, 6.2 of 15 h, runs out in step 2");
  now.worn_step = -1;
  needle.point = (char *) "of another handbook";
  assert_words (hw_words_needle_now (work.plan, &now), "80/12, 6.2 of 15 h");

  now.next = &pick;
  now.next_step = 1;
  assert_words (hw_words_next_when (work.plan, &now), "Load next, before step 2");
  now.next_step = 0;
  assert_words (hw_words_next_when (work.plan, &now), "Load now, before step 1");
  assert_words (hw_words_next (work.plan, &now), "80/12 round, new");
  now.next = NULL;
  assert_words (hw_words_next_when (work.plan, &now), "Load next");
  assert_words (hw_words_next (work.plan, &now), "nothing more to load");
}

static void
test_care (void)
{
  g_auto (Work) work = plan_steps (&workroom_usual, OPERATION ("1", "purpose='seam' " SEAM_THREADS, TWO_COTTON));
  HwNow now = hw_plan_now (work.plan, NULL);

  now.care = -1;
  g_assert_null (hw_words_care_due (work.plan, &now));
  now.care = hw_handbook_find_care (work.handbook, "dust");
  now.care_step = 0;
  assert_words (hw_words_care_due (work.plan, &now), "Dust first: 8 h in step 1");
}

/* ---- the shipped handbook, over whole garments ---- */

static const char * const garments[] = { "wrap-skirt", "t-shirt", "jeans", "velvet-jacket", "unknown-cloth" };

/* A sentence: begins with a capital or a figure, ends with a full stop, has nothing left to fill in. */
static void
assert_sentence (char *text)
{
  g_test_message ("%s", text);
  g_assert_true (g_unichar_isupper (g_utf8_get_char (text)) || !g_unichar_isalpha (g_utf8_get_char (text)));
  g_assert_true (g_str_has_suffix (text, "."));
  g_assert_null (strstr (text, "(null)"));
  g_assert_null (strpbrk (text, "{}\n"));
  g_free (text);
}

static void
check_setup (const HwPlan *plan, const HwSetup *setup)
{
  for (guint i = 0; i < setup->reasons->len; i++)
    assert_sentence (hw_words_reason (plan, setup, &g_array_index (setup->reasons, HwReason, i)));
  for (guint i = 0; i < setup->warnings->len; i++)
    assert_sentence (hw_words_warning (plan, setup, &g_array_index (setup->warnings, HwWarning, i)));
  for (int field = 0; field < HW_N_FIELDS; field++)
    {
      g_autofree char *value = hw_words_value (plan, setup, (HwField) field);

      g_assert_cmpstr (value, !=, "");
    }
}

static void
test_garment (gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "household", 3);
  g_autoptr (HwProject) project = workroom_garment (data);
  g_autoptr (HwPlan) plan = hw_plan_new (handbook, project, room, &error);

  g_assert_no_error (error);
  for (gsize i = 0; i < plan->n_steps; i++)
    if (plan->setups[i] != NULL)
      check_setup (plan, plan->setups[i]);
}

static void
test_titles (void)
{
  assert_words (hw_words_title ("side seams"), "Side seams");
  assert_words (hw_words_title ("Side seams"), "Side seams");
  assert_words (hw_words_title ("ärmel einsetzen"), "Ärmel einsetzen");
  assert_words (hw_words_title ("élastique"), "Élastique");
  assert_words (hw_words_title ("eBook sleeve"), "eBook sleeve");
  assert_words (hw_words_title ("2 rows"), "2 rows");
  assert_words (hw_words_title ("x"), "X");
  assert_words (hw_words_title (""), "");
}

static const struct { const char *names[4]; int zips; } zips[] = {
  { { "Zip, first side", "zip, second side" }, 1 }, { { "Set the zip" }, 1 },
  { { "Left pocket zip", "Right pocket zip" }, 2 },        /* a whole one each */
  { { "Zip to the left front", "Zip to the right front" }, 1 },
  { { "One side of the zip", "Other side of the zip", "Zip, first side" }, 2 }, { { NULL }, 0 },
};

static void
test_zips (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (zips); i++)
    {
      g_autoptr (GString) inside = g_string_new ("<fabrics><fabric id='c' name='Canvas' handbook='canvas'/></fabrics>"
                                                 "<threads><thread id='t' handbook='polyester-30'/></threads><steps>");
      g_autoptr (HwProject) project = NULL;

      for (gsize n = 0; n < G_N_ELEMENTS (zips[i].names) && zips[i].names[n] != NULL; n++)
        g_string_append_printf (inside, "<operation number='%u' name='%s' purpose='zip' length-cm='20'>"
                                "<ply fabric='c'/></operation>", (guint) n + 1, zips[i].names[n]);
      g_string_append (inside, "</steps>");
      project = workroom_parse (inside->str);
      g_assert_cmpint (hw_words_count_zips (project), ==, zips[i].zips);
    }
}

static const struct { const char *path; GTestFunc run; } tests[] = {
  { "/words/number", test_number },
  { "/words/half", test_half },
  { "/words/measures", test_measures },
  { "/words/style", test_style },
  { "/words/minutes", test_minutes },
  { "/words/decimal-comma", test_decimal_comma },
  { "/words/sizes", test_sizes },
  { "/words/needles", test_needles },
  { "/words/pressure", test_pressure },
  { "/words/ends", test_ends },
  { "/words/checks", test_checks },
  { "/words/verdicts", test_verdicts },
  { "/words/cautions", test_cautions },
  { "/words/sources", test_sources },
  { "/words/threads", test_threads },
  { "/words/layers", test_layers },
  { "/words/sewn-length", test_sewn_length },
  { "/words/values", test_values },
  { "/words/values/overlock", test_overlock_values },
  { "/words/values/dial-ground", test_dial_ground },
  { "/words/values/line-from", test_line_from },
  { "/words/values/twin", test_twin_values },
  { "/words/values/own-stitch", test_own_stitch },
  { "/words/bands/open", test_open_bands },
  { "/words/fields", test_fields },
  { "/words/titles", test_titles },
  { "/words/zips", test_zips },
  { "/words/reasons/size", test_size_reasons },
  { "/words/reasons/dial", test_dial_reasons },
  { "/words/reasons/terms", test_term_reasons },
  { "/words/reasons/overrides", test_override_reasons },
  { "/words/reasons/limits", test_limit_reasons },
  { "/words/reasons/at-hand", test_at_hand_reason },
  { "/words/reasons/agreed", test_agreed_reason },
  { "/words/rules", test_rules },
  { "/words/rules/cloth", test_rule_of_cloth },
  { "/words/warnings", test_warnings },
  { "/words/changes", test_changes },
  { "/words/changes/machine", test_machine_changes },
  { "/words/changes/headings", test_headings },
  { "/words/changes/first-block", test_first_block },
  { "/words/changes/half-sewn", test_half_sewn },
  { "/words/totals", test_totals },
  { "/words/picks", test_picks },
  { "/words/now", test_now },
  { "/words/care", test_care },
};

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add_func (tests[i].path, tests[i].run);
  for (gsize i = 0; i < G_N_ELEMENTS (garments); i++)
    {
      g_autofree char *path = g_strconcat ("/words/garments/", garments[i], NULL);

      g_test_add_data_func (path, garments[i], test_garment);
    }
  return g_test_run ();
}
