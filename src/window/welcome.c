/* welcome.c - what the window shows when no project is open, and its keys
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/welcome.h"

#include <glib/gi18n.h>

GtkWidget *
hw_welcome_new (void)
{
  g_autoptr (GtkBuilder) builder = gtk_builder_new_from_resource ("/net/handwheel/welcome.ui");

  return g_object_ref (GTK_WIDGET (gtk_builder_get_object (builder, "welcome")));
}

void
hw_show_keys (GtkWindow *parent)
{
  g_autoptr (GtkBuilder) builder = gtk_builder_new_from_resource ("/net/handwheel/keys.ui");
  GtkWindow *keys = GTK_WINDOW (gtk_builder_get_object (builder, "keys"));

  gtk_widget_add_css_class (GTK_WIDGET (keys), "handwheel");
  gtk_window_set_transient_for (keys, parent);
  gtk_window_present (keys);
}
