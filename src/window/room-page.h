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
  GtkWidget        *(*make) (HwRoomPage *self);                 /* the left side; NULL: a scrolled box */
  void              (*fill) (HwRoomPage *self, GtkWidget *left);    /* left: what make() made, or the empty box */
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

/* A thing that lies there: its name, what there is to say of it, what can be done with it. */
GtkWidget *hw_room_row_new        (const char *name, const char *detail, const char *detail_class);
/* @what: which needle, thread or fabric; with the label it makes the accessible name. */
void       hw_room_row_add_button (GtkWidget *row, const char *label, const char *what, const char *action,
                                   const char *target);
void       hw_room_page_add_heading (GtkWidget *box, const char *text);
/* An empty list says what to do first. */
void       hw_room_page_add_empty (GtkWidget *box, const char *text);

G_END_DECLS
