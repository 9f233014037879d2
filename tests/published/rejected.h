/* rejected.h - published figures that Handwheel is not held to, and why
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  const char *row;                 /* "H1", or a part of a row: "E11/swimwear" */
  const char *figure;              /* what was published, and where */
  const char *reason;
} RejectedRow;

extern const RejectedRow rejected_rows[];
extern const gsize n_rejected_rows;

/* No test case may stand for a rejected row: the row that @path ("/published/E11/swimwear") is held by, or NULL. */
const RejectedRow *rejected_find (const char *path);

G_END_DECLS
