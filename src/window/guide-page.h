/* guide-page.h - the user guide
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

GtkWidget *hw_guide_page_new (HwWorkspace *workspace);

G_END_DECLS
