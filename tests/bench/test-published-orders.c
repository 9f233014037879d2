/* test-published-orders.c - the general order solver on published instances, and the door to it from the outside
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "published.h"
#include "sop.h"
#include "temp-folder.h"

#include <string.h>

#define MAX_STATES 20000
#define MAX_KICKS 500

static void
check_result (const Published *instance, const Sop *sop, const HwOrderResult *result)
{
  g_assert_nonnull (result->order);
  g_assert_cmpint (sop_check (sop, result->order), ==, result->cost);
  g_assert_cmpint (result->bound, <=, instance->value);
  g_assert_cmpint (result->proved, ==, result->bound == result->cost);
  if (instance->optimal)
    g_assert_cmpint (result->cost, >=, instance->value);
  if (result->proved)
    g_assert_cmpint (result->cost, ==, instance->value);
}

/* Limits by count, so that the same is tested on every computer. */
static void
test_instances (void)
{
  g_autofree char *folder = published_folder ("sop");
  static const HwOrderLimits limits = { MAX_STATES, (gsize) 1 << 28, MAX_KICKS, NULL };
  guint n_proved = 0;

  if (folder == NULL)
    {
      g_test_skip (PUBLISHED_NONE);
      return;
    }
  for (gsize i = 0; i < n_published; i++)
    {
      g_autofree char *name = g_strconcat (published[i].name, ".sop", NULL);
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (Sop) sop = sop_read (path, &error);
      g_autoptr (HwOrderResult) result = NULL;
      HwPathProblem problem;

      if (g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT))
        continue;
      g_assert_no_error (error);
      problem = sop_problem (sop);
      result = hw_order_path_solve (&problem, &limits);
      check_result (&published[i], sop, result);
      n_proved += result->proved ? 1 : 0;
    }
  g_assert_cmpuint (n_proved, >, 3);
}

/* ---- the program ---- */

static int
run_program (const char *path, char **output, char **complaint)
{
  const char *argv[] = { g_getenv ("ORDER_BENCH"), path, "--states=1000", "--kicks=100", NULL };
  g_autoptr (GError) error = NULL;
  int status;

  g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, output, complaint, &status, &error);
  g_assert_no_error (error);
  return status;
}

static char *
write_file (const char *folder, const char *text)
{
  char *path = g_build_filename (folder, "it.sop", NULL);
  g_autoptr (GError) error = NULL;

  g_file_set_contents (path, text, -1, &error);
  g_assert_no_error (error);
  return path;
}

/* Both forms of file; 1 must come before 2, which is the cheaper first step. */
static void
test_both_forms (void)
{
  static const char *const texts[] = {
    "NAME: x\nTYPE: SOP\nDIMENSION: 4 \nEDGE_WEIGHT_SECTION\n4 \n0 9 1 1000000 -1 0 5 5 -1 -1 0 7 -1 -1\n -1 0\nEOF\n",
    "0 9 1 1000000\n-1 0 5 5\n-1 -1 0 7\n-1 -1 -1 0\n",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autofree char *folder = temp_folder_new ();
      g_autofree char *path = write_file (folder, texts[i]);
      g_autofree char *output = NULL;
      g_autofree char *complaint = NULL;

      g_assert_cmpint (run_program (path, &output, &complaint), ==, 0);
      g_assert_true (g_str_has_prefix (output, "value 21\nbound 21\nproved\n"));
      g_assert_nonnull (strstr (output, "\norder 0 1 2 3\n"));
      g_assert_cmpstr (complaint, ==, "");
      temp_folder_remove (g_steal_pointer (&folder));
    }
}

static void
test_bad_files (void)
{
  static const struct { const char *text, *says; } cases[] = {
    { "", "no square table" },
    { "0 1 2 3 4", "no square table" },
    { "EDGE_WEIGHT_SECTION\n3\n0 1 2\n-1 0\n", "no square table" },
    { "EDGE_WEIGHT_SECTION\n2\n0 1 -1 0 7\n", "no square table" },
    { "0 x 1 0", "number 2 of its table is none" },
    { "0 99999999999 -1 0", "is neither -1 nor a cost" },
    { "0 -2 1 0", "is neither -1 nor a cost" },
    { "0 2000000000 2000000000 0", "sum to more than" },
    { "0 -1 -1 0", "circle" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *folder = temp_folder_new ();
      g_autofree char *path = write_file (folder, cases[i].text);
      g_autofree char *output = NULL;
      g_autofree char *complaint = NULL;

      g_assert_cmpint (run_program (path, &output, &complaint), !=, 0);
      g_assert_cmpstr (output, ==, "");
      g_assert_true (g_str_has_prefix (complaint, path));
      g_assert_nonnull (strstr (complaint, cases[i].says));
      g_assert_true (strchr (complaint, '\n') == complaint + strlen (complaint) - 1);
      temp_folder_remove (g_steal_pointer (&folder));
    }
}

static void
test_missing_file (void)
{
  g_autofree char *output = NULL;
  g_autofree char *complaint = NULL;

  g_assert_cmpint (run_program ("/nonexistent/it.sop", &output, &complaint), !=, 0);
  g_assert_nonnull (strstr (complaint, "/nonexistent/it.sop"));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/published-orders/instances", test_instances);
  g_test_add_func ("/published-orders/both-forms", test_both_forms);
  g_test_add_func ("/published-orders/bad-files", test_bad_files);
  g_test_add_func ("/published-orders/missing-file", test_missing_file);
  return g_test_run ();
}
