/* faults.h - stitch faults: what is seen, what may have caused it, how to find out, what to do
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "handbook/entries.h"

G_BEGIN_DECLS

/* What there is to be done about a cause. The sentence beside it says how; the code lets the plan act on it. */
typedef enum
{
  HW_REMEDY_RETHREAD,           /* needle thread, with the foot up */
  HW_REMEDY_RESEAT_BOBBIN,
  HW_REMEDY_REWIND_BOBBIN,
  HW_REMEDY_NEW_NEEDLE,
  HW_REMEDY_OTHER_POINT,
  HW_REMEDY_FINER_NEEDLE,
  HW_REMEDY_THICKER_NEEDLE,
  HW_REMEDY_OTHER_THREAD,
  HW_REMEDY_FINER_THREAD,
  HW_REMEDY_STRONGER_THREAD,
  HW_REMEDY_DIAL_UP,            /* half a step */
  HW_REMEDY_DIAL_DOWN,
  HW_REMEDY_BOBBIN_TENSION,     /* an eighth of a turn at most */
  HW_REMEDY_LOOPER_TENSION,
  HW_REMEDY_LONGER_STITCH,
  HW_REMEDY_SHORTER_STITCH,
  HW_REMEDY_OTHER_STITCH,
  HW_REMEDY_WIDER_ALLOWANCE,
  HW_REMEDY_MORE_PRESSURE,
  HW_REMEDY_LESS_PRESSURE,
  HW_REMEDY_OTHER_FOOT,
  HW_REMEDY_OTHER_PLATE,
  HW_REMEDY_FEED,               /* feed dogs, differential */
  HW_REMEDY_STABILISE,
  HW_REMEDY_LEVEL_FOOT,         /* a shim behind the foot */
  HW_REMEDY_HANDLE,             /* how the work is held, started or guided */
  HW_REMEDY_SLOW_DOWN,
  HW_REMEDY_CLEAN,
  HW_REMEDY_OIL,                /* only where the manual says so */
  HW_REMEDY_TIGHTEN,
  HW_REMEDY_SECURE_END,
  HW_REMEDY_SERVICE,            /* a qualified technician */
  HW_N_REMEDIES
} HwRemedy;

/* What the sewing room may know that makes a cause likelier. */
typedef enum
{
  HW_CLUE_NONE,
  HW_CLUE_NEEDLE_HOURS,         /* the needle's hours against its life */
  HW_CLUE_NEEDLE_FIT,           /* the needle in the machine against the one planned */
  HW_CLUE_LINT,                 /* the dusting clock */
  HW_CLUE_OIL,                  /* the oiling clock */
  HW_CLUE_SERVICE,              /* the service clock */
  HW_CLUE_DIAL_HIGH,            /* the dial above the plan's band */
  HW_CLUE_DIAL_LOW,
  HW_CLUE_THREAD,               /* the thread against the plan, its snap test */
  HW_CLUE_STITCH,               /* length or width against the plan */
  HW_CLUE_PRESSURE,             /* pressure or foot against the plan */
  HW_N_CLUES
} HwClue;

extern const char * const hw_remedy_ids[HW_N_REMEDIES + 1];      /* end with NULL */
extern const char * const hw_clue_ids[HW_N_CLUES + 1];

/* <cause id name weight="30" minutes="1" remedy="new-needle" clue?="needle-hours" source?>
 *   <check>how to find out</check><do>what to do then</do></cause>
 * weight: of a hundred cases of the fault, in how many it is this; those of a fault add up to 100.
 * minutes: to find out. source: who names the cause; the fault's when left out. */
typedef struct
{
  char           *id;                    /* unique in its fault */
  char           *name;
  double          weight;
  double          minutes;
  HwRemedy        remedy;
  HwClue          clue;
  char           *check;
  char           *action;
  const HwSource *source;
} HwCause;

/* faults.xml: <fault id name machines="lockstitch" source><note/><sign>…</sign><caution/>…<cause/>…</fault>
 * sign: what is seen, to tell it from its neighbours. Causes stand the likeliest first. The source stands behind
 * weights and minutes. */
typedef struct
{
  HwEntry  entry;
  guint    machines;                     /* 1u << HwMachineKind */
  char    *sign;
  char   **cautions;                     /* never NULL */
  HwCause *causes;
  gsize    n_causes;
} HwFault;

G_END_DECLS
