/* split.h - a list and its side panel: side by side where there is room, else one under the other
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The first child is the list, the second the panel.
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_SPLIT (hw_split_get_type ())
G_DECLARE_FINAL_TYPE (HwSplit, hw_split, HW, SPLIT, GtkWidget)

GtkWidget *hw_split_new    (void);
void       hw_split_append (HwSplit *self, GtkWidget *child);
/* The list is an index of so many em, and the panel is what is read: it has the rest. */
void       hw_split_set_index (HwSplit *self, double width_em);
/* Both scroll for themselves, so that one under the other they are never taller than their place. */
void       hw_split_set_fits (HwSplit *self, gboolean fits);
/* And this high at least is the panel then, below the list: for a page that scrolls. */
void       hw_split_set_least_panel (HwSplit *self, double height_em);
/* The panel is what is worked on now: where there is not room for all of it below the list, it has the whole place and
 * the list is not shown. */
void       hw_split_lead_panel (HwSplit *self, gboolean leads);

G_END_DECLS
