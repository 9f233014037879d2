/* card-steps.c - the steps a card serves, with tick boxes, lengths and their soft parts
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The list is tried in one column with each step's own settings beside it; then in smaller type; then in columns,
 * with the settings in a small table that names the steps; then without lengths, which stand in the order of work as
 * well. Names are cut only when nothing else is left, and never so far that they cannot be told from each other.
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <math.h>

#define COLUMN_GAP 14
#define SET_PITCH 0.91            /* rows of single lines may stand closer than the air over their letters */
#define LEAST_NAME_EM 9           /* room for some fifteen letters: about two words, by which a step is known; */
#define LEAST_NAME_EM_SMALL 6.5   /* on a small card for ten, rather than leave the step out */

/* A way to set the list: how many columns, how large, to how many lines a name may run, whether each step has its own
 * settings beside it (else a small table has them), and whether its length. */
typedef struct { int columns; double share; int lines; gboolean beside, lengths; } StepMode;

static const StepMode half_modes[] = {
  { 1, 1.0, 2, TRUE, TRUE }, { 1, 0.9, 2, TRUE, TRUE }, { 1, 0.9, 1, TRUE, TRUE }, { 1, 0.82, 1, TRUE, TRUE },
  { 2, 0.9, 2, FALSE, TRUE }, { 2, 0.82, 1, FALSE, TRUE },
};
static const StepMode wide_modes[] = {
  { 1, 1.0, 2, TRUE, TRUE }, { 2, 1.0, 1, TRUE, TRUE }, { 2, 0.9, 2, TRUE, TRUE }, { 2, 0.8, 1, TRUE, TRUE },
  { 2, 1.0, 1, FALSE, TRUE }, { 2, 0.9, 1, FALSE, TRUE }, { 2, 0.8, 2, FALSE, TRUE }, { 3, 0.8, 1, FALSE, TRUE },
  { 2, 0.7, 1, FALSE, TRUE }, { 3, 0.8, 2, FALSE, TRUE }, { 3, 0.7, 1, FALSE, TRUE }, { 3, 0.7, 2, FALSE, FALSE },
  { 3, 0.7, 1, TRUE, FALSE }, { 3, 0.7, 1, FALSE, FALSE }, { 2, 0.7, 2, FALSE, FALSE }, { 2, 0.7, 1, FALSE, FALSE },
};

typedef struct
{
  StepMode mode;
  double   pt, line;              /* of the names */
  double   set_pt;                /* of what must be set */
  double   x, width;              /* of one column */
  double   number_width, name_width, length_width, then_width;
  double   soft_width[HW_N_SOFT]; /* 0: not in the list */
  double   gap;
} StepList;

/* Where the block may stand. */
typedef struct
{
  double   x, y, width, bottom;
  gboolean is_wide;               /* across the whole card */
  double   lost;                  /* of the texts above it */
} Place;

static const char *
name_soft (HwSoft soft)
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

static HwTextStyle
number_style (const StepList *list)
{
  return (HwTextStyle) { list->pt, PANGO_WEIGHT_BOLD, FALSE, 1, FALSE };
}

static HwTextStyle
length_style (const StepList *list)
{
  return (HwTextStyle) { MAX (7, round (list->pt * 0.88 * 2) / 2), PANGO_WEIGHT_MEDIUM, TRUE, 1, TRUE };
}

static gboolean
is_left_and_resumed (const HwCardFacts *facts)
{
  for (guint i = 0; i + 1 < facts->steps->len; i++)
    if (g_array_index (facts->steps, HwCardStep, i).then != NULL)
      return TRUE;
  return FALSE;
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
  HwTextStyle label = { 7, PANGO_WEIGHT_SEMIBOLD, TRUE, 1, TRUE };
  HwTextStyle style = { list->set_pt, PANGO_WEIGHT_BOLD, FALSE, 1, TRUE };

  for (int soft = 0; soft < HW_N_SOFT; soft++)
    {
      if (!facts->soft_differs[soft])
        continue;
      list->soft_width[soft] = hw_card_text_width (self, name_soft ((HwSoft) soft), label);
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

static StepList
plan_list (HwCardBuilder *self,
           StepMode       mode,
           double         x,
           double         width)
{
  const HwCardFacts *facts = self->facts;
  StepList list = { .mode = mode, .pt = choose_pt (self, mode), .set_pt = self->type.set, .x = x };
  HwTextStyle label = { 7, PANGO_WEIGHT_SEMIBOLD, TRUE, 1, TRUE };
  HwTextStyle name = { list.pt, PANGO_WEIGHT_MEDIUM, FALSE, 1, FALSE };
  gboolean has_lengths = mode.lengths && (!self->is_small || mode.columns == 1);

  list.line = hw_card_line_height (self, list.pt);
  list.gap = list.pt * self->type.leading;
  list.width = (width - (mode.columns - 1) * COLUMN_GAP) / mode.columns;
  list.then_width = mode.columns == 1
  && is_left_and_resumed (facts) ? MAX (list.pt, hw_card_text_width (self, _("then"), label)) + 6 : 0;
  for (guint i = 0; i < facts->steps->len; i++)
    {
      const HwCardStep *step = &g_array_index (facts->steps, HwCardStep, i);

      list.number_width = MAX (list.number_width, hw_card_text_width (self, step->number, number_style (&list)));
      if (has_lengths)
        list.length_width = MAX (list.length_width, hw_card_text_width (self, step->length, length_style (&list)));
      list.name_width = MAX (list.name_width, hw_card_text_width (self, step->name, name));
    }
  if (mode.beside && (mode.columns > 1 || !self->is_small))
    measure_soft_columns (self, &list);
  /* Lengths and settings stand near their names, not at the far side of an empty row. */
  list.width = MIN (list.width, measure_lead (&list) + list.name_width + 22 + list.length_width + measure_soft (&list)
                                + list.then_width);
  return list;
}

/* How wide a name may be. */
static double
measure_name_room (const StepList *list)
{
  return list->width - measure_lead (list) - list->length_width - 5 - measure_soft (list) - list->then_width;
}

static gboolean
is_readable (const HwCardBuilder *self,
             const StepList      *list)
{
  double least = list->pt * (self->is_small ? LEAST_NAME_EM_SMALL : LEAST_NAME_EM);

  return measure_name_room (list) * list->mode.lines >= MIN (list->name_width, least);
}

static double
add_step_row (HwCardBuilder    *self,
              const StepList   *list,
              const HwCardStep *step,
              double            x,
              double            y)
{
  double tick = list->pt * 0.86;
  double row = measure_soft (list) > 0 ? MAX (list->line,
                                              SET_PITCH * hw_card_line_height (self, list->set_pt)) : list->line;
  double right = x + list->width - list->then_width;
  double name_x = x + measure_lead (list);
  double base = y + (row - list->line) * 0.8;           /* near enough one baseline for two sizes */
  HwTextStyle name = { list->pt, PANGO_WEIGHT_MEDIUM, FALSE, list->mode.lines, FALSE };
  HwTextStyle number = number_style (list);
  HwTextStyle length = length_style (list);
  HwBox *box = hw_card_add_box (self, HW_BOX_TICKBOX, "step-tick", x, base + (list->line - tick) / 2, tick, tick);
  double height;

  box->value[0] = step->done;
  box->step = step->index;
  hw_card_add_text (self, "step-number", step->number, x + tick + 5, base, list->number_width, number);
  height = hw_card_add_text (self, "step-name", step->name, name_x, base, measure_name_room (list), name);
  if (list->length_width > 0)
    hw_card_add_text (self, "step-length", step->length, right - measure_soft (list),
                      base + (list->line - hw_card_line_height (self, length.pt)) * 0.8, list->length_width, length);
  right -= measure_soft (list);
  for (int soft = 0; soft < HW_N_SOFT; soft++)
    if (list->soft_width[soft] > 0)
      {
        HwTextStyle style = { list->set_pt, PANGO_WEIGHT_BOLD, FALSE, 1, TRUE };

        right += list->soft_width[soft] + 8;
        hw_card_add_text (self, "step-soft", step->soft_text[soft], right, y, list->soft_width[soft], style);
      }
  if (step->then != NULL && list->then_width > 0)
    {
      double disc = list->pt * 1.1;

      box = hw_card_add_box (self, HW_BOX_LETTER, "step-then", x + list->width - disc, base + (list->line - disc) / 2,
                             disc, disc);
      box->text = hw_card_cache_keep (self->card->cache, step->then);
    }
  height = MAX (row, height + base - y);
  if (self->is_small && list->mode.columns == 1 && *step->soft_short != '\0')
    {
      HwTextStyle soft = { list->set_pt, PANGO_WEIGHT_BOLD, FALSE, 2, FALSE };

      height += hw_card_add_text (self, "step-soft", step->soft_short, name_x, y + height, x + list->width - name_x,
                                  soft);
    }
  return y + height + list->gap;
}

static void
add_heads (HwCardBuilder  *self,
           const StepList *list,
           double          x,
           double          y)
{
  double right = x + list->width - list->then_width - measure_soft (list);
  HwTextStyle style = { 7, PANGO_WEIGHT_SEMIBOLD, TRUE, 1, TRUE };

  for (int soft = 0; soft < HW_N_SOFT; soft++)
    if (list->soft_width[soft] > 0)
      {
        right += list->soft_width[soft] + 8;
        hw_card_add_text (self, "soft-label", name_soft ((HwSoft) soft), right, y + 1, list->soft_width[soft] + 7,
                          style);
      }
  if (list->then_width > 0)
    hw_card_add_text (self, "then-label", _("then"), x + list->width, y + 1, list->then_width, style);
}

/* ---- the small table by itself: a row for every combination, with the steps that want it ---- */

#define TABLE_GAP 12

static HwTextStyle
value_style (HwCardBuilder *self)
{
  return (HwTextStyle) { self->type.set, PANGO_WEIGHT_BOLD, FALSE, 1, TRUE };
}

/* Of one column; 0 where all steps agree. */
static double
measure_column (HwCardBuilder *self,
                int            soft)
{
  const HwCardFacts *facts = self->facts;
  HwTextStyle label = { 7, PANGO_WEIGHT_SEMIBOLD, TRUE, 1, TRUE };
  double width = 0;

  if (!facts->soft_differs[soft])
    return 0;
  width = hw_card_text_width (self, name_soft ((HwSoft) soft), label);
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

static double
add_soft_table (HwCardBuilder *self,
                double         x,
                double         y,
                double         width)
{
  const HwCardFacts *facts = self->facts;
  HwTextStyle label = { 7, PANGO_WEIGHT_SEMIBOLD, TRUE, 1, FALSE };
  HwTextStyle steps = { self->type.set, PANGO_WEIGHT_MEDIUM, FALSE, 2, FALSE };
  double values_x = x + width - measure_columns (self);
  double below = y + hw_card_add_text (self, "soft-label", _("steps"), x, y, values_x - x, label) + 1;
  double right = values_x;

  label.from_right = TRUE;
  for (int soft = 0; soft < HW_N_SOFT; soft++)
    if (facts->soft_differs[soft])
      {
        right += measure_column (self, soft) + TABLE_GAP;
        hw_card_add_text (self, "soft-label", name_soft ((HwSoft) soft), right, y, measure_column (self, soft), label);
      }
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

/* An attempt that would be turned down whatever comes below. */
static gboolean
is_hopeless (const HwCardBuilder *self,
             const Place         *place,
             double               end)
{
  return end > place->bottom || (self->yield < HW_YIELD_NAMES && self->lost > place->lost);
}

/* Rows of one line each would be too many; found out before anything is measured or set. */
static gboolean
is_too_long (HwCardBuilder *self,
             StepMode       mode,
             const Place   *place,
             guint          n)
{
  double pt = choose_pt (self, mode);
  double gap = pt * self->type.leading;
  guint rows = (n + (guint) mode.columns - 1) / (guint) mode.columns;

  return place->y + rows * (hw_card_line_height (self, pt) + gap) - gap > place->bottom + 0.01;
}

/* @n steps; INFINITY as soon as they cannot fit. */
static double
add_list (HwCardBuilder  *self,
          const StepList *list,
          double          y,
          guint           n,
          const Place    *place)
{
  const HwCardFacts *facts = self->facts;
  guint per_column = (n + (guint) list->mode.columns - 1) / (guint) list->mode.columns;
  double end = y;

  for (int column = 0; column < list->mode.columns; column++)
    {
      double row = y;

      for (guint i = (guint) column * per_column; i < MIN (n, (guint) (column + 1) * per_column); i++)
        {
          row = add_step_row (self, list, &g_array_index (facts->steps, HwCardStep, i),
                              list->x + column * (list->width + COLUMN_GAP), row);
          if (is_hopeless (self, place, row - list->gap))
            return INFINITY;
        }
      end = MAX (end, row);
    }
  return end;
}

/* How much of a wide block the small table takes. */
static double
measure_soft_table (HwCardBuilder *self)
{
  const HwCardFacts *facts = self->facts;
  HwTextStyle style = { self->type.set, PANGO_WEIGHT_MEDIUM, FALSE, 1, FALSE };
  double steps = self->is_small ? 40 : 60;

  for (guint i = 0; i < facts->soft_rows->len; i++)
    steps = fmax (steps, hw_card_text_width (self, g_array_index (facts->soft_rows, HwCardSoftRow, i).steps, style));
  return MIN ((self->right - self->left) * 0.5, steps + measure_columns (self));
}

/* Room for the heading: it goes over all columns unless they have heads of their own beside it. */
static double
measure_heading (const StepList *list,
                 int             columns)
{
  double heads = measure_soft (list) + list->then_width;

  return heads > 0 ? list->width - heads - 4 : columns * (list->width + COLUMN_GAP) - COLUMN_GAP;
}

/* The whole block in one mode, @n steps of it; returns where it ends, INFINITY when it cannot fit or its names could
 * not be known. */
static double
add_steps (HwCardBuilder *self,
           StepMode       mode,
           const Place   *place,
           guint          n)
{
  const HwCardFacts *facts = self->facts;
  gboolean has_table = facts->any_soft && !mode.beside;
  guint missing = facts->steps->len - n;
  StepList list;
  double table, y;

  if (is_too_long (self, mode, place, n))
    return INFINITY;
  table = has_table && place->is_wide ? measure_soft_table (self) : 0;
  list = plan_list (self, mode, place->x, place->width - (table > 0 ? table + COLUMN_GAP * 1.5 : 0));
  if (!is_readable (self, &list))
    return INFINITY;
  y = hw_card_add_heading (self, "steps-label", _("Sew, in this order"), place->x, place->y,
                           measure_heading (&list, mode.columns));
  for (int column = 0; column < mode.columns; column++)
    add_heads (self, &list, place->x + column * (list.width + COLUMN_GAP), place->y);
  y = add_list (self, &list, y, n, place) - list.gap;
  if (isinf (y))
    return y;
  if (missing > 0)
    {
      g_autofree char *more = g_strdup_printf (ngettext ("and %u more, see the order of work",
                                                         "and %u more, see the order of work", missing), missing);
      HwTextStyle style = { list.pt, PANGO_WEIGHT_BOLD, FALSE, 1, FALSE };

      y += hw_card_add_text (self, "steps-more", more, place->x, y, place->width - table, style);
    }
  if (table > 0)
    return fmax (y, add_soft_table (self, place->x + place->width - table, place->y, table));
  return has_table ? add_soft_table (self, place->x, y + 3, place->width) : y;
}

/* Tries the @n_modes, each from a clean start; with names whole, the first that fits, else the one that cuts least.
 * Returns where the list ends, INFINITY when none fits. */
static double
try_modes (HwCardBuilder  *self,
           const StepMode *modes,
           gsize           n_modes,
           const Place    *place)
{
  const guint n_boxes = self->card->boxes->len;
  const guint n = self->facts->steps->len;
  double least = INFINITY;
  gsize best = 0;

  for (gsize i = 0; i < n_modes; i++)
    {
      double end = add_steps (self, modes[i], place, n);
      double lost_here = self->lost - place->lost;

      if (end <= place->bottom && lost_here == 0)
        return end;
      if (end <= place->bottom && lost_here < least)
        {
          least = lost_here;
          best = i;
        }
      g_array_set_size (self->card->boxes, n_boxes);
      self->lost = place->lost;
    }
  if (self->yield < HW_YIELD_NAMES || isinf (least))
    return INFINITY;
  return add_steps (self, modes[best], place, n);
}

/* Where there is no room for a list, their numbers in one line. */
static double
add_numbers (HwCardBuilder *self,
             const Place   *place)
{
  g_autoptr (GString) numbers = g_string_new (NULL);
  HwTextStyle style = { self->type.step, PANGO_WEIGHT_BOLD, FALSE, 1, FALSE };
  g_autofree char *text = NULL;

  for (guint i = 0; i < self->facts->steps->len; i++)
    g_string_append_printf (numbers, "%s%s", i > 0 ? " " : "",
                            g_array_index (self->facts->steps, HwCardStep, i).number);
  /* Translators: numbers of steps, in the order in which they are sewn */
  text = g_strdup_printf (_("Sew in this order: %s"), numbers->str);
  return place->y + hw_card_add_text (self, "steps-more", text, place->x, place->y, place->width, style);
}

/* As many steps as one of the @n_modes holds; "and 3 more" for the others. */
static double
leave_steps_out (HwCardBuilder  *self,
                 const StepMode *modes,
                 gsize           n_modes,
                 const Place    *place)
{
  const guint n_boxes = self->card->boxes->len;
  guint most = 0;
  gsize best = 0;

  for (gsize i = 0; i < n_modes; i++)
    for (guint n = self->facts->steps->len; n > most; n--)
      {
        double end = add_steps (self, modes[i], place, n);

        g_array_set_size (self->card->boxes, n_boxes);
        self->lost = place->lost;
        if (end > place->bottom)
          continue;
        most = n;
        best = i;
      }
  return most > 0 ? add_steps (self, modes[best], place, most) : add_numbers (self, place);
}

double
hw_card_build_steps (HwCardBuilder *self,
                     double         x,
                     double         y,
                     double         width,
                     double         bottom,
                     gboolean       is_wide)
{
  const StepMode *modes = is_wide ? wide_modes : half_modes;
  gsize n_modes = is_wide ? G_N_ELEMENTS (wide_modes) : G_N_ELEMENTS (half_modes);
  const Place place = { x, y, width, bottom, is_wide, self->lost };
  double end = try_modes (self, modes, n_modes, &place);

  if (!isinf (end) || self->yield < HW_YIELD_STEPS)
    return end;
  return leave_steps_out (self, modes, n_modes, &place);
}
