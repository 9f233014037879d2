/* program.c - the real program in a room of its own, started, asked and ended as a person would
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "program.h"

#include "temp-folder.h"

/* ---- folders ---- */

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
  temp_folder_remove_tree (self->folder);
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

/* ---- the program ---- */

static gboolean
find_app (gpointer data)
{
  Program         *self = data;
  g_autoptr (Node) desktop = atspi_get_desktop (0);
  const char      *identifier = g_subprocess_get_identifier (self->process);    /* NULL: it has ended */
  guint            pid = identifier != NULL ? (guint) g_ascii_strtoull (identifier, NULL, 10) : 0;
  int              n;

  g_assert_nonnull (g_subprocess_get_identifier (self->process));
  /* What the library remembers of a program that changes is soon wrong; only what a control is stays so. */
  atspi_accessible_set_cache_mask (desktop, ATSPI_CACHE_NONE);
  n = atspi_accessible_get_child_count (desktop, NULL);
  for (int i = 0; i < n; i++)
    {
      g_autoptr (Node) app = atspi_accessible_get_child_at_index (desktop, i, NULL);

      if (app == NULL || atspi_accessible_get_process_id (app, NULL) != pid
          || atspi_accessible_get_child_count (app, NULL) < 1)
        continue;
      atspi_accessible_set_cache_mask (app, ATSPI_CACHE_ROLE | ATSPI_CACHE_INTERFACES);
      self->app = g_steal_pointer (&app);
      return TRUE;
    }
  return FALSE;
}

static GSubprocess *
spawn_with (Program            *self,
            GSubprocessFlags    flags,
            const char * const *arguments)
{
  g_autoptr (GPtrArray) argv = g_ptr_array_new ();
  g_autoptr (GSubprocessLauncher) launcher = g_subprocess_launcher_new (flags);
  g_autofree char   *state = g_build_filename (self->folder, "state", NULL);
  g_autoptr (GError) error = NULL;
  GSubprocess       *process;

  g_subprocess_launcher_setenv (launcher, "HANDWHEEL_ROOM", self->room, TRUE);
  g_subprocess_launcher_setenv (launcher, "XDG_STATE_HOME", state, TRUE);
  if (g_getenv ("PROGRAM_PRELOAD") != NULL)    /* not into the test itself, nor into what else it starts */
    g_subprocess_launcher_setenv (launcher, "LD_PRELOAD", g_getenv ("PROGRAM_PRELOAD"), TRUE);
  g_ptr_array_add (argv, (gpointer) g_getenv ("HANDWHEEL"));
  for (const char * const *argument = arguments; *argument != NULL; argument++)
    g_ptr_array_add (argv, (gpointer) *argument);
  g_ptr_array_add (argv, NULL);
  process = g_subprocess_launcher_spawnv (launcher, (const char * const *) argv->pdata, &error);
  g_assert_no_error (error);
  return process;
}

/* @first and @second may be NULL. */
static GSubprocess *
spawn (Program         *self,
       GSubprocessFlags flags,
       const char      *first,
       const char      *second)
{
  const char *arguments[] = { first, second, NULL };

  return spawn_with (self, flags, arguments);
}

void
program_start (Program    *self,
               const char *file)
{
  g_assert_null (self->process);
  self->process = spawn (self, G_SUBPROCESS_FLAGS_NONE, file, NULL);
  if (!bus_comes_true (find_app, self))
    bus_give_up (NULL, "the program's window");
}

void
program_hand_over (Program    *self,
                   const char *file)
{
  g_autoptr (GSubprocess) process = spawn (self, G_SUBPROCESS_FLAGS_NONE, file, NULL);
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
  if (!bus_comes_true (has_ended, self))
    bus_give_up (self->app, "the end of the program");
  g_assert_true (g_subprocess_get_if_exited (self->process));
  g_assert_cmpint (g_subprocess_get_exit_status (self->process), ==, 0);
  g_clear_object (&self->app);
  g_clear_object (&self->process);
}

/* ---- pages ---- */

static gboolean
is_current (gpointer data)
{
  return bus_has_state (data, ATSPI_STATE_PRESSED) || bus_has_state (data, ATSPI_STATE_SELECTED);
}

typedef struct
{
  Program    *program;
  const char *title;            /* of the page or form */
  const char *stack_title;      /* of the stack's page it is on */
  AtspiRole   role;             /* of what has the title */
  Node       *found;            /* the page */
} PageSearch;

static gboolean
find_page (gpointer data)
{
  PageSearch *search = data;
  g_autoptr (GPtrArray) pages = bus_pages (search->program->app, search->stack_title);

  for (guint i = 0; i < pages->len && search->found == NULL; i++)
    {
      g_autoptr (Node) inside = search->title != NULL ? bus_peek (pages->pdata[i], search->role, search->title) : NULL;

      if (search->title == NULL || inside != NULL)
        search->found = g_object_ref (pages->pdata[i]);
    }
  return search->found != NULL;
}

/* The pages of the room share a title; each has its own as its heading. */
Node *
program_show_page (Program    *self,
                   const char *title)
{
  g_autoptr (Node) strip = bus_find (self->app, ATSPI_ROLE_INVALID, "Pages of the project");
  g_autoptr (Node) button = bus_peek (strip, ATSPI_ROLE_INVALID, title);
  gboolean         of_room = button == NULL;
  PageSearch       search = { self, NULL, title, ATSPI_ROLE_INVALID, NULL };

  if (of_room)
    {
      button = bus_find_start (self->app, ATSPI_ROLE_LIST_ITEM, title);
      search = (PageSearch) { self, title, "Sewing room", ATSPI_ROLE_LABEL, NULL };
    }
  bus_press (button);
  bus_wait (self->app, is_current, button, title);
  bus_wait (self->app, find_page, &search, title);
  return search.found;
}

Node *
program_find_room_page (Program    *self,
                        const char *heading)
{
  PageSearch search = { self, heading, "Sewing room", ATSPI_ROLE_LABEL, NULL };

  bus_wait (self->app, find_page, &search, heading);
  return search.found;
}

/* The pages of the side panel of the making up: none while the page is on its way. */
static GPtrArray *
list_panels (Program *self)
{
  g_autoptr (GPtrArray) pages = bus_pages (self->app, "Making up");

  return pages->len == 1 ? bus_pages (pages->pdata[0], NULL) : g_ptr_array_new_with_free_func (g_object_unref);
}

static gboolean
find_form (gpointer data)
{
  PageSearch *search = data;
  g_autoptr (GPtrArray) panels = list_panels (search->program);

  for (guint i = 0; i < panels->len && search->found == NULL; i++)
    search->found = bus_peek (panels->pdata[i], ATSPI_ROLE_FORM, search->title);
  return search->found != NULL;
}

Node *
program_find_form (Program    *self,
                   const char *title)
{
  PageSearch search = { self, title, NULL, ATSPI_ROLE_FORM, NULL };

  bus_wait (self->app, find_form, &search, title);
  return search.found;
}

/* A form is taken away when it closes: the set-up alone is left. */
static gboolean
find_panel (gpointer data)
{
  PageSearch *search = data;
  g_autoptr (GPtrArray) panels = list_panels (search->program);

  if (panels->len == 1 && atspi_accessible_get_role (panels->pdata[0], NULL) != ATSPI_ROLE_FORM)
    search->found = g_object_ref (panels->pdata[0]);
  return search->found != NULL;
}

Node *
program_find_panel (Program *self)
{
  PageSearch search = { self, NULL, NULL, ATSPI_ROLE_INVALID, NULL };

  bus_wait (self->app, find_panel, &search, "the set-up of a step");
  return search.found;
}

/* ---- the command line ---- */

char *
program_run_with (Program            *self,
                  int                 status,
                  const char * const *arguments)
{
  g_autoptr (GSubprocess) process = spawn_with (self, G_SUBPROCESS_FLAGS_STDOUT_PIPE, arguments);
  g_autoptr (GError) error = NULL;
  char *printed = NULL;

  g_subprocess_communicate_utf8 (process, NULL, NULL, &printed, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (g_subprocess_get_if_exited (process));
  g_assert_cmpint (g_subprocess_get_exit_status (process), ==, status);
  return printed;
}

char *
program_run (Program    *self,
             int         status,
             const char *verb,
             const char *argument)
{
  const char *arguments[] = { verb, argument, NULL };

  return program_run_with (self, status, arguments);
}
