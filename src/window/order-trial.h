/* order-trial.h - what a wish would cost, asked while a step is dragged
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "window/workspace.h"

G_BEGIN_DECLS

typedef struct _HwOrderTrial HwOrderTrial;

/* @text: "2.5 min more changing", or the whole sentence of what forbids the wish. Called on the main context, and
 * only for what was asked last. */
typedef void (* HwOrderTrialAnswer) (const char *text, gboolean possible, gpointer data);

HwOrderTrial *hw_order_trial_new    (HwWorkspace *workspace, HwOrderTrialAnswer answer, gpointer data);
/* That @first be sewn before @second. What forbids it is answered at once, its minutes when they are known. Asking the
 * same again asks nothing. */
void          hw_order_trial_ask    (HwOrderTrial *self, const char *first, const char *second);
void          hw_order_trial_forget (HwOrderTrial *self);      /* no answer any more to what was asked */
void          hw_order_trial_free   (HwOrderTrial *self);

G_END_DECLS
