/* room-shelf.c - thread and fabrics on hand: their files
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include "model/project-private.h"
#include "model/read-private.h"

#include <glib/gi18n.h>

#define METRES_MAX 1000000
#define WIDTH_CM_MAX 1000

/* ---- thread ---- */

static gboolean
read_counted (const HwXml   *xml,
              const xmlNode *node,
              HwSpool       *spool,
              GError       **error)
{
  g_autofree char *counted = hw_xml_dup_required (xml, node, "counted", error);

  if (counted == NULL)
    return FALSE;
  spool->counted = hw_time_normalise (counted);
  return spool->counted != NULL
         || hw_read_refuse (xml, node, error,
                            _("“counted” must be a moment such as 2031-05-09T14:03:00Z; it is “%.40s”"), counted);
}

static gboolean
check_spool (const HwSpool *spool,
             GError       **error)
{
  return hw_check_id (_("a thread of the handbook"), spool->handbook, error)
         && hw_check_text (_("a thread's colour"), spool->colour, error) && hw_check_note (spool->note, error);
}

static gboolean
read_spool_into (const HwXml   *xml,
                 const xmlNode *node,
                 GHashTable    *seen,
                 HwSpool       *spool,
                 GError       **error)
{
  int snap = HW_SNAP_UNTESTED;

  spool->id = hw_read_new_id (xml, node, "id", seen, error);
  spool->handbook = spool->id != NULL ? hw_xml_dup_required (xml, node, "handbook", error) : NULL;
  spool->colour = spool->handbook != NULL ? hw_xml_dup_required (xml, node, "colour", error) : NULL;
  spool->note = hw_xml_dup_attr (node, "note");
  if (spool->colour == NULL || !hw_read_blame (xml, node, check_spool (spool, error), error)
      || !hw_read_limit (xml, node, &hw_limit_tex, &spool->tex, error)
      || !hw_xml_get_required_number (xml, node, "metres", 0, METRES_MAX, &spool->metres, error)
      || !read_counted (xml, node, spool, error)
      || !hw_xml_get_word (xml, node, "snap", hw_snap_ids, &snap, error))
    return FALSE;
  spool->snap = (HwSnap) snap;
  return TRUE;
}

static gpointer
read_spool (const HwXml   *xml,
            const xmlNode *node,
            GHashTable    *seen,
            GError       **error)
{
  static const char * const known[] = { "id", "handbook", "colour", "tex", "metres", "counted", "snap", "note", NULL };
  g_autoptr (HwSpool) spool = hw_spool_new (NULL, NULL, NULL);

  if (!hw_read_check_leaf (xml, node, known, error) || !read_spool_into (xml, node, seen, spool, error))
    return NULL;
  return g_steal_pointer (&spool);
}

static void
write_spool (HwXmlWriter  *writer,
             gconstpointer item)
{
  const HwSpool *spool = item;

  hw_xml_writer_attr (writer, "id", spool->id);
  hw_xml_writer_attr (writer, "handbook", spool->handbook);
  hw_xml_writer_attr (writer, "colour", spool->colour);
  if (spool->tex != 0)
    hw_xml_writer_number (writer, "tex", spool->tex);
  hw_xml_writer_number (writer, "metres", spool->metres);
  hw_xml_writer_attr (writer, "counted", spool->counted);
  if (spool->snap != HW_SNAP_UNTESTED)
    hw_xml_writer_attr (writer, "snap", hw_snap_ids[spool->snap]);
  hw_xml_writer_attr (writer, "note", spool->note);
}

const HwListFile hw_spools_file = {
  "threads.xml", "threads", "thread", read_spool, write_spool, (GDestroyNotify) hw_spool_free
};

/* ---- fabrics ---- */

/* What holds for a fabric of a project holds for one on the shelf, which is copied there. */
static gboolean
check_cloth (const HwShelfCloth *cloth,
             GError            **error)
{
  const HwProjectFabric fabric = {
    .id = cloth->id, .name = cloth->name, .handbook = cloth->handbook, .construction = cloth->construction,
    .mass_g_m2 = cloth->mass_g_m2, .thickness_mm = cloth->thickness_mm, .stretch_percent = cloth->stretch_percent,
    .traits = cloth->traits, .colour = cloth->colour
  };

  return hw_check_fabric (&fabric, error) && hw_check_note (cloth->note, error);
}

static gpointer
read_cloth (const HwXml   *xml,
            const xmlNode *node,
            GHashTable    *seen,
            GError       **error)
{
  static const char * const known[] = { "id", "name", "handbook", "construction", "mass", "thickness", "stretch",
                                        "traits", "colour", "metres", "width-cm", "note", NULL };
  g_autoptr (HwShelfCloth) cloth = hw_shelf_cloth_new (NULL, NULL);

  if (!hw_read_check_leaf (xml, node, known, error))
    return NULL;
  cloth->id = hw_read_new_id (xml, node, "id", seen, error);
  cloth->name = cloth->id != NULL ? hw_xml_dup_required (xml, node, "name", error) : NULL;
  if (cloth->name == NULL)
    return NULL;
  cloth->handbook = hw_xml_dup_attr (node, "handbook");
  cloth->construction = hw_xml_dup_attr (node, "construction");
  cloth->colour = hw_xml_dup_attr (node, "colour");
  cloth->note = hw_xml_dup_attr (node, "note");
  g_strfreev (cloth->traits);
  cloth->traits = hw_xml_dup_words (node, "traits");
  if (!hw_read_limit (xml, node, &hw_limit_mass, &cloth->mass_g_m2, error)
      || !hw_read_limit (xml, node, &hw_limit_thickness, &cloth->thickness_mm, error)
      || !hw_read_limit (xml, node, &hw_limit_stretch, &cloth->stretch_percent, error)
      || !hw_xml_get_number (xml, node, "metres", 0, METRES_MAX, &cloth->metres, error)
      || !hw_xml_get_number (xml, node, "width-cm", 0, WIDTH_CM_MAX, &cloth->width_cm, error)
      || !hw_read_blame (xml, node, check_cloth (cloth, error), error))
    return NULL;
  return g_steal_pointer (&cloth);
}

static void
write_positive (HwXmlWriter *writer,
                const char  *attribute,
                double       value)
{
  if (value != 0)
    hw_xml_writer_number (writer, attribute, value);
}

static void
write_cloth (HwXmlWriter  *writer,
             gconstpointer item)
{
  const HwShelfCloth *cloth = item;

  hw_xml_writer_attr (writer, "id", cloth->id);
  hw_xml_writer_attr (writer, "name", cloth->name);
  hw_xml_writer_attr (writer, "handbook", cloth->handbook);
  hw_xml_writer_attr (writer, "construction", cloth->construction);
  write_positive (writer, "mass", cloth->mass_g_m2);
  write_positive (writer, "thickness", cloth->thickness_mm);
  if (cloth->stretch_percent != -1)
    hw_xml_writer_number (writer, "stretch", cloth->stretch_percent);
  hw_xml_writer_words (writer, "traits", cloth->traits);
  hw_xml_writer_attr (writer, "colour", cloth->colour);
  write_positive (writer, "metres", cloth->metres);
  write_positive (writer, "width-cm", cloth->width_cm);
  hw_xml_writer_attr (writer, "note", cloth->note);
}

const HwListFile hw_cloths_file = {
  "fabrics.xml", "fabrics", "fabric", read_cloth, write_cloth, (GDestroyNotify) hw_shelf_cloth_free
};
