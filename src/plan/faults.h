/* faults.h - tracing a stitch fault: what to check next
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Chances: the handbook's weights, each times what the room knows of it (its clue) and what this machine's journal
 * tells, made to sum to 1. Checks are independent and each finds its own cause for certain, so that the order of
 * falling chance / minutes has the least expected time (W. E. Smith, Naval Research Logistics Quarterly 3, 1956).
 * Pure: same handbook, room, set-up and answers, same list; only the entries for the journal have an id of their own.
 */

#pragma once
#include "plan/plan.h"

G_BEGIN_DECLS

/* What a clue was read from, and so what its value and its limit are. */
typedef enum
{
  HW_KNOWN_NONE,                      /* nothing known: factor 1 */
  HW_KNOWN_NEEDLE_HOURS,              /* worn, of its life */
  HW_KNOWN_POINT,                     /* handbook index in the machine, index planned */
  HW_KNOWN_SIZE,                      /* Nm in the machine, Nm planned */
  HW_KNOWN_CARE_HOURS,                /* since it was done, limit: of the task in clue_care */
  HW_KNOWN_CARE_MONTHS,
  HW_KNOWN_CARE_DAYS,                 /* days on which it sewed */
  HW_KNOWN_DIAL,                      /* where it stands, edge of the band on the side asked for */
  HW_KNOWN_TEX,                       /* of the needle thread, edge of the band */
  HW_KNOWN_SNAP,                      /* HwSnap; no limit */
  HW_KNOWN_BOBBIN_SNAP,
  HW_KNOWN_LENGTH,                    /* mm, edge of the band */
  HW_KNOWN_WIDTH,
  HW_KNOWN_CUTTING_WIDTH,
  HW_KNOWN_DIFFERENTIAL,
  HW_KNOWN_PRESSURE,                  /* steps, edge of the band */
  HW_KNOWN_FOOT,                      /* handbook index on the machine, index planned */
  HW_KNOWN_PLATE,
} HwFaultFact;

typedef struct
{
  const HwCause *cause;
  double         chance;             /* of those not ruled out; sums to 1 */
  double         prior;              /* the handbook's weight / 100 */
  double         minutes;
  double         clue;               /* factor of what the room knows; 1 nothing */
  double         history;            /* factor of this machine's journal; 1 nothing */
  int            found;              /* how often the journal names this cause of this fault on this machine */
  HwFaultFact     fact;
  double         clue_value, clue_limit;    /* NAN where there is none */
  int            clue_care;          /* handbook index; -1 */
} HwFaultCheck;

typedef enum { HW_FIX_NONE, HW_FIX_LOAD_NEEDLE, HW_FIX_SET_DIAL, HW_FIX_CARE } HwFixKind;
/* What one press can do to the room for a remedy; the rest a person does by the sentence. */
typedef struct
{
  HwFixKind    kind;
  const HwPacket *packet;            /* load: from here, NULL buy */
  int          system, point, size_nm;
  double       twin_mm;
  gboolean     discard;              /* load: the one that comes out is thrown away */
  double       dial;                 /* set */
  int          care;                 /* handbook index; -1 */
} HwFix;

typedef struct
{
  const HwFault *fault;
  GArray        *checks;             /* HwFaultCheck, in the order to make them */
  double         expected_minutes;   /* to find the cause in this order */
} HwFaultSearch;

/* The handbook's weights count as much as this many causes found on the machine (a judgement; common practice has no
 * figure): each chance is shrunk toward them by it, as the mean of a Dirichlet distribution. */
#define HW_FAULT_PRIOR_CASES 10

/* @machine: where it shows. @setup: of the operation sewn, or NULL. @ruled_out: cause ids, NULL-terminated or NULL.
 * @now_iso: for clocks in months; NULL leaves them out. NULL when every cause is ruled out. */
HwFaultSearch *hw_fault_search_new  (const HwHandbook *handbook, const HwRoom *room, const HwMachine *machine,
                                     const HwSetup *setup, const HwFault *fault, const char * const *ruled_out,
                                     const char *now_iso);
void           hw_fault_search_free (HwFaultSearch *self);
HwFix          hw_fault_fix         (const HwHandbook *handbook, const HwRoom *room, const HwMachine *machine,
                                     const HwSetup *setup, const HwCause *cause);
/* Where the dial stands by the journal since the last load, else where the person set it for @setup; NAN unknown. */
double         hw_fault_dial_now    (const HwRoom *room, const HwMachine *machine, const HwSetup *setup);
/* Expected minutes to find the cause when checks are made in the order of @order (indices into @checks). */
double         hw_fault_expected_minutes (const HwFaultCheck *checks, gsize n_checks, const gsize *order);
const HwCause *hw_fault_find_cause  (const HwFault *fault, const char *id);       /* NULL unknown */

/* For the journal (transfer full): the cause found, or (@cause NULL) the fault seen and its cause not found. */
HwJournalEntry *hw_fault_entry      (const HwMachine *machine, const HwFault *fault, const HwCause *cause,
                                     const char *project, const char *step);
/* What @fix does, for the journal (transfer full): a load or a care. NULL for the others: where the dial was put
 * belongs into the fault's own entry. */
HwJournalEntry *hw_fault_fix_entry  (const HwHandbook *handbook, const HwRoom *room, const HwMachine *machine,
                                     const HwFix *fix);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwFaultSearch, hw_fault_search_free)

G_END_DECLS
