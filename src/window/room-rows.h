/* room-rows.h - what lies in the sewing room, row by row, each with what can be done with it
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A list of a hundred needles has four buttons in each row: the arrows go from row to row, Tab through the buttons of
 * one row. The list is made anew with every change of the room; the focus comes back to the button it was on.
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

GtkWidget *hw_room_rows_new         (const char *name);
void       hw_room_rows_clear       (GtkWidget *rows);
void       hw_room_rows_add_heading (GtkWidget *rows, const char *text);
/* An empty list says what to do first. */
void       hw_room_rows_add_empty   (GtkWidget *rows, const char *text);
/* A button by itself, such as one that adds another thing. */
void       hw_room_rows_add_button  (GtkWidget *rows, const char *label, const char *action);
/* A thing that lies there: its name, what there is to say of it, what can be done with it. Returns its row. */
GtkWidget *hw_room_rows_add         (GtkWidget *rows, const char *name, const char *detail, const char *detail_class);
/* @what: which needle, thread or fabric; with the label it makes the accessible name. */
void       hw_room_row_add_button   (GtkWidget *row, const char *label, const char *what, const char *action,
                                     const char *target);

/* Where the focus stands in a page, told by what is done there and in which row, for widgets come and go. */
typedef struct _HwRoomPlace HwRoomPlace;

HwRoomPlace *hw_room_place_new     (GtkWidget *within, GtkWidget *rows);      /* NULL: the focus is not in @within */
/* Gives the focus to the button that does the same, else to the row in the same place. NULL @self: nothing to do. */
void         hw_room_place_restore (const HwRoomPlace *self, GtkWidget *within, GtkWidget *rows);
void         hw_room_place_free    (HwRoomPlace *self);

G_END_DECLS
