/* sheets.c - cards on sheets of paper, with cut marks
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Nothing is ever scaled, or the gauge would lie: where two or four A-size cards do not fit a Letter sheet, the
 * cards are laid out to its half or quarter instead.
 */

#include "config.h"

#include "card/sheets-private.h"

#include "card/drawing-private.h"

#include <pango/pangocairo.h>

#define CUT_MARK_PT 9.0

static void
set_cells (HwSheets *self,
           int       per_sheet)
{
  double half = self->height / 2;
  double a5_width;
  double a5_height;

  hw_paper_size (HW_PAPER_A5, &a5_width, &a5_height);
  self->is_small = self->paper == HW_PAPER_A6 || per_sheet == 4;
  self->is_turned = per_sheet == 4;
  self->per_sheet = per_sheet;
  switch (per_sheet)
    {
    case 4:
      self->card_width = half;                   /* landscape cards, turned to stand upright in each quarter */
      self->card_height = self->width / 2;
      break;
    case 2:
      self->card_width = self->width;
      self->card_height = half;
      break;
    default:
      self->card_width = self->is_whole ? self->width : MIN (a5_width, self->width);
      self->card_height = self->is_whole ? self->height : a5_height;
    }
}

/* A place may be left empty. */
static void
free_card (gpointer card)
{
  if (card != NULL)
    hw_card_free (card);
}

HwSheets *
hw_sheets_new_empty (const char           *title,
                     const HwSheetOptions *options)
{
  HwSheets *self = g_new0 (HwSheets, 1);
  gboolean is_large = options->paper == HW_PAPER_A4 || options->paper == HW_PAPER_LETTER;
  int per_sheet = is_large && (options->per_sheet == 2 || options->per_sheet == 4) ? options->per_sheet : 1;

  self->paper = options->paper;
  self->title = g_strdup (title);
  self->is_whole = !is_large;
  hw_paper_size (options->paper, &self->width, &self->height);
  set_cells (self, per_sheet);
  self->cards = g_ptr_array_new_with_free_func (free_card);
  self->cache = hw_card_cache_new (pango_cairo_font_map_get_default (), NULL);
  return self;
}

void
hw_sheets_fill_page (HwSheets *self)
{
  while (self->cards->len % (guint) self->per_sheet != 0)
    g_ptr_array_add (self->cards, NULL);
}

void
hw_sheets_add (HwSheets     *self,
               const HwPlan *plan,
               int           group)
{
  if (group >= 0 && (guint) group < plan->groups->len)
    g_ptr_array_add (self->cards,
                     hw_card_layout_sized (plan, group, self->is_small, self->card_width, self->card_height,
                                           self->cache));
}

HwSheets *
hw_sheets_new (const HwPlan         *plan,
               const HwSheetOptions *options)
{
  HwSheets *self = hw_sheets_new_empty (plan->project->title, options);
  gsize n = options->groups != NULL ? options->n_groups : plan->groups->len;

  for (gsize i = 0; i < n; i++)
    hw_sheets_add (self, plan, options->groups != NULL ? options->groups[i] : (int) i);
  return self;
}

void
hw_sheets_free (HwSheets *self)
{
  g_ptr_array_unref (self->cards);
  hw_card_cache_unref (self->cache);
  g_free (self->title);
  g_free (self);
}

int
hw_sheets_get_n_pages (const HwSheets *self)
{
  return ((int) self->cards->len + self->per_sheet - 1) / self->per_sheet;
}

const HwCard *
hw_sheets_get_card (const HwSheets *self,
                    guint           index)
{
  return index < self->cards->len ? self->cards->pdata[index] : NULL;
}

void
hw_sheets_get_size (const HwSheets *self,
                    double         *width_pt,
                    double         *height_pt)
{
  *width_pt = self->width;
  *height_pt = self->height;
}

/* Short strokes at the edges of the sheet, where a guillotine or a rule is laid. */
static void
draw_cut_marks (const HwSheets *self,
                cairo_t        *cr)
{
  cairo_save (cr);
  hw_use_ink (cr, &hw_inks_print.mute);
  cairo_set_line_width (cr, 0.5);
  if (self->per_sheet >= 2)
    {
      hw_line (cr, 0, self->height / 2, CUT_MARK_PT, self->height / 2);
      hw_line (cr, self->width - CUT_MARK_PT, self->height / 2, self->width, self->height / 2);
    }
  if (self->per_sheet == 4)
    {
      hw_line (cr, self->width / 2, 0, self->width / 2, CUT_MARK_PT);
      hw_line (cr, self->width / 2, self->height - CUT_MARK_PT, self->width / 2, self->height);
      hw_line (cr, self->width / 2 - CUT_MARK_PT / 2, self->height / 2, self->width / 2 + CUT_MARK_PT / 2,
               self->height / 2);
      hw_line (cr, self->width / 2, self->height / 2 - CUT_MARK_PT / 2, self->width / 2,
               self->height / 2 + CUT_MARK_PT / 2);
    }
  if (self->per_sheet == 1 && self->card_height < self->height - 1)
    {
      hw_line (cr, 0, self->card_height, CUT_MARK_PT, self->card_height);
      hw_line (cr, self->card_width - CUT_MARK_PT, self->card_height, self->card_width, self->card_height);
    }
  if (self->per_sheet == 1 && self->card_width < self->width - 1)
    hw_line (cr, self->card_width, 0, self->card_width, CUT_MARK_PT);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
move_to_cell (const HwSheets *self,
              cairo_t        *cr,
              int             cell)
{
  if (!self->is_turned)
    {
      cairo_translate (cr, 0, cell * self->card_height);
      return;
    }
  cairo_translate (cr, (cell % 2 + 1) * self->card_height, (cell / 2) * self->card_width);
  cairo_rotate (cr, G_PI / 2);
}

void
hw_sheets_draw (const HwSheets *self,
                int             page,
                cairo_t        *cr)
{
  g_return_if_fail (page >= 0 && page < hw_sheets_get_n_pages (self));

  for (int cell = 0; cell < self->per_sheet; cell++)
    {
      guint index = (guint) (page * self->per_sheet + cell);

      if (hw_sheets_get_card (self, index) == NULL)
        break;
      cairo_save (cr);
      move_to_cell (self, cr, cell);
      hw_card_draw (self->cards->pdata[index], cr);
      cairo_restore (cr);
    }
  draw_cut_marks (self, cr);
}
