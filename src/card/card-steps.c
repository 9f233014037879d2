/* card-steps.c - the list of a card: its steps with tick boxes, lengths and their soft parts
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The list is tried in one column with each step's own settings beside it; then in smaller type; then in columns, and
 * with the settings in a small table that names the steps. A name runs to two lines. Steps by hand are slanted and
 * paler, and have neither length nor settings.
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <math.h>

#define COLUMN_GAP 14
#define SET_PITCH 0.91            /* rows of single lines may stand closer than the air over their letters */
#define LEAST_NAME_EM 7           /* for a line of a name: room for a long word */

/* A way to set the list: how many columns, how large, and whether each step has its own settings beside it (else a
 * small table has them). */
typedef struct { int columns; double share; gboolean beside; } StepMode;

static const StepMode half_modes[] = {
  { 1, 1.0, TRUE }, { 1, 0.9, TRUE }, { 1, 0.82, TRUE }, { 2, 0.9, FALSE }, { 2, 0.82, FALSE },
};
static const StepMode wide_modes[] = {
  { 1, 1.0, TRUE }, { 2, 1.0, TRUE }, { 2, 0.9, TRUE }, { 2, 0.8, TRUE }, { 2, 1.0, FALSE }, { 2, 0.9, FALSE },
  { 2, 0.8, FALSE }, { 3, 0.8, FALSE }, { 3, 0.7, FALSE },
};

#define NAME_LINES 2

typedef struct
{
  StepMode mode;
  double   pt, line;              /* of the names */
  double   set_pt;                /* of what must be set */
  double   x, width;              /* of one column */
  double   number_width, name_width, length_width, then_width;
  double   soft_width[HW_N_SOFT]; /* 0: not in the list */
  double   gap;
  gboolean is_below;              /* what differs stands below the name, in words: no room beside it */
} StepList;

/* Where the block may stand. */
typedef struct
{
  double   x, y, width, bottom;
  gboolean is_wide;               /* across the whole card */
  gboolean cuts;                  /* names may be cut */
  double   lost;                  /* of the texts above it */
} Place;

static HwTextStyle
number_style (const StepList *list)
{
  return (HwTextStyle) { list->pt, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 1, FALSE };
}

static HwTextStyle
length_style (const StepList *list)
{
  return (HwTextStyle) { MAX (7, round (list->pt * 0.88 * 2) / 2), PANGO_WEIGHT_MEDIUM, HW_LOOK_MUTED, 1, TRUE };
}

static HwTextStyle
hand_style (const StepList *list)
{
  return (HwTextStyle) { list->pt, PANGO_WEIGHT_MEDIUM, HW_LOOK_HAND, 1, FALSE };
}

static double
measure_soft (const StepList *list)
{
  double width = 0;

  for (int soft = 0; soft < HW_N_SOFT; soft++)
    if (list->soft_width[soft] > 0)
      width += list->soft_width[soft] + 8;
  return width;
}

/* Tick box and number. */
static double
measure_lead (const StepList *list)
{
  return list->pt * 0.86 + 5 + list->number_width + 4;
}

/* Those that differ, under their labels. */
static void
measure_soft_columns (HwCardBuilder *self,
                      StepList      *list)
{
  const HwCardFacts *facts = self->facts;
  HwTextStyle label = { HW_SOFT_HEAD_PT, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, TRUE };
  HwTextStyle style = { list->set_pt, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 1, TRUE };

  for (int soft = 0; soft < HW_N_SOFT; soft++)
    {
      if (!facts->soft_differs[soft])
        continue;
      list->soft_width[soft] = hw_card_text_width (self, hw_card_name_soft ((HwSoft) soft), label);
      for (guint i = 0; i < facts->steps->len; i++)
        list->soft_width[soft] = MAX (list->soft_width[soft],
                                      hw_card_text_width (self, g_array_index (facts->steps, HwCardStep, i)
                                                                .soft_text[soft], style));
    }
}

static double
choose_pt (const HwCardBuilder *self,
           StepMode             mode)
{
  return MAX (self->is_small ? 7.5 : 8, round (self->type.step * mode.share * 2) / 2);
}

/* The widest row of a step by hand. */
static double
measure_hand (HwCardBuilder  *self,
              const StepList *list)
{
  double width = 0;

  for (guint i = 0; i < self->facts->rows->len; i++)
    {
      const HwCardStep *step = &g_array_index (self->facts->rows, HwCardStep, i);

      if (step->by_hand)
        width = fmax (width, hw_card_text_width (self, step->name, hand_style (list)));
    }
  return width > 0 ? measure_lead (list) + width : 0;
}

static StepList
plan_list (HwCardBuilder *self,
           StepMode       mode,
           const Place   *place,
           double         width)
{
  const HwCardFacts *facts = self->facts;
  StepList list = { .mode = mode, .pt = choose_pt (self, mode), .set_pt = self->type.set, .x = place->x };
  HwTextStyle label = { HW_SOFT_HEAD_PT, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, TRUE };
  HwTextStyle name = { list.pt, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 1, FALSE };

  list.line = hw_card_line_height (self, list.pt);
  list.gap = list.pt * self->type.leading;
  list.width = (width - (mode.columns - 1) * COLUMN_GAP) / mode.columns;
  list.is_below = self->is_small && !place->is_wide && mode.columns == 1;
  list.then_width = facts->is_left ? MAX (list.pt, hw_card_text_width (self, _("then"), label)) + 6 : 0;
  for (guint i = 0; i < facts->rows->len; i++)
    {
      const HwCardStep *step = &g_array_index (facts->rows, HwCardStep, i);

      list.number_width = MAX (list.number_width, hw_card_text_width (self, step->number, number_style (&list)));
      if (step->by_hand)
        continue;
      list.length_width = MAX (list.length_width, hw_card_text_width (self, step->length, length_style (&list)));
      list.name_width = MAX (list.name_width, hw_card_text_width (self, step->name, name));
    }
  if (mode.beside && !list.is_below)
    measure_soft_columns (self, &list);
  /* Lengths and settings stand near their names, not at the far side of an empty row. */
  list.width = MIN (list.width, fmax (measure_lead (&list) + list.name_width + 22 + list.length_width
                                      + measure_soft (&list), measure_hand (self, &list)) + list.then_width);
  return list;
}

/* How wide a name may be. */
static double
measure_name_room (const StepList *list)
{
  return list->width - measure_lead (list) - list->length_width - 5 - measure_soft (list) - list->then_width;
}

static gboolean
is_readable (const StepList *list)
{
  return measure_name_room (list) >= MIN (list->name_width, list->pt * LEAST_NAME_EM);
}

static void
add_then (HwCardBuilder    *self,
          const StepList   *list,
          const HwCardStep *step,
          double            x,
          double            base)
{
  double disc = list->pt * 1.1;
  HwBox *box;

  if (step->then == NULL || list->then_width <= 0)
    return;
  box = hw_card_add_box (self, HW_BOX_LETTER, "step-then", x + list->width - disc, base + (list->line - disc) / 2, disc,
                         disc);
  box->text = hw_card_cache_keep (self->card->cache, step->then);
}

static void
add_tick (HwCardBuilder    *self,
          const StepList   *list,
          const HwCardStep *step,
          double            x,
          double            base)
{
  double tick = list->pt * 0.86;
  HwBox *box = hw_card_add_box (self, HW_BOX_TICKBOX, step->by_hand ? "hand-tick" : "step-tick", x,
                                base + (list->line - tick) / 2, tick, tick);

  box->value[0] = step->done;
  box->step = step->index;
}

static double
add_hand_row (HwCardBuilder    *self,
              const StepList   *list,
              const HwCardStep *step,
              double            x,
              double            y)
{
  double name_x = x + measure_lead (list);
  HwTextStyle style = hand_style (list);
  double height;

  add_tick (self, list, step, x, y);
  hw_card_add_text (self, "hand-number", step->number, x + list->pt * 0.86 + 5, y, list->number_width, style);
  style.lines = NAME_LINES;
  height = hw_card_add_text (self, "hand-name", step->name, name_x, y, x + list->width - list->then_width - name_x,
                             style);
  add_then (self, list, step, x, y);
  return y + MAX (height, list->line) + list->gap;
}

static void
add_soft (HwCardBuilder    *self,
          const StepList   *list,
          const HwCardStep *step,
          double            right,
          double            y)
{
  for (int soft = 0; soft < HW_N_SOFT; soft++)
    if (list->soft_width[soft] > 0)
      {
        HwTextStyle style = { list->set_pt, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 1, TRUE };

        right += list->soft_width[soft] + 8;
        hw_card_add_text (self, "step-soft", step->soft_text[soft], right, y, list->soft_width[soft], style);
      }
}

static double
add_step_row (HwCardBuilder    *self,
              const StepList   *list,
              const HwCardStep *step,
              double            x,
              double            y)
{
  double row = measure_soft (list) > 0 ? MAX (list->line,
                                              SET_PITCH * hw_card_line_height (self, list->set_pt)) : list->line;
  double right = x + list->width - list->then_width - measure_soft (list);
  double name_x = x + measure_lead (list);
  double base = y + (row - list->line) * 0.8;           /* near enough one baseline for two sizes */
  HwTextStyle name = { list->pt, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, NAME_LINES, FALSE };
  HwTextStyle number = number_style (list);
  HwTextStyle length = length_style (list);
  double height;

  add_tick (self, list, step, x, base);
  hw_card_add_text (self, "step-number", step->number, x + list->pt * 0.86 + 5, base, list->number_width, number);
  height = hw_card_add_text (self, "step-name", step->name, name_x, base, measure_name_room (list), name);
  hw_card_add_text (self, "step-length", step->length, right,
                    base + (list->line - hw_card_line_height (self, length.pt)) * 0.8, list->length_width, length);
  add_soft (self, list, step, right, y);
  add_then (self, list, step, x, base);
  height = MAX (row, height + base - y);
  if (list->is_below && *step->soft_short != '\0')
    {
      HwTextStyle soft = { list->set_pt, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 3, FALSE };

      height += hw_card_add_text (self, "step-soft", step->soft_short, name_x, y + height, x + list->width - name_x,
                                  soft);
    }
  return y + height + list->gap;
}

static double
add_row (HwCardBuilder    *self,
         const StepList   *list,
         const HwCardStep *step,
         double            x,
         double            y)
{
  return step->by_hand ? add_hand_row (self, list, step, x, y) : add_step_row (self, list, step, x, y);
}

static double
add_heads (HwCardBuilder  *self,
           const StepList *list,
           double          x,
           double          y)
{
  double right = x + list->width - list->then_width - measure_soft (list);
  HwTextStyle style = { HW_SOFT_HEAD_PT, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, TRUE };
  double end = y;

  for (int soft = 0; soft < HW_N_SOFT; soft++)
    if (list->soft_width[soft] > 0)
      {
        right += list->soft_width[soft] + 8;
        end = fmax (end, hw_card_add_soft_head (self, (HwSoft) soft, right, y + 1, list->soft_width[soft] + 7));
      }
  if (list->then_width > 0)
    hw_card_add_text (self, "then-label", _("then"), x + list->width, y + 1, list->then_width, style);
  return end;
}

/* ---- the whole block ---- */

/* An attempt that would be turned down whatever comes below. */
static gboolean
is_hopeless (const HwCardBuilder *self,
             const Place         *place,
             double               end)
{
  return end > place->bottom || (!place->cuts && self->lost > place->lost);
}

/* Rows of one line each would be too many; found out before anything is measured or set. */
static gboolean
is_too_long (HwCardBuilder *self,
             StepMode       mode,
             const Place   *place)
{
  double pt = choose_pt (self, mode);
  double gap = pt * self->type.leading;
  guint rows = (self->facts->rows->len + (guint) mode.columns - 1) / (guint) mode.columns;

  return place->y + rows * (hw_card_line_height (self, pt) + gap) - gap > place->bottom + 0.01;
}

/* All rows; INFINITY as soon as they cannot fit. */
static double
add_list (HwCardBuilder  *self,
          const StepList *list,
          double          y,
          const Place    *place)
{
  const GArray *rows = self->facts->rows;
  guint per_column = (rows->len + (guint) list->mode.columns - 1) / (guint) list->mode.columns;
  double end = y;

  for (guint column = 0; column < (guint) list->mode.columns; column++)
    {
      double row = y;

      for (guint i = column * per_column; i < MIN (rows->len, (column + 1) * per_column); i++)
        {
          row = add_row (self, list, &g_array_index (rows, HwCardStep, i),
                         list->x + column * (list->width + COLUMN_GAP), row);
          if (is_hopeless (self, place, row - list->gap))
            return INFINITY;
        }
      end = MAX (end, row);
    }
  return end;
}

/* Room for the heading: it goes over all columns unless they have heads of their own beside it. */
static double
measure_heading (const StepList *list,
                 int             columns)
{
  double heads = measure_soft (list) + list->then_width;

  return heads > 0 ? list->width - heads - 4 : columns * (list->width + COLUMN_GAP) - COLUMN_GAP;
}

/* With what the slanted ones are, where there is room to say it. */
static const char *
name_list (HwCardBuilder *self,
           double         width)
{
  const HwCardFacts *facts = self->facts;
  const HwTextStyle style = { self->type.label, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, FALSE };
  gboolean is_later = facts->again != NULL;
  const char *full = is_later ? _("Sew on, in this order (slanted: by hand)")
                              : _("Sew, in this order (slanted: by hand)");

  if (facts->has_hand && hw_card_text_width (self, full, style) <= width)
    return full;
  return is_later ? _("Sew on, in this order") : _("Sew, in this order");
}

/* The whole block in one mode; returns where it ends, INFINITY when it cannot fit or its names could not be known. */
static double
add_steps (HwCardBuilder *self,
           StepMode       mode,
           const Place   *place)
{
  const HwCardFacts *facts = self->facts;
  gboolean has_table = facts->any_soft && !mode.beside;
  StepList list;
  double heading, heads, table, y;

  if (is_too_long (self, mode, place))
    return INFINITY;
  table = has_table && place->is_wide ? hw_card_measure_soft_table (self) : 0;
  list = plan_list (self, mode, place, place->width - (table > 0 ? table + COLUMN_GAP * 1.5 : 0));
  if (!is_readable (&list))
    return INFINITY;
  heading = measure_heading (&list, mode.columns);
  y = hw_card_add_heading (self, "steps-label", name_list (self, heading), place->x, place->y, heading);
  heads = y;
  for (int column = 0; column < mode.columns; column++)
    heads = fmax (heads, add_heads (self, &list, place->x + column * (list.width + COLUMN_GAP), place->y));
  y = add_list (self, &list, heads, place) - list.gap;
  if (isinf (y))
    return y;
  if (table > 0)
    return fmax (y, hw_card_build_soft_table (self, place->x + place->width - table, place->y, table));
  return has_table ? hw_card_build_soft_table (self, place->x, y + 3, place->width) : y;
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
  const StepMode *modes = is_wide ? wide_modes : half_modes;
  gsize n_modes = is_wide ? G_N_ELEMENTS (wide_modes) : G_N_ELEMENTS (half_modes);
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
