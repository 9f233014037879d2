/* card-steps.c - the list of a card: its steps with tick boxes and lengths, and what changes between them
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is set anew stands across the list above the step from which on it holds, and where the set-up is left for
 * another one the list says so. It is tried in one column, with the cloth of each step, then its layers alone; then in
 * columns, in smaller type, and without. A name runs to two lines. Steps by hand are slanted and paler, and have
 * neither length nor settings.
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <math.h>

#define COLUMN_GAP 14
#define HEAD_PT 7
#define SET_PITCH 0.91            /* rows of single lines may stand closer than the air over their letters */
#define LEAST_NAME_EM 7           /* for a line of a name: room for a long word */

/* What is said of each step's cloth, where it is not that of the first one: its fabrics, how many layers, nothing. */
typedef enum { CLOTH_NAMED, CLOTH_COUNTED, CLOTH_UNSAID } ClothMode;

/* A way to set the list: how many columns, how large. */
typedef struct { int columns; double share; ClothMode cloth; } StepMode;

static const StepMode half_modes[] = {
  { 1, 1.0, CLOTH_NAMED }, { 1, 1.0, CLOTH_COUNTED }, { 1, 0.9, CLOTH_COUNTED }, { 1, 0.82, CLOTH_COUNTED },
  { 1, 0.82, CLOTH_UNSAID },
};
static const StepMode wide_modes[] = {
  { 1, 1.0, CLOTH_NAMED }, { 2, 1.0, CLOTH_NAMED }, { 2, 0.9, CLOTH_NAMED }, { 2, 0.9, CLOTH_COUNTED },
  { 2, 0.8, CLOTH_COUNTED }, { 2, 0.8, CLOTH_UNSAID }, { 3, 0.8, CLOTH_UNSAID }, { 3, 0.7, CLOTH_UNSAID },
};

#define NAME_LINES 2

typedef struct
{
  StepMode mode;
  double   pt, line;              /* of the names */
  double   set_pt;                /* of what must be set */
  double   x, width, rule_width;  /* of one column, and of what stands across it */
  double   number_width, name_width, length_width;
  double   layers_width, edge_width;            /* 0: not in the list */
  double   gap;
  gboolean has_line;              /* no room for a column: how far from the edge is a change like others */
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

static HwTextStyle
set_style (const StepList *list)
{
  return (HwTextStyle) { list->set_pt, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 1, TRUE };
}

/* The columns right of the length, with the air before each. */
static double
measure_columns (const StepList *list)
{
  return (list->layers_width > 0 ? list->layers_width + 8 : 0) + (list->edge_width > 0 ? list->edge_width + 8 : 0);
}

/* Tick box and number. */
static double
measure_lead (const StepList *list)
{
  return list->pt * 0.86 + 5 + list->number_width + 4;
}

/* How far from the edge, under its label. */
static double
measure_edge (HwCardBuilder  *self,
              const StepList *list)
{
  const HwCardFacts *facts = self->facts;
  HwTextStyle label = { HEAD_PT, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, TRUE };
  double width;

  if (!facts->soft_differs[HW_SOFT_LINE] || list->has_line)
    return 0;
  width = hw_card_text_width (self, _("from edge"), label);
  for (guint i = 0; i < facts->steps->len; i++)
    width = fmax (width, hw_card_text_width (self, g_array_index (facts->steps, HwCardStep, i).edge,
                                             set_style (list)));
  return width;
}

static gboolean
is_counted (const HwCardStep *step,
            ClothMode         mode)
{
  return step->layers != NULL && (mode == CLOTH_COUNTED || (mode == CLOTH_NAMED && step->cloth == step->layers));
}

static double
measure_layers (HwCardBuilder  *self,
                const StepList *list)
{
  double width = 0;

  for (guint i = 0; i < self->facts->steps->len; i++)
    {
      const HwCardStep *step = &g_array_index (self->facts->steps, HwCardStep, i);

      if (is_counted (step, list->mode.cloth))
        width = fmax (width, hw_card_text_width (self, step->layers, length_style (list)));
    }
  return width;
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
           const Place   *place)
{
  const HwCardFacts *facts = self->facts;
  StepList list = { .mode = mode, .pt = choose_pt (self, mode), .set_pt = self->type.set, .x = place->x };
  HwTextStyle name = { list.pt, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 1, FALSE };

  list.line = hw_card_line_height (self, list.pt);
  list.gap = list.pt * self->type.leading;
  list.width = (place->width - (mode.columns - 1) * COLUMN_GAP) / mode.columns;
  list.has_line = self->is_small && !place->is_wide;
  for (guint i = 0; i < facts->rows->len; i++)
    {
      const HwCardStep *step = &g_array_index (facts->rows, HwCardStep, i);

      list.number_width = MAX (list.number_width, hw_card_text_width (self, step->number, number_style (&list)));
      if (step->by_hand)
        continue;
      list.length_width = MAX (list.length_width, hw_card_text_width (self, step->length, length_style (&list)));
      list.name_width = MAX (list.name_width, hw_card_text_width (self, step->name, name));
    }
  list.edge_width = measure_edge (self, &list);
  list.layers_width = measure_layers (self, &list);
  list.rule_width = list.width;
  /* Lengths and settings stand near their names, not at the far side of an empty row. */
  list.width = MIN (list.width, fmax (measure_lead (&list) + list.name_width + 22 + list.length_width
                                      + measure_columns (&list), measure_hand (self, &list)));
  return list;
}

/* How wide a name may be. */
static double
measure_name_room (const StepList *list)
{
  return list->width - measure_lead (list) - list->length_width - 5 - measure_columns (list);
}

static gboolean
is_readable (const StepList *list)
{
  return measure_name_room (list) >= MIN (list->name_width, list->pt * LEAST_NAME_EM);
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
  height = hw_card_add_text (self, "hand-name", step->name, name_x, y, x + list->width - name_x, style);
  return y + MAX (height, list->line) + list->gap;
}

/* Beside the name: length, layers, how far from the edge. */
static void
add_columns (HwCardBuilder    *self,
             const StepList   *list,
             const HwCardStep *step,
             double            x,
             double            y,
             double            base)
{
  HwTextStyle style = length_style (list);
  double right = x + list->width - measure_columns (list);
  double muted = base + (list->line - hw_card_line_height (self, style.pt)) * 0.8;

  hw_card_add_text (self, "step-length", step->length, right, muted, list->length_width, style);
  if (list->layers_width > 0)
    {
      right += list->layers_width + 8;
      hw_card_add_text (self, "step-layers", step->layers, right, muted, list->layers_width, style);
    }
  if (list->edge_width > 0)
    hw_card_add_text (self, "step-edge", step->edge, x + list->width, y, list->edge_width, set_style (list));
}

/* Below its name; where the fabrics have names too long for that, their number. Returns how high it is. */
static double
add_cloth (HwCardBuilder    *self,
           const StepList   *list,
           const HwCardStep *step,
           double            x,
           double            y,
           double            width)
{
  HwTextStyle style = length_style (list);
  gboolean is_long = step->cloth != NULL && hw_card_text_width (self, step->cloth, style) > NAME_LINES * width;

  style.from_right = FALSE;
  style.lines = NAME_LINES + 1;
  return hw_card_add_text (self, "step-cloth", is_long ? step->layers : step->cloth, x, y, width, style);
}

static double
add_step_row (HwCardBuilder    *self,
              const StepList   *list,
              const HwCardStep *step,
              double            x,
              double            y)
{
  double row = list->edge_width > 0 ? MAX (list->line, SET_PITCH * hw_card_line_height (self, list->set_pt))
                                    : list->line;
  double name_x = x + measure_lead (list);
  double base = y + (row - list->line) * 0.8;           /* near enough one baseline for two sizes */
  HwTextStyle name = { list->pt, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, NAME_LINES, FALSE };
  double cloth_room = x + list->width - name_x - (list->edge_width > 0 ? list->edge_width + 8 : 0);
  double below;

  add_tick (self, list, step, x, base);
  hw_card_add_text (self, "step-number", step->number, x + list->pt * 0.86 + 5, base, list->number_width,
                    number_style (list));
  below = base + hw_card_add_text (self, "step-name", step->name, name_x, base, measure_name_room (list), name);
  add_columns (self, list, step, x, y, base);
  below = MAX (y + row, below);
  if (list->mode.cloth == CLOTH_NAMED && !is_counted (step, CLOTH_NAMED))
    below += add_cloth (self, list, step, name_x, below, cloth_room);
  return below + list->gap;
}

/* ---- between the rows ---- */

static double
add_thin_rule (HwCardBuilder  *self,
               const StepList *list,
               double          x,
               double          y)
{
  if (list->edge_width > 0)
    y += (1 - SET_PITCH) * hw_card_line_height (self, list->set_pt);
  hw_card_add_box (self, HW_BOX_LINE, "change-rule", x, y, list->rule_width, 0.6)->muted = TRUE;
  return y + 0.6 + list->gap * 0.5;
}

/* What is set anew, and why where there is room beside it. */
static double
add_change (HwCardBuilder    *self,
            const StepList   *list,
            const HwCardStep *step,
            double            x,
            double            y)
{
  const char *change = list->has_line ? step->change_with_line : step->change;
  HwTextStyle style = { list->set_pt, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 3, FALSE };
  HwTextStyle why = length_style (list);
  double width, height;

  if (change == NULL)
    return y;
  y = add_thin_rule (self, list, x, y);
  height = hw_card_add_text (self, "step-change", change, x, y, list->rule_width, style);
  width = hw_card_text_width (self, change, style) + list->set_pt;
  why.from_right = FALSE;
  if (step->change_why != NULL && width + hw_card_text_width (self, step->change_why, why) <= list->rule_width)
    hw_card_add_text (self, "step-why", step->change_why, x + width,
                      y + (height - hw_card_line_height (self, why.pt)) * 0.7, list->rule_width - width, why);
  return y + height + list->gap * 0.5;
}

/* Where the set-up is left, to be come back to. */
static double
add_then (HwCardBuilder    *self,
          const StepList   *list,
          const HwCardStep *step,
          double            x,
          double            y)
{
  HwTextStyle style = { list->set_pt, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 3, FALSE };
  double disc = list->set_pt * 1.2;
  double height;
  HwBox *box;

  if (step->then == NULL)
    return y;
  y = add_thin_rule (self, list, x, y);
  box = hw_card_add_box (self, HW_BOX_LETTER, "step-then", x, y, disc, disc);
  box->text = hw_card_cache_keep (self->card->cache, step->then);
  height = hw_card_add_text (self, "then", step->then_text, x + disc + 5, y, list->rule_width - disc - 5, style);
  return y + MAX (height, disc) + list->gap * 0.5;
}

static double
add_row (HwCardBuilder    *self,
         const StepList   *list,
         const HwCardStep *step,
         double            x,
         double            y)
{
  if (step->by_hand)
    y = add_hand_row (self, list, step, x, y);
  else
    y = add_step_row (self, list, step, x, add_change (self, list, step, x, y));
  return add_then (self, list, step, x, y);
}

/* The unit stands close below its word. */
static double
add_head (HwCardBuilder  *self,
          const StepList *list,
          double          x,
          double          y)
{
  HwTextStyle style = { HEAD_PT, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, TRUE };
  double right = x + list->width;

  if (list->edge_width <= 0)
    return y;
  y += 1 + hw_card_add_text (self, "edge-label", _("from edge"), right, y + 1, list->edge_width + 7, style) * SET_PITCH;
  return y + hw_card_add_text (self, "edge-unit", _("mm"), right, y, list->edge_width, style);
}

/* ---- the whole block ---- */

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

/* A row as it was set in the first column. */
typedef struct { guint from_box; double y, height; } Row;

/* All rows below one another, as if there were one column; FALSE as soon as they cannot fit. */
static gboolean
set_rows (HwCardBuilder  *self,
          const StepList *list,
          double          y,
          const Place    *place,
          GArray         *set)
{
  const GArray *rows = self->facts->rows;
  double room = list->mode.columns * (place->bottom - y + list->gap);
  double end = y;

  for (guint i = 0; i < rows->len; i++)
    {
      Row row = { self->card->boxes->len, end, 0 };

      end = add_row (self, list, &g_array_index (rows, HwCardStep, i), list->x, end);
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
add_list (HwCardBuilder  *self,
          const StepList *list,
          double          y,
          const Place    *place)
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
      move_row (self, set, i, column * (list->rule_width + COLUMN_GAP), y + filled - row->y);
      filled += row->height;
    }
  return y + height;
}

/* Room for the heading: it goes over all columns unless they have heads of their own beside it. */
static double
measure_heading (const StepList *list,
                 int             columns)
{
  return list->edge_width > 0 ? list->width - list->edge_width - 12
                              : columns * (list->rule_width + COLUMN_GAP) - COLUMN_GAP;
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
  StepList list;
  double heading, heads, y;

  if (is_too_long (self, mode, place))
    return INFINITY;
  list = plan_list (self, mode, place);
  if (!is_readable (&list))
    return INFINITY;
  heading = measure_heading (&list, mode.columns);
  y = hw_card_add_heading (self, "steps-label", name_list (self, heading), place->x, place->y, heading);
  heads = y;
  for (int column = 0; column < mode.columns; column++)
    heads = fmax (heads, add_head (self, &list, place->x + column * (list.rule_width + COLUMN_GAP), place->y));
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
