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
  HW_CLUE_THREAD,               /* the thread's tex against the plan */
  HW_CLUE_SNAP,                 /* the needle thread's snap test */
  HW_CLUE_BOBBIN_SNAP,
  HW_CLUE_STITCH,               /* length or width against the plan */
  HW_CLUE_PRESSURE,             /* pressure or foot against the plan */
  HW_N_CLUES
} HwClue;

extern const char * const hw_remedy_ids[HW_N_REMEDIES + 1];      /* end with NULL */
extern const char * const hw_clue_ids[HW_N_CLUES + 1];

/* faults.xml: <clue id="needle-hours" name factor-clear="0.4" factor-at-limit="2.5" factor-most="6" source/>
 * What a cause's weight is multiplied by: clear where the clue speaks against it (a new needle, a value as planned),
 * at-limit where it stands at its limit (a worn needle, the edge of the band), in between and beyond by the same
 * ratio for the same way, but never over most. id: one of hw_clue_ids; one that has no entry says nothing. */
typedef struct
{
  HwEntry entry;
  HwClue  clue;
  double  clear, at_limit, most;
} HwClueEntry;

/* How the stitch looks: three rows of one length, a letter for each hole of the needle, so that the same hole stands
 * in the same place in all three. <looks cloth="flat" row?="straight" top="---=----" section="----.---"
 * underneath="---=----"/>; card/drawing-fault.h says what each letter draws. */
typedef enum { HW_LOOKS_FLAT, HW_LOOKS_PUCKERED, HW_LOOKS_WAVY, HW_LOOKS_OPEN, HW_LOOKS_SLIPPED, HW_LOOKS_CREPT,
               HW_LOOKS_STEP, HW_N_LOOKS_CLOTHS } HwLooksCloth;
typedef enum { HW_LOOKS_STRAIGHT, HW_LOOKS_CHAIN, HW_LOOKS_OVERLOCK, HW_N_LOOKS_ROWS } HwLooksRow;
extern const char * const hw_looks_cloth_ids[HW_N_LOOKS_CLOTHS + 1];
extern const char * const hw_looks_row_ids[HW_N_LOOKS_ROWS + 1];
#define HW_LOOKS_MOST 16                 /* holes of the needle */
#define HW_LOOKS_SEEN "-=._o:><%@xw*!|c~eE"          /* letters of top and underneath */
#define HW_LOOKS_SECTION "-._v^nb,;%@xw*/()FE"       /* letters of the section */
typedef struct
{
  HwLooksCloth cloth;
  HwLooksRow   row;
  char        *top, *section, *underneath;           /* NULL: no drawing */
} HwLooks;

/* <cause id name weight="30" minutes="1" remedy="new-needle" clue?="needle-hours" care?="dust" source?>
 *   <check>how to find out</check><do>what to do then</do></cause>
 * weight: of a hundred cases of the fault, in how many it is this; those of a fault add up to 100.
 * minutes: to find out. care: the task that is done when this is put right. source: who names the cause; the fault's
 * when left out. */
typedef struct
{
  char           *id;                    /* unique in its fault */
  char           *name;
  double          weight;
  double          minutes;
  HwRemedy        remedy;
  HwClue          clue;
  int             care;                  /* handbook index; -1 none */
  char           *check;
  char           *action;
  const HwSource *source;
} HwCause;

/* faults.xml: <fault id name machines="lockstitch" source><note/><sign>…</sign><looks/><caution/>…<cause/>…
 * </fault>
 * sign: what is seen, to tell it from its neighbours. Causes stand the likeliest first. The source stands behind
 * weights and minutes. */
typedef struct
{
  HwEntry  entry;
  guint    machines;                     /* 1u << HwMachineKind */
  char    *sign;
  HwLooks  looks;
  char   **cautions;                     /* never NULL */
  HwCause *causes;
  gsize    n_causes;
} HwFault;

G_END_DECLS
