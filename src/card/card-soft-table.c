/* card-soft-table.c - the small table of a card: a row for every combination of soft parts, with the steps that want it
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <math.h>

#define TABLE_GAP 12
#define SET_PITCH 0.91            /* the unit stands close below its word */

const char *
hw_card_name_soft (HwSoft soft)
{
  switch (soft)
    {
    case HW_SOFT_LENGTH:
      return _("length");
    case HW_SOFT_WIDTH:
      return _("width");
    case HW_SOFT_PRESSURE:
      return _("pressure");
    case HW_SOFT_LINE:
      return _("from edge");
    case HW_SOFT_DIAL:
    case HW_N_SOFT:
    default:
      return _("dial");
    }
}

/* Of the figures of a column; NULL for a dial's or for words. */
static const char *
name_unit (HwSoft soft)
{
  return soft == HW_SOFT_LENGTH || soft == HW_SOFT_WIDTH || soft == HW_SOFT_LINE ? _("mm") : NULL;
}

double
hw_card_add_soft_head (HwCardBuilder *self,
                       HwSoft         soft,
                       double         right,
                       double         y,
                       double         width)
{
  HwTextStyle style = { HW_SOFT_HEAD_PT, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, TRUE };

  y += hw_card_add_text (self, "soft-label", hw_card_name_soft (soft), right, y, width, style) * SET_PITCH;
  return y + hw_card_add_text (self, "soft-unit", name_unit (soft), right, y, width, style);
}

static HwTextStyle
value_style (HwCardBuilder *self)
{
  return (HwTextStyle) { self->type.set, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 1, TRUE };
}

/* Of one column; 0 where all steps agree. */
static double
measure_column (HwCardBuilder *self,
                int            soft)
{
  const HwCardFacts *facts = self->facts;
  HwTextStyle label = { HW_SOFT_HEAD_PT, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, TRUE };
  double width = 0;

  if (!facts->soft_differs[soft])
    return 0;
  width = hw_card_text_width (self, hw_card_name_soft ((HwSoft) soft), label);
  for (guint i = 0; i < facts->soft_rows->len; i++)
    width = fmax (width, hw_card_text_width (self, g_array_index (facts->soft_rows, HwCardSoftRow, i).soft_text[soft],
                                             value_style (self)));
  return width;
}

static double
measure_columns (HwCardBuilder *self)
{
  double width = 0;

  for (int soft = 0; soft < HW_N_SOFT; soft++)
    if (self->facts->soft_differs[soft])
      width += measure_column (self, soft) + TABLE_GAP;
  return width;
}

double
hw_card_build_soft_table (HwCardBuilder *self,
                          double         x,
                          double         y,
                          double         width)
{
  const HwCardFacts *facts = self->facts;
  HwTextStyle label = { HW_SOFT_HEAD_PT, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, FALSE };
  HwTextStyle steps = { self->type.set, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 3, FALSE };
  double values_x = x + width - measure_columns (self);
  double below = y + hw_card_add_text (self, "soft-label", _("steps"), x, y, values_x - x, label);
  double right = values_x;

  for (int soft = 0; soft < HW_N_SOFT; soft++)
    if (facts->soft_differs[soft])
      {
        right += measure_column (self, soft) + TABLE_GAP;
        below = fmax (below, hw_card_add_soft_head (self, (HwSoft) soft, right, y, measure_column (self, soft)));
      }
  below += 1;
  for (guint i = 0; i < facts->soft_rows->len; i++)
    {
      const HwCardSoftRow *row = &g_array_index (facts->soft_rows, HwCardSoftRow, i);
      double height = hw_card_add_text (self, "soft-steps", row->steps, x, below, values_x - x, steps);

      right = values_x;
      for (int soft = 0; soft < HW_N_SOFT; soft++)
        if (facts->soft_differs[soft])
          {
            right += measure_column (self, soft) + TABLE_GAP;
            hw_card_add_text (self, "soft-value", row->soft_text[soft], right, below, measure_column (self, soft),
                              value_style (self));
          }
      below += height;
    }
  return below;
}

double
hw_card_measure_soft_table (HwCardBuilder *self)
{
  const HwCardFacts *facts = self->facts;
  HwTextStyle style = { self->type.set, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 1, FALSE };
  double steps = self->is_small ? 40 : 60;

  for (guint i = 0; i < facts->soft_rows->len; i++)
    steps = fmax (steps, hw_card_text_width (self, g_array_index (facts->soft_rows, HwCardSoftRow, i).steps, style));
  return MIN ((self->right - self->left) * 0.5, steps + measure_columns (self));
}
