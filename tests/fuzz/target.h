/* target.h - the one function of a fuzz target
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

/* The name that fuzzing engines look for. Always 0; a broken promise aborts. */
int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);
