/* published.c - rows of figures that stand in documents outside the project
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "published.h"

#include "rejected.h"

#define ROUNDING 1e-9     /* of binary arithmetic, so that an exact row may be met exactly */

static void
test_row (gconstpointer data)
{
  const PublishedRow *row = data;
  double slack = ROUNDING * MAX (ABS (row->high), 1.0);

  g_test_message ("%s", row->source);
  g_assert_cmpfloat (row->computed, >=, row->low - slack);
  g_assert_cmpfloat (row->computed, <=, row->high + slack);
}

/* A row is either held to or explained away. */
static void
add_row (const PublishedRow *row)
{
  g_assert_null (rejected_find (row->path));
  g_test_add_data_func_full (row->path, g_memdup2 (row, sizeof *row), test_row, g_free);
}

void
published_add_rows (const PublishedRow *rows, gsize n_rows)
{
  for (gsize i = 0; i < n_rows; i++)
    add_row (&rows[i]);
}
