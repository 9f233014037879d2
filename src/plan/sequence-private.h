/* sequence-private.h - the steps of a project while they are put in order
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/changes.h"

G_BEGIN_DECLS

/* What is sewn is an operation of the solver's; so is pressing where going to the iron counts as a walk. */
typedef struct
{
  HwPlan    *plan;
  gboolean  *done;           /* [n_steps] */
  GArray   **after;          /* [n_steps] int: steps that must come before, by the making up and by wishes */
  gboolean  *waits;          /* [n_steps] the making up itself has it come after something */
  int       *unit;           /* [n_steps] index in units of the steps it is kept together with; -1 */
  GPtrArray *units;          /* (element-type GArray) gsize: steps not done that are kept together, in their order */
  GArray    *operations;     /* gsize: steps not done that the solver orders */
  int       *numbers;        /* [n_steps] place in operations; -1 */
  GPtrArray *machines;       /* (element-type HwMachine) that the project uses, by first use */
  HwMounted *standing;       /* [machines] what stands on them now */
  int        at;             /* machine sat at, or machines->len for the iron; -1 */
  int       *keep;           /* [operations] their order before anything was sewn; NULL: nothing was */
} HwSequence;

/* Does @step take one to the iron? */
static inline gboolean
hw_sequence_is_ironing (const HwStep *step)
{
  return step->kind == HW_STEP_HAND && (step->hand == HW_HAND_PRESS || step->hand == HW_HAND_FUSE);
}

/* wish-arrows.c: turns the project's wishes into arrows and units. */
void    hw_sequence_add_wishes  (HwSequence *self);

/* hand-steps.c: all steps not done, with the hand steps put in among the operations in @order. (transfer full)
 * (element-type gsize) */
GArray *hw_sequence_merge       (const HwSequence *self, const int *order);

/* one-dial.c: set-ups in @order keep one dial where their bands allow. */
void    hw_sequence_settle_dials (HwSequence *self, const int *order);

G_END_DECLS
