/* workspace.c - what the window works on: handbook, room, the open project and its plan
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The plan is made anew at once after each change, good but not always proved; the proof then runs on a thread of
 * its own with references to the same snapshots. When it comes back and nothing has changed meanwhile, its plan takes
 * the place of the quick one. One proof at a time: one that has become stale is cancelled, and when it is back the
 * present plan's is begun. What was proved once is remembered as long as the window is open, so that a change which
 * does not touch the order needs no proof.
 */

#include "config.h"

#include "window/workspace.h"

#include <glib/gi18n.h>

#include "model/garment-project.h"
#include "model/versions.h"
#include "window/file-watch.h"
#include "window/furnish.h"
#include "window/later.h"
#include "window/mark-told.h"
#include "window/project-list.h"
#include "window/project-names.h"
#include "window/room-watch.h"
#include "words/words-room.h"
#include "words/words-versions.h"
#include "words/words.h"

typedef struct
{
  HwHandbook    *handbook;
  HwProject     *project;
  HwRoom        *room;
  HwOrderMemory *memory;
  int            cancelled;      /* set atomically: no longer wanted */
  GWeakRef       workspace;
} Proof;

struct _HwWorkspace
{
  GObject        parent_instance;
  HwHandbook    *handbook;
  GError        *overlay_error;
  HwRoom        *room;
  HwRoomWatch   *watch;
  char          *path;
  HwProjectPlace place;          /* of the project at path */
  HwFileWatch   *file_watch;     /* of the same */
  HwHistory     *history;
  gint64         kept_at;        /* when a version of it was kept last; 0: not since it was opened */
  HwPlan        *plan;
  GError        *plan_error;
  char          *selected;
  HwProjectList *projects;
  HwStopwatch   *stopwatch;
  HwProjectNames *names;         /* NULL: not asked for since the last change */
  GPtrArray      *undoable;      /* (element-type HwJournalEntry) what the last message told of; NULL */
  gboolean       announcing;
  gboolean       telling_undoable;
  const char    *back_page, *back_action;     /* that undo what the last message told of; static, or NULL */
  HwOrderMemory *memory;
  Proof         *proof;          /* running; its task owns it. NULL */
  HwLoaded      *loaded;         /* a project that was read beforehand; NULL once any has been opened */
};

enum { CHANGED, MESSAGE, SELECTION, FILES, PROJECTS, N_SIGNALS };

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (HwWorkspace, hw_workspace, G_TYPE_OBJECT)

/* ---- the plan ---- */

static void start_proof (HwWorkspace *self);

static void
free_proof (gpointer data)
{
  Proof *proof = data;

  hw_handbook_unref (proof->handbook);
  hw_project_unref (proof->project);
  hw_room_unref (proof->room);
  hw_order_memory_unref (proof->memory);
  g_weak_ref_clear (&proof->workspace);
  g_free (proof);
}

static void
announce (HwWorkspace *self)
{
  g_clear_pointer (&self->names, hw_project_names_free);
  self->announcing = TRUE;
  g_signal_emit (self, signals[CHANGED], 0);
  self->announcing = FALSE;
}

static void
prove_in_thread (GTask        *task,
                 gpointer      source,
                 gpointer      data,
                 GCancellable *cancellable)
{
  const Proof *proof = data;
  GError      *error = NULL;
  HwPlanEffort effort = { HW_PLAN_PROOF_STATES, proof->memory, &proof->cancelled, NULL };
  HwPlan      *plan = hw_plan_new_with (proof->handbook, proof->project, proof->room, &effort, &error);

  if (plan != NULL)
    g_task_return_pointer (task, plan, (GDestroyNotify) hw_plan_unref);
  else
    g_task_return_error (task, error);
}

static void
proved_cb (GObject      *source,
           GAsyncResult *result,
           gpointer      data)
{
  Proof                  *proof = g_task_get_task_data (G_TASK (result));
  g_autoptr (HwWorkspace) self = g_weak_ref_get (&proof->workspace);
  g_autoptr (HwPlan)      plan = g_task_propagate_pointer (G_TASK (result), NULL);

  if (self == NULL)
    return;
  self->proof = NULL;
  if (self->plan == NULL || self->plan->settled)
    return;
  /* Cancelled counts even when undoing has brought back the very project that it was about. */
  if (plan == NULL || g_atomic_int_get (&proof->cancelled) != 0 || proof->project != self->plan->project
      || proof->room != self->plan->room)
    {
      start_proof (self);
      return;
    }
  g_clear_pointer (&self->plan, hw_plan_unref);
  self->plan = g_steal_pointer (&plan);
  announce (self);
}

static void
start_proof (HwWorkspace *self)
{
  g_autoptr (GTask) task = NULL;
  Proof            *proof;

  if (self->proof != NULL)
    return;
  self->proof = proof = g_new0 (Proof, 1);
  proof->handbook = hw_handbook_ref (self->handbook);
  proof->project = hw_project_ref ((HwProject *) self->plan->project);
  proof->room = hw_room_ref (self->room);
  proof->memory = hw_order_memory_ref (self->memory);
  g_weak_ref_init (&proof->workspace, self);
  task = g_task_new (NULL, NULL, proved_cb, NULL);
  g_task_set_source_tag (task, start_proof);
  g_task_set_task_data (task, proof, free_proof);
  g_task_run_in_thread (task, prove_in_thread);
}

/* What has been proved or changed while it waited needs no proof. */
static void
begin_proof (gpointer data)
{
  HwWorkspace *self = HW_WORKSPACE (data);

  if (self->plan != NULL && !self->plan->settled)
    start_proof (self);
}

static void
cancel_proof (HwWorkspace *self)
{
  if (self->proof != NULL)
    g_atomic_int_set (&self->proof->cancelled, 1);
}

/* (transfer full); NULL: it is not the open project's, in this room. */
static HwPlan *
take_loaded_plan (HwWorkspace *self)
{
  const HwPlan *plan = self->loaded != NULL ? self->loaded->plan : NULL;

  if (plan == NULL || plan->project != hw_history_peek (self->history) || plan->room != self->room)
    return NULL;
  return g_steal_pointer (&self->loaded->plan);
}

static void
plan_anew (HwWorkspace *self)
{
  HwPlanEffort quick = { HW_PLAN_QUICK_STATES, self->memory, NULL, NULL };

  cancel_proof (self);
  g_clear_pointer (&self->plan, hw_plan_unref);
  g_clear_error (&self->plan_error);
  if (self->history == NULL)
    return;
  self->plan = take_loaded_plan (self);
  if (self->plan == NULL)
    self->plan = hw_plan_new_with (self->handbook, hw_history_peek (self->history), self->room, &quick,
                                   &self->plan_error);
  if (self->plan != NULL && !self->plan->settled)
    hw_later (self, self, begin_proof);
}

/* ---- the selected step ---- */

static gboolean
set_selected (HwWorkspace *self,
              const char  *number)
{
  if (g_strcmp0 (self->selected, number) == 0)
    return FALSE;
  g_free (self->selected);
  self->selected = g_strdup (number);
  return TRUE;
}

/* Keeps the selected step; when it is gone, takes the one that stands in its place. */
static void
keep_selection (HwWorkspace *self,
                int          place)
{
  const HwProject *project = hw_workspace_peek_project (self);
  guint            n = project != NULL ? project->steps->len : 0;

  if (self->selected != NULL && n > 0 && hw_project_find_step (project, self->selected) >= 0)
    return;
  if (n == 0)
    set_selected (self, NULL);
  else
    set_selected (self, hw_project_get_step (project, MIN ((gsize) MAX (place, 0), n - 1))->number);
}

static int
selected_place (HwWorkspace *self)
{
  const HwProject *project = hw_workspace_peek_project (self);

  return project != NULL && self->selected != NULL ? hw_project_find_step (project, self->selected) : 0;
}

/* ---- files ---- */

gboolean
hw_workspace_is_saved (HwWorkspace *self)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), TRUE);

  return self->history == NULL || hw_history_is_saved (self->history);
}

gboolean
hw_workspace_save (HwWorkspace *self,
                   GError     **error)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), FALSE);

  if (self->history == NULL)
    return TRUE;
  if (!hw_project_save (hw_history_peek (self->history), self->path, &self->place, error))
    return FALSE;
  hw_history_mark_saved (self->history);
  hw_file_watch_known (self->file_watch);
  return TRUE;
}

static void
save_or_tell (HwWorkspace *self)
{
  g_autoptr (GError) error = NULL;
  g_autofree char   *text = NULL;

  if (hw_workspace_save (self, &error))
    return;
  /* Translators: the system's reason, with the file's name */
  text = g_strdup_printf (_("Your change stands here but is not saved: %s"), error->message);
  hw_workspace_tell (self, text, TRUE);
}

/* Whether the open project is in its file, or at least in a copy, which is told. */
static gboolean
leave_project (HwWorkspace *self,
               GError     **error)
{
  g_autoptr (GError) unsaved = NULL;

  if (hw_workspace_is_saved (self) || hw_workspace_save (self, &unsaved))
    return TRUE;
  if (self->place.rescued == NULL)
    {
      g_propagate_error (error, g_steal_pointer (&unsaved));
      return FALSE;
    }
  hw_workspace_tell (self, unsaved->message, TRUE);
  return TRUE;
}

static void project_written_cb (gpointer data);

static void
remember_project (gpointer data)
{
  HwWorkspace *self = HW_WORKSPACE (data);

  if (self->path != NULL)
    hw_remember_project (self->room->folder, self->path);
}

static void
take_project (HwWorkspace *self,
              HwProject   *project,
              const char  *path)
{
  g_clear_pointer (&self->history, hw_history_free);
  self->history = hw_history_new (project, TRUE);
  g_free (self->path);
  self->path = g_canonicalize_filename (path, NULL);
  self->kept_at = 0;
  g_clear_pointer (&self->file_watch, hw_file_watch_free);
  self->file_watch = hw_file_watch_new (self->path, project_written_cb, self);
  hw_room_watch_own (self->watch, self->path);
  set_selected (self, NULL);
  keep_selection (self, 0);
  plan_anew (self);
  g_clear_pointer (&self->loaded, hw_loaded_free);
  hw_later (self, self, remember_project);
  announce (self);
  g_signal_emit (self, signals[SELECTION], 0);
}

/* (transfer full): the project at @path, and how its file was just before it was read. */
static HwProject *
read_project (HwWorkspace    *self,
              const char     *path,
              HwProjectPlace *place,
              GError        **error)
{
  g_autofree char *whole = g_canonicalize_filename (path, NULL);
  HwProject *project;

  if (self->loaded != NULL && self->loaded->project != NULL && g_str_equal (self->loaded->path, whole))
    {
      *place = self->loaded->place;
      self->loaded->place = (HwProjectPlace) { NULL, NULL };
      return hw_project_ref (self->loaded->project);
    }
  hw_project_place_look (place, path);
  project = hw_project_read (path, error);
  if (project == NULL)
    hw_project_place_clear (place);
  return project;
}

HwLoaded *
hw_workspace_begin_loaded (HwWorkspace *self,
                           const char  *path)
{
  HwLoaded *loaded;

  g_return_val_if_fail (HW_IS_WORKSPACE (self) && path != NULL, NULL);

  loaded = g_new0 (HwLoaded, 1);
  loaded->handbook = hw_handbook_ref (self->handbook);
  loaded->room = hw_room_ref (self->room);
  loaded->memory = hw_order_memory_ref (self->memory);
  loaded->projects = hw_project_list_new ();
  loaded->path = g_canonicalize_filename (path, NULL);
  return loaded;
}

void
hw_workspace_take_loaded (HwWorkspace *self,
                          HwLoaded    *loaded)
{
  g_return_if_fail (HW_IS_WORKSPACE (self) && loaded != NULL);

  g_clear_pointer (&self->loaded, hw_loaded_free);
  self->loaded = loaded;
  hw_project_list_take (self->projects, g_steal_pointer (&loaded->projects));
}

gboolean
hw_workspace_open (HwWorkspace *self,
                   const char  *path,
                   GError     **error)
{
  HwProjectPlace place = { NULL, NULL };
  HwProject *project;

  g_return_val_if_fail (HW_IS_WORKSPACE (self), FALSE);
  g_return_val_if_fail (path != NULL && !self->announcing, FALSE);

  if (!leave_project (self, error))
    return FALSE;
  project = read_project (self, path, &place, error);
  if (project == NULL)
    return FALSE;
  hw_project_place_clear (&self->place);
  self->place = place;
  take_project (self, project, path);
  return TRUE;
}

/* The file's name is the project's id, unique in the room as long as the files lie there. */
static char *
make_id (const char *path)
{
  g_autofree char *name = g_path_get_basename (path);

  *g_strrstr (name, ".") = '\0';
  return g_ascii_isdigit (name[0]) ? g_strconcat ("p-", name, NULL) : g_steal_pointer (&name);
}

/* A free place in the room for a project of that title: *path and *id. FALSE with @error: no title, or the open
 * project cannot be saved before it is left. */
static gboolean
find_place (HwWorkspace *self,
            const char  *title,
            char       **path,
            char       **id,
            GError     **error)
{
  g_autofree char *folder = g_build_filename (self->room->folder, "projects", NULL);

  if (title[0] == '\0')
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, _("A project needs a title; type one"));
      return FALSE;
    }
  if (!leave_project (self, error))
    return FALSE;
  *path = hw_project_list_free_path (folder, title);
  *id = make_id (*path);
  return TRUE;
}

gboolean
hw_workspace_create (HwWorkspace *self,
                     const char  *title,
                     GError     **error)
{
  g_autofree char *path = NULL;
  g_autofree char *id = NULL;
  g_autofree char *tidy = NULL;
  g_autoptr (HwProject) project = NULL;

  g_return_val_if_fail (HW_IS_WORKSPACE (self), FALSE);
  g_return_val_if_fail (title != NULL && !self->announcing, FALSE);

  tidy = g_strstrip (g_strdup (title));
  if (!find_place (self, tidy, &path, &id, error))
    return FALSE;
  project = hw_project_new (id, tidy);
  if (!hw_project_write (project, path, error))
    return FALSE;
  hw_project_place_look (&self->place, path);
  take_project (self, g_steal_pointer (&project), path);
  self->kept_at = g_get_real_time () / G_USEC_PER_SEC;    /* that it was empty is worth no version */
  return TRUE;
}

gboolean
hw_workspace_create_garment (HwWorkspace        *self,
                             const HwGarment    *garment,
                             const double       *values,
                             const char * const *fabrics,
                             const char         *title,
                             GError            **error)
{
  g_autofree char *path = NULL;
  g_autofree char *id = NULL;
  g_autofree char *tidy = NULL;
  g_autoptr (HwProject) project = NULL;

  g_return_val_if_fail (HW_IS_WORKSPACE (self) && garment != NULL, FALSE);
  g_return_val_if_fail (title != NULL && !self->announcing, FALSE);

  tidy = g_strstrip (g_strdup (title));
  if (!find_place (self, tidy, &path, &id, error))
    return FALSE;
  project = hw_garment_make (self->handbook, garment, values, fabrics, tidy, id, error);
  if (project == NULL || !hw_project_write (project, path, error))
    return FALSE;
  hw_project_place_look (&self->place, path);
  take_project (self, g_steal_pointer (&project), path);
  return TRUE;
}

/* ---- what a person does ---- */

void
hw_workspace_tell (HwWorkspace *self,
                   const char  *text,
                   gboolean     is_error)
{
  g_return_if_fail (HW_IS_WORKSPACE (self));

  g_clear_pointer (&self->undoable, g_ptr_array_unref);
  self->back_page = self->back_action = NULL;
  g_signal_emit (self, signals[MESSAGE], 0, text, is_error);
}

void
hw_workspace_tell_way_back (HwWorkspace *self,
                            const char  *text,
                            const char  *page,
                            const char  *action)
{
  g_return_if_fail (HW_IS_WORKSPACE (self) && page != NULL && action != NULL);

  g_clear_pointer (&self->undoable, g_ptr_array_unref);
  self->back_page = g_intern_string (page);
  self->back_action = g_intern_string (action);
  g_signal_emit (self, signals[MESSAGE], 0, text, FALSE);
}

const char *
hw_workspace_peek_way_back (HwWorkspace *self,
                            const char **action)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self) && action != NULL, NULL);

  *action = self->back_action;
  return self->back_page;
}

void
hw_workspace_tell_undoable (HwWorkspace *self,
                            const char  *text)
{
  g_return_if_fail (HW_IS_WORKSPACE (self));

  self->telling_undoable = TRUE;
  hw_workspace_tell (self, text, FALSE);
  self->telling_undoable = FALSE;
}

gboolean
hw_workspace_is_telling_undoable (HwWorkspace *self)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), FALSE);
  return self->telling_undoable;
}

static void
show_present (HwWorkspace *self,
              int          place)
{
  g_autofree char *before = g_strdup (self->selected);

  keep_selection (self, place);
  plan_anew (self);
  announce (self);
  if (g_strcmp0 (before, self->selected) != 0)
    g_signal_emit (self, signals[SELECTION], 0);
}

/* ---- the project's file written by another program ---- */

/* As an edit, so that it can be undone; what was here is kept besides. */
static void
take_over (HwWorkspace *self,
           HwProject   *written)
{
  gint64             now = g_get_real_time () / G_USEC_PER_SEC;
  int                place = selected_place (self);
  g_autoptr (GError) error = NULL;

  if (hw_versions_keep (self->room->folder, hw_history_peek (self->history), now, &error))
    self->kept_at = now;
  hw_history_push (self->history, written, _("take over what another program wrote"), NULL);
  hw_history_mark_saved (self->history);
  show_present (self, place);
  if (error != NULL)
    hw_workspace_tell (self, error->message, TRUE);
  else
    hw_workspace_tell_undoable (self, _("Another program changed this project; you see it as it is now."));
}

/* What is not saved here stays: saving finds the file changed then, and puts it into a copy that can be merged. */
static void
project_written_cb (gpointer data)
{
  HwWorkspace          *self = data;
  g_autoptr (GError)    error = NULL;
  g_auto (HwProjectPlace) place = { NULL, NULL };
  g_autoptr (HwProject) written = NULL;

  if (!hw_workspace_is_saved (self))
    return;
  hw_project_place_look (&place, self->path);
  if (g_strcmp0 (place.mark, self->place.mark) == 0)
    return;
  written = hw_project_read (self->path, &error);
  if (written == NULL)
    {
      hw_workspace_tell (self, error->message, TRUE);
      return;
    }
  g_free (self->place.mark);
  self->place.mark = g_steal_pointer (&place.mark);
  if (!hw_project_is_equal (written, hw_history_peek (self->history)))
    take_over (self, g_steal_pointer (&written));
}

/* ---- earlier versions ---- */

/* What the project is before it is changed: once since it was opened, then every hour. What could not be kept is not
 * tried again with each letter. Returns: (transfer full): why; NULL: nothing went wrong */
static char *
keep_version (HwWorkspace *self)
{
  gint64             now = g_get_real_time () / G_USEC_PER_SEC;
  g_autoptr (GError) error = NULL;

  if (self->kept_at != 0 && now >= self->kept_at && now - self->kept_at < HW_VERSIONS_SECONDS)
    return NULL;
  self->kept_at = now;
  if (hw_versions_keep (self->room->folder, hw_history_peek (self->history), now, &error))
    return NULL;
  /* Translators: the system's reason, with the file's name */
  return g_strdup_printf (_("Your change is made, but what the project was before could not be kept: %s"),
                          error->message);
}

static const HwVersion *
find_version (const GPtrArray *versions,
              const char      *path)
{
  for (guint i = 0; i < versions->len; i++)
    {
      const HwVersion *version = g_ptr_array_index (versions, i);

      if (g_str_equal (version->path, path))
        return version;
    }
  return NULL;
}

/* The present one is kept first, so that closing the window does not lose what could be undone. */
static HwProject *
read_version (HwWorkspace     *self,
              const HwVersion *version,
              GError         **error)
{
  gint64 now = g_get_real_time () / G_USEC_PER_SEC;
  g_autoptr (HwProject) earlier = hw_version_read (version, hw_history_peek (self->history), error);

  if (earlier == NULL || !hw_versions_keep (self->room->folder, hw_history_peek (self->history), now, error))
    return NULL;
  self->kept_at = now;
  return g_steal_pointer (&earlier);
}

gboolean
hw_workspace_go_back (HwWorkspace *self,
                      const char  *path)
{
  g_autoptr (GPtrArray) versions = NULL;
  g_autoptr (GError)    error = NULL;
  g_autofree char      *when = NULL;
  g_autofree char      *told = NULL;
  const HwVersion      *version;
  HwProject            *earlier;

  g_return_val_if_fail (HW_IS_WORKSPACE (self) && self->history != NULL && path != NULL, FALSE);

  versions = hw_versions_list (self->room->folder, hw_history_peek (self->history)->id);
  version = find_version (versions, path);
  if (version == NULL)
    {
      hw_workspace_tell (self, _("This version is not there any more; choose another."), TRUE);
      return FALSE;
    }
  earlier = read_version (self, version, &error);
  if (!hw_workspace_edit (self, earlier, _("go back to an earlier version"), NULL, error))
    return FALSE;
  when = hw_words_moment (version->time);
  /* Translators: date and time */
  told = g_strdup_printf (_("The project is as it was on %s."), when);
  if (hw_workspace_is_saved (self))
    hw_workspace_tell_undoable (self, told);
  return TRUE;
}

/* ---- edits ---- */

gboolean
hw_workspace_edit (HwWorkspace *self,
                   HwProject   *next,
                   const char  *label,
                   const char  *merge_key,
                   GError      *error)
{
  g_autofree char *not_kept = NULL;
  int place;

  g_return_val_if_fail (HW_IS_WORKSPACE (self) && self->history != NULL && !self->announcing, FALSE);
  g_return_val_if_fail ((next == NULL) == (error != NULL), FALSE);

  if (next == NULL)
    {
      hw_workspace_tell (self, error->message, TRUE);
      return FALSE;
    }
  if (hw_project_is_equal (next, hw_history_peek (self->history)))
    {
      hw_project_unref (next);
      return FALSE;
    }
  place = selected_place (self);
  not_kept = keep_version (self);
  hw_history_push (self->history, next, label, merge_key);
  save_or_tell (self);
  show_present (self, place);
  if (not_kept != NULL && hw_workspace_is_saved (self))
    hw_workspace_tell (self, not_kept, TRUE);
  return TRUE;
}

void
hw_workspace_undo (HwWorkspace *self)
{
  int place;

  g_return_if_fail (HW_IS_WORKSPACE (self) && !self->announcing);

  place = selected_place (self);
  if (self->history == NULL || !hw_history_undo (self->history))
    return;
  save_or_tell (self);
  show_present (self, place);
}

void
hw_workspace_redo (HwWorkspace *self)
{
  int place;

  g_return_if_fail (HW_IS_WORKSPACE (self) && !self->announcing);

  place = selected_place (self);
  if (self->history == NULL || !hw_history_redo (self->history))
    return;
  save_or_tell (self);
  show_present (self, place);
}

static void
show_room (HwWorkspace *self,
           HwRoom      *next)
{
  hw_room_unref (self->room);
  self->room = next;
  hw_words_take_style (next->preferences);
  hw_room_watch_know (self->watch, next);
  plan_anew (self);
  announce (self);
}

/* Another process wrote into the room. */
static void
room_found_cb (gpointer      data,
               HwRoom       *room,
               const GError *error)
{
  HwWorkspace *self = data;

  if (error != NULL)
    hw_workspace_tell (self, error->message, TRUE);
  else if (room != NULL)
    show_room (self, room);
  else
    announce (self);
}

static void
room_stirred_cb (gpointer data)
{
  g_signal_emit (data, signals[FILES], 0);
}

static GPtrArray *
copy_entries (const GPtrArray *entries)
{
  GPtrArray *copies = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);

  for (guint i = 0; i < entries->len; i++)
    g_ptr_array_add (copies, hw_journal_entry_copy (g_ptr_array_index (entries, i)));
  return copies;
}

/* Entries of one machine, at once. @done_text: as for hw_workspace_append() */
static gboolean
append_entries (HwWorkspace     *self,
                const GPtrArray *entries,
                const char      *done_text)
{
  g_autoptr (GError) error = NULL;
  const char        *later = hw_room_clock_behind (self->room, g_ptr_array_index (entries, 0));
  g_autofree char   *behind = later != NULL ? hw_words_clock_behind (later) : NULL;
  g_autofree char   *both = NULL;
  HwRoom            *next = hw_room_append_all (self->room, (const HwJournalEntry * const *) entries->pdata,
                                                entries->len, &error);

  if (next == NULL)
    {
      hw_workspace_tell (self, error->message, TRUE);
      return FALSE;
    }
  show_room (self, next);
  if (done_text == NULL && behind == NULL)
    return TRUE;
  g_clear_pointer (&self->undoable, g_ptr_array_unref);
  if (done_text != NULL)
    self->undoable = copy_entries (entries);
  self->back_page = self->back_action = NULL;
  both = g_strjoin (" ", done_text != NULL ? done_text : behind, done_text != NULL ? behind : NULL, NULL);
  g_signal_emit (self, signals[MESSAGE], 0, both, FALSE);
  return TRUE;
}

gboolean
hw_workspace_append (HwWorkspace          *self,
                     const HwJournalEntry *entry,
                     const char           *done_text)
{
  g_autoptr (GPtrArray) entries = g_ptr_array_new ();

  g_return_val_if_fail (HW_IS_WORKSPACE (self) && entry != NULL && !self->announcing, FALSE);

  g_ptr_array_add (entries, (gpointer) entry);
  return append_entries (self, entries, done_text);
}

gboolean
hw_workspace_offers_undo (HwWorkspace *self)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), FALSE);

  return self->undoable != NULL;
}

const char *
hw_workspace_peek_sewing_told (HwWorkspace *self)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), NULL);

  for (guint i = 0; self->undoable != NULL && i < self->undoable->len; i++)
    {
      const HwJournalEntry *entry = g_ptr_array_index (self->undoable, i);

      if (entry->kind == HW_ENTRY_SEWING)
        return entry->id;
    }
  return NULL;
}

gboolean
hw_workspace_undo_entry (HwWorkspace *self)
{
  g_autoptr (GPtrArray) undone = NULL;
  g_autoptr (GPtrArray) cancels = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);

  g_return_val_if_fail (HW_IS_WORKSPACE (self) && !self->announcing, FALSE);

  undone = g_steal_pointer (&self->undoable);
  if (undone == NULL)
    return FALSE;
  for (guint i = undone->len; i-- > 0;)
    {
      const HwJournalEntry *of = g_ptr_array_index (undone, i);

      g_ptr_array_add (cancels, hw_journal_entry_new_cancel (of->machine, of->id));
    }
  return append_entries (self, cancels, NULL);
}

/* What another process changed is shown, so that the person sees what to decide on. */
static void
reopen_room (HwWorkspace *self)
{
  g_autoptr (GError) error = NULL;
  HwRoom            *room = hw_room_open (self->room->folder, &error);

  if (room != NULL)
    show_room (self, room);
  else
    hw_workspace_tell (self, error->message, TRUE);
}

void
hw_workspace_read_again (HwWorkspace *self)
{
  HwProjectPlace     place = { NULL, NULL };
  g_autoptr (GError) error = NULL;
  g_autofree char   *path = g_strdup (self->path);
  HwProject         *project;

  g_return_if_fail (HW_IS_WORKSPACE (self) && !self->announcing);

  reopen_room (self);
  if (self->history == NULL)
    return;
  hw_project_place_look (&place, path);
  project = hw_project_read (path, &error);
  if (project == NULL)
    {
      hw_project_place_clear (&place);
      hw_workspace_tell (self, error->message, TRUE);
      return;
    }
  hw_project_place_clear (&self->place);
  self->place = place;
  take_project (self, project, path);
}

gboolean
hw_workspace_take_room (HwWorkspace *self,
                        HwRoom      *next,
                        GError      *error)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self) && !self->announcing, FALSE);
  g_return_val_if_fail ((next == NULL) == (error != NULL), FALSE);

  if (next != NULL)
    {
      show_room (self, next);
      return TRUE;
    }
  if (g_error_matches (error, HW_MODEL_ERROR, HW_MODEL_ERROR_CHANGED))
    reopen_room (self);
  hw_workspace_tell (self, error->message, TRUE);
  return FALSE;
}

static gboolean
mark_sewn (HwWorkspace *self,
           const char  *number)
{
  g_autofree char *project = g_strdup (self->plan->project->id);
  double           minutes = hw_stopwatch_minutes (self->stopwatch, project, number);
  double           timed = minutes >= HW_LEAST_TIMED_MINUTES ? minutes : 0;
  g_autoptr (GPtrArray) entries = hw_plan_entries_for_step (self->plan, number, timed);
  g_autofree char *told = hw_mark_told (self->plan, number, minutes, entries);

  if (!append_entries (self, entries, told))
    return FALSE;
  hw_stopwatch_forget (self->stopwatch, project, number);
  return TRUE;
}

gboolean
hw_workspace_mark_done (HwWorkspace *self,
                        const char  *number,
                        gboolean     done)
{
  g_autoptr (GPtrArray) entries = NULL;
  g_autofree char      *told = NULL;
  const HwJournalEntry *before;

  g_return_val_if_fail (HW_IS_WORKSPACE (self) && number != NULL && !self->announcing, FALSE);

  if (self->plan == NULL || hw_plan_find_step (self->plan, number) == NULL)
    return FALSE;
  before = hw_room_step_done (self->room, self->plan->project->id, number);
  if ((before != NULL) == done)
    return FALSE;
  if (done)
    return mark_sewn (self, number);
  told = hw_mark_told_open (number, before);
  entries = hw_plan_entries_to_unmark (self->plan, number);
  if (!append_entries (self, entries, NULL))
    return FALSE;
  hw_workspace_tell (self, told, FALSE);
  return TRUE;
}

gboolean
hw_workspace_load_next (HwWorkspace *self)
{
  g_autoptr (HwJournalEntry) entry = NULL;
  g_autofree char *needle = NULL;
  g_autofree char *told = NULL;
  HwNow now;

  g_return_val_if_fail (HW_IS_WORKSPACE (self) && !self->announcing, FALSE);

  if (self->plan == NULL)
    return FALSE;
  now = hw_plan_now (self->plan, NULL);
  if (now.next == NULL || now.next_group == NULL)
    return FALSE;
  entry = hw_plan_entry_for_load (self->plan, now.next_group, now.next);
  needle = hw_words_needle (self->handbook, now.next->point, now.next->size_nm, now.next->twin_mm);
  /* Translators: a needle, a machine */
  told = g_strdup_printf (_("Noted: %s is in, %s"), needle, now.next_group->machine->name);
  return hw_workspace_append (self, entry, told);
}

void
hw_workspace_select (HwWorkspace *self,
                     const char  *number)
{
  g_return_if_fail (HW_IS_WORKSPACE (self));

  if (set_selected (self, number))
    g_signal_emit (self, signals[SELECTION], 0);
}

/* ---- to read ---- */

const HwHandbook *
hw_workspace_get_handbook (HwWorkspace *self)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), NULL);

  return self->handbook;
}

const GError *
hw_workspace_peek_overlay_error (HwWorkspace *self)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), NULL);

  return self->overlay_error;
}

const HwRoom *
hw_workspace_get_room (HwWorkspace *self)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), NULL);

  return self->room;
}

const HwProject *
hw_workspace_peek_project (HwWorkspace *self)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), NULL);

  return self->history != NULL ? hw_history_peek (self->history) : NULL;
}

const HwPlan *
hw_workspace_peek_plan (HwWorkspace *self)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), NULL);

  return self->plan;
}

const GError *
hw_workspace_peek_plan_error (HwWorkspace *self)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), NULL);

  return self->plan_error;
}

const char *
hw_workspace_peek_path (HwWorkspace *self)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), NULL);

  return self->path;
}

HwStopwatch *
hw_workspace_get_stopwatch (HwWorkspace *self)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), NULL);

  return self->stopwatch;
}

HwHistory *
hw_workspace_get_history (HwWorkspace *self)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), NULL);

  return self->history;
}

const char *
hw_workspace_peek_selected (HwWorkspace *self)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), NULL);

  return self->selected;
}

GPtrArray *
hw_workspace_summarise_projects (HwWorkspace *self)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), NULL);

  return hw_project_list_read (self->projects, self->room, hw_workspace_peek_project (self), self->path);
}

GPtrArray *
hw_workspace_summarise_in_sight (HwWorkspace *self,
                                 guint       *n_all)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self) && n_all != NULL, NULL);

  return hw_project_list_read_in_sight (self->projects, self->room, hw_workspace_peek_project (self), self->path,
                                        n_all);
}

void
hw_workspace_take_projects (HwWorkspace   *self,
                            HwProjectList *list)
{
  g_return_if_fail (HW_IS_WORKSPACE (self) && list != NULL);

  hw_project_list_take (self->projects, list);
  g_signal_emit (self, signals[PROJECTS], 0);
}

gboolean
hw_workspace_knows_project (HwWorkspace *self,
                            const char  *path)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self) && path != NULL, FALSE);

  return hw_project_list_knows (self->projects, path);
}

GPtrArray *
hw_workspace_read_projects (HwWorkspace *self)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), NULL);

  return hw_project_list_projects (self->projects, self->room, hw_workspace_peek_project (self), self->path);
}

GPtrArray *
hw_workspace_known_projects (HwWorkspace *self)
{
  g_autoptr (GPtrArray) paths = NULL;

  g_return_val_if_fail (HW_IS_WORKSPACE (self), NULL);

  paths = hw_project_list_paths (self->room);
  for (guint i = 0; i < paths->len; i++)
    if (g_strcmp0 (paths->pdata[i], self->path) != 0 && !hw_project_list_knows (self->projects, paths->pdata[i]))
      return NULL;
  return hw_workspace_read_projects (self);
}

GPtrArray *
hw_workspace_list_projects (HwWorkspace *self)
{
  g_autoptr (GPtrArray) summaries = hw_workspace_summarise_projects (self);
  GPtrArray *paths = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < summaries->len; i++)
    g_ptr_array_add (paths, g_strdup (((HwProjectSummary *) summaries->pdata[i])->path));
  return paths;
}

static HwProjectNames *
get_names (HwWorkspace *self)
{
  if (self->names == NULL)
    {
      g_autoptr (GPtrArray) projects = hw_workspace_read_projects (self);

      self->names = hw_project_names_new (self->room->folder, projects);
    }
  return self->names;
}

const char *
hw_workspace_name_project (HwWorkspace *self,
                           const char  *id)
{
  g_return_val_if_fail (HW_IS_WORKSPACE (self), NULL);

  return id != NULL ? hw_project_names_say (get_names (self), id) : NULL;
}

const HwStep *
hw_workspace_find_step (HwWorkspace *self,
                        const char  *project,
                        const char  *number)
{
  const HwProject *found;
  int              step;

  g_return_val_if_fail (HW_IS_WORKSPACE (self), NULL);

  found = project != NULL && number != NULL ? hw_project_names_find (get_names (self), project) : NULL;
  step = found != NULL ? hw_project_find_step (found, number) : -1;
  return step >= 0 ? hw_project_get_step (found, (gsize) step) : NULL;
}

/* ---- the object ---- */

static void
hw_workspace_finalize (GObject *object)
{
  HwWorkspace *self = HW_WORKSPACE (object);

  cancel_proof (self);
  g_clear_pointer (&self->watch, hw_room_watch_free);
  g_clear_pointer (&self->file_watch, hw_file_watch_free);
  g_clear_pointer (&self->loaded, hw_loaded_free);
  g_clear_pointer (&self->memory, hw_order_memory_unref);
  g_clear_pointer (&self->plan, hw_plan_unref);
  g_clear_error (&self->plan_error);
  g_clear_error (&self->overlay_error);
  g_clear_pointer (&self->history, hw_history_free);
  g_clear_pointer (&self->projects, hw_project_list_free);
  g_clear_object (&self->stopwatch);
  g_clear_pointer (&self->names, hw_project_names_free);
  g_clear_pointer (&self->undoable, g_ptr_array_unref);
  g_clear_pointer (&self->room, hw_room_unref);
  g_clear_pointer (&self->handbook, hw_handbook_unref);
  hw_project_place_clear (&self->place);
  g_free (self->path);
  g_free (self->selected);
  G_OBJECT_CLASS (hw_workspace_parent_class)->finalize (object);
}

static void
hw_workspace_class_init (HwWorkspaceClass *class)
{
  G_OBJECT_CLASS (class)->finalize = hw_workspace_finalize;
  signals[CHANGED] = g_signal_new ("changed", HW_TYPE_WORKSPACE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
  signals[MESSAGE] = g_signal_new ("message", HW_TYPE_WORKSPACE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 2, G_TYPE_STRING, G_TYPE_BOOLEAN);
  signals[SELECTION] = g_signal_new ("selection", HW_TYPE_WORKSPACE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                     G_TYPE_NONE, 0);
  signals[FILES] = g_signal_new ("files", HW_TYPE_WORKSPACE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
  signals[PROJECTS] = g_signal_new ("projects", HW_TYPE_WORKSPACE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                    G_TYPE_NONE, 0);
}

static void
hw_workspace_init (HwWorkspace *self)
{
}

static void
start_stopwatch (HwWorkspace *self)
{
  g_autofree char *path = hw_timer_path (self->room->folder);

  self->stopwatch = hw_stopwatch_new (path);
  g_signal_connect_object (self->stopwatch, "message", G_CALLBACK (hw_workspace_tell), self, G_CONNECT_SWAPPED);
}

HwWorkspace *
hw_workspace_new_loaded (HwLoaded *loaded)
{
  HwWorkspace *self;

  g_return_val_if_fail (loaded != NULL && loaded->handbook != NULL && loaded->room != NULL, NULL);

  self = g_object_new (HW_TYPE_WORKSPACE, NULL);
  self->loaded = loaded;
  self->handbook = hw_handbook_ref (loaded->handbook);
  self->overlay_error = g_steal_pointer (&loaded->overlay_error);
  self->room = hw_room_ref (loaded->room);
  self->memory = hw_order_memory_ref (loaded->memory);
  self->projects = g_steal_pointer (&loaded->projects);
  hw_words_take_style (self->room->preferences);
  self->watch = hw_room_watch_new (self->room, loaded->room_note, room_found_cb, room_stirred_cb, self);
  start_stopwatch (self);
  return self;
}

HwWorkspace *
hw_workspace_new (const char *data_folder,
                  const char *room_folder,
                  GError    **error)
{
  HwLoaded *loaded;

  g_return_val_if_fail (data_folder != NULL && room_folder != NULL, NULL);

  loaded = hw_loaded_new (data_folder, room_folder, error);
  return loaded != NULL ? hw_workspace_new_loaded (loaded) : NULL;
}
