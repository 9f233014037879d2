/* value-row.c - one value of a set-up: what it is, why, and the person's own
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/value-row.h"

#include <glib/gi18n.h>

#include "window/controls.h"

#define SIGHT_MARGIN 6

struct _HwValueRow
{
  GtkBox     parent_instance;
  GtkWidget *heading, *value, *note, *warnings, *why, *box, *reasons, *editors;
  GtkWidget *last_warning, *last_reason;  /* the label filled last; NULL: none yet */
  char      *source;                      /* of the reason added last; to be named under it */
};

G_DEFINE_FINAL_TYPE (HwValueRow, hw_value_row, GTK_TYPE_BOX)

/* What opens below the edge would not be found: the row moves up until its end is in sight, or itself on top. */
static void
bring_into_sight (GtkWidget *row)
{
  GtkWidget     *scrolled = gtk_widget_get_ancestor (row, GTK_TYPE_SCROLLED_WINDOW);
  GtkAdjustment *sight;
  double         x = 0;
  double         top = 0;
  double         bottom;

  if (scrolled == NULL)
    return;
  sight = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scrolled));
  gtk_widget_translate_coordinates (row, scrolled, 0, 0, &x, &top);
  bottom = top + gtk_widget_get_height (row) + SIGHT_MARGIN - gtk_adjustment_get_page_size (sight);
  if (bottom > 0)
    gtk_adjustment_set_value (sight, gtk_adjustment_get_value (sight) + MIN (bottom, top - SIGHT_MARGIN));
}

static void
toggled_cb (HwValueRow *self)
{
  gboolean open = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->why));

  gtk_widget_set_visible (self->box, open);
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->why), GTK_ACCESSIBLE_STATE_EXPANDED, open, -1);
  if (open)
    hw_when_placed (GTK_WIDGET (self), bring_into_sight);
}

static void
hw_value_row_finalize (GObject *object)
{
  g_free (HW_VALUE_ROW (object)->source);
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
make_why (void)
{
  GtkWidget *why = gtk_toggle_button_new_with_label (_("Why?"));

  gtk_widget_add_css_class (why, "link");
  gtk_widget_set_valign (why, GTK_ALIGN_CENTER);
  gtk_widget_set_tooltip_text (why, _("Reasons, sources and a value of your own"));
  return why;
}

GtkWidget *
hw_value_row_new (const char *title)
{
  HwValueRow *self = g_object_new (HW_TYPE_VALUE_ROW, NULL);
  GtkWidget  *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget  *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  self->heading = hw_label_new (NULL, "small");
  gtk_widget_add_css_class (self->heading, "mute");
  self->value = hw_label_new (NULL, "strong");
  self->note = hw_label_new (NULL, "small");
  self->why = make_why ();
  hw_value_row_set_title (self, title);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (words), self->heading);
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
  gtk_box_append (GTK_BOX (self->editors), hw_label_new (_("Or set your own"), "strong"));
  gtk_widget_add_css_class (self->box, "why-box");
  gtk_box_append (GTK_BOX (self->box), self->reasons);
  gtk_box_append (GTK_BOX (self->box), self->editors);
  gtk_box_append (GTK_BOX (self), self->box);
  g_signal_connect_swapped (self->why, "toggled", G_CALLBACK (toggled_cb), self);
  toggled_cb (self);
  return GTK_WIDGET (self);
}

void
hw_value_row_set_title (HwValueRow *self,
                        const char *title)
{
  g_autofree char *why = NULL;

  g_return_if_fail (HW_IS_VALUE_ROW (self));

  if (g_str_equal (title, gtk_label_get_text (GTK_LABEL (self->heading))))
    return;
  /* Translators: a value of the set-up, such as “Needle” */
  why = g_strdup_printf (_("Why this: %s"), title);
  gtk_label_set_text (GTK_LABEL (self->heading), title);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->why), GTK_ACCESSIBLE_PROPERTY_LABEL, why, -1);
}

void
hw_value_row_show (HwValueRow *self,
                   const char *value,
                   const char *note,
                   gboolean    own)
{
  const char *classes[] = { "small", own ? "brass" : "mute", NULL };

  g_return_if_fail (HW_IS_VALUE_ROW (self));

  hw_label_set_figures (GTK_LABEL (self->value), value);
  gtk_label_set_text (GTK_LABEL (self->note), note != NULL ? note : "");
  gtk_widget_set_visible (self->note, note != NULL);
  if (!gtk_widget_has_css_class (self->note, classes[1]))
    gtk_widget_set_css_classes (self->note, classes);
}

/* ---- sentences, in the labels that are there ---- */

static GtkWidget *
next_label (GtkWidget  *box,
            GtkWidget **last)
{
  GtkWidget *label = *last == NULL ? gtk_widget_get_first_child (box) : gtk_widget_get_next_sibling (*last);

  if (label == NULL)
    {
      label = hw_label_new (NULL, NULL);
      gtk_box_append (GTK_BOX (box), label);
    }
  *last = label;
  return label;
}

static void
add_sentence (GtkWidget          *box,
              GtkWidget         **last,
              const char         *text,
              const char * const *classes)
{
  GtkWidget     *label = next_label (box, last);
  g_auto (GStrv) present = gtk_widget_get_css_classes (label);

  gtk_label_set_text (GTK_LABEL (label), text);
  if (!g_strv_equal ((const char * const *) present, classes))
    gtk_widget_set_css_classes (label, (const char **) classes);
}

static void
remove_behind (GtkWidget *box,
               GtkWidget *last)
{
  GtkWidget *next = NULL;

  while ((next = last != NULL ? gtk_widget_get_next_sibling (last) : gtk_widget_get_first_child (box)) != NULL)
    gtk_box_remove (GTK_BOX (box), next);
}

static void
add_source (HwValueRow *self)
{
  static const char * const classes[] = { "small", "mute", NULL };
  g_autofree char *text = NULL;

  if (self->source == NULL)
    return;
  /* Translators: where a figure comes from */
  text = g_strdup_printf (_("Source: %s"), self->source);
  add_sentence (self->reasons, &self->last_reason, text, classes);
  g_clear_pointer (&self->source, g_free);
}

void
hw_value_row_begin (HwValueRow *self)
{
  g_return_if_fail (HW_IS_VALUE_ROW (self));

  self->last_warning = self->last_reason = NULL;
  g_clear_pointer (&self->source, g_free);
}

void
hw_value_row_add_warning (HwValueRow *self,
                          const char *sentence)
{
  static const char * const classes[] = { "brass", "small", NULL };

  g_return_if_fail (HW_IS_VALUE_ROW (self));

  add_sentence (self->warnings, &self->last_warning, sentence, classes);
}

/* Reasons that follow each other from one source name it once, under the last of them. */
void
hw_value_row_add_reason (HwValueRow *self,
                         const char *sentence,
                         const char *source)
{
  static const char * const classes[] = { NULL };

  g_return_if_fail (HW_IS_VALUE_ROW (self));

  if (g_strcmp0 (self->source, source) != 0)
    add_source (self);
  add_sentence (self->reasons, &self->last_reason, sentence, classes);
  g_free (self->source);
  self->source = g_strdup (source);
}

void
hw_value_row_end (HwValueRow *self)
{
  g_return_if_fail (HW_IS_VALUE_ROW (self));

  add_source (self);
  remove_behind (self->warnings, self->last_warning);
  remove_behind (self->reasons, self->last_reason);
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
