/* bus.h - drives the real program as a person does: its controls found by name on the accessibility bus
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every wait is for a condition; one that does not come true in time fails the test and prints what the window shows.
 */

#pragma once
#include <atspi/atspi.h>
#include <gio/gio.h>

G_BEGIN_DECLS

typedef AtspiAccessible Node;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Node, g_object_unref)

/* ---- the program ---- */

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
gboolean program_is_alive (Program *self);
/* Runs the command line in the same room. Returns what it prints; *status may be NULL: must be 0. (transfer full) */
char *program_run       (Program *self, int *status, ...) G_GNUC_NULL_TERMINATED;

/* ---- what the window shows ---- */

/* A node as others see it, read once: asking over the bus again would be slow and might differ. */
typedef struct
{
  AtspiRole  role;
  char      *name;
  char      *description;
  gboolean   shown;             /* it and all above it */
  gboolean   sensitive;
  gboolean   on;                /* checked or pressed */
  Node      *node;
  int        depth;
} Seen;

/* Everything under @root, in reading order; only what is shown. (element-type Seen) (transfer full) */
GPtrArray *bus_look     (Node *root);
/* The first shown under @root with @role (ATSPI_ROLE_INVALID: any) and @name exactly. (transfer full), NULL: none */
Node      *bus_peek     (Node *root, AtspiRole role, const char *name);
/* The same, waited for. (transfer full) */
Node      *bus_find     (Node *root, AtspiRole role, const char *name);
/* The same, whose name only begins with @start. (transfer full) */
Node      *bus_find_start (Node *root, AtspiRole role, const char *start);
/* Waits for a label, a status or any other text that contains @text. Returns all of it. (transfer full) */
char      *bus_wait_text (Node *root, const char *text);
void       bus_wait_gone (Node *root, AtspiRole role, const char *name);
gboolean   bus_has_state (Node *node, AtspiStateType state);
char      *bus_text     (Node *node);           /* of an entry, else the name. (transfer full) */

typedef gboolean (* BusCondition) (gpointer data);
/* @what says what was waited for when it does not come. */
void       bus_wait     (Program *program, BusCondition condition, gpointer data, const char *what);

/* ---- what a person does ---- */

void       bus_press    (Node *node);           /* its own action, else the middle of it with the mouse */
void       bus_click    (Node *node);           /* with the mouse */
void       bus_select   (Node *list, int place);
void       bus_key      (guint keyval, guint modifiers);        /* GDK_… of gdkkeysyms.h; AtspiModifierType bits */
void       bus_type     (const char *text);
/* Clicks into an entry, takes away what stands there and types @text; waits until the entry has it. */
void       bus_fill     (Node *entry, const char *text);

G_END_DECLS
