/* drawing-dial.c - the tension dial as this machine has it
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An edge wheel lies flat when there is room for its numbers side by side and stands upright when there is not;
 * a knob has its numbers round it; a plain number stands in a window. The start is marked by a pointer and by
 * weight, the likely band by a tint between two lines that stand where the words say: nothing hangs on colour.
 */

#include "config.h"

#include "card/drawing-private.h"

#include <math.h>

#define LABEL_PT_SMALLEST 7.0

typedef struct
{
  cairo_t      *cr;
  PangoLayout  *layout;
  const HwInks *inks;
  HwDialScale   scale;
  double        start, low, high;
  double        x, y, width, height;
} Dial;

static void
format_number (char  *text,
               gsize  size,
               double value)
{
  /* A real minus sign, for scales that run on both sides of nought. */
  g_snprintf (text, size, "%s%d", value < 0 ? "\342\210\222" : "", abs ((int) lround (value)));
}

/* How far apart the numbers stand so that at most @room of them are written. */
static int
choose_label_step (const Dial *dial,
                   double      room)
{
  static const int steps[] = { 1, 2, 5, 10, 20, 50 };
  double span = dial->scale.high - dial->scale.low;

  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    if (span / steps[i] + 1 <= MAX (room, 2))
      return steps[i];
  return 100;
}

static gboolean
is_label (double value,
          int    step)
{
  return fabs (value / step - round (value / step)) < 1e-6;
}

/* Ticks of a kind are one path: a line each would be as many strokes. */
typedef enum { TICK_HALF, TICK_WHOLE, TICK_HERE } Tick;

static double
first_tick (const Dial *dial)
{
  return ceil (dial->scale.low * 2) / 2;
}

static Tick
find_tick (const Dial *dial,
           double      value)
{
  if (fabs (value - dial->start) < 0.01)
    return TICK_HERE;
  return is_label (value, 1) ? TICK_WHOLE : TICK_HALF;
}

static void
draw_pointer (cairo_t *cr,
              double   x,
              double   y,
              double   size,
              double   angle)
{
  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_rotate (cr, angle);
  cairo_new_path (cr);
  cairo_move_to (cr, 0, 0);
  cairo_line_to (cr, -size * 0.62, -size);
  cairo_line_to (cr, size * 0.62, -size);
  cairo_close_path (cr);
  cairo_fill (cr);
  cairo_restore (cr);
}

/* Across the wheel, from edge to edge, with the middle of its numbers and half of what they take there. */
typedef struct
{
  double   begin, end, number, room;
  int      label;
  gboolean upright;
} Across;

/* One end of the band, clear of its number. */
static void
draw_band_end (const Dial   *dial,
               const Across *across,
               double        value,
               double        at)
{
  double gap = is_label (value, across->label) ? across->room : 0;

  if (across->upright)
    {
      hw_line (dial->cr, across->begin, at, across->number - gap, at);
      hw_line (dial->cr, across->number + gap, at, across->end, at);
    }
  else
    {
      hw_line (dial->cr, at, across->begin, at, across->number - gap);
      hw_line (dial->cr, at, across->number + gap, at, across->end);
    }
}

/* What is printed as likely, between two lines across the wheel; a band of no width is none. */
static void
draw_band (const Dial   *dial,
           const Across *across,
           double        low_at,
           double        high_at)
{
  HwInk tint = hw_mix_ink (&dial->inks->paper, &dial->inks->line, 0.45);

  if (dial->low >= dial->high)
    return;
  if (across->upright)
    cairo_rectangle (dial->cr, across->begin, high_at, across->end - across->begin, low_at - high_at);
  else
    cairo_rectangle (dial->cr, low_at, across->begin, high_at - low_at, across->end - across->begin);
  hw_use_ink (dial->cr, &tint);
  cairo_fill (dial->cr);
  hw_use_ink (dial->cr, &dial->inks->ink);
  cairo_set_line_width (dial->cr, 0.6);
  draw_band_end (dial, across, dial->low, low_at);
  draw_band_end (dial, across, dial->high, high_at);
  cairo_stroke (dial->cr);
}

static void
draw_flat_wheel (const Dial *dial)
{
  double pointer = CLAMP (dial->height * 0.2, 4, 10);
  double top = dial->y + pointer + 1;
  double height = dial->height - pointer - 2;
  double span = dial->scale.high - dial->scale.low;
  double font = CLAMP (MIN (height * 0.36, dial->width / (span + 1) / 1.15), LABEL_PT_SMALLEST, 14);
  double in = MAX (font * 0.9, height * 0.24);
  double pitch = (dial->width - 2 * in) / span;
  int label = choose_label_step (dial, (dial->width - 2 * in) / (font * 1.02) + 1);
  double tick = MIN (height * 0.24, font * 0.7);
  double bottom = top + height;
  Across across = { top, bottom, top + (height - tick) / 2, font * 0.6, label, FALSE };

#define AT(value) (dial->x + in + ((value) - dial->scale.low) * pitch)
  cairo_save (dial->cr);
  hw_round_rectangle (dial->cr, dial->x + 0.5, top, dial->width - 1, height, height * 0.28);
  cairo_clip (dial->cr);
  draw_band (dial, &across, AT (dial->low), AT (dial->high));
  cairo_restore (dial->cr);

  hw_use_ink (dial->cr, &dial->inks->ink);
  hw_round_rectangle (dial->cr, dial->x + 0.5, top, dial->width - 1, height, height * 0.28);
  cairo_set_line_width (dial->cr, 1);
  cairo_stroke (dial->cr);

  for (Tick kind = TICK_HALF; kind <= TICK_HERE; kind++)
    {
      static const double widths[] = { [TICK_HALF] = 0.5, [TICK_WHOLE] = 0.8, [TICK_HERE] = 1.4 };

      for (double value = first_tick (dial); value <= dial->scale.high + 1e-9; value += 0.5)
        if (find_tick (dial, value) == kind && (kind != TICK_HALF || pitch >= 5))
          hw_line (dial->cr, AT (value), bottom, AT (value), bottom - tick * (kind == TICK_HALF ? 0.6 : 1));
      cairo_set_line_width (dial->cr, widths[kind]);
      cairo_stroke (dial->cr);
    }
  for (double value = first_tick (dial); value <= dial->scale.high + 1e-9; value += 0.5)
    if (is_label (value, label))
      {
        char text[16];

        format_number (text, sizeof text, value);
        hw_show_centred (dial->cr, dial->layout, text, font,
                         find_tick (dial, value) == TICK_HERE ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_MEDIUM,
                         AT (value), across.number);
      }
  draw_pointer (dial->cr, AT (dial->start), top - 0.8, pointer, 0);
#undef AT
}

/* A slot in the housing with the wheel behind it: what one sees of it is a few numbers round the start. */
static void
draw_upright_wheel (const Dial *dial)
{
  double pointer = CLAMP (dial->width * 0.2, 4, 8);
  double width = dial->width - pointer - 2;
  double left = dial->x + pointer + 1;
  double font = CLAMP (MIN (width * 0.4, dial->height * 0.18), LABEL_PT_SMALLEST, 14);
  double shown = MIN (dial->scale.high - dial->scale.low + 1, floor (dial->height / (font * 1.3)));
  double pitch = dial->height / shown;
  double middle = CLAMP (dial->start, dial->scale.low + (shown - 1) / 2, dial->scale.high - (shown - 1) / 2);
  double tick = width * 0.2;
  Across across = { left, left + width, left + tick + (width - tick) / 2, font * 0.6, 1, TRUE };

#define AT(value) (dial->y + dial->height / 2 - ((value) - middle) * pitch)
  cairo_save (dial->cr);
  hw_round_rectangle (dial->cr, left, dial->y + 0.5, width, dial->height - 1, width * 0.25);
  cairo_clip_preserve (dial->cr);
  cairo_new_path (dial->cr);
  draw_band (dial, &across, AT (dial->low), AT (dial->high));
  hw_use_ink (dial->cr, &dial->inks->ink);
  for (double value = ceil (dial->scale.low * 2) / 2; value <= dial->scale.high + 1e-9; value += 0.5)
    {
      gboolean whole = is_label (value, 1);
      gboolean here = fabs (value - dial->start) < 0.01;

      cairo_set_line_width (dial->cr, here ? 1.2 : whole ? 0.8 : 0.5);
      hw_line (dial->cr, left, AT (value), left + tick * (whole || here ? 1 : 0.6), AT (value));
      cairo_stroke (dial->cr);
      /* A number cut by the slot's edge says less than none. */
      if (whole && AT (value) > dial->y + font * 0.7 && AT (value) < dial->y + dial->height - font * 0.7)
        {
          char text[16];

          format_number (text, sizeof text, value);
          hw_show_centred (dial->cr, dial->layout, text, font, here ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_MEDIUM,
                           across.number, AT (value));
        }
    }
  cairo_restore (dial->cr);

  hw_use_ink (dial->cr, &dial->inks->ink);
  hw_round_rectangle (dial->cr, left, dial->y + 0.5, width, dial->height - 1, width * 0.25);
  cairo_set_line_width (dial->cr, 1);
  cairo_stroke (dial->cr);
  draw_pointer (dial->cr, left - 0.8, AT (dial->start), pointer, -G_PI / 2);
#undef AT
}

static void
draw_knob (const Dial *dial)
{
  double outer = MIN (dial->width, dial->height) / 2;
  double font = CLAMP (outer * 0.27, LABEL_PT_SMALLEST, 13);
  double radius = outer - font * 1.25 - 1;
  double cx = dial->x + dial->width / 2;
  double cy = dial->y + dial->height / 2;
  double span = dial->scale.high - dial->scale.low;
  int label = choose_label_step (dial, radius * 1.5 * G_PI / (font * 1.15));
  HwInk tint = hw_mix_ink (&dial->inks->paper, &dial->inks->line, 0.45);

  /* Nought at the lower left, clockwise three quarters of a turn. */
#define ANGLE(value) (G_PI * 0.75 + ((value) - dial->scale.low) / span * G_PI * 1.5)
  cairo_new_path (dial->cr);
  cairo_arc (dial->cr, cx, cy, radius * 0.98, ANGLE (dial->low), ANGLE (dial->high));
  cairo_line_to (dial->cr, cx, cy);
  cairo_close_path (dial->cr);
  hw_use_ink (dial->cr, &tint);
  cairo_fill_preserve (dial->cr);
  hw_use_ink (dial->cr, &dial->inks->ink);
  cairo_set_line_width (dial->cr, 0.5);
  cairo_stroke (dial->cr);

  cairo_set_line_width (dial->cr, 1);
  cairo_arc (dial->cr, cx, cy, radius, 0, 2 * G_PI);
  cairo_stroke (dial->cr);
  for (double value = ceil (dial->scale.low * 2) / 2; value <= dial->scale.high + 1e-9; value += 0.5)
    {
      double angle = ANGLE (value);
      gboolean whole = is_label (value, 1);
      gboolean here = fabs (value - dial->start) < 0.01;
      double in = radius * (whole ? 0.84 : 0.9);

      cairo_set_line_width (dial->cr, whole ? 0.8 : 0.5);
      hw_line (dial->cr, cx + in * cos (angle), cy + in * sin (angle), cx + radius * cos (angle),
               cy + radius * sin (angle));
      cairo_stroke (dial->cr);
      if (is_label (value, label))
        {
          char text[16];

          format_number (text, sizeof text, value);
          hw_show_centred (dial->cr, dial->layout, text, font, here ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_MEDIUM,
                           cx + (radius + font * 0.75) * cos (angle), cy + (radius + font * 0.75) * sin (angle));
        }
    }
  cairo_set_line_width (dial->cr, 2);
  cairo_set_line_cap (dial->cr, CAIRO_LINE_CAP_ROUND);
  hw_line (dial->cr, cx, cy, cx + radius * 0.9 * cos (ANGLE (dial->start)),
           cy + radius * 0.9 * sin (ANGLE (dial->start)));
  cairo_stroke (dial->cr);
  cairo_arc (dial->cr, cx, cy, radius * 0.16, 0, 2 * G_PI);
  cairo_fill (dial->cr);
#undef ANGLE
}

/* A display: the number, and its place on the scale as a short rule below it. */
static void
draw_number (const Dial *dial)
{
  double width = MIN (dial->width, dial->height * 1.6);
  double box = dial->height * 0.72;
  double y = dial->y + dial->height - 2.5;
  double in = dial->height * 0.1;
  double span = dial->scale.high - dial->scale.low;
  gboolean half = !is_label (dial->start, 1);
  char text[24];

  format_number (text, sizeof text, trunc (dial->start));
  if (half)
    g_strlcat (text, "\302\275", sizeof text);
  hw_use_ink (dial->cr, &dial->inks->ink);
  hw_round_rectangle (dial->cr, dial->x + 0.5, dial->y + 0.5, width - 1, box, box * 0.12);
  cairo_set_line_width (dial->cr, 1);
  cairo_stroke (dial->cr);
  hw_show_centred (dial->cr, dial->layout, text, box * 0.7, PANGO_WEIGHT_BOLD, dial->x + width / 2, dial->y + box / 2);

  /* In far enough that the pointer stays inside at either end. */
#define AT(value) (dial->x + in + ((value) - dial->scale.low) / span * (width - 2 * in))
  cairo_set_line_width (dial->cr, 0.6);
  hw_line (dial->cr, AT (dial->scale.low), y, AT (dial->scale.high), y);
  cairo_stroke (dial->cr);
  cairo_set_line_width (dial->cr, 2.4);
  hw_line (dial->cr, AT (dial->low), y, AT (dial->high), y);
  cairo_stroke (dial->cr);
  draw_pointer (dial->cr, AT (dial->start), y - 1.4, dial->height * 0.1, 0);
#undef AT
}

void
hw_draw_dial (cairo_t         *cr,
              PangoLayout     *layout,
              const HwMachine *machine,
              double           start,
              double           low,
              double           high,
              double           x,
              double           y,
              double           width,
              double           height,
              const HwInks    *inks)
{
  Dial dial = { cr, layout, inks, machine->dial, start, low, high, x, y, width, height };

  g_return_if_fail (machine->dial.high > machine->dial.low);

  dial.start = CLAMP (start, dial.scale.low, dial.scale.high);
  dial.low = CLAMP (MIN (low, high), dial.scale.low, dial.scale.high);
  dial.high = CLAMP (MAX (low, high), dial.scale.low, dial.scale.high);

  cairo_save (cr);
  cairo_new_path (cr);
  switch (machine->dial_form)
    {
    case HW_DIAL_KNOB:
      draw_knob (&dial);
      break;
    case HW_DIAL_NUMBER:
      draw_number (&dial);
      break;
    case HW_DIAL_EDGE_WHEEL:
    default:
      if (width > height * 1.5)
        draw_flat_wheel (&dial);
      else
        draw_upright_wheel (&dial);
    }
  cairo_restore (cr);
}
