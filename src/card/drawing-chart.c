/* drawing-chart.c - hours by week as columns of cloth
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Parts of a column are told apart by their hatching, never by colour.
 */

#include "config.h"

#include "card/drawing-private.h"

#include <math.h>

#define LABEL_SIZE 0.075         /* of the height */
#define LABEL_SMALLEST 8.0
#define LABEL_LARGEST 13.0

typedef struct
{
  cairo_t       *cr;
  PangoLayout   *layout;
  const HwInks  *inks;
  const HwChart *chart;
  double         left, top, right, bottom;      /* of the field the columns stand in */
  double         most;                          /* hours at the top */
  double         label;
} Field;

static double
sum_column (const HwChart *chart,
            gsize          column)
{
  double sum = 0;

  for (gsize part = 0; part < chart->n_parts; part++)
    sum += chart->hours[column * chart->n_parts + part];
  return sum;
}

/* Whole steps of 1, 2, 5, 10, … hours, at most five of them. */
static double
choose_step (double most)
{
  double step = 1;
  static const double factors[] = { 2, 2.5, 2 };

  for (gsize i = 0; most / step > 5; i++)
    step *= factors[i % G_N_ELEMENTS (factors)];
  return step;
}

static void
hatch_lines (cairo_t *cr,
             double   x,
             double   y,
             double   width,
             double   height,
             double   pitch,
             double   slope)
{
  for (double at = -height; at < width + height; at += pitch)
    hw_line (cr, x + at, y + height, x + at + slope * height, y);
}

void
hw_draw_hatching (cairo_t      *cr,
                  gsize         part,
                  double        x,
                  double        y,
                  double        width,
                  double        height,
                  const HwInks *inks)
{
  cairo_save (cr);
  cairo_rectangle (cr, x, y, width, height);
  hw_use_ink (cr, part == 0 ? &inks->ink : &inks->paper);
  cairo_fill_preserve (cr);
  cairo_clip (cr);
  hw_use_ink (cr, &inks->ink);
  cairo_set_line_width (cr, 1);
  switch (part % 6)
    {
    case 1:
      hatch_lines (cr, x, y, width, height, 5, 1);
      break;
    case 2:
      break;
    case 3:
      for (double at = 2; at < height; at += 4)
        hw_line (cr, x, y + height - at, x + width, y + height - at);
      break;
    case 4:
      hatch_lines (cr, x, y, width, height, 6, 1);
      hatch_lines (cr, x, y, width, height, 6, -1);
      break;
    case 5:
      hatch_lines (cr, x, y, width, height, 4, 0);
      break;
    default:
      break;
    }
  cairo_stroke (cr);
  cairo_rectangle (cr, x, y, width, height);
  cairo_set_line_width (cr, 2);          /* half of it is clipped */
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
draw_scale (const Field *field)
{
  double step = choose_step (field->most);
  cairo_t *cr = field->cr;

  for (double hours = 0; hours <= field->most + 1e-9; hours += step)
    {
      double y = field->bottom - (field->bottom - field->top) * hours / field->most;
      char text[32];

      hw_use_ink (cr, &field->inks->line);
      cairo_set_line_width (cr, 0.8);
      hw_line (cr, field->left, y, field->right, y);
      cairo_stroke (cr);
      g_snprintf (text, sizeof text, "%d", (int) lround (hours));
      hw_use_ink (cr, &field->inks->mute);
      hw_show_centred (cr, field->layout, text, field->label, PANGO_WEIGHT_NORMAL, field->left - field->label * 1.2,
                       y);
    }
}

static void
draw_column (const Field *field,
             gsize        column,
             double       x,
             double       width)
{
  double y = field->bottom;

  for (gsize part = 0; part < field->chart->n_parts; part++)
    {
      double hours = field->chart->hours[column * field->chart->n_parts + part];
      double height = (field->bottom - field->top) * hours / field->most;

      if (height <= 0)
        continue;
      y -= height;
      hw_draw_hatching (field->cr, part, x, y, width, height, field->inks);
    }
}

/* In user units; the layout then has the labels' font. */
static double
measure_widest_label (const Field *field)
{
  const PangoFontDescription *current = pango_layout_get_font_description (field->layout);
  PangoFontDescription *font = current != NULL ? pango_font_description_copy (current) : pango_font_description_new ();
  int widest = 0;

  pango_font_description_set_absolute_size (font, field->label * PANGO_SCALE);
  pango_layout_set_font_description (field->layout, font);
  pango_font_description_free (font);
  pango_layout_set_width (field->layout, -1);
  for (gsize i = 0; i < field->chart->n_columns; i++)
    {
      int width = 0;

      pango_layout_set_text (field->layout, field->chart->labels[i], -1);
      pango_layout_get_size (field->layout, &width, NULL);
      widest = MAX (widest, width);
    }
  return (double) widest / PANGO_SCALE;
}

static void
draw_columns (const Field *field)
{
  double pitch = (field->right - field->left) / (double) MAX (field->chart->n_columns, 1);
  double width = MIN (pitch * 0.64, field->label * 3);
  gsize every = (gsize) MAX (1, ceil ((measure_widest_label (field) + field->label) / pitch));

  for (gsize i = 0; i < field->chart->n_columns; i++)
    {
      double middle = field->left + pitch * ((double) i + 0.5);

      draw_column (field, i, middle - width / 2, width);
      if ((field->chart->n_columns - 1 - i) % every != 0)
        continue;
      hw_use_ink (field->cr, &field->inks->mute);
      hw_show_centred (field->cr, field->layout, field->chart->labels[i], field->label, PANGO_WEIGHT_NORMAL, middle,
                       field->bottom + field->label);
    }
}

void
hw_draw_chart (cairo_t       *cr,
               PangoLayout   *layout,
               const HwChart *chart,
               double         x,
               double         y,
               double         width,
               double         height,
               const HwInks  *inks)
{
  double label = CLAMP (height * LABEL_SIZE, LABEL_SMALLEST, LABEL_LARGEST);
  Field field = { cr, layout, inks, chart, x + label * 2.2, y + label, x + width, y + height - label * 1.8, 0, label };

  for (gsize i = 0; i < chart->n_columns; i++)
    field.most = MAX (field.most, sum_column (chart, i));
  field.most = MAX (ceil (field.most / choose_step (field.most)) * choose_step (field.most), 1);
  cairo_save (cr);
  draw_scale (&field);
  draw_columns (&field);
  cairo_restore (cr);
}
