/* hold.h - keeps the threads of tasks waiting, so that a test can be quicker than any of them
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gio/gio.h>

G_BEGIN_DECLS

typedef struct
{
  GMutex lock;
  int    n_left;
} Hold;

/* No task begun from now on comes to run until they are released. */
void hold_threads    (Hold *self);
/* Returns when they have all gone on. */
void release_threads (Hold *self);

G_END_DECLS
