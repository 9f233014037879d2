/* test-time.c - stitches and minutes
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "trade/time.h"

#include <math.h>

static void
test_stitches (void)
{
  g_assert_cmpfloat_with_epsilon (hw_stitch_count (1360, 2.5), 544, 1e-9);
  g_assert_cmpfloat (hw_stitch_count (0, 2.5), ==, 0);
}

static void
test_running (void)
{
  /* 1000 stitches at half of 800 in a minute */
  g_assert_cmpfloat_with_epsilon (hw_running_minutes (1000, 800, 0.5), 2.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_running_minutes (1000, 1000, 1), 1, 1e-9);
}

static const struct { double running; int pieces; double start_stop, handling, skill, minutes; } cases[] = {
  { 2, 4, 0.15, 1, 1, 3.6 },
  { 2, 4, 0.15, 1, 2, 4.6 },       /* a beginner handles twice as long, and starts and runs as the machine does */
  { 2, 4, 0.15, 1, 0.6, 3.2 },
  { 2, 0, 0.15, 0, 1, 2 },
};

static void
test_at_machine (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpfloat_with_epsilon (hw_at_machine_minutes (cases[i].running, cases[i].pieces, cases[i].start_stop,
                                                           cases[i].handling, cases[i].skill),
                                    cases[i].minutes, 1e-9);
}

static void
test_standard (void)
{
  g_assert_cmpfloat_with_epsilon (hw_minutes_from_tmu (100000), 60, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_standard_minutes (10, 0.9, 0.2), 10.8, 1e-9);
}

static void
test_refuses (void)
{
  g_test_expect_message (NULL, G_LOG_LEVEL_CRITICAL, "*speed_share <= 1*");
  g_assert_true (isnan (hw_running_minutes (100, 800, 1.5)));
  g_test_assert_expected_messages ();
  g_test_expect_message (NULL, G_LOG_LEVEL_CRITICAL, "*length_mm > 0*");
  g_assert_true (isnan (hw_stitch_count (100, 0)));
  g_test_assert_expected_messages ();
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/time/stitches", test_stitches);
  g_test_add_func ("/time/running", test_running);
  g_test_add_func ("/time/at-machine", test_at_machine);
  g_test_add_func ("/time/standard", test_standard);
  g_test_add_func ("/time/refuses", test_refuses);
  return g_test_run ();
}
