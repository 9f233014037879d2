/* test-tension-posterior.c - what is believed after test seams, against the same answer reached another way
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The reference is importance sampling: points spread evenly through the prior (multiples of the square roots of
 * primes, each point the same on every run), each weighed by how likely it makes the verdicts. Its effective sample
 * size, (sum of weights)2 / sum of squares, says how far it can be trusted. Nothing here is shared with the code that
 * is tested but the prior.
 */

#include "config.h"

#include "sewn-seams.h"
#include "first-try.h"
#include "tension-prior.h"

#include <math.h>

#define HISTORIES 20
#define MOST_SEAMS 15
#define PREDICTIONS 10                   /* of each history */
#define POINTS 200000                    /* at least */
#define MOST_POINTS 20000000
#define LEAST_ESS 2000
#define LEVELS 262144                    /* of the normal's quantiles, each as likely as the other */

typedef struct
{
  HwTestSeam     seams[MOST_SEAMS];
  int            n_seams;
  HwTensionFacts asked[PREDICTIONS];
} History;

typedef struct { double mean, sd; } Prediction;

static const int primes[HW_N_TENSION_TERMS] = { 2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67,
                                                71, 73, 79, 83, 89, 97, 101, 103, 107 };

static History
make_history (guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  History history = { .n_seams = 1 + (int) (seed - 1) % MOST_SEAMS };
  SewnMachine machine;

  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    machine.terms[term] = tension_prior.terms[term].mean + tension_prior.terms[term].sd * normal_random (rand);
  for (int i = 0; i < history.n_seams; i++)
    {
      HwTestSeam *seam = &history.seams[i];
      double start;

      seam->facts = sewn_facts (rand);
      start = hw_tension_start (&tension_prior, &seam->facts, &first_try_scale).dial;
      seam->dial = hw_dial_half_step (start + g_rand_double_range (rand, -1.5, 1.5));
      seam->verdict = sewn_verdict (&machine, &seam->facts, seam->dial, TRUE, rand);
    }
  for (int i = 0; i < PREDICTIONS; i++)
    history.asked[i] = sewn_facts (rand);
  return history;
}

/* What each term's point must be multiplied by for these facts; the same sums as sewn_balance(). */
static void
list_amounts (const HwTensionFacts *facts, double *amounts)
{
  SewnMachine machine = { { 0 } };

  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    {
      machine.terms[term] = 1;
      amounts[term] = sewn_balance (&machine, facts) - first_try_scale.neutral;
      machine.terms[term] = 0;
    }
}

static double
sum_up (const double *amounts, const double *point)
{
  double sum = first_try_scale.neutral;

  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    sum += amounts[term] * point[term];
  return sum;
}

static double
weigh_verdict (const HwTestSeam *seam, double balance)
{
  double below = tension_prior.window_below + tension_prior.window_below_per_mm
                 * MIN (seam->facts.thickness_mm, tension_prior.window_thickest_mm);
  double too_low = normal_below ((balance - below - seam->dial) / tension_prior.verdict_noise);
  double too_high = normal_below ((seam->dial - balance - tension_prior.window_above) / tension_prior.verdict_noise);

  switch ((int) seam->verdict)
    {
    case HW_VERDICT_LOOPS_BELOW:
      return too_low;
    case HW_VERDICT_BOBBIN_ABOVE:
      return too_high;
    case HW_VERDICT_PUCKER_RELEASED:
      return sqrt (too_high);
    default:
      return MAX (1 - too_low - too_high, 0);
    }
}

/* A logistic first guess, then Newton's steps on Phi itself. */
static double
find_quantile (double p)
{
  double lower = MIN (p, 1 - p);
  double x = 0.55 * log (lower / (1 - lower));

  for (int i = 0; i < 60; i++)
    {
      double step = (normal_below (x) - lower) / (exp (-x * x / 2) / sqrt (2 * G_PI));

      step = CLAMP (step, -0.5, 0.5);
      x -= step;
      if (fabs (step) < 1e-10)
        break;
    }
  return p < 0.5 ? x : -x;
}

static double *
list_quantiles (void)
{
  double *quantiles = g_new (double, LEVELS);

  for (int i = 0; i < LEVELS; i++)
    quantiles[i] = find_quantile ((i + 0.5) / LEVELS);
  return quantiles;
}

static void
take_point (double even[HW_N_TENSION_TERMS], const double *quantiles, double *point)
{
  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    {
      even[term] += sqrt (primes[term]);
      even[term] -= floor (even[term]);
      point[term] = tension_prior.terms[term].mean
                    + tension_prior.terms[term].sd * quantiles[(int) (even[term] * LEVELS)];
    }
}

typedef struct { double weights, squares, sums[PREDICTIONS][2]; int n_points; } Sample;

static void
weigh_point (Sample *self, const History *history, double amounts[][HW_N_TENSION_TERMS], const double *point)
{
  double weight = 1;

  for (int k = 0; k < history->n_seams && weight > 1e-12; k++)
    weight *= weigh_verdict (&history->seams[k], sum_up (amounts[k], point));
  self->n_points++;
  self->weights += weight;
  self->squares += weight * weight;
  for (int k = 0; k < PREDICTIONS && weight > 1e-12; k++)
    {
      double dial = sum_up (amounts[MOST_SEAMS + k], point);

      self->sums[k][0] += weight * dial;
      self->sums[k][1] += weight * dial * dial;
    }
}

static double
count_effective (const Sample *self)
{
  return self->squares > 0 ? self->weights * self->weights / self->squares : 0;
}

/* As many points as make the answer one that can be trusted. */
static Sample
sample (const History *history, const double *quantiles, Prediction *predictions)
{
  double amounts[MOST_SEAMS + PREDICTIONS][HW_N_TENSION_TERMS];
  double even[HW_N_TENSION_TERMS] = { 0 };
  double point[HW_N_TENSION_TERMS];
  Sample self = { 0 };

  for (int k = 0; k < history->n_seams; k++)
    list_amounts (&history->seams[k].facts, amounts[k]);
  for (int k = 0; k < PREDICTIONS; k++)
    list_amounts (&history->asked[k], amounts[MOST_SEAMS + k]);
  while (self.n_points < POINTS || (count_effective (&self) < LEAST_ESS && self.n_points < MOST_POINTS))
    {
      take_point (even, quantiles, point);
      weigh_point (&self, history, amounts, point);
    }
  for (int k = 0; k < PREDICTIONS; k++)
    {
      predictions[k].mean = self.sums[k][0] / self.weights;
      predictions[k].sd = sqrt (self.sums[k][1] / self.weights - predictions[k].mean * predictions[k].mean);
    }
  return self;
}

/* The start before the limits near the ends of the dial. */
static Prediction
predict (const HwTensionBelief *belief, const HwTensionFacts *facts)
{
  HwTensionStart start = hw_tension_belief_start (belief, facts);
  double sum = first_try_scale.neutral;

  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    sum += start.terms[term];
  return (Prediction) { sum, start.sd };
}

static void
test_posterior (void)
{
  g_autofree double *quantiles = list_quantiles ();
  double worst_mean = 0, worst_spread = 0, least_ess = INFINITY, sum_mean = 0;
  for (guint32 seed = 1; seed <= HISTORIES; seed++)
    {
      History history = make_history (seed);
      g_autoptr (HwTensionBelief) belief = hw_tension_belief_new (&tension_prior, &first_try_scale, history.seams,
                                                                  (gsize) history.n_seams);
      Prediction sampled[PREDICTIONS];
      Sample drawn = sample (&history, quantiles, sampled);
      double ess = count_effective (&drawn);

      g_test_message ("history %u of %d seams: effective sample size %.0f of %d", seed, history.n_seams, ess,
                      drawn.n_points);
      g_assert_cmpuint (hw_tension_belief_n_telling (belief), ==, (guint) history.n_seams);
      g_assert_cmpfloat (ess, >=, LEAST_ESS);
      least_ess = MIN (least_ess, ess);
      for (int k = 0; k < PREDICTIONS; k++)
        {
          Prediction believed = predict (belief, &history.asked[k]);
          double off = fabs (believed.mean - sampled[k].mean);
          double ratio = fabs (believed.sd / sampled[k].sd - 1);

          g_assert_cmpfloat (off, <=, 0.1);
          g_assert_cmpfloat (ratio, <=, 0.15);
          worst_mean = MAX (worst_mean, off);
          worst_spread = MAX (worst_spread, ratio);
          sum_mean += off;
        }
    }
  g_test_message ("%d predictions: means at most %.4f of a number apart (%.4f on average), spreads at most %.2f %%; "
                  "effective sample size at least %.0f", HISTORIES * PREDICTIONS, worst_mean,
                  sum_mean / (HISTORIES * PREDICTIONS), worst_spread * 100, least_ess);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tension-posterior/importance-sampling", test_posterior);
  return g_test_run ();
}
