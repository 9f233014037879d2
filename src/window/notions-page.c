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
#include "window/watch.h"
#include "words/words.h"

#define NEEDLE_WIDTH_EM 1
#define NEEDLE_HEIGHT_EM 2.5

struct _HwNotionsPage
{
  GtkWidget    parent_instance;
  HwWorkspace *workspace;
  GtkBox      *place;
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
  GtkWidget *much = new_label (amount, "amount");

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

static char *
describe_bobbins (const HwNotion *notion)
{
  g_autofree char *need = hw_words_metres (notion->bobbin_m);
  g_autofree char *capacity = hw_words_metres (notion->bobbin_capacity_m);

  if (notion->bobbins == 0)
    return NULL;
  /* Translators: number of bobbins, metres on them, metres one holds */
  return g_strdup_printf (ngettext ("%d bobbin to wind: %s needed, one holds about %s",
                                    "%d bobbins to wind: %s needed, one holds about %s", (gulong) notion->bobbins),
                          notion->bobbins, need, capacity);
}

static char *
describe_remark (const HwNotion *notion)
{
  g_autofree char *bobbins = describe_bobbins (notion);
  g_autofree char *cones = NULL;

  if (notion->cones > 0)
    cones = g_strdup_printf (ngettext ("%d cone for the overlocker", "%d cones for the overlocker",
                                       (gulong) notion->cones), notion->cones);
  if (bobbins != NULL && cones != NULL)
    return g_strdup_printf ("%s; %s", bobbins, cones);
  return bobbins != NULL ? g_steal_pointer (&bobbins) : g_steal_pointer (&cones);
}

static void
add_threads (HwNotionsPage *self,
             const HwPlan  *plan)
{
  GtkWidget *sheet = add_sheet (self, _("Thread"));

  for (guint i = 0; i < plan->notions->len; i++)
    {
      const HwNotion *notion = g_ptr_array_index (plan->notions, i);
      HwThreadChoice  thread = { notion->thread, notion->entry, notion->tex, 0 };
      g_autofree char *what = hw_words_thread (&thread);
      g_autofree char *remark = describe_remark (notion);
      g_autofree char *amount = hw_words_metres (notion->needle_m + notion->bobbin_m);

      add_line (sheet, NULL, what, remark, amount);
    }
  gtk_box_append (GTK_BOX (sheet),
                  new_label (_("Computed from seam lengths, stitch and layers, with tails and 5 % for sewing again. "
                               "An estimate: wind one bobbin more for a long row."), "note"));
}

static void
add_needles (HwNotionsPage *self,
             const HwPlan  *plan)
{
  GtkWidget *sheet;

  if (plan->needles->len == 0)
    return;

  sheet = add_sheet (self, _("Needles, in the order they are loaded"));
  for (guint i = 0; i < plan->needles->len; i++)
    {
      const HwNeedlePick *pick = g_ptr_array_index (plan->needles, i);
      const HwGroup      *group = hw_plan_get_group (plan, pick->group);
      g_autofree char    *what = hw_words_pick (plan, pick);
      /* Translators: set-up's letter, machine's name */
      g_autofree char    *remark = group != NULL ? g_strdup_printf (_("set-up %s, %s"), group->letter,
                                                                    group->machine->name) : NULL;
      GtkWidget *picture = hw_motif_new (NEEDLE_WIDTH_EM, NEEDLE_HEIGHT_EM);

      hw_motif_show_needle (HW_MOTIF (picture), !pick->buy);
      hw_motif_set_name (HW_MOTIF (picture), _("Needle"));
      add_line (sheet, picture, what, remark, pick->buy ? _("to buy") : _("in the case"));
    }
}

static void
add_hours (HwNotionsPage *self,
           const HwPlan  *plan)
{
  GtkWidget       *sheet = add_sheet (self, _("Time"));
  g_autofree char *hand = hw_words_minutes (plan->hand_minutes);
  g_autofree char *left = hw_words_minutes (plan->minutes_left);
  g_autofree char *total = hw_words_minutes (plan->minutes_total);

  for (guint i = 0; i < plan->hours->len; i++)
    {
      const HwMachineHours *hours = &g_array_index (plan->hours, HwMachineHours, i);
      g_autofree char *amount = hw_words_minutes (hours->at_machine_hours * 60);
      g_autofree char *running = hw_words_minutes (hours->running_hours * 60);
      /* Translators: minutes */
      g_autofree char *remark = g_strdup_printf (_("the needle moves for %s of it"), running);

      add_line (sheet, NULL, hours->machine->name, remark, amount);
    }
  if (plan->hand_minutes > 0)
    add_line (sheet, NULL, _("By hand"), NULL, hand);
  {
    /* Translators: minutes */
    g_autofree char *remark = g_strdup_printf (_("%s of it still to do"), left);

    add_line (sheet, NULL, _("In all"), remark, total);
  }
}

static void
update_page (GtkWidget *widget)
{
  HwNotionsPage *self = HW_NOTIONS_PAGE (widget);
  const HwPlan *plan = hw_workspace_peek_plan (self->workspace);
  GtkWidget    *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->place))) != NULL)
    gtk_box_remove (self->place, child);

  if (plan == NULL || plan->notions->len == 0)
    {
      gtk_box_append (self->place,
                      new_label (_("Nothing to get ready yet. Add an operation on the page “Making up”; thread, "
                                   "bobbins and needles are counted here."), "empty"));
      return;
    }
  add_threads (self, plan);
  add_needles (self, plan);
  add_hours (self, plan);
}

static char *
write_list (const HwPlan *plan)
{
  GString *text = g_string_new (plan->project->title);

  g_string_append_c (text, '\n');
  for (guint i = 0; i < plan->notions->len; i++)
    {
      const HwNotion *notion = g_ptr_array_index (plan->notions, i);
      HwThreadChoice  thread = { notion->thread, notion->entry, notion->tex, 0 };
      g_autofree char *what = hw_words_thread (&thread);
      g_autofree char *amount = hw_words_metres (notion->needle_m + notion->bobbin_m);
      g_autofree char *remark = describe_remark (notion);

      g_string_append_printf (text, "- %s: %s%s%s\n", what, amount, remark != NULL ? "; " : "",
                              remark != NULL ? remark : "");
    }
  for (guint i = 0; i < plan->needles->len; i++)
    {
      g_autofree char *what = hw_words_pick (plan, g_ptr_array_index (plan->needles, i));

      g_string_append_printf (text, "- %s\n", what);
    }
  return g_string_free (text, FALSE);
}

static void
copy_action (GtkWidget  *widget,
             const char *action_name,
             GVariant   *parameter)
{
  HwNotionsPage *self = HW_NOTIONS_PAGE (widget);
  const HwPlan  *plan = hw_workspace_peek_plan (self->workspace);
  g_autofree char *text = plan != NULL ? write_list (plan) : NULL;

  if (text == NULL)
    return;
  gdk_clipboard_set_text (gtk_widget_get_clipboard (widget), text);
  g_signal_emit_by_name (self->workspace, "message", _("The list is on the clipboard."), FALSE);
}

static void
hw_notions_page_dispose (GObject *object)
{
  HwNotionsPage *self = HW_NOTIONS_PAGE (object);
  GtkWidget     *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
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
}

static void
hw_notions_page_init (HwNotionsPage *self)
{
}

GtkWidget *
hw_notions_page_new (HwWorkspace *workspace)
{
  HwNotionsPage *self = g_object_new (HW_TYPE_NOTIONS_PAGE, NULL);
  GtkWidget     *scroller = gtk_scrolled_window_new ();
  GtkWidget     *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  const char    *copy_label = _("Cop_y the list");
  GtkWidget     *copy = gtk_button_new_with_mnemonic (copy_label);

  self->workspace = g_object_ref (workspace);
  gtk_widget_add_css_class (page, "page");
  self->place = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 10));
  gtk_box_append (GTK_BOX (page), GTK_WIDGET (self->place));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (copy), "notions.copy");
  hw_control_name_by (copy, copy_label);
  gtk_widget_set_halign (copy, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (page), copy);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), page);
  gtk_widget_set_parent (scroller, GTK_WIDGET (self));

  hw_watch (GTK_WIDGET (self), workspace, update_page);
  return GTK_WIDGET (self);
}
