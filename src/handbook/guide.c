/* guide.c - reads the user guide
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-handbook"

#include "config.h"

#include "handbook/guide.h"

#include <glib/gi18n.h>
#include <string.h>

#include "files/xml.h"

#define NAMESPACE "urn:handwheel:guide:1"
#define MOST_BYTES (1u << 20)
#define MOST_CHAPTERS 99

typedef struct
{
  const char       *folder;
  const HwHandbook *handbook;
  HwTranslate       translate;
  const HwXml      *xml;
  HwGuideChapter   *chapter;
} Reading;

static const char * const kinds[] = { "heading", "p", "step", "example", "caution", "picture", "formula", NULL };

static void
free_block (void *data)
{
  HwGuideBlock *self = data;

  g_free (self->text);
  g_free (self->file);
  g_free (self->sources);
  g_free (self);
}

static void
free_chapter (void *data)
{
  HwGuideChapter *self = data;

  g_free (self->id);
  g_free (self->title);
  g_ptr_array_unref (self->blocks);
  g_free (self);
}

static char *
dup_translated (const Reading *reading,
                const char    *text)
{
  return g_strdup (reading->translate != NULL && *text != '\0' ? reading->translate (NULL, text) : text);
}

/* Line by line as it stands in the file, without the empty ones around it. */
static char *
dup_lines (const xmlNode *node)
{
  xmlChar *content = xmlNodeGetContent (node);
  char *text = g_strdup ((const char *) content);
  char *start = text;

  xmlFree (content);
  g_strchomp (text);
  while (*start == '\n')
    start++;
  memmove (text, start, strlen (start) + 1);
  return text;
}

static gboolean
read_sources (const Reading *reading,
              const xmlNode *node,
              HwGuideBlock  *block,
              GError       **error)
{
  g_auto (GStrv) ids = hw_xml_dup_words (node, "sources");

  block->sources = g_new0 (const HwSource *, g_strv_length (ids) + 1);
  for (gsize i = 0; ids[i] != NULL; i++)
    {
      int index = hw_handbook_find_source (reading->handbook, ids[i]);
      g_autofree char *quoted = NULL;

      if (index >= 0)
        {
          block->sources[i] = &reading->handbook->sources[index];
          continue;
        }
      quoted = hw_xml_quote (ids[i]);
      hw_xml_set_error (reading->xml, node, error, HW_XML_ERROR_INVALID,
                        _("“sources” names “%s”, and no <source> of the handbook has that id"), quoted);
      return FALSE;
    }
  if (block->sources[0] != NULL)
    return TRUE;
  hw_xml_set_error (reading->xml, node, error, HW_XML_ERROR_INVALID,
                    _("“sources” is missing; say where the formula comes from"));
  return FALSE;
}

static gboolean
read_block (const Reading *reading,
            const xmlNode *node,
            int            number,
            GError       **error)
{
  HwGuideBlock *block = g_new0 (HwGuideBlock, 1);
  g_autofree char *text = hw_xml_dup_text (node);
  g_autofree char *file = NULL;

  g_ptr_array_add (reading->chapter->blocks, block);
  block->number = number;
  for (int i = 0; kinds[i] != NULL; i++)
    if (hw_xml_is (node, kinds[i]))
      block->kind = (HwGuideKind) i;
  block->text = block->kind == HW_GUIDE_EXAMPLE ? dup_lines (node) : dup_translated (reading, text);
  if (block->kind == HW_GUIDE_FORMULA)
    return read_sources (reading, node, block, error);
  if (block->kind != HW_GUIDE_PICTURE)
    return TRUE;
  file = hw_xml_dup_required (reading->xml, node, "file", error);
  if (file != NULL)
    block->file = g_build_filename (reading->folder, file, NULL);
  return file != NULL;
}

static gboolean
read_blocks (const Reading *reading,
             const xmlNode *root,
             GError       **error)
{
  for (const xmlNode *node = hw_xml_first (root, NULL); node != NULL; node = hw_xml_next (node, NULL))
    {
      int number = 0;

      if (!hw_xml_is (node, "steps"))
        {
          if (!read_block (reading, node, 0, error))
            return FALSE;
          continue;
        }
      for (const xmlNode *step = hw_xml_first (node, "step"); step != NULL; step = hw_xml_next (step, "step"))
        if (!read_block (reading, step, ++number, error))
          return FALSE;
    }
  return TRUE;
}

static gboolean
read_chapter (Reading        *reading,
              const HwSchema *schema,
              const char     *path,
              GError        **error)
{
  g_autoptr (HwXml) xml = hw_xml_read_file (path, MOST_BYTES, "chapter", NAMESPACE, error);
  HwGuideChapter *chapter = reading->chapter;
  g_autofree char *title = NULL;
  const xmlNode *root;

  if (xml == NULL || !hw_schema_check (schema, xml, error))
    return FALSE;
  reading->xml = xml;
  root = hw_xml_root (xml);
  chapter->id = hw_xml_dup_required (xml, root, "id", error);
  title = chapter->id != NULL ? hw_xml_dup_required (xml, root, "title", error) : NULL;
  if (title == NULL || !hw_xml_get_int (xml, root, "place", 1, MOST_CHAPTERS, &chapter->place, error))
    return FALSE;
  chapter->title = dup_translated (reading, title);
  return read_blocks (reading, root, error);
}

static int
compare_places (const void *a,
                const void *b)
{
  const HwGuideChapter *first = *(HwGuideChapter * const *) a;
  const HwGuideChapter *second = *(HwGuideChapter * const *) b;

  return first->place - second->place;
}

/**
 * hw_guide_load:
 * @folder: holds the chapters, their pictures and guide.rng
 *
 * Returns: (transfer full): the chapters by place, or %NULL with @error
 */
GPtrArray *
hw_guide_load (const char        *folder,
               const HwHandbook  *handbook,
               HwTranslate        translate,
               GError           **error)
{
  g_autoptr (GPtrArray) chapters = g_ptr_array_new_with_free_func (free_chapter);
  g_autofree char *schema_path = g_build_filename (folder, "guide.rng", NULL);
  g_autoptr (HwSchema) schema = NULL;
  g_autoptr (GDir) dir = NULL;
  Reading reading = { folder, handbook, translate, NULL, NULL };
  const char *name;

  g_return_val_if_fail (folder != NULL && handbook != NULL, NULL);

  schema = hw_schema_load (schema_path, error);
  dir = schema != NULL ? g_dir_open (folder, 0, error) : NULL;
  if (dir == NULL)
    return NULL;
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (*name == '.' || !g_str_has_suffix (name, ".xml"))
        continue;
      reading.chapter = g_new0 (HwGuideChapter, 1);
      reading.chapter->blocks = g_ptr_array_new_with_free_func (free_block);
      g_ptr_array_add (chapters, reading.chapter);
      if (!read_chapter (&reading, schema, path, error))
        return NULL;
    }
  g_ptr_array_sort (chapters, compare_places);
  return g_steal_pointer (&chapters);
}

const HwGuideChapter *
hw_guide_find (const GPtrArray *chapters,
               const char      *id)
{
  for (guint i = 0; i < chapters->len; i++)
    if (strcmp (((HwGuideChapter *) chapters->pdata[i])->id, id) == 0)
      return chapters->pdata[i];
  return NULL;
}
