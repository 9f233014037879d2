/* workspace.h - what the window works on: handbook, room, the open project and its plan
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The one place where the window writes: edits go through hw_workspace_edit(), what was done through
 * hw_workspace_mark_done() and hw_workspace_load(). Every change recomputes the plan and emits "changed" once; so does
 * what another process writes into the room's folder.
 */

#pragma once
#include <gio/gio.h>
#include "model/edit.h"
#include "plan/plan.h"
#include "window/loading.h"
#include "window/stopwatch.h"

G_BEGIN_DECLS

#define HW_TYPE_WORKSPACE (hw_workspace_get_type ())
G_DECLARE_FINAL_TYPE (HwWorkspace, hw_workspace, HW, WORKSPACE, GObject)

/* Signals: "changed" (the open project, its plan or the room is another one; read them anew),
 *          "message" (const char *text, gboolean is_error): something to tell the person,
 *          "files" (files of the room, or of projects that are not open, came, went or changed, whoever wrote them). */
HwWorkspace *hw_workspace_new         (const char *data_folder, const char *room_folder, GError **error);
/* (transfer full): @loaded; the first project opened is taken from it when it is that one. */
HwWorkspace *hw_workspace_new_loaded  (HwLoaded *loaded);

const HwHandbook *hw_workspace_get_handbook (HwWorkspace *self);
/* Why the person's own handbook is left out, with path and line; NULL: it is in use, or there is none. */
const GError     *hw_workspace_peek_overlay_error (HwWorkspace *self);
const HwRoom     *hw_workspace_get_room     (HwWorkspace *self);
const HwProject  *hw_workspace_peek_project (HwWorkspace *self);      /* NULL: none open */
/* NULL: none, or the project cannot be planned (see the error) */
const HwPlan     *hw_workspace_peek_plan    (HwWorkspace *self);
const GError     *hw_workspace_peek_plan_error (HwWorkspace *self);
const char       *hw_workspace_peek_path    (HwWorkspace *self);
HwHistory        *hw_workspace_get_history  (HwWorkspace *self);      /* NULL when no project is open; to read labels */

/* The room's project files: (element-type utf8) paths, sorted by title. */
GPtrArray  *hw_workspace_list_projects (HwWorkspace *self);
/* The same with how far each has got: (element-type HwProjectSummary), see window/project-list.h. The open project
 * stands among them even when its file lies elsewhere. */
GPtrArray  *hw_workspace_summarise_projects (HwWorkspace *self);
/* The same of those that stay in sight: see hw_project_list_in_sight(). @n_all: (out): how many there are. */
GPtrArray  *hw_workspace_summarise_in_sight (HwWorkspace *self, guint *n_all);
/* Whether the file has been read as it stands. */
gboolean    hw_workspace_knows_project (HwWorkspace *self, const char *path);
/* What was read on another thread: says “projects”. (transfer full): @list */
void        hw_workspace_take_projects (HwWorkspace *self, HwProjectList *list);
/* Those that can be read: (element-type HwProject). (transfer full) */
GPtrArray  *hw_workspace_read_projects (HwWorkspace *self);
/* The same, or NULL where a file of the room has yet to be read, or read again: for who must not wait for it. */
GPtrArray         *hw_workspace_known_projects (HwWorkspace *self);
/* The title of the project of that id, also of one whose file is gone; what the id says where that is not known. NULL
 * for NULL. Borrowed until the next change. */
const char *hw_workspace_name_project  (HwWorkspace *self, const char *id);
/* That step as its project has it now, borrowed until the next change; NULL: there is no such project, or step. */
const HwStep *hw_workspace_find_step   (HwWorkspace *self, const char *project, const char *number);
/* (transfer full): for a thread that reads and plans the project at @path beforehand, in the room as it is now; and
 * handing it over: the next project opened is taken from it, when it is that one. */
HwLoaded   *hw_workspace_begin_loaded  (HwWorkspace *self, const char *path);
void        hw_workspace_take_loaded   (HwWorkspace *self, HwLoaded *loaded);
/* on error the open project stays */
gboolean    hw_workspace_open          (HwWorkspace *self, const char *path, GError **error);
/* a new file in the room's projects/ */
gboolean    hw_workspace_create        (HwWorkspace *self, const char *title, GError **error);
/* the same with the steps of a garment: see hw_garment_make() */
gboolean    hw_workspace_create_garment (HwWorkspace *self, const HwGarment *garment, const double *values,
                                         const char * const *fabrics, const char *title, GError **error);

/* Takes @next (may be NULL with @error set by the edit: told by "message", nothing changes). TRUE when it changed.
 * Saves
 * the file; a file that could not be written is told by "message", and the edit stays, unsaved. @error is borrowed. */
gboolean    hw_workspace_edit          (HwWorkspace *self, HwProject *next, const char *label, const char *merge_key,
                                        GError *error);
/* The open project as the earlier version at @path (model/versions.h) has it, as an edit; told, or why not. */
gboolean    hw_workspace_go_back       (HwWorkspace *self, const char *path);
void        hw_workspace_undo          (HwWorkspace *self);
void        hw_workspace_redo          (HwWorkspace *self);

/* The room and the open project as their files are now; what was not saved is gone, so keep it first. */
void        hw_workspace_read_again    (HwWorkspace *self);

gboolean    hw_workspace_is_saved      (HwWorkspace *self);             /* TRUE also when no project is open */
gboolean    hw_workspace_save          (HwWorkspace *self, GError **error);   /* tries again */
void        hw_workspace_tell          (HwWorkspace *self, const char *text, gboolean is_error);   /* emits "message" */
/* The same for what the last edit came to: whoever shows it offers to undo it. */
void        hw_workspace_tell_undoable (HwWorkspace *self, const char *text);
gboolean    hw_workspace_is_telling_undoable (HwWorkspace *self);       /* while "message" is emitted for that */
/* The same for what no edit made: @action of the page @page undoes it. */
void        hw_workspace_tell_way_back (HwWorkspace *self, const char *text, const char *page, const char *action);
/* The page and the action of the message last told; NULL: it has none. */
const char *hw_workspace_peek_way_back (HwWorkspace *self, const char **action);

/* The clocks of steps; its messages come as the workspace's. */
HwStopwatch *hw_workspace_get_stopwatch (HwWorkspace *self);

/* What hw_plan_entries_for_step() notes, or its cancellation. What the step's clock has run counts as its minutes. Told
 * (mark-told.h), and what was noted can be taken back. */
gboolean    hw_workspace_mark_done     (HwWorkspace *self, const char *number, gboolean done);
gboolean    hw_workspace_load_next     (HwWorkspace *self);            /* "I loaded it"; told */

/* Any other entry. @done_text: told by "message", which then offers to take the entry back; NULL: told nothing. Errors
 * are told by "message". TRUE when it was appended. */
gboolean    hw_workspace_append        (HwWorkspace *self, const HwJournalEntry *entry, const char *done_text);
/* Whether the message last told can be taken back, and taking it back: the entry is cancelled. */
gboolean    hw_workspace_offers_undo   (HwWorkspace *self);
gboolean    hw_workspace_undo_entry    (HwWorkspace *self);
/* The id of the sewing entry that it tells of; NULL: it tells of none. */
const char *hw_workspace_peek_sewing_told (HwWorkspace *self);
/* Takes @next (transfer full), what one of hw_room_with_…() and hw_journal_correct() returned; NULL with @error (which
 * is borrowed): told by "message". Where another process changed the same thing, its room is shown. TRUE when taken. */
gboolean    hw_workspace_take_room     (HwWorkspace *self, HwRoom *next, GError *error);

/* The selected step, kept across pages and edits by number; NULL none. Signal "selection". */
const char *hw_workspace_peek_selected (HwWorkspace *self);
void        hw_workspace_select        (HwWorkspace *self, const char *number);

G_END_DECLS
