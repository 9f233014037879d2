/* test-rejected.c - the list of published figures that Handwheel is not held to
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "rejected.h"

#include <string.h>

/* More would mean that the handbook goes its own way: then the rows want looking at, not this number. */
#define MOST_ROWS 30

static void
test_reasons (void)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  for (gsize i = 0; i < n_rejected_rows; i++)
    {
      const RejectedRow *row = &rejected_rows[i];

      g_test_message ("%s: %s. %s", row->row, row->figure, row->reason);
      g_assert_true (g_regex_match_simple ("^[A-K][0-9]{1,2}(/[a-z0-9-]+)?$", row->row, 0, 0));
      g_assert_cmpuint (strlen (row->figure), >, 10);
      g_assert_true (g_str_has_suffix (row->reason, "."));
      g_assert_true (g_hash_table_add (seen, (gpointer) row->row));
    }
  g_test_message ("%zu rows rejected", n_rejected_rows);
  g_assert_cmpuint (n_rejected_rows, <=, MOST_ROWS);
}

/* A part of a row may be rejected and the rest of it held to. */
static void
test_find (void)
{
  g_assert_nonnull (rejected_find ("/published/H1"));
  g_assert_nonnull (rejected_find ("/published/H1/capstan"));
  g_assert_nonnull (rejected_find ("/published/E11/swimwear"));
  g_assert_null (rejected_find ("/published/E11/jeans-spi"));
  g_assert_null (rejected_find ("/published/H13/knit-differential"));
  g_assert_null (rejected_find ("/published/E1/2.5-mm"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/published/rejected/reasons", test_reasons);
  g_test_add_func ("/published/rejected/find", test_find);
  return g_test_run ();
}
