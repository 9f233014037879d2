/* paint.c - a widget that shows one of the drawings in the theme's inks
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/paint.h"

typedef struct
{
  HwPaintFunc    func;
  gpointer       data;
  GDestroyNotify destroy;
} Paint;

static void
free_paint (gpointer data)
{
  Paint *paint = data;

  if (paint->destroy != NULL)
    paint->destroy (paint->data);
  g_free (paint);
}

static HwInk
ink_from_rgba (const GdkRGBA *rgba)
{
  return (HwInk) { (double) rgba->red, (double) rgba->green, (double) rgba->blue };
}

/* A named colour of the style sheet, or @fallback where the sheet has none. */
static HwInk
find_ink (GtkStyleContext *context,
          const char      *name,
          HwInk            fallback)
{
  GdkRGBA rgba;

  return gtk_style_context_lookup_color (context, name, &rgba) ? ink_from_rgba (&rgba) : fallback;
}

HwInks
hw_widget_inks (GtkWidget *widget)
{
  GtkStyleContext *context = gtk_widget_get_style_context (widget);
  HwInks  inks = hw_inks_print;
  GdkRGBA color;

  gtk_style_context_get_color (context, &color);
  inks.ink = find_ink (context, "hw_ink", ink_from_rgba (&color));
  inks.mute = find_ink (context, "hw_mute", inks.mute);
  inks.paper = find_ink (context, "hw_paper_deep", inks.paper);
  inks.line = find_ink (context, "hw_line", inks.line);
  inks.stitch = find_ink (context, "hw_plum", inks.stitch);
  return inks;
}

static void
draw_cb (GtkDrawingArea *area,
         cairo_t        *cr,
         int             width,
         int             height,
         gpointer        data)
{
  Paint *paint = data;
  HwInks inks = hw_widget_inks (GTK_WIDGET (area));

  paint->func (cr, width, height, &inks, paint->data);
}

GtkWidget *
hw_paint_new (int            width,
              int            height,
              HwPaintFunc    func,
              gpointer       data,
              GDestroyNotify destroy)
{
  GtkWidget *area = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_PRESENTATION, NULL);
  Paint     *paint = g_new (Paint, 1);

  *paint = (Paint) { func, data, destroy };
  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (area), width);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (area), height);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw_cb, paint, free_paint);
  gtk_widget_set_valign (area, GTK_ALIGN_CENTER);
  return area;
}
