/* card-foot.c - the upper half of a card: foot, settings and seam
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <math.h>

static double
add_setting (HwCardBuilder    *self,
             const HwCardLine *line,
             double            x,
             double            y,
             double            width)
{
  HwTextStyle style = { self->type.set, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 3, FALSE };

  return y + hw_card_add_text (self, line->role, line->text, x, y, width, style);
}

/* A small card has no room for columns: one after the other, as they fit. */
static double
flow_settings (HwCardBuilder *self,
               double         y,
               double         right)
{
  HwTextStyle foot = { self->type.foot, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 2, FALSE };
  HwTextStyle style = { self->type.set, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 3, FALSE };
  double line = hw_card_line_height (self, self->type.foot);
  double gap = 9;
  double x = self->left;

  if (self->facts->foot != NULL)
    {
      double height = hw_card_add_text (self, "foot", self->facts->foot, x, y, right - self->left, foot);

      x += hw_card_text_width (self, self->facts->foot, foot) + gap;
      if (height > line * 1.5 || x > right)
        {
          x = self->left;
          y += height;
        }
    }
  for (guint i = 0; i < self->facts->settings->len; i++)
    {
      const HwCardLine *setting = &g_array_index (self->facts->settings, HwCardLine, i);
      double width = hw_card_text_width (self, setting->text, style);
      double height;

      if (g_str_equal (setting->role, "plate") && self->facts->is_usual_plate)
        continue;
      if (x + width > right && x > self->left)
        {
          x = self->left;
          y += line;
        }
      height = hw_card_add_text (self, setting->role, setting->text, x,
                                 y + (line - hw_card_line_height (self, style.pt)) * 0.8,
                                 right - x, style);
      x += width + gap;
      if (height > line * 1.5)
        {
          x = self->left;
          y += height - line + line;
        }
    }
  return x > self->left ? y + line : y;
}

static const char *
name_figure (HwFigure figure)
{
  switch (figure)
    {
    case HW_FIGURE_EDGE:
      return _("threads at the edge");
    case HW_FIGURE_ROW:
      return _("seen from above");
    case HW_FIGURE_ALONG:
    default:
      return _("along the row");
    }
}

#define CAPTION_LINES 4
#define SEAMS_A_ROW 8             /* narrower ones have no room for their captions */

/* A drawing of @role with its caption; returns where the caption ends. */
static double
add_figure (HwCardBuilder *self,
            HwBoxKind      kind,
            const char    *role,
            const char    *caption_role,
            const char    *caption,
            gsize          step,
            const HwBox   *place)
{
  HwTextStyle style = { 7.5, PANGO_WEIGHT_MEDIUM, HW_LOOK_MUTED, CAPTION_LINES, FALSE };
  double below = place->y + place->height + 2;
  HwBox *box = hw_card_add_box (self, kind, role, place->x, place->y, place->width, place->height);

  box->step = step;
  return below + hw_card_add_text (self, caption_role, caption, place->x, below, place->width, style);
}

/* A seam across, with the steps that are sewn so. */
static double
add_seam (HwCardBuilder       *self,
          const HwCardSection *section,
          const HwBox         *place)
{
  HwTextStyle style = { 7.5, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, CAPTION_LINES, FALSE };
  double end = add_figure (self, HW_BOX_SECTION, "section", "section-caption", section->caption, section->step, place);

  return end + hw_card_add_text (self, "section-steps", section->steps, place->x, end, place->width, style);
}

/* In a place as large as *@place, which moves on to the right; returns where it ends. */
static double
add_next_seam (HwCardBuilder *self,
               guint          index,
               double         gap,
               HwBox         *place)
{
  double end = add_seam (self, &g_array_index (self->facts->sections, HwCardSection, index), place);

  place->x += place->width + gap;
  return end;
}

double
hw_card_build_figures (HwCardBuilder *self,
                       double         x,
                       double         y,
                       double         width,
                       double         height,
                       gboolean       with_row)
{
  const HwCardFacts *facts = self->facts;
  guint n_sections = MIN (facts->sections->len, self->most_seams);
  double gap = height * 0.3;
  gboolean has_row = facts->has_row && with_row;
  guint n = n_sections + 1 + (has_row ? 1 : 0);
  HwBox place = { .x = x, .y = y, .width = MIN ((width - gap * (n - 1)) / n, height * 2.1), .height = height };
  double end = y;
  guint along;

  for (guint i = 0; i < n_sections; i++)
    end = fmax (end, add_next_seam (self, i, gap, &place));
  along = self->card->boxes->len;
  end = fmax (end, add_figure (self, HW_BOX_ALONG, "along", "along-caption", name_figure (facts->figure),
                               facts->first_step, &place));
  g_array_index (self->card->boxes, HwBox, along).value[0] = facts->start_balance;
  if (!has_row)
    return end;
  place.x += place.width + gap;
  along = self->card->boxes->len;
  end = fmax (end, add_figure (self, HW_BOX_ALONG, "row", "row-caption", name_figure (HW_FIGURE_ROW),
                               facts->first_step, &place));
  g_array_index (self->card->boxes, HwBox, along).value[1] = 1;
  return end;
}

/* (element-type guint): of the facts' sections. */
static GArray *
list_seams (const HwCardFacts *facts,
            gboolean           all)
{
  GArray *list = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < facts->sections->len; i++)
    if (all || g_array_index (facts->sections, HwCardSection, i).is_new)
      g_array_append_val (list, i);
  return list;
}

double
hw_card_build_seams (HwCardBuilder *self,
                     double         y,
                     double         height,
                     gboolean       all)
{
  g_autoptr (GArray) list = list_seams (self->facts, all);
  guint n_rows = (list->len + SEAMS_A_ROW - 1) / SEAMS_A_ROW;
  guint per_row = (list->len + n_rows - 1) / MAX (n_rows, 1);
  double gap = height * 0.3;
  double width = (self->right - self->left - gap * (per_row - 1)) / MAX (per_row, 1);
  HwBox place = { .width = MIN (width, height * 2.1), .height = height };
  double end = y;

  for (guint i = 0; i < list->len; i++)
    {
      if (i % per_row == 0)
        {
          place.x = self->left;
          place.y = i > 0 ? end + 4 : y;
        }
      end = fmax (end, add_next_seam (self, g_array_index (list, guint, i), gap, &place));
    }
  return end;
}

static gboolean
has_varying_settings (const HwCardFacts *facts)
{
  for (guint i = 0; i < facts->settings->len; i++)
    if (g_array_index (facts->settings, HwCardLine, i).varies)
      return TRUE;
  return FALSE;
}

/* Foot and pressure, then the others by turns in the columns to the right, each where it ends highest. */
static double
fill_columns (HwCardBuilder *self,
              double         y,
              int            n_columns)
{
  double end[4] = { y, y, y, y };
  double bottom = y;
  /* Pressure stands under the foot, or beside it when sentences follow below. */
  guint n_under_foot = has_varying_settings (self->facts) ? 0 : 1;

  end[0] = hw_card_add_value (self, "foot", self->facts->foot, hw_card_column (self, 0), y, self->type.foot,
                              PANGO_WEIGHT_BOLD);
  for (guint i = 0; i < self->facts->settings->len; i++)
    {
      const HwCardLine *line = &g_array_index (self->facts->settings, HwCardLine, i);
      int index = i < n_under_foot ? 0 : 1;
      HwCardColumn column;

      if (line->varies)
        continue;
      for (int j = 2; j < n_columns && i >= n_under_foot; j++)
        if (end[j] < end[index] - 0.01)
          index = j;
      column = hw_card_column (self, index);
      end[index] = add_setting (self, line, column.x, end[index], column.width);
    }
  for (int i = 0; i < n_columns; i++)
    bottom = MAX (bottom, end[i]);
  return bottom;
}

/* Settings that name steps run as sentences under the columns, narrower beside the drawings that end at @figures and
 * begin in the column @n_columns. */
static double
add_varying_settings (HwCardBuilder *self,
                      double         y,
                      double         figures,
                      int            n_columns)
{
  for (guint i = 0; i < self->facts->settings->len; i++)
    {
      const HwCardLine *line = &g_array_index (self->facts->settings, HwCardLine, i);

      if (line->varies)
        y = add_setting (self, line, self->left, y,
                         (y < figures ? hw_card_column (self, n_columns).x - 14 : self->right) - self->left);
    }
  return y;
}

double
hw_card_build_foot (HwCardBuilder *self,
                    double         y,
                    gboolean       with_figures)
{
  int n_columns = !with_figures ? 4 : MIN (self->facts->sections->len, self->most_seams) > 1 ? 2 : 3;
  double figures = y;
  double end;

  if (self->is_small)
    return hw_card_add_rule (self, "foot-rule", flow_settings (self, y, self->right) + 2.5, FALSE);

  if (with_figures)
    {
      double x = hw_card_column (self, n_columns).x;

      figures = hw_card_build_figures (self, x, y + 1, self->right - x, 27, FALSE);
    }
  end = fill_columns (self, y, n_columns);
  end = add_varying_settings (self, end, figures, n_columns);
  return hw_card_add_rule (self, "foot-rule", MAX (end, figures) + 4, FALSE);
}

double
hw_card_build_again (HwCardBuilder *self,
                     double         y)
{
  HwTextStyle style = { self->type.set, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 4, FALSE };
  double right = hw_card_column (self, 3).x - (self->is_small ? 9 : 14);
  guint before = self->card->boxes->len;
  double end = hw_card_build_dial (self, y);
  GArray *dial = hw_card_take_boxes (self, before);

  y += hw_card_add_text (self, "again", self->facts->again, self->left, y, right - self->left, style) + 2;
  end = fmax (end, flow_settings (self, y, right));
  hw_card_put_boxes (self, dial);
  return hw_card_add_rule (self, "foot-rule", end + (self->is_small ? 2.5 : 4), FALSE);
}
