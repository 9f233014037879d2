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
  GPtrArray *cards;                     /* (element-type HwCard) */
};

G_END_DECLS
