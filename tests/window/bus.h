/* bus.h - finds controls on the accessibility bus by what they are called, and works them as a person does
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every wait is for a condition; one that does not come true in time fails the test and prints what the window shows.
 */

#pragma once
#include <atspi/atspi.h>

G_BEGIN_DECLS

typedef AtspiAccessible Node;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Node, g_object_unref)

/* ---- what the window shows ---- */

/* A node as others see it, read once: asking over the bus again would be slow and might differ. */
typedef struct
{
  AtspiRole  role;
  char      *name;
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
void       bus_wait_gone_start (Node *root, AtspiRole role, const char *start);
/* The pages of stacks under @root, the hidden ones too, without those within them: each page's own child, shown or not.
 * What is on a page is found from there only: 4.8 does not tell on the bus which page of a stack is the one on top.
 * @title NULL: any. (element-type Node) (transfer full) */
GPtrArray *bus_pages    (Node *root, const char *title);
gboolean   bus_has_state (Node *node, AtspiStateType state);
char      *bus_text     (Node *node);           /* of an entry, else the name. (transfer full) */

typedef gboolean (* BusCondition) (gpointer data);
/* Fails the test, showing all that is under @root, when the condition does not come true in time. */
void       bus_wait     (Node *root, BusCondition condition, gpointer data, const char *what);
gboolean   bus_comes_true (BusCondition condition, gpointer data);      /* FALSE: not in time */
void       bus_give_up  (Node *root, const char *what) G_GNUC_NORETURN;

/* ---- what a person does ---- */

void       bus_press    (Node *node);           /* its own action, else the middle of it with the mouse */
void       bus_click    (Node *node);           /* with the mouse */
void       bus_select   (Node *list, int place);
void       bus_key      (guint keyval, guint modifiers);        /* GDK_… of gdkkeysyms.h; AtspiModifierType bits */
/* Presses the key until @control has the focus: Tab from control to control, an arrow down a list. The window scrolls
 * to it. */
void       bus_key_to   (guint keyval, Node *control);
void       bus_tab_to   (Node *control);
/* Waits until one that is shown and whose name begins with @start has the focus. */
void       bus_wait_focus (Node *root, AtspiRole role, const char *start);
void       bus_type     (const char *text);
/* Waits until the entry has that text. */
void       bus_wait_filled (Node *entry, const char *text);
/* Opens the drop-down of that name and goes down its list to @item by the arrow key. */
void       bus_choose   (Node *form, const char *name, const char *item);
/* Clicks into an entry, takes away what stands there and types @text; waits until the entry has it. */
void       bus_fill     (Node *entry, const char *text);

G_END_DECLS
