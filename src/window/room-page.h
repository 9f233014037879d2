/* room-page.h - a page of the sewing room: what lies there on the left, a form or advice on the right
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each page is described by an HwRoomPageKind; its actions stand in a group of their own. The page is filled when it
 * is first shown and anew with every change after that.
 */

#pragma once
#include <gtk/gtk.h>
#include "window/workspace.h"

G_BEGIN_DECLS

#define HW_TYPE_ROOM_PAGE (hw_room_page_get_type ())
G_DECLARE_FINAL_TYPE (HwRoomPage, hw_room_page, HW, ROOM_PAGE, GtkBox)

typedef struct
{
  const char         *title;             /* untranslated */
  const char         *group;             /* of the actions */
  const GActionEntry *actions;           /* their data is the page */
  gsize               n_actions;
  const char         *add_label;         /* of the button for the action "add", untranslated; NULL none */
  GtkWidget        *(*make) (HwRoomPage *self);                 /* the left side; NULL: a scrolled list of rows */
  void              (*fill) (HwRoomPage *self, GtkWidget *left);    /* what make() made, or empty rows */
  GtkWidget        *(*aside) (HwRoomPage *self);                /* shown while no form is open */
} HwRoomPageKind;

GtkWidget         *hw_room_page_new       (HwWorkspace *workspace, const HwRoomPageKind *kind);
HwWorkspace       *hw_room_page_workspace (HwRoomPage *self);
const HwRoom      *hw_room_page_room      (HwRoomPage *self);
const HwHandbook  *hw_room_page_handbook  (HwRoomPage *self);
/* Takes the place of what stands on the right until it closes. */
void               hw_room_page_show_form (HwRoomPage *self, GtkWidget *form);
/* Away with it, when it is open. */
void               hw_room_page_close_form (HwRoomPage *self);
/* What aside() made last; NULL: nothing yet, or a form stands there. */
GtkWidget         *hw_room_page_peek_aside (HwRoomPage *self);
/* Makes the right side anew. */
void               hw_room_page_show_aside (HwRoomPage *self);

G_END_DECLS
