/* test-thread-use.c - metres of thread in a seam, bobbins
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Worked by hand from the formulas in the header; figures of outside documents are in tests/published.
 */

#include "config.h"

#include "trade/thread-use.h"

#include <math.h>

typedef struct
{
  const char      *path;
  HwThreadUseShape shape;
  double           thickness_mm, length_mm, width_mm, ratio, needle_share;
  double           needle, under;
} Case;

static const Case cases[] = {
  { "/thread-use/ratio", HW_THREAD_USE_RATIO, 1, 2.5, 0, 18, 0.25, 4.5, 13.5 },
  { "/thread-use/ratio-knows-no-thickness", HW_THREAD_USE_RATIO, 5, 2.5, 6, 18, 0.25, 4.5, 13.5 },
  { "/thread-use/101", HW_THREAD_USE_101, 1, 2.5, 0, 0, 0, 3.8, 0 },
  { "/thread-use/301", HW_THREAD_USE_301, 1, 2.5, 0, 0, 0, 1.4, 1.4 },
  { "/thread-use/301-thin", HW_THREAD_USE_301, 0, 2.5, 0, 0, 0, 1, 1 },
  /* 3 to 4 to 5: sqrt (3^2 + 4^2) = 5 */
  { "/thread-use/304", HW_THREAD_USE_304, 1, 3, 4, 0, 0, 2, 2 },
  { "/thread-use/401", HW_THREAD_USE_401, 1, 2.5, 0, 0, 0.25, 1.2, 3.6 },
  { "/thread-use/504", HW_THREAD_USE_504, 1, 2.5, 5, 0, 0.2, 2.52, 10.08 },
  { "/thread-use/514", HW_THREAD_USE_514, 1, 2.5, 5, 0, 0.25, 3.65, 10.95 },
  { "/thread-use/twin", HW_THREAD_USE_TWIN, 1, 3, 4, 0, 0, 8.0 / 3, 11.0 / 3 },
  { "/thread-use/triple", HW_THREAD_USE_TRIPLE, 1, 2.5, 0, 0, 0, 4.2, 4.2 },
};

static void
test_per_metre (gconstpointer data)
{
  const Case *wanted = data;
  HwThreadUse use = hw_thread_use_per_metre (wanted->shape, wanted->thickness_mm, wanted->length_mm, wanted->width_mm,
                                             wanted->ratio, wanted->needle_share);

  g_assert_cmpfloat_with_epsilon (use.needle, wanted->needle, 1e-9);
  g_assert_cmpfloat_with_epsilon (use.under, wanted->under, 1e-9);
}

/* A fixed length of seam takes less of a longer stitch and more through a thicker stack, in every shape. */
static void
test_monotone (void)
{
  for (HwThreadUseShape shape = HW_THREAD_USE_101; shape <= HW_THREAD_USE_TRIPLE; shape++)
    {
      HwThreadUse use = hw_thread_use_per_metre (shape, 1, 2.5, 4, 0, 0.3);
      HwThreadUse longer = hw_thread_use_per_metre (shape, 1, 3, 4, 0, 0.3);
      HwThreadUse thicker = hw_thread_use_per_metre (shape, 1.5, 2.5, 4, 0, 0.3);

      g_assert_cmpfloat (longer.needle + longer.under, <, use.needle + use.under);
      g_assert_cmpfloat (thicker.needle + thicker.under, >, use.needle + use.under);
    }
}

static void
test_bobbin_metres (void)
{
  g_assert_cmpfloat_with_epsilon (hw_bobbin_metres (2.2, 0.5, 27), 40.7407407, 1e-6);
  g_assert_cmpfloat_with_epsilon (hw_bobbin_metres (2.2, 0.5, 54), 40.7407407 / 2, 1e-6);
  g_assert_cmpfloat (hw_bobbin_metres (0, 0.5, 27), ==, 0);
}

static const struct { double metres, capacity_m; int count; } bobbins[] = {
  { 0, 40, 0 }, { 0.1, 40, 1 }, { 39.9, 40, 1 }, { 40, 40, 1 }, { 40.1, 40, 2 }, { 120, 40, 3 },
  { 3 * 0.1, 0.1, 3 },      /* 0.30000000000000004 fills three, it does not begin a fourth */
};

static void
test_bobbin_count (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (bobbins); i++)
    g_assert_cmpint (hw_bobbin_count (bobbins[i].metres, bobbins[i].capacity_m), ==, bobbins[i].count);
}

static void
test_refuses (void)
{
  g_test_expect_message (NULL, G_LOG_LEVEL_CRITICAL, "*length_mm > 0*");
  g_assert_true (isnan (hw_thread_use_per_metre (HW_THREAD_USE_301, 1, 0, 0, 0, 0).needle));
  g_test_assert_expected_messages ();
  g_test_expect_message (NULL, G_LOG_LEVEL_CRITICAL, "*capacity_m > 0*");
  g_assert_cmpint (hw_bobbin_count (10, 0), ==, 0);
  g_test_assert_expected_messages ();
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    g_test_add_data_func (cases[i].path, &cases[i], test_per_metre);
  g_test_add_func ("/thread-use/monotone", test_monotone);
  g_test_add_func ("/thread-use/bobbin-metres", test_bobbin_metres);
  g_test_add_func ("/thread-use/bobbin-count", test_bobbin_count);
  g_test_add_func ("/thread-use/refuses", test_refuses);
  return g_test_run ();
}
