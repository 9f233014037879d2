/* sheets.c - cards on sheets of paper, with cut marks
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Nothing is ever scaled, or the gauge would lie: where two or four A-size cards do not fit a Letter sheet, the
 * cards are laid out to its half or quarter instead. A group's cards are laid out when they are asked for; until then
 * it is taken to have one.
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
  double upright_width = self->width;
  double a5_width;
  double a5_height;

  hw_paper_size (HW_PAPER_A5, &a5_width, &a5_height);
  self->is_small = self->paper == HW_PAPER_A6 || per_sheet == 4;
  self->per_sheet = per_sheet;
  switch (per_sheet)
    {
    case 4:
      self->width = self->height;                /* the sheet lies, as its cards are read */
      self->height = upright_width;
      self->card_width = self->width / 2;
      self->card_height = self->height / 2;
      break;
    case 2:
      self->card_width = self->width;
      self->card_height = self->height / 2;
      break;
    default:
      self->card_width = self->is_whole ? self->width : MIN (a5_width, self->width);
      self->card_height = self->is_whole ? self->height : a5_height;
    }
}

static void
clear_entry (gpointer data)
{
  HwSheetsEntry *entry = data;

  hw_plan_unref (entry->plan);
  g_clear_pointer (&entry->cards, g_ptr_array_unref);
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
  self->entries = g_array_new (FALSE, TRUE, sizeof (HwSheetsEntry));
  g_array_set_clear_func (self->entries, clear_entry);
  self->cache = hw_card_cache_new (pango_cairo_font_map_get_default (), NULL);
  return self;
}

void
hw_sheets_fill_page (HwSheets *self)
{
  self->begins_sheet = TRUE;
}

void
hw_sheets_add (HwSheets     *self,
               const HwPlan *plan,
               int           group)
{
  HwSheetsEntry entry = { hw_plan_ref ((HwPlan *) plan), group, self->begins_sheet, NULL };

  if (group < 0 || (guint) group >= plan->groups->len)
    {
      clear_entry (&entry);
      return;
    }
  self->begins_sheet = FALSE;
  g_array_append_val (self->entries, entry);
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
  g_array_unref (self->entries);
  hw_card_cache_unref (self->cache);
  g_free (self->title);
  g_free (self);
}

/* ---- one group after the other ---- */

static GPtrArray *
lay_out (HwSheets      *self,
         HwSheetsEntry *entry)
{
  if (entry->cards == NULL)
    entry->cards = hw_card_layout_sized (entry->plan, entry->group, self->is_small, self->card_width,
                                         self->card_height, self->cache);
  return entry->cards;
}

gboolean
hw_sheets_lay_out_next (HwSheets *self)
{
  g_return_val_if_fail (self != NULL, FALSE);

  for (guint i = 0; i < self->entries->len; i++)
    {
      HwSheetsEntry *entry = &g_array_index (self->entries, HwSheetsEntry, i);

      if (entry->cards != NULL)
        continue;
      lay_out (self, entry);
      return TRUE;
    }
  return FALSE;
}

/* Where in the order printed the first card of @entry comes, when as many come before it. */
static guint
find_place (const HwSheets      *self,
            const HwSheetsEntry *entry,
            guint                n_before)
{
  guint per_sheet = (guint) self->per_sheet;

  return entry->begins_sheet ? (n_before + per_sheet - 1) / per_sheet * per_sheet : n_before;
}

/* The card at @index, as far as the numbers of cards are known; groups that come at @from or later are laid out. */
static const HwCard *
find_card (HwSheets *self,
           guint     index,
           guint     from)
{
  guint place = 0;

  for (guint i = 0; i < self->entries->len; i++)
    {
      HwSheetsEntry *entry = &g_array_index (self->entries, HwSheetsEntry, i);
      guint n;

      place = find_place (self, entry, place);
      if (index < place)
        return NULL;
      n = place >= from ? lay_out (self, entry)->len : entry->cards != NULL ? entry->cards->len : 1;
      if (index < place + n)
        return lay_out (self, entry)->pdata[index - place];
      place += n;
    }
  return NULL;
}

int
hw_sheets_get_n_pages (HwSheets *self)
{
  guint n = 0;

  for (guint i = 0; i < self->entries->len; i++)
    {
      HwSheetsEntry *entry = &g_array_index (self->entries, HwSheetsEntry, i);

      n = find_place (self, entry, n) + lay_out (self, entry)->len;
    }
  return ((int) n + self->per_sheet - 1) / self->per_sheet;
}

const HwCard *
hw_sheets_get_card (HwSheets *self,
                    guint     index)
{
  return find_card (self, index, 0);
}

const HwCard *
hw_sheets_get_first_on (HwSheets *self,
                        int       page)
{
  guint first = (guint) (MAX (page, 0) * self->per_sheet);

  return find_card (self, first, first);
}

/* Which of a group's cards lists @step; the first where none does. */
static guint
find_listing (const GPtrArray *cards,
              gsize            step)
{
  for (guint i = 0; i < cards->len; i++)
    {
      const GArray *steps = hw_card_get_steps (cards->pdata[i]);

      for (guint j = 0; j < steps->len; j++)
        if (g_array_index (steps, gsize, j) == step)
          return i;
    }
  return 0;
}

int
hw_sheets_find_page (HwSheets     *self,
                     const HwPlan *plan,
                     int           group,
                     gsize         step)
{
  guint place = 0;

  for (guint i = 0; i < self->entries->len; i++)
    {
      HwSheetsEntry *entry = &g_array_index (self->entries, HwSheetsEntry, i);

      place = find_place (self, entry, place);
      if (entry->plan == plan && entry->group == group)
        return (int) (place + find_listing (lay_out (self, entry), step)) / self->per_sheet;
      place += entry->cards != NULL ? entry->cards->len : 1;
    }
  return -1;
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

void
hw_sheets_find_cell (const HwSheets *self,
                     int             cell,
                     double         *x,
                     double         *y)
{
  int n_across = self->per_sheet == 4 ? 2 : 1;

  *x = (cell % n_across) * self->card_width;
  *y = (cell / n_across) * self->card_height;
}

void
hw_sheets_draw (HwSheets *self,
                int       page,
                cairo_t  *cr)
{
  guint first = (guint) (page * self->per_sheet);

  g_return_if_fail (page >= 0);

  for (guint cell = 0; cell < (guint) self->per_sheet; cell++)
    {
      const HwCard *card = find_card (self, first + cell, first);
      double x, y;

      if (card == NULL)
        break;
      cairo_save (cr);
      hw_sheets_find_cell (self, (int) cell, &x, &y);
      cairo_translate (cr, x, y);
      hw_card_draw (card, cr);
      cairo_restore (cr);
    }
  draw_cut_marks (self, cr);
}
