/* share.c - a project to hand to somebody, one from somebody, and a set-up as text
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/share.h"

#include <glib/gi18n.h>

#include "files/save.h"
#include "model/share.h"
#include "window/choosers.h"
#include "words/words.h"

static void
export_chosen_cb (const char *path,
                  gpointer    data)
{
  HwWorkspace     *workspace = data;
  const HwProject *project = hw_workspace_peek_project (workspace);
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  g_autofree char *done = NULL;
  gsize            size = 0;

  if (project == NULL)
    return;
  text = hw_share_to_xml (project, hw_workspace_get_room (workspace), &size, &error);
  if (text == NULL || !hw_save_bytes (path, text, (gssize) size, &error))
    {
      hw_workspace_tell (workspace, error->message, TRUE);
      return;
    }
  /* Translators: a file */
  done = g_strdup_printf (_("“%s” holds the project with its test seams and fabrics."), path);
  hw_workspace_tell (workspace, done, FALSE);
}

void
hw_share_ask_export (GtkWindow   *window,
                     HwWorkspace *workspace)
{
  const HwProject *project = hw_workspace_peek_project (workspace);
  g_autofree char *name = NULL;

  if (project == NULL)
    return;
  name = g_strconcat (project->id, HW_SHARE_ENDING, NULL);
  hw_choose_file_to_save (window, _("Share the project"), name, export_chosen_cb, g_object_ref (workspace),
                          g_object_unref);
}

gboolean
hw_share_is_file (const char *path)
{
  return g_str_has_suffix (path, HW_SHARE_ENDING);
}

static void
tell_taken (HwWorkspace        *workspace,
            const HwShareTaken *taken)
{
  g_autofree char *came = hw_words_share_taken (taken->n_fabrics, taken->n_seams, taken->n_seams_left);
  /* Translators: what came with a project: how many fabrics and test seams, in sentences */
  g_autofree char *text = *came != '\0' ? g_strdup_printf (_("The project is taken in. %s"), came)
                                        : g_strdup (_("The project is taken in."));

  hw_workspace_tell (workspace, text, FALSE);
}

gboolean
hw_share_import (HwWorkspace *workspace,
                 const char  *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwShare) share = hw_share_read (path, &error);
  HwShareTaken taken = { 0 };
  HwRoom *next = share != NULL ? hw_share_take_in (share, hw_workspace_get_room (workspace), NULL, &taken, &error)
                               : NULL;
  gboolean done = hw_workspace_take_room (workspace, next, error);

  if (done && !hw_workspace_open (workspace, taken.path, &error))
    {
      hw_workspace_tell (workspace, error->message, TRUE);
      done = FALSE;
    }
  if (done)
    tell_taken (workspace, &taken);
  hw_share_taken_clear (&taken);
  return done;
}

void
hw_share_copy_setup (GtkWidget   *widget,
                     HwWorkspace *workspace)
{
  const HwPlan     *plan = hw_workspace_peek_plan (workspace);
  const char       *number = hw_workspace_peek_selected (workspace);
  const HwPlanStep *step = plan != NULL && number != NULL ? hw_plan_find_step (plan, number) : NULL;
  g_autofree char  *text = step != NULL ? hw_words_setup_text (plan, step) : NULL;

  if (text == NULL)
    {
      hw_workspace_tell (workspace, _("Choose an operation first: a hand step has no set-up."), FALSE);
      return;
    }
  gdk_clipboard_set_text (gtk_widget_get_clipboard (widget), text);
  hw_workspace_tell (workspace, _("The set-up is on the clipboard as text."), FALSE);
}
