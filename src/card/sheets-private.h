/* sheets-private.h - the inside of a set of sheets
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "card/card-private.h"

G_BEGIN_DECLS

/* The cards of one group, where they are laid out by now. */
typedef struct
{
  HwPlan    *plan;
  int        group;
  gboolean   begins_sheet;
  GPtrArray *cards;                     /* (element-type HwCard); NULL: not yet */
} HwSheetsEntry;

struct _HwSheets
{
  HwPaper    paper;
  char      *title;
  double     width, height;             /* of the sheet, that lies when it has four */
  int        per_sheet;
  gboolean   is_whole;                  /* the card is the sheet */
  gboolean   is_small;
  double     card_width, card_height;
  HwCardCache *cache;
  GArray    *entries;                   /* HwSheetsEntry */
  gboolean   begins_sheet;              /* the next one */
};

HwSheets *hw_sheets_new_empty (const char *title, const HwSheetOptions *options);
/* The next card begins a sheet. */
void      hw_sheets_fill_page (HwSheets *self);
/* The cards of one group more; a @group that is not there adds none. */
void      hw_sheets_add       (HwSheets *self, const HwPlan *plan, int group);
/* Where a card stands on its sheet. */
void      hw_sheets_find_cell (const HwSheets *self, int cell, double *x, double *y);

G_END_DECLS
