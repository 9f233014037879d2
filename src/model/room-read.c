/* room-read.c - machines from their files
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include "files/xml.h"
#include "model/formats.h"
#include "model/project-private.h"
#include "model/read-private.h"

#include <glib/gi18n.h>
#include <string.h>

static const char * const flats[] = { "back", "right", "left", "front", NULL };

static int
compare_names (gconstpointer a,
               gconstpointer b)
{
  return strcmp (*(const char * const *) a, *(const char * const *) b);
}

GPtrArray *
hw_room_list_files (const char *folder,
                    const char *name,
                    GError    **error)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GDir) dir = NULL;
  const char *file;

  if (!g_file_test (path, G_FILE_TEST_EXISTS))
    return g_steal_pointer (&names);
  dir = g_dir_open (path, 0, error);
  if (dir == NULL)
    return NULL;
  while ((file = g_dir_read_name (dir)) != NULL)
    if (*file != '.' && g_str_has_suffix (file, ".xml"))
      g_ptr_array_add (names, g_strdup (file));
  g_ptr_array_sort (names, compare_names);
  return g_steal_pointer (&names);
}

/* ---- machines ---- */

typedef struct
{
  const char *attribute;
  gsize       offset;
  double      low, high;
  gboolean    required;
} MachineNumber;

#define MACHINE_NUMBER(attribute, member, low, high, required) \
  { attribute, G_STRUCT_OFFSET (HwMachine, member), low, high, required }

static const MachineNumber machine_numbers[] = {
  MACHINE_NUMBER ("dial-low", dial.low, -20, 200, TRUE),
  MACHINE_NUMBER ("dial-high", dial.high, -20, 200, TRUE),
  MACHINE_NUMBER ("dial-neutral", dial.neutral, -20, 200, TRUE),
  MACHINE_NUMBER ("length-max", length_max_mm, 0.5, 12, TRUE),
  MACHINE_NUMBER ("width-max", width_max_mm, 0, 12, TRUE),
  MACHINE_NUMBER ("plate-opening", plate_opening_mm, 0, 15, TRUE),
  MACHINE_NUMBER ("foot-lift", foot_lift_mm, 1, 30, TRUE),
  MACHINE_NUMBER ("speed", speed_spm, 50, 6000, TRUE),
  MACHINE_NUMBER ("bobbin-cm3", bobbin_cm3, 0, 20, FALSE),
  MACHINE_NUMBER ("start-hours", start_hours, 0, 1000000, FALSE),
  MACHINE_NUMBER ("start-running", start_running, 0, 1000000, FALSE),
};

static gboolean
check_dial (const HwMachine *machine,
            GError         **error)
{
  if (machine->dial.low < machine->dial.high && machine->dial.neutral >= machine->dial.low
      && machine->dial.neutral <= machine->dial.high)
    return TRUE;
  g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
               _("the dial must run from “dial-low” up to “dial-high” with “dial-neutral” between them"));
  return FALSE;
}

static gboolean
check_machine_texts (const HwMachine *machine,
                     GError         **error)
{
  return hw_machine_check_id (machine->id, error) && hw_check_text (_("a machine's name"), machine->name, error)
         && hw_check_id (_("a needle system"), machine->system, error) && check_dial (machine, error);
}

static gboolean
read_machine_numbers (const HwXml *xml,
                      HwMachine   *machine,
                      GError     **error)
{
  const xmlNode *root = hw_xml_root (xml);

  /* What an ordinary drop-in bobbin holds: common practice. The other machines have none. */
  machine->bobbin_cm3 = machine->kind == HW_MACHINE_LOCKSTITCH ? 2.2 : 0;
  for (gsize i = 0; i < G_N_ELEMENTS (machine_numbers); i++)
    {
      const MachineNumber *number = &machine_numbers[i];
      double *value = G_STRUCT_MEMBER_P (machine, number->offset);
      gboolean good = number->required ? hw_xml_get_required_number (xml, root, number->attribute, number->low,
                                                                     number->high, value, error)
                                       : hw_xml_get_number (xml, root, number->attribute, number->low, number->high,
                                                            value, error);
      if (!good)
        return FALSE;
    }
  return TRUE;
}

static gboolean
read_machine_head (const HwXml *xml,
                   HwMachine   *machine,
                   GError     **error)
{
  static const char * const known[] = { "id", "name", "kind", "system", "dial", "dial-low", "dial-high", "dial-neutral",
                                        "length-max", "width-max", "plate-opening", "foot-lift", "speed", "bobbin-cm3",
                                        "hook", "needle-flat", "start-hours", "start-running", "learned-from", NULL };
  const xmlNode *root = hw_xml_root (xml);
  int kind = 0;
  int form = 0;
  int flat = 0;
  int hook = 0;

  if (!hw_xml_check_attributes (xml, root, known, error) || !hw_read_check_text (xml, root, error))
    return FALSE;
  machine->id = hw_xml_dup_required (xml, root, "id", error);
  machine->name = machine->id != NULL ? hw_xml_dup_required (xml, root, "name", error) : NULL;
  machine->system = machine->name != NULL ? hw_xml_dup_required (xml, root, "system", error) : NULL;
  if (machine->system == NULL
      || !hw_xml_get_required_word (xml, root, "kind", hw_machine_kind_ids, &kind, error)
      || !hw_xml_get_required_word (xml, root, "dial", hw_dial_form_ids, &form, error)
      || !hw_xml_get_word (xml, root, "hook", hw_hook_ids, &hook, error)
      || !hw_xml_get_word (xml, root, "needle-flat", flats, &flat, error))
    return FALSE;
  machine->kind = (HwMachineKind) kind;
  machine->dial_form = (HwDialForm) form;
  machine->hook = (HwHook) hook;
  machine->needle_flat = g_strdup (flats[flat]);
  machine->learned_from = hw_xml_dup_attr (root, "learned-from");
  return read_machine_numbers (xml, machine, error)
         && hw_read_blame (xml, root, check_machine_texts (machine, error), error);
}

/* What a machine holds, while it is being read. */
typedef struct
{
  GArray       *stitches;                /* HwOwnStitch */
  GStrvBuilder *feet;
  GStrvBuilder *plates;
  GArray       *care;                    /* HwOwnCare */
  GHashTable   *seen[4];
} Inside;

static gboolean
read_own_stitch (const HwXml   *xml,
                 const xmlNode *node,
                 Inside        *inside,
                 char          *id,
                 GError       **error)
{
  HwOwnStitch stitch = { id, NULL };

  stitch.own = hw_xml_dup_required (xml, node, "own", error);
  g_array_append_val (inside->stitches, stitch);
  return stitch.own != NULL
         && hw_read_blame (xml, node, hw_check_text (_("the machine's own name of a stitch"), stitch.own, error),
                           error);
}

static gboolean
read_own_care (const HwXml   *xml,
               const xmlNode *node,
               Inside        *inside,
               char          *id,
               GError       **error)
{
  HwOwnCare care = { id, 0 };
  gboolean good = hw_xml_get_required_number (xml, node, "limit", 0, 100000, &care.limit, error);

  g_array_append_val (inside->care, care);
  return good;
}

static gboolean
read_machine_child (const HwXml   *xml,
                    const xmlNode *node,
                    Inside        *inside,
                    GError       **error)
{
  static const char * const elements[] = { "stitch", "foot", "plate", "care", NULL };
  static const char * const attributes[][3] = { { "id", "own", NULL }, { "id", NULL }, { "id", NULL },
                                                { "id", "limit", NULL } };
  int which = 0;
  g_autofree char *id = NULL;

  if (!hw_read_check_element (xml, node, elements, error))
    return FALSE;
  while (!hw_xml_is (node, elements[which]))
    which++;
  if (!hw_read_check_leaf (xml, node, attributes[which], error))
    return FALSE;
  id = hw_read_new_id (xml, node, "id", inside->seen[which], error);
  if (id == NULL)
    return FALSE;
  if (which == 0)
    return read_own_stitch (xml, node, inside, g_steal_pointer (&id), error);
  if (which == 3)
    return read_own_care (xml, node, inside, g_steal_pointer (&id), error);
  g_strv_builder_add (which == 1 ? inside->feet : inside->plates, id);
  return TRUE;
}

static gboolean
read_machine_children (const HwXml *xml,
                       HwMachine   *machine,
                       GError     **error)
{
  Inside inside = { g_array_new (FALSE, FALSE, sizeof (HwOwnStitch)), g_strv_builder_new (), g_strv_builder_new (),
                    g_array_new (FALSE, FALSE, sizeof (HwOwnCare)), { NULL } };
  const xmlNode *root = hw_xml_root (xml);
  gboolean good = TRUE;

  for (gsize i = 0; i < G_N_ELEMENTS (inside.seen); i++)
    inside.seen[i] = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (const xmlNode *node = hw_xml_first (root, NULL); good && node != NULL; node = hw_xml_next (node, NULL))
    good = read_machine_child (xml, node, &inside, error);
  machine->n_stitches = inside.stitches->len;
  machine->stitches = (HwOwnStitch *) (gpointer) g_array_free (inside.stitches, FALSE);
  machine->feet = g_strv_builder_end (inside.feet);
  machine->plates = g_strv_builder_end (inside.plates);
  machine->n_care = inside.care->len;
  machine->care = (HwOwnCare *) (gpointer) g_array_free (inside.care, FALSE);
  g_strv_builder_unref (inside.feet);
  g_strv_builder_unref (inside.plates);
  for (gsize i = 0; i < G_N_ELEMENTS (inside.seen); i++)
    g_hash_table_unref (inside.seen[i]);
  return good;
}

static HwMachine *
read_machine (const HwXml *xml,
              GError     **error)
{
  HwMachine *machine = hw_machine_new (NULL, NULL, HW_MACHINE_LOCKSTITCH);

  if (read_machine_head (xml, machine, error) && read_machine_children (xml, machine, error))
    return machine;
  hw_machine_free (machine);
  return NULL;
}

/* Only the reader knows what it refuses, so what would be written is read back. */
gboolean
hw_machine_check (const HwMachine *self,
                  GError         **error)
{
  g_autoptr (HwXml) xml = NULL;
  g_autofree char *data = NULL;
  HwMachine *machine;
  gsize size = 0;

  if (!check_machine_texts (self, error))
    return FALSE;
  data = hw_machine_to_xml (self, &size);
  xml = hw_format_read_bytes (self->id, data, size, "machine", error);
  machine = xml != NULL ? read_machine (xml, error) : NULL;
  hw_machine_free (machine);
  return machine != NULL;
}

/* Whether the machine has a file of its own, and this is another: a conflicting copy, left to model/copies.h. */
static gboolean
is_copy (const HwXml     *xml,
         const char      *folder,
         const HwMachine *machine)
{
  g_autofree char *name = g_strconcat (machine->id, ".xml", NULL);
  g_autofree char *own = g_build_filename (folder, "machines", name, NULL);

  return strcmp (hw_xml_name (xml), name) != 0 && g_file_test (own, G_FILE_TEST_EXISTS);
}

static gboolean
check_machine_file (const HwXml     *xml,
                    const HwMachine *machine,
                    GError         **error)
{
  g_autofree char *name = g_strconcat (machine->id, ".xml", NULL);

  return strcmp (hw_xml_name (xml), name) == 0
         || hw_read_refuse (xml, hw_xml_root (xml), error, _("the machine “%s” belongs in a file called %s; rename it"),
                            machine->id, name);
}

HwMachine *
hw_machine_read (const char *path,
                 GError    **error)
{
  g_autoptr (HwXml) xml = hw_format_read_file (path, HW_MACHINE_MAX_BYTES, "machine", error);

  return xml != NULL ? read_machine (xml, error) : NULL;
}

gboolean
hw_room_read_machines (HwRoom  *self,
                       GError **error)
{
  g_autoptr (GPtrArray) names = hw_room_list_files (self->folder, "machines", error);

  for (guint i = 0; names != NULL && i < names->len; i++)
    {
      g_autofree char *path = g_build_filename (self->folder, "machines", g_ptr_array_index (names, i), NULL);
      g_autoptr (HwXml) xml = hw_format_read_file (path, HW_MACHINE_MAX_BYTES, "machine", error);
      HwMachine *machine = xml != NULL ? read_machine (xml, error) : NULL;

      if (machine == NULL)
        return FALSE;
      if (is_copy (xml, self->folder, machine))
        {
          hw_machine_free (machine);
          continue;
        }
      g_ptr_array_add (self->machines, machine);
      if (!check_machine_file (xml, machine, error))
        return FALSE;
    }
  g_ptr_array_sort (self->machines, hw_machine_compare);
  return names != NULL;
}
