/* dial.h - a machine's tension dial as it looks, with the number to start at and where it is likely to end
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A range, so that the number and the dial's ends reach those who cannot see it; nothing moves it by hand.
 * Right-to-left leaves it as it is: so does the machine.
 */

#pragma once
#include <gtk/gtk.h>
#include "card/drawing.h"

G_BEGIN_DECLS

#define HW_TYPE_DIAL (hw_dial_get_type ())
G_DECLARE_FINAL_TYPE (HwDial, hw_dial, HW, DIAL, GtkRange)

GtkWidget *hw_dial_new  (double width_em, double height_em);
/* @words: what it says, as a reader hears it. */
void       hw_dial_show (HwDial *self, const HwMachine *machine, double start, double low, double high,
                         const char *words);

G_END_DECLS
