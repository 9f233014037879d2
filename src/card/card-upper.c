/* card-upper.c - the upper half of a card: head and set-up
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <math.h>

#define LABEL_LEAST_PT 7

/* "card 1 of 2", left of @right; how many there are is known when all are laid out. Returns the room it takes. */
static double
add_place (HwCardBuilder *self,
           double         right,
           double         bottom)
{
  HwTextStyle style = { self->type.set, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 1, TRUE };
  g_autofree char *widest = hw_card_name_place (88, 88);
  double width = hw_card_text_width (self, widest, style);

  if (self->is_only)
    return 0;
  hw_card_add_text (self, "card-place", widest, right, bottom - hw_card_line_height (self, style.pt) - 2.5, width,
                    style);
  return width + (self->is_small ? 8 : 12);
}

double
hw_card_build_head (HwCardBuilder *self)
{
  const HwCardFacts *facts = self->facts;
  const HwCardType *type = &self->type;
  double disc = self->is_small ? 17 : 24;
  double pin = self->is_small ? 7 : 9;
  double room = self->right - self->left - disc;
  HwTextStyle machine = { type->set, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 1, TRUE };
  HwTextStyle title = { type->title, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 1, FALSE };
  double machine_room = room * 0.42;
  double machine_width;
  double y = self->top;
  double bottom = y + MAX (disc, hw_card_line_height (self, type->title));
  double title_room;
  HwBox *box;

  machine.pt = hw_card_fit_text (self, facts->machine, machine_room, machine, machine.pt - 2);
  machine_width = MIN (hw_card_text_width (self, facts->machine, machine), machine_room);
  hw_card_add_box (self, HW_BOX_PIN, "pin", (self->card->width - pin) / 2, self->is_small ? 4 : 5, pin, pin);

  title_room = room - machine_width - 18;
  title_room -= add_place (self, self->right - disc - 6 - machine_width - (self->is_small ? 8 : 12), bottom);
  title.pt = hw_card_fit_text (self, facts->title, title_room, title, self->is_small ? 9 : 11);
  hw_card_add_text (self, "title", facts->title, self->left, bottom - hw_card_line_height (self, title.pt) - 1.5,
                    title_room, title);
  hw_card_add_text (self, "machine", facts->machine, self->right - disc - 6,
                    bottom - hw_card_line_height (self, machine.pt) - 2.5,
                    machine_width, machine);
  box = hw_card_add_box (self, HW_BOX_LETTER, "letter", self->right - disc, bottom - disc - 1, disc, disc);
  box->text = hw_card_cache_keep (self->card->cache, facts->letter);
  return hw_card_add_rule (self, "head-rule", bottom + 2, TRUE);
}

/* ---- set-up: four columns ---- */

static gboolean
has_room_for_label (HwCardBuilder *self,
                    const char    *text,
                    double         width)
{
  const HwTextStyle least = { LABEL_LEAST_PT, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, FALSE };

  return hw_card_text_width (self, text, least) <= width;
}

static double
add_label (HwCardBuilder *self,
           const char    *role,
           const char    *text,
           double         x,
           double         y,
           double         width)
{
  HwTextStyle style = { self->type.label, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, FALSE };

  style.pt = hw_card_fit_text (self, text, width, style, LABEL_LEAST_PT);
  return y + hw_card_add_text (self, role, text, x, y, width, style);
}

double
hw_card_add_value (HwCardBuilder *self,
                   const char    *role,
                   const char    *text,
                   HwCardColumn   column,
                   double         y,
                   double         pt,
                   int            weight)
{
  HwTextStyle style = { pt, weight, HW_LOOK_PLAIN, 1, FALSE };
  double least = self->is_small ? 9 : 11;

  if (text == NULL || *text == '\0')
    return y;
  style.pt = hw_card_fit_text (self, text, column.width, style, MAX (least, pt * 0.82));
  style.lines = 3;
  return y + hw_card_add_text (self, role, text, column.x, y, column.width, style);
}

/* Small, behind what is @taken of a line that is @line high; FALSE: there is no room for it. */
static gboolean
add_system_beside (HwCardBuilder *self,
                   HwCardColumn   column,
                   double         y,
                   double         taken,
                   double         line)
{
  const HwTextStyle style = { self->type.label, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, FALSE };
  const char *text = self->facts->needle_system;
  double x = taken + style.pt;
  double width = hw_card_text_width (self, text, style);

  if (x + width > column.width)
    return FALSE;
  hw_card_add_text (self, "needle-system", text, column.x + x,
                    y + 0.8 * (line - hw_card_line_height (self, style.pt)), width, style);
  return TRUE;
}

static double
add_system (HwCardBuilder *self,
            HwCardColumn   column,
            double         y)
{
  const HwTextStyle style = { self->type.label, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 2, FALSE };

  return y + 1 + hw_card_add_text (self, "needle-system", self->facts->needle_system, column.x, y + 1, column.width,
                                   style);
}

/* On a small card the system stands behind the heading, so that it takes no line of its own. */
static double
add_needle_label (HwCardBuilder *self,
                  HwCardColumn   column,
                  double         y,
                  gboolean      *has_system)
{
  const HwTextStyle style = { self->type.label, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, FALSE };
  const char *text = _("Needle");

  *has_system = self->is_small && add_system_beside (self, column, y, hw_card_text_width (self, text, style),
                                                     hw_card_line_height (self, style.pt));
  return add_label (self, "needle-label", text, column.x, y, column.width);
}

/* Packets of it are what most have at hand: as large as what else must be read, the system small behind it. */
static double
add_universal (HwCardBuilder *self,
               HwCardColumn   column,
               double         y,
               gboolean      *has_system)
{
  const HwTextStyle style = { self->type.set, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 1, FALSE };
  const char *text = self->facts->universal;

  if (text == NULL)
    return y;
  *has_system = *has_system || add_system_beside (self, column, y, hw_card_text_width (self, text, style),
                                                  hw_card_line_height (self, style.pt));
  return hw_card_add_value (self, "needle-universal", text, column, y, style.pt, style.weight);
}

static double
build_needle (HwCardBuilder *self,
              double         y)
{
  HwCardColumn column = hw_card_column (self, 0);
  HwTextStyle size = { self->type.size, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 1, FALSE };
  const char *note = self->facts->needle_note != NULL || self->without_which ? self->facts->needle_note
                                                                             : self->facts->needle_which;
  gboolean has_system;

  y = add_needle_label (self, column, y, &has_system);
  size.pt = hw_card_fit_text (self, self->facts->size, column.width, size, self->type.point);
  /* Large figures carry air above them that no letter fills. */
  y += hw_card_add_text (self, "needle-size", self->facts->size, column.x, y - size.pt * 0.06, column.width, size);
  y -= size.pt * 0.1;
  y = hw_card_add_value (self, "needle-point", self->facts->point, column, y, self->type.point, PANGO_WEIGHT_SEMIBOLD);
  y = add_universal (self, column, y, &has_system);
  y = hw_card_add_value (self, "needle-note", note, column, y, self->type.set, PANGO_WEIGHT_MEDIUM);
  return has_system ? y : add_system (self, column, y);
}

static double
build_threads (HwCardBuilder *self,
               double         y)
{
  const HwCardFacts *facts = self->facts;
  HwCardColumn column = hw_card_column (self, 1);
  double note = self->type.set;

  y = add_label (self, "thread-label", _("Thread"), column.x, y, column.width) + 1;
  y = hw_card_add_value (self, "needle-thread", facts->thread, column, y, self->type.thread, PANGO_WEIGHT_BOLD);
  if (self->is_small && facts->both_note != NULL)
    return hw_card_add_value (self, "both-threads-note", facts->both_note, column, y, note, PANGO_WEIGHT_MEDIUM);
  y = hw_card_add_value (self, "needle-thread-note", facts->thread_note, column, y, note, PANGO_WEIGHT_MEDIUM) + 3;
  y = hw_card_add_value (self, "bobbin-thread", facts->bobbin, column, y, self->type.bobbin, PANGO_WEIGHT_SEMIBOLD);
  return hw_card_add_value (self, "bobbin-thread-note", facts->bobbin_note, column, y, note, PANGO_WEIGHT_MEDIUM);
}

static double
build_stitch (HwCardBuilder *self,
              double         y)
{
  const HwCardFacts *facts = self->facts;
  HwCardColumn column = hw_card_column (self, 2);

  y = add_label (self, "stitch-label", facts->stitch_label, column.x, y, column.width) + 1;
  y = hw_card_add_value (self, "stitch", facts->stitch, column, y, self->type.stitch, PANGO_WEIGHT_BOLD);
  y = hw_card_add_value (self, "stitch-length", facts->length, column, y + 1, self->type.length, PANGO_WEIGHT_SEMIBOLD);
  return hw_card_add_value (self, "stitch-width", facts->width, column, y, self->type.width, PANGO_WEIGHT_SEMIBOLD);
}

static HwBox *
add_dial (HwCardBuilder *self,
          double         x,
          double         y,
          double         width,
          double         height)
{
  HwBox *box = hw_card_add_box (self, HW_BOX_DIAL, "dial", x, y, width, height);

  box->value[0] = self->facts->start;
  box->value[1] = self->facts->low;
  box->value[2] = self->facts->high;
  return box;
}

/* Upright wheels or windows side by side, each with its name. */
static double
add_dial_row (HwCardBuilder *self,
              HwCardColumn   column,
              double         y)
{
  const HwCardFacts *facts = self->facts;
  HwTextStyle style = { 7, PANGO_WEIGHT_MEDIUM, HW_LOOK_MUTED, 2, FALSE };
  double height = self->type.wheel * 1.25;
  double pitch = column.width / facts->n_dials;
  double names = 0;

  for (int i = 0; i < facts->n_dials; i++)
    {
      add_dial (self, column.x + i * pitch, y, MIN (pitch - 4, 30), height)->value[3] = i;
      names = fmax (names, hw_card_add_text (self, "dial-name", facts->dial_names[i], column.x + i * pitch,
                                            y + height + 1, pitch - 2, style));
    }
  return y + height + 1 + names;
}

/* Beside a knob, below all else. Returns where it ends. */
static double
add_alike (HwCardBuilder *self,
           HwCardColumn   column,
           double         y,
           double         height,
           gboolean       is_knob)
{
  g_autofree char *text = g_strdup_printf (_("all %d dials alike"), self->facts->n_dials);
  HwTextStyle style = { 7.5, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 4, FALSE };
  guint before = self->card->boxes->len;
  double end;

  if (!is_knob)
    return y + height + 1 + hw_card_add_text (self, "dial-name", text, column.x, y + height + 1, column.width, style);
  end = y + hw_card_add_text (self, "dial-name", text, column.x + height + 6, y, column.width - height - 6, style);
  if (end < y + height)
    hw_card_move_down (self, before, (y + height - end) / 2);
  return MAX (end, y + height);
}

/* One drawing the width of the column; knobs are too small to draw for each thread, as is all on a small card, and all
 * start alike. */
static double
add_dial_drawing (HwCardBuilder *self,
                  HwCardColumn   column,
                  double         y)
{
  const HwCardFacts *facts = self->facts;
  const HwGroup *group = hw_plan_get_group (self->card->plan, self->card->group);
  gboolean is_knob = group->machine->dial_form == HW_DIAL_KNOB;
  double height = is_knob ? self->type.wheel * (self->is_small ? 1.75 : 1.6) : self->type.wheel;

  if (facts->n_dials > 1 && !is_knob && !self->is_small)
    return add_dial_row (self, column, y);
  add_dial (self, column.x, y, is_knob ? height : column.width, height);
  return facts->n_dials > 1 ? add_alike (self, column, y, height, is_knob) : y + height;
}

/* The longest that can be read. */
static const char *
choose_dial_label (HwCardBuilder *self,
                   double         width)
{
  const HwCardFacts *facts = self->facts;
  int i = 0;

  while (i + 1 < facts->n_dial_labels && !has_room_for_label (self, facts->dial_labels[i], width))
    i++;
  return facts->dial_labels[i];
}

double
hw_card_build_dial (HwCardBuilder *self,
                    double         y)
{
  const HwCardFacts *facts = self->facts;
  HwCardColumn column = hw_card_column (self, 3);

  y = add_label (self, "dial-label", choose_dial_label (self, column.width), column.x, y, column.width);
  y = add_dial_drawing (self, column, y + 2);
  y = hw_card_add_value (self, "dial-start", facts->dial_start, column, y + 2, self->type.dial, PANGO_WEIGHT_BOLD);
  return hw_card_add_value (self, "dial-likely", facts->dial_likely, column, y, self->type.set, PANGO_WEIGHT_MEDIUM);
}

double
hw_card_build_setup (HwCardBuilder *self,
                     double         y)
{
  double end = build_needle (self, y);

  end = fmax (end, build_threads (self, y));
  end = fmax (end, build_stitch (self, y));
  end = fmax (end, hw_card_build_dial (self, y));
  return hw_card_add_rule (self, "setup-rule", end + (self->is_small ? 2.5 : 4), FALSE);
}
