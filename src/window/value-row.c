/* value-row.c - one value of a set-up: what it is, why, and the person's own
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/value-row.h"

#include <glib/gi18n.h>

#include "window/controls.h"

struct _HwValueRow
{
  GtkBox     parent_instance;
  GtkWidget *value, *note, *warnings, *why, *box, *reasons, *editors;
  char      *last_source;                 /* of the reason added last */
  GtkWidget *last_source_label;
};

G_DEFINE_FINAL_TYPE (HwValueRow, hw_value_row, GTK_TYPE_BOX)

static void
toggled_cb (HwValueRow *self)
{
  gboolean open = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->why));

  gtk_widget_set_visible (self->box, open);
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->why), GTK_ACCESSIBLE_STATE_EXPANDED, open, -1);
}

static void
hw_value_row_finalize (GObject *object)
{
  g_free (HW_VALUE_ROW (object)->last_source);
  G_OBJECT_CLASS (hw_value_row_parent_class)->finalize (object);
}

static void
hw_value_row_class_init (HwValueRowClass *class)
{
  G_OBJECT_CLASS (class)->finalize = hw_value_row_finalize;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (class), GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
hw_value_row_init (HwValueRow *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 2);
}

static GtkWidget *
make_why (const char *title)
{
  GtkWidget       *why = gtk_toggle_button_new_with_label (_("Why?"));
  /* Translators: a value of the set-up, such as “Needle” */
  g_autofree char *name = g_strdup_printf (_("Why this: %s"), title);

  gtk_widget_add_css_class (why, "link");
  gtk_widget_set_valign (why, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (why), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_set_tooltip_text (why, _("Reasons, sources and a value of your own"));
  return why;
}

GtkWidget *
hw_value_row_new (const char *title)
{
  HwValueRow *self = g_object_new (HW_TYPE_VALUE_ROW, NULL);
  GtkWidget  *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget  *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget  *heading = hw_label_new (title, "small");

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  gtk_widget_add_css_class (heading, "mute");
  self->value = hw_label_new (NULL, "strong");
  self->note = hw_label_new (NULL, "small");
  self->why = make_why (title);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (words), heading);
  gtk_box_append (GTK_BOX (words), self->value);
  gtk_box_append (GTK_BOX (words), self->note);
  gtk_box_append (GTK_BOX (line), words);
  gtk_box_append (GTK_BOX (line), self->why);
  gtk_box_append (GTK_BOX (self), line);

  self->warnings = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  gtk_box_append (GTK_BOX (self), self->warnings);

  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  self->reasons = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  self->editors = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_add_css_class (self->box, "why-box");
  gtk_box_append (GTK_BOX (self->box), self->reasons);
  gtk_box_append (GTK_BOX (self->box), self->editors);
  gtk_box_append (GTK_BOX (self), self->box);
  g_signal_connect_swapped (self->why, "toggled", G_CALLBACK (toggled_cb), self);
  toggled_cb (self);
  return GTK_WIDGET (self);
}

void
hw_value_row_show (HwValueRow *self,
                   const char *value,
                   const char *note,
                   gboolean    own)
{
  const char *own_classes[] = { "small", "brass", NULL };
  const char *other_classes[] = { "small", "mute", NULL };

  g_return_if_fail (HW_IS_VALUE_ROW (self));

  gtk_label_set_text (GTK_LABEL (self->value), value);
  gtk_label_set_text (GTK_LABEL (self->note), note != NULL ? note : "");
  gtk_widget_set_visible (self->note, note != NULL);
  gtk_widget_set_css_classes (self->note, own ? own_classes : other_classes);
}

static void
remove_children (GtkWidget *box)
{
  GtkWidget *child = NULL;

  while ((child = gtk_widget_get_first_child (box)) != NULL)
    gtk_box_remove (GTK_BOX (box), child);
}

void
hw_value_row_clear (HwValueRow *self)
{
  g_return_if_fail (HW_IS_VALUE_ROW (self));

  remove_children (self->warnings);
  remove_children (self->reasons);
  g_clear_pointer (&self->last_source, g_free);
  self->last_source_label = NULL;
}

void
hw_value_row_add_warning (HwValueRow *self,
                          const char *sentence)
{
  GtkWidget *label = hw_label_new (sentence, "brass");

  g_return_if_fail (HW_IS_VALUE_ROW (self));

  gtk_widget_add_css_class (label, "small");
  gtk_box_append (GTK_BOX (self->warnings), label);
}

/* Reasons that follow each other from one source name it once, under the last of them. */
void
hw_value_row_add_reason (HwValueRow *self,
                         const char *sentence,
                         const char *source)
{
  /* Translators: where a figure comes from */
  g_autofree char *text = g_strdup_printf (_("Source: %s"), source);
  GtkWidget       *label = hw_label_new (text, "small");

  g_return_if_fail (HW_IS_VALUE_ROW (self));

  if (g_strcmp0 (self->last_source, source) == 0)
    gtk_box_remove (GTK_BOX (self->reasons), self->last_source_label);
  gtk_box_append (GTK_BOX (self->reasons), hw_label_new (sentence, NULL));
  gtk_widget_add_css_class (label, "mute");
  gtk_box_append (GTK_BOX (self->reasons), label);
  g_free (self->last_source);
  self->last_source = g_strdup (source);
  self->last_source_label = label;
}

void
hw_value_row_add_editor (HwValueRow *self,
                         GtkWidget  *editor)
{
  g_return_if_fail (HW_IS_VALUE_ROW (self));

  gtk_box_append (GTK_BOX (self->editors), editor);
}

void
hw_value_row_set_open (HwValueRow *self,
                       gboolean    open)
{
  g_return_if_fail (HW_IS_VALUE_ROW (self));

  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->why), open);
}
