/* published.h - rows of figures that stand in documents outside the project
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Kinds: E exact by definition or by the source's own arithmetic; P published, rounded by its source, held to the
 * tolerance beside it; R a published range. "external" is said where the expected figure itself was read in the
 * document named; without it the document gives the rule and the figure is worked from it. C and M are common practice
 * and our own models: regressions, which prove nothing about the trade.
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

#define NEAR(expected, tolerance) (expected) - (tolerance), (expected) + (tolerance)
#define WITHIN(low, high) (low), (high)

typedef struct
{
  const char *path;
  const char *source;
  double      computed;
  double      low, high;        /* both ends included */
} PublishedRow;

/* One test case for each of @rows, which are copied; their texts must outlive g_test_run(). */
void published_add_rows (const PublishedRow *rows, gsize n_rows);

G_END_DECLS
