/* project-list.c - the projects of the room's folder, and how far each has got
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/project-list.h"

#include <glib/gstdio.h>
#include <string.h>

#include "window/furnish.h"

#define SUFFIX ".handwheel"
#define LARGE_BYTES (256 * 1024)         /* some eight hundred steps */
#define LONGEST_STEM 48

typedef struct
{
  gint64     time, size;
  HwProject *project;            /* NULL: could not be read */
  char      *problem;
} Cached;

struct _HwProjectList
{
  GHashTable *cache;             /* path -> Cached */
};

static void
free_cached (gpointer data)
{
  Cached *cached = data;

  g_clear_pointer (&cached->project, hw_project_unref);
  g_free (cached->problem);
  g_free (cached);
}

static void
free_summary (gpointer data)
{
  HwProjectSummary *summary = data;

  g_free (summary->path);
  g_free (summary->title);
  g_free (summary->due);
  g_free (summary->problem);
  g_clear_pointer (&summary->project, hw_project_unref);
  g_free (summary);
}

HwProjectList *
hw_project_list_new (void)
{
  HwProjectList *self = g_new0 (HwProjectList, 1);

  self->cache = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, free_cached);
  return self;
}

void
hw_project_list_free (HwProjectList *self)
{
  g_hash_table_unref (self->cache);
  g_free (self);
}

/* A file's time and size; size -1 where there is none. */
static Cached
look_at_file (const char *path)
{
  GStatBuf status = { 0 };

  if (g_stat (path, &status) != 0)
    status.st_size = -1;
  return (Cached) { .time = (gint64) status.st_mtim.tv_sec * G_GINT64_CONSTANT (1000000000) + status.st_mtim.tv_nsec,
                    .size = (gint64) status.st_size };
}

static gboolean
is_of (const Cached *cached,
       const Cached *file)
{
  return cached != NULL && cached->time == file->time && cached->size == file->size;
}

static const Cached *
read_cached (HwProjectList *self,
             const char    *path)
{
  Cached    *cached = g_hash_table_lookup (self->cache, path);
  Cached     file = look_at_file (path);
  g_autoptr (GError) error = NULL;

  if (is_of (cached, &file))
    return cached;

  cached = g_memdup2 (&file, sizeof file);
  cached->project = hw_project_read (path, &error);
  if (cached->project == NULL)
    cached->problem = g_strdup (error->message);
  g_hash_table_replace (self->cache, g_strdup (path), cached);
  return cached;
}

static HwProjectSummary *
summarise (const char      *path,
           const HwProject *project,
           const HwRoom    *room)
{
  HwProjectSummary *summary = g_new0 (HwProjectSummary, 1);

  summary->path = g_strdup (path);
  summary->title = g_strdup (project->title);
  summary->due = g_strdup (project->due);
  summary->project = hw_project_ref ((HwProject *) project);
  summary->n_steps = project->steps->len;
  summary->n_done = hw_room_count_done (room, project);
  return summary;
}

static HwProjectSummary *
summarise_unreadable (const char *path,
                      const char *problem)
{
  HwProjectSummary *summary = g_new0 (HwProjectSummary, 1);

  summary->path = g_strdup (path);
  summary->title = g_path_get_basename (path);
  summary->problem = g_strdup (problem);
  return summary;
}

static HwProjectSummary *
summarise_unread (const char *path)
{
  HwProjectSummary *summary = g_new0 (HwProjectSummary, 1);

  summary->path = g_strdup (path);
  summary->title = g_path_get_basename (path);
  summary->title[strlen (summary->title) - strlen (SUFFIX)] = '\0';
  return summary;
}

static int
compare_titles (gconstpointer a,
                gconstpointer b)
{
  const HwProjectSummary *first = *(HwProjectSummary * const *) a;
  const HwProjectSummary *second = *(HwProjectSummary * const *) b;
  int order = g_utf8_collate (first->title, second->title);

  return order != 0 ? order : strcmp (first->path, second->path);
}

GPtrArray *
hw_project_list_paths (const HwRoom *room)
{
  g_autofree char *folder = g_build_filename (room->folder, "projects", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);  /* no folder yet: no projects */
  GPtrArray       *paths = g_ptr_array_new_with_free_func (g_free);
  const char      *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_str_has_suffix (name, SUFFIX) && name[0] != '.')
        g_ptr_array_add (paths, g_steal_pointer (&path));
    }
  return paths;
}

static gboolean
has_path (GPtrArray  *paths,
          const char *path)
{
  return g_ptr_array_find_with_equal_func (paths, path, g_str_equal, NULL);
}

/* (transfer full): those of @all that stay in sight. */
static GPtrArray *
pick_in_sight (const HwRoom *room,
               GPtrArray    *all)
{
  g_auto (GStrv) recent = NULL;
  GPtrArray     *shown = NULL;

  if (all->len <= HW_PROJECTS_IN_SIGHT)
    return g_ptr_array_ref (all);
  recent = hw_recall_projects (room->folder);
  shown = g_ptr_array_new_with_free_func (g_free);
  for (char **path = recent; *path != NULL; path++)
    if (has_path (all, *path))
      g_ptr_array_add (shown, g_strdup (*path));
  return shown;
}

GPtrArray *
hw_project_list_in_sight (const HwRoom *room)
{
  g_autoptr (GPtrArray) all = hw_project_list_paths (room);

  return pick_in_sight (room, all);
}

HwProject *
hw_project_list_look (HwProjectList *self,
                      const char    *path)
{
  return read_cached (self, path)->project;
}

gboolean
hw_project_list_knows (HwProjectList *self,
                       const char    *path)
{
  Cached file = look_at_file (path);

  return is_of (g_hash_table_lookup (self->cache, path), &file);
}

gboolean
hw_project_is_large (const char *path)
{
  return look_at_file (path).size >= LARGE_BYTES;
}

void
hw_project_list_take (HwProjectList *self,
                      HwProjectList *other)
{
  GHashTableIter iter;
  gpointer       path, cached;

  g_hash_table_iter_init (&iter, other->cache);
  while (g_hash_table_iter_next (&iter, &path, &cached))
    if (!hw_project_list_knows (self, path))
      {
        g_hash_table_iter_steal (&iter);
        g_hash_table_replace (self->cache, path, cached);
      }
  hw_project_list_free (other);
}

/* The open project stands for its file, as it is now. */
static gboolean
is_open (const char      *path,
         const HwProject *open,
         const char      *open_path)
{
  return open != NULL && g_str_equal (path, open_path);
}

GPtrArray *
hw_project_list_projects (HwProjectList   *self,
                          const HwRoom    *room,
                          const HwProject *open,
                          const char      *open_path)
{
  g_autoptr (GPtrArray) paths = hw_project_list_paths (room);
  GPtrArray *projects = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_project_unref);

  if (open != NULL)
    g_ptr_array_add (projects, hw_project_ref ((HwProject *) open));
  for (guint i = 0; i < paths->len; i++)
    {
      const char *path = g_ptr_array_index (paths, i);
      HwProject  *project = is_open (path, open, open_path) ? NULL : hw_project_list_look (self, path);

      if (project != NULL)
        g_ptr_array_add (projects, hw_project_ref (project));
    }
  return projects;
}

/* (transfer full): of the file at @path. */
static HwProjectSummary *
summarise_file (HwProjectList *self,
                const char    *path,
                const HwRoom  *room,
                gboolean       wait)
{
  gboolean          awaited = !wait && hw_project_is_large (path) && !hw_project_list_knows (self, path);
  const Cached     *cached = awaited ? g_hash_table_lookup (self->cache, path) : read_cached (self, path);
  HwProjectSummary *summary;

  if (cached == NULL)
    summary = summarise_unread (path);
  else if (cached->project != NULL)
    summary = summarise (path, cached->project, room);
  else
    summary = summarise_unreadable (path, cached->problem);
  summary->is_awaited = awaited;
  return summary;
}

/* (transfer full): with @open, which stands for the file at @open_path. @wait: until all are read. */
static GPtrArray *
summarise_all (HwProjectList   *self,
               const GPtrArray *paths,
               const HwRoom    *room,
               const HwProject *open,
               const char      *open_path,
               gboolean         wait)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (free_summary);

  if (open != NULL)
    g_ptr_array_add (list, summarise (open_path, open, room));
  for (guint i = 0; i < paths->len; i++)
    {
      const char *path = g_ptr_array_index (paths, i);

      if (!is_open (path, open, open_path))
        g_ptr_array_add (list, summarise_file (self, path, room, wait));
    }
  g_ptr_array_sort (list, compare_titles);
  return list;
}

GPtrArray *
hw_project_list_read (HwProjectList   *self,
                      const HwRoom    *room,
                      const HwProject *open,
                      const char      *open_path)
{
  g_autoptr (GPtrArray) paths = hw_project_list_paths (room);

  return summarise_all (self, paths, room, open, open_path, TRUE);
}

GPtrArray *
hw_project_list_read_in_sight (HwProjectList   *self,
                               const HwRoom    *room,
                               const HwProject *open,
                               const char      *open_path,
                               guint           *n_all)
{
  g_autoptr (GPtrArray) all = hw_project_list_paths (room);
  g_autoptr (GPtrArray) paths = pick_in_sight (room, all);

  *n_all = all->len + (open != NULL && !has_path (all, open_path) ? 1 : 0);
  return summarise_all (self, paths, room, open, open_path, FALSE);
}

/* Letters and digits of any script stay; the rest becomes single hyphens. */
static char *
make_stem (const char *title)
{
  g_autofree char *folded = g_utf8_strdown (title, -1);
  GString         *stem = g_string_new (NULL);

  for (const char *p = folded; *p != '\0' && stem->len < LONGEST_STEM; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if (g_unichar_isalnum (c))
        g_string_append_unichar (stem, c);
      else if (stem->len > 0 && stem->str[stem->len - 1] != '-')
        g_string_append_c (stem, '-');
    }
  while (stem->len > 0 && stem->str[stem->len - 1] == '-')
    g_string_truncate (stem, stem->len - 1);
  if (stem->len == 0)
    g_string_assign (stem, "project");
  return g_string_free (stem, FALSE);
}

char *
hw_project_list_free_path (const char *folder,
                           const char *title)
{
  g_autofree char *stem = make_stem (title);
  g_autofree char *name = g_strconcat (stem, SUFFIX, NULL);
  char            *path = g_build_filename (folder, name, NULL);

  for (int i = 2; g_file_test (path, G_FILE_TEST_EXISTS); i++)
    {
      g_autofree char *numbered = g_strdup_printf ("%s-%d" SUFFIX, stem, i);

      g_free (path);
      path = g_build_filename (folder, numbered, NULL);
    }
  return path;
}
