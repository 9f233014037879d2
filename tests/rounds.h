/* rounds.h - how often a test repeats itself: less often where a checker makes each step many times slower
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>
#include <stdlib.h>

/* @times, or the part of it that TESTS_ONE_IN of the environment leaves (20: a twentieth); at least 1. memcheck.sh sets
 * it, and says so. */
static inline guint
rounds_of (guint times)
{
  const char *one_in = g_getenv ("TESTS_ONE_IN");

  return one_in != NULL && atoi (one_in) > 1 ? MAX (times / (guint) atoi (one_in), 1) : times;
}
