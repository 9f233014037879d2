/* bobbins.h - how many bobbins to wind so that none runs out inside a topstitched row
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

/* One stretch sewn without a stop: a piece of an operation. */
typedef struct
{
  double   metres;
  gboolean in_one;       /* seen from the right side: the bobbin must not run out in it */
} HwBobbinRow;

/* Bobbins of @capacity_m for @rows in the order sewn. What is left on one that would not reach to the end of a row is
 * put aside for a later stretch. A row longer than a bobbin takes whole new ones. */
int hw_bobbins_for_rows (const HwBobbinRow *rows, gsize n_rows, double capacity_m);

G_END_DECLS
