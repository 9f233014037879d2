/* clip-private.h - what copying and pasting share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "model/clip.h"

G_BEGIN_DECLS

struct _HwClip
{
  HwProject *parts;              /* the id is that of the project they come from; no title, no wishes */
};

G_END_DECLS
