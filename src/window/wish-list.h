/* wish-list.h - what the person wishes of the order of work, what each wish costs, and how to forget it
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_WISH_LIST (hw_wish_list_get_type ())
G_DECLARE_FINAL_TYPE (HwWishList, hw_wish_list, HW, WISH_LIST, GtkWidget)

/* @menu: what can be wished for the chosen step */
GtkWidget *hw_wish_list_new      (HwWorkspace *workspace, GMenuModel *menu);
/* Tells by a message what the newest wish costs, as soon as that is known. */
void       hw_wish_list_announce (HwWishList *self);
void       hw_wish_list_open_menu (HwWishList *self);

/* Puts @control at the end of the row of choices about the order. */
void       hw_wish_list_add (HwWishList *self, GtkWidget *control);

G_END_DECLS
