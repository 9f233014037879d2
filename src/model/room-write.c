/* room-write.c - machines and journal as XML, and the writing of them
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include "files/save.h"
#include "files/rescue.h"
#include "files/xml.h"
#include "model/formats.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>

#define LOCK_WAIT_MS 10000               /* on a busy computer another's turn takes seconds */

static void
write_ids (HwXmlWriter *writer,
           const char  *element,
           char       **ids)
{
  for (; ids != NULL && *ids != NULL; ids++)
    {
      hw_xml_writer_open (writer, element);
      hw_xml_writer_attr (writer, "id", *ids);
      hw_xml_writer_close (writer);
    }
}

static void
write_machine_head (HwXmlWriter     *writer,
                    const HwMachine *self)
{
  hw_xml_writer_attr (writer, "id", self->id);
  hw_xml_writer_attr (writer, "name", self->name);
  hw_xml_writer_attr (writer, "kind", hw_machine_kind_ids[self->kind]);
  hw_xml_writer_attr (writer, "system", self->system);
  hw_xml_writer_attr (writer, "dial", hw_dial_form_ids[self->dial_form]);
  hw_xml_writer_number (writer, "dial-low", self->dial.low);
  hw_xml_writer_number (writer, "dial-high", self->dial.high);
  hw_xml_writer_number (writer, "dial-neutral", self->dial.neutral);
  hw_xml_writer_number (writer, "length-max", self->length_max_mm);
  hw_xml_writer_number (writer, "width-max", self->width_max_mm);
  hw_xml_writer_number (writer, "plate-opening", self->plate_opening_mm);
  hw_xml_writer_number (writer, "foot-lift", self->foot_lift_mm);
  hw_xml_writer_number (writer, "speed", self->speed_spm);
  hw_xml_writer_number (writer, "bobbin-cm3", self->bobbin_cm3);
  if (self->hook != HW_HOOK_FRONT)
    hw_xml_writer_attr (writer, "hook", hw_hook_ids[self->hook]);
  hw_xml_writer_attr (writer, "needle-flat", self->needle_flat);
  hw_xml_writer_number (writer, "start-hours", self->start_hours);
  hw_xml_writer_number (writer, "start-running", self->start_running);
  if (self->learned_from != NULL)
    hw_xml_writer_attr (writer, "learned-from", self->learned_from);
}

char *
hw_machine_to_xml (const HwMachine *self,
                   gsize           *size)
{
  HwXmlWriter *writer = hw_xml_writer_new ("machine", HW_ROOM_NS);

  write_machine_head (writer, self);
  for (gsize i = 0; i < self->n_stitches; i++)
    {
      hw_xml_writer_open (writer, "stitch");
      hw_xml_writer_attr (writer, "id", self->stitches[i].stitch);
      hw_xml_writer_attr (writer, "own", self->stitches[i].own);
      hw_xml_writer_close (writer);
    }
  write_ids (writer, "foot", self->feet);
  write_ids (writer, "plate", self->plates);
  for (gsize i = 0; i < self->n_care; i++)
    {
      hw_xml_writer_open (writer, "care");
      hw_xml_writer_attr (writer, "id", self->care[i].care);
      hw_xml_writer_number (writer, "limit", self->care[i].limit);
      hw_xml_writer_close (writer);
    }
  return hw_xml_writer_finish (writer, size);
}

static void
write_entry_field (HwXmlWriter          *writer,
                   const HwJournalEntry *entry,
                   const HwEntryField   *field)
{
  guint kind = 1u << entry->kind;
  double number;

  if ((field->kinds & kind) == 0)
    return;
  if (field->type == HW_ENTRY_TEXT)
    {
      hw_xml_writer_attr (writer, field->attribute, G_STRUCT_MEMBER (char *, entry, field->offset));
      return;
    }
  number = field->type == HW_ENTRY_INT ? G_STRUCT_MEMBER (int, entry, field->offset)
                                       : G_STRUCT_MEMBER (double, entry, field->offset);
  if (number != field->ordinary || (field->required & kind) != 0)
    hw_xml_writer_number (writer, field->attribute, number);
}

char *
hw_journal_to_xml (const char      *machine,
                   int              year,
                   const GPtrArray *entries,
                   gsize           *size)
{
  HwXmlWriter *writer = hw_xml_writer_new ("journal", HW_ROOM_NS);

  hw_xml_writer_attr (writer, "machine", machine);
  hw_xml_writer_number (writer, "year", year);
  for (guint i = 0; i < entries->len; i++)
    {
      const HwJournalEntry *entry = g_ptr_array_index (entries, i);
      hw_xml_writer_open (writer, hw_entry_kind_ids[entry->kind]);
      hw_xml_writer_attr (writer, "id", entry->id);
      hw_xml_writer_attr (writer, "time", entry->time);
      for (gsize j = 0; j < hw_n_entry_fields; j++)
        write_entry_field (writer, entry, &hw_entry_fields[j]);
      hw_xml_writer_close (writer);
    }
  return hw_xml_writer_finish (writer, size);
}

/* Nothing but the root's end tag can be "</journal>" at the end of a well-formed file. */
char *
hw_journal_add_xml (const char      *bytes,
                    gsize            length,
                    const char      *machine,
                    int              year,
                    const GPtrArray *added,
                    gsize           *size)
{
  static const char end[] = "\n</journal>";
  g_autofree char *alone = NULL;
  const char *first;
  GString *joined;

  while (length > 0 && g_ascii_isspace (bytes[length - 1]))
    length--;
  if (length < strlen (end) || strncmp (bytes + length - strlen (end), end, strlen (end)) != 0)
    return NULL;
  alone = hw_journal_to_xml (machine, year, added, NULL);
  first = strchr (strstr (alone, "<journal"), '\n');      /* before the first entry; an attribute has no line break */
  joined = g_string_new_len (bytes, (gssize) (length - strlen (end)));
  g_string_append (joined, first);
  *size = joined->len;
  return g_string_free (joined, FALSE);
}

HwLock *
hw_room_lock (const char *folder,
              GError    **error)
{
  if (g_mkdir_with_parents (folder, 0777) != 0)
    {
      int number = errno;
      g_autofree char *shown = hw_show_path (folder);
      g_set_error (error, G_FILE_ERROR, (int) g_file_error_from_errno (number),
                   _("Could not make the folder “%s”: %s"), shown, g_strerror (number));
      return NULL;
    }
  return hw_lock_folder (folder, LOCK_WAIT_MS, error);
}

gboolean
hw_machine_save (const HwMachine *machine,
                 const char      *folder,
                 GError         **error)
{
  g_autofree char *name = g_strconcat (machine->id, ".xml", NULL);
  g_autofree char *path = g_build_filename (folder, "machines", name, NULL);
  g_autofree char *data = NULL;
  gsize size = 0;

  data = hw_machine_to_xml (machine, &size);
  return hw_format_save ("machine", path, g_steal_pointer (&data), size, error);
}

void
hw_machine_rescue (const HwMachine *self,
                   GError         **error)
{
  gsize size = 0;
  g_autofree char *data = hw_machine_to_xml (self, &size);
  g_autofree char *name = g_strconcat (self->id, ".xml", NULL);
  g_autofree char *rescued = hw_rescue_bytes (name, NULL, data, size);

  hw_rescue_tell (error, rescued);
}

gboolean
hw_room_has_machines (const char *folder,
                      gboolean   *has,
                      GError    **error)
{
  g_autoptr (GPtrArray) names = hw_room_list_files (folder, "machines", error);

  *has = names != NULL && names->len > 0;
  return names != NULL;
}

/* A needle case that is there already is the person's own and stays. */
gboolean
hw_room_furnish (const HwRoom *self,
                 GError      **error)
{
  g_autofree char *needles = g_build_filename (self->folder, "needles.xml", NULL);

  if (!g_file_test (needles, G_FILE_TEST_EXISTS)
      && !hw_list_save (&hw_packets_file, self->folder, self->packets, error))
    return FALSE;
  for (guint i = 0; i < self->machines->len; i++)
    if (!hw_machine_save (g_ptr_array_index (self->machines, i), self->folder, error))
      return FALSE;
  return TRUE;
}
