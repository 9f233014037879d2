/* clip.c - steps on their way from one place to another, as XML
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inside, a clip is a project of the steps and of what they use; only “after” need not hold in it.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/clip.h"

#include "model/clip-private.h"
#include "model/read-private.h"

#include "files/xml.h"

#include <glib/gi18n.h>

static HwClip *
clip_new_empty (const char *from)
{
  HwClip *self = g_new0 (HwClip, 1);

  self->parts = hw_project_new (from, "");
  g_ptr_array_set_size (self->parts->threads, 0);
  return self;
}

void
hw_clip_free (HwClip *self)
{
  if (self == NULL)
    return;
  hw_project_unref (self->parts);
  g_free (self);
}

guint
hw_clip_n_steps (const HwClip *self)
{
  g_return_val_if_fail (self != NULL, 0);

  return self->parts->steps->len;
}

/* ---- from a project ---- */

static gboolean
lies_in (const HwPly *plies,
         gsize        n_plies,
         const char  *fabric)
{
  for (gsize i = 0; i < n_plies; i++)
    if (g_str_equal (plies[i].fabric, fabric))
      return TRUE;
  return FALSE;
}

static gboolean
uses_fabric (const HwProject *parts,
             const char      *id)
{
  for (guint i = 0; i < parts->steps->len; i++)
    {
      const HwStep *step = hw_project_get_step (parts, i);
      if (lies_in (step->plies, step->n_plies, id) || lies_in (step->crossing, step->n_crossing, id))
        return TRUE;
    }
  return FALSE;
}

static gboolean
uses_thread (const HwProject *parts,
             const char      *id)
{
  for (guint i = 0; i < parts->steps->len; i++)
    {
      const HwStep *step = hw_project_get_step (parts, i);
      if (g_strcmp0 (step->needle_thread, id) == 0 || g_strcmp0 (step->bobbin_thread, id) == 0)
        return TRUE;
    }
  return FALSE;
}

HwClip *
hw_clip_new (const HwProject    *project,
             const char * const *numbers)
{
  g_autoptr (HwClip) self = NULL;

  g_return_val_if_fail (project != NULL && numbers != NULL, NULL);

  self = clip_new_empty (project->id);
  for (guint i = 0; i < project->steps->len; i++)
    if (g_strv_contains (numbers, hw_project_get_step (project, i)->number))
      g_ptr_array_add (self->parts->steps, hw_step_ref (project->steps->pdata[i]));
  for (guint i = 0; i < project->fabrics->len; i++)
    if (uses_fabric (self->parts, ((HwProjectFabric *) project->fabrics->pdata[i])->id))
      g_ptr_array_add (self->parts->fabrics, hw_project_fabric_ref (project->fabrics->pdata[i]));
  for (guint i = 0; i < project->threads->len; i++)
    if (uses_thread (self->parts, ((HwProjectThread *) project->threads->pdata[i])->id))
      g_ptr_array_add (self->parts->threads, hw_project_thread_ref (project->threads->pdata[i]));
  return self->parts->steps->len > 0 ? g_steal_pointer (&self) : NULL;
}

/* ---- as XML ---- */

char *
hw_clip_to_xml (const HwClip *self,
                gsize        *size)
{
  HwXmlWriter *writer;

  g_return_val_if_fail (self != NULL, NULL);

  writer = hw_xml_writer_new ("clip", HW_PROJECT_NS);
  hw_xml_writer_attr (writer, "from", self->parts->id);
  hw_write_parts (writer, self->parts);
  return hw_xml_writer_finish (writer, size);
}

static gboolean
read_clip (const HwXml *xml,
           HwProject   *parts,
           GError     **error)
{
  static const char * const known[] = { "from", NULL };
  static const char * const elements[] = { "fabrics", "threads", "steps", NULL };
  const xmlNode *root = hw_xml_root (xml);

  if (!hw_xml_check_attributes (xml, root, known, error) || !hw_read_check_text (xml, root, error))
    return FALSE;
  parts->id = hw_xml_dup_required (xml, root, "from", error);
  if (parts->id == NULL
      || !hw_read_blame (xml, root, hw_check_id (_("a project's id"), parts->id, error), error))
    return FALSE;
  for (const xmlNode *node = hw_xml_first (root, NULL); node != NULL; node = hw_xml_next (node, NULL))
    if (!hw_read_check_element (xml, node, elements, error))
      return FALSE;
  return hw_read_parts (xml, parts, error)
         && (parts->steps->len > 0
             || hw_read_refuse (xml, root, error, _("there are no steps in it; copy some first")));
}

/* Mostly somebody's text: what is wrong with it as XML is of no use to them. */
static void
say_no_steps (GError **error)
{
  if (!g_error_matches (*error, HW_XML_ERROR, HW_XML_ERROR_MALFORMED)
      && !g_error_matches (*error, HW_XML_ERROR, HW_XML_ERROR_NAMESPACE))
    return;
  g_clear_error (error);
  g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                       _("There are no steps on the clipboard; copy some in a project’s making up first"));
}

/**
 * hw_clip_parse:
 * @data: any bytes
 *
 * Returns: (transfer full): the clip, or %NULL with an %HW_XML_ERROR or %HW_MODEL_ERROR of one line
 */
HwClip *
hw_clip_parse (const char *data,
               gsize       size,
               GError    **error)
{
  g_autoptr (HwClip) self = clip_new_empty (NULL);
  g_autoptr (HwXml) xml = NULL;
  g_autoptr (GError) wrong = NULL;

  g_return_val_if_fail (data != NULL || size == 0, NULL);

  if (size > HW_PROJECT_MAX_BYTES)
    {
      g_set_error_literal (error, HW_XML_ERROR, HW_XML_ERROR_TOO_BIG,
                           _("What is on the clipboard is too big to be steps of a project"));
      return NULL;
    }
  xml = hw_xml_read_bytes (_("clipboard"), data, size, "clip", HW_PROJECT_NS, &wrong);
  if (xml != NULL && read_clip (xml, self->parts, &wrong))
    return g_steal_pointer (&self);
  say_no_steps (&wrong);
  g_propagate_error (error, g_steal_pointer (&wrong));
  return NULL;
}
