/* test-tension.c - how the terms of the starting dial add up
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Expected numbers are worked by hand from the terms in tension-prior.c (common practice, no source).
 */

#include "config.h"

#include "tension-prior.h"

#define ON(term) (1u << HW_TENSION_ ## term)

static const HwDialScale nine = { 0, 9, 4 };

/* ---- one term at a time ---- */

typedef struct
{
  const char    *path;
  HwTensionFacts facts;
  HwTensionTerm  term;
  double         added;         /* by the term, on the 0-9 scale */
  double         sd;            /* of the whole; the machine's own 0.75 is always in it */
} TermCase;

static const TermCase term_cases[] = {
  { "/tension/reference-adds-nothing", { 30, 30, 0.8, 2.5, 0, 0 }, HW_TENSION_MACHINE, 0, 0.75 },
  { "/tension/tex-doubled", { 60, 60, 0.8, 2.5, 0, 0 }, HW_TENSION_TEX, 0, 0.8276473 },
  { "/tension/tex-halved", { 15, 15, 0.8, 2.5, 0, 0 }, HW_TENSION_TEX, 0, 0.8276473 },
  { "/tension/needle-heavier", { 60, 30, 0.8, 2.5, 0, 0 }, HW_TENSION_NEEDLE_HEAVIER, 0.5, 0.85 },
  { "/tension/needle-twice-doubled", { 120, 30, 0.8, 2.5, 0, 0 }, HW_TENSION_NEEDLE_HEAVIER, 1.0, 1.0965856 },
  { "/tension/bobbin-heavier-is-no-term", { 30, 60, 0.8, 2.5, 0, 0 }, HW_TENSION_NEEDLE_HEAVIER, 0, 0.75 },
  { "/tension/filament", { 30, 30, 0.8, 2.5, 0, ON (FILAMENT) }, HW_TENSION_FILAMENT, -0.5, 0.85 },
  { "/tension/monofilament", { 30, 30, 0.8, 2.5, 0, ON (MONOFILAMENT) }, HW_TENSION_MONOFILAMENT, -1.25, 1.0259142 },
  { "/tension/metallic", { 30, 30, 0.8, 2.5, 0, ON (METALLIC) }, HW_TENSION_METALLIC, -1.5, 1.0259142 },
  { "/tension/thickness-1.6", { 30, 30, 1.6, 2.5, 0, 0 }, HW_TENSION_THICKER, -0.4, 0.8077747 },
  { "/tension/thickness-3.2", { 30, 30, 3.2, 2.5, 0, 0 }, HW_TENSION_THICKER, -0.8, 0.9604686 },
  { "/tension/thickness-6", { 30, 30, 6, 2.5, 0, 0 }, HW_TENSION_THICKER, -1.1627562, 1.1502179 },
  { "/tension/thickness-stops-at-6", { 30, 30, 9, 2.5, 0, 0 }, HW_TENSION_THICKER, -1.1627562, 1.1502179 },
  { "/tension/thickness-0.4", { 30, 30, 0.4, 2.5, 0, 0 }, HW_TENSION_THINNER, 0.15, 0.7905694 },
  { "/tension/thinness-stops-at-0.4", { 30, 30, 0.05, 2.5, 0, 0 }, HW_TENSION_THINNER, 0.15, 0.7905694 },
  { "/tension/length-4", { 30, 30, 0.8, 4, 0, 0 }, HW_TENSION_LONGER, -0.6, 0.8077747 },
  { "/tension/length-5", { 30, 30, 0.8, 5, 0, 0 }, HW_TENSION_LONGER, -1, 0.9013878 },
  { "/tension/length-6", { 30, 30, 0.8, 6, 0, 0 }, HW_TENSION_LONGER, -1.4, 1.0259142 },
  { "/tension/length-stops-at-6", { 30, 30, 0.8, 7, 0, 0 }, HW_TENSION_LONGER, -1.4, 1.0259142 },
  { "/tension/length-1.5", { 30, 30, 0.8, 1.5, 0, 0 }, HW_TENSION_SHORTER, 0.15, 0.7905694 },
  { "/tension/shortness-stops-at-1", { 30, 30, 0.8, 0.4, 0, 0 }, HW_TENSION_SHORTER, 0.225, 0.8385255 },
  { "/tension/sheer", { 30, 30, 0.8, 2.5, 0, ON (SHEER) }, HW_TENSION_SHEER, -0.5, 0.9013878 },
  { "/tension/slippery", { 30, 30, 0.8, 2.5, 0, ON (SLIPPERY) }, HW_TENSION_SLIPPERY, -0.25, 0.85 },
  { "/tension/jersey", { 30, 30, 0.8, 2.5, 0, ON (JERSEY) }, HW_TENSION_JERSEY, -0.4, 0.85 },
  { "/tension/pile", { 30, 30, 0.8, 2.5, 0, ON (PILE) }, HW_TENSION_PILE, -0.4, 0.85 },
  { "/tension/lofty", { 30, 30, 0.8, 2.5, 0, ON (LOFTY) }, HW_TENSION_LOFTY, -0.25, 0.85 },
  { "/tension/coated-widens-only", { 30, 30, 0.8, 2.5, 0, ON (COATED) }, HW_TENSION_COATED, 0, 0.9013878 },
  { "/tension/leather", { 30, 30, 0.8, 2.5, 0, ON (LEATHER) }, HW_TENSION_LEATHER, 0.5, 0.9604686 },
  { "/tension/zigzag-2", { 30, 30, 0.8, 2.5, 2, ON (ZIGZAG) }, HW_TENSION_ZIGZAG, -0.4, 0.7762088 },
  { "/tension/zigzag-5", { 30, 30, 0.8, 2.5, 5, ON (ZIGZAG) }, HW_TENSION_ZIGZAG, -1, 0.9013878 },
  { "/tension/zigzag-stops-at-its-floor", { 30, 30, 0.8, 2.5, 7, ON (ZIGZAG) }, HW_TENSION_ZIGZAG, -1, 0.9013878 },
  { "/tension/multi-step", { 30, 30, 0.8, 2.5, 5, ON (MULTISTEP) }, HW_TENSION_MULTISTEP, -0.5, 0.85 },
  { "/tension/multi-step-has-no-swing-term", { 30, 30, 0.8, 2.5, 5, ON (MULTISTEP) }, HW_TENSION_ZIGZAG, 0, 0.85 },
  { "/tension/stretch-stitch", { 30, 30, 0.8, 2.5, 0, ON (STRETCH_STITCH) }, HW_TENSION_STRETCH_STITCH, -0.25, 0.85 },
  { "/tension/blind", { 30, 30, 0.8, 2.5, 3, ON (BLIND) }, HW_TENSION_BLIND, -0.75, 0.9013878 },
  { "/tension/satin", { 30, 30, 0.8, 0.4, 4, ON (SATIN) }, HW_TENSION_SATIN, -1.25, 0.9013878 },
  { "/tension/satin-has-no-length-term", { 30, 30, 0.8, 0.4, 4, ON (SATIN) }, HW_TENSION_SHORTER, 0, 0.9013878 },
  { "/tension/buttonhole", { 30, 30, 0.8, 0.4, 5, ON (BUTTONHOLE) }, HW_TENSION_BUTTONHOLE, -1, 0.9013878 },
  { "/tension/bar-tack", { 30, 30, 0.8, 0.4, 3, ON (BAR_TACK) }, HW_TENSION_BAR_TACK, -1, 0.9013878 },
  { "/tension/twin", { 30, 30, 0.8, 2.5, 4, ON (TWIN) }, HW_TENSION_TWIN, -0.75, 0.9013878 },
  { "/tension/twin-spacing-is-no-swing", { 30, 30, 0.8, 2.5, 4, ON (TWIN) }, HW_TENSION_ZIGZAG, 0, 0.9013878 },
  { "/tension/baste", { 30, 30, 0.8, 2.5, 0, ON (BASTE) }, HW_TENSION_BASTE, -2, 0.9013878 },
  { "/tension/gather", { 30, 30, 0.8, 2.5, 0, ON (GATHER) }, HW_TENSION_GATHER, -1.5, 0.9013878 },
  { "/tension/ease", { 30, 30, 0.8, 2.5, 0, ON (EASE) }, HW_TENSION_EASE, -0.75, 0.85 },
};

static void
test_term (gconstpointer data)
{
  const TermCase *wanted = data;
  HwTensionStart start = hw_tension_start (&tension_prior, &wanted->facts, &nine);

  g_assert_cmpfloat_with_epsilon (start.terms[wanted->term], wanted->added, 1e-6);
  g_assert_cmpfloat_with_epsilon (start.sd, wanted->sd, 1e-6);
}

/* ---- sums, limits, scales ---- */

typedef struct
{
  const char    *path;
  HwTensionFacts facts;
  HwDialScale    scale;
  double         dial;
  double         window_low, window_high;
} StartCase;

static const StartCase start_cases[] = {
  /* 4 - (0.35 + 0.3 x 0.8) ... 4 + 0.5: two plies balance at 3.4 to 4.5 */
  { "/tension/start/reference", { 30, 30, 0.8, 2.5, 0, 0 }, { 0, 9, 4 }, 4, 3.41, 4.5 },
  /* eight plies at 1.9 to 3.7: a dial of 2 to 3 loops on two plies and balances on eight */
  { "/tension/start/eight-plies", { 30, 30, 3.2, 2.5, 0, 0 }, { 0, 9, 4 }, 3.2, 1.89, 3.7 },
  { "/tension/start/window-stops-at-4-mm", { 30, 30, 6, 2.5, 0, 0 }, { 0, 9, 4 }, 2.8372438, 1.2872438, 3.3372438 },
  { "/tension/start/terms-add-up", { 60, 30, 1.6, 3.5, 0, ON (COATED) }, { 0, 9, 4 }, 3.7, 2.87, 4.2 },
  { "/tension/start/other-neutral", { 30, 30, 1.6, 2.5, 0, 0 }, { 0, 9, 4.5 }, 4.1, 3.27, 4.6 },
  /* 1 to 10 has the same nine divisions; 0 to 4.5 has half of them, so everything is halved */
  { "/tension/start/from-one", { 30, 30, 1.6, 2.5, 0, 0 }, { 1, 10, 5 }, 4.6, 3.77, 5.1 },
  { "/tension/start/half-scale", { 30, 30, 1.6, 2.5, 0, 0 }, { 0, 4.5, 2 }, 1.8, 1.385, 2.05 },
  /* 4 - 0.5 - 1.4 - 0.8 - 1.5 = -0.2: held at 1, or at 0.5 where the threads are to be pulled */
  { "/tension/start/low-limit", { 30, 30, 3.2, 6, 0, ON (METALLIC) | ON (SHEER) }, { 0, 9, 4 }, 1, 0, 1.5 },
  { "/tension/start/low-limit-baste", { 30, 30, 3.2, 6, 0, ON (BASTE) }, { 0, 9, 4 }, 0.5, 0, 1 },
  { "/tension/start/low-limit-gather", { 30, 30, 3.2, 6, 0, ON (GATHER) }, { 0, 9, 4 }, 0.5, 0, 1 },
  { "/tension/start/low-limit-half-scale",
    { 30, 30, 3.2, 6, 0, ON (METALLIC) | ON (SHEER) }, { 0, 4.5, 2 }, 0.5, 0, 0.75 },
  { "/tension/start/low-limit-from-one", { 30, 30, 3.2, 6, 0, ON (BASTE) }, { 1, 10, 5 }, 1.5, 1, 2 },
  { "/tension/start/high-limit", { 30, 30, 0.8, 2.5, 0, ON (LEATHER) }, { 0, 9, 7.75 }, 8, 7.41, 8.5 },
  /* -0.5 - 0.25 - 0.4 - 0.4 - 0.25 = -1.8, not under -0.75 */
  { "/tension/start/cloth-floor",
    { 30, 30, 0.8, 2.5, 0, ON (SHEER) | ON (SLIPPERY) | ON (JERSEY) | ON (PILE) | ON (LOFTY) },
    { 0, 9, 4 }, 3.25, 2.66, 3.75 },
  { "/tension/start/cloth-at-its-floor",
    { 30, 30, 0.8, 2.5, 0, ON (SHEER) | ON (SLIPPERY) }, { 0, 9, 4 }, 3.25, 2.66, 3.75 },
};

static void
test_start (gconstpointer data)
{
  const StartCase *wanted = data;
  HwTensionStart start = hw_tension_start (&tension_prior, &wanted->facts, &wanted->scale);

  g_assert_cmpfloat_with_epsilon (start.dial, wanted->dial, 1e-6);
  g_assert_cmpfloat_with_epsilon (start.window_low, wanted->window_low, 1e-6);
  g_assert_cmpfloat_with_epsilon (start.window_high, wanted->window_high, 1e-6);
}

/* The terms shown to the person are the whole of the start, wherever no limit held it. */
static void
test_terms_are_whole (void)
{
  HwTensionFacts facts = { 60, 40, 2.2, 3.2, 0, ON (FILAMENT) | ON (SHEER) | ON (PILE) | ON (LOFTY) };
  HwDialScale scale = { 1, 5.5, 3 };
  HwTensionStart start = hw_tension_start (&tension_prior, &facts, &scale);
  double sum = 0;

  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    sum += start.terms[term];
  g_assert_cmpfloat_with_epsilon (start.dial, 3 + 0.5 * sum, 1e-12);
  g_assert_cmpfloat_with_epsilon (start.terms[HW_TENSION_SHEER] + start.terms[HW_TENSION_PILE] +
                                  start.terms[HW_TENSION_LOFTY], -0.75, 1e-12);
}

/* A scale half as wide has half the spread. */
static void
test_spread_follows_scale (void)
{
  HwTensionFacts facts = { 80, 40, 3.8, 3.5, 0, 0 };
  HwDialScale half = { 0, 4.5, 2 };
  double wide = hw_tension_start (&tension_prior, &facts, &nine).sd;

  g_assert_cmpfloat_with_epsilon (hw_tension_start (&tension_prior, &facts, &half).sd, wide / 2, 1e-12);
  g_assert_cmpfloat (wide, >, 1.0);     /* topstitching starts about 1.1 wide: common practice, no source */
  g_assert_cmpfloat (wide, <, 1.2);
}

/* The thicker and the longer, the lower: common practice, no source. */
static void
test_direction (void)
{
  double before = 9;

  for (double thickness = 0.8; thickness < 6; thickness += 0.4)
    {
      HwTensionFacts facts = { 30, 30, thickness, 1.5 + thickness, 0, 0 };
      double dial = hw_tension_start (&tension_prior, &facts, &nine).dial;

      g_assert_cmpfloat (dial, <, before);
      before = dial;
    }
}

static void
test_ids (void)
{
  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    {
      g_assert_nonnull (hw_tension_term_ids[term]);
      for (int other = 0; other < term; other++)
        g_assert_cmpstr (hw_tension_term_ids[other], !=, hw_tension_term_ids[term]);
    }
  g_assert_cmpstr (hw_tension_term_ids[HW_TENSION_TEX], ==, "both-threads");
  g_assert_cmpstr (hw_tension_term_ids[HW_TENSION_EASE], ==, "ease");
}

/* ---- half-steps ---- */

static const struct
{
  double dial, printed;
} half_steps[] = {
  { 3.5, 3.5 }, { 3.4, 3.5 }, { 3.6, 3.5 }, { 3.74, 3.5 }, { 3.76, 4 }, { 4, 4 }, { 0, 0 }, { 0.2, 0 }, { 0.3, 0.5 },
  /* between two half-steps: the lower dial, from which one dials up */
  { 3.25, 3 }, { 3.75, 3.5 }, { 0.25, 0 }, { 8.75, 8.5 },
  { 3.25 + 1e-12, 3 }, { 3.25 - 1e-12, 3 },
};

static void
test_half_step (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (half_steps); i++)
    g_assert_cmpfloat (hw_dial_half_step (half_steps[i].dial), ==, half_steps[i].printed);
}

/* ---- a programmer's mistake is said, and gives nothing ---- */

static void
test_refuses (void)
{
  HwTensionFacts facts = { 30, 30, 0, 2.5, 0, 0 };
  HwTensionStart start;

  g_test_expect_message (NULL, G_LOG_LEVEL_CRITICAL, "*thickness_mm > 0*");
  start = hw_tension_start (&tension_prior, &facts, &nine);
  g_test_assert_expected_messages ();
  g_assert_cmpfloat (start.dial, ==, 0);
  g_assert_cmpfloat (start.sd, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (term_cases); i++)
    g_test_add_data_func (term_cases[i].path, &term_cases[i], test_term);
  for (gsize i = 0; i < G_N_ELEMENTS (start_cases); i++)
    g_test_add_data_func (start_cases[i].path, &start_cases[i], test_start);
  g_test_add_func ("/tension/terms-are-whole", test_terms_are_whole);
  g_test_add_func ("/tension/spread-follows-scale", test_spread_follows_scale);
  g_test_add_func ("/tension/direction", test_direction);
  g_test_add_func ("/tension/ids", test_ids);
  g_test_add_func ("/tension/half-step", test_half_step);
  g_test_add_func ("/tension/refuses", test_refuses);
  return g_test_run ();
}
