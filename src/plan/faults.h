/* faults.h - tracing a stitch fault: what to check next
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Chances: the handbook's weights, each times what the room knows of it (its clue) and what this machine's journal
 * tells, made to sum to 1. Checks are independent and each finds its own cause for certain, so that the order of
 * falling chance / minutes has the least expected time (W. E. Smith, Naval Research Logistics Quarterly 3, 1956).
 * Pure: same handbook, room, set-up and answers, same list.
 */

#pragma once
#include "plan/plan.h"

G_BEGIN_DECLS

typedef struct
{
  const HwCause *cause;
  double         chance;             /* of those not ruled out; sums to 1 */
  double         prior;              /* the handbook's weight / 100 */
  double         minutes;
  double         clue;               /* factor of what the room knows; 1 nothing */
  double         history;            /* factor of this machine's journal; 1 nothing */
  double         clue_value, clue_limit;    /* what it was read from: hours and limit, dial and band edge; NAN */
} HwFaultCheck;

typedef enum { HW_FIX_NONE, HW_FIX_LOAD_NEEDLE, HW_FIX_SET_DIAL, HW_FIX_CARE } HwFixKind;
/* What one press can do to the room for a remedy; the rest a person does by the sentence. */
typedef struct
{
  HwFixKind    kind;
  const HwPacket *packet;            /* load: from here, NULL buy */
  int          system, point, size_nm;
  double       dial;                 /* set */
  int          care;                 /* handbook index */
} HwFix;

typedef struct
{
  const HwFault *fault;
  GArray        *checks;             /* HwFaultCheck, in the order to make them */
  double         expected_minutes;   /* to find the cause in this order */
} HwFaultSearch;

/* @machine: where it shows. @setup: of the operation sewn, or NULL. @ruled_out: cause ids, NULL-terminated or NULL.
 * @now_iso: for clocks in months. NULL when every cause is ruled out. */
HwFaultSearch *hw_fault_search_new  (const HwHandbook *handbook, const HwRoom *room, const HwMachine *machine,
                                     const HwSetup *setup, const HwFault *fault, const char * const *ruled_out,
                                     const char *now_iso);
void           hw_fault_search_free (HwFaultSearch *self);
HwFix          hw_fault_fix         (const HwHandbook *handbook, const HwRoom *room, const HwMachine *machine,
                                     const HwSetup *setup, const HwCause *cause);
/* Expected minutes to find the cause when checks are made in the order of @order (indices into @checks). */
double         hw_fault_expected_minutes (const HwFaultCheck *checks, gsize n_checks, const gsize *order);
/* For the journal (transfer full): the cause found, or (@cause NULL) the fault seen and its cause not found. */
HwJournalEntry *hw_fault_entry      (const HwMachine *machine, const HwFault *fault, const HwCause *cause,
                                     const char *project, const char *step);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwFaultSearch, hw_fault_search_free)

G_END_DECLS
