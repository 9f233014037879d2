/* card-lower.c - the lower half of a card: checks, test seam, gauge, caution
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "words/words.h"

/* ---- checks and test seam ---- */

/* A small card has no room for columns: one check behind the other, as they fit. */
static double
flow_checks (HwCardBuilder *self,
             double         x,
             double         y,
             double         width)
{
  const HwCardFacts *facts = self->facts;
  HwTextStyle label = { self->type.label, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, FALSE };
  HwTextStyle style = { self->type.check, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 2, FALSE };
  HwTextStyle bold = { self->type.check, PANGO_WEIGHT_BOLD, HW_LOOK_MUTED, 1, FALSE };
  const char *heading = _("Before the first stitch");
  double line = hw_card_line_height (self, self->type.check);
  double right = x + width;
  double at = x + hw_card_text_width (self, heading, label) + 7;

  hw_card_add_text (self, "checks-label", heading, x, y + (line - hw_card_line_height (self, label.pt)) * 0.8, width,
                    label);
  for (guint i = 0; i < facts->checks->len; i++)
    {
      g_autofree char *number = g_strdup_printf ("%u", i + 1);
      double number_width = hw_card_text_width (self, number, bold) + 1.5;
      double room = number_width + hw_card_text_width (self, facts->checks->pdata[i], style);
      double height;

      if (at + room > right && at > x)
        {
          at = x;
          y += line;
        }
      hw_card_add_text (self, "check-number", number, at, y, number_width, bold);
      height = hw_card_add_text (self, "check", facts->checks->pdata[i], at + number_width, y,
                                 right - at - number_width, style);
      at += room + 7;
      y += MAX (0, height - line);
    }
  return y + line;
}

double
hw_card_build_checks (HwCardBuilder *self,
                      double         x,
                      double         y,
                      double         width,
                      int            columns)
{
  const HwCardFacts *facts = self->facts;
  double gap = 14;
  double number_width = self->type.check + 2;
  /* The first sentences are the longest. */
  static const double shares[3] = { 0.38, 0.34, 0.28 };
  double room = width - (columns - 1) * gap;
  guint per_column = (facts->checks->len + (guint) columns - 1) / (guint) columns;
  double row = y;
  double end = y;

  if (self->is_small)
    return flow_checks (self, x, y, width);
  y = hw_card_add_heading (self, "checks-label", _("Before the first stitch"), x, y, width);
  for (guint i = 0; i < facts->checks->len; i++)
    {
      g_autofree char *number = g_strdup_printf ("%u", i + 1);
      HwTextStyle style = { self->type.check, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 2, FALSE };
      HwTextStyle bold = { self->type.check, PANGO_WEIGHT_BOLD, HW_LOOK_MUTED, 1, FALSE };
      double column_width = room * (columns == 3 ? shares[i / per_column] : 1.0 / columns);

      if (i > 0 && i % per_column == 0)
        x += room * (columns == 3 ? shares[i / per_column - 1] : 1.0 / columns) + gap;
      row = i % per_column == 0 ? y : row;
      hw_card_add_text (self, "check-number", number, x, row, number_width, bold);
      row += hw_card_add_text (self, "check", facts->checks->pdata[i], x + number_width, row,
                               column_width - number_width, style);
      end = MAX (end, row);
      row += self->type.check * self->type.leading * 0.4;
    }
  return end;
}

static double
add_verdict_row (HwCardBuilder       *self,
                 const HwCardVerdict *verdict,
                 double               x,
                 double               y,
                 double               width)
{
  double drawing_width = self->is_small ? 46 : 72;
  gboolean drawn = verdict->drawn && !self->without_drawings;
  double drawing_height = self->is_small ? 19 : self->facts->verdicts->len > 3 ? 23 : 27;
  double text_x = self->without_drawings ? x : x + drawing_width + (self->is_small ? 7 : 10);
  HwTextStyle seen = { self->type.verdict, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 2, FALSE };
  HwTextStyle remedy = { self->type.remedy, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 3, FALSE };
  double row = y;

  if (drawn)
    {
      HwBox *box = hw_card_add_box (self, HW_BOX_ALONG, "verdict-along", x, y, drawing_width, drawing_height);

      box->value[0] = verdict->balance;
      box->step = self->facts->first_step;
    }
  row += hw_card_add_text (self, "verdict", verdict->seen, text_x, row, x + width - text_x, seen);
  row += hw_card_add_text (self, "remedy", verdict->remedy, text_x, row, x + width - text_x, remedy);
  return MAX (row, drawn ? y + drawing_height : y);
}

/* On a small card a second line is one too many. */
static const char *
choose_test (HwCardBuilder *self,
             double         width)
{
  const HwTextStyle least = { 7, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, FALSE };

  return self->is_small && hw_card_text_width (self, self->facts->test, least) > width ? self->facts->test_short
                                                                                       : self->facts->test;
}

double
hw_card_build_tests (HwCardBuilder *self,
                     double         x,
                     double         y,
                     double         width)
{
  double gap = self->type.remedy * (0.15 + self->type.leading * 0.9);

  y = hw_card_add_heading (self, "test-label", choose_test (self, width), x, y, width) + 1;
  for (guint i = 0; i < self->facts->verdicts->len; i++)
    y = add_verdict_row (self, &g_array_index (self->facts->verdicts, HwCardVerdict, i), x, y, width) + gap;
  return y - gap;
}

static double
add_verdict_block (HwCardBuilder       *self,
                   const HwCardVerdict *verdict,
                   double               x,
                   double               y,
                   double               width)
{
  double drawing = self->without_drawings ? 0 : 40;
  double indent = verdict->drawn && drawing > 0 ? drawing + 6 : 0;
  HwTextStyle seen = { self->type.verdict, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 3, FALSE };
  HwTextStyle remedy = { self->type.remedy, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 3, FALSE };
  double row = y;

  if (indent > 0)
    {
      HwBox *box = hw_card_add_box (self, HW_BOX_ALONG, "verdict-along", x, y + 1, drawing, 20);

      box->value[0] = verdict->balance;
      box->step = self->facts->first_step;
    }
  row += hw_card_add_text (self, "verdict", verdict->seen, x + indent, row, width - indent, seen);
  row += hw_card_add_text (self, "remedy", verdict->remedy, x + indent, row, width - indent, remedy);
  return MAX (row, indent > 0 ? y + 21 : y);
}

/* One beside the other, for cards with many steps. */
double
hw_card_build_tests_across (HwCardBuilder *self,
                            double         x,
                            double         y,
                            double         width)
{
  const HwCardFacts *facts = self->facts;
  guint n = facts->verdicts->len;
  double gap = self->is_small ? 9 : 14;
  double each = (width - gap * (n - 1)) / n;
  double end = y;

  y = hw_card_add_heading (self, "test-label", choose_test (self, width), x, y, width);
  for (guint i = 0; i < n; i++)
    end = fmax (end,
                add_verdict_block (self, &g_array_index (facts->verdicts, HwCardVerdict, i), x + i * (each + gap), y,
                                        each));
  return end;
}

/* ---- bottom: gauge, ruler, caution, what comes after ---- */

#define RULER_MM 20
#define GAUGE_WIDEST_MM 26

/* Enough stitches to count by, few enough that three rows lie side by side. */
static int
choose_stitches (double length_mm)
{
  if (length_mm < 1)
    return 20;
  return CLAMP ((int) floor (GAUGE_WIDEST_MM / length_mm + 1e-6), 3, 10);
}

static double
add_gauge (HwCardBuilder     *self,
           const HwCardGauge *gauge,
           double             x,
           double             y,
           double             height)
{
  int stitches = choose_stitches (gauge->mm);
  double width = stitches * gauge->mm * HW_PT_PER_MM;
  g_autofree char *number = hw_words_fixed (gauge->mm, 1);
  /* Translators: a length in millimetres */
  g_autofree char *mm = g_strdup_printf (_("%s mm"), number);
  HwTextStyle style = { self->type.gauge, gauge->is_used ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 1,
                        FALSE };
  double label = hw_card_text_width (self, mm, style);
  double room = MAX (width, label);
  HwBox *box = hw_card_add_box (self, HW_BOX_GAUGE, "gauge", x, y, width, height);

  box->value[0] = gauge->mm;
  box->value[1] = stitches;
  box->value[2] = gauge->is_used;
  hw_card_add_text (self, "gauge-number", mm, x + MAX (0, (width - label) / 2),
                    y - hw_card_line_height (self, style.pt) - 1,
                    label, style);
  return x + room;
}

static double
add_gauges (HwCardBuilder *self,
            double         y,
            double         height)
{
  double x = self->left;

  for (int i = 0; i < self->facts->n_gauges; i++)
    x = add_gauge (self, &self->facts->gauges[i], x, y, height) + (self->is_small ? 9 : 14);
  return x;
}

static double
add_ruler (HwCardBuilder *self,
           double         x,
           double         y,
           double         height)
{
  HwTextStyle style = { self->type.gauge, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 1, FALSE };
  g_autofree char *text = g_strdup_printf (_("%d mm if printed at 100 %%"), RULER_MM);
  double label = hw_card_text_width (self, text, style);
  HwBox *box = hw_card_add_box (self, HW_BOX_RULER, "ruler", x, y, RULER_MM * HW_PT_PER_MM, height);

  box->value[0] = RULER_MM;
  hw_card_add_text (self, "ruler-label", text, x, y - hw_card_line_height (self, style.pt) - 1, label, style);
  return x + MAX (label, RULER_MM * HW_PT_PER_MM);
}

static gboolean
has_caution_beside (const HwCardBuilder *self,
                    double               x)
{
  return self->right - x > (self->is_small ? 175 : 170);
}

/* In full ink, with a bar beside it; to the right of the gauge where there is room, else above it. */
static double
add_caution (HwCardBuilder *self,
             double         x,
             double         top)
{
  HwTextStyle style = { self->type.caution, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 4, FALSE };
  gboolean is_beside = has_caution_beside (self, x);
  double at = is_beside ? x : self->left;
  double width = self->right - at - 8;
  guint before = self->card->boxes->len;
  HwTextStyle line = { style.pt, style.weight, HW_LOOK_PLAIN, 1, FALSE };
  double height;
  double y;
  HwBox *bar;

  if (self->facts->caution == NULL)
    return top;
  /* Half a point smaller rather than one word on a line of its own. */
  line.pt = hw_card_fit_text (self, self->facts->caution, width, line, style.pt - 0.5);
  if (!is_beside && hw_card_text_width (self, self->facts->caution, line) <= width)
    style = line;
  height = hw_card_add_text (self, "caution", self->facts->caution, at + 8, 0, width, style);
  y = is_beside ? self->bottom - height : top - height - 4;
  g_array_index (self->card->boxes, HwBox, before).y = y;
  bar = hw_card_add_box (self, HW_BOX_LINE, "caution-bar", at, y + 1, 2.4, height - 2);
  bar->muted = FALSE;
  return MIN (top, y);
}

/* Texts from the bottom up: measured at the top, then moved. */
static double
add_above (HwCardBuilder *self,
           const char    *role,
           const char    *text,
           double         x,
           double         width,
           double         bottom,
           HwTextStyle    style)
{
  guint before = self->card->boxes->len;
  double height = hw_card_add_text (self, role, text, x, 0, width, style);

  if (height > 0)
    g_array_index (self->card->boxes, HwBox, before).y = bottom - height;
  return bottom - height;
}

static double
add_warnings (HwCardBuilder *self,
              double         bottom)
{
  HwTextStyle style = { self->type.caution, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 4, FALSE };   /* never cut */
  guint n = MIN (self->facts->warnings->len, self->is_small ? 1 : 2);

  for (guint i = n; i > 0; i--)
    bottom = add_above (self, "warning", self->facts->warnings->pdata[i - 1], self->left, self->right - self->left,
                        bottom, style);
  return bottom;
}

static double
add_after (HwCardBuilder *self,
           double         bottom)
{
  HwTextStyle label = { self->type.label, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, FALSE };
  HwTextStyle style = { self->type.after, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 2, FALSE };
  double width = hw_card_text_width (self, _("What comes next"), label) + 8;
  /* In a tight place the letter and the step say enough: the next card has the rest. */
  const char *after = self->type.leading < 0.05 ? self->facts->after_short : self->facts->after;
  double drop = (hw_card_line_height (self, style.pt) - hw_card_line_height (self, label.pt)) * 0.8;
  guint before = self->card->boxes->len;
  double top;

  if (after == NULL || *after == '\0')
    return bottom;
  hw_card_add_text (self, "after-label", _("What comes next"), self->left, 0, width, label);
  top = add_above (self, "after", after, self->left + width, self->right - self->left - width, bottom,
                   style);
  g_array_index (self->card->boxes, HwBox, before).y = top + drop;
  return top;
}

static double
add_gauge_strip (HwCardBuilder *self,
                 double         y,
                 double         top)
{
  HwTextStyle label = { self->type.gauge, PANGO_WEIGHT_MEDIUM, HW_LOOK_MUTED, 1, FALSE };
  double x;

  if (!self->is_small)
    hw_card_add_text (self, "gauge-label", _("Stitch gauge, true size"), self->left, top, 200, label);
  x = add_gauges (self, y, self->type.ticks);
  x = add_ruler (self, x + (self->is_small ? 2 : 6), y, self->type.ticks * 0.6) + (self->is_small ? 10 : 22);
  if (self->is_small && hw_card_text_width (self, _("Stitch gauge, true size"), label) < (self->right - x) * 1.7
      && !has_caution_beside (self, x))
    {
      label.lines = 2;
      label.from_right = TRUE;
      hw_card_add_text (self, "gauge-label", _("Stitch gauge, true size"), self->right,
                        self->bottom - hw_card_line_height (self, label.pt) * 2, self->right - x, label);
    }
  return x;
}

/* Measured from the bottom up, read from the top down. One card of a set-up has the gauge: that with the checks. */
double
hw_card_build_bottom (HwCardBuilder *self)
{
  gboolean has_gauge = self->card->number == (self->checks_left ? 2 : 1);
  double y = self->bottom - self->type.ticks;
  double top = has_gauge ? y - hw_card_line_height (self, self->type.gauge) * (self->is_small ? 1 : 2) - 3
                         : self->bottom + 4;
  guint from = self->card->boxes->len;
  double x = has_gauge ? add_gauge_strip (self, y, top) : self->right;
  GArray *gauge = hw_card_take_boxes (self, from);
  GArray *caution = NULL;
  GArray *warnings = NULL;
  GArray *after = NULL;

  top = add_caution (self, x, top) - (self->is_small ? 3 : 5);
  caution = hw_card_take_boxes (self, from);
  top = add_warnings (self, top);
  warnings = hw_card_take_boxes (self, from);
  top = add_after (self, top - 2);
  after = hw_card_take_boxes (self, from);
  hw_card_add_rule (self, "after-rule", top - (self->is_small ? 4 : 5.5), FALSE);
  hw_card_put_boxes (self, after);
  hw_card_put_boxes (self, warnings);
  hw_card_put_boxes (self, caution);
  hw_card_put_boxes (self, gauge);
  return top - (self->is_small ? 6 : 9);
}
