/* test-notions.c - bobbins to wind
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/bobbins.h"
#include "trade/thread-use.h"

#include <math.h>

typedef struct
{
  const char *path;
  HwBobbinRow rows[5];
  gsize       n_rows;
  double      capacity_m;
  int         bobbins;
} Case;

static const Case cases[] = {
  { "/notions/nothing-to-sew", { { 0, FALSE } }, 0, 40, 0 },
  { "/notions/seams-use-a-bobbin-up", { { 30, FALSE }, { 30, FALSE }, { 20, FALSE } }, 3, 40, 2 },
  /* 10 m are left after the first row and do not reach to the end of the second. */
  { "/notions/row-starts-on-a-bobbin-that-reaches", { { 30, TRUE }, { 30, TRUE }, { 20, TRUE } }, 3, 40, 3 },
  /* What was put aside serves the next seam: 10 m of the first bobbin and 20 m of the second. */
  { "/notions/what-is-put-aside-is-used", { { 30, TRUE }, { 20, TRUE }, { 30, FALSE } }, 3, 40, 2 },
  /* 10 m and 20 m are left: the row of 9 m takes the 10, so that the row of 18 m still finds the 20. */
  { "/notions/shortest-that-reaches", { { 30, TRUE }, { 20, TRUE }, { 9, TRUE }, { 18, TRUE } }, 4, 40, 2 },
  /* Longer than any bobbin: it has to run out, and 20 m are left of the third. */
  { "/notions/row-longer-than-a-bobbin", { { 100, TRUE }, { 20, TRUE } }, 2, 40, 3 },
  { "/notions/filled-exactly", { { 40, TRUE }, { 40, FALSE } }, 2, 40, 2 },
  { "/notions/no-bobbin", { { 40, TRUE } }, 1, 0, 0 },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;

  g_assert_cmpint (hw_bobbins_for_rows (c->rows, c->n_rows, c->capacity_m), ==, c->bobbins);
}

/* Whatever is sewn: not fewer than the metres fill, not more than one a row beyond that; seams alone waste nothing. */
static void
test_any_rows (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (8);

  for (int round = 0; round < 500; round++)
    {
      HwBobbinRow rows[30];
      double metres = 0, capacity_m = g_rand_double_range (random, 10, 60);
      gsize n = (gsize) g_rand_int_range (random, 1, 31);
      int least, found;

      for (gsize i = 0; i < n; i++)
        {
          rows[i] = (HwBobbinRow) { g_rand_double_range (random, 0.1, 25), g_rand_boolean (random) };
          metres += rows[i].metres;
        }
      least = (int) ceil (metres / capacity_m - 1e-9);
      found = hw_bobbins_for_rows (rows, n, capacity_m);
      g_assert_cmpint (found, >=, least);
      g_assert_cmpint (found, <=, least + (int) n);
      for (gsize i = 0; i < n; i++)
        rows[i].in_one = FALSE;
      g_assert_cmpint (hw_bobbins_for_rows (rows, n, capacity_m), ==, least);
    }
}

/* A 2.2 cm3 bobbin of tex 27 wound at 0.5 g/cm3 holds 2.2 x 0.5 x 1000 / 27 = 40.7 m (model); a 16.03 m shirt
 * at 1.25 m a metre (N. A. Raaz, full sleeve woven shirt, 2015: 631 in at 2.5, half each) takes 20 m of it. */
static void
test_shirt_takes_one_bobbin (void)
{
  HwBobbinRow row = { 631 * 0.0254 * 1.25, FALSE };

  g_assert_cmpint (hw_bobbins_for_rows (&row, 1, hw_bobbin_metres (2.2, 0.5, 27)), ==, 1);
  g_assert_cmpint (hw_bobbins_for_rows (&row, 1, hw_bobbin_metres (2.2, 0.5, 60)), ==, 2);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    g_test_add_data_func (cases[i].path, &cases[i], test_case);
  g_test_add_func ("/notions/any-rows", test_any_rows);
  g_test_add_func ("/notions/shirt-takes-one-bobbin", test_shirt_takes_one_bobbin);
  return g_test_run ();
}
