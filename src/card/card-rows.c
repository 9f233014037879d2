/* card-rows.c - the rows of a card's list: measured for its columns, and set one by one
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is set anew stands across the list above the step from which on it holds, and where the set-up is left for
 * another one the list says so. A name runs to two lines. Steps by hand are slanted and paler, and have neither length
 * nor settings.
 */

#include "config.h"

#include "card/card-rows-private.h"

#include <glib/gi18n.h>
#include <math.h>

#define HEAD_PT 7
#define SET_PITCH 0.91            /* rows of single lines may stand closer than the air over their letters */
#define LEAST_NAME_EM 7           /* for a line of a name: room for a long word */
#define NAME_LINES 2
#define NOTE_LINES 8

static HwTextStyle
number_style (const HwStepList *list)
{
  return (HwTextStyle) { list->pt, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 1, FALSE };
}

static HwTextStyle
length_style (const HwStepList *list)
{
  return (HwTextStyle) { MAX (7, round (list->pt * 0.88 * 2) / 2), PANGO_WEIGHT_MEDIUM, HW_LOOK_MUTED, 1, TRUE };
}

static HwTextStyle
hand_style (const HwStepList *list)
{
  return (HwTextStyle) { list->pt, PANGO_WEIGHT_MEDIUM, HW_LOOK_HAND, 1, FALSE };
}

static HwTextStyle
set_style (const HwStepList *list)
{
  return (HwTextStyle) { list->set_pt, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 1, TRUE };
}

/* The columns right of the length, with the air before each. */
static double
measure_columns (const HwStepList *list)
{
  return (list->layers_width > 0 ? list->layers_width + 8 : 0) + (list->edge_width > 0 ? list->edge_width + 8 : 0);
}

/* Tick box and number. */
static double
measure_lead (const HwStepList *list)
{
  return list->pt * 0.86 + 5 + list->number_width + 4;
}

/* How far from the edge, under its label. */
static double
measure_edge (HwCardBuilder    *self,
              const HwStepList *list)
{
  const HwCardFacts *facts = self->facts;
  HwTextStyle label = { HEAD_PT, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, TRUE };
  double width;

  if (!facts->soft_differs[HW_SOFT_LINE] || list->has_line)
    return 0;
  width = hw_card_text_width (self, facts->line_label, label);
  for (guint i = 0; i < facts->steps->len; i++)
    width = fmax (width, hw_card_text_width (self, g_array_index (facts->steps, HwCardStep, i).edge,
                                             set_style (list)));
  return width;
}

static gboolean
is_counted (const HwCardStep *step,
            HwClothMode       mode)
{
  return step->layers != NULL && (mode == HW_CLOTH_COUNTED || (mode == HW_CLOTH_NAMED && step->cloth == step->layers));
}

static double
measure_layers (HwCardBuilder    *self,
                const HwStepList *list)
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

double
hw_card_list_pt (const HwCardBuilder *self,
                 HwStepMode           mode)
{
  return MAX (self->is_small ? 7.5 : 8, round (self->type.step * mode.share * 2) / 2);
}

/* The widest row of a step by hand. */
static double
measure_hand (HwCardBuilder    *self,
              const HwStepList *list)
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

HwStepList
hw_card_plan_list (HwCardBuilder *self,
                   HwStepMode     mode,
                   double         x,
                   double         width,
                   gboolean       is_wide)
{
  const HwCardFacts *facts = self->facts;
  HwStepList list = { .mode = mode, .pt = hw_card_list_pt (self, mode), .set_pt = self->type.set, .x = x };
  HwTextStyle name = { list.pt, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 1, FALSE };

  list.line = hw_card_line_height (self, list.pt);
  list.gap = list.pt * self->type.leading;
  list.width = (width - (mode.columns - 1) * HW_LIST_GAP) / mode.columns;
  list.has_line = self->is_small && !is_wide;
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
measure_name_room (const HwStepList *list)
{
  return list->width - measure_lead (list) - list->length_width - 5 - measure_columns (list);
}

gboolean
hw_card_is_list_readable (const HwStepList *list)
{
  return measure_name_room (list) >= MIN (list->name_width, list->pt * LEAST_NAME_EM);
}

static void
add_tick (HwCardBuilder    *self,
          const HwStepList *list,
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

/* Under the row, as wide as the list may be. Returns how high it is. */
static double
add_note (HwCardBuilder    *self,
          const HwStepList *list,
          const HwCardStep *step,
          double            x,
          double            y)
{
  HwTextStyle style = { length_style (list).pt, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, NOTE_LINES, FALSE };

  return hw_card_add_text (self, "step-note", step->note, x, y, list->rule_width - measure_lead (list), style);
}

static double
add_hand_row (HwCardBuilder    *self,
              const HwStepList *list,
              const HwCardStep *step,
              double            x,
              double            y)
{
  double name_x = x + measure_lead (list);
  HwTextStyle style = hand_style (list);
  double room = x + list->width - name_x;
  double height;

  add_tick (self, list, step, x, y);
  hw_card_add_text (self, "hand-number", step->number, x + list->pt * 0.86 + 5, y, list->number_width, style);
  style.lines = NAME_LINES;
  height = hw_card_add_text (self, "hand-name", step->name, name_x, y, room, style);
  y += MAX (height, list->line);
  return y + add_note (self, list, step, name_x, y) + list->gap;
}

/* Beside the name: length, layers, how far from the edge. */
static void
add_columns (HwCardBuilder    *self,
             const HwStepList *list,
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
           const HwStepList *list,
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
              const HwStepList *list,
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
  if (list->mode.cloth == HW_CLOTH_NAMED && !is_counted (step, HW_CLOTH_NAMED))
    below += add_cloth (self, list, step, name_x, below, cloth_room);
  if (step->note != NULL && list->edge_width > 0)
    below = MAX (below, y + hw_card_line_height (self, list->set_pt));
  below += add_note (self, list, step, name_x, below);
  return below + list->gap;
}

/* ---- between the rows ---- */

static double
add_thin_rule (HwCardBuilder    *self,
               const HwStepList *list,
               double            x,
               double            y)
{
  if (list->edge_width > 0)
    y += (1 - SET_PITCH) * hw_card_line_height (self, list->set_pt);
  hw_card_add_box (self, HW_BOX_LINE, "change-rule", x, y, list->rule_width, 0.6)->muted = TRUE;
  return y + 0.6 + list->gap * 0.5;
}

/* Why the dial is another one, as long as there is room for on one line. */
static void
add_why (HwCardBuilder    *self,
         const HwStepList *list,
         const HwCardStep *step,
         double            x,
         double            y,
         double            width)
{
  const char * const ways[] = { step->change_why, step->change_why_short };
  HwTextStyle why = length_style (list);

  why.from_right = FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (ways) && ways[i] != NULL; i++)
    if (hw_card_text_width (self, ways[i], why) <= width)
      {
        hw_card_add_text (self, "step-why", ways[i], x, y - hw_card_line_height (self, why.pt) * 0.7, width, why);
        return;
      }
}

/* What is set anew, and why. */
static double
add_change (HwCardBuilder    *self,
            const HwStepList *list,
            const HwCardStep *step,
            double            x,
            double            y)
{
  const char *change = list->has_line ? step->change_with_line : step->change;
  HwTextStyle style = { list->set_pt, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 3, FALSE };
  double width, height;

  if (change == NULL)
    return y;
  y = add_thin_rule (self, list, x, y);
  height = hw_card_add_text (self, "step-change", change, x, y, list->rule_width, style);
  width = hw_card_text_width (self, change, style) + list->set_pt;
  add_why (self, list, step, x + width, y + height * 0.7, list->rule_width - width);
  return y + height + list->gap * 0.5;
}

/* Where the set-up is left, to be come back to. */
static double
add_then (HwCardBuilder    *self,
          const HwStepList *list,
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
  return y + MAX (height, disc) + list->gap * 0.5 + 1;
}

double
hw_card_add_list_row (HwCardBuilder    *self,
                      const HwStepList *list,
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
double
hw_card_add_list_head (HwCardBuilder    *self,
                       const HwStepList *list,
                       double            x,
                       double            y)
{
  HwTextStyle style = { HEAD_PT, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, TRUE };
  double right = x + list->width;

  if (list->edge_width <= 0)
    return y;
  y += 1 + hw_card_add_text (self, "edge-label", self->facts->line_label, right, y + 1, list->edge_width + 7, style)
           * SET_PITCH;
  return y + hw_card_add_text (self, "edge-unit", _("mm"), right, y, list->edge_width, style);
}
