/* sheets-private.h - the inside of a set of sheets
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "card/card-private.h"

G_BEGIN_DECLS

struct _HwSheets
{
  HwPaper    paper;
  char      *title;
  double     width, height;             /* of the sheet */
  int        per_sheet;
  gboolean   is_whole;                  /* the card is the sheet */
  gboolean   is_small, is_turned;
  double     card_width, card_height;
  HwCardCache *cache;
  GPtrArray *cards;                     /* (element-type HwCard); NULL: the rest of a sheet is left empty */
};

HwSheets *hw_sheets_new_empty (const char *title, const HwSheetOptions *options);
/* The next card begins a sheet. */
void      hw_sheets_fill_page (HwSheets *self);
/* One card more; a @group that is not there adds none. */
void      hw_sheets_add       (HwSheets *self, const HwPlan *plan, int group);

G_END_DECLS
