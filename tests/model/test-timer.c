/* test-timer.c - how long steps have been worked at: pausing, going on, being left behind, the file
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "model/timer.h"
#include "temp-folder.h"

#include <glib/gstdio.h>
#include <string.h>

#define T G_GINT64_CONSTANT (1935583380)         /* some time in 2031 */

static void
assert_minutes (const HwTimer *timer,
                const char    *step,
                gint64         now,
                double         minutes)
{
  g_assert_cmpfloat_with_epsilon (hw_timer_minutes (timer, "skirt", step, now), minutes, 1e-9);
}

static void
test_run (void)
{
  g_autoptr (HwTimer) timer = hw_timer_new ();
  const char *project = NULL;
  const char *step = NULL;

  g_assert_false (hw_timer_get_running (timer, NULL, NULL));
  hw_timer_start (timer, "skirt", "3", T);
  g_assert_true (hw_timer_get_running (timer, &project, &step));
  g_assert_cmpstr (project, ==, "skirt");
  g_assert_cmpstr (step, ==, "3");
  assert_minutes (timer, "3", T + 90, 1.5);
  hw_timer_start (timer, "skirt", "3", T + 90);         /* it runs already */
  assert_minutes (timer, "3", T + 120, 2);
  hw_timer_pause (timer, T + 120);
  hw_timer_pause (timer, T + 900);
  assert_minutes (timer, "3", T + 1000, 2);
  hw_timer_start (timer, "skirt", "4", T + 1000);
  hw_timer_start (timer, "skirt", "3", T + 1060);       /* the other stands still with what it had */
  assert_minutes (timer, "4", T + 1300, 1);
  assert_minutes (timer, "3", T + 1120, 3);
  g_assert_true (hw_timer_is_running (timer, "skirt", "3"));
  g_assert_false (hw_timer_is_running (timer, "cape", "3"));
  hw_timer_forget (timer, "skirt", "3");
  g_assert_false (hw_timer_get_running (timer, NULL, NULL));
  assert_minutes (timer, "3", T + 1200, 0);
  assert_minutes (timer, "4", T + 1200, 1);
}

/* A clock of the computer that is put back takes nothing away. */
static void
test_clock_put_back (void)
{
  g_autoptr (HwTimer) timer = hw_timer_new ();

  hw_timer_start (timer, "skirt", "3", T);
  hw_timer_pause (timer, T + 60);
  hw_timer_start (timer, "skirt", "3", T + 100);
  assert_minutes (timer, "3", T - 3600, 1);
  hw_timer_pause (timer, T - 3600);
  assert_minutes (timer, "3", T, 1);
}

static void
test_left_behind (void)
{
  g_autoptr (HwTimer) timer = hw_timer_new ();

  hw_timer_start (timer, "skirt", "3", T);
  g_assert_false (hw_timer_see (timer, T + 60));
  g_assert_false (hw_timer_see (timer, T + 60 + HW_TIMER_LOST_SECONDS));
  g_assert_true (hw_timer_see (timer, T + 61 + 2 * HW_TIMER_LOST_SECONDS));
  g_assert_false (hw_timer_get_running (timer, NULL, NULL));
  assert_minutes (timer, "3", T + 999999, 1 + HW_TIMER_LOST_SECONDS / 60);
  g_assert_false (hw_timer_see (timer, T + 9999999));
}

static void
test_file (void)
{
  g_autofree char *folder = temp_folder_new ();
  g_autofree char *path = g_build_filename (folder, "timer.xml", NULL);
  g_autoptr (HwTimer) timer = hw_timer_new ();
  g_autoptr (HwTimer) none = NULL;
  g_autoptr (HwTimer) again = NULL;
  g_autoptr (GError)  error = NULL;
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;

  none = hw_timer_read (path, &error);
  g_assert_no_error (error);
  g_assert_false (hw_timer_get_running (none, NULL, NULL));
  hw_timer_start (timer, "skirt", "4", T);
  hw_timer_start (timer, "skirt", "3", T + 60);
  g_assert_true (hw_timer_write (timer, path, &error));
  g_assert_no_error (error);
  again = hw_timer_read (path, &error);
  g_assert_no_error (error);
  g_assert_true (hw_timer_is_running (again, "skirt", "3"));
  assert_minutes (again, "3", T + 180, 2);
  assert_minutes (again, "4", T + 180, 1);
  g_assert_cmpint (hw_timer_seen (again), ==, T + 60);
  g_assert_true (g_file_get_contents (path, &first, NULL, NULL));
  g_assert_true (hw_timer_write (again, path, &error));
  g_assert_true (g_file_get_contents (path, &second, NULL, NULL));
  g_assert_cmpstr (first, ==, second);
  temp_folder_remove (g_steal_pointer (&folder));
}

static const struct { const char *xml, *says; } bad[] = {
  { "<timer xmlns='urn:handwheel:timer:1' since='yesterday'/>", "timer.xml:1:" },
  { "<timer xmlns='urn:handwheel:timer:1'>\n<step project='a' number='1' seconds='-1'/></timer>", "timer.xml:2:" },
  { "<timer xmlns='urn:handwheel:timer:1'>\n<step project='a' seconds='1'/></timer>", "timer.xml:2:" },
  { "<timer xmlns='urn:handwheel:timer:1'><stop/></timer>", "timer.xml:1:" },
  { "<timer", "timer.xml:1:" },
};

static void
test_bad_file (void)
{
  g_autofree char *folder = temp_folder_new ();
  g_autofree char *path = g_build_filename (folder, "timer.xml", NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_true (g_file_set_contents (path, bad[i].xml, -1, NULL));
      g_assert_null (hw_timer_read (path, &error));
      g_assert_nonnull (error);
      g_test_message ("%s", error->message);
      g_assert_nonnull (strstr (error->message, bad[i].says));
    }
  temp_folder_remove (g_steal_pointer (&folder));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/timer/run", test_run);
  g_test_add_func ("/timer/clock-put-back", test_clock_put_back);
  g_test_add_func ("/timer/left-behind", test_left_behind);
  g_test_add_func ("/timer/file", test_file);
  g_test_add_func ("/timer/bad-file", test_bad_file);
  return g_test_run ();
}
