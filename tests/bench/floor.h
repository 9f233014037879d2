/* floor.h - a measured time beside the floor of the same run
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>
#include <time.h>

G_BEGIN_DECLS

#define FLOOR_RUNS 9                     /* of which the median counts */
#define FRAME_MS (1000.0 / 60)

double floor_now_ms (clockid_t clock);
/* Sorts the FLOOR_RUNS values of @runs. */
double floor_median (double *runs);
/* One line: both, their ratio and the most that it may be. @unit: "ms" */
void   floor_report (const char *what, double ours, const char *floor_name, double floor, const char *unit,
                     double most);
/* One line: a figure and the least that it may be. */
void   floor_report_rate (const char *what, double ours, double least);
/* The program's exit status: 1 when something reported was not within what it may be. */
int    floor_status (void);

G_END_DECLS
