/* hold.c - keeps the threads of tasks waiting, so that a test can be quicker than any of them
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "hold.h"

#define MORE_THAN_THE_POOL 40

static void
wait_for_release (GTask        *task,
                  gpointer      source,
                  gpointer      data,
                  GCancellable *cancellable)
{
  Hold *self = data;

  g_mutex_lock (&self->lock);
  g_atomic_int_add (&self->n_left, -1);
  g_mutex_unlock (&self->lock);
}

void
hold_threads (Hold *self)
{
  g_mutex_init (&self->lock);
  g_mutex_lock (&self->lock);
  self->n_left = MORE_THAN_THE_POOL;
  for (int i = 0; i < MORE_THAN_THE_POOL; i++)
    {
      g_autoptr (GTask) task = g_task_new (NULL, NULL, NULL, NULL);

      g_task_set_task_data (task, self, NULL);
      g_task_run_in_thread (task, wait_for_release);
    }
}

void
release_threads (Hold *self)
{
  g_mutex_unlock (&self->lock);
  while (g_atomic_int_get (&self->n_left) > 0)
    g_main_context_iteration (NULL, FALSE);
  g_mutex_lock (&self->lock);            /* the last of them has let it go */
  g_mutex_unlock (&self->lock);
  g_mutex_clear (&self->lock);
}
