/* test-bus.c - the running program over the accessibility bus: every control has a name
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Starts the real program on a room of its own, turns to every page and opens every form, and reads what a screen
 * reader would be given. A control whose name is empty or the name of its C type counts as nameless.
 */

#include "config.h"

#include <atspi/atspi.h>
#include <gio/gio.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>

#include "temp-folder.h"

G_DEFINE_AUTOPTR_CLEANUP_FUNC (AtspiAccessible, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (AtspiAction, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (AtspiStateSet, g_object_unref)

#define DEEPEST 60

typedef struct
{
  char        *folder;
  GSubprocess *process;
  AtspiAccessible *application;  /* borrowed from the tree */
} Program;

/* What a person operates or reads as a unit. Scroll bars are GTK's own and follow the content by other keys. */
static const AtspiRole control_roles[] = {
  ATSPI_ROLE_PUSH_BUTTON, ATSPI_ROLE_TOGGLE_BUTTON, ATSPI_ROLE_CHECK_BOX, ATSPI_ROLE_RADIO_BUTTON, ATSPI_ROLE_ENTRY,
  ATSPI_ROLE_TEXT, ATSPI_ROLE_SPIN_BUTTON, ATSPI_ROLE_COMBO_BOX, ATSPI_ROLE_SLIDER, ATSPI_ROLE_LIST_ITEM,
  ATSPI_ROLE_MENU_ITEM, ATSPI_ROLE_PAGE_TAB, ATSPI_ROLE_LINK, ATSPI_ROLE_IMAGE,
};

static gboolean
is_control (AtspiAccessible *node)
{
  AtspiRole role = atspi_accessible_get_role (node, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (control_roles); i++)
    if (role == control_roles[i])
      return TRUE;
  return FALSE;
}

static gboolean
has_state (AtspiAccessible *node,
           AtspiStateType   state)
{
  g_autoptr (AtspiStateSet) states = atspi_accessible_get_state_set (node);

  return states != NULL && atspi_state_set_contains (states, state);
}

static gboolean
is_nameless (const char *name)
{
  return name == NULL || name[0] == '\0' || g_str_has_prefix (name, "Gtk") || g_str_has_prefix (name, "Hw");
}

typedef gboolean (* Visit) (AtspiAccessible *node, gpointer data);     /* TRUE: stop here */

static gboolean
walk (AtspiAccessible *node,
      int              depth,
      Visit            visit,
      gpointer         data)
{
  int n = depth < DEEPEST ? atspi_accessible_get_child_count (node, NULL) : 0;

  if (visit (node, data))
    return TRUE;
  for (int i = 0; i < n; i++)
    {
      g_autoptr (AtspiAccessible) child = atspi_accessible_get_child_at_index (node, i, NULL);

      if (child != NULL && walk (child, depth + 1, visit, data))
        return TRUE;
    }
  return FALSE;
}

typedef struct { GString *nameless; int n_controls; } Count;

static gboolean
count_control (AtspiAccessible *node,
               gpointer         data)
{
  Count           *count = data;
  g_autofree char *name = NULL;
  g_autofree char *role = NULL;

  if (!is_control (node) || !has_state (node, ATSPI_STATE_VISIBLE))
    return FALSE;
  count->n_controls++;
  name = atspi_accessible_get_name (node, NULL);
  if (!is_nameless (name))
    return FALSE;
  role = atspi_accessible_get_role_name (node, NULL);
  g_string_append_printf (count->nameless, " %s “%s”;", role, name != NULL ? name : "");
  return FALSE;
}

static void
assert_named (Program    *program,
              const char *where)
{
  Count count = { g_string_new (NULL), 0 };

  walk (program->application, 0, count_control, &count);
  g_test_message ("%s: %d controls", where, count.n_controls);
  g_assert_cmpint (count.n_controls, >, 10);
  g_assert_cmpstr (count.nameless->str, ==, "");
  g_string_free (count.nameless, TRUE);
}

/* ---- the program ---- */

/* Opens on an operation, so that its set-up is shown. */
static const char bag[] =
  "<project xmlns=\"urn:handwheel:project:1\" id=\"bag\" title=\"Bag\">"
  "<fabrics><fabric id=\"twill\" name=\"Twill\" handbook=\"cotton-twill\"/></fabrics>"
  "<threads><thread id=\"navy\" handbook=\"polyester-30\" colour=\"navy\"/></threads>"
  "<steps><operation number=\"1\" name=\"Sides\" purpose=\"seam\" seam=\"plain\" length-cm=\"80\">"
  "<ply fabric=\"twill\" count=\"2\"/></operation></steps></project>";

static void
pause_ms (guint ms)
{
  gint64 end = g_get_monotonic_time () + ms * 1000;

  while (g_get_monotonic_time () < end)
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (5000);
    }
}

static AtspiAccessible *
find_application (int pid)
{
  AtspiAccessible *desktop = atspi_get_desktop (0);
  int              n = atspi_accessible_get_child_count (desktop, NULL);

  for (int i = 0; i < n; i++)
    {
      AtspiAccessible *application = atspi_accessible_get_child_at_index (desktop, i, NULL);

      if (application != NULL && (int) atspi_accessible_get_process_id (application, NULL) == pid
          && atspi_accessible_get_child_count (application, NULL) > 0)
        {
          g_object_unref (desktop);
          return application;
        }
      g_clear_object (&application);
    }
  g_object_unref (desktop);
  return NULL;
}

static void
program_open (Program *self)
{
  g_autoptr (GSubprocessLauncher) launcher = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_NONE);
  g_autoptr (GError) error = NULL;
  g_autofree char   *room = NULL;
  g_autofree char   *state = NULL;
  g_autofree char   *file = NULL;
  int                pid;

  self->folder = temp_folder_new ();
  room = g_build_filename (self->folder, "room", NULL);
  state = g_build_filename (self->folder, "state", NULL);
  file = g_build_filename (self->folder, "bag.handwheel", NULL);
  temp_folder_write (self->folder, "bag.handwheel", bag, -1);
  g_subprocess_launcher_setenv (launcher, "HANDWHEEL_ROOM", room, TRUE);
  g_subprocess_launcher_setenv (launcher, "XDG_STATE_HOME", state, TRUE);
  g_subprocess_launcher_unsetenv (launcher, "GTK_A11Y");
  self->process = g_subprocess_launcher_spawn (launcher, &error, g_getenv ("HANDWHEEL"), file, NULL);
  g_assert_no_error (error);
  pid = atoi (g_subprocess_get_identifier (self->process));
  for (int i = 0; i < 200 && self->application == NULL; i++)
    {
      pause_ms (100);
      self->application = find_application (pid);
    }
  g_assert_nonnull (self->application);
}

static void
program_close (Program *self)
{
  g_autoptr (GError) error = NULL;

  g_clear_object (&self->application);
  g_subprocess_send_signal (self->process, SIGTERM);
  g_subprocess_wait (self->process, NULL, &error);
  g_assert_no_error (error);
  g_clear_object (&self->process);
  temp_folder_remove (self->folder);
}

typedef struct { const char *name; AtspiAccessible *found; } Search;

static gboolean
match_name (AtspiAccessible *node,
            gpointer         data)
{
  Search          *search = data;
  g_autofree char *name = atspi_accessible_get_name (node, NULL);
  g_autoptr (AtspiAction) action = NULL;

  if (g_strcmp0 (name, search->name) != 0 || !has_state (node, ATSPI_STATE_VISIBLE))
    return FALSE;
  action = atspi_accessible_get_action_iface (node);
  if (action == NULL || atspi_action_get_n_actions (action, NULL) == 0)
    return FALSE;
  search->found = g_object_ref (node);
  return TRUE;
}

/* Presses the control of that name. */
static void
press (Program    *program,
       const char *name)
{
  Search search = { name, NULL };
  g_autoptr (AtspiAction) action = NULL;

  walk (program->application, 0, match_name, &search);
  if (search.found == NULL)
    g_error ("nothing called “%s” can be pressed", name);
  action = atspi_accessible_get_action_iface (search.found);
  g_assert_true (atspi_action_do_action (action, 0, NULL));
  g_object_unref (search.found);
  pause_ms (500);
}

static gboolean
match_any_name (AtspiAccessible *node,
                gpointer         data)
{
  g_autofree char *name = atspi_accessible_get_name (node, NULL);

  return g_strcmp0 (name, data) == 0 && has_state (node, ATSPI_STATE_VISIBLE);
}

static gboolean
shows (Program    *program,
       const char *name)
{
  return walk (program->application, 0, match_any_name, (gpointer) name);
}

/* ---- tests ---- */

static void
test_pages (void)
{
  static const char * const pages[] = { "Order of work", "Setup cards", "Notions", "Making up" };
  Program program = { 0 };

  program_open (&program);
  assert_named (&program, "first page");
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      press (&program, pages[i]);
      assert_named (&program, pages[i]);
    }
  program_close (&program);
}

static void
test_forms (void)
{
  Program program = { 0 };

  program_open (&program);
  press (&program, "Add a fabric");
  g_assert_true (shows (&program, "New fabric"));
  assert_named (&program, "fabric form");
  press (&program, "Add a thread");
  assert_named (&program, "thread form");
  press (&program, "Cancel");
  press (&program, "Change the step");
  assert_named (&program, "step form");
  press (&program, "Cancel");
  press (&program, "New project");
  g_assert_true (shows (&program, "Title of the new project"));
  assert_named (&program, "new project");
  program_close (&program);
}

static void
test_reasons (void)
{
  static const char * const rows[] = { "Why this: Needle", "Why this: Stitch", "Why this: Foot" };
  Program program = { 0 };

  program_open (&program);
  g_assert_true (shows (&program, "Bag"));      /* the file named on the command line */
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    press (&program, rows[i]);
  g_assert_true (shows (&program, "Your own: Stitch length"));
  assert_named (&program, "reasons and own values");
  program_close (&program);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  /* The library warns of a cache that GTK 4.8 does not keep; that is no fault of ours. */
  g_log_set_always_fatal (G_LOG_FATAL_MASK | G_LOG_LEVEL_CRITICAL);
  atspi_init ();
  g_test_add_func ("/bus/pages", test_pages);
  g_test_add_func ("/bus/forms", test_forms);
  g_test_add_func ("/bus/reasons", test_reasons);
  return g_test_run ();
}
