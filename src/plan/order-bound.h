/* order-bound.h - what the rest of an order must cost at least
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/order-private.h"

G_BEGIN_DECLS

typedef struct _HwOrderBound HwOrderBound;      /* working memory; one for a search */

HwOrderBound *hw_order_bound_new  (const HwOrderFacts *facts);
void          hw_order_bound_free (HwOrderBound *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwOrderBound, hw_order_bound_free)

/* Sets @mounted to a standing value on machines with nothing left, so that equal states look equal. */
void          hw_order_bound_settle (const HwOrderBound *self, const guint64 *done, guint16 *mounted);
/* @done: set of operations; @mounted: node on each machine, settled; @at: machine, n_machines for none. */
int           hw_order_bound_get  (HwOrderBound *self, const guint64 *done, const guint16 *mounted, gsize at);

G_END_DECLS
