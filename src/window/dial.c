/* dial.c - a machine's tension dial as it looks
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/dial.h"

#include <glib/gi18n.h>
#include <math.h>

#include "window/controls.h"
#include "window/theme.h"

struct _HwDial
{
  GtkRange    parent_instance;
  double      width_em, height_em;
  HwDialForm  form;              /* copied: the machine belongs to a room that the next entry replaces */
  HwDialScale scale;
  double      start, likely_low, likely_high;
};

G_DEFINE_FINAL_TYPE (HwDial, hw_dial, GTK_TYPE_RANGE)

static void
hw_dial_snapshot (GtkWidget   *widget,
                  GtkSnapshot *snapshot)
{
  HwDial *self = HW_DIAL (widget);
  int     width = gtk_widget_get_width (widget);
  int     height = gtk_widget_get_height (widget);
  HwInks  inks = hw_theme_inks (widget);
  const HwMachine machine = { .dial_form = self->form, .dial = self->scale };
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (widget, NULL);
  cairo_t *cr;

  if (width <= 0 || height <= 0 || !(self->scale.high > self->scale.low))
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  hw_draw_dial (cr, layout, &machine, self->start, self->likely_low, self->likely_high, 0, 0, width, height, &inks);
  cairo_destroy (cr);
}

static void
hw_dial_measure (GtkWidget      *widget,
                 GtkOrientation  orientation,
                 int             for_size,
                 int            *minimum,
                 int            *natural,
                 int            *minimum_baseline,
                 int            *natural_baseline)
{
  HwDial *self = HW_DIAL (widget);

  *minimum = *natural = (int) ceil (hw_theme_em (widget) * (orientation == GTK_ORIENTATION_HORIZONTAL
                                                            ? self->width_em : self->height_em));
}

/* The parts of a range that a hand could take hold of are not shown. */
static void
hw_dial_size_allocate (GtkWidget *widget,
                       int        width,
                       int        height,
                       int        baseline)
{
}

static void
hw_dial_css_changed (GtkWidget         *widget,
                     GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (hw_dial_parent_class)->css_changed (widget, change);
  gtk_widget_queue_resize (widget);     /* the text's size may be another one, or the inks */
}

static void
hw_dial_class_init (HwDialClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  widget_class->snapshot = hw_dial_snapshot;
  widget_class->measure = hw_dial_measure;
  widget_class->size_allocate = hw_dial_size_allocate;
  widget_class->css_changed = hw_dial_css_changed;
  gtk_widget_class_set_css_name (widget_class, "dial");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_METER);
}

static void
hw_dial_init (HwDial *self)
{
}

GtkWidget *
hw_dial_new (double width_em,
             double height_em)
{
  HwDial *self = g_object_new (HW_TYPE_DIAL, NULL);

  hw_control_only_show (GTK_RANGE (self));
  self->width_em = width_em;
  self->height_em = height_em;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Dial"), -1);
  return GTK_WIDGET (self);
}

void
hw_dial_show (HwDial          *self,
              const HwMachine *machine,
              double           start,
              double           low,
              double           high,
              const char      *words)
{
  g_return_if_fail (HW_IS_DIAL (self) && machine != NULL && words != NULL);

  self->form = machine->dial_form;
  self->scale = machine->dial;
  self->start = start;
  self->likely_low = low;
  self->likely_high = high;
  gtk_adjustment_configure (gtk_range_get_adjustment (GTK_RANGE (self)), CLAMP (start, machine->dial.low,
                            machine->dial.high), machine->dial.low, machine->dial.high, 0.5, 1, 0);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
