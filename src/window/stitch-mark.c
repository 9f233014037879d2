/* stitch-mark.c - a running stitch: marks the current page or row, shows how far a step has got
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/stitch-mark.h"

#include "window/theme.h"

#define STITCH 7.0
#define GAP 5.0
#define THREAD 2.6

struct _HwStitchMark
{
  GtkWidget      parent_instance;
  GtkOrientation orientation;
  double         fraction;
};

enum { PROP_0, PROP_ORIENTATION };

G_DEFINE_FINAL_TYPE_WITH_CODE (HwStitchMark, hw_stitch_mark, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (GTK_TYPE_ORIENTABLE, NULL))

static void
draw_stitches (cairo_t  *cr,
               double    from,
               double    to,
               double    across,
               gboolean  upright)
{
  for (double at = from; at < to - THREAD; at += STITCH + GAP)
    {
      double end = MIN (at + STITCH, to - THREAD / 2);

      cairo_move_to (cr, upright ? across : at + THREAD / 2, upright ? at + THREAD / 2 : across);
      cairo_line_to (cr, upright ? across : end, upright ? end : across);
    }
}

static void
hw_stitch_mark_snapshot (GtkWidget   *widget,
                         GtkSnapshot *snapshot)
{
  HwStitchMark *self = HW_STITCH_MARK (widget);
  int           width = gtk_widget_get_width (widget);
  int           height = gtk_widget_get_height (widget);
  gboolean      upright = self->orientation == GTK_ORIENTATION_VERTICAL;
  double        length = upright ? height : width;
  double        across = (upright ? width : height) / 2.0;
  double        sewn = CLAMP (self->fraction, 0, 1) * length;
  GdkRGBA       ink = hw_theme_colour (widget, "hw_ink");
  GdkRGBA       line = hw_theme_colour (widget, "hw_line");
  cairo_t      *cr;

  if (width <= 0 || height <= 0)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  if (!upright && gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL)
    {
      cairo_translate (cr, width, 0);
      cairo_scale (cr, -1, 1);
    }
  cairo_set_line_width (cr, THREAD);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  gdk_cairo_set_source_rgba (cr, &line);
  draw_stitches (cr, ceil (sewn / (STITCH + GAP)) * (STITCH + GAP), length, across, upright);
  cairo_stroke (cr);
  gdk_cairo_set_source_rgba (cr, &ink);
  draw_stitches (cr, 0, sewn, across, upright);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

static void
hw_stitch_mark_measure (GtkWidget      *widget,
                        GtkOrientation  orientation,
                        int             for_size,
                        int            *minimum,
                        int            *natural,
                        int            *minimum_baseline,
                        int            *natural_baseline)
{
  HwStitchMark *self = HW_STITCH_MARK (widget);

  *minimum = *natural = orientation == self->orientation ? (int) STITCH : (int) THREAD + 2;
}

static void
hw_stitch_mark_set_property (GObject      *object,
                             guint         id,
                             const GValue *value,
                             GParamSpec   *pspec)
{
  HwStitchMark *self = HW_STITCH_MARK (object);

  if (id == PROP_ORIENTATION)
    {
      self->orientation = (GtkOrientation) g_value_get_enum (value);
      gtk_widget_queue_resize (GTK_WIDGET (self));
    }
  else
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
hw_stitch_mark_get_property (GObject    *object,
                             guint       id,
                             GValue     *value,
                             GParamSpec *pspec)
{
  if (id == PROP_ORIENTATION)
    g_value_set_enum (value, (int) HW_STITCH_MARK (object)->orientation);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
hw_stitch_mark_class_init (HwStitchMarkClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->set_property = hw_stitch_mark_set_property;
  G_OBJECT_CLASS (class)->get_property = hw_stitch_mark_get_property;
  widget_class->snapshot = hw_stitch_mark_snapshot;
  widget_class->measure = hw_stitch_mark_measure;
  g_object_class_override_property (G_OBJECT_CLASS (class), PROP_ORIENTATION, "orientation");
  gtk_widget_class_set_css_name (widget_class, "stitchmark");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
hw_stitch_mark_init (HwStitchMark *self)
{
  self->fraction = 1;
  gtk_widget_add_css_class (GTK_WIDGET (self), "stitch-mark");
  gtk_widget_set_can_target (GTK_WIDGET (self), FALSE);
}

GtkWidget *
hw_stitch_mark_new (GtkOrientation orientation)
{
  return g_object_new (HW_TYPE_STITCH_MARK, "orientation", orientation, NULL);
}

void
hw_stitch_mark_set_fraction (HwStitchMark *self,
                             double        fraction)
{
  g_return_if_fail (HW_IS_STITCH_MARK (self));

  if (G_APPROX_VALUE (self->fraction, fraction, 0.001))
    return;
  self->fraction = fraction;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
