/* bobbins.c - how many bobbins to wind so that none runs out inside a topstitched row
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/bobbins.h"

#define MAX_BOBBINS 10000
#define NEARLY_NOTHING_M 1e-9

/* The opened bobbin with the least left that still reaches; a new one when none does. */
static double *
find_bobbin (GArray *left, double metres, double capacity_m)
{
  double *best = NULL;

  for (guint i = 0; i < left->len; i++)
    {
      double *bobbin = &g_array_index (left, double, i);

      if (*bobbin >= metres - NEARLY_NOTHING_M && (best == NULL || *bobbin < *best))
        best = bobbin;
    }
  if (best != NULL)
    return best;
  g_array_append_val (left, capacity_m);
  return &g_array_index (left, double, left->len - 1);
}

/* Sews from opened bobbins to the end of each, oldest first, then from new ones. @first: before it all are empty. */
static void
sew_through (GArray *left, guint *first, double metres, double capacity_m)
{
  while (*first < left->len && g_array_index (left, double, *first) <= 0)
    (*first)++;
  for (guint i = *first; i < left->len && metres > NEARLY_NOTHING_M; i++)
    {
      double *bobbin = &g_array_index (left, double, i);
      double taken = MIN (*bobbin, metres);

      *bobbin -= taken;
      metres -= taken;
    }
  while (metres > NEARLY_NOTHING_M && left->len < MAX_BOBBINS)
    {
      double rest = MAX (capacity_m - metres, 0);

      g_array_append_val (left, rest);
      metres -= capacity_m;
    }
}

int
hw_bobbins_for_rows (const HwBobbinRow *rows, gsize n_rows, double capacity_m)
{
  g_autoptr (GArray) left = g_array_new (FALSE, FALSE, sizeof (double));
  guint first = 0;

  if (!(capacity_m > 0))
    return 0;
  for (gsize i = 0; i < n_rows; i++)
    {
      double metres = rows[i].metres;

      if (!rows[i].in_one)
        {
          sew_through (left, &first, metres, capacity_m);
          continue;
        }
      while (metres > capacity_m && left->len < MAX_BOBBINS)
        {
          double empty = 0;

          g_array_append_val (left, empty);
          metres -= capacity_m;
        }
      if (left->len < MAX_BOBBINS)
        *find_bobbin (left, metres, capacity_m) -= metres;
    }
  return (int) left->len;
}
