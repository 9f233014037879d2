/* walk.h - finds widgets the way a person would: by what they are and what they are called
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The first mapped-or-not descendant of @root that is a @type and, with @name, has that accessible
 * label. NULL: none. */
GtkWidget *walk_find     (GtkWidget *root, GType type, const char *name);
/* The same, and it has to be there. */
GtkWidget *walk_need     (GtkWidget *root, GType type, const char *name);
/* The stack that has a child of that name. */
GtkStack  *walk_stack    (GtkWidget *root, const char *child_name);
gboolean   walk_has_name (GtkWidget *widget, const char *name);
/* A label with that text, visible up to @root. */
gboolean   walk_shows    (GtkWidget *root, const char *text);
/* A visible label whose text begins so; its text, or NULL. Borrowed. */
const char *walk_text    (GtkWidget *root, const char *beginning);
gboolean   walk_visible  (GtkWidget *widget, GtkWidget *root);

G_END_DECLS
