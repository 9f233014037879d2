/* deadline.h - lets a solver run for some seconds of processor time
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The solvers themselves know no clock; they are cancelled.
 */

#pragma once
#include <glib.h>

typedef struct
{
  int      cancelled;         /* for HwOrderLimits */
  int      over;
  double   seconds;
  gint64   start;             /* microseconds of the processor */
  gint64   fired;             /* microseconds of the clock, when cancelled */
  GThread *thread;
} Deadline;

gint64 processor_time (void);                               /* microseconds this program took */
void   deadline_start (Deadline *self, double seconds);
/* Seconds of the processor since the start; @late: milliseconds from the cancelling to now, 0 when it was not. */
double deadline_stop  (Deadline *self, double *late);
