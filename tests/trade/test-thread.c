/* test-thread.c - thread diameter and strength
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Geometry and arithmetic worked by hand; figures of outside documents are in tests/published.
 */

#include "config.h"

#include "trade/thread.h"

#include <math.h>

typedef struct
{
  const char *path;
  double      tex, density, packing;
  double      diameter_mm;
} DiameterCase;

/* 0.0356825 x sqrt (tex / (packing x density)), to four figures */
static const DiameterCase diameter_cases[] = {
  { "/thread/diameter/unit-density", 100, 1, 1, 0.3568 },
  { "/thread/diameter/polyester-18", 18, 1.39, 0.6, 0.1658 },
  { "/thread/diameter/polyester-30", 30, 1.39, 0.6, 0.2140 },
  { "/thread/diameter/polyester-105", 105, 1.39, 0.6, 0.4004 },
  { "/thread/diameter/cotton-40", 40, 1.55, 0.6, 0.2340 },
  { "/thread/diameter/monofilament-15", 15, 1.14, 1, 0.1294 },
};

static void
test_diameter (gconstpointer data)
{
  const DiameterCase *wanted = data;

  g_assert_cmpfloat_with_epsilon (hw_thread_diameter_mm (wanted->tex, wanted->density, wanted->packing),
                                  wanted->diameter_mm, 0.00006);
}

/* A metre of the cylinder weighs what the tex says. */
static void
test_diameter_weighs_right (void)
{
  for (double tex = 10; tex < 200; tex += 7)
    {
      double diameter_mm = hw_thread_diameter_mm (tex, 1.39, 0.58);
      double mm2 = G_PI * diameter_mm * diameter_mm / 4;

      g_assert_cmpfloat_with_epsilon (mm2 * 1.39 * 0.58 * 1000, tex, 1e-9);
    }
}

static void
test_seam_strength (void)
{
  /* 4 stitches in a cm x 10 N x 1.5 */
  g_assert_cmpfloat_with_epsilon (hw_seam_strength_n_cm (2.5, 1000, 1.5), 60, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_seam_strength_n_cm (2.5, 1000, 1.7), 68, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_seam_strength_n_cm (5, 1000, 1.5), 30, 1e-9);
  g_assert_cmpfloat (hw_seam_strength_n_cm (2.5, 0, 1.5), ==, 0);
}

static void
test_tenacity (void)
{
  g_assert_cmpfloat_with_epsilon (hw_tenacity_cn_tex (1080, 30), 36, 1e-9);
}

static void
test_refuses (void)
{
  g_test_expect_message (NULL, G_LOG_LEVEL_CRITICAL, "*packing <= 1*");
  g_assert_true (isnan (hw_thread_diameter_mm (30, 1.39, 1.2)));
  g_test_assert_expected_messages ();
  g_test_expect_message (NULL, G_LOG_LEVEL_CRITICAL, "*length_mm > 0*");
  g_assert_true (isnan (hw_seam_strength_n_cm (0, 1000, 1.5)));
  g_test_assert_expected_messages ();
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (diameter_cases); i++)
    g_test_add_data_func (diameter_cases[i].path, &diameter_cases[i], test_diameter);
  g_test_add_func ("/thread/diameter-weighs-right", test_diameter_weighs_right);
  g_test_add_func ("/thread/seam-strength", test_seam_strength);
  g_test_add_func ("/thread/tenacity", test_tenacity);
  g_test_add_func ("/thread/refuses", test_refuses);
  return g_test_run ();
}
