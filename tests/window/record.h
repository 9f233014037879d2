/* record.h - the journal read from its files, without the program's own code; what the strip says, and steps marked
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <libxml/tree.h>

#include "program.h"

G_BEGIN_DECLS

/* Of the room; a journal of a machine and year each. (element-type xmlDoc) (transfer full) */
GPtrArray *record_documents (const char *room);
/* (transfer full), NULL: it has none of that name */
char      *record_attribute (xmlNode *node, const char *name);
/* The ids of the entries that were taken back. (element-type utf8) (transfer full) */
GHashTable *record_cancelled (GPtrArray *documents);
/* All entries, cancelled ones and cancellations too; with @kind (may be NULL) only the standing ones of that name. */
guint      record_count     (const Program *program, const char *kind);
/* An attribute of @machine's standing entry of that kind with the latest time. (transfer full), NULL: there is none */
char      *record_last      (const Program *program, const char *machine, const char *kind, const char *attribute);
/* Waits until there are @more entries than the @before of record_count(); there must not be more than that. */
void       record_wait      (const Program *program, guint before, guint more);

Node       *strip_find      (const Program *program);
/* What it says: its labels in reading order. (element-type utf8) (transfer full) */
GPtrArray  *strip_read      (Node *strip);
/* The label after the one that begins so; NULL: there is none. */
const char *strip_after     (const GPtrArray *labels, const char *start);
/* The needle in the machine and the one to load next are those that “handwheel next” tells. */
/* The button that notes the needle, whatever it is called for this one. */
void        strip_press_loaded (Node *strip);
void        strip_check     (Program *program, Node *strip, const char *file);

/* The list of steps on the page of that name, gone to. (transfer full) */
Node       *order_show      (Program *program);
/* Presses a step's toggle; it was the other way, and leaves one entry. @name: "Step 2, Hem: sewn" */
void        order_mark      (const Program *program, Node *list, const char *name, gboolean on);

G_END_DECLS
