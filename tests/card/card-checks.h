/* card-checks.h - what holds for every card, whatever it says
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "card/card.h"

gboolean card_check_is_set (const HwBox *box);                           /* something a learner must set */
void     card_check_sizes  (const HwCard *card, gboolean is_small);      /* nothing too small,
nothing pale that must be set */
void     card_check_room   (const HwCard *card, const char *what);       /* inside the card, nothing on anything else */
void     card_check_uncut  (const HwCard *card, const char *what);       /* nothing to set or to mind ends in "…" */
