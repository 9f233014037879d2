/* opening.c - a large project, read and planned on a thread while the window stays awake
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the thread has read and planned is handed to the workspace, which opens it like any other project, only without
 * that work. What was cancelled is read to its end and thrown away.
 */

#include "config.h"

#include "window/opening.h"

#include <glib/gi18n.h>

#include "window/work-bar.h"

/* How the work parts, in thousandths: reading, pairing, and all that follows. */
#define WHOLE 1000
#define READ 300
#define PAIRED 400

struct _HwOpening
{
  gatomicrefcount ref_count;             /* the bar's, and the thread's */
  HwLoaded       *loaded;                /* the thread's until it is done */
  HwLoadedSteps   steps;
  int             done;                  /* set atomically */
  GtkWidget      *window;                /* the rest is for the main thread */
  HwWorkspace    *workspace;
  char           *title;
  char           *left;                  /* what was open; NULL */
  HwOpeningEnd    end;
};

static void
unref_opening (gpointer data)
{
  HwOpening *self = data;

  if (!g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_clear_pointer (&self->loaded, hw_loaded_free);
  g_free (self->title);
  g_free (self->left);
  g_free (self);
}

static void
read_in_thread (GTask        *task,
                gpointer      source,
                gpointer      data,
                GCancellable *cancellable)
{
  HwOpening *self = data;

  hw_loaded_read_project (self->loaded, &self->steps);
  g_atomic_int_set (&self->done, 1);
  g_task_return_boolean (task, TRUE);
}

static void
begin_reading (HwOpening  *self,
               const char *path)
{
  g_autoptr (GTask) task = g_task_new (NULL, NULL, NULL, NULL);

  self->loaded = hw_workspace_begin_loaded (self->workspace, path);
  self->steps = (HwLoadedSteps) { 0, 0 };
  self->done = 0;
  g_atomic_ref_count_inc (&self->ref_count);
  g_task_set_source_tag (task, begin_reading);
  g_task_set_task_data (task, self, unref_opening);
  g_task_run_in_thread (task, read_in_thread);
}

/* The person has begun or opened another project meanwhile. */
static gboolean
is_past (const HwOpening *self)
{
  return g_strcmp0 (self->left, hw_workspace_peek_path (self->workspace)) != 0;
}

static guint
count_done (gpointer data)
{
  HwOpening *self = data;
  int        n_steps = g_atomic_int_get (&self->steps.n_steps);
  int        n_paired = g_atomic_int_get (&self->steps.n_paired);

  if (is_past (self))
    return WHOLE;
  if (g_atomic_int_get (&self->done) == 0)
    return n_steps == 0 ? 0 : READ + (guint) ((gint64) (PAIRED - READ) * n_paired / n_steps);
  if (self->loaded->room != hw_workspace_get_room (self->workspace))
    {
      /* What was noted meanwhile makes another plan of it. */
      g_autoptr (HwLoaded) stale = g_steal_pointer (&self->loaded);

      begin_reading (self, stale->path);
      return 0;
    }
  return WHOLE;
}

static void
end_opening (gpointer      data,
             gboolean      cancelled,
             const GError *unused)
{
  HwOpening         *self = data;
  g_autoptr (GError) error = NULL;
  gboolean           opened = FALSE;

  if (!cancelled && !is_past (self))
    {
      g_autofree char *path = g_strdup (self->loaded->path);

      hw_workspace_take_loaded (self->workspace, g_steal_pointer (&self->loaded));
      opened = hw_workspace_open (self->workspace, path, &error);
      if (!opened)
        hw_workspace_tell (self->workspace, error->message, TRUE);
    }
  self->end (self->window, opened);
  g_object_unref (self->workspace);
  unref_opening (self);
}

HwOpening *
hw_opening_begin (GtkWidget   *window,
                  HwWorkspace *workspace,
                  const char  *path,
                  HwOpeningEnd end)
{
  HwOpening       *self;
  g_autofree char *name = NULL;

  g_return_val_if_fail (GTK_IS_WIDGET (window) && HW_IS_WORKSPACE (workspace) && path != NULL, NULL);

  name = g_path_get_basename (path);
  self = g_new0 (HwOpening, 1);
  g_atomic_ref_count_init (&self->ref_count);
  self->window = window;
  self->workspace = g_object_ref (workspace);
  self->left = g_strdup (hw_workspace_peek_path (workspace));
  self->end = end;
  /* Translators: a file's name */
  self->title = g_strdup_printf (_("Opening “%s”"), name);
  if (hw_work_bar_begin (hw_work_bar_of (window), &(HwWork) { .title = self->title, .n_pieces = WHOLE,
                                                              .count = count_done, .end = end_opening }, self))
    {
      begin_reading (self, path);
      return self;
    }
  hw_workspace_tell (workspace, _("Something else is at work; wait for it, or cancel it."), TRUE);
  g_object_unref (self->workspace);
  unref_opening (self);
  return NULL;
}

void
hw_opening_cancel (HwOpening *self)
{
  gtk_widget_activate_action (GTK_WIDGET (hw_work_bar_of (self->window)), "work.cancel", NULL);
}
