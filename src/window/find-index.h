/* find-index.h - everything in the workspace that can be found, with the action that opens it
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "window/workspace.h"
#include "words/find.h"

G_BEGIN_DECLS

typedef enum { HW_FIND_PROJECTS, HW_FIND_STEPS, HW_FIND_FABRICS, HW_FIND_ACTIONS, HW_FIND_HANDBOOK,
               HW_FIND_N_GROUPS } HwFindGroup;

/* (transfer full): projects, their steps, fabrics, the handbook and what can be done now. Each target is a detailed
 * action name of the window. Borrows nothing: the workspace may change afterwards. */
HwFind     *hw_find_index_new  (HwWorkspace *workspace);
const char *hw_find_group_name (HwFindGroup group);            /* a heading: "Projects" */

G_END_DECLS
