/* words-rules.h - the sentence of a handbook's rule with its figures filled in
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "words/words-private.h"

G_BEGIN_DECLS

char *hw_words_rule (const HwPlan *plan, const HwSetup *setup, const HwReason *reason);

G_END_DECLS
