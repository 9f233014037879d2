/* card-table.h - setup cards as rows, for other programs
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "command/table.h"
#include "plan/plan.h"

G_BEGIN_DECLS

/* A row for each step of a card, cards in the order in which they are pinned up. @groups: which (of int), none: all.
 * (transfer full) */
char *hw_command_format_cards (const HwPlan *plan, const GArray *groups, HwFormat format);

G_END_DECLS
