/* queue-count.h - the room's queue as it stands now, planned on a thread: many projects take a while
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/queue.h"
#include "window/workspace.h"

G_BEGIN_DECLS

/* @done is called with @source unless *@counting was cancelled meanwhile. Cancels what *@counting (may point to NULL)
 * still waits for, and puts the new one's in its place. */
void     hw_queue_count        (HwWorkspace *workspace, gpointer source, GCancellable **counting,
                                void (* done) (gpointer source, HwQueue *queue));
/* In dispose of @source: nothing is waited for any more. */
void     hw_queue_count_cancel (GCancellable **counting);

G_END_DECLS
