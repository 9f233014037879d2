/* card-rows-private.h - how a card's list is set: its measures, and one row of it
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "card/card-private.h"

G_BEGIN_DECLS

#define HW_LIST_GAP 14            /* between columns */

/* What is said of each step's cloth, where it is not that of the first one: its fabrics, how many layers, nothing. */
typedef enum { HW_CLOTH_NAMED, HW_CLOTH_COUNTED, HW_CLOTH_UNSAID } HwClothMode;

/* A way to set the list: how many columns, how large. */
typedef struct { int columns; double share; HwClothMode cloth; } HwStepMode;

typedef struct
{
  HwStepMode mode;
  double     pt, line;              /* of the names */
  double     set_pt;                /* of what must be set */
  double     x, width, rule_width;  /* of one column, and of what stands across it */
  double     number_width, name_width, length_width;
  double     layers_width, edge_width;            /* 0: not in the list */
  double     gap;
  gboolean   has_line;              /* no room for a column: how far from the edge is a change like others */
} HwStepList;

/* The measures of the list in @mode, where it may stand over @width; @is_wide: across the whole card. */
HwStepList hw_card_plan_list        (HwCardBuilder *self, HwStepMode mode, double x, double width, gboolean is_wide);
double     hw_card_list_pt          (const HwCardBuilder *self, HwStepMode mode);
/* Names have room for a long word. */
gboolean   hw_card_is_list_readable (const HwStepList *list);
/* The small words over the columns, and a row with what changes before it and what is sewn after it. Both return where
 * to go on. */
double     hw_card_add_list_head    (HwCardBuilder *self, const HwStepList *list, double x, double y);
double     hw_card_add_list_row     (HwCardBuilder *self, const HwStepList *list, const HwCardStep *step, double x,
                                     double y);

G_END_DECLS
