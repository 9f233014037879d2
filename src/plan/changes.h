/* changes.h - what is mounted on a machine, and what it takes to mount something else
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/plan.h"

G_BEGIN_DECLS

typedef enum
{
  HW_SOFT_LENGTH, HW_SOFT_WIDTH, HW_SOFT_PRESSURE, HW_SOFT_DIAL, HW_SOFT_DIFFERENTIAL, HW_SOFT_CUTTING_WIDTH,
  HW_N_SOFT_PARTS
} HwSoftPart;

extern const HwField hw_soft_fields[HW_N_SOFT_PARTS];

/* Handbook indices, -1 unknown; Nm; hundredths of a mm between the points, 0 single. */
typedef struct { int system, point, size_nm, twin; } HwNeedleKind;

/* Hard and soft parts of a set-up, or what the journal says of them. */
typedef struct
{
  const HwMachine      *machine;
  gboolean              known;          /* FALSE: nobody noted what is on it */
  int                   system, point;  /* handbook indices; -1 unknown */
  int                   size_nm;
  int                   twin;           /* spacing in 1/100 mm; 0 single */
  const HwStitch       *stitch;         /* NULL unknown */
  const HwThreadChoice *needle_thread;  /* NULL: another than any of this project */
  const HwThreadChoice *bobbin_thread;
  int                   foot, plate;    /* -1 none */
  gboolean              soft_known;
  int                   soft[HW_N_SOFT_PARTS];   /* in 1/100 */
} HwMounted;

HwMounted hw_mounted_from_setup (const HwSetup *setup);
/* What stands on @machine: the last step of this project sewn on it, or the last load noted, whichever is later. */
HwMounted hw_mounted_now        (const HwPlan *plan, const HwMachine *machine);
/* The same as the first @n_entries of the journal have it. */
HwMounted hw_mounted_then       (const HwPlan *plan, const HwMachine *machine, guint n_entries);

HwNeedleKind hw_mounted_needle  (const HwMounted *self);
/* @system and @point: ids, may be NULL. */
HwNeedleKind hw_needle_kind     (const HwHandbook *handbook, const char *system, const char *point, int nm,
                                 double twin_mm);
gboolean  hw_needle_kind_same   (HwNeedleKind a, HwNeedleKind b);

gboolean  hw_thread_choice_same (const HwThreadChoice *a, const HwThreadChoice *b);
gboolean  hw_mounted_same_hard  (const HwMounted *a, const HwMounted *b);
gboolean  hw_mounted_same       (const HwMounted *a, const HwMounted *b);
gboolean  hw_mounted_same_needle(const HwMounted *a, const HwMounted *b);

/* HwChange bits between two states of one machine. */
guint     hw_changes_between    (const HwMounted *from, const HwMounted *to);
/* The handbook's minutes, or the person's own where the room's preferences have them. */
HwChangeCosts hw_changes_costs  (const HwHandbook *handbook, const HwRoom *room);
/* What they cost, in thousandths of a minute; nothing for sitting down at the machine. */
int       hw_changes_cost       (const HwChangeCosts *costs, const HwMounted *from, const HwMounted *to);
int       hw_changes_walk       (const HwChangeCosts *costs);
int       hw_changes_thousandths(double minutes);

/* As written in the journal: "navy tex 30". (transfer full) */
char     *hw_thread_choice_label(const HwThreadChoice *choice);

G_END_DECLS
