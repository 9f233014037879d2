/* order-memory.h - orders proved before, remembered by what was asked
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Most changes to a project (a title, a note, a seam's length) leave the question of its order as it was. The whole
 * question is the key, so that what comes back is what the search would find again. May be used from several threads.
 */

#pragma once
#include "plan/order-together.h"

G_BEGIN_DECLS

#define HW_ORDER_MEMORY_SIZE 64          /* answers; the one not asked for longest makes room */

typedef struct _HwOrderMemory HwOrderMemory;

HwOrderMemory *hw_order_memory_new   (void);
HwOrderMemory *hw_order_memory_ref   (HwOrderMemory *self);
void           hw_order_memory_unref (HwOrderMemory *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwOrderMemory, hw_order_memory_unref)

/* All that hw_order_solve_together() and hw_order_keep() read, in bytes; @keep: [n_operations], NULL none. (transfer
 * full) */
GBytes        *hw_order_question     (const HwOrderProblem *problem, const HwOrderRun *runs, gsize n_runs,
                                      const int *keep);

/* What was kept for @question, with n_states 0. (transfer full); NULL: nothing. */
HwOrderResult *hw_order_memory_recall (HwOrderMemory *self, GBytes *question);
/* Keeps a copy. The caller sees to it that @result is what any further effort would give too. */
void           hw_order_memory_keep  (HwOrderMemory *self, GBytes *question, const HwOrderResult *result);

G_END_DECLS
