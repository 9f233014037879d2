/* program.h - the real program in a room of its own, started, asked and ended as a person would
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gio/gio.h>
#include "bus.h"

G_BEGIN_DECLS

typedef struct
{
  char        *folder;          /* of this test alone */
  char        *room;            /* HANDWHEEL_ROOM: not there yet */
  GSubprocess *process;         /* NULL: not running */
  Node        *app;
} Program;

void  program_set_up    (Program *self, gconstpointer data);    /* a fixture's */
void  program_tear_down (Program *self, gconstpointer data);
/* Copies the file @from into the room's projects. Returns its path there. (transfer full) */
char *program_add_project (Program *self, const char *from);
/* With @file (may be NULL) as its argument; returns when its window is on the bus. */
void  program_start     (Program *self, const char *file);
/* A second start of it, which hands @file to the first and ends. */
void  program_hand_over (Program *self, const char *file);
/* As its close button does; it must end by itself, with status 0. */
void  program_quit      (Program *self);
gboolean program_is_alive (Program *self);                      /* asked of the system, not of the bus */
/* Goes to one of the project's pages or, by its row in the sidebar, of the room's; returns it. (transfer full) */
Node *program_show_page (Program *self, const char *title);
/* The page of the room with that heading, waited for. (transfer full) */
Node *program_find_room_page (Program *self, const char *heading);
/* The form of that title in the side panel of the page “Making up”, waited for. (transfer full) */
Node *program_find_form (Program *self, const char *title);
/* The set-up in that panel, while no form stands there. (transfer full) */
Node *program_find_panel (Program *self);
/* What the command line prints in the same room; it must end with @status. (transfer full) */
char *program_run       (Program *self, int status, const char *verb, const char *argument);
/* The same with all its arguments, the verb first. */
char *program_run_with  (Program *self, int status, const char * const *arguments);

G_END_DECLS
