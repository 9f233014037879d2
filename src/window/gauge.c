/* gauge.c - a clock of care as a row of stitches that grows toward its limit
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/gauge.h"

#include "window/controls.h"
#include "window/theme.h"

#define STITCH 7.0
#define GAP 5.0
#define THREAD 3.0
#define WIDTH_EM 7.0
#define HEIGHT 12

struct _HwGauge
{
  GtkRange parent_instance;
};

G_DEFINE_FINAL_TYPE (HwGauge, hw_gauge, GTK_TYPE_RANGE)

static void
sew (cairo_t *cr,
     double   to,
     double   y)
{
  for (double at = 0; at < to - THREAD; at += STITCH + GAP)
    {
      cairo_move_to (cr, at + THREAD / 2, y);
      cairo_line_to (cr, MIN (at + STITCH, to - THREAD / 2), y);
    }
  cairo_stroke (cr);
}

static void
draw_limit (cairo_t *cr,
            double   width,
            double   height)
{
  cairo_set_line_width (cr, 1.6);
  cairo_move_to (cr, width - 1, 1);
  cairo_line_to (cr, width - 1, height - 1);
  cairo_stroke (cr);
}

static void
hw_gauge_snapshot (GtkWidget   *widget,
                   GtkSnapshot *snapshot)
{
  GtkAdjustment *adjustment = gtk_range_get_adjustment (GTK_RANGE (widget));
  double         limit = gtk_adjustment_get_upper (adjustment);
  double         share = limit > 0 ? CLAMP (gtk_adjustment_get_value (adjustment) / limit, 0, 1) : 0;
  int            width = gtk_widget_get_width (widget);
  int            height = gtk_widget_get_height (widget);
  GdkRGBA        ink = hw_theme_colour (widget, share >= 1 ? "hw_brass" : "hw_ink");
  GdkRGBA        line = hw_theme_colour (widget, "hw_line");
  double         sewn = share * (width - 4);
  cairo_t       *cr;

  if (width <= 0 || height <= 0)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  if (gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL)
    {
      cairo_translate (cr, width, 0);
      cairo_scale (cr, -1, 1);
    }
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_width (cr, THREAD);
  gdk_cairo_set_source_rgba (cr, &line);
  sew (cr, width - 4, height / 2.0);
  gdk_cairo_set_source_rgba (cr, &ink);
  sew (cr, sewn, height / 2.0);
  draw_limit (cr, width, height);
  cairo_destroy (cr);
}

static void
hw_gauge_measure (GtkWidget      *widget,
                  GtkOrientation  orientation,
                  int             for_size,
                  int            *minimum,
                  int            *natural,
                  int            *minimum_baseline,
                  int            *natural_baseline)
{
  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? (int) (WIDTH_EM * hw_theme_em (widget)) : HEIGHT;
}

/* The parts of a range that a hand could take hold of are not shown. */
static void
hw_gauge_size_allocate (GtkWidget *widget,
                        int        width,
                        int        height,
                        int        baseline)
{
}

static void
hw_gauge_class_init (HwGaugeClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  widget_class->snapshot = hw_gauge_snapshot;
  widget_class->measure = hw_gauge_measure;
  widget_class->size_allocate = hw_gauge_size_allocate;
  gtk_widget_class_set_css_name (widget_class, "gauge");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_METER);
}

static void
hw_gauge_init (HwGauge *self)
{
}

GtkWidget *
hw_gauge_new (const char *name,
              const char *words,
              double      value,
              double      limit)
{
  GtkWidget *self = g_object_new (HW_TYPE_GAUGE, NULL);

  hw_control_only_show (GTK_RANGE (self));
  gtk_range_set_adjustment (GTK_RANGE (self), gtk_adjustment_new (MIN (value, limit), 0, limit, 1, 1, 0));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, words, -1);
  return self;
}

void
hw_gauge_show (HwGauge    *self,
               const char *words,
               double      value,
               double      limit)
{
  g_return_if_fail (HW_IS_GAUGE (self));

  gtk_adjustment_configure (gtk_range_get_adjustment (GTK_RANGE (self)), MIN (value, limit), 0, limit, 1, 1, 0);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, words, -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
