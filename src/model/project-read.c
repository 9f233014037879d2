/* project-read.c - a project from its XML
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every refusal names file and line. Fabrics and threads are read before the steps, wherever they stand in the
 * file, so that a step's references can be checked on their own lines.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/project.h"
#include "model/formats.h"
#include "model/project-private.h"
#include "model/read-private.h"

#include "files/xml.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

static const char * const yes_no[] = { "no", "yes", NULL };

static gboolean
read_required (const HwXml   *xml,
               const xmlNode *node,
               const HwLimit *limit,
               double        *value,
               GError       **error)
{
  return hw_xml_get_required_number (xml, node, limit->attribute, limit->low, limit->high, value, error);
}

static gboolean
read_whole (const HwXml   *xml,
            const xmlNode *node,
            const HwLimit *limit,
            int           *value,
            GError       **error)
{
  return hw_xml_get_int (xml, node, limit->attribute, (int) limit->low, (int) limit->high, value, error);
}

static gboolean
read_fabric (const HwXml   *xml,
             const xmlNode *node,
             HwProject     *project,
             GHashTable    *seen,
             GError       **error)
{
  static const char * const known[] = { "id", "name", "handbook", "construction", "mass", "thickness", "stretch",
                                        "traits", "colour", NULL };
  g_autofree char *id = NULL;
  g_autofree char *name = NULL;
  HwProjectFabric *fabric;

  if (!hw_read_check_leaf (xml, node, known, error))
    return FALSE;
  id = hw_read_new_id (xml, node, "id", seen, error);
  if (id == NULL)
    return FALSE;
  name = hw_xml_dup_attr (node, "name");
  fabric = hw_project_fabric_new (id, name);
  g_ptr_array_add (project->fabrics, fabric);
  fabric->line = hw_xml_line (node);
  fabric->handbook = hw_xml_dup_attr (node, "handbook");
  fabric->construction = hw_xml_dup_attr (node, "construction");
  fabric->colour = hw_xml_dup_attr (node, "colour");
  g_strfreev (fabric->traits);
  fabric->traits = hw_xml_dup_words (node, "traits");
  return hw_read_limit (xml, node, &hw_limit_mass, &fabric->mass_g_m2, error)
         && hw_read_limit (xml, node, &hw_limit_thickness, &fabric->thickness_mm, error)
         && hw_read_limit (xml, node, &hw_limit_stretch, &fabric->stretch_percent, error)
         && hw_read_blame (xml, node, hw_check_fabric (fabric, error), error);
}

static gboolean
read_thread (const HwXml   *xml,
             const xmlNode *node,
             HwProject     *project,
             GHashTable    *seen,
             GError       **error)
{
  static const char * const known[] = { "id", "handbook", "colour", "tex", NULL };
  g_autofree char *id = NULL;
  g_autofree char *handbook = NULL;
  HwProjectThread *thread;

  if (!hw_read_check_leaf (xml, node, known, error))
    return FALSE;
  id = hw_read_new_id (xml, node, "id", seen, error);
  handbook = id != NULL ? hw_xml_dup_required (xml, node, "handbook", error) : NULL;
  if (handbook == NULL)
    return FALSE;
  thread = hw_project_thread_new (id, handbook);
  g_ptr_array_add (project->threads, thread);
  thread->line = hw_xml_line (node);
  thread->colour = hw_xml_dup_attr (node, "colour");
  return hw_read_limit (xml, node, &hw_limit_tex, &thread->tex, error)
         && hw_read_blame (xml, node, hw_check_thread (thread, error), error);
}

static gboolean
read_ply (const HwXml     *xml,
          const xmlNode   *node,
          const HwProject *project,
          GArray          *plies,
          int             *total,
          GError         **error)
{
  static const char * const known[] = { "fabric", "count", NULL };
  g_autofree char *fabric = NULL;
  HwPly ply = { NULL, 1 };

  if (!hw_read_check_leaf (xml, node, known, error))
    return FALSE;
  fabric = hw_xml_dup_required (xml, node, "fabric", error);
  if (fabric == NULL || !read_whole (xml, node, &hw_limit_count, &ply.count, error))
    return FALSE;
  ply.fabric = g_steal_pointer (&fabric);
  g_array_append_val (plies, ply);
  return hw_read_blame (xml, node, hw_check_ply (project, &ply, total, error), error);
}

static void
clear_ply (gpointer data)
{
  g_free (((HwPly *) data)->fabric);
}

static GArray *
new_plies (void)
{
  GArray *plies = g_array_new (FALSE, FALSE, sizeof (HwPly));

  g_array_set_clear_func (plies, clear_ply);
  return plies;
}

/* Hands the elements over; @list keeps nothing. */
static gpointer
steal_elements (GArray *list,
                gsize  *n)
{
  *n = list->len;
  g_array_set_clear_func (list, NULL);
  return g_array_free (list, FALSE);
}

static gboolean
read_crossing (const HwXml     *xml,
               const xmlNode   *node,
               const HwProject *project,
               GArray          *plies,
               GError         **error)
{
  static const char * const no_attributes[] = { NULL };
  static const char * const elements[] = { "ply", NULL };
  int total = 0;

  if (!hw_xml_check_attributes (xml, node, no_attributes, error) || !hw_read_check_text (xml, node, error))
    return FALSE;
  if (plies->len > 0)
    return hw_read_refuse (xml, node, error, _("<crossing> stands twice in one operation; keep the thickest one"));
  for (const xmlNode *ply = hw_xml_first (node, NULL); ply != NULL; ply = hw_xml_next (ply, NULL))
    if (!hw_read_check_element (xml, ply, elements, error) || !read_ply (xml, ply, project, plies, &total, error))
      return FALSE;
  return plies->len > 0
         || hw_read_refuse (xml, node, error, _("<crossing> is empty; write a <ply fabric=\"…\" count=\"…\"/> for each "
                                                "fabric, or take it out"));
}

static gboolean
read_override (const HwXml   *xml,
               const xmlNode *node,
               GArray        *overrides,
               GError       **error)
{
  static const char * const known[] = { "field", "value", "choice", NULL };
  HwOverride override = { HW_FIELD_MACHINE, 0, NULL };
  int field = 0;

  if (!hw_read_check_leaf (xml, node, known, error)
      || !hw_xml_get_required_word (xml, node, "field", hw_field_ids, &field, error))
    return FALSE;
  override.field = (HwField) field;
  for (guint i = 0; i < overrides->len; i++)
    if (g_array_index (overrides, HwOverride, i).field == override.field)
      return hw_read_refuse (xml, node, error, _("“%s” is set twice in one operation; keep one of them"),
                             hw_field_ids[field]);
  if (!hw_field_is_choice (override.field)
      && !hw_xml_get_required_number (xml, node, "value", -INFINITY, INFINITY, &override.value, error))
    return FALSE;
  override.choice = hw_xml_dup_attr (node, "choice");
  g_array_append_val (overrides, override);
  if (hw_field_is_choice (override.field) && xmlHasProp (node, (const xmlChar *) "value") != NULL)
    return hw_read_refuse (xml, node, error, _("“%s” is set by “choice”, not by “value”"), hw_field_ids[field]);
  return hw_read_blame (xml, node, hw_check_override (&override, error), error);
}

static void
clear_override (gpointer data)
{
  g_free (((HwOverride *) data)->choice);
}

/* What an operation holds, while it is being read. */
typedef struct
{
  GArray *plies;                         /* HwPly */
  int     n_layers;
  GArray *crossing;                      /* HwPly */
  GArray *overrides;                     /* HwOverride */
} Inside;

static gboolean
read_operation_child (const HwXml     *xml,
                      const xmlNode   *node,
                      const HwProject *project,
                      HwStep          *step,
                      Inside          *inside,
                      GError         **error)
{
  static const char * const elements[] = { "ply", "crossing", "set", "note", NULL };

  if (!hw_read_check_element (xml, node, elements, error))
    return FALSE;
  if (hw_xml_is (node, "ply"))
    return read_ply (xml, node, project, inside->plies, &inside->n_layers, error);
  if (hw_xml_is (node, "crossing"))
    return read_crossing (xml, node, project, inside->crossing, error);
  if (hw_xml_is (node, "set"))
    return read_override (xml, node, inside->overrides, error);
  return hw_read_note (xml, node, &step->note, error);
}

static gboolean
read_operation_children (const HwXml     *xml,
                         const xmlNode   *node,
                         const HwProject *project,
                         HwStep          *step,
                         GError         **error)
{
  Inside inside = { new_plies (), 0, new_plies (), g_array_new (FALSE, FALSE, sizeof (HwOverride)) };
  gboolean good = TRUE;

  g_array_set_clear_func (inside.overrides, clear_override);
  for (const xmlNode *child = hw_xml_first (node, NULL); good && child != NULL; child = hw_xml_next (child, NULL))
    good = read_operation_child (xml, child, project, step, &inside, error);
  step->plies = steal_elements (inside.plies, &step->n_plies);
  step->crossing = steal_elements (inside.crossing, &step->n_crossing);
  step->overrides = steal_elements (inside.overrides, &step->n_overrides);
  return good;
}

static gboolean
read_operation (const HwXml     *xml,
                const xmlNode   *node,
                const HwProject *project,
                HwStep          *step,
                GError         **error)
{
  static const char * const known[] = { "number", "name", "after", "purpose", "seam", "stitch", "machine", "length-cm",
                                        "pieces", "needle-thread", "bobbin-thread", "share", NULL };
  int share = TRUE;

  if (!hw_xml_check_attributes (xml, node, known, error))
    return FALSE;
  step->purpose = hw_xml_dup_required (xml, node, "purpose", error);
  if (step->purpose == NULL)
    return FALSE;
  step->seam = hw_xml_dup_attr (node, "seam");
  step->stitch = hw_xml_dup_attr (node, "stitch");
  step->machine = hw_xml_dup_attr (node, "machine");
  step->needle_thread = hw_xml_dup_attr (node, "needle-thread");
  step->bobbin_thread = hw_xml_dup_attr (node, "bobbin-thread");
  if (!read_required (xml, node, &hw_limit_length, &step->length_cm, error)
      || !read_whole (xml, node, &hw_limit_pieces, &step->pieces, error)
      || !hw_xml_get_word (xml, node, "share", yes_no, &share, error)
      || !read_operation_children (xml, node, project, step, error))
    return FALSE;
  step->share = share;
  return TRUE;
}

static gboolean
read_hand_step (const HwXml   *xml,
                const xmlNode *node,
                HwStep        *step,
                GError       **error)
{
  static const char * const known[] = { "number", "name", "after", "kind", "minutes", NULL };
  static const char * const elements[] = { "note", NULL };
  int kind = 0;

  if (!hw_xml_check_attributes (xml, node, known, error)
      || !hw_xml_get_required_word (xml, node, "kind", hw_hand_kind_ids, &kind, error)
      || !read_required (xml, node, &hw_limit_minutes, &step->minutes, error))
    return FALSE;
  step->hand = (HwHandKind) kind;
  for (const xmlNode *child = hw_xml_first (node, NULL); child != NULL; child = hw_xml_next (child, NULL))
    if (!hw_read_check_element (xml, child, elements, error) || !hw_read_note (xml, child, &step->note, error))
      return FALSE;
  return TRUE;
}

/* Keeps the first of each number. */
static void
drop_repeats (char **words)
{
  gsize kept = 0;
  g_autoptr (GHashTable) seen = NULL;

  if (words[0] == NULL || words[1] == NULL)
    return;
  seen = g_hash_table_new (g_str_hash, g_str_equal);
  for (gsize i = 0; words[i] != NULL; i++)
    if (g_hash_table_add (seen, words[i]))
      words[kept++] = words[i];
    else
      g_free (words[i]);
  words[kept] = NULL;
}

static gboolean
read_step (const HwXml   *xml,
           const xmlNode *node,
           HwProject     *project,
           GHashTable    *seen,
           GError       **error)
{
  static const char * const elements[] = { "operation", "hand", NULL };
  g_autofree char *number = NULL;
  g_autofree char *name = NULL;
  gboolean is_hand;
  HwStep *step;

  if (!hw_read_check_element (xml, node, elements, error) || !hw_read_check_text (xml, node, error))
    return FALSE;
  if (project->steps->len >= HW_STEPS_MAX)
    return hw_read_refuse (xml, node, error, _("a project may have at most %d steps; make two of it"), HW_STEPS_MAX);
  number = hw_read_new_id (xml, node, "number", seen, error);
  name = number != NULL ? hw_xml_dup_required (xml, node, "name", error) : NULL;
  if (name == NULL)
    return FALSE;
  is_hand = hw_xml_is (node, "hand");
  step = hw_step_new (is_hand ? HW_STEP_HAND : HW_STEP_OPERATION, number, name);
  g_ptr_array_add (project->steps, step);
  step->line = hw_xml_line (node);
  g_strfreev (step->after);
  step->after = hw_xml_dup_words (node, "after");
  drop_repeats (step->after);
  return (is_hand ? read_hand_step (xml, node, step, error) : read_operation (xml, node, project, step, error))
         && hw_read_blame (xml, node, hw_check_step (project, step, error), error);
}

static gboolean
read_wish (const HwXml   *xml,
           const xmlNode *node,
           HwProject     *project,
           GHashTable    *seen,
           GError       **error)
{
  static const char * const known[] = { "kind", "steps", NULL };
  g_auto (GStrv) steps = NULL;
  HwWish *wish;
  int kind = 0;

  if (!hw_read_check_leaf (xml, node, known, error)
      || !hw_xml_get_required_word (xml, node, "kind", hw_wish_kind_ids, &kind, error))
    return FALSE;
  steps = hw_xml_dup_words (node, "steps");
  wish = hw_wish_new ((HwWishKind) kind, (const char * const *) steps);
  wish->line = hw_xml_line (node);
  g_ptr_array_add (project->wishes, wish);
  for (guint i = 0; i + 1 < project->wishes->len; i++)
    if (hw_wish_is_equal (g_ptr_array_index (project->wishes, i), wish))
      return hw_read_refuse (xml, node, error, _("the same wish stands twice; keep one of them"));
  return hw_read_blame (xml, node, hw_check_wish (project, wish, error), error);
}

typedef gboolean (* ReadPart) (const HwXml *xml, const xmlNode *node, HwProject *project, GHashTable *seen,
                               GError **error);

/* The children of the section @name, of which there may be one. @element NULL: the part looks at names itself. */
static gboolean
read_section (const HwXml *xml,
              const char  *name,
              const char  *element,
              guint        most,
              HwProject   *project,
              ReadPart     read_part,
              GError     **error)
{
  static const char * const no_attributes[] = { NULL };
  const char * const elements[] = { element, NULL };
  const xmlNode *section = hw_xml_first (hw_xml_root (xml), name);
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint n = 0;

  if (section == NULL)
    return TRUE;
  if (hw_xml_next (section, name) != NULL)
    return hw_read_refuse (xml, hw_xml_next (section, name), error, _("<%s> stands twice; put everything into one"),
                           name);
  if (!hw_xml_check_attributes (xml, section, no_attributes, error) || !hw_read_check_text (xml, section, error))
    return FALSE;
  for (const xmlNode *node = hw_xml_first (section, NULL); node != NULL; node = hw_xml_next (node, NULL))
    {
      if (element != NULL && !hw_read_check_element (xml, node, elements, error))
        return FALSE;
      if (n++ == most)
        return hw_read_refuse (xml, node, error, _("<%s> may have at most %u parts"), name, most);
      if (!read_part (xml, node, project, seen, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_after (const HwXml     *xml,
             const HwProject *project,
             GError         **error)
{
  gsize at = 0;

  if (hw_check_after (project, &at, error))
    return TRUE;
  g_prefix_error (error, "%s:%d: ", hw_xml_name (xml), hw_project_get_step (project, at)->line);
  return FALSE;
}

static gboolean
read_head (const HwXml *xml,
           HwProject   *project,
           GError     **error)
{
  static const char * const known[] = { "id", "title", "due", "share", "gather-hand", NULL };
  static const char * const elements[] = { "note", "fabrics", "threads", "steps", "wishes", NULL };
  const xmlNode *root = hw_xml_root (xml);
  int gather_hand = FALSE;
  int share = TRUE;

  if (!hw_xml_check_attributes (xml, root, known, error) || !hw_read_check_text (xml, root, error))
    return FALSE;
  project->title = hw_xml_dup_required (xml, root, "title", error);
  if (project->title == NULL)
    return FALSE;
  project->due = hw_xml_dup_attr (root, "due");
  if (!hw_xml_get_word (xml, root, "share", yes_no, &share, error)
      || !hw_xml_get_word (xml, root, "gather-hand", yes_no, &gather_hand, error))
    return FALSE;
  project->share = share;
  project->gather_hand = gather_hand;
  if (!hw_read_blame (xml, root, hw_check_id (_("a project's id"), project->id, error)
                      && hw_check_text (_("a project's title"), project->title, error)
                      && hw_check_date (project->due, error), error))
    return FALSE;
  for (const xmlNode *node = hw_xml_first (root, NULL); node != NULL; node = hw_xml_next (node, NULL))
    if (!hw_read_check_element (xml, node, elements, error)
        || (hw_xml_is (node, "note") && !hw_read_note (xml, node, &project->note, error)))
      return FALSE;
  return TRUE;
}

/* (transfer full): the file's name as an id, for a project that was written by hand and has none. */
static char *
id_from_name (const char *name)
{
  g_autofree char *base = g_path_get_basename (name);
  char *dot = strrchr (base, '.');

  if (dot != NULL && dot > base)
    *dot = '\0';
  if (strlen (base) > HW_ID_MAX)
    base[HW_ID_MAX] = '\0';
  for (char *at = base; *at != '\0'; at++)
    if (!g_ascii_isalnum (*at) && strchr ("-_.", *at) == NULL)
      *at = '-';
  return g_steal_pointer (&base);
}

/* A wrong reference is found on its own line, so the steps come last. */
gboolean
hw_read_parts (const HwXml *xml,
               HwProject   *project,
               GError     **error)
{
  return read_section (xml, "fabrics", "fabric", HW_PARTS_MAX, project, read_fabric, error)
         && read_section (xml, "threads", "thread", HW_PARTS_MAX, project, read_thread, error)
         && read_section (xml, "steps", NULL, G_MAXUINT, project, read_step, error);
}

static HwProject *
read_project (const HwXml *xml,
              GError     **error)
{
  g_autoptr (HwProject) project = hw_project_new (NULL, NULL);

  g_ptr_array_set_size (project->threads, 0);
  project->file = g_strdup (hw_xml_name (xml));
  project->id = hw_xml_dup_attr (hw_xml_root (xml), "id");
  if (project->id == NULL)
    project->id = id_from_name (project->file);
  if (!read_head (xml, project, error)
      || !hw_read_parts (xml, project, error)
      || !check_after (xml, project, error)
      || !read_section (xml, "wishes", "wish", HW_WISHES_MAX, project, read_wish, error))
    return NULL;
  return g_steal_pointer (&project);
}

/**
 * hw_project_read:
 *
 * Returns: (transfer full): the project, or %NULL with an %HW_XML_ERROR or %HW_MODEL_ERROR of one line
 */
HwProject *
hw_project_read (const char *path,
                 GError    **error)
{
  g_autoptr (HwXml) xml = NULL;

  g_return_val_if_fail (path != NULL, NULL);

  xml = hw_format_read_file (path, HW_PROJECT_MAX_BYTES, "project", error);
  return xml != NULL ? read_project (xml, error) : NULL;
}

/**
 * hw_project_parse:
 * @name: what messages call the bytes; the id is made from it when they hold none
 *
 * Returns: (transfer full): as hw_project_read()
 */
HwProject *
hw_project_parse (const char *name,
                  const char *data,
                  gsize       size,
                  GError    **error)
{
  g_autoptr (HwXml) xml = NULL;

  g_return_val_if_fail (name != NULL, NULL);
  g_return_val_if_fail (data != NULL || size == 0, NULL);

  if (size > HW_PROJECT_MAX_BYTES)
    {
      g_set_error (error, HW_XML_ERROR, HW_XML_ERROR_TOO_BIG, _("%s is too big; check that it is the right file"),
                   name);
      return NULL;
    }
  xml = hw_format_read_bytes (name, data, size, "project", error);
  return xml != NULL ? read_project (xml, error) : NULL;
}
