/* deadline.c - lets a solver run for some seconds of processor time
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "deadline.h"

#include <time.h>

#define POLL_MICROSECONDS 500

gint64
processor_time (void)
{
  struct timespec now;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return (gint64) now.tv_sec * G_USEC_PER_SEC + now.tv_nsec / 1000;
}

static gpointer
watch (gpointer data)
{
  Deadline *self = data;

  while (g_atomic_int_get (&self->over) == 0)
    {
      if ((double) (processor_time () - self->start) >= self->seconds * G_USEC_PER_SEC)
        {
          self->fired = g_get_monotonic_time ();
          g_atomic_int_set (&self->cancelled, 1);
          return NULL;
        }
      g_usleep (POLL_MICROSECONDS);
    }
  return NULL;
}

void
deadline_start (Deadline *self, double seconds)
{
  *self = (Deadline) { .seconds = seconds, .start = processor_time () };
  self->thread = g_thread_new ("deadline", watch, self);
}

double
deadline_stop (Deadline *self, double *late)
{
  gint64 now = g_get_monotonic_time ();
  double seconds = (double) (processor_time () - self->start) / G_USEC_PER_SEC;

  g_atomic_int_set (&self->over, 1);
  g_thread_join (self->thread);
  *late = self->fired == 0 ? 0 : MAX (0, (double) (now - self->fired) / 1000);
  return seconds;
}
