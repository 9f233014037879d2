/* bus.c - drives the real program as a person does: its controls found by name on the accessibility bus
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What GTK 4.8 puts on the bus: buttons have an action of their own; rows are selected through the list's Selection;
 * entries and check buttons have neither and get keys and clicks. SHOWING is told of windows alone, so a node counts as
 * shown when it and all above it are visible and it has a size.
 */

#include "bus.h"

#include <gdk/gdkkeysyms.h>
#include <glib/gstdio.h>
#include <string.h>

#define TIME_OUT_S 30
#define PAUSE_US 15000
#define MOST_CHILDREN 400
#define MOST_DEPTH 60

/* The library's own types have no cleanup; a later version of it may bring one, under its own names. */
typedef AtspiStateSet States;
typedef AtspiComponent Component;
typedef AtspiAction Action;
typedef AtspiSelection Selection;
typedef AtspiText Text;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (States, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Component, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Action, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Selection, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Text, g_object_unref)

/* ---- folders ---- */

static void
remove_tree (const char *path)
{
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  const char      *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *child = g_build_filename (path, name, NULL);

      if (g_file_test (child, G_FILE_TEST_IS_DIR) && !g_file_test (child, G_FILE_TEST_IS_SYMLINK))
        remove_tree (child);
      else
        g_unlink (child);
    }
  g_rmdir (path);
}

void
program_set_up (Program      *self,
                gconstpointer data)
{
  g_autofree char *state = NULL;

  /* A program that is only just starting answers some of the library's own questions with an error, which the library
   * tells as a warning; it asks again. */
  g_log_set_always_fatal (G_LOG_FATAL_MASK | G_LOG_LEVEL_CRITICAL);
  if (!atspi_is_initialized ())
    atspi_init ();
  self->folder = g_dir_make_tmp ("handwheel-window-XXXXXX", NULL);
  g_assert_nonnull (self->folder);
  self->room = g_build_filename (self->folder, "room", NULL);
  state = g_build_filename (self->folder, "state", NULL);
  g_setenv ("HANDWHEEL_ROOM", self->room, TRUE);
  g_setenv ("XDG_STATE_HOME", state, TRUE);
}

void
program_tear_down (Program      *self,
                   gconstpointer data)
{
  if (self->process != NULL)
    {
      g_subprocess_force_exit (self->process);
      g_subprocess_wait (self->process, NULL, NULL);
    }
  g_clear_object (&self->app);
  g_clear_object (&self->process);
  remove_tree (self->folder);
  g_clear_pointer (&self->folder, g_free);
  g_clear_pointer (&self->room, g_free);
}

char *
program_add_project (Program    *self,
                     const char *from)
{
  g_autofree char    *folder = g_build_filename (self->room, "projects", NULL);
  g_autofree char    *name = g_path_get_basename (from);
  char               *path = g_build_filename (folder, name, NULL);
  g_autofree char    *contents = NULL;
  g_autoptr (GError)  error = NULL;
  gsize               length = 0;

  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  g_file_get_contents (from, &contents, &length, &error);
  g_assert_no_error (error);
  g_file_set_contents (path, contents, (gssize) length, &error);
  g_assert_no_error (error);
  return path;
}

/* ---- nodes ---- */

gboolean
bus_has_state (Node            *node,
               AtspiStateType   state)
{
  g_autoptr (States) states = atspi_accessible_get_state_set (node);

  return states != NULL && atspi_state_set_contains (states, state);
}

static gboolean
get_extents (Node      *node,
             AtspiRect *rect)
{
  g_autoptr (Component) component = atspi_accessible_get_component_iface (node);
  g_autofree AtspiRect *extents = component != NULL
                                  ? atspi_component_get_extents (component, ATSPI_COORD_TYPE_WINDOW, NULL) : NULL;

  if (extents == NULL)
    return FALSE;
  *rect = *extents;
  return rect->width > 0 && rect->height > 0;
}

static gboolean
is_shown (Node          *node,
          AtspiStateSet *states)
{
  AtspiRect rect = { 0 };

  if (atspi_state_set_contains (states, ATSPI_STATE_SHOWING))
    return TRUE;
  return atspi_state_set_contains (states, ATSPI_STATE_VISIBLE) && get_extents (node, &rect);
}

static void
free_seen (gpointer data)
{
  Seen *seen = data;

  g_free (seen->name);
  g_free (seen->description);
  g_object_unref (seen->node);
  g_free (seen);
}

/* NULL: it went away meanwhile. */
static Seen *
see (Node *node,
     int   depth)
{
  g_autoptr (States) states = atspi_accessible_get_state_set (node);
  g_autofree char *name = atspi_accessible_get_name (node, NULL);
  Seen *seen;

  if (states == NULL || name == NULL)
    return NULL;
  seen = g_new0 (Seen, 1);
  seen->role = atspi_accessible_get_role (node, NULL);
  seen->name = g_steal_pointer (&name);
  seen->description = atspi_accessible_get_description (node, NULL);
  seen->shown = seen->role == ATSPI_ROLE_APPLICATION || is_shown (node, states);
  seen->sensitive = atspi_state_set_contains (states, ATSPI_STATE_SENSITIVE);
  seen->on = atspi_state_set_contains (states, ATSPI_STATE_CHECKED)
             || atspi_state_set_contains (states, ATSPI_STATE_PRESSED);
  seen->node = g_object_ref (node);
  seen->depth = depth;
  return seen;
}

typedef gboolean (* VisitFunc) (Seen *seen, gpointer data);     /* takes @seen; TRUE: enough */

static gboolean
visit (Node      *node,
       int        depth,
       gboolean   hidden_too,
       VisitFunc  func,
       gpointer   data)
{
  Seen    *seen = see (node, depth);
  gboolean shown = seen != NULL && seen->shown;
  int      n;

  if (seen == NULL)
    return FALSE;
  if (!shown && !hidden_too)
    {
      free_seen (seen);
      return FALSE;
    }
  if (func (seen, data))
    return TRUE;
  n = depth < MOST_DEPTH ? MIN (atspi_accessible_get_child_count (node, NULL), MOST_CHILDREN) : 0;
  for (int i = 0; i < n; i++)
    {
      g_autoptr (Node) child = atspi_accessible_get_child_at_index (node, i, NULL);

      if (child != NULL && visit (child, depth + 1, hidden_too, func, data))
        return TRUE;
    }
  return FALSE;
}

static gboolean
collect (Seen     *seen,
         gpointer  list)
{
  g_ptr_array_add (list, seen);
  return FALSE;
}

GPtrArray *
bus_look (Node *root)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (free_seen);

  visit (root, 0, FALSE, collect, list);
  return list;
}

static gboolean
print_seen (Seen    *seen,
            gpointer data)
{
  g_autofree char *role = atspi_accessible_get_role_name (seen->node, NULL);

  g_test_message ("%*s%s '%s'%s%s%s", 2 * seen->depth, "", role, seen->name, seen->on ? " [on]" : "",
                  seen->sensitive ? "" : " (disabled)", seen->shown ? "" : " (hidden)");
  free_seen (seen);
  return FALSE;
}

static void
print_tree (Node *root)
{
  visit (root, 0, TRUE, print_seen, NULL);
}

/* ---- waiting ---- */

static gboolean
come_true (BusCondition condition,
           gpointer     data)
{
  gint64 until = g_get_monotonic_time () + TIME_OUT_S * G_USEC_PER_SEC;

  while (!condition (data))
    {
      if (g_get_monotonic_time () > until)
        return FALSE;
      if (!g_main_context_iteration (NULL, FALSE))
        g_usleep (PAUSE_US);
    }
  return TRUE;
}

static void
give_up (Node       *root,
         const char *what)
{
  if (root != NULL)
    print_tree (root);
  g_test_message ("waited %d s for %s", TIME_OUT_S, what);
  g_error ("never came: %s", what);
}

void
bus_wait (Program     *program,
          BusCondition condition,
          gpointer     data,
          const char  *what)
{
  if (!come_true (condition, data))
    give_up (program->app, what);
}

typedef struct
{
  Node      *root;
  AtspiRole  role;
  const char *name;
  gboolean   start_only;
  Node      *found;
} Search;

static gboolean
match (Seen     *seen,
       gpointer  data)
{
  Search  *search = data;
  gboolean named = search->start_only ? g_str_has_prefix (seen->name, search->name)
                                      : g_str_equal (seen->name, search->name);

  if (named && (search->role == ATSPI_ROLE_INVALID || seen->role == search->role))
    search->found = g_object_ref (seen->node);
  free_seen (seen);
  return search->found != NULL;
}

static gboolean
is_found (gpointer data)
{
  Search *search = data;

  visit (search->root, 0, FALSE, match, search);
  return search->found != NULL;
}

Node *
bus_peek (Node      *root,
          AtspiRole  role,
          const char *name)
{
  Search search = { root, role, name, FALSE, NULL };

  is_found (&search);
  return search.found;
}

static Node *
wait_found (Search *search)
{
  if (!come_true (is_found, search))
    give_up (search->root, search->name);
  return search->found;
}

Node *
bus_find (Node       *root,
          AtspiRole   role,
          const char *name)
{
  return wait_found (&(Search) { root, role, name, FALSE, NULL });
}

Node *
bus_find_start (Node       *root,
                AtspiRole   role,
                const char *start)
{
  return wait_found (&(Search) { root, role, start, TRUE, NULL });
}

static gboolean
is_gone (gpointer data)
{
  Search *search = data;

  g_clear_object (&search->found);
  return !is_found (search);
}

void
bus_wait_gone (Node       *root,
               AtspiRole   role,
               const char *name)
{
  Search search = { root, role, name, FALSE, NULL };

  if (!come_true (is_gone, &search))
    give_up (root, name);
}

typedef struct
{
  Node       *root;
  const char *part;
  char       *text;
} TextSearch;

static gboolean
match_text (Seen     *seen,
            gpointer  data)
{
  TextSearch      *search = data;
  g_autofree char *text = bus_text (seen->node);

  if (strstr (seen->name, search->part) != NULL)
    search->text = g_strdup (seen->name);
  else if (strstr (text, search->part) != NULL)
    search->text = g_steal_pointer (&text);
  free_seen (seen);
  return search->text != NULL;
}

static gboolean
is_told (gpointer data)
{
  TextSearch *search = data;

  visit (search->root, 0, FALSE, match_text, search);
  return search->text != NULL;
}

char *
bus_wait_text (Node       *root,
               const char *text)
{
  TextSearch search = { root, text, NULL };

  if (!come_true (is_told, &search))
    give_up (root, text);
  return search.text;
}

char *
bus_text (Node *node)
{
  g_autoptr (Text) text = atspi_accessible_get_text_iface (node);
  int   n = text != NULL ? atspi_text_get_character_count (text, NULL) : 0;
  char *all = n > 0 ? atspi_text_get_text (text, 0, n, NULL) : NULL;

  return all != NULL ? all : g_strdup (text != NULL ? "" : atspi_accessible_get_name (node, NULL));
}

/* ---- keys and clicks ---- */

void
bus_key (guint keyval,
         guint modifiers)
{
  g_autoptr (GError) error = NULL;

  if (modifiers != 0)
    atspi_generate_keyboard_event (modifiers, NULL, ATSPI_KEY_LOCKMODIFIERS, &error);
  g_assert_no_error (error);
  atspi_generate_keyboard_event (keyval, NULL, ATSPI_KEY_SYM, &error);
  g_assert_no_error (error);
  if (modifiers != 0)
    atspi_generate_keyboard_event (modifiers, NULL, ATSPI_KEY_UNLOCKMODIFIERS, &error);
  g_assert_no_error (error);
}

void
bus_type (const char *text)
{
  g_autoptr (GError) error = NULL;

  atspi_generate_keyboard_event (0, text, ATSPI_KEY_STRING, &error);
  g_assert_no_error (error);
}

void
bus_click (Node *node)
{
  g_autoptr (GError) error = NULL;
  AtspiRect rect = { 0 };

  g_assert_true (get_extents (node, &rect));
  atspi_generate_mouse_event (rect.x + rect.width / 2, rect.y + rect.height / 2, "b1c", &error);
  g_assert_no_error (error);
}

void
bus_press (Node *node)
{
  g_autoptr (Action) action = atspi_accessible_get_action_iface (node);
  int n = action != NULL ? atspi_action_get_n_actions (action, NULL) : 0;

  for (int i = 0; i < n; i++)
    {
      g_autofree char *name = atspi_action_get_action_name (action, i, NULL);

      if (g_strcmp0 (name, "click") == 0 || g_strcmp0 (name, "activate") == 0 || g_strcmp0 (name, "toggle") == 0)
        {
          g_assert_true (atspi_action_do_action (action, i, NULL));
          return;
        }
    }
  bus_click (node);
}

void
bus_select (Node *list,
            int   place)
{
  g_autoptr (Selection) selection = atspi_accessible_get_selection_iface (list);

  g_assert_nonnull (selection);
  g_assert_true (atspi_selection_select_child (selection, place, NULL));
}

typedef struct
{
  Node       *entry;
  const char *text;
} Filled;

static gboolean
is_filled (gpointer data)
{
  const Filled    *filled = data;
  g_autofree char *text = bus_text (filled->entry);

  return g_str_equal (text, filled->text);
}

static gboolean
is_focused (gpointer data)
{
  return bus_has_state (data, ATSPI_STATE_FOCUSED);
}

void
bus_fill (Node       *entry,
          const char *text)
{
  Filled filled = { entry, text };

  bus_click (entry);
  if (!come_true (is_focused, entry))
    give_up (entry, "the focus of an entry");
  bus_key (GDK_KEY_a, 1 << ATSPI_MODIFIER_CONTROL);
  bus_key (GDK_KEY_BackSpace, 0);
  bus_type (text);
  if (!come_true (is_filled, &filled))
    give_up (entry, text);
}

/* ---- the program ---- */

static gboolean
find_app (gpointer data)
{
  Program         *self = data;
  g_autoptr (Node) desktop = atspi_get_desktop (0);
  guint            pid = (guint) g_ascii_strtoull (g_subprocess_get_identifier (self->process), NULL, 10);
  int              n;

  g_assert_nonnull (g_subprocess_get_identifier (self->process));
  /* Children are asked for anew each time: what others remember of a program that starts is soon wrong. */
  atspi_accessible_set_cache_mask (desktop, ATSPI_CACHE_NONE);
  n = atspi_accessible_get_child_count (desktop, NULL);
  for (int i = 0; i < n; i++)
    {
      g_autoptr (Node) app = atspi_accessible_get_child_at_index (desktop, i, NULL);

      if (app == NULL || atspi_accessible_get_process_id (app, NULL) != pid
          || atspi_accessible_get_child_count (app, NULL) < 1)
        continue;
      atspi_accessible_set_cache_mask (app, ATSPI_CACHE_NONE);
      self->app = g_steal_pointer (&app);
      return TRUE;
    }
  return FALSE;
}

static GSubprocess *
spawn (Program    *self,
       const char *file)
{
  g_autoptr (GError) error = NULL;
  GSubprocess *process = g_subprocess_new (G_SUBPROCESS_FLAGS_NONE, &error, g_getenv ("HANDWHEEL"), file, NULL);

  g_assert_no_error (error);
  return process;
}

void
program_start (Program    *self,
               const char *file)
{
  g_assert_null (self->process);
  self->process = spawn (self, file);
  if (!come_true (find_app, self))
    give_up (NULL, "the program's window");
}

void
program_hand_over (Program    *self,
                   const char *file)
{
  g_autoptr (GSubprocess) process = spawn (self, file);
  g_autoptr (GError) error = NULL;

  g_subprocess_wait (process, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (g_subprocess_get_if_exited (process));
  g_assert_cmpint (g_subprocess_get_exit_status (process), ==, 0);
}

gboolean
program_is_alive (Program *self)
{
  return self->process != NULL && g_subprocess_get_identifier (self->process) != NULL;
}

static gboolean
has_ended (gpointer data)
{
  return !program_is_alive (data);
}

void
program_quit (Program *self)
{
  g_autoptr (Node) close = bus_find (self->app, ATSPI_ROLE_PUSH_BUTTON, "Close");

  bus_press (close);
  if (!come_true (has_ended, self))
    give_up (self->app, "the end of the program");
  g_assert_true (g_subprocess_get_if_exited (self->process));
  g_assert_cmpint (g_subprocess_get_exit_status (self->process), ==, 0);
  g_clear_object (&self->app);
  g_clear_object (&self->process);
}
