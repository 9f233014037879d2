/* test-search-provider.c - the running program, asked by the desktop's search for projects, and started by its name
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <gio/gio.h>

#include "temp-folder.h"

#define NAME "net.handwheel.Handwheel"
#define PATH "/net/handwheel/Handwheel"
#define WAIT_SECONDS 60

typedef struct
{
  char            *folder;
  GSubprocess     *process;
  GDBusConnection *bus;
} Service;

static gboolean
has_owner (Service *self)
{
  g_autoptr (GVariant) answer = g_dbus_connection_call_sync (self->bus, "org.freedesktop.DBus", "/org/freedesktop/DBus",
                                                             "org.freedesktop.DBus", "NameHasOwner",
                                                             g_variant_new ("(s)", NAME), NULL, 0, -1, NULL, NULL);
  gboolean owned = FALSE;

  g_variant_get (answer, "(b)", &owned);
  return owned;
}

static void
service_begin (Service       *self,
           gconstpointer  data)
{
  g_autofree char *room = NULL;
  g_autofree char *projects = NULL;
  g_autofree char *demo = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "demo", "projects", "stage-cape.handwheel",
                                            NULL);
  g_autoptr (GError) error = NULL;
  gint64 end = g_get_monotonic_time () + WAIT_SECONDS * G_USEC_PER_SEC;

  self->folder = temp_folder_new ();
  room = g_build_filename (self->folder, "room", NULL);
  projects = g_build_filename (room, "projects", NULL);
  g_assert_cmpint (g_mkdir_with_parents (projects, 0700), ==, 0);
  temp_folder_copy (projects, "stage-cape.handwheel", demo);
  g_setenv ("HANDWHEEL_ROOM", room, TRUE);
  self->bus = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, &error);
  g_assert_no_error (error);
  self->process = g_subprocess_new (0, &error, g_getenv ("HANDWHEEL"), "--gapplication-service", NULL);
  g_assert_no_error (error);
  while (!has_owner (self) && g_get_monotonic_time () < end)
    g_usleep (50000);
  g_assert_true (has_owner (self));
}

static void
service_end (Service       *self,
            gconstpointer  data)
{
  g_subprocess_force_exit (self->process);
  g_subprocess_wait (self->process, NULL, NULL);
  g_object_unref (self->process);
  g_object_unref (self->bus);
  temp_folder_remove (self->folder);
}

static GVariant *
ask (Service    *self,
     const char *method,
     GVariant   *arguments)
{
  g_autoptr (GError) error = NULL;
  GVariant *answer = g_dbus_connection_call_sync (self->bus, NAME, PATH "/SearchProvider",
                                                  "org.gnome.Shell.SearchProvider2", method, arguments, NULL, 0,
                                                  WAIT_SECONDS * 1000, NULL, &error);

  g_assert_no_error (error);
  return answer;
}

static void
test_finds (Service       *self,
            gconstpointer  data)
{
  static const struct { const char *terms[3]; gboolean there; } cases[] = {
    { { "cape", NULL }, TRUE }, { { "SCHOOL", "lined", NULL }, TRUE }, { { "cape", "trousers", NULL }, FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GVariant) answer = ask (self, "GetInitialResultSet", g_variant_new ("(^as)", cases[i].terms));
      g_autoptr (GVariant) ids = g_variant_get_child_value (answer, 0);

      g_assert_cmpuint (g_variant_n_children (ids), ==, cases[i].there ? 1 : 0);
    }
}

static void
test_describes (Service       *self,
                gconstpointer  data)
{
  const char * const ids[] = { "stage-cape.handwheel", "../../elsewhere", NULL };
  g_autoptr (GVariant) answer = ask (self, "GetResultMetas", g_variant_new ("(^as)", ids));
  g_autoptr (GVariant) all = g_variant_get_child_value (answer, 0);
  g_autoptr (GVariant) first = NULL;
  const char *name = NULL;

  g_assert_cmpuint (g_variant_n_children (all), ==, 1);
  first = g_variant_get_child_value (all, 0);
  g_assert_true (g_variant_lookup (first, "name", "&s", &name));
  g_assert_cmpstr (name, ==, "Lined cape for the school play");
}

/* The desktop's actions beside the program's name. */
static void
test_actions (Service       *self,
              gconstpointer  data)
{
  g_autoptr (GVariant) answer = NULL;
  g_autoptr (GVariant) names = NULL;
  g_autofree const char **list = NULL;
  g_autoptr (GError) error = NULL;

  answer = g_dbus_connection_call_sync (self->bus, NAME, PATH, "org.gtk.Actions", "List", NULL, NULL, 0, -1, NULL,
                                        &error);
  g_assert_no_error (error);
  names = g_variant_get_child_value (answer, 0);
  list = g_variant_get_strv (names, NULL);
  g_assert_true (g_strv_contains (list, "new-project"));
  g_assert_true (g_strv_contains (list, "garment"));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/search/finds", Service, NULL, service_begin, test_finds, service_end);
  g_test_add ("/search/describes", Service, NULL, service_begin, test_describes, service_end);
  g_test_add ("/search/actions", Service, NULL, service_begin, test_actions, service_end);
  return g_test_run ();
}
