/* formats.c - the kinds of files of a project and a sewing room, and their versions
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The tests hold these tables to the schemas in data/schema.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/formats.h"

#include "files/rescue.h"
#include "model/room.h"

#include <string.h>

static const HwXmlShape project_shapes[] = {
  { "project", "id title due share gather-hand", "note wishes fabrics threads steps" },
  { "wishes", "", "wish" },
  { "wish", "kind steps", "" },
  { "fabrics", "", "fabric" },
  { "fabric", "id name handbook construction mass thickness stretch traits colour", "" },
  { "threads", "", "thread" },
  { "thread", "id handbook colour tex", "" },
  { "steps", "", "operation hand" },
  { "operation", "number name after purpose seam stitch machine length-cm pieces needle-thread bobbin-thread share",
    "ply crossing set note" },
  { "hand", "number name after kind minutes", "note" },
  { "ply", "fabric count", "" },
  { "crossing", "", "ply" },
  { "set", "field value choice", "" },
  { "note", "", "" },
  { NULL, NULL, NULL },
};

static const HwXmlShape machine_shapes[] = {
  { "machine", "id name kind system dial dial-low dial-high dial-neutral length-max width-max plate-opening foot-lift "
    "speed bobbin-cm3 hook needle-flat start-hours start-running learned-from", "stitch foot plate care" },
  { "stitch", "id own", "" },
  { "foot", "id", "" },
  { "plate", "id", "" },
  { "care", "id limit", "" },
  { NULL, NULL, NULL },
};

static const HwXmlShape needles_shapes[] = {
  { "needles", "", "needle" },
  { "needle", "id system point nm twin count", "" },
  { NULL, NULL, NULL },
};

static const HwXmlShape threads_shapes[] = {
  { "threads", "", "thread" },
  { "thread", "id handbook colour tex metres counted snap note", "" },
  { NULL, NULL, NULL },
};

static const HwXmlShape fabrics_shapes[] = {
  { "fabrics", "", "fabric" },
  { "fabric", "id name handbook construction mass thickness stretch traits colour metres width-cm note", "" },
  { NULL, NULL, NULL },
};

static const HwXmlShape preferences_shapes[] = {
  { "preferences", "hours-a-week units numbers paper mixed", "change queue" },
  { "change", "part minutes", "" },
  { "queue", "", "project" },
  { "project", "id", "" },
  { NULL, NULL, NULL },
};

static const HwXmlShape journal_shapes[] = {
  { "journal", "machine year", "sewing load care test-seam fault cancel needle" },
  { "sewing", "id time note project step purpose planned needle-thread bobbin-thread needle-m bobbin-m system point nm "
    "foot plate length width dial minutes running lint life needle", "" },
  { "load", "id time note needle packet system point nm twin needle-thread bobbin-thread foot plate stitch verdict "
    "hours", "" },
  { "care", "id time note task", "" },
  { "test-seam", "id time note project step dial verdict tex bobbin-tex under-foot length width terms cloth", "" },
  { "fault", "id time note project step needle fault cause dial verdict", "" },
  { "cancel", "id time note of", "" },
  { "needle", "id time note needle verdict place system point nm twin hours", "" },
  { NULL, NULL, NULL },
};

static const HwXmlFormat formats[] = {
  { "project", HW_PROJECT_NS, HW_PROJECT_MINOR, project_shapes },
  { "machine", HW_ROOM_NS, HW_ROOM_MINOR, machine_shapes },
  { "needles", HW_ROOM_NS, HW_ROOM_MINOR, needles_shapes },
  { "threads", HW_ROOM_NS, HW_ROOM_MINOR, threads_shapes },
  { "fabrics", HW_ROOM_NS, HW_ROOM_MINOR, fabrics_shapes },
  { "preferences", HW_ROOM_NS, HW_ROOM_MINOR, preferences_shapes },
  { "journal", HW_ROOM_NS, HW_ROOM_MINOR, journal_shapes },
};

const HwXmlFormat *
hw_format_find (const char *root)
{
  g_return_val_if_fail (root != NULL, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (formats); i++)
    if (strcmp (formats[i].root, root) == 0)
      return &formats[i];
  return NULL;
}

HwXml *
hw_format_read_file (const char *path,
                     gsize       max_bytes,
                     const char *root,
                     GError    **error)
{
  const HwXmlFormat *format = hw_format_find (root);
  HwXml *xml = hw_xml_read_file (path, max_bytes, root, format->ns, error);

  if (xml != NULL)
    hw_xml_pass_over (xml, format);
  return xml;
}

HwXml *
hw_format_read_bytes (const char *name,
                      const char *data,
                      gsize       size,
                      const char *root,
                      GError    **error)
{
  const HwXmlFormat *format = hw_format_find (root);
  HwXml *xml = hw_xml_read_bytes (name, data, size, root, format->ns, error);

  if (xml != NULL)
    hw_xml_pass_over (xml, format);
  return xml;
}

gboolean
hw_format_save (const char *root,
                const char *path,
                char       *data,
                gsize       size,
                GError    **error)
{
  g_autofree char *whole = hw_xml_put_back (hw_format_find (root), path, data, &size);

  return hw_save_or_rescue (path, whole, size, error);
}
