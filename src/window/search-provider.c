/* search-provider.c - lets the desktop's search find projects of the sewing room by their titles
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/search-provider.h"

#include <glib/gi18n.h>
#include <string.h>

#include "command/command.h"
#include "model/project.h"

static const char interface_xml[] =
  "<node><interface name='org.gnome.Shell.SearchProvider2'>"
  "<method name='GetInitialResultSet'><arg type='as' direction='in'/><arg type='as' direction='out'/></method>"
  "<method name='GetSubsearchResultSet'><arg type='as' direction='in'/><arg type='as' direction='in'/>"
  "<arg type='as' direction='out'/></method>"
  "<method name='GetResultMetas'><arg type='as' direction='in'/><arg type='aa{sv}' direction='out'/></method>"
  "<method name='ActivateResult'><arg type='s' direction='in'/><arg type='as' direction='in'/>"
  "<arg type='u' direction='in'/></method>"
  "<method name='LaunchSearch'><arg type='as' direction='in'/><arg type='u' direction='in'/></method>"
  "</interface></node>";

static char *
projects_folder (void)
{
  g_autofree char *room = hw_room_folder ();

  return g_build_filename (room, "projects", NULL);
}

/* Every term stands somewhere in the title, whatever the case. */
static gboolean
matches (const char         *title,
         const char * const *terms)
{
  g_autofree char *folded = g_utf8_casefold (title, -1);

  for (; *terms != NULL; terms++)
    {
      g_autofree char *term = g_utf8_casefold (*terms, -1);

      if (strstr (folded, term) == NULL)
        return FALSE;
    }
  return TRUE;
}

/* The names of the projects' files are their ids. A file that does not read is not found; the window says why. */
static GVariant *
find (const char * const *terms)
{
  g_autofree char *folder = projects_folder ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  GVariantBuilder  found;
  const char      *name;

  g_variant_builder_init (&found, G_VARIANT_TYPE ("as"));
  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autoptr (HwProject) project = g_str_has_suffix (name, ".handwheel") ? hw_project_read (path, NULL) : NULL;

      if (project != NULL && matches (project->title, terms))
        g_variant_builder_add (&found, "s", name);
    }
  return g_variant_new ("(as)", &found);
}

static GVariant *
describe (const char * const *ids)
{
  g_autofree char *folder = projects_folder ();
  GVariantBuilder  all;

  g_variant_builder_init (&all, G_VARIANT_TYPE ("aa{sv}"));
  for (; *ids != NULL; ids++)
    {
      g_autofree char *path = g_build_filename (folder, *ids, NULL);
      g_autoptr (HwProject) project = hw_project_read (path, NULL);
      g_autofree char *steps = NULL;

      if (project == NULL)
        continue;
      steps = g_strdup_printf (ngettext ("Sewing project, %u step", "Sewing project, %u steps", project->steps->len),
                               project->steps->len);
      g_variant_builder_open (&all, G_VARIANT_TYPE ("a{sv}"));
      g_variant_builder_add (&all, "{sv}", "id", g_variant_new_string (*ids));
      g_variant_builder_add (&all, "{sv}", "name", g_variant_new_string (project->title));
      g_variant_builder_add (&all, "{sv}", "description", g_variant_new_string (steps));
      g_variant_builder_add (&all, "{sv}", "gicon", g_variant_new_string ("application-x-handwheel+xml"));
      g_variant_builder_close (&all);
    }
  return g_variant_new ("(aa{sv})", &all);
}

static void
open_project (GApplication *application,
              const char   *id)
{
  g_autofree char *folder = projects_folder ();
  g_autofree char *name = g_path_get_basename (id);      /* nothing outside the folder */
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);

  g_application_open (application, &file, 1, "");
}

static void
method_cb (GDBusConnection       *connection,
           const char            *sender,
           const char            *path,
           const char            *interface,
           const char            *method,
           GVariant              *parameters,
           GDBusMethodInvocation *invocation,
           gpointer               application)
{
  g_autofree const char **words = NULL;
  const char *id;

  if (g_str_equal (method, "ActivateResult"))
    {
      g_variant_get_child (parameters, 0, "&s", &id);
      open_project (application, id);
      g_dbus_method_invocation_return_value (invocation, NULL);
      return;
    }
  /* A search within what was found is as quick as one anew. */
  g_variant_get_child (parameters, g_str_equal (method, "GetSubsearchResultSet") ? 1 : 0, "^a&s", &words);
  if (g_str_equal (method, "LaunchSearch"))
    {
      g_application_activate (application);
      g_dbus_method_invocation_return_value (invocation, NULL);
    }
  else
    g_dbus_method_invocation_return_value (invocation, g_str_equal (method, "GetResultMetas") ? describe (words)
                                                                                              : find (words));
}

guint
hw_search_provider_register (GApplication     *application,
                             GDBusConnection  *connection,
                             const char       *path,
                             GError          **error)
{
  static const GDBusInterfaceVTable vtable = { .method_call = method_cb };
  g_autoptr (GDBusNodeInfo) node = g_dbus_node_info_new_for_xml (interface_xml, error);
  g_autofree char *own = g_strconcat (path, "/SearchProvider", NULL);

  if (node == NULL)
    return 0;
  return g_dbus_connection_register_object (connection, own, node->interfaces[0], &vtable, application, NULL, error);
}
