/* project-write.c - a project as XML, the same bytes for the same project
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What stands at its ordinary value is left out, so that a file a person wrote does not grow when it is saved.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/project.h"
#include "model/read-private.h"

#include "files/save.h"
#include "model/formats.h"
#include "files/xml.h"

static void
write_measure (HwXmlWriter *writer,
               const char  *name,
               double       value,
               double       unknown)
{
  if (value != unknown)
    hw_xml_writer_number (writer, name, value);
}

static void
write_note (HwXmlWriter *writer,
            const char  *note)
{
  g_autofree char *text = hw_tidy_note (note);

  if (text == NULL)
    return;
  hw_xml_writer_open (writer, "note");
  hw_xml_writer_text (writer, text);
  hw_xml_writer_close (writer);
}

static void
write_fabric (HwXmlWriter           *writer,
              const HwProjectFabric *fabric)
{
  hw_xml_writer_open (writer, "fabric");
  hw_xml_writer_attr (writer, "id", fabric->id);
  hw_xml_writer_attr (writer, "name", fabric->name);
  hw_xml_writer_attr (writer, "handbook", fabric->handbook);
  hw_xml_writer_attr (writer, "construction", fabric->construction);
  write_measure (writer, "mass", fabric->mass_g_m2, 0);
  write_measure (writer, "thickness", fabric->thickness_mm, 0);
  write_measure (writer, "stretch", fabric->stretch_percent, -1);
  hw_xml_writer_words (writer, "traits", fabric->traits);
  hw_xml_writer_attr (writer, "colour", fabric->colour);
  hw_xml_writer_close (writer);
}

static void
write_thread (HwXmlWriter           *writer,
              const HwProjectThread *thread)
{
  hw_xml_writer_open (writer, "thread");
  hw_xml_writer_attr (writer, "id", thread->id);
  hw_xml_writer_attr (writer, "handbook", thread->handbook);
  hw_xml_writer_attr (writer, "colour", thread->colour);
  write_measure (writer, "tex", thread->tex, 0);
  hw_xml_writer_close (writer);
}

static void
write_plies (HwXmlWriter *writer,
             const HwPly *plies,
             gsize        n_plies)
{
  for (gsize i = 0; i < n_plies; i++)
    {
      hw_xml_writer_open (writer, "ply");
      hw_xml_writer_attr (writer, "fabric", plies[i].fabric);
      write_measure (writer, "count", plies[i].count, 1);
      hw_xml_writer_close (writer);
    }
}

static void
write_override (HwXmlWriter      *writer,
                const HwOverride *override)
{
  hw_xml_writer_open (writer, "set");
  hw_xml_writer_attr (writer, "field", hw_field_ids[override->field]);
  if (hw_field_is_choice (override->field))
    hw_xml_writer_attr (writer, "choice", override->choice);
  else
    hw_xml_writer_number (writer, "value", override->value);
  hw_xml_writer_close (writer);
}

static void
write_operation (HwXmlWriter  *writer,
                 const HwStep *step)
{
  hw_xml_writer_attr (writer, "purpose", step->purpose);
  hw_xml_writer_attr (writer, "seam", step->seam);
  hw_xml_writer_attr (writer, "stitch", step->stitch);
  hw_xml_writer_attr (writer, "machine", step->machine);
  hw_xml_writer_number (writer, "length-cm", step->length_cm);
  write_measure (writer, "pieces", step->pieces, 1);
  hw_xml_writer_attr (writer, "needle-thread", step->needle_thread);
  hw_xml_writer_attr (writer, "bobbin-thread", step->bobbin_thread);
  if (!step->share)
    hw_xml_writer_attr (writer, "share", "no");
  write_plies (writer, step->plies, step->n_plies);
  if (step->n_crossing > 0)
    {
      hw_xml_writer_open (writer, "crossing");
      write_plies (writer, step->crossing, step->n_crossing);
      hw_xml_writer_close (writer);
    }
  for (gsize i = 0; i < step->n_overrides; i++)
    write_override (writer, &step->overrides[i]);
}

static void
write_step (HwXmlWriter  *writer,
            const HwStep *step)
{
  hw_xml_writer_open (writer, step->kind == HW_STEP_HAND ? "hand" : "operation");
  hw_xml_writer_attr (writer, "number", step->number);
  hw_xml_writer_attr (writer, "name", step->name);
  hw_xml_writer_words (writer, "after", step->after);
  if (step->kind == HW_STEP_HAND)
    {
      hw_xml_writer_attr (writer, "kind", hw_hand_kind_ids[step->hand]);
      hw_xml_writer_number (writer, "minutes", step->minutes);
    }
  else
    {
      write_operation (writer, step);
    }
  write_note (writer, step->note);
  hw_xml_writer_close (writer);
}

void
hw_write_parts (HwXmlWriter     *writer,
                const HwProject *self)
{
  hw_xml_writer_open (writer, "fabrics");
  for (guint i = 0; i < self->fabrics->len; i++)
    write_fabric (writer, g_ptr_array_index (self->fabrics, i));
  hw_xml_writer_close (writer);
  hw_xml_writer_open (writer, "threads");
  for (guint i = 0; i < self->threads->len; i++)
    write_thread (writer, g_ptr_array_index (self->threads, i));
  hw_xml_writer_close (writer);
  hw_xml_writer_open (writer, "steps");
  for (guint i = 0; i < self->steps->len; i++)
    write_step (writer, hw_project_get_step (self, i));
  hw_xml_writer_close (writer);
}

static void
write_wishes (HwXmlWriter     *writer,
              const GPtrArray *wishes)
{
  if (wishes->len == 0)
    return;
  hw_xml_writer_open (writer, "wishes");
  for (guint i = 0; i < wishes->len; i++)
    {
      const HwWish *wish = g_ptr_array_index (wishes, i);

      hw_xml_writer_open (writer, "wish");
      hw_xml_writer_attr (writer, "kind", hw_wish_kind_ids[wish->kind]);
      hw_xml_writer_words (writer, "steps", wish->steps);
      hw_xml_writer_close (writer);
    }
  hw_xml_writer_close (writer);
}

/**
 * hw_project_to_xml:
 *
 * Returns: (transfer full): the bytes of the file
 */
char *
hw_project_to_xml (const HwProject *self,
                   gsize           *size)
{
  HwXmlWriter *writer;

  g_return_val_if_fail (self != NULL, NULL);

  writer = hw_xml_writer_new ("project", HW_PROJECT_NS);
  hw_xml_writer_attr (writer, "id", self->id);
  hw_xml_writer_attr (writer, "title", self->title);
  hw_xml_writer_attr (writer, "due", self->due);
  if (!self->share)
    hw_xml_writer_attr (writer, "share", "no");
  if (self->gather_hand)
    hw_xml_writer_attr (writer, "gather-hand", "yes");
  write_note (writer, self->note);
  hw_write_parts (writer, self);
  write_wishes (writer, self->wishes);
  return hw_xml_writer_finish (writer, size);
}

gboolean
hw_project_write (const HwProject *self,
                  const char      *path,
                  GError         **error)
{
  g_autofree char *data = NULL;
  gsize size = 0;

  g_return_val_if_fail (self != NULL && path != NULL, FALSE);

  if (!hw_xml_check_not_newer (hw_format_find ("project"), path, error))
    return FALSE;
  data = hw_xml_put_back (hw_format_find ("project"), path, hw_project_to_xml (self, &size), &size);
  return hw_save_bytes (path, data, (gssize) size, error);
}
