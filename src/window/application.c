/* application.c - the GTK application
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/application.h"

#include <glib/gi18n.h>

#include "command/command.h"
#include "window/care-notice.h"
#include "window/furnish.h"
#include "window/later.h"
#include "window/read-ahead.h"
#include "window/renderer.h"
#include "window/search-provider.h"
#include "window/theme.h"
#include "window/window.h"

struct _HwApplication
{
  GtkApplication parent_instance;
  HwWorkspace   *workspace;
  HwLoading     *loading;                /* until it is wanted; NULL */
  guint          search_provider;        /* 0: not on the bus */
};

G_DEFINE_FINAL_TYPE (HwApplication, hw_application, GTK_TYPE_APPLICATION)

static gboolean
is_missing_or_empty (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);

  return dir == NULL || g_dir_read_name (dir) == NULL;
}

static HwLoaded *
finish_loading (HwApplication *self)
{
  return self->loading != NULL ? hw_loading_finish (g_steal_pointer (&self->loading)) : NULL;
}

/* What the thread could not read is read again here, for why. */
static HwWorkspace *
make_workspace (HwApplication *self,
                GError       **error)
{
  g_autofree char *data = hw_data_folder ();
  g_autofree char *room = hw_room_folder ();
  HwLoaded *loaded = finish_loading (self);

  if (loaded != NULL)
    return hw_workspace_new_loaded (loaded);
  if (is_missing_or_empty (room) && !hw_furnish_room (data, room, error))
    return NULL;
  return hw_workspace_new (data, room, error);
}

/* The project open last, else the first of the room; one that cannot be read leaves the window without a project. */
static void
open_some_project (HwWorkspace *workspace,
                   HwWindow    *window)
{
  const HwRoom    *room = hw_workspace_get_room (workspace);
  g_autofree char *last = hw_recall_project (room->folder);
  g_autoptr (GPtrArray) paths = last == NULL ? hw_workspace_list_projects (workspace) : NULL;

  if (last == NULL && paths->len == 0)
    return;
  hw_window_open_again (window, last != NULL ? last : g_ptr_array_index (paths, 0));
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

static void
read_ahead (gpointer workspace)
{
  hw_read_ahead (workspace);
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
    self->workspace = make_workspace (self, &error);
  if (self->workspace == NULL)
    {
      show_failure (self, error->message);
      return NULL;
    }
  hw_later_hold (self->workspace);
  window = GTK_WINDOW (hw_window_new (GTK_APPLICATION (self), self->workspace));
  hw_later_until (self->workspace, GTK_WIDGET (window));
  hw_care_notice_attach (G_APPLICATION (self), self->workspace);
  if (with_project)
    {
      hw_window_restore (HW_WINDOW (window));
      open_some_project (self->workspace, HW_WINDOW (window));
      hw_window_restore_step (HW_WINDOW (window));
      tell_overlay (self->workspace, HW_WINDOW (window));
      tell_timer (self->workspace, HW_WINDOW (window));
    }
  hw_later (self->workspace, self->workspace, read_ahead);
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

  open_some_project (workspace, window);
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
  if (hw_workspace_peek_project (HW_APPLICATION (application)->workspace) == NULL
      && !hw_window_is_opening (HW_WINDOW (window)))
    open_another (HW_APPLICATION (application)->workspace, HW_WINDOW (window));
  tell_overlay (HW_APPLICATION (application)->workspace, HW_WINDOW (window));
  tell_timer (HW_APPLICATION (application)->workspace, HW_WINDOW (window));
  gtk_window_present (window);
}

/* What the desktop offers beside the program's name: each is an action of the window. */
static void
window_action_cb (GSimpleAction *action,
                  GVariant      *parameter,
                  gpointer       application)
{
  GtkWindow *window = ensure_window (application, TRUE);
  const char *name = g_action_get_name (G_ACTION (action));

  if (window == NULL)
    return;
  gtk_widget_activate_action (GTK_WIDGET (window),
                              g_str_equal (name, "garment") ? "win.new-garment" : "win.new-project", NULL);
  gtk_window_present (window);
}

static int
hw_application_handle_local_options (GApplication *application,
                                     GVariantDict *options)
{
  static const char * const names[] = { "new-project", "garment" };
  g_autoptr (GError) error = NULL;
  gboolean asked = FALSE;

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      if (!g_variant_dict_contains (options, names[i]))
        continue;
      if (!g_application_register (application, NULL, &error))
        {
          g_printerr ("%s\n", error->message);
          return HW_EXIT_IO;
        }
      g_action_group_activate_action (G_ACTION_GROUP (application), names[i], NULL);
      asked = TRUE;
    }
  return asked && g_application_get_is_remote (application) ? HW_EXIT_DONE : -1;
}

static gboolean
hw_application_dbus_register (GApplication     *application,
                              GDBusConnection  *connection,
                              const char       *path,
                              GError          **error)
{
  HwApplication *self = HW_APPLICATION (application);

  if (!G_APPLICATION_CLASS (hw_application_parent_class)->dbus_register (application, connection, path, error))
    return FALSE;
  self->search_provider = hw_search_provider_register (application, connection, path, error);
  return self->search_provider != 0;
}

static void
hw_application_dbus_unregister (GApplication    *application,
                                GDBusConnection *connection,
                                const char      *path)
{
  HwApplication *self = HW_APPLICATION (application);

  if (self->search_provider != 0)
    g_dbus_connection_unregister_object (connection, self->search_provider);
  self->search_provider = 0;
  G_APPLICATION_CLASS (hw_application_parent_class)->dbus_unregister (application, connection, path);
}

static void
hw_application_startup (GApplication *application)
{
  static const GActionEntry actions[] = {
    { .name = "new-project", .activate = window_action_cb },
    { .name = "garment", .activate = window_action_cb },
  };

  g_action_map_add_action_entries (G_ACTION_MAP (application), actions, G_N_ELEMENTS (actions), application);
  G_APPLICATION_CLASS (hw_application_parent_class)->startup (application);
  gtk_window_set_default_icon_name ("net.handwheel.Handwheel");
  hw_theme_attach (gdk_display_get_default ());
}

static void
hw_application_dispose (GObject *object)
{
  HwLoaded *loaded = finish_loading (HW_APPLICATION (object));

  g_clear_pointer (&loaded, hw_loaded_free);
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
  application_class->handle_local_options = hw_application_handle_local_options;
  application_class->dbus_register = hw_application_dbus_register;
  application_class->dbus_unregister = hw_application_dbus_unregister;
}

static void
hw_application_init (HwApplication *self)
{
  static const GOptionEntry options[] = {
    { "new-project", 0, 0, G_OPTION_ARG_NONE, NULL, N_("open the window on a new project"), NULL },
    { "garment", 0, 0, G_OPTION_ARG_NONE, NULL, N_("open the window on the choice of a garment"), NULL },
    G_OPTION_ENTRY_NULL,
  };

  g_application_add_main_option_entries (G_APPLICATION (self), options);
}

HwApplication *
hw_application_new (void)
{
  return g_object_new (HW_TYPE_APPLICATION, "application-id", "net.handwheel.Handwheel", "flags",
                       G_APPLICATION_HANDLES_OPEN, NULL);
}

/* (transfer full): the file that a command line ends with; NULL: none, or options alone. */
static char *
find_file (int    argc,
           char **argv)
{
  g_autoptr (GFile) file = argc > 1 && argv[argc - 1][0] != '-' ? g_file_new_for_commandline_arg (argv[argc - 1])
                                                                : NULL;

  return file != NULL ? g_file_get_path (file) : NULL;
}

void
hw_application_begin (HwApplication *self,
                      int            argc,
                      char         **argv)
{
  g_autofree char *data = hw_data_folder ();
  g_autofree char *room = hw_room_folder ();
  g_autofree char *file = find_file (argc, argv);

  g_return_if_fail (HW_IS_APPLICATION (self) && self->loading == NULL);

  hw_renderer_choose ();
  gtk_disable_setlocale ();
  if (!is_missing_or_empty (room))
    self->loading = hw_loading_begin (data, room, file);
}
