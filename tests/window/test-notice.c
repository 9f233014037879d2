/* test-notice.c - what is due is told by the desktop, once a day, and taken away when it is done
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The test itself is the desktop's notification service, by the freedesktop.org Desktop Notifications Specification
 * 1.2: what the running program sends over the bus is what a person would see.
 */

#include <string.h>

#include "program.h"

#define SERVICE "org.freedesktop.Notifications"
#define DUST "Lockstitch machine: Dust under the needle plate"

static const char interface_xml[] =
  "<node><interface name='" SERVICE "'>"
  "<method name='Notify'>"
  "<arg type='s' direction='in'/><arg type='u' direction='in'/><arg type='s' direction='in'/>"
  "<arg type='s' direction='in'/><arg type='s' direction='in'/><arg type='as' direction='in'/>"
  "<arg type='a{sv}' direction='in'/><arg type='i' direction='in'/><arg type='u' direction='out'/>"
  "</method>"
  "<method name='CloseNotification'><arg type='u' direction='in'/></method>"
  "<method name='GetCapabilities'><arg type='as' direction='out'/></method>"
  "<method name='GetServerInformation'>"
  "<arg type='s' direction='out'/><arg type='s' direction='out'/><arg type='s' direction='out'/>"
  "<arg type='s' direction='out'/></method>"
  "</interface></node>";

typedef struct
{
  guint    id;
  char    *title, *body;
  gboolean closed;
} Notice;

typedef struct
{
  Program          program;
  GDBusConnection *connection;
  GDBusNodeInfo   *info;
  guint            object_id, name_id;
  gboolean         owned;
  GPtrArray       *notices;             /* (element-type Notice), in the order in which they came */
} Desktop;

static void
free_notice (gpointer data)
{
  Notice *notice = data;

  g_free (notice->title);
  g_free (notice->body);
  g_free (notice);
}

static void
take_notice (Desktop               *self,
             GVariant              *parameters,
             GDBusMethodInvocation *invocation)
{
  Notice *notice = g_new0 (Notice, 1);

  notice->id = self->notices->len + 1;
  g_variant_get_child (parameters, 3, "s", &notice->title);
  g_variant_get_child (parameters, 4, "s", &notice->body);
  g_ptr_array_add (self->notices, notice);
  g_dbus_method_invocation_return_value (invocation, g_variant_new ("(u)", notice->id));
}

static void
called_cb (GDBusConnection       *connection,
           const char            *sender,
           const char            *path,
           const char            *interface,
           const char            *method,
           GVariant              *parameters,
           GDBusMethodInvocation *invocation,
           gpointer               data)
{
  Desktop *self = data;
  guint    id = 0;

  if (g_str_equal (method, "Notify"))
    {
      take_notice (self, parameters, invocation);
      return;
    }
  if (g_str_equal (method, "CloseNotification"))
    {
      g_variant_get (parameters, "(u)", &id);
      g_assert_cmpuint (id, <=, self->notices->len);
      ((Notice *) self->notices->pdata[id - 1])->closed = TRUE;
      g_dbus_method_invocation_return_value (invocation, NULL);
      return;
    }
  g_dbus_method_invocation_return_dbus_error (invocation, "org.freedesktop.DBus.Error.NotSupported", method);
}

static void
owned_cb (GDBusConnection *connection,
          const char      *name,
          gpointer         data)
{
  ((Desktop *) data)->owned = TRUE;
}

static gboolean
is_owned (gpointer data)
{
  return ((Desktop *) data)->owned;
}

static void
set_up (Desktop      *self,
        gconstpointer data)
{
  static const GDBusInterfaceVTable table = { .method_call = called_cb };
  g_autoptr (GError) error = NULL;
  g_autofree char   *projects = NULL;

  program_set_up (&self->program, data);
  projects = g_build_filename (self->program.room, "projects", NULL);
  /* A room of its own, without the demo's hours. */
  g_assert_cmpint (g_mkdir_with_parents (projects, 0700), ==, 0);
  self->notices = g_ptr_array_new_with_free_func (free_notice);
  self->connection = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, &error);
  g_assert_no_error (error);
  self->info = g_dbus_node_info_new_for_xml (interface_xml, &error);
  g_assert_no_error (error);
  self->object_id = g_dbus_connection_register_object (self->connection, "/org/freedesktop/Notifications",
                                                       self->info->interfaces[0], &table, self, NULL, &error);
  g_assert_no_error (error);
  self->name_id = g_bus_own_name_on_connection (self->connection, SERVICE, G_BUS_NAME_OWNER_FLAGS_REPLACE, owned_cb,
                                                NULL, self, NULL);
  if (!bus_comes_true (is_owned, self))
    g_error ("the bus does not give " SERVICE);
}

static void
tear_down (Desktop      *self,
           gconstpointer data)
{
  program_tear_down (&self->program, data);
  g_bus_unown_name (self->name_id);
  g_dbus_connection_unregister_object (self->connection, self->object_id);
  g_dbus_node_info_unref (self->info);
  g_object_unref (self->connection);
  g_ptr_array_unref (self->notices);
}

/* ---- what has come ---- */

static guint
count_notices (const Desktop *self,
               const char    *title_start)
{
  guint n = 0;

  for (guint i = 0; i < self->notices->len; i++)
    if (g_str_has_prefix (((Notice *) self->notices->pdata[i])->title, title_start))
      n++;
  return n;
}

static const Notice *
find_notice (const Desktop *self,
             const char    *title_start)
{
  for (guint i = 0; i < self->notices->len; i++)
    if (g_str_has_prefix (((Notice *) self->notices->pdata[i])->title, title_start))
      return self->notices->pdata[i];
  return NULL;
}

static gboolean
has_dust (gpointer data)
{
  return count_notices (data, DUST) > 0;
}

static gboolean
has_overlocker (gpointer data)
{
  return count_notices (data, "Overlocker: ") > 0;
}

static gboolean
is_dust_closed (gpointer data)
{
  const Notice *notice = find_notice (data, DUST);

  return notice != NULL && notice->closed;
}

static void
log_minutes (Desktop    *self,
             const char *machine,
             const char *minutes)
{
  const char *arguments[] = { "log", "--machine", machine, "--minutes", minutes, NULL };
  g_autofree char *printed = program_run_with (&self->program, 0, arguments);
}

/* Fifteen hours are the dusting clock's limit; the bus keeps the order of what one program sends. */
static void
test_once (Desktop      *self,
           gconstpointer data)
{
  const Notice *dust;

  program_start (&self->program, NULL);
  g_assert_cmpuint (self->notices->len, ==, 0);
  log_minutes (self, "lockstitch", "930");
  bus_wait (self->program.app, has_dust, self, "a notice that dusting is due");
  dust = find_notice (self, DUST);
  g_assert_cmpstr (dust->body, ==, "Due now: 15.5 of 15 h. Switch off and unplug first; the machine’s own manual comes "
                   "before all.");
  g_assert_false (dust->closed);
  log_minutes (self, "lockstitch", "6");

  program_quit (&self->program);
  program_start (&self->program, NULL);
  log_minutes (self, "overlocker", "930");
  bus_wait (self->program.app, has_overlocker, self, "a notice of the overlocker");
  g_assert_cmpuint (count_notices (self, DUST), ==, 1);
  program_quit (&self->program);
}

static void
test_done (Desktop      *self,
           gconstpointer data)
{
  const char *arguments[] = { "care", "--done", "dust", "--machine", "lockstitch", NULL };
  g_autofree char *printed = NULL;

  program_start (&self->program, NULL);
  log_minutes (self, "lockstitch", "930");
  bus_wait (self->program.app, has_dust, self, "a notice that dusting is due");
  printed = program_run_with (&self->program, 0, arguments);
  bus_wait (self->program.app, is_dust_closed, self, "the notice going when dusting is done");
  program_quit (&self->program);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/window/notice/once-a-day", Desktop, NULL, set_up, test_once, tear_down);
  g_test_add ("/window/notice/goes-when-done", Desktop, NULL, set_up, test_done, tear_down);
  return g_test_run ();
}
