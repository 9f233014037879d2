/* floor.c - a measured time beside the floor of the same run
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "floor.h"

#include <stdlib.h>

static int n_missed;

double
floor_now_ms (clockid_t clock)
{
  struct timespec now = { 0 };

  clock_gettime (clock, &now);
  return (double) now.tv_sec * 1e3 + (double) now.tv_nsec / 1e6;
}

static int
compare (gconstpointer a,
         gconstpointer b)
{
  double first = *(const double *) a;
  double second = *(const double *) b;

  return (first > second) - (first < second);
}

double
floor_median (double *runs)
{
  qsort (runs, FLOOR_RUNS, sizeof runs[0], compare);
  return runs[FLOOR_RUNS / 2];
}

void
floor_report (const char *what,
              double      ours,
              const char *floor_name,
              double      floor,
              const char *unit,
              double      most)
{
  gboolean within = ours <= floor * most;

  n_missed += within ? 0 : 1;
  g_print ("%-44s %9.2f %s   %-38s %9.2f %s   %5.2f  (at most %.2f)%s\n", what, ours, unit, floor_name, floor, unit,
           ours / floor, most, within ? "" : "  MISSED");
}

void
floor_report_rate (const char *what,
                   double      ours,
                   double      least)
{
  gboolean within = ours >= least;

  n_missed += within ? 0 : 1;
  g_print ("%-44s %9.0f   (at least %.0f)%s\n", what, ours, least, within ? "" : "  MISSED");
}

int
floor_status (void)
{
  return n_missed > 0 ? 1 : 0;
}
