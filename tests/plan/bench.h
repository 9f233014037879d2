/* bench.h - a room of our own defaults, written to a folder, so that entries can be appended as the program does
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/plan.h"

G_BEGIN_DECLS

#define BENCH_MACHINE "lockstitch"

typedef struct
{
  char       *folder;
  HwHandbook *handbook;
  HwRoom     *room;
  HwProject  *project;           /* for the test to make, with its plan; NULL */
  HwPlan     *plan;
  guint       n_entries;
} Bench;

void             bench_open     (Bench *self);
void             bench_close    (Bench *self);
const HwMachine *bench_machine  (const Bench *self);
/* One an hour, from the first of May 2031 on. */
void             bench_set_time (Bench *self, HwJournalEntry *entry);
/* (transfer full): @entry */
void             bench_append   (Bench *self, HwJournalEntry *entry);

G_END_DECLS
