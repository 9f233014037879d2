/* project-save.c - a project put into its file, or kept beside when that cannot be
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/project.h"

#include "model/formats.h"

#include "files/rescue.h"
#include "files/save.h"

#include <glib/gi18n.h>
#include <glib/gstdio.h>

void
hw_project_place_look (HwProjectPlace *self,
                       const char     *path)
{
  g_return_if_fail (self != NULL && path != NULL);

  hw_project_place_clear (self);
  self->mark = hw_mark_file (path);
}

void
hw_project_place_clear (HwProjectPlace *self)
{
  g_return_if_fail (self != NULL);

  g_clear_pointer (&self->mark, g_free);
  g_clear_pointer (&self->rescued, g_free);
}

/* One copy a file, however many edits follow. */
static void
keep_copy (HwProjectPlace *self,
           const char     *path,
           gboolean        beside,
           const char     *data,
           gsize           size)
{
  g_autofree char *folder = beside ? g_path_get_dirname (path) : NULL;

  if (self->rescued != NULL && hw_save_bytes (self->rescued, data, (gssize) size, NULL))
    return;
  g_free (self->rescued);
  self->rescued = hw_rescue_bytes (path, folder, data, size);
}

static void
drop_copy (HwProjectPlace *self)
{
  g_autofree char *before = self->rescued != NULL ? g_strconcat (self->rescued, "~", NULL) : NULL;

  if (before == NULL)
    return;
  g_unlink (self->rescued);
  g_unlink (before);
  g_clear_pointer (&self->rescued, g_free);
}

/**
 * hw_project_save:
 * @place: what is known of @path
 *
 * Returns: whether the file holds @self now; if not, @error says where a copy is kept
 */
gboolean
hw_project_save (const HwProject *self,
                 const char      *path,
                 HwProjectPlace  *place,
                 GError         **error)
{
  g_autofree char *data = NULL;
  g_autofree char *shown = NULL;
  gboolean changed = FALSE;
  gsize size = 0;

  g_return_val_if_fail (self != NULL && path != NULL && place != NULL, FALSE);

  data = hw_xml_put_back (hw_format_find ("project"), path, hw_project_to_xml (self, &size), &size);
  if (hw_save_bytes_over (path, data, size, place->mark, &changed, error))
    {
      g_free (place->mark);
      place->mark = hw_mark_bytes (data, size);
      drop_copy (place);
      return TRUE;
    }
  shown = hw_show_path (path);
  if (changed && (error == NULL || *error == NULL))
    g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_CHANGED,
                 _("“%s” was changed by another program since it was opened here"), shown);
  keep_copy (place, path, changed, data, size);
  hw_rescue_tell (error, place->rescued);
  return FALSE;
}
