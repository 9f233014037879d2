/* order-row.h - one line of the order of work, as an item of a list
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gio/gio.h>
#include "plan/plan.h"

G_BEGIN_DECLS

typedef enum
{
  HW_ORDER_ROW_CHANGE,    /* the head of a block: what to change before its steps */
  HW_ORDER_ROW_CARE,      /* a care task or a worn needle, before the step that follows */
  HW_ORDER_ROW_STEP,
} HwOrderRowKind;

#define HW_TYPE_ORDER_ROW (hw_order_row_get_type ())
G_DECLARE_FINAL_TYPE (HwOrderRow, hw_order_row, HW, ORDER_ROW, GObject)

HwOrderRowKind hw_order_row_get_kind   (HwOrderRow *self);
const char    *hw_order_row_get_key    (HwOrderRow *self);     /* the same row has the same key in the next plan */
const char    *hw_order_row_get_letter (HwOrderRow *self);     /* change; "" for hand steps */
const char    *hw_order_row_get_number (HwOrderRow *self);     /* step; NULL otherwise */
/* Step: its number; else that of the step it stands before. */
const char    *hw_order_row_get_step   (HwOrderRow *self);
const char    *hw_order_row_get_text   (HwOrderRow *self);
const char    *hw_order_row_get_amount (HwOrderRow *self);     /* step: "1.4 m, 7 min" */
gboolean       hw_order_row_get_done   (HwOrderRow *self);
gboolean       hw_order_row_get_first  (HwOrderRow *self);     /* of its block: rounded above */
gboolean       hw_order_row_get_last   (HwOrderRow *self);     /* of its block: rounded below */
gboolean       hw_order_row_is_next    (HwOrderRow *self);     /* the first step not done */
gboolean       hw_order_row_equal      (HwOrderRow *a, HwOrderRow *b);

/* The rows of @plan: (transfer full) (element-type HwOrderRow) */
GPtrArray     *hw_order_rows_new       (const HwPlan *plan);

/* Makes @store hold @rows with the smallest splice, so that rows that stay keep selection and scroll. */
void           hw_order_rows_apply     (GListStore *store, GPtrArray *rows);

/* Whether @store and @rows have the same steps, but in another order. */
gboolean       hw_order_rows_move      (GListStore *store, GPtrArray *rows);
/* Shows what @rows say of each step, which is done and which next, without moving any. */
void           hw_order_rows_mark      (GListStore *store, GPtrArray *rows);

G_END_DECLS
