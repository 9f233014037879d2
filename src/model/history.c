/* history.c - the undo history of a project
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A list of snapshots and a position in it: every edit can be undone, because undoing is going back one place.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/edit.h"

#define UNREACHABLE G_MAXUINT

typedef struct
{
  HwProject *project;
  char      *label;                      /* of the edit that led here; NULL for the first */
  char      *merge_key;
} Snapshot;

struct _HwHistory
{
  GArray  *snapshots;                    /* Snapshot, never empty */
  guint    position;
  guint    saved;                        /* index of what is on the disk, or UNREACHABLE */
  gboolean merging;                      /* the next edit may become one with the last */
};

static void
clear_snapshot (gpointer data)
{
  Snapshot *snapshot = data;

  hw_project_unref (snapshot->project);
  g_free (snapshot->label);
  g_free (snapshot->merge_key);
}

static Snapshot *
peek_snapshot (const HwHistory *self,
               guint            index)
{
  return &g_array_index (self->snapshots, Snapshot, index);
}

static void
append_snapshot (HwHistory  *self,
                 HwProject  *project,
                 const char *label,
                 const char *merge_key)
{
  Snapshot snapshot = { project, g_strdup (label), g_strdup (merge_key) };

  g_array_append_val (self->snapshots, snapshot);
}

/**
 * hw_history_new:
 * @first: (transfer full): the project as it was opened or made
 * @saved: whether that is what the disk holds
 */
HwHistory *
hw_history_new (HwProject *first,
                gboolean   saved)
{
  HwHistory *self;

  g_return_val_if_fail (first != NULL, NULL);

  self = g_new0 (HwHistory, 1);
  self->snapshots = g_array_new (FALSE, FALSE, sizeof (Snapshot));
  g_array_set_clear_func (self->snapshots, clear_snapshot);
  append_snapshot (self, first, NULL, NULL);
  self->saved = saved ? 0 : UNREACHABLE;
  return self;
}

void
hw_history_free (HwHistory *self)
{
  if (self == NULL)
    return;
  g_array_unref (self->snapshots);
  g_free (self);
}

const HwProject *
hw_history_peek (const HwHistory *self)
{
  g_return_val_if_fail (self != NULL, NULL);
  return peek_snapshot (self, self->position)->project;
}

static void
drop_redo (HwHistory *self)
{
  g_array_set_size (self->snapshots, self->position + 1);
  if (self->saved != UNREACHABLE && self->saved > self->position)
    self->saved = UNREACHABLE;
}

/**
 * hw_history_push:
 * @next: (transfer full): the snapshot that an edit of hw_history_peek() made
 */
void
hw_history_push (HwHistory  *self,
                 HwProject  *next,
                 const char *label,
                 const char *merge_key)
{
  Snapshot *present;

  g_return_if_fail (self != NULL && next != NULL && label != NULL);

  present = peek_snapshot (self, self->position);
  if (hw_project_is_equal (present->project, next))
    {
      hw_project_unref (next);
      return;
    }
  drop_redo (self);
  present = peek_snapshot (self, self->position);
  if (self->merging && merge_key != NULL && g_strcmp0 (merge_key, present->merge_key) == 0)
    {
      hw_project_unref (present->project);
      present->project = next;
      if (self->saved == self->position)
        self->saved = UNREACHABLE;
      return;
    }
  append_snapshot (self, next, label, merge_key);
  self->position++;
  self->merging = TRUE;
}

void
hw_history_break_merge (HwHistory *self)
{
  g_return_if_fail (self != NULL);
  self->merging = FALSE;
}

gboolean
hw_history_undo (HwHistory *self)
{
  g_return_val_if_fail (self != NULL, FALSE);

  if (self->position == 0)
    return FALSE;
  self->position--;
  self->merging = FALSE;
  return TRUE;
}

gboolean
hw_history_redo (HwHistory *self)
{
  g_return_val_if_fail (self != NULL, FALSE);

  if (self->position + 1 == self->snapshots->len)
    return FALSE;
  self->position++;
  self->merging = FALSE;
  return TRUE;
}

const char *
hw_history_undo_label (const HwHistory *self)
{
  g_return_val_if_fail (self != NULL, NULL);
  return peek_snapshot (self, self->position)->label;
}

const char *
hw_history_redo_label (const HwHistory *self)
{
  g_return_val_if_fail (self != NULL, NULL);
  return self->position + 1 < self->snapshots->len ? peek_snapshot (self, self->position + 1)->label : NULL;
}

void
hw_history_mark_saved (HwHistory *self)
{
  g_return_if_fail (self != NULL);
  self->saved = self->position;
}

gboolean
hw_history_is_saved (const HwHistory *self)
{
  g_return_val_if_fail (self != NULL, FALSE);
  return self->saved == self->position;
}
