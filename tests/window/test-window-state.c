/* test-window-state.c - how the window was left is kept for each room; without our schema nothing is, and nothing fails
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <gio/gio.h>
#include <string.h>

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

/* Without a settings service, as on a plain window manager, it is GLib's key file that keeps it: written at once, and
 * read by the next start. */
static void
test_key_file (void)
{
  const HwWindowState left = { 1140, 790, FALSE, (char *) "order", (char *) "3" };
  HwWindowState       state = { 0 };
  g_autofree char    *file = g_build_filename (g_get_user_config_dir (), "glib-2.0", "settings", "keyfile", NULL);
  g_autofree char    *text = NULL;
  g_autoptr (GError)  error = NULL;

  if (g_test_subprocess ())
    {
      hw_window_state_recall ("/room/one", &state);
      g_assert_cmpint (state.width, ==, 1140);
      g_assert_cmpstr (state.page, ==, "order");
      g_assert_cmpstr (state.step, ==, "3");
      clear (&state);
      hw_window_state_recall ("/room/two", &state);
      g_assert_cmpint (state.width, ==, 0);
      clear (&state);
      return;
    }
  g_assert_true (g_str_has_prefix (file, g_get_tmp_dir ()));
  g_assert_false (g_file_test (file, G_FILE_TEST_EXISTS));
  hw_window_state_keep ("/room/one", &left);
  g_file_get_contents (file, &text, NULL, &error);
  g_assert_no_error (error);
  g_assert_nonnull (strstr (text, "width=1140"));
  g_assert_nonnull (strstr (text, "step='3'"));
  g_test_trap_subprocess (NULL, 0, G_TEST_SUBPROCESS_INHERIT_STDERR);
  g_test_trap_assert_passed ();
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, G_TEST_OPTION_ISOLATE_DIRS, NULL);
  if (g_strcmp0 (g_getenv ("KEY_FILE"), "yes") == 0)
    {
      g_unsetenv ("GSETTINGS_BACKEND");  /* which the other tests are given */
      g_test_add_func ("/window-state/key-file", test_key_file);
    }
  else if (g_file_test (g_getenv ("GSETTINGS_SCHEMA_DIR"), G_FILE_TEST_IS_DIR))
    g_test_add_func ("/window-state/kept", test_kept);
  else
    g_test_add_func ("/window-state/without-schema", test_without_schema);
  return g_test_run ();
}
