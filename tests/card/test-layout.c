/* test-layout.c - what stands on a card, how large, and that nothing lies on anything else
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card-checks.h"
#include "sample-plan.h"

#include <stdlib.h>
#include <string.h>

#include <pango/pangocairo.h>

#include "card/card.h"

static const char * const kinds[] = { "text", "line", "dial", "section", "along", "gauge", "ruler", "letter", "tickbox",
                                      "pin" };

static const HwBox *
find_box (const HwCard *card,
          const char   *role)
{
  const GArray *boxes = hw_card_get_boxes (card);

  for (guint i = 0; i < boxes->len; i++)
    if (card_box_has_role (&g_array_index (boxes, HwBox, i), role))
      return &g_array_index (boxes, HwBox, i);
  return NULL;
}

static const HwBox *
find_last (const HwCard *card,
           const char   *role)
{
  const GArray *boxes = hw_card_get_boxes (card);

  for (guint i = boxes->len; i > 0; i--)
    if (card_box_has_role (&g_array_index (boxes, HwBox, i - 1), role))
      return &g_array_index (boxes, HwBox, i - 1);
  return NULL;
}

static void
assert_text (const HwCard *card,
             const char   *role,
             const char   *text)
{
  const HwBox *box = find_box (card, role);

  g_assert_nonnull (box);
  g_assert_cmpstr (box->text, ==, text);
}

/* Numbers, changes and what is sewn meanwhile, as they are read. (transfer full) */
static char *
list_between (const HwCard *card)
{
  const GArray *boxes = hw_card_get_boxes (card);
  g_autoptr (GString) list = g_string_new (NULL);

  for (guint i = 0; i < boxes->len; i++)
    {
      const HwBox *box = &g_array_index (boxes, HwBox, i);

      if (card_box_has_role (box, "step-number") || card_box_has_role (box, "step-change")
          || card_box_has_role (box, "then"))
        g_string_append_printf (list, "%s | ", box->text);
    }
  return g_string_free (g_steal_pointer (&list), FALSE);
}

/* ---- golden: roles, strings, page numbers ---- */

static void
append_box (GString     *out,
            const HwBox *box)
{
  g_string_append_printf (out, "  %s %s", kinds[box->kind], box->role);
  if (box->text != NULL)
    g_string_append_printf (out, " “%s”%s", box->text, box->slanted ? " slanted" : box->muted ? " muted" : "");
  if (box->kind == HW_BOX_DIAL)
    g_string_append_printf (out, " start %g, likely %g to %g", box->value[0], box->value[1], box->value[2]);
  if (box->kind == HW_BOX_GAUGE)
    g_string_append_printf (out, " %g mm, %g stitches", box->value[0], box->value[1]);
  if (box->kind == HW_BOX_ALONG)
    g_string_append_printf (out, " balance %g", box->value[0]);
  g_string_append_c (out, '\n');
}

static void
assert_golden (const char *name,
               const char *text)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "card", "golden", name, NULL);
  g_autofree char *expected = NULL;
  g_autoptr (GError) error = NULL;
  g_auto (GStrv) lines = NULL;
  g_auto (GStrv) expected_lines = NULL;

  if (g_getenv ("UPDATE_GOLDEN") != NULL)
    {
      g_assert_true (g_file_set_contents (path, text, -1, &error));
      return;
    }
  g_assert_true (g_file_get_contents (path, &expected, NULL, &error));
  lines = g_strsplit (text, "\n", -1);
  expected_lines = g_strsplit (expected, "\n", -1);
  for (gsize i = 0; lines[i] != NULL || expected_lines[i] != NULL; i++)
    if (g_strcmp0 (lines[i], expected_lines[i]) != 0)
      {
        g_test_message ("%s:%d: expected “%s”, found “%s”", name, (int) i + 1, expected_lines[i], lines[i]);
        g_test_fail ();
        return;
      }
}

static void
test_golden (gconstpointer data)
{
  HwPaper paper = GPOINTER_TO_INT (data) ? HW_PAPER_A6 : HW_PAPER_A5;
  const SampleOptions options = { 4, TRUE, FALSE, HW_DIAL_EDGE_WHEEL, TRUE };
  g_autoptr (Sample) sample = sample_new (&options);
  g_autoptr (GString) out = g_string_new (NULL);
  g_autofree char *name = g_strdup_printf ("sample-%s.txt", hw_paper_ids[paper]);
  int n_pages = 0;

  for (int group = 0; group < N_SAMPLE_GROUPS; group++)
    {
      g_autoptr (GPtrArray) cards = hw_card_layout (sample_get_plan (sample), group, paper, NULL);

      for (guint card = 0; card < cards->len; card++)
        {
          const GArray *boxes = hw_card_get_boxes (cards->pdata[card]);

          g_string_append_printf (out, "page %d\n", ++n_pages);
          for (guint i = 0; i < boxes->len; i++)
            append_box (out, &g_array_index (boxes, HwBox, i));
        }
    }
  assert_golden (name, out->str);
}

/* ---- size ---- */

/* In the order of size that a card promises: each is at most as large as the one before. */
static const char * const hierarchy[] = {
  "needle-size", "needle-point", "needle-thread", "bobbin-thread", "stitch", "stitch-length", "stitch-width",
  "dial-start", "foot",
  "pressure",
};

static void
check_hierarchy (const HwCard *card)
{
  double before = G_MAXDOUBLE;

  for (gsize i = 0; i < G_N_ELEMENTS (hierarchy); i++)
    {
      const HwBox *box = find_box (card, hierarchy[i]);

      if (box == NULL)
        continue;
      g_assert_cmpfloat (box->font_pt, <=, before + 1e-9);
      /* A long value shrinks before it wraps; what follows is measured against the size it would have had. */
      if (!g_str_has_suffix (hierarchy[i], "point"))
        before = MAX (box->font_pt, card_check_is_set (box) ? 11 : 0);
    }
  g_assert_cmpfloat (find_box (card, "needle-size")->font_pt, >, 1.5 * find_box (card, "needle-thread")->font_pt);
}

static void
test_sizes (void)
{
  const SampleOptions options = { 3, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);

  for (int group = 0; group < N_SAMPLE_GROUPS; group++)
    for (int is_small = 0; is_small <= 1; is_small++)
      {
        g_autoptr (HwCard) card = card_first (sample_get_plan (sample), group, is_small ? HW_PAPER_A6 : HW_PAPER_A5,
                                                  NULL);

        card_check_sizes (card, is_small);
        if (group == SAMPLE_LOCKSTITCH || group == SAMPLE_TOPSTITCH)
          check_hierarchy (card);
      }
}

/* ---- room ---- */

static void
check_cards (const Sample *sample,
             int           group,
             HwPaper       paper,
             const char   *what)
{
  const HwPlan *plan = sample_get_plan (sample);
  g_autoptr (GPtrArray) cards = hw_card_layout (plan, group, paper, NULL);

  for (guint i = 0; i < cards->len; i++)
    {
      g_autofree char *which = g_strdup_printf ("%s, %s, group %d, card %u", what, hw_paper_ids[paper], group, i + 1);

      card_check_room (cards->pdata[i], which);
      card_check_uncut (cards->pdata[i], which);
      card_check_sizes (cards->pdata[i], paper == HW_PAPER_A6);
    }
  card_check_list (plan, group, (HwCard * const *) cards->pdata, cards->len, paper == HW_PAPER_A6, what);
}

static void
test_room (gconstpointer data)
{
  HwPaper paper = GPOINTER_TO_INT (data) ? HW_PAPER_A6 : HW_PAPER_A5;

  for (int n = 1; n <= 20; n++)
    for (int variant = 0; variant < 4; variant++)
      {
        const SampleOptions options = { n, variant & 1, (variant & 2) != 0, (HwDialForm) (n % 3), n % 4 > 1 };
        g_autoptr (Sample) sample = sample_new (&options);

        g_autofree char *what = g_strdup_printf ("%d steps, variant %d", n, variant);

        for (int group = 0; group < (n == 3 ? N_SAMPLE_GROUPS : 1); group++)
          check_cards (sample, group, paper, what);
      }
}

/* ---- many steps ---- */

/* Twenty steps and more, with one, two and three settings that differ from step to step. */
static void
test_many_steps (gconstpointer data)
{
  HwPaper paper = GPOINTER_TO_INT (data) ? HW_PAPER_A6 : HW_PAPER_A5;

  for (int n = 16; n <= 26; n += 5)
    for (int variant = 0; variant < 8; variant++)
      {
        const SampleOptions options = { n, (variant & 1) != 0, (variant & 2) != 0, HW_DIAL_EDGE_WHEEL, TRUE };
        g_autoptr (Sample) sample = sample_new (&options);
        g_autofree char *what = g_strdup_printf ("%d steps, variant %d", n, variant);

        for (int i = 0; i < n && (variant & 4) != 0; i += 5)
          sample_get_setup (sample, (gsize) i)->values[HW_FIELD_ALLOWANCE].value = 6;
        check_cards (sample, SAMPLE_LOCKSTITCH, paper, what);
      }
}

/* ---- what the card says ---- */

static void
test_lockstitch (void)
{
  const SampleOptions options = { 4, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  g_autoptr (HwCard) card = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);

  assert_text (card, "title", "Market-day skirt");
  assert_text (card, "letter", "A");
  assert_text (card, "needle-size", "80/12");
  assert_text (card, "needle-point", "round point (R)");
  assert_text (card, "needle-thread", "navy, tex 30");
  assert_text (card, "stitch-length", "length 2.5 mm");
  assert_text (card, "dial-start", "start at 4");
  assert_text (card, "dial-likely", "likely 3 to 5");
  assert_text (card, "line", "follow the 15\302\240mm line");
  g_assert_cmpuint (card_count_boxes (card, "check"), ==, 6);
  g_assert_cmpuint (card_count_boxes (card, "verdict-along"), ==, 3);
  g_assert_cmpuint (card_count_boxes (card, "remedy"), ==, 3);
  g_assert_cmpuint (card_count_boxes (card, "step-tick"), ==, 4);
  g_assert_cmpuint (card_count_boxes (card, "pin"), ==, 1);
  g_assert_cmpuint (card_count_boxes (card, "gauge"), ==, 3);
  /* The set-up is left after step 2 and come back to. */
  assert_text (card, "then", "Now set-up B, step 41; then on here");
  assert_text (card, "step-then", "B");
  g_assert_cmpuint (card_count_boxes (card, "step-then"), ==, 1);
  g_assert_true (g_str_has_prefix (find_box (card, "after")->text, "Set-up C for step 42. "));
}

/* A spool without a colour is told by the number on its label; tex stands above it. */
static void
test_ticket (void)
{
  const SampleOptions options = { 2, FALSE, FALSE, HW_DIAL_NUMBER, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  const HwPlan *plan = sample_get_plan (sample);
  g_autoptr (HwCard) navy = NULL;
  g_autoptr (HwCard) plain = NULL;
  const HwThreadChoice *thread = hw_plan_get_group (plan, SAMPLE_LOCKSTITCH)->needle_thread;

  ((HwThreadEntry *) thread->entry)->ticket = 120;
  navy = card_first (plan, SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  g_clear_pointer (&((HwProjectThread *) thread->thread)->colour, g_free);
  plain = card_first (plan, SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  assert_text (navy, "needle-thread-note", "polyester, in the needle");
  assert_text (plain, "needle-thread-note", "ticket 120, in the needle");
}

static void
test_overlock (void)
{
  const SampleOptions options = { 2, FALSE, FALSE, HW_DIAL_NUMBER, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  g_autoptr (HwCard) card = card_first (sample_get_plan (sample), SAMPLE_OVERLOCK, HW_PAPER_A5, NULL);

  assert_text (card, "dial-start", "start at 3 3 3");
  g_assert_cmpuint (card_count_boxes (card, "dial"), ==, 3);
  assert_text (card, "bobbin-thread-note", "polyester, in both loopers");
  assert_text (card, "differential", "differential feed 1");
  assert_text (card, "stitch-width", "cutting width 5\302\240mm");
  assert_text (card, "ends", "chained off at both ends");
  g_assert_null (find_box (card, "plate"));
  g_assert_cmpuint (card_count_boxes (card, "verdict-along"), ==, 3);
  g_assert_nonnull (strstr (find_box (card, "verdict")->text, "looper"));
}

static void
test_twin (void)
{
  const SampleOptions options = { 2, FALSE, FALSE, HW_DIAL_KNOB, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  g_autoptr (HwCard) card = card_first (sample_get_plan (sample), SAMPLE_TWIN, HW_PAPER_A5, NULL);

  assert_text (card, "needle-size", "4.0/75");
  g_assert_true (g_str_has_prefix (find_box (card, "needle-point")->text, "twin needle"));
  assert_text (card, "needle-thread-note", "polyester, in both needles");
}

static void
test_soft_parts (void)
{
  const SampleOptions options = { 4, TRUE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  g_autoptr (HwCard) card = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  g_autofree char *list = list_between (card);

  /* The sample's second step is longer, its third on another dial. Where the set-up is come back to, what is other than
   * the large values is said even if it stays. */
  g_assert_cmpstr (list, ==, "1 | From here: length\302\2403\302\240mm | 2 | Now set-up B, step 41; then on here | "
                   "From here: length\302\2402.5\302\240mm, dial\302\2403½ | 3 | From here: dial\302\2404 | 4 | ");
  assert_text (card, "stitch-label", "Stitch, step 1");
}

/* Beside the first step of two medium layers. */
static void
set_cause (const Sample  *sample,
           gsize          step,
           HwTensionTerm  term,
           double         amount)
{
  HwReason reason = { .field = HW_FIELD_DIAL, .code = HW_REASON_DIAL_TERM, .v = { term, amount } };

  g_array_append_val (sample_get_setup (sample, step)->reasons, reason);
}

/* Two layers, then four: the dial goes down, and the list says for what; the scrap has the layers of the first step. */
static void
test_layers (void)
{
  const SampleOptions options = { 4, TRUE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  g_autoptr (HwCard) card = NULL;
  HwStep *thick = (HwStep *) sample_get_setup (sample, 2)->step;

  set_cause (sample, 2, HW_TENSION_THICKER, -0.7);
  thick->plies[0].count = 4;
  card = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  assert_text (card, "step-why", "thicker: 4 layers");
  g_assert_nonnull (find_box (card, "step-layers"));
  g_assert_true (g_str_has_suffix (find_box (card, "test-label")->text, ", as step 1"));
}

/* Where as many layers were sewn at another dial, their number is no reason: how thick they are is one, if it is. */
static void
test_layers_as_before (void)
{
  const SampleOptions options = { 4, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  static const double mm[] = { 1.6, 2.46, 0.8, 2.44 };
  g_autoptr (HwCard) card = NULL;
  g_autoptr (HwCard) alike = NULL;

  for (gsize i = 0; i < 4; i++)
    {
      ((HwStep *) sample_get_setup (sample, i)->step)->plies[0].count = i == 2 ? 2 : 6;
      sample_get_setup (sample, i)->under_foot_mm = mm[i];
    }
  sample_get_setup (sample, 3)->values[HW_FIELD_DIAL].value = 3.5;
  set_cause (sample, 3, HW_TENSION_THICKER, -0.7);
  alike = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  sample_get_setup (sample, 1)->under_foot_mm = 1.6;
  card = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  g_assert_null (find_box (alike, "step-why"));
  assert_text (card, "step-why", "thicker: 2.4 mm under the foot");
}

/* Of several causes the one that weighs most is told, and none where another weighs more than both that are told, the
 * number is the person's own, or it was moved only to serve more steps. */
static void
test_why_weighs_most (void)
{
  const SampleOptions options = { 4, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  static const struct { double thicker, longer, pile; HwOrigin origin; double agreed; const char *why; } cases[] = {
    { -0.7, -0.2, 0, HW_ORIGIN_PREFERRED, 0, "thicker: 6 layers" },
    { -0.2, -0.3, 0, HW_ORIGIN_PREFERRED, 0, "a longer stitch" },
    { -0.2, -0.3, -0.5, HW_ORIGIN_PREFERRED, 0, NULL },
    { -0.7, -0.2, 0, HW_ORIGIN_OVERRIDDEN, 0, NULL },
    { -0.7, -0.2, 0, HW_ORIGIN_AGREED, 3, "thicker: 6 layers" },
    { 0, -0.2, 0, HW_ORIGIN_AGREED, 4, NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (Sample) sample = sample_new (&options);
      g_autoptr (HwCard) card = NULL;
      HwValue *dial = &sample_get_setup (sample, 1)->values[HW_FIELD_DIAL];
      HwReason agreed = { .field = HW_FIELD_DIAL, .code = HW_REASON_AGREED, .v = { cases[i].agreed } };

      ((HwStep *) sample_get_setup (sample, 1)->step)->plies[0].count = 6;
      dial->value = 3.5;
      dial->origin = cases[i].origin;
      set_cause (sample, 1, HW_TENSION_THICKER, cases[i].thicker);
      set_cause (sample, 1, HW_TENSION_LONGER, cases[i].longer);
      set_cause (sample, 1, HW_TENSION_PILE, cases[i].pile);
      if (cases[i].origin == HW_ORIGIN_AGREED)
        g_array_append_val (sample_get_setup (sample, 1)->reasons, agreed);
      card = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
      g_assert_nonnull (find_box (card, "step-change"));
      if (cases[i].why != NULL)
        assert_text (card, "step-why", cases[i].why);
      else
        g_assert_null (find_box (card, "step-why"));
    }
}

static void
set_likely (const Sample *sample,
            gsize         step,
            double        low,
            double        high)
{
  sample_get_setup (sample, step)->dial_likely_low = low;
  sample_get_setup (sample, step)->dial_likely_high = high;
}

static void
assert_likely (const Sample *sample,
               HwPaper       paper,
               const char   *label,
               const char   *likely,
               double        low,
               double        high)
{
  g_autoptr (HwCard) card = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, paper, NULL);

  assert_text (card, "dial-label", label);
  assert_text (card, "dial-start", "start at 4");
  assert_text (card, "dial-likely", likely);
  g_assert_cmpfloat (find_box (card, "dial")->value[1], ==, low);
  g_assert_cmpfloat (find_box (card, "dial")->value[2], ==, high);
}

/* One dial over steps of other layers, each with a band of its own: the card tells what is likely for all of them, or
 * for whom it is; the drawing has what the words have. */
static void
test_likely_for_all (void)
{
  const SampleOptions options = { 4, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);

  ((HwStep *) sample_get_setup (sample, 1)->step)->plies[0].count = 6;
  set_likely (sample, 1, 2.5, 4.5);
  set_likely (sample, 2, 3.5, 5.5);
  assert_likely (sample, HW_PAPER_A5, "Tension for 2 to 6 layers", "likely 3½ to 4½", 3.5, 4.5);
  set_likely (sample, 2, 4.5, 6.5);
  assert_likely (sample, HW_PAPER_A5, "Tension for 2 to 6 layers", "likely 4 to 4½", 4, 4.5);
  set_likely (sample, 1, 2, 4);
  assert_likely (sample, HW_PAPER_A5, "Needle thread tension, step 1", "likely 3 to 5", 3, 5);
  assert_likely (sample, HW_PAPER_A6, "Tension, step 1", "likely 3 to 5", 3, 5);
}

/* Where the list sets the dial anew, its heading names the steps that are sewn by the large number: as many as there is
 * room to name, and one only where it is the only one. */
static void
test_dial_of_some (void)
{
  const SampleOptions options = { 4, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);

  set_likely (sample, 1, 2.5, 4.5);
  sample_get_setup (sample, 2)->values[HW_FIELD_DIAL].value = 3.5;
  set_likely (sample, 2, 1, 2);
  assert_likely (sample, HW_PAPER_A5, "Needle thread tension, steps 1 2 4", "likely 3 to 4½", 3, 4.5);
  assert_likely (sample, HW_PAPER_A6, "Tension, steps 1 2", "likely 3 to 4½", 3, 4.5);
  sample_get_setup (sample, 1)->values[HW_FIELD_DIAL].value = 3;
  sample_get_setup (sample, 3)->values[HW_FIELD_DIAL].value = 3;
  assert_likely (sample, HW_PAPER_A5, "Needle thread tension, step 1", "likely 3 to 5", 3, 5);
}

static void
test_dial_of_many (void)
{
  const SampleOptions options = { 10, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);

  sample_get_setup (sample, 9)->values[HW_FIELD_DIAL].value = 3.5;
  assert_likely (sample, HW_PAPER_A5, "Needle thread tension, steps 1 to 9", "likely 3 to 5", 3, 5);
  sample_get_setup (sample, 5)->values[HW_FIELD_DIAL].value = 3.5;
  assert_likely (sample, HW_PAPER_A5, "Tension, steps 1 2 3 4 5 7 8 9", "likely 3 to 5", 3, 5);
}

/* A beginner has a universal needle at hand: where it passes for every step of the set-up the card says so. */
static void
test_universal (void)
{
  const SampleOptions options = { 2, TRUE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  const HwPlan *plan = sample_get_plan (sample);
  int sizes[] = { 80 };
  HwPoint *universal = NULL;
  g_autoptr (HwCard) small = NULL;
  g_autoptr (HwCard) unsold = card_first (plan, SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  g_autoptr (HwCard) card = NULL;
  g_autoptr (HwCard) other = NULL;

  for (gsize i = 0; i < plan->handbook->n_points; i++)
    if (g_str_equal (plan->handbook->points[i].entry.id, "universal"))
      universal = &plan->handbook->points[i];
  plan->handbook->systems[0].entry.name = (char *) "130/705 H";       /* as short as it is, there is room beside it */
  universal->sizes = sizes;
  universal->n_sizes = 1;
  card = card_first (plan, SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  small = card_first (plan, SAMPLE_LOCKSTITCH, HW_PAPER_A6, NULL);
  sample_get_setup (sample, 1)->values[HW_FIELD_POINT].accept = 1;
  other = card_first (plan, SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  g_assert_null (find_box (unsold, "needle-universal"));
  assert_text (card, "needle-universal", "or universal");
  g_assert_cmpfloat (find_box (card, "needle-universal")->font_pt, >=, 11);
  g_assert_cmpfloat (find_box (card, "needle-system")->x, >, find_box (card, "needle-universal")->x);
  assert_text (small, "needle-universal", "or universal");
  g_assert_cmpfloat (find_box (small, "needle-universal")->font_pt, >=, 9);
  g_assert_null (find_box (other, "needle-universal"));
}

/* As many layers, and yet thicker: the cloth is what makes it so. */
static void
test_thicker_cloth (void)
{
  const SampleOptions options = { 4, TRUE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  g_autoptr (HwCard) card = NULL;

  set_cause (sample, 2, HW_TENSION_THICKER, -0.5);
  card = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  /* Beside “length 2.5 mm, dial 3½” there is no room for its name. */
  assert_text (card, "step-why", "thicker cloth");
  g_assert_cmpstr (find_last (card, "step-why")->text, ==, "thinner: 2 × cotton twill");
}

static void
test_small_card_keeps_soft_parts (void)
{
  const SampleOptions options = { 3, TRUE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  g_autoptr (HwCard) card = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A6, NULL);

  g_assert_cmpuint (card_count_boxes (card, "step-change"), ==, 2);
  assert_text (card, "step-change", "From here: length\302\2403\302\240mm");
  g_assert_cmpuint (card_count_boxes (card, "check"), ==, 6);
  g_assert_nonnull (find_box (card, "caution"));
  g_assert_cmpuint (card_count_boxes (card, "remedy"), ==, 3);
}

static void
test_settings_that_differ (void)
{
  const SampleOptions options = { 3, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  g_autoptr (HwCard) card = NULL;
  g_autoptr (HwCard) small = NULL;

  sample_get_setup (sample, 1)->values[HW_FIELD_ENDS].value = HW_ENDS_KNOT;
  sample_get_setup (sample, 2)->values[HW_FIELD_ALLOWANCE].value = 6;
  card = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  small = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A6, NULL);
  assert_text (card, "ends", "3 stitches back at both ends; step 2: long tails, knotted by hand");
  /* The line is a number: the list has it beside each step, and no sentence names it. */
  assert_text (card, "edge-label", "from edge");
  assert_text (card, "edge-unit", "mm");
  assert_text (card, "step-edge", "15");
  g_assert_cmpuint (card_count_boxes (card, "step-edge"), ==, 3);
  g_assert_null (find_box (card, "line"));
  /* A small card has no room for the column, and says it across the list, from the first step on. */
  assert_text (small, "step-change", "From here: 15 mm from the edge");
  g_assert_cmpstr (find_last (small, "step-change")->text, ==, "From here: 6 mm from the edge");
  g_assert_null (find_box (small, "line"));
}

/* What a line is measured from is said: over the column where it is the same for all, else with the number. */
static void
test_line_from (void)
{
  const SampleOptions options = { 3, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  g_autoptr (HwCard) mixed = NULL;
  g_autoptr (HwCard) small = NULL;
  g_autoptr (HwCard) folds = NULL;
  g_autoptr (HwCard) one = NULL;

  sample_get_setup (sample, 2)->line_from = HW_FROM_FOLD;
  mixed = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  assert_text (mixed, "edge-label", "from edge");
  g_assert_cmpstr (find_last (mixed, "step-edge")->text, ==, "15, fold");
  small = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A6, NULL);
  g_assert_cmpstr (find_last (small, "step-change")->text, ==, "From here: 15 mm from the fold");
  for (gsize i = 0; i < 3; i++)
    sample_get_setup (sample, i)->line_from = HW_FROM_FOLD;
  one = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  assert_text (one, "line", "fold along the 15\302\240mm line");
  sample_get_setup (sample, 2)->values[HW_FIELD_ALLOWANCE].value = 6;
  folds = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  assert_text (folds, "edge-label", "from fold");
  g_assert_cmpstr (find_last (folds, "step-edge")->text, ==, "6");
}

/* What most steps of a set-up want is the rule on each of its cards, also on one most of whose steps are exceptions;
 * these are named in their order. */
static void
test_one_rule (void)
{
  const SampleOptions options = { 26, TRUE, FALSE, HW_DIAL_EDGE_WHEEL, TRUE };
  g_autoptr (Sample) sample = sample_new (&options);
  g_autoptr (GPtrArray) cards = NULL;
  int n_mixed = 0;

  for (int i = 0; i < 26; i++)
    if (i % 4 != 0 && i < 12)
      sample_get_setup (sample, (gsize) i)->values[HW_FIELD_ENDS].value = HW_ENDS_KNOT;
  cards = hw_card_layout (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  g_assert_cmpuint (cards->len, >=, 2);
  for (guint i = 0; i < cards->len; i++)
    {
      const char *text = find_box (cards->pdata[i], "ends")->text;
      const char *steps = strstr (text, "; steps ");
      int before = 0;

      g_assert_true (g_str_has_prefix (text, "3 stitches back at both ends"));
      n_mixed += steps != NULL ? 1 : 0;
      for (const char *at = steps != NULL ? steps + strlen ("; steps ") : ""; g_ascii_isdigit (*at); at++)
        {
          int number = (int) strtol (at, (char **) &at, 10);

          g_assert_cmpint (number, >, before);
          before = number;
        }
    }
  g_assert_cmpint (n_mixed, >=, 1);
}

/* A bead lies on top: it is never the same on both sides, and is drawn so. */
static void
test_close_stitches (void)
{
  const SampleOptions options = { 2, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  const HwGroup *group = hw_plan_get_group (sample_get_plan (sample), SAMPLE_BUTTONHOLE);
  g_autoptr (HwCard) card = NULL;
  const GArray *boxes;
  gboolean is_told = FALSE;

  sample_get_setup (sample, g_array_index (group->members, gsize, 0))->tension.terms = 1u << HW_TENSION_BUTTONHOLE;
  card = card_first (sample_get_plan (sample), SAMPLE_BUTTONHOLE, HW_PAPER_A5, NULL);
  boxes = hw_card_get_boxes (card);
  for (guint i = 1; i < boxes->len; i++)
    {
      const HwBox *box = &g_array_index (boxes, HwBox, i);

      if (!card_box_has_role (box, "verdict")
          || !g_str_equal (box->text, "Smooth on top, a little needle thread underneath"))
        continue;
      g_assert_cmpfloat (g_array_index (boxes, HwBox, i - 1).value[0], <, 0);
      g_assert_cmpfloat (g_array_index (boxes, HwBox, i - 1).value[0], >, -1);
      is_told = TRUE;
    }
  g_assert_true (is_told);
  assert_text (card, "stitch-width", "each bead 2.5 mm");
}

/* Pressing between two seams stands between them, told apart, and with nothing to set. */
static void
test_by_hand (void)
{
  const SampleOptions options = { 4, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, TRUE };
  g_autoptr (Sample) sample = sample_new (&options);
  g_autoptr (HwCard) card = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  g_autoptr (HwCard) overlock = card_first (sample_get_plan (sample), SAMPLE_OVERLOCK, HW_PAPER_A5, NULL);
  const HwBox *name = find_box (card, "hand-name");

  g_assert_cmpuint (card_count_boxes (card, "hand-name"), ==, 2);
  g_assert_cmpuint (card_count_boxes (card, "hand-tick"), ==, 2);
  g_assert_cmpuint (card_count_boxes (card, "step-length"), ==, 4);
  g_assert_true (name->slanted && name->muted);
  assert_text (card, "hand-name", "Fuse the waistband");
  assert_text (card, "steps-label", "Sew, in this order (slanted: by hand)");
  assert_text (overlock, "hand-name", "Press the edges");
  /* The set-up is left when the pressing is done, not before. */
  assert_text (overlock, "after", "Set-up A for step 3. Load 80/12 round point, navy tex 30, 2.5 mm, dial 4.");
  g_assert_null (find_box (overlock, "step-then"));
}

/* What the maker of the project notes for a step stands below it, of a step by machine and by hand, on every paper. */
static void
test_notes (void)
{
  static const HwPaper papers[] = { HW_PAPER_A5, HW_PAPER_A6 };
  const SampleOptions options = { 4, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, TRUE };
  g_autoptr (Sample) sample = sample_new (&options);
  const HwPlan *plan = sample_get_plan (sample);

  for (guint i = 0; i < plan->project->steps->len; i++)
    {
      HwStep *step = (HwStep *) hw_project_get_step (plan->project, i);

      g_free (step->note);
      step->note = g_strdup_printf ("Pin across step %s, and take the pins out before the foot.", step->number);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (papers); i++)
    {
      g_autoptr (HwCard) card = card_first (plan, SAMPLE_LOCKSTITCH, papers[i], NULL);
      guint n = card_count_boxes (card, "step-note");

      g_assert_cmpuint (n, ==, card_count_boxes (card, "step-name") + card_count_boxes (card, "hand-name"));
      g_assert_cmpuint (n, >, 0);
      g_assert_true (g_str_has_prefix (find_box (card, "step-note")->text, "Pin across step "));
      g_assert_false (find_box (card, "step-note")->cut);
    }
}

/* What does not fit goes on on a second card, that says what stays. */
static void
test_goes_on (void)
{
  const SampleOptions options = { 26, TRUE, FALSE, HW_DIAL_EDGE_WHEEL, TRUE };
  g_autoptr (Sample) sample = sample_new (&options);
  g_autoptr (GPtrArray) cards = hw_card_layout (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  const HwBox *begin;
  g_autofree char *go_on = NULL;
  g_autofree char *place = NULL;

  g_assert_cmpuint (cards->len, >=, 2);
  begin = find_box (cards->pdata[1], "step-number");
  go_on = g_strdup_printf ("Go on with card 2, step %s.", begin->text);
  place = g_strdup_printf ("card 2 of %u", cards->len);
  g_assert_nonnull (strstr (find_box (cards->pdata[0], "after")->text, go_on));
  assert_text (cards->pdata[1], "card-place", place);
  assert_text (cards->pdata[1], "again",
               "Set as on card 1: 80/12 round point (R) · navy, tex 30, polyester, in needle and bobbin"
               " · straight stitch · width\302\2400");
  /* The machine may be set from it alone. */
  g_assert_nonnull (find_box (cards->pdata[1], "dial-likely"));
  assert_text (cards->pdata[1], "steps-label", "Go on sewing, in this order");
  g_assert_nonnull (find_box (cards->pdata[1], "foot"));
  g_assert_null (find_box (cards->pdata[1], "check"));
  g_assert_null (find_box (cards->pdata[1], "gauge"));
  g_assert_nonnull (find_box (cards->pdata[1], "step-change"));
  /* Seams that not all steps have are told apart by the steps, on whichever card they are pictured. */
  for (guint i = 0; i < cards->len; i++)
    g_assert_cmpuint (card_count_boxes (cards->pdata[i], "section-steps"), ==,
                      card_count_boxes (cards->pdata[i], "section"));
}

/* A later card orders no change of what the card before left so. */
static void
test_begins_as_left (void)
{
  const SampleOptions options = { 26, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  const HwPlan *plan = sample_get_plan (sample);
  g_autoptr (GPtrArray) kept = NULL;
  g_autoptr (GPtrArray) changed = NULL;

  for (gsize i = 1; i < 26; i++)
    sample_get_setup (sample, i)->values[HW_FIELD_DIAL].value = 3.5;
  kept = hw_card_layout (plan, SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  g_assert_cmpuint (kept->len, >=, 2);
  assert_text (kept->pdata[1], "step-change", "As set: dial\302\2403½");
  sample_get_setup (sample, g_array_index (hw_card_get_steps (kept->pdata[1]), gsize, 0))->values[HW_FIELD_DIAL].value
    = 3;
  changed = hw_card_layout (plan, SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  assert_text (changed->pdata[1], "step-change", "From here: dial\302\2403");
}

/* A name runs to two lines before any of it is cut, and is cut only where a whole card is too narrow. */
static void
test_names_wrap (gconstpointer data)
{
  HwPaper paper = GPOINTER_TO_INT (data) ? HW_PAPER_A6 : HW_PAPER_A5;
  const SampleOptions options = { 2, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  static const char * const names[] = {
    "Set the back pockets on, two rows, with the corners bar-tacked later and the mouth left open",
    "Waistband on, right sides together, matching all notches, centre front and side seams of the lining, then "
    "graded, understitched and turned, with the hook side one centimetre longer than the eye side and the ends "
    "closed by hand later, when the hook is on and the whole has been tried on once more before the mirror, as "
    "nothing is as hard to take off again as a waistband that has been closed",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (Sample) sample = sample_new (&options);
      g_autoptr (GPtrArray) cards = NULL;
      const HwBox *name;
      HwStep *step = (HwStep *) hw_project_get_step (sample_get_plan (sample)->project, 1);

      g_free (step->name);
      step->name = g_strdup (names[i]);
      cards = hw_card_layout (sample_get_plan (sample), SAMPLE_LOCKSTITCH, paper, NULL);
      card_check_list (sample_get_plan (sample), SAMPLE_LOCKSTITCH, (HwCard * const *) cards->pdata, cards->len,
                       paper == HW_PAPER_A6, names[i]);
      name = find_last (cards->pdata[cards->len - 1], "step-name");
      g_assert_cmpstr (name->text, ==, names[i]);
      g_assert_cmpint (name->lines, ==, 2);
      g_assert_cmpint (name->cut, ==, i == 1);
    }
}

static void
test_sides_together (void)
{
  const SampleOptions options = { 1, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  HwSeam seam = *sample_get_setup (sample, 0)->seam;
  g_autoptr (HwCard) without = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  g_autoptr (HwCard) with = NULL;
  g_autoptr (HwCard) french = NULL;

  seam.together = HW_TOGETHER_RIGHT;
  sample_get_setup (sample, 0)->seam = &seam;
  with = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  seam.together = HW_TOGETHER_WRONG_FIRST;
  french = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  g_assert_null (find_box (without, "together"));
  assert_text (with, "together", "right sides together");
  assert_text (french, "together", "first row with wrong sides together; then trim, turn, and sew the second");
}

static void
test_warnings (void)
{
  const SampleOptions options = { 3, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  const HwWarning low = { HW_FIELD_FOOT, HW_WARN_FOOT_LIFT, { 6.5, 6, 6.5 }, NULL };
  const HwWarning high = { HW_FIELD_FOOT, HW_WARN_FOOT_LIFT, { 7.6, 6, 7.6 }, NULL };
  const HwWarning other = { HW_FIELD_SIZE, HW_WARN_ESTIMATED, { 0 }, NULL };
  g_autoptr (Sample) sample = sample_new (&options);
  g_autoptr (HwCard) card = NULL;

  g_array_append_val (sample_get_setup (sample, 0)->warnings, low);
  g_array_append_val (sample_get_setup (sample, 2)->warnings, high);
  g_array_append_val (sample_get_setup (sample, 1)->warnings, other);
  card = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  /* One sentence, the worst case, for both steps; an estimate is no matter for whoever sews. */
  g_assert_cmpuint (card_count_boxes (card, "warning"), ==, 1);
  g_assert_true (g_str_has_prefix (find_box (card, "warning")->text, "Steps 1 3: "));
  g_assert_nonnull (strstr (find_box (card, "warning")->text, "7.6"));
  g_assert_false (find_box (card, "warning")->muted);
}

static void
test_tick_shows_what_is_done (void)
{
  const SampleOptions options = { 2, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  g_autoptr (HwCard) card = NULL;

  g_array_index (sample_get_plan (sample)->order, HwPlanStep, 0).done = TRUE;
  card = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  g_assert_cmpfloat (find_box (card, "step-tick")->value[0], ==, 1);
}

/* The large figures are for what is to be sewn next, whatever of the list is sewn; its rows begin with a capital. */
static void
test_large_values_of_next (void)
{
  const SampleOptions options = { 3, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  const HwPlan *plan = sample_get_plan (sample);
  g_autoptr (HwCard) card = NULL;
  gsize first = 0, next = 0;

  for (guint i = 0; i < plan->order->len; i++)
    {
      HwPlanStep *planned = &g_array_index (plan->order, HwPlanStep, i);

      if (planned->group != SAMPLE_LOCKSTITCH)
        continue;
      if (!planned->done && first == next)
        {
          first = planned->step;
          next = G_MAXSIZE;
          planned->done = TRUE;
        }
      else if (next == G_MAXSIZE)
        next = planned->step;
    }
  g_assert_cmpuint (next, !=, G_MAXSIZE);
  sample_get_setup (sample, next)->values[HW_FIELD_DIAL].value = 2.5;
  sample_get_setup (sample, next)->values[HW_FIELD_LENGTH].value = 3;
  sample_get_setup (sample, first)->values[HW_FIELD_DIAL].value = 4.5;
  card = card_first (plan, SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  g_assert_cmpstr (find_box (card, "stitch-length")->text, ==, "length 3 mm");
  g_assert_nonnull (strstr (find_box (card, "dial-label")->text,
                            hw_project_get_step (plan->project, next)->number));
}

static void
mark_sewn (const HwPlan *plan,
           guint         n)
{
  for (guint i = 0; i < plan->order->len && n > 0; i++)
    {
      HwPlanStep *planned = &g_array_index (plan->order, HwPlanStep, i);

      if (planned->group != SAMPLE_LOCKSTITCH)
        continue;
      planned->done = TRUE;
      n--;
    }
}

/* Printed again in the middle of the work, a card advises for what is left. */
static void
test_sewn_is_not_told (void)
{
  const SampleOptions options = { 4, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  const HwWarning low = { HW_FIELD_FOOT, HW_WARN_FOOT_LIFT, { 6.5, 6, 6.5 }, NULL };
  g_autoptr (Sample) sample = sample_new (&options);
  const HwPlan *plan = sample_get_plan (sample);
  gsize first = g_array_index (hw_plan_get_group (plan, SAMPLE_LOCKSTITCH)->members, gsize, 0);
  g_autoptr (HwCard) before = NULL;
  g_autoptr (HwCard) after = NULL;

  sample_get_setup (sample, first)->values[HW_FIELD_ENDS].value = HW_ENDS_KNOT;
  g_array_append_val (sample_get_setup (sample, first)->warnings, low);
  before = card_first (plan, SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  mark_sewn (plan, 1);
  after = card_first (plan, SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  g_assert_nonnull (strstr (find_box (before, "ends")->text, "step 1: long tails"));
  assert_text (after, "ends", "3 stitches back at both ends");
  g_assert_cmpuint (card_count_boxes (before, "warning"), ==, 1);
  g_assert_cmpuint (card_count_boxes (after, "warning"), ==, 0);
  assert_text (before, "section-steps", "steps 1 4");
  g_assert_nonnull (find_last (after, "section-steps"));
  g_assert_cmpstr (find_last (after, "section-steps")->text, ==, "step 4");
}

/* The steps of each card, card after card. (transfer full) */
static char *
list_by_card (const GPtrArray *cards)
{
  g_autoptr (GString) list = g_string_new (NULL);

  for (guint i = 0; i < cards->len; i++)
    {
      const GArray *steps = hw_card_get_steps (cards->pdata[i]);

      for (guint j = 0; j < steps->len; j++)
        g_string_append_printf (list, "%" G_GSIZE_FORMAT " ", g_array_index (steps, gsize, j));
      g_string_append (list, "| ");
    }
  return g_string_free (g_steal_pointer (&list), FALSE);
}

/* A card printed again takes the place of the one by the machine: it has the same rows, whatever of them is sewn. */
static void
test_printed_again (gconstpointer data)
{
  HwPaper paper = GPOINTER_TO_INT (data) ? HW_PAPER_A6 : HW_PAPER_A5;
  const SampleOptions options = { 26, TRUE, FALSE, HW_DIAL_EDGE_WHEEL, TRUE };
  g_autoptr (Sample) sample = sample_new (&options);
  const HwPlan *plan = sample_get_plan (sample);
  g_autoptr (GPtrArray) before = hw_card_layout (plan, SAMPLE_LOCKSTITCH, paper, NULL);
  g_autofree char *expected = list_by_card (before);

  g_assert_cmpuint (before->len, >=, 2);
  for (guint n = 1; n <= 26; n++)
    {
      g_autoptr (GPtrArray) again = NULL;
      g_autofree char *found = NULL;

      mark_sewn (plan, n);
      again = hw_card_layout (plan, SAMPLE_LOCKSTITCH, paper, NULL);
      found = list_by_card (again);
      g_assert_cmpstr (found, ==, expected);
    }
}

static void
assert_same_boxes (const HwCard *card,
                   const HwCard *expected)
{
  const GArray *boxes = hw_card_get_boxes (card);
  const GArray *others = hw_card_get_boxes (expected);

  g_assert_cmpuint (boxes->len, ==, others->len);
  for (guint i = 0; i < boxes->len; i++)
    {
      const HwBox *box = &g_array_index (boxes, HwBox, i);
      const HwBox *other = &g_array_index (others, HwBox, i);

      g_assert_cmpstr (box->role, ==, other->role);
      g_assert_cmpstr (box->text, ==, other->text);
      g_assert_cmpfloat (box->x, ==, other->x);
      g_assert_cmpfloat (box->y, ==, other->y);
      g_assert_true (card_box_has_role (box, "step-tick") || box->value[0] == other->value[0]);
    }
}

static guint
count_operations (const HwPlan *plan,
                  const HwCard *card)
{
  const GArray *steps = hw_card_get_steps (card);
  guint n = 0;

  for (guint i = 0; i < steps->len; i++)
    n += hw_project_get_step (plan->project, g_array_index (steps, gsize, i))->kind != HW_STEP_HAND ? 1 : 0;
  return n;
}

/* A card whose own steps are all sewn stays as it was printed first: it never has the values of another card's step,
 * and the later one is set against it as before. */
static void
test_sewn_through (gconstpointer data)
{
  HwPaper paper = GPOINTER_TO_INT (data) ? HW_PAPER_A6 : HW_PAPER_A5;
  const SampleOptions options = { 26, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, TRUE };
  g_autoptr (Sample) sample = sample_new (&options);
  const HwPlan *plan = sample_get_plan (sample);
  g_autoptr (GPtrArray) before = NULL;
  g_autoptr (GPtrArray) after = NULL;

  for (gsize i = 6; i < 26; i++)
    {
      sample_get_setup (sample, i)->values[HW_FIELD_LENGTH].value = 3;
      sample_get_setup (sample, i)->values[HW_FIELD_DIAL].value = 3;
    }
  before = hw_card_layout (plan, SAMPLE_LOCKSTITCH, paper, NULL);
  g_assert_cmpuint (before->len, >=, 2);
  mark_sewn (plan, count_operations (plan, before->pdata[0]));
  after = hw_card_layout (plan, SAMPLE_LOCKSTITCH, paper, NULL);
  g_assert_cmpuint (after->len, ==, before->len);
  for (guint i = 0; i < after->len; i++)
    assert_same_boxes (after->pdata[i], before->pdata[i]);
  assert_text (after->pdata[0], "stitch-length", "length 2.5 mm");
}

/* Where all that the machine does is sewn, the card says so: nothing is to be set for the steps by hand left on it. */
static void
test_all_sewn (void)
{
  const SampleOptions options = { 3, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  const HwPlan *plan = sample_get_plan (sample);
  g_autoptr (HwCard) before = card_first (plan, SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  g_autoptr (HwCard) after = NULL;

  for (guint i = 0; i < plan->order->len; i++)
    {
      HwPlanStep *planned = &g_array_index (plan->order, HwPlanStep, i);

      planned->done = planned->group == SAMPLE_LOCKSTITCH;
    }
  after = card_first (plan, SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  g_assert_nonnull (strstr (find_box (before, "machine")->text, "set-up"));
  g_assert_null (strstr (find_box (after, "machine")->text, "set-up"));
  g_assert_nonnull (strstr (find_box (after, "machine")->text, "all sewn"));
}

static void
test_gauge_neighbours (void)
{
  const SampleOptions options = { 1, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  static const struct { int group; double lengths[3]; } cases[] = {
    { SAMPLE_LOCKSTITCH, { 2, 2.5, 3 } },
    { SAMPLE_TOPSTITCH, { 3, 3.5, 4 } },
    { SAMPLE_BUTTONHOLE, { 0.3, 0.4, 0.5 } },            /* half a millimetre less would be no stitch */
  };
  g_autoptr (Sample) sample = sample_new (&options);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (HwCard) card = card_first (sample_get_plan (sample), cases[i].group, HW_PAPER_A5, NULL);
      const GArray *boxes = hw_card_get_boxes (card);
      gsize found = 0;

      for (guint j = 0; j < boxes->len; j++)
        {
          const HwBox *box = &g_array_index (boxes, HwBox, j);

          if (box->kind != HW_BOX_GAUGE)
            continue;
          g_assert_cmpfloat_with_epsilon (box->value[0], cases[i].lengths[found], 1e-9);
          g_assert_cmpfloat_with_epsilon (box->width, box->value[0] * box->value[1] * 72 / 25.4, 1e-6);
          found++;
        }
      g_assert_cmpuint (found, ==, 3);
    }
}

/* Steps of the set-up that are sewn with another length: the gauge has theirs, and the third beside them as before. */
static void
test_gauge_has_the_lengths_used (void)
{
  const SampleOptions options = { 4, FALSE, FALSE, HW_DIAL_EDGE_WHEEL, FALSE };
  static const struct { double set[4], lengths[3]; gboolean used[3]; } cases[] = {
    { { 2.5, 2.2, 2.5, 2.5 }, { 2.2, 2.5, 3 }, { TRUE, TRUE, FALSE } },
    { { 2.5, 4, 2.5, 4 }, { 2, 2.5, 4 }, { FALSE, TRUE, TRUE } },
    { { 2.5, 2, 3, 3 }, { 2, 2.5, 3 }, { TRUE, TRUE, TRUE } },
    { { 2.5, 2, 3.5, 4 }, { 2, 2.5, 3.5 }, { TRUE, TRUE, TRUE } },
    { { 2.5, 2, 4, 4 }, { 2, 2.5, 4 }, { TRUE, TRUE, TRUE } },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (Sample) sample = sample_new (&options);
      g_autoptr (HwCard) card = NULL;
      const GArray *boxes;
      gsize found = 0;

      for (gsize j = 0; j < 4; j++)
        sample_get_setup (sample, j)->values[HW_FIELD_LENGTH].value = cases[i].set[j];
      card = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
      boxes = hw_card_get_boxes (card);
      for (guint j = 0; j < boxes->len; j++)
        {
          const HwBox *box = &g_array_index (boxes, HwBox, j);

          if (box->kind != HW_BOX_GAUGE)
            continue;
          g_assert_cmpfloat_with_epsilon (box->value[0], cases[i].lengths[found], 1e-9);
          g_assert_cmpint (box->value[2] > 0, ==, cases[i].used[found]);
          found++;
        }
      g_assert_cmpuint (found, ==, 3);
    }
}

static void
test_context_makes_no_difference (void)
{
  const SampleOptions options = { 5, TRUE, TRUE, HW_DIAL_EDGE_WHEEL, FALSE };
  g_autoptr (Sample) sample = sample_new (&options);
  g_autoptr (HwCard) plain = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, NULL);
  PangoFontMap *fonts = pango_cairo_font_map_new ();
  PangoContext *context = pango_font_map_create_context (fonts);
  g_autoptr (HwCard) screen = NULL;

  /* As a window's context has it. */
  pango_cairo_context_set_resolution (context, 96);
  screen = card_first (sample_get_plan (sample), SAMPLE_LOCKSTITCH, HW_PAPER_A5, context);
  g_assert_cmpuint (hw_card_get_boxes (plain)->len, ==, hw_card_get_boxes (screen)->len);
  for (guint i = 0; i < hw_card_get_boxes (plain)->len; i++)
    {
      const HwBox *a = &g_array_index (hw_card_get_boxes (plain), HwBox, i);
      const HwBox *b = &g_array_index (hw_card_get_boxes (screen), HwBox, i);

      g_assert_cmpstr (a->role, ==, b->role);
      g_assert_cmpfloat_with_epsilon (a->x, b->x, 1e-6);
      g_assert_cmpfloat_with_epsilon (a->width, b->width, 1e-6);
    }
  g_object_unref (context);
  g_object_unref (fonts);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/card/golden/a5", GINT_TO_POINTER (0), test_golden);
  g_test_add_data_func ("/card/golden/a6", GINT_TO_POINTER (1), test_golden);
  g_test_add_func ("/card/sizes", test_sizes);
  g_test_add_data_func ("/card/room/a5", GINT_TO_POINTER (0), test_room);
  g_test_add_data_func ("/card/room/a6", GINT_TO_POINTER (1), test_room);
  g_test_add_data_func ("/card/many-steps/a5", GINT_TO_POINTER (0), test_many_steps);
  g_test_add_data_func ("/card/many-steps/a6", GINT_TO_POINTER (1), test_many_steps);
  g_test_add_func ("/card/says/lockstitch", test_lockstitch);
  g_test_add_func ("/card/says/overlock", test_overlock);
  g_test_add_func ("/card/says/ticket", test_ticket);
  g_test_add_func ("/card/says/twin", test_twin);
  g_test_add_func ("/card/says/soft-parts", test_soft_parts);
  g_test_add_func ("/card/says/layers", test_layers);
  g_test_add_func ("/card/says/why-weighs-most", test_why_weighs_most);
  g_test_add_func ("/card/says/likely-for-all", test_likely_for_all);
  g_test_add_func ("/card/says/begins-as-left", test_begins_as_left);
  g_test_add_func ("/card/says/layers-as-before", test_layers_as_before);
  g_test_add_func ("/card/says/dial-of-some", test_dial_of_some);
  g_test_add_func ("/card/says/dial-of-many", test_dial_of_many);
  g_test_add_func ("/card/says/universal", test_universal);
  g_test_add_func ("/card/says/thicker-cloth", test_thicker_cloth);
  g_test_add_func ("/card/says/close-stitches", test_close_stitches);
  g_test_add_func ("/card/says/small-card-keeps-soft-parts", test_small_card_keeps_soft_parts);
  g_test_add_func ("/card/says/settings-that-differ", test_settings_that_differ);
  g_test_add_func ("/card/says/line-from", test_line_from);
  g_test_add_func ("/card/says/one-rule", test_one_rule);
  g_test_add_func ("/card/says/by-hand", test_by_hand);
  g_test_add_func ("/card/says/notes", test_notes);
  g_test_add_func ("/card/goes-on", test_goes_on);
  g_test_add_data_func ("/card/names-wrap/a5", GINT_TO_POINTER (0), test_names_wrap);
  g_test_add_data_func ("/card/names-wrap/a6", GINT_TO_POINTER (1), test_names_wrap);
  g_test_add_func ("/card/says/sides-together", test_sides_together);
  g_test_add_func ("/card/says/warnings", test_warnings);
  g_test_add_func ("/card/says/what-is-done", test_tick_shows_what_is_done);
  g_test_add_func ("/card/says/large-values-of-next", test_large_values_of_next);
  g_test_add_func ("/card/says/sewn-is-not-told", test_sewn_is_not_told);
  g_test_add_data_func ("/card/printed-again/a5", GINT_TO_POINTER (0), test_printed_again);
  g_test_add_data_func ("/card/printed-again/a6", GINT_TO_POINTER (1), test_printed_again);
  g_test_add_data_func ("/card/says/sewn-through/a5", GINT_TO_POINTER (0), test_sewn_through);
  g_test_add_data_func ("/card/says/sewn-through/a6", GINT_TO_POINTER (1), test_sewn_through);
  g_test_add_func ("/card/says/all-sewn", test_all_sewn);
  g_test_add_func ("/card/gauge-neighbours", test_gauge_neighbours);
  g_test_add_func ("/card/gauge-has-the-lengths-used", test_gauge_has_the_lengths_used);
  g_test_add_func ("/card/context-makes-no-difference", test_context_makes_no_difference);
  return g_test_run ();
}
