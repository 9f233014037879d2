/* words-private.h - what the parts of the wording share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "words/words.h"

G_BEGIN_DECLS

/* A sentence-case name as it stands inside a sentence: "Round point" -> "round point". */
char       *hw_words_inside   (const char *name);
/* A needle's size, with the spacing of the set-up's twin. */
char       *hw_words_setup_size (const HwSetup *setup, double nm);
/* What the handbook says that something is spun from, in the person's language. */
const char *hw_words_fibre    (const char *fibre);
/* The name of the cloth inside a sentence; "the cloth" when none is named. */
char       *hw_words_cloth    (const HwCloth *cloth);

G_END_DECLS
