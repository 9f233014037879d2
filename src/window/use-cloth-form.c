/* use-cloth-form.c - the form that takes a fabric on hand into the open project
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Its values are copied, so that the project's file can be mailed alone. A fabric whose place it takes keeps its id:
 * every layer that named it is of the new cloth.
 */

#include "config.h"

#include "window/room-forms.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/forms.h"

typedef struct
{
  HwWorkspace *workspace;
  char        *cloth;
  GtkWidget   *place;                   /* id of the fabric that it replaces; NULL: one more */
} UseForm;

static void
free_form (gpointer data)
{
  UseForm *self = data;

  g_object_unref (self->workspace);
  g_free (self->cloth);
  g_free (self);
}

static gboolean
is_fabric (gconstpointer project,
           const char   *id)
{
  return hw_project_find_fabric (project, id) != NULL;
}

static HwProjectFabric *
make_fabric (const HwShelfCloth *cloth,
             const char         *id)
{
  HwProjectFabric *fabric = hw_project_fabric_new (id, cloth->name);

  fabric->handbook = g_strdup (cloth->handbook);
  fabric->construction = g_strdup (cloth->construction);
  fabric->mass_g_m2 = cloth->mass_g_m2;
  fabric->thickness_mm = cloth->thickness_mm;
  fabric->stretch_percent = cloth->stretch_percent;
  g_strfreev (fabric->traits);
  fabric->traits = g_strdupv (cloth->traits);
  fabric->colour = g_strdup (cloth->colour);
  return fabric;
}

static gboolean
save (gpointer data,
      GError **error)
{
  UseForm            *self = data;
  const HwProject    *project = hw_workspace_peek_project (self->workspace);
  const HwShelfCloth *cloth = hw_shelf_find (hw_workspace_get_room (self->workspace)->cloths, self->cloth);
  const char         *place = hw_choice_peek (GTK_DROP_DOWN (self->place));
  g_autofree char    *id = NULL;
  g_autofree char    *label = NULL;
  g_autofree char    *text = NULL;
  HwProjectFabric    *fabric;
  HwProject          *next;

  if (project == NULL || cloth == NULL || (place != NULL && !is_fabric (project, place)))
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN,
                           _("The project or the fabric is no longer there; close this form and look again"));
      return FALSE;
    }
  id = place != NULL ? g_strdup (place) : hw_form_make_id (cloth->name, is_fabric, project);
  fabric = make_fabric (cloth, id);
  next = hw_edit_put_fabric (project, fabric, error);
  hw_project_fabric_unref (fabric);
  if (next == NULL)
    return FALSE;
  /* Translators: in “Undo: …”; a fabric's name */
  label = g_strdup_printf (_("use the fabric %s"), cloth->name);
  /* Translators: a fabric's name, the project's title */
  text = g_strdup_printf (_("%s is among the fabrics of “%s” now."), cloth->name, project->title);
  if (hw_workspace_edit (self->workspace, next, label, NULL, NULL))
    hw_workspace_tell_undoable (self->workspace, text);
  return TRUE;
}

/* The one of the same cloth, else the first: that is what is bought for a project that was planned before. */
static const char *
guess_place (const HwProject    *project,
             const HwShelfCloth *cloth)
{
  for (guint i = 0; i < project->fabrics->len; i++)
    {
      const HwProjectFabric *fabric = project->fabrics->pdata[i];

      if (cloth->handbook != NULL && g_strcmp0 (fabric->handbook, cloth->handbook) == 0)
        return fabric->id;
    }
  return project->fabrics->len > 0 ? ((HwProjectFabric *) project->fabrics->pdata[0])->id : NULL;
}

GtkWidget *
hw_use_cloth_form_new (HwWorkspace *workspace,
                       const char  *id)
{
  const HwProject    *project = hw_workspace_peek_project (workspace);
  const HwShelfCloth *cloth = hw_shelf_find (hw_workspace_get_room (workspace)->cloths, id);
  /* Translators: a fabric on hand */
  g_autofree char    *title = g_strdup_printf (_("Use %s"), cloth->name);
  /* Translators: the project's title */
  g_autofree char    *label = g_strdup_printf (_("In “%s”, in the _place of"), project->title);
  GtkWidget          *form = hw_form_new (title, _("Use it"));
  UseForm            *self = g_new0 (UseForm, 1);

  self->workspace = g_object_ref (workspace);
  self->cloth = g_strdup (id);
  self->place = hw_choice_new ();
  for (guint i = 0; i < project->fabrics->len; i++)
    {
      const HwProjectFabric *fabric = project->fabrics->pdata[i];

      hw_choice_add (GTK_DROP_DOWN (self->place), fabric->id, fabric->name);
    }
  hw_choice_add (GTK_DROP_DOWN (self->place), NULL, _("none: one more fabric"));
  hw_choice_select (GTK_DROP_DOWN (self->place), guess_place (project, cloth));
  hw_form_add (HW_FORM (form), label, self->place);
  hw_form_add_hint (HW_FORM (form), _("Every layer of that fabric is then of this one, and its set-ups follow."));
  hw_form_set_save (HW_FORM (form), save, self, free_form);
  return form;
}
