/* form.c - a form in the side panel: labelled controls, what is wrong, save and cancel
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/form.h"

#include <glib/gi18n.h>
#include <math.h>

#include "model/project.h"
#include "window/controls.h"
#include "window/wrap.h"
#include "words/words.h"

struct _HwForm
{
  GtkBox         parent_instance;
  GtkWidget     *rows, *error_label, *buttons;
  HwFormSave     save;
  gpointer       data;
  GDestroyNotify free_data;
};

static guint closed_signal;

G_DEFINE_FINAL_TYPE (HwForm, hw_form, GTK_TYPE_BOX)

/* What is being typed into a number counts, though the focus has not left it yet. NULL when every number that is shown
 * is one; else what to tell of the first that is none, which gets the focus. */
static char *
check_numbers (GtkWidget *part)
{
  char *wrong = GTK_IS_SPIN_BUTTON (part) ? hw_form_check_spin (GTK_SPIN_BUTTON (part)) : NULL;

  if (wrong != NULL)
    gtk_widget_grab_focus (part);
  for (GtkWidget *child = gtk_widget_get_first_child (part); child != NULL && wrong == NULL;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_get_visible (child))
      wrong = check_numbers (child);
  return wrong;
}

static void
show_error (HwForm     *self,
            const char *text)
{
  gtk_label_set_text (GTK_LABEL (self->error_label), text);
  gtk_widget_set_visible (self->error_label, TRUE);
  hw_when_placed (self->error_label, hw_bring_into_sight);
}

static void
save_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  HwForm            *self = HW_FORM (widget);
  g_autoptr (HwForm) kept = g_object_ref (self);
  g_autoptr (GError) error = NULL;
  g_autofree char   *wrong = self->save != NULL ? check_numbers (widget) : NULL;

  if (self->save == NULL)
    return;
  if (wrong != NULL)
    show_error (self, wrong);
  else if (self->save (self->data, &error))
    g_signal_emit (self, closed_signal, 0);
  else
    show_error (self, error->message);
}

static void
cancel_action (GtkWidget  *widget,
               const char *name,
               GVariant   *parameter)
{
  g_autoptr (HwForm) kept = g_object_ref (HW_FORM (widget));

  g_signal_emit (kept, closed_signal, 0);
}

static void
hw_form_dispose (GObject *object)
{
  HwForm *self = HW_FORM (object);

  self->save = NULL;
  if (self->free_data != NULL)
    g_clear_pointer (&self->data, self->free_data);
  self->free_data = NULL;
  G_OBJECT_CLASS (hw_form_parent_class)->dispose (object);
}

static void
hw_form_class_init (HwFormClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = hw_form_dispose;
  closed_signal = g_signal_new ("closed", HW_TYPE_FORM, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_install_action (widget_class, "form.save", NULL, save_action);
  gtk_widget_class_install_action (widget_class, "form.cancel", NULL, cancel_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Return, GDK_CONTROL_MASK, "form.save", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "form.cancel", NULL);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_FORM);
}

static void
hw_form_init (HwForm *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 10);
  gtk_widget_add_css_class (GTK_WIDGET (self), "form");
}

/* A scrolled window asks for the height that its rows have unwrapped; they want that of the width they get. */
static void
measure_rows (GtkWidget      *widget,
              GtkOrientation  orientation,
              int             for_size,
              int            *minimum,
              int            *natural,
              int            *minimum_baseline,
              int            *natural_baseline)
{
  GtkWidget *scroller = gtk_widget_get_first_child (widget);
  int        wrapped = 0;

  gtk_widget_measure (scroller, orientation, for_size, minimum, natural, NULL, NULL);
  if (orientation == GTK_ORIENTATION_VERTICAL)
    gtk_widget_measure (gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (scroller)), orientation, for_size, NULL,
                        &wrapped, NULL, NULL);
  *natural = MAX (*natural, wrapped);
}

static void
place_rows (GtkWidget *widget,
            int        width,
            int        height,
            int        baseline)
{
  gtk_widget_allocate (gtk_widget_get_first_child (widget), width, height, baseline, NULL);
}

static GtkSizeRequestMode
ask_by_width (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

/* The rows scroll between title and buttons, so that a long form can be saved from wherever one is in it. */
static GtkWidget *
make_scroller (GtkWidget *rows)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkWidget *room = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), rows);
  gtk_box_append (GTK_BOX (room), scroller);
  gtk_widget_set_layout_manager (room, gtk_custom_layout_new (ask_by_width, measure_rows, place_rows));
  return room;
}

GtkWidget *
hw_form_new (const char *title,
             const char *save_label)
{
  HwForm    *self = g_object_new (HW_TYPE_FORM, NULL);
  GtkWidget *save = gtk_button_new_with_label (save_label);
  GtkWidget *cancel = gtk_button_new_with_label (_("Cancel"));

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  gtk_box_append (GTK_BOX (self), hw_label_new (title, "subtitle"));
  self->rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  gtk_widget_add_css_class (self->rows, "form-rows");
  gtk_box_append (GTK_BOX (self), make_scroller (self->rows));

  self->error_label = hw_label_new (NULL, "rust");
  gtk_widget_set_visible (self->error_label, FALSE);
  gtk_box_append (GTK_BOX (self), self->error_label);

  self->buttons = hw_wrap_new (6, 6);
  gtk_widget_add_css_class (self->buttons, "form-foot");
  gtk_widget_add_css_class (save, "suggested");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (save), "form.save");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (cancel), "form.cancel");
  hw_wrap_append (HW_WRAP (self->buttons), save);
  hw_wrap_append (HW_WRAP (self->buttons), cancel);
  gtk_box_append (GTK_BOX (self), self->buttons);
  return GTK_WIDGET (self);
}

void
hw_form_add_foot (HwForm    *self,
                  GtkWidget *widget)
{
  g_return_if_fail (HW_IS_FORM (self));

  gtk_box_insert_child_after (GTK_BOX (self), widget, gtk_widget_get_prev_sibling (self->error_label));
}

void
hw_form_set_save (HwForm        *self,
                  HwFormSave     save,
                  gpointer       data,
                  GDestroyNotify free_data)
{
  g_return_if_fail (HW_IS_FORM (self) && self->save == NULL);

  self->save = save;
  self->data = data;
  self->free_data = free_data;
}

static void
activate_cb (GtkWidget *entry)
{
  gtk_widget_activate_action (entry, "form.save", NULL);
}

static GtkWidget *
add_row (HwForm        *self,
         GtkOrientation orientation,
         const char    *label,
         const char    *css_class,
         GtkWidget     *control)
{
  GtkWidget *row = gtk_box_new (orientation, orientation == GTK_ORIENTATION_VERTICAL ? 2 : 12);
  GtkWidget *name = hw_label_new (NULL, css_class);

  gtk_label_set_text_with_mnemonic (GTK_LABEL (name), label);
  gtk_label_set_mnemonic_widget (GTK_LABEL (name), control);
  gtk_box_append (GTK_BOX (row), name);
  gtk_box_append (GTK_BOX (row), control);
  hw_control_name_by (control, label);
  if (GTK_IS_ENTRY (control))
    g_signal_connect (control, "activate", G_CALLBACK (activate_cb), NULL);
  gtk_box_append (GTK_BOX (self->rows), row);
  return row;
}

GtkWidget *
hw_form_add (HwForm     *self,
             const char *label,
             GtkWidget  *control)
{
  GtkWidget *row = add_row (self, GTK_ORIENTATION_VERTICAL, label, "small", control);

  gtk_widget_add_css_class (gtk_widget_get_first_child (row), "mute");
  return row;
}

GtkWidget *
hw_form_add_beside (HwForm     *self,
                    const char *label,
                    GtkWidget  *control)
{
  GtkWidget *row = add_row (self, GTK_ORIENTATION_HORIZONTAL, label, NULL, control);

  gtk_widget_set_hexpand (gtk_widget_get_first_child (row), TRUE);
  gtk_widget_set_valign (control, GTK_ALIGN_CENTER);
  return row;
}

void
hw_form_add_into (HwForm    *self,
                  GtkWidget *box)
{
  g_return_if_fail (HW_IS_FORM (self) && GTK_IS_BOX (box));

  self->rows = box;
}

void
hw_form_add_hint (HwForm     *self,
                  const char *text)
{
  GtkWidget *hint = hw_label_new (text, "small");
  GtkWidget *row = gtk_widget_get_last_child (self->rows);

  g_return_if_fail (GTK_IS_BOX (row));

  gtk_widget_add_css_class (hint, "mute");
  gtk_box_append (GTK_BOX (row), hint);
}

void
hw_form_add_heading (HwForm     *self,
                     const char *text)
{
  gtk_box_append (GTK_BOX (self->rows), hw_label_new (text, "heading"));
}

void
hw_form_add_wide (HwForm    *self,
                  GtkWidget *widget)
{
  gtk_box_append (GTK_BOX (self->rows), widget);
}

void
hw_form_add_button (HwForm     *self,
                    const char *label,
                    const char *action,
                    const char *target)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_widget_add_css_class (button, "flat");
  gtk_widget_add_css_class (button, "tool");
  gtk_widget_set_hexpand (button, TRUE);
  gtk_widget_set_halign (button, GTK_ALIGN_END);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", target);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  hw_wrap_append (HW_WRAP (self->buttons), button);
}

/* ---- controls ---- */

static void
focus_entered_cb (GtkWidget *control)
{
  hw_when_placed (control, hw_bring_into_sight);
}

void
hw_form_show_whole (GtkWidget *control)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();

  g_signal_connect_swapped (focus, "enter", G_CALLBACK (focus_entered_cb), control);
  gtk_widget_add_controller (control, focus);
}

GtkWidget *
hw_form_entry (const char *text,
               const char *placeholder)
{
  GtkWidget *entry = gtk_entry_new ();

  gtk_editable_set_text (GTK_EDITABLE (entry), text != NULL ? text : "");
  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), placeholder);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 8);
  hw_form_show_whole (entry);
  return entry;
}

GtkWidget *
hw_form_note (const char *text)
{
  GtkWidget *view = gtk_text_view_new ();

  gtk_text_view_set_wrap_mode (GTK_TEXT_VIEW (view), GTK_WRAP_WORD_CHAR);
  gtk_text_view_set_accepts_tab (GTK_TEXT_VIEW (view), FALSE);
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (GTK_TEXT_VIEW (view)), text != NULL ? text : "", -1);
  gtk_widget_set_size_request (view, -1, 56);
  return view;
}

char *
hw_form_get_note (GtkWidget *note)
{
  GtkTextBuffer   *buffer = gtk_text_view_get_buffer (GTK_TEXT_VIEW (note));
  GtkTextIter      start;
  GtkTextIter      end;
  g_autofree char *text = NULL;

  gtk_text_buffer_get_bounds (buffer, &start, &end);
  text = g_strstrip (gtk_text_buffer_get_text (buffer, &start, &end, FALSE));
  return text[0] != '\0' ? g_steal_pointer (&text) : NULL;
}

void
hw_form_clear_error (GtkWidget *field)
{
  HwForm *self = HW_FORM (gtk_widget_get_ancestor (field, HW_TYPE_FORM));

  if (self != NULL)
    gtk_widget_set_visible (self->error_label, FALSE);
}

gboolean
hw_form_get_number (GtkWidget  *entry,
                    const char *what,
                    double      empty,
                    double     *value,
                    GError    **error)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))));

  if (text[0] == '\0')
    {
      *value = empty;
      return TRUE;
    }
  if (hw_words_parse_number (text, value))
    return TRUE;
  g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, _("%s must be a number; it is “%s”"), what, text);
  return FALSE;
}
