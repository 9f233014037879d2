/* paint.h - a widget that shows one of the drawings in the theme's inks
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "card/drawing.h"

G_BEGIN_DECLS

typedef void (*HwPaintFunc) (cairo_t *cr, double width, double height, const HwInks *inks, gpointer data);

/* A picture without a meaning of its own to assistive technology: the text beside it says the same. */
GtkWidget *hw_paint_new   (int width, int height, HwPaintFunc func, gpointer data, GDestroyNotify destroy);

/* The inks that the style sheet gives @widget. */
HwInks     hw_widget_inks (GtkWidget *widget);

G_END_DECLS
