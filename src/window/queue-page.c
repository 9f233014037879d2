/* queue-page.c - the projects in the order to sew them, when each is done, and the care that falls due on the way
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The order of the queue and whether it is mixed are preferences of the room.
 */

#include "config.h"

#include "window/pages.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/queue-count.h"
#include "window/watch.h"
#include "words/words.h"

#define HW_TYPE_QUEUE_PAGE (hw_queue_page_get_type ())
G_DECLARE_FINAL_TYPE (HwQueuePage, hw_queue_page, HW, QUEUE_PAGE, GtkBox)

struct _HwQueuePage
{
  GtkBox        parent_instance;
  HwWorkspace  *workspace;
  GtkWidget    *about, *mixed;          /* the sheets of rows stand below */
  HwQueue      *queue;                  /* what is shown; NULL: not counted yet */
  GCancellable *counting;               /* NULL: nothing was counted yet */
  gboolean      showing;
};

G_DEFINE_FINAL_TYPE (HwQueuePage, hw_queue_page, GTK_TYPE_BOX)

/* ---- counting ---- */

static void show (HwQueuePage *self);

static void
counted_cb (gpointer  page,
            HwQueue  *queue)
{
  HwQueuePage *self = HW_QUEUE_PAGE (page);

  g_clear_pointer (&self->queue, hw_queue_unref);
  self->queue = hw_queue_ref (queue);
  show (self);
}

static void
refresh (GtkWidget *widget)
{
  HwQueuePage *self = HW_QUEUE_PAGE (widget);

  hw_queue_count (self->workspace, self, &self->counting, counted_cb);
}

/* ---- showing ---- */

/* Sheets come and go whole. An empty box that waits out of sight for its rows has no use for its width, and GTK 4.8 may
 * remember that when it has them: a count may come back after the page was left. */
static void
remove_sheets (HwQueuePage *self)
{
  GtkWidget *sheet;

  while ((sheet = gtk_widget_get_next_sibling (self->mixed)) != NULL)
    gtk_box_remove (GTK_BOX (gtk_widget_get_parent (sheet)), sheet);
}

static GtkWidget *
add_sheet (HwQueuePage *self,
           const char  *title)
{
  GtkWidget *sheet = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_widget_add_css_class (sheet, "sheet");
  gtk_box_append (GTK_BOX (sheet), hw_label_new (title, "sheet-title"));
  gtk_box_append (GTK_BOX (gtk_widget_get_parent (self->mixed)), sheet);
  return sheet;
}

static GtkWidget *
add_row (GtkWidget  *sheet,
         const char *text)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *label = hw_label_new (text, "strong");

  gtk_widget_add_css_class (row, "sheet-row");
  gtk_widget_set_hexpand (label, TRUE);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (sheet), row);
  return row;
}

static void
add_value (GtkWidget  *row,
           const char *text,
           const char *class)
{
  GtkWidget *label = hw_label_new (text, class);

  gtk_label_set_xalign (GTK_LABEL (label), 1);
  gtk_widget_set_valign (label, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (row), label);
}

static void
add_move (GtkWidget  *row,
          const char *label,
          const char *name,
          guint       index,
          int         by,
          gboolean    possible)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_widget_add_css_class (button, "link");
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  /* An action that can be done would make the button sensitive again. */
  gtk_widget_set_sensitive (button, possible);
  if (possible)
    {
      gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "(ui)", index, by);
      gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "queue.move");
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_box_append (GTK_BOX (row), button);
}

static char *
say_done (const HwQueue *queue,
          guint          index)
{
  const HwProject *project = g_ptr_array_index (queue->projects, index);
  g_autofree char *left = hw_words_hours (queue->hours_left[index]);
  g_autofree char *done = hw_words_date (queue->finished[index]);
  g_autofree char *due = hw_words_date (project->due);

  if (queue->late[index])
    /* Translators: hours of work, the date when they are done, the date by which they should be */
    return g_strdup_printf (_("%s left, done by %s: late, due %s"), left, done, due);
  if (project->due != NULL)
    /* Translators: hours of work, the date when they are done, the date by which they should be */
    return g_strdup_printf (_("%s left, done by %s, due %s"), left, done, due);
  /* Translators: hours of work, the date when they are done */
  return g_strdup_printf (_("%s left, done by %s"), left, done);
}

static void
add_project (HwQueuePage *self,
             GtkWidget   *sheet,
             guint        index)
{
  const HwProject *project = g_ptr_array_index (self->queue->projects, index);
  GtkWidget       *row = add_row (sheet, project->title);
  g_autofree char *done = say_done (self->queue, index);
  /* Translators: a project */
  g_autofree char *earlier = g_strdup_printf (_("Sew %s earlier"), project->title);
  /* Translators: a project */
  g_autofree char *later = g_strdup_printf (_("Sew %s later"), project->title);

  add_value (row, done, self->queue->late[index] ? "brass" : NULL);
  if (self->queue->projects->len == 1)
    return;
  add_move (row, _("Earlier"), earlier, index, -1, index > 0);
  add_move (row, _("Later"), later, index, 1, index + 1 < self->queue->projects->len);
}

static void
add_projects (HwQueuePage *self)
{
  GtkWidget *sheet = add_sheet (self, _("Projects"));

  for (guint i = 0; i < self->queue->projects->len; i++)
    add_project (self, sheet, i);
  for (guint i = 0; i < self->queue->refused->len; i++)
    add_value (add_row (sheet, g_ptr_array_index (self->queue->refused, i)), _("cannot be planned"), "rust");
}

/* What is not stands with the machines' clocks. */
static gboolean
is_in_sight (const HwCareDue *due)
{
  return due->date != NULL || due->overdue || due->project >= 0;
}

static void
add_care (HwQueuePage     *self,
          GtkWidget       *sheet,
          const HwCareDue *due)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);
  g_autofree char  *title = hw_words_care_title (handbook, due);
  g_autofree char  *clock = hw_words_care_clock (handbook, due);
  g_autofree char  *when = hw_words_care_when (self->queue, due);
  g_autofree char  *date = hw_words_date (due->about != NULL ? due->about : due->date);
  g_autofree char  *text = NULL;

  if ((due->about != NULL || due->date != NULL) && !due->overdue)
    /* Translators: how far a clock has run, before which step it falls due, on what date */
    text = g_strdup_printf (_("%s; %s, %s"), clock, when, date);
  else
    /* Translators: how far a clock has run, when it falls due */
    text = g_strdup_printf (_("%s; %s"), clock, when);
  add_value (add_row (sheet, title), text, due->overdue ? "brass" : NULL);
}

static void
add_cares (HwQueuePage *self)
{
  GtkWidget *sheet = NULL;

  for (guint i = 0; i < self->queue->care->len; i++)
    {
      const HwCareDue *due = g_ptr_array_index (self->queue->care, i);

      if (!is_in_sight (due))
        continue;
      if (sheet == NULL)
        sheet = add_sheet (self, _("Care on the way"));
      add_care (self, sheet, due);
    }
}

static void
add_step (HwQueuePage *self,
          GtkWidget   *sheet,
          guint        index)
{
  const HwQueueStep *step = &g_array_index (self->queue->steps, HwQueueStep, index);
  const HwPlan      *plan = g_ptr_array_index (self->queue->plans, (guint) step->plan);
  const HwPlanStep  *planned = &g_array_index (plan->order, HwPlanStep, (guint) step->place);
  const HwPlanStep  *before = step->place > 0 ? planned - 1 : NULL;
  const HwProject   *project = g_ptr_array_index (self->queue->projects, (guint) step->project);
  const HwStep      *own = hw_project_get_step (project, (gsize) hw_project_find_step (project, step->step));
  g_autofree char   *text = g_strdup_printf ("%s %s", step->step, own->name);

  if (planned->group >= 0 && (before == NULL || planned->group != before->group))
    {
      g_autofree char *change = hw_words_heading (plan, planned, before);

      gtk_box_append (GTK_BOX (sheet), hw_label_new (change, "sheet-title"));
    }
  add_value (add_row (sheet, text), project->title, "mute");
}

/* The steps of a mixed queue: no single project's page shows their order. */
static void
add_steps (HwQueuePage *self)
{
  GtkWidget *sheet = add_sheet (self, _("All steps in the order to sew them"));

  for (guint i = 0; i < self->queue->steps->len; i++)
    add_step (self, sheet, i);
}

static char *
say_changes (const HwQueue *queue)
{
  g_autofree char *apart = hw_words_minutes (queue->change_minutes_one_by_one);
  g_autofree char *together = hw_words_minutes (queue->change_minutes);

  if (queue->mixed)
    /* Translators: minutes, twice */
    return g_strdup_printf (_("Mixed, the changes take %s; one project after another they would take %s."), together,
                            apart);
  if (queue->projects->len == 1)
    /* Translators: minutes */
    return g_strdup_printf (_("The changes take %s."), apart);
  /* Translators: minutes */
  return g_strdup_printf (_("One project after another, the changes take %s."), apart);
}

static void
show_about (HwQueuePage *self)
{
  const HwPreferences *preferences = hw_workspace_get_room (self->workspace)->preferences;
  g_autofree char     *week = hw_words_hours (preferences->hours_a_week);
  g_autofree char     *changes = say_changes (self->queue);
  g_autofree char     *text = NULL;

  if (self->queue->projects->len == 0)
    text = g_strdup (_("Nothing is left to sew. Begin a project, and it stands here with the date it will be done."));
  else
    /* Translators: what changes cost; hours */
    text = g_strdup_printf (_("%s Dates are for %s a week at the machines and by hand; see Preferences."), changes,
                            week);
  gtk_label_set_text (GTK_LABEL (self->about), text);
}

static void
show (HwQueuePage *self)
{
  gboolean mixed = hw_workspace_get_room (self->workspace)->preferences->mixed;

  self->showing = TRUE;
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->mixed), mixed);
  self->showing = FALSE;
  gtk_widget_set_visible (self->mixed, mixed || self->queue->projects->len > 1);
  remove_sheets (self);
  if (self->queue->projects->len + self->queue->refused->len > 0)
    add_projects (self);
  add_cares (self);
  if (self->queue->mixed)
    add_steps (self);
  show_about (self);
}

/* ---- actions ---- */

static void
keep (HwQueuePage   *self,
      HwPreferences *next)
{
  g_autoptr (GError) error = NULL;
  HwRoom            *room = hw_room_with_preferences (hw_workspace_get_room (self->workspace), next, &error);

  hw_workspace_take_room (self->workspace, room, error);
}

static void
move_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  HwQueuePage              *self = HW_QUEUE_PAGE (widget);
  g_autoptr (HwPreferences) next = hw_preferences_copy (hw_workspace_get_room (self->workspace)->preferences);
  g_autoptr (GPtrArray)     ids = g_ptr_array_new_with_free_func (g_free);
  guint                     index;
  int                       by;

  g_variant_get (parameter, "(ui)", &index, &by);
  if (self->queue == NULL || index >= self->queue->projects->len
      || (by < 0 ? index == 0 : index + 1 >= self->queue->projects->len))
    return;
  for (guint i = 0; i < self->queue->projects->len; i++)
    g_ptr_array_add (ids, g_strdup (((HwProject *) g_ptr_array_index (self->queue->projects, i))->id));
  g_ptr_array_insert (ids, (int) index + by, g_ptr_array_steal_index (ids, index));
  g_ptr_array_add (ids, NULL);
  g_strfreev (next->queue);
  next->queue = g_strdupv ((char **) ids->pdata);
  keep (self, next);
}

static void
mixed_toggled_cb (HwQueuePage *self)
{
  g_autoptr (HwPreferences) next = NULL;

  if (self->showing)
    return;
  next = hw_preferences_copy (hw_workspace_get_room (self->workspace)->preferences);
  next->mixed = gtk_check_button_get_active (GTK_CHECK_BUTTON (self->mixed));
  keep (self, next);
}

/* ---- the object ---- */

static void
hw_queue_page_dispose (GObject *object)
{
  HwQueuePage *self = HW_QUEUE_PAGE (object);

  hw_queue_count_cancel (&self->counting);
  g_clear_pointer (&self->queue, hw_queue_unref);
  g_clear_object (&self->workspace);
  G_OBJECT_CLASS (hw_queue_page_parent_class)->dispose (object);
}

static void
hw_queue_page_class_init (HwQueuePageClass *class)
{
  G_OBJECT_CLASS (class)->dispose = hw_queue_page_dispose;
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (class), "queue.move", "(ui)", move_action);
}

static void
hw_queue_page_init (HwQueuePage *self)
{
}

GtkWidget *
hw_queue_page_new (HwWorkspace *workspace)
{
  HwQueuePage *self = g_object_new (HW_TYPE_QUEUE_PAGE, NULL);
  GtkWidget   *scroller = gtk_scrolled_window_new ();
  GtkWidget   *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);

  self->workspace = g_object_ref (workspace);
  gtk_widget_add_css_class (box, "page");
  gtk_box_append (GTK_BOX (box), hw_label_new (_("What to sew next"), "figure"));
  self->about = hw_label_new (_("Counting…"), "mute");
  gtk_box_append (GTK_BOX (box), self->about);
  self->mixed = gtk_check_button_new_with_label (_("Sew them mixed, with the fewest changes"));
  gtk_box_append (GTK_BOX (box), self->mixed);
  gtk_widget_set_visible (self->mixed, FALSE);          /* until there are two to mix */
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), box);
  gtk_widget_set_hexpand (scroller, TRUE);
  gtk_box_append (GTK_BOX (self), scroller);
  g_signal_connect_swapped (self->mixed, "toggled", G_CALLBACK (mixed_toggled_cb), self);
  hw_watch (GTK_WIDGET (self), workspace, refresh);
  return GTK_WIDGET (self);
}
