/* sign.c - the small signs on buttons: plus, up, down, sidebar
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/sign.h"

#include <math.h>

#include "window/theme.h"

#define GRID 16                          /* what the shapes are drawn on */
#define SIZE_EM 1.2                      /* as other marks on buttons */

struct _HwSign
{
  GtkWidget parent_instance;
  char     *shape;
};

enum { PROP_0, PROP_SHAPE };

G_DEFINE_FINAL_TYPE (HwSign, hw_sign, GTK_TYPE_WIDGET)

typedef struct { double x, y; } Point;

static void
add_outline (cairo_t     *cr,
             const Point *points,
             gsize        n)
{
  for (gsize i = 0; i < n; i++)
    cairo_line_to (cr, points[i].x, points[i].y);
  cairo_close_path (cr);
}

static void
add_plus (cairo_t *cr)
{
  cairo_rectangle (cr, 7, 3, 2, 10);
  cairo_rectangle (cr, 3, 7, 4, 2);
  cairo_rectangle (cr, 9, 7, 4, 2);
}

static void
add_arrow (cairo_t *cr)
{
  static const Point up[] = {
    { 8, 3 }, { 12.7, 7.7 }, { 11.3, 9.1 }, { 9, 6.8 }, { 9, 13 }, { 7, 13 }, { 7, 6.8 }, { 4.7, 9.1 }, { 3.3, 7.7 }
  };

  add_outline (cr, up, G_N_ELEMENTS (up));
}

/* A window of two panes. */
static void
add_sidebar (cairo_t *cr)
{
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_rectangle (cr, 1, 2, 14, 12);
  cairo_rectangle (cr, 3, 4, 2, 8);
  cairo_rectangle (cr, 7, 4, 6, 8);
}

static void
add_shape (cairo_t    *cr,
           const char *shape)
{
  if (g_strcmp0 (shape, "sidebar") == 0)
    {
      add_sidebar (cr);
      return;
    }
  if (g_strcmp0 (shape, "plus") == 0)
    {
      add_plus (cr);
      return;
    }
  if (g_strcmp0 (shape, "down") == 0)
    {
      cairo_translate (cr, 0, GRID);
      cairo_scale (cr, 1, -1);
    }
  add_arrow (cr);
}

static void
hw_sign_snapshot (GtkWidget   *widget,
                  GtkSnapshot *snapshot)
{
  int      width = gtk_widget_get_width (widget);
  int      height = gtk_widget_get_height (widget);
  double   size = MIN (width, height);
  GdkRGBA  colour;
  cairo_t *cr;

  if (size <= 0)
    return;
  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &colour);
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  cairo_translate (cr, (width - size) / 2, (height - size) / 2);
  cairo_scale (cr, size / GRID, size / GRID);
  gdk_cairo_set_source_rgba (cr, &colour);
  add_shape (cr, HW_SIGN (widget)->shape);
  cairo_fill (cr);
  cairo_destroy (cr);
}

static void
hw_sign_measure (GtkWidget      *widget,
                 GtkOrientation  orientation,
                 int             for_size,
                 int            *minimum,
                 int            *natural,
                 int            *minimum_baseline,
                 int            *natural_baseline)
{
  *minimum = *natural = (int) lround (SIZE_EM * hw_theme_em (widget));
}

static void
hw_sign_set_property (GObject      *object,
                      guint         id,
                      const GValue *value,
                      GParamSpec   *pspec)
{
  HwSign *self = HW_SIGN (object);

  if (id != PROP_SHAPE)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
      return;
    }
  g_free (self->shape);
  self->shape = g_value_dup_string (value);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
hw_sign_finalize (GObject *object)
{
  g_free (HW_SIGN (object)->shape);
  G_OBJECT_CLASS (hw_sign_parent_class)->finalize (object);
}

static void
hw_sign_class_init (HwSignClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->set_property = hw_sign_set_property;
  G_OBJECT_CLASS (class)->finalize = hw_sign_finalize;
  widget_class->snapshot = hw_sign_snapshot;
  widget_class->measure = hw_sign_measure;
  g_object_class_install_property (G_OBJECT_CLASS (class), PROP_SHAPE,
                                   g_param_spec_string ("shape", NULL, NULL, NULL,
                                                        G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS));
  gtk_widget_class_set_css_name (widget_class, "image");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
hw_sign_init (HwSign *self)
{
  gtk_widget_set_halign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
  gtk_widget_set_can_target (GTK_WIDGET (self), FALSE);
}

GtkWidget *
hw_sign_new (const char *shape)
{
  return g_object_new (HW_TYPE_SIGN, "shape", shape, NULL);
}
