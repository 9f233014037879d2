/* test-window-state.c - how the window was left is kept for each room; without our schema nothing is, and nothing fails
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <gio/gio.h>

#include "window/window-state.h"

static void
clear (HwWindowState *state)
{
  g_free (state->page);
  g_free (state->step);
  *state = (HwWindowState) { 0 };
}

static void
test_kept (void)
{
  const HwWindowState left = { 1140, 790, TRUE, (char *) "order", (char *) "3" };
  HwWindowState       state = { 0 };

  hw_window_state_recall ("/room/one", &state);
  g_assert_cmpint (state.width, ==, 0);
  g_assert_cmpstr (state.page, ==, "");
  clear (&state);
  hw_window_state_keep ("/room/one", &left);
  hw_window_state_recall ("/room/../room/one", &state);
  g_assert_cmpint (state.width, ==, 1140);
  g_assert_cmpint (state.height, ==, 790);
  g_assert_true (state.maximized);
  g_assert_cmpstr (state.page, ==, "order");
  g_assert_cmpstr (state.step, ==, "3");
  clear (&state);
  hw_window_state_recall ("/room/two", &state);
  g_assert_cmpint (state.width, ==, 0);
  g_assert_false (state.maximized);
  clear (&state);
}

static void
test_without_schema (void)
{
  const HwWindowState left = { 1140, 790, TRUE, (char *) "order", NULL };
  HwWindowState       state = { .page = (char *) "as before" };

  if (g_file_test (HW_SCHEMA_DIR "/net.handwheel.Handwheel.gschema.xml", G_FILE_TEST_EXISTS))
    {
      g_test_skip ("our schema is installed on this computer");
      return;
    }
  hw_window_state_keep ("/room/one", &left);
  hw_window_state_recall ("/room/one", &state);
  g_assert_cmpint (state.width, ==, 0);
  g_assert_null (state.page);
  g_assert_null (state.step);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  if (g_file_test (g_getenv ("GSETTINGS_SCHEMA_DIR"), G_FILE_TEST_IS_DIR))
    g_test_add_func ("/window-state/kept", test_kept);
  else
    g_test_add_func ("/window-state/without-schema", test_without_schema);
  return g_test_run ();
}
