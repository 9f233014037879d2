/* test-tension-learn.c - what test seams teach: directions, order, extremes, and how many scraps it saves
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "sewn-seams.h"
#include "first-try.h"
#include "tension-prior.h"
#include "trade/tension-sites.h"

#include <math.h>
#include <string.h>

static const HwTensionFacts cotton = { 30, 30, 0.8, 2.5, 0, 0 };
static const HwTensionFacts leather = { 40, 40, 1.6, 3.5, 0, 1u << HW_TENSION_LEATHER };

static HwTensionStart
start_after (const HwTestSeam *seams, gsize n_seams, const HwTensionFacts *facts)
{
  g_autoptr (HwTensionBelief) belief = hw_tension_belief_new (&tension_prior, &first_try_scale, seams, n_seams);

  return hw_tension_belief_start (belief, facts);
}

/* ---- without seams ---- */

static void
test_prior (void)
{
  static const HwTestSeam silent[] = {
    { { 30, 30, 0.8, 2.5, 0, 0 }, 4, HW_VERDICT_PUCKER_STAYS }, { { 30, 30, 0.8, 2.5, 0, 0 }, 4, HW_VERDICT_SKIPPED },
    { { 30, 30, 0.8, 2.5, 0, 0 }, 4, HW_VERDICT_THREAD_SNAPS }, { { 30, 30, 0.8, 2.5, 0, 0 }, 4, HW_VERDICT_WAVY },
    /* of a journal that kept no facts */
    { { 0, 0, 0, 0, 0, 0 }, 3, HW_VERDICT_LOOPS_BELOW }, { { 30, 0, 0.8, 2.5, 0, 0 }, 3, HW_VERDICT_BALANCED },
    { { 30, 30, 0.8, NAN, 0, 0 }, 3, HW_VERDICT_BALANCED }, { { 30, 30, 0.8, 2.5, 0, 0 }, NAN, HW_VERDICT_BALANCED },
  };
  static const HwDialScale scales[] = { { 0, 9, 4 }, { 0, 9, 4.5 }, { 1, 10, 5 }, { 0, 4.5, 2 }, { -3, 3, 0 } };

  for (gsize k = 0; k < G_N_ELEMENTS (scales); k++)
    {
      g_autoptr (HwTensionBelief) none = hw_tension_belief_new (&tension_prior, &scales[k], NULL, 0);
      g_autoptr (HwTensionBelief) mute = hw_tension_belief_new (&tension_prior, &scales[k], silent,
                                                                G_N_ELEMENTS (silent));

      g_assert_cmpuint (hw_tension_belief_n_telling (mute), ==, 0);
      for (int i = 0; i < FIRST_TRIES; i++)
        {
          HwTensionStart prior = hw_tension_start (&tension_prior, &first_tries[i].facts, &scales[k]);
          HwTensionStart starts[2] = { hw_tension_belief_start (none, &first_tries[i].facts),
                                       hw_tension_belief_start (mute, &first_tries[i].facts) };

          for (int j = 0; j < 2; j++)
            {
              g_assert_cmpfloat (starts[j].dial, ==, prior.dial);
              g_assert_cmpfloat (starts[j].sd, ==, prior.sd);
              g_assert_cmpfloat (starts[j].window_low, ==, prior.window_low);
              g_assert_cmpfloat (starts[j].window_high, ==, prior.window_high);
              for (int term = 0; term < HW_N_TENSION_TERMS; term++)
                g_assert_cmpfloat (starts[j].terms[term], ==, prior.terms[term]);
            }
        }
    }
}

/* ---- one seam ---- */

/* By hand: with one normal value of spread s and the verdict "beyond a", mean and variance of a cut normal. */
static void
test_one_seam_by_hand (void)
{
  HwTestSeam seam = { cotton, 4, HW_VERDICT_LOOPS_BELOW };
  HwTensionStart start = start_after (&seam, 1, &cotton);
  double edge = 0.35 + 0.3 * 0.8;        /* the balance point lies further up than this, noise 0.35 */
  double whole = sqrt (0.75 * 0.75 + 0.35 * 0.35);
  double at = edge / whole;
  double hazard = exp (-at * at / 2) / sqrt (2 * G_PI) / normal_below (-at);
  double mean = 0.75 * 0.75 / whole * hazard;
  double bend = hazard * (hazard - at) / (whole * whole);
  double variance = 0.75 * 0.75 - pow (0.75, 4) * bend;

  g_assert_cmpfloat_with_epsilon (start.dial, 4 + mean, 1e-9);
  g_assert_cmpfloat_with_epsilon (start.sd, sqrt (variance), 1e-9);
}

static const struct
{
  const char *path;
  HwVerdict   verdict;
  int         way;
} directions[] = {
  { "loops-below", HW_VERDICT_LOOPS_BELOW, 1 },
  { "balanced", HW_VERDICT_BALANCED, 0 },
  { "bobbin-above", HW_VERDICT_BOBBIN_ABOVE, -1 },
  { "pucker-released", HW_VERDICT_PUCKER_RELEASED, -1 },
  { "pucker-stays", HW_VERDICT_PUCKER_STAYS, 0 },
  { "skipped", HW_VERDICT_SKIPPED, 0 },
  { "thread-snaps", HW_VERDICT_THREAD_SNAPS, 0 },
  { "wavy", HW_VERDICT_WAVY, 0 },
};

/* Every verdict moves the dial the way it must, on the cloth it was sewn on and, less, on every other. */
static void
test_directions (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (directions); i++)
    for (int k = 0; k < FIRST_TRIES; k++)
      {
        const HwTensionFacts *facts = &first_tries[k].facts;
        HwTensionStart prior = hw_tension_start (&tension_prior, facts, &first_try_scale);
        HwTestSeam seam = { *facts, hw_dial_half_step (prior.dial), directions[i].verdict };
        HwTensionStart after = start_after (&seam, 1, facts);
        double elsewhere = start_after (&seam, 1, &cotton).dial - 4;

        g_assert_cmpstr (hw_verdict_ids[directions[i].verdict], ==, directions[i].path);
        if (directions[i].way > 0)
          {
            g_assert_cmpfloat (after.dial, >, prior.dial);
            g_assert_cmpfloat (elsewhere, >, 0);
            g_assert_cmpfloat (elsewhere, <=, after.dial - prior.dial + 1e-12);
          }
        else if (directions[i].way < 0)
          {
            g_assert_cmpfloat (after.dial, <, prior.dial);
            g_assert_cmpfloat (elsewhere, <, 0);
          }
        else
          {
            /* The window is not symmetric: balanced draws the dial to its middle, and never past it. */
            g_assert_cmpfloat (fabs (after.dial - prior.dial), <,
                               fabs ((prior.window_low + prior.window_high) / 2 - prior.dial) + 0.26);
          }
        g_assert_cmpfloat (after.sd, <=, prior.sd);
      }
}

/* A pucker that goes is the same evidence as bobbin thread on top, at half the weight. */
static void
test_half_weight (void)
{
  HwTestSeam whole = { cotton, 4, HW_VERDICT_BOBBIN_ABOVE };
  HwTestSeam halves[] = { { cotton, 4, HW_VERDICT_PUCKER_RELEASED }, { cotton, 4, HW_VERDICT_PUCKER_RELEASED } };
  double moved = 4 - start_after (&whole, 1, &cotton).dial;
  double half = 4 - start_after (halves, 1, &cotton).dial;
  double both = 4 - start_after (halves, 2, &cotton).dial;

  g_assert_cmpfloat (half, >, 0.4 * moved);
  g_assert_cmpfloat (half, <, 0.8 * moved);
  g_assert_cmpfloat_with_epsilon (both, moved, 0.02);
}

/* What is a normal of spread 1 round 0 before, and is cut by @evidence, summed in small steps. */
static void
sum_cut (const HwTensionEvidence *evidence, double *mean, double *variance)
{
  double sums[3] = { 0 };

  for (int i = -100000; i <= 100000; i++)
    {
      double at = i * 1e-4;
      double chance = normal_below ((evidence->high - at) / evidence->noise)
                      - normal_below ((evidence->low - at) / evidence->noise);
      double weight = exp (-at * at / 2) * pow (chance, evidence->weight);

      sums[0] += weight;
      sums[1] += weight * at;
      sums[2] += weight * at * at;
    }
  *mean = sums[1] / sums[0];
  *variance = sums[2] / sums[0] - *mean * *mean;
}

static void
check_match (HwTensionEvidence evidence)
{
  HwTensionSite site = hw_tension_match (&evidence, 0, 1);
  double mean, variance;

  sum_cut (&evidence, &mean, &variance);
  g_assert_cmpfloat_with_epsilon (1 / (1 + site.precision), variance, 1e-4);
  g_assert_cmpfloat_with_epsilon (site.shift / (1 + site.precision), mean, 1e-4);
}

/* What stands in for half a verdict has its mean and its spread, also where the verdict cuts the hump off on one
 * side. */
static void
test_half_weight_by_sums (void)
{
  static const double highs[] = { -2, -0.5, 0, 1 };
  static const double noises[] = { 0.05, 0.35, 1 };

  for (gsize i = 0; i < G_N_ELEMENTS (highs); i++)
    for (gsize k = 0; k < G_N_ELEMENTS (noises); k++)
      check_match ((HwTensionEvidence) { -INFINITY, highs[i], noises[k], 0.5 });
}

/* Likewise between two bounds: round what was thought before, and on either side of it, near and far. */
static void
test_between_by_sums (void)
{
  static const double lows[] = { -4, -1.5, -0.5, 0, 0.25, 1, 3 };
  static const double widths[] = { 0.1, 0.5, 1.2 };
  static const double noises[] = { 0.05, 0.35, 1 };

  for (gsize i = 0; i < G_N_ELEMENTS (lows); i++)
    for (gsize j = 0; j < G_N_ELEMENTS (widths); j++)
      for (gsize k = 0; k < G_N_ELEMENTS (noises); k++)
        check_match ((HwTensionEvidence) { lows[i], lows[i] + widths[j], noises[k], 1 });
}

/* That the balance point is somewhere at all is no news. */
static void
test_no_bounds_say_nothing (void)
{
  HwTensionEvidence anywhere = { -INFINITY, INFINITY, 0.35, 1 };
  HwTensionSite site = hw_tension_match (&anywhere, 0.5, 0.75);

  g_assert_cmpfloat (site.precision, ==, 0);
  g_assert_cmpfloat (site.shift, ==, 0);
}

/* Test seams of everything that there is a term for, so that no term is left out: of each one is surer afterwards. */
static void
test_all_terms (void)
{
  HwTestSeam seams[HW_N_TENSION_TERMS + 3];
  gsize n_seams = 0;
  gboolean spoken[HW_N_TENSION_TERMS] = { FALSE };
  HwTensionPrior shown = tension_prior;

  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    shown.terms[term].mean = 1;          /* else one that is nought before it is learnt would not show */
  seams[n_seams++] = (HwTestSeam) { { 60, 30, 2, 4, 0, 0 }, 4, HW_VERDICT_LOOPS_BELOW };
  seams[n_seams++] = (HwTestSeam) { { 60, 60, 0.5, 1.5, 0, 0 }, 4, HW_VERDICT_BALANCED };
  seams[n_seams++] = (HwTestSeam) { { 30, 30, 0.8, 2.5, 3, 1u << HW_TENSION_ZIGZAG }, 4, HW_VERDICT_BOBBIN_ABOVE };
  for (int term = HW_TENSION_FILAMENT; term < HW_N_TENSION_TERMS; term++)
    if (term < HW_TENSION_THICKER || term > HW_TENSION_SHORTER)
      seams[n_seams++] = (HwTestSeam) { { 30, 30, 0.8, 2.5, 2, 1u << term }, 4, HW_VERDICT_LOOPS_BELOW };

  for (gsize i = 0; i < n_seams; i++)
    {
      HwTensionStart prior = hw_tension_start (&tension_prior, &seams[i].facts, &first_try_scale);
      HwTensionStart after = start_after (seams, n_seams, &seams[i].facts);
      HwTensionStart all = hw_tension_start (&shown, &seams[i].facts, &first_try_scale);

      g_assert_true (isfinite (after.dial));
      g_assert_cmpfloat (after.sd, <, prior.sd);
      for (int term = 0; term < HW_N_TENSION_TERMS; term++)
        spoken[term] |= fabs (all.terms[term]) > 0;
    }
  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    if (!spoken[term])
      g_error ("no seam speaks of %s", hw_tension_term_ids[term]);
}

/* Leather taught on leather says less of cotton than cotton does. */
static void
test_what_is_shared (void)
{
  HwTestSeam on_leather[] = { { leather, 3.5, HW_VERDICT_LOOPS_BELOW }, { leather, 4.5, HW_VERDICT_BALANCED } };
  HwTestSeam on_cotton[] = { { cotton, 4, HW_VERDICT_LOOPS_BELOW }, { cotton, 5, HW_VERDICT_BALANCED } };
  double from_leather = start_after (on_leather, 2, &cotton).dial - 4;
  double from_cotton = start_after (on_cotton, 2, &cotton).dial - 4;

  g_assert_cmpfloat (from_leather, >, 0.1);
  g_assert_cmpfloat (from_cotton, >, from_leather);
}

/* Seen often enough, the machine's own place is believed: within the window of what was seen. */
static void
test_settles (void)
{
  HwTestSeam seams[40];
  HwTensionStart start;

  for (gsize i = 0; i < G_N_ELEMENTS (seams); i++)
    seams[i] = (HwTestSeam) { cotton, 5 + 0.5 * (double) (i % 3),
                              i % 3 == 0 ? HW_VERDICT_LOOPS_BELOW : i % 3 == 1 ? HW_VERDICT_BALANCED
                                                                               : HW_VERDICT_BOBBIN_ABOVE };
  start = start_after (seams, G_N_ELEMENTS (seams), &cotton);
  g_assert_cmpfloat_with_epsilon (start.dial, 5.5, 0.15);
  g_assert_cmpfloat (start.sd, <, 0.12);
}

static void
test_scale (void)
{
  HwDialScale half = { 0, 4.5, 2 };
  HwTestSeam seam = { cotton, 2, HW_VERDICT_LOOPS_BELOW };
  HwTestSeam wide = { cotton, 4, HW_VERDICT_LOOPS_BELOW };
  g_autoptr (HwTensionBelief) belief = hw_tension_belief_new (&tension_prior, &half, &seam, 1);
  HwTensionStart start = hw_tension_belief_start (belief, &cotton);

  g_assert_cmpfloat_with_epsilon (start.dial, start_after (&wide, 1, &cotton).dial / 2, 1e-12);
  g_assert_cmpfloat_with_epsilon (start.sd, start_after (&wide, 1, &cotton).sd / 2, 1e-12);
}

/* ---- the half-step to try next ---- */

static double
next_after (double dial, HwVerdict verdict)
{
  HwTestSeam seam = { cotton, dial, verdict };
  g_autoptr (HwTensionBelief) belief = hw_tension_belief_new (&tension_prior, &first_try_scale, &seam, 1);

  return hw_tension_belief_next (belief, &cotton, dial, verdict);
}

static void
test_next (void)
{
  for (double dial = 0; dial <= 9; dial += 0.5)
    {
      double up = next_after (dial, HW_VERDICT_LOOPS_BELOW);
      double down = next_after (dial, HW_VERDICT_BOBBIN_ABOVE);

      g_assert_cmpfloat (up, ==, MIN (MAX (up, dial + 0.5), 9));
      g_assert_cmpfloat (down, ==, MAX (MIN (down, dial - 0.5), 0));
      g_assert_cmpfloat (up * 2, ==, round (up * 2));
      g_assert_cmpfloat (down * 2, ==, round (down * 2));
      g_assert_cmpfloat (next_after (dial, HW_VERDICT_BALANCED), ==, dial);
      g_assert_cmpfloat (next_after (dial, HW_VERDICT_SKIPPED), ==, dial);
    }
  g_assert_cmpfloat (next_after (4, HW_VERDICT_PUCKER_RELEASED), <=, 3.5);
}

/* ---- order, extremes ---- */

static void
make_any_seam (GRand *rand, HwTestSeam *seam)
{
  seam->facts = (HwTensionFacts) {
    .needle_tex = exp (g_rand_double_range (rand, 0, 6)), .bobbin_tex = exp (g_rand_double_range (rand, 0, 6)),
    .thickness_mm = exp (g_rand_double_range (rand, -5, 4)), .length_mm = exp (g_rand_double_range (rand, -3, 3)),
    .width_mm = g_rand_double_range (rand, 0, 20), .terms = g_rand_int (rand),
  };
  seam->dial = g_rand_int_range (rand, 0, 20) == 0 ? g_rand_double_range (rand, -20, 200)
                                                   : g_rand_double_range (rand, -2, 11);
  seam->verdict = (HwVerdict) g_rand_int_range (rand, 0, HW_N_VERDICTS);
}

static void
test_order_is_nothing (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);

  for (int round = 0; round < 200; round++)
    {
      HwTestSeam seams[12];
      int n = g_rand_int_range (rand, 2, 13);
      HwTensionStart forth, back;

      for (int i = 0; i < n; i++)
        make_any_seam (rand, &seams[i]);
      forth = start_after (seams, (gsize) n, &leather);
      for (int i = n - 1; i > 0; i--)
        {
          int other = g_rand_int_range (rand, 0, i + 1);
          HwTestSeam kept = seams[i];

          seams[i] = seams[other];
          seams[other] = kept;
        }
      back = start_after (seams, (gsize) n, &leather);
      g_assert_cmpfloat (forth.dial, ==, back.dial);
      g_assert_cmpfloat (forth.sd, ==, back.sd);
    }
}

static void
assert_sound (const HwTensionStart *start, double prior_sd)
{
  g_assert_true (isfinite (start->dial) && isfinite (start->sd));
  g_assert_true (isfinite (start->window_low) && isfinite (start->window_high));
  g_assert_cmpfloat (start->dial, >=, first_try_scale.low);
  g_assert_cmpfloat (start->dial, <=, first_try_scale.high);
  g_assert_cmpfloat (start->sd, >=, 0);
  g_assert_cmpfloat (start->sd, <=, prior_sd * (1 + 1e-9));
  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    g_assert_true (isfinite (start->terms[term]));
}

#define ROUNDS 100000

static void
test_any_history_is_sound (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (9);

  for (int round = 0; round < ROUNDS; round++)
    {
      HwTestSeam seams[16];
      int n = g_rand_int_range (rand, 1, 16);
      HwTensionStart start;

      for (int i = 0; i < n; i++)
        make_any_seam (rand, &seams[i]);
      make_any_seam (rand, &seams[15]);
      start = start_after (seams, (gsize) n, &seams[15].facts);
      assert_sound (&start, hw_tension_start (&tension_prior, &seams[15].facts, &first_try_scale).sd);
    }
}

/* A handbook of one's own may say anything that its reader lets through. */
static void
test_extreme_priors (void)
{
  static const double far[] = { -1e6, -200, -20, 0, 4, 200, 1e6 };

  for (gsize i = 0; i < G_N_ELEMENTS (far); i++)
    for (int verdict = 0; verdict < HW_N_VERDICTS; verdict++)
      for (int kind = 0; kind < 4; kind++)
        {
          HwTensionPrior prior = tension_prior;
          HwTestSeam seams[] = { { cotton, far[i], (HwVerdict) verdict }, { leather, 4, HW_VERDICT_BALANCED },
                                 { cotton, far[i], (HwVerdict) verdict }, { cotton, 0, HW_VERDICT_LOOPS_BELOW } };
          g_autoptr (HwTensionBelief) belief = NULL;
          HwTensionStart start;

          if (kind == 1)                 /* no window at all, hardly any noise */
            prior.window_below = prior.window_below_per_mm = prior.window_above = 0;
          if (kind == 1 || kind == 2)
            prior.verdict_noise = 0.01;
          for (int term = 0; term < HW_N_TENSION_TERMS && kind > 1; term++)
            prior.terms[term].sd = kind == 2 ? 20 : 0;
          belief = hw_tension_belief_new (&prior, &first_try_scale, seams, G_N_ELEMENTS (seams));
          start = hw_tension_belief_start (belief, &cotton);
          assert_sound (&start, hw_tension_start (&prior, &cotton, &first_try_scale).sd);
        }
}

/* ---- scraps ---- */

#define MACHINES 600
#define LOGGED 10
#define MOST_SCRAPS 20

typedef struct { double mean, within_two; } Scraps;

static double
believe (const GArray *journal, const HwTensionFacts *facts)
{
  return hw_dial_half_step (start_after ((HwTestSeam *) (void *) journal->data, journal->len, facts).dial);
}

static HwVerdict
sew_scrap (GArray *journal, const SewnMachine *machine, const HwTensionFacts *facts, double *dial, GRand *rand)
{
  HwTestSeam seam = { *facts, *dial, sewn_verdict (machine, facts, *dial, FALSE, rand) };
  g_autoptr (HwTensionBelief) belief = NULL;

  g_array_append_val (journal, seam);
  belief = hw_tension_belief_new (&tension_prior, &first_try_scale, (HwTestSeam *) (void *) journal->data,
                                  journal->len);
  *dial = hw_tension_belief_next (belief, facts, *dial, seam.verdict);
  return seam.verdict;
}

/* Ten scraps of everyday sewing, on one cloth after the other, each until it looks right. */
static GArray *
log_ten (const SewnMachine *machine, GRand *rand)
{
  GArray *journal = g_array_new (FALSE, FALSE, sizeof (HwTestSeam));
  HwTensionFacts facts = sewn_facts (rand);
  double dial = believe (journal, &facts);

  while (journal->len < LOGGED)
    if (sew_scrap (journal, machine, &facts, &dial, rand) == HW_VERDICT_BALANCED)
      {
        facts = sewn_facts (rand);
        dial = believe (journal, &facts);
      }
  return journal;
}

static int
count_taught (GArray *journal, const SewnMachine *machine, const HwTensionFacts *facts, GRand *rand)
{
  double dial = believe (journal, facts);

  for (int n = 1; n < MOST_SCRAPS; n++)
    if (sew_scrap (journal, machine, facts, &dial, rand) == HW_VERDICT_BALANCED)
      return n;
  return MOST_SCRAPS;
}

/* The handbook's start, half a number at a time: what a person does without the journal. */
static int
count_untaught (const SewnMachine *machine, const HwTensionFacts *facts, GRand *rand)
{
  double dial = hw_dial_half_step (hw_tension_start (&tension_prior, facts, &first_try_scale).dial);

  for (int n = 1; n < MOST_SCRAPS; n++)
    switch ((int) sewn_verdict (machine, facts, dial, FALSE, rand))
      {
      case HW_VERDICT_LOOPS_BELOW:
        dial += 0.5;
        break;
      case HW_VERDICT_BOBBIN_ABOVE:
        dial -= 0.5;
        break;
      default:
        return n;
      }
  return MOST_SCRAPS;
}

/* @every_term: not the machine alone is off, but thread, layers, cloth and stitch too, each by its own spread. */
static SewnMachine
build_machine (double off, gboolean every_term, GRand *rand)
{
  SewnMachine machine;

  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    {
      machine.terms[term] = tension_prior.terms[term].mean;
      if (every_term)
        machine.terms[term] += tension_prior.terms[term].sd * normal_random (rand);
    }
  machine.terms[HW_TENSION_MACHINE] = off;
  return machine;
}

/* Only where the true dial can be set and lies within two numbers of the handbook's. */
static HwTensionFacts
choose_facts (const SewnMachine *machine, GRand *rand)
{
  for (int i = 0; i < 1000; i++)
    {
      HwTensionFacts facts = sewn_facts (rand);
      double balance = sewn_balance (machine, &facts);
      double start = hw_tension_start (&tension_prior, &facts, &first_try_scale).dial;

      if (fabs (balance - start) <= 2 && balance >= 1 && balance <= 8)
        return facts;
    }
  return cotton;
}

/* @least: how far off the machine is at the least, up or down. */
static void
run_scraps (double least, gboolean every_term, Scraps *taught, Scraps *untaught)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2031);

  *taught = *untaught = (Scraps) { 0, 0 };
  for (int i = 0; i < MACHINES; i++)
    {
      double off = g_rand_double_range (rand, least, 2.001) * (g_rand_boolean (rand) ? 1 : -1);
      SewnMachine machine = build_machine (off, every_term, rand);
      g_autoptr (GArray) journal = log_ten (&machine, rand);
      HwTensionFacts facts = choose_facts (&machine, rand);
      int with = count_taught (journal, &machine, &facts, rand);
      int without = count_untaught (&machine, &facts, rand);

      taught->mean += (double) with / MACHINES;
      untaught->mean += (double) without / MACHINES;
      taught->within_two += (with <= 2 ? 100.0 : 0) / MACHINES;
      untaught->within_two += (without <= 2 ? 100.0 : 0) / MACHINES;
    }
}

typedef struct { const char *path; double least; gboolean every_term; } ScrapCase;

static const ScrapCase scrap_cases[] = {
  { "/tension-learn/scraps/machine-up-to-two-off", 0, FALSE },
  { "/tension-learn/scraps/every-term-off-too", 0, TRUE },
  { "/tension-learn/scraps/machine-two-off", 2, FALSE },
};

static void
test_scraps (gconstpointer data)
{
  const ScrapCase *asked = data;
  Scraps taught, untaught;

  run_scraps (asked->least, asked->every_term, &taught, &untaught);
  g_test_message ("scraps until balanced on %d machines after %d test seams: mean %.2f, %.1f %% within 2; without "
                  "learning: mean %.2f, %.1f %% within 2", MACHINES, LOGGED, taught.mean, taught.within_two,
                  untaught.mean, untaught.within_two);
  g_assert_cmpfloat (taught.mean, <=, 2.0);
  g_assert_cmpfloat (taught.within_two, >=, 75);
  g_assert_cmpfloat (untaught.mean, >, taught.mean + 0.3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tension-learn/prior", test_prior);
  g_test_add_func ("/tension-learn/one-seam-by-hand", test_one_seam_by_hand);
  g_test_add_func ("/tension-learn/directions", test_directions);
  g_test_add_func ("/tension-learn/half-weight", test_half_weight);
  g_test_add_func ("/tension-learn/half-weight-by-sums", test_half_weight_by_sums);
  g_test_add_func ("/tension-learn/between-by-sums", test_between_by_sums);
  g_test_add_func ("/tension-learn/no-bounds-say-nothing", test_no_bounds_say_nothing);
  g_test_add_func ("/tension-learn/all-terms", test_all_terms);
  g_test_add_func ("/tension-learn/what-is-shared", test_what_is_shared);
  g_test_add_func ("/tension-learn/settles", test_settles);
  g_test_add_func ("/tension-learn/scale", test_scale);
  g_test_add_func ("/tension-learn/next", test_next);
  g_test_add_func ("/tension-learn/order-is-nothing", test_order_is_nothing);
  g_test_add_func ("/tension-learn/any-history-is-sound", test_any_history_is_sound);
  g_test_add_func ("/tension-learn/extreme-priors", test_extreme_priors);
  for (gsize i = 0; i < G_N_ELEMENTS (scrap_cases); i++)
    g_test_add_data_func (scrap_cases[i].path, &scrap_cases[i], test_scraps);
  return g_test_run ();
}
