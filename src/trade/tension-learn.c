/* tension-learn.c - what test seams teach about a machine's dial
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The terms in units of their spreads are standard normal before anything was sewn. Each telling seam adds one normal
 * site along its own amounts, so the precision of the terms is I + sum of precision x amounts x amounts', at least
 * that of the prior in every direction. It is kept as its Cholesky factor: a site that changes is put into the factor
 * by a rank-one update, and the factor is made anew at the head of every sweep, so rounding does not build up. Terms
 * that no seam speaks of stay as they were, apart from all others, and are left out of it.
 *
 * Sites are visited one after the other in an order sorted by what they say, never by when they were sewn: the same
 * seams give the same belief to the last bit. All likelihoods are log-concave, so sites have precision >= 0 and the
 * sweeps settle, mostly within ten; from DAMPED_FROM on steps are halved, and MOST_SWEEPS ends them in any case.
 *
 * Where the model is not linear: floors of cloth and zigzag are applied to the amounts by the prior's means, and
 * stay where those put them whatever is learned (tension-private.h); the limits near the ends of the dial hold the
 * start that is shown, not what is believed.
 */

#include "config.h"

#include "trade/tension-learn.h"

#include "trade/tension-private.h"
#include "trade/tension-sites.h"

#include <math.h>
#include <string.h>

#define N HW_N_TENSION_TERMS
#define MOST_SWEEPS 200
#define DAMPED_FROM 20
#define SETTLED 1e-7                     /* of a standard deviation */
#define HALF_WEIGHT 0.5
#define SAME_MM 0.02

const char * const hw_verdict_ids[HW_N_VERDICTS + 1] = {
  [HW_VERDICT_LOOPS_BELOW] = "loops-below",
  [HW_VERDICT_BALANCED] = "balanced",
  [HW_VERDICT_BOBBIN_ABOVE] = "bobbin-above",
  [HW_VERDICT_PUCKER_RELEASED] = "pucker-released",
  [HW_VERDICT_PUCKER_STAYS] = "pucker-stays",
  [HW_VERDICT_SKIPPED] = "skipped",
  [HW_VERDICT_THREAD_SNAPS] = "thread-snaps",
  [HW_VERDICT_WAVY] = "wavy",
};

gboolean
hw_verdict_find (const char *id,
                 HwVerdict  *verdict)
{
  for (int i = 0; id != NULL && i < HW_N_VERDICTS; i++)
    if (strcmp (hw_verdict_ids[i], id) == 0)
      {
        *verdict = (HwVerdict) i;
        return TRUE;
      }
  return FALSE;
}

/* Lower triangle over the terms that some seam speaks of: values x values' is their precision. */
typedef struct
{
  int    n;
  int    terms[N];
  double values[N][N];
} Factor;

typedef struct
{
  double            amounts[N];          /* in spreads of the factor's terms, in its order */
  HwTensionEvidence evidence;            /* about the deviation from the prior's mean */
  HwTensionSite     site;
} Seam;

struct _HwTensionBelief
{
  HwTensionPrior prior;
  HwDialScale    scale;
  guint          n_telling, n_faults;    /* seams that tell; of them, not balanced */
  HwTestSeam    *telling;                /* [n_telling] */
  double         means[N];               /* of the terms, on the 0-9 scale */
  Factor         factor;
};

/* ---- the factor ---- */

static void
solve_lower (const Factor *self, const double *right, double *solution)
{
  for (int i = 0; i < self->n; i++)
    {
      double sum = right[i];

      for (int j = 0; j < i; j++)
        sum -= self->values[i][j] * solution[j];
      solution[i] = sum / self->values[i][i];
    }
}

static void
solve_upper (const Factor *self, const double *right, double *solution)
{
  for (int i = self->n - 1; i >= 0; i--)
    {
      double sum = right[i];

      for (int j = i + 1; j < self->n; j++)
        sum -= self->values[j][i] * solution[j];
      solution[i] = sum / self->values[i][i];
    }
}

static double
dot (const double *a, const double *b, int n)
{
  double sum = 0;

  for (int i = 0; i < n; i++)
    sum += a[i] * b[i];
  return sum;
}

static void
factorise (Factor *self)
{
  for (int i = 0; i < self->n; i++)
    for (int j = 0; j <= i; j++)
      {
        double sum = self->values[i][j] - dot (self->values[i], self->values[j], j);

        self->values[i][j] = i == j ? sqrt (sum) : sum / self->values[j][j];
      }
}

static void
make_factor (Factor *self, const Seam *seams, guint n_seams)
{
  memset (self->values, 0, sizeof self->values);
  for (int i = 0; i < self->n; i++)
    self->values[i][i] = 1;
  for (guint k = 0; k < n_seams; k++)
    for (int i = 0; i < self->n; i++)
      for (int j = 0; j <= i; j++)
        self->values[i][j] += seams[k].site.precision * seams[k].amounts[i] * seams[k].amounts[j];
  factorise (self);
}

/* Adds @precision x amounts x amounts' (it may be negative). FALSE: rounding stands in the way, and the factor is to be
 * made anew. */
static gboolean
update_factor (Factor *self, const double *amounts, double precision)
{
  double sign = precision < 0 ? -1 : 1;
  double x[N];

  for (int i = 0; i < self->n; i++)
    x[i] = sqrt (fabs (precision)) * amounts[i];
  for (int k = 0; k < self->n; k++)
    {
      double corner = self->values[k][k];
      double square = corner * corner + sign * x[k] * x[k];
      double cosine = sqrt (MAX (square, 0)) / corner;
      double sine = x[k] / corner;

      if (!(square > 0.5))               /* no precision is less than the prior's, which is 1 */
        return FALSE;
      self->values[k][k] = sqrt (square);
      for (int i = k + 1; i < self->n; i++)
        {
          self->values[i][k] = (self->values[i][k] + sign * sine * x[i]) / cosine;
          x[i] = cosine * x[i] - sine * self->values[i][k];
        }
    }
  return TRUE;
}

/* ---- expectation propagation ---- */

typedef struct
{
  Seam  *seams;
  guint  n_seams;
  Factor factor;
  double shift[N];                       /* precision x mean */
} Sweep;

static void
add_shift (Sweep *self, const double *amounts, double shift)
{
  for (int i = 0; i < self->factor.n; i++)
    self->shift[i] += shift * amounts[i];
}

static void
begin_sweep (Sweep *self)
{
  make_factor (&self->factor, self->seams, self->n_seams);
  memset (self->shift, 0, sizeof self->shift);
  for (guint i = 0; i < self->n_seams; i++)
    add_shift (self, self->seams[i].amounts, self->seams[i].site.shift);
}

/* Replaces the seam's site by the one matched to what all others say. Returns how far it moved, in standard
 * deviations. */
static double
visit (Sweep *self, Seam *seam, double step)
{
  HwTensionSite *site = &seam->site;
  HwTensionSite matched;
  double across[N], centre[N];
  double variance, left, mean, more, further;

  solve_lower (&self->factor, seam->amounts, across);
  solve_lower (&self->factor, self->shift, centre);
  variance = dot (across, across, self->factor.n);
  left = 1 - site->precision * variance;
  if (!(variance > 1e-12) || !(left > 1e-9))     /* nothing left to learn along it */
    return 0;
  mean = (dot (across, centre, self->factor.n) - variance * site->shift) / left;
  variance /= left;

  matched = hw_tension_match (&seam->evidence, mean, variance);
  more = step * (matched.precision - site->precision);
  further = step * (matched.shift - site->shift);
  site->precision += more;
  site->shift += further;
  add_shift (self, seam->amounts, further);
  if (!update_factor (&self->factor, seam->amounts, more))
    begin_sweep (self);
  return MAX (fabs (more) * variance, fabs (further - more * mean) * sqrt (variance));
}

static void
propagate (Sweep *self)
{
  double moved = SETTLED * 2;

  for (int sweep = 0; sweep < MOST_SWEEPS && moved > SETTLED; sweep++)
    {
      moved = 0;
      begin_sweep (self);
      for (guint i = 0; i < self->n_seams; i++)
        {
          double step = visit (self, &self->seams[i], sweep < DAMPED_FROM ? 1 : 0.5);

          moved = MAX (moved, step);
        }
    }
  begin_sweep (self);
}

/* ---- seams as evidence ---- */

gboolean
hw_test_seam_tells (const HwTestSeam *self)
{
  return (self->verdict == HW_VERDICT_LOOPS_BELOW || self->verdict == HW_VERDICT_BALANCED
          || self->verdict == HW_VERDICT_BOBBIN_ABOVE || self->verdict == HW_VERDICT_PUCKER_RELEASED)
         && isfinite (self->dial) && hw_tension_facts_are_usable (&self->facts);
}

static HwTensionEvidence
read_verdict (const HwTensionBelief *self, const HwTestSeam *seam, double expected)
{
  double dial = (seam->dial - self->scale.neutral) / hw_tension_unit (&self->scale) - expected;
  double low = dial - self->prior.window_above;
  double high = dial + hw_tension_window_below (&self->prior, seam->facts.thickness_mm);
  double noise = self->prior.verdict_noise;

  switch ((int) seam->verdict)
    {
    case HW_VERDICT_LOOPS_BELOW:
      return (HwTensionEvidence) { high, INFINITY, noise, 1 };
    case HW_VERDICT_BALANCED:
      return (HwTensionEvidence) { low, high, noise, 1 };
    case HW_VERDICT_PUCKER_RELEASED:
      return (HwTensionEvidence) { -INFINITY, low, noise, HALF_WEIGHT };
    case HW_VERDICT_BOBBIN_ABOVE:
    default:
      return (HwTensionEvidence) { -INFINITY, low, noise, 1 };
    }
}

static Seam
make_seam (const HwTensionBelief *self, const HwTestSeam *seam)
{
  Seam made = { .site = { 0, 0 } };
  double expected = 0;

  hw_tension_weigh (made.amounts, &self->prior, &seam->facts);
  for (int term = 0; term < N; term++)
    {
      expected += made.amounts[term] * self->prior.terms[term].mean;
      made.amounts[term] *= self->prior.terms[term].sd;
    }
  made.evidence = read_verdict (self, seam, expected);
  return made;
}

static int
compare_numbers (double a, double b)
{
  return a < b ? -1 : a > b ? 1 : 0;
}

static int
compare_seams (const void *one, const void *two)
{
  const Seam *a = one;
  const Seam *b = two;
  int order = compare_numbers (a->evidence.low, b->evidence.low);

  if (order == 0)
    order = compare_numbers (a->evidence.high, b->evidence.high);
  if (order == 0)
    order = compare_numbers (a->evidence.weight, b->evidence.weight);
  for (int term = 0; term < N && order == 0; term++)
    order = compare_numbers (a->amounts[term], b->amounts[term]);
  return order;
}

/* Keeps the terms that some seam speaks of, for the factor and for every seam's amounts. */
static void
drop_silent_terms (Sweep *self)
{
  for (int term = 0; term < N; term++)
    {
      gboolean spoken = FALSE;

      for (guint i = 0; i < self->n_seams && !spoken; i++)
        spoken = self->seams[i].amounts[term] != 0;
      if (!spoken)
        continue;
      for (guint i = 0; i < self->n_seams; i++)
        self->seams[i].amounts[self->factor.n] = self->seams[i].amounts[term];
      self->factor.terms[self->factor.n++] = term;
    }
}

static void
take_means (HwTensionBelief *self, const Sweep *sweep)
{
  double half[N], whole[N];

  self->factor = sweep->factor;
  solve_lower (&self->factor, sweep->shift, half);
  solve_upper (&self->factor, half, whole);
  for (int term = 0; term < N; term++)
    self->means[term] = self->prior.terms[term].mean;
  for (int i = 0; i < self->factor.n; i++)
    self->means[self->factor.terms[i]] += self->prior.terms[self->factor.terms[i]].sd * whole[i];
}

/**
 * hw_tension_belief_new:
 * @prior: the handbook's terms
 * @scale: this machine's dial
 * @seams: (array length=n_seams) (nullable): test seams on this machine, in any order; those that say nothing about
 *   the dial are passed over
 *
 * Returns: (transfer full): what is believed of the machine's terms
 */
HwTensionBelief *
hw_tension_belief_new (const HwTensionPrior *prior, const HwDialScale *scale, const HwTestSeam *seams, gsize n_seams)
{
  HwTensionBelief *self;
  Sweep sweep = { 0 };

  g_return_val_if_fail (prior != NULL && scale != NULL && scale->low < scale->high, NULL);
  g_return_val_if_fail (seams != NULL || n_seams == 0, NULL);

  self = g_new0 (HwTensionBelief, 1);
  self->prior = *prior;
  self->scale = *scale;
  self->telling = g_new (HwTestSeam, n_seams + 1);
  sweep.seams = g_new (Seam, n_seams + 1);
  for (gsize i = 0; i < n_seams; i++)
    if (hw_test_seam_tells (&seams[i]))
      {
        self->telling[sweep.n_seams] = seams[i];
        sweep.seams[sweep.n_seams++] = make_seam (self, &seams[i]);
        self->n_faults += seams[i].verdict != HW_VERDICT_BALANCED ? 1 : 0;
      }
  self->n_telling = sweep.n_seams;
  qsort (sweep.seams, sweep.n_seams, sizeof (Seam), compare_seams);
  drop_silent_terms (&sweep);
  propagate (&sweep);
  take_means (self, &sweep);
  g_free (sweep.seams);
  return self;
}

void
hw_tension_belief_free (HwTensionBelief *self)
{
  if (self != NULL)
    g_free (self->telling);
  g_free (self);
}

guint
hw_tension_belief_n_telling (const HwTensionBelief *self)
{
  g_return_val_if_fail (self != NULL, 0);

  return self->n_telling;
}

gboolean
hw_tension_belief_is_first_fault (const HwTensionBelief *self)
{
  g_return_val_if_fail (self != NULL, FALSE);

  return self->n_telling == 1 && self->n_faults == 1;
}

static double
find_variance (const HwTensionBelief *self, const double *amounts)
{
  double spreads[N];
  double taught[N] = { 0 };
  double across[N] = { 0 };

  for (int term = 0; term < N; term++)
    spreads[term] = amounts[term] * self->prior.terms[term].sd;
  for (int i = 0; i < self->factor.n; i++)
    taught[i] = spreads[self->factor.terms[i]];
  solve_lower (&self->factor, taught, across);
  for (int i = 0; i < self->factor.n; i++)
    spreads[self->factor.terms[i]] = across[i];
  return dot (spreads, spreads, N);
}

HwTensionStart
hw_tension_belief_start (const HwTensionBelief *self, const HwTensionFacts *facts)
{
  HwTensionStart nothing = { 0 };
  double amounts[N];

  g_return_val_if_fail (self != NULL && facts != NULL && hw_tension_facts_are_usable (facts), nothing);

  hw_tension_weigh (amounts, &self->prior, facts);
  return hw_tension_add_up (&self->prior, facts, &self->scale, amounts, self->means, find_variance (self, amounts));
}

/* The same cloth, thread and stitch, as far as a journal writes them. */
static gboolean
are_same_facts (const HwTensionFacts *a, const HwTensionFacts *b)
{
  return fabs (a->needle_tex - b->needle_tex) < 0.5 && fabs (a->bobbin_tex - b->bobbin_tex) < 0.5
         && fabs (a->thickness_mm - b->thickness_mm) < SAME_MM && fabs (a->length_mm - b->length_mm) < SAME_MM
         && fabs (a->width_mm - b->width_mm) < SAME_MM && a->terms == b->terms;
}

static gboolean
was_at_fault (const HwTensionBelief *self, const HwTensionFacts *facts, double dial)
{
  for (guint i = 0; i < self->n_telling; i++)
    if (self->telling[i].verdict != HW_VERDICT_BALANCED && fabs (self->telling[i].dial - dial) < 1e-6
        && are_same_facts (&self->telling[i].facts, facts))
      return TRUE;
  return FALSE;
}

gboolean
hw_tension_belief_find_good (const HwTensionBelief *self, const HwTensionFacts *facts, double *dial)
{
  double believed = NAN;                 /* reckoned once something was found: every pairing asks here */
  double nearest = NAN;

  for (guint i = 0; i < self->n_telling; i++)
    {
      const HwTestSeam *seam = &self->telling[i];

      if (seam->verdict != HW_VERDICT_BALANCED || !are_same_facts (&seam->facts, facts)
          || was_at_fault (self, facts, seam->dial))
        continue;
      if (isnan (believed))
        believed = hw_tension_belief_start (self, facts).dial;
      if (isnan (nearest) || fabs (seam->dial - believed) < fabs (nearest - believed))
        nearest = seam->dial;
    }
  if (isnan (nearest))
    return FALSE;
  *dial = nearest;
  return TRUE;
}

HwTensionPrior
hw_tension_belief_hand_on (const HwTensionBelief *self)
{
  HwTensionPrior prior = { 0 };

  g_return_val_if_fail (self != NULL, prior);

  prior = self->prior;
  for (int term = 0; term < N; term++)
    {
      double amounts[N] = { 0 };

      if (term == HW_TENSION_MACHINE)
        continue;
      amounts[term] = 1;
      prior.terms[term].mean = self->means[term];
      prior.terms[term].sd = sqrt (find_variance (self, amounts));
    }
  return prior;
}

/**
 * hw_tension_belief_next:
 * @dial: where the last seam was sewn
 * @verdict: how it looked; already among the seams of @self
 *
 * Returns: the printed half-step to try next: the one believed in now, but at least half a number the way that the
 *   verdict points; @dial where the verdict says nothing about it, or that it is right
 */
double
hw_tension_belief_next (const HwTensionBelief *self, const HwTensionFacts *facts, double dial, HwVerdict verdict)
{
  double believed, next;

  g_return_val_if_fail (self != NULL && facts != NULL, dial);

  believed = hw_dial_half_step (hw_tension_belief_start (self, facts).dial);
  switch ((int) verdict)
    {
    case HW_VERDICT_LOOPS_BELOW:
      next = MAX (believed, hw_dial_half_step (dial) + 0.5);
      break;
    case HW_VERDICT_BOBBIN_ABOVE:
    case HW_VERDICT_PUCKER_RELEASED:
      next = MIN (believed, hw_dial_half_step (dial) - 0.5);
      break;
    default:
      next = dial;
    }
  return CLAMP (next, self->scale.low, self->scale.high) + 0.0;
}
