/* tension-sites.c - what one verdict says about the balanced dial, given all else that is known of it
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * With Z the chance of the evidence under a normal of mean m and variance v, the matched site follows from the slope
 * g = d log Z / dm and the bend c = -d2 log Z / dm2: precision c / (1 - v c), shift (g + m c) / (1 - v c)
 * (T. Minka, A family of algorithms for approximate Bayesian inference, 2001, section 3.2.1). For the interval probit
 * both are ratios of the normal density and its tail, kept as Mills ratios so that nothing under- or overflows.
 */

#include "config.h"

#include "trade/tension-sites.h"

#include <math.h>

#define FAR 30.0                         /* from here the tail's series has all digits */
#define NARROWEST 1e-3                   /* an interval of no width would say more than a stitch can */
#define REACH 9.0                        /* standard deviations integrated to either side of the highest point */
#define MOST_NODES 4096

typedef struct { double slope, bend; } Response;

/* (1 - 1/x2 + 3/x4 - 15/x6 + 105/x8): x times the Mills ratio. */
static double
sum_series (double x)
{
  double y = 1 / (x * x);

  return 1 - y * (1 - y * (3 - y * (15 - y * 105)));
}

/* The upper tail over the density, x >= 0. */
static double
get_mills (double x)
{
  if (x > FAR)
    return sum_series (x) / x;
  return sqrt (G_PI / 2) * erfc (x / G_SQRT2) * exp (x * x / 2);
}

/* The density over the upper tail, any x. */
static double
get_hazard (double x)
{
  if (x >= 0)
    return 1 / get_mills (x);
  return exp (-x * x / 2) / (sqrt (2 * G_PI) * 0.5 * erfc (x / G_SQRT2));
}

/* hazard (x) - x without the loss of digits where both are large. */
static double
get_excess (double x)
{
  double y;

  if (x <= FAR)
    return get_hazard (x) - x;
  y = 1 / (x * x);
  return (1 - y * (3 - y * (15 - y * 105))) / (x * sum_series (x));
}

static double
log_lower_tail (double x)
{
  if (x > -FAR)
    return log (0.5 * erfc (-x / G_SQRT2));
  return -x * x / 2 - log (-x * sqrt (2 * G_PI)) + log (sum_series (x));
}

/* Evidence that the value lies above @low, in standard deviations from the mean. */
static Response
respond_above (double low)
{
  double hazard = get_hazard (low);

  return (Response) { hazard, hazard * get_excess (low) };
}

static Response
respond_round_mean (double low, double high)
{
  double below = exp (-low * low / 2) / sqrt (2 * G_PI);
  double above = exp (-high * high / 2) / sqrt (2 * G_PI);
  double chance = 0.5 * (erf (high / G_SQRT2) - erf (low / G_SQRT2));
  double slope = (below - above) / chance;

  return (Response) { slope, slope * slope + (high * above - low * below) / chance };
}

/* 0 <= low < high: everything over the density at @low. */
static Response
respond_between (double low, double high)
{
  double fall = -(high - low) * (high + low) / 2;
  double above = exp (fall);
  double chance = get_mills (low) - above * get_mills (high);
  double slope = -expm1 (fall) / chance;

  if (above == 0)                        /* the far edge is out of sight */
    return respond_above (low);
  return (Response) { slope, slope * slope + (high * above - low) / chance };
}

static Response
respond (double low, double high)
{
  Response mirrored;

  if (isinf (low) && isinf (high))
    return (Response) { 0, 0 };
  if (isinf (high))
    return respond_above (low);
  if (low < 0 && high > 0 && !isinf (low))
    return respond_round_mean (low, high);
  if (low >= 0)
    return respond_between (low, high);
  mirrored = isinf (low) ? respond_above (-high) : respond_between (-high, -low);
  return (Response) { -mirrored.slope, mirrored.bend };
}

static HwTensionSite
make_site (double mean, double variance, double slope, double bend)
{
  double left = 1 - variance * bend;     /* what the evidence leaves of the variance */

  return (HwTensionSite) { bend / left, (slope + mean * bend) / left };
}

static HwTensionSite
match_whole (const HwTensionEvidence *evidence, double mean, double variance)
{
  double whole = variance + evidence->noise * evidence->noise;
  double spread = sqrt (whole);
  double high = MAX (evidence->high, evidence->low + NARROWEST);
  Response response = respond ((evidence->low - mean) / spread, (high - mean) / spread);

  return make_site (mean, variance, response.slope / spread, CLAMP (response.bend, 0, 1) / whole);
}

/* ---- evidence at part weight: its power has no closed form ---- */

/* The highest point of the normal times Phi (-(b - edge) / noise) to the power of weight. The slope grows ever faster
 * to the right, so steps by the tangent from the mean come down to it without passing it. */
static double
find_highest (const HwTensionEvidence *evidence, double mean, double variance)
{
  double at = mean;

  for (int i = 0; i < 100; i++)
    {
      double z = (at - evidence->high) / evidence->noise;
      double hazard = get_hazard (z);
      double slope = (at - mean) / variance + evidence->weight * hazard / evidence->noise;
      double bend = 1 / variance
                    + evidence->weight * hazard * get_excess (z) / (evidence->noise * evidence->noise);

      at -= slope / bend;
      if (fabs (slope / bend) < 1e-9 * sqrt (variance))
        break;
    }
  return at;
}

/* By the trapezium rule, which for a smooth hump that dies away at both ends is good to all digits once the step is
 * shorter than the hump's narrowest part. */
static HwTensionSite
match_part_below (const HwTensionEvidence *evidence, double mean, double variance)
{
  double noise = evidence->noise;
  double middle = find_highest (evidence, mean, variance);
  double wide = REACH * sqrt (variance);
  double narrow = 1 / sqrt (1 / variance + evidence->weight / (noise * noise));
  int n = (int) CLAMP (ceil (wide / narrow * 1.5), 20, MOST_NODES / 2.0);
  double top = log_lower_tail ((evidence->high - middle) / noise) * evidence->weight
               - (middle - mean) * (middle - mean) / (2 * variance);
  double sums[3] = { 0 };
  double shift, left;

  for (int i = -n; i <= n; i++)
    {
      double away = wide * i / n;
      double b = middle + away;
      double weight = exp (log_lower_tail ((evidence->high - b) / noise) * evidence->weight
                           - (b - mean) * (b - mean) / (2 * variance) - top);

      sums[0] += weight;
      sums[1] += weight * away;
      sums[2] += weight * away * away;
    }
  shift = sums[1] / sums[0];
  left = (sums[2] / sums[0] - shift * shift) / variance;
  return make_site (mean, variance, (middle + shift - mean) / variance, CLAMP (1 - left, 0, 1 - 1e-9) / variance);
}

HwTensionSite
hw_tension_match (const HwTensionEvidence *evidence, double mean, double variance)
{
  HwTensionEvidence mirrored = { -evidence->high, -evidence->low, evidence->noise, evidence->weight };
  HwTensionSite site;

  if (evidence->weight == 1)
    return match_whole (evidence, mean, variance);
  if (isinf (evidence->low))
    return match_part_below (evidence, mean, variance);
  g_return_val_if_fail (isinf (evidence->high), ((HwTensionSite) { 0, 0 }));
  site = match_part_below (&mirrored, -mean, variance);
  return (HwTensionSite) { site.precision, -site.shift };
}
