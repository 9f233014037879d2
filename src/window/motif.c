/* motif.c - a widget that shows one of the drawings: seam, row, cloth, needle, mark
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/motif.h"

#include "window/theme.h"

typedef enum
{
  NOTHING, SEAM, ROW, ALONG, EDGE, CLOTH, NEEDLE, CROSS_STITCH, LETTER, SPOOL, ARROW, CARE, HATCHING, FAULT
} Kind;

struct _HwMotif
{
  GtkWidget     parent_instance;
  double        width_em, height_em;
  Kind          kind;
  const HwSeam  *seam;
  const HwLooks *looks;
  char         *text;                   /* mark, construction or letter */
  int           number;                 /* plies, family, solid, sewn */
  double        balance;
};

G_DEFINE_FINAL_TYPE (HwMotif, hw_motif, GTK_TYPE_WIDGET)

static void
draw_spool (cairo_t      *cr,
            double        width,
            double        height,
            const HwInks *inks)
{
  double size = MIN (width, height);
  double left = (width - size * 0.62) / 2;
  double right = left + size * 0.62;
  double top = (height - size) / 2 + size * 0.1;
  double foot = top + size * 0.8;

  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_source_rgb (cr, inks->ink.r, inks->ink.g, inks->ink.b);
  cairo_set_line_width (cr, MAX (1.4, size / 18));
  cairo_move_to (cr, left, top);
  cairo_line_to (cr, right, top);
  cairo_move_to (cr, left, foot);
  cairo_line_to (cr, right, foot);
  cairo_stroke (cr);
  cairo_set_line_width (cr, MAX (1, size / 30));
  for (int i = 0; i < 7; i++)
    {
      double y = top + (foot - top) * (i + 1) / 8;

      cairo_move_to (cr, left + size * 0.06, y + size * 0.025);
      cairo_line_to (cr, right - size * 0.06, y - size * 0.025);
    }
  cairo_stroke (cr);
}

static void
draw_arrow (cairo_t      *cr,
            double        width,
            double        height,
            const HwInks *inks)
{
  static const double dash[] = { 6, 5 };
  double y = height / 2;
  double head = MIN (height / 3, 6);

  cairo_set_source_rgb (cr, inks->ink.r, inks->ink.g, inks->ink.b);
  cairo_set_line_width (cr, 1.8);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_dash (cr, dash, G_N_ELEMENTS (dash), 0);
  cairo_move_to (cr, 2, y);
  cairo_line_to (cr, width - 3, y);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_move_to (cr, width - 2 - head, y - head);
  cairo_line_to (cr, width - 2, y);
  cairo_line_to (cr, width - 2 - head, y + head);
  cairo_stroke (cr);
}

static void
draw_letter (HwMotif      *self,
             cairo_t      *cr,
             double        size,
             const HwInks *inks)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), NULL);

  hw_draw_letter (cr, layout, self->text, 0, 0, size, inks);
}

/* A weave is a pattern of two tones, and hairlines are too near the paper to tell them. */
static HwInks
choose_cloth_inks (const HwInks *inks)
{
  const double share = 0.3;
  HwInks       own = *inks;

  own.line.r += (inks->mute.r - inks->line.r) * share;
  own.line.g += (inks->mute.g - inks->line.g) * share;
  own.line.b += (inks->mute.b - inks->line.b) * share;
  return own;
}

static void
draw (HwMotif      *self,
      cairo_t      *cr,
      double        width,
      double        height,
      const HwInks *inks)
{
  double size = MIN (width, height);
  HwInks own;

  switch (self->kind)
    {
    case NOTHING:
      break;
    case SEAM:
      hw_draw_seam_across (cr, self->seam, (guint) self->number, 0, 0, width, height, inks);
      break;
    case ROW:
      hw_draw_stitch_row (cr, self->text, 0, 0, width, height, inks);
      break;
    case ALONG:
      hw_draw_seam_along (cr, self->number, self->balance, 0, 0, width, height, inks);
      break;
    case EDGE:
      hw_draw_edge_balance (cr, self->number, self->balance, 0, 0, width, height, inks);
      break;
    case CLOTH:
      own = choose_cloth_inks (inks);
      hw_draw_cloth (cr, (HwFamily) self->number, self->text, (width - size) / 2, (height - size) / 2, size, &own);
      break;
    case NEEDLE:
      hw_draw_needle (cr, self->number != 0, 0, 0, width, height, inks);
      break;
    case CROSS_STITCH:
      hw_draw_cross_stitch (cr, self->number != 0, 0, 0, size, inks);
      break;
    case LETTER:
      draw_letter (self, cr, size, inks);
      break;
    case SPOOL:
      draw_spool (cr, width, height, inks);
      break;
    case ARROW:
      draw_arrow (cr, width, height, inks);
      break;
    case CARE:
      hw_draw_care (cr, self->text, 0, 0, width, height, inks);
      break;
    case HATCHING:
      hw_draw_hatching (cr, (gsize) self->number, 0, 0, width, height, inks);
      break;
    case FAULT:
      if (self->number < 0)
        hw_draw_fault (cr, self->looks, 0, 0, width, height, inks);
      else
        hw_draw_fault_view (cr, self->looks, (HwFaultView) self->number, 0, 0, width, height, inks);
      break;
    default:
      g_assert_not_reached ();
    }
}

/* Only what points somewhere is turned round for right-to-left; a seam lies as the machine sews it. */
static void
hw_motif_snapshot (GtkWidget   *widget,
                   GtkSnapshot *snapshot)
{
  HwMotif *self = HW_MOTIF (widget);
  int      width = gtk_widget_get_width (widget);
  int      height = gtk_widget_get_height (widget);
  HwInks   inks = hw_theme_inks (widget);
  cairo_t *cr;

  if (self->kind == NOTHING || width <= 0 || height <= 0)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  if (self->kind == ARROW && gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL)
    {
      cairo_translate (cr, width, 0);
      cairo_scale (cr, -1, 1);
    }
  draw (self, cr, width, height, &inks);
  cairo_destroy (cr);
}

static void
hw_motif_measure (GtkWidget      *widget,
                  GtkOrientation  orientation,
                  int             for_size,
                  int            *minimum,
                  int            *natural,
                  int            *minimum_baseline,
                  int            *natural_baseline)
{
  HwMotif *self = HW_MOTIF (widget);
  double   em = hw_theme_em (widget);

  *minimum = *natural = (int) ceil (em * (orientation == GTK_ORIENTATION_HORIZONTAL ? self->width_em
                                          : self->height_em));
}

static void
hw_motif_css_changed (GtkWidget         *widget,
                      GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (hw_motif_parent_class)->css_changed (widget, change);
  gtk_widget_queue_resize (widget);     /* the text's size may be another one, or the inks */
}

static void
hw_motif_finalize (GObject *object)
{
  g_free (HW_MOTIF (object)->text);
  G_OBJECT_CLASS (hw_motif_parent_class)->finalize (object);
}

static void
hw_motif_class_init (HwMotifClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = hw_motif_finalize;
  widget_class->snapshot = hw_motif_snapshot;
  widget_class->measure = hw_motif_measure;
  widget_class->css_changed = hw_motif_css_changed;
  gtk_widget_class_set_css_name (widget_class, "motif");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
hw_motif_init (HwMotif *self)
{
  self->width_em = self->height_em = 1;
  gtk_widget_set_can_target (GTK_WIDGET (self), FALSE);
}

GtkWidget *
hw_motif_new (double width_em,
              double height_em)
{
  HwMotif *self = g_object_new (HW_TYPE_MOTIF, NULL);

  self->width_em = width_em;
  self->height_em = height_em;
  return GTK_WIDGET (self);
}

void
hw_motif_set_name (HwMotif    *self,
                   const char *name)
{
  g_return_if_fail (HW_IS_MOTIF (self));

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
show (HwMotif    *self,
      Kind        kind,
      const char *text,
      int         number,
      double      balance)
{
  g_return_if_fail (HW_IS_MOTIF (self));

  if (kind == self->kind && number == self->number && G_APPROX_VALUE (balance, self->balance, 1e-9)
      && g_strcmp0 (self->text, text) == 0)
    return;
  self->kind = kind;
  self->number = number;
  self->balance = balance;
  g_free (self->text);
  self->text = g_strdup (text);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hw_motif_show_nothing (HwMotif *self)
{
  show (self, NOTHING, NULL, 0, 0);
}

void
hw_motif_show_seam (HwMotif      *self,
                    const HwSeam *seam,
                    guint         layers)
{
  g_return_if_fail (seam != NULL);

  if (seam != self->seam)
    gtk_widget_queue_draw (GTK_WIDGET (self));
  self->seam = seam;
  show (self, SEAM, NULL, (int) layers, 0);
}

void
hw_motif_show_row (HwMotif    *self,
                   const char *mark)
{
  show (self, ROW, mark, 0, 0);
}

void
hw_motif_show_along (HwMotif *self,
                     int      plies,
                     double   balance)
{
  show (self, ALONG, NULL, plies, balance);
}

void
hw_motif_show_edge (HwMotif *self,
                    int      plies,
                    double   balance)
{
  show (self, EDGE, NULL, plies, balance);
}

void
hw_motif_show_fault (HwMotif       *self,
                     const HwLooks *looks,
                     int            view)
{
  g_return_if_fail (looks != NULL);

  if (looks != self->looks)
    gtk_widget_queue_draw (GTK_WIDGET (self));
  self->looks = looks;
  show (self, FAULT, NULL, view, 0);
}

void
hw_motif_show_cloth (HwMotif    *self,
                     HwFamily    family,
                     const char *construction)
{
  show (self, CLOTH, construction, (int) family, 0);
}

void
hw_motif_show_needle (HwMotif *self,
                      gboolean solid)
{
  show (self, NEEDLE, NULL, solid, 0);
}

void
hw_motif_show_cross_stitch (HwMotif *self,
                            gboolean sewn)
{
  show (self, CROSS_STITCH, NULL, sewn, 0);
}

void
hw_motif_show_letter (HwMotif    *self,
                      const char *letter)
{
  show (self, LETTER, letter, 0, 0);
}

void
hw_motif_show_spool (HwMotif *self)
{
  show (self, SPOOL, NULL, 0, 0);
}

void
hw_motif_show_arrow (HwMotif *self)
{
  show (self, ARROW, NULL, 0, 0);
}

void
hw_motif_show_care (HwMotif    *self,
                    const char *care)
{
  show (self, CARE, care, 0, 0);
}

void
hw_motif_show_hatching (HwMotif *self,
                        gsize    part)
{
  show (self, HATCHING, NULL, (int) part, 0);
}
