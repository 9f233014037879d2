/* card-checks.h - what holds for every card, whatever it says
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "card/card.h"

/* The first card of a set-up. (transfer full) */
HwCard  *card_first        (const HwPlan *plan, int group, HwPaper paper, PangoContext *context_or_null);

gboolean card_box_has_role (const HwBox *box, const char *role);
guint    card_count_boxes  (const HwCard *card, const char *role);
gboolean card_check_is_set (const HwBox *box);                           /* something a learner must set */
void     card_check_sizes  (const HwCard *card, gboolean is_small);      /* nothing too small,
nothing pale that must be set */
void     card_check_room   (const HwCard *card, const char *what);       /* inside the card, nothing on anything else */
void     card_check_uncut  (const HwCard *card, const char *what);       /* titles and captions alone end in "…" */
/* Unless it has no list yet, a card pictures the seams of its steps, and no others: those that a card before has too
 * where there is room. A set-up with a single card may have no room for all. */
void     card_check_seams  (const HwPlan *plan, HwCard * const *cards, guint n, const char *what);
/* Whoever sets the machine by the first card, and then by what the lists say, sews each operation at its own length and
 * dial; a later card begins with what the first says, and its dial stands as its first step wants it. Taken up again
 * after another set-up, the machine is set anew as at the beginning of the card. */
void     card_check_changes (const HwPlan *plan, int group, HwCard * const *cards, guint n, const char *what);
/* The @n cards of a set-up: its operations and hand steps in the order of work, each once, operations with their
 * lengths; checks, test seam and (@is_small: no) seams pictured on the first; the dial on each; each numbered; a
 * caution on all. */
void     card_check_list   (const HwPlan *plan, int group, HwCard * const *cards, guint n, gboolean is_small,
                            const char *what);
