/* project-names.h - the projects that a journal speaks of, by their ids
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "model/project.h"

G_BEGIN_DECLS

typedef struct _HwProjectNames HwProjectNames;

/* @projects: (element-type HwProject) those of the room. */
HwProjectNames  *hw_project_names_new  (const char *room_folder, const GPtrArray *projects);
void             hw_project_names_free (HwProjectNames *self);
/* One whose file is gone as it was kept last; NULL: nothing is known of it. Borrowed. */
const HwProject *hw_project_names_find (HwProjectNames *self, const char *id);
/* Its title, else what its id says: an id is made from the first title. Borrowed. */
const char      *hw_project_names_say  (HwProjectNames *self, const char *id);

G_END_DECLS
