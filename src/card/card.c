/* card.c - one setup card as boxes, and its drawing
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/card-private.h"

#include <pango/pangocairo.h>

#include "card/drawing-private.h"
#include "words/words.h"

#define MOST_DRAWN 8              /* layers of a picture */

G_DEFINE_QUARK (hw-card-error-quark, hw_card_error)

const char * const hw_paper_ids[HW_N_PAPERS] = { "a6", "a5", "a4", "letter" };

static const struct { double width_mm, height_mm; } papers[HW_N_PAPERS] = {
  [HW_PAPER_A6] = { 148, 105 },                  /* ISO 216 */
  [HW_PAPER_A5] = { 210, 148 },
  [HW_PAPER_A4] = { 210, 297 },
  [HW_PAPER_LETTER] = { 8.5 * 25.4, 11 * 25.4 },
};

HwPaper
hw_paper_chosen (const HwPreferences *preferences)
{
  for (int i = 0; i < HW_N_PAPERS; i++)
    if (g_strcmp0 (preferences->paper, hw_paper_ids[i]) == 0)
      return (HwPaper) i;
  return hw_words_locale_letter () ? HW_PAPER_LETTER : HW_PAPER_A5;
}

void
hw_paper_size (HwPaper  paper,
               double  *width_pt,
               double  *height_pt)
{
  g_return_if_fail ((int) paper >= 0 && paper < HW_N_PAPERS);

  *width_pt = papers[paper].width_mm * HW_PT_PER_MM;
  *height_pt = papers[paper].height_mm * HW_PT_PER_MM;
}

void
hw_card_free (HwCard *self)
{
  g_array_unref (self->boxes);
  g_array_unref (self->steps);
  hw_plan_unref (self->plan);
  hw_card_cache_unref (self->cache);
  g_free (self->heading);
  g_free (self);
}

const GArray *
hw_card_get_boxes (const HwCard *self)
{
  return self->boxes;
}

int
hw_card_get_group (const HwCard *self)
{
  return self->group;
}

void
hw_card_get_place (const HwCard *self,
                   int          *number,
                   int          *n_cards)
{
  *number = self->number;
  *n_cards = self->n_cards;
}

const GArray *
hw_card_get_steps (const HwCard *self)
{
  return self->steps;
}

void
hw_card_get_size (const HwCard *self,
                  double       *width_pt,
                  double       *height_pt)
{
  *width_pt = self->width;
  *height_pt = self->height;
}

/* ---- drawing ---- */

static void
draw_text (const HwCard *self,
           cairo_t      *cr,
           const HwBox  *box)
{
  hw_use_ink (cr, box->muted ? &hw_inks_print.mute : &hw_inks_print.ink);
  cairo_move_to (cr, box->x, box->y);
  pango_cairo_show_layout (cr, hw_card_cache_lay_out (self->cache, box));
}

static void
draw_ruler (cairo_t     *cr,
            const HwBox *box)
{
  double width = box->value[0] * HW_PT_PER_MM;

  hw_use_ink (cr, &hw_inks_print.ink);
  cairo_set_line_width (cr, 0.7);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  for (int mm = 0; mm <= (int) box->value[0]; mm++)
    hw_line (cr, box->x + mm * HW_PT_PER_MM, box->y, box->x + mm * HW_PT_PER_MM,
             box->y + box->height * (mm % 10 == 0 ? 1 : mm % 5 == 0 ? 0.65 : 0.4));
  cairo_stroke (cr);
  hw_line (cr, box->x, box->y, box->x + width, box->y);
  cairo_stroke (cr);
}

static void
draw_pin (cairo_t     *cr,
          const HwBox *box)
{
  double dashes[2] = { 1.8, 1.8 };

  hw_use_ink (cr, &hw_inks_print.mute);
  cairo_set_line_width (cr, 0.7);
  cairo_set_dash (cr, dashes, 2, 0);
  cairo_new_path (cr);
  cairo_arc (cr, box->x + box->width / 2, box->y + box->height / 2, box->width / 2, 0, 2 * G_PI);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

static void
draw_along (const HwCard *self,
            cairo_t      *cr,
            const HwBox  *box)
{
  const HwSetup *setup = self->plan->setups[box->step];
  int plies = (int) CLAMP (hw_step_count_layers (setup->step), 1, MOST_DRAWN);

  switch (box->value[1] > 0 ? HW_FIGURE_ROW : self->figure)
    {
    case HW_FIGURE_ALONG:
      hw_draw_seam_along (cr, plies, box->value[0], box->x, box->y, box->width, box->height, &hw_inks_print);
      break;
    case HW_FIGURE_EDGE:
      hw_draw_edge_balance (cr, plies, box->value[0], box->x, box->y, box->width, box->height, &hw_inks_print);
      break;
    case HW_FIGURE_ROW:
    default:
      hw_draw_stitch_row (cr, setup->stitch->mark, box->x, box->y, box->width, box->height, &hw_inks_print);
    }
}

static void
draw_gauge (cairo_t     *cr,
            const HwBox *box)
{
  hw_draw_gauge (cr, box->value[0], (int) box->value[1] + 1, box->value[2] > 0, box->x, box->y, box->height,
                 &hw_inks_print);
}

static void
draw_box (const HwCard *self,
          cairo_t      *cr,
          const HwBox  *box)
{
  const HwGroup *group = hw_plan_get_group (self->plan, self->group);

  switch (box->kind)
    {
    case HW_BOX_TEXT:
      draw_text (self, cr, box);
      break;
    case HW_BOX_LINE:
      hw_use_ink (cr, box->muted ? &hw_inks_print.line : &hw_inks_print.ink);
      cairo_rectangle (cr, box->x, box->y, box->width, box->height);
      cairo_fill (cr);
      break;
    case HW_BOX_DIAL:
      hw_draw_dial (cr, hw_card_cache_get_plain (self->cache), group->machine, box->value[0], box->value[1],
                    box->value[2], box->x, box->y, box->width, box->height, &hw_inks_print);
      break;
    case HW_BOX_SECTION:
      hw_draw_seam_across (cr, self->plan->setups[box->step]->seam,
                           hw_step_count_layers (self->plan->setups[box->step]->step), box->x, box->y, box->width,
                           box->height, &hw_inks_print);
      break;
    case HW_BOX_ALONG:
      draw_along (self, cr, box);
      break;
    case HW_BOX_GAUGE:
      draw_gauge (cr, box);
      break;
    case HW_BOX_RULER:
      draw_ruler (cr, box);
      break;
    case HW_BOX_LETTER:
      hw_draw_letter (cr, hw_card_cache_get_plain (self->cache), box->text, box->x, box->y, box->width,
                      &hw_inks_print);
      break;
    case HW_BOX_TICKBOX:
      hw_draw_cross_stitch (cr, box->value[0] > 0, box->x, box->y, box->width, &hw_inks_print);
      break;
    case HW_BOX_PIN:
    default:
      draw_pin (cr, box);
    }
}

void
hw_card_draw (const HwCard *self,
              cairo_t      *cr)
{
  for (guint i = 0; i < self->boxes->len; i++)
    {
      cairo_save (cr);
      cairo_new_path (cr);
      draw_box (self, cr, &g_array_index (self->boxes, HwBox, i));
      cairo_restore (cr);
    }
}
