/* order-memory.c - orders proved before, remembered by what was asked
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/order-memory.h"

struct _HwOrderMemory
{
  gatomicrefcount ref_count;
  GMutex      mutex;
  GHashTable *answers;         /* (element-type GBytes HwOrderResult) */
  GQueue      recent;          /* (element-type GBytes) keys of answers, the one asked for last first */
};

HwOrderMemory *
hw_order_memory_new (void)
{
  HwOrderMemory *self = g_new0 (HwOrderMemory, 1);

  g_atomic_ref_count_init (&self->ref_count);
  g_mutex_init (&self->mutex);
  g_queue_init (&self->recent);
  self->answers = g_hash_table_new_full (g_bytes_hash, g_bytes_equal, (GDestroyNotify) g_bytes_unref,
                                         (GDestroyNotify) hw_order_result_free);
  return self;
}

HwOrderMemory *
hw_order_memory_ref (HwOrderMemory *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

void
hw_order_memory_unref (HwOrderMemory *self)
{
  g_return_if_fail (self != NULL);

  if (!g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_queue_clear (&self->recent);
  g_hash_table_unref (self->answers);
  g_mutex_clear (&self->mutex);
  g_free (self);
}

/* ---- the question ---- */

/* An array, and whether there is one, so that no two questions read alike. */
static void
append_array (GByteArray *bytes, gconstpointer array, gsize n, gsize size)
{
  guint64 length = array != NULL ? n * size : G_MAXUINT64;

  g_byte_array_append (bytes, (const guint8 *) &length, sizeof length);
  if (array != NULL)
    g_byte_array_append (bytes, array, (guint) (n * size));
}

GBytes *
hw_order_question (const HwOrderProblem *problem, const HwOrderRun *runs, gsize n_runs, const int *keep)
{
  gsize n = problem->n_operations, n_setups = problem->n_setups, n_machines = problem->n_machines;
  const guint64 numbers[] = { n, n_setups, n_machines, (guint64) (gint64) problem->at, problem->n_core,
                              problem->closed != FALSE, n_runs };
  GByteArray *bytes = g_byte_array_new ();

  append_array (bytes, numbers, G_N_ELEMENTS (numbers), sizeof *numbers);
  append_array (bytes, problem->setup, n, sizeof (int));
  append_array (bytes, problem->arrows, problem->n_arrows, sizeof (HwOrderArrow));
  append_array (bytes, problem->machine, n_setups, sizeof (int));
  append_array (bytes, problem->change, n_setups * n_setups, sizeof (int));
  append_array (bytes, problem->entry, n_setups, sizeof (int));
  append_array (bytes, problem->walk, n_machines * n_machines, sizeof (int));
  append_array (bytes, problem->accept, n * HW_ORDER_SETUP_WORDS (n_setups), sizeof (guint64));
  append_array (bytes, problem->distance, n * n_setups, sizeof (int));
  append_array (bytes, problem->first, n, sizeof (int));
  append_array (bytes, keep, n, sizeof (int));
  for (gsize r = 0; r < n_runs; r++)
    append_array (bytes, runs[r].members, runs[r].n_members, sizeof (int));
  return g_byte_array_free_to_bytes (bytes);
}

/* ---- answers ---- */

static HwOrderResult *
copy_result (const HwOrderResult *result)
{
  HwOrderResult *copy = g_memdup2 (result, sizeof *result);

  copy->order = g_memdup2 (result->order, (result->n_operations + 1) * sizeof (int));
  copy->setup = g_memdup2 (result->setup, (result->n_operations + 1) * sizeof (int));
  copy->n_states = 0;
  return copy;
}

static void
move_to_front (HwOrderMemory *self, GBytes *question)
{
  GList *link = g_queue_find_custom (&self->recent, question, g_bytes_compare);

  g_queue_unlink (&self->recent, link);
  g_queue_push_head_link (&self->recent, link);
}

HwOrderResult *
hw_order_memory_recall (HwOrderMemory *self, GBytes *question)
{
  const HwOrderResult *known;
  HwOrderResult *result = NULL;

  g_return_val_if_fail (self != NULL && question != NULL, NULL);

  g_mutex_lock (&self->mutex);
  known = g_hash_table_lookup (self->answers, question);
  if (known != NULL)
    {
      result = copy_result (known);
      move_to_front (self, question);
    }
  g_mutex_unlock (&self->mutex);
  return result;
}

void
hw_order_memory_keep (HwOrderMemory *self, GBytes *question, const HwOrderResult *result)
{
  g_return_if_fail (self != NULL && question != NULL && result != NULL);

  g_mutex_lock (&self->mutex);
  if (!g_hash_table_contains (self->answers, question))
    {
      if (self->recent.length == HW_ORDER_MEMORY_SIZE)
        g_hash_table_remove (self->answers, g_queue_pop_tail (&self->recent));
      g_hash_table_insert (self->answers, g_bytes_ref (question), copy_result (result));
      g_queue_push_head (&self->recent, question);
    }
  g_mutex_unlock (&self->mutex);
}
