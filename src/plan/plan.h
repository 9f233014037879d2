/* plan.h - the whole plan: set-ups, order of work, changes, notions, time, next needle
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A pure function of (handbook, project, room): same input, same plan, byte for byte.
 * A plan does not change once made; it keeps references to its three inputs.
 */

#pragma once
#include "plan/order-memory.h"
#include "plan/pairing.h"

G_BEGIN_DECLS

typedef enum
{
  HW_CHANGE_MACHINE = 1 << 0,   /* sit at another machine */
  HW_CHANGE_NEEDLE  = 1 << 1,
  HW_CHANGE_THREAD  = 1 << 2,
  HW_CHANGE_BOBBIN  = 1 << 3,
  HW_CHANGE_FOOT    = 1 << 4,
  HW_CHANGE_PLATE   = 1 << 5,
  HW_CHANGE_STITCH  = 1 << 6,
  HW_CHANGE_SOFT    = 1 << 7,   /* length, width, pressure, dial */
} HwChange;

/* The hard parts that one setup card stands for. Letter A, B, … in the order first used. */
typedef struct
{
  char             letter[4];
  const HwMachine *machine;
  int              system, point;       /* handbook indices */
  int              size_nm;
  double           twin_mm;             /* 0 single */
  const HwStitch  *stitch;
  const HwThreadChoice *needle_thread, *bobbin_thread;
  int              foot, plate;         /* -1 none */
  GArray          *members;             /* gsize: step indices, in the order sewn */
} HwGroup;

typedef struct
{
  gsize    step;                        /* index into project->steps */
  int      group;                       /* index into groups; -1 hand step */
  guint    changes;                     /* HwChange to make before it */
  double   change_minutes;
  double   minutes;                     /* at the machine, or by hand */
  double   running;                     /* needle-moving minutes */
  double   pace;                        /* what the person's own minutes taught for its purpose: the handbook's minutes
                                         * are multiplied by it; 1 nothing yet, or by hand */
  double   stitches;
  double   needle_m, under_m;           /* thread, tails and re-sew included */
  gboolean done;
  guint64  care_due;                    /* 1 << care index: falls due in this step: do it before */
  gboolean needle_worn;                 /* the needle runs out of hours in this step: new one before */
  int      needles;                     /* 1 (by hand 0); more: the step outlasts a needle and is sewn with several */
  double   starts_hours;                /* of work from now on until it begins, its change and care made; 0 when done */
} HwPlanStep;

/* A needle to have in hand, in the order wanted. */
typedef struct
{
  int      system, point, size_nm;
  double   twin_mm;
  int      group;
  const HwNeedle *worn;                 /* part-worn one from the case that has enough hours; or NULL */
  const HwPacket *packet;               /* else a new one from here; or NULL */
  gboolean buy;                         /* neither: buy */
  HwSet    points;                      /* that every step it sews accepts, its own among them */
  double   hours_left;                  /* on ordinary cloth, told on the clock that runs out first */
  int      before;                      /* order index before which it is loaded */
  int      from_piece;                  /* 0; else within that step, when so many pieces (rows) of it are sewn */
  gboolean mid_row;                     /* a single piece outlasts a needle: wherever the row can be stopped */
  int      worn_before;                 /* order index of the step in which it runs out; -1 not in this plan */
  int      again;                       /* index of the earlier pick whose needle comes back; -1 */
  gboolean discards;                    /* the needle that comes out has done its hours: throw it away */
} HwNeedlePick;

typedef struct
{
  const HwProjectThread *thread;        /* NULL: a thread the project does not list */
  const HwThreadEntry   *entry;
  char   *colour;                       /* may be NULL */
  double  tex;
  double  needle_m;                     /* off the spool through needles and loopers */
  double  cone_m;                       /* of that, on machines without a bobbin */
  double  bobbin_m;
  int     bobbins;                      /* to wind, by the lockstitch machine's capacity */
  double  bobbin_capacity_m;
  int     cones;                        /* overlock paths it feeds; 0 none */
} HwNotion;

typedef struct
{
  double   change_minutes;
  int      needle_changes, thread_changes, foot_changes, machine_changes;
  int      changes;                     /* times that hard parts change */
} HwChangeTotals;

typedef struct
{
  const HwMachine *machine;
  double at_machine_hours, running_hours;      /* this project's steps, all / */
  double left_at_machine, left_running;        /* not yet done */
} HwMachineHours;

typedef struct
{
  gatomicrefcount ref_count;
  const HwHandbook *handbook;           /* owned references */
  const HwProject  *project;
  const HwRoom     *room;
  GArray     *cloths;                   /* HwCloth, one a project fabric */
  HwSetup   **setups;                   /* one a step; NULL for a hand step */
  gsize       n_steps;
  GArray     *at_hand;                  /* HwNeedleKind: kinds of needle that the case holds */
  GPtrArray  *groups;                   /* (element-type HwGroup) */
  GArray     *order;                    /* HwPlanStep, in the order to work, done ones first in the order done */
  HwChangeCosts costs;                  /* minutes a change: the handbook's, or the person's own */
  HwChangeTotals as_listed;             /* of what is not done yet, from what is mounted now: the person's order with
                                         * the preferred set-ups, */
  HwChangeTotals as_ordered_unshared;   /* the best order with the preferred set-ups, */
  HwChangeTotals as_ordered;            /* and the plan's: the best order with set-ups shared inside their bands */
  double      bound_minutes;            /* no order has less change time; as_ordered's when proved */
  GPtrArray  *needles;                  /* (element-type HwNeedlePick): one per change, in order, from now on */
  GPtrArray  *notions;                  /* (element-type HwNotion) */
  int         buttonholes;              /* to sew */
  GArray     *hours;                    /* HwMachineHours */
  double      minutes_total, minutes_left, running_total, hand_minutes;   /* of the steps; changes come on top */
  char       *from;                     /* ISO 8601: when the work begins, for what the calendar tells: the last thing
                                         * noted in the room, or what a queue says; NULL nothing noted */
  double      from_hours;               /* laid out before it, since then: 0, or what a queue does first */
  double      work_hours;               /* all that is left: steps, changes and care */
  int         next;                     /* index into order of the first step not done; -1 all done */
  gboolean    settled;                  /* and all the effort of HW_PLAN_PROOF_STATES would give the same plan */
  guint       n_states;                 /* that the search for it looked at; 0: all of it was remembered */
  gboolean    proved;                   /* no order and no choice of set-ups inside their bands has less change time */
} HwPlan;

/* At once: a good order, proved when that is quick. */
HwPlan *hw_plan_new   (const HwHandbook *handbook, const HwProject *project, const HwRoom *room, GError **error);
/* The same with the effort named: hw_plan_new() allows HW_PLAN_QUICK_STATES of the search for the proof. Off the main
 * thread HW_PLAN_PROOF_STATES prove nearly every real plan. More effort never gives a dearer order. */
#define HW_PLAN_QUICK_STATES 2000
#define HW_PLAN_PROOF_STATES 2000000
HwPlan *hw_plan_new_within (const HwHandbook *handbook, const HwProject *project, const HwRoom *room, guint max_states,
                            GError **error);
typedef struct
{
  guint          max_states;            /* of the search for the proof */
  HwOrderMemory *memory;                /* of orders proved before: neither read nor written when NULL */
  const int     *cancelled;             /* read atomically; non-zero: the best so far at once. NULL: never */
  int           *n_paired;              /* set atomically: how many steps have been looked at for a set-up. NULL */
} HwPlanEffort;

/* With a memory the plan is the one that the full effort gives, when its order was proved before. A plan that was
 * cancelled is a good one but not to be shown as the answer: another time another is found. */
HwPlan *hw_plan_new_with (const HwHandbook *handbook, const HwProject *project, const HwRoom *room,
                          const HwPlanEffort *effort, GError **error);
HwPlan *hw_plan_ref   (HwPlan *self);
void    hw_plan_unref (HwPlan *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwPlan, hw_plan_unref)

/* The first step that is not done of the block of one set-up that @first begins; NULL: all of it is sewn. */
const HwPlanStep *hw_plan_find_left (const HwPlan *self, const HwPlanStep *first);
const HwPlanStep *hw_plan_find_step (const HwPlan *self, const char *number);    /* NULL unknown */
const HwGroup    *hw_plan_get_group (const HwPlan *self, int index);

/* What is on a machine now, and what comes next on it: the strip, `handwheel next`, the cards. */
typedef struct
{
  const HwMachine   *machine;
  const HwNeedle    *needle;            /* in it now; NULL unknown */
  double             hours_used, hours_limit;   /* at the machine, of the needle's life */
  int                worn_step;         /* order index of the step in which the needle runs out; -1 not in this plan */
  const HwNeedlePick *next;             /* NULL: nothing more to load */
  int                next_step;         /* order index before which it is loaded; -1 */
  const HwGroup     *next_group;        /* NULL */
  int                care;              /* handbook care index due first; -1 none */
  int                care_step;         /* order index in which it falls due */
} HwNow;

/* The given machine's, or (@machine NULL) that of the next step not done; then, where nothing more is to be loaded on
 * that one, next, next_step and next_group are those of the machine that wants a needle first. */
HwNow hw_plan_now (const HwPlan *self, const HwMachine *machine);
/* What is in @machine (nullable) without a plan: nothing that comes next, no care. */
HwNow hw_now_in   (const HwHandbook *handbook, const HwRoom *room, const HwMachine *machine);

/* What marking a step as sewn notes, (element-type HwJournalEntry) of one machine, for hw_room_append_all(): the
 * sewing, and before it, where a needle of another kind than the step's is noted to be in the machine (or none), that
 * its own was put in. (transfer full) */
GPtrArray *hw_plan_entries_for_step  (const HwPlan *self, const char *number, double actual_minutes_or_0);
/* What takes the mark of a step that is done back: the same, cancelled; a needle sewn with since stays noted. */
GPtrArray *hw_plan_entries_to_unmark (const HwPlan *self, const char *number);

/* Journal entries for what a person does; append with hw_room_append(). (transfer full) */
HwJournalEntry *hw_plan_entry_for_step (const HwPlan *self, const char *number, double actual_minutes_or_0);
HwJournalEntry *hw_plan_entry_for_load (const HwPlan *self, const HwGroup *group, const HwNeedlePick *pick_or_null);

G_END_DECLS
