/* pairing.h - finds the set-up for one operation from the handbook, with reasons
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pure: (handbook, project, room, step) -> set-up. Nothing here orders or shares.
 */

#pragma once
#include "handbook/handbook.h"
#include "model/project.h"
#include "model/room.h"
#include "trade/tension-learn.h"

G_BEGIN_DECLS

#define HW_PLAN_ERROR (hw_plan_error_quark ())
GQuark hw_plan_error_quark (void);
typedef enum
{
  HW_PLAN_ERROR_UNKNOWN,     /* a fabric, thread, purpose, stitch or machine that neither handbook nor room knows */
  HW_PLAN_ERROR_NO_MACHINE,  /* the room has none of the kind that forms the stitch */
} HwPlanError;

/* A project's fabric with everything resolved. */
typedef struct
{
  const HwProjectFabric *fabric;
  const HwFabric        *entry;          /* NULL: own fabric */
  int                    construction;
  double                 mass_g_m2;
  double                 thickness_mm;   /* one ply, as measured */
  gboolean               thickness_estimated;   /* from mass and the construction's bulk density */
  double                 stretch_percent;
  HwSet                  traits;
} HwCloth;

typedef struct
{
  const HwProjectThread *thread;         /* NULL: a handbook thread the project does not list */
  const HwThreadEntry   *entry;
  double                 tex;
  double                 diameter_mm;
} HwThreadChoice;

typedef enum
{
  HW_ORIGIN_PREFERRED,   /* what the handbook prefers */
  HW_ORIGIN_AGREED,      /* moved inside its band so that one set-up serves more steps */
  HW_ORIGIN_AT_HAND,     /* moved inside its band to a needle that the case or a machine holds */
  HW_ORIGIN_OVERRIDDEN,  /* the person's own */
  HW_ORIGIN_CLAMPED,     /* moved to this machine's limit */
} HwOrigin;

/* One value of a set-up. Numbers: low <= prefer <= high, value what is set. Choices: prefer and value are
 * indices in the handbook's table (point, foot, plate, stitch, system; HwEnds for ends), accept the ones that pass. */
typedef struct
{
  gboolean applies;      /* FALSE: this operation has no such value (differential on a lockstitch) */
  double   low, prefer, high;
  HwSet    accept;
  double   value;
  HwOrigin origin;
} HwValue;

typedef enum
{
  HW_REASON_RULE,          /* a row of the handbook: rule is set */
  HW_REASON_THREAD_SHARE,  /* v0 thread mm, v1 share of the blade %, v2 Nm suggested */
  HW_REASON_SMALLEST,      /* v0 Nm: the smallest that meets every lower bound */
  HW_REASON_CHOSEN_THREAD, /* the project's own thread: v0 tex */
  HW_REASON_SEAM_THREAD,   /* the project's v2 tex, though v0 to v1 would show better: it has none */
  HW_REASON_MACHINE,       /* this machine forms the stitch */
  HW_REASON_DIAL_NEUTRAL,  /* v0 neutral number */
  HW_REASON_DIAL_TERM,     /* v0 HwTensionTerm, v1 what it added on this machine's scale */
  HW_REASON_TEST_SEAMS,    /* v0 how many on this machine, v1 how far they moved the dial, v2 its spread now */
  HW_REASON_CLAMPED,       /* v0 wanted, v1 the machine's limit */
  HW_REASON_OVERRIDE,      /* v0 the value the handbook prefers */
  HW_REASON_AGREED,        /* v0 the value preferred; text: the steps served */
  HW_REASON_AT_HAND,       /* no needle as preferred, point or size v0, is there; one as set is */
  HW_REASON_OWNED,         /* foot or plate wanted is not owned; v0 index wanted */
} HwReasonCode;

typedef struct
{
  HwField         field;
  HwReasonCode    code;
  const HwRule   *rule;          /* HW_REASON_RULE */
  const HwSource *source;        /* never NULL */
  double          v[3];
  const HwCloth  *cloth;         /* the ply it speaks of, or NULL */
} HwReason;

typedef enum
{
  HW_WARN_BOUNDS_CROSS,     /* needle: thread/stack wants at least v0, cloth at most v1; way out: tex v2 or less */
  HW_WARN_THREAD_LIMIT,     /* thread is v0 % of blade: over 40 % */
  HW_WARN_CLAMPED,          /* v0 wanted, v1 set */
  HW_WARN_FOOT_LIFT,        /* stack v0 mm (v2: thickest crossing) under lift v1 mm */
  HW_WARN_TWIN_WIDE,        /* twin v0 mm, plate or swing gives v1; v2 the widest sold that passes, 0 none */
  HW_WARN_OVERRIDE_OUTSIDE, /* the person's v0 outside v1..v2 */
  HW_WARN_NOT_OWNED,        /* foot or plate wanted is not owned and has no fallback */
  HW_WARN_SIZE_NOT_SOLD,    /* no needle of that point in v0; nearest v1 */
  HW_WARN_COARSE_THREAD,    /* needle thread over tex 90 */
  HW_WARN_ESTIMATED,        /* thickness was estimated from mass */
} HwWarningCode;

typedef struct
{
  HwField       field;
  HwWarningCode code;
  double        v[3];
  const HwCloth *cloth;          /* or NULL */
} HwWarning;

typedef struct
{
  const HwStep    *step;
  const HwMachine *machine;
  const HwPurpose *purpose;
  const HwStitch  *stitch;
  const HwSeam    *seam;                 /* NULL none */
  HwThreadChoice   needle_thread, bobbin_thread;
  HwValue          values[HW_N_FIELDS];
  HwLineFrom       line_from;            /* what the allowance is measured from */
  double           thickness_mm;         /* sum of plies as measured */
  double           under_foot_mm;        /* what the foot leaves of it */
  double           crossing_mm;          /* thickest crossing as measured; 0 none */
  HwTensionFacts   tension;              /* what the dial follows from; all 0 but on a lockstitch machine */
  guint            n_test_seams;         /* on this machine, that its dial was learned from */
  double           dial_sd;              /* spread of the balanced dial */
  double           dial_likely_low, dial_likely_high;  /* printed: where it is likely to end, half-steps */
  double           window_low, window_high;            /* where the stitch looks balanced if the start is right */
  double           lint_factor;          /* dusting clock */
  double           speed_factor;         /* share of the purpose's speed: slippery cloth and pile are sewn slower */
  double           needle_life;          /* the needle's hours count divided by this */
  GArray          *reasons;              /* HwReason; never empty */
  GArray          *warnings;             /* HwWarning */
  char            *foot_missing;         /* unused: NULL */
} HwSetup;

/* Every fabric of @project resolved, in its order: (element-type HwCloth). Error HW_PLAN_ERROR_UNKNOWN. */
GArray  *hw_cloths_resolve  (const HwHandbook *handbook, const HwProject *project, GError **error);

/* @cloths from above, which must outlive the set-up. NULL with @error. */
HwSetup *hw_pair            (const HwHandbook *handbook, const HwProject *project, const GArray *cloths,
                             const HwRoom *room, const HwStep *step, GError **error);
void     hw_setup_free      (HwSetup *self);

/* What is believed of @machine, and where it starts: after a machine's first scrap, when that was at fault, at most
 * HW_FIRST_STEP from where it would have started untaught, as every card says, for one scrap has nothing to hold it
 * against; what is learned goes further when scraps agree. Numbers of the dial. */
#define HW_FIRST_STEP 0.5
HwTensionStart hw_pair_dial_start (const HwTensionPrior *prior, const HwTensionBelief *belief, const HwDialScale *scale,
                                   const HwTensionFacts *facts);
/* Where the dial may lie at another length, for the same operation: half-steps. */
HwBand   hw_pair_dial_band  (const HwHandbook *handbook, const HwRoom *room, const HwSetup *setup, double length_mm);

/* The dial before it was moved so that it serves more steps. */
double   hw_setup_get_preferred_dial (const HwSetup *setup);

/* Where the needle stands in the foot of @setup, and in @aside_mm how far left of the centre, or in the notch how far
 * to either side, both in mm as the handbook has the foot; HW_NEEDLE_UNSAID where the foot does not say or cannot. */
HwNeedlePlace hw_setup_needle_place (const HwHandbook *handbook, const HwSetup *setup, double *aside_mm);

/* May @self be set to @value in @field? (inside the band, among what is accepted) */
gboolean hw_value_accepts   (const HwValue *self, HwField field, double value);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwSetup, hw_setup_free)

G_END_DECLS
