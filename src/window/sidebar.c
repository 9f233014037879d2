/* sidebar.c - the projects and the sewing room's pages
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/sidebar.h"

#include <glib/gi18n.h>
#include <math.h>

#include "plan/care.h"
#include "window/controls.h"
#include "window/furnish.h"
#include "window/later.h"
#include "window/project-list.h"
#include "window/read-ahead.h"
#include "window/sign.h"
#include "window/stitch-mark.h"
#include "window/tab-stop.h"
#include "words/words-example.h"
#include "words/words.h"

#define NEARLY_DUE 0.2                  /* share of a care limit that is left when it is told */

#define MANY_PROJECTS 8
#define RECENT_SHOWN 5

struct _HwSidebar
{
  GtkBox       parent_instance;
  HwWorkspace *workspace;
  char        *page;
  GtkListBox  *project_rows, *room_rows;
  int          n_recent;         /* the first rows of the projects */
  GtkWidget   *new_box;
  GtkEditable *new_entry;
};

G_DEFINE_FINAL_TYPE (HwSidebar, hw_sidebar, GTK_TYPE_BOX)

static const struct { const char *page; const char *name; } room_pages[] = {
  { "queue", N_("What to sew next") },
  { "machines", N_("Machines") },
  { "needles", N_("Needles") },
  { "thread", N_("Thread") },
  { "fabrics", N_("Fabrics") },
  { "faults", N_("Stitch faults") },
  { "journal", N_("Journal") },
  { "handbook", N_("Handbook") },
};

/* ---- rows ---- */

/* What a row shows; kept with the row so that it is filled anew and not made anew. */
typedef struct
{
  GtkLabel *name, *detail;
  char     *target;              /* a path or a page; "" the finder */
} RowParts;

static void
free_parts (gpointer data)
{
  RowParts *parts = data;

  g_free (parts->target);
  g_free (parts);
}

static RowParts *
get_parts (GtkListBoxRow *row)
{
  return g_object_get_data (G_OBJECT (row), "hw-parts");
}

static GtkLabel *
add_label (GtkWidget  *box,
           const char *class)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 20);        /* a long title does not push the page aside */
  hw_label_tell_whole (label);
  gtk_widget_add_css_class (label, class);
  gtk_box_append (GTK_BOX (box), label);
  return GTK_LABEL (label);
}

static GtkListBoxRow *
make_row (GtkOrientation orientation,
          const char    *target)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 7);
  GtkWidget *words = gtk_box_new (orientation, orientation == GTK_ORIENTATION_HORIZONTAL ? 8 : 1);
  GtkWidget *mark = hw_stitch_mark_new (GTK_ORIENTATION_VERTICAL);
  RowParts  *parts = g_new0 (RowParts, 1);

  gtk_widget_set_margin_start (mark, 1);
  gtk_widget_set_margin_top (words, 6);
  gtk_widget_set_margin_bottom (words, 6);
  gtk_widget_set_margin_end (words, 8);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (box), mark);
  gtk_box_append (GTK_BOX (box), words);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  parts->target = g_strdup (target);
  parts->name = add_label (words, "name");
  parts->detail = add_label (words, "small");
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      gtk_widget_set_hexpand (GTK_WIDGET (parts->detail), TRUE);
      gtk_label_set_xalign (parts->detail, 1);
    }
  g_object_set_data_full (G_OBJECT (row), "hw-parts", parts, free_parts);
  return GTK_LIST_BOX_ROW (row);
}

static void
fill_row (GtkListBoxRow *row,
          const char    *name,
          const char    *detail,
          const char    *detail_class,
          gboolean       current)
{
  RowParts        *parts = get_parts (row);
  const char      *classes[] = { "small", detail_class, NULL };
  g_autofree char *label = detail[0] != '\0' ? g_strdup_printf (_("%s, %s"), name, detail) : g_strdup (name);

  gtk_label_set_text (parts->name, name);
  gtk_label_set_text (parts->detail, detail);
  if (!gtk_widget_has_css_class (GTK_WIDGET (parts->detail), detail_class))
    gtk_widget_set_css_classes (GTK_WIDGET (parts->detail), classes);
  gtk_widget_set_visible (GTK_WIDGET (parts->detail), detail[0] != '\0');
  if (current)
    gtk_widget_add_css_class (GTK_WIDGET (row), "current");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (row), "current");
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  gtk_accessible_update_state (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_STATE_SELECTED, current, -1);
}

/* ---- projects ---- */

static char *
say_progress (const HwProjectSummary *summary)
{
  if (summary->problem != NULL)
    return g_strdup (_("cannot be read"));
  if (summary->project == NULL)
    /* Translators: beside a project in the sidebar: its file is large, and still being read */
    return g_strdup (_("being read"));
  if (summary->n_done > 0)
    /* Translators: steps done, steps in all */
    return g_strdup_printf (_("%u of %u done"), summary->n_done, summary->n_steps);
  if (summary->n_steps == 0)
    return g_strdup (_("no steps yet"));
  return g_strdup_printf (ngettext ("%u step", "%u steps", summary->n_steps), summary->n_steps);
}

static char *
say_project (const HwProjectSummary *summary)
{
  g_autofree char *progress = say_progress (summary);
  g_autofree char *due = summary->due != NULL ? hw_words_day (summary->due) : NULL;

  if (summary->project != NULL && hw_words_is_example (summary->project))
    /* Translators: of the project that comes with a first start; progress ("6 of 11 sewn") */
    return g_strdup_printf (_("Example: %s"), progress);
  /* Translators: progress ("6 of 11 sewn"), date ("12 June") */
  return due != NULL ? g_strdup_printf (_("%s, due %s"), progress, due) : g_steal_pointer (&progress);
}

static gboolean
is_room_page (HwSidebar *self)
{
  for (gsize i = 0; i < G_N_ELEMENTS (room_pages); i++)
    if (g_strcmp0 (self->page, room_pages[i].page) == 0)
      return TRUE;
  return FALSE;
}

/* The row at @index, for @target; rows are made anew only from the first that differs. */
static GtkListBoxRow *
ensure_row (GtkListBox *list,
            int         index,
            const char *target)
{
  GtkListBoxRow *row = gtk_list_box_get_row_at_index (list, index);

  if (row != NULL && g_str_equal (get_parts (row)->target, target))
    return row;
  row = make_row (GTK_ORIENTATION_VERTICAL, target);
  gtk_list_box_insert (list, GTK_WIDGET (row), index);
  return row;
}

static void
trim_rows (GtkListBox *list,
           int         n)
{
  GtkListBoxRow *row = NULL;

  while ((row = gtk_list_box_get_row_at_index (list, n)) != NULL)
    gtk_list_box_remove (list, GTK_WIDGET (row));
}

static const HwProjectSummary *
find_summary (const GPtrArray *summaries,
              const char      *path)
{
  for (guint i = 0; i < summaries->len; i++)
    {
      const HwProjectSummary *summary = g_ptr_array_index (summaries, i);

      if (g_str_equal (summary->path, path))
        return summary;
    }
  return NULL;
}

static void
show_project (HwSidebar              *self,
              int                     index,
              const HwProjectSummary *summary)
{
  g_autofree char *detail = say_project (summary);
  GtkListBoxRow   *row = ensure_row (self->project_rows, index, summary->path);

  fill_row (row, summary->title, detail, summary->problem != NULL ? "rust" : "mute",
            g_strcmp0 (summary->path, hw_workspace_peek_path (self->workspace)) == 0 && !is_room_page (self));
  hw_control_tell (GTK_WIDGET (row), summary->problem);
}

/* Leads to those that are out of sight. */
static void
show_finder (HwSidebar *self,
             int        index,
             guint      n_all)
{
  g_autofree char *name = g_strdup_printf (ngettext ("Find one of %u project…", "Find one of %u projects…", n_all),
                                           n_all);

  fill_row (ensure_row (self->project_rows, index, ""), name, "", "mute", FALSE);
}

static void
read_awaited (gpointer self)
{
  hw_read_ahead (HW_SIDEBAR (self)->workspace);
}

/* Large ones are read beside the window's work, when it has been drawn. */
static void
ask_for_awaited (HwSidebar       *self,
                 const GPtrArray *summaries)
{
  for (guint i = 0; i < summaries->len; i++)
    if (((const HwProjectSummary *) summaries->pdata[i])->is_awaited)
      {
        hw_later (self->workspace, self, read_awaited);
        return;
      }
}

/* Where there are many, those opened last stand above all of them; where there are more than can be looked through, a
 * row for the finder stands in their place. */
static void
refresh_projects (HwSidebar *self)
{
  const HwRoom         *room = hw_workspace_get_room (self->workspace);
  guint                 n_all = 0;
  g_autoptr (GPtrArray) summaries = hw_workspace_summarise_in_sight (self->workspace, &n_all);
  gboolean              cut = n_all > HW_PROJECTS_IN_SIGHT;
  g_auto (GStrv)        recent = n_all > MANY_PROJECTS && !cut ? hw_recall_projects (room->folder) : NULL;
  int                   n = 0;

  for (char **path = recent; path != NULL && *path != NULL && n < RECENT_SHOWN; path++)
    if (find_summary (summaries, *path) != NULL)
      show_project (self, n++, find_summary (summaries, *path));
  self->n_recent = cut ? (int) summaries->len : n;
  for (guint i = 0; i < summaries->len; i++)
    show_project (self, n++, g_ptr_array_index (summaries, i));
  if (cut)
    show_finder (self, n++, n_all);
  trim_rows (self->project_rows, n);
  gtk_list_box_invalidate_headers (self->project_rows);
  ask_for_awaited (self, summaries);
}

static void
head_row (GtkListBoxRow *row,
          GtkListBoxRow *before,
          gpointer       data)
{
  HwSidebar  *self = data;
  int         index = gtk_list_box_row_get_index (row);
  const char *text = self->n_recent == 0 ? NULL : index == 0 ? _("Opened last")
                                                : index == self->n_recent ? _("All") : NULL;
  GtkWidget  *heading;

  if (text == NULL)
    {
      gtk_list_box_row_set_header (row, NULL);
      return;
    }
  heading = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (heading), 0);
  gtk_widget_set_margin_start (heading, 20);
  gtk_widget_set_margin_top (heading, index > 0 ? 8 : 0);
  gtk_widget_add_css_class (heading, "small");
  gtk_widget_add_css_class (heading, "mute");
  gtk_list_box_row_set_header (row, heading);
}

/* ---- the room ---- */

/* Hours until the care that is nearest to its limit on any machine; INFINITY when none is near. */
static double
hours_until_care (HwSidebar *self)
{
  const HwHandbook    *handbook = hw_workspace_get_handbook (self->workspace);
  const HwRoom        *room = hw_workspace_get_room (self->workspace);
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  g_autofree char     *now_iso = g_date_time_format_iso8601 (now);
  double               least = INFINITY;

  for (guint i = 0; i < room->machines->len; i++)
    for (gsize j = 0; j < handbook->n_care; j++)
      {
        const HwMachine  *machine = room->machines->pdata[i];
        const HwCareTask *task = &handbook->care[j];
        double            limit = hw_care_limit (machine, task);
        double            left;

        if (limit <= 0
            || (task->clock != HW_CLOCK_RUNNING && task->clock != HW_CLOCK_AT_MACHINE))
          continue;
        left = limit - hw_room_care_clock (room, machine, task, now_iso);
        if (left <= limit * NEARLY_DUE)
          least = MIN (least, left);
      }
  return least;
}

static char *
say_care (HwSidebar *self)
{
  double           left = hours_until_care (self);
  g_autofree char *hours = isfinite (left) && left > 0 ? hw_words_hours (left) : NULL;

  if (!isfinite (left))
    return NULL;
  if (hours == NULL)
    /* Translators: beside the machines in the sidebar */
    return g_strdup (_("care due"));
  /* Translators: beside the machines in the sidebar; hours until the next care is due */
  return g_strdup_printf (_("care in %s"), hours);
}

static void
refresh_room (HwSidebar *self)
{
  g_autofree char *care = say_care (self);

  for (gsize i = 0; i < G_N_ELEMENTS (room_pages); i++)
    {
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->room_rows, (int) i);
      gboolean       machines = g_str_equal (room_pages[i].page, "machines");

      fill_row (row, _(room_pages[i].name), machines && care != NULL ? care : "", "brass",
                g_strcmp0 (self->page, room_pages[i].page) == 0);
    }
}

static void
changed_cb (HwSidebar *self)
{
  refresh_projects (self);
  refresh_room (self);
}

/* ---- what a person does ---- */

static void
project_activated_cb (HwSidebar     *self,
                      GtkListBoxRow *row)
{
  const char *path = get_parts (row)->target;

  if (path[0] != '\0')
    gtk_widget_activate_action (GTK_WIDGET (self), "win.open-path", "s", path);
  else
    gtk_widget_activate_action (GTK_WIDGET (self), "win.find", NULL);
}

static void
room_activated_cb (HwSidebar     *self,
                   GtkListBoxRow *row)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "win.page", "s", get_parts (row)->target);
}

static void
close_new (HwSidebar *self)
{
  gtk_editable_set_text (self->new_entry, "");
  gtk_widget_set_visible (self->new_box, FALSE);
}

static void
cancel_cb (HwSidebar *self)
{
  close_new (self);
  gtk_widget_activate_action (GTK_WIDGET (self), "win.focus-page", NULL);
}

static void
create_cb (HwSidebar *self)
{
  g_autofree char *title = g_strdup (gtk_editable_get_text (self->new_entry));
  g_autoptr (GError) error = NULL;

  if (!hw_workspace_create (self->workspace, title, &error))
    {
      hw_workspace_tell (self->workspace, error->message, TRUE);
      return;
    }
  close_new (self);
  gtk_widget_activate_action (GTK_WIDGET (self), "win.page", "s", "making-up");
  gtk_widget_activate_action (GTK_WIDGET (self), "win.focus-page", NULL);
}

static gboolean
escape_cb (GtkWidget *widget,
           GVariant  *arguments,
           gpointer   data)
{
  HwSidebar *self = HW_SIDEBAR (widget);

  if (!gtk_widget_get_visible (self->new_box))
    return FALSE;
  cancel_cb (self);
  return TRUE;
}

static void
hw_sidebar_dispose (GObject *object)
{
  HwSidebar *self = HW_SIDEBAR (object);

  g_clear_object (&self->workspace);
  g_clear_pointer (&self->page, g_free);
  gtk_widget_dispose_template (GTK_WIDGET (self), HW_TYPE_SIDEBAR);
  G_OBJECT_CLASS (hw_sidebar_parent_class)->dispose (object);
}

static void
hw_sidebar_class_init (HwSidebarClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = hw_sidebar_dispose;
  g_type_ensure (HW_TYPE_SIGN);
  g_type_ensure (HW_TYPE_TAB_STOP);
  gtk_widget_class_set_template_from_resource (widget_class, "/net/handwheel/sidebar.ui");
  gtk_widget_class_bind_template_child (widget_class, HwSidebar, project_rows);
  gtk_widget_class_bind_template_child (widget_class, HwSidebar, room_rows);
  gtk_widget_class_bind_template_child (widget_class, HwSidebar, new_box);
  gtk_widget_class_bind_template_child (widget_class, HwSidebar, new_entry);
  gtk_widget_class_bind_template_callback (widget_class, project_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, room_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, create_cb);
  gtk_widget_class_bind_template_callback (widget_class, cancel_cb);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, escape_cb, NULL);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_NAVIGATION);
}

static void
hw_sidebar_init (HwSidebar *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_hexpand (GTK_WIDGET (self), FALSE);    /* else what expands within it takes from the page */
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Projects and sewing room"), -1);
  gtk_list_box_set_header_func (self->project_rows, head_row, self, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (room_pages); i++)
    gtk_list_box_append (self->room_rows, GTK_WIDGET (make_row (GTK_ORIENTATION_HORIZONTAL, room_pages[i].page)));
}

void
hw_sidebar_set_workspace (HwSidebar   *self,
                          HwWorkspace *workspace)
{
  g_return_if_fail (HW_IS_SIDEBAR (self) && self->workspace == NULL);

  self->workspace = g_object_ref (workspace);
  g_signal_connect_object (workspace, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (workspace, "projects", G_CALLBACK (refresh_projects), self, G_CONNECT_SWAPPED);
  changed_cb (self);
}

void
hw_sidebar_set_page (HwSidebar  *self,
                     const char *page)
{
  g_return_if_fail (HW_IS_SIDEBAR (self));

  if (g_strcmp0 (self->page, page) == 0)
    return;
  g_free (self->page);
  self->page = g_strdup (page);
  if (self->workspace != NULL)
    changed_cb (self);
}

void
hw_sidebar_ask_title (HwSidebar *self)
{
  g_return_if_fail (HW_IS_SIDEBAR (self));

  gtk_widget_set_visible (self->new_box, TRUE);
  gtk_widget_grab_focus (GTK_WIDGET (self->new_entry));
}
