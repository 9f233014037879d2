/* loading.c - what the window works on, read and planned on a thread while the window system is being begun
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/loading.h"

#include "command/command.h"
#include "window/furnish.h"
#include "window/room-watch.h"
#include "words/words.h"

#define MOST_AGE_S 3                     /* a program may be begun long before its window is asked for */

struct _HwLoading
{
  GThread *thread;
  gint64   begun;                        /* monotonic, µs */
  char    *data_folder, *room_folder, *path;
};

static gboolean
read_room (HwLoaded *self,
           GError  **error)
{
  self->room_note = hw_room_watch_note (self->room_folder);
  self->room = hw_room_open (self->room_folder, error);
  if (self->room == NULL)
    return FALSE;
  if (self->room->machines->len == 0)
    {
      hw_room_unref (self->room);
      self->room = hw_room_new_default (self->room_folder);
    }
  return TRUE;
}

/* (transfer full): where the handbook's mark is kept. What stands there only saves time: nobody misses it. */
static char *
mark_path (void)
{
  return g_build_filename (g_get_user_cache_dir (), "handwheel", "handbook-mark", NULL);
}

static void
keep_mark (const char *mark)
{
  g_autofree char *path = mark_path ();
  g_autofree char *folder = g_path_get_dirname (path);
  g_autoptr (GError) error = NULL;

  g_mkdir_with_parents (folder, 0700);
  if (!g_file_set_contents (path, mark, -1, &error))
    g_debug ("%s", error->message);
}

static gboolean
read_handbook (HwLoaded *self,
               GError  **error)
{
  g_autofree char *folder = g_build_filename (self->data_folder, "handbook", NULL);
  g_autofree char *overlay = hw_overlay_folder ();
  g_autofree char *path = mark_path ();
  g_autofree char *known = NULL;
  g_autofree char *mark = NULL;

  g_file_get_contents (path, &known, NULL, NULL);
  self->handbook = hw_handbook_load_known (folder, overlay, hw_words_translate, known, &mark, &self->overlay_error,
                                           error);
  if (mark != NULL && g_strcmp0 (mark, known) != 0)
    keep_mark (mark);
  return self->handbook != NULL;
}

HwLoaded *
hw_loaded_new (const char *data_folder,
               const char *room_folder,
               GError    **error)
{
  g_autoptr (HwLoaded) self = g_new0 (HwLoaded, 1);

  self->data_folder = g_strdup (data_folder);
  self->room_folder = g_strdup (room_folder);
  self->memory = hw_order_memory_new ();
  self->projects = hw_project_list_new ();
  if (!read_handbook (self, error) || !read_room (self, error))
    return NULL;
  return g_steal_pointer (&self);
}

void
hw_loaded_free (HwLoaded *self)
{
  g_clear_pointer (&self->plan, hw_plan_unref);
  g_clear_pointer (&self->project, hw_project_unref);
  hw_project_place_clear (&self->place);
  g_clear_pointer (&self->projects, hw_project_list_free);
  g_clear_pointer (&self->memory, hw_order_memory_unref);
  g_clear_pointer (&self->room, hw_room_unref);
  g_clear_pointer (&self->handbook, hw_handbook_unref);
  g_clear_error (&self->overlay_error);
  g_free (self->data_folder);
  g_free (self->room_folder);
  g_free (self->room_note);
  g_free (self->path);
  g_free (self);
}

/* ---- the thread ---- */

void
hw_loaded_read_project (HwLoaded      *self,
                        HwLoadedSteps *steps)
{
  HwPlanEffort quick = { HW_PLAN_QUICK_STATES, self->memory, NULL, &steps->n_paired };
  HwProject *project;

  hw_project_place_look (&self->place, self->path);
  project = hw_project_list_look (self->projects, self->path);
  if (project == NULL)
    return;
  self->project = hw_project_ref (project);
  g_atomic_int_set (&steps->n_steps, (int) project->steps->len);
  self->plan = hw_plan_new_with (self->handbook, self->project, self->room, &quick, NULL);
}

/* Large ones follow when the window has been drawn: see hw_read_ahead(). */
static void
read_others (HwLoaded *self)
{
  g_autoptr (GPtrArray) paths = hw_project_list_in_sight (self->room);

  for (guint i = 0; i < paths->len; i++)
    if (!hw_project_is_large (g_ptr_array_index (paths, i)))
      hw_project_list_look (self->projects, g_ptr_array_index (paths, i));
}

static gpointer
load_in_thread (gpointer data)
{
  HwLoading *self = data;
  HwLoaded *loaded = hw_loaded_new (self->data_folder, self->room_folder, NULL);

  if (loaded == NULL)
    return NULL;
  if (self->path == NULL)
    self->path = hw_recall_project (loaded->room->folder);
  if (self->path != NULL && !hw_project_is_large (self->path))
    {
      HwLoadedSteps unasked = { 0, 0 };

      loaded->path = g_canonicalize_filename (self->path, NULL);
      hw_loaded_read_project (loaded, &unasked);
    }
  read_others (loaded);
  return loaded;
}

HwLoading *
hw_loading_begin (const char *data_folder,
                  const char *room_folder,
                  const char *path_or_null)
{
  HwLoading *self = g_new0 (HwLoading, 1);

  self->data_folder = g_strdup (data_folder);
  self->room_folder = g_strdup (room_folder);
  self->path = g_strdup (path_or_null);
  self->begun = g_get_monotonic_time ();
  self->thread = g_thread_new ("loading", load_in_thread, self);
  return self;
}

HwLoaded *
hw_loading_finish (HwLoading *self)
{
  HwLoaded *loaded = NULL;
  gint64 age = g_get_monotonic_time () - self->begun;

  loaded = g_thread_join (self->thread);
  if (age > MOST_AGE_S * G_USEC_PER_SEC)
    g_clear_pointer (&loaded, hw_loaded_free);
  g_free (self->data_folder);
  g_free (self->room_folder);
  g_free (self->path);
  g_free (self);
  return loaded;
}
