/* words-example.h - the project that comes with a first start, to look around in
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "model/room.h"

G_BEGIN_DECLS

/* One that a person has given a title of their own is theirs, whatever its id. */
gboolean   hw_words_is_example (const HwProject *project);

/* Those of @projects that are work to plan for: not the example, once there is something else to sew and nothing of the
 * example was sewn, for its dates would stand before the person's own. (transfer full) (element-type HwProject) */
GPtrArray *hw_words_list_work  (const GPtrArray *projects, const HwRoom *room);

G_END_DECLS
