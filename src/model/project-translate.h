/* project-translate.h - a project whose words are put into another language
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "handbook/handbook.h"
#include "model/project.h"

G_BEGIN_DECLS

/* The demo as a person would have written it: title, names and colours have the context "demo" for translators, notes
 * have none. (transfer full): a new snapshot. */
HwProject *hw_project_translate (const HwProject *self, HwTranslate translate);

G_END_DECLS
