/* faults-private.h - what the parts of the fault finder share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/faults.h"

G_BEGIN_DECLS

typedef struct
{
  const HwHandbook     *handbook;
  const HwRoom         *room;
  const HwMachine      *machine;
  const HwSetup        *setup;       /* NULL: no operation named */
  const HwMachineState *state;
  const char           *now_iso;     /* NULL: months are not counted */
} HwFaultScene;

typedef struct
{
  HwFaultFact kind;
  double     value, limit;           /* NAN where there is none */
  int        care;                   /* handbook index; -1 */
  double     share;                  /* of the way from where the clue speaks against the cause, 0, to its limit, 1 */
} HwClueFact;

/* What the room knows of @cause; kind HW_KNOWN_NONE: nothing. */
HwClueFact hw_fault_clue_fact (const HwFaultScene *scene, const HwCause *cause);

/* Which way a remedy goes: -1 less of it (finer, lighter, shorter, lower), +1 more, 0 either. */
int        hw_remedy_direction (HwRemedy remedy);
gboolean   hw_fault_is_live   (const HwRoom *room, const HwJournalEntry *entry);

G_END_DECLS
