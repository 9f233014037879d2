/* copies-bar.c - tells of conflicting copies in the sewing room, and merges them
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Looked for on a thread, for a room may hold hundreds of files: at the start, when files have come, and when a person
 * comes back to the window, as from a program that keeps folders alike.
 */

#include "config.h"

#include "window/copies-bar.h"

#include <glib/gi18n.h>

#include "files/save.h"
#include "model/copies.h"
#include "window/later.h"
#include "words/words.h"

#define MOST_NAMED 4

struct _HwCopiesBar
{
  GtkWidget    parent_instance;
  GtkWidget   *box, *label;
  HwWorkspace *workspace;
  GCancellable *gone;
  char        *hidden;           /* what the person has hidden: not shown again */
  gboolean     looking;
  gboolean     again;            /* something happened since the look began */
};

G_DEFINE_FINAL_TYPE (HwCopiesBar, hw_copies_bar, GTK_TYPE_WIDGET)

/* ---- words ---- */

/* "title, operation 3, …" */
static char *
name_differences (const HwCopy *copy)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) differences = hw_copy_compare (copy, &error);
  GPtrArray *names;

  if (differences == NULL)
    return g_strdup (error->message);
  if (differences->len == 0)
    return g_strdup (_("nothing differs"));
  names = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < MIN (differences->len, MOST_NAMED); i++)
    g_ptr_array_add (names, g_strdup (((HwCopyDifference *) differences->pdata[i])->what));
  if (differences->len > MOST_NAMED)
    g_ptr_array_add (names, g_strdup ("…"));
  return hw_words_list (names);
}

static char *
describe (const GPtrArray *copies)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < copies->len; i++)
    {
      const HwCopy *copy = copies->pdata[i];
      g_autofree char *file = hw_show_name (copy->file);
      g_autofree char *name = hw_show_name (copy->copy);
      g_autofree char *differences = name_differences (copy);

      if (i > 0)
        g_string_append_c (text, '\n');
      /* Translators: names of two files; in what they differ */
      g_string_append_printf (text, _("“%1$s” is a second copy of “%2$s”: %3$s."), name, file, differences);
    }
  return g_string_free (text, FALSE);
}

/* ---- looking ---- */

typedef struct
{
  char      *folder;
  GPtrArray *copies;
  char      *text;
} Look;

static void
free_look (gpointer data)
{
  Look *self = data;

  g_free (self->folder);
  g_clear_pointer (&self->copies, g_ptr_array_unref);
  g_free (self->text);
  g_free (self);
}

static void
look_in_thread (GTask        *task,
                gpointer      source,
                gpointer      data,
                GCancellable *cancellable)
{
  Look *found = data;

  found->copies = hw_copies_find (found->folder);
  found->text = describe (found->copies);
  g_task_return_boolean (task, TRUE);
}

static void look (gpointer data);

static void
looked_cb (GObject      *source,
           GAsyncResult *result,
           gpointer      data)
{
  HwCopiesBar *self = data;              /* gone when the task was cancelled */
  Look *found = g_task_get_task_data (G_TASK (result));

  if (g_cancellable_is_cancelled (g_task_get_cancellable (G_TASK (result))))
    return;
  self->looking = FALSE;
  gtk_label_set_text (GTK_LABEL (self->label), found->text);
  gtk_widget_set_visible (GTK_WIDGET (self), found->copies->len > 0 && g_strcmp0 (found->text, self->hidden) != 0);
  if (self->again)
    look (self);
}

/* The task keeps nothing of the window: it may be closed meanwhile. */
static void
look (gpointer data)
{
  HwCopiesBar *self = HW_COPIES_BAR (data);
  g_autoptr (GTask) task = NULL;
  Look *found;

  self->again = self->looking;
  if (self->looking || self->workspace == NULL)
    return;
  self->looking = TRUE;
  found = g_new0 (Look, 1);
  found->folder = g_strdup (hw_workspace_get_room (self->workspace)->folder);
  task = g_task_new (NULL, self->gone, looked_cb, self);
  g_task_set_source_tag (task, look);
  g_task_set_task_data (task, found, free_look);
  g_task_run_in_thread (task, look_in_thread);
}

static void
active_cb (GtkWindow   *window,
           GParamSpec  *pspec,
           HwCopiesBar *self)
{
  if (gtk_window_is_active (window) && self->workspace != NULL)
    hw_later (self->workspace, self, look);
}

static void
hw_copies_bar_root (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (hw_copies_bar_parent_class)->root (widget);
  if (GTK_IS_WINDOW (gtk_widget_get_root (widget)))
    g_signal_connect_object (gtk_widget_get_root (widget), "notify::is-active", G_CALLBACK (active_cb), widget, 0);
}

void
hw_copies_bar_set_workspace (HwCopiesBar *self,
                             HwWorkspace *workspace)
{
  g_return_if_fail (HW_IS_COPIES_BAR (self) && HW_IS_WORKSPACE (workspace));

  g_set_object (&self->workspace, workspace);
  g_signal_connect_object (workspace, "files", G_CALLBACK (look), self, G_CONNECT_SWAPPED);
  hw_later (workspace, self, look);
}

/* ---- what a person does ---- */

/* What is open and not in its file is in a copy then, to be merged with the others. */
static GPtrArray *
find_all (HwCopiesBar *self)
{
  if (!hw_workspace_is_saved (self->workspace))
    hw_workspace_save (self->workspace, NULL);
  return hw_copies_find (hw_workspace_get_room (self->workspace)->folder);
}

static void
merge_action (GtkWidget  *widget,
              const char *name,
              GVariant   *parameter)
{
  HwCopiesBar *self = HW_COPIES_BAR (widget);
  g_autoptr (GPtrArray) copies = find_all (self);
  g_autoptr (GError) error = NULL;
  gboolean prefer_copy = g_str_equal (name, "copies.merge-prefer-copy");
  guint n = 0;

  while (n < copies->len && hw_copy_merge (copies->pdata[n], prefer_copy, &error))
    n++;
  if (n > 0)
    hw_workspace_read_again (self->workspace);
  if (error != NULL)
    hw_workspace_tell (self->workspace, error->message, TRUE);
  else if (n > 0)
    {
      g_autofree char *file = hw_show_name (((HwCopy *) copies->pdata[n - 1])->copy);
      g_autofree char *text = g_strdup_printf (_("Merged; the copy is kept as “%s~”."), file);
      hw_workspace_tell (self->workspace, text, FALSE);
    }
  look (self);
}

static void
hide_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  HwCopiesBar *self = HW_COPIES_BAR (widget);

  g_free (self->hidden);
  self->hidden = g_strdup (gtk_label_get_text (GTK_LABEL (self->label)));
  gtk_widget_set_visible (widget, FALSE);
}

/* ---- the widget ---- */

static void
add_button (HwCopiesBar *self,
            const char  *label,
            const char  *action,
            const char  *tooltip)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_add_css_class (button, "tool");
  gtk_widget_set_tooltip_text (button, tooltip);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_box_append (GTK_BOX (self->box), button);
}

static void
hw_copies_bar_dispose (GObject *object)
{
  HwCopiesBar *self = HW_COPIES_BAR (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_cancellable_cancel (self->gone);
  g_clear_object (&self->workspace);
  g_clear_pointer (&self->hidden, g_free);
  G_OBJECT_CLASS (hw_copies_bar_parent_class)->dispose (object);
}

static void
hw_copies_bar_finalize (GObject *object)
{
  g_object_unref (HW_COPIES_BAR (object)->gone);
  G_OBJECT_CLASS (hw_copies_bar_parent_class)->finalize (object);
}

static void
hw_copies_bar_class_init (HwCopiesBarClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = hw_copies_bar_dispose;
  G_OBJECT_CLASS (class)->finalize = hw_copies_bar_finalize;
  widget_class->root = hw_copies_bar_root;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "copies.merge", NULL, merge_action);
  gtk_widget_class_install_action (widget_class, "copies.merge-prefer-copy", NULL, merge_action);
  gtk_widget_class_install_action (widget_class, "copies.hide", NULL, hide_action);
}

static void
hw_copies_bar_init (HwCopiesBar *self)
{
  self->gone = g_cancellable_new ();
  self->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  gtk_widget_add_css_class (self->box, "message");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->label = g_object_new (GTK_TYPE_LABEL, "xalign", 0.0, "hexpand", TRUE, "wrap", TRUE, "wrap-mode",
                              PANGO_WRAP_WORD_CHAR, "accessible-role", GTK_ACCESSIBLE_ROLE_STATUS, NULL);
  gtk_box_append (GTK_BOX (self->box), self->label);
  add_button (self, _("Merge"), "copies.merge",
              _("Keeps what stands in one alone, so that what you removed from the other is there again; "
                "where both differ, the file’s own"));
  add_button (self, _("Merge, the copy first"), "copies.merge-prefer-copy",
              _("Keeps what stands in one alone, so that what you removed from the other is there again; "
                "where both differ, what the copy says"));
  add_button (self, _("Not now"), "copies.hide", NULL);
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}
