/* cards-choice.h - which cards, on which paper, for whose machine
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "card/card.h"
#include "window/workspace.h"
#include "window/wrap.h"

G_BEGIN_DECLS

typedef struct _HwCardsChoice HwCardsChoice;

/* Puts its controls into @bar, which keeps it; @changed is called when another choice is made. */
HwCardsChoice *hw_cards_choice_new   (HwWorkspace *workspace, HwWrap *bar, GCallback changed, gpointer data);
/* The sheets of the present plan; NULL: there is none, or, with @error, its handout cannot be made. */
HwSheets      *hw_cards_choice_make  (HwCardsChoice *self, GError **error);
/* Whether another selected step gives other cards. */
gboolean       hw_cards_choice_follows_selection (HwCardsChoice *self);

G_END_DECLS
