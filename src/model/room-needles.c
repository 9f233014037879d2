/* room-needles.c - packets of needles: values and file
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include "model/project-private.h"
#include "model/read-private.h"

#include <glib/gi18n.h>
#include <math.h>

#define SAME_SPACING_MM 0.005             /* of a twin needle, written with two digits */

gboolean
hw_packet_is_of (const HwPacket *self,
                 const char     *system,
                 const char     *point,
                 int             nm,
                 double          twin_mm)
{
  return g_strcmp0 (self->system, system) == 0 && g_strcmp0 (self->point, point) == 0 && self->nm == nm
         && fabs (self->twin_mm - twin_mm) < SAME_SPACING_MM;
}

HwPacket *
hw_packet_new (const char *id,
               const char *system,
               const char *point,
               int         nm)
{
  HwPacket *self = g_new0 (HwPacket, 1);

  self->id = g_strdup (id);
  self->system = g_strdup (system);
  self->point = g_strdup (point);
  self->nm = nm;
  self->count = 1;
  return self;
}

HwPacket *
hw_packet_copy (const HwPacket *self)
{
  HwPacket *copy = hw_packet_new (self->id, self->system, self->point, self->nm);

  copy->twin_mm = self->twin_mm;
  copy->count = self->count;
  return copy;
}

void
hw_packet_free (HwPacket *self)
{
  if (self == NULL)
    return;
  g_free (self->id);
  g_free (self->system);
  g_free (self->point);
  g_free (self);
}

static gboolean
read_into (const HwXml   *xml,
           const xmlNode *node,
           GHashTable    *seen,
           HwPacket      *packet,
           GError       **error)
{
  double nm = 0;

  packet->id = hw_read_new_id (xml, node, "id", seen, error);
  packet->system = packet->id != NULL ? hw_xml_dup_required (xml, node, "system", error) : NULL;
  packet->point = packet->system != NULL ? hw_xml_dup_required (xml, node, "point", error) : NULL;
  if (packet->point == NULL
      || !hw_read_blame (xml, node, hw_check_id (_("a needle system"), packet->system, error)
                         && hw_check_id (_("a needle's point"), packet->point, error), error)
      || !hw_xml_get_required_number (xml, node, "nm", 35, 250, &nm, error)
      || !hw_xml_get_int (xml, node, "nm", 35, 250, &packet->nm, error))
    return FALSE;
  return hw_xml_get_number (xml, node, "twin", 0, 10, &packet->twin_mm, error)
         && hw_xml_get_int (xml, node, "count", 0, 10000, &packet->count, error);
}

static gpointer
read_packet (const HwXml   *xml,
             const xmlNode *node,
             GHashTable    *seen,
             GError       **error)
{
  static const char * const known[] = { "id", "system", "point", "nm", "twin", "count", NULL };
  g_autoptr (HwPacket) packet = hw_packet_new (NULL, NULL, NULL, 0);

  if (!hw_read_check_leaf (xml, node, known, error) || !read_into (xml, node, seen, packet, error))
    return NULL;
  return g_steal_pointer (&packet);
}

static void
write_packet (HwXmlWriter  *writer,
              gconstpointer item)
{
  const HwPacket *packet = item;

  hw_xml_writer_attr (writer, "id", packet->id);
  hw_xml_writer_attr (writer, "system", packet->system);
  hw_xml_writer_attr (writer, "point", packet->point);
  hw_xml_writer_number (writer, "nm", packet->nm);
  if (packet->twin_mm > 0)
    hw_xml_writer_number (writer, "twin", packet->twin_mm);
  hw_xml_writer_number (writer, "count", packet->count);
}

const HwListFile hw_packets_file = {
  "needles.xml", "needles", "needle", read_packet, write_packet, (GDestroyNotify) hw_packet_free
};
