/* versions-page.c - earlier versions of the open project: when, what was changed since, and going back
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each is read and compared on a thread, for there may be a hundred and a project may be large; what is shown stays
 * until the answer is there. An answer about what is past is asked for again.
 */

#include "config.h"

#include "window/pages.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/room-rows.h"
#include "window/tab-stop.h"
#include "window/watch.h"
#include "words/words-versions.h"
#include "words/words.h"

#define HW_TYPE_VERSIONS_PAGE (hw_versions_page_get_type ())
G_DECLARE_FINAL_TYPE (HwVersionsPage, hw_versions_page, HW, VERSIONS_PAGE, GtkBox)

struct _HwVersionsPage
{
  GtkBox        parent_instance;
  HwWorkspace  *workspace;
  GtkWidget    *title, *rows;
  GCancellable *gone;
  HwProject    *asked;           /* what the running comparison is about; NULL: none runs */
};

G_DEFINE_FINAL_TYPE (HwVersionsPage, hw_versions_page, GTK_TYPE_BOX)

/* ---- on the thread ---- */

typedef struct
{
  char     *path, *when, *since;
  gboolean  same;                /* as the project is now */
  gboolean  damaged;             /* since says why */
} Line;

typedef struct
{
  char      *folder;
  HwProject *project;
  GPtrArray *lines;
} Look;

static void
free_line (gpointer data)
{
  Line *line = data;

  g_free (line->path);
  g_free (line->when);
  g_free (line->since);
  g_free (line);
}

static void
free_look (gpointer data)
{
  Look *look = data;

  g_free (look->folder);
  hw_project_unref (look->project);
  g_clear_pointer (&look->lines, g_ptr_array_unref);
  g_free (look);
}

static char *
say_since (const HwDifference *difference)
{
  g_autofree char *summary = hw_words_difference (difference);
  g_autofree char *steps = hw_words_which_steps (difference);

  if (hw_difference_is_none (difference))
    return g_strdup (_("As the project is now"));
  /* Translators: what differs, such as “2 steps added, threads”; then lines that name the steps */
  return g_strchomp (g_strdup_printf (_("Since then: %s\n%s"), summary, steps));
}

static Line *
make_line (const HwVersion *version,
           const HwProject *project)
{
  Line *line = g_new0 (Line, 1);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) earlier = hw_version_read (version, project, &error);
  g_autoptr (HwDifference) difference = earlier != NULL ? hw_project_compare (earlier, project) : NULL;

  line->path = g_strdup (version->path);
  line->when = hw_words_moment (version->time);
  line->damaged = earlier == NULL;
  line->same = difference != NULL && hw_difference_is_none (difference);
  line->since = difference != NULL ? say_since (difference) : g_strdup (error->message);
  return line;
}

static void
look_in_thread (GTask        *task,
                gpointer      source,
                gpointer      data,
                GCancellable *cancellable)
{
  Look *look = data;
  g_autoptr (GPtrArray) versions = hw_versions_list (look->folder, look->project->id);

  look->lines = g_ptr_array_new_with_free_func (free_line);
  for (guint i = 0; i < versions->len && !g_cancellable_is_cancelled (cancellable); i++)
    g_ptr_array_add (look->lines, make_line (versions->pdata[i], look->project));
  g_task_return_boolean (task, TRUE);
}

/* ---- rows ---- */

static void
add_row (HwVersionsPage *self,
         const Line     *line)
{
  GtkWidget *row = hw_room_rows_add (self->rows, line->when, line->since, line->damaged ? "rust" : "mute");

  if (!line->damaged && !line->same)
    hw_room_row_add_button (row, _("Go back to this"), line->when, "versions.go-back", line->path);
}

static void
show_lines (HwVersionsPage  *self,
            const GPtrArray *lines)
{
  hw_room_rows_clear (self->rows);
  for (guint i = 0; i < lines->len; i++)
    add_row (self, g_ptr_array_index (lines, i));
  if (lines->len == 0)
    hw_room_rows_add_empty (self->rows, _("There are none yet. Change something in the project: what it was before is "
                                          "kept here."));
}

static void refresh (GtkWidget *page);

static void
looked_cb (GObject      *source,
           GAsyncResult *result,
           gpointer      data)
{
  HwVersionsPage *self = data;           /* gone when the task was cancelled */
  Look *look = g_task_get_task_data (G_TASK (result));

  if (g_cancellable_is_cancelled (g_task_get_cancellable (G_TASK (result))))
    return;
  g_clear_pointer (&self->asked, hw_project_unref);
  if (look->project == hw_workspace_peek_project (self->workspace))
    show_lines (self, look->lines);
  else
    refresh (GTK_WIDGET (self));
}

static void
refresh (GtkWidget *page)
{
  HwVersionsPage   *self = HW_VERSIONS_PAGE (page);
  HwProject        *project = (HwProject *) hw_workspace_peek_project (self->workspace);
  g_autoptr (GTask) task = NULL;
  Look             *look;

  gtk_label_set_text (GTK_LABEL (self->title), project != NULL ? project->title : "");
  if (project == NULL)
    {
      hw_room_rows_clear (self->rows);
      hw_room_rows_add_empty (self->rows, _("No project is open. Open one on the left to see what it was before."));
      return;
    }
  if (self->asked != NULL)
    return;
  self->asked = hw_project_ref (project);
  look = g_new0 (Look, 1);
  look->folder = g_strdup (hw_workspace_get_room (self->workspace)->folder);
  look->project = hw_project_ref (project);
  task = g_task_new (NULL, self->gone, looked_cb, self);
  g_task_set_source_tag (task, refresh);
  g_task_set_task_data (task, look, free_look);
  g_task_run_in_thread (task, look_in_thread);
}

/* ---- what a person does ---- */

static void
go_back_action (GtkWidget  *widget,
                const char *name,
                GVariant   *parameter)
{
  hw_workspace_go_back (HW_VERSIONS_PAGE (widget)->workspace, g_variant_get_string (parameter, NULL));
}

/* ---- the object ---- */

static void
hw_versions_page_dispose (GObject *object)
{
  HwVersionsPage *self = HW_VERSIONS_PAGE (object);

  g_cancellable_cancel (self->gone);
  g_clear_pointer (&self->asked, hw_project_unref);
  g_clear_object (&self->workspace);
  G_OBJECT_CLASS (hw_versions_page_parent_class)->dispose (object);
}

static void
hw_versions_page_finalize (GObject *object)
{
  g_object_unref (HW_VERSIONS_PAGE (object)->gone);
  G_OBJECT_CLASS (hw_versions_page_parent_class)->finalize (object);
}

static void
hw_versions_page_class_init (HwVersionsPageClass *class)
{
  G_OBJECT_CLASS (class)->dispose = hw_versions_page_dispose;
  G_OBJECT_CLASS (class)->finalize = hw_versions_page_finalize;
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (class), "versions.go-back", "s", go_back_action);
}

static void
hw_versions_page_init (HwVersionsPage *self)
{
  GtkWidget *scrolled = gtk_scrolled_window_new ();

  self->gone = g_cancellable_new ();
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 10);
  gtk_widget_add_css_class (GTK_WIDGET (self), "page");
  gtk_box_append (GTK_BOX (self), hw_label_new (_("Earlier versions"), "figure"));
  self->title = hw_label_new (NULL, "subtitle");
  gtk_box_append (GTK_BOX (self), self->title);
  gtk_box_append (GTK_BOX (self), hw_label_new (_("One is kept when you begin to change a project, and every hour that "
                                                  "you go on; with age they become fewer. Going back can be undone."),
                                                "mute"));
  self->rows = hw_room_rows_new (_("Earlier versions"));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), self->rows);
  gtk_widget_set_vexpand (scrolled, TRUE);
  gtk_box_append (GTK_BOX (self), hw_tab_stop_new (scrolled));
}

GtkWidget *
hw_versions_page_new (HwWorkspace *workspace)
{
  HwVersionsPage *self = g_object_new (HW_TYPE_VERSIONS_PAGE, NULL);

  self->workspace = g_object_ref (workspace);
  hw_watch (GTK_WIDGET (self), workspace, refresh);
  return GTK_WIDGET (self);
}
