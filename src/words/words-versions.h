/* words-versions.h - earlier versions of a project in words
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * As words.h: new strings (transfer full) in the person's language, plain text.
 */

#pragma once
#include "model/versions.h"

G_BEGIN_DECLS

/* "2 steps added, 1 step changed, threads"; "nothing differs" */
char *hw_words_difference    (const HwDifference *difference);
/* Which steps, a line for each kind: "Added: 7 Hem the sleeves, 8 Press"; "" when no step differs. */
char *hw_words_which_steps   (const HwDifference *difference);

G_END_DECLS
