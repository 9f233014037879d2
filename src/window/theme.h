/* theme.h - the look: style sheet, the palette in use, and its inks for drawing
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "card/drawing.h"

G_BEGIN_DECLS

typedef enum { HW_PALETTE_LIGHT, HW_PALETTE_DARK, HW_PALETTE_CONTRAST, HW_PALETTE_CONTRAST_DARK,
              HW_N_PALETTES } HwPalette;

/* Dresses all windows of @display: the palette follows the desktop (its settings portal, else GTK's own settings)
 * unless HANDWHEEL_THEME names one: light, dark, contrast, contrast-dark. Once a display. HANDWHEEL_DIRECTION=rtl
 * mirrors the windows whatever the language says. */
void      hw_theme_attach      (GdkDisplay *display);
void      hw_theme_set_palette (GdkDisplay *display, HwPalette palette);
HwPalette hw_theme_get_palette (GdkDisplay *display);

/* The palette's colours as @widget sees them, for cairo. */
HwInks    hw_theme_inks        (GtkWidget *widget);
GdkRGBA   hw_theme_colour      (GtkWidget *widget, const char *name);   /* "hw_ink", … */
/* The size of @widget's text in pixels: drawings are sized by it, so that they grow with large text. */
double    hw_theme_em          (GtkWidget *widget);

G_END_DECLS
