/* card-steps.c - the list of a card: its steps with tick boxes and lengths, and what changes between them
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * It is tried in one column, with the cloth of each step, then its layers alone; then in columns, in smaller type, and
 * without. Columns are as even in height as they can be.
 */

#include "config.h"

#include "card/card-rows-private.h"

#include <glib/gi18n.h>
#include <math.h>

static const HwStepMode half_modes[] = {
  { 1, 1.0, HW_CLOTH_NAMED }, { 1, 1.0, HW_CLOTH_COUNTED }, { 1, 0.9, HW_CLOTH_COUNTED }, { 1, 0.82, HW_CLOTH_COUNTED },
  { 1, 0.82, HW_CLOTH_UNSAID },
};
static const HwStepMode wide_modes[] = {
  { 1, 1.0, HW_CLOTH_NAMED }, { 2, 1.0, HW_CLOTH_NAMED }, { 2, 0.9, HW_CLOTH_NAMED }, { 2, 0.9, HW_CLOTH_COUNTED },
  { 2, 0.8, HW_CLOTH_COUNTED }, { 2, 0.8, HW_CLOTH_UNSAID }, { 3, 0.8, HW_CLOTH_UNSAID }, { 3, 0.7, HW_CLOTH_UNSAID },
};

#define N_CALM_MODES 5            /* of the wide ones: no list is set tighter for what a card before has too */

/* Where the block may stand. */
typedef struct
{
  double   x, y, width, bottom;
  gboolean is_wide;               /* across the whole card */
  gboolean cuts;                  /* names may be cut */
  double   lost;                  /* of the texts above it */
} Place;

/* Rows of one line each would be too many; found out before anything is measured or set. */
static gboolean
is_too_long (HwCardBuilder *self,
             HwStepMode     mode,
             const Place   *place)
{
  double pt = hw_card_list_pt (self, mode);
  double gap = pt * self->type.leading;
  guint rows = (self->facts->rows->len + (guint) mode.columns - 1) / (guint) mode.columns;

  return place->y + rows * (hw_card_line_height (self, pt) + gap) - gap > place->bottom + 0.01;
}

/* A row as it was set in the first column. */
typedef struct { guint from_box; double y, height; } Row;

/* All rows below one another, as if there were one column; FALSE as soon as they cannot fit. */
static gboolean
set_rows (HwCardBuilder    *self,
          const HwStepList *list,
          double            y,
          const Place      *place,
          GArray           *set)
{
  const GArray *rows = self->facts->rows;
  double room = list->mode.columns * (place->bottom - y + list->gap);
  double end = y;

  for (guint i = 0; i < rows->len; i++)
    {
      Row row = { self->card->boxes->len, end, 0 };

      end = hw_card_add_list_row (self, list, &g_array_index (rows, HwCardStep, i), list->x, end);
      row.height = end - row.y;
      g_array_append_val (set, row);
      if (end - y > room || (!place->cuts && self->lost > place->lost))
        return FALSE;
    }
  return TRUE;
}

/* How many columns of @height at most the rows fill. */
static int
count_columns (const GArray *set,
               double        height)
{
  double filled = 0;
  int n = 1;

  for (guint i = 0; i < set->len; i++)
    {
      double row = g_array_index (set, Row, i).height;

      if (filled > 0 && filled + row > height)
        {
          filled = 0;
          n++;
        }
      filled += row;
    }
  return n;
}

/* The lowest columns that hold all rows: near enough, by halving. */
static double
find_height (const GArray *set,
             int           columns)
{
  double low = 0;
  double high = 0;

  for (guint i = 0; i < set->len; i++)
    {
      low = fmax (low, g_array_index (set, Row, i).height);
      high += g_array_index (set, Row, i).height;
    }
  while (high - low > 0.5)
    {
      double middle = (low + high) / 2;

      if (count_columns (set, middle) <= columns)
        high = middle;
      else
        low = middle;
    }
  return high;
}

static void
move_row (HwCardBuilder *self,
          const GArray  *set,
          guint          row,
          double         dx,
          double         dy)
{
  guint end = row + 1 < set->len ? g_array_index (set, Row, row + 1).from_box : self->card->boxes->len;

  for (guint i = g_array_index (set, Row, row).from_box; i < end; i++)
    {
      HwBox *box = &g_array_index (self->card->boxes, HwBox, i);

      box->x += dx;
      box->y += dy;
    }
}

/* All rows in columns as even as they can be; INFINITY: they do not fit. */
static double
add_list (HwCardBuilder    *self,
          const HwStepList *list,
          double            y,
          const Place      *place)
{
  g_autoptr (GArray) set = g_array_new (FALSE, FALSE, sizeof (Row));
  double height, filled;
  int column = 0;

  if (!set_rows (self, list, y, place, set))
    return INFINITY;
  height = find_height (set, list->mode.columns);
  if (y + height - list->gap > place->bottom + 0.01)
    return INFINITY;
  filled = 0;
  for (guint i = 0; i < set->len; i++)
    {
      const Row *row = &g_array_index (set, Row, i);

      if (filled > 0 && filled + row->height > height)
        {
          filled = 0;
          column++;
        }
      move_row (self, set, i, column * (list->rule_width + HW_LIST_GAP), y + filled - row->y);
      filled += row->height;
    }
  return y + height;
}

/* Room for the heading: it goes over all columns unless they have heads of their own beside it. */
static double
measure_heading (const HwStepList *list,
                 int               columns)
{
  return list->edge_width > 0 ? list->width - list->edge_width - 12
                              : columns * (list->rule_width + HW_LIST_GAP) - HW_LIST_GAP;
}

/* With what the slanted ones are, where there is room to say it. */
static const char *
name_list (HwCardBuilder *self,
           double         width)
{
  const HwCardFacts *facts = self->facts;
  const HwTextStyle style = { self->type.label, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, FALSE };
  gboolean is_later = facts->again != NULL;
  const char *full = is_later ? _("Go on sewing, in this order (slanted: by hand)")
                              : _("Sew, in this order (slanted: by hand)");

  if (facts->has_hand && hw_card_text_width (self, full, style) <= width)
    return full;
  return is_later ? _("Go on sewing, in this order") : _("Sew, in this order");
}

/* The whole block in one mode; returns where it ends, INFINITY when it cannot fit or its names could not be known. */
static double
add_steps (HwCardBuilder *self,
           HwStepMode     mode,
           const Place   *place)
{
  HwStepList list;
  double heading, heads, y;

  if (is_too_long (self, mode, place))
    return INFINITY;
  list = hw_card_plan_list (self, mode, place->x, place->width, place->is_wide);
  if (!hw_card_is_list_readable (&list))
    return INFINITY;
  heading = measure_heading (&list, mode.columns);
  y = hw_card_add_heading (self, "steps-label", name_list (self, heading), place->x, place->y, heading);
  heads = y;
  for (int column = 0; column < mode.columns; column++)
    {
      double x = place->x + column * (list.rule_width + HW_LIST_GAP);

      heads = fmax (heads, hw_card_add_list_head (self, &list, x, place->y));
    }
  return add_list (self, &list, heads, place) - list.gap;
}

/* The list stands on the next card, all of it. */
static double
add_reference (HwCardBuilder *self,
               const Place   *place)
{
  HwTextStyle style = { self->type.set, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 2, FALSE };
  double y = hw_card_add_heading (self, "steps-label", name_list (self, place->width), place->x, place->y,
                                  place->width);

  return y + hw_card_add_text (self, "steps-more", self->facts->goes_on, place->x, y, place->width, style);
}

double
hw_card_build_steps (HwCardBuilder *self,
                     double         x,
                     double         y,
                     double         width,
                     double         bottom,
                     gboolean       is_wide,
                     gboolean       cuts)
{
  const HwStepMode *modes = is_wide ? wide_modes : half_modes;
  gsize n_modes = !is_wide ? G_N_ELEMENTS (half_modes)
                  : self->card->number > 1 && self->fullness < HW_FULL_BARE ? N_CALM_MODES : G_N_ELEMENTS (wide_modes);
  const Place place = { x, y, width, bottom, is_wide, cuts, self->lost };
  const guint n_boxes = self->card->boxes->len;

  if (self->facts->rows->len == 0)
    return add_reference (self, &place);
  for (gsize i = 0; i < n_modes; i++)
    {
      double end = add_steps (self, modes[i], &place);

      if (end <= bottom && (cuts || self->lost <= place.lost))
        return end;
      g_array_set_size (self->card->boxes, n_boxes);
      self->lost = place.lost;
    }
  return INFINITY;
}
