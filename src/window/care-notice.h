/* care-notice.h - tells through the desktop what care is due now
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gio/gio.h>

#include "window/workspace.h"

G_BEGIN_DECLS

/* From now on, when the room opens or changes: each task of each machine once a day at most, also over several starts
 * of the program. What is done meanwhile is withdrawn. */
void hw_care_notice_attach (GApplication *application, HwWorkspace *workspace);

G_END_DECLS
