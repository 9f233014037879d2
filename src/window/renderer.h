/* renderer.h - what draws the window
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once

/* The window is drawn by cairo, as its cards are, and no GL driver is begun, unless the person's environment names
 * another renderer (GSK_RENDERER). Before GTK begins and before there is a second thread. */
void hw_renderer_choose (void);
