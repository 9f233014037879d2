/* drawing-fault.h - how a faulty stitch looks: from above, cut along the row, from underneath
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Drawn from the handbook's <looks>: one letter for each hole of the needle, the same hole in the same place in all
 * three. The needle thread is a solid line, the bobbin or looper thread an open one.
 *
 * Top and underneath, from that hole to the next:
 *   - a stitch   = runs on past the next hole   . none, only the hole   _ nothing   o slack loop of the other thread
 *   : the other thread shows at the hole   > ends in a loose tail   < begins with one   % furred   @ a tangle
 *   x a cut in the cloth   w crowded stitches   * a spot   ! a torn hole   | a rung across the open seam
 *   c a link of chain   ~ thread run out of its chain   e loop at the cut edge   E loop hanging off it
 * Section, at that hole:
 *   - locked in the middle   v underneath   ^ on top   . not caught   _ nothing   n needle thread ends here
 *   b bobbin thread ends here   , bobbin thread alone   ; needle thread alone   % @ x w * as above
 *   / broken needle   ( needle that sounds   F foot that tips   E loops hanging off the edge
 */

#pragma once
#include "card/drawing.h"

G_BEGIN_DECLS

typedef enum { HW_FAULT_TOP, HW_FAULT_SECTION, HW_FAULT_UNDERNEATH, HW_N_FAULT_VIEWS } HwFaultView;

void hw_draw_fault_view (cairo_t *cr, const HwLooks *looks, HwFaultView view, double x, double y, double width,
                         double height, const HwInks *inks);
/* All three, one above the other. */
void hw_draw_fault      (cairo_t *cr, const HwLooks *looks, double x, double y, double width, double height,
                         const HwInks *inks);

G_END_DECLS
