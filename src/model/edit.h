/* edit.h - edits of a project as pure functions, and the undo history
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each edit takes a snapshot and returns a new one, or NULL with an HW_MODEL_ERROR
 * that says what to change; the old snapshot is untouched either way.
 */

#pragma once
#include "model/project.h"

G_BEGIN_DECLS

HwProject *hw_edit_set_title      (const HwProject *self, const char *title, GError **error);
/* The same project under another id: the journal knows nothing of it yet. */
HwProject *hw_edit_set_id         (const HwProject *self, const char *id, GError **error);
HwProject *hw_edit_set_due        (const HwProject *self, const char *iso_date_or_null, GError **error);
/* Fabrics and threads: put adds, or replaces the one with its id; remove is refused while a step uses it, naming the
 * step. */
HwProject *hw_edit_put_fabric     (const HwProject *self, const HwProjectFabric *fabric, GError **error);
HwProject *hw_edit_remove_fabric  (const HwProject *self, const char *id, GError **error);
HwProject *hw_edit_put_thread     (const HwProject *self, const HwProjectThread *thread, GError **error);
HwProject *hw_edit_remove_thread  (const HwProject *self, const char *id, GError **error);
/* Steps: put replaces by number, else appends; rename mends every "after"; when one is removed, the steps after it
 * take over what it came after. */
HwProject *hw_edit_put_step       (const HwProject *self, const HwStep *step, GError **error);
HwProject *hw_edit_insert_step    (const HwProject *self, gsize index, const HwStep *step, GError **error);
HwProject *hw_edit_rename_step    (const HwProject *self, const char *number, const char *new_number,
                                   GError **error);
HwProject *hw_edit_remove_step    (const HwProject *self, const char *number, GError **error);
HwProject *hw_edit_move_step      (const HwProject *self, const char *number, gsize new_index, GError **error);
/* Several steps at once, @numbers NULL-terminated: all of it or nothing. Moved steps keep their order among themselves
 * and stand before what was at place @before (at most the number of steps). */
HwProject *hw_edit_remove_steps   (const HwProject *self, const char * const *numbers, GError **error);
HwProject *hw_edit_move_steps     (const HwProject *self, const char * const *numbers, gsize before, GError **error);

/* What is to be the same in several operations. NULL or 0: as each has it; "": none, the purpose's own. */
typedef struct
{
  const char *fabric;            /* of every layer, or of those in @instead_of */
  const char *instead_of;
  const char *seam, *stitch;
  const char *machine;           /* "": the first of the stitch's kind */
  const char *needle_thread;     /* "": the first that fits */
  double      length_cm;         /* of each operation */
  double      stitch_length_mm;
} HwStepChange;
/* Hand steps among @numbers are passed over; refused when no operation is left. */
HwProject *hw_edit_change_steps   (const HwProject *self, const char * const *numbers, const HwStepChange *change,
                                   GError **error);

HwProject *hw_edit_set_override   (const HwProject *self, const char *number, HwField field, double value,
                                   const char *choice, GError **error);
HwProject *hw_edit_clear_override (const HwProject *self, const char *number, HwField field, GError **error);
/* Wishes: the newer takes the place of its opposite; "3 4" and "4 5" together become "3 4 5". Refused when the making
 * up or another wish forbids it, with the chain. An edit of a step that would forbid a wish is refused likewise; when a
 * step is removed, so are the wishes that need it. */
HwProject *hw_edit_add_wish       (const HwProject *self, const HwWish *wish, GError **error);
HwProject *hw_edit_remove_wish    (const HwProject *self, gsize index, GError **error);
/* May operations share set-ups inside their bands? */
HwProject *hw_edit_set_share      (const HwProject *self, gboolean share);
HwProject *hw_edit_set_gather_hand (const HwProject *self, gboolean gather);
char      *hw_project_free_number (const HwProject *self);   /* the next unused number, (transfer full) */

/* The history: snapshots and a position. Knows no widget. It takes over the reference to @first and to each @next.
 * A @next that equals the present snapshot is not a step of history. Undo and redo end a merge; saving does not, so
 * that a window that saves after each keystroke can still undo a whole word. */
typedef struct _HwHistory HwHistory;
HwHistory       *hw_history_new         (HwProject *first, gboolean saved);
void             hw_history_free        (HwHistory *self);
const HwProject *hw_history_peek        (const HwHistory *self);
/* @label: translated, for "Undo: …"; @merge_key: edits with the same non-NULL key that follow each other become one. */
void             hw_history_push        (HwHistory *self, HwProject *next, const char *label, const char *merge_key);
void             hw_history_break_merge (HwHistory *self);
gboolean         hw_history_undo        (HwHistory *self);
gboolean         hw_history_redo        (HwHistory *self);
const char      *hw_history_undo_label  (const HwHistory *self);   /* NULL: nothing to undo */
const char      *hw_history_redo_label  (const HwHistory *self);
void             hw_history_mark_saved  (HwHistory *self);
gboolean         hw_history_is_saved    (const HwHistory *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwHistory, hw_history_free)

G_END_DECLS
