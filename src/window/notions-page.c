/* notions-page.c - the page “Notions”: thread, bobbins and needles to have ready, and the hours it will take
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Short lists that are read as a whole: they are built anew when the plan changes.
 */

#include "config.h"

#include "window/notions-page.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/motif.h"
#include "window/notions-list.h"
#include "window/watch.h"
#include "window/wrap.h"

#define NEEDLE_WIDTH_EM 1
#define NEEDLE_HEIGHT_EM 2.5

struct _HwNotionsPage
{
  GtkWidget    parent_instance;
  HwWorkspace *workspace;
  GtkBox      *place;
  GPtrArray   *lines;                   /* what is shown */
};

G_DEFINE_FINAL_TYPE (HwNotionsPage, hw_notions_page, GTK_TYPE_WIDGET)

static GtkWidget *
new_label (const char *text,
           const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_selectable (GTK_LABEL (label), FALSE);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

/* A white sheet with a title; returns the box its rows go into. */
static GtkWidget *
add_sheet (HwNotionsPage *self,
           const char    *title)
{
  GtkWidget *sheet = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *head = new_label (title, "sheet-title");

  gtk_widget_add_css_class (sheet, "sheet");
  gtk_box_append (GTK_BOX (sheet), head);
  gtk_box_append (self->place, sheet);
  return sheet;
}

/* One line: an optional picture, what it is, a remark, how much. */
static void
add_line (GtkWidget  *sheet,
          GtkWidget  *picture,
          const char *what,
          const char *remark,
          const char *amount)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *much = new_label (amount != NULL ? amount : "", "amount");

  gtk_widget_add_css_class (line, "sheet-row");
  if (picture != NULL)
    gtk_box_append (GTK_BOX (line), picture);
  gtk_box_append (GTK_BOX (words), new_label (what, "strong"));
  if (remark != NULL)
    gtk_box_append (GTK_BOX (words), new_label (remark, "secondary"));
  gtk_widget_set_hexpand (words, TRUE);
  gtk_widget_set_valign (words, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (much, GTK_ALIGN_CENTER);
  gtk_label_set_wrap (GTK_LABEL (much), FALSE);
  gtk_box_append (GTK_BOX (line), words);
  gtk_box_append (GTK_BOX (line), much);
  gtk_box_append (GTK_BOX (sheet), line);
}

static GtkWidget *
make_picture (const HwNotionsLine *line)
{
  GtkWidget *picture;

  if (line->kind != HW_NOTIONS_NEEDLE && line->kind != HW_NOTIONS_NEEDLE_TO_BUY)
    return NULL;
  picture = hw_motif_new (NEEDLE_WIDTH_EM, NEEDLE_HEIGHT_EM);
  hw_motif_show_needle (HW_MOTIF (picture), line->kind == HW_NOTIONS_NEEDLE);
  hw_motif_set_name (HW_MOTIF (picture), _("Needle"));
  return picture;
}

static void
update_page (GtkWidget *widget)
{
  HwNotionsPage *self = HW_NOTIONS_PAGE (widget);
  const HwPlan  *plan = hw_workspace_peek_plan (self->workspace);
  const GError  *error = hw_workspace_peek_plan_error (self->workspace);
  GtkWidget     *sheet = NULL;
  GtkWidget     *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->place))) != NULL)
    gtk_box_remove (self->place, child);

  g_clear_pointer (&self->lines, g_ptr_array_unref);
  self->lines = plan != NULL ? hw_notions_list (plan) : g_ptr_array_new ();
  gtk_widget_action_set_enabled (widget, "notions.copy", self->lines->len > 0);
  gtk_widget_action_set_enabled (widget, "notions.print", self->lines->len > 0);
  if (self->lines->len == 0)
    gtk_box_append (self->place, new_label (error != NULL ? error->message
                                            : _("Nothing to get ready yet. Add an operation on the page “Making up”; "
                                                "thread, bobbins and needles are counted here."), "empty"));
  for (guint i = 0; i < self->lines->len; i++)
    {
      const HwNotionsLine *line = g_ptr_array_index (self->lines, i);

      if (line->kind == HW_NOTIONS_HEADING)
        sheet = add_sheet (self, line->what);
      else if (line->kind == HW_NOTIONS_NOTE)
        gtk_box_append (GTK_BOX (sheet), new_label (line->what, "note"));
      else
        add_line (sheet, make_picture (line), line->what, line->remark, line->amount);
    }
}

static void
copy_action (GtkWidget  *widget,
             const char *action_name,
             GVariant   *parameter)
{
  HwNotionsPage   *self = HW_NOTIONS_PAGE (widget);
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  g_autofree char *text = NULL;

  if (project == NULL || self->lines->len == 0)
    return;
  text = hw_notions_text (self->lines, project->title);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (widget), text);
  hw_workspace_tell (self->workspace, _("The list is on the clipboard."), FALSE);
}

gboolean
hw_notions_page_print (HwNotionsPage *self,
                       const char    *export_path,
                       GError       **error)
{
  GtkRoot         *root = gtk_widget_get_root (GTK_WIDGET (self));
  const HwProject *project = hw_workspace_peek_project (self->workspace);

  return project == NULL || hw_notions_print (GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL, self->lines,
                                              project->title, export_path, error);
}

static void
print_action (GtkWidget  *widget,
              const char *action_name,
              GVariant   *parameter)
{
  HwNotionsPage     *self = HW_NOTIONS_PAGE (widget);
  g_autoptr (GError) error = NULL;

  if (!hw_notions_page_print (self, NULL, &error))
    hw_workspace_tell (self->workspace, error->message, TRUE);
}

static void
hw_notions_page_dispose (GObject *object)
{
  HwNotionsPage *self = HW_NOTIONS_PAGE (object);
  GtkWidget     *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_pointer (&self->lines, g_ptr_array_unref);
  g_clear_object (&self->workspace);
  G_OBJECT_CLASS (hw_notions_page_parent_class)->dispose (object);
}

static void
hw_notions_page_class_init (HwNotionsPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hw_notions_page_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "notionspage");
  gtk_widget_class_install_action (widget_class, "notions.copy", NULL, copy_action);
  gtk_widget_class_install_action (widget_class, "notions.print", NULL, print_action);
}

static void
hw_notions_page_init (HwNotionsPage *self)
{
  self->lines = g_ptr_array_new ();
}

static void
add_button (GtkWidget  *bar,
            const char *label,
            const char *action)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  hw_control_name_by (button, label);
  hw_wrap_append (HW_WRAP (bar), button);
}

GtkWidget *
hw_notions_page_new (HwWorkspace *workspace)
{
  HwNotionsPage *self = g_object_new (HW_TYPE_NOTIONS_PAGE, NULL);
  GtkWidget     *scroller = gtk_scrolled_window_new ();
  GtkWidget     *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  GtkWidget     *bar = hw_wrap_new (10, 6);
  GtkWidget     *title = hw_label_new (_("To have ready"), "figure");

  self->workspace = g_object_ref (workspace);
  gtk_widget_add_css_class (page, "page");
  gtk_widget_set_hexpand (title, TRUE);
  hw_wrap_append (HW_WRAP (bar), title);
  add_button (bar, _("Cop_y the list"), "notions.copy");
  add_button (bar, _("_Print the list…"), "notions.print");
  gtk_box_append (GTK_BOX (page), bar);
  self->place = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 10));
  gtk_box_append (GTK_BOX (page), GTK_WIDGET (self->place));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), page);
  gtk_widget_set_parent (scroller, GTK_WIDGET (self));

  hw_watch (GTK_WIDGET (self), workspace, update_page);
  return GTK_WIDGET (self);
}
