/* cloth-cards.h - the fabrics and threads of a project as cards to press
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pressing one asks for its form by the actions "making-up.edit-fabric" and "making-up.edit-thread" with its id.
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"
#include "window/wrap.h"

G_BEGIN_DECLS

void  hw_fabric_cards_fill  (HwWrap *wrap, HwWorkspace *workspace);
void  hw_thread_cards_fill  (HwWrap *wrap, HwWorkspace *workspace);
/* "240 g/m², 0.45 mm, stretch 35 %". (transfer full) */
char *hw_cloth_words        (const HwCloth *cloth);

G_END_DECLS
