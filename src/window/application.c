/* application.c - the GTK application
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/application.h"

#include <glib/gi18n.h>

#include "command/command.h"
#include "window/care-notice.h"
#include "window/furnish.h"
#include "window/theme.h"
#include "window/window.h"

struct _HwApplication
{
  GtkApplication parent_instance;
  HwWorkspace   *workspace;
};

G_DEFINE_FINAL_TYPE (HwApplication, hw_application, GTK_TYPE_APPLICATION)

static gboolean
is_missing_or_empty (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);

  return dir == NULL || g_dir_read_name (dir) == NULL;
}

static HwWorkspace *
make_workspace (GError **error)
{
  g_autofree char *data = hw_data_folder ();
  g_autofree char *room = hw_room_folder ();

  if (is_missing_or_empty (room) && !hw_furnish_room (data, room, error))
    return NULL;
  return hw_workspace_new (data, room, error);
}

/* The project open last, else the first of the room; one that cannot be read leaves the window without a project. */
static void
open_some_project (HwWorkspace *workspace)
{
  const HwRoom    *room = hw_workspace_get_room (workspace);
  g_autofree char *last = hw_recall_project (room->folder);
  g_autoptr (GPtrArray) paths = hw_workspace_list_projects (workspace);
  g_autoptr (GError) error = NULL;

  if (last == NULL && paths->len == 0)
    return;
  if (!hw_workspace_open (workspace, last != NULL ? last : g_ptr_array_index (paths, 0), &error))
    hw_workspace_tell (workspace, error->message, TRUE);
}

/* Without handbook or room there is nothing to show but why: a window that says it. */
static void
show_failure (HwApplication *self,
              const char    *text)
{
  GtkWidget *window = gtk_application_window_new (GTK_APPLICATION (self));
  GtkWidget *label = gtk_label_new (text);

  hw_theme_attach (gtk_widget_get_display (window));
  gtk_widget_add_css_class (window, "handwheel");
  gtk_widget_add_css_class (label, "empty");
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_selectable (GTK_LABEL (label), TRUE);
  gtk_window_set_title (GTK_WINDOW (window), _("Handwheel cannot begin"));
  gtk_window_set_default_size (GTK_WINDOW (window), 560, 200);
  gtk_window_set_child (GTK_WINDOW (window), label);
  gtk_window_present (GTK_WINDOW (window));
}

/* The window works on with the handbook as it came; whatever else there is to tell comes first. */
static void
tell_overlay (HwWorkspace *workspace,
              HwWindow    *window)
{
  const GError    *error = hw_workspace_peek_overlay_error (workspace);
  g_autofree char *text = NULL;

  if (error == NULL || hw_window_peek_message (window) != NULL)
    return;
  /* Translators: a file, a line and what is wrong there */
  text = g_strdup_printf (_("Your own handbook is left out until it is mended. %s"), error->message);
  hw_workspace_tell (workspace, text, TRUE);
}

/* What became of a clock that ran on; where there is more to tell, that comes first. */
static void
tell_timer (HwWorkspace *workspace,
            HwWindow    *window)
{
  g_autofree char *news = hw_stopwatch_steal_news (hw_workspace_get_stopwatch (workspace));

  if (news != NULL && hw_window_peek_message (window) == NULL)
    hw_workspace_tell (workspace, news, FALSE);
}

static GtkWindow *
ensure_window (HwApplication *self,
               gboolean       with_project)
{
  GtkWindow         *window = gtk_application_get_active_window (GTK_APPLICATION (self));
  g_autoptr (GError) error = NULL;

  if (window != NULL)
    return window;
  if (self->workspace == NULL)
    self->workspace = make_workspace (&error);
  if (self->workspace == NULL)
    {
      show_failure (self, error->message);
      return NULL;
    }
  window = GTK_WINDOW (hw_window_new (GTK_APPLICATION (self), self->workspace));
  hw_care_notice_attach (G_APPLICATION (self), self->workspace);
  if (with_project)
    {
      open_some_project (self->workspace);
      hw_window_restore (HW_WINDOW (window));
      tell_overlay (self->workspace, HW_WINDOW (window));
      tell_timer (self->workspace, HW_WINDOW (window));
    }
  return window;
}

static void
hw_application_activate (GApplication *application)
{
  GtkWindow *window = ensure_window (HW_APPLICATION (application), TRUE);

  if (window != NULL)
    gtk_window_present (window);
}

/* Another project than the one asked for: why it is not that one must stay to be read. */
static void
open_another (HwWorkspace *workspace,
              HwWindow    *window)
{
  g_autofree char *told = g_strdup (hw_window_peek_message (window));

  open_some_project (workspace);
  if (told != NULL)
    hw_workspace_tell (workspace, told, TRUE);
}

/* One window, one project: of several files the last one stays open, the others are told. */
static void
hw_application_open (GApplication  *application,
                     GFile        **files,
                     int            n_files,
                     const char    *hint)
{
  GtkWindow *window = ensure_window (HW_APPLICATION (application), FALSE);

  if (window == NULL)
    return;
  for (int i = 0; i < n_files; i++)
    hw_window_open_file (HW_WINDOW (window), files[i]);
  if (hw_workspace_peek_project (HW_APPLICATION (application)->workspace) == NULL)
    open_another (HW_APPLICATION (application)->workspace, HW_WINDOW (window));
  tell_overlay (HW_APPLICATION (application)->workspace, HW_WINDOW (window));
  tell_timer (HW_APPLICATION (application)->workspace, HW_WINDOW (window));
  gtk_window_present (window);
}

static void
hw_application_startup (GApplication *application)
{
  G_APPLICATION_CLASS (hw_application_parent_class)->startup (application);
  gtk_window_set_default_icon_name ("net.handwheel.Handwheel");
  hw_theme_attach (gdk_display_get_default ());
}

static void
hw_application_dispose (GObject *object)
{
  g_clear_object (&HW_APPLICATION (object)->workspace);
  G_OBJECT_CLASS (hw_application_parent_class)->dispose (object);
}

static void
hw_application_class_init (HwApplicationClass *class)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = hw_application_dispose;
  application_class->activate = hw_application_activate;
  application_class->open = hw_application_open;
  application_class->startup = hw_application_startup;
}

static void
hw_application_init (HwApplication *self)
{
}

HwApplication *
hw_application_new (void)
{
  return g_object_new (HW_TYPE_APPLICATION, "application-id", "net.handwheel.Handwheel", "flags",
                       G_APPLICATION_HANDLES_OPEN, NULL);
}
