/* test-thread-use.c - published figures: thread in seams, bobbins, the dial's normal place
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The formulas are the same in inches and in millimetres, so rows printed in inches are worked in inches.
 */

#include "config.h"

#include "published.h"
#include "tension-prior.h"
#include "trade/thread-use.h"
#include "trade/units.h"

#define CHART     "E external: American & Efird Technical Bulletin, Estimating thread consumption (Union Special chart)"
#define ESTIMATE  "P external: American & Efird Technical Bulletin, Estimating thread consumption"
#define MEASURED  "E external: American & Efird Technical Bulletin, Estimating thread consumption (measured)"
#define UNRAVEL   "P external: Coats, Thread consumption methods (measured)"
#define WORKED    "E external: textilecalculation.blogspot.com 2015, thread consumption by stitch type"
#define BOOKLET   "E: formula of the Union Special Thread Consumption booklet, 1963/1974"
#define SHIRT     "E external: textilecalculation.blogspot.com 2015, thread consumption of a full sleeve woven shirt"
#define SHIRT_P   "P external: textilecalculation.blogspot.com 2015, thread consumption of a full sleeve woven shirt"

#define M_PER_INCH (HW_MM_PER_INCH / 1000)

static double
get_total (HwThreadUseShape shape, double thickness, double length, double width)
{
  HwThreadUse use = hw_thread_use_per_metre (shape, thickness, length, width, 0, 0.25);

  return use.needle + use.under;
}

static double
get_needle (HwThreadUseShape shape, double thickness, double length, double width)
{
  return hw_thread_use_per_metre (shape, thickness, length, width, 0, 0.25).needle;
}

/* What is unpicked from a sample, carried over to a seam: needle and looper thread of @sample, for @seam. */
static HwThreadUse
carry_over (double needle, double looper, double sample, double seam)
{
  HwThreadUse use = hw_thread_use_per_metre (HW_THREAD_USE_RATIO, 0, 1, 0, (needle + looper) / sample,
                                             needle / (needle + looper));

  return (HwThreadUse) { use.needle * seam, use.under * seam };
}

/* ---- a man's shirt, seam by seam, in inches ---- */

static const struct { double inches; int rows; double ratio; } shirt_seams[] = {
  { 16, 2, 2.5 },      /* collar, long side, twice */
  { 3, 4, 2.5 },       /* collar ends */
  { 16, 4, 2.5 },      /* band */
  { 4, 1, 2.5 },       /* band ends */
  { 8, 4, 2.5 },       /* shoulders */
  { 20, 4, 2.5 },      /* armholes */
  { 10, 8, 2.5 },      /* cuffs */
  { 16, 1, 2.5 },      /* cuff ends */
  { 10, 1, 2.5 }, { 10, 1, 2.5 },      /* pocket */
  { 12, 1, 2.5 }, { 4, 1, 2.5 },       /* upper placket */
  { 20, 1, 2.5 }, { 5, 1, 2.5 },       /* lower placket */
  { 30, 2, 2.5 },      /* box placket */
  { 30, 1, 2.5 },      /* button placket */
  { 9, 1, 2.5 },       /* labels */
  { 21, 1, 2.5 },      /* yoke */
  { 40, 1, 2.5 },      /* sides */
  { 48, 1, 2.5 },      /* hem */
  { 42, 1, 2.5 },      /* under the sleeves */
  { 20, 2, 9 },        /* armholes, overlocked */
  { 42, 1, 9 },        /* under the sleeves, overlocked */
};

static double
sum_shirt_seams (double ratio)
{
  double inches = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (shirt_seams); i++)
    if (shirt_seams[i].ratio == ratio)
      inches += shirt_seams[i].inches * shirt_seams[i].rows;
  return inches;
}

static double
sum_shirt_thread (void)
{
  double inches = 13 * 6 + 17 * 5.5;      /* buttonholes and buttons */

  for (gsize i = 0; i < G_N_ELEMENTS (shirt_seams); i++)
    {
      HwThreadUse use = hw_thread_use_per_metre (HW_THREAD_USE_RATIO, 0.5, 2.5, 0, shirt_seams[i].ratio, 0.5);

      inches += (use.needle + use.under) * shirt_seams[i].inches * shirt_seams[i].rows;
    }
  return inches;
}

static double
get_normal_dial (void)
{
  HwTensionFacts facts = { 30, 30, 0.8, 2.5, 0, 0 };
  HwDialScale scale = { 0, 9, 4 };

  return hw_dial_half_step (hw_tension_start (&tension_prior, &facts, &scale).dial);
}

/* C falls with the stitch's length, rises with the thickness, and nears 2 as the cloth vanishes. */
static void
test_301_monotone (void)
{
  for (double thickness = 0; thickness < 4; thickness += 0.25)
    for (double length = 1; length < 6; length += 0.25)
      {
        double total = get_total (HW_THREAD_USE_301, thickness, length, 0);

        g_assert_cmpfloat (get_total (HW_THREAD_USE_301, thickness + 0.25, length, 0), >, total);
        if (thickness > 0)
          g_assert_cmpfloat (get_total (HW_THREAD_USE_301, thickness, length + 0.25, 0), <, total);
      }
  g_assert_cmpfloat_with_epsilon (get_total (HW_THREAD_USE_301, 1e-9, 2.5, 0), 2, 1e-8);
}

static void
test_304_without_swing_is_301 (void)
{
  for (double thickness = 0; thickness < 4; thickness += 0.3)
    for (double length = 0.4; length < 6; length += 0.3)
      g_assert_cmpfloat_with_epsilon (get_total (HW_THREAD_USE_304, thickness, length, 0),
                                      get_total (HW_THREAD_USE_301, thickness, length, 0), 1e-9);
}

/* The needles' part and the rest make the whole, whatever the share. */
static void
test_split_is_whole (void)
{
  static const HwThreadUseShape shapes[] = {
    HW_THREAD_USE_RATIO, HW_THREAD_USE_401, HW_THREAD_USE_504, HW_THREAD_USE_514,
  };

  for (gsize i = 0; i < G_N_ELEMENTS (shapes); i++)
    for (double part = 0; part <= 1; part += 0.125)
      {
        HwThreadUse use = hw_thread_use_per_metre (shapes[i], 1, 2.5, 5, 12, part);
        HwThreadUse all = hw_thread_use_per_metre (shapes[i], 1, 2.5, 5, 12, 1);

        g_assert_cmpfloat_with_epsilon (use.needle + use.under, all.needle, 1e-12);
        g_assert_cmpfloat_with_epsilon (use.needle, part * all.needle, 1e-12);
      }
}

int
main (int argc, char **argv)
{
  HwThreadUse ratio_401 = hw_thread_use_per_metre (HW_THREAD_USE_RATIO, 0, 1, 0, 5.0, 0.4);
  HwThreadUse sample = carry_over (9, 8, 3, 1);
  HwThreadUse seam_42_in = carry_over (9, 8, 3, 42.0 / 36);
  HwThreadUse coats = carry_over (19.5, 62.0, 15, 1);
  HwThreadUse seam_220_cm = hw_thread_use_per_metre (HW_THREAD_USE_RATIO, 0, 1, 0, 2.5, 0.5);
  const PublishedRow rows[] = {
    { "/published/F1/401-0.055-in", CHART, get_total (HW_THREAD_USE_401, 0.055, 1.0 / 8, 0), NEAR (4.88, 0) },
    { "/published/F1/401-0.060-in", CHART, get_total (HW_THREAD_USE_401, 0.060, 1.0 / 8, 0), NEAR (4.96, 0) },
    { "/published/F1/401-0.065-in", CHART, get_total (HW_THREAD_USE_401, 0.065, 1.0 / 8, 0), NEAR (5.04, 0) },
    { "/published/F1/401-0.070-in", CHART, get_total (HW_THREAD_USE_401, 0.070, 1.0 / 8, 0), NEAR (5.12, 0) },
    { "/published/F1/401-0.075-in", CHART, get_total (HW_THREAD_USE_401, 0.075, 1.0 / 8, 0), NEAR (5.20, 0) },
    { "/published/F2/401-seam-1.17-yd", ESTIMATE, get_total (HW_THREAD_USE_401, 0.075, 1.0 / 8, 0) * 1.17,
      NEAR (6.08, 0.005) },
    { "/published/F2/401-seam-with-waste", ESTIMATE, get_total (HW_THREAD_USE_401, 0.075, 1.0 / 8, 0) * 1.17 * 1.15,
      NEAR (7.00, 0.005) },
    { "/published/F3/ratio-5-seam-1.17-yd", ESTIMATE, (ratio_401.needle + ratio_401.under) * 1.17, NEAR (5.85, 0.01) },
    { "/published/F3/with-waste", ESTIMATE, (ratio_401.needle + ratio_401.under) * 1.17 * 1.15, NEAR (6.73, 0.01) },
    { "/published/F3/looper-part", ESTIMATE, ratio_401.under * 1.17 * 1.15, NEAR (4.04, 0.01) },
    { "/published/F4/needle-per-inch", MEASURED, sample.needle, NEAR (3.0, 0.005) },
    { "/published/F4/looper-per-inch", MEASURED, sample.under, NEAR (2.67, 0.005) },
    { "/published/F6/seam-of-42-in", "E: arithmetic from F4", seam_42_in.needle + seam_42_in.under,
      NEAR (6.611, 0.001) },
    { "/published/F6/with-waste", "E: arithmetic from F4", (seam_42_in.needle + seam_42_in.under) * 1.15,
      NEAR (7.603, 0.001) },
    { "/published/F7/needle", UNRAVEL, coats.needle, NEAR (1.30, 0.05) },
    { "/published/F7/looper", UNRAVEL, coats.under, NEAR (4.1, 0.05) },
    { "/published/F8/metre", UNRAVEL, (coats.needle + coats.under) * 100, NEAR (540, 5.4) },
    { "/published/F8/metre-with-waste", UNRAVEL, (coats.needle + coats.under) * 115, NEAR (621, 6.21) },
    { "/published/F9/101-9-spi", WORKED, get_total (HW_THREAD_USE_101, 0.005, 1.0 / 9, 0), NEAR (3.09, 0) },
    { "/published/F10/301-10-spi", WORKED, get_total (HW_THREAD_USE_301, 0.01, 1.0 / 10, 0), NEAR (2.2, 0) },
    { "/published/F11/401-15-spi", BOOKLET, get_total (HW_THREAD_USE_401, 0.015, 1.0 / 15, 0), NEAR (4.45, 0) },
    { "/published/F12/301-220-cm", "E external: melgeecrafts.com, repeating Coats figures",
      (seam_220_cm.needle + seam_220_cm.under) * 220, NEAR (550, 0) },
    { "/published/F12/301-220-cm-bobbin", "E external: melgeecrafts.com, repeating Coats figures",
      seam_220_cm.under * 220, NEAR (275, 0) },
    { "/published/F13/301-ratio-2.5", "P: ratio of a Coats table met by the booklet's formula at 7 stitches in a cm",
      get_total (HW_THREAD_USE_301, 0.357, 10.0 / 7, 0), NEAR (2.50, 0.005) },
    { "/published/F14/301", BOOKLET, get_total (HW_THREAD_USE_301, 0.6, 2.5, 0), NEAR (2.48, 0.001) },
    { "/published/F14/301-needle", BOOKLET, get_needle (HW_THREAD_USE_301, 0.6, 2.5, 0), NEAR (1.24, 0.001) },
    { "/published/F15/301-thick", BOOKLET, get_total (HW_THREAD_USE_301, 1.6, 3, 0), NEAR (3.067, 0.001) },
    { "/published/F15/301-thicker", BOOKLET, get_total (HW_THREAD_USE_301, 3.2, 3.5, 0), NEAR (3.829, 0.001) },
    { "/published/F18/504-ratio-14", "P: ratio 14 of a Coats table met by the booklet's formula",
      get_total (HW_THREAD_USE_504, 0.5, 1.43, 3.5), NEAR (14.0, 0.7) },
    /* the table is of fine shirting and of an overlocker's narrow edge, 7 stitches in a centimetre */
    { "/published/F21/301", "P external: a Coats table", get_total (HW_THREAD_USE_301, 0.357, 10.0 / 7, 0),
      NEAR (2.5, 0.005) },
    { "/published/F21/504", "P external: a Coats table", get_total (HW_THREAD_USE_504, 0.5, 1.43, 3.5),
      NEAR (14.0, 0.7) },
    { "/published/F24/shirt", SHIRT, sum_shirt_thread (), NEAR (2487, 0) },
    { "/published/F25/shirt-metres", "E: conversion of F24", sum_shirt_thread () * M_PER_INCH, NEAR (63.17, 0.01) },
    { "/published/F25/shirt-metres-printed", SHIRT_P, sum_shirt_thread () * M_PER_INCH, NEAR (63.30, 0.32) },
    { "/published/F25/shirt-yards", "E: conversion of F24", sum_shirt_thread () / 36, NEAR (69.08, 0.01) },
    { "/published/F25/shirt-with-waste", SHIRT_P, sum_shirt_thread () * M_PER_INCH * 1.2, NEAR (76, 0.3) },
    { "/published/F27/shirt-seams", "E: from the shirt's lines", sum_shirt_seams (2.5) * M_PER_INCH,
      NEAR (16.03, 0.01) },
    { "/published/F27/shirt-overlock", "E: from the shirt's lines", sum_shirt_seams (9) * M_PER_INCH,
      NEAR (2.08, 0.01) },
    { "/published/F28/cones-for-500-shirts", SHIRT, hw_bobbin_count (37980, 3000), NEAR (13, 0) },
    { "/published/F33/504-10-spi",
      "E external: textilecalculation.blogspot.com 2015/07, Consumption formula for 3-thread overlock",
      get_total (HW_THREAD_USE_504, 0.05, 1.0 / 10, 0.25), NEAR (15.0, 0) },
    { "/published/F33/504-20-yd-metres",
      "E external: textilecalculation.blogspot.com 2015/07, Consumption formula for 3-thread overlock",
      get_total (HW_THREAD_USE_504, 0.05, 1.0 / 10, 0.25) * 720 * M_PER_INCH, NEAR (274.32, 0) },
    { "/published/F35/301-4-per-cm", BOOKLET, get_total (HW_THREAD_USE_301, 1, 10.0 / 4, 0), NEAR (2.8, 0.001) },
    { "/published/F35/301-6-per-cm", BOOKLET, get_total (HW_THREAD_USE_301, 1, 10.0 / 6, 0), NEAR (3.2, 0.001) },

    { "/published/G1/class-15-tex-27", "M regression: own model, 2.216 cm3 wound at 0.5 g/cm3",
      hw_bobbin_metres (2.216, 0.5, 27), NEAR (41.0, 0.1) },
    { "/published/G5/home-wound-below-pre-wound",
      "R external: HIC, Decorated Apparel Survival Guide, p. 188 (pre-wound L of fine thread: 119 to 141 m)",
      hw_bobbin_metres (2.2, 0.5, 27), WITHIN (0, 119) },
    /* 250 mN is 25 cN; the trade calls it 25 g. */
    { "/published/H4/250-mn", "P external: embroideryhoopstore.com, bobbin tension guide", 25 / HW_CN_PER_GF,
      NEAR (25, 0.5) },
    { "/published/H7/normal-dial", "R external: Elna 5200 manual, p. 16 (2 to 6, normal 4)", get_normal_dial (),
      WITHIN (2, 6) },
    { "/published/H7/normal-dial-4", "P external: Elna 5200 manual, p. 16 (2 to 6, normal 4)", get_normal_dial (),
      NEAR (4, 0) },
  };

  g_test_init (&argc, &argv, NULL);
  published_add_rows (rows, G_N_ELEMENTS (rows));
  g_test_add_func ("/published/F16/301-monotone", test_301_monotone);
  g_test_add_func ("/published/F20/304-without-swing-is-301", test_304_without_swing_is_301);
  g_test_add_func ("/published/F23/split-is-whole", test_split_is_whole);
  return g_test_run ();
}
