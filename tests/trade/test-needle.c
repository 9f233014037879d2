/* test-needle.c - needle sizes, thread room, twin needles
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "trade/needle.h"
#include "trade/thread.h"

#include <math.h>

/* As packets print them: common practice, no source. */
static const struct { int nm, us; } sizes[] = {
  { 60, 8 }, { 65, 9 }, { 70, 10 }, { 75, 11 }, { 80, 12 }, { 85, 13 }, { 90, 14 }, { 95, 15 }, { 100, 16 },
  { 105, 17 }, { 110, 18 }, { 120, 19 }, { 125, 20 }, { 130, 21 },
};

static void
test_sizes (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_assert_cmpint (hw_us_from_nm (sizes[i].nm), ==, sizes[i].us);
      g_assert_cmpint (hw_nm_from_us (sizes[i].us), ==, sizes[i].nm);
    }
}

static void
test_unknown_sizes (void)
{
  static const int no_nm[] = { 0, -80, 12, 62, 77, 115, 140 };
  static const int no_us[] = { 0, -12, 7, 22, 80 };

  for (gsize i = 0; i < G_N_ELEMENTS (no_nm); i++)
    g_assert_cmpint (hw_us_from_nm (no_nm[i]), ==, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (no_us); i++)
    g_assert_cmpint (hw_nm_from_us (no_us[i]), ==, 0);
}

static void
test_blade (void)
{
  g_assert_cmpfloat_with_epsilon (hw_needle_blade_mm (80), 0.8, 1e-12);
}

static void
test_thread_room (void)
{
  /* 0.28 mm fills 28 % of a 1 mm blade; 0.40 mm fills 40 % of it */
  g_assert_cmpfloat_with_epsilon (hw_needle_suggested_nm (0.28, 1), 100, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_needle_smallest_nm (0.40, 1), 100, 1e-9);
  /* an eye that takes a fifth more thread */
  g_assert_cmpfloat_with_epsilon (hw_needle_suggested_nm (0.336, 1.2), 100, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_needle_smallest_nm (0.48, 1.2), 100, 1e-9);
}

/* What is refused is always finer than what is chosen. */
static void
test_limit_below_choice (void)
{
  for (double tex = 10; tex <= 210; tex += 5)
    {
      double diameter_mm = hw_thread_diameter_mm (tex, 1.39, 0.6);

      g_assert_cmpfloat (hw_needle_smallest_nm (diameter_mm, 1), <, hw_needle_suggested_nm (diameter_mm, 1));
    }
}

static const struct { double spacing_mm, max_width_mm, allowed_mm; } twins[] = {
  { 4, 7, 2 }, { 2, 5, 2 }, { 2.5, 9, 5.5 }, { 6, 7, 0 }, { 4, 5, 0 }, { 8, 9, 0 },
  { 6, 5, -1 }, { 4, 4.5, -1 }, { 8, 7, -1 }, { 2, 0, -1 },
};

static void
test_twins (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (twins); i++)
    g_assert_cmpfloat_with_epsilon (hw_twin_allowed_width_mm (twins[i].spacing_mm, twins[i].max_width_mm),
                                    twins[i].allowed_mm, 1e-12);
}

static void
test_refuses (void)
{
  g_test_expect_message (NULL, G_LOG_LEVEL_CRITICAL, "*eye_factor > 0*");
  g_assert_true (isnan (hw_needle_suggested_nm (0.2, 0)));
  g_test_assert_expected_messages ();
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/needle/sizes", test_sizes);
  g_test_add_func ("/needle/unknown-sizes", test_unknown_sizes);
  g_test_add_func ("/needle/blade", test_blade);
  g_test_add_func ("/needle/thread-room", test_thread_room);
  g_test_add_func ("/needle/limit-below-choice", test_limit_below_choice);
  g_test_add_func ("/needle/twins", test_twins);
  g_test_add_func ("/needle/refuses", test_refuses);
  return g_test_run ();
}
