/* stock.h - needles and thread on hand against what planned projects want
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/plan.h"

G_BEGIN_DECLS

typedef struct
{
  int        system, point, size_nm;    /* handbook indices, Nm */
  double     twin_mm;
  HwSet      points;                    /* that all the steps accept for which it is wanted, its own among them */
  int        wanted;                    /* new ones that the plans will load */
  int        on_hand;                   /* new ones in the case */
  GPtrArray *projects;                  /* (element-type utf8) titles, each once */
} HwStockNeed;

/* What is left to sew of @plans (element-type HwPlan) needs; a part-worn needle that serves is counted by each plan for
 * itself. Sorted by system, point, size and spacing. (element-type HwStockNeed) (transfer full) */
GPtrArray *hw_stock_needs (const HwHandbook *handbook, const HwRoom *room, const GPtrArray *plans);
/* New needles of that kind in the case, all packets together. */
int        hw_stock_count (const HwHandbook *handbook, const HwRoom *room, int system, int point, int size_nm,
                           double twin_mm);
/* Metres on hand of a notion's thread: of that entry, thickness and colour. FALSE: the room knows of none. */
gboolean   hw_stock_thread (const HwHandbook *handbook, const HwRoom *room, const HwNotion *notion, double *metres);

G_END_DECLS
