/* step-list.h - the steps of a project as a list model that keeps its items by number
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * After an edit the items stay the same objects, so that selection and scroll stay put; "changed" tells a bound row
 * that what it shows is another snapshot's.
 */

#pragma once
#include <gio/gio.h>
#include "plan/plan.h"

G_BEGIN_DECLS

#define HW_TYPE_STEP_ITEM (hw_step_item_get_type ())
G_DECLARE_FINAL_TYPE (HwStepItem, hw_step_item, HW, STEP_ITEM, GObject)

const char      *hw_step_item_get_number (HwStepItem *self);
const HwStep    *hw_step_item_get_step   (HwStepItem *self);

GListStore      *hw_step_list_new        (void);
/* Makes @list that of @project (NULL: empty), or of its first @most steps, with one items-changed over the smallest
 * range. */
void             hw_step_list_update     (GListStore *list, const HwProject *project, guint most);
int              hw_step_list_find       (GListModel *list, const char *number);   /* -1: not there */

G_END_DECLS
